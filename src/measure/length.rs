//! Lengths: exact, whatever unit they were written in.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::{Exact, Unit};

/// An exact length. A length that arithmetic could not keep is
/// [`Length::is_out_of_range`] and stays so.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(Exact);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(Exact::ZERO);

    /// The largest denominator of a length that was worked out, in millimetres.
    /// Kilometres of it are in range, and still a metre of what a sum with other
    /// figures makes thousands of times as fine.
    pub const FINEST: i64 = 1_000_000_000_000;

    /// `value` of `unit`.
    #[must_use]
    pub fn new(value: Exact, unit: Unit) -> Self {
        Self(value * unit.millimetres())
    }

    /// Whole millimetres.
    #[must_use]
    pub const fn mm(value: i64) -> Self {
        Self(Exact::int(value))
    }

    /// `numer / denom` inches.
    #[must_use]
    pub fn inches(numer: i64, denom: i64) -> Self {
        Self::new(Exact::ratio(numer, denom), Unit::Inch)
    }

    /// The length counted in `unit`.
    #[must_use]
    pub fn in_unit(self, unit: Unit) -> Exact {
        self.0 / unit.millimetres()
    }

    /// The nearest binary fraction of a millimetre, for physics and drawing.
    #[must_use]
    pub fn to_mm_f64(self) -> f64 {
        self.0.to_f64()
    }

    /// True when arithmetic could not keep this length.
    #[must_use]
    pub const fn is_out_of_range(self) -> bool {
        self.0.is_out_of_range()
    }

    /// True where it has a denominator larger than this one, in millimetres.
    #[must_use]
    pub const fn is_finer_than(self, denom: i64) -> bool {
        self.0.is_finer_than(denom)
    }

    /// True for no length.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// True above nought.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.0.is_positive()
    }

    /// True below nought.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.0.is_negative()
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// Half of it.
    #[must_use]
    pub fn half(self) -> Self {
        self / 2
    }

    /// Twice it.
    #[must_use]
    pub fn twice(self) -> Self {
        self * 2
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<Exact> for Length {
    type Output = Self;
    fn mul(self, factor: Exact) -> Self {
        Self(self.0 * factor)
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, factor: i64) -> Self {
        Self(self.0 * Exact::int(factor))
    }
}

impl Div<Exact> for Length {
    type Output = Self;
    fn div(self, divisor: Exact) -> Self {
        Self(self.0 / divisor)
    }
}

impl Div<i64> for Length {
    type Output = Self;
    fn div(self, divisor: i64) -> Self {
        Self(self.0 / Exact::int(divisor))
    }
}

impl Div for Length {
    type Output = Exact;
    fn div(self, other: Self) -> Exact {
        self.0 / other.0
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        Self(iter.map(|length| length.0).sum())
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_and_millimetres_mix_exactly() {
        assert_eq!(Length::inches(1, 1), Length::new(Exact::ratio(254, 10), Unit::Millimetre));
        let mixed = Length::inches(3, 4) + Length::mm(18);
        assert_eq!(mixed.in_unit(Unit::Millimetre), Exact::ratio(3705, 100));
        assert_eq!(Length::new(Exact::int(5), Unit::Foot), Length::inches(60, 1));
    }
}
