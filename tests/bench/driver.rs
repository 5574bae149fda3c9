//! A driver at every screw: at the time of the join it must have room along the
//! axis of the screw.

use super::board::{Board, Cut, Sort, whole};
use super::body::Body;
use super::packet::{Joint, JointKind, Packet, Work};
use super::wood::{NOTHING, Space, common, without};
use super::{front_screws, pockets, screws};

type Way = [f64; 3];

/// A pocket screw leans 15 degrees to its face (the usual jig; trade values, pocket
/// screws).
const LEANS: f64 = 15.0;
/// A straight driver: a long bit of 6 in and behind it a drill with its chuck, 8 in
/// long and 2-1/2 in thick. An angle driver: a short bit of 2 in and a head of 3-1/2
/// in, 1-1/2 in thick, and from its end an arm of 8 in to any side (common practice,
/// no source).
const BIT: f64 = 10.0;
const LONG_BIT: f64 = 150.0;
const DRILL: (f64, f64) = (200.0, 64.0);
const SHORT_BIT: f64 = 50.0;
const HEAD: (f64, f64) = (90.0, 38.0);
const ARM: f64 = 200.0;
/// The thickest board that a screw goes through: 2 in of a 3 in screw (common
/// practice, no source).
const LONGEST: f64 = 50.0;
/// A screw on a printed line that no driver gets at moves an inch along it, with a quarter
/// of one left beside it (common practice, no source).
const ASIDE: f64 = 25.0;
const BESIDE: f64 = 6.0;

/// A screw that is to be driven: where it enters, and the way back along its axis.
#[derive(Clone, Copy, Debug)]
struct Screw {
    at: Way,
    back: Way,
    /// Square to that.
    across: Way,
    /// How far it may move along that, either way.
    room: [f64; 2],
}

