//! A board of which a cut around a pipe leaves too little.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::{Length, Unit};
use crate::model::Piece;
use crate::parts::{Direction, Feature, Part, Role};
use crate::plans::Workings;

use super::rounds::{Round, mend, rounds, severed, through};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "around-weak",
    severity: Severity::Error,
    finds: "A cut around a keep-out leaves too little of a part beside it, or takes a loose shelf away over one of its pins.",
    why: "A narrow bridge breaks when the piece is carried, or the first time the drawer is full. A narrow finger at the end of a board breaks off, and a shelf that finds no pin under one corner tips.",
    source: "Common practice; no published source.",
    formula: "Beside a cut 2 in (50 mm) of a board must stay; of a drawer box 3 in (75 mm) of its bottom, and 1-1/4 in (32 mm) of its sides and back. Between a cut and the end of a board 3/4 in (19 mm) must stay where the end is joined, 2 in (50 mm) of a shelf that lies on pins, or nothing; and each pin needs wood over it.",
    accept: "",
    example: Example {
        base: Base::Console,
        sound: "  drawers {\n    stock  maple",
        wrong: "  around \"heating pipe\" { clear 12 }\n\n  drawers {\n    stock  maple",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// How much of a part must stay beside a cut.
fn least(part: &Part, unit: Unit) -> Length {
    match part.role {
        Role::DrawerBottom => unit.either(Length::inches(3, 1), Length::mm(75)),
        // Above the groove of the bottom there is wood on both sides of it.
        Role::DrawerSide | Role::DrawerFront | Role::DrawerBack => {
            unit.either(Length::inches(5, 4), Length::mm(32))
        }
        _ => unit.either(Length::inches(2, 1), Length::mm(50)),
    }
}

/// How much of a part must stay between a cut and an end that is not cut away.
fn least_at_end(part: &Part, unit: Unit) -> Length {
    match part.role {
        Role::AdjustableShelf => least(part, unit),
        _ => unit.either(Length::inches(3, 4), Length::mm(19)),
    }
}

/// A cut that leaves too little at an end of its board.
struct AtEnd {
    /// The start of its length, or else its end.
    is_start: bool,
    /// What is left; nothing where the cut runs to the end.
    left: Length,
}

/// The end of a board at which a cut leaves a finger that breaks off, or a pin of a loose
/// shelf without wood over it.
fn at_ends(work: &Workings<'_>, part: &Part, own: &Round<'_>) -> Option<AtEnd> {
    // The sides of a box are cut at the end that looks to the wall.
    if part.placement.length != Direction::X {
        return None;
    }
    let least = least_at_end(part, work.piece.tape().unit);
    own.cuts(part).find_map(|cut| {
        let ends = [(true, cut.u.0), (false, part.length.length - cut.u.1)];
        ends.into_iter().find_map(|(is_start, left)| {
            let is_weak = match left.is_positive() {
                true => left < least,
                false => takes_pin(work, part, cut),
            };
            is_weak.then_some(AtEnd { is_start, left: left.max(Length::ZERO) })
        })
    })
}

/// True where a cut takes a loose shelf away over the back row of its pins.
fn takes_pin(work: &Workings<'_>, part: &Part, cut: &Feature) -> bool {
    let front = part.extent(Direction::Z).0;
    let own = work.pin_rows().iter().filter(|rows| {
        part.role == Role::AdjustableShelf
            && rows.shelves.iter().any(|(shelf, _)| std::ptr::eq(*shelf, part))
    });
    own.flat_map(|rows| rows.boards.iter().map(|board| (rows.pins.hole.half(), board.lines()[1])))
        .any(|(radius, line)| cut.v.0 < line - front + radius && line - front - radius < cut.v.1)
}

/// What helps at an end, where so much is left and, of another board, the most.
fn mend_at_end(
    piece: &Piece,
    part: &Part,
    own: &Round<'_>,
    (left, widest): (Length, Length),
) -> String {
    let tape = piece.tape();
    let clear = tape.source(tape.up(piece.clear_of(own.round) + widest));
    let whole =
        format!("`around \"{}\" {{ clear {clear} }}` takes this end off whole", own.keep_out.name);
    let fixed = "make it a fixed shelf (`shelf { fixed 1 }`), whose ends are joined, or set its pins in front of the cut with `from-edge` in the `pins` of `shelves`";
    match (part.role == Role::AdjustableShelf, left.is_positive()) {
        (true, true) => format!("{whole}; then {fixed}"),
        (true, false) => fixed.to_owned(),
        (false, _) => whole,
    }
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for own in rounds(piece) {
        // What takes off the widest of the fingers takes off all.
        let fingers = parts.all.iter().filter_map(|part| at_ends(work, part, &own));
        let widest = fingers.map(|found| found.left).max().unwrap_or_default();
        for part in &parts.all {
            let size = [part.length.length, part.width.length];
            let whole = size[1];
            let left = own.cuts(part).map(|cut| cut.v.0.max(whole - cut.v.1)).min();
            let least = least(part, tape.unit);
            // What was no wider before loses nothing that it had.
            let weak = left.filter(|left| *left < least && *left < whole);
            let is_severed = severed(size, &through(part));
            let Some(left) = weak.filter(|_| !is_severed) else {
                if !is_severed && let Some(found) = end_told(work, part, &own, widest) {
                    sink.push(found);
                }
                continue;
            };
            sink.push(
                RULE.finding(
                    format!(
                        "cut around the {}, {} of the {} of {} is left; {} must stay",
                        own.keep_out.name,
                        tape.text(left),
                        tape.text(whole),
                        part.path,
                        tape.text(least)
                    ),
                    own.round.span,
                    "cut around here",
                )
                .label(part.span, "this part")
                .label(own.keep_out.span, "the keep-out")
                .sum(Sum::new("short by", least - left, tape))
                .because("the bridge that is left breaks")
                .note(mend(part))
                .subject(&part.path)
                .urgency((least - left) / Length::mm(1)),
            );
        }
    }
}

/// The finding of a cut that leaves too little at an end; of all such fingers the `widest`
/// is known.
fn end_told(
    work: &Workings<'_>,
    part: &Part,
    own: &Round<'_>,
    widest: Length,
) -> Option<Diagnostic> {
    let (piece, tape) = (work.piece, work.piece.tape());
    let found = at_ends(work, part, own)?;
    let end = if found.is_start { "left" } else { "right" };
    let least = least_at_end(part, tape.unit);
    let keep_out = &own.keep_out.name;
    let title = match found.left.is_positive() {
        true => format!(
            "cut around the {keep_out}, {} is left between the cut and the {end} end of {}; {} must stay{}",
            tape.text(found.left),
            part.path,
            tape.text(least),
            if part.role == Role::AdjustableShelf { "" } else { ", or nothing" }
        ),
        false => format!(
            "cut around the {keep_out}, {} has no wood over its back pin at the {end}",
            part.path
        ),
    };
    let told = RULE
        .finding(title, own.round.span, "cut around here")
        .label(part.span, "this part")
        .label(own.keep_out.span, "the keep-out")
        .because(match found.left.is_positive() {
            true => "the finger that is left breaks off",
            false => "the shelf tips at that corner",
        })
        .note(mend_at_end(piece, part, own, (found.left, widest)))
        .subject(&part.path)
        .urgency((least - found.left) / Length::mm(1));
    Some(told)
}
