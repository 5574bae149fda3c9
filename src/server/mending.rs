//! What mends a finding, as edits that the editor makes.

use std::collections::HashMap;

use lsp_types::request::CodeActionRequest;
use lsp_types::{
    CodeAction, CodeActionContext, CodeActionKind, CodeActionOrCommand, CodeActionParams,
    DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier, Range, TextDocumentEdit,
    TextEdit, Uri, WorkspaceEdit,
};

use crate::checks;
use crate::diagnostics::{self, Fix, Grade, render};
use crate::measure::{FileId, Span, line_end};
use crate::pipeline::Compilation;

use super::answers::Answer;
use super::findings;
use super::names;
use super::state::State;
use super::texts;

/// The mends of what is found in a range, and all the sure ones together where an editor asks
/// for everything that can be mended.
pub(super) fn actions(state: &State<'_>, params: CodeActionParams) -> Answer<CodeActionRequest> {
    let CodeActionParams { text_document, range, context, .. } = params;
    let name = texts::name(&text_document.uri);
    let mut all: Vec<CodeActionOrCommand> = Vec::new();
    // What a file that others use lacks may be found in one of them.
    for (compiled, file) in state.with(&name) {
        let compilation = &compiled.compilation;
        let mut own = Vec::new();
        if asks(&context, &CodeActionKind::QUICKFIX) {
            own.extend(mends(state, compilation, file, range));
        }
        if asks(&context, &CodeActionKind::SOURCE_FIX_ALL) {
            own.extend(sure(state, compilation));
        }
        for action in own.into_iter().map(CodeActionOrCommand::CodeAction) {
            if !all.contains(&action) {
                all.push(action);
            }
        }
    }
    Ok(Some(all))
}

/// True where an editor asks for actions of this kind. Those for the whole text are offered
/// only where they are asked for.
fn asks(context: &CodeActionContext, kind: &CodeActionKind) -> bool {
    let Some(only) = &context.only else { return *kind == CodeActionKind::QUICKFIX };
    let is_kind = |asked: &CodeActionKind| {
        let rest = kind.as_str().strip_prefix(asked.as_str());
        asked.as_str().is_empty()
            || rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    };
    only.iter().any(is_kind)
}

/// The mends of each finding that is marked in a range. The first of a finding is the best.
fn mends(state: &State<'_>, compiled: &Compilation, file: FileId, range: Range) -> Vec<CodeAction> {
    let mut all = Vec::new();
    for found in compiled.diagnostics.iter().filter(|own| own.primary.span.file == file) {
        let Some(told) = findings::one(state, compiled, found) else { continue };
        // Anywhere in its lines: no hand aims at a single figure.
        if told.range.end.line < range.start.line || range.end.line < told.range.start.line {
            continue;
        }
        let action = |title: String, fix: &Fix| {
            Some(CodeAction {
                title,
                kind: Some(CodeActionKind::QUICKFIX),
                diagnostics: Some(vec![told.clone()]),
                is_preferred: Some(fix.grade == Grade::Sure),
                edit: Some(edit(state, compiled, fix)?),
                ..CodeAction::default()
            })
        };
        let way = |fix| names::near(&compiled.sources, render::way(&compiled.sources, fix, file));
        let mends = found.fixes.iter().filter(|fix| fix.grade != Grade::Sketch);
        all.extend(mends.filter_map(|fix| action(way(fix), fix)));
        // A line that accepts a warning, with a reason for the maker to write.
        let accepting = checks::accepting(&compiled.sources, found);
        all.extend(accepting.iter().filter_map(|fix| action(render::plain(&fix.title), fix)));
    }
    all
}

/// All the sure mends of a spec at once.
fn sure(state: &State<'_>, compiled: &Compilation) -> Option<CodeAction> {
    let fixes = compiled.diagnostics.iter().flat_map(|own| &own.fixes);
    let fixes: Vec<&Fix> = fixes.filter(|fix| fix.grade == Grade::Sure).collect();
    let mended = diagnostics::mend(&compiled.sources, &fixes);
    let mut changes: Vec<(FileId, Vec<TextEdit>)> = Vec::new();
    for (file, text) in mended.texts {
        let source = compiled.sources.get(file)?;
        changes.push((file, texts::edits(source, &text)));
    }
    if changes.is_empty() {
        return None;
    }
    Some(CodeAction {
        title: "make every sure mend".to_owned(),
        kind: Some(CodeActionKind::SOURCE_FIX_ALL),
        edit: Some(workspace(state, compiled, changes)?),
        ..CodeAction::default()
    })
}

/// A fix as edits of the files that it changes; `None` where one of them can't be reached.
pub(super) fn edit(state: &State<'_>, compiled: &Compilation, fix: &Fix) -> Option<WorkspaceEdit> {
    let mut changes: Vec<(FileId, Vec<TextEdit>)> = Vec::new();
    for own in &fix.edits {
        let Span { file, start, end } = own.span;
        let source = compiled.sources.get(file)?;
        let new_text = own.text.replace('\n', line_end(&source.text));
        let change = TextEdit { range: texts::range(source, start, end), new_text };
        match changes.iter_mut().find(|(other, _)| *other == file) {
            Some((_, all)) => all.push(change),
            None => changes.push((file, vec![change])),
        }
    }
    workspace(state, compiled, changes)
}

/// Edits by file; each with the version that it is meant for, where the editor knows what to
/// do with that.
fn workspace(
    state: &State<'_>,
    compiled: &Compilation,
    changes: Vec<(FileId, Vec<TextEdit>)>,
) -> Option<WorkspaceEdit> {
    let mut named = Vec::new();
    for (file, edits) in changes {
        named.push((compiled.sources.get(file)?.name.as_str(), edits));
    }
    by_name(state, named)
}

/// The same by the names of the files.
pub(super) fn by_name(
    state: &State<'_>,
    changes: Vec<(&str, Vec<TextEdit>)>,
) -> Option<WorkspaceEdit> {
    let mut edits = Vec::new();
    for (name, own) in changes {
        edits.push((state.uri(name)?, state.texts.get(name).map(|text| text.version), own));
    }
    if !state.takes_versions {
        // The protocol's own type has a key that could change, which nobody does here.
        #[expect(clippy::mutable_key_type, reason = "the type that the protocol's crate has")]
        let changes: HashMap<Uri, Vec<TextEdit>> =
            edits.into_iter().map(|(uri, _, own)| (uri, own)).collect();
        return Some(WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() });
    }
    let edits = edits.into_iter().map(|(uri, version, own)| TextDocumentEdit {
        text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
        edits: own.into_iter().map(OneOf::Left).collect(),
    });
    let changes = Some(DocumentChanges::Edits(edits.collect()));
    Some(WorkspaceEdit { document_changes: changes, ..WorkspaceEdit::default() })
}
