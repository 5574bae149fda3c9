//! What a word means, and what a size comes to and why.

use std::fmt::Write as _;

use lsp_types::request::HoverRequest;
use lsp_types::{Hover as Told, HoverContents, HoverParams, MarkupContent, MarkupKind};

use crate::diagnostics::render::plain;
use crate::editor::{self, Hover, Meaning, NameKind, Named, Why};
use crate::measure::{Length, Tape};
use crate::pipeline::Compilation;
use crate::vocabulary::{Block, Choice, Row};

use super::answers::Answer;
use super::names;
use super::state::{Spot, State};

/// What stands at a place.
pub(super) fn told(state: &State<'_>, params: HoverParams) -> Answer<HoverRequest> {
    let at = params.text_document_position_params;
    let marked = state.shows_markdown;
    let Some(spot) = state.spot(&at.text_document.uri) else { return Ok(None) };
    let compiled = &spot.compiled.compilation;
    let byte = spot.byte(at.position);
    let Some(found) = editor::hover(compiled, spot.compiled.names(), spot.file, byte) else {
        return Ok(None);
    };
    let (span, text) = match found {
        Hover::Word { span, block, word } => (span, of_word(block, word, marked)),
        Hover::Choice { span, of, choice } => (span, of_choice(of, choice, marked)),
        Hover::Figure { span, length } => (span, of_figure(length)),
        Hover::Name { mention, sizes } => {
            let text = match mention.meaning {
                Meaning::Name(id) => match spot.compiled.names().get(id) {
                    Some(named) => of_name(&spot, named, &sizes, marked),
                    None => return Ok(None),
                },
                Meaning::Part { .. } => sums(compiled, &sizes, marked),
            };
            (mention.span, text)
        }
    };
    let kind = if marked { MarkupKind::Markdown } else { MarkupKind::PlainText };
    let contents = HoverContents::Markup(MarkupContent { kind, value: text });
    Ok(Some(Told { contents, range: Some(spot.range(span)) }))
}

/// A word of the language in a text that may be marked.
fn code(text: &str, marked: bool) -> String {
    if marked { format!("`{text}`") } else { text.to_owned() }
}

/// What a choice means, and of which word it is one.
fn of_choice(of: &Row, choice: &Choice, marked: bool) -> String {
    let code = |text| code(text, marked);
    format!("{} of {}: {}\n", code(choice.word), code(of.word), choice.help.trim())
}

/// What a figure comes to, in inches and in millimeters.
fn of_figure(length: Length) -> String {
    let [inches, metric] = [Tape::inches(), Tape::millimetres()];
    format!("{} in = {} mm\n", inches.finest(length), metric.finest(length))
}

/// The help of a word, with what holds without it, what it can be, and an example.
pub(super) fn of_word(block: &Block, word: &Row, marked: bool) -> String {
    let code = |text| code(text, marked);
    let mut text = format!("{} in {}: {}.\n", code(word.word), code(block.name), word.help);
    if let Some(default) = word.default {
        let metric = word.metric.map(|own| format!(", in millimeters {}", code(own)));
        let _ = write!(text, "\nWithout it: {}{}.\n", code(default), metric.unwrap_or_default());
    }
    let ranges = [("It lies between", word.can_be), ("Usual is from", word.usual)];
    for (said, range) in ranges {
        let Some(range) = range else { continue };
        let joined = if said.ends_with("between") { "and" } else { "to" };
        let _ = write!(text, "\n{said} {} {joined} {}.\n", range.least.text, range.most.text);
    }
    if !word.example.is_empty() {
        let _ = write!(text, "\nExample: {}\n", code(word.example));
    }
    text
}

/// A name, with the sizes of what it means; of a piece that is broken now, those of before.
fn of_name(spot: &Spot<'_>, named: &Named, sizes: &[Why], marked: bool) -> String {
    let compiled = &spot.compiled.compilation;
    if !sizes.is_empty() {
        return sums(compiled, sizes, marked);
    }
    if let Some(before) = &spot.spec.before {
        let old = editor::why(&before.compilation, &named.path);
        if !old.is_empty() {
            let said = "As it was when the piece was last sound:";
            return format!("{said}\n\n{}", sums(&before.compilation, &old, marked));
        }
    }
    let statement = plain(compiled.sources.text(named.statement).lines().next().unwrap_or(""));
    let kind = kind(named.kind);
    match marked {
        true => format!("{kind} `{}`\n\n```casewright\n{statement}\n```\n", named.path),
        false => format!("{kind} {}\n\n{statement}\n", named.path),
    }
}

/// Sizes with what they are the sums of.
fn sums(compiled: &Compilation, sizes: &[Why], marked: bool) -> String {
    let told: Vec<String> = sizes.iter().map(|why| editor::told(&compiled.sources, why)).collect();
    let told = names::near(&compiled.sources, told.join("\n"));
    if marked { format!("```text\n{told}```\n") } else { told }
}

/// What a name is the name of, in a word.
pub(super) fn kind(kind: NameKind) -> &'static str {
    match kind {
        NameKind::Stock => "stock",
        NameKind::Species => "species",
        NameKind::Hinge => "hinge",
        NameKind::Slide => "slide",
        NameKind::Pull => "pull",
        NameKind::Leg => "leg",
        NameKind::Bit => "bit",
        NameKind::Finish => "finish",
        NameKind::KeepOut => "keep-out",
        NameKind::Run => "run",
        NameKind::Case => "case",
        NameKind::Between => "filler or space",
        NameKind::Opening => "opening",
        NameKind::Member => "member",
    }
}
