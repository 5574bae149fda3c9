//! How countertops are laid on where the piece stands.

use std::cmp::Reverse;

use crate::measure::Length;
use crate::model::{OnTop, Side, Stock};
use crate::parts::{Direction, Face, Part, PartId, Role, ScrewRow, screw_rows};
use crate::trade::Carry;

use super::Workings;
use super::weights::Lifted;

/// A countertop on its case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Laid {
    /// The countertop.
    pub part: PartId,
    /// Who carries it.
    pub carry: Carry,
    /// What stays free between its back edge and the wall, for solid wood to swell.
    pub free: Option<Length>,
    /// The ends that are scribed to a wall, and how much may come off there.
    pub ends: Vec<(Side, Length)>,
    /// How far it reaches past what lies under it: at the first end that is not scribed,
    /// and at the front.
    pub past: Vec<Past>,
    /// The rows of screws from the front back.
    pub rows: Vec<Row>,
}

/// How far a countertop reaches past a board under it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Past {
    /// The foremost or outermost upright there.
    pub board: PartId,
    /// `None` at the front.
    pub side: Option<Side>,
    /// So far; below zero where it stays back.
    pub by: Length,
}

/// A row of screws through a board under a countertop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// The board.
    pub board: PartId,
    /// The edge of it that the row counts from.
    pub edge: Face,
    /// How far from that edge it runs.
    pub at: Length,
    /// How many screws.
    pub screws: usize,
    /// They go through slots.
    pub slotted: bool,
}

impl Laid {
    /// The boards with round holes, which hold it fast, or those with slots.
    #[must_use]
    pub fn boards(&self, slotted: bool) -> Vec<PartId> {
        let mut boards: Vec<PartId> = Vec::new();
        for row in self.rows.iter().filter(|row| row.slotted == slotted) {
            if !boards.contains(&row.board) {
                boards.push(row.board);
            }
        }
        boards
    }
}

/// Every countertop of a piece.
#[must_use]
pub fn laid(work: &Workings<'_>) -> Vec<Laid> {
    let tops = work.parts.iter().filter(|(_, part)| part.role == Role::Countertop);
    tops.filter_map(|(id, part)| one(work, id, part, work.piece.top_over(part.case)?)).collect()
}

fn one(work: &Workings<'_>, id: PartId, part: &Part, top: &OnTop) -> Option<Laid> {
    let piece = work.piece;
    let own = work.parts.under(top);
    let rows = screw_rows(piece, top, &own);
    let held = rows.iter().find(|row| row.slot.is_none()).map(|row| row.z)?;
    let scribe = |side: Side| (side, side.of(&top.exposure).scribe().length);
    let ends = Side::BOTH.map(scribe).into_iter().filter(|(_, most)| most.is_positive());
    let ends: Vec<(Side, Length)> = ends.collect();
    let free_end = Side::BOTH.into_iter().find(|side| ends.iter().all(|(end, _)| end != side));
    let sides = free_end.map(Some).into_iter().chain([None]);
    let past = sides.filter_map(|side| past(part, &own, side)).collect();
    Some(Laid {
        part: id,
        carry: work.weights().carry(&Lifted::Countertop(part.case)),
        free: free(work, piece.stock(part.stock)?, part.extent(Direction::Z).1 - held),
        ends,
        past,
        rows: rows.iter().filter_map(|row| placed(work, row)).collect(),
    })
}

/// How far a countertop reaches past the outermost upright at a side, or the foremost one.
fn past(top: &Part, own: &[(PartId, &Part)], side: Option<Side>) -> Option<Past> {
    let upright =
        |part: &Part| matches!(part.role, Role::End(_) | Role::Post(_) | Role::Stile | Role::Cover);
    let uprights = own.iter().filter(|(_, part)| upright(part));
    let reach = |part: &Part| match side {
        None => -part.extent(Direction::Z).0,
        Some(Side::Left) => -part.extent(Direction::X).0,
        Some(Side::Right) => part.extent(Direction::X).1,
    };
    let reaches = uprights.map(|(id, part)| (*id, reach(part)));
    // The first of those that reach equally far.
    let (board, far) = reaches.min_by_key(|(_, far)| Reverse(*far))?;
    Some(Past { board, side, by: reach(top) - far })
}

fn placed(work: &Workings<'_>, row: &ScrewRow) -> Option<Row> {
    let board = work.parts.get(row.board)?;
    let edge = board.datum([Face::WidthStart, Face::WidthEnd]);
    let at = board.distance(edge, row.z - board.extent(Direction::Z).0);
    let (screws, slotted) = (row.count(), row.slot.is_some());
    Some(Row { board: row.board, edge, at, screws, slotted })
}

/// How far the back edge comes nearer to the wall on the dampest day, up to a mark of
/// the tape.
fn free(work: &Workings<'_>, stock: &Stock, behind: Length) -> Option<Length> {
    let damp = work.climate().swelling(stock, behind).dampest;
    (work.piece.site.fixed && damp.is_positive()).then(|| work.piece.tape().up(damp))
}
