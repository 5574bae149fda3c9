//! Dadoes and grooves that a plain blade of the table saw cuts.

use crate::measure::Tape;
use crate::model::Shop;
use crate::parts::{Channel, FeatureKind};
use crate::plans::guide::{self, Board, Guided};
use crate::plans::sawing::Tool;
use crate::trade;
use crate::vocabulary::DadoTool;

use super::Cutter;

/// A channel by the saw.
pub(super) struct Sawn {
    /// The blade.
    pub(super) blade: Cutter,
    /// Where the fence or the stop is set.
    pub(super) guided: Guided,
    /// What the board is pushed along.
    pub(super) push: Tool,
}

/// How the saw cuts a channel; `None` where the shop cuts them with the router, and for what
/// the router is left: whatever stops in the wood, a step along an edge, a cut in an edge,
/// one that is narrower than the blade, and a board that neither fence nor sled takes.
pub(super) fn sawn(
    shop: &Shop,
    tape: &Tape,
    kind: FeatureKind,
    channel: &Channel,
    board: Board,
) -> Option<Sawn> {
    let is_cut = matches!(kind, FeatureKind::Dado | FeatureKind::Groove);
    let far = channel.from + channel.wide;
    let inside = channel.from.is_positive() && far < board.across;
    let fits = shop.kerf <= channel.wide + trade::mating();
    if shop.dadoes != DadoTool::Saw || !(is_cut && inside && fits) {
        return None;
    }
    if !board.through || !board.face.is_broad() || far > shop.fence {
        return None;
    }
    let push = Tool::of(shop, tape.unit, (board.run, far, board.across));
    let blade =
        Cutter { name: None, diameter: shop.kerf, speed: None, shank: None, notes: Vec::new() };
    let guided = guide::on_saw(channel, shop.kerf);
    (push != Tool::Guide).then_some(Sawn { blade, guided, push })
}
