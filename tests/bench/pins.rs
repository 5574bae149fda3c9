//! Shelf pins: the shop bores each row by the printed figures, and looks whether the holes lie
//! in sound wood and whether each shelf lies level on four of them.

use std::collections::{BTreeMap, BTreeSet};

use super::board::{Board, Sort, whole};
use super::figures::said;
use super::packet::{Packet, Rows, Work};
use super::spoiled::noticed;
use super::wood::{Space, common};
use crate::support::{compile, packet, spec};

/// A shelf ends so near to its pins at least, in millimeters, or it slips off (common
/// practice, no source).
const NEAR: f64 = 6.0;

/// What is wrong with the pins of a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let mut wrong = Vec::new();
    let near = packet.job.unit.mm(NEAR);
    let mut under: BTreeMap<&str, Vec<Space>> = BTreeMap::new();
    for operation in &packet.operations {
        let Work::Rows(rows) = &operation.work else { continue };
        let Some(board) = boards.iter().find(|board| board.part.mark == rows.part) else {
            continue;
        };
        match holes(board, rows) {
            Err(what) => wrong.push(format!("{}: its rows of pins: {what}", board.name())),
            Ok(holes) => {
                wrong.extend(unsound(board, &holes, tolerance));
                for (shelf, hole) in &rows.shelves {
                    let own = holes.iter().filter(|(number, _)| number == hole);
                    under.entry(shelf).or_default().extend(own.map(|(_, hole)| *hole));
                }
            }
        }
    }
    for (mark, pins) in under {
        let Some(shelf) = boards.iter().find(|board| board.part.mark == mark) else { continue };
        let lies = shelf.placed(&whole(shelf.exact));
        let tips = tips(&lies, &pins, (near, tolerance));
        wrong.extend(tips.map(|what| format!("the shelf {mark} {what}")));
    }
    wrong
}

/// Why a shelf does not lie on its pins.
fn tips(shelf: &Space, pins: &[Space], (near, tolerance): (f64, f64)) -> Option<String> {
    let middle = |[from, to]: [f64; 2]| (from + to) / 2.0;
    let level = pins.iter().map(|pin| middle(pin[1]));
    let (low, high) =
        level.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
    if high - low > 2.0 * tolerance {
        return Some(format!("rocks: its pins differ by {}", said(high - low)));
    }
    // It lies on the middle of its pins' holes, as it is drawn there.
    let off = low - shelf[1][0];
    if off.abs() > 2.0 * tolerance {
        return Some(format!("lies {} off its drawn height", said(off)));
    }
    for (side, name) in [(0, "left"), (1, "right")] {
        let own: Vec<&Space> =
            pins.iter().filter(|pin| (middle(pin[0]) > middle(shelf[0])) == (side == 1)).collect();
        if own.len() != 2 {
            return Some(format!("has {} pins at its {name}", own.len()));
        }
        for pin in &own {
            let apart = match side {
                0 => shelf[0][0] - pin[0][1],
                _ => pin[0][0] - shelf[0][1],
            };
            if apart > near + tolerance {
                return Some(format!("ends {} before a pin at its {name}", said(apart)));
            }
            if pin[2][0] < shelf[2][0] - tolerance || pin[2][1] > shelf[2][1] + tolerance {
                return Some(format!("does not cover a pin at its {name}"));
            }
        }
        let [one, other] = [middle(own[0][2]), middle(own[1][2])];
        if (one - other).abs() < (shelf[2][1] - shelf[2][0]) / 4.0 {
            return Some(format!("has both pins of its {name} at one place"));
        }
    }
    None
}

/// What a hole breaks into: the edge of its board, or what a tool took out of it.
fn unsound(board: &Board<'_>, holes: &[(u32, Space)], tolerance: f64) -> Option<String> {
    let wood = board.placed(&whole(board.exact));
    for (number, hole) in holes {
        let is_out = |axis: usize| {
            hole[axis][0] < wood[axis][0] - tolerance || hole[axis][1] > wood[axis][1] + tolerance
        };
        if (0..3).any(is_out) {
            return Some(format!("{}: pin hole {number} comes out of it", board.name()));
        }
        let hollow = board.cuts.iter().find(|cut| {
            let both = match cut.sort {
                Sort::Channel | Sort::Mortise | Sort::Notch | Sort::Bore => {
                    common(hole, &board.placed(&cut.space))
                }
                Sort::Flute
                | Sort::Slot
                | Sort::Glazing
                | Sort::Tenon
                | Sort::Dovetails
                | Sort::Miter(..)
                | Sort::Hidden => None,
            };
            both.is_some_and(|both| both.iter().all(|[from, to]| to - from > tolerance))
        });
        if hollow.is_some() {
            return Some(format!("{}: pin hole {number} breaks into a cut", board.name()));
        }
    }
    None
}

/// The holes of the rows of pins in a board, each with its number as a hand counts them from
/// the lowest, in the piece.
pub(super) fn holes(board: &Board<'_>, rows: &Rows) -> Result<Vec<(u32, Space)>, String> {
    let face = board.face(&rows.face)?;
    let [end, edge] = [board.face(&rows.from[0])?, board.face(&rows.from[1])?];
    let axes: BTreeSet<usize> = [face.axis, edge.axis, end.axis].into();
    if axes.len() != 3 {
        return Err("they do not lie in the face".to_owned());
    }
    let radius = rows.diameter.exact / 2.0;
    // The bit goes up from hole to hole, by the pitch or by what is printed for it.
    let mut up = rows.first.print;
    let heights: Vec<(u32, f64)> = (1..=rows.holes)
        .map(|number| {
            let at = (number, up);
            let leap = rows.leaps.iter().find(|leap| leap.after == number);
            up += leap.map_or(rows.pitch.exact, |leap| leap.up.exact);
            at
        })
        .collect();
    let places = heights
        .into_iter()
        .flat_map(|(number, up)| rows.rows.iter().map(move |row| (number, up, row.print)));
    let hole = |(number, up, across): (u32, f64, f64)| {
        let mut hole: Space = whole(board.exact);
        let [up, across] = [board.counted(end, [up; 2])[0], board.counted(edge, [across; 2])[0]];
        hole[end.axis] = [up - radius, up + radius];
        hole[edge.axis] = [across - radius, across + radius];
        hole[face.axis] = match face.is_end {
            true => [board.exact[face.axis] - rows.deep.exact, board.exact[face.axis]],
            false => [0.0, rows.deep.exact],
        };
        (number, board.placed(&hole))
    };
    Ok(places.map(hole).collect())
}

/// Worked by hand: the rows of the press have steps of 32, so that a shelf one hole too high
/// lies 32 off.
#[test]
fn a_shelf_on_another_hole() {
    let mut spoiled = packet(&compile(&spec("tide-cottage-press.case")));
    let rows = spoiled["operations"].as_array_mut().unwrap().iter_mut();
    for row in rows.filter(|own| own["kind"] == "bore rows") {
        let hole = row["shelves"][0][1].as_u64().unwrap();
        row["shelves"][0][1] = (hole + 1).into();
    }
    noticed(spoiled, |_| {}, "lies 32 off its drawn height");
}
