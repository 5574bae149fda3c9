//! What stands behind a word, while it is being written.

use lsp_types::request::SignatureHelpRequest;
use lsp_types::{
    Documentation, ParameterInformation, ParameterLabel, SignatureHelp, SignatureHelpParams,
    SignatureInformation,
};

use crate::editor;
use crate::vocabulary::Row;

use super::answers::Answer;
use super::state::State;

/// The statement at the cursor: what belongs behind its word, and which of that is next.
pub(super) fn signature(
    state: &State<'_>,
    params: SignatureHelpParams,
) -> Answer<SignatureHelpRequest> {
    let at = params.text_document_position_params;
    let Some(spot) = state.spot(&at.text_document.uri) else { return Ok(None) };
    let Some(source) = spot.compiled.compilation.sources.get(spot.file) else { return Ok(None) };
    let context = editor::context(&source.text, spot.byte(at.position), spot.compiled.unit());
    let (Some(word), true) = (context.word, context.open) else { return Ok(None) };
    if word.takes.is_empty() {
        return Ok(None);
    }
    let active = context.slot.and_then(|slot| u32::try_from(slot).ok());
    Ok(Some(SignatureHelp {
        signatures: vec![of(word, active)],
        active_signature: Some(0),
        active_parameter: active,
    }))
}

/// A word with a short name for each thing behind it, in brackets where it may be left out.
fn of(word: &Row, active: Option<u32>) -> SignatureInformation {
    let mut label = word.word.to_owned();
    let mut parameters = Vec::new();
    for slot in word.takes {
        let noun = slot.kind.noun();
        let shown = if slot.optional { format!("[{noun}]") } else { noun };
        label.push(' ');
        let start = label.encode_utf16().count() as u32;
        label.push_str(&shown);
        let end = label.encode_utf16().count() as u32;
        parameters.push(ParameterInformation {
            label: ParameterLabel::LabelOffsets([start, end]),
            documentation: Some(Documentation::String(slot.kind.describe())),
        });
    }
    SignatureInformation {
        label,
        documentation: Some(Documentation::String(word.help.to_owned())),
        parameters: Some(parameters),
        active_parameter: active,
    }
}
