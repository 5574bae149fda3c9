//! Solid wood glued across the grain of something that does not move with it.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Length;
use crate::model::Piece;
use crate::parts::{Direction, Joint, Part, Parts, Role, screw_rows};
use crate::plans::Workings;
use crate::plans::seasons::{Climate, Swelling};

use super::{moved, screwed_across};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cross-grain",
    severity: Severity::Warning,
    finds: "A glued joint holds wood that moves across its grain by more than 1/16 in (1.6 mm) from the driest day to the dampest. It may be a solid back held at both edges, or a joint along which one board moves and the other does not, or a countertop or another board screwed fast in several places.",
    why: "The glue holds the wood where it wants to move. The board cups, the joint lets go, or the board splits, usually in its first dry winter.",
    source: "Wood Handbook (FPL-GTR-190), Table 13-5 and Eq. 13-2. That joints bear up to 1/16 in is common practice; no published source.",
    formula: "Length of the joint × difference of the two boards' coefficients × points of moisture from driest to dampest.",
    accept: "Accept it if only the front inch or two of the joint is glued, and the rest is left free or is fixed through slots.",
    example: Example {
        base: Base::First,
        sound: "ends { stock ply }",
        wrong: "ends { stock maple }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// What a glued joint bears.
pub(super) fn most() -> Length {
    Length::inches(1, 16)
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let climate = work.climate();
    let mut once = Once::default();
    for joint in parts.joints.iter().filter(|joint| joint.glued) {
        let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
            continue;
        };
        for direction in Direction::ALL.into_iter().filter(|d| !across(part, into, *d)) {
            if !moves(piece, part, direction) && !moves(piece, into, direction) {
                continue;
            }
            let along = part.cuboid().overlap_along(&into.cuboid(), direction);
            if !along.is_positive() {
                continue;
            }
            let [one, other] =
                [part, into].map(|board| swelling(piece, climate, board, direction, along));
            let apart = (one.dampest - other.dampest).max(one.driest - other.driest)
                - (one.dampest - other.dampest).min(one.driest - other.driest);
            let (mover, holder, own) = match one.range() >= other.range() {
                true => (part, into, one),
                false => (into, part, other),
            };
            if apart <= most() || !once.is_first((&mover.path, &holder.path)) {
                continue;
            }
            let case = Glue { joint, mover, holder, along, apart, own };
            sink.push(report(piece, climate, &case));
        }
    }
    backs(piece, parts, climate, sink);
    countertops(piece, parts, climate, sink);
    screwed_across::look(piece, parts, climate, sink);
}

/// A solid back lies in rabbets at both edges: what it moves over its whole
/// width, they hold. Screws in slots bear twice what glue does.
fn backs(piece: &Piece, parts: &Parts, climate: &Climate, sink: &mut Sink) {
    let tape = piece.tape();
    for back in parts.all.iter().filter(|part| part.role == Role::Back) {
        let Some(stock) = piece.stock(back.stock).filter(|stock| stock.wood.is_some()) else {
            continue;
        };
        let wide = back.width.length;
        let own = climate.swelling(stock, wide);
        if own.range() <= most() * 2 {
            continue;
        }
        let wood = stock.wood_name();
        let diagnostic = RULE.finding(format!(
                "{} is solid wood held at both edges, and it moves {} over its {}",
                back.path,
                tape.fine(own.range()),
                tape.text(wide)
            ),
            back.span,
            "this back",
        )
        .label(stock.span, format!("{wood}, {}sawn", stock.sawn.word()))
        .because("it pushes the case apart when it swells, and it splits when it shrinks")
        .note("make the back of plywood, or of narrow boards that overlap and are each held in the middle")
        .subject(&back.path);
        sink.push(in_a_year(diagnostic, piece, climate, wide, &own));
    }
}

