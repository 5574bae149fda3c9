//! Holes: what they meet inside their part, and what lies behind them.

mod bore_meets_joint;
mod bore_web;
mod finger_blind;
mod hole_blocked;
mod hole_near_edge;
mod hook_meets_bottom;
mod pin_rows_meet;
mod pins_off_post;
mod pull_in_panel;
mod pull_meets_box;
mod pull_near_edge;
mod pull_off_front;

use crate::checks::rule::Rule;
use crate::parts::{Bore, Feature, FeatureKind, Part};

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &pull_off_front::RULE,
    &finger_blind::RULE,
    &hole_blocked::RULE,
    &hole_near_edge::RULE,
    &bore_meets_joint::RULE,
    &bore_web::RULE,
    &pin_rows_meet::RULE,
    &pins_off_post::RULE,
    &pull_in_panel::RULE,
    &pull_meets_box::RULE,
    &hook_meets_bottom::RULE,
    &pull_near_edge::RULE,
];

/// The bores of a part, each with its kind.
fn bores(part: &Part) -> impl Iterator<Item = (&Feature, Bore)> {
    part.features.iter().filter_map(|feature| match feature.kind {
        FeatureKind::Bore(bore) => Some((feature, bore)),
        _ => None,
    })
}
