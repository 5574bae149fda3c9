//! The defaults of the vocabulary as values, each read when it is asked for
//! from the same table that the reference page prints.

use crate::measure::Unit;
use crate::syntax;

use super::slot::read_one;
use super::value::Value;
use super::word::Row;

/// What holds where `word` is not written in a file of this unit.
#[must_use]
pub(super) fn value(word: &Row, unit: Unit) -> Option<Value> {
    let text = match unit {
        Unit::Millimetre => word.metric.or(word.default),
        _ => word.default,
    };
    let arguments = syntax::plain(text?)?;
    let (value, _) = read_one(word.takes.first()?.kind, &arguments, Unit::Inch).ok()?;
    Some(value.value)
}

#[cfg(test)]
mod tests {
    use super::super::blocks::BLOCKS;
    use super::*;
    use crate::measure::FileId;
    use crate::syntax::Item;
    use crate::vocabulary::parse;

    /// What the whole grammar makes of a default.
    fn parsed(word: &Row, text: &str) -> Value {
        let (tree, faults) = parse(FileId(0), &format!("word {text}\n"));
        assert!(faults.is_empty(), "{text}: {faults:?}");
        let Some(Item::Statement(statement)) = tree.items.first() else { panic!("{text}") };
        let (value, taken) =
            read_one(word.takes[0].kind, &statement.arguments, Unit::Inch).expect(text);
        assert_eq!(taken, statement.arguments.len(), "{text}");
        value.value
    }

    #[test]
    fn every_default_means_what_it_would_mean_in_a_spec() {
        let words = BLOCKS.iter().flat_map(|block| block.words);
        let mut seen = 0;
        for word in words {
            let Some(default) = word.default else { continue };
            let metric = word.metric.unwrap_or(default);
            assert_eq!(value(word, Unit::Inch), Some(parsed(word, default)), "{default}");
            assert_eq!(value(word, Unit::Millimetre), Some(parsed(word, metric)), "{metric}");
            seen += 1;
        }
        assert!(seen > 50, "{seen}");
    }
}
