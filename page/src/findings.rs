//! Findings with their sums and mends.

use casewright::diagnostics::render::{Look, mending};
use casewright::diagnostics::{self, Edit, Label, NamedFix};
use casewright::measure::FileId;
use casewright::pipeline::Compilation;
use serde::Serialize;

use crate::place::Place;

/// What is found, in order, and how much of it is accepted.
#[derive(Serialize)]
pub(crate) struct Findings {
    all: Vec<Finding>,
    accepted: usize,
}

#[derive(Serialize)]
struct Finding {
    slug: &'static str,
    severity: &'static str,
    title: String,
    primary: Marked,
    labels: Vec<Marked>,
    /// Each line of arithmetic: its head, and what it comes to.
    sums: Vec<[String; 2]>,
    because: Option<String>,
    notes: Vec<String>,
    mends: Vec<Mend>,
}

#[derive(Serialize)]
struct Marked {
    at: Place,
    text: String,
}

#[derive(Serialize)]
struct Mend {
    /// As the command asks for it: `sizes-conflict:51:2`.
    name: String,
    /// What it brings about.
    title: String,
    /// The line as it will read.
    reads: String,
    edits: Vec<Marked>,
}

pub(crate) fn of(compiled: &Compilation) -> Findings {
    let sources = &compiled.sources;
    let named = diagnostics::named(sources, &compiled.diagnostics);
    let marked =
        |label: &Label| Marked { at: Place::of(sources, label.span), text: label.text.clone() };
    let edit = |edit: &Edit| Marked { at: Place::of(sources, edit.span), text: edit.text.clone() };
    let mend = |own: &NamedFix<'_>| Mend {
        name: own.name.clone(),
        title: own.fix.title.clone(),
        reads: mending(sources, own.fix, FileId::default(), Look::plain()),
        edits: own.fix.edits.iter().map(edit).collect(),
    };
    let finding = |(at, found): (usize, &diagnostics::Diagnostic)| Finding {
        slug: found.slug,
        severity: found.severity.word(),
        title: found.title.clone(),
        primary: marked(&found.primary),
        labels: found.labels.iter().map(marked).collect(),
        sums: found
            .sums
            .iter()
            .map(|sum| [sum.head.clone(), sum.text()])
            .chain(found.working.iter().map(|(head, text)| [head.clone(), text.clone()]))
            .collect(),
        because: found.because.clone(),
        notes: found.notes.clone(),
        mends: named.iter().filter(|own| own.finding == at).map(mend).collect(),
    };
    Findings {
        all: compiled.diagnostics.iter().enumerate().map(finding).collect(),
        accepted: compiled.accepted.len(),
    }
}
