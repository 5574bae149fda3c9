//! The defaults of the vocabulary as values, read once from the same table
//! that the reference page prints.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::measure::{FileId, Unit};
use crate::syntax::{self, Item};

use super::blocks::BLOCKS;
use super::slot::read_one;
use super::value::Value;
use super::word::Word;

type Defaults = BTreeMap<(&'static str, &'static str), Value>;

static INCHES: OnceLock<Defaults> = OnceLock::new();
static METRIC: OnceLock<Defaults> = OnceLock::new();

/// The default of `word` in `block` in a file of this unit, if it has one.
#[must_use]
pub(super) fn value(block: &'static str, word: &'static str, unit: Unit) -> Option<&'static Value> {
    let all = match unit {
        Unit::Millimetre => METRIC.get_or_init(|| read_all(|word| word.metric.or(word.default))),
        _ => INCHES.get_or_init(|| read_all(|word| word.default)),
    };
    all.get(&(block, word))
}

/// All defaults as one text, one statement a line, so that one parse reads them.
fn read_all(default: fn(&Word) -> Option<&'static str>) -> Defaults {
    let mut words = Vec::new();
    let mut text = String::new();
    for block in BLOCKS {
        for word in block.words {
            if let Some(default) = default(word) {
                words.push((block.name, word));
                text.push_str(word.word);
                text.push(' ');
                text.push_str(default);
                text.push('\n');
            }
        }
    }
    let (tree, _) = syntax::parse(FileId(u32::MAX), &text);
    let statements = tree.items.iter().filter_map(|item| match item {
        Item::Statement(statement) => Some(statement),
        _ => None,
    });
    words
        .into_iter()
        .zip(statements)
        .filter_map(|((block, word), statement)| {
            let slot = word.takes.first()?;
            let (value, _) = read_one(slot.kind, &statement.arguments, Unit::Inch).ok()?;
            Some(((block, word.word), value.value))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_default_of_the_table_can_be_read() {
        for block in BLOCKS {
            for word in block.words.iter().filter(|word| word.default.is_some()) {
                for unit in [Unit::Inch, Unit::Millimetre] {
                    let found = value(block.name, word.word, unit);
                    assert!(found.is_some(), "{} {}", block.name, word.word);
                    assert_eq!(
                        found == value(block.name, word.word, Unit::Inch),
                        unit == Unit::Inch || word.metric.is_none(),
                        "{} {}",
                        block.name,
                        word.word
                    );
                }
            }
        }
    }
}
