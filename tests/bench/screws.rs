//! Screw lines: the shop strikes each one by the printed figures, and looks whether
//! every screw goes through wood of the one board and into wood of the other.

use std::collections::BTreeSet;

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{Face, Fasten, Held, Packet, ScrewLine, Work};
use super::pins;
use super::wood::{Space, common};

/// A screw of #8 is 4 mm wide, and its core 3; it holds nothing that it does not reach by
/// 8 mm (common practice, no source).
const WIDE: f64 = 4.0;
const REACHES: f64 = 8.0;

/// What is wrong with the screws of a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let lines = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::ScrewLine(line) => Some((operation.step, line)),
        _ => None,
    });
    let (mut wrong, mut driven) = (Vec::new(), Vec::new());
    for (step, line) in lines {
        let name = format!("screws through {} into {}", line.through, line.into);
        wrong.extend(too_soon(packet, step, line).map(|what| format!("{name}: {what}")));
        match struck(packet, boards, line, (long(packet, step, line), tolerance)) {
            Err(what) => wrong.push(format!("{name}: {what}")),
            Ok(screws) => driven.extend(screws.into_iter().map(|screw| (name.clone(), screw))),
        }
    }
    let pins: Vec<(String, Space)> = packet
        .operations
        .iter()
        .filter_map(|own| match &own.work {
            Work::Rows(rows) => {
                boards.iter().find(|board| board.part.mark == rows.part).map(|board| (rows, board))
            }
            _ => None,
        })
        .flat_map(|(rows, board)| {
            // What is wrong with them is told by themselves.
            let holes = pins::holes(board, rows).unwrap_or_default();
            holes.into_iter().map(|(_, hole)| (board.name(), hole))
        })
        .collect();
    for (name, screw) in &driven {
        let met = pins.iter().find(|(_, pin)| {
            let both = common(screw, pin);
            both.is_some_and(|both| both.iter().all(|[from, to]| to - from > tolerance))
        });
        wrong.extend(met.map(|(board, _)| format!("{name}: they meet a pin hole of {board}")));
    }
    // Two screws do not stand in one place.
    for (index, (one, space)) in driven.iter().enumerate() {
        let met = driven[index + 1..].iter().find(|(_, other)| {
            let both = common(space, other);
            both.is_some_and(|both| both.iter().all(|[from, to]| to - from > tolerance))
        });
        wrong.extend(met.map(|(other, _)| format!("{one}: they meet {other}")));
    }
    wrong
}

/// Why the holes of a line can't be bored when it says: the line counts from edges that
/// the board has only when it is sawn to size, and a screw needs its hole.
fn too_soon(packet: &Packet, step: u32, line: &ScrewLine) -> Option<String> {
    let bored = line.bored?;
    if bored > step {
        return Some(format!("they are driven in step {step}, and bored in step {bored}"));
    }
    let sawn = packet.operations.iter().filter(|own| match &own.work {
        Work::Mill(mill) => mill.parts.contains(&line.through),
        Work::Edge(edge) => edge.part == line.through,
        _ => false,
    });
    let sawn = sawn.map(|own| own.step).max().filter(|sawn| *sawn > bored)?;
    Some(format!(
        "they are bored in step {bored}, and {} comes to size in step {sawn}",
        line.through
    ))
}

