//! When a part comes to its size: with the first cuts, or from what is made.

use crate::model::{Piece, Stock};
use crate::parts::{Part, Role};

use super::gluing;

/// What a part takes its size from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// The cut list: the case, its base and its face frame.
    First,
    /// The case, fitted dry and square: its back.
    DryFit,
    /// The openings as they came out: fronts, drawer boxes, loose shelves, and
    /// what packs a slide or a hinge out to the edge of its opening.
    Openings,
}

/// What a part takes its size from. A drawer box cut before its opening is made
/// fits only by luck (common practice: drawers are cut after the case).
#[must_use]
pub fn stage(part: &Part) -> Stage {
    match part.role {
        Role::Packer
        | Role::HingeBlock
        | Role::HoldingBlock
        | Role::Guide
        | Role::Kicker
        | Role::Runner
        | Role::Stop
        | Role::AdjustableShelf
        | Role::Slab
        | Role::FrontStile
        | Role::FrontRail
        | Role::FrontPanel
        | Role::Bead
        | Role::DrawerSide
        | Role::DrawerFront
        | Role::DrawerBack
        | Role::DrawerBottom => Stage::Openings,
        Role::Back => Stage::DryFit,
        Role::End(_)
        | Role::Post(_)
        | Role::EndRail(_)
        | Role::EndPanel(_)
        | Role::Bottom
        | Role::Top
        | Role::Countertop
        | Role::Stretcher
        | Role::Nailer(_)
        | Role::Partition
        | Role::Divider
        | Role::FixedShelf
        | Role::WebRail
        | Role::WebRunner
        | Role::DustPanel
        | Role::Leg
        | Role::Kick
        | Role::BaseMember
        | Role::BaseLeg
        | Role::Stile
        | Role::Rail
        | Role::Filler
        | Role::Cover
        | Role::Batten => Stage::First,
    }
}

/// True for what is sawn from a sheet only when its place is made and measured.
pub(crate) fn is_sawn_later(piece: &Piece, part: &Part) -> bool {
    stage(part) != Stage::First && !is_broken_down_first(piece, part) && !is_glass(piece, part)
}

/// True for a pane, which comes from the glazier at its size.
pub(crate) fn is_glass(piece: &Piece, part: &Part) -> bool {
    piece.stock(part.stock).is_some_and(Stock::is_glass)
}

/// True for what is taken from the stock with the first cuts. Boards are broken
/// down at one go, since a rough piece has wood to spare, and what is glued up must
/// cure; a sheet is sawn once, to size.
pub(crate) fn is_broken_down_first(piece: &Piece, part: &Part) -> bool {
    let solid = piece.stock(part.stock).is_some_and(Stock::is_solid);
    stage(part) == Stage::First || solid || gluing::is_blank(piece, part)
}
