//! The boards, cut by cut.

use serde::Serialize;

use crate::plans::boards::OfLumber;
use crate::plans::sawing::{Laid, Sawn};

use super::Maker;
use super::record::Figure;
use super::sheets::CutData;

#[derive(Serialize)]
pub(super) struct BoardData<'d> {
    board: usize,
    stock: &'d str,
    on_hand: bool,
    size: [Figure; 2],
    lost: Vec<[Figure; 2]>,
    cuts: Vec<CutData<'d>>,
    pieces: Vec<PieceData<'d>>,
}

#[derive(Serialize)]
struct PieceData<'d> {
    part: &'d str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    lips: Vec<Lip<'d>>,
}

/// A strip that is ripped from the piece.
#[derive(Serialize)]
struct Lip<'d> {
    part: &'d str,
    edge: String,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn boards(&self) -> Vec<BoardData<'d>> {
        let plans = self.work.boards().iter();
        plans.flat_map(|own| own.boards.iter().filter_map(|board| self.board(own, board))).collect()
    }

    fn board(&self, plan: &OfLumber, own: &'d Sawn) -> Option<BoardData<'d>> {
        let stock = self.work.piece.stock(plan.stock)?;
        Some(BoardData {
            board: own.number,
            stock: &stock.name,
            on_hand: own.on_hand,
            size: own.size.map(|side| self.figure(side)),
            lost: own
                .lost
                .iter()
                .map(|(from, to)| [*from, *to].map(|end| self.figure(end)))
                .collect(),
            cuts: own.cuts.iter().map(|cut| self.cut_in(cut)).collect(),
            pieces: own.laid.iter().map(|laid| self.rough(laid)).collect(),
        })
    }

    fn rough(&self, laid: &'d Laid) -> PieceData<'d> {
        let lip = |(id, number): &(_, usize)| {
            let part = self.work.parts.get(*id)?;
            let edge = part.face_name(part.strips.get(*number)?.face);
            Some(Lip { part: self.mark(*id), edge })
        };
        PieceData {
            part: self.mark(laid.blank.part),
            lips: laid.blank.strips.iter().filter_map(lip).collect(),
        }
    }
}
