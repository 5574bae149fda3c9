//! The one place where a length is printed, with its mark where it was rounded.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Length, MEASURED, Printed, Tape, Unit};
use crate::model::{Facts, Size};

/// Prints lengths and keeps the exact value of each one that was rounded.
#[derive(Debug)]
pub(super) struct Figures {
    tape: Tape,
    rounded: RefCell<BTreeSet<(Length, String)>>,
    /// Lengths that are told finer wherever they stand, since another length of the
    /// same paper has the same mark of the tape.
    apart: BTreeSet<Length>,
    /// Figures made from measured ones bear a mark.
    marks: bool,
    marked: Cell<bool>,
}

impl Figures {
    pub(super) fn new(tape: Tape) -> Self {
        Self {
            tape,
            rounded: RefCell::default(),
            apart: BTreeSet::new(),
            marks: true,
            marked: Cell::default(),
        }
    }

    /// Figures that tell these lengths finer wherever they stand.
    pub(super) fn telling_apart(tape: Tape, apart: BTreeSet<Length>) -> Self {
        Self { apart, ..Self::new(tape) }
    }

    /// Figures that bear no mark where they are made from measured ones.
    pub(super) fn unmarked(tape: Tape) -> Self {
        Self { marks: false, ..Self::new(tape) }
    }

    /// A length at its tape mark, `~` behind it where it was rounded, `(m)`
    /// where a measured figure takes part in it.
    pub(super) fn text(&self, length: Length) -> String {
        self.show(self.tape.print(length))
    }

    /// A length at its tape mark, whatever it is made from.
    pub(super) fn plain(&self, length: Length) -> String {
        self.shown(self.tape.print(length))
    }

    /// What stands behind a figure that is made from a measured one.
    pub(super) fn mark(&self, measured: bool) -> &'static str {
        if !measured || !self.marks {
            return "";
        }
        self.marked.set(true);
        MEASURED
    }

    /// True where a figure bears the mark.
    pub(super) fn has_marked(&self) -> bool {
        self.marked.get()
    }

    /// The next mark above, for what must not be less.
    pub(super) fn at_least(&self, length: Length) -> String {
        self.plain(self.tape.up(length)) + self.mark(length.is_measured())
    }

    /// The width, depth or place of a joint: where it lies on no mark of the
    /// tape, thousandths of an inch or hundredths of a millimeter stand beside
    /// it, since no joint is cut to half a mark: `7/32~ (0.203)`.
    pub(super) fn mating(&self, length: Length) -> String {
        self.mating_of(length, length.is_measured())
    }

    /// As [`Figures::mating`], of a size of a part or a thickness of a stock.
    pub(super) fn mating_size(&self, size: &Size, facts: &Facts) -> String {
        self.mating_of(size.length, facts.is_measured(size))
    }

    /// As [`Figures::mating`], of a length of which it is known otherwise whether it was
    /// measured.
    pub(super) fn mating_of(&self, length: Length, measured: bool) -> String {
        let printed = self.tape.print(length);
        let shown = if printed.is_rounded() { self.finer(printed) } else { self.shown(printed) };
        shown + self.mark(measured)
    }

    /// `7/32~ (0.203)`: needs no line among the exact figures.
    fn finer(&self, printed: Printed) -> String {
        format!("{} ({})", self.tape.show(printed), self.tape.fine(printed.exact))
    }

    /// The nearest mark of the tape.
    pub(super) fn on_the_tape(&self, length: Length) -> Length {
        self.tape.print(length).shown
    }

    /// A size of a part: `(m)` behind one that a measured figure takes part in.
    pub(super) fn size(&self, size: &Size, facts: &Facts) -> String {
        self.plain(size.length) + self.mark(facts.is_measured(size))
    }

    fn show(&self, printed: Printed) -> String {
        self.shown(printed) + self.mark(printed.exact.is_measured())
    }

    fn shown(&self, printed: Printed) -> String {
        let text = self.tape.show(printed);
        if printed.is_rounded() {
            if self.apart.contains(&printed.exact) {
                return self.finer(printed);
            }
            self.rounded.borrow_mut().insert((printed.exact, text.clone()));
        }
        text
    }

    /// Parts of a whole, rounded so that they add up on paper.
    pub(super) fn spread(&self, parts: &[Length]) -> Vec<String> {
        self.tape.spread(parts).into_iter().map(|part| self.show(part)).collect()
    }

    /// The same with each at its nearest mark, as it stands on every other paper, which may
    /// then not quite add up: for a drawing.
    pub(super) fn nearest(&self, parts: &[Length]) -> Vec<String> {
        parts.iter().map(|part| self.show(self.tape.print(*part))).collect()
    }

    /// Parts that add up on paper: `1-3/4 + 61-3/4 + 2-1/2 = 66`. Where equal parts would have
    /// to be told unlike for that, their finer figures do: `11-1/8~ (11.138)`.
    pub(super) fn sum(&self, parts: &[Length]) -> String {
        let whole = self.tape.print(parts.iter().copied().sum());
        let (printed, adds_up) = self.tape.spread_alike(parts);
        let told = |part: Printed| match part.is_rounded() && !adds_up {
            true => self.finer(part) + self.mark(part.exact.is_measured()),
            false => self.show(part),
        };
        let all: Vec<String> = printed.into_iter().map(&told).collect();
        format!("{} = {}", all.join(" + "), told(whole))
    }

    /// What figures that stand above come to, each as it is printed there.
    pub(super) fn total(&self, lengths: &[Length]) -> String {
        let whole = lengths.iter().map(|length| self.tape.print(*length).shown).sum();
        let measured = lengths.iter().any(|length| length.is_measured());
        self.tape.exact(whole) + self.mark(measured)
    }

    /// A length given by a maker's sheet, in whole or tenth millimetres where
    /// that is exact, so that a 35 mm cup stays one: `35 mm`.
    pub(super) fn hardware(&self, length: Length) -> String {
        self.tape.hardware(length).unwrap_or_else(|| self.text(length))
    }

    /// Every figure that was rounded, with what it is measured finer: thousandths of an
    /// inch, hundredths of a millimeter, or the millimeters of a maker's sheet. In the
    /// order of the lengths, each once.
    pub(super) fn exacts(&self) -> Vec<(String, String)> {
        let mut told = BTreeSet::new();
        let rounded = self.rounded.borrow();
        let pairs = rounded.iter().map(|(exact, text)| (text.clone(), self.told(*exact)));
        pairs.filter(|pair| told.insert(pair.clone())).collect()
    }

    fn told(&self, exact: Length) -> String {
        let sheet = match self.tape.unit {
            Unit::Inch => self.tape.hardware(exact),
            _ => None,
        };
        sheet.unwrap_or_else(|| self.tape.fine(exact))
    }

    /// The lengths that share a printed figure with a length that is told otherwise.
    pub(super) fn clashing(&self) -> BTreeSet<Length> {
        let rounded = self.rounded.borrow();
        let mut told: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
        for (exact, text) in rounded.iter() {
            told.entry(text).or_default().insert(self.told(*exact));
        }
        let clash = |text: &str| told.get(text).is_some_and(|told| told.len() > 1);
        rounded.iter().filter(|(_, text)| clash(text)).map(|(exact, _)| *exact).collect()
    }
}
