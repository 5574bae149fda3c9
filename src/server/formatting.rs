//! The one layout of a text.

use lsp_types::DocumentFormattingParams;
use lsp_types::request::Formatting;

use crate::diagnostics::Source;
use crate::measure::FileId;
use crate::vocabulary;

use super::answers::Answer;
use super::state::State;
use super::texts;

/// The edits that lay a text out; nothing for one that can't be read in full, and whose
/// findings say why.
pub(super) fn format(state: &State<'_>, params: DocumentFormattingParams) -> Answer<Formatting> {
    let name = texts::name(&params.text_document.uri);
    let Some(text) = state.texts.get(&name) else { return Ok(None) };
    let source = Source::new("", text.text.clone());
    let laid_out = vocabulary::format(FileId::default(), &text.text);
    Ok(laid_out.ok().map(|new| texts::edits(&source, &new)))
}
