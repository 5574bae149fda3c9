//! Holes of the cut list that wait for a step of the assembly order.

use std::collections::BTreeMap;

use crate::diagnostics::listed;
use crate::parts::{Bore, FeatureKind, PartId};
use crate::plans::assembly::{Stage, stage};

use super::Source;

/// The steps in which the cups and the pull holes of fronts are bored.
pub(super) struct Steps(BTreeMap<PartId, Vec<(&'static str, usize)>>);

impl Steps {
    /// Of all parts.
    pub(super) fn of(source: &Source<'_, '_>) -> Self {
        let assembly = source.work.assembly();
        let mut found: BTreeMap<PartId, Vec<(&'static str, usize)>> = BTreeMap::new();
        for (task, slot) in assembly.tasks.iter().zip(&assembly.schedule.slots) {
            for (id, number) in &task.cuts {
                let part = source.work.parts.get(*id).filter(|part| stage(part) == Stage::Openings);
                let kind = part.and_then(|part| part.features.get(*number)).map(|own| own.kind);
                let holes = match kind {
                    Some(FeatureKind::Bore(Bore::Cup)) => "hinge cups",
                    Some(FeatureKind::Bore(Bore::Pull)) => "pull holes",
                    _ => continue,
                };
                let own = found.entry(*id).or_default();
                if !own.contains(&(holes, slot.order + 1)) {
                    own.push((holes, slot.order + 1));
                }
            }
        }
        Self(found)
    }

    /// `hinge cups only in step 21`; `None` for a part without such holes.
    pub(super) fn told(&self, id: PartId) -> Option<String> {
        let own = self.0.get(&id)?;
        let told: Vec<String> = own
            .chunk_by(|(_, one), (_, other)| one == other)
            .filter_map(|group| {
                let (_, step) = group.first()?;
                let names: Vec<&str> = group.iter().map(|(holes, _)| *holes).collect();
                Some(format!("{} only in step {step}", listed(&names)))
            })
            .collect();
        Some(told.join(", "))
    }
}
