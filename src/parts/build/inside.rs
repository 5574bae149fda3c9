//! Shelves behind the openings, and the space they lie in.

use crate::measure::Length;
use crate::model::{Axis, MemberKind, Opening, Set, ShelfSet, Side, Size};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face, Point};

use super::builder::{Builder, Draft, LYING};
use super::carcass::{Carcass, shelf_between};
use super::posts;

/// The space behind an opening from side to side.
pub(super) struct Space {
    /// The board at its left and right.
    pub(super) boards: [PartId; 2],
    /// Their inner faces, in the whole piece.
    pub(super) from: Length,
    pub(super) to: Length,
    /// From the board to the edge of the opening, left and right.
    pub(super) packing: [Size; 2],
}

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let openings = builder.case.openings.clone();
    for opening in openings.iter().filter(|opening| opening.shelves.is_some()) {
        shelves(builder, opening, carcass);
    }
}

/// Looks left and right from the middle of an opening for the nearest boards.
pub(super) fn space(builder: &Builder<'_>, opening: &Opening, carcass: &Carcass) -> Space {
    let y = opening.y + opening.high.length.half();
    between(builder, (opening.x, opening.wide.length), y, &carcass.ends)
}

/// Looks left and right, at a height, from the middle of a stretch of the
/// elevation for the nearest boards. The stretch begins at the first length from
/// the left side of the case and is as wide as the second.
pub(super) fn between(
    builder: &Builder<'_>,
    (x, wide): (Length, Length),
    y: Length,
    ends: &[PartId; 2],
) -> Space {
    let z = (builder.planes.carcass.length + builder.planes.inside.length).half();
    let middle = builder.at(x + wide.half(), y, z);
    let [mut left, mut right] = *ends;
    let face = |id: PartId, start: bool| {
        let space = builder.part(id).map(crate::parts::part::Part::cuboid);
        space.map_or(Length::ZERO, |space| if start { space.from.x } else { space.to.x })
    };
    let (mut from, mut to) = (face(left, false), face(right, true));
    for (id, part) in builder.own() {
        if part.role != Role::Partition {
            continue;
        }
        let space = part.cuboid();
        let covers = |d: Direction, p: &Point| {
            space.from.along(d) <= p.along(d) && p.along(d) <= space.to.along(d)
        };
        if !covers(Direction::Y, &middle) {
            continue;
        }
        if space.to.x <= middle.x && space.to.x > from {
            (left, from) = (id, space.to.x);
        }
        if space.from.x >= middle.x && space.from.x < to {
            (right, to) = (id, space.from.x);
        }
    }
    let edges = [x, x + wide];
    let gaps = [builder.case.x + x - from, to - builder.case.x - x - wide];
    let packing = [0, 1].map(|side| packing(builder, edges[side], side, gaps[side]));
    Space { boards: [left, right], from, to, packing }
}

/// The distance from the edge of a stretch to the board beside it, with the
/// statements it comes from where they are known.
fn packing(builder: &Builder<'_>, own: Length, side: usize, gap: Length) -> Size {
    let case = builder.case;
    let mut options = vec![Size::zero()];
    if let Some(frame) = &case.frame {
        let end = builder.end_thickness(Side::BOTH[side]);
        let set_in = case.set_in(Side::BOTH[side]);
        options.push(&frame.stiles[side].wide - &set_in - end);
    }
    for member in case.members.iter().filter(|member| member.axis == Axis::Across) {
        let edge = if side == 0 { member.x + member.wide.length } else { member.x };
        if edge != own {
            continue;
        }
        if let MemberKind::Stile(crate::model::Partition::Board(board)) = &member.kind {
            options.push((&member.wide - &builder.thickness(board.stock)).half());
        }
    }
    let found = options.into_iter().find(|size| size.length == gap);
    found.unwrap_or_else(|| Size::from_terms(gap, Vec::new()))
}

fn shelves(builder: &mut Builder<'_>, opening: &Opening, carcass: &Carcass) {
    let Some(set) = opening.shelves.clone() else { return };
    let Some([fixed, loose]) = set.stocks(builder.case.shelves.stock) else { return };
    let space = space(builder, opening, carcass);
    let clear = &opening.wide + &space.packing[0] + &space.packing[1];
    // Behind a face frame the boards stand as drawn, whatever its opening
    // measures; without one they are its sides.
    let off = match builder.case.frame {
        Some(_) => Size::zero(),
        None => opening.grown(Axis::Across),
    };
    let thick = [fixed, loose].map(|stock| builder.thickness(stock));
    for (number, (up, is_loose)) in (1..).zip(heights(&set, &opening.high, &thick)) {
        let y = &opening.stands[1] + up;
        let of = Of::Opening(opening.id);
        let which = if set.count() == 1 { Which::Only } else { Which::Number(number) };
        let from = builder.side(space.boards[0], true, space.from) - &builder.case.beside;
        if !is_loose {
            let joint = builder.case.shelves.joint.clone();
            let to = space.to - builder.case.x;
            let extent = (&from, to, clear.clone());
            let notes = set.notes.clone();
            shelf_between(
                builder,
                (of, Role::FixedShelf, which),
                fixed,
                &joint,
                extent,
                &y,
                shelf_front(builder, opening),
                set.span,
                notes,
            );
            continue;
        }
        let clearance = builder.case.shelves.clearance.clone();
        let front = shelf_front(builder, opening);
        let id = builder.add(Draft {
            of,
            which,
            role: Role::AdjustableShelf,
            assembly: Assembly::Loose(builder.id),
            stock: loose,
            length: &clear + &off - &clearance,
            width: &builder.planes.inside - &front,
            thickness: None,
            stands: Builder::stands(from + (&clearance - &off).half(), y, &front),
            axes: LYING,
            show: Some(Face::ThickEnd),
            span: set.span,
            notes: set.notes.clone(),
        });
        for board in posts::with_rear(builder, space.boards) {
            builder.join(JointSort::Laid, id, board, false, set.span);
        }
    }
}

/// How far above the lower edge of its opening the underside of each shelf lies,
/// and whether it stands on pins, from the lowest on. The fixed ones leave the same
/// clear height between them, and in each of these spaces the loose ones do.
pub(super) fn heights(
    set: &ShelfSet,
    high: &Size,
    [fixed, loose]: &[Size; 2],
) -> Vec<(Size, bool)> {
    let even = |high: &Size, thick: &Size, count: u32| {
        let count = i64::from(count);
        (high - thick * count) / (count + 1)
    };
    let space = even(high, fixed, set.fixed);
    let clear = even(&space, loose, set.loose);
    let mut all = Vec::new();
    for below in 0..=set.fixed {
        let floor = (&space + fixed) * i64::from(below);
        for number in 1..=set.loose {
            let number = i64::from(number);
            all.push((&floor + &clear * number + loose * (number - 1), true));
        }
        if below < set.fixed {
            all.push((floor + &space, false));
        }
    }
    all
}

/// The front edge of a shelf: behind the frame, or in a frame-less case behind
/// an inset front.
fn shelf_front(builder: &Builder<'_>, opening: &Opening) -> Size {
    let front = &builder.planes.carcass + &builder.case.shelves.set_back;
    let closes = builder.case.door_before(opening).unwrap_or(opening);
    match &closes.front {
        Some(fronts) if builder.case.frame.is_none() && fronts.set == Set::Inset => {
            front + builder.thickness(fronts.stock)
        }
        _ => front,
    }
}