/// The screws of a line where it can be struck.
pub(super) fn of_line(
    packet: &Packet,
    boards: &[Board<'_>],
    (step, line): (u32, &ScrewLine),
    tolerance: f64,
) -> Vec<Space> {
    let long = long(packet, step, line);
    struck(packet, boards, line, (long, tolerance)).unwrap_or_default()
}

/// How long the screws of a line are, where one length is printed: those of its step that
/// hold its two boards, or else that hold the one that they go through.
fn long(packet: &Packet, step: u32, line: &ScrewLine) -> Option<f64> {
    let fastened = packet.operations.iter().filter(|own| own.step == step);
    let all: Vec<&Fasten> = fastened
        .filter_map(|own| match &own.work {
            Work::Fasten(own) => Some(own),
            _ => None,
        })
        .collect();
    let both = |held: &Held| {
        let pair = |one: &String, other: &String| held.part == *one && held.into.contains(other);
        pair(&line.through, &line.into) || pair(&line.into, &line.through)
    };
    let found = all
        .iter()
        .find(|own| own.held.iter().any(both))
        .or_else(|| all.iter().find(|own| own.held.iter().any(|held| held.part == line.through)));
    let size = found.and_then(|own| own.size.as_ref());
    size.and_then(|size| size.is.as_ref()).map(|size| size.exact)
}

/// Where the head of a screw is: two axes of its board, each with the place along it.
type Head = [(usize, f64); 2];

/// The screws of a line on their board: the face that they are driven into, and the place
/// of each along the two other axes of the board, the last of which the line runs along.
pub(super) fn heads(board: &Board<'_>, line: &ScrewLine) -> Result<(Face, Vec<Head>), String> {
    let face = board.face(&line.face)?;
    let [edge, end] = [board.face(&line.from[0])?, board.face(&line.from[1])?];
    let axes: BTreeSet<usize> = [face.axis, edge.axis, end.axis].into();
    if axes.len() != 3 {
        return Err("its line does not lie in the face".to_owned());
    }
    let apart = line.apart.as_ref().map_or(0.0, |apart| apart.print);
    let place = |number: u32| {
        let along = line.first.print + apart * f64::from(number);
        let own = |face: Face, at: f64| (face.axis, board.counted(face, [at; 2])[0]);
        [own(edge, line.at.print), own(end, along)]
    };
    Ok((face, (0..line.count).map(place).collect()))
}

fn struck(
    packet: &Packet,
    boards: &[Board<'_>],
    line: &ScrewLine,
    (long, tolerance): (Option<f64>, f64),
) -> Result<Vec<Space>, String> {
    let board = |mark: &String| {
        let board = boards.iter().find(|board| board.part.mark == *mark);
        board.ok_or_else(|| format!("there is no {mark}"))
    };
    let (through, into) = (board(&line.through)?, board(&line.into)?);
    let mm = |millimeters: f64| packet.job.unit.mm(millimeters);
    let (face, heads) = heads(through, line)?;
    let mut screws = Vec::new();
    for (number, head) in (1..).zip(heads) {
        let mut hole: Space = whole(through.exact);
        for (axis, at) in head {
            hole[axis] = [at - mm(WIDE) / 2.0, at + mm(WIDE) / 2.0];
        }
        free(through, &hole, tolerance)?;
        // On through the far face into what is behind it.
        let deep = through.exact[face.axis];
        let shim = line.shim.as_ref().map_or(0.0, |shim| shim.print);
        let reaches = long.map_or(mm(REACHES), |long| long - deep - shim);
        // A thin board is held by half of it.
        let thick = into.exact.iter().copied().fold(f64::MAX, f64::min);
        if reaches < mm(REACHES).min(thick / 2.0) - tolerance {
            return Err(format!("a screw of {} is too short", said(deep + shim + reaches)));
        }
        let mut tip = hole;
        tip[face.axis] = match face.is_end {
            true => [-shim - reaches, -shim],
            false => [deep + shim, deep + shim + reaches],
        };
        let tip = into.own(&through.placed(&tip));
        free(into, &tip, tolerance).map_err(|what| format!("screw {number}: {what}"))?;
        let mut screw = hole;
        screw[face.axis] = match face.is_end {
            true => [-shim - reaches, deep],
            false => [0.0, deep + shim + reaches],
        };
        screws.push(through.placed(&screw));
    }
    Ok(screws)
}

/// Whether a board has wood all through a space, in its own axes.
fn free(board: &Board<'_>, space: &Space, tolerance: f64) -> Result<(), String> {
    let size = whole(board.exact);
    let inside = (0..3).all(|axis| {
        space[axis][0] > size[axis][0] - tolerance && space[axis][1] < size[axis][1] + tolerance
    });
    if !inside {
        return Err(format!("it misses {}", board.name()));
    }
    for cut in &board.cuts {
        for gone in cut.gone(board.exact) {
            let Some(both) = common(&gone, space) else { continue };
            if both.iter().all(|[from, to]| to - from > tolerance) {
                return Err(format!("{} is cut away there", board.name()));
            }
        }
    }
    Ok(())
}
