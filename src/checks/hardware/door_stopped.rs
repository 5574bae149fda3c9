//! A door that something stops before it stands square to the front.

use std::rc::Rc;

use super::swings::{self, Door};
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::{Angle, Length, Span, Tape};
use crate::model::{Boundary, OpeningId, Piece, Side};
use crate::parts::{Assembly, Cuboid, Front, Parts, Point, keep_out_space};
use crate::plans::Workings;
use crate::trade::Body;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "door-stopped",
    severity: Severity::Warning,
    finds: "A door can't open 90 degrees. Its leaf or its pull meets a wall beside the piece, a neighboring case that stands farther out, a keep-out, or the closed front or pull of another opening.",
    why: "The pull strikes the wall each time the door opens, and anyone who pushes farther levers the hinge out of its screws. Whatever slides out from behind the door clears its edge only when the door is open 90 degrees.",
    source: "Plane geometry. Where a cup hinge gives no poses, the door is taken to turn about the front corner of its hinge edge, with a tolerance of 1/16 in (common practice; no published source).",
    formula: "The leaf, and a rectangle for its pull, are turned degree by degree until they touch the other thing. At 90 degrees the pull reaches as far to the hinge side as it stands off the face, less what the hinge has shifted the leaf. The wall must be no nearer than that.",
    accept: "Accept it if nothing slides out from behind the door and a stop holds the door before its pull strikes.",
    example: Example {
        base: Base::Alcove,
        sound: "case right-books {\n  wide 800; deep 300; high 2000\n  stock birch\n  bottom { joint dado { deep 6 } }\n  back { stock thin; joint rabbet { deep 9 } }\n  top { panel; joint rabbet { deep 9 } }\n  shelves { joint dado { deep 6 }; set-back 0 }\n  frame none\n  across { open books { share 1; shelf { fixed 4",
        wrong: "accept driver-reach on cupboard.kick \"a stubby driver is at hand\"\n\ncase right-books {\n  wide 800; deep 900; high 2000\n  stock birch\n  bottom { joint dado { deep 6 } }\n  back { stock thin; joint rabbet { deep 9 } }\n  top { panel; joint rabbet { deep 9 } }\n  shelves { joint dado { deep 6 }; set-back 0 }\n  frame none\n  across { open books { share 1; shelf { fixed 2",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// What may stand in a door's way.
pub(super) struct Thing {
    /// What it is.
    pub(super) what: Rc<str>,
    /// Where it is.
    pub(super) space: Cuboid,
    /// The statement that puts it there, and its figure.
    pub(super) label: (Span, Rc<str>),
}

/// What stands in the way of doors, parted so that a door need look at its
/// own neighbours only.
pub(super) struct Room {
    /// Walls and keep-outs.
    site: Vec<Thing>,
    /// The boards of each case, without its fronts; none where no other case has
    /// doors.
    boards: Vec<Vec<Thing>>,
    /// The fronts and pulls of each case, with their opening.
    fronts: Vec<Vec<(OpeningId, Thing)>>,
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let fronts = work.fronts();
    let doors = swings::doors(piece, fronts);
    if doors.is_empty() {
        return;
    }
    let room = room(piece, parts, fronts);
    for door in &doors {
        if let Some((angle, body, thing)) = stopped(piece, door, &room) {
            sink.push(report(piece, door, angle, body, thing));
        }
    }
}

/// What of a piece may stand in the way of its doors.
pub(super) fn room(piece: &Piece, parts: &Parts, fronts: &[Front<'_>]) -> Room {
    let tape = piece.tape();
    let mut site = walls(piece);
    site.extend(piece.site.keep_outs.iter().map(|keep_out| Thing {
        what: format!("the {}", keep_out.name).into(),
        space: keep_out_space(piece, keep_out),
        label: (keep_out.span, format!("{} out from the wall", tape.figure(keep_out.deep)).into()),
    }));
    let mut room = Room { site, boards: Vec::new(), fronts: Vec::new() };
    for case in &piece.cases {
        let boards = match piece.cases.as_slice() {
            [_] => &[],
            _ => parts.of_case(case.id),
        };
        let boards = boards.iter();
        let boards = boards.filter(|part| !matches!(part.assembly, Assembly::Front(_)));
        let what: Rc<str> = format!("the side of {}", case.name).into();
        let deep: Rc<str> = format!("{} deep", tape.figure(case.deep.length)).into();
        let label = (case.deep_span, deep);
        let thing = |space| Thing { what: what.clone(), space, label: label.clone() };
        room.boards.push(boards.map(|part| thing(part.cuboid())).collect());
        room.fronts.push(Vec::new());
    }
    for front in fronts {
        let Some(own) = room.fronts.get_mut(front.case.0) else { continue };
        let mut add = |what: &str, space| {
            let label = (front.opening.span, "closed".into());
            own.push((front.opening.id, Thing { what: what.into(), space, label }));
        };
        add(front.name(), front.space);
        if let Some((_, space)) = front.pull {
            add(&format!("the pull of {}", front.name()), space);
        }
    }
    room
}

/// The walls at the sides of the whole piece, as high and deep as anything, with all of the
/// scribe still on: what comes off brings them nearer, and the fitting sheet tells of that.
fn walls(piece: &Piece) -> Vec<Thing> {
    let far = Length::mm(100_000);
    let right = piece.wide();
    let mut walls = Vec::new();
    for (side, boundary, from, to) in [
        (Side::Left, &piece.site.left, -far, Length::ZERO),
        (Side::Right, &piece.site.right, right, right + far),
    ] {
        if let Boundary::Wall { span, .. } = boundary {
            walls.push(Thing {
                what: format!("the {} wall", side.word()).into(),
                space: Cuboid { from: Point::new(from, -far, -far), to: Point::new(to, far, far) },
                label: (*span, "this wall".into()),
            });
        }
    }
    walls
}

/// What stops a door first, and the angle it reaches.
pub(super) fn stopped<'r>(
    piece: &Piece,
    door: &Door<'_>,
    room: &'r Room,
) -> Option<(Angle, Body, &'r Thing)> {
    others(piece, door, room)
        .filter_map(|thing| door.stopped_by(&thing.space).map(|(angle, body)| (angle, body, thing)))
        .min_by_key(|(angle, ..)| *angle)
}

/// What stands near a door, without its own case and opening.
pub(super) fn others<'r>(
    piece: &Piece,
    door: &Door<'_>,
    room: &'r Room,
) -> impl Iterator<Item = &'r Thing> {
    let cases = door.near_cases(piece);
    let (own_case, own) = (door.front.case.0, door.front.opening.id);
    let boards = cases.clone().filter(move |case| *case != own_case);
    let boards = boards.filter_map(|case| room.boards.get(case)).flatten();
    let fronts = cases.filter_map(|case| room.fronts.get(case)).flatten();
    let fronts = fronts.filter(move |(of, _)| *of != own).map(|(_, thing)| thing);
    room.site.iter().chain(boards).chain(fronts)
}

