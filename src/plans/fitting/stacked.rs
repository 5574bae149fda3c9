//! The screws of a case that stands on another.

use crate::parts::{StackRow, stack_rows};
use crate::plans::Workings;
use crate::trade;

use super::screw_lengths::bought;
use super::screw_lines;
use super::screws::{Fastening, Joined, Purpose};

/// What holds a case down on the one that it stands on: in round holes on the lines of its
/// rows, and in slots.
pub(super) fn screwed<'a>(work: &Workings<'a>, own: &Joined<'a>) -> Fastening<'a> {
    let (unit, part, into) = (work.piece.tape().unit, own.part, own.into);
    let (least, usual) = trade::countertop_bite(unit);
    let above = part.thickness.length;
    let through = above + into.thickness.length - trade::short_of_face(unit);
    let rows = work.piece.case(part.case).map(|case| stack_rows(work.piece, work.parts, case));
    let is_own =
        |row: &StackRow| work.parts.get(row.into).is_some_and(|board| std::ptr::eq(board, into));
    let rows: Vec<StackRow> = rows.unwrap_or_default().into_iter().filter(is_own).collect();
    let round = rows.iter().filter(|row| row.slot.is_none());
    let lines =
        round.flat_map(|row| screw_lines::upright([part, into], true, (row.z, &row.screws)));
    Fastening {
        purpose: Purpose::Stacked,
        long: bought(above + least, through.min(above + usual), unit),
        count: rows.iter().map(StackRow::count).sum(),
        part,
        into: vec![into],
        joint: Some(own.index),
        hole: None,
        lines: lines.collect(),
    }
}
