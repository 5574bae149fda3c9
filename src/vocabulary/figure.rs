//! Figures that can't be right, or are odd: each word knows what its own may be.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{
    Exact, HYPHEN_MISSING, IF_DOUBLED, IF_MEANT, IF_POINT_OFF, Length, MeantInches, Span, Tape,
    Temperature, Unit, is_on_rule, meant_inches, undoubled,
};
use crate::syntax::{Argument, BinaryOp, Expr, ExprKind, Number, NumberUnit};

use super::off_rule;
use super::range::{Range, is_length, measure};
use super::value::Value;
use super::word::{Block, Kind, Row};

/// A figure as it is written.
struct Written<'a> {
    expr: &'a Expr,
    count: Exact,
    unit: Option<NumberUnit>,
    /// True for a fraction, with or without a whole before it.
    is_fraction: bool,
    /// True for one of more than an inch without a whole before it.
    is_top_heavy: bool,
    /// What it comes to, in what its kind is measured in.
    measure: Exact,
}

/// What else a figure may have been meant to be.
struct Meant {
    text: String,
    /// What that comes to.
    measure: Exact,
    if_so: &'static str,
    is_other_unit: bool,
    /// The other unit of length, where it is that.
    unit: Option<Unit>,
}

/// What is wrong with the figures of one argument: an error where one can't be right in
/// any piece, a warning where it is odd. `unit` is what bare numbers of the file
/// count, and `place` the path of the statement.
pub(super) fn judge(
    block: &Block,
    row: &Row,
    kind: Kind,
    value: &Value,
    arguments: &[Argument],
    unit: Unit,
    place: impl FnOnce() -> String,
) -> Option<Diagnostic> {
    let figures = written(value, arguments, unit);
    let is_out = |range: Range| figures.iter().flatten().find(|it| !range.holds(it.measure));
    let impossible = row.can_be.and_then(is_out);
    if impossible.is_none()
        && let Some(found) = in_a_sum((block, row, kind), arguments, unit)
    {
        return Some(found.subject(place()));
    }
    let can_be = row.can_be?;
    // A nought where none of it is possible is written in earnest.
    let is_odd = |range: Range| is_out(range).filter(|it| !it.measure.is_zero());
    let odd = || row.usual.and_then(|range| Some((is_odd(range)?, range)));
    let (figure, range, is_possible) = match impossible {
        Some(figure) => (figure, can_be, false),
        None => match odd() {
            Some((figure, range)) => (figure, range, true),
            None => {
                let found = top_heavy((block, row, kind), &figures, unit);
                let found = found.or_else(|| off_rule((block, row, kind), &figures, unit));
                return found.map(|found| found.subject(place()));
            }
        },
    };
    let usual = row.usual.unwrap_or(can_be);
    let meant = meant(figure, kind, usual, unit);
    // What is written goes with feet or with meters, whatever the file counts in.
    let behind = match figure.unit {
        Some(NumberUnit::Length(own)) => own,
        Some(NumberUnit::Pound | NumberUnit::Fahrenheit) => Unit::Inch,
        Some(NumberUnit::Kilogram | NumberUnit::Celsius) => Unit::Millimetre,
        _ => unit,
    };
    let subject = format!("`{}` of {}", row.word, block.title);
    let span = figure.expr.span;
    let is_slip = meant.first().is_some_and(|first| first.is_other_unit);
    let mut found = if is_possible {
        let title = format!("{subject} is {}, which is odd", figure.said(unit, kind));
        Diagnostic::warning("figure-odd", title, span, "is this what you meant?")
            .note(format!("it is usually from {}", range.told(kind, behind)))
            .subject(place())
    } else {
        let title = format!("{subject} can't be {}", figure.said(unit, kind));
        let label = match figure.unit {
            Some(NumberUnit::Fahrenheit) => "degrees Fahrenheit are the wrong unit here",
            Some(NumberUnit::Celsius) => "degrees Celsius are the wrong unit here",
            _ => wrong_unit(figure.behind(unit)),
        };
        let found = match is_slip {
            true => Diagnostic::error("unit-slip", title, span, label),
            false => Diagnostic::error("figure-impossible", title, span, "this can't be")
                .note(format!("it can be from {}", range.told(kind, behind))),
        };
        found.subject(place())
    };
    for meant in meant {
        let (at, text) = match (meant.is_other_unit, whole_range(&figures, usual, meant.unit, unit))
        {
            (true, Some(whole)) => whole,
            // One end of a range is no mend that turns the range around.
            _ if is_turned(&figures, figure, meant.measure) => continue,
            _ => (span, meant.text),
        };
        let choice = format!("{text}, {}", meant.if_so);
        found = found.fix(Fix::new(Grade::Choice, choice, at, text));
    }
    Some(found)
}

