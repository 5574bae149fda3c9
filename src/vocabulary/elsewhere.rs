//! A figure of which a digit is missing, as the same word has it elsewhere in the file.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Exact, Length, Unit};
use crate::syntax::{Argument, Expr, ExprKind, Item, Number, Statement, Tree};

use super::blocks::file;
use super::range::is_length;
use super::word::{Block, Row};

/// Adds, as the likeliest, the figure that the word has in another statement of the file,
/// where that is the written one with a digit more.
pub(super) fn offered(
    mut found: Diagnostic,
    (word, statement): (&'static Row, &Statement),
    tree: &Tree,
    unit: Unit,
) -> Diagnostic {
    let usual = word.usual.or(word.can_be);
    let is_usual = |count: Exact| {
        let measure = Length::new(count, unit).in_unit(Unit::Millimetre);
        usual.is_some_and(|range| range.holds(measure))
    };
    let lengths = word.takes.first().is_some_and(|slot| is_length(slot.kind));
    let Some(written) = bare(statement).filter(|_| lengths) else { return found };
    let mut others = Vec::new();
    gather(word, file::block(), &tree.items, &mut others);
    let lacks = |other: &Exact| is_usual(*other) && is_one_digit_less(written, *other);
    if let Some(meant) = others.into_iter().find(lacks) {
        let span = found.primary.span;
        let text = meant.to_string();
        found.fixes.retain(|fix| fix.edits.iter().all(|edit| edit.text != text));
        let title = format!("{meant}, as it is elsewhere in this file");
        found.fixes.insert(0, Fix::new(Grade::Choice, title, span, text));
    }
    found
}

/// The whole number without a unit that is all a statement says.
fn bare(statement: &Statement) -> Option<Exact> {
    match statement.arguments.as_slice() {
        [Argument::Expr(Expr { kind: ExprKind::Number(number), .. })] => match number {
            Number { value, unit: None, .. } if value.is_whole() => Some(*value),
            Number { .. } => None,
        },
        _ => None,
    }
}

/// The figures of all statements of a word.
fn gather(word: &'static Row, block: &'static Block, items: &[Item], found: &mut Vec<Exact>) {
    for item in items {
        let Item::Statement(statement) = item else { continue };
        let Some(own) = block.word(statement.word.text()) else { continue };
        if std::ptr::eq(own, word) {
            found.extend(bare(statement));
        }
        if let (Some(inner), Some(body)) = (own.body.block(), &statement.block) {
            gather(word, inner, &body.items, found);
        }
    }
}

/// True where one of the digits of `other` is missing in `written`.
fn is_one_digit_less(written: Exact, other: Exact) -> bool {
    let [written, other] = [written, other].map(|count| count.numer().to_string());
    other.len() == written.len() + 1
        && (0..other.len()).any(|at| {
            let (before, rest) = other.split_at(at);
            [before, rest.get(1..).unwrap_or_default()].concat() == written
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_digit_may_be_missing_anywhere() {
        let less = |one, other| is_one_digit_less(Exact::int(one), Exact::int(other));
        assert!(less(2, 22) && less(36, 306) && less(36, 136) && less(36, 360));
        assert!(!less(2, 36) && !less(36, 36) && !less(36, 1360));
    }
}
