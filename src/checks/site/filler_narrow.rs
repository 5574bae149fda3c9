//! A filler too narrow for the door beside it, or for its own batten.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::model::{Case, Filler, Opening, Piece, least_filler};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "filler-narrow",
    severity: Severity::Warning,
    finds: "A filler may be narrower than 1-1/2 in (38 mm) when all of its scribe has come off.",
    why: "A door beside a wall needs the room of a filler to open past square, and its pull must clear the wall or its casing.",
    source: "Common practice, no source.",
    formula: "The width of the filler, less the scribe of the wall.",
    accept: "Accept it where no door or drawer opens beside the filler, or where nothing stands out from the wall.",
    example: Example {
        base: Base::Run,
        sound: "left wall { scribe 12 }",
        wrong: "left wall { scribe 30 }",
    },
    check: Check::Piece(check),
    sometimes: Some((Severity::Error, "Less may be left of the filler than its batten is thick.")),
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        for filler in &case.fillers {
            one(piece, case, filler, sink);
        }
    }
}

fn one(piece: &Piece, case: &Case, filler: &Filler, sink: &mut Sink) {
    let tape = piece.tape();
    let (left, least) = (filler.least(), least_filler(tape.unit));
    let batten = piece.thickness(filler.side.of(&case.ends).stock).length;
    if left >= least {
        return;
    }
    let gone = left < batten;
    // Drawers come out straight, nothing moves in an open case, and a door that hangs at the
    // other side turns away.
    let turns_here = |opening: &Opening| {
        opening.leaves().iter().any(|leaf| opening.hung(*leaf) == Some(filler.side))
    };
    if !gone && !case.openings.iter().any(turns_here) {
        return;
    }
    let scribe = filler.scribe.clone().unwrap_or_default().length;
    let (name, told) = (&filler.name, tape.figure(left));
    let title = match gone {
        true => format!(
            "the filler {name} may be left {told} wide, and the batten behind it is {} thick",
            tape.figure(batten)
        ),
        false => format!("the filler {name} may be left only {told} wide"),
    };
    let label = format!("{} wide", tape.figure(filler.wide.length));
    let mut finding = RULE
        .finding(title, filler.span, label)
        .sum(
            Sum::new("left", left, tape)
                .plus(filler.wide.length, "filler", tape)
                .minus(scribe, "scribe", tape),
        )
        .because(match gone {
            true => "the batten would stand out past the filler into the wall",
            false => "a door beside it can't open past square, or its pull meets the wall",
        })
        .note(format!("leave {} beside a wall", tape.figure(least)))
        .subject(filler.path());
    if let Some(at) = filler.scribe.as_ref().and_then(|scribe| piece.facts.written(scribe)) {
        finding = finding.label(at, format!("{} may come off", tape.figure(scribe)));
    }
    if let Some(at) = &filler.wide_at {
        let wide = least + scribe;
        let text = format!("wide {}", tape.source(wide));
        finding = finding.fix(at.says(&text, format!("make it {} wide", tape.figure(wide))));
    }
    sink.push(if gone { RULE.at_times(finding) } else { finding });
}
