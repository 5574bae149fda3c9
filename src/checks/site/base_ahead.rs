//! A separate base that lies before what is to be screwed to it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::parts::{Direction, Role, Which};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "base-ahead",
    severity: Severity::Error,
    finds: "The front of a separate base lies under the face frame, so that the bottom, which begins behind the frame, has too little on it for the screws.",
    why: "A case is screwed down through its bottom into the front and the back of its base. A screw at the very edge of the bottom splits it out, and one that misses the base holds nothing.",
    source: "Plane geometry; that a screw stands 1/4 in (6 mm) or more behind the edge is common practice, no source.",
    formula: "From the front edge of the bottom to the middle of the front of the base.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "base { toe-kick; high 4; set-back 3; cut-into ends }",
        wrong: "base { toe-kick; high 4; set-back 0; separate }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let least = tape.unit.either(Length::inches(1, 4), Length::mm(6));
    let mut told = None;
    for case in &piece.cases {
        let Some(base) = case.base.as_ref().filter(|base| base.separate) else { continue };
        let under = piece.base_of(case.id);
        let front = parts.of_case(under).iter();
        let front = front
            .into_iter()
            .find(|part| (part.role, part.which) == (Role::BaseMember, Which::Front));
        let bottom = parts.of_case(case.id).iter().find(|part| part.role == Role::Bottom);
        let (Some(front), Some(bottom)) = (front, bottom) else { continue };
        // One that lies higher is not screwed down: the ends stand on the base.
        if bottom.extent(Direction::Y).0 != front.extent(Direction::Y).1 {
            continue;
        }
        let edge = bottom.extent(Direction::Z).0;
        let (from, to) = front.extent(Direction::Z);
        let behind = (from + to).half() - edge;
        if from >= edge || behind >= least || told == Some(under) {
            continue;
        }
        told = Some(under);
        let at = piece.facts.written(&base.set_back);
        let back = base.set_back.length;
        let wanted = back + edge - from;
        let mut found = RULE
            .finding(
                format!("the front of the base of {} lies before its bottom", case.name),
                at.unwrap_or(base.span),
                format!("set back {}", tape.figure(back)),
            )
            .sum(
                Sum::new("middle of the base's front behind the edge", behind, tape)
                    .plus((from + to).half() - from + back, "middle of the base's front", tape)
                    .minus(edge - from + back, "front edge of the bottom", tape),
            )
            .because("the screws through the bottom would miss the base, or split the edge")
            .note(format!(
                "set it back {}, as far as the frame is thick, so that the whole of its front lies under the bottom",
                tape.figure(wanted)
            ))
            .subject(&case.path);
        if let Some(at) = at {
            found = found.fix(Fix::new(
                Grade::Choice,
                format!("set it back {}", tape.figure(wanted)),
                at,
                format!("set-back {}", tape.source(wanted)),
            ));
        }
        sink.push(found);
    }
}
