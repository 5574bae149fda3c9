//! How a piece is fixed to a wall, and cut out round what is on it.

use crate::measure::{Length, Unit};

/// The screws that hold a nailer at each stud (common practice, no source).
pub const SCREWS_AT_STUD: u32 = 2;

/// How far a screw goes into a stud: 1-1/2 in or 38 mm, in the wood and not in
/// what the wall is lined with (common practice, no source).
#[must_use]
pub fn into_stud(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// How thick the wallboard of a usual room is: 1/2 in or 12.5 mm (common practice, no
/// source).
#[must_use]
pub fn wallboard(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(25).half())
}

/// How much larger a back is cut out than what it goes round, on every side: 1/2 in
/// or 12 mm (common practice, no source).
#[must_use]
pub fn cut_out_spare(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}
