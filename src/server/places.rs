//! Where a name is given and used, and another name for it.

use std::collections::BTreeMap;

use lsp_server::{ErrorCode, ResponseError};
use lsp_types::request::{GotoDefinition, PrepareRenameRequest, References, Rename};
use lsp_types::{
    GotoDefinitionParams, GotoDefinitionResponse, Location, PrepareRenameResponse, ReferenceParams,
    RenameParams, TextDocumentPositionParams, TextEdit,
};

use crate::editor::{self, Meaning, NameId, NameKind, Refused};
use crate::measure::{FileId, Span};

use super::answers::Answer;
use super::mending;
use super::specs::Compiled;
use super::state::{Spot, State};
use super::texts;
use super::used;

/// A name, in each compilation that has it.
struct Found<'s> {
    all: Vec<(&'s Compiled, NameId)>,
    /// Where it was asked about: there the name stands, of a keep-out with its quotes.
    here: (&'s Compiled, Span, NameId),
}

/// Where the name at a place is given.
pub(super) fn given(state: &State<'_>, params: GotoDefinitionParams) -> Answer<GotoDefinition> {
    let at = params.text_document_position_params;
    let Some(spot) = state.spot(&at.text_document.uri) else { return Ok(None) };
    let names = spot.compiled.names();
    let byte = spot.byte(at.position);
    let found = names.at(spot.file, byte);
    let span = found.and_then(|mention| names.definition(mention.meaning));
    let Some(span) = span.or_else(|| used_file(&spot, byte)) else { return Ok(None) };
    let Some(source) = spot.compiled.compilation.sources.get(span.file) else { return Ok(None) };
    let (name, range) = (source.name.clone(), texts::range(source, span.start, span.end));
    let location = state.uri(&name).map(|uri| Location { uri, range });
    Ok(location.map(GotoDefinitionResponse::Scalar))
}

/// The start of the file that a spec uses, where its path stands at a byte of it.
fn used_file(spot: &Spot<'_>, byte: u32) -> Option<Span> {
    let here = |span: Span| span.file == spot.file && span.start <= byte && byte <= span.end;
    let mut uses = used::places(spot.compiled).into_iter();
    uses.find(|(span, _)| here(*span)).map(|(_, file)| Span::new(file, 0, 0))
}

/// Every place at which the name at a place is meant, in the specs that are open and in
/// those around the file that gives it.
pub(super) fn used(state: &State<'_>, params: ReferenceParams) -> Answer<References> {
    let with_definition = params.context.include_declaration;
    let closed = closed(state, &params.text_document_position);
    let Some(found) = find(state, &params.text_document_position, &closed) else {
        return Ok(None);
    };
    let mut all: Vec<Location> = Vec::new();
    for (compiled, id) in &found.all {
        let mentions = compiled.names().mentions(*id).filter(|own| with_definition || !own.defines);
        for mention in mentions {
            let location = state.location(&compiled.compilation, mention.span);
            all.extend(location.filter(|own| !all.contains(own)));
        }
    }
    Ok(Some(all))
}

/// Whether the name at a place can be another, and where it stands.
pub(super) fn named(
    state: &State<'_>,
    params: TextDocumentPositionParams,
) -> Answer<PrepareRenameRequest> {
    let Some(found) = find(state, &params, &[]) else { return Ok(None) };
    let (compiled, span, id) = found.here;
    let Some(named) = compiled.names().get(id) else { return Ok(None) };
    let Some(source) = compiled.compilation.sources.get(span.file) else { return Ok(None) };
    let quotes = u32::from(named.kind == NameKind::KeepOut);
    let range = texts::range(source, span.start + quotes, span.end - quotes);
    let placeholder = named.name().to_owned();
    Ok(Some(PrepareRenameResponse::RangeWithPlaceholder { range, placeholder }))
}

/// Gives the name at a place another one, in every spec that is open and in those around the
/// file that gives it.
pub(super) fn rename(state: &State<'_>, params: RenameParams) -> Answer<Rename> {
    let closed = closed(state, &params.text_document_position);
    let Some(found) = find(state, &params.text_document_position, &closed) else {
        return Ok(None);
    };
    let mut edits: BTreeMap<(String, Span), TextEdit> = BTreeMap::new();
    for (compiled, id) in &found.all {
        let compilation = &compiled.compilation;
        let fix = editor::rename(compilation, compiled.names(), *id, &params.new_name)
            .map_err(|why| refused(compiled, why))?;
        for edit in fix.edits {
            let Some(source) = compilation.sources.get(edit.span.file) else { continue };
            let range = texts::range(source, edit.span.start, edit.span.end);
            // The same file has another number in each compilation.
            let place = Span { file: FileId::default(), ..edit.span };
            edits.insert((source.name.clone(), place), TextEdit { range, new_text: edit.text });
        }
    }
    let mut files: Vec<(&str, Vec<TextEdit>)> = Vec::new();
    for ((name, _), edit) in &edits {
        match files.last_mut().filter(|(last, _)| last == name) {
            Some((_, all)) => all.push(edit.clone()),
            None => files.push((name.as_str(), vec![edit.clone()])),
        }
    }
    Ok(mending::by_name(state, files))
}

/// The specs that are not open and use the file in which the name at a place is given; none
/// where that is a spec, which no other uses.
fn closed(state: &State<'_>, at: &TextDocumentPositionParams) -> Vec<Compiled> {
    let home = || {
        let spot = state.spot(&at.text_document.uri)?;
        let names = spot.compiled.names();
        let span = names.definition(names.at(spot.file, spot.byte(at.position))?.meaning)?;
        let source = spot.compiled.compilation.sources.get(span.file)?;
        let shared = span.file != FileId::default() || !spot.compiled.compilation.is_piece();
        shared.then(|| source.name.clone())
    };
    home().map(|home| state.closed_with(&home)).unwrap_or_default()
}

/// The name at a place, in the specs that are open and in these others.
fn find<'s>(
    state: &'s State<'_>,
    at: &TextDocumentPositionParams,
    closed: &'s [Compiled],
) -> Option<Found<'s>> {
    let spot = state.spot(&at.text_document.uri)?;
    let names = spot.compiled.names();
    let mention = names.at(spot.file, spot.byte(at.position))?;
    let Meaning::Name(id) = mention.meaning else { return None };
    let given = names.get(id)?.definition;
    let home = &spot.compiled.compilation.sources.get(given.file)?.name;
    let others = closed.iter().filter_map(|own| Some((own, own.file(home)?)));
    let all = state.with(home).into_iter().chain(others).filter_map(|(compiled, file)| {
        let own = compiled.names().at(file, given.start)?;
        match own.meaning {
            Meaning::Name(id) if own.defines => Some((compiled, id)),
            Meaning::Name(_) | Meaning::Part { .. } => None,
        }
    });
    Some(Found { all: all.collect(), here: (spot.compiled, mention.span, id) })
}

/// Why a thing can't be called so, as a sentence.
fn refused(compiled: &Compiled, why: Refused) -> ResponseError {
    let message = match why {
        Refused::NoName => {
            "a name is letters and figures with single hyphens between them, and begins with a letter"
                .to_owned()
        }
        Refused::Taken(span) => {
            let sources = &compiled.compilation.sources;
            let line = sources.position(span).line;
            match sources.get(span.file).filter(|_| span.file != FileId::default()) {
                Some(used) => format!("something else has this name, on line {line} of {}", used.name),
                None => format!("something else has this name, on line {line}"),
            }
        }
        Refused::Changes => {
            "the piece would come out differently with this name, so it stays as it is".to_owned()
        }
    };
    ResponseError { code: ErrorCode::RequestFailed as i32, message, data: None }
}
