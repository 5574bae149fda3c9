//! A piece between two walls that says nothing of scribing.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Length, Span};
use crate::model::{Boundary, Insertion, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "no-scribe",
    severity: Severity::Warning,
    finds: "A piece stands between two walls, neither of them leaves anything to scribe, and at one of them the spec does not say so.",
    why: "No two walls are parallel. A piece as wide as its alcove goes in at the front and jams at the back, or a gap shows along one side.",
    source: "Common practice; no published source: 1/2 to 3/4 in (12 to 20 mm).",
    formula: "",
    accept: "Accept it if the piece stands free between the walls. To say so in the spec, write `scribe 0` at both.",
    example: Example { base: Base::Alcove, sound: "right wall { scribe 0 }", wrong: "right wall" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let [Some(left), Some(right)] =
        [&piece.site.left, &piece.site.right].map(|side| unscribed(piece, side))
    else {
        return;
    };
    let tape = piece.tape();
    let usual = tape.source(tape.unit.either(Length::inches(1, 2), Length::mm(12)));
    let sides = [("left", &left, &right), ("right", &right, &left)];
    let Some((name, wall, other)) = sides.into_iter().find(|(_, wall, _)| !wall.says) else {
        return;
    };
    let title = "say that it stands free between them";
    let fix = match wall.scribe_at {
        Some(at) => at.says("scribe 0", title),
        None => Fix::new(Grade::Choice, title, wall.span, format!("{name} wall {{ scribe 0 }}")),
    };
    sink.push(
        RULE.finding(
            "the piece stands between two walls with nothing to scribe",
            wall.span,
            "this wall",
        )
        .label(other.span, "and this one")
        .because("no two walls are parallel, so it jams at the back or shows a gap")
        .note(format!(
            "to scribe, write `scribe {usual}` in the braces of each wall, and make the outer stile there as much wider"
        ))
        .subject("site")
        .fix(fix),
    );
}

/// A wall without scribe.
struct Unscribed {
    span: Span,
    /// The spec says that there is none.
    says: bool,
    scribe_at: Option<Insertion>,
}

fn unscribed(piece: &Piece, side: &Boundary) -> Option<Unscribed> {
    let Boundary::Wall { scribe, span, scribe_at } = side else { return None };
    let says = piece.facts.written(scribe).is_some();
    scribe.length.is_zero().then_some(Unscribed { span: *span, says, scribe_at: *scribe_at })
}
