//! A part larger than any sheet of its stock.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Length, Span};
use crate::model::{Piece, Stock};
use crate::parts::{Grain, Part, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "part-too-large",
    severity: Severity::Error,
    finds: "A part is too large for any sheet of its stock, with the factory edges trimmed and the grain the right way. One whose edges are lipped counts as it is sawn, with what is cut off when the lips are on.",
    why: "It can't be cut.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }",
        wrong: "stock ply     { plywood 3/4; actual 23/32; sheet { long 34; wide 34 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let all: Vec<TooLarge<'_>> =
        work.parts.all.iter().filter_map(|part| too_large(piece, part)).collect();
    for own in &all {
        // Where several figures are at fault, the size of the sheet is more likely so.
        let alike = all.iter().filter(|other| other.stock.name == own.stock.name);
        let mut figures = alike.map(|other| other.cause.as_ref().map(|cause| cause.at));
        let is_only = figures.all(|at| at == own.cause.as_ref().map(|cause| cause.at));
        sink.push(told(piece, own, own.cause.as_ref().filter(|_| is_only)));
    }
}

/// A part that is too large for any sheet.
struct TooLarge<'a> {
    part: &'a Part,
    stock: &'a Stock,
    /// What is sawn of it, and true where that is more than its core, for its lips.
    size: [Length; 2],
    is_over: bool,
    /// The largest sheet, trimmed.
    sheet: [Length; 2],
    cause: Option<Cause>,
}

fn too_large<'a>(piece: &'a Piece, part: &'a Part) -> Option<TooLarge<'a>> {
    let stock = piece.stock(part.stock).filter(|stock| !stock.is_solid())?;
    let fits = |a: Length, b: Length| stock.holds(piece.shop.edge_trim, [a, b]);
    let [long, wide] = part.sawn();
    let turned = part.grain == Grain::None && fits(wide, long);
    // A back's grain may run either way; it is seen from inside only.
    let back = part.role == Role::Back && fits(wide, long);
    if fits(long, wide) || turned || back {
        return None;
    }
    let trimmed = stock.sheets.iter().map(|sheet| sheet.trimmed(piece.shop.edge_trim));
    let sheet = trimmed
        .max_by_key(|[along, across]| (*along / Length::mm(1)) * (*across / Length::mm(1)))?;
    let over = [long - sheet[0], wide - sheet[1]];
    let is_over = part.core().map(|size| size.length) != [long, wide];
    let cause = cause(piece, part, over);
    Some(TooLarge { part, stock, size: [long, wide], is_over, sheet, cause })
}

fn told(piece: &Piece, own: &TooLarge<'_>, cause: Option<&Cause>) -> Diagnostic {
    let tape = piece.tape();
    let TooLarge { part, stock, size: [long, wide], sheet: [along, across], .. } = *own;
    let how = if own.is_over { "is sawn over for its lips, to" } else { "is" };
    let title = format!(
        "{} {how} {} by {}, but a trimmed sheet of {} is only {} by {}",
        part.path,
        tape.text(long),
        tape.text(wide),
        stock.name,
        tape.text(along),
        tape.text(across)
    );
    let found = match cause {
        Some(cause) => {
            let found = RULE.finding(title, cause.at, tape.figure(cause.was));
            let found = found.label(stock.span, "this sheet");
            // Less than half of what was meant is no mending.
            match tape.down(cause.fits) {
                fits if fits.twice() >= cause.was => found.fix(Fix::new(
                    Grade::Choice,
                    "as large as the sheet allows",
                    cause.at,
                    format!("{} {}", cause.word, tape.source(fits)),
                )),
                _ => found,
            }
        }
        None => RULE.finding(title, stock.span, "this sheet"),
    };
    found
        .label(part.span, format!("{} by {}", tape.text(long), tape.text(wide)))
        .note("use a larger sheet, or change the design so that the part is smaller")
        .subject(&part.path)
        .urgency((long - along).max(wide - across) / Length::mm(1))
}

/// The figure that makes a part too large.
struct Cause {
    at: Span,
    word: &'static str,
    was: Length,
    fits: Length,
}

/// The largest of the figures that the length or the width of a part is a sum of, whichever
/// is farther over; `None` where that is not written.
fn cause(piece: &Piece, part: &Part, over: [Length; 2]) -> Option<Cause> {
    let sizes = part.core();
    let (size, over) = sizes.iter().zip(over).max_by_key(|(_, over)| *over)?;
    let all = piece.facts.of(size);
    let (fact, factor) = all.max_by_key(|(fact, factor)| fact.length * *factor)?;
    Some(Cause {
        at: fact.origin.span()?,
        word: fact.word?,
        was: fact.length,
        fits: fact.length - over / factor,
    })
}
