//! What two boards share, where screws hold them: one row along the middle of it, and the
//! stretches of that where no cut is in the way.

use crate::measure::{Length, Unit, between};
use crate::parts::{Cuboid, Direction, Feature, FeatureKind, Part, Role};
use crate::trade;

use super::screw_lengths::into_edge;
use super::screw_lines::ScrewLine;
use super::screws::Long;

/// The first screw stays so far from the end of what the boards share, or a quarter of a
/// short one: 2 in, 50 mm (common practice, no source). There it is clear of what is let
/// in at the corner of a case, and splits nothing.
#[must_use]
pub fn from_end(long: Length, unit: Unit) -> Length {
    unit.either(Length::inches(2, 1), Length::mm(50)).min(long / 4)
}

/// Half of a #8 screw: 5/64 in, 2 mm.
pub(super) fn half_screw(unit: Unit) -> Length {
    unit.either(Length::inches(5, 64), Length::mm(2))
}

/// The cuts of a board that screws keep clear of. Those from behind end short of the flutes
/// in a face.
fn cutting(part: &Part) -> impl Iterator<Item = &Feature> {
    part.features.iter().filter(|own| !matches!(own.kind, FeatureKind::Flute(_)))
}

/// What they take out of it.
pub(super) fn cuts(part: &Part) -> impl Iterator<Item = Cuboid> {
    cutting(part).flat_map(|own| part.hollows(own))
}

/// So short a stretch between two cuts holds no screw: 1-1/2 in, 40 mm (common practice,
/// no source).
fn shortest(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(40))
}

/// A driver keeps so far from a block that stands on the board, and is so high: the half of a
/// drill and a little, 1-5/8 in, 40 mm; beside one that a long bit reaches over, the half of
/// the bit and a little, 3/8 in, 10 mm (common practice, no source).
pub(super) fn from_block(high: Length, unit: Unit) -> Length {
    match high <= trade::long_bit() {
        true => unit.either(Length::inches(3, 8), Length::mm(10)),
        false => unit.either(Length::inches(13, 8), Length::mm(40)),
    }
}

/// How deep behind a board screws look for wood in one so deep: 3/4 in, 20 mm, or, in an edge, as
/// far as they go. Those of a back go no deeper than that.
fn reach(through: &Part, thick: Length, deep: Length, unit: Unit) -> Length {
    let least = unit.either(Length::inches(3, 4), Length::mm(20));
    if through.role == Role::Back {
        return least;
    }
    let goes = match into_edge(thick, deep, unit) {
        Long::BySheet => Length::ZERO,
        Long::Is(long) | Long::Between(_, long) | Long::AtLeast(long) => long - thick,
    };
    least.max(goes)
}

/// The middle of what two boards share, along the longer side of that.
pub(super) struct Row<'a> {
    through: &'a Part,
    into: &'a Part,
    /// The axis that its screws lie along.
    axis: Direction,
    pub(super) along: Direction,
    pub(super) across: Direction,
    /// From the start of the board that the screws go through to the row.
    pub(super) middle: Length,
    /// How wide what they share is across it.
    pub(super) wide: Length,
    /// From and to in the piece.
    shared: (Length, Length),
    /// The row with the wood that its screws need beside, before, and behind them.
    space: Cuboid,
    /// They are driven toward the end of the axis.
    to_end: bool,
    /// What lies between the two boards.
    shim: Length,
}

impl<'a> Row<'a> {
    pub(super) fn of(through: &'a Part, into: &'a Part, unit: Unit) -> Option<Self> {
        let row = Self::along_axis(through, into, through.placement.thickness, unit);
        row.filter(Self::meets)
    }

    /// True where nothing lies between the two boards.
    pub(super) fn meets(&self) -> bool {
        self.shim.is_zero()
    }

    pub(super) fn along_axis(
        through: &'a Part,
        into: &'a Part,
        axis: Direction,
        unit: Unit,
    ) -> Option<Self> {
        let (own, other) = (through.cuboid(), into.cuboid());
        let shared = |side: Direction| {
            let from = own.from.along(side).max(other.from.along(side));
            (from, own.to.along(side).min(other.to.along(side)))
        };
        let mut sides = Direction::ALL.into_iter().filter(|side| *side != axis);
        let (one, two) = (sides.next()?, sides.next()?);
        let size = |side: Direction| shared(side).1 - shared(side).0;
        if !size(one).is_positive() || !size(two).is_positive() {
            return None;
        }
        let shim = (Length::ZERO - size(axis)).max(Length::ZERO);
        let (along, across) = if size(one) > size(two) { (one, two) } else { (two, one) };
        let middle = (shared(across).0 + shared(across).1).half();
        let wide = size(across);
        let middles = |cuboid: &Cuboid| cuboid.from.along(axis) + cuboid.to.along(axis);
        let to_end = middles(&other) > middles(&own);
        let mut space = own;
        // A row in a narrow ledge has less beside it.
        let beside = trade::from_cut(unit).min(wide.half());
        space.from.set(across, middle - beside);
        space.to.set(across, middle + beside);
        let reach = shim + reach(through, own.size(axis), other.size(axis), unit);
        match to_end {
            true => space.to.set(axis, own.to.along(axis) + reach),
            false => space.from.set(axis, own.from.along(axis) - reach),
        }
        let middle = middle - own.from.along(across);
        Some(Self {
            through,
            into,
            axis,
            along,
            across,
            middle,
            wide,
            shared: shared(along),
            space,
            to_end,
            shim,
        })
    }

