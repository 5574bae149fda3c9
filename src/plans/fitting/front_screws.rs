//! Where the screws go that hold a drawer front to its box: near the corners of the box,
//! from its inside, clear of its bottom and its joints, and of the holes of the pull; and
//! those of a framed false front in its blocks.

use crate::measure::{Length, Tape, Unit};
use crate::parts::{Cuboid, Direction, Face, FeatureKind, Front, Part, Role};
use crate::plans::hardware::pull_holes;

use super::screw_lines::ScrewLine;

/// How far a screw keeps from what is around it.
#[derive(Clone, Copy)]
struct Keeps {
    /// From the boards inside the box, so that its driver gets past them, and from the
    /// edge of the box.
    box_boards: Length,
    /// From a cut or a hole, or the edge of the wood that it bites in, to its center.
    cuts: Length,
}

/// 1/2 in, 12 mm from the boards inside the box and 1/4 in, 6 mm from a cut, with half of a
/// #8 screw; where a narrow frame leaves no such place, half of each (common practice, no
/// source).
fn keeps(unit: Unit) -> [Keeps; 3] {
    let [wide, near] = [
        unit.either(Length::inches(1, 2), Length::mm(12)),
        unit.either(Length::inches(1, 4), Length::mm(6)),
    ];
    let half_screw = unit.either(Length::inches(5, 64), Length::mm(2));
    [(wide, near), (near, near), (near, near.half())]
        .map(|(box_boards, cuts)| Keeps { box_boards, cuts: cuts + half_screw })
}

/// From the side of the box to the screws where nothing is in the way: 1-1/2 in, 40 mm
/// (common practice, no source). The screws of a corner end before that.
fn from_side(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(40))
}

/// How far the places lie apart that are tried.
fn step(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// Two screws of a side stand no nearer to each other: 1 in, 25 mm (common practice, no
/// source).
fn apart(unit: Unit) -> Length {
    unit.either(Length::inches(1, 1), Length::mm(25))
}

/// The place nearest to a usual one of those that are tried, up to so far.
fn nearest(usual: Length, most: Length, unit: Unit) -> Length {
    let count = (most / step(unit)).floor().clamp(0, 400);
    let below = (usual / step(unit)).floor().clamp(0, count);
    let (below, above) = (step(unit) * below, step(unit) * (below + 1).min(count));
    if (above - usual).abs() < (usual - below).abs() { above } else { below }
}

/// The lines of the screws, those of the left side first: two screws at each side, one
/// where the box is too low for two; none where no place is free.
pub(super) fn lines<'a>(
    front: &Front<'a>,
    box_front: &'a Part,
    of_box: &[&'a Part],
    tape: &Tape,
) -> Vec<ScrewLine<'a>> {
    let sides = |keeps: Keeps| {
        let room = Room::of(front, box_front, of_box, (keeps, tape))?;
        let [left, right] = [true, false].map(|left| room.side(left));
        (!left.is_empty() && !right.is_empty()).then(|| [left, right].concat())
    };
    keeps(tape.unit).into_iter().find_map(sides).unwrap_or_default()
}

/// The line of the screws through a block into a framed front, whose panel floats: two
/// screws in its frame, or one where there is room for no more.
pub(super) fn through_block<'a>(
    front: &Front<'a>,
    block: &'a Part,
    tape: &Tape,
) -> Vec<ScrewLine<'a>> {
    let space = block.cuboid();
    let left = (space.from.x + space.to.x).half() < (front.space.from.x + front.space.to.x).half();
    let line = |keeps: Keeps| {
        let edge = keeps.box_boards.min((space.to.x - space.from.x) / 3);
        let x = (space.from.x + edge, space.to.x - edge);
        let y = (space.from.y + keeps.box_boards, space.to.y - keeps.box_boards);
        let reach = x.1 - x.0;
        let room = Room { front, board: block, tape, keeps, x, y, reach, pulls: Vec::new() };
        let lines = room.side(left);
        (!lines.is_empty()).then_some(lines)
    };
    keeps(tape.unit).into_iter().find_map(line).unwrap_or_default()
}

