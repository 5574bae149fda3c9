//! Drawings from the parts' places: primitives and views. Floats live here.

mod cells;
mod cut;
pub(super) mod exploded;
mod labels;
pub(super) mod section;
pub(super) mod setup;
pub(super) mod svg;
pub(super) mod view;
