//! Rows of holes for shelf pins, as data.

use serde::Serialize;

use crate::parts::Direction;
use crate::plans::fitting::{PinRows, Struck};

use super::Maker;
use super::lines::Refs;
use super::record::Figure;

/// Rows of holes in one face of a board.
#[derive(Serialize)]
pub(super) struct Rows<'d> {
    opening: &'d str,
    #[serde(skip_serializing_if = "Option::is_none")]
    over: Option<&'d str>,
    part: &'d str,
    face: String,
    from: [String; 2],
    above: Figure,
    first: Figure,
    pitch: Figure,
    holes: u32,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    leaps: Vec<Leap>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    no_shelf: Vec<NoShelf<'d>>,
    rows: Vec<Figure>,
    diameter: Figure,
    deep: Figure,
    shelves: Vec<(&'d str, u32)>,
    lines: Refs,
}

/// Two neighbors of a row that stand further apart than the others.
#[derive(Serialize)]
pub(super) struct Leap {
    after: u32,
    up: Figure,
}

/// Holes of a row where a shelf would strike a hinge, a nailer, or a block.
#[derive(Serialize)]
pub(super) struct NoShelf<'d> {
    #[serde(skip_serializing_if = "Option::is_none")]
    hinge: Option<u32>,
    /// What it is bored into, where its door is not before the shelf.
    #[serde(skip_serializing_if = "Option::is_none")]
    door: Option<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nailer: Option<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    block: Option<&'d str>,
    holes: Vec<u32>,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn rows(&self, rows: &'d PinRows<'d>, board: usize) -> Option<Rows<'d>> {
        let own = rows.boards.get(board)?;
        let part = own.part;
        let end = part.placement.face(Direction::Y, true);
        Some(Rows {
            opening: rows.opening.title(),
            over: rows.over.map(|shelf| &*shelf.mark),
            part: &part.mark,
            face: part.face_name(own.face),
            from: [end, own.edge()].map(|face| part.face_name(face)),
            above: self.figure(own.first - rows.first),
            first: self.figure(own.first),
            pitch: self.hardware(rows.pins.pitch),
            holes: rows.hole(rows.count),
            leaps: rows
                .leaps()
                .into_iter()
                .map(|leap| Leap { after: leap.after, up: self.hardware(leap.up) })
                .collect(),
            no_shelf: rows
                .blocked
                .iter()
                .map(|own| {
                    let holes = rows.holes(&own.places);
                    let none =
                        NoShelf { hinge: None, door: None, nailer: None, block: None, holes };
                    match own.by {
                        Struck::Hinge(number) => NoShelf { hinge: Some(number), ..none },
                        Struck::Beside(number, mark) => {
                            NoShelf { hinge: Some(number), door: Some(mark), ..none }
                        }
                        Struck::Nailer(mark) => NoShelf { nailer: Some(mark), ..none },
                        Struck::Block(mark) => NoShelf { block: Some(mark), ..none },
                    }
                })
                .collect(),
            rows: own.rows.into_iter().flatten().map(|row| self.figure(row)).collect(),
            diameter: self.hardware(rows.pins.hole),
            deep: self.hardware(rows.pins.deep),
            shelves: rows
                .shelves
                .iter()
                .map(|(shelf, place)| (&*shelf.mark, rows.hole(*place)))
                .collect(),
            lines: self.lines.at([rows.opening.span].into_iter().chain(rows.pins.span)),
        })
    }
}
