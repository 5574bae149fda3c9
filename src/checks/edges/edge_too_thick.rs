//! Strips that leave less than half of a board to its core.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::parts::{Face, Part};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "edge-too-thick",
    severity: Severity::Error,
    finds: "The strips on a board take more than half of its length or width, so that less than half is left for its core.",
    why: "What is left is no sheet with covered edges, but solid wood with a strip of sheet in it: joints, hinges, and slides that count on the sheet come to lie in the lip and on its glue line, and the lip moves as wood does.",
    source: "Common practice, no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "stock maple; set inset; build slab",
        wrong: "stock ply; edges maple { thick 1-1/4 }; set inset; build slab",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for part in work.parts.all.iter().filter(|part| !part.strips.is_empty()) {
        let [length, width] = part.core();
        for (whole, core, faces, word) in [
            (&part.length, length, [Face::LengthStart, Face::LengthEnd], "long"),
            (&part.width, width, [Face::WidthStart, Face::WidthEnd], "wide"),
        ] {
            if core.length.twice() < whole.length {
                look(work, part, (whole.length, core.length), faces, word, sink);
            }
        }
    }
}

fn look(
    work: &Workings<'_>,
    part: &Part,
    (whole, core): (Length, Length),
    faces: [Face; 2],
    word: &str,
    sink: &mut Sink,
) {
    let tape = work.piece.tape();
    let own: Vec<_> = part.strips.iter().filter(|strip| faces.contains(&strip.face)).collect();
    let Some(first) = own.first() else { return };
    let count = own.len() as i64;
    let thick = tape.text(first.thick.length);
    let asked = work
        .piece
        .case(part.case)
        .and_then(|case| crate::parts::asked_edging(work.piece, case, part));
    let at = asked.map_or(first.span, |edging| edging.thick_at);
    let left = if core.is_positive() { core } else { Length::ZERO };
    let mut found = RULE
        .finding(
            format!(
                "{} is {} {word}, and its strips leave {} of that for its core",
                part.path,
                tape.text(whole),
                tape.text(left)
            ),
            at,
            format!("{thick} on each edge"),
        )
        .sum(
            Sum::new(
                "core",
                tape.print(whole).shown - tape.print(first.thick.length).shown * count,
                tape,
            )
            .plus(tape.print(whole).shown, format!("{word} in all"), tape)
            .minus(
                tape.print(first.thick.length).shown * count,
                format!("{count} strips"),
                tape,
            ),
        )
        .subject(&part.path)
        .urgency((whole - core) / Length::mm(1));
    // The usual lip, where that leaves enough.
    let usual = tape.unit.either(Length::inches(1, 4), Length::mm(6));
    if !first.banding && (usual * count).twice() <= whole {
        let written = asked.is_some_and(|edging| edging.thick_at != edging.span);
        if written {
            let text = tape.source(usual);
            let title = format!("make the lips {} thick", tape.text(usual));
            found = found.fix(Fix::new(Grade::Choice, title, at, format!("thick {text}")));
        }
    } else {
        found = found
            .note("a board as small as this is better made of solid wood: name a stock of lumber");
    }
    sink.push(found);
}