    /// The same row, so far to the side.
    pub(super) fn shifted(&self, by: Length) -> Self {
        let mut space = self.space;
        space.from.set(self.across, self.space.from.along(self.across) + by);
        space.to.set(self.across, self.space.to.along(self.across) + by);
        Self { middle: self.middle + by, space, ..*self }
    }

    /// Where the row is free of cuts, from and to in the piece.
    pub(super) fn stretches(&self, blocks: &[Cuboid], unit: Unit) -> Vec<(Length, Length)> {
        let axis = self.axis;
        let own = self.through.cuboid();
        // In the other board only what is cut behind the first one is in the way.
        let mut behind = self.space;
        match self.to_end {
            true => behind.from.set(axis, own.to.along(axis)),
            false => behind.to.set(axis, own.from.along(axis)),
        }
        let mut before = self.space;
        before.from.set(axis, own.from.along(axis));
        before.to.set(axis, own.to.along(axis));
        let mut cuts = self.through.cut_along(cutting(self.through), &before, self.along);
        cuts.extend(self.into.cut_along(cutting(self.into), &behind, self.along));
        let middle = own.from.along(self.across) + self.middle;
        cuts.extend(blocks.iter().filter_map(|block| {
            let beside = from_block(block.size(axis), unit) - trade::from_cut(unit);
            let (from, to) = (block.from.along(self.across), block.to.along(self.across));
            let is_near = from - beside < middle && middle < to + beside;
            let ends = (block.from.along(self.along), block.to.along(self.along));
            is_near.then_some((ends.0 - beside, ends.1 + beside))
        }));
        let keep = trade::from_cut(unit);
        let cuts = cuts.into_iter().map(|(start, stop)| (start - keep, stop + keep));
        let mut free = between(self.shared, cuts);
        let longest = free.iter().map(|(from, to)| *to - *from).max().unwrap_or_default();
        // Where all are short the longest must do.
        let least = shortest(unit).min(longest);
        free.retain(|(from, to)| *to - *from >= least);
        free
    }

    /// A line in each stretch, with so many screws, or one each 6 in or 150 mm. A stretch that
    /// is too short for two takes one; so does one of several where two would stand near each
    /// other, under 3 in, 75 mm (common practice, no source).
    pub(super) fn lines(
        &self,
        stretches: &[(Length, Length)],
        count: Option<u32>,
        unit: Unit,
    ) -> Vec<ScrewLine<'a>> {
        let least = match stretches.len() {
            0 | 1 => shortest(unit),
            _ => unit.either(Length::inches(3, 1), Length::mm(75)),
        };
        let line = |stretch: &(Length, Length)| {
            let long = stretch.1 - stretch.0;
            let count = count.unwrap_or_else(|| trade::screws_along(long));
            self.line(*stretch, if long < least { 1 } else { count.max(1) }, unit)
        };
        stretches.iter().map(line).collect()
    }

    fn line(&self, (from, to): (Length, Length), count: u32, unit: Unit) -> ScrewLine<'a> {
        let (through, long) = (self.through, to - from);
        let (first, apart) = match count {
            1 => (long.half(), Length::ZERO),
            _ => {
                let first = from_end(long, unit);
                (first, (long - first * 2) / i64::from(count - 1))
            }
        };
        let faces =
            |side: Direction| [true, false].map(|start| through.placement.face(side, start));
        // The line is struck from the nearer side: a board that is cut to a measured size
        // is right there too.
        let [start, far] = faces(self.across);
        let edge = if self.middle.twice() > through.depth(far) { far } else { start };
        let end = through.datum(faces(self.along));
        let near = from - through.cuboid().from.along(self.along);
        // The nearest screw to the end that is counted from.
        let first = match end.is_start() {
            true => near + first,
            false => through.distance(end, near + long - first),
        };
        ScrewLine {
            through,
            face: through.placement.face(self.axis, self.to_end),
            into: self.into,
            edge,
            at: through.distance(edge, self.middle),
            end,
            first,
            apart,
            count,
            shim: self.shim,
        }
    }
}