/// The back of a box front between the boards of the box.
struct Room<'r, 'a> {
    front: &'r Front<'a>,
    board: &'a Part,
    tape: &'r Tape,
    keeps: Keeps,
    /// From and to, in the piece.
    x: (Length, Length),
    y: (Length, Length),
    /// How far in from its side a place may be.
    reach: Length,
    /// Holes that the pull of the front takes through both boards.
    pulls: Vec<Cuboid>,
}

impl<'r, 'a> Room<'r, 'a> {
    fn of(
        front: &'r Front<'a>,
        board: &'a Part,
        of_box: &[&'a Part],
        (keeps, tape): (Keeps, &'r Tape),
    ) -> Option<Self> {
        let keep = keeps.box_boards;
        let own = board.cuboid();
        let middle = (own.from.x + own.to.x).half();
        let mut x = (own.from.x, own.to.x);
        let mut low = own.from.y;
        for part in of_box {
            let other = part.cuboid();
            match part.role {
                Role::DrawerSide if other.from.x < middle => x.0 = x.0.max(other.to.x),
                Role::DrawerSide => x.1 = x.1.min(other.from.x),
                Role::DrawerBottom => low = low.max(other.to.y),
                _ => {}
            }
        }
        let y = (low + keep, own.to.y - keep);
        let x = (x.0 + keep, x.1 - keep);
        let pulls = front.parts.iter().copied().flat_map(pull_holes).collect();
        (x.0 < x.1 && y.0 <= y.1).then_some(Self {
            front,
            board,
            tape,
            keeps,
            x,
            y,
            reach: (x.1 - x.0).half(),
            pulls,
        })
    }

    /// The end that the heights of the screws count from.
    fn end(&self) -> Face {
        let place = &self.board.placement;
        self.board.datum([true, false].map(|start| place.face(Direction::Y, start)))
    }

    /// The places along x that are tried, at marks of the tape from an end of the board: the
    /// nearest to the usual place first.
    fn along(&self, left: bool) -> Vec<Length> {
        let unit = self.tape.unit;
        let usual = self.usual_in();
        let count = (self.reach / step(unit)).floor().clamp(0, 400);
        let mut tried: Vec<Length> = (0..=count).map(|number| step(unit) * number).collect();
        tried.sort_by_key(|by| (*by - usual).abs());
        tried.into_iter().map(|by| self.in_from(left, by)).collect()
    }

    /// The place so far in from the room at a side, at a mark of the tape from the end of
    /// the board that is nearer.
    fn in_from(&self, left: bool, by: Length) -> Length {
        let own = self.board.cuboid();
        match left {
            true => own.from.x + self.tape.up(self.x.0 + by - own.from.x),
            false => own.to.x - self.tape.up(own.to.x - self.x.1 + by),
        }
    }

    /// The lowest and the highest place for a screw, at marks of the tape.
    fn ends(&self) -> (Length, Length) {
        (self.mark(self.y.0 + self.tape.mark), self.mark(self.y.1))
    }

    fn mark(&self, y: Length) -> Length {
        let low = self.board.cuboid().from.y;
        low + self.tape.down(y - low)
    }

    /// Two screws so far in from both ends; `None` where they would be too near.
    fn pair(&self, (low, high): (Length, Length), by: Length) -> Option<Vec<Length>> {
        let foot = self.board.cuboid().from.y;
        let (low, high) = (low + self.mark(by + foot) - foot, high - by);
        (high - low >= apart(self.tape.unit)).then(|| vec![self.mark(low), self.mark(high)])
    }

    /// The heights that are tried: pairs first, those near the usual places before others,
    /// and at last one alone, from the top down.
    fn up(&self) -> Vec<Vec<Length>> {
        let unit = self.tape.unit;
        let (low, high) = self.ends();
        let count = ((high - low).max(Length::ZERO).half() / step(unit)).floor().clamp(0, 400);
        let usual = self.keeps.box_boards;
        let mut insets: Vec<Length> = (0..=count).map(|number| step(unit) * number).collect();
        insets.sort_by_key(|by| (*by - usual).abs());
        let mut pairs: Vec<Vec<Length>> =
            insets.iter().filter_map(|by| self.pair((low, high), *by)).collect();
        let span = (high - low).max(Length::ZERO);
        let count = (span / step(unit)).floor().clamp(0, 400);
        let ones = (0..=count).map(|number| vec![self.mark(high - step(unit) * number)]);
        pairs.extend(ones);
        pairs
    }

    /// The usual places of two screws at a side, which most boxes have.
    fn usual(&self, left: bool) -> Option<(Length, Vec<Length>)> {
        let unit = self.tape.unit;
        let (low, high) = self.ends();
        let most = (high - low).max(Length::ZERO).half();
        let heights = self.pair((low, high), nearest(self.keeps.box_boards, most, unit))?;
        let by = nearest(self.usual_in(), self.reach, unit);
        Some((self.in_from(left, by), heights))
    }

    /// How far in from the room at its side a screw usually stands.
    fn usual_in(&self) -> Length {
        (from_side(self.tape.unit) - self.keeps.box_boards).min(self.reach / 2)
    }

    fn side(&self, left: bool) -> Vec<ScrewLine<'a>> {
        let at = |x: Length, heights: &[Length]| -> Option<Vec<&'a Part>> {
            heights.iter().map(|y| self.into(x, *y)).collect()
        };
        if let Some((x, heights)) = self.usual(left)
            && let Some(into) = at(x, &heights)
        {
            return self.struck(left, x, &heights, &into);
        }
        let along = self.along(left);
        for heights in self.up() {
            for x in &along {
                if let Some(into) = at(*x, &heights) {
                    return self.struck(left, *x, &heights, &into);
                }
            }
        }
        Vec::new()
    }

