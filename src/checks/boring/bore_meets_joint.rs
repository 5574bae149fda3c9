//! A hole that runs into a joint, or out of its part.

use crate::checks::joinery;
use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;
use crate::parts::{Bore, Cuboid, Direction, Face, Feature, Part, Parts, Role};
use crate::plans::Workings;

use super::bores;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "bore-meets-joint",
    severity: Severity::Error,
    finds: "A hole for a hinge, a hinge plate, a pull, or cords runs into a joint of its part or over the part's edge. The joint may be a dado, groove, rabbet, mortise, notch, or pocket hole. In a framed front, the hole for a pull in the panel runs into a rail or stile.",
    why: "The screw meets a joint instead of solid wood, so it holds nothing or splits the board that the joint houses. A hole that runs over an edge can't be bored clean.",
    source: "Plane geometry. A pocket hole is taken to be as wide as its 3/8 in step drill.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "pull knob { screw 5/32 }",
        wrong: "pull knob { screw 5/32; from-edge 1/32 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    // Where two rails meet, there is no panel to bore.
    let met = joinery::rails_meet::RULE.told(sink);
    // Nor is there wood beside a front.
    let off = super::pull_off_front::RULE.told(sink);
    for part in &parts.all {
        let own = part.opening().and_then(|id| piece.opening(id));
        let is_told = own.is_some_and(|opening| met.contains(&opening.path));
        let is_off = own.is_some_and(|opening| off.contains(&opening.path));
        let mut once = Once::default();
        for (bore, kind) in bores(part) {
            let what = kind.word();
            let label = || format!("{what} {} across", tape.figure(bore.u.1 - bore.u.0));
            let over = over_the_edge(part, bore, kind);
            let found = if over.is_positive() {
                let (long, wide) = part.face_size(bore.face);
                let error = |title| RULE.finding(title, bore.span, label());
                Some(
                    error(format!(
                        "a {what} runs {} over the edge of {}",
                        tape.text(over),
                        part.path
                    ))
                    .label(part.span, format!("{} by {}", tape.text(long), tape.text(wide)))
                    .note("move it farther in"),
                )
            } else {
                let joint = part
                    .features
                    .iter()
                    .find_map(|joint| into((piece, parts), part, (bore, kind), joint));
                let framed = || into_frame(piece, parts, part, bore).filter(|_| !is_told);
                joint.or_else(framed)
            };
            let found = found.filter(|_| !(is_off && kind == Bore::Pull));
            let Some(found) = found.filter(|_| once.is_first(bore.span)) else { continue };
            sink.push(
                found
                    .because(match kind {
                        Bore::Cup => {
                            "the cup cuts into what the joint houses, and its screws find no wood"
                        }
                        Bore::Pull | Bore::Plate | Bore::PlateBehind | Bore::Leg => {
                            "the screw finds no wood there, or it splits what the joint houses"
                        }
                        Bore::Round => "the hole cuts into what the joint houses",
                    })
                    .subject(&part.path),
            );
        }
    }
}

/// A bore that runs into a joint of its part.
fn into(
    (piece, parts): (&Piece, &Parts),
    part: &Part,
    (bore, kind): (&Feature, Bore),
    joint: &Feature,
) -> Option<Diagnostic> {
    let tape = piece.tape();
    let (what, named) = (kind.word(), joint.kind.word());
    let by = shared(part, bore, kind, joint)?;
    let title = format!("a {what} runs {} into the {named} of {}", tape.text(by), part.path);
    let label = format!("{what} {} deep", tape.figure(bore.deep));
    let mut found = RULE.finding(title, bore.span, label).note(match kind {
        Bore::Round => "move the hole",
        Bore::Leg => "move the legs with `in`, or bore a shallower hole",
        Bore::Cup | Bore::Pull | Bore::Plate | Bore::PlateBehind => {
            "move the hinge or pull, or bore a shallower hole"
        }
    });
    if joint.span != bore.span {
        let label = format!("{named} {} deep", tape.figure(joint.deep));
        found = found.label(joint.span, label);
    }
    if part.span != bore.span && part.span != joint.span {
        found = found.label(part.span, "in this board");
    }
    // Which of several holes, and what it meets.
    let lies = |own: &Feature| {
        format!(
            "{} to {} from the {}",
            tape.text(own.u.0),
            tape.text(own.u.1),
            part.face_name(Face::LengthStart)
        )
    };
    let takes = joint.takes.and_then(|id| parts.get(id));
    let takes = takes.map_or(String::new(), |other| format!(", for {}", other.path));
    found = found.working(what, lies(bore)).working(named, format!("{}{takes}", lies(joint)));
    let thick = part.depth(bore.face);
    let over = bore.deep + joint.deep - thick;
    if bore.face == joint.face.opposite() && over.is_positive() {
        found = found.sum(
            Sum::new("over by", over, tape)
                .plus(bore.deep, what, tape)
                .plus(joint.deep, named, tape)
                .minus(thick, "board", tape),
        );
    }
    Some(found)
}

/// The hole of a pull in a panel that runs into a rail or stile: the edges of the
/// panel lie in their grooves.
fn into_frame(piece: &Piece, parts: &Parts, panel: &Part, bore: &Feature) -> Option<Diagnostic> {
    if panel.role != Role::FrontPanel {
        return None;
    }
    let tape = piece.tape();
    let holes: Vec<Cuboid> = panel.hollows(bore).collect();
    let own = parts.of_case(panel.case).iter().filter(|part| {
        part.assembly == panel.assembly && matches!(part.role, Role::FrontRail | Role::FrontStile)
    });
    let shared = |member: &Part| {
        let wood = member.cuboid();
        let met = holes.iter().filter(|hole| hole.overlaps(&wood));
        let least = met.filter_map(|hole| {
            let both = [Direction::X, Direction::Y];
            both.into_iter().map(|axis| hole.overlap_along(&wood, axis)).min()
        });
        least.max()
    };
    let met = own.filter_map(|member| shared(member).map(|by| (by, member)));
    let (by, member) = met.max_by_key(|(by, _)| *by)?;
    let screw = tape.figure(bore.u.1 - bore.u.0);
    Some(
        RULE.finding(
            format!("the hole of the pull of {} runs {} into {}", panel.path, tape.text(by), member.path),
            bore.span,
            format!("pull hole {screw} across"),
        )
        .label(panel.span, "the frame around this panel")
        .note("set the pull to the middle of the front with `up middle`, use one with closer `centers`, or give this front one board with `build slab`"),
    )
}

/// How far a bore reaches past the face it lies in. That a cup keeps from the
/// side edges of its door is asked together with the wood in front of it.
fn over_the_edge(part: &Part, bore: &Feature, kind: Bore) -> Length {
    let (long, wide) = part.face_size(bore.face);
    let along = (-bore.u.0).max(bore.u.1 - long);
    match kind {
        Bore::Cup => along,
        Bore::Pull | Bore::Plate | Bore::PlateBehind | Bore::Round | Bore::Leg => {
            along.max(-bore.v.0).max(bore.v.1 - wide)
        }
    }
}

/// How far a bore and a joint share space: the least of the three overlaps.
fn shared(part: &Part, bore: &Feature, kind: Bore, joint: &Feature) -> Option<Length> {
    if !joint.is_in_way_of(kind) {
        return None;
    }
    let boxes = part.hollows(bore);
    boxes
        .flat_map(|one| part.hollows(joint).map(move |other| (one, other)))
        .filter(|(one, other)| one.overlaps(other))
        .filter_map(|(one, other)| {
            Direction::ALL.into_iter().map(|axis| one.overlap_along(&other, axis)).min()
        })
        .max()
}
