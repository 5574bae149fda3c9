//! A dado deeper than half of the board it is cut into, or a rabbet that goes through it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Unit};
use crate::parts::FeatureKind;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "dado-too-deep",
    severity: Severity::Error,
    finds: "A dado or groove is deeper than half the thickness of its board, or a rabbet at its end goes right through it.",
    why: "The wood left behind the dado is thinner than the dado is deep. The board breaks there when the case is lifted or racked. A rabbet that goes through cuts the end off.",
    source: "Common practice; no published source: a third of the thickness is usual, and half is the most.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "bottom { joint dado { deep 1/4 } }",
        wrong: "bottom { joint dado { deep 7/16 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The depth nearest to a third of the thickness that a router is set to: a whole eighth of
/// an inch, in a thin board a sixteenth; a whole millimeter (common practice, no source).
/// `None` in a board too thin for any.
fn usual(thick: Length, unit: Unit) -> Option<Length> {
    let steps = match unit.is_metric() {
        true => [Length::mm(1), Length::mm(1) / 2],
        false => [Length::inches(1, 8), Length::inches(1, 16)],
    };
    let nearest = |step: Length| step * (thick / 3 / step).round();
    let mut depths = steps.into_iter().map(nearest);
    depths.find(|own| own.is_positive() && *own * 5 <= thick.twice())
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for part in &parts.all {
        let thick = part.thickness.length;
        // An edge groove has the width of its board to lean on. The rabbet for a back, which
        // takes no board of its own, is judged by what it leaves beside that.
        let broad = part.features.iter().filter(|feature| {
            let is_too_deep = match feature.kind {
                FeatureKind::Dado | FeatureKind::Groove => feature.deep > thick.half(),
                FeatureKind::Rabbet => feature.takes.is_some() && feature.deep >= thick,
                _ => false,
            };
            is_too_deep && feature.face.is_broad()
        });
        for feature in broad {
            let left = thick - feature.deep;
            let stock = piece.stock(part.stock);
            let at = feature.deep_at.unwrap_or(feature.span);
            let word = feature.kind.word();
            let mut diagnostic = RULE
                .finding(
                    match left.is_positive() {
                        true => format!(
                            "a {word} {} deep leaves only {} of the thickness of {}",
                            tape.figure(feature.deep),
                            tape.figure(left),
                            part.path
                        ),
                        false => format!(
                            "a {word} {} deep goes right through {}, which is {} thick",
                            tape.figure(feature.deep),
                            part.path,
                            tape.figure(thick)
                        ),
                    },
                    at,
                    format!("{} deep", tape.figure(feature.deep)),
                )
                .sum(Sum::new("leaves", left, tape).plus(thick, part.word(), tape).minus(
                    feature.deep,
                    word,
                    tape,
                ))
                .because(match feature.kind {
                    FeatureKind::Rabbet => "it cuts the end of the board off".to_owned(),
                    _ => format!("the board breaks at a {word} deeper than half its thickness"),
                })
                .subject(&part.path);
            if let Some(stock) = stock {
                diagnostic = diagnostic.label(stock.thickness_span, tape.figure(thick));
            }
            if let Some((at, usual)) = feature.deep_at.zip(usual(thick, tape.unit)) {
                diagnostic = diagnostic.fix(Fix::new(
                    Grade::Choice,
                    "about a third, as is usual",
                    at,
                    format!("deep {}", tape.source(usual)),
                ));
            }
            sink.push(diagnostic);
        }
    }
}
