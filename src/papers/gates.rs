//! What a step has its maker measure before the cuts that must fit it.

use crate::measure::{Length, MEASURED, Tape, Unit};
use crate::plans::operations::{Doing, Operation, Remedy, Verify};
use crate::trade;

use super::{Source, measured};

/// The lines of a step: what to caliper, when to stop, and the test cut.
pub(super) fn lines(source: &Source<'_, '_>, task: usize) -> Vec<String> {
    let own = source.work.operations().of(task).iter();
    let gates: Vec<&Verify> = own
        .filter_map(|operation| match &operation.doing {
            Doing::Verify(gate) => Some(gate),
            _ => None,
        })
        .collect();
    let (sheets, boards): (Vec<&Verify>, Vec<&Verify>) =
        gates.into_iter().partition(|gate| gate.sheet.is_some());
    let mut lines = of_sheets(source, &sheets);
    let read = |operation: &Operation| matches!(operation.doing, Doing::Moisture(_));
    if source.work.operations().of(task).iter().any(read) {
        lines.extend(of_moisture(source));
    }
    lines.extend(of_boards(source, &boards));
    lines
}

/// Whole sheets, before anything is sawn.
fn of_sheets(source: &Source<'_, '_>, gates: &[&Verify]) -> Vec<String> {
    let Some(first) = gates.first() else { return Vec::new() };
    let piece = source.work.piece;
    let tape = piece.tape();
    let mut lines =
        vec!["before you saw anything, caliper every sheet in four places along its edges".into()];
    for gate in gates {
        let name = gate.sheet.and_then(|id| piece.stock(id)).map_or("", |stock| &stock.name);
        lines.push(format!("{}: {name}", thick(tape, gate.figure)));
    }
    lines.push(format!(
        "where a sheet is off by more than {}, stop: enter the thickness that you measured, print these papers again, and work by the new ones",
        limit(tape, first.within)
    ));
    lines.push("take all parts of one stock from sheets that agree within that".into());
    lines
}

/// Solid wood, before it is milled.
fn of_moisture(source: &Source<'_, '_>) -> [String; 2] {
    let moisture = source.work.climate().milled.moisture;
    let mark = measured::air(source);
    [
        format!(
            "before you mill the solid wood, read its moisture in several boards: {moisture:.1}{mark} %"
        ),
        format!(
            "where one is off by more than {} point, stop: sticker the boards in the air of the shop, and wait until they come to that",
            trade::MOISTURE_WITHIN
        ),
    ]
}

/// Boards, before the cuts that take them.
fn of_boards(source: &Source<'_, '_>, gates: &[&Verify]) -> Vec<String> {
    let Some(first) = gates.first() else { return Vec::new() };
    let tape = source.work.piece.tape();
    let mut lines = vec![
        "before you cut, caliper the boards that go into these cuts, each in four places"
            .to_owned(),
    ];
    for gate in gates {
        let marks: Vec<&str> = gate.parts.iter().map(|id| source.work.parts.mark(*id)).collect();
        lines.push(format!("{}: {}", thick(tape, gate.figure), marks.join(", ")));
    }
    let has = |remedy: Remedy| gates.iter().any(|gate| gate.thicker == remedy);
    let what = match (has(Remedy::Plane), has(Remedy::Replace)) {
        (true, false) => "plane a thick one to its figure, and make a thin one again",
        (false, _) => "saw it again, from a sheet that is at the figure",
        (true, true) => {
            "plane a thick solid board to its figure, make a thin one again, and saw a part of sheet again from a sheet that is at the figure"
        }
    };
    lines
        .push(format!("where one is off by more than {}, stop: {what}", limit(tape, first.within)));
    lines.push(
        "make each cut in scrap first, and go on only when the board slides in by hand".to_owned(),
    );
    lines
}

/// `0.719 thick`.
fn thick(tape: &Tape, figure: Length) -> String {
    let mark = if figure.is_measured() { MEASURED } else { "" };
    format!("{}{mark} thick", tape.fine(figure))
}

/// A limit that no tape shows.
fn limit(tape: &Tape, within: Length) -> String {
    match tape.unit {
        Unit::Inch => tape.fine(within),
        _ => tape.exact(within),
    }
}
