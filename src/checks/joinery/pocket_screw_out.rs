//! A pocket screw that comes through the board it is driven into.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::JointKind;
use crate::parts::{FeatureKind, JointSort, Part, PartId};
use crate::plans::Workings;
use crate::plans::fitting::pockets_meet;
use crate::trade;

use super::pocket_screw_through::is_too_long;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pocket-screw-out",
    severity: Severity::Error,
    finds: "The point of a pocket screw comes through the board that it is driven into.",
    why: "The usual chart goes by the board that has the pockets, and is made for two boards of one thickness. A screw for 3/4 in stock pokes out of a 1/2 in end, and one for stock of 1 in or more out of a 3/4 in end, on the face that is seen.",
    source: "A lean of 15 degrees and a head that sits 4/5 of the thickness from the end, 3/5 in at least: so the screws of the usual chart stop about 1/8 in short in a board of the same thickness. Common practice, no source.",
    formula: "The length of the screw behind the end of its board, times the cosine of 15 degrees, against the thickness of the other board less 1/32 in.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "top { stretchers 2 { wide 4 }; joint pocket }",
        wrong: "top { stretchers 2 { wide 4 }; joint pocket { screw 1-1/2 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // A board is told of once, not at each of its ends.
    let mut told: Option<PartId> = None;
    for joint in &work.parts.joints {
        if joint.sort != JointSort::Wood(JointKind::Pocket) {
            continue;
        }
        let (Some(part), Some(into)) = (work.parts.get(joint.part), work.parts.get(joint.into))
        else {
            continue;
        };
        for feature in &part.features {
            let FeatureKind::Pockets(_, Some(screw)) = feature.kind else { continue };
            let thick = part.thickness.length;
            let is_told = is_too_long(Some(screw), thick, work.piece.tape().unit);
            if is_told || told == Some(joint.part) || !pockets_meet(part, feature, into) {
                continue;
            }
            let wood = into.cuboid().size(part.placement.length);
            if trade::pocket_reach(screw, thick) + Length::inches(1, 32) > wood {
                sink.push(found(work, (part, into), screw, wood));
                told = Some(joint.part);
            }
        }
    }
}

/// What is told of a screw that goes from one part into another, which is `wood` thick
/// there.
fn found(
    work: &Workings<'_>,
    (part, into): (&Part, &Part),
    screw: Length,
    wood: Length,
) -> Diagnostic {
    let piece = work.piece;
    let tape = piece.tape();
    let thick = part.thickness.length;
    let reach = trade::pocket_reach(screw, thick);
    let case = piece.case(part.case);
    let own = case.and_then(|case| super::screwed(case, part.span).next());
    let at = own.and_then(|own| own.screw_span.or(own.span)).unwrap_or(part.span);
    let over = reach - wood;
    let mut diagnostic = RULE
        .finding(
            format!(
                "a {} pocket screw comes through {}, which is {} thick",
                tape.figure_with_unit(screw),
                into.path,
                tape.figure(wood)
            ),
            at,
            format!("{} long", tape.figure(screw)),
        )
        .because(format!(
            "in a board {} thick its head sits about {} from the end, and the screw leans 15 degrees",
            tape.figure(thick),
            tape.figure(screw - reach * 30 / 29),
        ))
        .subject(&part.path)
        .urgency(over / Length::mm(1));
    if over.is_positive() {
        diagnostic = diagnostic.sum(
            Sum::new("stands out", over, tape).plus(reach, "behind the end", tape).minus(
                wood,
                into.word(),
                tape,
            ),
        );
    }
    if into.span != at {
        diagnostic = diagnostic.label(into.span, format!("{} thick", tape.figure(wood)));
    }
    let shorter = trade::pocket_screw_into(thick, wood, tape.unit).filter(|own| *own < screw);
    let Some(shorter) = shorter else {
        return diagnostic.note("the board is too thin for any pocket screw: join it another way");
    };
    let words = format!("screw {}", tape.source(shorter));
    let edit = own.and_then(|own| match (own.screw_span, own.span) {
        (Some(span), _) => Some((span, words.clone())),
        (None, Some(span)) => Some((span, format!("joint pocket {{ {words} }}"))),
        (None, None) => None,
    });
    match edit {
        Some((span, text)) => {
            diagnostic.fix(Fix::new(Grade::Choice, "take a shorter screw", span, text))
        }
        None => diagnostic.note(format!("write `joint pocket {{ {words} }}`")),
    }
}
