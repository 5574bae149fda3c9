//! What a board on the bench would do for.

use crate::measure::{Length, Spanned};
use crate::model::{Cut, Size};
use crate::parts::{Part, PartId};
use crate::plans::made::Fit;

use super::{Ledger, State};

/// The joints of a board times those of a part, up to which all ways to trim
/// the one to the other are tried.
const TRIED_IN_ALL_WAYS: usize = 100;

impl<'a> Ledger<'a> {
    /// True where a part still to be cut is just what this board is, with every
    /// joint that is in it.
    #[must_use]
    pub fn is_just(&self, id: PartId, cut: &'a Cut) -> bool {
        // Of one day a part can be said once.
        let open = match self.state(id) {
            State::Cut(_) => false,
            State::Spoiled(known) => known.date != cut.date,
            State::Uncut => true,
        };
        open && self.parts.get(id).is_some_and(|part| self.is_exact(part, cut))
    }

    /// True for a cut part that lacks nothing.
    fn is_as_drawn(&self, id: PartId, part: &'a Part, cut: &'a Cut) -> bool {
        let fits = |fit: &Fit<'_>| fit.lost.is_empty() && fit.to_make.is_empty();
        !self.is_other_stock(part, cut)
            && self.fit(id).is_none_or(fits)
            && self.differing_of(part, cut, |was, needs| (was - needs).abs()).is_empty()
    }

    fn is_exact(&self, part: &'a Part, cut: &'a Cut) -> bool {
        let sizes = [(&cut.long, &part.length), (&cut.wide, &part.width)];
        let tolerance = self.piece.shop.tolerance.cut;
        let near = |was: &Spanned<Length>, is: &Size| (was.value - is.length).abs() <= tolerance;
        let alike =
            sizes.into_iter().all(|(was, is)| was.as_ref().is_some_and(|was| near(was, is)))
                && cut
                    .thick
                    .as_ref()
                    .is_none_or(|was| !self.is_solid(part) || near(was, &part.thickness));
        alike
            && self.would_do(part, cut)
            && self.laid_flush(part, cut).is_none_or(|fit| fit.to_make.is_empty())
    }

    /// Boards that no longer are what their part is, and are just what the same
    /// part of another opening is: it may have got another name.
    #[must_use]
    pub fn elsewhere(&self) -> Vec<(&'a Cut, &'a Part)> {
        let off: Vec<(PartId, &'a Part, &'a Cut)> = self
            .parts
            .iter()
            .filter_map(|(id, part)| match self.state(id) {
                State::Cut(cut) if cut.long.is_some() && !self.is_as_drawn(id, part, cut) => {
                    Some((id, part, cut))
                }
                _ => None,
            })
            .collect();
        let mut all: Vec<(PartId, &'a Cut, PartId, &'a Part)> = Vec::new();
        for (id, part, cut) in &off {
            let free = |other: PartId| match self.state(other) {
                State::Cut(_) => off.iter().any(|(own, ..)| *own == other),
                _ => self.is_just(other, cut),
            };
            let could = self.parts.iter().filter(|(other, it)| {
                other != id
                    && (it.role, it.which) == (part.role, part.which)
                    && free(*other)
                    && all.iter().all(|(_, _, taken, _)| taken != other)
                    && self.is_exact(it, cut)
            });
            // Rather one that has no board yet.
            let key = |other: PartId| {
                let has_one = self.is_cut(other);
                (has_one, other.0.abs_diff(id.0))
            };
            if let Some((other, it)) = could.min_by_key(|(other, _)| key(*other)) {
                all.push((*id, cut, other, it));
            }
        }
        // A name is free only once the board that has it has found another.
        loop {
            let homed: Vec<PartId> = all.iter().map(|(id, ..)| *id).collect();
            let free = |to: PartId| !self.is_cut(to) || homed.contains(&to);
            let before = all.len();
            all.retain(|(_, _, to, _)| free(*to));
            if all.len() == before {
                return all.into_iter().map(|(_, cut, _, part)| (cut, part)).collect();
            }
        }
    }

    /// Parts still to be cut that a board of this size would do for. Nothing is
    /// known where its joints are only counted.
    #[must_use]
    pub fn would_do_for(&self, cut: &'a Cut) -> Option<Vec<&'a Part>> {
        let counted = cut.joints.as_ref().is_some_and(|joints| joints.value > 0);
        if cut.long.is_none() || cut.wide.is_none() || cut.stock.is_none() {
            return None;
        }
        if counted && cut.made.is_empty() {
            return None;
        }
        let left = |(id, part): (PartId, &'a Part)| {
            let open = !self.is_cut(id);
            (open && (self.would_do(part, cut) || self.comes_right(part, cut))).then_some(part)
        };
        Some(self.parts.iter().filter_map(left).collect())
    }

    /// True for a board that can be trimmed so that no joint of it is lost. One
    /// with many joints is not tried in all ways.
    fn comes_right(&self, part: &'a Part, cut: &'a Cut) -> bool {
        cut.made.len() * part.features.len() <= TRIED_IN_ALL_WAYS
            && self.is_large_enough(part, cut)
            && self.laid(part, cut).is_some_and(|fit| fit.lost.is_empty())
    }

    fn would_do(&self, part: &'a Part, cut: &'a Cut) -> bool {
        self.is_large_enough(part, cut)
            && self.laid_flush(part, cut).is_none_or(|fit| fit.lost.is_empty())
    }

    /// True for a board of the stock of a part and no smaller than it.
    pub(super) fn is_large_enough(&self, part: &Part, cut: &Cut) -> bool {
        let tolerance = self.piece.shop.tolerance.cut;
        let holds = |was: &Option<Spanned<Length>>, needs: &Size| {
            was.as_ref().is_none_or(|was| needs.length <= was.value + tolerance)
        };
        let same = self
            .piece
            .stock(part.stock)
            .is_some_and(|own| cut.stock.as_ref().is_some_and(|stock| stock.value == own.name));
        same && !self.is_other_stock(part, cut)
            && holds(&cut.long, &part.length)
            && holds(&cut.wide, &part.width)
            && holds(&cut.thick, &part.thickness)
    }
}
