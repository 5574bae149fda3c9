//! Digits to exact numbers.

use pest::iterators::Pair;

use super::parser::Rule;
use super::tree::{Number, NumberUnit};
use crate::measure::{Exact, Unit};

/// Why a number can't be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NumberFault {
    /// More digits than can be kept exactly through all sums.
    TooFine,
    /// A fraction over nought.
    OverNought,
}

/// Reads a `quantity` pair.
pub(super) fn quantity(pair: Pair<'_, Rule>) -> Result<Number, NumberFault> {
    let mut value = Exact::ZERO;
    let text = pair.as_str();
    let (mut unit, is_fraction) = (None, text.contains('/'));
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::number => value = number(part.as_str())?,
            Rule::feet_tail => {
                let inches = part.into_inner().find(|part| part.as_rule() == Rule::number);
                let inches = inches.map_or(Ok(Exact::ZERO), |part| number(part.as_str()))?;
                value = checked(value * Exact::int(12) + inches)?;
                unit = Some(NumberUnit::Length(Unit::Inch));
            }
            Rule::unit | Rule::mark => unit = unit_named(part.as_str()),
            _ => {}
        }
    }
    let is_top_heavy = value > Exact::ONE && is_bare_fraction(text);
    Ok(Number { value, unit, is_fraction, is_top_heavy })
}

/// A number as it is written in `digits`, with the unit that stands behind it.
pub(super) fn written(digits: &str, unit: Option<NumberUnit>) -> Result<Number, NumberFault> {
    let value = number(digits)?;
    let is_top_heavy = value > Exact::ONE && is_bare_fraction(digits);
    Ok(Number { value, unit, is_fraction: digits.contains('/'), is_top_heavy })
}

/// True for digits that are a fraction and nothing before it.
fn is_bare_fraction(text: &str) -> bool {
    let before = text.split_once('/').map(|(before, _)| before);
    before.is_some_and(|digits| digits.bytes().all(|byte| byte.is_ascii_digit()))
}

/// Reads a `figure`, which is a number and perhaps its unit.
pub(super) fn figure(text: &str) -> Result<Number, NumberFault> {
    let is_unit = |byte: u8| byte.is_ascii_alphabetic() || byte == b'%';
    match text.bytes().position(is_unit) {
        None => written(text, None),
        Some(at) => {
            let (digits, unit) = text.split_at(at);
            written(digits.trim_end(), unit_named(unit))
        }
    }
}

/// `3`, `23.5`, `3/4`, `1-1/2` or `1 1/2`.
pub(super) fn number(text: &str) -> Result<Exact, NumberFault> {
    if text.bytes().all(|byte| byte.is_ascii_digit()) {
        return checked(whole(text)?);
    }
    let Some((left, denom)) = text.split_once('/') else { return decimal(text) };
    let (units, numer) = left.split_once(['-', ' ']).unwrap_or(("0", left));
    checked(whole(units)? + fraction(whole(numer)?, whole(denom)?)?)
}

fn fraction(numer: Exact, denom: Exact) -> Result<Exact, NumberFault> {
    if denom.is_zero() {
        return Err(NumberFault::OverNought);
    }
    checked(numer / denom)
}

fn whole(digits: &str) -> Result<Exact, NumberFault> {
    digits.parse().map(Exact::int).map_err(|_| NumberFault::TooFine)
}

fn decimal(text: &str) -> Result<Exact, NumberFault> {
    let (units, places) = text.split_once('.').unwrap_or((text, ""));
    let places = places.trim_end_matches('0');
    let power = u32::try_from(places.len()).ok().and_then(|n| 10i64.checked_pow(n));
    let power = power.ok_or(NumberFault::TooFine)?;
    let fraction = if places.is_empty() { Exact::ZERO } else { whole(places)? / Exact::int(power) };
    checked(whole(units)? + fraction)
}

fn checked(value: Exact) -> Result<Exact, NumberFault> {
    match value.is_out_of_range() || value.is_finer_than(Exact::FINEST) {
        true => Err(NumberFault::TooFine),
        false => Ok(value),
    }
}

/// The unit written behind a number.
pub(super) fn unit_named(text: &str) -> Option<NumberUnit> {
    Some(match text {
        "%" => NumberUnit::Percent,
        "deg" => NumberUnit::Degree,
        "F" => NumberUnit::Fahrenheit,
        "C" => NumberUnit::Celsius,
        "min" => NumberUnit::Minute,
        "h" => NumberUnit::Hour,
        "lb" => NumberUnit::Pound,
        "kg" => NumberUnit::Kilogram,
        length => NumberUnit::Length(Unit::parse(length)?),
    })
}
