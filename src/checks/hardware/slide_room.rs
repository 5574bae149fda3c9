//! A slide longer than the room behind the front.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Case, Hardware, Opening, OpeningKind, Piece, Set};
use crate::parts;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-room",
    severity: Severity::Error,
    finds: "A drawer slide needs more depth than there is from the back of the front to the inside of the case's back.",
    why: "An inset front takes its own thickness out of the depth, and so do the doors before a tray. The drawer then stands proud of the frame and won't close.",
    source: "The slide maker's own figure, as given in the spec.",
    formula: "The slide needs the room that its sheet gives, or its length and what its sheet asks behind the front, whichever is more.",
    accept: "",
    example: Example { base: Base::First, sound: "room 15-3/4", wrong: "room 17-1/4" },
    check: Check::Piece(check),
    sometimes: None,
};

/// What a drawer and its slide can't have of the depth of their case.
struct Ahead {
    over: Length,
    inset: Length,
    behind: Length,
    back: Length,
}

impl Ahead {
    /// An overlay front lies before the frame's plane, an inset one in it, and what stands
    /// behind doors behind them.
    fn of(piece: &Piece, case: &Case, opening: &Opening) -> Self {
        let inset = match &opening.front {
            Some(front) if front.set == Set::Inset => piece.thickness(front.stock).length,
            Some(_) | None => Length::ZERO,
        };
        let back = case.back.as_ref().map(|back| piece.thickness(back.stock).length);
        Self {
            over: parts::planes(piece, case).frame.length,
            inset,
            behind: piece.behind_doors(case, opening).length,
            back: back.unwrap_or_default(),
        }
    }
}

/// How far a slide reaches behind the front where that is more than its sheet's room.
fn reach(slide: &Hardware) -> Option<Length> {
    let reach = slide.behind_front.as_ref().map(|behind| behind.length + slide.length.length);
    reach.filter(|reach| *reach > slide.room.length)
}

/// How much farther back the slide of a drawer could start.
pub(super) fn spare(piece: &Piece, case: &Case, opening: &Opening, slide: &Hardware) -> Length {
    let Ahead { over, inset, behind, back } = Ahead::of(piece, case, opening);
    let room = case.deep.length - back - over - inset - behind;
    room - reach(slide).unwrap_or(slide.room.length)
}

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        for opening in &case.openings {
            let OpeningKind::Drawer { slide: Some(index), .. } = opening.kind else { continue };
            let own = piece.slide(index).and_then(|own| Some((own, own.hardware()?)));
            let Some((made, slide)) = own else { continue };
            let Ahead { over, inset, behind, back } = Ahead::of(piece, case, opening);
            let room = case.deep.length - back - over - inset - behind;
            // What starts far back may reach farther than its sheet's room.
            let reach = reach(slide);
            let start = slide.behind_front.as_ref().filter(|_| reach.is_some());
            let at = start.and_then(|behind| piece.facts.written(behind));
            let needs = reach.unwrap_or(slide.room.length);
            if needs <= room {
                continue;
            }
            let is_tray = opening.is_tray();
            let what = if is_tray { "tray" } else { "drawer" };
            let leaves = Sum::new("leaves", room, tape).plus(case.deep.length, "deep", tape);
            let ahead = [(over, "front"), (behind, "to the front of what is behind the doors")];
            let ahead = ahead.into_iter().chain([(inset, "inset front"), (back, "back")]);
            let leaves = ahead
                .filter(|(length, _)| length.is_positive())
                .fold(leaves, |sum, (length, what)| sum.minus(length, what, tape));
            let place = if is_tray { "the doors before" } else { "the front of" };
            sink.push(
                RULE.finding(
                    format!(
                        "{} needs {} behind {place} {}, and there is {}",
                        made.name,
                        tape.figure(needs),
                        opening.path,
                        tape.figure(room)
                    ),
                    at.unwrap_or(slide.room_span),
                    tape.figure(start.map_or(needs, |behind| behind.length)),
                )
                .label(case.deep_span, tape.figure(case.deep.length))
                .label(opening.span, format!("this {what}"))
                .sum(leaves)
                .sum(Sum::new("short by", needs - room, tape))
                .because(match behind.is_positive() {
                    true => "it stands in the way of the doors, and they won't close",
                    false => "the drawer stands proud of the frame and won't close",
                })
                .note("use a shorter slide, or make the case deeper")
                .subject(&opening.path)
                .urgency((needs - room) / Length::mm(1)),
            );
        }
    }
}
