//! Quantities other than lengths. Each is a type of its own, so that a time
//! can't be added to a price.

use std::fmt;

use super::Exact;

/// A percentage: `35%` is `Percent(35)`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Percent(pub Exact);

/// An angle in degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Angle(pub Exact);

impl Angle {
    /// A right angle, 90 degrees.
    pub const SQUARE: Self = Self(Exact::int(90));
}

/// A temperature in degrees Celsius.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Temperature(pub Exact);

/// A length of time in minutes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Duration(pub Exact);

/// How long something takes to come, in whole days.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Days(pub u32);

/// A mass in kilograms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mass(pub Exact);

/// What a weight does on its arm, in kilograms times metres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment(pub Exact);

/// A weight spread over an area, in kilograms to the square metre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Load(pub Exact);

/// How stiff a material is (its modulus of elasticity), in pounds to the
/// square inch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stiffness(pub Exact);

/// An amount of money in the job's currency, exact to the digits written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(pub Exact);

/// A price for one of something: `11.40 per board-foot`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rate {
    /// The price of one.
    pub price: Money,
    /// What one is: `board-foot`, `sheet`, `pair`, `each`.
    pub per: &'static str,
}

/// A volume, in milliliters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Volume(pub Exact);

/// An area, in square meters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Area(pub Exact);

/// A calendar date.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// The year, four digits.
    pub year: u16,
    /// 1 to 12.
    pub month: u8,
    /// 1 to 31.
    pub day: u8,
}

impl Temperature {
    /// From degrees Fahrenheit: (F − 32) × 5/9.
    #[must_use]
    pub fn fahrenheit(degrees: Exact) -> Self {
        Self((degrees - Exact::int(32)) * Exact::ratio(5, 9))
    }
}

impl Mass {
    /// From pounds avoirdupois: 0.45359237 kg exactly (international yard and
    /// pound agreement, 1959).
    #[must_use]
    pub fn pounds(pounds: Exact) -> Self {
        Self(pounds * Exact::ratio(45_359_237, 100_000_000))
    }
}

impl Load {
    /// From pounds to the square foot: 0.45359237 kg on (0.3048 m)².
    #[must_use]
    pub fn pounds_per_foot(pounds: Exact) -> Self {
        let foot = Exact::ratio(3048, 10_000);
        Self(Mass::pounds(pounds).0 / (foot * foot))
    }
}

impl Stiffness {
    /// From gigapascals: one is 145,037.738 pounds to the square inch (NIST
    /// SP 811, Table B.8), which is as exact as any stiffness is known.
    #[must_use]
    pub fn gigapascals(value: Exact) -> Self {
        Self(value * Exact::ratio(145_037_738, 1000))
    }
}

impl Duration {
    /// From hours.
    #[must_use]
    pub fn hours(hours: Exact) -> Self {
        Self(hours * Exact::int(60))
    }

    /// Up to the next whole minute.
    #[must_use]
    pub fn whole_minutes(self) -> Self {
        Self(Exact::int(self.0.ceil()))
    }
}

impl Days {
    /// All of them, nights included.
    #[must_use]
    pub fn duration(self) -> Duration {
        Duration::hours(Exact::int(24 * i64::from(self.0)))
    }
}

impl fmt::Display for Days {
    /// `10 days`, `3 weeks`: weeks where they are whole.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.0, self.0 % 7) {
            (1, _) => write!(f, "1 day"),
            (7, _) => write!(f, "1 week"),
            (days, 0) if days > 0 => write!(f, "{} weeks", days / 7),
            (days, _) => write!(f, "{days} days"),
        }
    }
}

impl fmt::Display for Duration {
    /// `30 s`, `1 min 30 s`, `30 min`, `24 h`, `1 h 30 min`; seconds only under an
    /// hour.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let seconds = (self.0 * Exact::int(60)).round();
        if seconds % 60 != 0 && (0..3600).contains(&seconds) {
            return match seconds / 60 {
                0 => write!(f, "{seconds} s"),
                minutes => write!(f, "{minutes} min {} s", seconds % 60),
            };
        }
        let minutes = self.0.round();
        match (minutes / 60, minutes % 60) {
            (0, m) => write!(f, "{m} min"),
            (h, 0) => write!(f, "{h} h"),
            (h, m) => write!(f, "{h} h {m} min"),
        }
    }
}

impl fmt::Display for Mass {
    /// To a tenth of a kilogram, with pounds beside it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let pounds = self.0 / Exact::ratio(45_359_237, 100_000_000);
        let tenths = (self.0 * Exact::int(10)).round();
        write!(f, "{}.{} kg ({} lb)", tenths / 10, tenths % 10, pounds.round())
    }
}

impl fmt::Display for Load {
    /// In whole kilograms to the square metre, with pounds beside it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let one = Self::pounds_per_foot(Exact::ONE).0;
        write!(f, "{} lb per ft2 ({} kg per m2)", (self.0 / one).round(), self.0.round())
    }
}

