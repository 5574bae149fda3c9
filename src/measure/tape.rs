//! The tape: how a length is rounded and printed, once, at the very end.

use std::collections::BTreeMap;

use super::{Digits, Exact, Length, Unit};

/// Behind a figure on paper that was made from a measured one.
pub const MEASURED: &str = " (m)";

/// The finest mark that the job's papers are printed to, and their unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tape {
    /// `Inch` or `Millimetre`.
    pub unit: Unit,
    /// The finest mark; greater than zero.
    pub mark: Length,
}

/// A length as it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The exact length.
    pub exact: Length,
    /// The length at a tape mark.
    pub shown: Length,
}

impl Printed {
    /// True where the printed figure is not the exact length.
    #[must_use]
    pub fn is_rounded(&self) -> bool {
        self.exact != self.shown
    }
}

impl Tape {
    /// Inches to 1/32.
    #[must_use]
    pub fn inches() -> Self {
        Self { unit: Unit::Inch, mark: Length::inches(1, 32) }
    }

    /// Millimetres to 0.5.
    #[must_use]
    pub fn millimetres() -> Self {
        Self { unit: Unit::Millimetre, mark: Length::mm(1) / 2 }
    }

    /// The finest marks that a tape or rule has (common practice, no source):
    /// halves of an inch to 1/128, as on a fraction caliper, a millimeter, its
    /// half, and its tenth, as on a vernier.
    #[must_use]
    pub fn marks(unit: Unit) -> Vec<Length> {
        match unit {
            Unit::Inch => (1..=7).map(|halved| Length::inches(1, 1 << halved)).collect(),
            _ => [1, 2, 10].into_iter().map(|of| Length::mm(1) / of).collect(),
        }
    }

    /// The length at the nearest mark; halfway goes away from zero.
    #[must_use]
    pub fn print(&self, exact: Length) -> Printed {
        Printed { exact, shown: self.mark * (exact / self.mark).round() }
    }

    /// The next mark that is not below the length.
    #[must_use]
    pub fn up(&self, length: Length) -> Length {
        self.mark * (length / self.mark).ceil()
    }

    /// The next mark that is not above the length.
    #[must_use]
    pub fn down(&self, length: Length) -> Length {
        self.mark * (length / self.mark).floor()
    }

    /// Prints parts so that they add up to the printed whole: each part is
    /// taken down to its mark and the marks left over go to the parts that
    /// lost most, so no part moves by a whole mark. Of those that lost as much the
    /// shortest come first, so that a chain reads alike from both of its ends.
    ///
    /// The printed whole is the sum of `parts` at its nearest mark.
    #[must_use]
    pub fn spread(&self, parts: &[Length]) -> Vec<Printed> {
        let whole = (parts.iter().copied().sum::<Length>() / self.mark).round();
        let marks: Vec<i64> = parts.iter().map(|part| (*part / self.mark).floor()).collect();
        let mut left_over = whole.saturating_sub(marks.iter().fold(0, |a, b| a.saturating_add(*b)));
        let mut order: Vec<usize> = (0..parts.len()).collect();
        let lost = |i: usize| parts[i] / self.mark - Exact::int(marks[i]);
        let shorter = |a: usize, b: usize| parts[a].cmp(&parts[b]).then(a.cmp(&b));
        order.sort_by(|a, b| lost(*b).cmp(&lost(*a)).then_with(|| shorter(*a, *b)));
        let mut shown = marks.clone();
        for i in order {
            if left_over <= 0 {
                break;
            }
            shown[i] += 1;
            left_over -= 1;
        }
        parts
            .iter()
            .zip(shown)
            .map(|(exact, marks)| Printed { exact: *exact, shown: self.mark * marks })
            .collect()
    }

