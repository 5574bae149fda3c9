//! What may be written where a cursor stands.

use casewright::diagnostics::{Sources, Utf16Position};
use casewright::editor::{self, Names, OfferKind};
use casewright::measure::FileId;
use casewright::measure::Unit;
use casewright::vocabulary;
use serde::Serialize;

/// What may be written, and from where on it stands for what is there.
#[derive(Serialize)]
pub(crate) struct Offered {
    from: [u32; 2],
    /// A figure or another value that no list has, in a maker's words.
    wants: Option<String>,
    all: Vec<Offer>,
}

#[derive(Serialize)]
struct Offer {
    text: String,
    kind: &'static str,
    help: &'static str,
    /// An example of the whole statement, of a word that begins one.
    example: &'static str,
}

pub(crate) fn at(names: &Names, text: &str, (line, column): (u32, u32)) -> Offered {
    let mut sources = Sources::new();
    let file: FileId = sources.add("", text);
    let Some(source) = sources.get(file) else {
        return Offered { from: [line, column], wants: None, all: Vec::new() };
    };
    let byte = source.byte(Utf16Position { line, column });
    let stated = vocabulary::stated_unit(&vocabulary::parse(file, text).0);
    let unit = stated.map_or(Unit::Inch, |stated| stated.value);
    let context = editor::context(text, byte, unit);
    let from = source.utf16(context.start);
    let example = |text: &str| {
        let words = context.block.iter().flat_map(|block| block.words);
        words.into_iter().find(|row| row.word == text).map_or("", |row| row.example)
    };
    let offer = |own: editor::Offer| Offer {
        kind: match own.kind {
            OfferKind::Word => "word",
            OfferKind::Choice => "choice",
            OfferKind::Name => "name",
            OfferKind::Finding => "finding",
        },
        example: match own.kind {
            OfferKind::Word => example(&own.text),
            OfferKind::Choice | OfferKind::Name | OfferKind::Finding => "",
        },
        help: own.help,
        text: own.text,
    };
    Offered {
        from: [from.line, from.column],
        wants: context.kind.filter(|_| context.open).map(vocabulary::Kind::describe),
        all: editor::offers(&context, names).into_iter().map(offer).collect(),
    }
}
