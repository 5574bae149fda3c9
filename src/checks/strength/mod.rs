//! Whether boards hold their load, and whether the piece stands.

pub(super) mod sag;
pub(super) mod tips;
