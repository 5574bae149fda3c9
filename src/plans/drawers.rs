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
    let Some(own) = piece.drawer_box(case, opening) else { return nothing };
    let (wide, deep) =
        (own.inside.length, own.deep.length - piece.thickness(boxes.stock).length.twice());
    let metres = wide.to_mm_f64() * deep.to_mm_f64() / 1e6;
    trade::grams(metres.max(0.0) * carries.load.0.to_f64())
}
