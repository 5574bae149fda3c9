//! A part that its cut around a pipe leaves in pieces, or without an end.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::parts::Assembly;
use crate::plans::Workings;

use super::rounds::{mend, rounds, severed, through};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "around-severs",
    severity: Severity::Error,
    finds: "Cut around a keep-out, a part comes apart, or loses the end or the edge by which it is joined.",
    why: "The back of a drawer box that is cut in two holds neither its sides nor its bottom, and the drawer racks until it comes off its slides.",
    source: "Plane geometry.",
    formula: "What the cuts leave must be one piece that still reaches both ends of the part.",
    accept: "",
    example: Example {
        base: Base::Console,
        sound: "drawer lower  { share 1 }",
        wrong: "drawer lower  { share 1; around \"heating pipe\" { clear 36 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for own in rounds(piece) {
        let cut = parts.all.iter().find(|part| {
            let size = [part.length.length, part.width.length];
            own.cuts(part).next().is_some() && severed(size, &through(part))
        });
        let Some(part) = cut else { continue };
        let boxed = matches!(part.assembly, Assembly::DrawerBox(_));
        sink.push(
            RULE.finding(
                format!(
                    "cut around the {}, {} does not stay in one piece from end to end",
                    own.keep_out.name, part.path
                ),
                own.round.span,
                "cut around here",
            )
            .label(part.span, "this part")
            .label(own.keep_out.span, "the keep-out")
            .because(if boxed {
                "the box holds together no longer"
            } else {
                "the board no longer holds anything"
            })
            .note(mend(part))
            .subject(&part.path),
        );
    }
}
