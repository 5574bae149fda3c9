//! Whether boards hold their load, and whether the piece stands.

mod case_loose;
mod no_floor;
mod overhang;
mod rod_bends;
mod sag;
mod tips;

use crate::checks::rule::Rule;

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &case_loose::RULE,
    &no_floor::RULE,
    &overhang::RULE,
    &rod_bends::RULE,
    &sag::RULE,
    &tips::RULE,
];
