//! A slide longer than the room behind the front.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{OpeningKind, Piece, Set};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-room",
    severity: Severity::Error,
    finds: "A drawer slide needs more depth than there is from the back of the front to the inside of the case's back.",
    why: "An inset front takes its own thickness out of the depth. The drawer then stands proud of the frame and won't close.",
    source: "The slide maker's own figure, as given in the spec.",
    formula: "The slide needs the room that its sheet gives, or its length and what its sheet asks behind the front, whichever is more.",
    accept: "",
    example: Example { base: Base::First, sound: "room 15-3/4", wrong: "room 17-1/4" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        for opening in &case.openings {
            let OpeningKind::Drawer { slide: Some(index), .. } = opening.kind else { continue };
            let own = piece.slide(index).and_then(|own| Some((own, own.hardware()?)));
            let (Some((made, slide)), Some(front)) = (own, &opening.front) else { continue };
            let thick = piece.thickness(front.stock).length;
            let back = case
                .back
                .as_ref()
                .map(|back| piece.thickness(back.stock).length)
                .unwrap_or_default();
            // An inset front lies in the frame's plane; an overlay one before it.
            let room = case.deep.length - back - thick;
            // What starts far back may reach farther than its sheet's room.
            let reach = slide.behind_front.as_ref().map(|behind| behind + &slide.length);
            let reach = reach.filter(|reach| reach.length > slide.room.length);
            let start = slide.behind_front.as_ref().filter(|_| reach.is_some());
            let at = start.and_then(|behind| piece.facts.written(behind));
            let needs = reach.map_or(slide.room.length, |reach| reach.length);
            if needs <= room {
                continue;
            }
            let what = if front.set == Set::Inset { "inset front" } else { "front" };
            sink.push(
                RULE.finding(
                    format!(
                        "{} needs {} behind the front of {}, and there is {}",
                        made.name,
                        tape.figure(needs),
                        opening.path,
                        tape.figure(room)
                    ),
                    at.unwrap_or(slide.room_span),
                    tape.figure(start.map_or(needs, |behind| behind.length)),
                )
                .label(case.deep_span, tape.figure(case.deep.length))
                .label(opening.span, "this drawer")
                .sum(
                    Sum::new("leaves", room, tape)
                        .plus(case.deep.length, "deep", tape)
                        .minus(thick, what, tape)
                        .minus(back, "back", tape),
                )
                .sum(Sum::new("short by", needs - room, tape))
                .because("the drawer stands proud of the frame and won't close")
                .note("use a shorter slide, or make the case deeper")
                .subject(&opening.path)
                .urgency((needs - room) / Length::mm(1)),
            );
        }
    }
}
