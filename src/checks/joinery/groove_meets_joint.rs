//! A groove for a drawer bottom that breaks into the slide's notch or the edge.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{OpeningKind, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "groove-meets-joint",
    severity: Severity::Error,
    finds: "The groove of a drawer bottom lies lower than the top of the notch that the slide needs, or it leaves less than 3/16 in of wood under it.",
    why: "The runner passes under the bottom. Where the groove lies below the top of the notch, the runner hits the bottom, or the notch cuts the groove open.",
    source: "Plane geometry. The least wood under a groove is common practice; no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "groove { up 13 mm; deep 1/4 }",
        wrong: "groove { up 9 mm; deep 1/4 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(boxes) = &case.drawers else { continue };
        let up = boxes.groove_up.length;
        let drawer = case.openings.iter().find_map(|o| match o.kind {
            OpeningKind::Drawer { slide: Some(slide), .. } => {
                piece.slide(slide).map(|slide| (o, slide))
            }
            _ => None,
        });
        let Some((opening, slide)) = drawer else { continue };
        let hardware = slide.hardware().filter(|own| own.undermount);
        let notch = hardware.and_then(|own| own.notch).map_or(Length::ZERO, |(_, high)| high);
        let least = notch.max(Length::inches(3, 16));
        if up >= least {
            continue;
        }
        let mut diagnostic = RULE
            .finding(
                if up < notch {
                    format!(
                        "the groove is {} up, and the slide's notch is {} high",
                        tape.figure(up),
                        tape.figure(notch)
                    )
                } else {
                    format!("only {} of wood is left under the groove", tape.figure(up))
                },
                boxes.groove_up_span.unwrap_or(boxes.groove_span),
                format!("{} up", tape.figure(up)),
            )
            .sum(Sum::new("short by", least - up, tape).plus(least, "needed", tape).minus(
                up,
                "groove up",
                tape,
            ))
            .because("the runner passes under the drawer's bottom")
            .subject(&opening.path);
        if up < notch {
            diagnostic = diagnostic.label(slide.span, format!("notch {} high", tape.figure(notch)));
        }
        let raised = format!("up {}", tape.source(least));
        sink.push(match boxes.groove_up_span {
            Some(span) => diagnostic.fix(Fix::new(
                Grade::Choice,
                format!("raise the groove to {}", tape.figure(least)),
                span,
                raised,
            )),
            None => diagnostic.note(format!("write `{raised}` in the `groove` of the drawers")),
        });
    }
}
