//! Stops: the shop holds each strip behind its closed door by the printed
//! figures, and looks whether it reaches behind the door, whether wood carries it, and
//! whether its place is free.

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
    let place = |mark: &String| {
        let board = boards.iter().find(|board| board.part.mark == *mark);
        board.map(|board| board.placed(&whole(board.exact)))
    };
    let Some(carries) = place(&stop.on) else { return vec![format!("there is no {}", stop.on)] };
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
    // In the middle of the door along its edge, and so far over it as is printed.
    let gap = stop.gap.print;
    let (edge, along) = match stop.edge {
        Edge::Left | Edge::Right => (0, 1),
        Edge::Top | Edge::Bottom => (1, 0),
    };
    let inward = match stop.edge {
        Edge::Left | Edge::Bottom => {
            let at = door[edge][0] - gap + stop.over.print;
            [at - across, at]
        }
        Edge::Right | Edge::Top => {
            let at = door[edge][1] + gap - stop.over.print;
            [at, at + across]
        }
    };
    let middle = (door[along][0] + door[along][1]) / 2.0;
    let mut space = [[0.0; 2]; 3];
    space[edge] = inward;
    space[along] = [middle - long / 2.0, middle + long / 2.0];
    space[2] = [door[2][1], door[2][1] + deep];
    let over = |one: &Space, other: &Space, axis: usize| {
        one[axis][1].min(other[axis][1]) - one[axis][0].max(other[axis][0])
    };
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
    for board in boards {
        let own = board.placed(&whole(board.exact));
        if (0..3).all(|axis| over(&space, &own, axis) > tolerance) {
            wrong.push(format!("{} is where it stands", board.name()));
        }
    }
    wrong
}
