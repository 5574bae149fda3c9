//! Drawer fronts onto their boxes.

use crate::diagnostics::listed;
use crate::model::Set;
use crate::plans::fitting::fronts::ScrewLength;
use crate::plans::fitting::{OntoBox, Purpose};

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::super::words;

pub(super) fn blocks(source: &Source<'_, '_>, all: &[OntoBox<'_>], blocks: &mut Vec<Block>) {
    if all.is_empty() {
        return;
    }
    let figures = &source.figures;
    blocks.push(Block::Heading("Drawer fronts onto their boxes".into()));
    let now = match all.iter().any(|front| front.held_by() > 0) {
        true => {
            "The screws through the pull holes hold the front for now; they are thinner than those holes, so that the front can be shifted under their washers. "
        }
        false => "",
    };
    blocks.push(Block::Note(format!("{now}The screws from inside the box stay, on their lines of the layout sheet; the table has their lengths. The pilot hole goes no deeper into the front than the table says, and the last figure is the wood that it leaves.")));
    let mut table = Table {
        columns: vec![
            left("front").strong(),
            left("piece"),
            right("thick"),
            right("box front"),
            left("for now"),
            left("to stay").strong(),
            right("pilot").strong(),
            right("wood left"),
        ],
        ..Table::default()
    };
    for front in all {
        let hold = match (front.held_by(), front.pull_holes, front.into_box) {
            (0, 0, _) => "no pull holes".to_owned(),
            (0, _, 0) => "pull beside the box".to_owned(),
            (0, ..) => "pull holes too narrow".to_owned(),
            (count, ..) => format!("{count} × {}", long(source, &front.hold)),
        };
        table.rows.push(vec![
            front.front.mark.clone(),
            words::name(front.front, source.work.piece),
            figures.text(front.thick),
            figures.text(front.box_front),
            hold,
            format!("{} × {}", front.staying(), long(source, &front.stay)),
            figures.text(front.pilot()),
            figures.text(front.wood_left()),
        ]);
    }
    if all.iter().any(|front| front.fluted.is_positive()) {
        table.foot = "on a fluted front, the wood left counts to the bottom of a flute".to_owned();
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Table(steps(source, all)));
}

/// `1-1/8`, or `1-1/16 to 1-3/32` where none between is sold.
fn long(source: &Source<'_, '_>, screw: &ScrewLength) -> String {
    let figures = &source.figures;
    match screw.sold {
        Some(sold) => figures.text(sold),
        None if screw.most < screw.least => "none that fits".to_owned(),
        None => format!("{} to {}", figures.text(screw.least), figures.text(screw.most)),
    }
}

/// How wide the holes in the box fronts are, where a front moves.
fn wide_hole(source: &Source<'_, '_>) -> Option<String> {
    let hole = source.work.fastened().hole(Purpose::Fronts)?;
    Some(source.figures.hardware(hole))
}

fn steps(source: &Source<'_, '_>, all: &[OntoBox<'_>]) -> Table {
    let bored = all.iter().any(|front| front.pull_holes > 0);
    let into_box = all.iter().any(|front| front.into_box > 0);
    let marks = |is_it: fn(&OntoBox<'_>) -> bool| -> Vec<&str> {
        all.iter().filter(|own| is_it(own)).map(|own| &*own.front.mark).collect()
    };
    let bare = marks(|front| front.held_by() == 0);
    let pulls = bare.len() < all.len();
    // Some of the holes of an upright pull may go past the box.
    let past = marks(|front| front.pull_holes > front.into_box);
    let fluted = all.iter().any(|front| front.fluted.is_positive());
    let inset = all
        .iter()
        .any(|front| front.opening.front.as_ref().is_some_and(|fronts| fronts.set == Set::Inset));
    let (size, place) = match inset {
        true => (
            "plane the front to its opening",
            "put the box in, closed all the way, and stand the front on its bottom and side shims",
        ),
        false => (
            "bring the front to its size",
            "put the box in, closed all the way, and stand the front on a straight strip that is clamped below it, so that it lies over its edges by the figures of the gap sheet",
        ),
    };
    let mut lines = vec![size.to_owned(), place.to_owned()];
    let on_wood = &source.work.fitting().on_wood;
    let bumps = |front: &&OntoBox<'_>| {
        let own = on_wood.iter().find(|own| own.opening.id == front.opening.id);
        own.is_some_and(|own| own.stopped.is_none())
    };
    let unstopped: Vec<&str> = all.iter().filter(bumps).map(|own| own.opening.title()).collect();
    if !unstopped.is_empty() {
        lines.push(format!(
            "nothing stops the box of {}: block it from behind where its front end is flush with the back of the front",
            listed(&unstopped)
        ));
    }
    if bored {
        lines.insert(
            1,
            "bore the pull holes through the front only, from its face, with scrap behind it"
                .to_owned(),
        );
    }
    if pulls {
        let land = match fluted {
            true => "; where a pull is between flutes, each washer must sit on a land",
            false => "",
        };
        let turns = match all.iter().any(|front| front.held_by() == 1) {
            true => {
                "; one screw lets a front turn, so put double-sided tape on the front of the box before you stand the front on its shims"
            }
            false => "",
        };
        lines.push(format!(
            "drive pan-head screws with washers through the pull holes into the box{land}{turns}"
        ));
    }
    if bare.len() == all.len() {
        lines.push("hold the front to its box with double-faced tape or clamps".to_owned());
    } else if !bare.is_empty() {
        lines.push(format!(
            "no screw goes through a pull hole of {} into the box: hold it with double-faced tape or clamps",
            listed(&bare)
        ));
    }
    let stop = "a stop on the bit, as far from its point as the box front is thick and the pilot deep, keeps it from coming through the face";
    lines.push(match wide_hole(source) {
        Some(wide) => format!("slide the drawer out, and from inside the box bore the holes of the screws that stay through the box front, {wide} wide, on their lines of the layout sheet: a front of solid wood moves across its grain under their heads; then bore a pilot hole in the middle of each and drive the screws; {stop}"),
        None => format!("slide the drawer out, and bore and drive the screws that stay from inside the box, on their lines of the layout sheet; {stop}"),
    });
    let out = if pulls { "take out the screws in the pull holes, " } else { "" };
    if into_box {
        lines.push(format!("{out}bore on through the box front from the face, and fit the pull"));
    }
    if !past.is_empty() {
        lines.push(format!(
            "the pull holes of {} clear the box: there the screws of the pull go through the front alone; drive them from behind the front",
            listed(&past)
        ));
    }
    let mut table = Table { columns: vec![right("step"), left("what")], ..Table::default() };
    for (number, line) in (1..).zip(lines) {
        table.rows.push(vec![number.to_string(), line]);
    }
    table
}
