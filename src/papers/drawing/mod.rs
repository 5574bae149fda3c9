//! Drawings from the parts' places: primitives and views. Floats live here.

pub(super) mod setup;
pub(super) mod svg;
pub(super) mod view;
