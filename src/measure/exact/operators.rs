//! The operators of exact numbers, and their order.

use std::cmp::Ordering;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::Exact;

impl Add for Exact {
    type Output = Self;
    #[inline]
    fn add(self, other: Self) -> Self {
        if self.is_counted()
            && other.is_counted()
            && let Some(numer) = self.numer.checked_add(other.numer)
            && numer != i64::MIN
        {
            return Self::counted(numer);
        }
        self.added(other)
    }
}

impl Sub for Exact {
    type Output = Self;
    #[inline]
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Neg for Exact {
    type Output = Self;
    fn neg(self) -> Self {
        Self { numer: -self.numer, denom: self.denom }
    }
}

impl Mul for Exact {
    type Output = Self;
    #[inline]
    fn mul(self, other: Self) -> Self {
        // As much of a length is measured as a rule: nothing.
        if self.is_zero() && other.denom != 0 {
            return self;
        }
        self.times(other)
    }
}

impl Div for Exact {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let sign = other.numer.signum();
        if sign == 0 {
            return Self::OUT_OF_RANGE;
        }
        if self.denom == other.denom && self.denom != 0 {
            return Self::ratio(sign * self.numer, sign * other.numer);
        }
        let (numer, denom) = (i128::from(sign * other.denom), i128::from(sign * other.numer));
        Self::reduce(i128::from(self.numer) * numer, i128::from(self.denom) * denom)
    }
}

impl Mul<i64> for Exact {
    type Output = Self;
    #[inline]
    fn mul(self, times: i64) -> Self {
        if self.is_counted()
            && let Some(numer) = self.numer.checked_mul(times)
            && numer != i64::MIN
        {
            return Self::counted(numer);
        }
        self * Self::int(times)
    }
}

impl Div<i64> for Exact {
    type Output = Self;
    #[inline]
    fn div(self, parts: i64) -> Self {
        if self.is_counted() && parts > 0 && self.numer % parts == 0 {
            return Self::counted(self.numer / parts);
        }
        self / Self::int(parts)
    }
}

impl AddAssign for Exact {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Exact {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Sum for Exact {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, |total, next| total + next)
    }
}

impl From<i64> for Exact {
    fn from(value: i64) -> Self {
        Self::int(value)
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Exact {
    #[inline]
    fn cmp(&self, other: &Self) -> Ordering {
        if self.denom == other.denom {
            return self.numer.cmp(&other.numer);
        }
        self.crosswise(other)
    }
}

impl Exact {
    /// Their order, where their denominators differ.
    fn crosswise(&self, other: &Self) -> Ordering {
        match (self.is_out_of_range(), other.is_out_of_range()) {
            (true, true) => Ordering::Equal,
            (true, false) => Ordering::Greater,
            (false, true) => Ordering::Less,
            (false, false) => {
                let left = self.numer as i128 * other.denom as i128;
                let right = other.numer as i128 * self.denom as i128;
                left.cmp(&right)
            }
        }
    }
}

impl Default for Exact {
    fn default() -> Self {
        Self::ZERO
    }
}
