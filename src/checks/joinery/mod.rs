//! Joints.

pub(super) mod tenon_too_thick;
pub(super) mod part_impossible;
pub(super) mod parts_overlap;
pub(super) mod panel_too_thick;
pub(super) mod dado_too_deep;
pub(super) mod groove_meets_joint;
pub(super) mod member_too_narrow;
pub(super) mod mitre_unequal;
pub(super) mod pocket_screw_through;
pub(super) mod pocket_seen;
pub(super) mod rabbet_too_thin;
