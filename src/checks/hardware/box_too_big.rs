//! A drawer box that does not go into its opening, or has no room inside.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Axis, OpeningKind, Piece};

use super::swings::written;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "box-too-big",
    severity: Severity::Error,
    finds: "A drawer box is as wide or as high as its opening, higher than its slide lets it be, or it has no useful room inside.",
    why: "The slide's figures, the thickness of the drawer sides, and the opening don't go together. The box won't go in, or it holds nothing.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "box-inside opening - 1-5/8;",
        wrong: "box-inside opening - 1;",
    },
    check: Check::Piece(check),
    sometimes: None,
};

/// The openings whose boxes have been reported: what else is wrong with such a
/// box follows from that.
pub(in crate::checks) fn told(sink: &Sink) -> BTreeSet<String> {
    let boxes = sink.all().iter().filter(|found| found.slug == RULE.slug);
    boxes.filter_map(|found| found.subject.clone()).collect()
}

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(boxes) = &case.drawers else { continue };
        let side = piece.thickness(boxes.stock).length;
        let side_span = piece.stock(boxes.stock).map_or(boxes.span, |stock| stock.thickness_span);
        for opening in &case.openings {
            let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { continue };
            let Some(slide) = piece.slide(slide) else { continue };
            let rule = slide.box_width.rule();
            let wide = &opening.wide_for_slides();
            let tall = opening.as_built(Axis::Down);
            let (inside, outside) =
                slide.box_width.inside_and_outside(wide, &piece.thickness(boxes.stock));
            let (inside, outside) = (inside.length, outside.length);
            let error = |title: String, span, label: String| {
                RULE.finding(title, span, label).subject(&opening.path)
            };
            if outside >= wide.length {
                sink.push(
                    error(
                        format!("the box of {} is {} wide, and its opening is {}", opening.path, tape.figure(outside), tape.figure(wide.length)),
                        rule.span,
                        format!("inside {}", tape.figure(inside)),
                    )
                    .label(side_span, format!("sides {}", tape.figure(side)))
                    .label(opening.span, format!("opening {}", tape.figure(wide.length)))
                    .sum(Sum::new("box", outside, tape).plus(inside, "inside", tape).plus(side.twice(), "two sides", tape))
                    .sum(Sum::new("over by", outside - wide.length, tape))
                    .note("use thinner sides to make the box narrower overall, or check the slide maker's own sheet"),
                );
                continue;
            }
            // A hand is about 4 in wide (from memory); less is no drawer.
            if inside < Length::inches(4, 1) {
                sink.push(
                    error(
                        format!(
                            "the drawer of {} is only {} wide inside",
                            opening.path,
                            tape.figure(inside)
                        ),
                        opening.size_spans[0].unwrap_or(opening.span),
                        format!("opening {}", tape.figure(wide.length)),
                    )
                    .label(rule.span, "the slide's width")
                    .note("this is too narrow for the hardware; make the opening wider"),
                );
                continue;
            }
            let most = slide.box_high.size(tall).length;
            let high = opening.box_high().map_or(most, |own| own.length);
            let own = opening.box_high().and_then(|own| written(piece, own));
            if let Some(span) = own.filter(|_| high > most) {
                let title = format!(
                    "the box of {} is {} high, and its slide lets it be {}",
                    opening.path,
                    tape.figure(high),
                    tape.figure(tape.down(most))
                );
                let label = format!("box {}", tape.figure(high));
                sink.push(
                    error(title, span, label)
                        .label(slide.box_high.span, "the slide's height")
                        .label(
                            opening.size_spans[1].unwrap_or(opening.span),
                            format!("opening {}", tape.text(tall.length)),
                        )
                        .sum(Sum::new("over by", high - most, tape)),
                );
                continue;
            }
            let bottom = piece.thickness(boxes.bottom_stock).length;
            let least = boxes.groove_up.length + bottom + Length::inches(1, 1);
            if high >= tall.length || high < least {
                let title = if high < least {
                    format!(
                        "the box of {} is {} high, which leaves nothing above its bottom",
                        opening.path,
                        tape.figure(high)
                    )
                } else {
                    format!(
                        "the box of {} is {} high, and its opening is {}",
                        opening.path,
                        tape.figure(high),
                        tape.figure(tall.length)
                    )
                };
                sink.push(
                    error(
                        title,
                        own.unwrap_or(slide.box_high.span),
                        format!("box {}", tape.figure(high)),
                    )
                    .label(
                        opening.size_spans[1].unwrap_or(opening.span),
                        format!("opening {}", tape.figure(tall.length)),
                    )
                    .sum(
                        Sum::new("needs", least, tape)
                            .plus(boxes.groove_up.length, "groove", tape)
                            .plus(bottom, "bottom", tape)
                            .plus(Length::inches(1, 1), "side above it", tape),
                    ),
                );
            }
        }
    }
}
