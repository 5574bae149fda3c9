//! Panes of glass as a glazier cuts them.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{Build, Fronts, Piece, Stock, StockId};
use crate::parts::{Direction, Of, Part, PartId, Parts, Role};
use crate::trade;

use super::Workings;

/// How the edges of a pane are finished by the glazier.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Edges {
    /// They are bare, and hands touch them.
    Polished,
    /// They lie hidden in a frame: only their sharpness is taken off.
    Seamed,
}

impl Edges {
    /// Those of a pane.
    #[must_use]
    pub fn of(part: &Part) -> Self {
        match part.role {
            Role::AdjustableShelf => Self::Polished,
            _ => Self::Seamed,
        }
    }

    /// How a glazier is asked for them.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Polished => "edges polished",
            Self::Seamed => "edges seamed",
        }
    }
}

/// Panes of one size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Panes {
    /// The longer and the shorter side.
    pub size: [Length; 2],
    /// What is done to their edges.
    pub edges: Edges,
    /// How many.
    pub count: i64,
}

/// The panes that are still to come of a stock of glass, the largest first.
#[must_use]
pub fn panes(work: &Workings<'_>, id: StockId) -> Vec<Panes> {
    let mut alike: BTreeMap<(Reverse<[Length; 2]>, Edges), i64> = BTreeMap::new();
    for (_, part) in work.left_of(id) {
        let [one, other] = [part.length.length, part.width.length];
        let size = Reverse([one.max(other), one.min(other)]);
        *alike.entry((size, Edges::of(part))).or_default() += 1;
    }
    let of = |((Reverse(size), edges), count)| Panes { size, edges, count };
    alike.into_iter().map(of).collect()
}

/// A pane in a frame, with what holds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Light {
    /// The pane.
    pub pane: PartId,
    /// How much smaller it is than its rabbet on every side.
    pub clear: Length,
    /// The beads round it, each with how many pins hold it.
    pub beads: Vec<(PartId, i64)>,
    /// How long the pins are.
    pub pin: Length,
}

/// Every pane that beads hold, in the order of the panes.
#[must_use]
pub fn lights(piece: &Piece, parts: &Parts) -> Vec<Light> {
    let unit = piece.tape().unit;
    let panes = parts.iter().filter(|(_, part)| {
        part.role == Role::FrontPanel && piece.stock(part.stock).is_some_and(Stock::is_glass)
    });
    let light = |(id, pane): (PartId, &Part)| {
        let Build::Panel(build) = &front_of(piece, pane)?.build else { return None };
        let clear = build.glazed.as_ref()?.clear.length;
        let meets = |bead: &Part| {
            let (own, other) = (bead.cuboid(), pane.cuboid());
            own.overlaps_along(&other, Direction::X) && own.overlaps_along(&other, Direction::Y)
        };
        let beads = parts
            .iter_case(pane.case)
            .filter(|(_, bead)| bead.role == Role::Bead && bead.of == pane.of && meets(bead));
        let beads: Vec<(PartId, &Part)> = beads.collect();
        let wide = beads.iter().map(|(_, bead)| bead.width.length).max()?;
        let pins = |(id, bead): &(PartId, &Part)| (*id, trade::bead_pins(bead.length.length, unit));
        Some(Light {
            pane: id,
            clear,
            beads: beads.iter().map(pins).collect(),
            pin: trade::bead_pin(wide, unit),
        })
    };
    panes.filter_map(light).collect()
}

/// What is said of the front that a part is of.
fn front_of<'p>(piece: &'p Piece, part: &Part) -> Option<&'p Fronts> {
    let Of::Front(front) = part.of else { return None };
    piece.opening(front.opening)?.front.as_ref()
}
