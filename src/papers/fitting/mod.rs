//! The fitting sheet: where slides, shelf pins, hinges, and fronts go.

mod fronts;
mod hinges;
mod house;
mod on_wood;
mod pins;
mod rods;
mod screws;
mod slide_screws;
mod slides;
mod stops;

use crate::diagnostics::listed;
use crate::parts::Part;
use crate::plans::fitting::to_long_point;

pub(super) use house::into_studs;
pub(super) use rods::what as rail;
pub(super) use screws::{bought, fastened, purpose};
pub(super) use stops::kind as catch_kind;

use super::Source;
use super::page::{Block, Table, left, right};

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let (fitting, pin_rows) = (source.work.fitting(), source.work.pin_rows());
    let nothing = pin_rows.is_empty()
        && fitting.spacers.is_empty()
        && fitting.drawers.is_empty()
        && fitting.on_wood.is_empty()
        && fitting.hinges.is_empty()
        && fitting.rails.is_empty()
        && fitting.catches.is_empty()
        && fitting.stops.is_empty()
        && source.work.fastened().screws.is_empty();
    if nothing {
        return vec![Block::Note(
            "This piece has no drawers, doors, loose shelves, or screws.".into(),
        )];
    }
    let mut blocks = vec![Block::Note("Heights count from the edge or end that is named, and left and right are as seen from the front. The shims for the gaps are on the gap sheet. Where a figure comes from the sheet of your hardware, that sheet takes precedence.".into())];
    pins::blocks(source, pin_rows, &mut blocks);
    spacers(source, &mut blocks);
    slides::blocks(source, &fitting.drawers, &mut blocks);
    on_wood::blocks(source, &fitting.on_wood, &mut blocks);
    hinges::blocks(source, &fitting.hinges, &mut blocks);
    fronts::blocks(source, &fitting.fronts, &mut blocks);
    stops::blocks(source, (&fitting.stops, &fitting.catches), &mut blocks);
    rods::blocks(source, &fitting.rails, &mut blocks);
    screws::blocks(source, &source.work.fastened().screws, &mut blocks);
    house::blocks(source, &mut blocks);
    blocks
}

/// Says of mitered boards where their front edge is; empty where none is.
fn long_points<'a>(parts: impl Iterator<Item = &'a Part>) -> String {
    let mut marks: Vec<&str> =
        parts.filter(|part| to_long_point(part)).map(|part| part.mark.as_str()).collect();
    marks.sort_unstable();
    marks.dedup();
    match marks.is_empty() {
        true => String::new(),
        false => {
            format!(
                "; the front edge of {} is mitered, so count from its long point",
                listed(&marks)
            )
        }
    }
}

/// Blocks that keep equal openings equal.
fn spacers(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let spacers = &source.work.fitting().spacers;
    if spacers.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Spacer blocks for even openings".into()));
    blocks.push(Block::Note("Cut two blocks of each length from scrap, both at one stop, and where a rail or stile is as long, at its stop. Stand one at each end of the opening while you screw in the next member, and use the same two for every opening in the row.".into()));
    let mut table = Table {
        columns: vec![right("long").strong(), right("pcs"), left("for the openings")],
        ..Table::default()
    };
    for spacer in spacers {
        let openings: Vec<&str> = spacer.openings.iter().map(|opening| opening.title()).collect();
        table.rows.push(vec![
            source.figures.text(spacer.long),
            "2".to_owned(),
            openings.join(", "),
        ]);
    }
    blocks.push(Block::Table(table));
}
