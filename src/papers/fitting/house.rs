//! What is fixed by where the piece stands, and what else is taken there.

use crate::measure::Length;
use crate::model::Case;
use crate::plans::wall;
use crate::trade;

use super::super::Source;
use super::super::page::Block;

pub(super) fn blocks(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let lines: Vec<String> = wall_screws(source).into_iter().chain(shims(source)).collect();
    if !lines.is_empty() {
        blocks.push(Block::Heading("To take to the house besides".into()));
        blocks.extend(lines.into_iter().map(Block::Note));
    }
}

/// About how many screws go into the studs, and how long they are. How many studs there
/// are shows only there.
pub(in crate::papers) fn into_studs(source: &Source<'_, '_>) -> Option<(u32, Length)> {
    let (piece, parts) = (source.work.piece, source.work.parts);
    if !piece.site.fixed {
        return None;
    }
    let wall = wall::wall(piece, parts, |_| true);
    let at_studs = |case: &Case| {
        // At least one stud is behind what is fixed to them.
        wall::rows(parts, case) * piece.studs_behind(case).max(1) * wall.screws
    };
    let count: u32 = piece.cases.iter().map(at_studs).sum();
    Some((count, wall.screw(piece.tape().unit)))
}

/// The screws into the studs.
fn wall_screws(source: &Source<'_, '_>) -> Option<String> {
    let (piece, figures) = (source.work.piece, &source.figures);
    let (count, long) = into_studs(source)?;
    let wall = wall::wall(piece, source.work.parts, |_| true);
    Some(format!(
        "For the wall, about {count} cabinet screws of {}, {} long on wallboard of {}: {} go through each nailer, or a back that takes them, into each stud.",
        trade::wall_gauge(piece.tape().unit),
        figures.text(long),
        figures.text(wall.lining),
        wall.screws
    ))
}

fn shims(source: &Source<'_, '_>) -> Option<String> {
    let piece = source.work.piece;
    let floor = piece.cases.iter().any(|case| case.is_on_floor() && !piece.has_adjusters(case));
    let wall = piece.site.fixed;
    let what = match (floor, wall) {
        (true, true) => "to level it on the floor, and for behind the wall screws",
        (true, false) => "to level it on the floor",
        (false, true) => "for behind the wall screws",
        (false, false) => return None,
    };
    Some(format!("Shims {what}, and a saw or knife to cut them off."))
}
