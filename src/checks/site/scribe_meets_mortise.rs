//! A scribe that reaches the mortises of its stile.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Case, Exposure, Frame, Seam, Side};
use crate::parts::{Feature, FeatureKind, Part, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "scribe-meets-mortise",
    severity: Severity::Warning,
    finds: "The scribe of a stile may take it down past the bottom of its mortises or dowel holes.",
    why: "Where the wall asks for all of the scribe, the plane cuts into the joints from behind, and the rails are left with less than the tenons that hold them.",
    source: "Plane geometry.",
    formula: "The width of the stile less the scribe is at least the depth of its mortises.",
    accept: "Accept it where the wall is known to need less than the whole scribe.",
    example: Example {
        base: Base::Wardrobe,
        sound: "right wall { scribe 15 mm }",
        wrong: "right wall { scribe 40 mm }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for case in &work.piece.cases {
        let Some(frame) = &case.frame else { continue };
        for side in Side::BOTH {
            at_side(work, (case, frame), side, sink);
        }
    }
}

/// Cut into the inner edge, which a rail meets.
fn takes_a_rail(feature: &&Feature) -> bool {
    !feature.face.is_broad()
        && matches!(feature.kind, FeatureKind::Mortise | FeatureKind::Dowels(..))
}

fn at_side(work: &Workings<'_>, (case, frame): (&Case, &Frame), side: Side, sink: &mut Sink) {
    let tape = work.piece.tape();
    let Exposure::Wall { scribe } = side.of(&case.exposure) else { return };
    let stile = side.of(&frame.stiles);
    // A mitered stile is not scribed: that has a rule of its own.
    if side.of(&case.ends).seam == Seam::Miter {
        return;
    }
    let is_it = |part: &&Part| part.span == stile.span && part.role == Role::Stile;
    let Some(part) = work.parts.of_case(case.id).iter().find(is_it) else { return };
    let joints = part.features.iter().filter(takes_a_rail);
    let Some(joint) = joints.max_by_key(|own| own.deep) else { return };
    let left = stile.wide.length - scribe.length - joint.deep;
    if !left.is_negative() {
        return;
    }
    let word = joint.kind.word();
    let written = work.piece.facts.written(scribe);
    let mut found = RULE
        .finding(
            format!("the scribe of {} may reach the {word} behind it", part.path),
            written.unwrap_or(case.span),
            format!("scribe {}", tape.figure(scribe.length)),
        )
        .label(stile.span, format!("stile {} wide", tape.figure(stile.wide.length)))
        .label(joint.span, format!("{word} {} deep", tape.figure(joint.deep)))
        .sum(
            Sum::new("left", left, tape)
                .plus(stile.wide.length, "stile", tape)
                .minus(scribe.length, "scribe", tape)
                .minus(joint.deep, word, tape),
        )
        .because("the plane would cut into the joint from behind")
        .note(format!(
            "make the stile {} wider, or its joints shorter",
            tape.figure(tape.up(-left))
        ))
        .subject(&part.path);
    let most = tape.down(scribe.length + left);
    if let Some(at) = written.filter(|_| most > Length::ZERO) {
        let statement = format!("scribe {}", tape.source(most));
        found =
            found.fix(Fix::new(Grade::Choice, "the most that keeps clear of it", at, statement));
    }
    sink.push(found);
}
