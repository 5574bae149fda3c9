//! Exact rational numbers that never panic and never round.

mod operators;

use std::fmt;

use super::Digits;

/// How many parts of one nearly every figure is a whole number of: halves of an inch down
/// to 1/512 and its decimals, in millimetres, their thirds and ninths, and thousandths.
const PARTS: i64 = (1 << 10) * 9 * 125;

/// An exact rational number.
///
/// Arithmetic that leaves the range (or divides by zero) gives
/// [`Exact::OUT_OF_RANGE`], which every later operation hands on: the stages
/// may use plain operators and look once, at the end, instead of after each
/// step. It sorts above every number.
///
/// What can be counted in `PARTS` is, so that most numbers share a denominator:
/// they add up and compare as whole numbers do. The others are in lowest terms.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Exact {
    numer: i64,
    /// Greater than zero; zero marks a number out of range.
    denom: i64,
}

impl Exact {
    /// Nought.
    pub const ZERO: Self = Self::int(0);
    /// One.
    pub const ONE: Self = Self::int(1);
    /// The result of arithmetic that could not be kept exactly.
    pub const OUT_OF_RANGE: Self = Self { numer: 0, denom: 0 };

    /// The largest denominator of a figure as it is written: a millionth.
    pub const FINEST: i64 = 1_000_000;

    /// A whole number.
    #[must_use]
    pub const fn int(value: i64) -> Self {
        match value.checked_mul(PARTS) {
            Some(numer) if numer != i64::MIN => Self::counted(numer),
            _ => Self { numer: value, denom: 1 },
        }
    }

    /// `numer / denom`; out of range when `denom` is zero.
    #[must_use]
    #[inline]
    pub const fn ratio(numer: i64, denom: i64) -> Self {
        if let Some(parts) = numer.checked_mul(PARTS)
            && parts != i64::MIN
            && denom > 0
            && parts % denom == 0
        {
            return Self::counted(parts / denom);
        }
        Self::reduce(numer as i128, denom as i128)
    }

    /// So many [`PARTS`].
    const fn counted(numer: i64) -> Self {
        Self { numer, denom: PARTS }
    }

    const fn is_counted(self) -> bool {
        self.denom == PARTS
    }

    const fn reduce(numer: i128, denom: i128) -> Self {
        if denom == 0 {
            return Self::OUT_OF_RANGE;
        }
        let sign = if denom < 0 { -1 } else { 1 };
        let (numer, denom) = (numer * sign, denom * sign);
        let most = i64::MAX as i128;
        // Nearly every number fits a machine word, where division is cheap.
        let (numer, denom) = if numer <= most && numer >= -most && denom <= most {
            Self { numer: numer as i64, denom: denom as i64 }.lowest()
        } else {
            let divisor = gcd(numer.unsigned_abs(), denom.unsigned_abs()) as i128;
            let (numer, denom) = (numer / divisor, denom / divisor);
            // i64::MIN is left out so that negation stays in range.
            if numer > most || numer < -most || denom > most {
                return Self::OUT_OF_RANGE;
            }
            (numer as i64, denom as i64)
        };
        if PARTS % denom == 0
            && let Some(parts) = numer.checked_mul(PARTS / denom)
            && parts != i64::MIN
        {
            return Self::counted(parts);
        }
        Self { numer, denom }
    }

    /// The sum, where one of them is not counted in [`PARTS`] or leaves the range so.
    #[cold]
    fn added(self, other: Self) -> Self {
        let (a, b) = (self.numer as i128, self.denom as i128);
        let (c, d) = (other.numer as i128, other.denom as i128);
        Self::reduce(a * d + c * b, b * d)
    }

    /// The product of two numbers.
    fn times(self, other: Self) -> Self {
        if self.is_counted()
            && other.is_counted()
            && let Some(product) = self.numer.checked_mul(other.numer)
            && product % PARTS == 0
        {
            return Self::counted(product / PARTS);
        }
        Self::reduce(
            self.numer as i128 * other.numer as i128,
            self.denom as i128 * other.denom as i128,
        )
    }

    /// Numerator and denominator in lowest terms.
    const fn lowest(self) -> (i64, i64) {
        if self.denom == 0 {
            return (0, 0);
        }
        let divisor = gcd_word(self.numer.unsigned_abs(), self.denom.unsigned_abs()) as i64;
        (self.numer / divisor, self.denom / divisor)
    }

    /// The numerator in lowest terms; it carries the sign.
    #[must_use]
    pub const fn numer(self) -> i64 {
        self.lowest().0
    }

    /// The denominator in lowest terms; zero only for a number out of range.
    #[must_use]
    pub const fn denom(self) -> i64 {
        self.lowest().1
    }

