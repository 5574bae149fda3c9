//! Short marks to pencil on the parts. A mark comes from names, never from
//! counting, and is given to one part or to none: a revision leaves the marks
//! of untouched parts alone, and only a new name that would have the same mark
//! changes it. A part on record keeps the mark that was pencilled on it.

use std::collections::{BTreeMap, HashMap, HashSet};

use crate::measure::digest;
use crate::model::{Called, CaseId, Leaf, OpeningId, Piece, Side};

use super::id::{Key, Of, PartId, Role, Which};
use super::part::{Part, Parts};
use super::short_names::ShortNames;

/// As many letters as one mark has at most.
pub const LONGEST_MARK: usize = 6;

/// Gives every part its mark. `recorded` has those of the parts on record.
pub(super) fn give(parts: &mut Parts, piece: &Piece, recorded: &BTreeMap<PartId, String>) {
    let names = ShortNames::of(piece);
    let mut taken: HashSet<String> = HashSet::new();
    let mut open: Vec<(usize, Vec<String>)> = Vec::new();
    for (index, part) in parts.all.iter_mut().enumerate() {
        match recorded.get(&PartId(index)).filter(|mark| taken.insert(seen_as(mark))) {
            Some(mark) => part.mark.clone_from(mark),
            None => open.push((index, candidates(piece, &part.key(), &names))),
        }
    }
    // Each round every part without a mark asks for its next one. Where two ask
    // for the same, neither has it, so neither depends on which comes first.
    let mut round = 0;
    while !open.is_empty() {
        let asked: Vec<(String, String)> = open
            .iter()
            .map(|(index, candidates)| {
                let mark = match (candidates.get(round), parts.all.get(*index)) {
                    (Some(mark), _) => mark.clone(),
                    (None, Some(part)) => drawn(part, *index, round - candidates.len()),
                    (None, None) => String::new(),
                };
                (seen_as(&mark), mark)
            })
            .collect();
        let mut count: HashMap<&str, usize> = HashMap::with_capacity(asked.len());
        for (seen, _) in &asked {
            *count.entry(seen).or_default() += 1;
        }
        let clear: Vec<bool> = asked
            .iter()
            .map(|(seen, _)| count.get(seen.as_str()) == Some(&1) && !taken.contains(seen))
            .collect();
        let mut left = Vec::new();
        for ((part, (seen, mark)), clear) in open.into_iter().zip(asked).zip(clear) {
            match parts.all.get_mut(part.0).filter(|_| clear) {
                Some(own) => {
                    taken.insert(seen);
                    own.mark = mark;
                }
                None => left.push(part),
            }
        }
        open = left;
        round += 1;
    }
}

/// A mark as a hurried reader sees it: without its hyphens, and with one for
/// letters and figures that look alike in pencil.
fn seen_as(mark: &str) -> String {
    let letters = mark.chars().filter(|c| *c != '-').map(|c| match c {
        '0' | 'Q' => 'O',
        '1' => 'I',
        '2' => 'Z',
        '5' => 'S',
        '6' => 'G',
        '8' => 'B',
        other => other.to_ascii_uppercase(),
    });
    letters.collect()
}

/// True where a letter stands beside the figure that it is taken for.
fn misleads(mark: &str) -> bool {
    let mut before = '-';
    mark.chars().filter(|c| *c != '-').any(|c| {
        let pair = (std::mem::replace(&mut before, c), c);
        matches!(pair, ('O', '0') | ('0', 'O') | ('I', '1') | ('1', 'I'))
    })
}

/// The marks that a part may have, the best first; all of them from its names.
fn candidates(piece: &Piece, key: &Key, names: &ShortNames) -> Vec<String> {
    let mut marks = match key.of {
        Of::Case(case) => of_case(key, case, names),
        Of::Member(_) => of_member(piece, key, names),
        Of::Opening(opening) => of_opening(piece, key, (opening, ""), names),
        Of::Front(front) => {
            let leaf = match front.leaf {
                Leaf::LeftDoor => "L",
                Leaf::RightDoor => "R",
                Leaf::Front | Leaf::Door => "",
            };
            let leaf = if key.role == Role::Slab { "" } else { leaf };
            of_opening(piece, key, (front.opening, leaf), names)
        }
    };
    marks.retain(|mark| !mark.is_empty() && mark.chars().count() <= LONGEST_MARK);
    marks.retain(|mark| !misleads(mark));
    marks.dedup();
    marks
}

