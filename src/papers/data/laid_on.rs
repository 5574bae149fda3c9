//! A countertop that is laid on its cases.

use serde::Serialize;

use crate::plans::countertops::{Laid, Row};

use super::Maker;
use super::done::carried_by;
use super::record::Figure;

#[derive(Serialize)]
pub(super) struct LaidOn<'d> {
    part: &'d str,
    by: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    free: Option<Figure>,
    ends: Vec<ScribedEnd>,
    past: Vec<PastBoard<'d>>,
    rows: Vec<RowOfScrews<'d>>,
}

#[derive(Serialize)]
struct PastBoard<'d> {
    board: &'d str,
    side: &'static str,
    by: Figure,
}

#[derive(Serialize)]
struct RowOfScrews<'d> {
    part: &'d str,
    from: String,
    at: Figure,
    screws: usize,
    slotted: bool,
}

#[derive(Serialize)]
struct ScribedEnd {
    side: &'static str,
    most: Figure,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn laid_on(&self, laid: &Laid) -> LaidOn<'d> {
        LaidOn {
            part: self.work.parts.mark(laid.part),
            by: carried_by(laid.carry),
            free: laid.free.map(|free| self.figure(free)),
            ends: laid
                .ends
                .iter()
                .map(|(side, most)| ScribedEnd { side: side.word(), most: self.figure(*most) })
                .collect(),
            past: laid
                .past
                .iter()
                .map(|past| PastBoard {
                    board: self.mark(past.board),
                    side: past.side.map_or("front", |side| side.word()),
                    by: self.figure(past.by),
                })
                .collect(),
            rows: laid.rows.iter().filter_map(|row| self.screw_row(row)).collect(),
        }
    }

    fn screw_row(&self, row: &Row) -> Option<RowOfScrews<'d>> {
        let board = self.work.parts.get(row.board)?;
        Some(RowOfScrews {
            part: &board.mark,
            from: board.face_name(row.edge),
            at: self.figure(row.at),
            screws: row.screws,
            slotted: row.slotted,
        })
    }
}
