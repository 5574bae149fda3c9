//! A frame member too narrow for its joint.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span};
use crate::model::{Build, Frame, JointKind, Piece};
use crate::parts::{Cuboid, Direction, Face, Feature, FeatureKind, Of, Part, Role};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "member-too-narrow",
    severity: Severity::Error,
    finds: "A stile or rail of a face frame, or a stile of a front, is too narrow for its joint. Pocket screws need a rail 1 in wide, and a stile must be wide enough that its own tenons don't come through it, and that tenons from both its edges don't meet in it.",
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
    let mut posts = BTreeSet::new();
    for part in &parts.all {
        if let Role::Post(_) = part.role {
            // All posts of a case take the same tenons.
            let frame = piece.case(part.case).and_then(|case| case.frame.as_ref());
            if let (Some(frame), Some(taken)) = (frame, cut_through(piece, part))
                && posts.insert(part.case)
            {
                sink.push(too_long(piece, part, frame, taken));
            }
            continue;
        }
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
            JointKind::Tenon => match (cut_through(piece, part), mortised(piece, part)) {
                (Some(taken), _) => sink.push(too_long(piece, part, frame, taken)),
                (None, Some((wide, what))) => least(piece, part, frame, wide, &what, sink),
                (None, None) => {}
            },
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

/// What mortises take of the width of a board that they cut through: two that meet, or
/// one that comes out at the far edge. A wall of less than a tape can tell is none.
fn cut_through(piece: &Piece, part: &Part) -> Option<(Length, i64)> {
    let none = piece.tape().mark.half() + trade::mating();
    let across = part.placement.width;
    let all: Vec<(&Feature, Cuboid)> = part
        .features
        .iter()
        .filter(|own| own.kind == FeatureKind::Mortise)
        .filter(|own| matches!(own.face, Face::WidthStart | Face::WidthEnd))
        .map(|own| (own, part.hollow(own, own.v)))
        .collect();
    let facing = |(one, space): &(&Feature, Cuboid), (other, beside): &(&Feature, Cuboid)| {
        let mut others = Direction::ALL.iter().filter(|axis| **axis != across);
        one.face == other.face.opposite() && others.all(|axis| space.overlaps_along(beside, *axis))
    };
    let pairs = all.iter().enumerate().flat_map(|(at, one)| {
        let beside = all.iter().skip(at + 1).filter(move |other| facing(one, other));
        beside.map(move |other| (one.0.deep + other.0.deep, 2))
    });
    let single = all.iter().map(|(own, _)| (own.deep, 1));
    let through = pairs.chain(single).filter(|(taken, _)| part.width.length - *taken <= none);
    through.max_by_key(|(taken, _)| *taken)
}

/// The tenons of a frame are too long for a member that takes them.
fn too_long(
    piece: &Piece,
    part: &Part,
    frame: &Frame,
    (taken, mortises): (Length, i64),
) -> Diagnostic {
    let (tape, wide) = (piece.tape(), part.width.length);
    let behind = mortised(piece, part).map(|(needed, _)| needed - taken);
    let wall = match mortises {
        2 => trade::lasting_wall(),
        _ => behind.unwrap_or_else(|| trade::behind_mortise(tape.unit)),
    };
    let needed = tape.up(taken + wall);
    let at = piece.facts.written(&part.width).unwrap_or(part.span);
    let joint = frame.joint.span.unwrap_or(frame.span);
    let tenons = frame.joint.long.as_ref();
    let written = tenons.and_then(|long| piece.facts.written(long));
    let long = tenons.map_or(Length::ZERO, |long| long.length);
    let (says, word, because) = match mortises {
        2 => (
            "the mortises from both its edges meet in it",
            "two mortises",
            "the tenons strike each other, or the member breaks apart between them",
        ),
        _ => (
            "a mortise comes out at its far edge",
            "mortise",
            "its end is seen, and nothing closes it",
        ),
    };
    let found = RULE
        .finding(
            format!("{} is {} wide, and {says}", part.path, tape.figure(wide)),
            written.unwrap_or(joint),
            format!("tenons {} long", tape.figure(long)),
        )
        .label(at, format!("{} wide", tape.figure(wide)))
        .sum(
            Sum::new("leaves", wide - taken, tape)
                .plus(wide, part.word(), tape)
                .minus(taken, word, tape),
        )
        .because(because)
        .subject(&part.path)
        .urgency((taken - wide) / Length::mm(1));
    let fits = tape.down((wide - wall) / mortises - frame.joint.room);
    // What is shorter than a wall is thick holds nothing.
    match written.filter(|_| fits >= trade::lasting_wall()) {
        Some(at) => {
            let title = format!("make the tenons {} long", tape.figure(fits));
            found
                .fix(Fix::new(Grade::Choice, title, at, format!("long {}", tape.source(fits))))
                .note(format!("or make the member {} wide", tape.figure(needed)))
        }
        None => {
            let title = format!("make it {} wide", tape.figure(needed));
            found.fix(Fix::new(Grade::Choice, title, at, format!("wide {}", tape.source(needed))))
        }
    }
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
    let mut found = told(piece, part, needed, &what, at);
    let front = part.opening().and_then(|id| piece.opening(id)?.front.as_ref());
    if let Some(Build::Panel(build)) = front.map(|front| &front.build) {
        let fits = tape.down(build.tenon.length - (needed - wide));
        // What is no longer than the stub goes into the groove alone.
        if fits > build.stub.length {
            let title = format!("make its tenons {} long", tape.figure(fits));
            found = found.fix(build.tenon_at.says(&format!("tenon {}", tape.source(fits)), title));
        }
    }
    sink.push(found.fix(Fix::new(
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
