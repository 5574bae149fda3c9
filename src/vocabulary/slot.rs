//! Reads arguments as the kind that their slot asks for.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{
    Angle, Duration, Exact, Load, Mass, Money, Percent, Rate, Span, Spanned, Stiffness,
    Temperature, Unit, nearest,
};
use crate::syntax::{Argument, Expr, ExprKind, Number, NumberUnit};

use super::choice::Choice;
use super::evaluate::{self, Fault};
use super::natural;
use super::spelling;
use super::value::{SizeExpr, Value};
use super::word::{Kind, one_of};

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
    let one = |value| Ok((Spanned::new(value, span), 1));
    match kind {
        Kind::Text | Kind::File => match first {
            Argument::Text { value, .. } => one(Value::Text(value.clone())),
            _ => Err(unquoted(kind, first)),
        },
        Kind::Label | Kind::Define | Kind::Refer(_) => match first.as_word() {
            Some(word) => one(Value::Word(word.text.clone())),
            None => Err(wrong(kind, span)),
        },
        Kind::Finding => match first.as_word() {
            Some(word) => one(Value::Word(spelling::finding(&word.text))),
            None => Err(wrong(kind, span)),
        },
        Kind::LetterOrNumber => match (first.as_word(), number(first)) {
            (Some(word), _) => one(Value::Word(word.text.clone())),
            (None, Some(Number { value, unit: None })) if value.is_whole() => {
                one(Value::Word(value.numer().to_string()))
            }
            _ => Err(wrong(kind, span)),
        },
        Kind::Path => match first {
            Argument::Expr(Expr { kind: ExprKind::Name(name), .. }) => {
                one(Value::Path(name.clone()))
            }
            _ => Err(wrong(kind, span)),
        },
        Kind::Date => match first {
            Argument::Date { value, .. } => one(Value::Date(*value)),
            _ => Err(wrong(kind, span)),
        },
        Kind::Choice(choices) => choice(kind, choices, first),
        Kind::Exactly(word) => match first.as_word() {
            Some(found) if found.text == word => one(Value::Word(word.to_owned())),
            _ => Err(wrong(kind, span)),
        },
        Kind::Length => one(Value::Length(evaluate::length(expr(kind, first)?, unit)?)),
        Kind::Offset => one(Value::Length(evaluate::offset(expr(kind, first)?, unit)?)),
        Kind::Nominal => nominal(kind, first, unit),
        Kind::Size => {
            let expr = expr(kind, first)?.clone();
            one(Value::Size(SizeExpr { expr, unit }))
        }
        Kind::Number => {
            one(Value::Number(positive(evaluate::number(expr(kind, first)?, unit)?, span)?))
        }
        Kind::Count(most) => {
            let value = evaluate::number(expr(kind, first)?, unit)?;
            match u32::try_from(value.numer()) {
                Ok(count) if value.is_whole() && count <= most => one(Value::Count(count)),
                _ if value.is_whole() && !value.is_negative() => {
                    let mut fault = wrong(kind, span);
                    fault.primary.text = "too many".to_owned();
                    Err(fault)
                }
                _ => Err(wrong(kind, span)),
            }
        }
        Kind::Percent => one(Value::Percent(percent(kind, first)?)),
        Kind::PercentRange => {
            let (low, high, whole) = ends(kind, arguments, |a| percent(kind, a))?;
            Ok((Spanned::new(Value::PercentRange((low.min(high), low.max(high))), whole), 3))
        }
        Kind::LengthRange => {
            let (low, high, whole) =
                ends(kind, arguments, |a| evaluate::length(expr(kind, a)?, unit))?;
            Ok((Spanned::new(Value::LengthRange((low.min(high), low.max(high))), whole), 3))
        }
        Kind::Ratio => {
            let (a, b, whole) = ends(kind, arguments, |a| {
                positive(evaluate::number(expr(kind, a)?, unit)?, a.span())
            })?;
            Ok((Spanned::new(Value::Ratio((a, b)), whole), 3))
        }
        Kind::Angle => match number(first) {
            Some(Number { value, unit: Some(NumberUnit::Degree) }) => {
                one(Value::Angle(Angle(value)))
            }
            _ => Err(wrong(kind, span)),
        },
        Kind::Temperature => match number(first) {
            Some(Number { value, unit: Some(NumberUnit::Celsius) }) => {
                one(Value::Temperature(Temperature(value)))
            }
            Some(Number { value, unit: Some(NumberUnit::Fahrenheit) }) => {
                one(Value::Temperature(Temperature::fahrenheit(value)))
            }
            _ => Err(wrong(kind, span)),
        },
        Kind::Duration => match number(first) {
            Some(Number { value, unit: Some(NumberUnit::Minute) }) => {
                one(Value::Duration(Duration(value)))
            }
            Some(Number { value, unit: Some(NumberUnit::Hour) }) => {
                one(Value::Duration(Duration::hours(value)))
            }
            _ => Err(wrong(kind, span)),
        },
        Kind::Mass => match number(first) {
            Some(Number { value, unit: Some(NumberUnit::Pound) }) => {
                one(Value::Mass(Mass::pounds(value)))
            }
            Some(Number { value, unit: Some(NumberUnit::Kilogram) }) => {
                one(Value::Mass(Mass(value)))
            }
            _ => Err(wrong(kind, span)),
        },
        Kind::Load => load(kind, arguments),
        Kind::Stiffness => stiffness(kind, arguments),
        Kind::Price(units) => price(kind, units, arguments, unit),
        Kind::Feed => match arguments {
            [length, per, minute, ..] if is(per, "per") && is_minute(minute) => {
                let whole = span.to(minute.span());
                let value = Value::Feed(evaluate::length(expr(kind, length)?, unit)?);
                Ok((Spanned::new(value, whole), 3))
            }
            _ => Err(wrong(kind, span)),
        },
        Kind::Coverage => coverage(kind, arguments),
    }
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

