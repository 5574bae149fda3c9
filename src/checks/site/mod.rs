//! The room.

pub(super) mod scribe_too_wide;
pub(super) mod base_too_deep;
pub(super) mod keep_out_hit;
