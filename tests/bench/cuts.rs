//! Numbered cuts are made in a rectangle of wood, one after another, a blade's width at a time.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::figures::said;
use super::packet::Figure;
use super::wood::NOTHING;

/// Cuts with one setting, in a sheet or a board, or in a piece of it.
#[derive(Debug, Deserialize)]
pub(super) struct Cut {
    pub(super) first: u32,
    last: u32,
    /// The piece; nothing for the whole.
    #[serde(rename = "in")]
    pub(super) piece: String,
    pub(super) way: Way,
    off: Figure,
    gives: Vec<Gives>,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Way {
    Rip,
    Crosscut,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Gives {
    Lost,
    Piece(String),
    Rough(usize),
}

/// A rectangle: where it begins along the whole, how long and wide it is, and how often the
/// cuts have turned.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lies {
    pub(super) at: f64,
    pub(super) size: [f64; 2],
    pub(super) turns: u32,
    pub(super) way: Way,
}

/// Which way the cuts go that give these pieces one behind the other, of one piece that nothing
/// else comes of.
pub(super) fn follow(cuts: &[Cut], indexes: &[usize]) -> Option<Way> {
    let gives = |own: &Gives| match own {
        Gives::Rough(index) => Some(*index),
        Gives::Lost | Gives::Piece(_) => None,
    };
    let first = cuts
        .iter()
        .find(|cut| cut.gives.iter().any(|own| gives(own) == indexes.first().copied()))?;
    let of_piece = cuts.iter().filter(|cut| cut.piece == first.piece);
    let is_one_way = of_piece.clone().all(|cut| cut.way == first.way);
    let all: Vec<Option<usize>> = of_piece.flat_map(|cut| cut.gives.iter().map(gives)).collect();
    let is_all = all == indexes.iter().copied().map(Some).collect::<Vec<_>>();
    (is_one_way && is_all).then_some(first.way)
}

/// What comes off for each of the pieces by these names.
pub(super) fn made(
    cuts: &[Cut],
    whole: Lies,
    kerf: f64,
    names: &[&str],
    wrong: &mut Vec<String>,
) -> Vec<Option<Lies>> {
    let mut off = vec![None; names.len()];
    let mut there: BTreeMap<&str, Lies> = BTreeMap::from([("", whole)]);
    let mut next = 1;
    for cut in cuts {
        if cut.first != next || cut.last < cut.first {
            wrong.push(format!("cut {} does not follow cut {}", cut.first, next - 1));
        }
        next = cut.last + 1;
        let Some(mut left) = there.remove(cut.piece.as_str()) else {
            wrong.push(format!("cut {} is in {}, which is not there", cut.first, cut.piece));
            continue;
        };
        if left.way != cut.way {
            (left.way, left.turns) = (cut.way, left.turns + 1);
        }
        let side = usize::from(cut.way == Way::Rip);
        let cuts = (cut.last - cut.first + 1) as usize;
        if cut.gives.len() != cuts && cut.gives.len() != cuts + 1 {
            wrong.push(format!("{cuts} cuts give {} pieces", cut.gives.len()));
        }
        for (nth, gives) in cut.gives.iter().enumerate() {
            let mut own = left;
            if nth < cuts {
                if cut.off.exact > left.size[side] + NOTHING {
                    let (off, rest) = (said(cut.off.exact), said(left.size[side]));
                    wrong.push(format!("cut {} takes {off} off what is {rest}", cut.first));
                }
                own.size[side] = cut.off.exact;
                left.size[side] -= cut.off.exact + kerf;
                if side == 0 {
                    left.at += cut.off.exact + kerf;
                }
            } else {
                left.size[side] = 0.0;
            }
            match gives {
                Gives::Lost => {}
                Gives::Piece(name) => {
                    if there.insert(name, own).is_some() {
                        wrong.push(format!("there are two pieces {name}"));
                    }
                }
                Gives::Rough(index) => match off.get_mut(*index) {
                    Some(place @ None) => *place = Some(own),
                    _ => wrong.push(format!("cut {} gives what is not there", cut.first)),
                },
            }
        }
        if left.size[side] > NOTHING {
            there.insert(&cut.piece, left);
        }
    }
    // What is one piece as it is needs no cut.
    if let (true, [only]) = (cuts.is_empty(), off.as_mut_slice()) {
        *only = Some(whole);
    }
    let missing = names.iter().zip(&off).filter(|(_, own)| own.is_none());
    wrong.extend(missing.map(|(name, _)| format!("no cut frees {name}")));
    off
}
