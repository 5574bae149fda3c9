//! A run: cases side by side with the strips and free places between them.

use crate::measure::{Length, Span};
use crate::vocabulary::Side;

use super::case::Exposure;
use super::countertop::Countertop;
use super::id::StockId;
use super::insertion::Insertion;
use super::rows::Row;
use super::size::Size;

/// A run of cases, solved. Its cases stand among those of the piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseRun {
    /// Its name.
    pub name: String,
    /// The statement.
    pub span: Span,
    /// From the left side of the whole piece to its left side.
    pub x: Length,
    /// The same as the sum of what stands there.
    pub beside: Size,
    /// Over all: cases, fillers, and spaces.
    pub wide: Size,
    /// Its cases that stand on one base, row by row from the left.
    pub bases: Vec<Row>,
    /// What its two sides meet.
    pub exposure: [Exposure; 2],
    /// What is laid on its cases.
    pub countertop: Option<Countertop>,
    /// Its free places, left to right.
    pub spaces: Vec<Space>,
    /// Where the back of all its cases is said, or would be.
    pub back_at: Insertion,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// A place that stays free, for an appliance or as a space for knees.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Space {
    /// Its name.
    pub name: String,
    /// The whole name: `kitchen.dishwasher`.
    pub path: String,
    /// The statement.
    pub span: Span,
    /// From the left side of the whole piece to its left side.
    pub x: Length,
    /// From side to side.
    pub wide: Size,
    /// Where its width can be written anew; `None` where it follows from the others.
    pub wide_at: Option<Insertion>,
    /// The width and height of what it takes; `None` where it stays empty.
    pub takes: Option<[Size; 2]>,
    /// What stays clear at each side of that and above it.
    pub clear: Size,
    /// The countertop of the run leaves it open, so that what stands there may be higher.
    pub is_open: bool,
    /// The height of the cases beside it.
    pub high: Size,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// A strip between an end of a case and the wall, or the next case. It belongs to the
/// case whose end it is fastened to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Filler {
    /// The end of its case that it stands at.
    pub side: Side,
    /// Its name.
    pub name: String,
    /// The name of its run, behind which its own comes.
    pub run: String,
    /// The statement.
    pub span: Span,
    /// From its case to what is at its other side, as drawn.
    pub wide: Size,
    /// Where its width can be written anew; `None` where it follows from the others.
    pub wide_at: Option<Insertion>,
    /// How much of that may come off at a wall; `None` where it meets none.
    pub scribe: Option<Size>,
    /// What it is made of.
    pub stock: StockId,
    /// How far its batten reaches back.
    pub batten: Size,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

impl Filler {
    /// Its whole name.
    #[must_use]
    pub fn path(&self) -> String {
        format!("{}.{}", self.run, self.name)
    }

    /// What is left of it where all of its scribe comes off.
    #[must_use]
    pub fn least(&self) -> Length {
        let off = self.scribe.as_ref().map_or(Length::ZERO, |scribe| scribe.length);
        self.wide.length - off
    }
}