/// `31/2`, which is 15-1/2 and may have been meant to be 3-1/2. Rough boards alone are
/// named by such fractions.
fn top_heavy(
    (block, row, kind): (&Block, &Row, Kind),
    figures: &[Option<Written<'_>>],
    unit: Unit,
) -> Option<Diagnostic> {
    if !is_length(kind) || matches!(kind, Kind::Nominal) {
        return None;
    }
    let range = row.usual.or(row.can_be)?;
    let figure = figures.iter().flatten().find(|it| it.is_top_heavy)?;
    if figure.behind(unit) != Unit::Inch {
        return None;
    }
    let holds =
        |count: Exact| range.holds(Length::new(count, Unit::Inch).in_unit(Unit::Millimetre));
    let meant = meant_inches(figure.count, figure.is_fraction);
    let meant = meant.iter().find(|it| it.if_so == HYPHEN_MISSING && holds(it.inches))?;
    let (numer, denom) = (figure.count.numer(), figure.count.denom());
    let title = format!("`{}` of {} is {numer}/{denom}, which is odd", row.word, block.title);
    Some(hyphenless(title, figure.expr.span, meant, (figure.count, figure.unit)))
}

/// `3/33`, which stands on no rule.
fn off_rule(
    (block, row, kind): (&Block, &Row, Kind),
    figures: &[Option<Written<'_>>],
    unit: Unit,
) -> Option<Diagnostic> {
    // What is finer than any rule is no slip of one digit.
    let is_off = |it: &&Written<'_>| it.count.denom() < 100 && !is_on_rule(it.count);
    let it = figures.iter().flatten().find(|it| it.is_fraction && is_off(it))?;
    let is_size = is_length(kind) && !matches!(kind, Kind::Nominal);
    let subject = format!("`{}` of {}", row.word, block.title);
    (is_size && it.behind(unit) == Unit::Inch)
        .then(|| off_rule::found(&subject, it.expr.span, (it.count, it.unit)))
}

/// What is said of a fraction that lacks its hyphen, with both that it may be.
fn hyphenless(
    title: String,
    span: Span,
    meant: &MeantInches,
    (count, unit): (Exact, Option<NumberUnit>),
) -> Diagnostic {
    let found = Diagnostic::warning("figure-odd", title, span, "is this what you meant?")
        .note(format!("it comes to {count}"));
    let both = [(meant.inches, meant.if_so), (count, IF_MEANT)];
    both.into_iter().fold(found, |found, (count, if_so)| {
        let text = inches(count, unit);
        found.fix(Fix::new(Grade::Choice, format!("{text}, {if_so}"), span, text))
    })
}

/// `opening - 15/8`, which is 1-7/8 and may have been meant to be 1-5/8.
fn in_a_sum(
    (block, row, kind): (&Block, &Row, Kind),
    arguments: &[Argument],
    file: Unit,
) -> Option<Diagnostic> {
    if !is_length(kind) || matches!(kind, Kind::Nominal) {
        return None;
    }
    let (expr, number) = arguments.iter().find_map(|argument| match argument {
        Argument::Expr(expr @ Expr { kind: ExprKind::Binary(..), .. }) => summand(expr),
        Argument::Expr(_) | Argument::Text { .. } | Argument::Date { .. } => None,
    })?;
    let behind = match number.unit {
        Some(NumberUnit::Length(own)) => own,
        _ => file,
    };
    if behind != Unit::Inch {
        return None;
    }
    let meant = meant_inches(number.value, true);
    let meant = meant.iter().find(|it| it.if_so == HYPHEN_MISSING)?;
    let (numer, denom) = (number.value.numer(), number.value.denom());
    let title =
        format!("`{}` of {} has {numer}/{denom} in it, which is odd", row.word, block.title);
    Some(hyphenless(title, expr.span, meant, (number.value, number.unit)))
}

/// The first figure that is added or taken away and is more than one as a mere fraction.
fn summand(expr: &Expr) -> Option<(&Expr, Number)> {
    match &expr.kind {
        ExprKind::Number(number) => number.is_top_heavy.then_some((expr, *number)),
        ExprKind::Negative(inner) => summand(inner),
        ExprKind::Binary(BinaryOp::Add | BinaryOp::Subtract, left, right) => {
            summand(left).or_else(|| summand(right))
        }
        // What multiplies or divides is a number and no length.
        ExprKind::Binary(BinaryOp::Multiply | BinaryOp::Divide, ..) | ExprKind::Name(_) => None,
    }
}

/// What is said of figures in a unit that can't be.
fn wrong_unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "inches are the wrong unit here",
        Unit::Foot => "feet are the wrong unit here",
        Unit::Millimetre => "millimeters are the wrong unit here",
        Unit::Centimetre => "centimeters are the wrong unit here",
        Unit::Metre => "meters are the wrong unit here",
    }
}

