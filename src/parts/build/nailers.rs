//! Nailers: boards on edge from end to end, tight against the back, that the wall
//! screws go through. Partitions are notched for them, so that each is one board.

use crate::measure::{Length, Unit};
use crate::model::{Axis, Joinery, JointKind, MemberKind, RailSide, Size};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::finished::meets_finish;
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};
use crate::trade;

use super::builder::{ACROSS, Builder, Draft};
use super::inside;

/// A nailer that stands in a lower space than this is put under the next board: two
/// screws, one above the other, no longer stand clear of its edges. 2-1/2 in, 60 mm
/// (a nailer is 3 to 4 in wide: common practice, no source).
fn least(unit: Unit) -> Length {
    unit.either(Length::inches(5, 2), Length::mm(60))
}

/// The nailers of the case, the upper one first. The boards that they lie against
/// inside the case need not be there yet.
pub(super) fn place(builder: &mut Builder<'_>, ends: &[PartId; 2]) -> Vec<PartId> {
    let case = builder.case;
    let count = builder.piece.nailers(case);
    let mut placed = Vec::new();
    if count > 0 {
        let (low, high) = under(builder);
        placed.extend(add(builder, ends, RailSide::Top, (low, high)));
    }
    if count > 1
        && let Some((low, high)) = above(builder)
    {
        placed.extend(add(builder, ends, RailSide::Bottom, (low, high)));
    }
    placed
}

/// The boards that lie in the case, as far as a nailer could meet them: the lower and
/// the upper face of each, from the top down.
fn lying(builder: &Builder<'_>) -> Vec<(Size, Size)> {
    let case = builder.case;
    let mut found = Vec::new();
    for member in &case.members {
        match &member.kind {
            MemberKind::Rail(Some(shelf)) => {
                let top = &member.stands[1] + &member.wide - &shelf.lip;
                found.push((&top - builder.thickness(shelf.board.stock), top));
            }
            MemberKind::Divider(board) if member.axis == Axis::Down => {
                let low = member.stands[1].clone();
                let top = &low + builder.thickness(board.stock);
                found.push((low, top));
            }
            MemberKind::Divider(_) | MemberKind::Stile(_) | MemberKind::Rail(None) => {}
        }
    }
    for opening in &case.openings {
        let Some(set) = &opening.shelves else { continue };
        let Some(stocks) = set.stocks(case.shelves.stock) else { continue };
        let thick = stocks.map(|stock| builder.thickness(stock));
        for (up, is_loose) in inside::heights(set, &opening.high, &thick) {
            let low = &opening.stands[1] + up;
            if !is_loose {
                found.push((low.clone(), low + &thick[0]));
            }
        }
    }
    found.sort_by_key(|(low, _)| std::cmp::Reverse(low.length));
    found
}

/// The top of the bottom of the case.
fn bottom_top(builder: &Builder<'_>) -> Option<Size> {
    let bottom = builder.own().find(|(_, part)| part.role == Role::Bottom)?.1;
    Some(&bottom.stands[1] + &bottom.thickness)
}

/// The lower and the upper edge of the nailer under the top, or under the first
/// board below it that has room for one.
fn under(builder: &Builder<'_>) -> (Size, Size) {
    let case = builder.case;
    let wanted = &case.nailers.wide;
    let plane = builder.planes.inside.length;
    let closes = |role: Role| matches!(role, Role::Top | Role::Stretcher);
    let top = builder
        .own()
        .find(|(_, part)| closes(part.role) && part.cuboid().to.z == plane)
        .map(|(_, part)| part.stands[1].clone());
    let floor = bottom_top(builder).unwrap_or_else(|| case.base_high());
    let boards = lying(builder);
    let ceilings = [top.unwrap_or_else(|| case.high.clone())]
        .into_iter()
        .chain(boards.iter().map(|(low, _)| low.clone()));
    let spaces: Vec<(Size, Size)> = ceilings
        .map(|ceiling| {
            let below = boards.iter().map(|(_, top)| top).chain([&floor]);
            let next = below.filter(|top| top.length <= ceiling.length);
            let next = next.max_by_key(|top| top.length).unwrap_or(&floor).clone();
            (next, ceiling)
        })
        .collect();
    let clear = |(low, high): &(Size, Size)| high.length - low.length;
    let least = match case.nailers.is_wide_written {
        true => wanted.length,
        false => wanted.length.min(least(builder.piece.tape().unit)),
    };
    let roomy = spaces.iter().find(|space| clear(space) >= least);
    let Some((low, high)) = roomy.or(spaces.first()) else {
        return (&case.high - wanted, case.high.clone());
    };
    match case.nailers.is_wide_written || clear(&(low.clone(), high.clone())) >= wanted.length {
        true => (high - wanted, high.clone()),
        false => (low.clone(), high.clone()),
    }
}

