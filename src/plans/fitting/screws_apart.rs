//! Screws of two lines that would meet in the wood: the later line steps aside.

use std::collections::BTreeMap;

use crate::measure::{Length, Tape, Unit};
use crate::model::CaseId;
use crate::parts::Cuboid;

use super::screw_lines::ScrewLine;
use super::screws::{Fastening, Long, Purpose};

/// Wood between two screws that cross: 1/8 in, 3 mm, and half of each of them (#8 is 4 mm
/// wide): common practice, no source.
fn around(unit: Unit) -> Length {
    unit.either(Length::inches(9, 64), Length::mm(7) / 2)
}

/// Moves the screws of each line that would meet those of one before it.
pub(super) fn keep_apart(found: &mut [Fastening<'_>], tape: &Tape) {
    let unit = tape.unit;
    let mut of_cases: BTreeMap<CaseId, Vec<Cuboid>> = BTreeMap::new();
    for own in found.iter_mut().filter(|own| !own.lines.is_empty()) {
        let driven = of_cases.entry(own.part.case).or_default();
        let long = match own.long {
            Long::Is(long) | Long::AtLeast(long) | Long::Between(_, long) => Some(long),
            Long::BySheet => None,
        };
        // Slots have screws too, which stand on no line.
        let count = |lines: &[ScrewLine<'_>]| lines.iter().map(|line| line.count).sum::<u32>();
        let more = own.count.saturating_sub(count(&own.lines));
        for line in &mut own.lines {
            let screws = |line: &ScrewLine<'_>| {
                let deep = long.unwrap_or(line.through.thickness.length);
                line.screws(deep, around(unit))
            };
            let meets = |line: &ScrewLine<'_>| {
                let own = screws(line);
                driven.iter().any(|other| own.iter().any(|own| own.overlaps(other)))
            };
            // Those of a case on another and of a countertop count from their bays, and stand
            // on the tape there; a countertop's own are in line with its slots.
            if !matches!(own.purpose, Purpose::Stacked | Purpose::Countertops) {
                *line = line.clone().on_tape(tape);
            }
            if meets(line) && own.purpose != Purpose::Countertops {
                let between = line.between(driven, &screws(line));
                let others = line.others(unit).into_iter().chain(between);
                let mut others = others.map(|line| line.on_tape(tape));
                if let Some(free) = others.find(|line| !meets(line)) {
                    *line = free;
                }
            }
            driven.extend(screws(line));
        }
        own.count = count(&own.lines) + more;
    }
}