/// What stands before, and what the part itself is: with a hyphen between
/// where there is room.
fn joined(before: &[&str], own: &[String; 2]) -> String {
    let [long, short] = own;
    let before = before.concat();
    if before.is_empty() {
        return long.clone();
    }
    let letters = |text: &str| text.chars().count();
    let room = LONGEST_MARK.saturating_sub(letters(&before));
    let forms = [("-", long), ("-", short), ("", long), ("", short)];
    let fits = |(hyphen, own): &(&str, &String)| hyphen.len() + letters(own) <= room;
    let form = forms.into_iter().find(fits);
    form.map_or(String::new(), |(hyphen, own)| before + hyphen + own)
}

fn of_case(key: &Key, case: CaseId, names: &ShortNames) -> Vec<String> {
    let own = own(key);
    let (case, letter) = (names.case(case), names.case_letter(case));
    vec![own[0].clone(), joined(&[case], &own), joined(&[letter], &own)]
}

fn of_opening(
    piece: &Piece,
    key: &Key,
    (opening, leaf): (OpeningId, &str),
    names: &ShortNames,
) -> Vec<String> {
    let own = own(key);
    let short = names.opening(opening);
    let list = piece.opening(opening).and_then(|opening| names.list_of(piece, opening));
    let letter = list.map_or("", |list| names.opening_letter(list));
    let list = list.map_or("", |list| names.opening(list));
    let (case, case_letter) = (names.case(opening.case), names.case_letter(opening.case));
    let mut marks = vec![joined(&[short, leaf], &own)];
    if !letter.is_empty() {
        marks.push(joined(&[letter, short, leaf], &own));
        marks.push(joined(&[list, short, leaf], &own));
    }
    marks.push(joined(&[case, leaf], &own));
    marks.push(joined(&[case_letter, short, leaf], &own));
    marks.push(joined(&[case_letter, letter, short, leaf], &own));
    marks.push(joined(&[case, short, leaf], &own));
    marks
}

/// A member by the two openings that it stands between.
fn of_member(piece: &Piece, key: &Key, names: &ShortNames) -> Vec<String> {
    let Of::Member(id) = key.of else { return Vec::new() };
    let Some(member) = piece.member(id) else { return Vec::new() };
    let list = piece.opening(member.list).and_then(|list| names.named(piece, list));
    let (case, list) = (names.case(id.case), list.map_or("", |list| names.opening(list)));
    let [kind, letter] = match key.role {
        Role::Partition if !member.is_stile() => own(&Key { role: Role::Divider, ..*key }),
        _ => own(key),
    };
    match &member.called {
        Called::Given(name) => {
            let word: String = capitals(name);
            let own = match key.role == Role::Partition && member.is_stile() {
                true => [format!("{word}P"), format!("P-{}", names.word(name))],
                false => [word, format!("{letter}-{}", names.word(name))],
            };
            let mut marks = vec![own[0].clone(), own[1].clone()];
            marks.extend([joined(&[list], &own), joined(&[case], &own)]);
            marks
        }
        Called::Between { beside, number, .. } => {
            let number = number.map_or(String::new(), |number| number.to_string());
            let [before, after] =
                beside.map(|opening| opening.map_or("X", |opening| names.opening(opening)));
            let first = |name: &str| name.chars().take(1).collect::<String>();
            let two = |name: &str| name.chars().take(2).collect::<String>();
            let pairs = [
                (before.to_owned(), after.to_owned()),
                (before.to_owned(), two(after)),
                (two(before), after.to_owned()),
            ];
            let mut marks: Vec<String> = pairs
                .into_iter()
                .map(|(before, after)| {
                    let forms = [
                        format!("{kind}-{before}-{after}{number}"),
                        format!("{letter}{before}-{after}{number}"),
                        format!("{letter}{before}{after}{number}"),
                    ];
                    let fits = |mark: &String| mark.chars().count() <= LONGEST_MARK;
                    forms.into_iter().find(fits).unwrap_or_default()
                })
                .collect();
            let initials = format!("{}{}{number}", first(before), first(after));
            for place in [list, case] {
                if !place.is_empty() {
                    let initials = [initials.clone(), initials.clone()];
                    marks.push(joined(&[letter.as_str(), place], &initials));
                }
            }
            marks
        }
    }
}

