//! What hangs on the wall screws of a case: its own weight, and all that it holds.
//!
//! The case is full: every board bears its load, and every drawer. All its weight goes
//! down on the screws of all nailers alike; a stud that may stand where a pipe leaves no
//! nailer, or cuts the back that takes the screws, is not counted. It turns about the lower
//! edge of the back, so that the screws of the upper nailer are pulled out of the wall.

use crate::measure::{Length, Mass};
use crate::model::{Axis, Case, CaseId, OpeningKind, RailSide};
use crate::parts::{Direction, Part, Role};
use crate::trade;

use super::Workings;
use super::drawers;
use super::spans::Lying;
use super::wall;
use super::weights::Body;

/// A case on its wall screws.
#[derive(Clone, Debug, PartialEq)]
pub struct Hangs {
    /// The case.
    pub case: CaseId,
    /// What it weighs itself, with its fronts, drawers, and shelves.
    pub own: Mass,
    /// What it holds when it is full.
    pub holds: Mass,
    /// The studs behind it.
    pub studs: u32,
    /// The screws through its upper nailer, and through all.
    pub screws: (u32, u32),
    /// What goes down on each screw.
    pub down: Mass,
    /// What pulls at each screw of the upper nailer.
    pub out: Mass,
}

impl Hangs {
    /// The share of what a screw bears that its two loads take together; over one it
    /// bears too much.
    #[must_use]
    pub fn share(&self) -> f64 {
        let of = |load: Mass, most: Mass| load.0.to_f64() / most.0.to_f64();
        of(self.down, trade::screw_down()) + of(self.out, trade::screw_out())
    }
}

/// Every case that hangs.
pub(super) fn plan(work: &Workings<'_>) -> Vec<Hangs> {
    work.piece.cases.iter().filter_map(|case| hangs(work, case)).collect()
}

fn hangs(work: &Workings<'_>, case: &Case) -> Option<Hangs> {
    let hung = case.hung.as_ref()?;
    let (piece, parts) = (work.piece, work.parts);
    let body = work.weights().of_case(case.id).fold(Body::default(), |all, own| all.with(*own));
    let own = kilograms(body.mass());
    let holds = holds(work, case);
    let studs = piece.studs_behind(case);
    let upper = parts.of_case(case.id).iter();
    let upper = upper.filter(|part| part.role == Role::Nailer(RailSide::Top));
    // A case without nailers hangs by its back, close under the top.
    let highest = upper.map(middle).max();
    let pulled = highest.unwrap_or(case.high.length) - hung.up.length;
    let in_row = |side: RailSide| {
        let row = wall::row(piece, parts, case, side);
        let lost = wall::missed(parts, case, &row, piece.stud_spacing());
        (studs.saturating_sub(lost) * hung.screws).max(1)
    };
    let upper = in_row(RailSide::Top);
    let lower = if wall::rows(parts, case) == 2 { in_row(RailSide::Bottom) } else { 0 };
    let screws = (upper, upper + lower);
    let wall = piece.wall().to_mm_f64();
    let arm = body.center().map_or(0.0, |center| wall - center[2]);
    let turns = own * arm + holds * case.deep.length.to_mm_f64() / 2.0;
    let of = |kilograms: f64, screws: u32| trade::grams(kilograms / f64::from(screws));
    Some(Hangs {
        case: case.id,
        own: body.mass(),
        holds: trade::grams(holds),
        studs,
        screws,
        down: of(own + holds, screws.1),
        out: of(turns / pulled.to_mm_f64().max(1.0), screws.0),
    })
}

fn middle(part: &Part) -> Length {
    let (from, to) = part.extent(Direction::Y);
    (from + to).half()
}

pub(super) fn kilograms(mass: Mass) -> f64 {
    mass.0.to_f64()
}

/// What a full case holds, in kilograms: on its boards, as far as no drawer stands over
/// them, and in its drawers.
pub(super) fn holds(work: &Workings<'_>, case: &Case) -> f64 {
    let on_boards = work.lying().iter().filter(|own| own.part.case == case.id);
    let on_boards: f64 = on_boards.map(|own| stands_on(case, own)).sum();
    let drawers = case.openings.iter().map(|opening| drawers::contents(work.piece, case, opening));
    on_boards + drawers.map(kilograms).sum::<f64>()
}

fn stands_on(case: &Case, own: &Lying<'_>) -> f64 {
    let (from, to) = own.part.extent(Direction::X);
    let top = own.part.extent(Direction::Y).1;
    // Between the board and a drawer right over it is the edge of a rail at most.
    let rail = Length::mm(50);
    let drawers = case.openings.iter().filter(|opening| {
        let over = opening.y - top;
        matches!(opening.kind, OpeningKind::Drawer { .. }) && -rail < over && over < rail
    });
    let under: Length = drawers
        .map(|opening| {
            let left = case.x + opening.x;
            let right = left + opening.as_built(Axis::Across).length;
            (right.min(to) - left.max(from)).max(Length::ZERO)
        })
        .sum();
    let free = (to - from - under).max(Length::ZERO);
    own.carries.load.0.to_f64() * free.to_mm_f64() * own.bears.to_mm_f64() / 1e6
}
