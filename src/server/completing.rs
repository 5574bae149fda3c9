//! What may be written at a place.

use lsp_types::request::Completion;
use lsp_types::{
    CompletionItem, CompletionItemKind, CompletionParams, CompletionResponse, CompletionTextEdit,
    Documentation, Range, TextEdit,
};

use crate::diagnostics::Source;
use crate::editor::{self, Context, Offer, OfferKind};
use crate::vocabulary::Kind;

use super::answers::Answer;
use super::hovering;
use super::state::{Spot, State};
use super::texts;
use super::used;

/// What may be written where the cursor stands, in the order in which it is offered.
pub(super) fn offers(state: &State<'_>, params: CompletionParams) -> Answer<Completion> {
    let at = params.text_document_position;
    let Some(spot) = state.spot(&at.text_document.uri) else { return Ok(None) };
    let Some(source) = spot.compiled.compilation.sources.get(spot.file) else { return Ok(None) };
    let byte = spot.byte(at.position);
    let context = editor::context(&source.text, byte, spot.compiled.unit());
    if let Some(paths) = paths(state, &spot, source, (&context, byte)) {
        return Ok(Some(CompletionResponse::Array(paths)));
    }
    let typed = params.context.and_then(|own| own.trigger_character);
    // A space begins no word but behind a brace or a semicolon; at the start of a line it only
    // sets it in.
    let before = source.text.get(..byte as usize).unwrap_or("").trim_end_matches([' ', '\t']);
    if typed.as_deref() == Some(" ") && context.word.is_none() && !before.ends_with(['{', ';']) {
        return Ok(None);
    }
    let range = texts::range(source, context.start.min(byte), byte);
    let start = context.start.min(byte) as usize;
    let typed = source.text.get(start..byte as usize).unwrap_or("");
    let below = (context.kind == Some(Kind::Path))
        .then(|| editor::below(spot.compiled.names(), typed))
        .flatten();
    let mut offers = below.unwrap_or_else(|| editor::offers(&context, spot.compiled.names()));
    // What is found now is what an `accept` is written for.
    let found = &spot.compiled.compilation.diagnostics;
    let is_found = |offer: &Offer| found.iter().any(|own| own.slug == offer.text);
    offers.sort_by_key(|offer| offer.kind == OfferKind::Finding && !is_found(offer));
    let all = offers.into_iter().enumerate();
    let items = all.map(|(place, offer)| item(&context, offer, place, range));
    Ok(Some(CompletionResponse::Array(items.collect())))
}

/// The files that a spec may use, where the cursor stands in the path of one; nothing anywhere
/// else.
fn paths(
    state: &State<'_>,
    spot: &Spot<'_>,
    source: &Source,
    (context, byte): (&Context, u32),
) -> Option<Vec<CompletionItem>> {
    let slot = context.word?.takes.first().filter(|slot| slot.kind == Kind::File);
    slot.filter(|_| !context.open)?;
    let quote = source.text.get(..byte as usize)?.rfind('"')?;
    let range = texts::range(source, quote as u32 + 1, byte);
    let used = used::places(spot.compiled).into_iter().map(|(_, file)| file);
    let used: Vec<&str> = used
        .filter_map(|file| Some(spot.compiled.compilation.sources.get(file)?.name.as_str()))
        .collect();
    let beside = state.beside(&source.name).into_iter();
    let new = beside.filter(|(name, _)| *name != source.name && !used.contains(&name.as_str()));
    let items = new.map(|(_, path)| CompletionItem {
        label: path.clone(),
        kind: Some(CompletionItemKind::FILE),
        text_edit: Some(CompletionTextEdit::Edit(TextEdit { range, new_text: path })),
        ..CompletionItem::default()
    });
    Some(items.collect())
}

/// An offer; it takes the place of what is typed of it already.
fn item(context: &Context, offer: Offer, place: usize, range: Range) -> CompletionItem {
    let documentation = match (offer.kind, context.block) {
        (OfferKind::Word, Some(block)) => {
            let word = block.words.iter().find(|word| word.word == offer.text);
            word.map(|word| Documentation::String(hovering::of_word(block, word, false)))
        }
        _ => None,
    };
    CompletionItem {
        label: offer.text.clone(),
        kind: Some(match offer.kind {
            OfferKind::Word => CompletionItemKind::KEYWORD,
            OfferKind::Choice => CompletionItemKind::ENUM_MEMBER,
            OfferKind::Name => CompletionItemKind::VARIABLE,
            OfferKind::Finding => CompletionItemKind::CONSTANT,
        }),
        detail: (!offer.help.is_empty()).then(|| offer.help.to_owned()),
        documentation,
        sort_text: Some(format!("{place:04}")),
        text_edit: Some(CompletionTextEdit::Edit(TextEdit { range, new_text: offer.text })),
        ..CompletionItem::default()
    }
}
