//! The scale: how weights and moments are printed, once, at the very end.

use super::{Exact, Length, Mass, Moment, Tape, Unit};

/// The unit that a job weighs in: pounds where it measures in inches, else
/// kilograms; both to a tenth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    pounds: bool,
}

impl Scale {
    /// That of a job which measures with this tape.
    #[must_use]
    pub fn of(tape: &Tape) -> Self {
        Self { pounds: tape.unit == Unit::Inch }
    }

    fn unit(self) -> &'static str {
        if self.pounds { "lb" } else { "kg" }
    }

    fn tenth(self) -> Exact {
        let one = if self.pounds { Mass::pounds(Exact::ONE).0 } else { Exact::ONE };
        one / Exact::int(10)
    }

    /// `41.2 lb`
    #[must_use]
    pub fn text(self, mass: Mass) -> String {
        format!("{} {}", tenths((mass.0 / self.tenth()).round()), self.unit())
    }

    /// `51 lb (23.0 kg)` or `23.0 kg (51 lb)`: the unit of the job first.
    #[must_use]
    pub fn both(self, mass: Mass) -> String {
        let pounds = format!("{} lb", (mass.0 / Mass::pounds(Exact::ONE).0).round());
        let kilograms = format!("{} kg", tenths((mass.0 * Exact::int(10)).round()));
        match self.pounds {
            true => format!("{pounds} ({kilograms})"),
            false => format!("{kilograms} ({pounds})"),
        }
    }

    /// How much more one weight is than another, as both are printed.
    #[must_use]
    pub fn over(self, mass: Mass, other: Mass) -> String {
        let count = |mass: Mass| (mass.0 / self.tenth()).round();
        format!("{} {}", tenths(count(mass).saturating_sub(count(other))), self.unit())
    }

    /// Weights that add up on paper, and their sum: each is taken down to its
    /// tenth, and the tenths left over go to those that lost most.
    #[must_use]
    pub fn spread(self, masses: &[Mass]) -> (Vec<String>, String) {
        let all: Vec<Exact> = masses.iter().map(|mass| mass.0 / self.tenth()).collect();
        let (each, whole) = spread(&all);
        let text = |count| format!("{} {}", tenths(count), self.unit());
        (each.into_iter().map(text).collect(), text(whole))
    }

    /// Weights, each to its nearest tenth, so that what weighs the same has the same figure
    /// and a scale shows what is printed; and the sum of what is printed.
    #[must_use]
    pub fn alike(self, masses: &[Mass]) -> (Vec<String>, String) {
        let all: Vec<Exact> = masses.iter().map(|mass| mass.0 / self.tenth()).collect();
        let (each, whole) = alike(&all);
        let text = |count| format!("{} {}", tenths(count), self.unit());
        (each.into_iter().map(text).collect(), text(whole))
    }

    /// Moments that add up on paper, and their sum: `1684 lb in`, `12.4 kg m`.
    #[must_use]
    pub fn moments(self, moments: &[Moment]) -> (Vec<String>, String) {
        let unit = self.moment();
        let all: Vec<Exact> = moments.iter().map(|moment| moment.0 / unit).collect();
        let (each, whole) = spread(&all);
        let text = |count| self.moment_text(count);
        (each.into_iter().map(text).collect(), text(whole))
    }

    /// How much more one moment is than another, as both are printed.
    #[must_use]
    pub fn moment_over(self, moment: Moment, other: Moment) -> String {
        let count = |moment: Moment| (moment.0 / self.moment()).round();
        self.moment_text(count(moment).saturating_sub(count(other)))
    }

    /// What moments are counted in: a pound on an inch, or a tenth of a
    /// kilogram on a metre.
    fn moment(self) -> Exact {
        match self.pounds {
            true => Mass::pounds(Exact::ONE).0 * Exact::ratio(254, 10_000),
            false => Exact::ratio(1, 10),
        }
    }

    /// A moment in the unit that it is printed in.
    #[must_use]
    pub fn moment_count(self, moment: Moment) -> Exact {
        moment.0 / self.moment()
    }

    fn moment_text(self, count: i64) -> String {
        match self.pounds {
            true => format!("{count} lb in"),
            false => format!("{} kg m", tenths(count)),
        }
    }
}