/// A solid countertop that is screwed through round holes in several rows.
fn countertops(piece: &Piece, parts: &Parts, climate: &Climate, sink: &mut Sink) {
    let tape = piece.tape();
    for top in &piece.tops {
        let Some(case) = piece.case(top.row.first) else { continue };
        let Some(stock) = piece.stock(top.spec.stock).filter(|stock| stock.wood.is_some()) else {
            continue;
        };
        let rows = screw_rows(piece, top, &parts.under(top));
        let fast: Vec<Length> =
            rows.iter().filter(|row| row.slot.is_none()).map(|row| row.z).collect();
        let (Some(first), Some(last)) = (fast.first(), fast.last()) else { continue };
        let apart = *last - *first;
        let moves = climate.swelling(stock, apart);
        if moves.range() <= most() {
            continue;
        }
        let diagnostic = RULE
            .finding(
                format!(
                    "the countertop of {} is screwed fast across its grain, and it moves {} between its rows of screws",
                    piece.top_named(top),
                    tape.fine(moves.range())
                ),
                top.spec.span,
                "this countertop",
            )
            .label(stock.span, format!("{}, {}sawn", stock.wood_name(), stock.sawn.word()))
            .because("it splits when it shrinks, or shears its screws off")
            .fix(top.spec.held_at.says("held slots", "screw it through slots"))
            .subject(&case.path);
        sink.push(in_a_year(diagnostic, piece, climate, apart, &moves));
    }
}

/// How wood so wide moves, on the day on which it moves most and from one end of the year to
/// the other.
pub(super) fn in_a_year(
    found: Diagnostic,
    piece: &Piece,
    climate: &Climate,
    wide: Length,
    own: &Swelling,
) -> Diagnostic {
    let tape = piece.tape();
    let (dry, wet) = (own.driest, own.dampest);
    moved(found, piece, climate, wide, own).working(
        "in a year",
        format!("{} on the driest day, {} on the dampest", tape.fine(dry), tape.fine(wet)),
    )
}

/// True for the axis that the two meet across: a joint does not run along it.
fn across(part: &Part, into: &Part, direction: Direction) -> bool {
    let thin = |board: &Part| board.placement.thickness == direction;
    thin(part) || thin(into)
}

/// True for a board that swells along an axis: sheets and length don't.
pub(super) fn moves(piece: &Piece, board: &Part, direction: Direction) -> bool {
    let solid = || piece.stock(board.stock).is_some_and(|stock| stock.wood.is_some());
    board.placement.width == direction && solid()
}

fn swelling(
    piece: &Piece,
    climate: &Climate,
    board: &Part,
    direction: Direction,
    along: Length,
) -> Swelling {
    match piece.stock(board.stock) {
        Some(stock) if board.placement.width == direction => climate.swelling(stock, along),
        _ => Swelling::default(),
    }
}

/// A joint that is held across the grain.
struct Glue<'a> {
    joint: &'a Joint,
    mover: &'a Part,
    holder: &'a Part,
    along: Length,
    apart: Length,
    own: Swelling,
}

fn report(piece: &Piece, climate: &Climate, glue: &Glue<'_>) -> Diagnostic {
    let tape = piece.tape();
    let mut diagnostic = RULE
        .finding(
            format!(
                "{} is glued across its grain to {}, and it moves {} along {} of joint",
                glue.mover.path,
                glue.holder.path,
                tape.fine(glue.apart),
                tape.text(glue.along)
            ),
            glue.joint.span,
            "glued here",
        )
        .because("the board cups, splits, or tears the joint open in its first dry winter")
        .subject(&glue.mover.path)
        .urgency(glue.apart / Length::mm(1));
    for board in [glue.mover, glue.holder] {
        let Some(stock) = piece.stock(board.stock) else { continue };
        let wood = stock.wood_name();
        let text = if stock.wood.is_some() {
            format!("{}: {wood}, {}sawn", board.path, stock.sawn.word())
        } else {
            format!("{}: {}, which hardly moves", board.path, stock.kind.word())
        };
        diagnostic = diagnostic.label(stock.span, text);
    }
    in_a_year(diagnostic, piece, climate, glue.along, &glue.own)
        .note("use sheet goods for both, run the grain of both the same way, or glue only the front edge and slot the rest")
}