/// The lower and the upper edge of the nailer above the bottom, or above the first board
/// over it that has room for one.
fn above(builder: &Builder<'_>) -> Option<(Size, Size)> {
    let nailers = &builder.case.nailers;
    let boards = lying(builder);
    let floors = boards.iter().rev().map(|(_, top)| top.clone());
    let bottom = bottom_top(builder)?;
    let mut floors = std::iter::once(bottom.clone()).chain(floors);
    let least = match nailers.is_wide_written {
        true => nailers.wide.length,
        false => nailers.wide.length.min(least(builder.piece.tape().unit)),
    };
    let found = floors.find_map(|low| {
        let over = boards.iter().map(|(under, _)| under);
        let over = over.filter(|under| under.length >= low.length);
        let high = &low + &nailers.wide;
        let high = match over.min_by_key(|under| under.length) {
            Some(over) if over.length < high.length => over.clone(),
            _ => high,
        };
        (high.length - low.length >= least).then_some((low, high))
    });
    // One that is asked for so wide is told where it finds no room.
    let asked = || (nailers.is_wide_written).then(|| (bottom.clone(), &bottom + &nailers.wide));
    found.or_else(asked)
}

fn add(
    builder: &mut Builder<'_>,
    ends: &[PartId; 2],
    edge: RailSide,
    (low, high): (Size, Size),
) -> Vec<PartId> {
    let nailers = builder.case.nailers.clone();
    let z = &builder.planes.inside - builder.thickness(nailers.stock);
    let stretches = clear_of_keep_outs(builder, (low.length, high.length), z.length);
    let alone = stretches.len() == 1;
    let joint = Joinery::plain(JointKind::Pocket);
    let mut added = Vec::new();
    for (number, stretch) in (1..).zip(stretches) {
        let id = builder.add(Draft {
            of: Of::Case(builder.id),
            which: if alone { Which::Only } else { Which::Number(number) },
            role: Role::Nailer(edge),
            // They go in when the carcass is made.
            assembly: Assembly::Loose(builder.id),
            stock: nailers.stock,
            length: &stretch.to - &stretch.from,
            width: &high - &low,
            thickness: None,
            stands: Builder::stands(&stretch.from, &low, &z),
            axes: ACROSS,
            // The pockets are bored in the other face, which the back covers.
            show: Some(Face::ThickStart),
            span: nailers.span,
            notes: nailers.notes.clone(),
        });
        for ((end, right), meets) in ends.iter().zip([false, true]).zip(stretch.meets) {
            let Some(board) = builder.part(*end).filter(|_| meets) else { continue };
            let inside = board.placement.face(Direction::X, right);
            builder.house(id, *end, inside, &joint, nailers.span);
        }
        added.push(id);
    }
    added
}

/// A stretch of a nailer, from the left side of the case.
struct Stretch {
    from: Size,
    to: Size,
    /// It meets the left, and the right end of the case.
    meets: [bool; 2],
}

