//! Holes: what they meet inside their part, and what lies behind them.

pub(super) mod bore_meets_joint;
pub(super) mod bore_web;
pub(super) mod pull_meets_box;

use crate::parts::{Bore, Feature, FeatureKind, Part};

/// The bores of a part, each with its kind.
fn bores(part: &Part) -> impl Iterator<Item = (&Feature, Bore)> {
    part.features.iter().filter_map(|feature| match feature.kind {
        FeatureKind::Bore(bore) => Some((feature, bore)),
        _ => None,
    })
}
