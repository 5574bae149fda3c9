//! Cases that stand on others: how they are set there, and what they press on.

use crate::measure::{Exact, Length, Mass};
use crate::model::{Case, CaseId, Stock};
use crate::parts::{
    Cuboid, Direction, Part, PartId, Role, StackRow, footprint, stack_bottom, stack_carriers,
    stack_rests, stack_rows,
};
use crate::trade::{self, Carry};

use super::Workings;
use super::hung::{holds, kilograms};
use super::weights::{Body, Lifted};

/// A case is set on what it stands on, and screwed down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stacked {
    /// The case.
    pub case: CaseId,
    /// What it stands on, from the left.
    pub below: Vec<CaseId>,
    /// Who lifts it.
    pub carry: Carry,
    /// From the left side of what it is placed on to its left side.
    pub left: Length,
    /// From the left end of the countertop under it to its left side.
    pub from_end: Option<Length>,
    /// How far its back stands before that of the case below; nothing at a wall.
    pub back: Option<Length>,
    /// The board that screws go down through; `None` where the wall alone holds it.
    pub bottom: Option<PartId>,
    /// What it comes down on.
    pub rests: Vec<PartId>,
    /// What these screws go into.
    pub into: Vec<PartId>,
    /// How many go through round holes.
    pub round: u32,
    /// How many go through slots.
    pub slotted: u32,
}

/// Every case that stands on another, from the left.
#[must_use]
pub(super) fn stacked(work: &Workings<'_>) -> Vec<Stacked> {
    work.piece.stacked().filter_map(|(case, _)| one(work, case)).collect()
}

fn one(work: &Workings<'_>, case: &Case) -> Option<Stacked> {
    let (piece, parts) = (work.piece, work.parts);
    let on = case.on.as_ref()?;
    let rows = stack_rows(piece, parts, case);
    let count = |slotted: bool| {
        rows.iter().filter(|row| row.slot.is_some() == slotted).map(StackRow::count).sum()
    };
    let carry = work.weights().carry(&Lifted::Case(case.id)).with_a_second();
    let carriers = stack_carriers(piece, parts, case);
    let top = carriers.iter().find(|(_, part)| part.role == Role::Countertop);
    Some(Stacked {
        from_end: top.map(|(_, part)| case.x - part.extent(Direction::X).0),
        case: case.id,
        below: piece.cases_below(case).map(|below| below.id).collect(),
        carry,
        left: on.left.length,
        back: (!piece.site.fixed).then_some(on.back.length),
        bottom: stack_bottom(parts, case).map(|(id, _)| id),
        rests: stack_rests(piece, parts, case),
        into: carriers.into_iter().map(|(id, _)| id).collect(),
        round: count(false),
        slotted: count(true),
    })
}

/// What a full case presses on.
#[derive(Clone, Debug)]
pub struct Presses<'a> {
    /// The case.
    pub case: CaseId,
    /// What it weighs itself, with its fronts, drawers, and shelves.
    pub own: Mass,
    /// What it holds when it is full.
    pub holds: Mass,
    /// Where that bends what it stands on most; `None` where every upright of it stands
    /// over one below.
    pub bends: Option<Bends<'a>>,
}

/// A board that sags under uprights that stand on it.
#[derive(Clone, Debug)]
pub struct Bends<'a> {
    /// The board.
    pub board: &'a Part,
    /// The upright that presses most on it there.
    pub upright: &'a Part,
    /// The free length between what carries it.
    pub span: Length,
    /// How far it sags after years.
    pub sag: Length,
    /// How far it may.
    pub limit: Length,
}

/// Every case that stands on another, full.
pub(super) fn presses<'a>(work: &Workings<'a>) -> Vec<Presses<'a>> {
    let pressing = |case: &Case| {
        let body = work.weights().of_case(case.id).fold(Body::default(), |all, own| all.with(*own));
        let full = kilograms(body.mass()) + holds(work, case);
        Presses {
            case: case.id,
            own: body.mass(),
            holds: trade::grams(holds(work, case)),
            bends: bends(work, case, full),
        }
    };
    work.piece.stacked().map(|(case, _)| pressing(case)).collect()
}

