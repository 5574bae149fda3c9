//! Arithmetic as data, so that a message can print it and a machine read it.

use crate::measure::{Length, Tape};

/// A figure with the text it is printed as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// The exact length; `None` for a weight or moment.
    pub exact: Option<Length>,
    /// As printed in the job's unit.
    pub text: String,
}

impl Figure {
    /// The figure as messages print it.
    #[must_use]
    pub fn new(exact: Length, tape: &Tape) -> Self {
        Self { exact: Some(exact), text: tape.figure(exact) }
    }

    /// A figure that is no length, as it is printed.
    #[must_use]
    pub fn told(text: impl Into<String>) -> Self {
        Self { exact: None, text: text.into() }
    }
}

/// One term of a sum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// Taken away instead of added.
    pub minus: bool,
    /// How often it counts; 1 prints nothing.
    pub times: u32,
    /// The figure.
    pub figure: Figure,
    /// What it is: `top rail`; may be empty.
    pub name: String,
}

/// A line of arithmetic: `needs 5 + 1-1/2 + 9 = 15-1/2`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sum {
    /// `needs`, `leaves`, `over by`.
    pub head: String,
    /// The terms; empty for a line that only states the total.
    pub terms: Vec<Term>,
    /// What they come to.
    pub total: Figure,
    /// How many equal things the terms are shared among; 1 prints nothing.
    pub over: u32,
}

impl Sum {
    /// A line that starts with `head` and has no terms yet.
    #[must_use]
    pub fn new(head: impl Into<String>, total: Length, tape: &Tape) -> Self {
        Self { head: head.into(), terms: Vec::new(), total: Figure::new(total, tape), over: 1 }
    }

    /// A line of weights or moments, which have no terms yet.
    #[must_use]
    pub fn told(head: impl Into<String>, total: impl Into<String>) -> Self {
        Self { head: head.into(), terms: Vec::new(), total: Figure::told(total), over: 1 }
    }

    /// Adds a term.
    #[must_use]
    pub fn plus(self, value: Length, name: impl Into<String>, tape: &Tape) -> Self {
        self.and(Figure::new(value, tape), name)
    }

    /// Adds a term of any kind.
    #[must_use]
    pub fn and(mut self, figure: Figure, name: impl Into<String>) -> Self {
        self.terms.push(Term { minus: false, times: 1, figure, name: name.into() });
        self
    }

    /// Takes a term away.
    #[must_use]
    pub fn minus(mut self, value: Length, name: impl Into<String>, tape: &Tape) -> Self {
        self.terms.push(Term {
            minus: true,
            times: 1,
            figure: Figure::new(value, tape),
            name: name.into(),
        });
        self
    }

    /// The right-hand side as a maker writes it:
    /// `33 high − 4 base − 1-1/2 top rail = 26`.
    #[must_use]
    pub fn text(&self) -> String {
        if self.terms.is_empty() {
            return self.total.text.clone();
        }
        let mut line = String::new();
        for (i, term) in self.terms.iter().enumerate() {
            match (i, term.minus) {
                (0, false) => {}
                (0, true) => line.push('−'),
                (_, false) => line.push_str(" + "),
                (_, true) => line.push_str(" − "),
            }
            if term.times > 1 {
                line.push_str(&format!("{} × ", term.times));
            }
            line.push_str(&term.figure.text);
            if !term.name.is_empty() {
                line.push(' ');
                line.push_str(&term.name);
            }
        }
        if self.over > 1 {
            line = format!("({line}) / {}", self.over);
        }
        format!("{line} = {}", self.total.text)
    }
}
