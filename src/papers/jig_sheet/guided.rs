//! The guide of a set-up in words: where it stands, how it is moved, and which
//! other bits would do.

use crate::measure::{Exact, Length};
use crate::papers::Source;
use crate::plans::guide::{Guide, Guided};
use crate::plans::setups::Setup;

use super::sawn;

/// The guide and what it is set to: the large figure, what it is, and how the
/// router is led.
pub(super) fn guided(
    source: &Source<'_, '_>,
    setup: &Setup,
    guided: &Guided,
    rabbet: bool,
) -> (String, String, Vec<String>) {
    let datum = &setup.datum;
    let (what, place) = match guided.guide {
        Guide::Near => (
            format!("straight-edge, from the {datum}"),
            format!(
                "clamp the straight-edge between the {datum} and the cut, on the left of the router as you push it"
            ),
        ),
        Guide::Far => (
            format!("straight-edge, from the {datum}"),
            format!(
                "clamp the straight-edge on the far side of the cut from the {datum}, on the left of the router as you push it"
            ),
        ),
        Guide::Table => (
            "router-table fence, to the near side of the bit".to_owned(),
            format!(
                "on the router table, with the {datum} along the fence and the cut downward; the drawing looks at it from below, and its arrow is the way of the work"
            ),
        ),
        Guide::Saw => (
            "table-saw fence, or stop on the sled, to the near side of the teeth".to_owned(),
            sawn::place(source, setup),
        ),
    };
    let mut more = vec![place];
    more.extend(set_over(source, setup, guided, rabbet));
    if rabbet && guided.guide == Guide::Far {
        if guided.settings.len() == 1 {
            more.push(format!(
                "the straight-edge sets the width of this rabbet: start a hair nearer the {datum}, and move it until the mating part lies flush in the test cut"
            ));
        }
        more.extend(wider(source, setup));
    }
    (settings(source, setup, guided), what, more)
}

/// A length to the thousandth, for what no tape is true enough for.
pub(super) fn fine(source: &Source<'_, '_>, length: Length) -> String {
    let mark = source.figures.mark(length.is_measured());
    format!("{}{mark}", source.work.piece.tape().fine(length))
}

/// Which way the guide is moved from one setting to the next.
fn way(setup: &Setup, guide: Guide) -> String {
    match guide {
        Guide::Near => format!("toward the {}", setup.datum),
        Guide::Far => format!("away from the {}", setup.datum),
        Guide::Table | Guide::Saw => "away from the bit".to_owned(),
    }
}

/// How many times the guide is moved, and how far each time.
fn steps(source: &Source<'_, '_>, guided: &Guided) -> (usize, String) {
    let steps = guided.settings.len().saturating_sub(1);
    (steps, fine(source, guided.set_over / Exact::int(steps.max(1) as i64)))
}

/// Where the guide is set, in the order of the cuts.
pub(super) fn settings(source: &Source<'_, '_>, setup: &Setup, guided: &Guided) -> String {
    if guided.guide == Guide::Saw {
        return sawn::settings(source, guided);
    }
    let settings = &guided.settings;
    let exact = settings.iter().all(|set| !source.work.piece.tape().print(*set).is_rounded());
    let texts: Vec<String> = settings.iter().map(|set| source.figures.mating(*set)).collect();
    let way = way(setup, guided.guide);
    let (steps, each) = steps(source, guided);
    // What two settings are apart is the width of the joint: no tape is true
    // enough for it where a setting is rounded.
    match texts.as_slice() {
        [first, _] if !exact => format!("{first}, then {each} {way}"),
        [first, _, ..] if !exact => format!("{first}, then {steps} times {each} {way}"),
        _ => texts.join(", then "),
    }
}

/// In which order a channel wider than the bit is cut, and how far the guide is
/// moved; nothing where it stands at one place.
fn set_over(source: &Source<'_, '_>, setup: &Setup, guided: &Guided, rabbet: bool) -> Vec<String> {
    if guided.guide == Guide::Saw {
        return sawn::order(source, setup, guided);
    }
    if guided.settings.len() < 2 {
        return Vec::new();
    }
    let (datum, way) = (&setup.datum, way(setup, guided.guide));
    let order = match (guided.guide, rabbet) {
        (Guide::Near, _) => format!(
            "cut the wall farther from the {datum} first, then move the straight-edge {way}"
        ),
        (Guide::Far, true) => {
            format!("cut along the {datum} first, then move the straight-edge {way}")
        }
        (Guide::Far, false) => {
            format!("cut the wall nearer the {datum} first, then move the straight-edge {way}")
        }
        (Guide::Table | Guide::Saw, _) => {
            format!("make the cut nearer the fence first, then move the fence {way}")
        }
    };
    let over = match steps(source, guided) {
        (1, each) => format!("set-over {each}"),
        (steps, each) => {
            format!("set-over {} in {steps} steps of {each}", fine(source, guided.set_over))
        }
    };
    vec![
        format!(
            "the {} is wider than the bit: {order}; the other order is a climb cut",
            setup.kind.word_along(rabbet)
        ),
        format!(
            "{over}: take it from a gauge block or shims, and try the mating part in the test cut"
        ),
    ]
}

/// Which straight bits cut a rabbet at one setting.
fn wider(source: &Source<'_, '_>, setup: &Setup) -> Option<String> {
    let tape = source.work.piece.tape();
    let own = setup.other_bits(source.work.piece)?;
    Some(format!(
        "any other straight bit from {} to {} wide cuts this rabbet at one setting: stand the straight-edge at {} less half the width of that bit",
        tape.figure(own.least),
        tape.figure(own.most),
        source.figures.mating(own.wall)
    ))
}
