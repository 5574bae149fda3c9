//! Pieces of furniture that stand each by itself, where they are set.

use crate::diagnostics::listed;
use crate::plans::operations::{Doing, House};

use super::Maker;

impl Maker<'_, '_> {
    /// Each piece is set and leveled by itself.
    pub(super) fn set_apart(&self) -> (Vec<String>, Vec<Doing>) {
        let cases = &self.piece.cases;
        let names: Vec<&str> = cases.iter().map(|case| case.name.as_str()).collect();
        let lines = vec![
            format!(
                "set {} each where it will stay: nothing holds one to another, and how far apart they are drawn says nothing of where they stand",
                listed(&names)
            ),
            "find the highest place of the floor under each, and shim up from it until that piece is level from end to end and from front to back, with its ends plumb".to_owned(),
        ];
        let does = cases.iter().map(|case| {
            let parts = self.ids(|part| part.case == case.id);
            Doing::House(House::StandApart(case.id, parts))
        });
        (lines, does.collect())
    }
}
