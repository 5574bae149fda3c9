//! Where the screws of a joint go: along one line on the board that they go through,
//! over the middle of what is behind it.

use crate::measure::{Length, Tape, Unit};
use crate::parts::{Cuboid, Direction, Face, FeatureKind, Part, Point, Role};
use crate::trade;

/// The line of the screws between two boards.
#[derive(Clone, Debug)]
pub struct ScrewLine<'a> {
    /// The board that they go through.
    pub through: &'a Part,
    /// The face that they are driven into.
    pub face: Face,
    /// What they go into.
    pub into: &'a Part,
    /// What the line counts from: an edge or end of the board that they go through.
    pub edge: Face,
    /// From there to the line.
    pub at: Length,
    /// What the first screw counts from.
    pub end: Face,
    /// From there to the first screw.
    pub first: Length,
    /// From screw to screw.
    pub apart: Length,
    /// How many.
    pub count: u32,
    /// What shims fill between the two boards where the screws are; nought where they meet.
    pub shim: Length,
}

impl ScrewLine<'_> {
    /// Where its screws are when they are in, each from its head to its tip with so much
    /// around it.
    pub(super) fn screws(&self, long: Length, around: Length) -> Vec<Cuboid> {
        let through = self.through;
        let axes = [self.edge, self.end, self.face].map(|face| through.placement.direction(face));
        let [across, along, axis] = axes;
        let own = through.cuboid();
        let place = |number: u32| {
            let mut screw = own;
            let mut stand = |direction, from: Face, at: Length| {
                let at = own.from.along(direction) + through.distance(from, at);
                screw.from.set(direction, at - around);
                screw.to.set(direction, at + around);
            };
            stand(across, self.edge, self.at);
            stand(along, self.end, self.first + self.apart * i64::from(number));
            match self.face.is_start() {
                true => screw.to.set(axis, own.from.along(axis) + long),
                false => screw.from.set(axis, own.to.along(axis) - long),
            }
            screw
        };
        (0..self.count).map(place).collect()
    }

    /// Where the heads of its screws are, in the piece.
    #[must_use]
    pub fn heads(&self) -> Vec<Point> {
        self.screws(Length::ZERO, Length::ZERO).into_iter().map(|screw| screw.from).collect()
    }

    /// The same line with its screws elsewhere: all of them by up to 1 in, 25 mm, to either
    /// side, and some more or less between its ends.
    pub(super) fn others(&self, unit: Unit) -> Vec<Self> {
        let span = self.apart * i64::from(self.count.saturating_sub(1));
        let with = |count: u32| match count {
            0 | 1 => self.clone(),
            _ => Self { count, apart: span / i64::from(count - 1), ..self.clone() },
        };
        let counts = match self.count {
            0 | 1 => vec![self.count],
            2 => vec![2, 3, 4],
            count => vec![count, count + 1, count - 1, count + 2, count + 3, (count - 2).max(2)],
        };
        let step = unit.either(Length::inches(1, 1), Length::mm(25)).min(self.first.half());
        let moved = |line: Self| {
            [0, -4, 4, -2, 2, -3, 3, -1, 1].map(|quarters| {
                let first = line.first + step * quarters / 4;
                Self { first, ..line.clone() }
            })
        };
        counts.into_iter().map(with).flat_map(moved).collect()
    }
}

