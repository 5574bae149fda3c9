//! The sheets, cut by cut.

use serde::Serialize;

use crate::plans::sawing::{Cut, Gives, Sawn, Tool};
use crate::plans::sheets::OfStock;

use super::Maker;
use super::record::Figure;

#[derive(Serialize)]
pub(super) struct SheetData<'d> {
    sheet: usize,
    stock: &'d str,
    on_hand: bool,
    grain: &'static str,
    size: [Figure; 2],
    trim: Figure,
    cuts: Vec<CutData<'d>>,
    pieces: Vec<PieceData<'d>>,
    /// The fronts that lie beside each other on it as they stand.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    sequences: Vec<Vec<&'d str>>,
}

#[derive(Serialize)]
pub(super) struct CutData<'d> {
    first: usize,
    last: usize,
    /// Empty for the sheet.
    #[serde(rename = "in")]
    piece: &'d str,
    way: &'static str,
    off: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    tool: Option<&'static str>,
    gives: Vec<Given<'d>>,
}

/// What comes off.
#[derive(Serialize)]
#[serde(rename_all = "snake_case")]
enum Given<'d> {
    /// A piece that is cut on.
    Piece(&'d str),
    /// One of the pieces of the sheet that parts are made of, by its place among them.
    Rough(usize),
    /// What is lost of a board.
    Lost,
}

#[derive(Serialize)]
struct PieceData<'d> {
    part: &'d str,
    turned: bool,
    larger: bool,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn sheets(&self) -> Vec<SheetData<'d>> {
        let plans = self.work.sheets().iter();
        plans.flat_map(|own| own.sheets.iter().filter_map(|sheet| self.sheet(own, sheet))).collect()
    }

    fn sheet(&self, plan: &OfStock, own: &'d Sawn) -> Option<SheetData<'d>> {
        let stock = self.work.piece.stock(plan.stock)?;
        Some(SheetData {
            sheet: own.number,
            stock: &stock.name,
            on_hand: own.on_hand,
            grain: stock.sheet_grain().spelling(),
            size: own.size.map(|side| self.figure(side)),
            trim: self.figure(own.trim),
            cuts: own.cuts.iter().map(|cut| self.cut_in(cut)).collect(),
            pieces: own
                .laid
                .iter()
                .map(|laid| PieceData {
                    part: self.mark(laid.blank.part),
                    turned: laid.turned,
                    larger: laid.blank.later,
                })
                .collect(),
            sequences: plan
                .sequences
                .iter()
                .filter(|group| own.laid.iter().any(|laid| group.contains(&laid.blank.part)))
                .map(|group| group.iter().map(|id| self.mark(*id)).collect())
                .collect(),
        })
    }

    pub(super) fn cut_in(&self, cut: &'d Cut) -> CutData<'d> {
        let given = |gives: &'d Gives| match gives {
            Gives::Piece(name) => Given::Piece(name),
            Gives::Blank(index) => Given::Rough(*index),
            Gives::Lost => Given::Lost,
        };
        CutData {
            first: cut.numbers.0,
            last: cut.numbers.1,
            piece: &cut.from,
            way: cut.way.word(),
            off: self.mating(cut.off),
            tool: cut.tool.map(Tool::word),
            gives: cut.gives.iter().map(given).collect(),
        }
    }
}
