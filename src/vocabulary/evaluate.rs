//! Arithmetic in a spec: exact, and strict about what is added to what.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Exact, Length, Span, Unit};
use crate::syntax::{BinaryOp, Expr, ExprKind, Name, Number, NumberUnit};

/// The longest length a spec may state: a hundred metres.
const LONGEST: Length = Length::mm(100_000);

/// What went wrong, as a diagnostic; boxed, since it is the rare case.
pub type Fault = Box<Diagnostic>;

/// A sum of multiples of unknown sizes and a length: `2 × upper.high + 3/4`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Linear<V> {
    /// Each unknown once, with its factor.
    pub terms: Vec<(V, Exact)>,
    /// The known part.
    pub constant: Length,
}

/// A value on the way through an expression.
enum Partial<V> {
    /// A number that has no unit yet.
    Pure(Exact),
    /// Something with a length.
    Sized(Linear<V>),
}

/// Evaluates `expr` to a sum over the sizes that `resolve` knows by name.
/// A bare number counts `unit` wherever a length is meant.
///
/// # Errors
/// Names that `resolve` refuses, a length multiplied by a length, division by
/// a size or by nought, units that are no lengths, numbers out of range.
pub fn linear<V: Copy + PartialEq>(
    expr: &Expr,
    unit: Unit,
    resolve: &mut dyn FnMut(&Name) -> Result<V, Fault>,
) -> Result<Linear<V>, Fault> {
    let value = partial(expr, unit, resolve)?;
    let sum = sized(value, unit);
    let is_lost = sum.constant.is_out_of_range() || sum.constant.is_finer_than(Length::FINEST);
    if is_lost || sum.terms.iter().any(|(_, factor)| factor.is_out_of_range()) {
        return Err(too_fine(expr.span));
    }
    Ok(sum)
}

/// Evaluates `expr` to a length of at most a hundred metres.
///
/// # Errors
/// As [`linear`]; also a negative length, one that is absurdly long, or a name.
pub fn length(expr: &Expr, unit: Unit) -> Result<Length, Fault> {
    let sum = linear::<()>(expr, unit, &mut |name| Err(not_a_constant(name)))?;
    in_reason(sum.constant, expr.span)
}

/// Evaluates `expr` to a length of at most a hundred metres either way.
///
/// # Errors
/// As [`linear`]; also a length that is absurdly long, or a name.
pub(super) fn offset(expr: &Expr, unit: Unit) -> Result<Length, Fault> {
    let sum = linear::<()>(expr, unit, &mut |name| Err(not_a_constant(name)))?;
    in_reason(sum.constant.abs(), expr.span).map(|_| sum.constant)
}

/// Evaluates `expr` to a number without a unit.
///
/// # Errors
/// As [`linear`]; also a unit where none belongs.
pub fn number(expr: &Expr, unit: Unit) -> Result<Exact, Fault> {
    match partial::<()>(expr, unit, &mut |name| Err(not_a_constant(name)))? {
        Partial::Pure(value) if value.is_out_of_range() => Err(too_fine(expr.span)),
        Partial::Pure(value) => Ok(value),
        Partial::Sized(_) => {
            Err(mismatch(expr.span, "a plain number belongs here", "this is a length"))
        }
    }
}

/// Refuses a length below nought or beyond a hundred metres.
///
/// # Errors
/// `absurd-size` at `span`.
pub fn in_reason(length: Length, span: Span) -> Result<Length, Fault> {
    if length.is_negative() {
        return Err(Box::new(Diagnostic::error(
            "absurd-size",
            "a size comes out negative",
            span,
            "this is negative",
        )));
    }
    if length > LONGEST {
        return Err(Box::new(
            Diagnostic::error("absurd-size", "a size is over 100 m", span, "too long")
                .note("a bare number is in the job's unit; to use another unit, write it after the number, as in `18 mm`"),
        ));
    }
    Ok(length)
}