impl ScrewLine<'_> {
    /// The same line with figures that stand on the tape, since an error in the distance
    /// adds up from screw to screw.
    pub(super) fn on_tape(self, tape: &Tape) -> Self {
        let steps = i64::from(self.count.saturating_sub(1));
        let apart = tape.down(self.apart);
        let first = tape.down(self.first + (self.apart - apart) * steps / 2);
        Self { first, apart, ..self }
    }

    /// The same line with its screws half way between those of a line that it crosses,
    /// which stand evenly; `None` where they don't, or fewer than three are there.
    pub(super) fn between(&self, driven: &[Cuboid], own: &[Cuboid]) -> Option<Self> {
        let (through, one) = (self.through, own.first()?);
        let along = through.placement.direction(self.end);
        let others = Direction::ALL.into_iter().filter(|side| *side != along);
        let sides: Vec<Direction> = others.collect();
        let crosses = |screw: &&Cuboid| {
            sides.iter().all(|side| one.overlap_along(screw, *side).is_positive())
        };
        let start = through.cuboid().from.along(along);
        let place = |screw: &Cuboid| {
            let middle = (screw.from.along(along) + screw.to.along(along)).half();
            through.distance(self.end, middle - start)
        };
        let last = self.first + self.apart * i64::from(self.count.saturating_sub(1));
        let mut places: Vec<Length> = driven.iter().filter(crosses).map(place).collect();
        places.sort_unstable();
        places.dedup();
        let middles: Vec<Length> = places
            .windows(2)
            .filter_map(|pair| {
                let [one, other] = pair else { return None };
                Some((*one + *other).half())
            })
            .filter(|middle| self.first <= *middle && *middle <= last)
            .collect();
        let (first, second) = (*middles.first()?, *middles.get(1)?);
        let apart = second - first;
        let even = middles.windows(2).all(|pair| matches!(pair, [a, b] if *b - *a == apart));
        let count = u32::try_from(middles.len()).ok()?;
        even.then(|| Self { first, apart, count, ..self.clone() })
    }
}

/// The first screw stays so far from the end of what the boards share, or a quarter of a
/// short one: 2 in, 50 mm (common practice, no source). There it is clear of what is let
/// in at the corner of a case, and splits nothing.
#[must_use]
pub fn from_end(long: Length, unit: Unit) -> Length {
    unit.either(Length::inches(2, 1), Length::mm(50)).min(long / 4)
}

/// A screw keeps so far from a cut: 1/4 in, 6 mm (common practice, no source).
fn from_cut(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

/// So short a stretch between two cuts holds no screw: 1-1/2 in, 40 mm (common practice,
/// no source).
fn shortest(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(40))
}

/// A driver keeps so far from a block that stands on the board: the half of a drill and a
/// little, 1-5/8 in, 40 mm (common practice, no source).
fn from_block(unit: Unit) -> Length {
    unit.either(Length::inches(13, 8), Length::mm(40))
}

/// How deep behind the board that they go through screws look for wood: 3/4 in, 20 mm.
fn reach(unit: Unit) -> Length {
    unit.either(Length::inches(3, 4), Length::mm(20))
}

/// The lines between two boards that lie on each other, one for each stretch where no cut
/// of either is in the way; none where the screws would go through an edge. With no count
/// there is one screw each 6 in or 150 mm.
pub(super) fn between<'a>(
    through: &'a Part,
    into: &'a Part,
    count: Option<u32>,
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    clear_of(through, into, count, &[], unit)
}

/// The same, clear of what stands on the board that they go through where the driver is.
pub(super) fn clear_of<'a>(
    through: &'a Part,
    into: &'a Part,
    count: Option<u32>,
    blocks: &[Cuboid],
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let Some(row) = Row::of(through, into, unit) else { return Vec::new() };
    let stretches = row.stretches(blocks, unit);
    let whole = stretches.len() == 1;
    let line = |stretch: (Length, Length)| {
        let own = trade::screws_along(stretch.1 - stretch.0);
        row.line(stretch, count.filter(|_| whole).unwrap_or(own), unit)
    };
    stretches.into_iter().map(line).collect()
}

/// One line through the whole of a block, from back to front, into what it holds, over the
/// middle of what the two share; where they don't meet, shims lie between them.
pub(super) fn from_behind<'a>(
    through: &'a Part,
    into: &'a Part,
    count: u32,
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let Some(row) = Row::along_axis(through, into, Direction::Z, unit) else { return Vec::new() };
    let stretches = row.stretches(&[], unit).into_iter();
    stretches.map(|stretch| row.line(stretch, count, unit)).collect()
}

