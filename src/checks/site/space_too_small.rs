//! An appliance that does not go into its place.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Piece, Space};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "space-too-small",
    severity: Severity::Error,
    finds: "A space in a run is narrower or lower than the appliance that it takes and what must stay clear beside it and above it.",
    why: "The appliance does not go in, or it can't get rid of its heat.",
    source: "Plane geometry, with the figures of the appliance's sheet.",
    formula: "Across: the appliance and twice what stays clear. Upright: the appliance and once what stays clear, against the height of the cases beside it.",
    accept: "",
    example: Example {
        base: Base::Run,
        sound: "space washer { takes { wide 600; high 850 }; clear 5 }",
        wrong: "space washer { wide 600; takes { wide 600; high 850 }; clear 5 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for (_, space) in piece.spaces() {
        if let Some([wide, high]) = &space.takes {
            narrow(piece, space, wide.length, sink);
            low(piece, space, high.length, sink);
        }
    }
}

fn narrow(piece: &Piece, space: &Space, takes: Length, sink: &mut Sink) {
    let tape = piece.tape();
    let (clear, has) = (space.clear.length, space.wide.length);
    let needs = takes + clear.twice();
    if has >= needs {
        return;
    }
    let title =
        format!("{} is {} too narrow for what it takes", space.name, tape.text(needs - has));
    let finding = RULE
        .finding(title, space.span, format!("{} wide", tape.figure(has)))
        .sum(
            Sum::new("needs", needs, tape)
                .plus(takes, "appliance", tape)
                .plus(clear, "clear", tape)
                .plus(clear, "clear", tape),
        )
        .sum(Sum::new("has", has, tape))
        .subject(&space.path);
    sink.push(match &space.wide_at {
        Some(at) => {
            let text = format!("wide {}", tape.source(needs));
            finding.fix(at.says(&text, format!("make it {} wide", tape.figure(needs))))
        }
        None => finding
            .note(format!("make what stands beside it {} narrower", tape.figure(needs - has))),
    });
}

fn low(piece: &Piece, space: &Space, takes: Length, sink: &mut Sink) {
    let tape = piece.tape();
    let (clear, has) = (space.clear.length, space.high.length);
    let needs = takes + clear;
    if has >= needs {
        return;
    }
    let title = format!("{} is {} too low for what it takes", space.name, tape.text(needs - has));
    let at = piece.facts.written(&space.high).unwrap_or(space.span);
    sink.push(
        RULE.finding(title, space.span, format!("takes {} high", tape.figure(takes)))
            .label(at, format!("{} high beside it", tape.figure(has)))
            .sum(
                Sum::new("needs", needs, tape)
                    .plus(takes, "appliance", tape)
                    .plus(clear, "clear", tape),
            )
            .sum(Sum::new("has", has, tape))
            .note(format!("make the cases beside it {} high", tape.figure(needs)))
            .subject(&space.path),
    );
}