    /// The same where equal parts are printed alike, so that nobody takes them for
    /// different ones: each is then rounded by itself, and true where they still add up.
    #[must_use]
    pub fn spread_alike(&self, parts: &[Length]) -> (Vec<Printed>, bool) {
        let spread = self.spread(parts);
        let mut shown: BTreeMap<Length, Length> = BTreeMap::new();
        let alike = |part: &Printed| *shown.entry(part.exact).or_insert(part.shown) == part.shown;
        if spread.iter().all(alike) {
            return (spread, true);
        }
        let printed: Vec<Printed> = parts.iter().map(|part| self.print(*part)).collect();
        let sum = |parts: &[Printed]| parts.iter().map(|part| part.shown).sum::<Length>();
        let adds_up = sum(&printed) == sum(&spread);
        (printed, adds_up)
    }

    /// The exact length in plain text, without its unit: `26-1/2`, `13-23/240`,
    /// `332.5`. Millimetres print as a decimal where three places hold them.
    #[must_use]
    pub fn exact(&self, length: Length) -> String {
        printed(number(length.in_unit(self.unit), self.unit))
    }

    /// The exact length in plain text where a rule has a mark for it, down to 128ths, or
    /// where three places hold it; else to the thousandth of an inch, with `≈` behind it:
    /// `26-1/2`, `7.1`, `59.055≈`.
    #[must_use]
    pub fn finest(&self, length: Length) -> String {
        let own = length.in_unit(self.unit);
        match (is_marked(own, self.unit), (own * Exact::int(1000)).is_whole()) {
            (true, _) => self.exact(length),
            (false, true) => printed(decimal(own, 3)),
            (false, false) => format!("{}≈", self.fine(length)),
        }
    }

    /// A figure for a message: exact where a maker would write it so, in the
    /// job's own unit or with the other one behind it (`3 mm` in an inch job, down to a
    /// hundredth of one); else at its tape mark with `~`.
    #[must_use]
    pub fn figure(&self, length: Length) -> String {
        let own = length.in_unit(self.unit);
        let source = self.source(length);
        let hundredths = (length.in_unit(Unit::Millimetre) * Exact::int(100)).is_whole();
        let foreign = source.contains(' ') && (self.unit == Unit::Millimetre || hundredths);
        if foreign {
            return printed(source);
        }
        if is_plain(own, self.unit) {
            return self.finest(length);
        }
        self.text(length)
    }

    /// Two figures that differ, for a message: told exactly where they would
    /// look alike.
    #[must_use]
    pub fn apart(&self, one: Length, other: Length) -> [String; 2] {
        let told = [self.figure(one), self.figure(other)];
        if told[0] == told[1] { self.as_fine_as_needed(one, other) } else { told }
    }

    /// Two figures as fine as they must be to differ; exact where nothing coarser does.
    #[must_use]
    pub fn as_fine_as_needed(&self, one: Length, other: Length) -> [String; 2] {
        let told = [self.finest(one), self.finest(other)];
        if told[0] == told[1] { [self.exact(one), self.exact(other)] } else { told }
    }

    /// The length at its tape mark in plain text, with `~` behind a figure
    /// that was rounded.
    #[must_use]
    pub fn text(&self, length: Length) -> String {
        self.show(self.print(length))
    }

    /// A printed length in plain text, with `~` behind it when rounded.
    #[must_use]
    pub fn show(&self, printed: Printed) -> String {
        let mut text = self.exact(printed.shown);
        if printed.is_rounded() {
            text.push('~');
        }
        text
    }

    /// A length finer than the tape, as physics gives it: three places of an
    /// inch or two of a millimetre: `0.139`, `3.53`.
    #[must_use]
    pub fn fine(&self, length: Length) -> String {
        let places: u32 = if self.unit == Unit::Inch { 3 } else { 2 };
        let scale = 10i64.pow(places);
        let count = (length.in_unit(self.unit) * Exact::int(scale)).round();
        let (whole, rest) = (
            count.unsigned_abs() / scale.unsigned_abs(),
            count.unsigned_abs() % scale.unsigned_abs(),
        );
        let sign = if count < 0 { "−" } else { "" };
        format!("{sign}{whole}.{rest:0places$}", places = places as usize)
    }

