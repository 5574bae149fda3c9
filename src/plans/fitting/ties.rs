//! The screws between two cases that stand side by side: two near the front and two near the
//! back, clear of pins, slides, hinges, and joints, and driven from the case in which they are
//! seen least.

use crate::measure::{Length, Unit};
use crate::model::{Case, Side, Sight};
use crate::parts::{Cuboid, Direction, Part, Role};
use crate::plans::Workings;
use crate::plans::beside;
use crate::plans::operations::Beside;

use super::Drawer;
use super::driver_room::{are_reached, before_face, hinges_on};
use super::pins::holes_in;
use super::screw_lines::ScrewLine;
use super::screw_row::{cuts, from_block, half_screw};
use super::screws::{Fastening, Long, Purpose};
use super::slides::{Line, SECTION};

/// What is screwed from case to case.
pub(super) fn ties<'a>(work: &Workings<'a>, drawers: &[Drawer<'a>]) -> Vec<Fastening<'a>> {
    let all = beside::pairs(work.piece, work.parts).into_iter();
    all.filter_map(|own| tie(work, drawers, own)).collect()
}

fn tie<'a>(work: &Workings<'a>, drawers: &[Drawer<'a>], own: Beside) -> Option<Fastening<'a>> {
    let [left, right] = own.cases;
    let ends = [work.parts.end(left, Side::Right)?, work.parts.end(right, Side::Left)?];
    let [one, two] = ends;
    let sides = [(Side::Right, [one, two]), (Side::Left, [two, one])].map(|(side, both)| {
        let lines = Place::of(work, drawers, both).lines();
        let sight = work.piece.case(both[0].case).map(|case| seen(case, side));
        let reached = are_reached(work.parts, both, &lines);
        // A place is found, a driver gets there, and it is seen as little as can be.
        ((lines.len() < 2, !reached, sight), both, lines)
    });
    let (_, [through, into], lines) = sides.into_iter().min_by_key(|(rank, ..)| *rank)?;
    Some(Fastening {
        purpose: Purpose::Ties,
        long: own.sold.map_or(Long::Between(through.thickness.length, own.most), Long::Is),
        count: match lines.is_empty() {
            true => own.screws,
            false => lines.iter().map(|line| line.count).sum(),
        },
        part: through,
        into: vec![into],
        joint: None,
        hole: None,
        lines,
    })
}

/// How much is seen of the inside of an end.
#[must_use]
pub fn seen(case: &Case, side: Side) -> Sight {
    let x = match side {
        Side::Left => Length::ZERO,
        Side::Right => case.wide.length,
    };
    let beside = case.beside((x, x), (case.base_high().length, case.high.length));
    beside.into_iter().map(crate::model::Opening::sight).max().unwrap_or(Sight::Hidden)
}

/// Two ends that lie on each other, and all that a screw through them keeps clear of.
struct Place<'w, 'a> {
    work: &'w Workings<'a>,
    through: &'a Part,
    into: &'a Part,
    /// What is cut out of either, and the pins and slides on them: no screw meets it.
    holes: Vec<Cuboid>,
    /// What stands before the face that they are driven into.
    blocks: Vec<Cuboid>,
    /// From where to where a screw may stand.
    heights: (Length, Length),
    unit: Unit,
}

impl<'w, 'a> Place<'w, 'a> {
    fn of(work: &'w Workings<'a>, drawers: &[Drawer<'a>], [through, into]: [&'a Part; 2]) -> Self {
        let unit = work.piece.tape().unit;
        let mut holes: Vec<Cuboid> = cuts(through).chain(cuts(into)).collect();
        holes.extend([through, into].into_iter().flat_map(|board| holes_in(work, board)));
        holes.extend(drawers.iter().filter_map(|drawer| slide(work, drawer, through, unit)));
        // The doors hang by then: no driver gets behind the arm of a hinge.
        holes.extend(hinges_on(work.parts, through));
        let blocks = before_face(work, through, into);
        let heights = heights(work, [through, into]);
        Self { work, through, into, holes, blocks, heights, unit }
    }

    /// The line near the front, and that near the back.
    fn lines(&self) -> Vec<ScrewLine<'a>> {
        let both = [self.through, self.into].map(|part| part.extent(Direction::Z));
        let (front, back) = (both[0].0.max(both[1].0), both[0].1.min(both[1].1));
        let middle = (front + back).half();
        // From an edge to its line, behind rows of pins at their usual place: 2-3/4 in, 70 mm
        // (common practice, no source), and farther in by steps where that is taken.
        let inset = self.unit.either(Length::inches(11, 4), Length::mm(70));
        let step = self.unit.either(Length::inches(1, 2), Length::mm(12));
        let near = |from_edge: &dyn Fn(Length) -> Length| {
            let places =
                (0..40).map(|number| from_edge(inset.min((back - front) / 4) + step * number));
            let places: Vec<Length> = places.collect();
            let inside = |z: &&Length| {
                let own = **z;
                front < own && own < back && (own <= middle) == (from_edge(Length::ZERO) == front)
            };
            let whole = places.iter().filter(inside).find_map(|z| self.line(*z, 2));
            whole.or_else(|| places.iter().filter(inside).find_map(|z| self.line(*z, 1)))
        };
        let front_line = near(&|by| front + by);
        let back_line = near(&|by| back - by);
        front_line.into_iter().chain(back_line).collect()
    }

    /// A line at this depth, with so many screws at the free places that are nearest to a
    /// fifth of the height from both ends, or with one in the middle.
    fn line(&self, z: Length, count: u32) -> Option<ScrewLine<'a>> {
        let (through, own) = (self.through, self.through.cuboid());
        let z = self.on_mark(z);
        let (low, high) = self.heights;
        let fifth = (high - low) / 5;
        let step = self.unit.either(Length::inches(1, 2), Length::mm(12));
        let near = |usual: Length, from: Length, to: Length| {
            let places = (0..80).flat_map(|number| [usual + step * number, usual - step * number]);
            places.filter(|y| from <= *y && *y <= to).find(|y| self.is_free(z, *y))
        };
        let middle = (low + high).half();
        let screws = match count {
            2 => [
                near(low + fifth, low, middle - fifth / 2)?,
                near(high - fifth, middle + fifth / 2, high)?,
            ],
            _ => [near(middle, low, high)?; 2],
        };
        let place = &through.placement;
        let faces = |side: Direction| [true, false].map(|start| place.face(side, start));
        let [front, back] = faces(Direction::Z);
        let from_front = through.distance(front, z - own.from.z);
        let from_back = through.distance(back, z - own.from.z);
        let (edge, at) =
            if from_front <= from_back { (front, from_front) } else { (back, from_back) };
        let end = through.datum(faces(Direction::Y));
        let from_end = screws.map(|y| through.distance(end, y - own.from.y));
        let to_end = self.into.cuboid().from.x > own.from.x;
        Some(ScrewLine {
            through,
            face: place.face(Direction::X, to_end),
            into: self.into,
            edge,
            at,
            end,
            first: from_end[0].min(from_end[1]),
            apart: screws[1] - screws[0],
            count,
            // How far the ends stand apart.
            shim: (-own.overlap_along(&self.into.cuboid(), Direction::X)).max(Length::ZERO),
        })
    }

    /// A depth at a mark of the tape from the front edge of the board that they go through.
    fn on_mark(&self, z: Length) -> Length {
        let front = self.through.extent(Direction::Z).0;
        front + self.work.piece.tape().down(z - front)
    }

    fn is_free(&self, z: Length, y: Length) -> bool {
        let keep = self.unit.either(Length::inches(1, 4), Length::mm(6)) + half_screw(self.unit);
        let meets = |other: &Cuboid, by: Length| {
            other.from.z < z + by
                && z - by < other.to.z
                && other.from.y < y + by
                && y - by < other.to.y
        };
        // From the edges and ends of both boards: 3/4 in, 20 mm (common practice, no source).
        let inside = self.unit.either(Length::inches(3, 4), Length::mm(20));
        let holds = [self.through, self.into].into_iter().all(|part| {
            let own = part.cuboid();
            own.from.z + inside <= z
                && z <= own.to.z - inside
                && own.from.y + inside <= y
                && y <= own.to.y - inside
        });
        holds
            && !self.holes.iter().any(|hole| meets(hole, keep))
            && !self
                .blocks
                .iter()
                .any(|block| meets(block, from_block(block.size(Direction::X), self.unit)))
    }
}

