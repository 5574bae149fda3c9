//! What is measured before wood is cut to fit it.

use crate::measure::Length;
use crate::model::Stock;
use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::assembly::Task;
use crate::trade;

use super::Doing;

/// A caliper reading of boards that go into a cut, before it is made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verify {
    /// The boards that go in, all of one thickness.
    pub parts: Vec<PartId>,
    /// How thick they are drawn.
    pub figure: Length,
    /// How far they may be off before the cut no longer fits them.
    pub within: Length,
    /// What to do where they are further off.
    pub remedy: Remedy,
}

/// What brings a board and its cut together again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Remedy {
    /// A sheet keeps its thickness: it is entered as measured, and the cuts move.
    Enter,
    /// A board is planed to its figure.
    Plane,
}

impl Remedy {
    /// Its name in the packet.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Enter => "enter as measured",
            Self::Plane => "plane",
        }
    }
}

/// The readings that a task asks for: of every board that goes into a channel
/// which is just as wide as the board is thick.
pub(super) fn gates(work: &Workings<'_>, task: &Task) -> Vec<Doing> {
    let mut found: Vec<Verify> = Vec::new();
    for (id, number) in &task.cuts {
        let host = work.parts.get(*id);
        let Some(feature) = host.and_then(|part| part.features.get(*number)) else { continue };
        let Some(guest) = feature.takes.filter(|_| feature.is_channel()) else { continue };
        let Some(part) = work.parts.get(guest) else { continue };
        let figure = part.thickness.length;
        if ![feature.u, feature.v].iter().any(|(from, to)| *to - *from == figure) {
            continue;
        }
        let solid = work.piece.stock(part.stock).is_some_and(Stock::is_solid);
        let remedy = if solid { Remedy::Plane } else { Remedy::Enter };
        match found.iter_mut().find(|own| (own.figure, own.remedy) == (figure, remedy)) {
            Some(own) if own.parts.contains(&guest) => {}
            Some(own) => own.parts.push(guest),
            None => {
                found.push(Verify { parts: vec![guest], figure, within: trade::mating(), remedy });
            }
        }
    }
    for own in &mut found {
        own.parts.sort_unstable();
    }
    found.sort_by_key(|own| (std::cmp::Reverse(own.figure), own.remedy));
    found.into_iter().map(Doing::Verify).collect()
}