    /// A length given by a maker's sheet in whole or tenth millimeters, so that a 35 mm
    /// cup stays one: `35 mm`; `None` for any other in a job in inches.
    #[must_use]
    pub fn hardware(&self, length: Length) -> Option<String> {
        let millimeters = length.in_unit(Unit::Millimetre);
        let tenths = (millimeters * Exact::int(10)).is_whole();
        let metric = tenths && length.in_unit(Unit::Inch).denom() > 64;
        let told = || format!("{} mm", Self::millimetres().exact(length));
        (metric || self.unit == Unit::Millimetre).then(told)
    }

    /// What must not be less, as it is told finer than the tape: in millimeters the next
    /// tenth that is not below it.
    #[must_use]
    pub fn fine_up(&self, length: Length) -> Length {
        match self.unit {
            Unit::Inch | Unit::Foot => length,
            Unit::Millimetre | Unit::Centimetre | Unit::Metre => {
                let mark = Length::mm(1) / 10;
                mark * (length / mark).ceil()
            }
        }
    }

    /// A figure for a message, always with its unit.
    #[must_use]
    pub fn figure_with_unit(&self, length: Length) -> String {
        let figure = self.figure(length);
        if figure.contains(' ') { figure } else { format!("{figure} {}", self.unit.name()) }
    }

    /// As [`Tape::source`], of what a calliper or a slip of a decimal gave: as a
    /// decimal where no tape has the figure and four places hold it.
    #[must_use]
    pub fn decimal_source(&self, length: Length) -> String {
        let own = length.in_unit(self.unit);
        let text = decimal(own, 4);
        let mark = own.denom().count_ones() == 1;
        if self.unit == Unit::Inch && mark || text.contains('/') {
            return self.source(length);
        }
        text
    }

    /// How the length is written in a spec of this job, ready to paste: exact,
    /// in the job's own unit where that is plain, else in the other.
    #[must_use]
    pub fn source(&self, length: Length) -> String {
        let own = length.in_unit(self.unit);
        let other = match self.unit {
            Unit::Inch => Unit::Millimetre,
            _ => Unit::Inch,
        };
        if !is_plain(own, self.unit) && is_plain(length.in_unit(other), other) {
            return format!("{} {}", number(length.in_unit(other), other), other.name());
        }
        number(own, self.unit)
    }

    /// As [`Tape::source`], but a sum of both units as a long decimal, rather
    /// than as a fraction of 4064ths. What no short fraction holds is told to
    /// the thousandth of a millimetre: the wood is no truer.
    #[must_use]
    pub fn recorded(&self, length: Length) -> String {
        let own = length.in_unit(self.unit);
        let source = self.source(length);
        let millimetres = length.in_unit(Unit::Millimetre);
        let holds = |places: i64| (millimetres * Exact::int(places)).is_whole();
        let told = match holds(1_000_000) {
            _ if is_plain(own, self.unit) || source.contains(' ') => return source,
            true => decimal(millimetres, 6),
            false if own.denom() <= 1_000 => return source,
            false => {
                let thousandths = (millimetres * Exact::int(1_000)).round();
                decimal(Exact::ratio(thousandths, 1_000), 3)
            }
        };
        if self.unit == Unit::Millimetre { told } else { format!("{told} mm") }
    }
}

/// A figure with a minus that no reader takes for the hyphen of `1-1/2`.
fn printed(figure: String) -> String {
    match figure.strip_prefix('-') {
        Some(rest) => format!("−{rest}"),
        None => figure,
    }
}

/// A count of a unit as it is customarily written.
fn number(value: Exact, unit: Unit) -> String {
    match unit {
        Unit::Inch | Unit::Foot => value.to_string(),
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => decimal(value, 3),
    }
}

/// True for a count that a maker would write down: inches in 64ths or
/// coarser, millimetres to three places.
fn is_plain(value: Exact, unit: Unit) -> bool {
    match unit {
        Unit::Inch | Unit::Foot => value.denom() <= 64,
        _ => (value * Exact::int(1000)).is_whole(),
    }
}

