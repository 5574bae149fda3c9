//! Feet and inches without the inches' unit: `7 ft 6`.

use crate::diagnostics::{Fix, Grade};
use crate::measure::{Exact, Span, Unit};
use crate::syntax::{Argument, Expr, ExprKind, Number, NumberUnit, Statement};

/// The edit that makes inches of a bare number behind feet, which the grammar leaves over.
pub(super) fn with_inches(statement: &Statement, rest: &[Argument]) -> Option<Fix> {
    let [left] = rest else { return None };
    let at = statement.arguments.iter().position(|own| own.span() == left.span())?;
    let feet = number(statement.arguments.get(at.checked_sub(1)?)?)?;
    let inches = number(left)?;
    let is_meant = feet.unit == Some(NumberUnit::Length(Unit::Foot))
        && feet.value.is_whole()
        && inches.unit.is_none()
        && inches.value < Exact::int(12);
    let span = left.span();
    is_meant.then(|| {
        let behind = Span { start: span.end, ..span };
        Fix::new(Grade::Choice, "those are inches", behind, " in")
    })
}

fn number(argument: &Argument) -> Option<Number> {
    match argument {
        Argument::Expr(Expr { kind: ExprKind::Number(number), .. }) => Some(*number),
        Argument::Expr(_) | Argument::Text { .. } | Argument::Date { .. } => None,
    }
}
