//! Figures in the wrong unit: a case 1400 in wide where the file counts in
//! millimeters.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Exact, Length, Tape, Unit};
use crate::syntax::{Argument, Expr, ExprKind, Number, NumberUnit};

use super::evaluate::Fault;
use super::word::{Block, Row};

/// The slip that one figure is: what can't be right in the unit it has, and
/// would be in the other. A unit that is written and is not the file's is judged
/// strictly. A figure in the file's own unit can only be too large: whoever
/// builds a scale model writes small figures, and means them.
pub(super) fn slip(block: &Block, row: &Row, arguments: &[Argument], unit: Unit) -> Option<Fault> {
    let ((least, most), [Argument::Expr(expr)]) = (row.usual?, arguments) else { return None };
    let ExprKind::Number(Number { value, unit: behind }) = expr.kind else { return None };
    let written = match behind {
        Some(NumberUnit::Length(written)) => written,
        Some(_) => return None,
        None => unit,
    };
    let tenths = |count| Length::new(Exact::ratio(count, 10), Unit::Millimetre);
    let usual = tenths(least)..=tenths(most);
    let is_own = written == unit;
    let length = Length::new(value, written);
    let meant = if is_own { other(unit) } else { unit };
    let could_be = Length::new(value, meant);
    let is_wrong = length > *usual.end() || (!is_own && length < *usual.start());
    (is_wrong && usual.contains(&could_be)).then(|| {
        let mut said = format!("{}", In(length, written));
        if !is_own {
            said.push_str(&format!(", which is {}", In(length, unit)));
        }
        let title = format!("`{}` of {} can't be {said}", row.word, block.title);
        told(title, expr, In(could_be, meant))
    })
}

fn told(title: String, expr: &Expr, meant: In) -> Fault {
    let found = Diagnostic::error("unit-slip", title, expr.span, "this is in the wrong unit");
    let choice = format!("{meant}, if that is what you meant");
    Box::new(found.fix(Fix::new(Grade::Choice, choice, expr.span, meant.to_string())))
}

/// The other one of the two units that a file may count in.
fn other(unit: Unit) -> Unit {
    match unit {
        Unit::Inch | Unit::Foot => Unit::Millimetre,
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => Unit::Inch,
    }
}

/// A length as it is written in a unit, with the unit.
struct In(Length, Unit);

impl std::fmt::Display for In {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self(length, unit) = *self;
        let count = length.in_unit(unit);
        let tape = match unit {
            Unit::Inch | Unit::Foot => Tape::inches(),
            Unit::Millimetre | Unit::Centimetre | Unit::Metre => Tape::millimetres(),
        };
        // A count that came out of the other unit is told to a few places.
        match count.denom() <= 64 {
            true => write!(f, "{count} {}", unit.name()),
            false => write!(f, "{} {}", tape.fine(length), unit.name()),
        }
    }
}
