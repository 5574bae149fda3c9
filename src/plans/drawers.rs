//! What drawers hold.

use crate::measure::Mass;
use crate::model::{Carries, Case, Opening, OpeningKind, Piece};
use crate::trade;

/// The load in force in a drawer; `None` for what is no drawer.
#[must_use]
pub fn load(case: &Case, opening: &Opening) -> Option<Carries> {
    match opening.kind {
        OpeningKind::Drawer { carries, .. } => {
            carries.or_else(|| case.drawers.as_ref().map(|drawers| drawers.carries))
        }
        _ => None,
    }
}

/// What a full drawer holds: its load on the bottom between its sides.
#[must_use]
pub fn contents(piece: &Piece, case: &Case, opening: &Opening) -> Mass {
    let nothing = trade::grams(0.0);
    let (Some(carries), Some(boxes)) = (load(case, opening), &case.drawers) else {
        return nothing;
    };
    let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { return nothing };
    let Some(slide) = piece.slide(slide) else { return nothing };
    let side = piece.thickness(boxes.stock);
    let wide = slide.box_width.inside_and_outside(&opening.wide_for_slides(), &side).0.length;
    let deep = slide.length.length - side.length.twice();
    let metres = wide.to_mm_f64() * deep.to_mm_f64() / 1e6;
    trade::grams(metres.max(0.0) * carries.load.0.to_f64())
}