/// Both ends of a range in another unit, where neither has one of its own and both are
/// `usual` only in that one.
fn whole_range(
    figures: &[Option<Written<'_>>; 2],
    usual: Range,
    other: Option<Unit>,
    file: Unit,
) -> Option<(Span, String)> {
    let ([Some(low), Some(high)], Some(other)) = (figures, other) else { return None };
    let meant = [low, high].map(|end| Length::new(end.count, other));
    let is_slip = |(end, meant): (&Written<'_>, &Length)| {
        let is_bare = end.unit.is_none() && end.behind(file) != other;
        is_bare && !usual.holds(end.measure) && usual.holds(meant.in_unit(Unit::Millimetre))
    };
    if ![low, high].into_iter().zip(&meant).all(is_slip) {
        return None;
    }
    let [low_end, high_end] = meant.map(|end| in_unit(end, other));
    Some((low.expr.span.to(high.expr.span), format!("{low_end} to {high_end}")))
}

/// True where a range would run backwards with this in place of one of its ends.
fn is_turned(figures: &[Option<Written<'_>>; 2], end: &Written<'_>, measure: Exact) -> bool {
    let [Some(low), Some(high)] = figures else { return false };
    let with = |own: &Written<'_>| match std::ptr::eq(own, end) {
        true => measure,
        false => own.measure,
    };
    low.measure <= high.measure && with(high) < with(low)
}

/// A range that is written with its upper end first; it is read the right way round.
pub(super) fn backwards(
    block: &Block,
    row: &Row,
    value: &Value,
    arguments: &[Argument],
    unit: Unit,
    place: impl FnOnce() -> String,
) -> Option<Diagnostic> {
    if !matches!(value, Value::PercentRange(_) | Value::LengthRange(_)) {
        return None;
    }
    let [Some(first), Some(second)] = written(value, arguments, unit) else { return None };
    if first.measure <= second.measure {
        return None;
    }
    let span = first.expr.span.to(second.expr.span);
    let [low, high] = [&second, &first].map(|end| with(end.count, end.unit));
    let title = format!("`{}` of {} runs from {high} down to {low}", row.word, block.title);
    let turned = format!("{low} to {high}");
    let found = Diagnostic::warning("range-backwards", title, span, "the lower end comes first");
    // Where an end of it is odd, that may be what went wrong.
    let is_odd =
        row.usual.is_some_and(|usual| !usual.holds(first.measure) || !usual.holds(second.measure));
    let grade = if is_odd { Grade::Choice } else { Grade::Sure };
    Some(found.subject(place()).fix(Fix::new(grade, "turn it around", span, turned)))
}

/// The figures of one argument, two for a range.
fn written<'a>(value: &Value, arguments: &'a [Argument], unit: Unit) -> [Option<Written<'a>>; 2] {
    let is_range = matches!(value, Value::PercentRange(_) | Value::LengthRange(_));
    let mut numbers = arguments.iter().filter_map(|argument| match argument {
        Argument::Expr(expr) => match expr.kind {
            ExprKind::Number(number) => Some((expr, number)),
            ExprKind::Name(_) => None,
            // A sum is judged by what it comes to.
            ExprKind::Negative(_) | ExprKind::Binary(..) => {
                let sum = super::evaluate::offset(expr, unit).ok()?;
                let value = sum.in_unit(unit);
                let number = Number { value, unit: None, is_fraction: false, is_top_heavy: false };
                Some((expr, number))
            }
        },
        _ => None,
    });
    let mut next = || {
        let (expr, Number { value: count, unit: behind, is_fraction, is_top_heavy }) =
            numbers.next()?;
        let measure = match value {
            Value::Size(_) | Value::LengthRange(_) => sized(count, behind, unit)?,
            Value::PercentRange(_) => count,
            _ => measure(value)?,
        };
        Some(Written { expr, count, unit: behind, is_fraction, is_top_heavy, measure })
    };
    [next(), if is_range { next() } else { None }]
}

