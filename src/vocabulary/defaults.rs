//! The defaults of the vocabulary as values, read once from the same table
//! that the reference page prints.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::measure::{FileId, Unit};
use crate::syntax::{self, Item};

use super::blocks::BLOCKS;
use super::slot::read_one;
use super::value::Value;

type Defaults = BTreeMap<(&'static str, &'static str), Value>;

/// Those of files in inches, and of metric ones.
static DEFAULTS: OnceLock<[Defaults; 2]> = OnceLock::new();

/// The default of `word` in `block` in a file of this unit, if it has one.
#[must_use]
pub(super) fn value(block: &'static str, word: &'static str, unit: Unit) -> Option<&'static Value> {
    let [inches, metric] = DEFAULTS.get_or_init(read_all);
    let own = (unit == Unit::Millimetre).then(|| metric.get(&(block, word))).flatten();
    own.or_else(|| inches.get(&(block, word)))
}

/// All defaults as one text, one statement a line, so that one parse reads them.
fn read_all() -> [Defaults; 2] {
    let mut words = Vec::new();
    let mut text = String::new();
    for block in BLOCKS {
        for word in block.words {
            for (system, default) in [(0, word.default), (1, word.metric)] {
                let Some(default) = default else { continue };
                words.push((system, block.name, word));
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
    let mut all = [Defaults::new(), Defaults::new()];
    for ((system, block, word), statement) in words.into_iter().zip(statements) {
        let read = word
            .takes
            .first()
            .and_then(|slot| read_one(slot.kind, &statement.arguments, Unit::Inch).ok());
        if let (Some((value, _)), Some(own)) = (read, all.get_mut(system)) {
            own.insert((block, word.word), value.value);
        }
    }
    all
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
