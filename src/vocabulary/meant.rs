//! What a word that the language does not have was meant to be.

use crate::measure::nearest;

use super::blocks::BLOCKS;
use super::choice::Choice;
use super::natural;
use super::word::{Block, Kind, Row, Slot};

/// The few blocks in which a word belongs.
pub(super) fn homes(text: &str) -> Option<Vec<&'static str>> {
    let homes = BLOCKS.iter().filter(|other| other.word(text).is_some()).map(|other| other.title);
    let homes: Vec<&str> = homes.collect();
    (1..=4).contains(&homes.len()).then_some(homes)
}

/// The word of this block that another means the same as, or is a misspelling
/// of.
pub(super) fn meant(block: &'static Block, text: &str) -> Option<&'static str> {
    let words = || block.words.iter().map(|word| word.word);
    let is_other = |word: &str| natural::near(text, words()).is_some_and(|near| near != word);
    natural::same(text, words())
        .or_else(|| nearest(text, words()).filter(|word| homes(text).is_none() && !is_other(word)))
}

/// The row of this block that a word stands for, or surely was meant to.
pub(super) fn row(block: &'static Block, text: &str) -> Option<&'static Row> {
    block.meant(text).or_else(|| block.word(meant(block, text)?))
}

/// The statement of this block that a word makes which stands alone and is a choice of it, as
/// `set inset` of `inset`, or `joint rabbet` of `in-rabbet`.
pub(super) fn choice_of(block: &'static Block, text: &str) -> Option<String> {
    let said = |parts: &dyn Fn(&Choice) -> bool| {
        let mut rows = block.words.iter().filter_map(|row| match row.takes.first()?.kind {
            Kind::Choice(choices) => Some((row, choices.iter().find(|own| parts(own))?)),
            _ => None,
        });
        let (row, choice) = rows.next()?;
        // Of two words that take it neither is surely the one.
        rows.next().is_none().then(|| format!("{} {}", row.word, choice.word))
    };
    said(&|own| own.is(text)).or_else(|| said(&|own| part(text, own)))
}

/// True where a choice is the last part of a word with a hyphen.
pub(super) fn part(text: &str, choice: &Choice) -> bool {
    text.rsplit_once('-').is_some_and(|(_, last)| choice.is(last))
}

/// True for a word of the language, at whatever place: one that begins a statement, or a
/// choice.
#[must_use]
pub fn is_known(text: &str) -> bool {
    BLOCKS.iter().flat_map(|block| block.words).any(|row| {
        let takes = |slot: &Slot| match slot.kind {
            Kind::Choice(choices) => choices.iter().any(|choice| choice.is(text)),
            Kind::Exactly(word) => word == text,
            _ => false,
        };
        row.is(text) || row.takes.iter().any(takes)
    })
}
