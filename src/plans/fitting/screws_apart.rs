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

/// True for screws that go where they do for more than their own boards: a countertop's are
/// in line with its slots, and those of a front keep clear of its joints and its pull.
fn is_fixed(purpose: Purpose) -> bool {
    match purpose {
        Purpose::Countertops | Purpose::Fronts | Purpose::FalseFronts => true,
        Purpose::Backs
        | Purpose::Bottoms
        | Purpose::Strips
        | Purpose::Boards
        | Purpose::Packers
        | Purpose::Corners
        | Purpose::Fillers
        | Purpose::Covers
        | Purpose::BackCovers
        | Purpose::Ties
        | Purpose::Blocks
        | Purpose::Holding
        | Purpose::Stops
        | Purpose::Stacked
        | Purpose::Setting
        | Purpose::Pockets
        | Purpose::HardPockets
        | Purpose::Plates
        | Purpose::ShelfPins
        | Purpose::Clips => false,
    }
}

/// Moves the screws of each line that would meet those of one before it.
pub(super) fn keep_apart(found: &mut [Fastening<'_>], tape: &Tape) {
    let unit = tape.unit;
    let mut of_cases: BTreeMap<CaseId, Vec<Cuboid>> = BTreeMap::new();
    // What has few places takes its own first, and the others step aside.
    let mut all: Vec<&mut Fastening<'_>> =
        found.iter_mut().filter(|own| !own.lines.is_empty()).collect();
    all.sort_by_key(|own| !is_fixed(own.purpose));
    for own in all {
        // Those of a case on another go into what screws come up into from below.
        let into = own.into.first().filter(|_| own.purpose == Purpose::Stacked);
        let case = into.map_or(own.part.case, |into| into.case);
        let driven = of_cases.entry(case).or_default();
        let long = match own.long {
            Long::Is(long) | Long::AtLeast(long) | Long::Between(_, long) => Some(long),
            Long::BySheet => None,
        };
        // Slots have screws too, which stand on no line.
        let count = |lines: &[ScrewLine<'_>]| lines.iter().map(|line| line.count).sum::<u32>();
        let more = own.count.saturating_sub(count(&own.lines));
        let fixed = is_fixed(own.purpose);
        for line in &mut own.lines {
            let screws = |line: &ScrewLine<'_>| {
                let deep = long.unwrap_or(line.through.thickness.length);
                line.screws(deep, around(unit))
            };
            let meets = |line: &ScrewLine<'_>| {
                let own = screws(line);
                driven.iter().any(|other| own.iter().any(|own| own.overlaps(other)))
            };
            // Those of a case on another count from its bays, and stand on the tape there.
            if !fixed && own.purpose != Purpose::Stacked {
                *line = line.clone().on_tape(tape);
            }
            if !fixed && meets(line) {
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
