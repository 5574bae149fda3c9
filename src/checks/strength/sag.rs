//! A shelf, bottom or top, or a stretcher under a worktop, that sags.

use std::collections::BTreeMap;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Exact, Length, Span, Tape, Unit};
use crate::model::{Case, Piece, Stock, StockId};
use crate::parts::{Part, Role};
use crate::plans::Workings;
use crate::plans::spans::{Age, Judged, Lying};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "sag",
    severity: Severity::Warning,
    finds: "A shelf, bottom, or top sags more under its load than a standard allows, when it is new or after years. Under 15 lb per square foot a new board may sag 1/16 in per foot of span and 1/4 in at most. Under a load that the spec gives, and on an open shelf, which is taken to hold books at 40 lb per square foot, the limit is the span over 144. That is the limit after years for every board.",
    why: "A bent shelf shows, and what stands on it leans together. A bent bottom jams the doors and drawers above it. A board that stays loaded goes on bending: plywood, MDF, and particleboard to 1.5 times as much, solid wood to 2.5 times.",
    source: "Deflection: Wood Handbook (FPL-GTR-190), Table 9-1, and AWC Design Aid 6 for a board over a middle support. Load and limit: ANSI/KCMA A161.1, shelves and bottoms; with `load`: Architectural Woodwork Standards, 1st ed., p. 253 and 279 (40 lb general, 50 lb books). Stiffness: the Wood Handbook's tables, or the stock's `stiffness`. Creep: common practice.",
    formula: "5 W L³ / (384 EI), for the front edge and the rear edge apart, each with half of the board and half of its load. At the front the frame's rail and the toe kick add their EI, at the rear the back that is pinned to it, up to 25 lb for each pin. The edge that sags more counts. The board's own weight is left out.",
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
    let mut worst: BTreeMap<String, (&Lying<'_>, Judged, usize)> = BTreeMap::new();
    for one in all {
        // Glass has a rule of its own.
        if piece.stock(one.part.stock).is_some_and(Stock::is_glass) {
            continue;
        }
        let Some(over) = one.over(piece, one.part.stock) else { continue };
        let known = worst.entry(named(piece, one.part, 1).1).or_insert((one, over, 0));
        known.2 += 1;
        if over.sag > known.1.sag {
            (known.0, known.1) = (one, over);
        }
    }
    for (one, over, count) in worst.into_values() {
        let Some(case) = piece.case(one.part.case) else { continue };
        sink.push(finding(piece, case, all, one, over, count));
    }
}

