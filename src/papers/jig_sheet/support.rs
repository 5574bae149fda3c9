//! The strips that carry the base of the router beside the work.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::papers::Source;
use crate::plans::setups::Setup;

/// A strip, by its side, its width, and the pieces that need it.
struct Strip {
    sides: Vec<String>,
    wide: Length,
    marks: Vec<String>,
}

/// What is clamped beside the pieces of a set-up.
pub(super) fn supports(source: &Source<'_, '_>, setup: &Setup) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut strips: Vec<Strip> = Vec::new();
    // Runs come part by part.
    for run in &setup.runs {
        let Some(part) = source.work.parts.get(run.part) else { continue };
        if all.last() != Some(&part.mark) {
            all.push(part.mark.clone());
        }
        for support in &run.supports {
            let side = part.face_name(support.side);
            let same = |strip: &&mut Strip| strip.wide == support.wide && strip.sides == [&*side];
            match strips.iter_mut().find(same) {
                Some(strip) if strip.marks.last() == Some(&part.mark) => {}
                Some(strip) => strip.marks.push(part.mark.clone()),
                None => strips.push(Strip {
                    sides: vec![side],
                    wide: support.wide,
                    marks: vec![part.mark.clone()],
                }),
            }
        }
    }
    // Strips of one width on the same pieces are told in one sentence.
    let mut told: Vec<Strip> = Vec::new();
    for strip in strips {
        let same = |own: &&mut Strip| own.wide == strip.wide && own.marks == strip.marks;
        match told.iter_mut().find(same) {
            Some(own) => own.sides.extend(strip.sides),
            None => told.push(strip),
        }
    }
    let mut lines: Vec<String> = told
        .iter()
        .enumerate()
        .map(|(number, strip)| {
            let sides: Vec<String> = strip.sides.iter().map(|side| format!("the {side}")).collect();
            let what = if sides.len() == 1 { "a support strip" } else { "support strips" };
            let on = match strip.marks == all {
                true => String::new(),
                false => format!("on {} ", listed(&strip.marks)),
            };
            let say = match number {
                0 => format!("the base hangs off the work: {on}"),
                _ => format!("{on}also "),
            };
            format!(
                "{say}clamp {what} of the same thickness along {}, at least {} wide",
                listed(&sides),
                source.figures.text(strip.wide)
            )
        })
        .collect();
    if !lines.is_empty() {
        lines.push(
            "make each support strip as long as the work and any strip beside it, and set its clamps clear of the base"
                .to_owned(),
        );
    }
    lines
}
