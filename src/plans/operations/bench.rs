//! What is done at the bench that takes no wood and closes no joint: measuring,
//! trying, waiting, sanding, finishing.

use crate::measure::{Days, Duration, Length};
use crate::model::{CaseId, FinishId, KeepOutId, OpeningId};
use crate::parts::PartId;
use crate::plans::finish::{Coat, Coated};

/// What is measured before parts are cut to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Measure {
    /// What.
    pub what: Measured,
    /// Further off its drawn size than this, stop: it is written back, and the
    /// papers are made anew. `None` where parts are simply cut to it.
    pub within: Option<Length>,
    /// By how much the parts stay shorter than what is measured.
    pub less: Length,
    /// The parts that are cut to it.
    pub parts: Vec<PartId>,
}

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// An opening, as wide and high as it came out, and both its diagonals.
    Opening(OpeningId),
    /// A case that stands dry, for its back.
    Case(CaseId),
    /// From the side of the case to the edge of an opening, for what packs a
    /// slide or a hinge out.
    Packed,
    /// From the edge of an opening to the board above or below it, for the strips of a
    /// drawer on wood.
    OverUnder,
    /// The front of a drawer box, which its bottom is shorter than.
    BoxFront,
    /// The length of its sides, which its bottom comes short of from front to back.
    BoxSide,
    /// The height of its sides, which its back is lower than.
    BoxHigh,
    /// Between the boards on both sides of a loose shelf.
    Between,
    /// Where something in the room really is.
    KeepOut(KeepOutId),
}

/// Put together without glue.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DryFit {
    /// Which parts.
    pub parts: Vec<PartId>,
    /// How long the glue will stay open; `None` where there is no haste.
    pub open: Option<Duration>,
}

/// A face frame is laid on its case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FrameOn {
    /// Each outer stile that is glued flat, the end that it is glued on, and how far
    /// its outer edge stands beyond the outside face of that; short of it where that
    /// is negative.
    pub stiles: Vec<(PartId, PartId, Length)>,
    /// How many pairs of clamping blocks are glued along the miters; zero without.
    pub pairs: u32,
    /// How many cauls press down what lies between the outer stiles; zero where
    /// nothing does.
    pub cauls: u32,
}

/// Sanding, before the first coat.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sand {
    /// The grits, in their order.
    pub grits: &'static [u32],
    /// The grit that sheets are begun with, where solid wood is begun with a coarser one.
    pub sheets_from: Option<u32>,
    /// How long a glued joint is left alone first.
    pub cured: Duration,
}

/// A coat of finish.
#[derive(Clone, Debug, PartialEq)]
pub struct Coating {
    /// Of which finish.
    pub finish: FinishId,
    /// Which coat, from 1.
    pub number: u32,
    /// The surface that it goes on, sort by sort, in square meters; empty where it
    /// goes on single parts.
    pub areas: Vec<(Coated, f64)>,
    /// How much it takes.
    pub coat: Coat,
    /// The single parts that it goes on.
    pub parts: Vec<PartId>,
    /// The parts that have this coat already.
    pub before: Vec<PartId>,
    /// The parts of which no coat goes on the faces and edges that a drawer on wood runs
    /// along; told with the first.
    pub bare: Vec<PartId>,
}

/// How long wood, glue, or finish stands before the next work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rest {
    /// For what.
    pub why: Why,
    /// How long; `None` until the wood has come to the air of the shop.
    pub long: Option<Duration>,
}

/// What it stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// Wood comes to the air of the shop before it is milled.
    Acclimate,
    /// In the clamps.
    Clamps,
    /// The glue cures, for so long of it in the clamps.
    Cure(Duration),
    /// The glue sets while screws hold it.
    Set,
    /// A coat dries.
    Dry,
    /// What was ordered comes; so long it takes.
    Come(Days),
}

impl Why {
    /// Its name in the packet.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Acclimate => "acclimate",
            Self::Clamps => "in the clamps",
            Self::Cure(_) => "cure",
            Self::Set => "set",
            Self::Dry => "dry",
            Self::Come(_) => "come",
        }
    }
}