    /// True for the mark left by arithmetic that could not be kept.
    #[must_use]
    pub const fn is_out_of_range(self) -> bool {
        self.denom == 0
    }

    /// True where the denominator is larger than this one.
    #[must_use]
    pub const fn is_finer_than(self, denom: i64) -> bool {
        self.denom > denom && self.denom() > denom
    }

    /// True for nought.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.numer == 0 && self.denom != 0
    }

    /// True above nought.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.numer > 0
    }

    /// True below nought.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.numer < 0
    }

    /// True for a whole number.
    #[must_use]
    pub const fn is_whole(self) -> bool {
        self.denom != 0 && self.numer % self.denom == 0
    }

    /// The number without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self { numer: self.numer.abs(), denom: self.denom }
    }

    /// The greatest whole number not above this one (0 when out of range).
    #[must_use]
    pub const fn floor(self) -> i64 {
        if self.denom == 0 { 0 } else { self.numer.div_euclid(self.denom) }
    }

    /// The least whole number not below this one (0 when out of range).
    #[must_use]
    pub const fn ceil(self) -> i64 {
        if self.denom == 0 { 0 } else { -((-self.numer).div_euclid(self.denom)) }
    }

    /// The nearest whole number; a half goes away from zero.
    #[must_use]
    pub const fn round(self) -> i64 {
        if self.denom == 0 {
            return 0;
        }
        let (numer, denom) = (self.numer.abs(), self.denom);
        let (whole, rest) = (numer / denom, numer % denom);
        let nearest = if rest >= denom - rest { whole + 1 } else { whole };
        if self.is_negative() { -nearest } else { nearest }
    }

    /// The nearest whole count of thousandths; the greatest when out of range.
    #[must_use]
    pub fn to_thousandths(self) -> i64 {
        let counted = self * Self::int(1000);
        if counted.is_out_of_range() { i64::MAX } else { counted.round() }
    }

    /// The nearest binary fraction, for physics and drawing only.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        if self.denom == 0 { f64::NAN } else { self.numer as f64 / self.denom as f64 }
    }
}

/// Twos are taken out by shifting: what is left of a denominator in inches or
/// millimetres is small, often one.
const fn gcd_word(a: u64, b: u64) -> u64 {
    if a == 0 || b == 0 {
        return if a | b == 0 { 1 } else { a | b };
    }
    let twos = (a | b).trailing_zeros();
    let (mut a, mut b) = (a >> a.trailing_zeros(), b >> b.trailing_zeros());
    while b > 1 {
        (a, b) = (b, a % b);
        if b == 0 {
            return a << twos;
        }
        b >>= b.trailing_zeros();
    }
    1 << twos
}

const fn gcd(mut a: u128, mut b: u128) -> u128 {
    // The common case fits in machine words, where the remainder is cheap.
    while b != 0 {
        if a <= u64::MAX as u128 && b <= u64::MAX as u128 {
            return gcd_word(a as u64, b as u64) as u128;
        }
        (a, b) = (b, a % b);
    }
    if a == 0 { 1 } else { a }
}

