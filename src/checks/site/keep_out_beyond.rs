//! A keep-out where nothing of the piece can be.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Boundary, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "keep-out-beyond",
    severity: Severity::Warning,
    finds: "A keep-out of the site lies beside the piece altogether, or in or behind the wall at its right.",
    why: "It keeps nothing clear. Usually one of its figures is wrong, and the pipe stands behind the piece where nothing was cut for it.",
    source: "Plane geometry.",
    formula: "From the left side of the piece to the keep-out, less the width of the piece. What stands within 12 in (300 mm) of it is taken for a neighbor (common practice, no source).",
    accept: "Accept it if you note what stands beside the piece.",
    example: Example { base: Base::Console, sound: "{ from-left 52;", wrong: "{ from-left 520;" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let (tape, wide) = (piece.tape(), piece.wide());
    for keep_out in &piece.site.keep_outs {
        let [from, to] = keep_out.sides.each_ref().map(|side| side.length);
        let wall = match &piece.site.right {
            Boundary::Wall { span, .. } => Some(*span),
            Boundary::Open => None,
        };
        // What stands close beside the piece may stop its doors.
        let near = tape.unit.either(Length::inches(12, 1), Length::mm(300));
        let beside = from >= wide + near;
        // A pipe that lies in the wall by a hair was measured before it was plumb.
        let in_wall = wall.filter(|_| to - wide > tape.mark);
        let title = match (beside, in_wall) {
            (true, None) => format!("the {} lies beside the piece", keep_out.name),
            (_, Some(_)) => format!("the {} lies in the wall at the right", keep_out.name),
            (false, None) => continue,
        };
        let mut found = RULE
            .finding(title, keep_out.span, format!("{} to {}", tape.figure(from), tape.figure(to)))
            .sum(Sum::told("the piece ends at", tape.figure(wide)))
            .because("it keeps nothing clear")
            .note("look at `from-left`, which counts from the left side of the piece")
            .subject(&keep_out.name);
        if let Some(wall) = in_wall {
            found = found.label(wall, "this wall");
        }
        sink.push(found);
    }
}
