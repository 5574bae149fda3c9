//! One of the two revisions: what is told of it, and what is planned from it.

use crate::diagnostics::Severity;
use crate::measure::Unit;
use crate::pipeline::Compilation;

use super::Named;
use super::difference::{Fault, Revision};

/// What is told of a side.
pub(super) fn told(named: Named<'_>) -> Revision {
    let compiled = named.compiled;
    let errors = compiled.diagnostics.iter().filter(|d| d.severity == Severity::Error);
    let errors = errors.map(|error| {
        let span = error.primary.span;
        Fault {
            slug: error.slug,
            title: error.title.clone(),
            file: compiled.sources.get(span.file).map_or(String::new(), |file| file.name.clone()),
            line: compiled.sources.position(span).line,
        }
    });
    let job = compiled.piece.as_ref().map(|piece| &piece.job);
    Revision {
        name: named.name.to_owned(),
        job: job.map(|job| job.name.clone()),
        revision: job.map(|job| job.revision.clone()),
        measure: job.map(|job| {
            let unit = match job.tape.unit {
                Unit::Inch => "inches",
                _ => "millimeters",
            };
            format!("{unit} to {}", job.tape.exact(job.tape.mark))
        }),
        parts: compiled.parts.as_ref().map(|parts| parts.all.len()),
        cut: cut(compiled),
        errors: errors.collect(),
    }
}

/// How many parts lie on the bench.
fn cut(compiled: &Compilation) -> Option<usize> {
    Some(compiled.workings()?.ledger().cut().count())
}
