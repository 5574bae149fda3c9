//! Lengths in the lines of tasks.

use crate::measure::Length;

use super::Maker;

impl Maker<'_, '_> {
    /// A length at its mark of the tape; the next task knows what it is exactly.
    pub(super) fn text(&self, length: Length) -> String {
        self.told.borrow_mut().push(length);
        self.piece.tape().text(length)
    }
}
