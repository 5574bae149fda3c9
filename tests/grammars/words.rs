//! The words of the language, sorted by how they are colored.

use std::collections::{BTreeMap, BTreeSet};

use casewright::vocabulary::{BLOCKS, Kind, Row};

/// A set of words, sorted, so that what is made of it is the same every time.
pub(super) type Set = BTreeSet<&'static str>;

/// What stands between two figures, and is no unit.
const JOINING: [&str; 4] = ["to", "per", "each", "on"];

/// The form of the language.
const GRAMMAR: &str = include_str!("../../grammar/casewright.pest");

/// All the words.
#[derive(Default)]
pub(super) struct Words {
    /// They begin a statement.
    pub(super) begin: Set,
    /// Of these, the ones with a new name behind them.
    pub(super) name: Set,
    /// What each word that takes a choice has to choose from, in one block or another.
    pub(super) choosing: BTreeMap<&'static str, Set>,
    /// What joins figures.
    pub(super) joining: Set,
    /// The units of the form.
    pub(super) units: Set,
    /// What else is measured and sold by: words for the form.
    pub(super) measures: Set,
}

impl Words {
    /// Those of the vocabulary.
    pub(super) fn all() -> Self {
        let mut all = Self { units: units(), ..Self::default() };
        for row in BLOCKS.iter().flat_map(|block| block.words) {
            all.add(row);
        }
        all
    }

    /// Every choice of every list.
    pub(super) fn choices(&self) -> Set {
        self.choosing.values().flatten().copied().collect()
    }

    /// The words that have the same to choose from, by what that is.
    pub(super) fn by_choices(&self) -> BTreeMap<&Set, Set> {
        let mut all: BTreeMap<&Set, Set> = BTreeMap::new();
        for (word, choices) in &self.choosing {
            all.entry(choices).or_default().insert(word);
        }
        all
    }

    fn add(&mut self, row: &'static Row) {
        // A word that stands for any name is itself a name.
        if row.any_name {
            return;
        }
        let spelled: Set = std::iter::once(row.word).chain(row.also).collect();
        self.begin.extend(&spelled);
        for (place, slot) in row.takes.iter().enumerate() {
            match slot.kind {
                Kind::Define if place == 0 => self.name.extend(&spelled),
                Kind::Choice(list) => {
                    let all = list.iter().flat_map(|own| std::iter::once(own.word).chain(own.also));
                    // One that is a figure is colored as such.
                    let all =
                        all.filter(|word| word.starts_with(|c: char| c.is_ascii_alphabetic()));
                    for word in &spelled {
                        self.choosing.entry(word).or_default().extend(all.clone());
                    }
                }
                Kind::Exactly(word) => {
                    self.joining.insert(word);
                }
                Kind::Price(units) => self.measures.extend(units),
                _ => {}
            }
            if measures(slot.kind) {
                let told: &'static str = slot.kind.describe().leak();
                for example in told.split('`').skip(1).step_by(2).chain([row.example]) {
                    self.learn(example);
                }
            }
        }
    }

    /// The words behind the first figure of an example.
    fn learn(&mut self, example: &'static str) {
        let words = example.split([' ', ';', '{', '}']);
        let behind = words.skip_while(|word| !word.starts_with(|c: char| c.is_ascii_digit()));
        for word in behind.filter(|word| word.starts_with(|c: char| c.is_ascii_alphabetic())) {
            if JOINING.contains(&word) {
                self.joining.insert(word);
            } else if !self.units.contains(word) && !self.begin.contains(word) {
                self.measures.insert(word);
            }
        }
    }
}

/// True for a kind of figure whose unit is made of words.
fn measures(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::PercentRange
            | Kind::LengthRange
            | Kind::Load
            | Kind::Stiffness
            | Kind::Price(_)
            | Kind::Feed
            | Kind::Ratio
            | Kind::Coverage
            | Kind::LeadTime
            | Kind::Volume
            | Kind::Area
    )
}

/// The units that the form knows: the quoted words of its rule.
fn units() -> Set {
    let rule = GRAMMAR.lines().find(|line| line.starts_with("unit = ")).unwrap();
    rule.split('"').skip(1).step_by(2).collect()
}
