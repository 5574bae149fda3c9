//! How long the strip is that a door closes against, and where it lies.

use crate::model::{Axis, Edge, OpeningId, Size};
use crate::plans::fitting::Stop;
use crate::trade;

use super::teller::Teller;
use super::{Subject, Sum};

/// The stop of an opening.
pub(super) fn of_opening(tell: &Teller<'_>, opening: OpeningId) -> Vec<Sum> {
    let stops = tell.work.fitting().stops.iter().filter(|stop| stop.opening.id == opening);
    stops.flat_map(|stop| of_stop(tell, stop)).collect()
}

fn of_stop(tell: &Teller<'_>, stop: &Stop<'_>) -> Vec<Sum> {
    let about = [Subject::Stop];
    let axis = match stop.edge {
        Edge::Left | Edge::Right => Axis::Down,
        Edge::Top | Edge::Bottom => Axis::Across,
    };
    let spare = tell.custom(
        trade::stop_spare(tell.tape.unit),
        "spare",
        "1/4 in or 6 mm in all: common practice, no source",
    );
    let long: Size = stop.opening.along(axis) - &spare;
    vec![
        tell.length(&about, "stop, long", stop.size[0].length, &long),
        tell.length(&about, "stop, set-back", stop.set_back.length, &stop.set_back),
    ]
}
