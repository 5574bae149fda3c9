//! What the statement at a place of a text makes.

use casewright::diagnostics::Utf16Position;
use casewright::editor::{Meaning, Names};
use casewright::measure::Span;
use casewright::pipeline::Compilation;
use serde::Serialize;

/// What stands at a place.
#[derive(Default, Serialize)]
pub(crate) struct At {
    /// The names of what is meant there, or is made by the statement there: the
    /// nearest first.
    things: Vec<String>,
}

pub(crate) fn of(
    compiled: &Compilation,
    names: &Names,
    file: &str,
    (line, column): (u32, u32),
) -> At {
    let Some((id, source)) = compiled.sources.iter().find(|(_, source)| source.name == file) else {
        return At::default();
    };
    let byte = source.byte(Utf16Position { line, column });
    let mut at = At::default();
    at.things.extend(names.at(id, byte).and_then(|mention| match mention.meaning {
        Meaning::Name(id) => names.get(id).map(|named| named.path.clone()),
        Meaning::Part { id, .. } => {
            compiled.parts.as_ref().and_then(|parts| parts.get(id)).map(|part| part.path.clone())
        }
    }));
    let holds = |span: Span| span.file == id && span.start <= byte && byte <= span.end;
    let named = names.all().map(|(_, named)| (named.statement, &named.path));
    let parts = compiled.parts.iter().flat_map(|parts| &parts.all);
    let mut around: Vec<(Span, &String)> =
        named.chain(parts.map(|part| (part.span, &part.path))).filter(|own| holds(own.0)).collect();
    around.sort_by_key(|(span, _)| span.end - span.start);
    let nearest = around.first().map(|(span, _)| *span);
    for (span, path) in around {
        if Some(span) == nearest && !at.things.contains(path) {
            at.things.push(path.clone());
        }
    }
    at
}
