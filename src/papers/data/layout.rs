//! What is struck with a pencil, in the terms of the schema.

use serde::Serialize;

use crate::measure::Length;
use crate::parts::{Face, Feature, FeatureKind, Part, PartId};
use crate::plans::{fitting, layout, operations};

use super::Maker;
use super::record::{Figure, Line, Pockets, Row, Stretch, Tails};

/// A board with the lines on it.
#[derive(Serialize)]
pub(super) struct Stick<'d> {
    pub(super) part: &'d str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) face: Option<String>,
    pub(super) lines: Vec<Line<'d>>,
}

/// The line of the screws between two boards.
#[derive(Serialize)]
pub(super) struct ScrewLine<'d> {
    through: &'d str,
    face: String,
    into: &'d str,
    from: [String; 2],
    at: Figure,
    first: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    apart: Option<Figure>,
    count: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    shim: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bored: Option<usize>,
}

impl<'d> Maker<'d, '_> {
    /// A board with the lines on it.
    pub(super) fn stick(&self, stick: &layout::Stick) -> Option<Stick<'d>> {
        let host = self.work.parts.get(stick.host)?;
        let stretch =
            |own: layout::Stretch| self.struck(host.face_name(own.datum), own.from, own.to);
        let line = |line: &layout::Line| Line {
            part: self.mark(line.part),
            along: stretch(line.along),
            across: line.across.map(stretch),
        };
        let face = stick.face.map(|face| host.face_name(face));
        Some(Stick { part: &host.mark, face, lines: stick.lines.iter().map(line).collect() })
    }

    /// Two lines that are struck with a rule: at marks of the tape.
    fn struck(&self, from: String, start: Length, end: Length) -> Stretch {
        Stretch { from, start: self.figure(start), end: self.figure(end) }
    }

    /// The pocket holes of a joint, from the marked edge.
    pub(super) fn pockets(&self, part: &Part, feature: &Feature) -> Option<Box<Pockets>> {
        let FeatureKind::Pockets(count, _) = feature.kind else { return None };
        let edge = part.datum([Face::WidthStart, Face::WidthEnd]);
        let all = feature.pocket_places(count).into_iter();
        let mut places: Vec<Length> = all.map(|place| part.distance(edge, place)).collect();
        places.sort_unstable();
        let centers = places.into_iter().map(|place| self.figure(place)).collect();
        Some(Box::new(Pockets { from: part.face_name(edge), centers }))
    }

    /// The holes of a dowel joint.
    pub(super) fn row(&self, part: &Part, feature: &Feature) -> Option<Box<Row>> {
        let FeatureKind::Dowels(count, diameter, long) = feature.kind else { return None };
        let [u, v] = operations::sides(feature.face);
        let along_u = self.work.parts.runs_along_u(part, feature);
        let (along, across) = if along_u { (u, v) } else { (v, u) };
        let [along, across] = [along, across].map(|(first, last)| part.datum([first, last]));
        let row = self.work.parts.dowels(part, feature, count);
        let beside = part.distance(across, row.beside);
        let mut places: Vec<Length> =
            row.places.into_iter().map(|place| part.distance(along, place)).collect();
        places.sort_unstable();
        Some(Box::new(Row {
            from: [along, across].map(|face| part.face_name(face)),
            centers: places
                .into_iter()
                .map(|place| [self.figure(place), self.figure(beside)])
                .collect(),
            diameter: diameter.map(|own| self.mating(own)),
            dowel: self.figure(long),
        }))
    }

    /// The line of the screws between two boards.
    pub(super) fn screw_line(&self, own: &'d fitting::ScrewLine<'d>) -> ScrewLine<'d> {
        let face = |face| own.through.face_name(face);
        ScrewLine {
            through: &own.through.mark,
            face: face(own.face),
            into: &own.into.mark,
            from: [face(own.edge), face(own.end)],
            at: self.figure(own.at),
            first: self.figure(own.first),
            apart: own.apart.is_positive().then(|| self.figure(own.apart)),
            count: own.count,
            shim: own.shim.is_positive().then(|| self.figure(own.shim)),
            bored: self.bored(own.through),
        }
    }

    /// The step in which the screw holes of a board are bored, when that is before they are
    /// driven.
    fn bored(&self, through: &Part) -> Option<usize> {
        let assembly = self.work.assembly();
        let id = self.work.parts.id_of(through)?;
        let task = assembly.tasks.iter().position(|task| task.bores.contains(&id))?;
        assembly.schedule.slots.get(task).map(|slot| slot.order + 1)
    }

    /// The tails of a board.
    pub(super) fn tails(&self, id: PartId, end: Face) -> Option<Tails> {
        let at = |own: &&layout::Tails| own.part == id && own.end.is_none_or(|own| own == end);
        let own = self.work.layout().tails.iter().find(at)?;
        let edge = self.work.parts.get(id)?.face_name(own.datum);
        let along =
            own.tails.iter().map(|(from, to)| self.struck(edge.clone(), *from, *to)).collect();
        Some(Tails { slope: own.slope, along })
    }
}