/// Why the screws of a joint can't be driven, with these boards in their places.
pub(super) fn blocked(
    packet: &Packet,
    boards: &[Board<'_>],
    joint: &Joint,
    [part, into]: [usize; 2],
    there: &[usize],
    tolerance: f64,
) -> Option<String> {
    let ways = match joint.kind {
        JointKind::PocketScrews => vec![pocketed(packet, boards, part, into)],
        JointKind::Screws => through(packet, boards, part, into, tolerance),
        // A drawer is pulled out, and a hand driver gets into its open box.
        JointKind::FrontFixed if front_screws::is_box(&boards[into]) => return None,
        // What is planted with screws is driven on their lines, if it has any.
        JointKind::Planted => vec![struck(packet, boards, [part, into])?],
        // A front is screwed on from behind, and its holes are struck there.
        JointKind::FrontFixed => vec![struck(packet, boards, [part, into])?],
        JointKind::Dado
        | JointKind::Rabbet
        | JointKind::Dowels
        | JointKind::Tenon
        | JointKind::Dovetails
        | JointKind::Butt
        | JointKind::Miter
        | JointKind::Floating
        | JointKind::Glazed
        | JointKind::Pinned
        | JointKind::Hung
        | JointKind::Slid
        | JointKind::Laid => return None,
    };
    let [part_name, into_name] = [part, into].map(|own| boards[own].name());
    if ways.iter().all(Vec::is_empty) {
        return Some(format!("nothing holds the screws of {part_name} in {into_name}"));
    }
    // Drawers are pulled out before a case is screwed down from inside.
    let pulled_out = |own: usize| {
        let mut drawers = packet.opens.drawers.iter().flat_map(|drawer| &drawer.parts);
        joint.kind == JointKind::Planted && drawers.any(|mark| *mark == boards[own].part.mark)
    };
    // A notch, such as an end has at its foot, leaves room for a driver.
    let bodies = |own: usize| -> Vec<(usize, Body)> {
        let board = &boards[own];
        let notches = board.cuts.iter().filter(|cut| cut.sort == Sort::Notch);
        let gone: Vec<Space> = notches.flat_map(|cut| cut.gone(board.exact)).collect();
        let left = without(&whole(board.exact), &gone).into_iter();
        left.map(|space| (own, Body::new(&board.placed(&space)))).collect()
    };
    // What the screw itself goes through is no obstacle: the jig and the clamp are
    // on it, too.
    let others: Vec<(usize, Body)> = there
        .iter()
        .copied()
        .filter(|own| *own != part && *own != into && !pulled_out(*own))
        .flat_map(bodies)
        .collect();
    let mm = |millimeters| packet.job.unit.mm(millimeters);
    let meets = |body: &Body, also: &[usize]| {
        let own: Vec<(usize, Body)> = also.iter().copied().flat_map(bodies).collect();
        others
            .iter()
            .chain(&own)
            .find(|(_, other)| body.hits(other, tolerance + mm(1.0)))
            .map(|(own, _)| *own)
    };
    // A pocket's drill stands over its own board, and in front of the other.
    let also: &[usize] = match joint.kind {
        JointKind::PocketScrews => &[into],
        _ => &[],
    };
    let stopped_by = |screw: &Screw| {
        let bar = |range: [f64; 2], thick: f64| {
            let range = range.map(mm);
            Body::bar(screw.at, screw.back, range, screw.across, mm(thick) / 2.0)
        };
        let straight = [bar([1.0, LONG_BIT], BIT), bar([LONG_BIT, LONG_BIT + DRILL.0], DRILL.1)];
        let stopped = straight.iter().find_map(|body| meets(body, also))?;
        let end = SHORT_BIT + HEAD.0;
        let angled = [bar([1.0, SHORT_BIT], BIT), bar([SHORT_BIT, end], HEAD.1)];
        let other = super::body::cross(screw.back, screw.across);
        let back = mm(end - HEAD.1 / 2.0);
        let from = [0, 1, 2].map(|axis| screw.at[axis] + screw.back[axis] * back);
        let arms = [screw.across, other].into_iter().flat_map(|way| [way, way.map(|own| -own)]);
        let turns = arms
            .map(|way| Body::bar(from, way, [0.0, mm(ARM)], screw.back, mm(HEAD.1) / 2.0))
            .any(|arm| meets(&arm, also).is_none());
        let fits = turns && angled.iter().all(|body| meets(body, also).is_none());
        (!fits).then_some(stopped)
    };
    // From one side at least every screw can be reached.
    let stops: Vec<Option<usize>> =
        ways.iter().map(|screws| screws.iter().find_map(stopped_by)).collect();
    let stopped = stops.into_iter().collect::<Option<Vec<usize>>>()?;
    // On its printed line a screw that a driver does not get at moves an inch.
    let lines = struck(packet, boards, [part, into]);
    let free = |screw: &Screw| stopped_by(screw).is_none();
    let moved = |screw: &Screw| {
        let places = [0.0, mm(ASIDE), -mm(ASIDE)].into_iter();
        let holds = |by: &f64| by.abs() < NOTHING || screw.room[0] <= *by && *by <= screw.room[1];
        places.filter(holds).any(|by| {
            let at = [0, 1, 2].map(|axis| screw.at[axis] + screw.across[axis] * by);
            free(&Screw { at, ..*screw })
        })
    };
    if joint.kind != JointKind::PocketScrews && lines.is_some_and(|own| own.iter().all(moved)) {
        return None;
    }
    let name = boards[*stopped.first()?].name();
    Some(format!(
        "no driver gets at the screws of {part_name} in {into_name}: {name} is in its way"
    ))
}

/// The screws of pocket holes: from the face that they are bored into, back over
/// the board and a little out.
fn pocketed(packet: &Packet, boards: &[Board<'_>], part: usize, into: usize) -> Vec<Screw> {
    let board = &boards[part];
    let host = boards[into].placed(&whole(boards[into].exact));
    let near = |cut: &&Cut| {
        let mut wide = board.placed(&cut.space);
        for range in &mut wide {
            *range = [range[0] - packet.job.unit.mm(2.0), range[1] + packet.job.unit.mm(2.0)];
        }
        cut.sort == Sort::Hidden && common(&wide, &host).is_some()
    };
    let cuts = board.cuts.iter().filter(near);
    cuts.flat_map(|cut| in_pockets(packet, board, cut)).collect()
}

/// The screws of the pocket holes that one operation bores.
fn in_pockets(packet: &Packet, board: &Board<'_>, cut: &Cut) -> Vec<Screw> {
    let Work::Shape(shape) = &packet.operations[cut.operation].work else { return Vec::new() };
    let Ok((across, places)) = pockets::places(board, shape) else { return Vec::new() };
    // They run to the end of their board.
    let run = 3 - across - cut.face.axis;
    let at_end = cut.space[run][1] >= board.exact[run] - NOTHING;
    let (sin, cos) = LEANS.to_radians().sin_cos();
    let thick = board.exact[cut.face.axis];
    // Its axis leaves the face where it comes from the middle of the end.
    let back_from_end = thick / 2.0 * cos / sin;
    places
        .into_iter()
        .map(|place| {
            let mut own: Space = [[0.0; 2]; 3];
            let end = if at_end { board.exact[run] - back_from_end } else { back_from_end };
            own[run] = [end; 2];
            own[cut.face.axis] = [if cut.face.is_end { thick } else { 0.0 }; 2];
            own[across] = [place; 2];
            let at = board.placed(&own).map(|range| range[0]);
            let mut back = [0.0; 3];
            back[board.along(run)] = if at_end { -cos } else { cos };
            back[board.along(cut.face.axis)] = if cut.face.is_end { sin } else { -sin };
            let mut side = [0.0; 3];
            side[board.along(across)] = 1.0;
            Screw { at, back, across: side, room: [0.0; 2] }
        })
        .collect()
}

/// The screws of the printed lines between two boards, all of them as one way.
fn struck(packet: &Packet, boards: &[Board<'_>], both: [usize; 2]) -> Option<Vec<Screw>> {
    let is_of = |mark: &String| both.iter().any(|own| boards[*own].part.mark == *mark);
    let lines = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::ScrewLine(line) if is_of(&line.through) && is_of(&line.into) => Some(line),
        _ => None,
    });
    let mut struck = Vec::new();
    for line in lines {
        let through = both.iter().find(|own| boards[**own].part.mark == line.through)?;
        let board = &boards[*through];
        let (face, heads) = screws::heads(board, line).ok()?;
        for [beside, along] in heads {
            let mut own: Space = [[0.0; 2]; 3];
            own[face.axis] = [if face.is_end { board.exact[face.axis] } else { 0.0 }; 2];
            own[beside.0] = [beside.1; 2];
            own[along.0] = [along.1; 2];
            let at = board.placed(&own).map(|range| range[0]);
            let mut across = [0.0; 3];
            across[board.along(along.0)] = 1.0;
            // As far as both boards go.
            let axis = board.along(along.0);
            let shared = both.map(|own| boards[own].placed(&whole(boards[own].exact))[axis]);
            let beside = packet.job.unit.mm(BESIDE);
            let room = [
                shared[0][0].max(shared[1][0]) + beside - at[axis],
                shared[0][1].min(shared[1][1]) - beside - at[axis],
            ];
            struck.push(Screw { at, back: board.way(face), across, room });
        }
    }
    (!struck.is_empty()).then_some(struck)
}

/// Screws through one board into another, from the far face of the one that they go
/// through: through either, where it is no thicker than a screw is long.
fn through(
    packet: &Packet,
    boards: &[Board<'_>],
    part: usize,
    into: usize,
    tolerance: f64,
) -> Vec<Vec<Screw>> {
    let both = [part, into].map(|own| boards[own].placed(&whole(boards[own].exact)));
    let mut touch = both[0];
    for (range, host) in touch.iter_mut().zip(both[1]) {
        *range = [range[0].max(host[0]), range[1].min(host[1])];
    }
    let size = |range: [f64; 2]| range[1] - range[0];
    let thin = |a: &usize, b: &usize| size(touch[*a]).total_cmp(&size(touch[*b]));
    let axis = (0..3).min_by(thin).unwrap_or(0);
    let covers = |other: &usize| size(touch[*other]) > tolerance;
    if (0..3).filter(|other| *other != axis).filter(covers).count() < 2 {
        return Vec::new();
    }
    let middle = |range: [f64; 2]| f64::midpoint(range[0], range[1]);
    let long = (0..3).filter(|other| *other != axis).max_by(thin).unwrap_or(0);
    let mut across = [0.0; 3];
    across[long] = 1.0;
    let way = |passed: Space, other: Space| {
        let from_end = middle(other[axis]) < middle(passed[axis]);
        let mut back = [0.0; 3];
        back[axis] = if from_end { 1.0 } else { -1.0 };
        let screw = |share: f64| {
            let mut at = touch.map(middle);
            at[axis] = passed[axis][usize::from(from_end)];
            at[long] = touch[long][0] + size(touch[long]) * share;
            Screw { at, back, across, room: [0.0; 2] }
        };
        [0.1, 0.5, 0.9].map(screw).to_vec()
    };
    let most = packet.job.unit.mm(LONGEST);
    [(both[1], both[0]), (both[0], both[1])]
        .into_iter()
        .filter(|(passed, _)| size(passed[axis]) <= most)
        .map(|(passed, other)| way(passed, other))
        .collect()
}
