//! Stops: the shop holds each strip behind its closed door, against the face that carries
//! it, and looks whether it reaches so far behind the door as is printed, whether wood
//! carries it, and whether its place is free.

use super::board::{Board, whole};
use super::packet::{Edge, Packet, StopStrip, Work};
use super::wood::Space;

/// What is wrong with the stops of a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let stops = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::Stop(stop) => Some(stop),
        _ => None,
    });
    stops
        .flat_map(|stop| {
            let found = strip(boards, stop, tolerance).into_iter();
            found.map(|what| format!("stop of {}: {what}", stop.opening))
        })
        .collect()
}

fn strip(boards: &[Board<'_>], stop: &StopStrip, tolerance: f64) -> Vec<String> {
    let mut wrong = Vec::new();
    let find = |mark: &String| boards.iter().find(|board| board.part.mark == *mark);
    let place = |mark: &String| find(mark).map(|board| board.placed(&whole(board.exact)));
    let Some(on) = find(&stop.on) else { return vec![format!("there is no {}", stop.on)] };
    let carries = on.placed(&whole(on.exact));
    let way = match on.face(&stop.face) {
        Ok(face) => on.way(face),
        Err(error) => return vec![error],
    };
    let leaves: Vec<Space> = stop.doors.iter().filter_map(place).collect();
    let Some(door) = leaves.iter().copied().reduce(|one, other| {
        let mut both = one;
        for (own, other) in both.iter_mut().zip(other) {
            *own = [own[0].min(other[0]), own[1].max(other[1])];
        }
        both
    }) else {
        return vec!["it stops no door".to_owned()];
    };
    let [long, across, deep] = stop.size.each_ref().map(|size| size.print);
    // Against the face that looks into the opening; flat on the back of a frame it has
    // only the door to go by.
    let (gap, over) = (stop.gap.print, stop.over.print);
    let (edge, along, inward) = match stop.edge {
        Edge::Left => (0, 1, 1.0),
        Edge::Right => (0, 1, -1.0),
        Edge::Bottom => (1, 0, 1.0),
        Edge::Top => (1, 0, -1.0),
    };
    let is_against = way[edge] * inward > 0.5;
    if !is_against && way[2] < 0.5 {
        wrong.push(format!("the {} of {} looks away from it", stop.face, stop.on));
    }
    let reaches = match (is_against, inward > 0.0) {
        (true, true) => carries[edge][1] + across,
        (true, false) => carries[edge][0] - across,
        (false, true) => door[edge][0] - gap + over,
        (false, false) => door[edge][1] + gap - over,
    };
    // So far behind the door by the gap that the door has.
    let behind = match inward > 0.0 {
        true => reaches - door[edge][0],
        false => door[edge][1] - reaches,
    };
    if (behind - (over - stop.gap.exact)).abs() > tolerance * 2.0 {
        wrong.push("it doesn't come so far into the opening as is printed".to_owned());
    }
    let inward = match inward > 0.0 {
        true => [reaches - across, reaches],
        false => [reaches, reaches + across],
    };
    let mut space = [[0.0; 2]; 3];
    space[edge] = inward;
    space[along] = door[along];
    space[2] = [door[2][1], door[2][1] + deep];
    let over = |one: &Space, other: &Space, axis: usize| {
        one[axis][1].min(other[axis][1]) - one[axis][0].max(other[axis][0])
    };
    // Nobody measures where it goes along the door: it is held in the middle of the room
    // that the boards behind the door leave.
    let placed: Vec<Space> = boards.iter().map(|own| own.placed(&whole(own.exact))).collect();
    let in_the_way =
        placed.iter().filter(|own| (0..3).all(|axis| over(&space, own, axis) > tolerance));
    let mut ends: Vec<[f64; 2]> = in_the_way.map(|own| own[along]).collect();
    ends.sort_by(|one, other| one[0].total_cmp(&other[0]));
    let (mut from, mut room) = (door[along][0], [door[along][0]; 2]);
    for [start, end] in ends.into_iter().chain([[door[along][1]; 2]]) {
        if start - from > room[1] - room[0] {
            room = [from, start];
        }
        from = from.max(end);
    }
    let middle = (room[0] + room[1]) / 2.0;
    space[along] = [middle - long / 2.0, middle + long / 2.0];
    if over(&space, &door, edge) < tolerance {
        wrong.push("it does not reach behind its door".to_owned());
    }
    let gaps = [0, 1, 2].map(|axis| over(&space, &carries, axis));
    let touches = gaps.iter().filter(|gap| gap.abs() <= tolerance).count() == 1
        && gaps.iter().all(|gap| *gap > -tolerance)
        && gaps.iter().filter(|gap| **gap > tolerance).count() == 2;
    if !touches {
        wrong.push(format!("{} does not carry it", stop.on));
    }
    for (board, own) in boards.iter().zip(&placed) {
        if (0..3).all(|axis| over(&space, own, axis) > tolerance) {
            wrong.push(format!("{} is where it stands", board.name()));
        }
    }
    wrong
}
