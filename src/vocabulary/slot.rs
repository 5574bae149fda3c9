//! Reads arguments as the kind that their slot asks for.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{
    Angle, Duration, Exact, Length, Mass, Percent, Span, Spanned, Temperature, Unit, nearest,
};
use crate::syntax::{Argument, Expr, ExprKind, Number, NumberUnit};

use super::choice::Choice;
use super::evaluate::{self, Fault};
use super::meant;
use super::natural;
use super::spelling;
use super::value::{SizeExpr, Value};
use super::word::Kind;

mod several;

type Taken = Result<(Spanned<Value>, usize), Fault>;

/// Reads a value of `kind` from the front of `arguments` and says how many of
/// them it took. Bare numbers count `unit` where a length is meant.
///
/// # Errors
/// What was expected instead, labelled where it stands.
pub(super) fn read_one(kind: Kind, arguments: &[Argument], unit: Unit) -> Taken {
    let Some(first) = arguments.first() else {
        // The reader has looked already; an empty list can't get here.
        return Err(wrong(kind, Span::default()));
    };
    let span = first.span();
    let value = match kind {
        Kind::Text | Kind::File => text(kind, first)?,
        Kind::Label | Kind::Define | Kind::Refer(_) => Value::Word(word(kind, first)?.to_owned()),
        Kind::Finding => Value::Word(spelling::finding(word(kind, first)?)),
        Kind::LetterOrNumber => letter_or_number(kind, first)?,
        Kind::Path => path(kind, first)?,
        Kind::Date => date(kind, first)?,
        Kind::Choice(choices) => Value::Choice(choice(kind, choices, first)?),
        Kind::Exactly(word) if is(first, word) => Value::Word(word.to_owned()),
        Kind::Exactly(_) => return Err(wrong(kind, span)),
        Kind::Length => Value::Length(evaluate::length(expr(kind, first)?, unit)?),
        Kind::Offset => Value::Length(evaluate::offset(expr(kind, first)?, unit)?),
        Kind::Nominal => Value::Length(nominal(kind, first, unit)?),
        Kind::Size => Value::Size(SizeExpr { expr: expr(kind, first)?.clone(), unit }),
        Kind::Number => Value::Number(above_zero(kind, first, unit)?),
        Kind::Count(most) => Value::Count(count(kind, most, first, unit)?),
        Kind::Percent => {
            Value::Percent(percent(kind, first).map_err(|fault| of_hundred(fault, first))?)
        }
        Kind::Angle | Kind::Temperature | Kind::Duration | Kind::Mass => {
            quantity(kind, first, unit)?
        }
        Kind::PercentRange => return several::percent_range(kind, arguments),
        Kind::LengthRange => return several::length_range(kind, arguments, unit),
        Kind::Ratio => return several::ratio(kind, arguments, unit),
        Kind::Load => return several::load(kind, arguments, unit),
        Kind::Stiffness => return several::stiffness(kind, arguments),
        Kind::Price(units) => return several::price(kind, units, arguments, unit),
        Kind::Feed => return several::feed(kind, arguments, unit),
        Kind::Coverage => return several::coverage(kind, arguments),
        Kind::LeadTime => return several::lead_time(kind, arguments),
        Kind::Volume => return several::volume(kind, arguments),
        Kind::Area => return several::area(kind, arguments),
    };
    Ok((Spanned::new(value, span), 1))
}

fn text(kind: Kind, argument: &Argument) -> Result<Value, Fault> {
    match argument {
        Argument::Text { value, .. } => Ok(Value::Text(value.clone())),
        _ => Err(unquoted(kind, argument)),
    }
}

fn word(kind: Kind, argument: &Argument) -> Result<&str, Fault> {
    match argument.as_word() {
        Some(word) => Ok(word.text),
        None => Err(wrong(kind, argument.span())),
    }
}

fn letter_or_number(kind: Kind, argument: &Argument) -> Result<Value, Fault> {
    match number(argument) {
        Some(Number { value, unit: None, .. }) if value.is_whole() => {
            Ok(Value::Word(value.numer().to_string()))
        }
        _ => Ok(Value::Word(word(kind, argument)?.to_owned())),
    }
}

fn path(kind: Kind, argument: &Argument) -> Result<Value, Fault> {
    match argument {
        Argument::Expr(Expr { kind: ExprKind::Name(name), .. }) => Ok(Value::Path(name.clone())),
        _ => Err(wrong(kind, argument.span())),
    }
}

fn date(kind: Kind, argument: &Argument) -> Result<Value, Fault> {
    match argument {
        Argument::Date { value, .. } => Ok(Value::Date(*value)),
        _ => Err(wrong(kind, argument.span())),
    }
}

