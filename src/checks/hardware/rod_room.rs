//! A hanging rail without the room that clothes need.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;
use crate::plans::Workings;
use crate::plans::fitting::Rail;
use crate::trade;
use crate::vocabulary::Hangs;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rod-room",
    severity: Severity::Warning,
    finds: "Under a hanging rail there is less height than the clothes on it need, or the case is less deep than a hanger is wide.",
    why: "Clothes that reach the floor of their opening crease, and hangers that stand out keep the doors from closing.",
    source: "From memory.",
    formula: "Below the center of the rail there are 40 in (1016 mm) for short clothes and 64 in (1625 mm) for long ones, and from the closed doors, or the face of the case, to the inside of the back 22 in (560 mm).",
    accept: "Accept it if children's clothes hang there, or if the hangers hang on a rail that pulls out.",
    example: Example {
        base: Base::Wardrobe,
        sound: "open shoes { high 300 mm }",
        wrong: "open shoes { high 900 mm }",
    },
    check: Check::Parts(check),
    sometimes: Some((
        Severity::Error,
        "The rail would lie on what is below it, or lower: nothing can hang there.",
    )),
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for rail in &work.fitting().rails {
        low(work.piece, rail, sink);
        shallow(work.piece, rail, sink);
    }
}

fn low(piece: &Piece, rail: &Rail<'_>, sink: &mut Sink) {
    let tape = piece.tape();
    let needs = trade::clothes_high(rail.rod.hangs == Hangs::Long, tape.unit);
    let short = needs - rail.room;
    if !short.is_positive() {
        return;
    }
    let clothes = match rail.rod.hangs {
        Hangs::Short => "short clothes",
        Hangs::Long => "long clothes",
    };
    let below = match rail.below {
        Some(board) => board.path.clone(),
        None => format!("the lower edge of {}", rail.opening.name()),
    };
    let fits = rail.room > rail.rod.diameter.half();
    let title = match fits {
        true => format!(
            "{clothes} on the rail of {} need {} below it, and there is {}",
            rail.opening.path,
            tape.figure(needs),
            tape.figure(rail.room)
        ),
        false => format!(
            "the rail of {} hangs {} down, and its opening ends there",
            rail.opening.path,
            tape.figure(rail.rod.down.length)
        ),
    };
    let found = RULE.finding(title, rail.rod.span, "this rail");
    let found = match fits {
        true => found.sum(Sum::new("short by", short, tape).plus(needs, "needed", tape).minus(
            rail.room,
            "below the rail",
            tape,
        )),
        false => RULE.at_times(found),
    };
    sink.push(
        found
            .label(rail.opening.span, format!("down to {below}"))
            .because(match fits {
                true => "the clothes crease on what is below them",
                false => "nothing can hang on it",
            })
            .subject(&rail.opening.path)
            .urgency(short / Length::mm(1)),
    );
}

fn shallow(piece: &Piece, rail: &Rail<'_>, sink: &mut Sink) {
    let tape = piece.tape();
    let needs = trade::clothes_deep(tape.unit);
    let short = needs - rail.deep;
    if !short.is_positive() {
        return;
    }
    let title = format!(
        "hangers on the rail of {} need {} from front to back, and there is {}",
        rail.opening.path,
        tape.figure(needs),
        tape.figure(rail.deep)
    );
    let Some(case) = piece.case(rail.opening.case()) else { return };
    sink.push(
        RULE.finding(title, rail.rod.span, "this rail")
            .label(case.deep_span, format!("{} deep in all", tape.figure(case.deep.length)))
            .sum(Sum::new("short by", short, tape).plus(needs, "needed", tape).minus(
                rail.deep,
                "to the inside of the back",
                tape,
            ))
            .because(match rail.opening.is_door() {
                true => "hangers that stand out keep the doors from closing",
                false => "hangers stand out past the face of the case",
            })
            .subject(&rail.opening.path)
            .urgency(short / Length::mm(1)),
    );
}