fn report(piece: &Piece, door: &Door<'_>, angle: Angle, body: Body, thing: &Thing) -> Diagnostic {
    let tape = piece.tape();
    let (opening, what) = (door.front.opening, &thing.what);
    let away = door.to(&thing.space);
    // Nought or less: it stands before the leaf, and no stile is at fault.
    let short = door.reach(body).map(|reach| reach - away).filter(|by| by.is_positive());
    let short = short.filter(|_| !away.is_negative());
    let stile = short.and_then(|_| swings::hinge_stile(piece, door));
    let title = format!(
        "the {} of {} strikes {what} at {} degrees",
        swings::word(body),
        door.front.name(),
        angle.0.floor()
    );
    let mut diagnostic = match &stile {
        Some(stile) => RULE
            .finding(title, stile.span, format!("{} wide", tape.figure(stile.wide.length)))
            .label(opening.span, door.hung_told()),
        None => RULE.finding(title, opening.span, door.hung_told()),
    };
    diagnostic = diagnostic.label(thing.label.0, &*thing.label.1);
    if let Some((span, label)) = door.pull_label(tape).filter(|_| body == Body::Pull) {
        diagnostic = diagnostic.label(span, label);
    }
    if let Some(short) = short {
        let sum = door.add_reach(Sum::new("short by", short, tape), body, tape);
        diagnostic = diagnostic.sum(sum.minus(away, format!("to {what}"), tape));
    }
    diagnostic = diagnostic
        .because(
            "if the door is pushed farther, it levers off its hinges and dents what it strikes",
        )
        .subject(&opening.path);
    for note in notes(door, body, short.map(|_| away), tape) {
        diagnostic = diagnostic.note(note);
    }
    diagnostic = door.tell_assumed(diagnostic);
    match short.and_then(|short| stile?.widened(short, tape)) {
        Some(fix) => diagnostic.fix(fix),
        None => diagnostic,
    }
}

/// What else would free it; `away` is known where it stands at the hinge side.
fn notes(door: &Door<'_>, body: Body, away: Option<Length>, tape: &Tape) -> Vec<String> {
    let mut notes = Vec::new();
    let Some(away) = away else {
        notes.push("keep the space in front of the door clear".to_owned());
        return notes;
    };
    let stands = away + door.aside;
    if body == Body::Pull && stands.is_positive() {
        let most = tape.figure(tape.down(stands));
        notes.push(format!("a pull that stands {most} or less also clears it"));
    }
    if door.front.opening.leaf_count() == 1 {
        notes.push(format!("you can also hang the door on its {} side", door.hung.other().word()));
    }
    notes
}
