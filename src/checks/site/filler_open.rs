//! A filler at an end where no wall is.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{Case, Exposure, Filler, Piece};
use crate::vocabulary::Side;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "filler-open",
    severity: Severity::Warning,
    finds: "A filler stands at the end of a run, and no wall is there.",
    why: "A filler closes the gap at a wall and is scribed to it. At an open end it is a loose strip with a hollow behind it, and it gets no wood to scribe.",
    source: "Plane geometry.",
    formula: "",
    accept: "Accept it where something stands beside it that the spec does not know, such as a refrigerator or its panel.",
    example: Example { base: Base::Run, sound: "left wall { scribe 12 }", wrong: "left open" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        for filler in case.fillers.iter().filter(|filler| is_open(piece, case, filler)) {
            let side = filler.side.word();
            let mut found = RULE
                .finding(
                    format!("the filler {} closes nothing: no wall is at its {side}", filler.name),
                    filler.span,
                    "this filler",
                )
                .because("its free edge is seen, with a hollow behind it")
                .subject(filler.path());
            let usual = piece.tape().unit.either(Length::inches(1, 2), Length::mm(12));
            if let Some(places) = &piece.site.sides_at {
                let edit = format!("{side} wall {{ scribe {} }}", piece.tape().source(usual));
                found = found.fix(filler.side.of(places).says(&edit, "a wall is there"));
            }
            sink.push(found.note("leave it out where the end of the run is seen"));
        }
    }
}

/// True for a filler at the end of its run that meets nothing.
fn is_open(piece: &Piece, case: &Case, filler: &Filler) -> bool {
    let Some(run) = case.run.and_then(|run| piece.run(run)) else { return false };
    let wide = filler.wide.length;
    let is_last = match filler.side {
        Side::Left => case.x - wide == run.x,
        Side::Right => case.x + case.wide.length + wide == run.x + run.wide.length,
    };
    is_last && *filler.side.of(&run.exposure) == Exposure::Seen
}