impl fmt::Display for Exact {
    /// As a maker writes it: `7`, `3/4`, `1-1/2`, `-2-1/3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_out_of_range() {
            return f.write_str("out of range");
        }
        let (numer, denom) = self.lowest();
        let (numer, denom) = (numer.unsigned_abs(), denom.unsigned_abs());
        let (whole, rest) = (numer / denom, numer % denom);
        let mut digits = Digits::new();
        if rest > 0 {
            digits.whole(denom);
            digits.sign(b'/');
            digits.whole(rest);
        }
        if rest == 0 || whole > 0 {
            if rest > 0 {
                digits.sign(b'-');
            }
            digits.whole(whole);
        }
        if self.is_negative() {
            digits.sign(b'-');
        }
        f.write_str(digits.text())
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn fractions_are_kept_in_lowest_terms() {
        assert_eq!(Exact::ratio(6, -8), Exact::ratio(-3, 4));
        assert_eq!(Exact::ratio(81, 4) / Exact::int(3), Exact::ratio(27, 4));
        assert_eq!(Exact::int(20) / Exact::int(3), Exact::ratio(20, 3));
    }

    #[test]
    fn leaving_the_range_is_a_mark_and_not_a_panic() {
        let huge = Exact::int(i64::MAX);
        assert!((huge + Exact::ONE).is_out_of_range());
        assert!((Exact::ONE / Exact::ZERO).is_out_of_range());
        assert!((huge * huge - huge).is_out_of_range());
        assert!(Exact::ratio(i64::MIN, 1).is_out_of_range());
        assert!(Exact::OUT_OF_RANGE > huge);
    }

    #[test]
    fn rounding_takes_a_half_away_from_zero() {
        assert_eq!(Exact::ratio(5, 2).round(), 3);
        assert_eq!(Exact::ratio(-5, 2).round(), -3);
        assert_eq!(Exact::ratio(-7, 3).floor(), -3);
        assert_eq!(Exact::ratio(-7, 3).ceil(), -2);
    }

    #[test]
    fn numbers_print_as_a_maker_writes_them() {
        for (value, text) in [
            (Exact::ratio(53, 2), "26-1/2"),
            (Exact::ratio(-7, 3), "-2-1/3"),
            (Exact::ratio(3, 4), "3/4"),
            (Exact::int(-2), "-2"),
            (Exact::ZERO, "0"),
            (Exact::ratio(-1, 1_000_000), "-1/1000000"),
            (Exact::ratio(i64::MAX, 2), "4611686018427387903-1/2"),
            (Exact::OUT_OF_RANGE, "out of range"),
        ] {
            assert_eq!(value.to_string(), text);
        }
    }

    fn small() -> impl Strategy<Value = Exact> {
        (-10_000i64..10_000, 1i64..2_000).prop_map(|(n, d)| Exact::ratio(n, d))
    }

    /// Millimetres of inches, in the marks of a tape, and of what is a few
    /// times as fine.
    fn marks() -> impl Strategy<Value = Exact> {
        let odd = prop::sample::select(vec![1i64, 1, 3, 5, 5, 15, 25, 127, 635]);
        (-1_000_000i64..1_000_000, 0u32..12, odd).prop_map(|(n, t, d)| Exact::ratio(n, d << t))
    }

    /// What just fits, and may leave the range with the next step.
    fn large() -> impl Strategy<Value = Exact> {
        let word = || prop_oneof![any::<i64>(), any::<i32>().prop_map(i64::from), -9i64..9];
        (word(), word(), 0u32..63)
            .prop_map(|(n, d, t)| Exact::ratio(n, if d == 0 { 1 << t } else { d }))
    }

    /// Numerator and denominator as a general-purpose type has them; noughts
    /// where they leave the range of this one.
    fn kept(reference: num_rational::Ratio<i128>) -> (i64, i64) {
        let parts =
            i64::try_from(*reference.numer()).ok().zip(i64::try_from(*reference.denom()).ok());
        parts.filter(|(numer, _)| *numer != i64::MIN).unwrap_or_default()
    }

    fn reference(figure: Exact) -> num_rational::Ratio<i128> {
        num_rational::Ratio::new(i128::from(figure.numer()), i128::from(figure.denom()))
    }

    fn agree(a: Exact, b: Exact) -> Result<(), TestCaseError> {
        let [x, y] = [reference(a), reference(b)];
        let parts = |figure: Exact| (figure.numer(), figure.denom());
        prop_assert_eq!(parts(a + b), kept(x + y));
        prop_assert_eq!(parts(a - b), kept(x - y));
        prop_assert_eq!(parts(a * b), kept(x * y));
        if !b.is_zero() {
            prop_assert_eq!(parts(a / b), kept(x / y));
        }
        // However a number came about, it is kept alike.
        let is_kept_alike = |figure: Exact| figure == Exact::ratio(figure.numer(), figure.denom());
        prop_assert!([a + b, a - b, a * b, a / b].into_iter().all(is_kept_alike));
        for times in [1, 2, 3, 7, 10, 127, i64::MAX] {
            prop_assert_eq!(a * times, a * Exact::int(times));
            prop_assert_eq!(a / times, a / Exact::int(times));
        }
        prop_assert_eq!(a.cmp(&b), x.cmp(&y));
        prop_assert_eq!(i128::from(a.floor()), x.floor().to_integer());
        prop_assert_eq!(i128::from(a.ceil()), x.ceil().to_integer());
        Ok(())
    }

    proptest! {
        // The general-purpose rational type of num-rational is the reference.
        #[test]
        fn agrees_with_a_reference_rational_type(a in small(), b in small()) {
            agree(a, b)?;
            prop_assert_eq!(i128::from(a.round()), reference(a).round().to_integer());
        }

        #[test]
        fn figures_of_a_tape_agree_with_it(a in marks(), b in marks()) {
            agree(a, b)?;
            prop_assert_eq!(i128::from(a.round()), reference(a).round().to_integer());
        }

        #[test]
        fn figures_near_the_end_of_the_range_agree_with_it_or_leave_it(a in large(), b in large()) {
            prop_assume!(!a.is_out_of_range() && !b.is_out_of_range());
            agree(a, b)?;
        }

        #[test]
        fn what_left_the_range_stays_away(a in marks()) {
            let out = Exact::OUT_OF_RANGE;
            for result in [a + out, out + a, a - out, out - a, a * out, out * a, a / out, out / a] {
                prop_assert!(result.is_out_of_range());
            }
        }
    }
}
