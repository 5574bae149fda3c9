//! What a rule is.

use std::collections::BTreeSet;

use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Span;
use crate::model::Piece;
use crate::plans::Workings;

/// A sound spec that examples change one line of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Base {
    /// The piece that `casewright new` writes.
    First,
    /// The hall console.
    Console,
    /// The linen press.
    Press,
    /// The shelves in an alcove, three cases side by side.
    Alcove,
    /// The pantry with trays behind doors.
    Pantry,
    /// The chest whose drawers run on wood.
    Chest,
    /// The wardrobe with rails and drawers behind doors.
    Wardrobe,
    /// The media shelf that hangs on the wall.
    Hung,
    /// The run of a laundry, with a filler and a space.
    Run,
    /// The hutch on its base.
    Hutch,
    /// The stand on posts of the reference.
    Posts,
    /// The bath cabinet with glass.
    Glazed,
}

impl Base {
    /// Its text.
    #[must_use]
    pub fn text(self) -> &'static str {
        match self {
            Self::First => include_str!("../../specs/first.case"),
            Self::Console => include_str!("../../specs/hall-console.case"),
            Self::Press => include_str!("../../specs/tide-cottage-press.case"),
            Self::Alcove => include_str!("../../specs/alcove-shelves.case"),
            Self::Pantry => include_str!("../../specs/weir-house-pantry.case"),
            Self::Chest => include_str!("../../specs/orchard-lane-chest.case"),
            Self::Wardrobe => include_str!("../../specs/mill-lane-wardrobe.case"),
            Self::Hung => include_str!("../../specs/signal-house-media-shelf.case"),
            Self::Run => include_str!("../../specs/gate-cottage-laundry.case"),
            Self::Hutch => include_str!("../../specs/heron-quay-hutch.case"),
            Self::Posts => include_str!("../../specs/fern-bank-stand.case"),
            Self::Glazed => include_str!("../../specs/pier-road-bath-cabinet.case"),
        }
    }
}

/// One change that makes the rule fire, and the text as it is sound.
#[derive(Clone, Copy, Debug)]
pub struct Example {
    /// The spec that is changed.
    pub base: Base,
    /// A line or part of a line of it.
    pub sound: &'static str,
    /// What it reads where the rule fires.
    pub wrong: &'static str,
}

impl Example {
    /// The whole spec in which the rule fires.
    #[must_use]
    pub fn broken(&self) -> String {
        self.base.text().replacen(self.sound, self.wrong, 1)
    }
}

/// At which stage a rule looks.
#[derive(Clone, Copy, Debug)]
pub enum Check {
    /// It is found while the spec is read and solved.
    Reading,
    /// It looks at the solved piece.
    Piece(fn(&Piece, &mut Sink)),
    /// It looks at the parts and what is worked out of them.
    Parts(fn(&Workings<'_>, &mut Sink)),
}

/// A rule.
#[derive(Clone, Copy, Debug)]
pub struct Rule {
    /// Its name.
    pub slug: &'static str,
    /// How bad a finding of it is, unless `sometimes` says otherwise.
    pub severity: Severity,
    /// What it finds.
    pub finds: &'static str,
    /// What goes wrong in the shop.
    pub why: &'static str,
    /// Where its figures come from.
    pub source: &'static str,
    /// How it is worked out, in a line; empty where the finding says all.
    pub formula: &'static str,
    /// When a maker may accept it; empty for an error, which can't be.
    pub accept: &'static str,
    /// A spec that it fires on, and the nearest sound one.
    pub example: Example,
    /// How it looks.
    pub check: Check,
    /// How bad a finding of it is at times, and when.
    pub sometimes: Option<(Severity, &'static str)>,
}

impl Rule {
    /// A finding of this rule, as bad as the rule says.
    pub(super) fn finding(
        &self,
        title: impl Into<String>,
        span: Span,
        label: impl Into<String>,
    ) -> Diagnostic {
        Diagnostic::new(self.slug, self.severity, title, span, label)
    }

    /// What it has told of already: what else is wrong with that follows from it.
    pub(super) fn told(&self, sink: &Sink) -> BTreeSet<String> {
        let own = sink.all().iter().filter(|found| found.slug == self.slug);
        own.filter_map(|found| found.subject.clone()).collect()
    }

    /// The same where the rule's other severity holds.
    pub(super) fn at_times(&self, found: Diagnostic) -> Diagnostic {
        let severity = self.sometimes.map_or(self.severity, |(severity, _)| severity);
        Diagnostic { severity, ..found }
    }
}