/// What is left of a nailer between the ends where it is divided for the pipes and
/// sockets that stand in it.
fn clear_of_keep_outs(
    builder: &Builder<'_>,
    (low, high): (Length, Length),
    front: Length,
) -> Vec<Stretch> {
    let [left, right] = builder.inner_sides();
    let unit = builder.piece.tape().unit;
    let clear = &builder.case.nailers.clear;
    let spare = clear.length;
    let (x, wall) = (builder.case.beside.clone(), builder.piece.wall());
    let thick = builder.thickness(builder.case.nailers.stock).length;
    let z = builder.piece.ahead(builder.case) + front;
    let mut taken: Vec<(Size, Size)> = builder
        .piece
        .site
        .keep_outs
        .iter()
        .filter(|own| own.up - spare < high && low < own.up + own.high + spare)
        // It stands out from the wall as far as the face of the nailer that looks there.
        .filter(|own| own.deep > wall - z - thick)
        .map(|own| (&own.sides[0] - &x - clear, &own.sides[1] - &x + clear))
        .collect();
    taken.sort_by_key(|(start, _)| start.length);
    let mut stretches = Vec::new();
    let (mut from, mut open) = (left.clone(), true);
    for (start, stop) in taken {
        if stop.length <= from.length || right.length <= start.length {
            continue;
        }
        if start.length > from.length {
            stretches.push(Stretch { from, to: start, meets: [open, false] });
        }
        (from, open) = (stop, false);
    }
    if from.length < right.length {
        stretches.push(Stretch { from, to: right, meets: [open, true] });
    }
    // In a narrow case a whole one may be shorter.
    let is_whole = |own: &Stretch| own.meets == [true; 2];
    stretches.retain(|own| {
        is_whole(own) || own.to.length - own.from.length >= trade::shortest_nailer(unit)
    });
    stretches
}

/// Joins the nailers to the boards above and below that they lie against.
pub(super) fn join(builder: &mut Builder<'_>, nailers: &[PartId]) {
    for id in nailers {
        let Some(nailer) = builder.part(*id) else { continue };
        let (own, span, upper) =
            (nailer.cuboid(), nailer.span, nailer.role == Role::Nailer(RailSide::Top));
        // A pipe at an end leaves one piece too, and that meets one end only.
        let [left, right] = builder.inner_sides().map(|side| builder.case.x + side.length);
        let whole = own.from.x == left && own.to.x == right;
        let meets: Vec<(PartId, Role)> = builder
            .own()
            .filter(|(_, part)| part.assembly == Assembly::Carcass(builder.id))
            .filter(|(_, part)| part.placement.thickness == Direction::Y)
            .filter(|(_, part)| {
                let other = part.cuboid();
                let at = if upper { other.from.y == own.to.y } else { other.to.y == own.from.y };
                at && [Direction::X, Direction::Z]
                    .iter()
                    .all(|axis| own.overlap_along(&other, *axis).is_positive())
            })
            .map(|(other, part)| (other, part.role))
            .collect();
        for (host, role) in meets {
            // Screws go where nobody sees their heads: under a worktop, on a case
            // that is higher than a man, and from below. Elsewhere its ends alone hold
            // it, and glue where the whole case hangs from it, or where a pipe divides it,
            // so that one end is loose.
            let high = builder.case.high.length >= builder.piece.tall();
            let hidden =
                matches!(role, Role::Stretcher | Role::Bottom) || role == Role::Top && high;
            let hangs = builder.case.hung.is_some();
            // Its ends are screwed; glue on a finish would add nothing to that.
            let is_finished =
                builder.part(*id).zip(builder.part(host)).is_some_and(|(nailer, board)| {
                    meets_finish(builder.piece, nailer, board).is_some()
                });
            let kind = match (hidden, whole && (!hangs || is_finished)) {
                (true, _) => JointKind::Screw,
                (false, false) => JointKind::Butt,
                (false, true) => continue,
            };
            builder.join(JointSort::Wood(kind), *id, host, kind.is_glued(), span);
        }
    }
}

/// Notches an upright board for the nailers that it stands before.
pub(super) fn notch(builder: &mut Builder<'_>, upright: PartId) {
    let Some(board) = builder.part(upright) else { return };
    let (own, thick, span) = (board.cuboid(), board.thickness.length, board.span);
    let meets: Vec<(PartId, bool)> = builder
        .own()
        .filter(|(_, part)| part.role.is_nailer() && part.cuboid().overlaps(&own))
        .map(|(id, part)| (id, part.role == Role::Nailer(RailSide::Top)))
        .collect();
    for (nailer, upper) in meets {
        let Some(space) = builder.part(nailer).map(crate::parts::Part::cuboid) else { continue };
        // The corner goes whole: what would be left at the end is too short to hold.
        let u = match upper {
            true => (space.from.y - own.from.y, own.to.y - own.from.y),
            false => (Length::ZERO, space.to.y - own.from.y),
        };
        builder.cut(
            upright,
            Feature {
                kind: FeatureKind::Notch,
                face: Face::ThickStart,
                u,
                v: (space.from.z - own.from.z, own.to.z - own.from.z),
                deep: thick,
                deep_at: None,
                takes: Some(nailer),
                span,
            },
        );
    }
}