/// Two lines in place of one, a quarter of what the boards share in from either side, so
/// that the middle is left free; one in the middle of what is too narrow for two, under
/// 1-1/2 in, 40 mm.
pub(super) fn beside_middle<'a>(
    through: &'a Part,
    into: &'a Part,
    count: u32,
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let Some(row) = Row::of(through, into, unit) else { return Vec::new() };
    if row.wide < unit.either(Length::inches(3, 2), Length::mm(40)) {
        return between(through, into, Some(count), unit);
    }
    let off = row.wide / 4;
    let rows = [-off, off].map(|by| row.shifted(by));
    let wanted = count.div_ceil(2).max(2);
    let lines = rows.iter().flat_map(|row| {
        // Where cuts part the line into many, a screw in each of a few of them will do.
        let stretches = row.stretches(&[], unit);
        let last = stretches.len().saturating_sub(1);
        let few = usize::try_from(wanted).unwrap_or(2);
        let is_kept =
            |number: usize| last < few || (0..few).any(|own| own * last / (few - 1) == number);
        let kept = stretches.into_iter().enumerate().filter(move |(number, _)| is_kept(*number));
        kept.map(move |(_, stretch)| row.line(stretch, wanted, unit)).collect::<Vec<_>>()
    });
    lines.collect()
}

/// The lines of a panel: along its longer side, so far from both edges of what the two
/// boards share and between them where these are far apart, or one along the middle of a
/// narrow one. Below the bottom of the case no hand gets at them.
pub(super) fn along_edges<'a>(
    through: &'a Part,
    into: &'a Part,
    (blocks, of_case): (&[Cuboid], &[Part]),
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let bottom = of_case.iter().find(|own| own.role == Role::Bottom);
    let bottom = bottom.map_or(Length::ZERO, |own| own.extent(Direction::Y).0);
    // 3 in, 75 mm (common practice, no source): clear of rows of shelf pins.
    let inset = unit.either(Length::inches(3, 1), Length::mm(75));
    let Some(row) = Row::of(through, into, unit) else { return Vec::new() };
    let (own, other, across) = (through.cuboid(), into.cuboid(), row.across);
    let from = own.from.along(across).max(other.from.along(across));
    let to = own.to.along(across).min(other.to.along(across));
    // 24 in, 600 mm from line to line at the most (common practice, no source).
    let most = unit.either(Length::inches(24, 1), Length::mm(600));
    let places = match to - from > inset * 3 {
        true => {
            let between = ((to - from - inset * 2) / most).ceil().max(1);
            let step = (to - from - inset * 2) / between;
            (0..=between).map(|number| from + inset + step * number).collect()
        }
        false => vec![(from + to).half()],
    };
    let rows = places.into_iter().map(|at| {
        let middle = own.from.along(across) + row.middle;
        // Where a board lies along the line, it moves toward the middle, or to the edge.
        let inward = if at * 2 < from + to { inset / 2 } else { -inset / 2 };
        let moved = [0, 1, 2, 3, -1].map(|steps| row.shifted(at + inward * steps - middle));
        let free = moved.iter().position(|row| !row.stretches(blocks, unit).is_empty());
        row.shifted(at + inward * [0, 1, 2, 3, -1][free.unwrap_or(0)] - middle)
    });
    let lines = rows.flat_map(|row| {
        let stretches = row.stretches(blocks, unit).into_iter();
        let is_below = |to: Length| row.along == Direction::Y && to <= bottom;
        let lines = stretches
            .filter(|(_, to)| !is_below(*to))
            .map(|stretch| row.line(stretch, trade::screws_along(stretch.1 - stretch.0), unit));
        lines.collect::<Vec<_>>()
    });
    lines.collect()
}

/// The line of screws up or down through a board at these places, in the piece, that are evenly
/// apart; `None` for none.
pub(super) fn upright_at<'a>(
    [through, into]: [&'a Part; 2],
    down: bool,
    z: Length,
    screws: &[Length],
) -> Option<ScrewLine<'a>> {
    let (own, place) = (through.cuboid(), &through.placement);
    let faces = |side: Direction| [true, false].map(|start| place.face(side, start));
    let (edge, end) = (through.datum(faces(Direction::Z)), through.datum(faces(Direction::X)));
    let nearest = if end.is_start() { screws.first()? } else { screws.last()? };
    let apart = match screws {
        [one, other, ..] => *other - *one,
        [_] | [] => Length::ZERO,
    };
    Some(ScrewLine {
        through,
        face: place.face(Direction::Y, !down),
        into,
        edge,
        at: through.distance(edge, z - own.from.z),
        end,
        first: through.distance(end, *nearest - own.from.x),
        apart,
        count: u32::try_from(screws.len()).unwrap_or(u32::MAX),
        shim: Length::ZERO,
    })
}

