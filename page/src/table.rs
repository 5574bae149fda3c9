//! The words of the language as a table, which the build of the page bakes in.

use std::collections::BTreeMap;

use casewright::vocabulary::{self, BLOCKS, Kind, Row};
use serde::Serialize;

/// Each block by its name.
#[derive(Serialize)]
pub(crate) struct Table {
    blocks: BTreeMap<&'static str, Words>,
    /// Words that stand behind others: choices.
    choices: Vec<&'static str>,
    /// What may stand behind a figure.
    units: Vec<&'static str>,
}

/// The words of a block, each with the block that its braces hold.
#[derive(Serialize)]
struct Words {
    words: BTreeMap<&'static str, Option<&'static str>>,
    /// It has words of the maker's own.
    any: Option<Option<&'static str>>,
}

pub(crate) fn of_words() -> Table {
    let inner = |row: &Row| row.body.block().map(|block| block.name);
    let mut choices = Vec::new();
    let mut blocks = BTreeMap::new();
    for block in BLOCKS {
        let named = block.words.iter().filter(|row| !row.any_name);
        let spelled = named.flat_map(|row| {
            std::iter::once(row.word).chain(row.also).map(move |word| (word, inner(row)))
        });
        let any = block.words.iter().find(|row| row.any_name).map(|row| inner(row));
        blocks.insert(block.name, Words { words: spelled.collect(), any });
        for slot in block.words.iter().flat_map(|row| row.takes) {
            match slot.kind {
                Kind::Choice(all) => choices.extend(all.iter().map(|own| own.word)),
                Kind::Exactly(word) => choices.push(word),
                _ => {}
            }
        }
    }
    choices.sort_unstable();
    choices.dedup();
    Table { blocks, choices, units: vocabulary::units().collect() }
}