/// True for inches that some rule has a mark for, in halves of halves, and for any
/// millimeters, which are told as decimals.
fn is_marked(value: Exact, unit: Unit) -> bool {
    match unit {
        Unit::Inch | Unit::Foot => value.denom().count_ones() == 1 && value.denom() <= 128,
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => (value * Exact::int(1000)).is_whole(),
    }
}

/// A decimal where `places` hold it exactly, else a mixed number.
fn decimal(value: Exact, places: u32) -> String {
    let scale = 10i64.pow(places);
    let scaled = value * Exact::int(scale);
    if !scaled.is_whole() {
        return value.to_string();
    }
    let digits = scaled.numer().unsigned_abs();
    let (whole, mut rest) = (digits / scale.unsigned_abs(), digits % scale.unsigned_abs());
    let mut text = Digits::new();
    let mut places = places;
    // Idle noughts are left out.
    while places > 0 && rest.is_multiple_of(10) {
        (rest, places) = (rest / 10, places - 1);
    }
    if places > 0 {
        for _ in 0..places {
            text.sign(b'0' + (rest % 10) as u8);
            rest /= 10;
        }
        text.sign(b'.');
    }
    text.whole(whole);
    if scaled.is_negative() {
        text.sign(b'-');
    }
    text.text().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// 2/5 in is on no rule, and neither is 1500 mm in inches: 59.0551.
    #[test]
    fn what_no_rule_has_is_told_as_a_decimal() {
        let tape = Tape::inches();
        let odd = Length::inches(239 * 5 + 2, 5);
        assert_eq!(tape.finest(odd), "239.4");
        assert_eq!(tape.figure(odd), "239.4");
        assert_eq!(tape.figure(Length::inches(26, 3)), "8.667≈");
        assert_eq!(tape.finest(Length::mm(1500)), "59.055≈");
        assert_eq!(tape.figure(Length::mm(1500)), "1500 mm");
        assert_eq!(tape.finest(Length::inches(53, 2)), "26-1/2");
        let third = Length::inches(26, 3);
        let close = tape.as_fine_as_needed(third, third + Length::inches(1, 300_000));
        assert_ne!(close[0], close[1]);
    }

    #[test]
    fn a_third_of_twenty_prints_at_its_mark_and_says_so() {
        let tape = Tape::inches();
        let third = Length::inches(20, 3);
        assert_eq!(tape.text(third), "6-21/32~");
        assert_eq!(tape.exact(third), "6-2/3");
        assert_eq!(tape.text(Length::inches(27, 4)), "6-3/4");
    }

    #[test]
    fn fine_lengths_print_as_decimals_of_the_jobs_unit() {
        assert_eq!(Tape::inches().fine(Length::inches(139, 1000)), "0.139");
        assert_eq!(Tape::inches().fine(-Length::inches(1, 64)), "−0.016");
        assert_eq!(Tape::millimetres().fine(Length::inches(139, 1000)), "3.53");
    }

    #[test]
    fn millimetres_print_as_decimals() {
        let tape = Tape::millimetres();
        assert_eq!(tape.text(Length::mm(665) / 2), "332.5");
        assert_eq!(tape.exact(Length::mm(1000) / 3), "333-1/3");
        assert_eq!(tape.text(Length::inches(1, 1)), "25.5~");
    }

    #[test]
    fn source_falls_back_to_the_unit_that_is_plain() {
        assert_eq!(Tape::inches().source(Length::mm(13)), "13 mm");
        assert_eq!(Tape::inches().source(Length::mm(1) * Exact::ratio(25, 2)), "12.5 mm");
        assert_eq!(Tape::inches().source(Length::inches(289, 32)), "9-1/32");
        // 18 in + 3/64 in less half a millimetre, by hand: 457.2 + 1.190625 − 0.5.
        let mixed = Length::inches(1155, 64) - Length::mm(1).half();
        assert_eq!(Tape::inches().recorded(mixed), "457.890625 mm");
        assert_eq!(Tape::millimetres().recorded(mixed), "457.890625");
        assert_eq!(Tape::inches().recorded(Length::inches(20, 3)), "6-2/3");
        // 20 / 3003 in = 0.1691641... mm.
        assert_eq!(Tape::inches().recorded(Length::inches(20, 3003)), "0.169 mm");
    }

    #[test]
    fn a_message_has_no_figure_that_nobody_measures() {
        let inches = Tape::inches();
        // 19.05 − 17.5, and 18 in less 24.257.
        assert_eq!(inches.figure(Length::mm(155) / 100), "1.55 mm");
        assert_eq!(inches.figure(Length::mm(432_943) / 1000), "17-1/32~");
        assert_eq!(inches.figure(Length::inches(33, 2)), "16-1/2");
    }

    #[test]
    fn what_a_calliper_reads_is_written_as_a_decimal() {
        let tape = Tape::inches();
        let inches = |count, of| tape.decimal_source(Length::inches(count, of));
        assert_eq!((inches(707, 1000).as_str(), inches(53, 2).as_str()), ("0.707", "26-1/2"));
        assert_eq!((inches(814, 25).as_str(), inches(1, 3).as_str()), ("32.56", "1/3"));
        assert_eq!(Tape::millimetres().decimal_source(Length::mm(178) / 10), "17.8");
    }

    #[test]
    fn three_thirds_of_twenty_print_to_twenty() {
        let tape = Tape::inches();
        let parts = [Length::inches(20, 3); 3];
        let printed = tape.spread(&parts);
        let total: Length = printed.iter().map(|p| p.shown).sum();
        assert_eq!(total, Length::inches(20, 1));
    }

    /// Five openings share 58-9/16 less four boards of 23/32: each is 11.1375, nearest to
    /// 11-1/8, and five of those are 1/16 short. Two of 10-1/64 add up to 20-1/32 only apart.
    #[test]
    fn equal_parts_are_printed_alike() {
        let tape = Tape::inches();
        let shares = [Length::inches(891, 80); 5];
        let (printed, adds_up) = tape.spread_alike(&shares);
        assert!(!adds_up && printed.iter().all(|own| own.shown == Length::inches(89, 8)));
        let (printed, adds_up) = tape.spread_alike(&[Length::inches(5, 1); 3]);
        assert!(adds_up && printed.iter().all(|own| !own.is_rounded()));
        let unlike = [Length::inches(1, 3), Length::inches(2, 3)];
        assert_eq!(tape.spread_alike(&unlike), (tape.spread(&unlike), true));
    }

    /// Seven openings of 2-3/14 and on by halves come to 26; each lost 6/7 of a 32nd, and one
    /// must stay down. It is the highest, whichever end the chain starts at.
    #[test]
    fn a_chain_reads_alike_from_both_of_its_ends() {
        let tape = Tape::inches();
        let first = Length::inches(31, 14);
        let mut parts: Vec<Length> = (0..7).map(|at| first + Length::inches(at, 2)).collect();
        let down = tape.spread(&parts);
        assert_eq!(down.last().map(|own| own.shown), Some(Length::inches(83, 16)));
        parts.reverse();
        let up: Vec<Printed> = tape.spread(&parts).into_iter().rev().collect();
        assert_eq!(up, down);
    }

    proptest! {
        #[test]
        fn printed_parts_add_up_to_the_printed_whole(
            parts in prop::collection::vec(
                (1i64..100_000, prop::sample::select(vec![1i64, 2, 3, 5, 7, 16, 64, 127])),
                1..12,
            ),
            metric: bool,
        ) {
            let tape = if metric { Tape::millimetres() } else { Tape::inches() };
            let parts: Vec<Length> = parts.into_iter().map(|(n, d)| Length::inches(n, d)).collect();
            let printed = tape.spread(&parts);
            let whole: Length = parts.iter().copied().sum();
            let total: Length = printed.iter().map(|p| p.shown).sum();
            prop_assert_eq!(total, tape.print(whole).shown);
            for p in &printed {
                prop_assert!((p.shown - p.exact).abs() < tape.mark);
                if (p.exact / tape.mark).is_whole() {
                    prop_assert!(!p.is_rounded());
                }
            }
        }
    }
}
