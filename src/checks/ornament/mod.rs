//! Ornament.

pub(super) mod flute_too_deep;
pub(super) mod flutes_none;
pub(super) mod flutes_uneven;
pub(super) mod pull_in_flute;
