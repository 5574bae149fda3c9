//! A frame member too narrow for its joint.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span};
use crate::model::{Frame, JointKind, Piece};
use crate::parts::{Feature, FeatureKind, Of, Part, Role};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "member-too-narrow",
    severity: Severity::Error,
    finds: "A stile or rail of a face frame, or a stile of a front, is too narrow for its joint. Pocket screws need a rail 1 in wide, and a stile must be wide enough that its own tenons don't come through it.",
    why: "Two pocket screws need an inch of rail, or its end splits. A mortise is cut a little deeper than its tenon is long, and 3/16 in or 5 mm of stile must be left behind it. The miter of a stile that wraps a corner comes nearer to it than the edge.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "rail { wide 1-1/2 }",
        wrong: "rail { wide 3/4 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let mut fronts = BTreeSet::new();
    for part in &parts.all {
        if part.role == Role::FrontStile {
            // The stiles of all leaves are alike.
            let told = part.opening().filter(|opening| fronts.insert(*opening));
            if told.is_some() {
                front(piece, part, sink);
            }
            continue;
        }
        let is_rail = part.role == Role::Rail;
        if !is_rail && part.role != Role::Stile {
            continue;
        }
        let frame = piece.case(part.case).and_then(|case| case.frame.as_ref());
        let Some(frame) = frame else { continue };
        // An outer stile takes joints; it has no end that is fastened.
        let fastened = matches!(part.of, Of::Member(_)) || is_rail;
        match frame.joint.kind {
            JointKind::Pocket => {
                if fastened {
                    least(piece, part, frame, Length::inches(1, 1), "for two pocket screws", sink);
                }
            }
            JointKind::Tenon => {
                if let Some((wide, what)) = mortised(piece, part) {
                    least(piece, part, frame, wide, &what, sink);
                }
            }
            JointKind::Dado
            | JointKind::Rabbet
            | JointKind::Screw
            | JointKind::Dowel
            | JointKind::Dovetail
            | JointKind::Butt => {}
        }
    }
}

/// How wide a stile must be for its mortises, and what for.
fn mortised(piece: &Piece, part: &Part) -> Option<(Length, String)> {
    let unit = piece.tape().unit;
    let behind = trade::behind_mortise(unit);
    // One that leaves no cheek is told of by itself.
    let has_cheeks = |own: &&Feature| {
        part.thickness.length - (own.v.1 - own.v.0) >= trade::least_wall(unit).twice()
    };
    let mortises = part.features.iter().filter(|f| f.kind == FeatureKind::Mortise);
    // A mitered edge comes nearest to the cheek that lies farthest back.
    let takes = mortises
        .filter(has_cheeks)
        .map(|own| (part.width.length - part.depth_at(own.face, own.v), own.deep))
        .max_by_key(|(miter, deep)| *miter + *deep);
    let (miter, deep) = takes?;
    let figure = piece.tape().figure(behind);
    let what = match miter.is_zero() {
        true => format!("for the mortise and {figure} behind it"),
        false => format!("for the mortise and {figure} between it and the miter"),
    };
    Some((miter + deep + behind, what))
}

/// A stile of a front whose rails have tenons in mortises.
fn front(piece: &Piece, part: &Part, sink: &mut Sink) {
    let Some((needed, what)) = mortised(piece, part) else { return };
    let wide = part.width.length;
    if wide >= needed {
        return;
    }
    let tape = piece.tape();
    let at = piece.facts.written(&part.width).unwrap_or(part.span);
    sink.push(told(piece, part, needed, &what, at).fix(Fix::new(
        Grade::Choice,
        format!("make it {} wide", tape.figure(needed)),
        at,
        format!("stile {}", tape.source(needed)),
    )));
}

fn told(piece: &Piece, part: &Part, needed: Length, what: &str, at: Span) -> Diagnostic {
    let (tape, wide) = (piece.tape(), part.width.length);
    RULE.finding(
        format!("{} is {} wide, which is too narrow {what}", part.path, tape.figure(wide)),
        at,
        tape.figure(wide),
    )
    .sum(
        Sum::new("short by", needed - wide, tape)
            .plus(needed, "needed", tape)
            .minus(wide, "wide", tape),
    )
    .subject(&part.path)
}

fn least(piece: &Piece, part: &Part, frame: &Frame, least: Length, what: &str, sink: &mut Sink) {
    if part.width.length >= least {
        return;
    }
    let tape = piece.tape();
    let at = piece.facts.written(&part.width).unwrap_or(part.span);
    sink.push(
        told(piece, part, least, what, at)
            .label(frame.joint.span.unwrap_or(frame.span), frame.joint.kind.word())
            .fix(Fix::new(
                Grade::Choice,
                format!("make it {} wide", tape.figure(least)),
                at,
                format!("wide {}", tape.source(least)),
            )),
    );
}