fn finding(
    piece: &Piece,
    case: &Case,
    all: &[Lying<'_>],
    one: &Lying<'_>,
    Judged { age, sag, limit }: Judged,
    count: usize,
) -> Diagnostic {
    let (tape, part) = (piece.tape(), one.part);
    let step = fine(tape);
    // The sag up and the limit down, so that what is over shows as over.
    let sags = step * (sag / step).ceil();
    let limit = step * (limit.over(one.span) / step).floor();
    let years = match age {
        Age::New => "",
        Age::Old => " after years",
    };
    let (name, subject) = named(piece, part, count);
    let mut diagnostic = RULE
        .finding(
            format!(
                "{name} sags {}{years} over a span of {}, and the limit is {}",
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
        .because(match case.openings.iter().any(|own| own.front.is_some()) {
            true => {
                "what stands on it leans together, and doors and drawers above or below it bind"
            }
            false => "what stands on it leans together, and the eye sees it from across the room",
        })
        .subject(subject)
        .urgency((sags - limit) / Length::mm(1));
    if let Some(stock) = piece.stock(part.stock) {
        let label = format!("{} thick", tape.figure(stock.thickness.length));
        diagnostic = diagnostic.label(stock.thickness_span, label);
    }
    let load = one.carries.load;
    if let Some(span) = one.carries.written {
        diagnostic = diagnostic.label(span, load.to_string());
    }
    let creep = piece.stock(part.stock).map_or(Exact::ONE, Stock::creep);
    let creep = format!("{}.{}", creep.floor(), (creep * Exact::int(10)).round() % 10);
    let where_said = match part.role {
        Role::Countertop => "`load` in the braces of `countertop`",
        _ => "`load`",
    };
    diagnostic = diagnostic.note(match (one.carries.written, one.carries.open) {
        (Some(_), _) => "under a load that the spec gives, the limit is the span over 144 (Architectural Woodwork Standards)".to_owned(),
        (None, true) => format!("this is with {load}, because books may stand on an open shelf, and a limit of the span over 144 (Architectural Woodwork Standards); give another load with {where_said}"),
        (None, false) if age == Age::New => format!("this is with {load} and a limit of 1/16 in per foot, 1/4 in at most (ANSI/KCMA A161.1); give another load with {where_said}"),
        (None, false) => format!("this is with {load}, and after years a board may sag the span over 144; give another load with {where_said}"),
    });
    if let Some(longest) = one.longest(piece).filter(|longest| longest.is_finite()) {
        let marks = Length::new(Exact::ratio((longest * 1000.0) as i64, 1000), Unit::Inch);
        let longest = tape.down(marks);
        diagnostic = diagnostic
            .note(format!("the board is stiff enough over a span of {}", tape.figure(longest)));
    }
    let may_stand = part.role != Role::Bottom || has_legs(case);
    if let Some(halved) = one.halved(piece).filter(|_| one.supports == 0 && may_stand) {
        let what = if part.role == Role::Bottom { "leg" } else { "partition" };
        let halved = tape.figure(step * (halved / step).ceil());
        diagnostic = diagnostic
            .note(format!("with a {what} under its middle it would sag {halved} at most"));
    }
    if let Some(legs) = case.on_legs.as_ref().filter(|legs| legs.across % 2 == 0)
        && part.role == Role::Bottom
    {
        diagnostic = diagnostic.note(format!(
            "with `across {}` in the braces of `legs`, two legs stand under its middle",
            legs.across + 1
        ));
    }
    diagnostic = diagnostic.note(match age {
        Age::New => {
            format!("this is the sag of a new board; after years under its load it sags {creep} times as much")
        }
        Age::Old => format!("a new board sags less; years under its load make it {creep} times as much"),
    });
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
    let Some(opening) = opening.map(|opening| opening.path.as_str()) else {
        return (part.path.clone(), part.path.clone());
    };
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

/// True where a leg would stand under the bottom: not off the floor, and not over a separate
/// base, of which it is one more sleeper.
fn has_legs(case: &Case) -> bool {
    case.ends_on_floor()
}

/// A stock of the spec that holds, and a leg.
fn fixes(piece: &Piece, case: &Case, all: &[Lying<'_>], one: &Lying<'_>) -> Vec<Fix> {
    let mut fixes = Vec::new();
    let framed = case.frame.is_some();
    // The thickness of a frame-less case's boards takes part in its openings:
    // another one may not close.
    let opening = one.part.opening().and_then(|id| piece.opening(id));
    let own = opening.and_then(|own| own.shelves.as_ref()?.loose_stock).map(|(_, at)| at);
    let place = match one.part.role {
        Role::AdjustableShelf => Some(own.unwrap_or(case.shelves.stock_at)),
        Role::FixedShelf => Some(case.shelves.stock_at),
        Role::Bottom if framed => case.bottom.as_ref().map(|bottom| bottom.stock_at),
        Role::Top if framed => case.top.as_ref().map(|top| top.stock_at),
        _ => None,
    };
    if let (Some(place), Some(stock)) = (place, stiffer(piece, all, one)) {
        let thick = piece.tape().figure(stock.thickness.length);
        fixes
            .push(place.says(&format!("stock {}", stock.name), format!("use stock {thick} thick")));
    }
    // A leg could stand in what the site keeps clear; under what hangs stands none.
    let room = piece.site.keep_outs.is_empty() && case.legs.is_empty() && has_legs(case);
    if let Some(bottom) = case.bottom.as_ref().filter(|_| one.part.role == Role::Bottom && room)
        && one.halved(piece).is_some_and(|sag| sag <= trade::HOUSEHOLD.over(one.span.half()))
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
    let own = piece.stock(one.part.stock)?;
    let fits = |stock: &Stock, part: &Part| {
        stock.holds(piece.shop.edge_trim, [part.length.length, part.width.length])
    };
    let holds = |(index, stock): &(usize, &Stock)| {
        stock.is_solid() == own.is_solid()
            && stock.is_glass() == own.is_glass()
            && stock.stiffness.is_some()
            && alike
                .iter()
                .all(|other| other.holds(piece, StockId(*index)) && fits(stock, other.part))
    };
    let found = piece.stocks.iter().enumerate().filter(holds);
    found.min_by_key(|(_, stock)| stock.thickness.length).map(|(_, stock)| stock)
}
