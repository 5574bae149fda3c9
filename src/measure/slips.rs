//! Figures of inches that a hurried hand writes, and what it meant.

use super::Exact;

/// A figure that may have been meant, and by which slip another was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MeantInches {
    /// In inches.
    pub inches: Exact,
    /// The slip, as it goes on behind the figure: `if its point is a place off`.
    pub if_so: &'static str,
}

/// Said of a figure with its point a place to the left or right: `72` for `7.2`.
pub const IF_POINT_OFF: &str = "if its point is a place off";

/// Said of a mixed number that was written as one fraction: `31/2` for `3-1/2`.
pub const HYPHEN_MISSING: &str = "if its hyphen is missing";

/// Said of a figure with a digit too many: `77` for `7`.
pub const IF_DOUBLED: &str = "if a digit is doubled";

/// Said of a figure that is right but for its unit.
pub const IF_MEANT: &str = "if that is what you meant";

/// Said of a figure whose first digit is missing: `26` for `6`.
pub const IF_DIGIT_LOST: &str = "if its first digit is missing";

/// The finest part of an inch that a rule has.
const FINEST: i64 = 64;

/// True for a fraction of an inch that is on a rule.
#[must_use]
pub fn is_on_rule(inches: Exact) -> bool {
    inches.denom() <= FINEST && inches.denom().count_ones() == 1
}

/// What may have been meant by a number of inches, likeliest first: its point is a place
/// off, part of its fraction is missing, or the hyphen before it. What is written with a
/// fraction, such as `4-3/4`, has no point.
#[must_use]
pub fn meant_inches(count: Exact, has_fraction: bool) -> Vec<MeantInches> {
    let mut all = Vec::new();
    let tenfold = (!has_fraction).then(|| [Exact::ratio(1, 10), Exact::int(10)]);
    for times in tenfold.into_iter().flatten() {
        let inches = count * times;
        let hundredths = (inches * Exact::int(100)).is_whole();
        // Nobody writes a decimal for a figure that is on the rule.
        if is_on_rule(inches) || !is_on_rule(count) && hundredths {
            all.push(MeantInches { inches, if_so: IF_POINT_OFF });
        }
    }
    if let Some(inches) = undoubled(count) {
        all.push(MeantInches { inches, if_so: IF_DOUBLED });
    }
    let fractions = match (count.is_whole(), is_on_rule(count)) {
        (true, _) => [slash_missing(count.numer()), part_missing(count.numer())].concat(),
        (false, true) => hyphen_missing(count),
        (false, false) => Vec::new(),
    };
    all.extend(fractions);
    all
}

/// A number without the second of two digits that are alike and stand side by side before its
/// fraction: `7` for `77`, `140` for `1440`, `1-1/2` for `11-1/2`.
#[must_use]
pub fn undoubled(count: Exact) -> Option<Exact> {
    let whole = Exact::int(count.floor());
    let digits = count.floor().to_string();
    let pairs = digits.as_bytes().windows(2);
    // Noughts in a row are most often meant.
    let at = pairs.into_iter().position(|pair| pair[0] == pair[1] && pair[0] != b'0')?;
    let (before, after) = (digits.get(..at)?, digits.get(at + 1..)?);
    let undoubled = format!("{before}{after}").parse().ok().map(Exact::int)?;
    Some(undoubled + (count - whole))
}

/// `18` for `1/8`, `158` for `1-5/8`.
fn slash_missing(whole: i64) -> Vec<MeantInches> {
    let all = [2, 4, 8, 16, 32, FINEST].into_iter().flat_map(|denom| {
        let above = if denom < 10 { 10 } else { 100 };
        let rest = (whole % above == denom).then_some(whole / above);
        // The figure over the line has one digit or two, and what is before it is whole.
        let split = rest.into_iter().flat_map(|rest| [10, 100].map(|by| (rest / by, rest % by)));
        let is_one = move |(_, numer): &(i64, i64)| numer % 2 == 1 && *numer < denom;
        split.filter(is_one).map(move |(whole, numer)| {
            let inches = Exact::int(whole) + Exact::ratio(numer, denom);
            MeantInches { inches, if_so: "if its slash is missing" }
        })
    });
    let mut all: Vec<MeantInches> = all.collect();
    all.dedup();
    all
}

