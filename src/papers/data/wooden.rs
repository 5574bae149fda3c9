//! Drawers that run on wood, in the terms of the schema.

use serde::Serialize;

use crate::parts::Part;
use crate::plans::fitting;

use super::Maker;
use super::lines::Refs;
use super::record::Figure;

/// A drawer on the boards of its case.
#[derive(Serialize)]
pub(super) struct OnWood<'d> {
    opening: &'d str,
    on: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    guides: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    kickers: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    runners: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    stops: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    stops_on: Vec<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    box_high: Option<Figure>,
    box_less: [Figure; 2],
    #[serde(skip_serializing_if = "Option::is_none")]
    behind_doors: Option<BehindDoors>,
    clear: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    stop: Option<[Figure; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    open: Option<Figure>,
    lines: Refs,
}

/// Where the strips of a drawer behind doors begin.
#[derive(Serialize)]
struct BehindDoors {
    front_end: Figure,
    past_edge: [Figure; 2],
}

impl<'d> Maker<'d, '_> {
    pub(super) fn on_wood(&self, own: &'d fitting::OnWood<'d>) -> OnWood<'d> {
        let marks = |parts: &[&'d Part]| parts.iter().map(|part| &*part.mark).collect();
        let sizes = own.less.iter().chain([&own.behind]);
        let stopped = own.stopped.as_ref();
        let stops = stopped.into_iter().flat_map(|own| [&own.back, &own.aside]);
        OnWood {
            opening: own.opening.title(),
            on: marks(&own.on),
            guides: marks(&own.guides),
            kickers: marks(&own.kickers),
            runners: marks(&own.runners),
            stops: marks(&own.stops),
            stops_on: marks(&own.stops_on),
            box_high: own.opening.box_high().map(|high| self.figure(high.length)),
            box_less: own.less.each_ref().map(|less| self.figure(less.length)),
            behind_doors: own.behind_doors.as_ref().map(|own| BehindDoors {
                front_end: self.figure(own.back.length),
                past_edge: own.past.each_ref().map(|past| self.figure(past.length)),
            }),
            clear: self.figure(own.behind.length),
            stop: stopped.map(|own| [self.figure(own.back.length), self.figure(own.aside.length)]),
            open: own.open.map(|open| self.figure(open)),
            lines: self.lines.of_sizes(&self.work.piece.facts, sizes.chain(stops)),
        }
    }
}
