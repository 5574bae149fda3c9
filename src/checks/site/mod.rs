//! The room.

mod scribe_too_wide;
mod base_too_deep;
mod countertop_blocked;
mod keep_out_hit;
mod no_scribe;

use crate::checks::rule::Rule;

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &base_too_deep::RULE,
    &countertop_blocked::RULE,
    &keep_out_hit::RULE,
    &no_scribe::RULE,
    &scribe_too_wide::RULE,
];
