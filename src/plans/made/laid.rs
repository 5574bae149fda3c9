//! Joints as boxes in one frame: those that are drawn, and those in the wood.

use crate::model::{Made, MadeKind};
use crate::parts::Feature;

use super::space::Space;

/// A joint of the drawing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Drawn<'a> {
    pub(super) number: usize,
    pub(super) feature: &'a Feature,
    pub(super) kind: MadeKind,
    pub(super) space: Space,
}

/// A joint in the wood, where it stands once the part is trimmed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stands<'a> {
    pub(super) made: &'a Made,
    pub(super) kind: MadeKind,
    pub(super) space: Space,
}