fn is_minute(argument: &Argument) -> bool {
    is(argument, "min") || is(argument, "minute")
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
        Some(Number { value, unit: Some(NumberUnit::Percent) })
            if !value.is_negative() && value <= Exact::int(100) =>
        {
            Ok(Percent(value))
        }
        _ => Err(wrong(kind, argument.span())),
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

/// Quarters of an inch (`4/4`) mean inches whatever the job's unit is, as the
/// yard writes them; so does any bare fraction in a metric job.
fn nominal(kind: Kind, argument: &Argument, unit: Unit) -> Taken {
    let unit = match number(argument) {
        Some(Number { value, unit: None }) if !value.is_whole() && value < Exact::int(8) => {
            Unit::Inch
        }
        Some(Number { value, unit: None }) if value < Exact::int(4) => Unit::Inch,
        _ => unit,
    };
    let length = evaluate::length(expr(kind, argument)?, unit)?;
    Ok((Spanned::new(Value::Length(length), argument.span()), 1))
}

fn choice(kind: Kind, choices: &'static [Choice], argument: &Argument) -> Taken {
    let span = argument.span();
    let Some(found) = argument.as_word() else { return Err(wrong(kind, span)) };
    if let Some(choice) = choices.iter().find(|choice| choice.is(&found.text)) {
        return Ok((Spanned::new(Value::Choice(choice), span), 1));
    }
    let mut fault = Diagnostic::error(
        "value-wrong",
        format!("`{}` is not {}", found.text, kind.describe()),
        span,
        format!("{} belongs here", kind.describe()),
    );
    let words = || choices.iter().map(|choice| choice.word);
    let near = natural::same(&found.text, words()).or_else(|| nearest(&found.text, words()));
    if let Some(near) = near {
        fault = fault.fix(Fix::new(Grade::Sure, format!("write `{near}`"), span, near));
    }
    Err(Box::new(fault))
}

fn price(kind: Kind, units: &'static [&'static str], arguments: &[Argument], unit: Unit) -> Taken {
    let Some(first) = arguments.first() else { return Err(wrong(kind, Span::default())) };
    let amount = evaluate::number(expr(kind, first)?, unit)?;
    if amount.is_negative() {
        return Err(wrong(kind, first.span()));
    }
    let (last, taken) = match arguments {
        [_, each, ..] if is(each, "each") => (each, 2),
        [_, per, what, ..] if is(per, "per") => (what, 3),
        _ => return Err(wrong(kind, first.span())),
    };
    let word = last.as_word().map(|word| word.text.as_str());
    let Some(per) = units.iter().find(|unit| Some(**unit) == word) else {
        return Err(wrong_of(&one_of(units), last.span()));
    };
    let rate = Rate { price: Money(amount), per };
    Ok((Spanned::new(Value::Rate(rate), first.span().to(last.span())), taken))
}

