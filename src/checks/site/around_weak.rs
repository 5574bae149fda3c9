//! A board of which a cut around a pipe leaves too little.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::{Length, Unit};
use crate::parts::{Part, Role};
use crate::plans::Workings;

use super::rounds::{mend, rounds, severed, through};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "around-weak",
    severity: Severity::Error,
    finds: "A cut around a keep-out leaves too little of a part beside it.",
    why: "A narrow bridge breaks when the piece is carried, or the first time the drawer is full.",
    source: "Common practice; no published source.",
    formula: "Beside a cut 2 in (50 mm) of a board must stay; of a drawer box 3 in (75 mm) of its bottom, and 1-1/4 in (32 mm) of its sides and back.",
    accept: "",
    example: Example {
        base: Base::Console,
        sound: "  drawers {\n    stock  maple",
        wrong: "  around \"heating pipe\" { clear 12 }\n\n  drawers {\n    stock  maple",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// How much of a part must stay beside a cut.
fn least(part: &Part, unit: Unit) -> Length {
    match part.role {
        Role::DrawerBottom => unit.either(Length::inches(3, 1), Length::mm(75)),
        // Above the groove of the bottom there is wood on both sides of it.
        Role::DrawerSide | Role::DrawerFront | Role::DrawerBack => {
            unit.either(Length::inches(5, 4), Length::mm(32))
        }
        _ => unit.either(Length::inches(2, 1), Length::mm(50)),
    }
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for own in rounds(piece) {
        for part in &parts.all {
            let size = [part.length.length, part.width.length];
            let whole = size[1];
            let left = own.cuts(part).map(|cut| cut.v.0.max(whole - cut.v.1)).min();
            let least = least(part, tape.unit);
            // What was no wider before loses nothing that it had.
            let weak = left.filter(|left| *left < least && *left < whole);
            let Some(left) = weak.filter(|_| !severed(size, &through(part))) else { continue };
            sink.push(
                RULE.finding(
                    format!(
                        "cut around the {}, {} of the {} of {} is left; {} must stay",
                        own.keep_out.name,
                        tape.text(left),
                        tape.text(whole),
                        part.path,
                        tape.text(least)
                    ),
                    own.round.span,
                    "cut around here",
                )
                .label(part.span, "this part")
                .label(own.keep_out.span, "the keep-out")
                .sum(Sum::new("short by", least - left, tape))
                .because("the bridge that is left breaks")
                .note(mend(part))
                .subject(&part.path)
                .urgency((least - left) / Length::mm(1)),
            );
        }
    }
}
