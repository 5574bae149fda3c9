//! How the router, or the work over its table, is fed through a stopped cut: where
//! the bit goes in, toward which end, and where it stops.

use crate::measure::Length;
use crate::papers::figures::Figures;
use crate::parts::Part;
use crate::plans::guide::Guide;
use crate::plans::operations;
use crate::plans::setups::{Run, Setup};

/// The feed of one piece. The stops are told in the order in which the bit comes to
/// them.
pub(super) fn feed(part: &Part, run: &Run, setup: &Setup, figures: &Figures) -> String {
    let Some(datum) = run.datum(part) else { return String::new() };
    // Flutes have their straight-edge on the far side too.
    let guide = setup.guided.as_ref().map_or(Guide::Far, |guided| guided.guide);
    let way = operations::feed(part, guide, run.face, datum);
    let (first, _) = run.face.ends_of_run(setup.along);
    let (enters, ends) = run.stops_along(way.from == first);
    let (from, to) = (part.face_name(way.from), part.face_name(way.to));
    let stop = |length: Length| length.is_positive().then(|| figures.text(length));
    match (guide, stop(enters), stop(ends)) {
        (Guide::Near | Guide::Far, None, None) => {
            format!("run in at the {from}, and out at the {to}")
        }
        (Guide::Near | Guide::Far, Some(enters), None) => {
            format!("plunge {enters} from the {from}, feed toward the {to}, and run out there")
        }
        (Guide::Near | Guide::Far, None, Some(ends)) => {
            format!("run in at the {from}, feed toward the {to}, and stop {ends} short of it")
        }
        (Guide::Near | Guide::Far, Some(enters), Some(ends)) => format!(
            "plunge {enters} from the {from}, feed toward the {to}, and stop {ends} short of it"
        ),
        (Guide::Saw, ..) | (Guide::Table, None, None) => format!("{from} first, right through"),
        (Guide::Table, Some(enters), None) => format!(
            "{from} first: lower the work onto the bit {enters} behind the {from}, and feed until the bit runs out at the {to}"
        ),
        (Guide::Table, None, Some(ends)) => format!(
            "{from} first: feed until the bit is {ends} short of the {to}, and switch off before you lift the work"
        ),
        (Guide::Table, Some(enters), Some(ends)) => format!(
            "{from} first: lower the work onto the bit {enters} behind the {from}, feed until the bit is {ends} short of the {to}, and switch off before you lift the work"
        ),
    }
}
