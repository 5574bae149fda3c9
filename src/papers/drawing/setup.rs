//! A set-up of the router, drawn to scale on its first piece.

use crate::papers::figures::Figures;
use crate::parts::{Direction, Face, Part};
use crate::plans::guide::Guide;
use crate::plans::setups::{CutLine, Run, Setup};

use super::svg::{Fill, Line, Svg};

/// The piece lying on the bench with the datum below: the cut, its distance
/// from the datum, and the straight-edge at each of its settings.
pub(in crate::papers) fn drawing(setup: &Setup, part: &Part, figures: &Figures) -> String {
    let (long, wide) = part.face_size(setup.face);
    let (run, across) = if setup.along { (long, wide) } else { (wide, long) };
    let (run, whole) = (run.to_mm_f64(), across.to_mm_f64());
    let guided = setup.guided.as_ref().filter(|guided| guided.guide != Guide::Table);
    let guides = guided.map_or(&[][..], |guided| guided.settings.as_slice());
    // A large board is drawn broken: only the corner at the datum matters.
    let cuts = setup.lines.iter().map(|line| line.from + line.wide);
    let reach = cuts
        .chain(guides.iter().copied())
        .map(crate::measure::Length::to_mm_f64)
        .fold(0.0, f64::max);
    let across = whole.min((reach * 1.3).max(70.0));
    let shown = run.min(across * 2.6);
    let mut svg = Svg::new(shown.max(across) * 1.2);
    let letter = shown.max(across) / 26.0;
    svg.rect((0.0, 0.0), (shown, across), Line::Wide, Fill::White);
    let slant = letter * 0.3;
    for offset in [0.0, letter * 0.5] {
        if shown < run {
            let x = shown - letter + offset;
            svg.line((x - slant, across + letter * 0.5), (x + slant, -letter * 0.5), Line::Narrow);
        }
        if across < whole {
            let y = letter - offset;
            svg.line((-letter * 0.5, y + slant), (shown + letter * 0.5, y - slant), Line::Narrow);
        }
    }
    let first = setup.runs.first();
    let mut stops = first.map(|run| run.stops).unwrap_or_default();
    let (mut left, mut right) = setup.face.ends_of_run(setup.along);
    if first.is_some_and(|run| is_turned(part, run, setup.along)) {
        stops = (stops.1, stops.0);
        (left, right) = (right, left);
    }
    let end = (run - stops.1.to_mm_f64()).min(shown);
    let start = stops.0.to_mm_f64().min(end);
    if stops != Default::default() {
        let middle = across / 2.0;
        svg.text((-letter * 0.6, middle), &part.face_name(left), letter * 0.8, true);
        if shown >= run {
            svg.text((shown + letter * 1.2, middle), &part.face_name(right), letter * 0.8, true);
        }
    }
    for CutLine { from, wide } in &setup.lines {
        let (from, wide) = (from.to_mm_f64(), wide.to_mm_f64());
        let y = across - from;
        svg.rect((start, y - wide), (end, y), Line::Narrow, Fill::Grey);
    }
    // The datum edge lies below.
    svg.line((-letter, across), (shown + letter, across), Line::Wide);
    svg.text((shown / 2.0, across + letter * 1.3), &setup.datum, letter, false);
    let high = letter * 0.95;
    for (step, at) in guides.iter().enumerate() {
        let y = across - at.to_mm_f64();
        svg.line((-letter * 0.8, y), (shown + letter * 0.8, y), Line::Beyond);
        let x = shown + letter * (2.2 + 2.0 * step as f64);
        svg.upright(across, y, x, &figures.text(*at), high);
    }
    if let Some(first) = setup.lines.first() {
        let from = first.from.to_mm_f64();
        if from > 0.0 {
            svg.upright(across, across - from, -letter * 1.6, &figures.text(first.from), high);
        }
        let top = across - from - first.wide.to_mm_f64();
        svg.upright(across - from, top, -letter * 3.6, &figures.text(first.wide), high);
    }
    svg.finish("the set-up, with the straight-edge as a line of long dashes")
}

/// True where the run of a cut goes from right to left for whoever looks at the
/// face with the datum toward them.
fn is_turned(part: &Part, run: &Run, along: bool) -> bool {
    let Some(feature) = run.features.first().and_then(|at| part.features.get(*at)) else {
        return false;
    };
    let datum = outward(part, part.channel(feature).datum);
    let toward = outward(part, run.face);
    let to = outward(part, run.face.ends_of_run(along).1);
    // Right of the looker, in a space whose z runs back: datum × face.
    let cross = |a: usize, b: usize| datum[a] * toward[b] - datum[b] * toward[a];
    let right = [cross(1, 2), cross(2, 0), cross(0, 1)];
    (0..3).map(|axis| right[axis] * to[axis]).sum::<i32>() < 0
}

/// Which way a face looks: a step along x, y or z.
fn outward(part: &Part, face: Face) -> [i32; 3] {
    let step = if face.is_start() { -1 } else { 1 };
    match part.placement.direction(face) {
        Direction::X => [step, 0, 0],
        Direction::Y => [0, step, 0],
        Direction::Z => [0, 0, step],
    }
}