/// Said of a figure whose digits stand the other way round: `62` for `26`.
pub const IF_TURNED: &str = "if two digits are turned around";

/// A whole number of two digits the other way round: `26` for `62`.
#[must_use]
pub fn turned(count: Exact) -> Option<Exact> {
    let whole = count.is_whole().then(|| count.numer())?;
    let (tens, ones) = (whole / 10, whole % 10);
    ((1..10).contains(&tens) && ones != 0 && ones != tens).then(|| Exact::int(ones * 10 + tens))
}

/// `3` for `3/4` or `3/8`, `8` for `1/8`.
fn part_missing(whole: i64) -> Vec<MeantInches> {
    let parts = || [2, 4, 8, 16, 32, FINEST].into_iter();
    let fractions = match whole % 2 {
        // Beyond these nearly all fractions are of a 32nd or finer.
        1 if whole > 15 => Vec::new(),
        1 => parts().filter(|parts| *parts > whole).map(|parts| (whole, parts)).collect(),
        _ => parts().filter(|parts| *parts == whole).map(|parts| (1, parts)).collect::<Vec<_>>(),
    };
    let meant = |(numer, denom)| MeantInches {
        inches: Exact::ratio(numer, denom),
        if_so: "if part of its fraction is missing",
    };
    fractions.into_iter().map(meant).collect()
}

/// `31/2` for `3-1/2`, and `1-1/16` for `1/16`.
fn hyphen_missing(count: Exact) -> Vec<MeantInches> {
    let (numer, denom) = (count.numer(), count.denom());
    if numer <= denom {
        return Vec::new();
    }
    let mut all: Vec<MeantInches> = [10, 100]
        .into_iter()
        .map(|place| (numer / place, numer % place, place))
        // A fraction has no nought in front, and is less than one.
        .filter(|(whole, rest, place)| *whole > 0 && *rest * 10 >= *place && *rest < denom)
        .map(|(whole, rest, _)| MeantInches {
            inches: Exact::int(whole) + Exact::ratio(rest, denom),
            if_so: HYPHEN_MISSING,
        })
        .collect();
    let fraction = count - Exact::int(count.floor());
    all.push(MeantInches { inches: fraction, if_so: "if only the fraction is meant" });
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    fn meant(numer: i64, denom: i64) -> Vec<String> {
        let count = Exact::ratio(numer, denom);
        let meant = meant_inches(count, !count.is_whole() && is_on_rule(count));
        meant.iter().map(|it| it.inches.to_string()).collect()
    }

    #[test]
    fn slips_of_inches_are_read_back() {
        assert_eq!(meant(3, 1), ["30", "3/4", "3/8", "3/16", "3/32", "3/64"]);
        assert_eq!(meant(8, 1), ["80", "1/8"]);
        assert_eq!(meant(55, 1), ["5-1/2", "550", "5"]);
        assert_eq!(meant(1440, 1), ["144", "14400", "140"]);
        assert_eq!(meant(31, 2), ["3-1/2", "1/2"]);
        assert_eq!(meant(117, 16), ["11-7/16", "5/16"]);
        assert_eq!(meant(23, 2), ["1-1/2", "1/2"]);
        // What is written with a fraction has no point that could be a place off.
        assert_eq!(meant(19, 4), ["3/4"]);
        assert_eq!(meant(18, 1), ["180", "1/8"]);
        assert_eq!(meant(332, 1), ["3320", "32", "3/32"]);
        assert_eq!(meant(158, 1), ["1580", "1-5/8"]);
        // 2.7 and 0.3 are on no rule.
        assert_eq!(meant(27, 1), ["270"]);
        assert_eq!(turned(Exact::int(62)), Some(Exact::int(26)));
        assert_eq!([60, 66, 6, 620].map(|own| turned(Exact::int(own))), [None; 4]);
        // 7.07 as a caliper reads it is 0.707 at the finest.
        assert_eq!(meant(151, 100), ["15-1/10"]);
    }
}
