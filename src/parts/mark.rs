//! Short marks to pencil on the parts. A mark comes from names, never from
//! counting, and is given to one part or to none: a revision leaves the marks
//! of untouched parts alone, and only a new name that would have the same mark
//! changes it. A part on record keeps the mark that was pencilled on it.

mod offers;

use std::collections::{BTreeMap, HashMap, HashSet};

use crate::measure::digest;
use crate::model::Piece;

use super::id::PartId;
use super::part::{Part, Parts};
use super::short_names::ShortNames;
use offers::Offers;

/// As many letters as one mark has at most.
pub const LONGEST_MARK: usize = 6;

/// Gives every part its mark. `recorded` has those of the parts on record.
pub(super) fn give(parts: &mut Parts, piece: &Piece, recorded: &BTreeMap<PartId, String>) {
    let names = ShortNames::of(piece);
    let mut taken: HashSet<String> = HashSet::with_capacity(parts.all.len());
    let mut open: Vec<(usize, Offers)> = Vec::with_capacity(parts.all.len());
    for (index, part) in parts.all.iter_mut().enumerate() {
        match recorded.get(&PartId(index)).filter(|mark| taken.insert(seen_as(mark))) {
            Some(mark) => part.mark.clone_from(mark),
            None => open.push((index, Offers::of(piece, part.key()))),
        }
    }
    // Each round every part without a mark asks for its next one. Where two ask
    // for the same, neither has it, so neither depends on which comes first.
    while !open.is_empty() {
        let asked: Vec<(String, String)> = open
            .iter_mut()
            .map(|(index, offers)| {
                let mark = match (offers.next(piece, &names), parts.all.get(*index)) {
                    (Some(mark), _) => mark,
                    (None, Some(part)) => drawn(part, *index, offers.round_behind()),
                    (None, None) => String::new(),
                };
                (seen_as(&mark), mark)
            })
            .collect();
        let mut clear: Vec<bool> = asked.iter().map(|(seen, _)| !taken.contains(seen)).collect();
        let mut first: HashMap<&str, usize> = HashMap::with_capacity(asked.len());
        for (place, (seen, _)) in asked.iter().enumerate() {
            if let Some(other) = first.insert(seen, place) {
                for place in [other, place] {
                    clear[place] = false;
                }
            }
        }
        let mut left = Vec::new();
        for (((index, mut offers), (seen, mark)), clear) in open.into_iter().zip(asked).zip(clear) {
            match parts.all.get_mut(index).filter(|_| clear) {
                Some(own) => {
                    taken.insert(seen);
                    own.mark = mark;
                }
                None => {
                    offers.refused(mark);
                    left.push((index, offers));
                }
            }
        }
        open = left;
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
    let mut seen = String::with_capacity(mark.len());
    seen.extend(letters);
    seen
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
