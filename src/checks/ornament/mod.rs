//! Ornament.

pub(super) mod flutes_none;
pub(super) mod flutes_uneven;
pub(super) mod pull_in_flute;