/// From where to where a screw may stand: above both bottoms and below both tops.
fn heights(work: &Workings<'_>, ends: [&Part; 2]) -> (Length, Length) {
    let both = ends.map(|part| part.extent(Direction::Y));
    let (mut low, high) = (both[0].0.max(both[1].0), both[0].1.min(both[1].1));
    for part in ends {
        let boards = work.parts.of_case(part.case).iter();
        let bottoms = boards.filter(|own| own.role == Role::Bottom);
        low = bottoms.map(|own| own.extent(Direction::Y).1).fold(low, Length::max);
    }
    (low, high)
}

/// What the slide of a drawer takes of the board that it is screwed to: under its box 1 in
/// and beside the lower edge of that 3/4 in, or 1 in above and below its middle (25 and 20 mm;
/// common practice, no source).
fn slide(work: &Workings<'_>, drawer: &Drawer<'_>, board: &Part, unit: Unit) -> Option<Cuboid> {
    if !drawer.carriers.iter().any(|own| std::ptr::eq(own.board, board)) {
        return None;
    }
    let of_box =
        |part: &&Part| part.role == Role::DrawerSide && part.opening() == Some(drawer.opening.id);
    let side = work.parts.of_case(board.case).iter().find(of_box)?.cuboid();
    let inch = unit.either(Length::inches(1, 1), Length::mm(25));
    let some = unit.either(Length::inches(3, 4), Length::mm(20));
    let (from, to) = match drawer.hardware.undermount {
        true => (side.from.y - inch, side.from.y + some),
        false => {
            let line = side.from.y + drawer.up_box?;
            match drawer.line {
                Line::Center => (line - inch, line + inch),
                Line::LowerEdge => (line, line + SECTION),
            }
        }
    };
    let mut space = board.cuboid();
    (space.from.y, space.to.y) = (from, to);
    (space.from.z, space.to.z) = (side.from.z, side.to.z);
    Some(space)
}
