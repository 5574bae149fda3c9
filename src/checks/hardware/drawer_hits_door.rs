//! A drawer that runs into the open door beside it.

use std::cell::LazyCell;

use super::door_stopped;
use super::swings::{self, Door};
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{OpeningId, Piece};
use crate::parts::{Cuboid, Front};
use crate::plans::{Workings, fitting};
use crate::trade::Body;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "drawer-hits-door",
    severity: Severity::Warning,
    finds: "A drawer runs into the leaf or pull of an open door beside it. The door stands open 90 degrees, and the drawer is out by the length of its slide.",
    why: "Anyone who pulls the drawer while the door is open drives its front into the door's pull. That dents the front or wrenches the hinge.",
    source: "Plane geometry. Where a cup hinge gives no poses, the door is taken to turn about the front corner of its hinge edge, with a tolerance of 1/16 in (common practice; no published source).",
    formula: "With the door open 90 degrees, its pull reaches from the hinge edge as far as it stands off the face, less what the hinge has shifted the leaf. The drawer must be no nearer than that.",
    accept: "Accept it if the door is never open while the drawer is used, or if a stop holds the door well past or well short of 90 degrees.",
    example: Example {
        base: Base::Console,
        sound: "pull ring { centers 3; screw 5/32; up middle; from-edge 1-1/32 }",
        wrong: "pull ring { centers 3; screw 5/32; up middle; from-edge 1-1/32; stands 2 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

const BODIES: [Body; 2] = [Body::Leaf, Body::Pull];

/// A drawer with how far it comes out.
struct Drawer<'a> {
    front: &'a Front<'a>,
    travel: Length,
    /// The opening of the doors that it stands behind.
    door: Option<OpeningId>,
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let fronts = work.fronts();
    let drawers: Vec<Drawer<'_>> = fronts.iter().filter_map(|f| drawer(piece, f)).collect();
    // A door that something stops is another rule's.
    let room = LazyCell::new(|| door_stopped::room(piece, parts, fronts));
    for door in &swings::doors(piece, fronts) {
        // Drawers follow each other case by case.
        let cases = door.near_cases(piece);
        let first = drawers.partition_point(|drawer| drawer.front.case.0 < cases.start);
        let near = drawers.iter().skip(first).take_while(|drawer| drawer.front.case.0 < cases.end);
        let mut hits = near.filter_map(|drawer| Some((drawer, hit(door, drawer)?)));
        if let Some((drawer, hit)) = hits.next()
            && door_stopped::stopped(piece, door, &room).is_none()
        {
            sink.push(report(piece, door, drawer, hit, hits.count()));
        }
    }
}

fn drawer<'a>(piece: &Piece, front: &'a Front<'a>) -> Option<Drawer<'a>> {
    let travel = piece.drawer_box(piece.case(front.case)?, front.opening)?.deep.length;
    let door = piece.door_before(front.opening.id).map(|door| door.id);
    Some(Drawer { front, travel, door })
}

/// What of the door meets a drawer on its way out, and the space the drawer's
/// front or pull takes on that way.
fn hit(door: &Door<'_>, drawer: &Drawer<'_>) -> Option<(Body, Cuboid)> {
    let closed = drawer.front.space;
    // Fronts that lie over each other are another rule's.
    // Whether a drawer passes the door that it stands behind is another rule's too.
    let own = drawer.door == Some(door.front.opening.id);
    if own || !door.is_near(closed.from.x, closed.to.x) || door.front.space.overlaps(&closed) {
        return None;
    }
    for moved in BODIES.into_iter().filter_map(|body| swings::body(drawer.front, body)) {
        let mut way = *moved;
        way.from.z -= drawer.travel;
        let patch = fitting::patch(&way);
        let struck = door.bodies().find(|(body, space)| {
            swings::level(space, moved) && door.swing.meets(*body, &patch, door.mercy)
        });
        if let Some((body, _)) = struck {
            return Some((body, way));
        }
    }
    None
}

fn report(
    piece: &Piece,
    door: &Door<'_>,
    drawer: &Drawer<'_>,
    (body, way): (Body, Cuboid),
    more: usize,
) -> Diagnostic {
    let tape = piece.tape();
    let others = match more {
        0 => String::new(),
        1 => " and 1 other drawer".to_owned(),
        more => format!(" and {more} other drawers"),
    };
    let verb = if more == 0 { "strikes" } else { "strike" };
    let title = format!(
        "{}{others} {verb} the {} of {} when it is open 90 degrees",
        drawer.front.name(),
        swings::word(body),
        door.front.name()
    );
    let away = door.to(&way);
    let short = door.reach(body).map(|reach| reach - away).filter(|by| by.is_positive());
    let short = short.filter(|_| !away.is_negative());
    let stile = short.and_then(|_| swings::hinge_stile(piece, door));
    let opening = door.front.opening;
    let hung = door.hung_told();
    let mut diagnostic = match &stile {
        Some(stile) => RULE
            .finding(title, stile.span, format!("{} wide", tape.figure(stile.wide.length)))
            .label(opening.span, hung),
        None => RULE.finding(title, opening.span, hung),
    };
    diagnostic = diagnostic
        .label(drawer.front.opening.span, format!("comes out {}", tape.figure(drawer.travel)));
    if let Some((span, label)) = door.pull_label(tape).filter(|_| body == Body::Pull) {
        diagnostic = diagnostic.label(span, label);
    }
    if let Some(short) = short {
        let sum = door.add_reach(Sum::new("short by", short, tape), body, tape);
        diagnostic = diagnostic.sum(sum.minus(away, "to the drawer", tape));
        if let Some(fix) = stile.and_then(|stile| stile.widened(short, tape)) {
            diagnostic = diagnostic.fix(fix);
        }
        let stands = away + door.aside;
        if body == Body::Pull && stands.is_positive() {
            let most = tape.figure(tape.down(stands));
            diagnostic =
                diagnostic.note(format!("a pull that stands {most} or less also clears it"));
        }
    }
    let found = door
        .tell_assumed(diagnostic)
        .because("anyone who opens the drawer while the door is open drives it into the door")
        .subject(&opening.path);
    match opening.is_pair() {
        true => found,
        false => found.note("you can also hang the door on its other side"),
    }
}
