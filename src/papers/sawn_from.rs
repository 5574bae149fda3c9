//! Which sheet or board a part is sawn from, and by which cut.

use std::collections::BTreeMap;

use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::sawing::{Laid, Sawn};

/// Where each part lies in the plans, a stick with the first of its parts: sheets or boards
/// with their cuts.
#[derive(Debug, Default)]
pub(super) struct SawnFrom(BTreeMap<PartId, Vec<(usize, usize)>>);

impl SawnFrom {
    /// Sheets.
    pub(super) fn sheets(work: &Workings<'_>) -> Self {
        Self::of(work.sheets().iter().flat_map(|own| &own.sheets))
    }

    /// Boards.
    pub(super) fn boards(work: &Workings<'_>) -> Self {
        Self::of(work.boards().iter().flat_map(|own| &own.boards))
    }

    fn of<'w>(all: impl Iterator<Item = &'w Sawn>) -> Self {
        let mut found: BTreeMap<PartId, Vec<(usize, usize)>> = BTreeMap::new();
        for own in all {
            for Laid { blank, cut, .. } in own.laid.iter().filter(|own| own.blank.strips.is_empty())
            {
                found.entry(blank.part).or_default().push((own.number, *cut));
            }
        }
        Self(found)
    }

    /// True where the plans have one of these parts.
    pub(super) fn has(&self, mut parts: impl Iterator<Item = PartId>) -> bool {
        parts.any(|part| self.0.contains_key(&part))
    }

    /// `1: 4, 5; 2: 3`: of each sheet or board its number and the cuts that free these parts.
    pub(super) fn told(&self, parts: impl Iterator<Item = PartId>) -> String {
        let mut sheets: BTreeMap<usize, Vec<String>> = BTreeMap::new();
        for (sheet, cut) in parts.filter_map(|part| self.0.get(&part)).flatten() {
            // What is all one piece needs no cut.
            let cut = if *cut == 0 { "whole".to_owned() } else { cut.to_string() };
            let cuts = sheets.entry(*sheet).or_default();
            cuts.push(cut);
        }
        let told = sheets.iter().map(|(sheet, cuts)| format!("{sheet}: {}", cuts.join(", ")));
        told.collect::<Vec<_>>().join("; ")
    }
}
