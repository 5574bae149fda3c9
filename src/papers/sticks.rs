//! Long sticks on the cut list: short parts have no rough piece of their own.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::{Piece, Size};
use crate::parts::{Part, PartId};
use crate::plans::small_parts;

use super::Source;
use super::page::Block;

/// The rough size of a line of equal parts: `27-1/2 x 1-3/4`, or that of the stick they
/// are crosscut from.
pub(super) fn rough(source: &Source<'_, '_>, id: PartId, part: &Part) -> String {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    let size = |rough: Length, of: &Size| {
        format!("{}{}", figures.plain(rough), figures.mark(facts.is_measured(of)))
    };
    let wide = size(part.rough.width, &part.width);
    match source.work.sticks().of(id) {
        None => format!("{} x {wide}", size(part.rough.length, &part.length)),
        Some(stick) if stick.is_under(id) => {
            format!("stick {} x {wide}", figures.plain(stick.long))
        }
        Some(stick) => {
            let first = stick.parts.first().map_or("", |first| source.work.parts.mark(*first));
            format!("from the stick of {first}")
        }
    }
}

/// What must not go over a machine one by one, among the parts of one setting.
pub(super) fn cautions(source: &Source<'_, '_>, own: &[(PartId, &Part)]) -> Vec<Block> {
    let marks = |small: fn(&Piece, &Part) -> bool| {
        let own = own.iter().filter(|(_, part)| small(source.work.piece, part));
        own.map(|(_, part)| part.mark.as_str()).collect::<Vec<&str>>().join(" ")
    };
    let (short, narrow) = (marks(small_parts::is_short), marks(small_parts::is_narrow));
    let mut cautions = Vec::new();
    if !short.is_empty() {
        cautions.push(Block::Caution(format!("{short}: too short to plane, joint, or rip one by one. Saw the stick that the column of rough sizes has, plane and rip it as one, and crosscut it last.")));
    }
    for (set_ups, marks) in whole(source, own) {
        let told = match set_ups.as_slice() {
            [only] => format!("set-up {only} of the router-jig sheet is made in it"),
            many => format!("set-ups {} of the router-jig sheet are made in it", listed(many)),
        };
        cautions.push(Block::Caution(format!(
            "{marks}: leave each stick whole until {told}. So short a piece is not held safely beside a bit or a blade."
        )));
    }
    if !narrow.is_empty() {
        cautions.push(Block::Caution(format!("{narrow}: too narrow to rip by itself. Rip it off a wider board with a push block, so that the strip falls on the side of the blade away from the fence.")));
    }
    cautions
}

/// The marks of parts whose sticks stay whole until these set-ups are made, sticks of the same
/// set-ups together.
fn whole(source: &Source<'_, '_>, own: &[(PartId, &Part)]) -> Vec<(Vec<usize>, String)> {
    let mut found: Vec<(Vec<usize>, Vec<&str>)> = Vec::new();
    for (id, part) in own {
        let Some(stick) = source.work.sticks().of(*id) else { continue };
        let set_ups = source.work.set_ups_in(stick);
        if set_ups.is_empty() {
            continue;
        }
        match found.iter_mut().find(|(known, _)| *known == set_ups) {
            Some((_, marks)) => marks.push(&part.mark),
            None => found.push((set_ups, vec![&part.mark])),
        }
    }
    found.into_iter().map(|(set_ups, marks)| (set_ups, marks.join(" "))).collect()
}
