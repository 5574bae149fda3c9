//! A slide that is set at a height where its box is not.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{Axis, OpeningKind, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-off-box",
    severity: Severity::Error,
    finds: "The height that is written for a slide puts its lower edge below or above the sides of its box, or it puts an undermount slide above the underside of the drawer's bottom.",
    why: "A side-mount slide is screwed to the side of the box, and an undermount slide runs under its bottom. At another height there is nothing to screw to, or the box stands in the way.",
    source: "Plane geometry. A box stands as high as its slide says with `box-up`, else in the middle of the height of its opening.",
    formula: "The box starts at `box-up`, or at half of what its opening is higher than the box. A side-mount slide lies between there and the box's upper edge, and an undermount slide no higher than the groove for the bottom.",
    accept: "",
    example: Example { base: Base::Alcove, sound: "up           96", wrong: "up           5" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(boxes) = &case.drawers else { continue };
        for opening in &case.openings {
            let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { continue };
            let own = piece.slide(slide).and_then(|own| Some((own, own.hardware()?)));
            let Some((made, slide)) = own else { continue };
            let Some(up) = &slide.up else { continue };
            let high = opening.as_built(Axis::Down);
            let own = slide.box_high.size(high).length;
            let foot = slide.box_up.as_ref().map_or((high.length - own).half(), |up| up.length);
            let (least, most, what) = match slide.undermount {
                true => {
                    (Length::ZERO, foot + boxes.groove_up.length, "the underside of its bottom")
                }
                false => (foot, foot + own, "the upper edge of its box"),
            };
            if least <= up.length && up.length < most {
                continue;
            }
            let title = format!(
                "{} is set {} above the lower edge of {}, where its box is not",
                made.name,
                tape.figure(up.length),
                opening.path
            );
            let span = piece.facts.written(up).unwrap_or(made.span);
            sink.push(
                RULE.finding(title, span, tape.figure(up.length))
                    .label(opening.span, "this drawer")
                    .because("there is nothing to screw the slide to, or the box stands in the way")
                    .note(format!(
                        "the box of {} starts at {}, and {what} is at {}",
                        opening.path,
                        tape.figure(foot),
                        tape.figure(most)
                    ))
                    .subject(&opening.path),
            );
        }
    }
}
