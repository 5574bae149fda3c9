//! What is found, told to the editor at the places where it stands.

use std::collections::BTreeMap;
use std::mem;

use lsp_types::notification::PublishDiagnostics;
use lsp_types::{
    Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, NumberOrString,
    PublishDiagnosticsParams,
};

use crate::diagnostics::{self, Grade, Label, Severity, render};
use crate::model::ReadError;
use crate::pipeline::Compilation;

use super::names;
use super::state::State;
use super::used;

/// Compiles what has changed, and tells what is found in it, of every file that has findings
/// now or had some before.
pub(super) fn tell(state: &mut State<'_>) {
    if !mem::take(&mut state.untold) {
        return;
    }
    state.refresh();
    let mut found: BTreeMap<String, Vec<Diagnostic>> = BTreeMap::new();
    for (name, spec) in &state.specs {
        if let Some(error) = &spec.unread {
            found.entry(name.clone()).or_default().push(unread(error));
        } else if let Some(compiled) = &spec.now {
            add(state, &compiled.compilation, &mut found);
            found.entry(name.clone()).or_default().extend(used::told(state, compiled));
        }
        found.entry(name.clone()).or_default();
    }
    let marked = found.iter().filter(|(_, all)| !all.is_empty()).map(|(name, _)| name.clone());
    let before = mem::replace(&mut state.marked, marked.collect());
    for name in before {
        found.entry(name).or_default();
    }
    for (name, diagnostics) in found {
        let Some(uri) = state.uri(&name) else { continue };
        let version = state.texts.get(&name).map(|text| text.version);
        let params = PublishDiagnosticsParams { uri, diagnostics, version };
        state.notify::<PublishDiagnostics>(params);
    }
}

/// What is found in one spec, each in its file. What two specs find in a file that both use
/// is told once.
fn add(state: &State<'_>, compiled: &Compilation, found: &mut BTreeMap<String, Vec<Diagnostic>>) {
    for own in compiled.diagnostics.iter().filter(|own| compiled.is_piece() || !own.of_piece) {
        let Some(source) = compiled.sources.get(own.primary.span.file) else { continue };
        let Some(told) = one(state, compiled, own) else { continue };
        let all = found.entry(source.name.clone()).or_default();
        if !all.contains(&told) {
            all.push(told);
        }
    }
}

/// A finding as the protocol has it; a mend with a blank to fill in is told in words, since
/// no editor can make it.
pub(super) fn one(
    state: &State<'_>,
    compiled: &Compilation,
    own: &diagnostics::Diagnostic,
) -> Option<Diagnostic> {
    let at = state.location(compiled, own.primary.span)?;
    let home = own.primary.span.file;
    let mut lines = render::finding(own);
    let sketches = own.fixes.iter().filter(|fix| fix.grade == Grade::Sketch);
    lines.extend(
        sketches.map(|fix| format!("by hand: {}", render::way(&compiled.sources, fix, home))),
    );
    // Where only one thing can have been meant, it is said at once.
    let sure = own.fixes.iter().filter(|fix| fix.grade == Grade::Sure);
    lines.extend(sure.map(|fix| format!("mend: {}", render::way(&compiled.sources, fix, home))));
    let primary = Some(&own.primary).filter(|label| !label.text.is_empty());
    let related = primary.into_iter().chain(&own.labels).filter_map(|label| {
        let location = state.location(compiled, label.span)?;
        Some(DiagnosticRelatedInformation { location, message: said(compiled, label) })
    });
    let related: Vec<DiagnosticRelatedInformation> = related.collect();
    Some(Diagnostic {
        range: at.range,
        severity: Some(match own.severity {
            Severity::Error => DiagnosticSeverity::ERROR,
            Severity::Warning => DiagnosticSeverity::WARNING,
            Severity::Note => DiagnosticSeverity::INFORMATION,
        }),
        code: Some(NumberOrString::String(own.slug.to_owned())),
        source: Some(env!("CARGO_PKG_NAME").to_owned()),
        message: names::near(&compiled.sources, lines.join("\n")),
        related_information: (!related.is_empty()).then_some(related),
        ..Diagnostic::default()
    })
}

/// What stands at a label, where that is all that it says: a bare `4` tells less than `high 4`
/// in a list of places.
fn said(compiled: &Compilation, label: &Label) -> String {
    let text = render::plain(&label.text);
    let there = render::plain(compiled.sources.text(label.span).lines().next().unwrap_or(""));
    if there.contains(&text) { there } else { text }
}

/// Why a text that is open can't be read.
fn unread(error: &ReadError) -> Diagnostic {
    let message = match error {
        ReadError::Missing => "there is no such file".to_owned(),
        ReadError::Outside => "it lies outside its folder".to_owned(),
        ReadError::TooLarge => "it is larger than 8 MiB".to_owned(),
        ReadError::NotText => "it is not UTF-8 text".to_owned(),
        ReadError::Other(why) => render::plain(why),
    };
    Diagnostic {
        severity: Some(DiagnosticSeverity::ERROR),
        source: Some(env!("CARGO_PKG_NAME").to_owned()),
        message,
        ..Diagnostic::default()
    }
}
