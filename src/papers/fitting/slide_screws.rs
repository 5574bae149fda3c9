//! The screws of drawer slides: how deep they may go into what carries them.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::Side;
use crate::parts::{Direction, Feature, FeatureKind};
use crate::plans::fitting::slides::Carrier;
use crate::plans::fitting::{Drawer, is_between_posts};
use crate::trade;

use super::super::Source;

/// The boards whose other faces are bored at the height of a slide, by their marks, and the
/// least wood before such a hole.
fn holes_behind<'a>(all: &[Drawer<'a>]) -> Option<(Vec<&'a str>, Length)> {
    let mut found: Vec<(&str, Length)> = Vec::new();
    for (drawer, carrier) in
        all.iter().flat_map(|drawer| drawer.carriers.iter().map(move |own| (drawer, own)))
    {
        let board = carrier.board;
        let far = board.placement.face(Direction::X, carrier.side == Side::Left);
        let (low, high) = (drawer.opening.y, drawer.opening.y + drawer.opening.high.length);
        let is_level = |own: &&Feature| {
            let hole = board.hollow(own, own.v);
            hole.from.y < high && low < hole.to.y
        };
        let holes = board.features.iter().filter(|own| {
            own.face == far && matches!(own.kind, FeatureKind::Bore(_)) && is_level(own)
        });
        let packer = carrier.packer.map_or(Length::ZERO, |own| own.part.thickness.length);
        if let Some(deep) = holes.map(|own| own.deep).max() {
            found.push((&board.mark, packer + board.thickness.length - deep));
        }
    }
    let least = found.iter().map(|(_, left)| *left).min()?;
    let mut marks: Vec<&str> = found.into_iter().map(|(mark, _)| mark).collect();
    marks.sort_unstable();
    marks.dedup();
    Some((marks, least))
}

/// How deep the screws of the slides may go, short of the far faces.
pub(super) fn told(source: &Source<'_, '_>, drawers: &[Drawer<'_>]) -> Vec<String> {
    let (figures, tape) = (&source.figures, source.work.piece.tape());
    let short = trade::short_of_face(tape.unit);
    let piece = source.work.piece;
    let deep = |carrier: &Carrier<'_>| {
        if let Some(cleat) = carrier.packer.filter(|own| is_between_posts(piece, own.part)) {
            return cleat.part.thickness.length - short;
        }
        let packer = carrier.packer.map_or(Length::ZERO, |own| own.part.thickness.length);
        packer + carrier.board.cuboid().size(Direction::X) - short
    };
    let boards = drawers.iter().flat_map(|drawer| &drawer.carriers).map(deep).min();
    let side = |drawer: &Drawer<'_>| {
        let boxes = piece.case(drawer.opening.case())?.drawers.as_ref()?;
        Some(piece.thickness(boxes.stock).length - short)
    };
    let beside = drawers.iter().filter(|drawer| !drawer.hardware.undermount);
    let sides = beside.filter_map(side).min();
    let told = |deep: Length, what: &str| format!("{} into {what}", figures.text(tape.down(deep)));
    let all: Vec<String> = [
        sides.map(|deep| told(deep, "the side of a box")),
        boards.map(|deep| told(deep, "what carries the slides")),
    ]
    .into_iter()
    .flatten()
    .collect();
    let behind = holes_behind(drawers).map(|(marks, deep)| {
        format!(
            "Holes are bored in the other face of {}: where a screw would meet one of these, it goes in no deeper than {}, or moves to another hole of the slide.",
            listed(&marks),
            figures.text(tape.down(deep - short))
        )
    });
    let deep = format!(
        "Use the screws that the sheet of the slides names; they go in no deeper than {}, or they come through.",
        listed(&all)
    );
    std::iter::once(deep).chain(behind).collect()
}
