//! What every answer is put together with: sums of lengths, weights, and times,
//! and the statements that their terms come from.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::measure::{Duration, Exact, Length, MEASURED, Mass, Scale, Span, Tape};
use crate::model::{FactId, Facts, Fronts, Hinge, Opening, Piece, Size};
use crate::parts::{self, Direction, Part, PartId, Parts};
use crate::pipeline::Compilation;
use crate::plans::Workings;
use crate::vocabulary::{Block, Origin, Word, words};

use super::lines::Lines;
use super::{Subject, Sum, Term, TermFrom, Value};

/// Tells of one piece.
pub(super) struct Teller<'c> {
    pub(super) piece: &'c Piece,
    pub(super) parts: &'c Parts,
    pub(super) work: &'c Workings<'c>,
    pub(super) tape: &'c Tape,
    pub(super) scale: Scale,
    lines: Lines,
    /// The facts of the piece, and those that only a plan reads.
    facts: RefCell<Facts>,
    /// How the figures of the trade among them are worked out.
    customs: RefCell<BTreeMap<FactId, String>>,
}

impl<'c> Teller<'c> {
    pub(super) fn new(compiled: &'c Compilation, work: &'c Workings<'c>) -> Self {
        let tape = work.piece.tape();
        Self {
            piece: work.piece,
            parts: work.parts,
            work,
            tape,
            scale: Scale::of(tape),
            lines: Lines::of(compiled),
            facts: RefCell::new(work.piece.facts.clone()),
            customs: RefCell::default(),
        }
    }

    /// Where a word is written, in the statement that begins at `within` or
    /// anywhere; else whose default holds.
    pub(super) fn origin<T>(&self, block: &Block, word: Word<T>, within: Option<Span>) -> Origin {
        self.lines.origin(block, word, within)
    }

    /// A figure of the spec that the model keeps as a bare length.
    pub(super) fn fact(&self, length: Length, name: impl Into<String>, origin: Origin) -> Size {
        self.facts.borrow_mut().add(length, name, origin)
    }

    /// What a door hangs on, and how high its hinges are above its lower end.
    pub(super) fn hung(&self, leaf: &Part) -> Option<(&'c Opening, &'c Hinge, Vec<Size>)> {
        let opening = self.piece.opening(leaf.opening()?)?;
        let fronts = opening.front.as_ref()?;
        let hinge = self.piece.hinge(fronts.hinge?.0)?;
        let ends = self.hinge_ends(fronts, hinge);
        let count = self.piece.hinges_on(opening, fronts);
        let mut heights = parts::hinge_heights(leaf.along(Direction::Y), &ends, count);
        let foot = leaf.extent(Direction::Y).0;
        for (height, cup) in heights.iter_mut().zip(parts::reaches(leaf)) {
            let by = cup.center() - foot - height.length;
            if !by.is_zero() {
                let how = "the nearest place that is clear of the joints of its door, of what its plate is screwed to, and of the boards behind it: common practice, no source";
                *height = &*height + self.custom(by, "stepping aside", how);
            }
        }
        Some((opening, hinge, heights))
    }

    /// From the bottom of a door to its lowest hinge, and from its top to the uppermost:
    /// as its front says, else as the hinge does.
    fn hinge_ends(&self, fronts: &Fronts, hinge: &Hinge) -> [Size; 2] {
        use words::hinge::{BLOCK, FROM_END};
        let place = &fronts.hinge_place;
        let said = [(place.from_bottom, "lowest"), (place.from_top, "uppermost")];
        said.map(|(own, which)| match own {
            Some((length, span)) => {
                self.fact(length, format!("{which} hinge of the door"), Origin::Written(span))
            }
            None => {
                let end = self.origin(&BLOCK, FROM_END, Some(hinge.span));
                self.fact(hinge.from_end, format!("first hinge of {}", hinge.name), end)
            }
        })
    }

    /// A figure of the trade, with how it is chosen and by what source.
    pub(super) fn custom(&self, length: Length, name: &str, how: impl Into<String>) -> Size {
        let origin = Origin::Default { block: "", word: "" };
        let size = self.facts.borrow_mut().add(length, name, origin);
        if let [(id, _)] = size.terms() {
            self.customs.borrow_mut().insert(*id, how.into());
        }
        size
    }

    /// The fact that is written in this statement.
    pub(super) fn written(&self, length: Length, span: Span, name: &str) -> Size {
        self.fact(length, name, Origin::Written(span))
    }

    /// A length of the papers, told by what it is a sum of.
    pub(super) fn length(
        &self,
        about: &[Subject],
        word: impl AsRef<str>,
        length: Length,
        sum: &Size,
    ) -> Sum {
        let size = Size::from_terms(length, sum.terms().to_vec());
        let facts = self.facts.borrow();
        let mut told = super::sum(self.tape, &facts, word.as_ref(), &size);
        told.about = about.to_vec();
        let customs = self.customs.borrow();
        let ids = size.terms().iter().filter(|(id, _)| facts.get(*id).is_some());
        for ((id, _), term) in ids.zip(&mut told.terms) {
            let (Some(how), TermFrom::Fact { name, .. }) = (customs.get(id), &term.from) else {
                continue;
            };
            term.from = TermFrom::Worked { name: name.clone(), how: how.clone(), from: Vec::new() };
        }
        told
    }

