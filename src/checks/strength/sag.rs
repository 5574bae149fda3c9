//! A shelf, bottom or top, or a stretcher under a worktop, that sags.

use std::collections::BTreeMap;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Exact, Length, Span, Tape, Unit};
use crate::model::{Case, Piece, SheetGrain, Stock, StockId};
use crate::parts::{Part, Role};
use crate::plans::Workings;
use crate::plans::spans::Lying;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "sag",
    severity: Severity::Warning,
    finds: "A shelf, bottom, or top sags more under its load than a standard allows. The limit is 1/16 in per foot of span and 1/4 in at most under 15 lb per square foot. Where the spec gives a load, the limit is the span over 144.",
    why: "A bent shelf shows, and what stands on it leans together. A bent bottom jams the doors and drawers above it. Wood that stays loaded goes on bending, to 1.5 or even 2 times as much.",
    source: "Deflection: Wood Handbook (FPL-GTR-190), Table 9-1, and AWC Design Aid 6 for a board over a middle support. Load and limit: ANSI/KCMA A161.1, shelves and bottoms; with `load`: Architectural Woodwork Standards, 1st ed., p. 253 and 279 (40 lb general, 50 lb books). Stiffness: the Wood Handbook's tables, or the stock's `stiffness`. Creep: common practice.",
    formula: "5 W L³ / (384 EI). EI is that of the board, plus the frame's rail glued along its front and the toe kick under it. The back and the board's own weight are left out.",
    accept: "Accept it if the board is stiffened in a way that the spec does not say, or if it carries only light things.",
    example: Example {
        base: Base::First,
        sound: "shelf { adjustable 1 }",
        wrong: "shelf { adjustable 1; load 150 lb per ft2 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let all = work.lying();
    // The shelves of one opening are alike: the worst of them is told.
    let mut worst: BTreeMap<String, (&Lying<'_>, Length, usize)> = BTreeMap::new();
    for one in all {
        let Some(sag) = one.sag(piece, one.part.stock) else { continue };
        if one.holds(piece, one.part.stock) {
            continue;
        }
        let known = worst.entry(named(piece, one.part, 1).1).or_insert((one, sag, 0));
        known.2 += 1;
        if sag > known.1 {
            (known.0, known.1) = (one, sag);
        }
    }
    for (one, sag, count) in worst.into_values() {
        let Some(case) = piece.case(one.part.case) else { continue };
        sink.push(finding(piece, case, all, one, sag, count));
    }
}

fn finding(
    piece: &Piece,
    case: &Case,
    all: &[Lying<'_>],
    one: &Lying<'_>,
    sag: Length,
    count: usize,
) -> Diagnostic {
    let (tape, part) = (piece.tape(), one.part);
    let step = fine(tape);
    // The sag up and the limit down, so that what is over shows as over.
    let sags = step * (sag / step).ceil();
    let limit = step * (one.limit().over(one.span) / step).floor();
    let (name, subject) = named(piece, part, count);
    let mut diagnostic = RULE
        .finding(
            format!(
                "{name} sags {} over a span of {}, and the limit is {}",
                tape.figure(sags),
                tape.text(one.span),
                tape.figure(limit)
            ),
            part.span,
            format!("unsupported span {}", tape.text(one.span)),
        )
        .sum(
            Sum::new("over by", sags - limit, tape)
                .plus(sags, "sag", tape)
                .minus(limit, "limit", tape),
        )
        .because("what stands on it leans together, and doors and drawers above or below it bind")
        .subject(subject)
        .urgency((sags - limit) / Length::mm(1));
    if let Some(stock) = piece.stock(part.stock) {
        let label = format!("{} thick", tape.figure(stock.thickness.length));
        diagnostic = diagnostic.label(stock.thickness_span, label);
    }
    let load = one.carries.load;
    diagnostic = match one.carries.written {
        Some(span) => diagnostic
            .label(span, load.to_string())
            .note("under a load that the spec gives, the limit is the span over 144 (Architectural Woodwork Standards)"),
        None => diagnostic.note(format!("this is with {load} and a limit of 1/16 in per foot, 1/4 in at most (ANSI/KCMA A161.1); give another load with `load`")),
    };
    if let Some(longest) = one.longest(piece).filter(|longest| longest.is_finite()) {
        let marks = Length::new(Exact::ratio((longest * 1000.0) as i64, 1000), Unit::Inch);
        let longest = tape.down(marks);
        diagnostic = diagnostic
            .note(format!("the board is stiff enough over a span of {}", tape.figure(longest)));
    }
    if let Some(halved) = one.halved(piece).filter(|_| one.supports == 0) {
        let what = if part.role == Role::Bottom { "leg" } else { "partition" };
        let halved = tape.figure(step * (halved / step).ceil());
        diagnostic = diagnostic
            .note(format!("with a {what} under its middle it would sag {halved} at most"));
    }
    diagnostic = diagnostic
        .note("this is the sag of a new board; if it stays loaded, it sags 1.5 to 2 times as much");
    for fix in fixes(piece, case, all, one) {
        diagnostic = diagnostic.fix(fix);
    }
    diagnostic
}

/// The finest step that sags are told in: 1/64 in or 0.1 mm.
fn fine(tape: &Tape) -> Length {
    tape.unit.either(Length::inches(1, 64), Length::mm(1) / 10)
}

/// How the board is called, and what an `accept` names.
fn named(piece: &Piece, part: &Part, count: usize) -> (String, String) {
    let opening = part.opening().and_then(|id| piece.opening(id));
    let opening = opening.map_or("", |opening| opening.path.as_str());
    match (part.role, count) {
        (Role::FixedShelf | Role::AdjustableShelf, 1) => {
            (format!("the shelf of {opening}"), opening.to_owned())
        }
        (Role::FixedShelf | Role::AdjustableShelf, many) => {
            (format!("each of the {many} shelves of {opening}"), opening.to_owned())
        }
        _ => (part.path.clone(), part.path.clone()),
    }
}

/// A stock of the spec that holds, and a leg.
fn fixes(piece: &Piece, case: &Case, all: &[Lying<'_>], one: &Lying<'_>) -> Vec<Fix> {
    let mut fixes = Vec::new();
    let framed = case.frame.is_some();
    // The thickness of a frame-less case's boards takes part in its openings:
    // another one may not close.
    let place = match one.part.role {
        Role::FixedShelf | Role::AdjustableShelf => Some(case.shelves.stock_at),
        Role::Bottom if framed => case.bottom.as_ref().map(|bottom| bottom.stock_at),
        Role::Top if framed => case.top.as_ref().map(|top| top.stock_at),
        _ => None,
    };
    if let (Some(place), Some(stock)) = (place, stiffer(piece, all, one)) {
        let thick = piece.tape().figure(stock.thickness.length);
        fixes
            .push(place.says(&format!("stock {}", stock.name), format!("use stock {thick} thick")));
    }
    // A leg could stand in what the site keeps clear.
    let room = piece.site.keep_outs.is_empty() && case.legs.is_empty();
    if let Some(bottom) = case.bottom.as_ref().filter(|_| one.part.role == Role::Bottom && room)
        && one.halved(piece).is_some_and(|sag| sag <= one.limit().over(one.span.half()))
    {
        let before = Span { end: bottom.board.span.start, ..bottom.board.span };
        fixes.push(Fix::new(Grade::Choice, "put a leg under its middle", before, "leg { }\n  "));
    }
    fixes
}

/// The thinnest stock of the same sort that holds for every board that the
/// same statement is about, and that they can be cut from.
fn stiffer<'p>(piece: &'p Piece, all: &[Lying<'_>], one: &Lying<'_>) -> Option<&'p Stock> {
    let is_shelf = |part: &Part| matches!(part.role, Role::FixedShelf | Role::AdjustableShelf);
    let alike: Vec<&Lying<'_>> = all
        .iter()
        .filter(|other| {
            other.part.case == one.part.case
                && (other.part.role == one.part.role || is_shelf(other.part) && is_shelf(one.part))
        })
        .collect();
    let solid = piece.stock(one.part.stock)?.is_solid();
    let fits = |stock: &Stock, part: &Part| {
        let trim = piece.shop.edge_trim.twice();
        stock.sheet.is_none_or(|sheet| {
            let (along, across) = match sheet.grain {
                SheetGrain::Wide => (sheet.wide, sheet.long),
                SheetGrain::Long | SheetGrain::None => (sheet.long, sheet.wide),
            };
            part.length.length + trim <= along && part.width.length + trim <= across
        })
    };
    let holds = |(index, stock): &(usize, &Stock)| {
        stock.is_solid() == solid
            && stock.stiffness.is_some()
            && alike
                .iter()
                .all(|other| other.holds(piece, StockId(*index)) && fits(stock, other.part))
    };
    let found = piece.stocks.iter().enumerate().filter(holds);
    found.min_by_key(|(_, stock)| stock.thickness.length).map(|(_, stock)| stock)
}
