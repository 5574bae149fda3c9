//! Ornament.

pub(super) mod flutes_none;
