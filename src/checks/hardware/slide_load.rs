//! A drawer heavier than its slide carries.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Figure, Severity, Sink, Sum};
use crate::measure::{Mass, Scale};
use crate::model::{OpeningKind, Slide};
use crate::plans::Workings;
use crate::plans::drawers;
use crate::plans::weights::Lifted;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-load",
    severity: Severity::Warning,
    finds: "A drawer weighs more than its slide carries. Its weight includes its front and what it holds.",
    why: "An overloaded slide sags at full extension, wears out its balls, and lets the drawer fall.",
    source: "The slide maker's own `load`, as given in the spec. Contents: 15 lb per square foot of drawer (ANSI/KCMA A161.1), or the drawers' `load`.",
    formula: "Box + front + load × inside width × inside depth, compared with the slide's load.",
    accept: "Accept it if the drawer holds light things, whatever its size. A smaller `load` says so better.",
    example: Example { base: Base::Console, sound: "load       75 lb", wrong: "load       25 lb" },
    check: Check::Parts(check),
    sometimes: None,
};

/// The most that a pair of slides carries, where its sheet says so.
fn rating(slide: &Slide) -> Option<Mass> {
    slide.hardware()?.load
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let rated = piece.slides.iter().any(|slide| rating(slide).is_some());
    if !rated {
        return;
    }
    let weights = work.weights();
    let scale = Scale::of(piece.tape());
    for case in &piece.cases {
        for opening in &case.openings {
            let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { continue };
            let Some(slide) = piece.slide(slide) else { continue };
            let Some(most) = rating(slide) else { continue };
            let own = weights.of(&Lifted::Drawer(opening.id)).mass();
            let holds = drawers::contents(piece, case, opening);
            let full = Mass(own.0 + holds.0);
            if full <= most {
                continue;
            }
            let (each, sum) = scale.spread(&[own, holds]);
            let mut terms = each.into_iter();
            let mut next = || Figure::told(terms.next().unwrap_or_default());
            let mut diagnostic = RULE
                .finding(
                    format!(
                        "{} weighs {sum} when it is full, and {} carries {}",
                        opening.path,
                        slide.name,
                        scale.text(most)
                    ),
                    slide.span,
                    format!("carries {}", scale.text(most)),
                )
                .label(opening.span, format!("{sum} full"))
                .sum(
                    Sum::told("weighs", &*sum).and(next(), "box and front").and(next(), "contents"),
                )
                .sum(Sum::told("over by", scale.over(full, most)))
                .because("an overloaded slide sags at full extension and lets the drawer fall")
                .subject(&opening.path)
                .urgency(full.0 - most.0);
            let carries = drawers::load(case, opening);
            diagnostic = match carries.and_then(|carries| carries.written) {
                Some(span) => diagnostic.label(span, "what it holds"),
                None => diagnostic.note(match piece.tape().unit.is_metric() {
                    true => "the drawer is taken to hold 73 kg per square meter (15 lb per square foot, ANSI/KCMA A161.1); give another figure with `load`",
                    false => "the drawer is taken to hold 15 lb per square foot (ANSI/KCMA A161.1); give another figure with `load`",
                }),
            };
            let stronger =
                piece.slides.iter().find(|slide| rating(slide).is_some_and(|l| l >= full));
            diagnostic = match stronger {
                Some(slide) => {
                    diagnostic.note(format!("the slide `{}` of this spec carries it", slide.name))
                }
                None => diagnostic.note("use a slide that carries more, or make two drawers of it"),
            };
            sink.push(diagnostic);
        }
    }
}