fn sized(count: Exact, behind: Option<NumberUnit>, unit: Unit) -> Option<Exact> {
    let own = match behind {
        Some(NumberUnit::Length(own)) => own,
        Some(_) => return None,
        None => unit,
    };
    Some(Length::new(count, own).in_unit(Unit::Millimetre))
}

/// What else it may have been meant to be, most likely first: in the other unit, or with
/// its point a place off.
fn meant(figure: &Written<'_>, kind: Kind, usual: Range, file: Unit) -> Vec<Meant> {
    let mut all = Vec::new();
    let add = |all: &mut Vec<Meant>, measure: Exact, text: String, if_so, is_other_unit| {
        if usual.holds(measure) {
            all.push(Meant { text, measure, if_so, is_other_unit, unit: None });
        }
    };
    let (count, own) = (figure.count, figure.measure);
    let behind = is_length(kind).then(|| figure.behind(file));
    if let Some(behind) = behind {
        let other = if behind == file { file.other() } else { file };
        let meant = Length::new(count, other);
        let (meant, text) = match in_tenths(meant).filter(|_| file.is_metric() && behind == file) {
            // Inches that were reckoned from millimeters lost their last places.
            Some(tenths) => (tenths, in_unit(tenths, file)),
            None => (meant, in_unit(meant, other)),
        };
        // Nobody writes a fraction of a millimeter.
        if !(figure.is_fraction && other.is_metric() && !count.is_whole()) {
            add(&mut all, meant.in_unit(Unit::Millimetre), text, IF_MEANT, true);
        }
        if let Some(meant) = all.first_mut() {
            meant.unit = Some(other);
        }
        // A unit that is written and is not the file's is what went wrong.
        if !all.is_empty() && behind != file {
            return all;
        }
    }
    let degrees = match figure.unit {
        Some(NumberUnit::Celsius) => {
            Some((Temperature::fahrenheit(count).0, NumberUnit::Fahrenheit))
        }
        Some(NumberUnit::Fahrenheit) => Some((count, NumberUnit::Celsius)),
        _ => None,
    };
    if let Some((measure, unit)) = degrees {
        add(&mut all, measure, with(count, Some(unit)), IF_MEANT, true);
    }
    if behind == Some(Unit::Inch) {
        // What is as long as a room is told in feet.
        let is_long = usual.most.at >= Length::inches(96, 1).in_unit(Unit::Millimetre);
        if is_long && figure.unit.is_none() && count.is_whole() {
            let feet = Length::new(count, Unit::Foot);
            let text = in_unit(feet, Unit::Foot);
            add(&mut all, feet.in_unit(Unit::Millimetre), text, IF_MEANT, false);
        }
        let before = all.len();
        for meant in meant_inches(count, figure.is_fraction) {
            let measure = Length::new(meant.inches, Unit::Inch).in_unit(Unit::Millimetre);
            add(&mut all, measure, inches(meant.inches, figure.unit), meant.if_so, false);
        }
        all.truncate(before + MOST);
    } else {
        // What is counted has no point, and nothing tells which digit is lost.
        let counts = matches!(kind, Kind::Count(_));
        let up = (!counts).then_some(Exact::int(10));
        for times in [Exact::ratio(1, 10)].into_iter().chain(up) {
            let meant = count * times;
            if counts && !meant.is_whole() {
                continue;
            }
            let measure = match figure.unit {
                Some(NumberUnit::Fahrenheit) => Temperature::fahrenheit(meant).0,
                _ => own * times,
            };
            let text = with(meant, figure.unit);
            add(&mut all, measure, text, IF_POINT_OFF, false);
        }
    }
    if let Some(meant) = undoubled(count).filter(|_| behind != Some(Unit::Inch)) {
        add(&mut all, own * meant / count, with(meant, figure.unit), IF_DOUBLED, false);
    }
    let hours = match figure.unit {
        Some(NumberUnit::Minute) => Some((own * Exact::int(60), NumberUnit::Hour)),
        Some(NumberUnit::Hour) => Some((own / Exact::int(60), NumberUnit::Minute)),
        _ => None,
    };
    if let Some((measure, unit)) = hours {
        add(&mut all, measure, with(count, Some(unit)), IF_MEANT, false);
    }
    all
}

