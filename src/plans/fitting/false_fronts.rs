//! The screws that hold a false front to its blocks.

use crate::measure::{Length, Unit};
use crate::parts::{Direction, Feature, FeatureKind, Front, Part};
use crate::plans::Workings;
use crate::trade;

use super::front_screws;
use super::screw_lengths::bought;
use super::screw_lines::{self, ScrewLine};
use super::screws::Long;

/// The most that a screw through a holding block goes into what it is fixed to: 3/4 in,
/// 20 mm (common practice, no source). A wide stile would take more, but may be mitered
/// at its far edge.
fn goes_in(unit: Unit) -> Length {
    unit.either(Length::inches(3, 4), Length::mm(20))
}

/// How long the screws are that hold a block to the board or stile that it lies against.
pub(super) fn into_side(block: &Part, board: &Part, unit: Unit) -> Long {
    let axis = block.touching(board).unwrap_or(block.placement.thickness);
    let own = block.cuboid().size(axis);
    let most = (board.cuboid().size(axis) - trade::short_of_face(unit)).min(goes_in(unit));
    bought(own + trade::into_face(unit), own + most, unit)
}

/// The screws from behind through a block into a front: how long, how many, and where.
pub(super) fn from_behind<'a>(
    work: &Workings<'a>,
    front: &'a Part,
    block: &'a Part,
) -> (Long, u32, Vec<ScrewLine<'a>>) {
    let tape = work.piece.tape();
    let unit = tape.unit;
    let count = trade::screws_along(block.length.length);
    let of = |own: &&Front<'a>| own.parts.iter().any(|part| std::ptr::eq(*part, front));
    let framed = work.fronts_of(front.case).iter().find(of).filter(|own| own.parts.len() > 1);
    let lines = match framed {
        Some(framed) => front_screws::through_block(framed, block, tape),
        None => screw_lines::from_behind(block, front, count, unit),
    };
    let shim = lines.first().map_or(Length::ZERO, |line| line.shim);
    let deep = block.cuboid().size(Direction::Z) + shim;
    let (least, most) = trade::front_bite(front.thickness.length, fluted(front), unit);
    (bought(deep + trade::thin_bite(least, most, unit), deep + most, unit), count, lines)
}

/// How deep the flutes in the face of a front are; zero without.
fn fluted(front: &Part) -> Length {
    let deep = |own: &Feature| match own.kind {
        FeatureKind::Flute(_) => Some(own.deep),
        _ => None,
    };
    front.features.iter().filter_map(deep).max().unwrap_or_default()
}
