//! Figures and words side by side, read without the grammar: what the
//! vocabulary gives as a default has this form, and costs next to nothing.

use super::number;
use super::tree::{Argument, Expr, ExprKind, Name};
use crate::measure::Span;

/// Reads figures, each perhaps with a unit, and bare words, with one space
/// between them: `1/8 in`, `30% to 55%`, `none`. Nothing is said of where they
/// stand. `None` where a figure can't be kept.
#[must_use]
pub fn plain(text: &str) -> Option<Vec<Argument>> {
    let span = Span::default();
    let mut arguments = Vec::new();
    let mut pieces = text.split(' ').peekable();
    while let Some(piece) = pieces.next() {
        let kind = if piece.starts_with(|c: char| c.is_ascii_digit()) {
            let (digits, unit) = match piece.split_at(piece.find('%').unwrap_or(piece.len())) {
                (digits, "") => {
                    let unit = pieces.peek().and_then(|next| number::unit_named(next));
                    let _ = pieces.next_if(|_| unit.is_some());
                    (digits, unit)
                }
                (digits, unit) => (digits, number::unit_named(unit)),
            };
            ExprKind::Number(number::written(digits, unit).ok()?)
        } else {
            ExprKind::Name(Name { text: piece.to_owned(), span })
        };
        arguments.push(Argument::Expr(Expr { kind, span }));
    }
    Some(arguments)
}
