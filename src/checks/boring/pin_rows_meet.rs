//! Holes for shelf pins that meet inside a board, or come out at its far side.

use std::collections::BTreeMap;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span};
use crate::model::Piece;
use crate::parts::Key;
use crate::plans::Workings;
use crate::plans::fitting::PinRows;
use crate::plans::fitting::pins::RowBoard;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pin-rows-meet",
    severity: Severity::Warning,
    finds: "The holes for shelf pins on the two faces of one board meet or leave less than 2 mm of wood between them, the holes in one face leave less than 2 mm to the other, or the holes of one row leave less than 2 mm from one to the next.",
    why: "The second bit breaks into the first hole, and the pins push each other out. A hole that comes through shows on the other side.",
    source: "Plane geometry. The 2 mm is common practice, as for hinge cups.",
    formula: "The wood left is the board's thickness less the depth of the holes from both faces, where a hole of one row lies across from a hole of the other.",
    accept: "Accept it if you bore the second row at other heights than the first, or use pins that go through to both sides.",
    example: Example {
        base: Base::Console,
        sound: "open niche { wide 15 }",
        wrong: "open niche { wide 15; shelf { adjustable 2 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The least wood behind a hole.
const LEAST: Length = Length::mm(2);

/// The two rows of an opening in one board.
type Own<'w, 'a> = (&'w PinRows<'a>, &'w RowBoard<'a>);

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let mut boards: BTreeMap<Key, Vec<Own<'_, '_>>> = BTreeMap::new();
    for rows in work.pin_rows() {
        if rows.pins.pitch - rows.pins.hole < LEAST && rows.count > 1 {
            sink.push(crowded(work.piece, rows));
            continue;
        }
        for board in &rows.boards {
            boards.entry(board.part.key()).or_default().push((rows, board));
        }
    }
    for rows in boards.values() {
        for (index, one) in rows.iter().enumerate() {
            let thick = one.1.part.depth(one.1.face);
            if thick - one.0.pins.deep < LEAST {
                sink.push(through(work.piece, one));
                continue;
            }
            let other = rows.iter().skip(index + 1).find(|other| meet(one, other));
            sink.extend(other.map(|other| meeting(work.piece, one, other)));
        }
    }
}

/// True where a hole of one lies across from a hole of the other, with too
/// little wood between them.
fn meet((one, board): &Own<'_, '_>, (other, opposite): &Own<'_, '_>) -> bool {
    let left = board.part.depth(board.face) - one.pins.deep - other.pins.deep;
    if board.face == opposite.face || left >= LEAST {
        return false;
    }
    let reach = one.pins.hole.half() + other.pins.hole.half();
    let near = |a: Length, b: Length| (a - b).abs() < reach;
    let across =
        board.lines().iter().any(|line| opposite.lines().iter().any(|its| near(*line, *its)));
    let heights: Vec<Length> = other.heights().collect();
    across
        && one.heights().any(|height| {
            let above = heights.partition_point(|its| *its <= height - reach);
            heights.get(above).is_some_and(|its| near(*its, height))
        })
}

fn meeting(piece: &Piece, (one, board): &Own<'_, '_>, (other, _): &Own<'_, '_>) -> Diagnostic {
    let tape = piece.tape();
    let part = board.part;
    let thick = part.depth(board.face);
    let left = thick - one.pins.deep - other.pins.deep;
    let title = match left.is_negative() {
        true => format!(
            "the pin holes of {} and {} overlap by {} in {}",
            one.title(),
            other.title(),
            tape.figure(-left),
            part.path
        ),
        false => format!(
            "the pin holes of {} and {} leave {} between them in {}",
            one.title(),
            other.title(),
            tape.figure(left),
            part.path
        ),
    };
    let mut found = at(&title, one, "these shelves have pins in one of its faces")
        .because("the second bit breaks into the first hole, and the pins push each other out")
        .subject(&part.path);
    if let Some(set) = &other.opening.shelves {
        found = found.label(set.span, "and these in the other");
    }
    let sum = match left.is_negative() {
        true => Sum::new("over by", -left, tape)
            .plus(one.pins.deep, "hole", tape)
            .plus(other.pins.deep, "hole", tape)
            .minus(thick, "board", tape),
        false => Sum::new("leaves", left, tape)
            .plus(thick, "board", tape)
            .minus(one.pins.deep, "hole", tape)
            .minus(other.pins.deep, "hole", tape),
    };
    shallower(piece, found.sum(sum), one.pins.deep_at, (thick - LEAST).half())
}

fn through(piece: &Piece, (rows, board): &Own<'_, '_>) -> Diagnostic {
    let tape = piece.tape();
    let part = board.part;
    let thick = part.depth(board.face);
    let left = thick - rows.pins.deep;
    let title = format!(
        "the pin holes of {} leave less than {} to the far face of {}",
        rows.title(),
        tape.figure(LEAST),
        part.path
    );
    let deep = tape.figure(rows.pins.deep);
    let found = match rows.pins.deep_at.zip(rows.opening.shelves.as_ref()) {
        // The figure itself is too much for its board, whatever lies on the pins.
        Some((span, set)) => RULE
            .finding(title, span, format!("{deep} deep"))
            .label(set.span, "these shelves stand on pins"),
        None => at(&title, rows, "these shelves stand on pins"),
    };
    let found = found
        .because("a hole that comes through shows on the other side")
        .subject(&part.path)
        .sum(Sum::new("leaves", left, tape).plus(thick, "board", tape).minus(
            rows.pins.deep,
            "hole",
            tape,
        ));
    shallower(piece, found, rows.pins.deep_at, thick - LEAST)
}

/// Holes of one row that run into each other.
fn crowded(piece: &Piece, rows: &PinRows<'_>) -> Diagnostic {
    let tape = piece.tape();
    let left = rows.pins.pitch - rows.pins.hole;
    let title = format!(
        "the pin holes of {} leave less than {} from one to the next",
        rows.title(),
        tape.figure(LEAST)
    );
    at(&title, rows, "these shelves stand on pins")
        .because("the wood between two holes splits out, and the pin tips")
        .subject(&rows.opening.path)
        .sum(Sum::new("leaves", left, tape).plus(rows.pins.pitch, "pitch", tape).minus(
            rows.pins.hole,
            "hole",
            tape,
        ))
        .note("give the pins a wider `pitch` in `shelves`")
}

/// A finding at the shelves of an opening.
fn at(title: &str, rows: &PinRows<'_>, label: &str) -> Diagnostic {
    let shelves = rows.opening.shelves.as_ref();
    let span = shelves.map_or(rows.opening.span, |set| set.span);
    let found = RULE.finding(title, span, label);
    match rows.pins.span {
        Some(span) => found.label(span, "the pins"),
        None => found,
    }
}

/// What to write so that enough wood is left: in place of the depth where it is written.
fn shallower(piece: &Piece, found: Diagnostic, at: Option<Span>, most: Length) -> Diagnostic {
    let tape = piece.tape();
    let most = tape.down(most);
    if !most.is_positive() {
        return found.note("use a thicker board, or fixed shelves on one side");
    }
    let deep = format!("deep {}", tape.source(most));
    match at {
        Some(at) => found.fix(Fix::new(Grade::Choice, "this leaves enough wood", at, deep)),
        None => found.note(format!("`pins {{ {deep} }}` in `shelves` leaves enough wood")),
    }
}