/// A number without a unit, above zero.
fn above_zero(kind: Kind, argument: &Argument, unit: Unit) -> Result<Exact, Fault> {
    positive(evaluate::number(expr(kind, argument)?, unit)?, argument.span())
}

fn count(kind: Kind, most: u32, argument: &Argument, unit: Unit) -> Result<u32, Fault> {
    let value = evaluate::number(expr(kind, argument)?, unit)?;
    match u32::try_from(value.numer()) {
        Ok(count) if value.is_whole() && count <= most => Ok(count),
        _ => {
            let mut fault = wrong(kind, argument.span());
            if value.is_whole() && !value.is_negative() {
                fault.primary.text = "too many".to_owned();
            }
            Err(fault)
        }
    }
}

/// A number with a unit of its kind behind it; one without is offered those of a file that
/// counts in `unit`.
fn quantity(kind: Kind, argument: &Argument, unit: Unit) -> Result<Value, Fault> {
    let with_unit = number(argument).and_then(|it| Some((it.value, it.unit?)));
    match (kind, with_unit) {
        (Kind::Angle, Some((value, NumberUnit::Degree))) => Ok(Value::Angle(Angle(value))),
        (Kind::Temperature, Some((value, NumberUnit::Celsius))) => {
            Ok(Value::Temperature(Temperature(value)))
        }
        (Kind::Temperature, Some((value, NumberUnit::Fahrenheit))) => {
            Ok(Value::Temperature(Temperature::fahrenheit(value)))
        }
        (Kind::Duration, Some((value, NumberUnit::Minute))) => Ok(Value::Duration(Duration(value))),
        (Kind::Duration, Some((value, NumberUnit::Hour))) => {
            Ok(Value::Duration(Duration::hours(value)))
        }
        (Kind::Mass, Some((value, NumberUnit::Pound))) => Ok(Value::Mass(Mass::pounds(value))),
        (Kind::Mass, Some((value, NumberUnit::Kilogram))) => Ok(Value::Mass(Mass(value))),
        _ => Err(without_unit(kind, argument, unit)),
    }
}

/// What is told of a quantity that is none of its kind: where only its unit is missing, each
/// that it may have, those that go with `unit` first.
fn without_unit(kind: Kind, argument: &Argument, unit: Unit) -> Fault {
    let fault = wrong(kind, argument.span());
    if !matches!(number(argument), Some(Number { unit: None, .. })) {
        return fault;
    }
    let units: &[NumberUnit] = match (kind, unit.is_metric()) {
        (Kind::Mass, false) => &[NumberUnit::Pound, NumberUnit::Kilogram],
        (Kind::Mass, true) => &[NumberUnit::Kilogram, NumberUnit::Pound],
        (Kind::Temperature, false) => &[NumberUnit::Fahrenheit, NumberUnit::Celsius],
        (Kind::Temperature, true) => &[NumberUnit::Celsius, NumberUnit::Fahrenheit],
        (Kind::Duration, _) => &[NumberUnit::Hour, NumberUnit::Minute],
        (Kind::Angle, _) => &[NumberUnit::Degree],
        (_, _) => &[],
    };
    let units = units.iter().map(|own| own.name());
    lacking((fault, "its unit is missing"), argument.span(), " ", units)
}

/// The same fault, told as what lacks behind an argument, with each that may be written there.
fn lacking<'u>(
    (mut fault, label): (Fault, &str),
    span: Span,
    gap: &str,
    units: impl IntoIterator<Item = &'u str>,
) -> Fault {
    label.clone_into(&mut fault.primary.text);
    let behind = Span { start: span.end, ..span };
    for unit in units {
        let title = format!("write `{unit}` behind it");
        fault.fixes.push(Fix::new(Grade::Choice, title, behind, format!("{gap}{unit}")));
    }
    fault
}

fn expr(kind: Kind, argument: &Argument) -> Result<&Expr, Fault> {
    match argument {
        Argument::Expr(expr) => Ok(expr),
        _ => Err(wrong(kind, argument.span())),
    }
}

fn number(argument: &Argument) -> Option<Number> {
    match argument {
        Argument::Expr(Expr { kind: ExprKind::Number(number), .. }) => Some(*number),
        _ => None,
    }
}

fn is(argument: &Argument, text: &str) -> bool {
    argument.as_word().is_some_and(|word| word.text == text)
}

fn positive(value: Exact, span: Span) -> Result<Exact, Fault> {
    if value.is_positive() {
        return Ok(value);
    }
    Err(Box::new(Diagnostic::error(
        "absurd-size",
        "a number above zero belongs here",
        span,
        "this is not above zero",
    )))
}

fn percent(kind: Kind, argument: &Argument) -> Result<Percent, Fault> {
    match number(argument) {
        Some(Number { value, unit: Some(NumberUnit::Percent), .. })
            if !value.is_negative() && value <= Exact::int(100) =>
        {
            Ok(Percent(value))
        }
        _ => Err(wrong(kind, argument.span())),
    }
}

