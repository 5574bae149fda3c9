//! What the stock allows.

pub(super) mod part_too_large;
