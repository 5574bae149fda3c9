//! Drawers that run on wood.

use crate::measure::{Length, Unit};

/// Left above the box of a drawer on wood on the dampest day: 1/32 in or 1 mm (common
/// practice, no source).
#[must_use]
pub fn above_box(unit: Unit) -> Length {
    unit.either(Length::inches(1, 32), Length::mm(1))
}

/// Left between the box of a drawer on wood and the back of its case, so that the
/// front meets its stops first: 1/2 in or 12 mm (common practice, no source).
#[must_use]
pub fn behind_box(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}

/// How far the back of the box of a drawer on wood stays below its sides, so that air
/// gets out and nothing catches: 1/4 in or 6 mm (common practice, no source).
#[must_use]
pub fn back_below_sides(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

/// How far a solid bottom that is pushed in from behind stands past the back of its box:
/// 1/8 in or 3 mm (common practice, no source).
#[must_use]
pub fn bottom_past_back(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// How wide a kicker or runner is, and how high a guide: 1 in or 25 mm (common
/// practice, no source).
#[must_use]
pub fn strip_wide(unit: Unit) -> Length {
    unit.either(Length::inches(1, 1), Length::mm(25))
}

/// The thinnest strip that is worth making over or under a drawer: 1/4 in or 6 mm (common practice, no source).
#[must_use]
pub fn thinnest_strip(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

/// The thinnest guide that is glued on the runner under it by its edge: 1/2 in or 12 mm
/// (common practice, no source).
#[must_use]
pub fn thinnest_guide(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}

/// How long a drawer stop is, along the drawer: 2 in or 50 mm (common practice, no
/// source).
#[must_use]
pub fn stop_long(unit: Unit) -> Length {
    unit.either(Length::inches(2, 1), Length::mm(50))
}

/// The shortest drawer stop that holds where it is glued: 3/4 in or 20 mm (common
/// practice, no source).
#[must_use]
pub fn shortest_stop(unit: Unit) -> Length {
    unit.either(Length::inches(3, 4), Length::mm(20))
}

/// How wide a drawer stop is: 1-1/4 in or 30 mm (common practice, no source).
#[must_use]
pub fn stop_wide(unit: Unit) -> Length {
    unit.either(Length::inches(5, 4), Length::mm(30))
}

/// How far a drawer stop stays below the bottom that passes over it: 1/8 in or 3 mm
/// (common practice, no source).
#[must_use]
pub fn below_bottom(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// The greatest height of a drawer stop: 3/8 in or 9 mm (common practice, no source).
#[must_use]
pub fn stop_high(unit: Unit) -> Length {
    unit.either(Length::inches(3, 8), Length::mm(9))
}

/// How much farther apart the guides stand at their rear ends than at the front, so
/// that the drawer never wedges: 1/32 in or 1 mm (common practice, no source).
#[must_use]
pub fn guides_open(unit: Unit) -> Length {
    unit.either(Length::inches(1, 32), Length::mm(1))
}

/// Left at the back shoulders of the runners in a web frame beyond what the ends of its
/// case shrink: 1/32 in or 1 mm (common practice, no source).
#[must_use]
pub fn web_gap_spare(unit: Unit) -> Length {
    unit.either(Length::inches(1, 32), Length::mm(1))
}

/// The least that the groove of a web frame leaves of the width of a rail: 3/8 in or 10 mm
/// (common practice, no source).
#[must_use]
pub fn least_behind_groove(unit: Unit) -> Length {
    unit.either(Length::inches(3, 8), Length::mm(10))
}
