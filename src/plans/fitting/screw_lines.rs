//! Where the screws of a joint go: along one line on the board that they go through,
//! over the middle of what is behind it.

use crate::measure::{Length, Tape, Unit};
use crate::parts::{Cuboid, Direction, Face, Part, Point, Role};
use crate::trade;

use super::screw_row::{Row, cuts, half_screw};

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
        let mut first = own;
        let stand = |screw: &mut Cuboid, direction, at: Length| {
            screw.from.set(direction, at - around);
            screw.to.set(direction, at + around);
        };
        let place =
            |direction, from: Face, at| own.from.along(direction) + through.distance(from, at);
        stand(&mut first, across, place(across, self.edge, self.at));
        match self.face.is_start() {
            true => first.to.set(axis, own.from.along(axis) + long),
            false => first.from.set(axis, own.to.along(axis) - long),
        }
        let screw = |number: u32| {
            let (mut screw, at) = (first, self.first + self.apart * i64::from(number));
            stand(&mut screw, along, place(along, self.end, at));
            screw
        };
        (0..self.count).map(screw).collect()
    }

    /// True where both boards have wood at its screws: neither ends nor has a cut there, and
    /// half as much wood as usual is left between them and the next cut or end along the line.
    pub(super) fn is_clear(&self, long: Length, unit: Unit) -> bool {
        let along = self.through.placement.direction(self.end);
        let beside = (trade::from_cut(unit) - half_screw(unit)).half();
        let hollows: Vec<Cuboid> = cuts(self.through).chain(cuts(self.into)).collect();
        let boards = [self.through, self.into].map(|board| board.extent(along));
        self.screws(long, half_screw(unit)).into_iter().all(|mut screw| {
            let (from, to) = (screw.from.along(along) - beside, screw.to.along(along) + beside);
            screw.from.set(along, from);
            screw.to.set(along, to);
            boards.iter().all(|(start, end)| *start <= from && to <= *end)
                && !hollows.iter().any(|hollow| hollow.overlaps(&screw))
        })
    }

    /// Where the heads of its screws are, in the piece.
    #[must_use]
    pub fn heads(&self) -> Vec<Point> {
        self.screws(Length::ZERO, Length::ZERO).into_iter().map(|screw| screw.from).collect()
    }

    /// The same line with its screws elsewhere: all of them by up to 1 in, 25 mm, to either
    /// side, and some more or less between its ends; at last one in place of two.
    pub(super) fn others(&self, unit: Unit) -> Vec<Self> {
        let span = self.apart * i64::from(self.count.saturating_sub(1));
        let with = |count: u32| match count {
            0 | 1 => {
                let first = self.first + span.half();
                Self { count, first, apart: Length::ZERO, ..self.clone() }
            }
            _ => Self { count, apart: span / i64::from(count - 1), ..self.clone() },
        };
        let counts = match self.count {
            0 | 1 => vec![self.count],
            2 => vec![2, 3, 4, 1],
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

    /// The same line nearer to the edge that it counts from, or further from it, by up to 1 in,
    /// 25 mm, where that leaves both boards their wood beside it.
    pub(super) fn aside(&self, unit: Unit) -> Vec<Self> {
        let across = self.through.placement.direction(self.edge);
        let own = self.through.extent(across);
        let step = unit.either(Length::inches(1, 1), Length::mm(25));
        let moved = [-4, 4, -2, 2].map(|quarters| self.at + step * quarters / 4);
        let boards = [self.through, self.into].map(|board| board.extent(across));
        let is_inside = |at: &Length| {
            let place = own.0 + self.through.distance(self.edge, *at);
            let beside = trade::from_cut(unit).twice();
            boards.iter().all(|(from, to)| *from + beside <= place && place + beside <= *to)
        };
        moved.into_iter().filter(is_inside).map(|at| Self { at, ..self.clone() }).collect()
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
    along(&row, count, blocks, unit)
}

/// So many screws along a row, or in each of several stretches of it as many as that takes.
fn along<'a>(
    row: &Row<'a>,
    count: Option<u32>,
    blocks: &[Cuboid],
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let stretches = row.stretches(blocks, unit);
    row.lines(&stretches, count.filter(|_| stretches.len() == 1), unit)
}

/// One line through a block into the board that it lies against, clear of the cuts of both.
pub(super) fn into_side<'a>(
    through: &'a Part,
    into: &'a Part,
    count: u32,
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let axis = through.touching(into).unwrap_or(through.placement.thickness);
    let row = Row::along_axis(through, into, axis, unit).filter(Row::meets);
    row.map_or(Vec::new(), |row| along(&row, Some(count), &[], unit))
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
    row.lines(&row.stretches(&[], unit), Some(count), unit)
}