/// The middle of what two boards share, along the longer side of that.
struct Row<'a> {
    through: &'a Part,
    into: &'a Part,
    /// The axis that its screws lie along.
    axis: Direction,
    along: Direction,
    across: Direction,
    /// From the start of the board that the screws go through to the row.
    middle: Length,
    /// How wide what they share is across it.
    wide: Length,
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
    fn of(through: &'a Part, into: &'a Part, unit: Unit) -> Option<Self> {
        let row = Self::along_axis(through, into, through.placement.thickness, unit);
        row.filter(|row| row.shim.is_zero())
    }

    fn along_axis(through: &'a Part, into: &'a Part, axis: Direction, unit: Unit) -> Option<Self> {
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
        let beside = from_cut(unit).min(wide.half());
        space.from.set(across, middle - beside);
        space.to.set(across, middle + beside);
        match to_end {
            true => space.to.set(axis, own.to.along(axis) + shim + reach(unit)),
            false => space.from.set(axis, own.from.along(axis) - shim - reach(unit)),
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
    fn shifted(&self, by: Length) -> Self {
        let mut space = self.space;
        space.from.set(self.across, self.space.from.along(self.across) + by);
        space.to.set(self.across, self.space.to.along(self.across) + by);
        Self { middle: self.middle + by, space, ..*self }
    }

    /// Where the row is free of cuts, from and to in the piece.
    fn stretches(&self, blocks: &[Cuboid], unit: Unit) -> Vec<(Length, Length)> {
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
        let cuts = |part: &'a Part, room: Cuboid| {
            part.features
                .iter()
                // Screws from behind end short of the flutes in a face.
                .filter(|own| !matches!(own.kind, FeatureKind::Flute(_)))
                .flat_map(|own| part.hollows(own))
                .filter(move |hollow| {
                    Direction::ALL
                        .into_iter()
                        .filter(|side| *side != self.along)
                        .all(|side| hollow.overlap_along(&room, side).is_positive())
                })
                .map(|hollow| (hollow.from.along(self.along), hollow.to.along(self.along)))
                .collect::<Vec<_>>()
        };
        let mut cuts = [cuts(self.through, before), cuts(self.into, behind)].concat();
        let beside = from_block(unit) - from_cut(unit);
        let near = blocks.iter().filter(|block| {
            let (from, to) = (block.from.along(self.across), block.to.along(self.across));
            let middle = own.from.along(self.across) + self.middle;
            from - beside < middle && middle < to + beside
        });
        cuts.extend(near.map(|block| {
            (block.from.along(self.along) - beside, block.to.along(self.along) + beside)
        }));
        cuts.sort_unstable();
        let (mut free, mut from) = (Vec::new(), self.shared.0);
        let keep = from_cut(unit);
        for (start, stop) in cuts {
            if stop + keep <= from || start - keep >= self.shared.1 {
                continue;
            }
            free.push((from, start - keep));
            from = from.max(stop + keep);
        }
        free.push((from, self.shared.1));
        free.retain(|(from, to)| from < to);
        let longest = free.iter().map(|(from, to)| *to - *from).max().unwrap_or_default();
        // Where all are short the longest must do.
        let least = shortest(unit).min(longest);
        free.retain(|(from, to)| *to - *from >= least);
        free
    }

    fn line(&self, (from, to): (Length, Length), count: u32, unit: Unit) -> ScrewLine<'a> {
        let (through, long) = (self.through, to - from);
        // A stretch that is too short for two takes one.
        let count = if long < shortest(unit) { 1 } else { count.max(1) };
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
