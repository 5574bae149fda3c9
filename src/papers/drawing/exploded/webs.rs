//! The web frames of a case exploded: each flat, one below the other.

use crate::parts::{Of, Part, Role, Which};

use super::{Body, Slant, drawn, gap, shift, spread_across};

/// True where the parts of the web frames would not stand clear of each other among the
/// other boards of a case: where it has several.
fn is_apart(parts: &[Part]) -> bool {
    let mut frames: Vec<Of> =
        parts.iter().filter(|own| own.role.is_of_web()).map(|own| own.of).collect();
    frames.sort_unstable();
    frames.dedup();
    frames.len() > 1
}

/// The parts of a case that its own view shows: all, or all but its web frames.
pub(super) fn without(parts: &[Part]) -> Vec<&Part> {
    let apart = is_apart(parts);
    parts.iter().filter(|part| !apart || !part.role.is_of_web()).collect()
}

/// The web frames of a case that has several; `None` for any other.
pub(in crate::papers) fn webs(parts: &[Part]) -> Option<String> {
    if !is_apart(parts) {
        return None;
    }
    drawn(|slant| apart(parts, slant), "exploded view of the web frames of a case")
}

fn apart(parts: &[Part], slant: Slant) -> Vec<Body<'_>> {
    let mut own: Vec<&Part> = parts.iter().filter(|part| part.role.is_of_web()).collect();
    // From the top down.
    own.sort_by_key(|part| (-part.placement.origin.y, part.of));
    let mut all: Vec<Body<'_>> = Vec::new();
    // A dust panel lies a little higher than its frame.
    let mut frames: Vec<Of> = Vec::new();
    for part in &own {
        if !frames.contains(&part.of) {
            frames.push(part.of);
        }
    }
    for of in frames {
        let is = |part: &&&Part, rail: Option<Which>| match rail {
            Some(which) => part.role == Role::WebRail && part.which == which,
            None => part.role != Role::WebRail,
        };
        let bodies = |rail: Option<Which>| -> Vec<Body<'_>> {
            let within = own.iter().filter(|part| part.of == of && is(part, rail));
            within.map(|part| Body::part(part)).collect()
        };
        let mut frame = bodies(None);
        let space = gap(&frame);
        spread_across(&mut frame, slant, space);
        for (which, is_back) in [(Which::Front, false), (Which::Back, true)] {
            let mut rail = bodies(Some(which));
            if let Some((rest, own)) = slant.extent(&frame).zip(slant.extent(&rail)) {
                let off = (rest.0.0 + rest.1.0 - own.0.0 - own.1.0) / 2.0;
                shift(&mut rail, (off, 0.0));
                slant.clear(&mut rail, &rest, space, is_back);
            }
            frame.append(&mut rail);
        }
        if let Some(rest) = slant.extent(&all) {
            slant.below(&mut frame, &rest, space * 2.0);
        }
        all.append(&mut frame);
    }
    all
}
