//! What covers the edges of sheets.

mod edge_as_board;
mod edge_narrow;
mod edge_thin;
mod edge_too_thick;
mod edge_unused;

use crate::checks::rule::Rule;

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &edge_as_board::RULE,
    &edge_unused::RULE,
    &edge_narrow::RULE,
    &edge_too_thick::RULE,
    &edge_thin::RULE,
];
