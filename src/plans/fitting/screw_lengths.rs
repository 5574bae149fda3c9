//! How long the screws are that hold board to board.

use crate::measure::{Length, Unit};
use crate::parts::Part;
use crate::trade;

use super::screws::Long;

/// How far a screw goes into the end or edge of a board: 1 in, 25 mm (common
/// practice, no source).
pub(super) fn into_end(unit: Unit) -> Length {
    unit.either(Length::inches(1, 1), Length::mm(25))
}

/// Through a board so thick into the end or edge of one so deep: 1 in, 25 mm, or as much as
/// a shallow board takes short of its far side.
pub(super) fn into_edge(thick: Length, deep: Length, unit: Unit) -> Long {
    let (least, usual) = (thick + into_end(unit), into_end(unit).twice());
    let most = thick + deep - trade::short_of_face(unit);
    match trade::shortest_sold(least, most, unit) {
        Some(sold) => Long::Is(sold),
        None if deep < usual => bought(thick + trade::into_face(unit), most, unit),
        None => Long::AtLeast(least),
    }
}

/// Through a block into the board that it lies on, short of its far face.
pub(super) fn through(block: &Part, board: &Part, unit: Unit) -> Long {
    let axis = block.touching(board).unwrap_or(board.placement.thickness);
    let own = block.cuboid().size(axis);
    let most = own + board.cuboid().size(axis) - trade::short_of_face(unit);
    bought(own + trade::into_face(unit), most, unit)
}

/// The longest screw that is sold in a length of `least` to `most`.
pub(super) fn bought(least: Length, most: Length, unit: Unit) -> Long {
    let least = least.min(most);
    trade::screw_sold(least, most, unit).map_or(Long::Between(least, most), Long::Is)
}
