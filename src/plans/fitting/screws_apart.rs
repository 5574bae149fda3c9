//! Screws of two lines that would meet in the wood: the later line steps aside.

use std::collections::BTreeMap;

use crate::measure::{Length, Tape, Unit};
use crate::model::CaseId;
use crate::parts::{Cuboid, Part};

use super::screw_lines::ScrewLine;
use super::screws::{Fastening, Long, Purpose};

/// Screws that find no place clear of others.
#[derive(Clone, Debug)]
pub struct Meeting<'a> {
    /// What they go through.
    pub through: &'a Part,
    /// What they go into.
    pub into: &'a Part,
    /// What those go through that they would meet, and what these go into.
    pub others: [&'a Part; 2],
}

/// From the middle of a screw to that of the next one that it clears: 9/32 in, 7 mm.
#[must_use]
pub fn screw_room(unit: Unit) -> Length {
    around(unit).twice()
}

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

/// The screws of a line that are in.
struct Driven<'a> {
    screws: Vec<Cuboid>,
    /// The box round them.
    around: Cuboid,
    /// What they go through and into.
    both: [&'a Part; 2],
}

impl<'a> Driven<'a> {
    fn of(line: &ScrewLine<'a>, long: Length, unit: Unit) -> Self {
        let screws = line.screws(long, around(unit));
        let around = match &*screws {
            [first, .., last] => first.union(last),
            [only] => *only,
            [] => line.through.cuboid(),
        };
        Self { screws, around, both: [line.through, line.into] }
    }

    fn meets(&self, other: &Self) -> bool {
        self.around.overlaps(&other.around)
            && self.screws.iter().any(|own| other.screws.iter().any(|two| own.overlaps(two)))
    }
}

/// Moves the screws of each line that would meet those of one before it, and tells those
/// that still would.
pub(super) fn keep_apart<'a>(found: &mut [Fastening<'a>], tape: &Tape) -> Vec<Meeting<'a>> {
    let unit = tape.unit;
    let mut meetings = Vec::new();
    let mut all_driven: Vec<Driven<'a>> = Vec::new();
    let mut of_cases: BTreeMap<CaseId, Vec<usize>> = BTreeMap::new();
    // What has few places takes its own first, and the others step aside.
    let mut all: Vec<&mut Fastening<'a>> =
        found.iter_mut().filter(|own| !own.lines.is_empty()).collect();
    all.sort_by_key(|own| !is_fixed(own.purpose));
    for own in all {
        let long = match own.long {
            Long::Is(long) | Long::AtLeast(long) | Long::Between(_, long) => Some(long),
            Long::BySheet => None,
        };
        // Slots have screws too, which stand on no line.
        let count = |lines: &[ScrewLine<'_>]| lines.iter().map(|line| line.count).sum::<u32>();
        let more = own.count.saturating_sub(count(&own.lines));
        let fixed = is_fixed(own.purpose);
        for line in &mut own.lines {
            let long = long.unwrap_or(line.through.thickness.length);
            // Those of a case on another count from its bays, and stand on the tape there.
            if !fixed && own.purpose != Purpose::Stacked {
                *line = line.clone().on_tape(tape);
            }
            let mut screws = Driven::of(line, long, unit);
            // What joins two cases, such as one and the base under several, meets the screws
            // of both.
            let mut cases = vec![line.through.case, line.into.case];
            cases.dedup();
            let numbers = || cases.iter().filter_map(|case| of_cases.get(case)).flatten();
            let driven = || numbers().filter_map(|number| all_driven.get(*number));
            let met = |own: &Driven<'a>| driven().find(|other| own.meets(other));
            if let Some(other) = met(&screws).filter(|_| !fixed) {
                let places: Vec<Cuboid> =
                    driven().flat_map(|own| own.screws.iter().copied()).collect();
                let between = line.between(&places, &screws.screws);
                // In a case on another an upright may stand at the end of the line, where no
                // driver fits: its screws step toward an edge first.
                let is_stacked = own.purpose == Purpose::Stacked;
                let aside = if is_stacked { line.aside(unit) } else { Vec::new() };
                let elsewhere = aside.into_iter().chain(line.others(unit)).chain(between);
                let elsewhere = elsewhere.map(|line| line.on_tape(tape));
                let mut elsewhere = elsewhere.map(|line| {
                    let screws = Driven::of(&line, long, unit);
                    (line, screws)
                });
                let is_free = |(line, screws): &(ScrewLine<'a>, Driven<'a>)| {
                    met(screws).is_none() && line.is_clear(long, unit)
                };
                match elsewhere.find(is_free) {
                    Some(free) => (*line, screws) = free,
                    None => meetings.push(Meeting {
                        through: line.through,
                        into: line.into,
                        others: other.both,
                    }),
                }
            }
            for case in cases {
                of_cases.entry(case).or_default().push(all_driven.len());
            }
            all_driven.push(screws);
        }
        own.count = count(&own.lines) + more;
    }
    meetings
}
