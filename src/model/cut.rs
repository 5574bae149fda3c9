//! Parts that are cut: facts that a later revision can't change.

use crate::diagnostics::Diagnostic;
use crate::measure::{Date, Length, Span, Spanned};
use crate::vocabulary::takes::{Label, Length as LengthWord, LengthRange, Path};
use crate::vocabulary::{Entries, MadeKind, Said, Word, words};

use super::lower::Lower;

/// A part that is cut, or was spoiled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cut {
    /// The day.
    pub date: Date,
    /// The part: its name, the end of it, or its mark.
    pub name: Spanned<String>,
    /// The mark that is on it.
    pub mark: Option<Spanned<String>>,
    /// The length it was cut to, where it is written.
    pub long: Option<Spanned<Length>>,
    /// The width.
    pub wide: Option<Spanned<Length>>,
    /// The thickness.
    pub thick: Option<Spanned<Length>>,
    /// The name of its stock; the spec may have none of that name any more.
    pub stock: Option<Spanned<String>>,
    /// The wood it is of, where that is written.
    pub species: Option<Spanned<String>>,
    /// It has no joints yet.
    pub sawn: Option<Span>,
    /// How many joints and bores it had, where they are not told one by one.
    pub joints: Option<Spanned<u32>>,
    /// The joints and bores in it.
    pub made: Vec<Made>,
    /// It is spoiled.
    pub spoiled: Option<Span>,
    /// Where a word can be added, and what stands before and after it there.
    pub add: (Span, &'static str, &'static str),
}

/// A joint or bore that is in a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Made {
    /// What it is.
    pub kind: Spanned<MadeKind>,
    /// The box it lies in, along the part, across it and through it, from its
    /// left, lower or front side; nothing where it reaches from side to side.
    pub space: [Option<(Length, Length)>; 3],
    /// The statement.
    pub span: Span,
}

/// As many joints as one part may have on record: each is laid over each that
/// is drawn.
const MOST_MADE: usize = 300;

/// The joints of a part that was cut to these sizes, as far as they are known.
fn on_record(body: &Entries, sizes: [Option<Length>; 3], ctx: &mut Lower) -> Vec<Made> {
    let mut all = body.all(words::cut_part::MADE);
    let made: Vec<Made> =
        all.by_ref().take(MOST_MADE).filter_map(|said| made(said, sizes, ctx)).collect();
    if let Some(entry) = all.next() {
        let title = format!("this part has more than {MOST_MADE} recorded joints");
        ctx.sink.push(Diagnostic::error("too-many", title, entry.head, "the first one too many"));
    }
    made
}

fn made(entry: Said<'_, MadeKind>, sizes: [Option<Length>; 3], ctx: &mut Lower) -> Option<Made> {
    use words::made::{ACROSS, AT, LONG, THICK, WIDE};

    let kind = entry.value()?.map(|kind| *kind);
    let body = entry.body();
    let side = |word: Word<LengthRange>| body?.get(word).map(|side| side.value);
    let [mut long, mut wide, thick] = [LONG, WIDE, THICK].map(side);
    let at = body.and_then(|body| body.one(AT));
    let across = body.and_then(|body| body.get(ACROSS));
    let mut odd = |what: &str, span: Span| {
        ctx.sink.push(
            Diagnostic::error("made-odd", format!("this {what}"), span, "this can't be")
                .note("`casewright record` writes the joints as they are drawn"),
        );
    };
    match (at, across) {
        (Some(at), Some(across)) => {
            if !is_hole(kind.value) {
                odd("joint is not a hole, so it has no center", at.head);
            } else if long.is_some() || wide.is_some() {
                odd("hole is given twice, by its center and by its sides", at.head);
            } else if !across.value.is_positive() {
                odd("hole has no width", across.span_or(entry.head));
            }
            let radius = across.value.half();
            let round = |center: Spanned<&Length>| (*center.value - radius, *center.value + radius);
            long = at.value().map(round);
            wide = at.third().map(round);
        }
        (Some(at), None) => odd("hole needs a diameter, such as `across 35 mm`", at.head),
        (None, Some(across)) => {
            odd("hole needs a center, such as `at 3 by 1`", across.span_or(entry.head));
        }
        (None, None) => {}
    }
    let space = [long, wide, thick];
    // A hole may be drawn over an edge; what lies wholly beyond the board can't.
    let beyond = space.iter().zip(sizes).any(|(side, size)| match (side, size) {
        (Some((from, to)), size) => {
            !to.is_positive() || from == to || size.is_some_and(|size| *from >= size)
        }
        (None, _) => false,
    });
    if beyond {
        odd("joint removes nothing from the board", entry.head);
    }
    Some(Made { kind, space, span: entry.head })
}

