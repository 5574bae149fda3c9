//! Hinges, slides and what they need.

mod shelf_short;
mod shelf_stuck;
mod shelf_unheld;
mod shelves_crowded;
mod gap_wide;
mod block_unused;
pub(super) mod box_too_big;
mod cup_web;
mod door_binds;
mod door_stopped;
mod door_thickness;
mod door_too_wide;
mod drawer_hits_door;
mod drawers_unused;
mod edge_mixed;
mod front_unheld;
mod fronts_collide;
mod hinge_gap;
mod hinge_hits_shelf;
mod hinge_missing;
mod hinges_close;
mod leaf_in_the_way;
mod leaf_too_narrow;
mod leg_unheld;
mod no_grip;
mod open_doors_meet;
mod opening_slight;
mod overlay_past_case;
mod pull_behind_leaf;
mod rod_room;
mod rod_unheld;
mod screws_meet;
mod runner_off_level;
mod slide_load;
mod slide_odd;
mod slide_off_box;
mod slide_room;
mod slide_unheld;
mod stop_unheld;
mod swings;
mod too_few_hinges;
mod overlays_differ;
mod front_near_floor;

use crate::checks::rule::Rule;
use crate::model::{Case, Fronts, Opening, OpeningKind, Piece};
use crate::plans::Workings;

pub(super) use swings::written;

/// Those that advise where nothing else is told.
pub(super) const LATE: &[&Rule] = &[&drawers_unused::RULE, &block_unused::RULE];

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &box_too_big::RULE,
    &cup_web::RULE,
    &door_binds::RULE,
    &door_stopped::RULE,
    &door_thickness::RULE,
    &door_too_wide::RULE,
    &drawer_hits_door::RULE,
    &edge_mixed::RULE,
    &front_near_floor::RULE,
    &front_unheld::RULE,
    &fronts_collide::RULE,
    &gap_wide::RULE,
    &hinge_gap::RULE,
    &hinge_hits_shelf::RULE,
    &hinge_missing::RULE,
    &hinges_close::RULE,
    &leaf_in_the_way::RULE,
    &leaf_too_narrow::RULE,
    &leg_unheld::RULE,
    &no_grip::RULE,
    &open_doors_meet::RULE,
    &opening_slight::RULE,
    &overlay_past_case::RULE,
    &overlays_differ::RULE,
    &pull_behind_leaf::RULE,
    &rod_room::RULE,
    &rod_unheld::RULE,
    &screws_meet::RULE,
    &runner_off_level::RULE,
    &slide_load::RULE,
    &slide_odd::RULE,
    &slide_off_box::RULE,
    &slide_room::RULE,
    &slide_unheld::RULE,
    &stop_unheld::RULE,
    &too_few_hinges::RULE,
    &shelf_short::RULE,
    &shelf_stuck::RULE,
    &shelf_unheld::RULE,
    &shelves_crowded::RULE,
];

/// True for a piece with a false front: what is fastened takes long to work out, and few
/// pieces have one.
fn has_false_fronts(work: &Workings<'_>) -> bool {
    work.fronts().iter().any(|front| matches!(front.opening.kind, OpeningKind::False))
}

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
