//! Fractions of an inch that stand on no rule: `1/6` for `1/16`.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Exact, Span};
use crate::syntax::NumberUnit;

/// The divisions of an inch on rules and tapes, the coarsest first.
const DIVISIONS: [i64; 6] = [2, 4, 8, 16, 32, 64];

/// What is said of one, with the marks that it may have been meant to be.
pub(super) fn found(
    subject: &str,
    span: Span,
    (count, unit): (Exact, Option<NumberUnit>),
) -> Diagnostic {
    let whole = Exact::int(count.floor());
    let part = count - whole;
    let (numer, denom) = (part.numer(), part.denom());
    let title = format!("{subject} has {numer}/{denom} of an inch in it, which is odd");
    let found = Diagnostic::warning("figure-odd", title, span, "no rule has this mark");
    let text = |part: Exact| {
        let count = whole + part;
        unit.map_or_else(|| count.to_string(), |unit| format!("{count} {}", unit.name()))
    };
    // A digit that was lost or struck wrong leaves the others.
    let slipped = DIVISIONS.into_iter().filter(|own| own.to_string().ends_with(&denom.to_string()));
    let slipped = slipped.map(|own| Exact::ratio(numer, own)).next();
    let nearest = Exact::ratio((part * Exact::int(32)).round(), 32);
    let meant = slipped.map(|own| (own, "if a digit is missing"));
    let meant = meant.into_iter().chain([(nearest, "the nearest mark")]);
    meant.fold(found, |found, (part, if_so)| {
        let text = text(part);
        found.fix(Fix::new(Grade::Choice, format!("{text}, {if_so}"), span, text))
    })
}
