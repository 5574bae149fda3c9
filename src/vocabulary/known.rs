//! The names that a spec and the files it uses define.

use std::collections::BTreeMap;

use crate::syntax::{Argument, Item, Tree};

use super::blocks::file;
use super::word::Kind;

/// Names by what they are of: `slide`, `stock`, …; each list in the order of the files.
#[derive(Clone, Debug, Default)]
pub struct Known(BTreeMap<&'static str, Vec<String>>);

impl Known {
    /// What these files define at the outermost level.
    #[must_use]
    pub fn of(trees: &[Tree]) -> Self {
        let mut names: BTreeMap<&'static str, Vec<String>> = BTreeMap::new();
        for item in trees.iter().flat_map(|tree| &tree.items) {
            let Item::Statement(statement) = item else { continue };
            let Some(row) = file::block().word(statement.word.text()) else { continue };
            let defines = row.takes.first().is_some_and(|slot| slot.kind == Kind::Define);
            let name = statement.arguments.first().and_then(Argument::as_word);
            if let Some(name) = name.filter(|_| defines) {
                names.entry(row.word).or_default().push(name.text.to_owned());
            }
        }
        Self(names)
    }

    /// The names that a value of this kind may have; none for one that is no name.
    pub(super) fn for_kind(&self, kind: Kind) -> &[String] {
        match kind {
            Kind::Refer(what) => self.0.get(what).map_or(&[], Vec::as_slice),
            _ => &[],
        }
    }
}
