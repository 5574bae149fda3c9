//! What is shown in the text without being asked for: sizes, and the other places of a name.

use lsp_types::request::{DocumentHighlightRequest, InlayHintRequest};
use lsp_types::{
    DocumentHighlight, DocumentHighlightKind, DocumentHighlightParams, InlayHint, InlayHintLabel,
    InlayHintParams, InlayHintTooltip,
};

use crate::editor::{self, Meaning};

use super::answers::Answer;
use super::state::State;

/// The sizes of what is named in a range, behind the names.
pub(super) fn hints(state: &State<'_>, params: InlayHintParams) -> Answer<InlayHintRequest> {
    let Some(spot) = state.spot(&params.text_document.uri) else { return Ok(None) };
    let found = editor::hints(&spot.compiled.compilation, spot.compiled.names(), spot.file);
    let shown = found.into_iter().map(|hint| InlayHint {
        position: spot.range(hint.name).end,
        label: InlayHintLabel::String(hint.text),
        kind: None,
        text_edits: None,
        tooltip: Some(InlayHintTooltip::String(hint.told)),
        padding_left: Some(true),
        padding_right: Some(true),
        data: None,
    });
    let within =
        |hint: &InlayHint| params.range.start <= hint.position && hint.position <= params.range.end;
    Ok(Some(shown.filter(within).collect()))
}

/// Every place in a text that means what stands at one of them.
pub(super) fn mentions(
    state: &State<'_>,
    params: DocumentHighlightParams,
) -> Answer<DocumentHighlightRequest> {
    let at = params.text_document_position_params;
    let Some(spot) = state.spot(&at.text_document.uri) else { return Ok(None) };
    let names = spot.compiled.names();
    let found = names.at(spot.file, spot.byte(at.position));
    let Some(Meaning::Name(id)) = found.map(|own| own.meaning) else { return Ok(None) };
    let own = names.mentions(id).filter(|own| own.span.file == spot.file);
    let all = own.map(|own| DocumentHighlight {
        range: spot.range(own.span),
        kind: Some(match own.defines {
            true => DocumentHighlightKind::WRITE,
            false => DocumentHighlightKind::READ,
        }),
    });
    Ok(Some(all.collect()))
}
