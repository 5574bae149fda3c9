//! A board that is shorter than the pockets in its ends.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::parts::FeatureKind;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pocket-too-long",
    severity: Severity::Error,
    finds: "A board with pocket holes is shorter than its pockets are long.",
    why: "A pocket reaches about twice the thickness of its board in from the end. In a shorter board the step drill comes out at the other end, and no clamp of the jig holds the board.",
    source: "Common practice; no published source.",
    formula: "Twice the thickness of the board, against its length.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "doors store { share 1; shelf { adjustable 1 } }",
        wrong: "across { doors store { share 1; shelf { adjustable 1 } }; stile { wide 1-1/2 }; down { wide 1; false low { high 9 }; rail { wide 1-1/2 }; false high { share 1 } } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for part in &parts.all {
        let pockets =
            part.features.iter().filter(|own| matches!(own.kind, FeatureKind::Pockets(..)));
        let Some(pocket) = pockets.max_by_key(|own| own.u.1 - own.u.0) else { continue };
        let (reach, long) = (pocket.u.1 - pocket.u.0, part.length.length);
        if reach <= long {
            continue;
        }
        let mut diagnostic = RULE
            .finding(
                format!(
                    "{} is {} long, which is shorter than its pockets: each is {} long",
                    part.path,
                    tape.figure(long),
                    tape.figure(reach)
                ),
                pocket.span,
                "joined with pocket screws",
            )
            .sum(Sum::new("too short by", reach - long, tape).plus(reach, "pocket", tape).minus(
                long,
                part.word(),
                tape,
            ))
            .because("the drill comes out at the other end")
            .subject(&part.path)
            .urgency(-long / Length::mm(1));
        if part.span != pocket.span {
            diagnostic = diagnostic.label(part.span, format!("{} long", tape.figure(long)));
        }
        let joint = piece.case(part.case).and_then(|case| super::screwed_by(case, pocket.span));
        sink.push(match joint {
            Some(span) => {
                diagnostic.fix(Fix::new(Grade::Choice, "join it with dowels", span, "joint dowel"))
            }
            None => diagnostic.note("join it in another way, or make it longer"),
        });
    }
}
