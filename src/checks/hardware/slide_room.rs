//! A slide longer than the room behind the front.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Case, Opening, Piece, RailSide};
use crate::parts::{self, Role};
use crate::plans::Workings;
use crate::plans::fitting::Drawer;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-room",
    severity: Severity::Error,
    finds: "A drawer slide needs more depth than there is from the back of the front to the inside of the case's back, or to the nailer that stands behind the slide.",
    why: "An inset front takes its own thickness out of the depth, and so do the doors before a tray. The drawer then stands proud of the frame and won't close.",
    source: "The slide maker's own figure, as given in the spec.",
    formula: "The slide needs the room that its sheet gives, or its length and what its sheet asks behind the front, whichever is more.",
    accept: "",
    example: Example { base: Base::First, sound: "room 15-3/4", wrong: "room 17-1/4" },
    check: Check::Parts(check),
    sometimes: None,
};

/// How much farther back the slide of a drawer could start.
pub(super) fn spare(work: &Workings<'_>, opening: &Opening) -> Option<Length> {
    let mut drawers = work.fitting().drawers.iter();
    drawers.find(|drawer| drawer.opening.id == opening.id).map(|drawer| drawer.left.length)
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let drawers = work.fitting().drawers.iter();
    for drawer in drawers.filter(|drawer| drawer.left.length.is_negative()) {
        if let Some(case) = work.piece.case(drawer.opening.case()) {
            sink.push(short(work.piece, case, drawer));
        }
    }
}

fn short(piece: &Piece, case: &Case, drawer: &Drawer<'_>) -> Diagnostic {
    let (tape, opening, slide) = (piece.tape(), drawer.opening, drawer.hardware);
    let needs = drawer.used.length - drawer.ahead.length;
    let room = needs + drawer.left.length;
    // What starts far back may reach farther than its sheet's room.
    let start = slide.behind_front.as_ref().filter(|_| needs > slide.room.length);
    let at = start.and_then(|behind| piece.facts.written(behind));
    let is_tray = opening.is_tray();
    let what = if is_tray { "tray" } else { "drawer" };
    // An overlay front lies before the frame's plane, an inset one in it, and what stands
    // behind doors behind them.
    let over = parts::planes(piece, case).frame.length;
    let behind = piece.behind_doors(case, opening).length;
    let inset = drawer.ahead.length - behind;
    let back = case.back.as_ref().map(|back| piece.thickness(back.stock).length);
    let back = back.unwrap_or_default();
    let nailer = drawer.nailer.map(|nailer| nailer.thickness.length).unwrap_or_default();
    let leaves = Sum::new("leaves", room, tape).plus(case.deep.length, "deep", tape);
    let taken = [
        (over, "front"),
        (behind, "to the front of what is behind the doors"),
        (inset, "inset front"),
        (back, "back"),
        (nailer, "nailer"),
    ];
    let leaves = taken
        .into_iter()
        .filter(|(length, _)| length.is_positive())
        .fold(leaves, |sum, (length, what)| sum.minus(length, what, tape));
    let place = if is_tray { "the doors before" } else { "the front of" };
    let found = RULE
        .finding(
            format!(
                "{} needs {} behind {place} {}, and there is {}",
                drawer.slide.name,
                tape.figure(needs),
                opening.path,
                tape.figure(room)
            ),
            at.unwrap_or(slide.room_span),
            match start {
                Some(behind) => tape.figure(behind.length),
                None if needs == slide.room.length => tape.figure(needs),
                None => format!("the box needs {}", tape.figure(needs)),
            },
        )
        .label(case.deep_span, tape.figure(case.deep.length))
        .label(opening.span, format!("this {what}"))
        .sum(leaves)
        .sum(Sum::new("short by", needs - room, tape))
        .because(match behind.is_positive() {
            true => "it stands in the way of the doors, and they won't close",
            false if case.frame.is_none() => "the drawer stands out of the case and won't close",
            false => "the drawer stands proud of the frame and won't close",
        })
        .subject(&opening.path)
        .urgency((needs - room) / Length::mm(1));
    // The lower one is left out with a word, where the upper one is enough.
    let lower = drawer.nailer.filter(|own| own.role == Role::Nailer(RailSide::Bottom));
    let said_at = case.nailers.said_at.as_ref().filter(|at| {
        let is_enough = needs <= room + nailer && case.hung.is_none();
        let keeps_all = at.is_added() || !case.nailers.is_wide_written;
        lower.is_some() && is_enough && keeps_all
    });
    let found = match said_at {
        Some(at) => found.fix(at.says("nailers 1", "leave out the lower nailer, behind it")),
        None => found,
    };
    match drawer.nailer {
        Some(_) => found.note(
            "a nailer stands behind it: use a shorter slide, make the case deeper, or take a back that takes the wall screws itself, 1/2 in or 12 mm thick, with `nailers none`",
        ),
        None => found.note("use a shorter slide, or make the case deeper"),
    }
}