    /// The same of a length that a maker's sheet gives.
    pub(super) fn hardware(
        &self,
        about: &[Subject],
        word: impl AsRef<str>,
        length: Length,
        sum: &Size,
    ) -> Sum {
        let told = self.length(about, word, length, sum);
        match self.tape.hardware(length) {
            Some(paper) => Sum { exact: paper.clone(), paper, printed: None, ..told },
            None => told,
        }
    }

    /// The terms of a length.
    pub(super) fn terms(&self, length: Length, sum: &Size) -> Vec<Term> {
        self.length(&[], "", length, sum).terms
    }

    /// A figure that is worked out in one go.
    pub(super) fn worked(
        &self,
        value: Value,
        text: &str,
        name: impl Into<String>,
        how: impl Into<String>,
        from: Vec<Origin>,
    ) -> Term {
        let negative = is_negative(value);
        let value = if negative { value.times(-Exact::ONE) } else { value };
        let from = TermFrom::Worked { name: name.into(), how: how.into(), from };
        let text = format!("{} {}", super::sign(negative), text.trim_start_matches('−'));
        Term { negative, times: Exact::ONE, value, text, from }
    }

    /// A length finer than the tape, that physics gives.
    pub(super) fn fine(&self, length: Length) -> String {
        self.tape.fine(length)
    }

    /// A figure with its terms; what they don't come to was rounded.
    pub(super) fn figure(
        &self,
        about: &[Subject],
        word: impl Into<String>,
        (value, paper): (Value, String),
        terms: Vec<Term>,
    ) -> Sum {
        let mut sum = Sum {
            about: about.to_vec(),
            word: word.into(),
            value,
            exact: paper.clone(),
            paper,
            printed: None,
            holds: true,
            terms,
        };
        let rest = sum
            .total()
            .and_then(|total| value.plus(total.times(-Exact::ONE)))
            .filter(|rest| rest.times(Exact::ZERO) != *rest);
        if let Some(rest) = rest {
            let text = self.text(rest);
            let rounded = self.worked(rest, &text, "", "", Vec::new());
            sum.terms.push(Term { from: TermFrom::Rounded, ..rounded });
        }
        sum
    }

    /// A figure in words, finer than the papers have it.
    pub(super) fn text(&self, value: Value) -> String {
        match value {
            Value::Length(length) => self.fine(length),
            Value::Mass(mass) => self.weight(mass),
            Value::Time(time) => minutes(time),
            Value::Count(count) => count.to_string(),
        }
    }

    /// A weight to the gram, or to the thousandth of a pound.
    pub(super) fn weight(&self, mass: Mass) -> String {
        let (one, unit) = match self.scale.text(Mass(Exact::ZERO)).ends_with("lb") {
            true => (Mass::pounds(Exact::ONE).0, "lb"),
            false => (Exact::ONE, "kg"),
        };
        format!("{} {unit}", decimal(mass.0 / one, 3))
    }

    /// `(m)` behind a figure that is made from a measured one.
    pub(super) fn mark(measured: bool) -> &'static str {
        if measured { MEASURED } else { "" }
    }

    /// From where a part begins along a direction to a place of it, told by the
    /// boards that it is joined to: a wall of a cut lies where the board ends that
    /// goes into it.
    pub(super) fn reach(
        &self,
        (id, part): (PartId, &Part),
        direction: Direction,
        place: Length,
        takes: Option<PartId>,
    ) -> Size {
        let whole = part.along(direction);
        if place.is_zero() {
            return Size::zero();
        }
        if place == whole.length {
            return whole.clone();
        }
        let start = part.side(direction, false);
        let plane = start.length + place;
        let joined = self.parts.joints.iter().filter_map(|joint| match id {
            _ if joint.into == id => Some(joint.part),
            _ if joint.part == id => Some(joint.into),
            _ => None,
        });
        let others = takes.into_iter().chain(joined).filter_map(|other| self.parts.get(other));
        let mut sides =
            others.flat_map(|other| [false, true].map(|far| other.side(direction, far)));
        match sides.find(|side| side.length == plane) {
            Some(side) => side - start,
            None => place.into(),
        }
    }
}

fn is_negative(value: Value) -> bool {
    match value {
        Value::Length(length) => length.is_negative(),
        Value::Mass(mass) => mass.0.is_negative(),
        Value::Time(time) => time.0.is_negative(),
        Value::Count(count) => count.is_negative(),
    }
}

/// A time as short as it takes: `12.64 min`.
pub(super) fn minutes(time: Duration) -> String {
    match (time.0 * Exact::int(60)).is_whole() {
        true => time.to_string(),
        false => format!("{} min", decimal(time.0, 2)),
    }
}

/// So many places behind the point.
pub(super) fn decimal(value: Exact, places: u32) -> String {
    let scale = 10i64.pow(places);
    let count = (value * Exact::int(scale)).round();
    let sign = if count < 0 { "−" } else { "" };
    let (whole, rest) = (count.unsigned_abs() / scale as u64, count.unsigned_abs() % scale as u64);
    format!("{sign}{whole}.{rest:0places$}", places = places as usize)
}