/// A length as whole tenths of a millimeter, where it is no more than 1/50 mm off.
fn in_tenths(length: Length) -> Option<Length> {
    let tenth = Length::mm(1) / 10;
    let near = tenth * (length / tenth).round();
    let is_off = !near.is_positive() || (near - length).abs() > Length::mm(1) / 50;
    (!is_off && near != length).then_some(near)
}

/// How many figures are offered of one slip of inches.
const MOST: usize = 2;

/// Inches as a maker writes them: a fraction where it is on the rule.
fn inches(count: Exact, unit: Option<NumberUnit>) -> String {
    match (is_on_rule(count), unit) {
        (false, _) => with(count, unit),
        (true, None) => count.to_string(),
        (true, Some(unit)) => format!("{count} {}", unit.name()),
    }
}

impl Written<'_> {
    /// The unit of length that it is written in, if only by the way of the file.
    fn behind(&self, file: Unit) -> Unit {
        match self.unit {
            Some(NumberUnit::Length(unit)) => unit,
            // The yard's quarters count inches in a metric file too.
            _ if self.measure == self.count * Unit::Inch.millimetres() => Unit::Inch,
            _ => file,
        }
    }

    /// As it is written, and in the file's own unit where it has the other.
    fn said(&self, file: Unit, kind: Kind) -> String {
        let own = match self.unit {
            // On a rule of inches a half is written as one.
            None if is_length(kind) && file == Unit::Inch && self.count.denom() <= 64 => {
                return Tape::inches().exact(Length::new(self.count, file));
            }
            None => return plain(self.count),
            Some(NumberUnit::Length(own)) => own,
            Some(own) => {
                let area = match (kind, own) {
                    (Kind::Load, NumberUnit::Pound) => " per ft2",
                    (Kind::Load, NumberUnit::Kilogram) => " per m2",
                    _ => "",
                };
                return format!("{}{area}", with(self.count, self.unit));
            }
        };
        let length = Length::new(self.count, own);
        let mut said = in_unit(length, own);
        if own.is_metric() != file.is_metric() {
            said.push_str(&format!(", which is {}", in_unit(length, file)));
        }
        said
    }
}

/// A number as it is written, with its unit behind it.
fn with(count: Exact, unit: Option<NumberUnit>) -> String {
    let count = plain(count);
    match unit {
        None => count,
        Some(NumberUnit::Percent) => format!("{count}%"),
        Some(unit) => format!("{count} {}", unit.name()),
    }
}

/// A number as a maker writes it: a decimal where four places hold it.
pub(super) fn plain(count: Exact) -> String {
    let scaled = count * Exact::int(10_000);
    if !scaled.is_whole() {
        return count.to_string();
    }
    let scaled = scaled.numer();
    let sign = if scaled < 0 { "-" } else { "" };
    let (whole, rest) = (scaled.abs() / 10_000, scaled.abs() % 10_000);
    let text = format!("{sign}{whole}.{rest:04}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A length as it is written in a unit, with the unit.
fn in_unit(length: Length, unit: Unit) -> String {
    let count = length.in_unit(unit);
    let tape = if unit.is_metric() { Tape::millimetres() } else { Tape::inches() };
    match (count.denom() <= 64, unit) {
        (true, Unit::Inch | Unit::Foot) if is_on_rule(count) => format!("{count} {}", unit.name()),
        (true, _) => format!("{} {}", plain(count), unit.name()),
        (false, _) => format!("{} {}", tape.fine(length), unit.name()),
    }
}