fn partial<V: Copy + PartialEq>(
    expr: &Expr,
    unit: Unit,
    resolve: &mut dyn FnMut(&Name) -> Result<V, Fault>,
) -> Result<Partial<V>, Fault> {
    match &expr.kind {
        ExprKind::Number(Number { value, unit: None, .. }) => Ok(Partial::Pure(*value)),
        ExprKind::Number(Number { value, unit: Some(NumberUnit::Length(written)), .. }) => {
            Ok(Partial::Sized(Linear {
                terms: Vec::new(),
                constant: Length::new(*value, *written),
            }))
        }
        ExprKind::Number(_) => {
            Err(mismatch(expr.span, "this is not a unit of length", "not a length"))
        }
        ExprKind::Name(name) => {
            let variable = resolve(name)?;
            let terms = vec![(variable, Exact::ONE)];
            Ok(Partial::Sized(Linear { terms, constant: Length::ZERO }))
        }
        ExprKind::Negative(inner) => Ok(scale(partial(inner, unit, resolve)?, Exact::int(-1))),
        ExprKind::Binary(op, left, right) => {
            let a = partial(left, unit, resolve)?;
            let b = partial(right, unit, resolve)?;
            binary(*op, a, b, unit, (left.span, right.span))
        }
    }
}

fn binary<V: Copy + PartialEq>(
    op: BinaryOp,
    a: Partial<V>,
    b: Partial<V>,
    unit: Unit,
    (left, right): (Span, Span),
) -> Result<Partial<V>, Fault> {
    use Partial::{Pure, Sized};
    match (op, a, b) {
        (BinaryOp::Add, Pure(a), Pure(b)) => Ok(Pure(a + b)),
        (BinaryOp::Subtract, Pure(a), Pure(b)) => Ok(Pure(a - b)),
        (BinaryOp::Add, a, b) => Ok(Sized(add(sized(a, unit), sized(b, unit)))),
        (BinaryOp::Subtract, a, b) => {
            Ok(Sized(add(sized(a, unit), sized(scale(b, Exact::int(-1)), unit))))
        }
        (BinaryOp::Multiply, Pure(a), b) => Ok(scale(b, a)),
        (BinaryOp::Multiply, a, Pure(b)) => Ok(scale(a, b)),
        (BinaryOp::Multiply, Sized(_), Sized(_)) => Err(mismatch(
            left.to(right),
            "a length times a length is not a length",
            "both sides are lengths",
        )),
        (BinaryOp::Divide, _, Pure(b)) if b.is_zero() => Err(Box::new(Diagnostic::error(
            "division-by-zero",
            "nothing can be divided by zero",
            right,
            "this is zero",
        ))),
        (BinaryOp::Divide, a, Pure(b)) => Ok(scale(a, Exact::ONE / b)),
        (BinaryOp::Divide, Sized(a), Sized(b))
            if a.terms.is_empty() && b.terms.is_empty() && !b.constant.is_zero() =>
        {
            Ok(Pure(a.constant / b.constant))
        }
        (BinaryOp::Divide, _, Sized(_)) => {
            Err(mismatch(right, "you can divide only by a plain number here", "this is a size"))
        }
    }
}

fn sized<V>(value: Partial<V>, unit: Unit) -> Linear<V> {
    match value {
        Partial::Pure(value) => Linear { terms: Vec::new(), constant: Length::new(value, unit) },
        Partial::Sized(sum) => sum,
    }
}

fn add<V: Copy + PartialEq>(mut a: Linear<V>, b: Linear<V>) -> Linear<V> {
    for (variable, factor) in b.terms {
        match a.terms.iter_mut().find(|(v, _)| *v == variable) {
            Some((_, sum)) => *sum += factor,
            None => a.terms.push((variable, factor)),
        }
    }
    a.terms.retain(|(_, factor)| !factor.is_zero());
    a.constant += b.constant;
    a
}

fn scale<V>(value: Partial<V>, factor: Exact) -> Partial<V> {
    match value {
        Partial::Pure(value) => Partial::Pure(value * factor),
        Partial::Sized(mut sum) => {
            for (_, k) in &mut sum.terms {
                *k = *k * factor;
            }
            sum.constant = sum.constant * factor;
            Partial::Sized(sum)
        }
    }
}

fn mismatch(span: Span, title: &str, label: &str) -> Fault {
    Box::new(Diagnostic::error("unit-mismatch", title, span, label))
}

fn not_a_constant(name: &Name) -> Fault {
    Box::new(
        Diagnostic::error(
            "not-a-length",
            format!("`{}` is a name where a figure belongs", name.text()),
            name.span,
            "a figure belongs here",
        )
        .note("you can use the name of an opening only in the sizes of openings and members"),
    )
}

/// The diagnostic for arithmetic that could not be kept exactly.
#[must_use]
pub fn too_fine(span: Span) -> Fault {
    Box::new(
        Diagnostic::error(
            "number-too-fine",
            "these figures are too large or too fine to keep exactly",
            span,
            "out of range",
        )
        .fix(Fix::new(
            Grade::Sketch,
            "write a figure with a smaller denominator",
            span,
            "…",
        )),
    )
}
