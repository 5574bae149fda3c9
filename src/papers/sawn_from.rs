//! Which sheet a part is sawn from, and by which cut.

use std::collections::BTreeMap;

use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::sheets::Laid;

/// Where each part lies in the sheet plans: sheets with their cuts.
#[derive(Debug, Default)]
pub(super) struct SawnFrom(BTreeMap<PartId, Vec<(usize, usize)>>);

impl SawnFrom {
    pub(super) fn of(work: &Workings<'_>) -> Self {
        let mut all: BTreeMap<PartId, Vec<(usize, usize)>> = BTreeMap::new();
        for sheet in work.sheets().iter().flat_map(|own| &own.sheets) {
            for Laid { blank, cut, .. } in &sheet.laid {
                all.entry(blank.part).or_default().push((sheet.number, *cut));
            }
        }
        Self(all)
    }

    /// True where the sheet plans have one of these parts.
    pub(super) fn has(&self, mut parts: impl Iterator<Item = PartId>) -> bool {
        parts.any(|part| self.0.contains_key(&part))
    }

    /// `1: 4, 5; 2: 3`: of each sheet its number and the cuts that free these parts.
    pub(super) fn told(&self, parts: impl Iterator<Item = PartId>) -> String {
        let mut sheets: BTreeMap<usize, Vec<String>> = BTreeMap::new();
        for (sheet, cut) in parts.filter_map(|part| self.0.get(&part)).flatten() {
            // A whole sheet, or a whole piece on hand, needs no cut.
            let cut = if *cut == 0 { "whole".to_owned() } else { cut.to_string() };
            let cuts = sheets.entry(*sheet).or_default();
            cuts.push(cut);
        }
        let told = sheets.iter().map(|(sheet, cuts)| format!("{sheet}: {}", cuts.join(", ")));
        told.collect::<Vec<_>>().join("; ")
    }
}
