//! A round hole that comes out on another board.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::parts::{Bore, Cuboid, Direction, Feature, Part, Role};
use crate::plans::Workings;

use super::bores;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hole-blocked",
    severity: Severity::Error,
    finds: "A round hole through a board comes out on another board, such as a stretcher, a nailer, or a shelf.",
    why: "Nothing passes through it. Bored on through the other board, it cuts what holds the case together.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "back { stock thin; joint rabbet { deep 3/8 } }",
        wrong: "back { stock thin; joint rabbet { deep 3/8 }; hole 2 { from-left 12; from-top 3 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let tape = work.piece.tape();
    for part in &work.parts.all {
        for (hole, _) in bores(part).filter(|(_, kind)| *kind == Bore::Round) {
            let Some(space) = part.hollows(hole).next() else { continue };
            let along = part.placement.direction(hole.face);
            let others = work.parts.all.iter().filter(|other| !std::ptr::eq(*other, part));
            let mut met = others.filter(|other| is_in_the_way(other, &space, along));
            let Some(other) = met.next() else { continue };
            sink.push(
                RULE.finding(
                    format!(
                        "a round hole {} across through {} comes out on {}",
                        tape.figure(hole.u.1 - hole.u.0),
                        part.path,
                        other.path
                    ),
                    hole.span,
                    "this hole",
                )
                .label(other.span, "this board is in the way")
                .because("nothing passes through it")
                .note("move the hole, or the board")
                .subject(&part.path),
            );
        }
    }
}

/// True for a board that a hole comes out on, unless it is open there itself. A loose
/// shelf is set elsewhere.
fn is_in_the_way(other: &Part, hole: &Cuboid, along: Direction) -> bool {
    if matches!(other.role, Role::AdjustableShelf) {
        return false;
    }
    let wood = other.cuboid();
    let across = Direction::ALL.into_iter().filter(|own| *own != along);
    let is_over = across.clone().all(|own| hole.overlaps_along(&wood, own));
    // What is let into the board is met by its joint.
    let touches = hole.overlap_along(&wood, along).is_zero();
    let is_open = |cut: &Feature| {
        other.hollows(cut).any(|open| {
            across.clone().all(|own| {
                open.from.along(own) <= hole.from.along(own)
                    && hole.to.along(own) <= open.to.along(own)
            })
        })
    };
    is_over && touches && !other.features.iter().any(is_open)
}
