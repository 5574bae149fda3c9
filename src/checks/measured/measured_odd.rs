//! A reading that can't well be right.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{Axis, Piece};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "measured-odd",
    severity: Severity::Warning,
    finds: "A reading does not agree with the others. Either an opening with those sides can't have those diagonals, or boards measure more than 1/16 in (1.6 mm) off what they were to be planed to. Diagonals that don't agree are ignored.",
    why: "The usual cause is a slip of a figure or the hook of the tape. Everything made after it would be off by as much.",
    source: "Pythagoras; each of the four readings may be off by as much as the tape. That a planer easily holds 1/16 in is common practice; no published source.",
    formula: "The mean of the two diagonals, compared with √(wide² + high²).",
    accept: "Accept it if you have measured again and the reading stands.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { diagonals { rising 39-1/2; falling 39-1/2 } } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let Some(odd) = opening.came_out.odd else { continue };
        let wide = opening.as_built(Axis::Across).length;
        let high = opening.as_built(Axis::Down).length;
        let square = trade::diagonal(wide, high);
        sink.push(
            RULE.finding(
                format!("an opening with the sides of {} can't have these diagonals", opening.path),
                odd.span,
                format!("{} and {}", tape.figure(odd.rising), tape.figure(odd.falling)),
            )
            .label(opening.span, format!("{} by {}", tape.figure(wide), tape.figure(high)))
            .working(
                "square",
                format!(
                    "√({}² + {}²) = {}",
                    tape.figure(wide),
                    tape.figure(high),
                    tape.text(square)
                ),
            )
            .note("measure both diagonals and both sides again")
            .subject(&opening.path),
        );
    }
    for stock in piece.stocks.iter().filter(|stock| stock.is_solid()) {
        let Some((written, span)) = stock.replaced else { continue };
        let measured = stock.thickness.length;
        let off = measured - written;
        if off.abs() <= Length::inches(1, 16) {
            continue;
        }
        let word = if off.is_positive() { "thicker" } else { "thinner" };
        let by = tape.figure(off.abs());
        sink.push(
            RULE.finding(format!("{} measures {by} {word} than its planed thickness", stock.name),
                stock.thickness_span,
                format!("measured {}", tape.figure(measured)),
            )
            .label(span, format!("to be planed to {}", tape.figure(written)))
            .sum(super::off_by(tape, measured, written, "written"))
            .note("measure again in several places; if the reading stands, write it as the `thickness`")
            .subject(&stock.name),
        );
    }
}
