//! Lengths: exact, whatever unit they were written in.

use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::{Exact, Unit};

/// An exact length. A length that arithmetic could not keep is
/// [`Length::is_out_of_range`] and stays so.
#[derive(Clone, Copy, Default)]
pub struct Length {
    mm: Exact,
    /// How much of it comes from measured figures: nought again where they
    /// cancel out. Lengths that differ in this only are the same.
    measured: Exact,
}

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self::drawn(Exact::ZERO);

    /// The largest denominator of a length that was worked out, in millimetres.
    /// Kilometres of it are in range, and still a metre of what a sum with other
    /// figures makes thousands of times as fine.
    pub const FINEST: i64 = 1_000_000_000_000;

    const fn drawn(mm: Exact) -> Self {
        Self { mm, measured: Exact::ZERO }
    }

    /// `value` of `unit`.
    #[must_use]
    pub fn new(value: Exact, unit: Unit) -> Self {
        Self::drawn(value * unit.millimetres())
    }

    /// Whole millimetres.
    #[must_use]
    pub const fn mm(value: i64) -> Self {
        Self::drawn(Exact::int(value))
    }

    /// `numer / denom` inches.
    #[must_use]
    pub fn inches(numer: i64, denom: i64) -> Self {
        Self::new(Exact::ratio(numer, denom), Unit::Inch)
    }

    /// The length counted in `unit`.
    #[must_use]
    pub fn in_unit(self, unit: Unit) -> Exact {
        self.mm / unit.millimetres()
    }

    /// The nearest binary fraction of a millimetre, for physics and drawing.
    #[must_use]
    pub fn to_mm_f64(self) -> f64 {
        self.mm.to_f64()
    }

    /// True when arithmetic could not keep this length.
    #[must_use]
    pub const fn is_out_of_range(self) -> bool {
        self.mm.is_out_of_range()
    }

    /// True where it has a denominator larger than this one, in millimetres.
    #[must_use]
    pub const fn is_finer_than(self, denom: i64) -> bool {
        self.mm.is_finer_than(denom)
    }

    /// The same length, as a figure that was measured.
    #[must_use]
    pub const fn as_measured(self) -> Self {
        Self { measured: self.mm, ..self }
    }

    /// True where a measured figure takes part in it.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        !self.measured.is_zero()
    }

    /// True for no length.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.mm.is_zero()
    }

    /// True above nought.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.mm.is_positive()
    }

    /// True below nought.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.mm.is_negative()
    }

    /// The length without its sign.
    #[must_use]
    pub fn abs(self) -> Self {
        if self.is_negative() { -self } else { self }
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

impl PartialEq for Length {
    fn eq(&self, other: &Self) -> bool {
        self.mm == other.mm
    }
}

impl Eq for Length {}

impl PartialOrd for Length {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Length {
    fn cmp(&self, other: &Self) -> Ordering {
        self.mm.cmp(&other.mm)
    }
}

impl Hash for Length {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.mm.hash(state);
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { mm: self.mm + other.mm, measured: self.measured + other.measured }
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { mm: self.mm - other.mm, measured: self.measured - other.measured }
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self { mm: -self.mm, measured: -self.measured }
    }
}

impl Mul<Exact> for Length {
    type Output = Self;
    fn mul(self, factor: Exact) -> Self {
        Self { mm: self.mm * factor, measured: self.measured * factor }
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, factor: i64) -> Self {
        Self { mm: self.mm * factor, measured: self.measured * factor }
    }
}

impl Div<Exact> for Length {
    type Output = Self;
    fn div(self, divisor: Exact) -> Self {
        Self { mm: self.mm / divisor, measured: self.measured / divisor }
    }
}

impl Div<i64> for Length {
    type Output = Self;
    fn div(self, divisor: i64) -> Self {
        Self { mm: self.mm / divisor, measured: self.measured / divisor }
    }
}

impl Div for Length {
    type Output = Exact;
    fn div(self, other: Self) -> Exact {
        self.mm / other.mm
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
        iter.fold(Self::ZERO, |sum, length| sum + length)
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.mm)
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

    #[test]
    fn a_measured_figure_is_known_until_it_cancels_out() {
        let ply = Length::mm(18).as_measured();
        let clear = Length::mm(600) - ply * 2;
        assert!(clear.is_measured() && clear.half().is_measured() && (-clear).is_measured());
        assert!(!(clear + ply.twice()).is_measured());
        assert_eq!(clear, Length::mm(564));
    }
}
