//! Hinges, slides, pulls and screws, counted.

use std::collections::BTreeMap;

use crate::measure::Tape;
use crate::model::Piece;
use crate::plans::Workings;
use crate::plans::hardware::{self, Kind};

use super::difference::Counted;

type Counts = BTreeMap<(&'static str, String), u32>;

/// What is bought by the piece.
pub(super) fn counts(old: &Piece, new: &Piece) -> Vec<Counted> {
    let of = |piece: &Piece| {
        let mut counts = Counts::new();
        for count in hardware::count(piece) {
            let named = match count.kind {
                Kind::Hinge(index) => ("hinge", piece.hinge(index).map(|h| h.name.clone())),
                Kind::Slide(index) => {
                    ("pair of slides", piece.slide(index).map(|s| s.name.clone()))
                }
                Kind::Pull(index) => ("pull", piece.pull(index).map(|p| p.name.clone())),
                Kind::Leg(index) => ("leg", piece.leg(index).map(|l| l.name.clone())),
            };
            if let (what, Some(name)) = named {
                *counts.entry((what, name)).or_default() += count.number;
            }
        }
        counts
    };
    unequal(&of(old), &of(new))
}

/// The screws of the pulls, by their least length.
pub(super) fn screws(old: &Workings<'_>, new: &Workings<'_>, tape: Tape) -> Vec<Counted> {
    let of = |side: &Workings<'_>| {
        let mut counts = Counts::new();
        for screw in hardware::pull_screws(side.piece, side.parts) {
            let pull = side.piece.pull(screw.pull).map_or("", |pull| pull.name.as_str());
            let name = format!(
                "for {pull}, at least {} long",
                tape.text(tape.up(screw.length(tape.unit)))
            );
            *counts.entry(("screw", name)).or_default() += screw.number;
        }
        counts
    };
    unequal(&of(old), &of(new))
}

fn unequal(old: &Counts, new: &Counts) -> Vec<Counted> {
    let mut both: Counts = old.clone();
    both.extend(new.clone());
    both.into_keys()
        .map(|key| {
            let count = |side: &Counts| side.get(&key).copied().unwrap_or(0);
            Counted { what: key.0, was: count(old), now: count(new), name: key.1 }
        })
        .filter(|count| count.was != count.now)
        .collect()
}
