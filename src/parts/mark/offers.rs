//! The marks that a part may have, all of them from its names.

use crate::model::{Called, CaseId, Leaf, MemberId, OpeningId, Piece, RailSide, Side};
use crate::parts::id::{Key, Of, Role, Which};
use crate::parts::short_names::ShortNames;

use super::LONGEST_MARK;

/// The marks that a part may have, the best first. Each is put together when
/// it is asked for: nearly every part has its first.
pub(super) struct Offers {
    key: Key,
    /// What the part is, in full and shorter.
    own: [String; 2],
    /// How many have been tried, and how often there was none left.
    tried: usize,
    behind: usize,
    /// The one that the part could not have.
    refused: String,
}

impl Offers {
    pub(super) fn of(piece: &Piece, key: Key) -> Self {
        let member = |id| piece.member(id).is_some_and(|member| !member.is_stile());
        let own = match key.of {
            Of::Member(id) if key.role == Role::Partition && member(id) => {
                own(&Key { role: Role::Divider, ..key })
            }
            _ => own(&key),
        };
        Self { key, own, tried: 0, behind: 0, refused: String::new() }
    }

    /// The next one; `None` behind the last.
    pub(super) fn next(&mut self, piece: &Piece, names: &ShortNames) -> Option<String> {
        loop {
            let Some(mark) = self.offered(piece, names, self.tried) else {
                self.behind += 1;
                return None;
            };
            self.tried += 1;
            if is_short(&mark) && !misleads(&mark) && mark != self.refused {
                return Some(mark);
            }
        }
    }

    /// One of them; `None` behind the last.
    fn offered(&self, piece: &Piece, names: &ShortNames, number: usize) -> Option<String> {
        let own = &self.own;
        match self.key.of {
            Of::Case(case) | Of::Row(case) => of_case(case, own, names, number),
            Of::Member(id) => of_member(piece, (id, self.key.role), own, names, number),
            Of::Opening(opening) => of_opening(piece, (opening, ""), own, names, number),
            Of::Front(front) => {
                let leaf = match front.leaf {
                    Leaf::LeftDoor => "L",
                    Leaf::RightDoor => "R",
                    Leaf::Front | Leaf::Door => "",
                };
                let leaf = if self.key.role == Role::Slab { "" } else { leaf };
                of_opening(piece, (front.opening, leaf), own, names, number)
            }
        }
    }

    /// How often it was asked in vain before this time.
    pub(super) fn round_behind(&self) -> usize {
        self.behind.saturating_sub(1)
    }

    /// Another has this one.
    pub(super) fn refused(&mut self, mark: String) {
        self.refused = mark;
    }
}

fn is_short(mark: &str) -> bool {
    !mark.is_empty() && mark.chars().count() <= LONGEST_MARK
}

/// True where a letter stands beside the figure that it is taken for.
fn misleads(mark: &str) -> bool {
    let mut before = '-';
    mark.chars().filter(|c| *c != '-').any(|c| {
        let pair = (std::mem::replace(&mut before, c), c);
        matches!(pair, ('O', '0') | ('0', 'O') | ('I', '1') | ('1', 'I'))
    })
}

/// What stands before, and what the part itself is: with a hyphen between
/// where there is room.
fn joined(before: &[&str], own: &[String; 2]) -> String {
    let [long, short] = own;
    let letters = |text: &str| text.chars().count();
    let size: usize = before.iter().copied().map(letters).sum();
    if size == 0 {
        return long.clone();
    }
    let room = LONGEST_MARK.saturating_sub(size);
    let forms = [("-", long), ("-", short), ("", long), ("", short)];
    let fits = |(hyphen, own): &(&str, &String)| hyphen.len() + letters(own) <= room;
    let Some((hyphen, own)) = forms.into_iter().find(fits) else { return String::new() };
    let bytes = before.iter().map(|text| text.len()).sum::<usize>() + hyphen.len() + own.len();
    let mut mark = String::with_capacity(bytes);
    mark.extend(before.iter().copied().chain([hyphen, own]));
    mark
}

fn of_case(case: CaseId, own: &[String; 2], names: &ShortNames, number: usize) -> Option<String> {
    match number {
        0 => Some(own[0].clone()),
        1 => Some(joined(&[names.case(case)], own)),
        2 => Some(joined(&[names.case_letter(case)], own)),
        _ => None,
    }
}

fn of_opening(
    piece: &Piece,
    (opening, leaf): (OpeningId, &str),
    own: &[String; 2],
    names: &ShortNames,
    number: usize,
) -> Option<String> {
    let short = names.opening(opening);
    if number == 0 {
        return Some(joined(&[short, leaf], own));
    }
    let list = piece.opening(opening).and_then(|opening| names.list_of(piece, opening));
    let letter = list.map_or("", |list| names.opening_letter(list));
    let list = list.map_or("", |list| names.opening(list));
    let (case, case_letter) = (names.case(opening.case), names.case_letter(opening.case));
    // An opening in no list with a name goes without the two that say it.
    let number = if letter.is_empty() { number + 2 } else { number };
    Some(match number {
        1 => joined(&[letter, short, leaf], own),
        2 => joined(&[list, short, leaf], own),
        3 => joined(&[case, leaf], own),
        4 => joined(&[case_letter, short, leaf], own),
        5 => joined(&[case_letter, letter, short, leaf], own),
        6 => joined(&[case, short, leaf], own),
        _ => return None,
    })
}

