//! The colors of a text, as the protocol codes them.

use lsp_types::request::SemanticTokensFullRequest;
use lsp_types::{
    SemanticToken, SemanticTokenModifier, SemanticTokenType, SemanticTokens, SemanticTokensLegend,
    SemanticTokensParams, SemanticTokensResult,
};

use crate::editor::{self, Color};

use super::answers::Answer;
use super::state::State;

/// The kinds of the protocol that are used, in the order in which they are numbered.
const KINDS: [SemanticTokenType; 6] = [
    SemanticTokenType::KEYWORD,
    SemanticTokenType::ENUM_MEMBER,
    SemanticTokenType::VARIABLE,
    SemanticTokenType::NUMBER,
    SemanticTokenType::STRING,
    SemanticTokenType::COMMENT,
];

/// What the numbers in an answer mean.
pub(super) fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: KINDS.to_vec(),
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    }
}

/// The number of a color, and its modifiers: the first bit says that a name is given there.
fn code(color: Color) -> (u32, u32) {
    match color {
        Color::Word => (0, 0),
        Color::Choice => (1, 0),
        Color::Given => (2, 1),
        Color::Name => (2, 0),
        Color::Number => (3, 0),
        Color::Text => (4, 0),
        Color::Comment => (5, 0),
    }
}

/// Every piece of a text that is something, each counted from the one before.
pub(super) fn tokens(
    state: &State<'_>,
    params: SemanticTokensParams,
) -> Answer<SemanticTokensFullRequest> {
    let Some(spot) = state.spot(&params.text_document.uri) else { return Ok(None) };
    let Some(tree) = spot.compiled.compilation.tree(spot.file) else { return Ok(None) };
    let mut data = Vec::new();
    let (mut line, mut column) = (0, 0);
    for (span, color) in editor::colors(tree, spot.compiled.unit()) {
        let range = spot.range(span);
        let (start, end) = (range.start, range.end);
        // No word of the language reaches over a line; what does was never closed.
        if start.line != end.line || start.line < line {
            continue;
        }
        let (token_type, token_modifiers_bitset) = code(color);
        let from = if start.line == line { column } else { 0 };
        let Some(delta_start) = start.character.checked_sub(from) else { continue };
        data.push(SemanticToken {
            delta_line: start.line - line,
            delta_start,
            length: end.character - start.character,
            token_type,
            token_modifiers_bitset,
        });
        (line, column) = (start.line, start.character);
    }
    Ok(Some(SemanticTokensResult::Tokens(SemanticTokens { result_id: None, data })))
}
