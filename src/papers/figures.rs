//! The one place where a length is printed, with its mark where it was rounded.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::measure::{Length, Printed, Tape, Unit};
use crate::model::{Facts, Size};

/// Behind a figure that was made from a measured one.
pub(super) const MEASURED: &str = " (m)";

/// Prints lengths and keeps the exact value of each one that was rounded.
#[derive(Debug)]
pub(super) struct Figures {
    tape: Tape,
    rounded: RefCell<BTreeMap<Length, String>>,
}

impl Figures {
    pub(super) fn new(tape: Tape) -> Self {
        Self { tape, rounded: RefCell::default() }
    }

    /// A length at its tape mark, `~` behind it where it was rounded.
    pub(super) fn text(&self, length: Length) -> String {
        self.show(self.tape.print(length))
    }

    /// The next mark above, for what must not be less.
    pub(super) fn at_least(&self, length: Length) -> String {
        self.text(self.tape.up(length))
    }

    /// The next mark below, for what must not be more.
    pub(super) fn at_most(&self, length: Length) -> String {
        self.text(self.tape.down(length))
    }

    /// A length that no fraction gives exactly, as of a diagonal.
    pub(super) fn near(&self, length: Length) -> String {
        self.tape.text(length)
    }

    /// A size of a part: `(m)` behind one that a measured figure takes part in.
    pub(super) fn size(&self, size: &Size, facts: &Facts) -> String {
        let mark = if facts.is_measured(size) { MEASURED } else { "" };
        format!("{}{mark}", self.text(size.length))
    }

    fn show(&self, printed: Printed) -> String {
        let text = self.tape.show(printed);
        if printed.is_rounded() {
            self.rounded.borrow_mut().insert(printed.exact, text.clone());
        }
        text
    }

    /// Parts of a whole, rounded so that they add up on paper.
    pub(super) fn spread(&self, parts: &[Length]) -> Vec<String> {
        self.tape.spread(parts).into_iter().map(|part| self.show(part)).collect()
    }

    /// Parts that add up on paper: `1-3/4 + 61-3/4 + 2-1/2 = 66`.
    pub(super) fn sum(&self, parts: &[Length]) -> String {
        let whole = self.tape.print(parts.iter().copied().sum()).shown;
        format!("{} = {}", self.spread(parts).join(" + "), self.tape.exact(whole))
    }

    /// A length given by a maker's sheet, in whole or tenth millimetres where
    /// that is exact, so that a 35 mm cup stays one: `35 mm`.
    pub(super) fn hardware(&self, length: Length) -> String {
        if self.tape.unit == Unit::Millimetre || is_metric(length) {
            return format!("{} mm", Tape::millimetres().exact(length));
        }
        self.text(length)
    }

    /// Every figure that was rounded, with its exact value.
    pub(super) fn exacts(&self) -> Vec<(String, String)> {
        let all = self.rounded.borrow();
        let exactly = |length: Length| match self.tape.unit == Unit::Inch && is_metric(length) {
            true => format!("{} mm", Tape::millimetres().exact(length)),
            false => self.tape.exact(length),
        };
        all.iter().map(|(exact, text)| (text.clone(), exactly(*exact))).collect()
    }
}

/// True for whole tenths of a millimetre that are no fraction of an inch.
fn is_metric(length: Length) -> bool {
    let tenths = length.in_unit(Unit::Millimetre) * 10.into();
    tenths.is_whole() && length.in_unit(Unit::Inch).denom() > 64
}