impl Moment {
    /// A weight on an arm.
    #[must_use]
    pub fn of(mass: Mass, arm: Length) -> Self {
        Self(mass.0 * arm.in_unit(Unit::Metre))
    }
}

fn tenths(count: i64) -> String {
    let sign = if count < 0 { "-" } else { "" };
    let count = count.unsigned_abs();
    format!("{sign}{}.{}", count / 10, count % 10)
}

/// Whole numbers that come to the rounded sum.
fn spread(all: &[Exact]) -> (Vec<i64>, i64) {
    let whole = all.iter().copied().sum::<Exact>().round();
    let mut each: Vec<i64> = all.iter().map(|one| one.floor()).collect();
    let left = whole.saturating_sub(each.iter().fold(0, |a, b| a.saturating_add(*b)));
    let mut order: Vec<(Exact, usize)> =
        all.iter().enumerate().map(|(i, one)| (*one - Exact::int(one.floor()), i)).collect();
    order.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    for (_, index) in order.into_iter().take(usize::try_from(left).unwrap_or(0)) {
        if let Some(one) = each.get_mut(index) {
            *one += 1;
        }
    }
    (each, whole)
}

/// The nearest whole numbers, and what they come to.
fn alike(all: &[Exact]) -> (Vec<i64>, i64) {
    let each: Vec<i64> = all.iter().map(|one| one.round()).collect();
    let whole = each.iter().fold(0i64, |a, b| a.saturating_add(*b));
    (each, whole)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn weights_print_in_the_unit_of_the_job() {
        // 1 kg is 2.2046 lb (international pound, 1959).
        let mass = Mass(Exact::int(10));
        assert_eq!(Scale::of(&Tape::inches()).text(mass), "22.0 lb");
        assert_eq!(Scale::of(&Tape::millimetres()).text(mass), "10.0 kg");
    }

    #[test]
    fn moments_are_weights_on_their_arms() {
        let ten = Moment::of(Mass::pounds(Exact::int(10)), Length::inches(7, 1));
        assert_eq!(Scale::of(&Tape::inches()).moments(&[ten]).1, "70 lb in");
        let metric = Moment::of(Mass(Exact::int(10)), Length::mm(250));
        assert_eq!(Scale::of(&Tape::millimetres()).moments(&[metric]).1, "2.5 kg m");
    }

    /// Two cases of 37.691 kg are 83.09 lb each, four doors of 1.262 kg 2.78 lb; exactly they
    /// come to 177.3 lb.
    #[test]
    fn what_weighs_the_same_prints_the_same() {
        let grams = [37_691, 37_691, 1_262, 1_262, 1_262, 1_262];
        let masses = grams.map(|grams| Mass(Exact::ratio(grams, 1000)));
        let (each, whole) = Scale::of(&Tape::inches()).alike(&masses);
        assert_eq!(each, ["83.1 lb", "83.1 lb", "2.8 lb", "2.8 lb", "2.8 lb", "2.8 lb"]);
        assert_eq!(whole, "177.4 lb");
    }

    proptest! {
        #[test]
        fn printed_weights_add_up(grams in prop::collection::vec(0i64..500_000, 1..20), inch: bool) {
            let scale = Scale { pounds: inch };
            let masses: Vec<Mass> = grams.iter().map(|g| Mass(Exact::ratio(*g, 1000))).collect();
            let (each, whole) = scale.spread(&masses);
            let number = |text: &str| -> i64 {
                let figure = text.split(' ').next().expect("a figure").replace('.', "");
                figure.parse().expect("a number")
            };
            prop_assert_eq!(each.iter().map(|one| number(one)).sum::<i64>(), number(&whole));
        }
    }
}