/// What a part is, in full and shorter.
fn own(key: &Key) -> [String; 2] {
    let side = |side: Side| if side == Side::Left { "L" } else { "R" };
    let (which, number) = match key.which {
        Which::Only => ("", String::new()),
        Which::At(at) => (side(at), String::new()),
        Which::Top => ("T", String::new()),
        Which::Bottom => ("B", String::new()),
        Which::Front => ("F", String::new()),
        Which::Back => ("K", String::new()),
        Which::Number(number) => ("", number.to_string()),
        Which::AtNumber(at, number) => (side(at), number.to_string()),
    };
    let (long, short) = match key.role {
        Role::End(at) => return [format!("{}E", side(at)), format!("{}E", side(at))],
        Role::Bottom => ("B", "B"),
        Role::Top => ("T", "T"),
        Role::Back => ("K", "K"),
        Role::Stretcher if !number.is_empty() => ("MST", "M"),
        Role::Stretcher => ("ST", "T"),
        Role::Partition => ("P", "P"),
        Role::Divider => ("DV", "D"),
        Role::FixedShelf | Role::AdjustableShelf => ("SH", "S"),
        Role::Leg | Role::BaseLeg => ("LEG", "LG"),
        Role::Kick => ("KICK", "KI"),
        Role::BaseMember => {
            let (long, short) = match key.which {
                Which::Front => ("BSF", "BF"),
                Which::Back => ("BSK", "BK"),
                Which::At(Side::Left) => ("BSLSL", "BL"),
                Which::At(Side::Right) => ("BSRSL", "BR"),
                _ => ("BSSL", "BS"),
            };
            return [format!("{long}{number}"), format!("{short}{number}")];
        }
        Role::Stile => ("S", "S"),
        Role::Rail => ("RL", "R"),
        Role::Slab => {
            let Of::Front(front) = key.of else { return [String::new(), String::new()] };
            let own = match front.leaf {
                Leaf::Front => "F",
                Leaf::Door => "D",
                Leaf::LeftDoor => "LD",
                Leaf::RightDoor => "RD",
            };
            return [own.to_owned(), own.to_owned()];
        }
        Role::FrontStile => ("S", "S"),
        Role::FrontRail => ("RL", "R"),
        Role::FrontPanel => ("PN", "P"),
        Role::DrawerSide => ("SD", "S"),
        Role::DrawerFront => ("XF", "XF"),
        Role::DrawerBack => ("XK", "XK"),
        Role::DrawerBottom => ("XB", "XB"),
        Role::Packer => ("PK", "P"),
        Role::HingeBlock => ("H", "H"),
    };
    [long, short].map(|own| [which, own, &number].concat())
}

fn capitals(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}

/// Letters that nobody takes for another.
const CLEAR: &[u8] = b"ACDEFHJKLMNPRTUVWXY";

/// As often as letters are drawn before two parts are taken to have one name,
/// which is an error that is told elsewhere.
const MOST_DRAWN: usize = 8;

/// The last resort where names are many and alike: letters drawn from the name,
/// others each round.
fn drawn(part: &Part, index: usize, round: usize) -> String {
    let salt = if round < MOST_DRAWN { round } else { round + index };
    let salt = salt.to_string();
    let mut number = digest([part.path.as_bytes(), b"/", salt.as_bytes()]);
    let letters = CLEAR.len() as u64;
    (0..LONGEST_MARK)
        .map(|_| {
            let letter = CLEAR.get((number % letters) as usize).copied().unwrap_or(b'X');
            number /= letters;
            char::from(letter)
        })
        .collect()
}
