//! A scribe that leaves nothing of its stile.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::model::{Exposure, Piece, Seam, Side};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "scribe-too-wide",
    severity: Severity::Error,
    finds: "A scribe takes so much of its stile that the end of the case no longer stands behind the stile, or a side that is planed to a wall has a mitered seam.",
    why: "The stile must reach from the wall past the end that it is fixed to. A miter that has been planed to a wall no longer closes.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example { base: Base::Console, sound: "scribe 3/4", wrong: "scribe 2-1/4" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(frame) = &case.frame else { continue };
        for side in Side::BOTH {
            let Exposure::Wall { scribe } = side.of(&case.exposure) else { continue };
            if !scribe.length.is_positive() {
                continue;
            }
            let stile = side.of(&frame.stiles);
            let end = side.of(&case.ends);
            let thick = piece.thickness(end.stock).length;
            let at = piece.facts.written(scribe).unwrap_or(case.span);
            if end.seam == Seam::Miter {
                sink.push(
                    RULE.finding(
                        format!(
                            "the {} seam of {} is mitered, but its stile is planed to the wall",
                            side.word(),
                            case.name
                        ),
                        at,
                        format!("scribe {}", tape.figure(scribe.length)),
                    )
                    .label(stile.span, "mitered seam")
                    .note("use a butt seam, or leave out the scribe on this side")
                    .subject(&case.path),
                );
                continue;
            }
            let left = stile.wide.length - scribe.length - thick;
            if !left.is_negative() {
                continue;
            }
            let widest = tape.down(stile.wide.length - thick);
            let written = piece.facts.written(scribe).filter(|_| widest.is_positive());
            let fix = written.map(|at| {
                let statement = format!("scribe {}", tape.source(widest));
                Fix::new(Grade::Choice, "the widest that fits", at, statement)
            });
            let found = RULE
                .finding(
                    format!(
                        "the {} stile of {} is {} too narrow to reach past its end",
                        side.word(),
                        case.name,
                        tape.text(-left)
                    ),
                    at,
                    format!("scribe {}", tape.figure(scribe.length)),
                )
                .label(stile.span, format!("stile {} wide", tape.figure(stile.wide.length)))
                .label(end.span, format!("end {} thick", tape.figure(thick)))
                .sum(
                    Sum::new("left", left, tape)
                        .plus(stile.wide.length, "stile", tape)
                        .minus(scribe.length, "scribe", tape)
                        .minus(thick, "end", tape),
                )
                .because("the end is no longer behind its stile, and it shows in the opening")
                .subject(&case.path);
            sink.push(match fix {
                Some(fix) => found.fix(fix),
                None => found,
            });
        }
    }
}
