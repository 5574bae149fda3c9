//! What is measured before wood is cut to fit it.

use std::cmp::Reverse;

use crate::measure::Length;
use crate::model::{Stock, StockId};
use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::assembly::{Task, is_glass};
use crate::trade;

use super::Doing;

/// A caliper reading of sheets before they are sawn, or of boards before the cuts
/// that take them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verify {
    /// The sheet, where whole sheets are measured.
    pub sheet: Option<StockId>,
    /// The boards that come out of it; else those that go in, all of one thickness.
    pub parts: Vec<PartId>,
    /// How thick they are drawn.
    pub figure: Length,
    /// How far they may be off before a cut no longer fits them.
    pub within: Length,
    /// What to do where one is thicker.
    pub thicker: Remedy,
    /// What to do where one is thinner.
    pub thinner: Remedy,
}

/// Readings of the moisture of solid wood, before it is milled: its gaps and the
/// floats of its panels are reckoned from what they should show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moisture {
    /// The stocks that are read.
    pub stocks: Vec<StockId>,
}

/// What brings a board and its cut together again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Remedy {
    /// The sheet is entered as measured, and the sizes and cuts move. That helps
    /// only while nothing is sawn.
    Enter,
    /// A board is planed to its figure.
    Plane,
    /// The board is made again, since no plane makes one thicker and no plane goes
    /// over plywood.
    Replace,
}

impl Remedy {
    /// Its name in the packet.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Enter => "enter as measured",
            Self::Plane => "plane",
            Self::Replace => "replace",
        }
    }
}

/// The reading of all solid wood that the piece is milled from.
pub(super) fn moisture(work: &Workings<'_>) -> Option<Doing> {
    let stocks: Vec<StockId> = (0..work.piece.stocks.len())
        .map(StockId)
        .filter(|id| work.piece.stock(*id).is_some_and(Stock::is_solid) && work.parts.uses(*id))
        .collect();
    (!stocks.is_empty()).then_some(Doing::Moisture(Moisture { stocks }))
}

/// The readings of every sheet that the piece is sawn from, the thickest first.
pub(super) fn sheets(work: &Workings<'_>) -> Vec<Doing> {
    let mut found = Vec::new();
    for (index, stock) in work.piece.stocks.iter().enumerate() {
        let sheet = StockId(index);
        let own = work.parts.iter().filter(|(_, part)| part.stock == sheet);
        let parts: Vec<PartId> = own.map(|(id, _)| id).collect();
        if !stock.is_sheet() || parts.is_empty() {
            continue;
        }
        found.push(Verify {
            sheet: Some(sheet),
            parts,
            figure: stock.thickness.length,
            within: trade::mating(),
            thicker: Remedy::Enter,
            thinner: Remedy::Enter,
        });
    }
    found.sort_by_key(|own| Reverse(own.figure));
    found.into_iter().map(Doing::Verify).collect()
}

/// The readings that a task asks for: of every board that goes into a channel
/// which is just as wide as the board is thick.
pub(super) fn gates(work: &Workings<'_>, task: &Task) -> Vec<Doing> {
    let mut found: Vec<Verify> = Vec::new();
    for (id, number) in &task.cuts {
        let host = work.parts.get(*id);
        let Some(feature) = host.and_then(|part| part.features.get(*number)) else { continue };
        let Some(host) = host.filter(|_| feature.is_channel()) else { continue };
        for guest in work.parts.lodged(host, feature) {
            let Some(part) = work.parts.get(guest) else { continue };
            // It lies in a rabbet, with beads behind it.
            if is_glass(work.piece, part) {
                continue;
            }
            let figure = part.thickness.length;
            if ![feature.u, feature.v].iter().any(|(from, to)| *to - *from == figure) {
                continue;
            }
            let solid = work.piece.stock(part.stock).is_some_and(Stock::is_solid);
            let thicker = if solid { Remedy::Plane } else { Remedy::Replace };
            match found.iter_mut().find(|own| (own.figure, own.thicker) == (figure, thicker)) {
                Some(own) => own.parts.push(guest),
                None => found.push(Verify {
                    sheet: None,
                    parts: vec![guest],
                    figure,
                    within: trade::mating(),
                    thicker,
                    thinner: Remedy::Replace,
                }),
            }
        }
    }
    for own in &mut found {
        own.parts.sort_unstable();
        own.parts.dedup();
    }
    found.sort_by_key(|own| (Reverse(own.figure), own.thicker));
    found.into_iter().map(Doing::Verify).collect()
}
