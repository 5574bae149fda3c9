//! Parts that are cut: facts that a later revision can't change.

use crate::diagnostics::Diagnostic;
use crate::measure::{Date, Length, Span, Spanned};
use crate::vocabulary::{Entries, Entry};

use super::lower::Lower;

/// A part that is cut, or was spoiled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cut {
    /// The day.
    pub date: Date,
    /// The part: its name, the end of it, or its mark.
    pub name: Spanned<String>,
    /// The length it was cut to, where it is written.
    pub long: Option<Spanned<Length>>,
    /// The width.
    pub wide: Option<Spanned<Length>>,
    /// The thickness.
    pub thick: Option<Spanned<Length>>,
    /// The name of its stock; the spec may have none of that name any more.
    pub stock: Option<Spanned<String>>,
    /// How many joints and bores it had.
    pub joints: Option<Spanned<u32>>,
    /// The joints in it that have a place of their own.
    pub made: Vec<Made>,
    /// It is spoiled.
    pub spoiled: Option<Span>,
    /// Where a word can be added, and what stands before and after it there.
    pub add: (Span, &'static str, &'static str),
}

/// A joint or bore that is in a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Made {
    /// What it is: a word of `made`.
    pub word: Spanned<String>,
    /// From where the length of the part begins.
    pub along: Length,
    /// From where its width begins.
    pub across: Length,
    /// The statement.
    pub span: Span,
}

fn made(entry: &Entry) -> Option<Made> {
    let word = entry.text(0)?;
    Some(Made {
        word: Spanned::new(word.value.to_owned(), word.span),
        along: entry.length(1)?.value,
        across: entry.length(3)?.value,
        span: entry.head,
    })
}

/// Every cut part, the last word on each last.
pub(super) fn cuts(main: &Entries, ctx: &mut Lower) -> Vec<Cut> {
    let mut all = Vec::new();
    for block in main.all("cut") {
        let (Some(date), Some(body)) = (block.date(0), block.body()) else { continue };
        let mut seen: Vec<Spanned<String>> = Vec::new();
        for entry in body.all("PART") {
            let Some(name) = entry.path(0) else { continue };
            if let Some(first) = seen.iter().find(|known| known.value == name.value) {
                ctx.sink.push(
                    Diagnostic::error(
                        "name-twice",
                        format!("`{}` is cut twice on {}", name.value, date.value),
                        name.span,
                        "a second time",
                    )
                    .label(first.span, "the first"),
                );
                continue;
            }
            seen.push(name.clone());
            all.push(cut(entry, date.value, name));
        }
    }
    // A stable order: of one day, the last in the file counts.
    all.sort_by_key(|cut| cut.date);
    all
}

fn cut(entry: &Entry, date: Date, name: Spanned<String>) -> Cut {
    let body = entry.body();
    let length = |word: &str| {
        let value = body?.length(word)?;
        Some(Spanned::new(value.value, value.span_or(entry.head)))
    };
    let stock = body.and_then(|body| body.one("stock")).and_then(|stock| stock.text(0));
    let joints = body.and_then(|body| body.one("joints")).and_then(|joints| joints.count(0));
    let after = |span: Span| Span { start: span.end, ..span };
    let last = body.and_then(|body| body.in_order().last());
    let add = match (body, last) {
        (_, Some(last)) => (after(last.head), "; ", ""),
        (Some(body), None) => (after(body.open), " ", ""),
        (None, _) => (after(entry.head), " { ", " }"),
    };
    Cut {
        date,
        name,
        long: length("long"),
        wide: length("wide"),
        thick: length("thick"),
        stock: stock.map(|stock| Spanned::new(stock.value.to_owned(), stock.span)),
        joints,
        made: body.map_or(Vec::new(), |body| body.all("made").filter_map(made).collect()),
        spoiled: body.and_then(|body| body.flag("spoiled")),
        add,
    }
}
