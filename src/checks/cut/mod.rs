//! Parts that are cut already.

pub(super) mod cut_gone;
pub(super) mod cut_misfit;
