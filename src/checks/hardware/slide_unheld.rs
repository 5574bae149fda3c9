//! A slide with nothing near to carry it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Length;
use crate::model::Piece;
use crate::parts::{Direction, Parts, Role};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-unheld",
    severity: Severity::Error,
    finds: "A drawer whose slide would stand on a packer of more than 4 in (100 mm), because no board of the case is near that side of its opening.",
    why: "A slide is screwed to a board. Behind a stile that does not run the whole height there is none, and a packer as thick as an opening is no packer.",
    source: "geometry; 4 in is common practice, no source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }",
        wrong: "across row { high 5; drawer upper { wide 15 }; stile { wide 1-1/2 }; drawer other { share 1 } }",
    },
    check: Check::Parts(check),
};

fn check(piece: &Piece, parts: &Parts, sink: &mut Sink) {
    let tape = piece.tape();
    let mut told = Vec::new();
    for part in parts.all.iter().filter(|part| part.role == Role::Packer) {
        let (from, to) = part.extent(Direction::X);
        if to - from <= Length::mm(102) {
            continue;
        }
        let Some((drawer, side)) = part.path.rsplit_once('.') else { continue };
        let Some(case) = piece.cases.get(part.case) else { continue };
        let Some(opening) = case.openings.iter().find(|o| o.path == drawer) else { continue };
        if told.contains(&opening.span) {
            continue;
        }
        told.push(opening.span);
        let side = side.split('-').next().unwrap_or(side);
        sink.push(
            Diagnostic::error(
                RULE.slug,
                format!(
                    "nothing carries the {side} slide of {drawer}: the nearest board is {} away",
                    tape.text(to - from)
                ),
                opening.span,
                format!("{side} slide"),
            )
            .label(part.span, "the drawers")
            .note(match case.partitions {
                Some(_) => "let the stile beside it run the whole height, so that a partition stands behind it",
                None => "`partitions { joint dado { } }` in the case puts a board behind each stile that runs the whole height; let the stile beside this drawer run so",
            })
            .subject(drawer),
        );
    }
}
