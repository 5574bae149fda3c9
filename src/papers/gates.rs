//! What a step has its maker measure before the cuts that must fit it.

use crate::measure::{MEASURED, Unit};
use crate::plans::operations::{Doing, Remedy, Verify};

use super::Source;

/// The lines of a step: what to caliper, when to stop, and the test cut.
pub(super) fn lines(source: &Source<'_, '_>, task: usize) -> Vec<String> {
    let own = source.work.operations().of(task).iter();
    let gates: Vec<&Verify> = own
        .filter_map(|operation| match &operation.doing {
            Doing::Verify(gate) => Some(gate),
            _ => None,
        })
        .collect();
    let Some(first) = gates.first() else { return Vec::new() };
    let tape = source.work.piece.tape();
    let mut lines = vec![
        "before you cut, caliper the boards that go into these cuts, each in four places"
            .to_owned(),
    ];
    for gate in &gates {
        let marks: Vec<&str> = gate.parts.iter().map(|id| source.work.parts.mark(*id)).collect();
        let mark = if gate.figure.is_measured() { MEASURED } else { "" };
        lines.push(format!("{}{mark} thick: {}", tape.fine(gate.figure), marks.join(", ")));
    }
    let within = match tape.unit {
        Unit::Inch => tape.fine(first.within),
        _ => tape.exact(first.within),
    };
    let has = |remedy: Remedy| gates.iter().any(|gate| gate.remedy == remedy);
    let what = match (has(Remedy::Enter), has(Remedy::Plane)) {
        (true, false) => {
            "enter the thickness of the sheet as `measured`, and print these papers again"
        }
        (false, _) => "plane the board to its figure",
        (true, true) => {
            "plane a board to its figure; enter the thickness of a sheet as `measured`, and print these papers again"
        }
    };
    lines.push(format!("where one is off by more than {within}, stop: {what}"));
    lines.push(
        "make each cut in scrap first, and go on only when the board slides in by hand".to_owned(),
    );
    lines
}
