//! A hanging rail that bends under its clothes.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rod-bends",
    severity: Severity::Warning,
    finds: "A hanging rail bends between two of its holds by more than the span over 144, under the clothes on it: 15 lb on each foot, or what the spec gives.",
    why: "Hangers slide to the middle of a bent rail, and its ends turn in their cups and work loose.",
    source: "Deflection: Wood Handbook (FPL-GTR-190), Table 9-1, a beam on two supports. Load, limit, and the wall of a steel tube, 0.04 in (1 mm): common practice.",
    formula: "5 W L³ / (384 EI), with I = π (D⁴ − d⁴) / 64 for a tube and π D⁴ / 64 for a pole.",
    accept: "Accept it if only a few things hang there.",
    example: Example {
        base: Base::Wardrobe,
        sound: "rod { hangs long }",
        wrong: "rod { hangs long; diameter 12 mm }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    for rail in &work.fitting().rails {
        let Some(sag) = rail.sag(piece) else { continue };
        let limit = trade::WRITTEN.over(rail.span());
        let over = sag - limit;
        if !over.is_positive() {
            continue;
        }
        let title = format!(
            "the rail of {} bends {} over {}, and {} is the most",
            rail.opening.path,
            tape.figure(tape.up(sag)),
            tape.figure(rail.span()),
            tape.figure(tape.down(limit))
        );
        sink.push(
            RULE.finding(title, rail.rod.span, "this rail")
                .sum(Sum::new("over by", tape.up(over), tape))
                .because("hangers slide to its middle, and its ends work loose in their cups")
                .note("take a thicker rail, or a tube of steel in place of a pole, or part the opening with a `divider`")
                .subject(&rail.opening.path)
                .urgency(over / Length::mm(1)),
        );
    }
}
