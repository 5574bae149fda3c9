//! An opening out of square, and how its front is planed to fit it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::{Length, Tape};
use crate::model::{Build, Piece};
use crate::parts::Parts;
use crate::plans::ledger::Ledger;
use crate::plans::square::{Corner, Leaning, leaning};
use crate::trade;

use super::lean_too_much::is_beyond;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "front-tapered",
    severity: Severity::Note,
    finds: "An opening whose measured diagonals differ by more than the tape may be off: a square front in it has uneven reveals. It says how much wider to leave the front, and how much to plane off at which corner for reveals that are as drawn all the way up. A warning where a square front would jam, with less than 1/64 in (0.4 mm) left at two corners.",
    why: "A reveal that narrows by 1/32 over a door is seen across the room. Planed to its opening, the front hides it; but planing makes it narrower, so the wood for that has to be there.",
    source: "plane geometry (Pythagoras): the squares of the diagonals differ by four times width times lean. Leaves of a pair whose meeting edges stay square: common practice, no source.",
    formula: "lean = difference of the diagonals × diagonal / twice the width. Each edge beside a side of the opening is planed by the lean. Left wider: the lean for a front, half of it for each leaf of a pair. A front cut to its drawn width has, planed, its reveal and half the lean at both sides.",
    accept: "You plane every front to its opening anyway.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { diagonals { rising 38-23/32; falling 38-21/32 } } }",
    },
    check: Check::Parts(check),
};

fn check(piece: &Piece, parts: &Parts, sink: &mut Sink) {
    let leaning = leaning(piece);
    if leaning.is_empty() {
        return;
    }
    let ledger = Ledger::of(piece, parts);
    for leaning in &leaning {
        if !is_beyond(leaning) {
            let cut = leaning.even_as_cut(parts, &ledger);
            sink.push(report(piece.tape(), leaning, cut));
        }
    }
}

fn report(tape: &Tape, leaning: &Leaning<'_>, cut: Option<Length>) -> Diagnostic {
    let opening = leaning.opening;
    let pair = opening.leaves() == 2;
    let off = super::fine(tape, leaning.lean);
    let wider = super::fine(tape, leaning.wider());
    let (each, of) = if pair {
        ("each leaf", "one corner of each leaf")
    } else {
        ("its front", "two corners of its front")
    };
    let leave = match cut {
        Some(_) => String::new(),
        None => format!("leave {each} {wider} wider, and "),
    };
    let jams = leaning.least_surely() < trade::least_gap();
    let severity = if jams { Severity::Warning } else { Severity::Note };
    let title = format!("{} is out of square: {leave}plane {off} off {of}", opening.path);
    let mut found = super::out_of_square(severity, RULE.slug, title, tape, leaning);
    if jams {
        found = found.because("a square front jams at two corners before it is home");
    }
    if cut.is_none() {
        found = found.note(wood(tape, leaning));
    }
    for corner in &leaning.tight {
        found = found.note(format!("then plane {}", taper(tape, leaning, corner)));
    }
    if pair {
        found = found.note("the edges where the leaves meet stay square, so that they meet evenly");
    }
    if opening.is_door() {
        found =
            found.note("plane before its hinges are let in or bored: they go by the planed edge");
    }
    found.note(as_cut(tape, leaning, cut))
}

/// What a front comes to that is cut already, or was cut as it is drawn.
fn as_cut(tape: &Tape, leaning: &Leaning<'_>, cut: Option<Length>) -> String {
    let gap = leaning.fronts.gap.length;
    let even = cut.unwrap_or_else(|| leaning.even_as_drawn());
    let what = match cut {
        Some(_) => "it is cut already: planed so, it has",
        None => "one that is cut to its drawn width already, planed so, has",
    };
    let widest = trade::widest_gap(tape.unit);
    let daylight = if even > widest && gap <= widest { ", which shows daylight" } else { "" };
    format!("{what} {} at both sides instead of {}{daylight}", tape.fine(even), tape.figure(gap))
}

/// What has to be left for the planing.
fn wood(tape: &Tape, leaning: &Leaning<'_>) -> String {
    let pair = leaning.opening.leaves() == 2;
    let what = if pair { "each leaf" } else { "the front" };
    let half = super::fine(tape, leaning.lean.half());
    let how = match (&leaning.fronts.build, pair) {
        (Build::Slab, _) => String::new(),
        (Build::Panel(_), true) => format!(": its outer stile {half} wider"),
        (Build::Panel(_), false) => format!(": both stiles {half} wider"),
    };
    let drawn = tape.figure(leaning.blank() - leaning.wider());
    format!("cut {what} {} wide, not {drawn}{how}", super::fine(tape, leaning.blank()))
}

/// `1.38 off the upper left corner of the front, running out to nothing …`
fn taper(tape: &Tape, leaning: &Leaning<'_>, corner: &Corner) -> String {
    let leaf = corner.front.rsplit('.').next().unwrap_or_default().replace('-', " ");
    format!(
        "{} off the {} corner of the {leaf}, running out to nothing at its {} corner",
        super::fine(tape, leaning.lean),
        corner.word(),
        corner.other_end()
    )
}
