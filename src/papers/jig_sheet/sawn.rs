//! Set-ups of the table saw in words: a plain blade, wall by wall.

use crate::papers::Source;
use crate::plans::guide::Guided;
use crate::plans::sawing::Tool;
use crate::plans::setups::{Run, Setup};
use crate::trade;

use super::guided::fine;

/// What is to be minded at the saw, before the first of its set-ups.
pub(super) const CAUTION: &str = "These cuts don't go through the board, so the guard has to come off for them. Keep the riving knife on and set below the top of the teeth, hold the board down with push blocks, and never put a hand over the blade or pass one behind it. Put the guard back on after the last of these cuts. Unplug the saw before you change its blade.";

/// How the blade of these settings is told in their heading.
pub(super) fn blade(source: &Source<'_, '_>, setup: &Setup) -> String {
    let kerf = source.work.piece.tape().figure(setup.cutter.diameter);
    format!("Table saw with a plain blade, kerf {kerf}")
}

/// What holds for all set-ups of the saw.
pub(super) fn note(source: &Source<'_, '_>, setup: &Setup) -> String {
    let kerf = source.work.piece.tape().figure(setup.cutter.diameter);
    format!(
        "Cut a kerf in scrap and caliper it first: these settings hold for a kerf of {kerf}, and for no other. Teeth that are ground flat leave a flat floor; others leave ridges, so level the floor with a router plane or a chisel. Each setting is the distance from the fence, or from the stop on the sled, to the near side of the teeth. Make the cut of one setting in all pieces before you move the fence."
    )
}

/// Which way the board lies over the blade.
pub(super) fn place(source: &Source<'_, '_>, setup: &Setup) -> String {
    format!(
        "lay the board on the saw with the {} down and its {} against the fence or the stop, and push it right over the blade",
        super::face(source, setup),
        setup.datum
    )
}

/// Where both walls are set; what lies between them is told further down.
pub(super) fn settings(source: &Source<'_, '_>, guided: &Guided) -> String {
    let walls = guided.settings.iter().take(2);
    let walls: Vec<String> = walls.map(|set| source.figures.mating(*set)).collect();
    walls.join(", then ")
}

/// In which order the channel is cut; nothing where one kerf is as wide as it is.
pub(super) fn order(source: &Source<'_, '_>, setup: &Setup, guided: &Guided) -> Vec<String> {
    let Some((_, between)) = guided.settings.split_at_checked(2) else { return Vec::new() };
    let datum = &setup.datum;
    let over = fine(source, guided.set_over);
    let short = source.figures.text(trade::shaving(source.work.piece.tape().unit));
    let mut lines = vec![
        format!(
            "cut the wall nearer the {datum} first, in every piece: it gives the mating part its place"
        ),
        format!(
            "then the other wall, {over} farther away: begin {short} nearer, and creep up on it in a test cut until the mating part itself slides in by hand; cut it in every piece"
        ),
    ];
    if let Some(first) = between.first() {
        let near = guided.settings.first().copied().unwrap_or_default();
        let step = fine(source, *first - near);
        lines.push(match between.len() {
            1 => format!("take out the wood between the walls with one more cut, {step} farther away than the first wall"),
            more => format!("take out the wood between the walls with {more} more cuts: set the fence or the stop back to the first wall, and move it {step} farther before each; each overlaps the cut before it by a quarter to a half of a kerf"),
        });
    }
    lines
}

/// What a piece is pushed along.
pub(super) fn push(run: &Run) -> &'static str {
    match run.push {
        Some(Tool::Fence) => "along the fence",
        Some(Tool::Sled) => "on the sled, against a stop",
        Some(Tool::Guide) | None => "",
    }
}
