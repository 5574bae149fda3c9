//! Values that several arguments make up: `30% to 55%`, `11.40 per board-foot`.

use crate::diagnostics::{Fix, Grade};
use crate::measure::{
    Area, Days, Exact, Load, Money, Rate, Span, Spanned, Stiffness, Unit, Volume, nearest,
};
use crate::syntax::{Argument, Number, NumberUnit};
use crate::vocabulary::evaluate::{self, Fault};
use crate::vocabulary::natural;
use crate::vocabulary::value::Value;
use crate::vocabulary::word::{Kind, one_of};

use super::{Taken, above_zero, expr, is, lacking, number, percent, positive, wrong, wrong_of};

pub(super) fn percent_range(kind: Kind, arguments: &[Argument]) -> Taken {
    let (low, high, whole) = ends(kind, arguments, |end| percent(kind, end))
        .map_err(|fault| signless(fault, arguments))?;
    Ok((Spanned::new(Value::PercentRange((low.min(high), low.max(high))), whole), 3))
}

/// `30 to 60`, and `30 to 60%`: the same fault with the signs that the ends lack.
fn signless(mut fault: Fault, arguments: &[Argument]) -> Fault {
    let [low, to, high, ..] = arguments else { return fault };
    let share = |end: &Argument| match number(end)? {
        Number { value, unit: None | Some(NumberUnit::Percent), .. }
            if value <= Exact::int(100) =>
        {
            Some(format!("{value}%"))
        }
        _ => None,
    };
    if let (true, Some(from), Some(until)) = (is(to, "to"), share(low), share(high)) {
        "its sign is missing".clone_into(&mut fault.primary.text);
        let (whole, text) = (low.span().to(high.span()), format!("{from} to {until}"));
        fault.fixes.push(Fix::new(Grade::Choice, "write its signs", whole, text));
    }
    fault
}

pub(super) fn length_range(kind: Kind, arguments: &[Argument], unit: Unit) -> Taken {
    let length = |end: &Argument| evaluate::length(expr(kind, end)?, unit);
    let (low, high, whole) = ends(kind, arguments, length)?;
    Ok((Spanned::new(Value::LengthRange((low.min(high), low.max(high))), whole), 3))
}

pub(super) fn ratio(kind: Kind, arguments: &[Argument], unit: Unit) -> Taken {
    let (a, b, whole) = ends(kind, arguments, |end| above_zero(kind, end, unit))?;
    Ok((Spanned::new(Value::Ratio((a, b)), whole), 3))
}

/// `100 per min`
pub(super) fn feed(kind: Kind, arguments: &[Argument], unit: Unit) -> Taken {
    match arguments {
        [length, per, minute, ..] if is(per, "per") && is_minute(minute) => {
            let whole = length.span().to(minute.span());
            let value = Value::Feed(evaluate::length(expr(kind, length)?, unit)?);
            Ok((Spanned::new(value, whole), 3))
        }
        [first, ..] => Err(wrong(kind, first.span())),
        [] => Err(wrong(kind, Span::default())),
    }
}

/// How many units of a price are offered where none is written.
const MOST: usize = 3;

pub(super) fn price(
    kind: Kind,
    units: &'static [&'static str],
    arguments: &[Argument],
    unit: Unit,
) -> Taken {
    let Some(first) = arguments.first() else { return Err(wrong(kind, Span::default())) };
    let amount = evaluate::number(expr(kind, first)?, unit)?;
    if amount.is_negative() {
        return Err(wrong(kind, first.span()));
    }
    let (last, taken) = match arguments {
        [_, each, ..] if is(each, "each") => (each, 2),
        [_, per, what, ..] if is(per, "per") => (what, 3),
        // What it is the price of is missing.
        [_] => {
            let each = units.iter().take(MOST).map(|unit| match *unit {
                "each" => "each".to_owned(),
                unit => format!("per {unit}"),
            });
            let each: Vec<String> = each.collect();
            let fault = (wrong(kind, first.span()), "the price of what?");
            return Err(lacking(fault, first.span(), " ", each.iter().map(String::as_str)));
        }
        _ => return Err(wrong(kind, first.span())),
    };
    let word = last.as_word().map(|word| word.text);
    let Some(per) = units.iter().find(|unit| Some(**unit) == word) else {
        let mut fault = wrong_of(&one_of(units), last.span());
        let meant = |word: &str| {
            let all = units.iter().copied();
            natural::sold_by(word, all.clone()).or_else(|| nearest(word, all))
        };
        if let Some(near) = word.and_then(meant) {
            let title = format!("write `{near}`");
            fault.fixes.push(Fix::new(Grade::Choice, title, last.span(), near));
        }
        return Err(fault);
    };
    let rate = Rate { price: Money(amount), per };
    Ok((Spanned::new(Value::Rate(rate), first.span().to(last.span())), taken))
}

