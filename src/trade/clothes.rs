//! What clothes on a hanging rail weigh and the room that they need, and how a rail
//! bends.

use std::f64::consts::PI;

use crate::measure::{Exact, Length, Mass, Unit};

use super::beam::inches;

/// What hangs on a foot of a full rail: 15 lb (common practice, no source).
#[must_use]
pub fn clothes_load(long: Length) -> Mass {
    Mass::pounds(Exact::int(15) * long.in_unit(Unit::Inch) / Exact::int(12))
}

/// The free height that clothes need below their rail: 40 in (1016 mm) for short ones,
/// 64 in (1625 mm) for long ones (from memory).
#[must_use]
pub fn clothes_high(long: bool, unit: Unit) -> Length {
    match long {
        true => unit.either(Length::inches(64, 1), Length::mm(1625)),
        false => unit.either(Length::inches(40, 1), Length::mm(1016)),
    }
}

/// The depth that clothes on hangers need: 22 in, 560 mm (from memory).
#[must_use]
pub fn clothes_deep(unit: Unit) -> Length {
    unit.either(Length::inches(22, 1), Length::mm(560))
}

/// How far behind its middle a rail may hang from the back at the most: 12 in, 300 mm
/// (from memory).
#[must_use]
pub fn rail_from_back(unit: Unit) -> Length {
    unit.either(Length::inches(12, 1), Length::mm(300))
}

/// The longest rail that hangs in its two cups alone: 48 in, 1200 mm (from memory).
#[must_use]
pub fn longest_rail(unit: Unit) -> Length {
    unit.either(Length::inches(48, 1), Length::mm(1200))
}

/// How much shorter a rail is cut than the room between its boards, for the bottoms of
/// its cups: 1/8 in, 3 mm (common practice, no source).
#[must_use]
pub fn rail_play(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// The thinnest board that carries a cup by its screws: 1/2 in, 12 mm (common practice,
/// no source), less 1/16 in, since sheets are sold under their nominal thickness.
#[must_use]
pub fn holds_rail(unit: Unit) -> Length {
    unit.either(Length::inches(7, 16), Length::mm(11))
}

/// How many screws hold a cup or a middle hanger (common practice, no source).
pub const RAIL_SCREWS: u32 = 2;

/// EI in lb in² of a pole of wood whose stiffness is in thousands of pounds to the
/// square inch: I = π d⁴ / 64.
#[must_use]
pub fn pole_stiffness(thousands: u32, diameter: Length) -> f64 {
    f64::from(thousands) * 1000.0 * PI * inches(diameter).powi(4) / 64.0
}

/// EI in lb in² of a steel tube of this outside diameter: 29 million psi, and a wall of
/// 0.04 in or 1 mm, as such tubes have (common practice, no source).
#[must_use]
pub fn tube_stiffness(diameter: Length) -> f64 {
    let outside = inches(diameter);
    let inside = (outside - 0.08).max(0.0);
    29.0e6 * PI * (outside.powi(4) - inside.powi(4)) / 64.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::Beam;

    /// Worked by hand for a tube of 1-1/4 in: I = π (1.25⁴ − 1.17⁴) / 64 =
    /// π (2.44141 − 1.87389) / 64 = 0.027858 in⁴, and 4 ft of clothes, 60 lb:
    /// 5 × 60 × 48³ / (384 × 29,000,000 × 0.027858) = 0.1069 in. A pole of red oak,
    /// 1.82 million psi: I = 0.119842 in⁴, so 0.3961 in.
    #[test]
    fn rails_bend_as_worked() {
        let (thick, load) = (Length::inches(5, 4), 60.0);
        let tube = Beam::Simple.sag(load, 48.0, tube_stiffness(thick));
        assert!((tube - 0.1069).abs() < 0.0002, "{tube}");
        let pole = Beam::Simple.sag(load, 48.0, pole_stiffness(1820, thick));
        assert!((pole - 0.3961).abs() < 0.0002, "{pole}");
        assert_eq!(clothes_load(Length::inches(48, 1)), Mass::pounds(Exact::int(60)));
    }
}
