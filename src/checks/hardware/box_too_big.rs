//! A drawer box that does not go into its opening, or has no room inside.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span, Tape};
use crate::model::{Axis, Opening, OpeningKind, Piece, Runs, Size};
use crate::trade;

use super::swings::written;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "box-too-big",
    severity: Severity::Error,
    finds: "A drawer box is as wide or as high as its opening, higher than its slide lets it be, held so high that it comes to the upper edge, or it has no useful room inside.",
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

/// What a box needs in height, with what its back stays below its sides.
fn needs(least: Length, lower: Length, tape: &Tape) -> Sum {
    let sum = Sum::new("needs", least, tape);
    match lower.is_zero() {
        true => sum,
        false => sum.plus(lower, "back below sides", tape),
    }
}

/// A box that its slide holds so high that it comes to the upper edge of its opening.
fn too_high(
    piece: &Piece,
    opening: &Opening,
    (up, high): (&Size, Length),
    (tall, upward): (&Size, Span),
) -> Diagnostic {
    let tape = piece.tape();
    let span = piece.facts.written(up).unwrap_or(opening.span);
    let left = tall.length - high;
    let middle = tape.down(left.half());
    let mut found = RULE
        .finding(
            format!(
                "the box of {} is held {} up, and its opening is only {} higher than it",
                opening.path,
                tape.figure(up.length),
                tape.figure(left)
            ),
            span,
            format!("{} up", tape.figure(up.length)),
        )
        .subject(&opening.path)
        .label(upward, "the slide's height")
        .label(
            opening.size_spans[1].unwrap_or(opening.span),
            format!("opening {}", tape.text(tall.length)),
        )
        .because("the box strikes the upper edge of its opening")
        .sum(
            Sum::new("left over the box", left - up.length, tape)
                .plus(tall.length, "opening", tape)
                .minus(high, "box", tape)
                .minus(up.length, "box-up", tape),
        );
    if middle.is_positive() {
        found = found.fix(Fix::new(
            Grade::Choice,
            "set the box in the middle of what is left",
            span,
            format!("box-up {}", tape.source(middle)),
        ));
    }
    found.note("compare `box-up` and `box-high` with the slide's sheet: together they leave the room over the box")
}

/// The statement that an opening has its width from, as far as one says it: its own, or
/// that of the innermost list around it which does, so that a bank of drawers is told once;
/// the outermost list where none does.
fn width_at(piece: &Piece, opening: &Opening) -> Span {
    let mut at = opening;
    loop {
        match (at.size_spans[0], at.parent.and_then(|parent| piece.opening(parent))) {
            (Some(span), _) => return span,
            (None, Some(list)) if matches!(list.kind, OpeningKind::List(Axis::Down, _)) => {
                at = list;
            }
            (None, _) => return at.span,
        }
    }
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
            let Some(own) = piece.drawer_box(case, opening) else { continue };
            // The statements that say how wide and how high a box is.
            let (across, upward) = match &slide.runs {
                Runs::Hardware(slide) => (slide.box_width.rule().span, slide.box_high.span),
                Runs::Wooden(wooden) => {
                    (piece.facts.written(&wooden.play).unwrap_or(slide.span), slide.span)
                }
            };
            let wide = &opening.wide_for_slides();
            let tall = opening.as_built(Axis::Down);
            let (inside, outside) = (own.inside.length, own.outside.length);
            let error = |title: String, span, label: String| {
                RULE.finding(title, span, label).subject(&opening.path)
            };
            if outside >= wide.length {
                sink.push(
                    error(
                        format!("the box of {} is {} wide, and its opening is {}", opening.path, tape.figure(outside), tape.figure(wide.length)),
                        across,
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
                        match inside.is_positive() {
                            true => format!(
                                "the drawer of {} is only {} wide inside",
                                opening.path,
                                tape.figure(inside)
                            ),
                            false => {
                                format!("the slide leaves the drawer of {} no width", opening.path)
                            }
                        },
                        width_at(piece, opening),
                        format!("opening {}", tape.figure(wide.length)),
                    )
                    .label(across, "the slide's width")
                    .note("this is too narrow for the hardware; make the opening wider"),
                );
                continue;
            }
            let (most, high) = (own.most.length, own.high.length);
            let on_wood = slide.wooden().is_some();
            let bottom = piece.thickness(boxes.bottom_stock).length;
            let lower = match on_wood {
                true => trade::back_below_sides(tape.unit),
                false => Length::ZERO,
            };
            let least = boxes.groove_up.length + bottom + Length::inches(1, 1) + lower;
            let own = opening.box_high().and_then(|own| written(piece, own));
            // What is higher than the damp lets it be on wood is another rule's.
            if let Some(span) = own.filter(|_| high > most && !on_wood) {
                let down = tape.down(most);
                let title = format!(
                    "the box of {} is {} high, and its slide lets it be {}",
                    opening.path,
                    tape.figure(high),
                    tape.figure(down)
                );
                let label = format!("box {}", tape.figure(high));
                let mut found = error(title, span, label);
                if least <= down {
                    found = found.fix(Fix::new(
                        Grade::Choice,
                        "make it as high as the slide lets it be",
                        span,
                        format!("high {}", tape.source(down)),
                    ));
                }
                sink.push(
                    found
                        .label(upward, "the slide's height")
                        .label(
                            opening.size_spans[1].unwrap_or(opening.span),
                            format!("opening {}", tape.text(tall.length)),
                        )
                        .sum(Sum::new("over by", high - most, tape)),
                );
                continue;
            }
            let raised = slide.hardware().and_then(|slide| slide.box_up.as_ref());
            let is_too_high =
                |up: &&Size| high >= least && high < tall.length && up.length + high >= tall.length;
            if let Some(up) = raised.filter(is_too_high) {
                sink.push(too_high(piece, opening, (up, high), (tall, upward)));
                continue;
            }
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
                    error(title, own.unwrap_or(upward), format!("box {}", tape.figure(high)))
                        .label(
                            opening.size_spans[1].unwrap_or(opening.span),
                            format!("opening {}", tape.figure(tall.length)),
                        )
                        .sum(
                            needs(least, lower, tape)
                                .plus(boxes.groove_up.length, "groove", tape)
                                .plus(bottom, "bottom", tape)
                                .plus(Length::inches(1, 1), "side above it", tape),
                        ),
                );
            }
        }
    }
}