/// `15 lb per ft2` or `75 kg per m2`.
pub(super) fn load(kind: Kind, arguments: &[Argument], unit: Unit) -> Taken {
    let [amount, per, area, ..] = arguments else {
        let span = arguments.first().map_or(Span::default(), Argument::span);
        return Err(match arguments {
            [amount] => load_without_unit(kind, amount, unit),
            _ => wrong(kind, span),
        });
    };
    let whole = amount.span().to(area.span());
    let word = area.as_word().map(|word| word.text);
    let load = match (number(amount), word) {
        (Some(Number { value, unit: Some(NumberUnit::Pound), .. }), Some("ft2")) => {
            Load::pounds_per_foot(positive(value, whole)?)
        }
        (Some(Number { value, unit: Some(NumberUnit::Kilogram), .. }), Some("m2")) => {
            Load(positive(value, whole)?)
        }
        _ => return Err(wrong(kind, whole)),
    };
    if !is(per, "per") {
        return Err(wrong(kind, whole));
    }
    Ok((Spanned::new(Value::Load(load), whole), 3))
}

/// What is told of a load of which only the figure is written, or that and its weight.
fn load_without_unit(kind: Kind, amount: &Argument, unit: Unit) -> Fault {
    let span = amount.span();
    let fault = wrong(kind, span);
    let (pounds, kilograms) = ("lb per ft2", "kg per m2");
    let units: &[&str] = match (number(amount).map(|own| own.unit), unit.is_metric()) {
        (Some(None), false) => &[pounds, kilograms],
        (Some(None), true) => &[kilograms, pounds],
        (Some(Some(NumberUnit::Pound)), _) => &["per ft2"],
        (Some(Some(NumberUnit::Kilogram)), _) => &["per m2"],
        (Some(Some(_)) | None, _) => return fault,
    };
    lacking((fault, "its unit is missing"), span, " ", units.iter().copied())
}

/// `1490000 psi` or `10.3 GPa`.
pub(super) fn stiffness(kind: Kind, arguments: &[Argument]) -> Taken {
    let [amount, unit, ..] = arguments else {
        return Err(wrong(kind, arguments.first().map_or(Span::default(), Argument::span)));
    };
    let whole = amount.span().to(unit.span());
    let Some(Number { value, unit: None, .. }) = number(amount) else {
        return Err(wrong(kind, whole));
    };
    let value = positive(value, whole)?;
    let stiffness = match unit.as_word().map(|word| word.text) {
        Some("psi") => Stiffness(value),
        Some("GPa") => Stiffness::gigapascals(value),
        _ => return Err(wrong(kind, whole)),
    };
    Ok((Spanned::new(Value::Stiffness(stiffness), whole), 2))
}

