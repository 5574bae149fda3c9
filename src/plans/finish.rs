//! The surface that a finish goes on, and how much of it a coat takes.
//!
//! A face that comes with a finish is left out, and so is one of a sheet that nobody sees
//! and that needs no finish to stay flat: the wall side of a back and of an end in a piece
//! that is fixed there, and the underside of a drawer bottom (common practice, no source).
//! Solid wood is coated on all its faces, or it cups.
//!
//! Counted: every face and edge that air reaches, with the curve of its flutes;
//! of the fronts both faces, of the cases the inside too. What parts that stay
//! together cover of each other is left out, and so are packers and hinge
//! blocks. A joint is taken as its box: a shoulder beside a tenon is covered.

mod coat;
mod surface;
mod told;

use std::collections::BTreeSet;

use crate::model::{Exposure, Finish, FinishId, Piece, Side, Stock};
use crate::parts::{Assembly, Direction, Face, Part, Parts, Role, cover_of};

use super::assembly::is_glass;

pub use coat::Coat;
pub use surface::{Coated, Surface, of_parts, of_wood, sanded, surface};
pub use told::{added, covering, in_quarts, measured_out, told};

/// The finish of a part: what its own block names, else that of its case. None goes on glass.
#[must_use]
pub fn of_part(piece: &Piece, part: &Part) -> Option<FinishId> {
    if is_glass(piece, part) {
        return None;
    }
    let case = piece.case(part.case)?;
    let of_frame = || case.frame.as_ref().and_then(|frame| frame.finish);
    let own = match (part.role, part.assembly) {
        (Role::Cover, _) => cover_of(case, part).and_then(|cover| cover.finish),
        // Posts are its stiles, and the rails and panels between them go with them.
        (Role::Post(_) | Role::EndRail(_) | Role::EndPanel(_), _) => of_frame(),
        (_, Assembly::Front(front)) => {
            piece.opening(front.opening).and_then(|opening| opening.front.as_ref()?.finish)
        }
        (_, Assembly::DrawerBox(_)) => case.drawers.as_ref().and_then(|boxes| boxes.finish),
        (_, Assembly::Countertop(_)) => piece.top_over(case.id).and_then(|top| top.spec.finish),
        // One that is of the stock of the fronts beside it looks as they do.
        (_, Assembly::Filler(..)) if case.frame.is_none() => {
            let fronts = case.fronts.as_ref().filter(|fronts| fronts.stock == part.stock);
            fronts.and_then(|fronts| fronts.finish)
        }
        (_, Assembly::Frame(_) | Assembly::Filler(..)) => of_frame(),
        (_, Assembly::Base(_) | Assembly::Carcass(_) | Assembly::Loose(_)) => None,
    };
    own.or(case.finish)
}

/// The finishes that parts of the piece have, in the order in which the spec describes
/// them.
#[must_use]
pub fn used<'p>(piece: &'p Piece, parts: &Parts) -> Vec<(FinishId, &'p Finish)> {
    let own: BTreeSet<FinishId> =
        parts.all.iter().filter_map(|part| of_part(piece, part)).collect();
    own.into_iter().filter_map(|id| Some((id, piece.finish(id)?))).collect()
}

/// The face of a sheet that lies against the wall or under a drawer, where nobody sees it.
#[must_use]
pub fn unseen(piece: &Piece, part: &Part) -> Option<Face> {
    if piece.stock(part.stock).is_none_or(Stock::is_solid) {
        return None;
    }
    let at_wall = |side: Side| {
        let case = piece.case(part.case);
        case.is_some_and(|case| matches!(side.of(&case.exposure), Exposure::Wall { .. }))
    };
    let (axis, start) = match part.role {
        Role::Back if piece.site.fixed => (Direction::Z, false),
        Role::DrawerBottom => (Direction::Y, true),
        Role::End(side) if at_wall(side) => (Direction::X, side == Side::Left),
        _ => return None,
    };
    Some(part.placement.face(axis, start))
}
