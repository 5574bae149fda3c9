//! A pull that the closed door before it strikes.

use super::slide_room;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::model::{Case, Opening, OpeningKind};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pull-behind-leaf",
    severity: Severity::Error,
    finds: "The front of a drawer behind doors stands so near to them that its pull strikes the closed leaf.",
    why: "The doors don't close, or the pull dents the panel each time they do.",
    source: "Plane geometry.",
    formula: "From the back of the closed doors to the face of the front there must be no less than the pull stands off it.",
    accept: "",
    example: Example {
        base: Base::Pantry,
        sound: "tray tins  { same jars; box { high 3-1/4 } }",
        wrong: "drawer tins  { same jars; set-back 1/2 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for case in &work.piece.cases {
        for opening in &case.openings {
            sink.extend(struck(work, case, opening));
        }
    }
}

fn struck(work: &Workings<'_>, case: &Case, opening: &Opening) -> Option<Diagnostic> {
    let piece = work.piece;
    let tape = piece.tape();
    let OpeningKind::Drawer { .. } = opening.kind else { return None };
    let door = case.door_before(opening)?;
    let pull = opening.front.as_ref()?.pull.and_then(|pull| piece.pull(pull))?;
    let written = opening.set_back_span?;
    let (room, short) = (opening.set_back.length, pull.stands - opening.set_back.length);
    if !short.is_positive() {
        return None;
    }
    let title = format!(
        "the pull of {} stands off {}, and there is {} to the closed leaf of {}",
        opening.path,
        tape.figure(pull.stands),
        tape.figure(room),
        door.name()
    );
    let sum = Sum::new("short by", short, tape)
        .plus(pull.stands, "the pull stands off", tape)
        .minus(room, "set-back of the front", tape);
    let back = tape.figure(tape.up(pull.stands));
    let further = tape.up(pull.stands) - room;
    let fits = slide_room::spare(work, opening).is_some_and(|spare| spare >= further);
    let found = RULE
        .finding(title, written, tape.figure(room))
        .label(pull.stands_span, "this pull")
        .sum(sum)
        .because("the doors don't close")
        .note("without `set-back`, the front stands as far back as its pull needs; `front { pull none }` leaves the pull out")
        .subject(&opening.path);
    Some(match fits {
        true => found.fix(Fix::new(
            Grade::Choice,
            format!("set the front back by {back}"),
            written,
            format!("set-back {back}"),
        )),
        false => found,
    })
}
