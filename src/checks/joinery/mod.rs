//! Joints.

mod tenons_meet;
mod tenon_too_narrow;
mod tenon_too_thick;
mod tenon_too_thin;
pub(super) mod part_impossible;
mod parts_nothing;
mod parts_overlap;
mod pane_tight;
mod panel_too_thick;
mod bead_too_thin;
mod countertop_unheld;
mod dado_too_deep;
mod dowel_odd;
mod driver_reach;
mod glue_on_finish;
mod groove_meets_joint;
mod member_too_narrow;
mod miter_unequal;
mod no_mid_rail;
mod pocket_screw_out;
mod pocket_screw_through;
mod pocket_seen;
mod pocket_too_long;
mod rabbet_inside;
mod rabbet_too_thin;
mod shelves_unused;
pub(super) mod rails_meet;
mod screwed_by;
mod thin_wall;
mod web_let_into;
mod web_of_sheet;
mod web_rail_narrow;

use crate::checks::rule::Rule;

use screwed_by::{screwed, screwed_by};

/// Those that tell why a board may stand outside its case, and look first.
pub(super) const FIRST: &[&Rule] =
    &[&dado_too_deep::RULE, &member_too_narrow::RULE, &rabbet_too_thin::RULE];

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &rails_meet::RULE,
    &part_impossible::RULE,
    &bead_too_thin::RULE,
    &countertop_unheld::RULE,
    &dowel_odd::RULE,
    &glue_on_finish::RULE,
    &groove_meets_joint::RULE,
    &miter_unequal::RULE,
    &no_mid_rail::RULE,
    &pane_tight::RULE,
    &panel_too_thick::RULE,
    &pocket_screw_through::RULE,
    &pocket_screw_out::RULE,
    &pocket_seen::RULE,
    &pocket_too_long::RULE,
    &parts_nothing::RULE,
    &rabbet_inside::RULE,
    &shelves_unused::RULE,
    &tenons_meet::RULE,
    &tenon_too_narrow::RULE,
    &tenon_too_thick::RULE,
    &tenon_too_thin::RULE,
    &web_let_into::RULE,
    &web_of_sheet::RULE,
    &web_rail_narrow::RULE,
];

/// Those that look only where nothing else tells what is wrong.
pub(super) const LATE: &[&Rule] = &[&parts_overlap::RULE, &thin_wall::RULE, &driver_reach::RULE];