/// Each upright takes what stands on half the way to the next one. The boards that carry
/// it bend as if loose between the uprights below, with no more of their depth than it
/// stands on; this is on the safe side.
fn bends<'a>(work: &Workings<'a>, case: &Case, full: f64) -> Option<Bends<'a>> {
    let (piece, parts) = (work.piece, work.parts);
    let bottom = footprint(parts, case)?;
    let carriers = stack_carriers(piece, parts, case);
    let is_upright = |part: &&Part| matches!(part.role, Role::End(_) | Role::Partition);
    let across = |part: &Part| part.extent(Direction::X);
    let middle = |part: &Part| (across(part).0 + across(part).1).half();
    let of_case = parts.of_case(case.id).iter().filter(is_upright);
    // A partition stands on the bottom; the others on what is below.
    let floor = parts.of_case(case.id).iter().find(|part| part.role == Role::Bottom);
    let low = floor.map_or(bottom.from.y, |floor| floor.extent(Direction::Y).1);
    let mut above: Vec<&Part> = of_case.filter(|part| part.extent(Direction::Y).0 <= low).collect();
    above.sort_by_key(|part| middle(part));
    let lowest = || piece.cases_below(case).flat_map(|below| parts.of_case(below.id));
    let lying = lowest().filter(|part| matches!(part.role, Role::Top | Role::Stretcher));
    let level = lying.map(|part| part.extent(Direction::Y).0).max()?;
    let mut below: Vec<(Length, Length)> = lowest()
        .filter(is_upright)
        .filter(|part| part.extent(Direction::Y).1 >= level)
        .map(across)
        .collect();
    below.sort_unstable();
    let whole = (middle(above.last()?) - middle(above.first()?)).to_mm_f64();
    // From its place among the uprights: half the way to both its neighbors.
    let share = |at: usize| {
        let near = |other: Option<usize>| {
            let other = other.and_then(|other| above.get(other));
            other.map_or(0.0, |other| (middle(other) - middle(above[at])).abs().to_mm_f64())
        };
        (near(at.checked_sub(1)) + near(at.checked_add(1))) / 2.0 / whole
    };
    let pound = kilograms(Mass::pounds(Exact::ONE));
    let mut worst: Option<Bends<'a>> = None;
    for (from, to) in below.iter().zip(below.iter().skip(1)).map(|(one, other)| (one.1, other.0)) {
        let within: Vec<usize> = (0..above.len())
            .filter(|at| from <= across(above[*at]).0 && across(above[*at]).1 <= to)
            .collect();
        let Some(most) = within.iter().copied().max_by(|a, b| share(*a).total_cmp(&share(*b)))
        else {
            continue;
        };
        let crosses = |part: &&Part| across(part).0 <= from && to <= across(part).1;
        let boards: Vec<&'a Part> =
            carriers.iter().map(|(_, part)| *part).filter(crosses).collect();
        let (Some(board), Some(stiff)) = (boards.first(), stiffness(work, &boards, &bottom)) else {
            continue;
        };
        let span = trade::inches(to - from);
        let sag: f64 = within
            .iter()
            .map(|at| {
                let place = trade::inches(middle(above[*at]) - from);
                trade::sag_at(full * share(*at) / pound, span, place, stiff)
            })
            .sum();
        let solid = piece.stock(board.stock).is_some_and(Stock::is_solid);
        let (sag, span) = (trade::rounded_up(sag) * trade::creep(solid), to - from);
        let over =
            Bends { board, upright: above[most], span, sag, limit: trade::WRITTEN.over(span) };
        if worst.as_ref().is_none_or(|worst| worst.sag - worst.limit < over.sag - over.limit) {
            worst = Some(over);
        }
    }
    worst
}

/// EI of what lies under a bottom, as far as it does.
fn stiffness(work: &Workings<'_>, boards: &[&Part], bottom: &Cuboid) -> Option<f64> {
    let own = boards.iter().map(|part| {
        let thousands = work.piece.stock(part.stock)?.stiffness?;
        let deep = part.cuboid().overlap_along(bottom, Direction::Z);
        Some(trade::board_stiffness(thousands, deep, part.thickness.length))
    });
    own.sum()
}
