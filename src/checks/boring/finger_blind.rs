//! A finger pull that no finger gets behind.

use std::collections::BTreeSet;

use crate::checks::hardware::box_too_big;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Finger, FrontId, OpeningKind, Side};
use crate::parts::{Assembly, Cuboid, Direction, FeatureKind, Front, Role};
use crate::plans::Workings;
use crate::trade;

use super::pull_off_front;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "finger-blind",
    severity: Severity::Warning,
    finds: "Less than 1/2 in (12 mm) of a finger pull is open behind the front. The rest lies over a board of the case, the front of the drawer box, or the strip that a door closes against.",
    why: "A finger must reach through the cut and hook behind the front. Where a board stands right behind it, there is nothing to pull on.",
    source: "Common practice; no published source.",
    formula: "The depth of the cut, less what stands behind it within 1/2 in (12 mm).",
    accept: "Accept it if the back of the cut is hollowed out for the fingers by hand.",
    example: Example {
        base: Base::Hung,
        sound: "finger { wide 100; deep 30; from-top 100 }",
        wrong: "finger { wide 100; deep 15; from-top 100 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // What has no room on its front is told already.
    let mut off = pull_off_front::RULE.told(sink);
    // A box that is too high covers the cut only until it is made lower.
    off.extend(box_too_big::RULE.told(sink));
    let mut seen: BTreeSet<FrontId> = BTreeSet::new();
    for front in work.fronts() {
        let first = FrontId { leaf: front.opening.leaves()[0], ..front.id };
        let opens =
            front.hung.is_some() || matches!(front.opening.kind, OpeningKind::Drawer { .. });
        let Some(finger) = front.fronts.finger.as_ref().filter(|_| opens) else { continue };
        if seen.insert(first) && !off.contains(&front.opening.path) {
            sink.extend(look(work, front, finger));
        }
    }
}

/// What stands behind a cut.
struct Behind {
    what: String,
    /// From and to across the edge, the edge first.
    from: Length,
    to: Length,
    is_box: bool,
}

fn look(work: &Workings<'_>, front: &Front<'_>, finger: &Finger) -> Option<Diagnostic> {
    let tape = work.piece.tape();
    let least = trade::finger_room(tape.unit);
    let board = front.parts.iter().find_map(|part| {
        let mut cuts = part.features.iter().filter(|cut| cut.kind == FeatureKind::Notch);
        let cut = cuts.find(|cut| cut.span == finger.span)?;
        Some(part.hollow(cut, cut.v))
    });
    let cut = board?;
    let is_door = front.hung.is_some();
    let axis = if is_door { Direction::X } else { Direction::Y };
    // Distances count from the edge that it is cut into.
    let at_end = match front.hung {
        Some(side) => side == Side::Left,
        None => true,
    };
    let behind = behind(work, front, (&cut, axis, at_end));
    let open = |deep: Length| open(&behind, deep);
    let deep = finger.deep.length;
    let left = open(deep);
    if left >= least {
        return None;
    }
    let path = &front.opening.path;
    let nearest = behind.iter().max_by_key(|own| own.to.min(deep) - own.from.max(Length::ZERO));
    let mut title = format!("the finger pull of {path} is {} deep", tape.figure(deep));
    if let Some(own) = nearest {
        let covered = own.to.min(deep) - own.from;
        title.push_str(&format!(", and {} stands behind {} of that", own.what, tape.text(covered)));
    }
    title.push_str(&format!(
        "; {} is open, and a finger needs {}",
        if left.is_positive() { tape.text(left) } else { "nothing".to_owned() },
        tape.figure(least)
    ));
    let found = RULE
        .finding(title, finger.span, format!("{} deep", tape.figure(deep)))
        .label(front.opening.span, "the front of this opening")
        .sum(Sum::new("open", left, tape).plus(deep, "deep", tape).minus(
            deep - left,
            "covered from behind",
            tape,
        ))
        .because("there is nothing to hook a finger behind")
        .subject(path)
        .urgency(-left / Length::mm(1));
    let deeper = tape.up(deep + least - left);
    let (wide, high) = front.opening.leaf(front.fronts);
    let across = if is_door { wide.length } else { high.length };
    Some(match open(deeper) >= least && deeper.twice() <= across {
        true => found.fix(finger.deep_at.says(
            &format!("deep {}", tape.source(deeper)),
            format!("cut it {} deep", tape.figure(deeper)),
        )),
        false if behind.iter().any(|own| own.is_box) => {
            found.note("make the box lower with `box { high … }`, so that the cut is open above it")
        }
        false => found.note("give this front a pull"),
    })
}

/// The longest stretch of a cut so deep with nothing behind it.
fn open(behind: &[Behind], deep: Length) -> Length {
    let (mut from, mut most) = (Length::ZERO, Length::ZERO);
    for own in behind.iter().filter(|own| own.from < deep) {
        most = most.max(own.from - from);
        from = from.max(own.to);
    }
    most.max(deep - from)
}

/// All that stands behind a cut within the room that a finger needs, from its edge on.
fn behind(
    work: &Workings<'_>,
    front: &Front<'_>,
    (cut, axis, at_end): (&Cuboid, Direction, bool),
) -> Vec<Behind> {
    let room = trade::finger_room(work.piece.tape().unit);
    let across = if axis == Direction::X { Direction::Y } else { Direction::X };
    // Fingers go in at its middle: a board may stand near its ends, and the edge of a shelf
    // leaves them room on both sides.
    let (from, to) = (cut.from.along(across), cut.to.along(across));
    let quarter = (to - from) / 4;
    let (from, to) = (from + quarter, to - quarter);
    let (back, reach) = (cut.to.z, cut.to.z + room);
    let meets = |space: &Cuboid| {
        let beside = space.to.along(across).min(to) - space.from.along(across).max(from);
        let is_beside = beside.twice() >= to - from;
        is_beside && space.from.z < reach && back < space.to.z
    };
    let place = |space: &Cuboid| {
        let (from, to) = (space.from.along(axis), space.to.along(axis));
        match at_end {
            true => (cut.to.along(axis) - to, cut.to.along(axis) - from),
            false => (from - cut.from.along(axis), to - cut.from.along(axis)),
        }
    };
    let parts = work.parts.of_case(front.case).iter();
    let others = parts.filter(|part| !matches!(part.assembly, Assembly::Front(_)));
    let boards =
        others.map(|part| (part.path.clone(), part.cuboid(), part.role == Role::DrawerFront));
    let stops = work.fitting().stops.iter().filter(|stop| stop.opening.id == front.opening.id);
    let strips =
        stops.map(|stop| ("the strip that it closes against".to_owned(), stop.space, false));
    let mut found: Vec<Behind> = boards
        .chain(strips)
        .filter(|(_, space, _)| meets(space))
        .map(|(what, space, is_box)| {
            let (from, to) = place(&space);
            Behind { what, from: from.max(Length::ZERO), to, is_box }
        })
        .filter(|own| own.to.is_positive())
        .collect();
    found.sort_by_key(|own| own.from);
    found
}
