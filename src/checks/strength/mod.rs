//! Whether boards hold their load, and whether the piece stands.

mod case_loose;
mod hangs_and_stands;
mod hung_load;
mod hung_unfixed;
mod no_floor;
mod overhang;
mod rod_bends;
mod sag;
mod studs_few;
mod tips;

use crate::checks::rule::Rule;

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &case_loose::RULE,
    &hangs_and_stands::RULE,
    &hung_load::RULE,
    &hung_unfixed::RULE,
    &no_floor::RULE,
    &overhang::RULE,
    &rod_bends::RULE,
    &sag::RULE,
    &studs_few::RULE,
    &tips::RULE,
];
