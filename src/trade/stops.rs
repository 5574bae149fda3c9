//! Strips and catches behind doors that nothing else stops: common practice, no source.

use crate::measure::{Length, Unit};

/// How far a stop stands into the opening behind a door, and how thick it is where it
/// lies flat: 3/8 in, 10 mm.
#[must_use]
pub fn stop_over(unit: Unit) -> Length {
    unit.either(Length::inches(3, 8), Length::mm(10))
}

/// How wide a strip is that is fixed to a board beside the door: 3/4 in, 19 mm.
#[must_use]
pub fn door_stop_wide(unit: Unit) -> Length {
    unit.either(Length::inches(3, 4), Length::mm(19))
}

/// The farthest that a board may lie behind the edge of an opening and still carry its
/// stop: 1-1/2 in, 38 mm.
#[must_use]
pub fn widest_stop(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// How much shorter a stop is than its opening: 1/4 in, 6 mm.
#[must_use]
pub fn stop_spare(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

/// From the corner of a door to the center of its catch: 1-1/2 in, 40 mm.
#[must_use]
pub fn catch_from_corner(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(40))
}
