//! A hinge cup that breaks through the door.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span};
use crate::model::{Build, Piece};
use crate::parts::{Assembly, Bore, Feature, FeatureKind, Part};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cup-web",
    severity: Severity::Error,
    finds: "A hinge cup leaves less than 2 mm of wood in front of it, or it breaks into a groove or the door's edge. Where the cup lies behind a flute, the wood is measured to the bottom of the flute.",
    why: "With less than 2 mm, the bit's point or the pressure of the cup shows on the front face or breaks through it.",
    source: "Common practice: hinge makers ask for 2 to 3 mm.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "bore 12.5 mm;", wrong: "bore 17.5 mm;" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let least = Length::mm(2);
    for part in &parts.all {
        let mut once = Once::default();
        for cup in part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Cup)) {
            // Nearest wood-eater in front of the cup: the deepest flute it lies behind.
            let flute = part
                .features
                .iter()
                .filter(|f| matches!(f.kind, FeatureKind::Flute(_)) && overlap(cup, f))
                .max_by_key(|f| f.deep);
            let front = flute.map_or(Length::ZERO, |flute| flute.deep);
            let web = part.thickness.length - cup.deep - front;
            if web < least && once.is_first(cup.span) {
                let mut sum = Sum::new("leaves", web, tape)
                    .plus(part.thickness.length, "door", tape)
                    .minus(cup.deep, "cup", tape);
                let mut diagnostic = RULE
                    .finding(
                        format!(
                            "the hinge cup leaves {} of wood in the face of {}",
                            tape.figure(web),
                            part.path
                        ),
                        cup.span,
                        format!("cup {} deep", tape.source(cup.deep)),
                    )
                    .because(
                        "with less than 2 mm, the cup shows on the front face or breaks through",
                    )
                    .subject(&part.path);
                if let Some(flute) = flute {
                    sum = sum.minus(flute.deep, "flute", tape);
                    diagnostic = diagnostic.label(flute.span, format!("flute {} deep", tape.figure(flute.deep)))
                        .note("leave the flutes off this door, make them shallower, or use a thicker door");
                }
                if let Some(stock) = piece.stock(part.stock) {
                    diagnostic = diagnostic.label(
                        stock.thickness_span,
                        format!("{} thick", tape.figure(stock.thickness.length)),
                    );
                }
                sink.push(diagnostic.sum(sum));
            }
            edge(piece, part, cup, &mut once, sink);
        }
    }
}

/// The cup must lie within the part and clear of the panel's groove.
fn edge(piece: &Piece, part: &Part, cup: &Feature, once: &mut Once<Span>, sink: &mut Sink) {
    let tape = piece.tape();
    let grooved = part.features.iter().filter(|f| {
        f.kind == FeatureKind::Groove
            && matches!(f.face, crate::parts::Face::WidthStart | crate::parts::Face::WidthEnd)
    });
    let (mut from, mut to) = (Length::ZERO, part.width.length);
    let mut cause = None;
    for groove in grooved {
        if groove.face == crate::parts::Face::WidthStart {
            from = groove.deep;
        } else {
            to -= groove.deep;
        }
        cause = Some(groove.span);
    }
    let over = (from - cup.v.0).max(cup.v.1 - to);
    if !over.is_positive() || !once.is_first(cup.span) {
        return;
    }
    let what = if cause.is_some() { "the panel's groove" } else { "the edge" };
    let title = format!("the hinge cup breaks into {what} of {} by {}", part.path, tape.text(over));
    let across = format!("cup {} across", tape.source(cup.v.1 - cup.v.0));
    let wide = format!("{} wide", tape.figure(part.width.length));
    // A groove deeper than most is the cause where a usual one would do.
    let usual = tape.unit.either(Length::inches(3, 8), Length::mm(9));
    let deep = groove_said(piece, part).filter(|(deep, _)| *deep > usual && usual <= *deep - over);
    if let Some((deep, at)) = deep {
        let text = format!("groove {}", tape.source(usual));
        let found = RULE
            .finding(title, at, format!("{} deep", tape.figure(deep)))
            .label(cup.span, across)
            .label(part.span, wide)
            .fix(Fix::new(Grade::Choice, "as deep as most grooves are", at, text))
            .note("you can also make the door's stile wider")
            .subject(&part.path);
        sink.push(found);
        return;
    }
    let mut diagnostic = RULE
        .finding(title, cup.span, across)
        .label(part.span, wide)
        .note("make the door's stile wider, or use a hinge with a smaller cup")
        .subject(&part.path);
    if let Some(span) = cause.filter(|span| *span != part.span) {
        diagnostic = diagnostic.label(span, "groove");
    }
    sink.push(diagnostic);
}

/// How deep the grooves of a framed door are, and the statement that says so.
fn groove_said(piece: &Piece, part: &Part) -> Option<(Length, Span)> {
    let Assembly::Front(front) = part.assembly else { return None };
    match &piece.opening(front.opening)?.front.as_ref()?.build {
        Build::Slab => None,
        Build::Panel(own) => Some((own.groove.length, piece.facts.written(&own.groove)?)),
    }
}

fn overlap(a: &Feature, b: &Feature) -> bool {
    a.u.0 < b.u.1 && b.u.0 < a.u.1 && a.v.0 < b.v.1 && b.v.0 < a.v.1
}
