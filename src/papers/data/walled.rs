//! Cases that are screwed to the wall.

use serde::Serialize;

use crate::measure::Length;
use crate::plans::operations::{Narrow, Wall};

use super::Maker;
use super::record::Figure;

#[derive(Serialize)]
pub(super) struct Walled<'d> {
    through: Vec<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nailer: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    back: Option<Figure>,
    screws: u32,
    least: Figure,
    into_stud: Figure,
    lining: Figure,
    screw: Figure,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    narrow: Vec<NarrowCase<'d>>,
}

#[derive(Serialize)]
struct NarrowCase<'d> {
    case: &'d str,
    wide: Figure,
    studs: Figure,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn walled(&self, wall: &Wall) -> Walled<'d> {
        let said = |length: Length| length.is_positive().then(|| self.figure(length));
        Walled {
            through: wall.nailers.iter().chain(&wall.backs).map(|id| self.mark(*id)).collect(),
            nailer: said(wall.thick),
            back: said(wall.back),
            screws: wall.screws,
            least: self.at_least(wall.least()),
            into_stud: self.figure(wall.into),
            lining: self.figure(wall.lining),
            screw: self.at_least(wall.screw(self.work.piece.tape().unit)),
            narrow: wall.narrow.iter().map(|own| self.narrow(own)).collect(),
        }
    }

    fn narrow(&self, own: &Narrow) -> NarrowCase<'d> {
        NarrowCase {
            case: self.work.piece.case(own.case).map_or("", |case| &case.name),
            wide: self.figure(own.wide),
            studs: self.figure(own.apart),
        }
    }
}