/// True for a round hole, which has a center.
fn is_hole(kind: MadeKind) -> bool {
    match kind {
        MadeKind::HingeCup
        | MadeKind::PullHole
        | MadeKind::PlateHole
        | MadeKind::RoundHole
        | MadeKind::LegHole => true,
        MadeKind::Dado
        | MadeKind::Groove
        | MadeKind::Rabbet
        | MadeKind::Miter
        | MadeKind::Notch
        | MadeKind::Slot
        | MadeKind::Mortise
        | MadeKind::Tenon
        | MadeKind::Haunch
        | MadeKind::Dovetails
        | MadeKind::Flute
        | MadeKind::PocketHoles
        | MadeKind::DowelHoles => false,
    }
}

/// Every cut part, the last word on each last.
pub(super) fn cuts(main: &Entries, ctx: &mut Lower) -> Vec<Cut> {
    let mut all = Vec::new();
    for block in main.all(words::file::CUT) {
        let (Some(date), Some(body)) = (block.value(), block.body()) else { continue };
        let mut seen: Vec<Spanned<String>> = Vec::new();
        for entry in body.all(words::cut::PART) {
            let Some(path) = entry.value() else { continue };
            let name = path.map(|name| name.text().to_owned());
            if let Some(first) = seen.iter().find(|known| known.value == name.value) {
                ctx.sink.push(
                    Diagnostic::error(
                        "name-twice",
                        format!("`{}` is recorded twice on {}", name.value, date.value),
                        name.span,
                        "the second time",
                    )
                    .label(first.span, "the first one"),
                );
                continue;
            }
            seen.push(name.clone());
            all.push(cut(entry, *date.value, name, ctx));
        }
    }
    // A stable order: of one day, the last in the file counts.
    all.sort_by_key(|cut| cut.date);
    all
}

fn cut(entry: Said<'_, Path>, date: Date, name: Spanned<String>, ctx: &mut Lower) -> Cut {
    use words::cut_part::{JOINTS, LONG, MARK, SAWN, SPECIES, SPOILED, STOCK, THICK, WIDE};

    let body = entry.body();
    let length = |word: Word<LengthWord>| {
        let value = body?.get(word)?;
        Some(Spanned::new(value.value, value.span_or(entry.head)))
    };
    let text = |word: Word<Label>| body?.one(word)?.value().map(|text| text.map(str::to_owned));
    let joints = body.and_then(|body| body.one(JOINTS)).and_then(Said::value);
    let after = |span: Span| Span { start: span.end, ..span };
    let last = body.and_then(|body| body.in_order().last());
    let add = match (body, last) {
        (_, Some(last)) => {
            let end = last.body().map_or(last.head, |body| body.close);
            (after(end), "; ", "")
        }
        (Some(body), None) => (after(body.open), " ", ""),
        (None, _) => (after(entry.head), " { ", " }"),
    };
    let [long, wide, thick] = [LONG, WIDE, THICK].map(length);
    let sizes = [&long, &wide, &thick].map(|size| size.as_ref().map(|size| size.value));
    Cut {
        date,
        name,
        mark: text(MARK),
        long,
        wide,
        thick,
        stock: text(STOCK),
        species: text(SPECIES),
        sawn: body.and_then(|body| body.flag(SAWN)),
        joints: joints.map(|count| count.map(|count| *count)),
        made: body.map_or(Vec::new(), |body| on_record(body, sizes, ctx)),
        spoiled: body.and_then(|body| body.flag(SPOILED)),
        add,
    }
}
