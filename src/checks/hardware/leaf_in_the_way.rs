//! A tray that can't come out past the open door before it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Length;
use crate::model::{Case, Opening, Piece};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "leaf-in-the-way",
    severity: Severity::Error,
    finds: "The open leaf of a door stands so far over its opening that no packer of a usual thickness brings a tray or drawer past it.",
    why: "A tray or drawer slides straight out, and a leaf that does not open far enough stands before it. It would strike the leaf each time, or it would have to be so narrow that it holds nothing.",
    source: "Plane geometry. What slides behind doors is packed in by no more than 1-1/2 in or 38 mm (common practice, no source). Where a cup hinge gives no poses, the door is taken to turn about the front corner of its hinge edge.",
    formula: "With the door open as far as its hinge lets it, the farthest corner of the leaf over the opening, and 1/16 in (2 mm) of play, may be no more than 1-1/2 in (38 mm) past the edge of the opening.",
    accept: "",
    example: Example { base: Base::Pantry, sound: "155 deg", wrong: "80 deg" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let most = trade::most_past_leaf(piece.tape().unit);
    for case in &piece.cases {
        for tray in case.openings.iter().filter(|opening| opening.leaf_opens.is_some()) {
            let clear = tray.clear.iter().map(|clear| clear.length).max().unwrap_or_default();
            if clear > most {
                sink.extend(report(piece, case, tray, clear, most));
            }
        }
    }
}

fn report(
    piece: &Piece,
    case: &Case,
    tray: &Opening,
    clear: Length,
    most: Length,
) -> Option<Diagnostic> {
    let tape = piece.tape();
    let door = case.door_before(tray)?;
    let (hinge, _) = door.front.as_ref()?.hinge?;
    let hinge = piece.hinge(hinge)?;
    let title = format!(
        "{} can't come out: the leaf of {} opens to {} degrees and still takes {} of the opening",
        tray.name(),
        door.name(),
        tray.leaf_opens.unwrap_or_else(|| hinge.opens()).0,
        tape.figure(clear)
    );
    Some(
        RULE.finding(title, hinge.span, "the doors hang on this hinge")
            .label(tray.span, "this slides into the leaf")
            .because(format!("what slides behind doors is packed in by no more than {}", tape.figure(most)))
            .note("take a hinge that opens to 90 degrees or more, and give its figures; beside a wall a wider stile lets the door open farther")
            .subject(&tray.path),
    )
}
