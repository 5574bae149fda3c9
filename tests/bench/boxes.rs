//! What of a drawer box is cut by its other boards: with the figures that the papers give
//! for it, each comes to the size that it has.

use super::board::Board;
use super::compare::Tolerance;
use super::figures::said;
use super::packet::{Packet, Work};

/// The boards that are not what they come to by the others of their box.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>]) -> Vec<String> {
    let mut wrong = Vec::new();
    for operation in &packet.operations {
        let Work::Measure(work) = &operation.work else { continue };
        let (by, of, own) = match work.what.as_str() {
            "length of the box front" => ("box-front", 0, 0),
            "length of the box side" => ("left-side", 0, 1),
            "height of the box side" => ("left-side", 1, 1),
            _ => continue,
        };
        let figure =
            |figure: &Option<super::packet::Figure>| figure.as_ref().map_or(0.0, |own| own.print);
        let less = figure(&work.less) - figure(&work.more);
        for mark in &work.parts {
            let part = boards.iter().find(|board| board.part.mark == *mark);
            let beside =
                part.and_then(|part| part.part.path.rsplit_once('.')).and_then(|(drawer, _)| {
                    let path = format!("{drawer}.{by}");
                    boards.iter().find(|board| board.part.path == path)
                });
            let (Some(part), Some(beside)) = (part, beside) else {
                wrong.push(format!("{mark} is cut by the {by} of its box, and there is none"));
                continue;
            };
            let comes = beside.size[of] - less;
            // Three figures are rounded, each by half a mark.
            if (comes - part.size[own]).abs() > 3.0 * Tolerance::of(packet).free {
                wrong.push(format!(
                    "{}: by the {by} it comes to {}, and it is {}",
                    part.name(),
                    said(comes),
                    said(part.size[own])
                ));
            }
        }
    }
    wrong
}
