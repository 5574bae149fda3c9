//! From the solved piece to its boards: one file an assembly.

mod aside;
mod base;
mod baseboard;
mod behind;
mod builder;
mod carcass;
mod cleats;
mod countertop;
mod cover;
mod doweling;
mod drawers;
mod edging;
mod face_frame;
mod filler;
mod finger;
mod flutes;
mod framed;
mod front;
mod glazed;
mod fronts;
mod hinging;
mod holding;
mod holes;
mod inside;
mod nailers;
mod on_legs;
mod on_wood;
mod posts;
mod round;
mod spare;
mod stacked;
mod web;

use crate::model::{MOST_PARTS, Piece};

use super::part::Parts;
use super::space::Direction;
use super::{finished, mark, named};
use aside::Aside;
pub use baseboard::baseboard_notch;
use builder::Builder;
pub use builder::{Planes, planes};
pub(crate) use cover::cover_of;
pub use edging::asked as asked_edging;
pub use hinging::hinge_heights;
pub use on_legs::{LegAt, legs_under};
pub use round::is_cut_round;

/// Builds every part of a piece, with its joints and marks. Where there are
/// more than [`MOST_PARTS`] it stops, at the latest behind the case with the
/// first too many. Where a hinge must step aside for what is built, all is built again
/// with it there.
#[must_use]
pub fn build(piece: &Piece) -> Parts {
    let parts = build_with(piece, &Aside::new());
    let aside = aside::of(piece, &parts);
    if aside.is_empty() { parts } else { build_with(piece, &aside) }
}

/// Builds every part, with hinges so far from where even steps put them.
fn build_with(piece: &Piece, aside: &Aside) -> Parts {
    let mut parts = Parts::default();
    for case in &piece.cases {
        let first = parts.all.len();
        let mut builder = Builder::new(piece, case, &mut parts, aside);
        let carcass = carcass::build(&mut builder);
        base::build(&mut builder, &carcass);
        on_legs::build(&mut builder, &carcass);
        face_frame::build(&mut builder, &carcass);
        inside::build(&mut builder, &carcass);
        nailers::join(&mut builder, &carcass.nailers);
        face_frame::backed(&mut builder);
        countertop::build(&mut builder);
        fronts::build(&mut builder, &carcass);
        drawers::build(&mut builder, &carcass);
        filler::build(&mut builder, &carcass);
        cover::build(&mut builder, &carcass);
        baseboard::build(&mut builder);
        round::build(&mut builder);
        holes::build(&mut builder);
        edging::build(&mut builder);
        // Builders count from the front of their own case; all backs stand at
        // one wall.
        let back = piece.ahead(case);
        for part in parts.all.iter_mut().skip(first) {
            part.placement.origin.z += back;
            part.space = part.space.shifted(Direction::Z, back);
        }
        if parts.all.len() > MOST_PARTS {
            return parts;
        }
    }
    countertop::fasten(piece, &mut parts);
    stacked::fasten(piece, &mut parts);
    cover::fasten(piece, &mut parts);
    edging::below(piece, &mut parts);
    // What is joined over several cases stands among the joints of its own.
    let Parts { all, joints, .. } = &mut parts;
    joints.sort_by_key(|joint| all.get(joint.part.0).map(|part| part.case));
    finished::dry(piece, &mut parts);
    let recorded = named::recorded(piece, &parts);
    mark::give(&mut parts, piece, &recorded);
    parts.cuts = named::cuts(piece, &parts);
    parts
}
