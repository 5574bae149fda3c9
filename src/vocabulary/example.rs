//! Examples in the unit of the file: whoever counts in millimetres is not shown
//! inches.

use std::borrow::Cow;

use crate::diagnostics::{Edit, Fix, Grade, Sources, mend};
use crate::measure::{Exact, Length, Tape, Unit};
use crate::syntax::{Argument, Expr, ExprKind, Item, Number, Statement};

use super::form::parse;
use super::word::{Block, Kind, Row};

/// The example of a word of this block, bare lengths in this unit.
pub(super) fn of(block: &Block, word: &Row, unit: Unit) -> Cow<'static, str> {
    if unit == Unit::Inch {
        return Cow::Borrowed(word.example);
    }
    let mut sources = Sources::new();
    let file = sources.add("example", word.example);
    // As many bytes, so that places stay where they are.
    let (tree, _) = parse(file, &word.example.replace('…', "   "));
    let mut edits = Vec::new();
    gather(block, &tree.items, unit, &mut edits);
    let fix = Fix { title: String::new(), grade: Grade::Choice, edits };
    match mend(&sources, &[&fix]).texts.remove(&file) {
        Some(text) => Cow::Owned(text),
        None => Cow::Borrowed(word.example),
    }
}

fn gather(block: &Block, items: &[Item], unit: Unit, edits: &mut Vec<Edit>) {
    for item in items {
        let Item::Statement(statement) = item else { continue };
        let Some(word) = block.meant(statement.word.text()) else { continue };
        if word.takes.iter().any(|slot| is_length(slot.kind)) {
            figures(statement, unit, edits);
        }
        if let (Some(block), Some(inner)) = (word.body.block(), &statement.block) {
            gather(block, &inner.items, unit, edits);
        }
    }
}

fn is_length(kind: Kind) -> bool {
    matches!(kind, Kind::Length | Kind::Offset | Kind::Size | Kind::LengthRange | Kind::Nominal)
}

fn figures(statement: &Statement, unit: Unit, edits: &mut Vec<Edit>) {
    for argument in &statement.arguments {
        if let Argument::Expr(expr) = argument {
            figure(expr, unit, edits);
        }
    }
}

fn figure(expr: &Expr, unit: Unit, edits: &mut Vec<Edit>) {
    match &expr.kind {
        ExprKind::Number(Number { value, unit: None, .. }) => {
            edits.push(Edit { span: expr.span, text: round(*value, unit) });
        }
        ExprKind::Number(_) | ExprKind::Name(_) => {}
        ExprKind::Negative(inner) => figure(inner, unit, edits),
        ExprKind::Binary(_, left, right) => {
            figure(left, unit, edits);
            figure(right, unit, edits);
        }
    }
}

/// Inches as a round figure of another unit.
fn round(inches: Exact, unit: Unit) -> String {
    let length = Length::new(inches, Unit::Inch);
    let millimetres = length.in_unit(Unit::Millimetre);
    // In half millimetres: what a maker would write, as round as the inches.
    let step = match (inches.is_whole(), millimetres < Exact::int(10)) {
        (true, _) => 10,
        (false, true) => 1,
        (false, false) => 2,
    };
    let halves = (millimetres * Exact::ratio(2, step)).round() * step;
    let value = Length::new(Exact::ratio(halves, 2), Unit::Millimetre);
    Tape { unit, mark: value }.source(value)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test that can't go on stops")]
mod tests {
    use super::*;
    use crate::measure::FileId;
    use crate::vocabulary::{BLOCKS, block_named};

    fn metric(block: &str, word: &str) -> String {
        let block = block_named(block).unwrap();
        of(block, block.word(word).unwrap(), Unit::Millimetre).into_owned()
    }

    #[test]
    fn lengths_are_round_figures_of_the_unit_and_nothing_else_changes() {
        assert_eq!(metric("diagonals", "rising"), "rising 944");
        assert_eq!(metric("diagonals", "falling"), "falling 945");
        assert_eq!(metric("drawers", "groove"), "groove { up 13 mm; deep 8 }");
        assert_eq!(metric("cut-part", "made"), "made dado { long 659 to 677; thick 0 to 6.5 }");
        assert_eq!(metric("case", "deep"), "deep 430");
        let case = block_named("case").unwrap();
        let deep = case.word("deep").unwrap();
        assert_eq!(of(case, deep, Unit::Inch), deep.example);
    }

    #[test]
    fn every_example_can_be_read_in_either_unit() {
        for block in BLOCKS {
            for word in block.words {
                let text = of(block, word, Unit::Millimetre);
                assert!(parse(FileId(0), &text.replace('…', " ")).1.is_empty(), "{text}");
                // Fractions are how inches are written; others keep theirs.
                let is_plain = word.takes.iter().any(|slot| is_length(slot.kind));
                assert!(!is_plain || word.body.block().is_some() || !text.contains('/'), "{text}");
            }
        }
    }
}
