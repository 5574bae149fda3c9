//! What a word's figure lies between, declared beside the word.

use crate::measure::{Area, Exact, Length, Load, Mass, Stiffness, Tape, Unit, Volume};

use super::figure::plain;
use super::value::Value;
use super::word::Kind;

/// One end of a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bound {
    /// As it is declared, with its unit: `3/8 in`.
    pub text: &'static str,
    /// The same counted in what `measure` counts values of its kind in.
    pub at: Exact,
}

/// A range, both ends within.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Range {
    /// The least.
    pub least: Bound,
    /// The most.
    pub most: Bound,
}

impl Range {
    /// A range from two figures as they are written in a spec.
    pub(super) const fn new(least: &'static str, most: &'static str) -> Self {
        Self { least: bound(least), most: bound(most) }
    }

    /// True for what lies within.
    pub(super) fn holds(&self, measure: Exact) -> bool {
        self.least.at <= measure && measure <= self.most.at
    }

    /// Both ends in a sentence, in units that go with that one: `3/4 to 12 in`, `4 lb per
    /// ft2`. What is declared in the other is told roughly.
    pub(super) fn told(&self, kind: Kind, unit: Unit) -> String {
        let (least, most) = (self.least.told(kind, unit), self.most.told(kind, unit));
        format!("{least} to {most}")
    }
}

impl Bound {
    fn told(&self, kind: Kind, unit: Unit) -> String {
        let own = self.text.split_once(' ').and_then(|(_, unit)| Unit::parse(unit));
        match (is_length(kind), own) {
            (true, Some(own)) if own.is_metric() != unit.is_metric() => {
                roughly(Length::new(self.at, Unit::Millimetre), unit)
            }
            _ => self.converted(unit).unwrap_or_else(|| self.text.to_owned()),
        }
    }

    /// Weights, loads, and temperatures in what goes with feet or with meters, to two
    /// figures; `None` where they are declared so.
    fn converted(&self, unit: Unit) -> Option<String> {
        let (_, own) = self.text.split_once(' ')?;
        let per = |one: Exact| two_figures(self.at / one);
        Some(match (own, unit.is_metric()) {
            ("kg", false) => format!("{} lb", per(Mass::pounds(Exact::ONE).0)),
            ("kg per m2", false) => {
                format!("{} lb per ft2", per(Load::pounds_per_foot(Exact::ONE).0))
            }
            ("psi", true) => format!("{} GPa", per(Stiffness::gigapascals(Exact::ONE).0)),
            ("ml", false) => format!("{} fl-oz", per(Volume::ounces(Exact::ONE).0)),
            ("m2", false) => format!("{} ft2", per(Area::square_feet(Exact::ONE).0)),
            ("C", false) => {
                let warm = self.at * Exact::ratio(9, 5) + Exact::int(32);
                format!("{} F", warm.round())
            }
            _ => return None,
        })
    }
}

/// A figure above nought, rounded to two figures.
fn two_figures(value: Exact) -> String {
    let (mut scale, ten) = (Exact::ONE, Exact::int(10));
    while value / scale >= Exact::int(100) {
        scale = scale * ten;
    }
    while value / scale < ten && scale > Exact::ratio(1, 1_000) {
        scale = scale / ten;
    }
    plain(Exact::int((value / scale).round()) * scale)
}

/// To two figures in millimeters; in inches to a 64th where it is short, to a sixteenth, or
/// to a whole inch where it is long.
fn roughly(length: Length, unit: Unit) -> String {
    if unit.is_metric() {
        let tenths = length.in_unit(Unit::Millimetre) * Exact::int(10);
        let mut step = 1;
        while tenths.abs() > Exact::int(step * 100) {
            step *= 10;
        }
        let rounded = Exact::ratio((tenths / Exact::int(step)).round() * step, 10);
        let rounded = Length::new(rounded, Unit::Millimetre);
        return format!("{} mm", Tape::millimetres().exact(rounded));
    }
    let inches = length.in_unit(Unit::Inch);
    let parts = match inches.abs() {
        short if short < Exact::ratio(1, 4) => 64,
        middling if middling < Exact::int(6) => 16,
        _ => 1,
    };
    format!("{} in", Exact::ratio((inches * Exact::int(parts)).round(), parts))
}

/// True for what is measured with a tape.
pub(super) fn is_length(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Length | Kind::Offset | Kind::Size | Kind::Nominal | Kind::LengthRange | Kind::Feed
    )
}

