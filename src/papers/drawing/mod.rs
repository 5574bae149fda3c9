//! Drawings from the parts' places: primitives and views. Floats live here.

mod cells;
mod cut;
mod dimensions;
pub(super) mod exploded;
mod glass;
mod hidden;
mod holes;
pub(super) mod kinds;
mod labels;
mod legible;
mod notched;
mod on_fronts;
pub(super) mod section;
pub(super) mod setup;
pub(super) mod sheet;
pub(super) mod shown;
mod slant;
pub(super) mod svg;
mod uncovered;
pub(super) mod view;
