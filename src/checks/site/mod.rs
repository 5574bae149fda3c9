//! The room.

mod rounds;
pub(super) mod scribe_too_wide;
mod base_ahead;
mod base_too_deep;
mod baseboard_hit;
mod around_severs;
mod around_unused;
mod around_weak;
mod cases_overlap;
mod cover_hidden;
mod cover_unheld;
mod countertop_blocked;
mod filler_narrow;
mod filler_open;
mod keep_out_hit;
mod kick_loose;
mod nailer_lost;
mod no_scribe;
mod nothing_to_screw;
mod scribe_meets_mortise;
mod space_too_small;
mod stiles_uneven;
mod keep_out_beyond;

use crate::checks::rule::Rule;

/// Those that tell why a board may stand outside its case; they look at the piece before its
/// parts.
pub(super) const CAUSES: &[&Rule] = &[&base_too_deep::RULE];

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &baseboard_hit::RULE,
    &around_severs::RULE,
    &around_unused::RULE,
    &around_weak::RULE,
    &base_ahead::RULE,
    &base_too_deep::RULE,
    &cases_overlap::RULE,
    &countertop_blocked::RULE,
    &cover_hidden::RULE,
    &cover_unheld::RULE,
    &filler_narrow::RULE,
    &filler_open::RULE,
    &keep_out_beyond::RULE,
    &keep_out_hit::RULE,
    &kick_loose::RULE,
    &nailer_lost::RULE,
    &no_scribe::RULE,
    &nothing_to_screw::RULE,
    &scribe_meets_mortise::RULE,
    &scribe_too_wide::RULE,
    &space_too_small::RULE,
    &stiles_uneven::RULE,
];
