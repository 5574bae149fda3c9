//! Hinges, slides and what they need.

pub(super) mod shelves_crowded;
pub(super) mod gap_wide;
pub(super) mod box_too_big;
pub(super) mod cup_web;
pub(super) mod door_binds;
pub(super) mod door_stopped;
pub(super) mod door_thickness;
pub(super) mod drawer_hits_door;
pub(super) mod fronts_collide;
pub(super) mod hinge_gap;
pub(super) mod hinge_hits_shelf;
pub(super) mod hinge_missing;
pub(super) mod leaf_too_narrow;
pub(super) mod open_doors_meet;
pub(super) mod slide_load;
pub(super) mod slide_room;
pub(super) mod slide_unheld;
mod swings;
pub(super) mod too_few_hinges;

use crate::model::{Case, Fronts, Opening, Piece};

/// Every door of a piece: its case, its opening and its fronts.
fn doors(piece: &Piece) -> impl Iterator<Item = (&Case, &Opening, &Fronts)> {
    piece.cases.iter().flat_map(|case| {
        case.openings.iter().filter_map(move |opening| {
            opening
                .front
                .as_ref()
                .filter(|_| opening.is_door())
                .map(|fronts| (case, opening, fronts))
        })
    })
}