/// `30 m2 per l` or `450 ft2 per gal`, kept as square metres to the litre. One
/// US gallon is 231 cubic inches, one square foot 144 square inches exactly.
pub(super) fn coverage(kind: Kind, arguments: &[Argument]) -> Taken {
    let [amount, area, per, volume, ..] = arguments else {
        return Err(wrong(kind, arguments.first().map_or(Span::default(), Argument::span)));
    };
    let whole = amount.span().to(volume.span());
    let Some(Number { value, unit: None, .. }) = number(amount) else {
        return Err(wrong(kind, whole));
    };
    if !is(per, "per") {
        return Err(wrong(kind, whole));
    }
    let area = match area.as_word().map(|w| w.text) {
        Some("m2") => Exact::ONE,
        Some("ft2") => Area::square_feet(Exact::ONE).0,
        _ => return Err(wrong(kind, whole)),
    };
    let litres = match volume.as_word().map(|w| w.text) {
        Some("l") => Exact::ONE,
        Some("gal") => Volume::ounces(Exact::int(128)).0 / Exact::int(1000),
        _ => return Err(wrong(kind, whole)),
    };
    let value = positive(value * area / litres, whole)?;
    Ok((Spanned::new(Value::Coverage(value), whole), 4))
}

/// `750 ml`, `2.5 l`, `8 fl-oz`, `1 qt`, `1 gal`.
pub(super) fn volume(kind: Kind, arguments: &[Argument]) -> Taken {
    let (value, unit, whole) = with_word(kind, arguments)?;
    let ounces = |many| Volume::ounces(value * Exact::int(many));
    let volume = match unit {
        "ml" => Volume(value),
        "l" => Volume(value * Exact::int(1000)),
        "fl-oz" => ounces(1),
        "qt" => ounces(32),
        "gal" => ounces(128),
        _ => return Err(wrong(kind, whole)),
    };
    Ok((Spanned::new(Value::Volume(volume), whole), 2))
}

/// `10 days` or `3 weeks`.
pub(super) fn lead_time(kind: Kind, arguments: &[Argument]) -> Taken {
    if let [only] = arguments
        && let Some(Number { unit: None, .. }) = number(only)
    {
        let span = only.span();
        let fault = (wrong(kind, span), "are these days or weeks?");
        return Err(lacking(fault, span, " ", ["weeks", "days"]));
    }
    let (value, unit, whole) = with_word(kind, arguments)?;
    let days = match unit {
        "day" | "days" => value,
        "week" | "weeks" => value * Exact::int(7),
        _ => return Err(wrong(kind, whole)),
    };
    match u32::try_from(days.numer()) {
        Ok(days) if value.is_whole() => Ok((Spanned::new(Value::LeadTime(Days(days)), whole), 2)),
        _ => Err(wrong(kind, whole)),
    }
}

/// `1 m2` or `10 ft2`.
pub(super) fn area(kind: Kind, arguments: &[Argument]) -> Taken {
    let (value, unit, whole) = with_word(kind, arguments)?;
    let area = match unit {
        "m2" => Area(value),
        "ft2" => Area::square_feet(value),
        _ => return Err(wrong(kind, whole)),
    };
    Ok((Spanned::new(Value::Area(area), whole), 2))
}

/// A number above nought and the word behind it, with the span of both.
fn with_word(kind: Kind, arguments: &[Argument]) -> Result<(Exact, &str, Span), Fault> {
    let [amount, unit, ..] = arguments else {
        return Err(wrong(kind, arguments.first().map_or(Span::default(), Argument::span)));
    };
    let whole = amount.span().to(unit.span());
    match (number(amount), unit.as_word()) {
        (Some(Number { value, unit: None, .. }), Some(word)) => {
            Ok((positive(value, whole)?, word.text, whole))
        }
        _ => Err(wrong(kind, whole)),
    }
}

/// `a to b`, with the span of the whole.
fn ends<T>(
    kind: Kind,
    arguments: &[Argument],
    read: impl Fn(&Argument) -> Result<T, Fault>,
) -> Result<(T, T, Span), Fault> {
    match arguments {
        [low, to, high, ..] if is(to, "to") => {
            Ok((read(low)?, read(high)?, low.span().to(high.span())))
        }
        [first, ..] => Err(wrong(kind, first.span())),
        [] => Err(wrong(kind, Span::default())),
    }
}

fn is_minute(argument: &Argument) -> bool {
    is(argument, "min") || is(argument, "minute")
}
