//! A hinge that needs more gap than the reveal leaves.

use super::{door_stopped, swings};
use std::cell::LazyCell;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Tape};
use crate::model::{Piece, Set, Size};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hinge-gap",
    severity: Severity::Error,
    finds: "The hinge of a door needs a larger gap at the hinge side than the door has. For an inset door that gap is beside its stile. For an overlay door it is beside anything that stands as far forward, such as a wall or a case without fronts.",
    why: "A concealed hinge swings the door's edge toward what is beside it before the door comes out. If the gap is smaller than the hinge's least gap, the edge rubs or binds before the door is open.",
    source: "The hinge maker's own figure, as given in the spec.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "gap 1.5 mm;", wrong: "gap 3 mm;" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    inset(work.piece, sink);
    overlay(work, sink);
}

/// Beside the stile of its opening.
fn inset(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for (_, opening, fronts) in super::doors(piece) {
        let Some((hinge, span)) = fronts.hinge else { continue };
        let Some(hinge) = piece.hinge(hinge) else { continue };
        let (needs, leaves) = (hinge.gap.length, fronts.gap.length);
        if fronts.set != Set::Inset || needs <= leaves {
            continue;
        }
        let up = tape.up(needs);
        let diagnostic = RULE
            .finding(
                format!(
                    "{} needs a gap of {} at the hinge side, and the gap is {}",
                    hinge.name,
                    tape.figure(needs),
                    tape.figure(leaves)
                ),
                fronts.gap_span,
                tape.figure(leaves),
            )
            .label(hinge.gap_span, tape.figure(needs))
            .label(span, "hung on this hinge")
            .sum(short(tape, needs, leaves))
            .because("the door's hinge edge rubs on the stile before the door is open")
            .subject(&opening.path)
            .urgency((needs - leaves) / Length::mm(1));
        let edit = format!("gap {}", tape.source(up));
        sink.push(match swings::written(piece, &fronts.gap) {
            Some(span) => {
                let title = format!("make the gap {}", tape.figure(up));
                diagnostic.fix(Fix::new(Grade::Choice, title, span, edit))
            }
            None => diagnostic.note(format!("write `{edit}` here")),
        });
    }
}

fn short(tape: &Tape, needs: Length, leaves: Length) -> Sum {
    Sum::new("short by", needs - leaves, tape)
        .plus(needs, "needed", tape)
        .minus(leaves, "gap", tape)
}

/// Beside what stands as far forward as an overlay door: a wall, the side of a case
/// without fronts, another front.
fn overlay(work: &Workings<'_>, sink: &mut Sink) {
    let (piece, tape) = (work.piece, work.piece.tape());
    let fronts = work.fronts();
    let room = LazyCell::new(|| door_stopped::room(piece, work.parts, fronts));
    for door in &swings::doors(piece, fronts) {
        let (set, hung) = (&door.front.fronts.set, door.front.fronts.hinge);
        let Some((hinge, span)) = hung.filter(|_| *set != Set::Inset) else { continue };
        let Some(hinge) = piece.hinge(hinge) else { continue };
        let needs = hinge.gap.length;
        let beside = door_stopped::others(piece, door, &room).filter_map(|thing| {
            let leaves = door.to(&thing.space);
            let is_near = !leaves.is_negative() && leaves < needs;
            (is_near && door.is_beside(&thing.space)).then_some((leaves, thing))
        });
        let Some((leaves, thing)) = beside.min_by_key(|(leaves, _)| *leaves) else { continue };
        let found = RULE
            .finding(
                format!(
                    "{} needs a gap of {} at the hinge side, and {} is {} from {}",
                    hinge.name,
                    tape.figure(needs),
                    door.front.name(),
                    tape.figure(leaves),
                    thing.what
                ),
                door.front.opening.span,
                door.hung_told(),
            )
            .label(hinge.gap_span, tape.figure(needs))
            .label(span, "hung on this hinge")
            .label(thing.label.0, &*thing.label.1)
            .sum(short(tape, needs, leaves))
            .because("the door's hinge edge swings into it before the door is open")
            .note("make the gap larger, set what stands beside it farther back, or hang the door on a hinge that needs less")
            .subject(&door.front.opening.path)
            .urgency((needs - leaves) / Length::mm(1));
        sink.push(match wider(piece, &door.front.fronts.gap, leaves, needs) {
            Some(fix) => found.fix(fix),
            None => found,
        });
    }
}

/// The gap of the fronts that leaves enough beside them: there it is all of it, or half.
fn wider(piece: &Piece, gap: &Size, leaves: Length, needs: Length) -> Option<Fix> {
    let (tape, at) = (piece.tape(), swings::written(piece, gap)?);
    let wider = leaves.is_positive().then(|| tape.up(gap.length * (needs / leaves)))?;
    let title = format!("make the gap {}", tape.figure(wider));
    Some(Fix::new(Grade::Choice, title, at, format!("gap {}", tape.source(wider))))
}