/// A member by the two openings that it stands between.
fn of_member(
    piece: &Piece,
    (id, role): (MemberId, Role),
    [kind, letter]: &[String; 2],
    names: &ShortNames,
    number: usize,
) -> Option<String> {
    let member = piece.member(id)?;
    let list = piece.opening(member.list).and_then(|list| names.named(piece, list));
    let (case, list) = (names.case(id.case), list.map_or("", |list| names.opening(list)));
    match &member.called {
        Called::Given(name) => {
            let word: String = capitals(name);
            let own = match role == Role::Partition && member.is_stile() {
                true => [format!("{word}P"), format!("P-{}", names.word(name))],
                false => [word, format!("{letter}-{}", names.word(name))],
            };
            match number {
                0 | 1 => own.into_iter().nth(number),
                2 => Some(joined(&[list], &own)),
                3 => Some(joined(&[case], &own)),
                _ => None,
            }
        }
        Called::Between { beside, number: place, .. } => {
            let place = place.map_or(String::new(), |place| place.to_string());
            let [before, after] =
                beside.map(|opening| opening.map_or("X", |opening| names.opening(opening)));
            let pair = match number {
                0 => (before, after),
                1 => (before, first(after, 2)),
                2 => (first(before, 2), after),
                _ => {
                    let initials = format!("{}{}{place}", first(before, 1), first(after, 1));
                    let mut places = [list, case].into_iter().filter(|place| !place.is_empty());
                    let place = places.nth(number - 3)?;
                    return Some(joined(&[letter.as_str(), place], &[initials.clone(), initials]));
                }
            };
            let (before, after) = pair;
            // With hyphens where there is room.
            let forms: [&[&str]; 3] = [
                &[kind, "-", before, "-", after, &place],
                &[letter, before, "-", after, &place],
                &[letter, before, after, &place],
            ];
            let letters = |form: &&[&str]| form.iter().map(|text| text.chars().count()).sum();
            let fits = |form: &&[&str]| -> bool {
                let letters: usize = letters(form);
                letters <= LONGEST_MARK
            };
            Some(forms.into_iter().find(fits).map_or(String::new(), <[&str]>::concat))
        }
    }
}

/// So many letters of a name.
fn first(name: &str, letters: usize) -> &str {
    let end = name.char_indices().nth(letters).map_or(name.len(), |(at, _)| at);
    name.get(..end).unwrap_or(name)
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
        Role::Post(at) => {
            return [format!("{}{which}P", side(at)), format!("{}{which}P", side(at))];
        }
        Role::EndRail(at) => {
            return [format!("{}E{which}RL", side(at)), format!("{}E{which}R", side(at))];
        }
        Role::EndPanel(at) => return [format!("{}EPN", side(at)), format!("{}EP", side(at))],
        Role::Bottom => ("B", "B"),
        Role::Top => ("T", "T"),
        Role::Countertop => ("CT", "C"),
        Role::Back => ("K", "K"),
        Role::Nailer(RailSide::Top) => ("TNL", "TN"),
        Role::Nailer(RailSide::Bottom) => ("BNL", "BN"),
        Role::Stretcher if !number.is_empty() => ("MST", "M"),
        Role::Stretcher => ("ST", "T"),
        Role::Partition => ("P", "P"),
        Role::Divider => ("DV", "D"),
        Role::FixedShelf | Role::AdjustableShelf => ("SH", "S"),
        Role::WebRail => ("WR", "W"),
        Role::WebRunner => ("WN", "N"),
        // A letter less leaves room for the names of the openings behind its number.
        Role::DustPanel if !number.is_empty() => ("DP", "D"),
        Role::DustPanel => ("DP", "DP"),
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
        Role::FrontRail => match key.which {
            Which::Only | Which::Number(_) => ("MRL", "MR"),
            _ => ("RL", "R"),
        },
        Role::FrontPanel => ("PN", "P"),
        Role::Bead => ("BD", "B"),
        Role::DrawerSide => ("SD", "S"),
        Role::DrawerFront => ("XF", "XF"),
        Role::DrawerBack => ("XK", "XK"),
        Role::DrawerBottom => ("XB", "XB"),
        Role::Packer => ("PK", "P"),
        Role::HingeBlock => ("H", "H"),
        Role::HoldingBlock => ("HB", "HB"),
        Role::Guide => ("GD", "G"),
        Role::Kicker => ("KR", "KR"),
        Role::Runner => ("RN", "RN"),
        Role::Stop => ("SP", "SP"),
        Role::Filler => ("FL", "FL"),
        Role::Cover => ("CV", "CV"),
        Role::Batten => ("BT", "BT"),
    };
    [long, short].map(|own| [which, own, &number].concat())
}

fn capitals(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}