/// What a value counts: millimeters, minutes, days, kilograms, degrees, degrees Celsius,
/// percent, psi, kilograms to the square meter, square meters to the liter, milliliters,
/// square meters; for a ratio how many of the first go to one of the second.
pub(super) fn measure(value: &Value) -> Option<Exact> {
    Some(match value {
        Value::Length(length) | Value::Feed(length) => length.in_unit(Unit::Millimetre),
        Value::Count(count) => Exact::int((*count).into()),
        Value::Number(number) | Value::Coverage(number) => *number,
        Value::Percent(percent) => percent.0,
        Value::Angle(angle) => angle.0,
        Value::Temperature(temperature) => temperature.0,
        Value::Duration(duration) => duration.0,
        Value::LeadTime(days) => Exact::int(days.0.into()),
        Value::Mass(mass) => mass.0,
        Value::Load(load) => load.0,
        Value::Stiffness(stiffness) => stiffness.0,
        Value::Volume(volume) => volume.0,
        Value::Area(area) => area.0,
        Value::Rate(rate) => rate.price.0,
        Value::Ratio((one, other)) => *one / *other,
        // Their figures are known to whoever reads what is written.
        Value::Size(_) | Value::PercentRange(_) | Value::LengthRange(_) => return None,
        Value::Text(_) | Value::Word(_) | Value::Choice(_) | Value::Path(_) | Value::Date(_) => {
            return None;
        }
    })
}

/// Units by their factor to what [`measure`] counts.
const UNITS: &[(&[u8], i64, i64)] = &[
    (b"", 1, 1),
    (b" mm", 1, 1),
    (b" m", 1000, 1),
    (b" in", 127, 5),
    (b" ft", 1524, 5),
    (b" mm per min", 1, 1),
    (b" m per min", 1000, 1),
    (b" s", 1, 60),
    (b" min", 1, 1),
    (b" h", 60, 1),
    (b" day", 1, 1),
    (b" weeks", 7, 1),
    (b"%", 1, 1),
    (b" deg", 1, 1),
    (b" C", 1, 1),
    (b" kg", 1, 1),
    (b" kg per m2", 1, 1),
    (b" m2 per l", 1, 1),
    (b" psi", 1, 1),
    (b" ml", 1, 1),
    (b" m2", 1, 1),
];

/// Reads a decimal or a fraction with one of the units, when this is compiled.
const fn bound(text: &'static str) -> Bound {
    let bytes = text.as_bytes();
    let is_negative = bytes[0] == b'-';
    let (mut numer, mut denom, mut under, mut at) = (0, 1, 0, is_negative as usize);
    let (mut has_point, mut is_fraction, mut whole) = (false, false, 0);
    while at < bytes.len() {
        match bytes[at] {
            b'.' => has_point = true,
            b'/' => is_fraction = true,
            b'-' => {
                whole = numer;
                numer = 0;
            }
            digit if digit.is_ascii_digit() && is_fraction => {
                under = under * 10 + (digit - b'0') as i64;
            }
            digit if digit.is_ascii_digit() => {
                numer = numer * 10 + (digit - b'0') as i64;
                if has_point {
                    denom *= 10;
                }
            }
            _ => break,
        }
        at += 1;
    }
    if is_fraction {
        denom = under;
        numer += whole * under;
    }
    if is_negative {
        numer = -numer;
    }
    let (_, unit) = bytes.split_at(at);
    let mut known = 0;
    // An unknown unit runs past the end, which stops the compiler.
    loop {
        let (name, times, over) = UNITS[known];
        if same(name, unit) {
            return Bound { text, at: Exact::ratio(numer * times, denom * over) };
        }
        known += 1;
    }
}

