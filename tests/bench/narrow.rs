//! Cases that may have no stud behind them: what is narrower than studs stand apart is told so,
//! and nothing else is. Studs stand 16 in apart, 406 mm, or 400 mm.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::board::{Board, whole};
use super::packet::{Figure, Packet, Work};

/// A case that may have no stud behind it.
#[derive(Debug, Deserialize)]
pub(super) struct NarrowCase {
    pub(super) case: String,
    pub(super) wide: Figure,
    pub(super) studs: Figure,
}

/// Studs stand no closer, and no two ends beside a nailer are thicker together; in
/// millimeters.
const STUDS: f64 = 400.0;
const ENDS: f64 = 60.0;

/// What is wrong with what is told of studs. A case that hangs may say itself how many it has.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let mut found = Vec::new();
    let unit = |millimeters: f64| packet.job.unit.mm(millimeters);
    let (studs_at, ends) = (unit(STUDS), unit(ENDS));
    for operation in &packet.operations {
        let Work::Walled(wall) = &operation.work else { continue };
        let spans = spans(boards, &wall.through, ends);
        for own in &wall.narrow {
            let name = format!("{}.", own.case);
            let mut own_boards = boards.iter().filter(|own| own.part.path.starts_with(&name));
            let is_there = own_boards.any(|own| wall.through.contains(&own.part.mark));
            let (wide, studs) = (own.wide.print, own.studs.print);
            if !is_there || wide >= studs || (studs - studs_at).abs() > unit(10.0) {
                found.push(format!("{}: told to be narrow, at {wide} of {studs}", own.case));
            }
        }
        let hangs = packet
            .operations
            .iter()
            .any(|other| other.step == operation.step && matches!(other.work, Work::Lift(_)));
        // Each group of nailers end to end is held by one stud at least, or told.
        let short = spans.iter().filter(|[from, to]| to - from + ends < studs_at - tolerance);
        if !hangs && wall.narrow.len() < short.count() {
            found.push("nothing tells what holds a case where no stud is".to_owned());
        }
    }
    found
}

/// From where to where the cases of these boards reach along the piece, between their ends:
/// those with no more than two ends and the sides of two frames between them as one.
fn spans(boards: &[Board<'_>], marks: &[String], ends: f64) -> Vec<[f64; 2]> {
    let mut cases: BTreeMap<&str, [f64; 2]> = BTreeMap::new();
    for board in boards.iter().filter(|own| marks.contains(&own.part.mark)) {
        let case = board.part.path.split('.').next().unwrap_or_default();
        let [from, to] = board.placed(&whole(board.exact))[0];
        let own = cases.entry(case).or_insert([from, to]);
        *own = [own[0].min(from), own[1].max(to)];
    }
    let mut own: Vec<[f64; 2]> = cases.into_values().collect();
    own.sort_by(|one, other| one[0].total_cmp(&other[0]));
    let mut all: Vec<[f64; 2]> = Vec::new();
    for [from, to] in own {
        match all.last_mut() {
            Some(last) if from <= last[1] + 2.0 * ends => last[1] = last[1].max(to),
            _ => all.push([from, to]),
        }
    }
    all
}
