//! Screws of two lines that would meet in the wood: the later line steps aside.

use crate::measure::{Length, Unit};
use crate::model::CaseId;
use crate::parts::Cuboid;

use super::screw_lines::ScrewLine;
use super::screws::{Fastening, Long};

/// Wood between two screws that cross: 1/8 in, 3 mm, and half of each of them (#8 is 4 mm
/// wide): common practice, no source.
fn around(unit: Unit) -> Length {
    unit.either(Length::inches(9, 64), Length::mm(7) / 2)
}

/// Moves the screws of each line that would meet those of one before it.
pub(super) fn keep_apart(found: &mut [Fastening<'_>], unit: Unit) {
    let mut driven: Vec<(CaseId, Cuboid)> = Vec::new();
    for own in found.iter_mut().filter(|own| !own.lines.is_empty()) {
        let case = own.part.case;
        driven.retain(|(of, _)| *of == case);
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
                driven.iter().any(|(_, other)| own.iter().any(|own| own.overlaps(other)))
            };
            if meets(line)
                && let Some(free) = line.others(unit).into_iter().find(|line| !meets(line))
            {
                *line = free;
            }
            driven.extend(screws(line).into_iter().map(|screw| (case, screw)));
        }
        own.count = count(&own.lines) + more;
    }
}
