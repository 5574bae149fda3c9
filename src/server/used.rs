//! What is wrong in the files that a spec uses, told where the spec uses them: a spec that
//! can't be built must not look clean.

use lsp_types::{Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity};

use crate::diagnostics::{self, Severity, counted, render};
use crate::measure::{FileId, Span};
use crate::pipeline::Compilation;
use crate::vocabulary::{self, Kind, Step, Value};

use super::specs::Compiled;
use super::state::State;

/// For each file that the spec itself uses and that has errors, one finding at its `use`.
pub(super) fn told(state: &State<'_>, compiled: &Compiled) -> Vec<Diagnostic> {
    let compilation = &compiled.compilation;
    let errors = || compilation.diagnostics.iter().filter(|own| own.severity == Severity::Error);
    // Mostly none stands elsewhere: then no text is read again to find where it is used.
    if errors().all(|own| own.primary.span.file == FileId::default()) {
        return Vec::new();
    }
    let of = |file: FileId| -> Vec<&diagnostics::Diagnostic> {
        errors().filter(|own| own.primary.span.file == file).collect()
    };
    let used = places(compiled).into_iter().map(|(span, file)| (span, file, of(file)));
    used.filter_map(|(span, file, errors)| one(state, compilation, (span, file), &errors)).collect()
}

fn one(
    state: &State<'_>,
    compiled: &Compilation,
    (span, file): (Span, FileId),
    errors: &[&diagnostics::Diagnostic],
) -> Option<Diagnostic> {
    let first = errors.first()?;
    let name = render::plain(&compiled.sources.get(file)?.name);
    let title = render::plain(&first.title);
    let related = errors.iter().filter_map(|error| {
        let location = state.location(compiled, error.primary.span)?;
        Some(DiagnosticRelatedInformation { location, message: render::plain(&error.title) })
    });
    Some(Diagnostic {
        range: state.location(compiled, span)?.range,
        severity: Some(DiagnosticSeverity::ERROR),
        source: Some(env!("CARGO_PKG_NAME").to_owned()),
        message: match errors.len() {
            1 => format!("{name} has an error: {title}"),
            many => format!("{name} has {}, the first: {title}", counted(many, "error")),
        },
        related_information: Some(related.collect()),
        ..Diagnostic::default()
    })
}

/// Where the spec uses a file, and which.
pub(super) fn places(compiled: &Compiled) -> Vec<(Span, FileId)> {
    let compilation = &compiled.compilation;
    let mut found = Vec::new();
    let Some(tree) = compilation.tree(FileId::default()) else { return found };
    vocabulary::walk(tree, compiled.unit(), &mut |step| {
        let Step::Argument(given) = step else { return };
        let (Kind::File, Some(Value::Text(path))) = (given.kind, &given.value) else { return };
        let path = path.trim_start_matches("./");
        let mut used = compilation.sources.iter().skip(1);
        let own = used.find(|(_, source)| source.name.rsplit_once(path).is_some_and(is_whole));
        found.extend(own.map(|(file, _)| (given.span, file)));
    });
    found
}

/// True where a path is the end of a name, from a slash on.
fn is_whole((before, after): (&str, &str)) -> bool {
    after.is_empty() && (before.is_empty() || before.ends_with('/'))
}
