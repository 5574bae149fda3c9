//! A drawer on wood with no level board under it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::parts::{Direction, JointSort};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "runner-off-level",
    severity: Severity::Error,
    finds: "The board under a drawer that runs on wood is not level with the lower edge of its opening, and it is not low enough for runners of 1/4 in (6 mm) or more.",
    why: "The drawer drops behind the rail as it goes in, or it strikes the edge of the board. A strip that is thinner than that breaks before it is glued down.",
    source: "Plane geometry. The least thickness of a strip is common practice; no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Chest,
        sound: "rail          { wide 1 }\n      drawer middle",
        wrong: "rail          { wide 1; shelf { lip 1/8 } }\n      drawer middle",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for drawer in &work.fitting().on_wood {
        let opening = drawer.opening;
        let sides = parts.iter_case(opening.case()).filter(|(id, part)| {
            let slid = |joint: &&crate::parts::Joint| joint.sort == JointSort::Slid;
            part.opening() == Some(opening.id)
                && parts.joints.iter().filter(slid).any(|joint| joint.part == *id)
        });
        let Some(low) = sides.map(|(_, side)| side.extent(Direction::Y).0).min() else { continue };
        let Some(board) = drawer.on.first() else { continue };
        let top = board.extent(Direction::Y).1;
        if low == top {
            continue;
        }
        let (off, way, because) = match low > top {
            true => (low - top, "lower", "the drawer drops behind its rail as it goes in"),
            false => {
                (top - low, "higher", "the drawer strikes the edge of the board as it goes in")
            }
        };
        let least = trade::thinnest_strip(tape.unit);
        sink.push(
            RULE.finding(
                format!(
                    "the drawer of {} has no level board to run on: {} lies {} {way} than its opening",
                    opening.path,
                    board.path,
                    tape.text(off)
                ),
                board.span,
                format!("{} {way} than the opening", tape.text(off)),
            )
            .label(opening.span, "this drawer runs on wood")
            .sum(
                Sum::new("off by", off, tape)
                    .plus(low.max(top), if low > top { "opening" } else { "board" }, tape)
                    .minus(low.min(top), if low > top { "board" } else { "opening" }, tape),
            )
            .because(because)
            .note(format!(
                "let the board lie level with the lower edge of the opening, or {} or more below it, so that runners go on it",
                tape.figure(least)
            ))
            .subject(&opening.path)
            .urgency(off / Length::mm(1)),
        );
    }
}