/// A line halfway between the front edge of a hinge block and the holes of its plate; over
/// its middle where no hole is bored in it.
pub(super) fn before_plate<'a>(
    through: &'a Part,
    into: &'a Part,
    count: u32,
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let Some(row) = Row::of(through, into, unit) else { return Vec::new() };
    let front = through.cuboid().from.along(row.across);
    let holes = cuts(through)
        .map(|hole| (hole.from.along(row.across) + hole.to.along(row.across)).half() - front);
    let row = match holes.min() {
        Some(hole) => row.shifted(hole.half() - row.middle),
        None => row,
    };
    row.lines(&row.stretches(&[], unit), Some(count), unit)
}

/// Two lines in place of one, a quarter of what the boards share in from either side, so
/// that the middle is left free, and clear of what is on the other board; one in the middle
/// of what is too narrow for two, under 1-1/2 in, 40 mm.
pub(super) fn beside_middle<'a>(
    through: &'a Part,
    into: &'a Part,
    count: u32,
    blocks: &[Cuboid],
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let Some(row) = Row::of(through, into, unit) else { return Vec::new() };
    if row.wide < unit.either(Length::inches(3, 2), Length::mm(40)) {
        return clear_of(through, into, Some(count), blocks, unit);
    }
    let off = row.wide / 4;
    let rows = [-off, off].map(|by| row.shifted(by));
    let wanted = count.div_ceil(2).max(2);
    let lines = rows.iter().flat_map(|row| {
        // Where cuts part the line into many, a screw in each of a few of them will do.
        let stretches = row.stretches(blocks, unit);
        let last = stretches.len().saturating_sub(1);
        let few = usize::try_from(wanted).unwrap_or(2);
        let is_kept =
            |number: &usize| last < few || (0..few).any(|own| own * last / (few - 1) == *number);
        let kept = stretches.into_iter().enumerate().filter(|(number, _)| is_kept(number));
        let kept: Vec<(Length, Length)> = kept.map(|(_, stretch)| stretch).collect();
        row.lines(&kept, Some(wanted), unit)
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
    let middle = own.from.along(across) + row.middle;
    let lines = places.into_iter().flat_map(|at| {
        // Where a board lies along the line, it moves toward the middle, or to the edge.
        let inward = if at * 2 < from + to { inset / 2 } else { -inset / 2 };
        let moved = [0, 1, 2, 3, -1].into_iter().map(|steps| {
            let row = row.shifted(at + inward * steps - middle);
            let stretches = row.stretches(blocks, unit);
            (row, stretches)
        });
        let free = moved.into_iter().find(|(_, stretches)| !stretches.is_empty());
        let Some((row, mut stretches)) = free else { return Vec::new() };
        let is_below = |to: Length| row.along == Direction::Y && to <= bottom;
        stretches.retain(|(_, to)| !is_below(*to));
        row.lines(&stretches, None, unit)
    });
    lines.collect()
}

/// The lines of a row of screws up or down through a board, bay by bay: so far behind the
/// foremost face of the piece.
pub(super) fn upright<'a>(
    both: [&'a Part; 2],
    down: bool,
    (z, bays): (Length, &[Vec<Length>]),
) -> Vec<ScrewLine<'a>> {
    bays.iter().filter_map(|bay| upright_at(both, down, z, bay)).collect()
}

/// The line of screws up or down through a board at these places, in the piece, that are evenly
/// apart; `None` for none.
fn upright_at<'a>(
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
