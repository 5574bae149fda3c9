//! Which part a board is whose name the drawing no longer has.

use crate::measure::{Length, Span};
use crate::model::{Cut, MadeKind};
use crate::parts::{Part, PartId};
use crate::plans::made::{self, Fit};

use super::{Ledger, State};

/// How a board suits a part that it may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Suits {
    /// It has its sizes and its joints.
    Just,
    /// It has all its joints, each in its place once it is trimmed.
    Trimmed,
}

/// A board under a name that no part has, and the parts it may be.
#[derive(Clone, Debug)]
pub struct Nameless<'a> {
    /// The board.
    pub cut: &'a Cut,
    /// Those parts, the likeliest first. No two boards have the same one first,
    /// so that a maker may take the first mend of each.
    pub could_be: Vec<(PartId, Suits)>,
}

impl<'a> Ledger<'a> {
    /// The boards on the bench whose names no part has, in the order of the spec.
    #[must_use]
    pub fn nameless(&self) -> Vec<Nameless<'a>> {
        // A spoiled one had a name as well, and leaves it to no other board.
        let sized = |cut: &'a Cut| match cut.spoiled {
            Some(_) => self
                .piece
                .cuts
                .iter()
                .rev()
                .find(|known| known.name.value == cut.name.value && known.spoiled.is_none()),
            None => Some(cut),
        };
        let mut all: Vec<(Span, Nameless<'a>)> = self
            .gone
            .iter()
            .map(|cut| {
                let sized = sized(cut);
                let could_be = sized.map_or_else(Vec::new, |cut| self.could_be(cut));
                let at = sized.unwrap_or(cut).name.span;
                (at, Nameless { cut, could_be })
            })
            .collect();
        all.sort_by_key(|(at, _)| *at);
        let mut taken: Vec<PartId> = Vec::new();
        for suits in [Suits::Just, Suits::Trimmed] {
            for (_, board) in &mut all {
                if board.could_be.first().is_none_or(|(_, best)| *best != suits) {
                    continue;
                }
                let free = |(id, how): &(PartId, Suits)| *how == suits && !taken.contains(id);
                if let Some(at) = board.could_be.iter().position(free) {
                    board.could_be[..=at].rotate_right(1);
                    taken.extend(board.could_be.first().map(|(id, _)| *id));
                }
            }
        }
        let boards = all.into_iter().map(|(_, board)| board);
        boards.filter(|board| board.cut.spoiled.is_none()).collect()
    }

    /// The parts still to be cut that a board may be, and how it suits them.
    fn could_be(&self, cut: &'a Cut) -> Vec<(PartId, Suits)> {
        let just: Vec<(PartId, Suits)> = self
            .parts
            .iter()
            .filter(|(id, _)| self.is_just(*id, cut))
            .map(|(id, _)| (id, Suits::Just))
            .collect();
        if !just.is_empty() || cut.made.is_empty() {
            return just;
        }
        let kinds = made_of(cut.made.iter().map(|made| made.kind.value));
        let mut trimmed: Vec<(Length, PartId)> = self
            .parts
            .iter()
            .filter(|(id, _)| matches!(self.state(*id), State::Uncut))
            .filter(|(_, part)| {
                made_of(part.features.iter().map(|it| made::kind(it.kind))) == kinds
            })
            .filter_map(|(id, part)| Some((self.trimmed_to(part, cut)?, id)))
            .collect();
        trimmed.sort_unstable();
        trimmed.into_iter().map(|(_, id)| (id, Suits::Trimmed)).collect()
    }

    /// How much comes off a board, along and across, to make a part of it that
    /// has all its joints then; nothing where it does not come out so.
    fn trimmed_to(&self, part: &'a Part, cut: &'a Cut) -> Option<Length> {
        let whole = |fit: &Fit<'_>| fit.lost.is_empty() && fit.to_make.is_empty();
        if !self.is_large_enough(part, cut) || !self.laid(part, cut).is_some_and(|it| whole(&it)) {
            return None;
        }
        let (long, wide) = (cut.long.as_ref()?.value, cut.wide.as_ref()?.value);
        Some(long - part.length.length + (wide - part.width.length))
    }
}

/// The kinds of several joints, with how many of each.
fn made_of(kinds: impl Iterator<Item = MadeKind>) -> Vec<MadeKind> {
    let mut kinds: Vec<MadeKind> = kinds.collect();
    kinds.sort_unstable();
    kinds
}
