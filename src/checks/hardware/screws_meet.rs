//! Screws through the blocks of a false front that find no place clear of others.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::{Length, Unit};
use crate::parts::Role;
use crate::plans::Workings;
use crate::plans::fitting::screw_room;

use super::has_false_fronts;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "screws-meet",
    severity: Severity::Warning,
    finds: "The screws that hold a block of a false front would meet those that go through it into the front, or those of a block on the other side of the same board: the block is too short for both.",
    why: "A drill that meets a screw is spoiled, and a screw that is driven into another breaks or pushes the block off its line.",
    source: "Plane geometry; 1/8 in (3 mm) of wood between two No. 8 (4 mm) screws is common practice, no source.",
    formula: "The screws of a block stand along its length, from 5/32 in (4 mm) and 1/8 in (3 mm) of wood to the next. The later line is moved by up to 1 in (25 mm), and takes fewer screws, before it is told.",
    accept: "Accept it if you glue the block and leave these screws out.",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }",
        wrong: "false upper { high 1; front { set overlay { by 3/8 } } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The opening whose blocks have room for all their screws, also where two of them are at
/// both sides of one board: 2-1/2 in, 65 mm.
fn enough(unit: Unit) -> Length {
    unit.either(Length::inches(5, 2), Length::mm(65))
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    if !has_false_fronts(work) {
        return;
    }
    let tape = work.piece.tape();
    for own in &work.fastened().meetings {
        if own.through.role != Role::HoldingBlock {
            continue;
        }
        let opening = own.through.opening().and_then(|id| work.piece.opening(id));
        let Some(opening) = opening else { continue };
        let [other, behind] = own.others;
        let (through, long) = (&own.through.path, own.through.length.length);
        sink.push(
            RULE.finding(
                format!(
                    "the screws through {through} into {} would meet those through {} into {}",
                    own.into.path, other.path, behind.path
                ),
                opening.span,
                format!("its block is {} long", tape.figure(long)),
            )
            .because(format!(
                "screws that cross want {} from middle to middle, and no such place is left",
                tape.figure(screw_room(tape.unit))
            ))
            .note(format!("make the opening {} high or more", tape.figure(enough(tape.unit))))
            .subject(through),
        );
    }
}