impl fmt::Display for Rate {
    /// `11.40 per board-foot`, `5.80 each`: to a hundredth of the currency.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let cents = (self.price.0 * Exact::int(100)).round();
        let per = if self.per == "each" { "" } else { "per " };
        write!(f, "{}.{:02} {per}{}", cents / 100, cents % 100, self.per)
    }
}

impl Volume {
    /// From fluid ounces of the United States, of which a gallon of 231 cubic inches has 128.
    #[must_use]
    pub fn ounces(ounces: Exact) -> Self {
        let inch = Exact::ratio(254, 100); // in centimeters
        Self(ounces * inch * inch * inch * Exact::ratio(231, 128))
    }
}

impl Area {
    /// From square feet.
    #[must_use]
    pub fn square_feet(feet: Exact) -> Self {
        let foot = Exact::ratio(3_048, 10_000);
        Self(feet * foot * foot)
    }
}

impl fmt::Display for Volume {
    /// `750 ml`, `2.5 l`, `8 fl oz`, `1 qt`, `2 gal`: in the unit that it is a round figure
    /// of.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ounces = self.0 / Self::ounces(Exact::ONE).0;
        if !self.0.is_whole() && ounces.is_whole() {
            return match ounces.floor() {
                own if own % 128 == 0 => write!(f, "{} gal", own / 128),
                own if own % 32 == 0 => write!(f, "{} qt", own / 32),
                own => write!(f, "{own} fl oz"),
            };
        }
        let tenths = self.0 / Exact::int(100);
        match tenths.floor() {
            own if own >= 10 && tenths.is_whole() && own % 10 == 0 => write!(f, "{} l", own / 10),
            own if own >= 10 && tenths.is_whole() => write!(f, "{}.{} l", own / 10, own % 10),
            _ => write!(f, "{} ml", self.0.round()),
        }
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Date {
    /// Reads `2026-03-14`.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.split('-');
        let mut next = |digits: usize| {
            let part = parts.next().filter(|part| part.len() == digits)?;
            part.bytes().all(|byte| byte.is_ascii_digit()).then(|| part.parse::<u16>().ok())?
        };
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        if parts.next().is_some() {
            return None;
        }
        Self::new(year, u8::try_from(month).ok()?, u8::try_from(day).ok()?)
    }

    /// The date, if the calendar has it.
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap =
            year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let days = match month {
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            1..=12 => 31,
            _ => return None,
        };
        (1..=days).contains(&day).then_some(Self { year, month, day })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn temperatures_convert_exactly() {
        assert_eq!(Temperature::fahrenheit(Exact::int(68)), Temperature(Exact::int(20)));
    }

    #[test]
    fn weights_and_prices_print_as_they_are_read() {
        // 75 lb is 34.019 kg (international pound, 1959).
        assert_eq!(Mass::pounds(Exact::int(75)).to_string(), "34.0 kg (75 lb)");
        let price = Money(Exact::ratio(57, 5));
        assert_eq!(Rate { price, per: "board-foot" }.to_string(), "11.40 per board-foot");
        assert_eq!(Rate { price, per: "each" }.to_string(), "11.40 each");
    }

    #[test]
    fn loads_and_stiffness_convert() {
        // 1 lb/ft² = 4.8824 kg/m², 1 GPa = 145,037.7 psi (NIST SP 811, Table B.8).
        assert!((Load::pounds_per_foot(Exact::int(15)).0.to_f64() - 73.24).abs() < 0.01);
        let psi = Stiffness::gigapascals(Exact::ratio(126, 10)).0.to_f64();
        assert!((psi - 1_827_475.5).abs() < 1.0, "{psi}");
        let load = Load::pounds_per_foot(Exact::int(40));
        assert_eq!(load.to_string(), "40 lb per ft2 (195 kg per m2)");
    }

    #[test]
    fn the_calendar_is_kept() {
        assert!(Date::new(2026, 2, 29).is_none());
        assert!(Date::new(2028, 2, 29).is_some());
        assert!(Date::new(2026, 13, 1).is_none());
        assert_eq!(Date::parse("2026-03-14"), Date::new(2026, 3, 14));
        for wrong in ["2026-3-14", "2026-02-29", "2026-03-14-1", "+026-03-14", "today"] {
            assert_eq!(Date::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn times_print_in_hours_and_minutes() {
        assert_eq!(Duration(Exact::int(90)).to_string(), "1 h 30 min");
        assert_eq!(Duration::hours(Exact::int(24)).to_string(), "24 h");
        assert_eq!(Duration(Exact::ratio(1, 2)).to_string(), "30 s");
        assert_eq!(Duration(Exact::ratio(5, 4)).to_string(), "1 min 15 s");
        assert_eq!(Duration(Exact::ratio(181, 2)).to_string(), "1 h 31 min");
    }
}
