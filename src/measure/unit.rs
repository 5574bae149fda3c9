//! The units of length, declared once.

use super::Exact;

/// A unit of length that a spec may be written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// 25.4 mm exactly.
    Inch,
    /// 12 in.
    Foot,
    /// The metre's thousandth, in which lengths are stored.
    Millimetre,
    /// 10 mm.
    Centimetre,
    /// 1000 mm.
    Metre,
}

/// How each unit may be written; the first spelling is the one we print.
pub const SPELLINGS: &[(Unit, &[&str])] = &[
    (Unit::Inch, &["in", "\""]),
    (Unit::Foot, &["ft", "'"]),
    (Unit::Millimetre, &["mm"]),
    (Unit::Centimetre, &["cm"]),
    (Unit::Metre, &["m"]),
];

impl Unit {
    /// The unit written as `text`, if it is one.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        SPELLINGS.iter().find(|(_, names)| names.contains(&text)).map(|(unit, _)| *unit)
    }

    /// Of two round figures for one rule of thumb the one that a shop which
    /// counts in this unit goes by.
    #[must_use]
    pub fn either<T>(self, inches: T, metric: T) -> T {
        match self {
            Self::Inch | Self::Foot => inches,
            Self::Millimetre | Self::Centimetre | Self::Metre => metric,
        }
    }

    /// True for the units of the metric system.
    #[must_use]
    pub const fn is_metric(self) -> bool {
        match self {
            Self::Inch | Self::Foot => false,
            Self::Millimetre | Self::Centimetre | Self::Metre => true,
        }
    }

    /// The other one of the two units that a file may count in.
    #[must_use]
    pub const fn other(self) -> Self {
        if self.is_metric() { Self::Inch } else { Self::Millimetre }
    }

    /// The unit's usual short name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Foot => "ft",
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
        }
    }

    /// Millimetres in one of this unit. The inch is 25.4 mm exactly
    /// (international yard and pound agreement, 1959).
    #[must_use]
    pub const fn millimetres(self) -> Exact {
        match self {
            Self::Inch => const { Exact::ratio(127, 5) },
            Self::Foot => const { Exact::ratio(1524, 5) },
            Self::Millimetre => Exact::ONE,
            Self::Centimetre => Exact::int(10),
            Self::Metre => Exact::int(1000),
        }
    }
}