/// The same fault with the sign that a bare number of up to a hundred lacks.
fn of_hundred(fault: Fault, argument: &Argument) -> Fault {
    let is_share = |own: &Number| own.unit.is_none() && own.value <= Exact::int(100);
    match number(argument).is_some_and(|own| is_share(&own)) {
        true => lacking((fault, "its sign is missing"), argument.span(), "", ["%"]),
        false => fault,
    }
}

/// A bare fraction (`4/4`, `3/4`) means inches whatever the job's unit is, as the
/// yard writes it. Any other bare number is in the job's unit.
fn nominal(kind: Kind, argument: &Argument, unit: Unit) -> Result<Length, Fault> {
    let unit = match number(argument) {
        Some(Number { unit: None, is_fraction: true, .. }) => Unit::Inch,
        Some(_) | None => unit,
    };
    evaluate::length(expr(kind, argument)?, unit)
}

fn choice(
    kind: Kind,
    choices: &'static [Choice],
    argument: &Argument,
) -> Result<&'static Choice, Fault> {
    let span = argument.span();
    // A choice may be a whole number: `nailers 2`.
    if let Some(Number { value, unit: None, .. }) = number(argument)
        && value.is_whole()
        && let digits = value.numer().to_string()
        && let Some(choice) = choices.iter().find(|choice| choice.is(&digits))
    {
        return Ok(choice);
    }
    let Some(found) = argument.as_word() else { return Err(wrong(kind, span)) };
    if let Some(choice) = choices.iter().find(|choice| choice.is(found.text)) {
        return Ok(choice);
    }
    let mut fault = Diagnostic::error(
        "value-wrong",
        format!("`{}` is not {}", found.text, kind.describe()),
        span,
        format!("{} belongs here", kind.describe()),
    );
    let words = || choices.iter().map(|choice| choice.word);
    let near = natural::same(found.text, words())
        .or_else(|| nearest(found.text, words()))
        .or_else(|| choices.iter().find(|own| meant::part(found.text, own)).map(|own| own.word));
    if let Some(near) = near {
        fault = fault.fix(Fix::new(Grade::Sure, format!("write `{near}`"), span, near));
    }
    Err(Box::new(fault))
}

fn wrong(kind: Kind, span: Span) -> Fault {
    wrong_of(&kind.describe(), span)
}

fn wrong_of(what: &str, span: Span) -> Fault {
    Box::new(Diagnostic::error(
        "value-wrong",
        format!("{what} belongs here"),
        span,
        "this is something else",
    ))
}

fn unquoted(kind: Kind, argument: &Argument) -> Fault {
    let mut fault = wrong(kind, argument.span());
    if let Some(word) = argument.as_word() {
        fault.fixes.push(Fix::new(
            Grade::Sure,
            "put it in quotes",
            argument.span(),
            format!("\"{}\"", word.text),
        ));
    }
    fault
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{FileId, Money, Rate};
    use crate::syntax::Item;
    use crate::vocabulary::parse;

    fn value(kind: Kind, text: &str) -> Result<Value, Fault> {
        let (tree, faults) = parse(FileId(0), &format!("word {text}\n"));
        assert!(faults.is_empty(), "{faults:?}");
        let Some(Item::Statement(statement)) = tree.items.first() else { panic!("no statement") };
        read_one(kind, &statement.arguments, Unit::Inch).map(|(value, _)| value.value)
    }

    #[test]
    fn values_are_read_as_their_kind() {
        assert_eq!(value(Kind::Length, "18 mm").ok(), Some(Value::Length(Length::mm(18))));
        assert_eq!(
            value(Kind::Length, "(20 + 1/4) / 3").ok(),
            Some(Value::Length(Length::inches(27, 4)))
        );
        assert_eq!(
            value(Kind::Price(&["sheet", "board-foot"]), "11.40 per board-foot").ok(),
            Some(Value::Rate(Rate { price: Money(Exact::ratio(57, 5)), per: "board-foot" }))
        );
        assert!(value(Kind::Length, "3 deg").is_err());
        assert!(value(Kind::Length, "2 - 3").is_err());
        assert!(value(Kind::Count(20), "1/2").is_err());
        assert!(value(Kind::Count(20), "20").is_ok() && value(Kind::Count(20), "21").is_err());
    }

    #[test]
    fn a_gallon_and_a_litre_cover_alike() {
        // 1 ft2/gal = 0.02454 m2/L (conversion of units, exact definitions).
        let Ok(Value::Coverage(coverage)) = value(Kind::Coverage, "1 ft2 per gal") else {
            panic!("no coverage")
        };
        assert!((coverage.to_f64() - 0.024_54).abs() < 0.000_01);
    }
}