const fn same(one: &[u8], other: &[u8]) -> bool {
    if one.len() != other.len() {
        return false;
    }
    let mut at = 0;
    while at < one.len() {
        if one[at] != other[at] {
            return false;
        }
        at += 1;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::super::blocks::BLOCKS;
    use super::*;

    /// What no range holds for: a mark of the tape, which has a list of its own; prices,
    /// since nobody knows the currency; what is measured and recorded of a piece, which is
    /// compared with the drawing instead.
    const WITHOUT: &[&str] = &["tape", "price", "casework"];
    const RECORDS: &[&str] = &[
        "measured",
        "measured-opening",
        "diagonals",
        "measured-stock",
        "measured-shop",
        "made",
        "cut-part",
    ];

    #[test]
    fn every_word_that_takes_a_figure_knows_what_it_can_be() {
        let mut wrong = Vec::new();
        for block in BLOCKS.iter().filter(|block| !RECORDS.contains(&block.name)) {
            for row in block.words {
                let takes = row.takes.iter().any(|slot| is_figure(slot.kind));
                let excused = WITHOUT.contains(&row.word);
                if takes != (row.can_be.is_some() || excused) || row.ranges_by.is_empty() {
                    wrong.push(format!("{} in {}", row.word, block.name));
                }
                let (Some(can_be), Some(usual)) = (row.can_be, row.usual) else { continue };
                if !can_be.holds(usual.least.at) || !can_be.holds(usual.most.at) {
                    wrong.push(format!(
                        "{} in {} is usually what it can't be",
                        row.word, block.name
                    ));
                }
            }
        }
        assert!(wrong.is_empty(), "give each a `can_be`, and a `usual`: {wrong:#?}");
    }

    /// True for a kind of which figures are written.
    fn is_figure(kind: Kind) -> bool {
        match kind {
            Kind::Length
            | Kind::Offset
            | Kind::Size
            | Kind::Count(_)
            | Kind::Number
            | Kind::Nominal
            | Kind::Percent
            | Kind::PercentRange
            | Kind::LengthRange
            | Kind::Angle
            | Kind::Temperature
            | Kind::Duration
            | Kind::LeadTime
            | Kind::Mass
            | Kind::Load
            | Kind::Stiffness
            | Kind::Price(_)
            | Kind::Feed
            | Kind::Ratio
            | Kind::Coverage
            | Kind::Volume
            | Kind::Area => true,
            Kind::Text
            | Kind::File
            | Kind::Label
            | Kind::LetterOrNumber
            | Kind::Finding
            | Kind::Define
            | Kind::Refer(_)
            | Kind::Path
            | Kind::Date
            | Kind::Choice(_)
            | Kind::Exactly(_) => false,
        }
    }

    #[test]
    fn bounds_are_read_as_they_would_be_in_a_spec() {
        for (text, at) in [
            ("3/8 in", Exact::ratio(381, 40)),
            ("1-3/4 in", Exact::ratio(889, 20)),
            ("-30 m", Exact::int(-30_000)),
            ("0.05 mm", Exact::ratio(1, 20)),
            ("16 ft", Exact::ratio(24_384, 5)),
            ("90 s", Exact::ratio(3, 2)),
            ("24 h", Exact::int(1440)),
            ("7.5%", Exact::ratio(15, 2)),
            ("1/8", Exact::ratio(1, 8)),
        ] {
            assert_eq!(bound(text).at, at, "{text}");
        }
    }

    #[test]
    fn a_range_is_told_in_the_unit_of_the_file() {
        let range = Range::new("3/8 in", "16 ft");
        assert_eq!(range.told(Kind::Length, Unit::Inch), "3/8 in to 16 ft");
        assert_eq!(range.told(Kind::Length, Unit::Millimetre), "9.5 mm to 4900 mm");
        let range = Range::new("3 mm", "2 m");
        assert_eq!(range.told(Kind::Length, Unit::Inch), "1/8 in to 79 in");
        assert_eq!(Range::new("1%", "9%").told(Kind::Percent, Unit::Inch), "1% to 9%");
        // 2000 / 25.4 = 78.7.
        let range = Range::new("-2 m", "2 m");
        assert_eq!(range.told(Kind::Offset, Unit::Inch), "-79 in to 79 in");
        assert_eq!(range.told(Kind::Offset, Unit::Millimetre), "-2 m to 2 m");
    }

    /// 1 lb per ft2 is 4.882 kg per m2, 1 lb is 0.4536 kg, and 1 GPa is 145,038 psi
    /// (conversions of units, exact definitions).
    #[test]
    fn loads_and_weights_are_told_in_what_goes_with_the_unit() {
        let range = Range::new("20 kg per m2", "700 kg per m2");
        assert_eq!(range.told(Kind::Load, Unit::Inch), "4.1 lb per ft2 to 140 lb per ft2");
        assert_eq!(range.told(Kind::Load, Unit::Millimetre), "20 kg per m2 to 700 kg per m2");
        let range = Range::new("5 kg", "200 kg");
        assert_eq!(range.told(Kind::Mass, Unit::Inch), "11 lb to 440 lb");
        let range = Range::new("200000 psi", "3500000 psi");
        assert_eq!(range.told(Kind::Stiffness, Unit::Millimetre), "1.4 GPa to 24 GPa");
        let range = Range::new("-10 C", "40 C");
        assert_eq!(range.told(Kind::Temperature, Unit::Inch), "14 F to 104 F");
    }
}
