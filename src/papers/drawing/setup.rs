//! A set-up of the router, drawn to scale on its first piece.

use crate::papers::figures::Figures;
use crate::parts::Part;
use crate::plans::setups::{CutLine, Setup};

use super::svg::{Fill, Line, Svg};

/// The piece lying on the bench with the edge that the fence runs on below,
/// the cut, and its distance from that edge.
pub(in crate::papers) fn drawing(setup: &Setup, part: &Part, figures: &Figures) -> String {
    let (long, wide) = part.face_size(setup.face);
    let (run, across) = if setup.along { (long, wide) } else { (wide, long) };
    let (run, across) = (run.to_mm_f64(), across.to_mm_f64());
    // A large board is drawn broken: only the corner at the datum matters.
    let reach = setup.lines.iter().map(|l| (l.from + l.wide).to_mm_f64()).fold(0.0, f64::max);
    let across = across.min((reach * 1.6).max(70.0));
    let shown = run.min(across * 2.6);
    let mut svg = Svg::new(shown.max(across) * 1.2);
    let letter = shown.max(across) / 26.0;
    svg.rect((0.0, 0.0), (shown, across), Line::Wide, Fill::White);
    if shown < run {
        for offset in [0.0, letter * 0.5] {
            let x = shown - letter + offset;
            svg.line(
                (x - letter * 0.3, across + letter * 0.5),
                (x + letter * 0.3, -letter * 0.5),
                Line::Narrow,
            );
        }
    }
    let stop = setup.runs.first().map_or(0.0, |run| run.stop.to_mm_f64());
    for CutLine { from, wide } in &setup.lines {
        let (from, wide) = (from.to_mm_f64(), wide.to_mm_f64());
        let start = stop.min(shown);
        let y = across - from;
        svg.rect((start, y - wide), (shown, y), Line::Narrow, Fill::Grey);
    }
    // The datum edge lies below.
    svg.line((-letter, across), (shown + letter, across), Line::Wide);
    svg.text((shown / 2.0, across + letter * 1.3), &setup.datum, letter, false);
    if let Some(first) = setup.lines.first() {
        let from = first.from.to_mm_f64();
        let high = letter * 0.95;
        if from > 0.0 {
            svg.upright(across, across - from, -letter * 1.6, &figures.text(first.from), high);
        }
        let top = across - from - first.wide.to_mm_f64();
        svg.upright(across - from, top, -letter * 3.6, &figures.text(first.wide), high);
    }
    svg.finish("the set-up, drawn to scale")
}
