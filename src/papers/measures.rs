//! The drawn sizes of the openings that a step has its maker measure.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::plans::operations::{Doing, Measured};

use super::Source;

/// The line of a step, with openings of one size together; none where it measures
/// no opening.
pub(super) fn line(source: &Source<'_, '_>, task: usize) -> Option<String> {
    let mut sizes: Vec<([Length; 2], Vec<&str>)> = Vec::new();
    for operation in source.work.operations().of(task) {
        let Doing::Measure(own) = &operation.doing else { continue };
        let Measured::Opening(id) = own.what else { continue };
        let Some(opening) = source.work.piece.opening(id) else { continue };
        let size = [opening.wide.length, opening.high.length];
        match sizes.iter_mut().find(|(known, _)| *known == size) {
            Some((_, names)) => names.push(opening.title()),
            None => sizes.push((size, vec![opening.title()])),
        }
    }
    if sizes.is_empty() {
        return None;
    }
    let told = sizes.iter().map(|(size, names)| {
        let [wide, high] = size.map(|size| source.figures.text(size));
        format!("{wide} by {high} for {}", listed(names))
    });
    let told: Vec<String> = told.collect();
    Some(format!("the openings as drawn, wide by high: {}", told.join("; ")))
}