    /// The board of the front that a screw there bites in; `None` where it can't stand.
    fn into(&self, x: Length, y: Length) -> Option<&'a Part> {
        let around = self.keeps.cuts;
        let mut screw = self.board.cuboid();
        (screw.from.x, screw.to.x) = (x - around, x + around);
        (screw.from.y, screw.to.y) = (y - around, y + around);
        // Through the box, and on through the whole of the front.
        screw.from.z = self.front.parts.iter().map(|part| part.cuboid().from.z).min()?;
        let is_free = |part: &Part| {
            // The screw ends short of flutes.
            let cuts = part.features.iter();
            let cuts = cuts.filter(|own| !matches!(own.kind, FeatureKind::Flute(_)));
            !cuts.flat_map(|own| part.hollows(own)).any(|hollow| hollow.overlaps(&screw))
        };
        if !is_free(self.board) || self.pulls.iter().any(|hole| self.meets(hole, &screw)) {
            return None;
        }
        let covers = |part: &&&'a Part| {
            let own = part.cuboid();
            own.from.x <= screw.from.x
                && screw.to.x <= own.to.x
                && own.from.y <= screw.from.y
                && screw.to.y <= own.to.y
        };
        let wood = self.front.parts.iter().filter(|part| part.role != Role::FrontPanel);
        let found = wood.filter(covers).find(|part| is_free(part))?;
        Some(*found)
    }

    /// The hole goes on through the box.
    fn meets(&self, hole: &Cuboid, screw: &Cuboid) -> bool {
        [Direction::X, Direction::Y].into_iter().all(|side| hole.overlaps_along(screw, side))
    }

    fn struck(
        &self,
        left: bool,
        x: Length,
        heights: &[Length],
        into: &[&'a Part],
    ) -> Vec<ScrewLine<'a>> {
        let (through, own) = (self.board, self.board.cuboid());
        let end = self.end();
        let edge = through.placement.face(Direction::X, left);
        let line = |into: &'a Part, heights: &[Length]| {
            let from = |y: &Length| through.distance(end, *y - own.from.y);
            let mut from: Vec<Length> = heights.iter().map(from).collect();
            from.sort_unstable();
            let first = from.first().copied().unwrap_or_default();
            let apart = from.last().copied().unwrap_or_default() - first;
            ScrewLine {
                through,
                face: through.placement.face(Direction::Z, false),
                into,
                edge,
                at: through.distance(edge, x - own.from.x),
                end,
                first,
                apart,
                count: u32::try_from(heights.len()).unwrap_or(u32::MAX),
                shim: (own.from.z - into.cuboid().to.z).max(Length::ZERO),
            }
        };
        let same = into.windows(2).all(|two| match two {
            [one, other] => std::ptr::eq(*one, *other),
            _ => true,
        });
        match (same, into.first()) {
            (true, Some(first)) => vec![line(first, heights)],
            _ => into.iter().zip(heights).map(|(into, y)| line(into, &[*y])).collect(),
        }
    }
}