/// `15 lb per ft2` or `75 kg per m2`.
fn load(kind: Kind, arguments: &[Argument]) -> Taken {
    let [amount, per, area, ..] = arguments else {
        return Err(wrong(kind, arguments.first().map_or(Span::default(), Argument::span)));
    };
    let whole = amount.span().to(area.span());
    let word = area.as_word().map(|word| word.text.as_str());
    let load = match (number(amount), word) {
        (Some(Number { value, unit: Some(NumberUnit::Pound) }), Some("ft2")) => {
            Load::pounds_per_foot(positive(value, whole)?)
        }
        (Some(Number { value, unit: Some(NumberUnit::Kilogram) }), Some("m2")) => {
            Load(positive(value, whole)?)
        }
        _ => return Err(wrong(kind, whole)),
    };
    if !is(per, "per") {
        return Err(wrong(kind, whole));
    }
    Ok((Spanned::new(Value::Load(load), whole), 3))
}

/// `1490000 psi` or `10.3 GPa`.
fn stiffness(kind: Kind, arguments: &[Argument]) -> Taken {
    let [amount, unit, ..] = arguments else {
        return Err(wrong(kind, arguments.first().map_or(Span::default(), Argument::span)));
    };
    let whole = amount.span().to(unit.span());
    let Some(Number { value, unit: None }) = number(amount) else { return Err(wrong(kind, whole)) };
    let value = positive(value, whole)?;
    let stiffness = match unit.as_word().map(|word| word.text.as_str()) {
        Some("psi") => Stiffness(value),
        Some("GPa") => Stiffness::gigapascals(value),
        _ => return Err(wrong(kind, whole)),
    };
    Ok((Spanned::new(Value::Stiffness(stiffness), whole), 2))
}

/// `30 m2 per l` or `450 ft2 per gal`, kept as square metres to the litre. One
/// US gallon is 231 cubic inches, one square foot 144 square inches exactly.
fn coverage(kind: Kind, arguments: &[Argument]) -> Taken {
    let [amount, area, per, volume, ..] = arguments else {
        return Err(wrong(kind, arguments.first().map_or(Span::default(), Argument::span)));
    };
    let whole = amount.span().to(volume.span());
    let Some(Number { value, unit: None }) = number(amount) else { return Err(wrong(kind, whole)) };
    if !is(per, "per") {
        return Err(wrong(kind, whole));
    }
    let inch = Exact::ratio(254, 10_000); // of a metre
    let area = match area.as_word().map(|w| w.text.as_str()) {
        Some("m2") => Exact::ONE,
        Some("ft2") => inch * inch * Exact::int(144),
        _ => return Err(wrong(kind, whole)),
    };
    let litres = match volume.as_word().map(|w| w.text.as_str()) {
        Some("l") => Exact::ONE,
        Some("gal") => inch * inch * inch * Exact::int(231 * 1000),
        _ => return Err(wrong(kind, whole)),
    };
    let value = positive(value * area / litres, whole)?;
    Ok((Spanned::new(Value::Coverage(value), whole), 4))
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
    use crate::measure::{FileId, Length};
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
