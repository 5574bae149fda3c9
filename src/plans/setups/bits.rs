//! Which bit cuts what.

use crate::measure::Length;
use crate::model::{Bit, BitShape, Piece};
use crate::parts::{Feature, FeatureKind};
use crate::plans::guide::Guide;
use crate::trade;

use super::{Cutter, Setup};

/// The bit for a cut: the flute's own, or the widest straight bit of the spec
/// that goes into the channel, or the usual one that does.
pub(super) fn cutter(piece: &Piece, feature: &Feature, wide: Length) -> Cutter {
    let bit = match feature.kind {
        FeatureKind::Flute(index) => piece.bit(index),
        _ => piece
            .bits
            .iter()
            .filter(|bit| bit.shape == BitShape::Straight && bit.diameter <= wide + trade::mating())
            .max_by_key(|bit| bit.diameter),
    };
    let diameter =
        bit.map_or_else(|| trade::usual_bit(wide, piece.tape().unit), |bit| bit.diameter);
    cutter_of(bit, diameter)
}

/// A bit of the spec, or one that is asked for.
fn cutter_of(bit: Option<&Bit>, diameter: Length) -> Cutter {
    let limit = trade::speed_limit(diameter);
    Cutter {
        name: bit.map(|bit| bit.name.clone()),
        shank: bit.and_then(|bit| bit.shank),
        notes: bit.map(|bit| bit.notes.clone()).unwrap_or_default(),
        diameter,
        speed: Some(bit.and_then(|bit| bit.speed).map_or(limit, |speed| speed.min(limit))),
    }
}

/// A bit that cuts a rabbet at one setting: wider than it, and over its edge. It is
/// of the spec, or one that other cuts ask for anyway, or a usual one where there is none
/// for this cut; `None` where the one at hand does it already, or none is wide enough.
pub(super) fn rabbet_cutter(
    piece: &Piece,
    narrow: &Cutter,
    wide: Length,
    needed: &[Cutter],
) -> Option<Cutter> {
    if wide - narrow.diameter <= trade::mating() {
        return None;
    }
    let unit = piece.tape().unit;
    let least = wide + trade::rabbet_overhang(unit);
    let most = trade::widest_by_hand(unit);
    let own = piece.bits.iter().filter(|bit| bit.shape == BitShape::Straight);
    let own = own.filter(|bit| (least..=most).contains(&bit.diameter)).min_by_key(|b| b.diameter);
    match own {
        Some(bit) => Some(cutter_of(Some(bit), bit.diameter)),
        None if narrow.name.is_some() => None,
        None => {
            let there = needed.iter().filter(|bit| (least..=most).contains(&bit.diameter));
            let there = there.min_by_key(|bit| bit.diameter).cloned();
            there
                .or_else(|| trade::usual_rabbet_bit(wide, unit).map(|usual| cutter_of(None, usual)))
        }
    }
}

/// Straight bits that cut a rabbet at one setting of the straight-edge: what hangs
/// over the edge cuts nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OtherBits {
    /// The narrowest.
    pub least: Length,
    /// The widest that a hand leads.
    pub most: Length,
    /// From the datum to the straight-edge, and half the width of the bit.
    pub wall: Length,
}

impl Setup {
    /// Which other bits cut the rabbet of this set-up; nothing for any other cut, or
    /// where its guide stands on the side of the datum.
    #[must_use]
    pub fn other_bits(&self, piece: &Piece) -> Option<OtherBits> {
        let far = self.guided.as_ref().is_some_and(|guided| guided.guide == Guide::Far);
        let line = self.lines.first().filter(|line| far && line.from.is_zero())?;
        let tape = piece.tape();
        let least = tape.up(line.wide + trade::rabbet_overhang(tape.unit));
        let most = trade::widest_by_hand(tape.unit);
        let wall = line.wide + piece.shop.base_plate.half();
        (least <= most).then_some(OtherBits { least, most, wall })
    }
}
