//! Panes in the terms of the schema.

use serde::Serialize;

use crate::parts::PartId;
use crate::plans::glass::{Edges, Light};

use super::Maker;
use super::record::{Figure, What};

/// A pane as it is ordered.
#[derive(Serialize)]
pub(super) struct Pane<'d> {
    part: &'d str,
    stock: &'d str,
    size: [Figure; 3],
    edges: &'static str,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    mirror: bool,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    tempered: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    less: Option<Figure>,
}

/// A pane that is held by beads.
#[derive(Serialize)]
pub(super) struct Glaze<'d> {
    pane: &'d str,
    clear: Figure,
    beads: Vec<Bead<'d>>,
    pin: Figure,
}

/// A bead and its pins.
#[derive(Serialize)]
struct Bead<'d> {
    part: &'d str,
    pins: i64,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn pane(&self, id: PartId) -> Option<What<'d>> {
        let part = self.work.parts.get(id)?;
        let said = self.work.piece.stock(part.stock)?.pane;
        Some(What::Pane(Pane {
            part: self.mark(id),
            stock: self.stock(part),
            size: self.figures(part.sizes()),
            edges: match Edges::of(part) {
                Edges::Polished => "polished",
                Edges::Seamed => "seamed",
            },
            mirror: said.mirror.is_some(),
            tempered: said.tempered.is_some(),
            less: self.light_of(id).map(|light| self.figure(light.clear.twice())),
        }))
    }

    fn light_of(&self, pane: PartId) -> Option<&'d Light> {
        self.work.lights().iter().find(|light| light.pane == pane)
    }

    pub(super) fn glaze(&self, index: usize) -> Option<What<'d>> {
        let light = self.work.lights().get(index)?;
        let bead = |(id, pins): &(PartId, i64)| Bead { part: self.mark(*id), pins: *pins };
        Some(What::Glaze(Glaze {
            pane: self.mark(light.pane),
            clear: self.figure(light.clear),
            beads: light.beads.iter().map(bead).collect(),
            pin: self.figure(light.pin),
        }))
    }
}
