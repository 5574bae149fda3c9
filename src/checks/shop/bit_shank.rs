//! A router bit that is too large for its shank.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "bit-shank",
    severity: Severity::Warning,
    finds: "A router bit is wider than a shank of its diameter carries. A bit in a used file counts only where the piece is cut with it.",
    why: "A thin shank bends under a wide cutter. The bit chatters, cuts wider than its size, and can break off at the collet.",
    source: "Common practice, from bit makers' catalogs: up to 1 in (25 mm) on a shank of 1/4 in (6 mm), up to 1-3/8 in (35 mm) on one of 8 mm, wider only on 3/8 in (10 mm) and more.",
    formula: "",
    accept: "Accept it if you have the bit in your hand and its maker sells it so.",
    example: Example {
        base: Base::Console,
        sound: "bit round-nose-half { round-nose 1/2; shank 1/2; speed 16000 }",
        wrong: "bit round-nose-half { round-nose 1/2; shank 1/2; speed 16000 }\nbit wide { straight 1-1/4; shank 1/4; speed 16000 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    for bit in &piece.bits {
        let Some(shank) = bit.shank else { continue };
        let Some(most) = trade::widest_on_shank(shank).filter(|most| bit.diameter > *most) else {
            continue;
        };
        let cuts = || work.setups().iter().any(|it| it.cutter.name.as_ref() == Some(&bit.name));
        if !crate::checks::in_spec(bit.span) && !cuts() {
            continue;
        }
        let at = bit.shank_span.unwrap_or(bit.span);
        let told = |length| tape.hardware(length).unwrap_or_else(|| tape.figure_with_unit(length));
        let usual = trade::shank_for(bit.diameter, tape.unit);
        sink.push(
            RULE.finding(
                format!(
                    "{} is {} across, and a shank of {} carries {} at most",
                    bit.name,
                    told(bit.diameter),
                    told(shank),
                    told(most)
                ),
                at,
                format!("a shank of {}", told(shank)),
            )
            .label(bit.span, format!("{} across", told(bit.diameter)))
            .because("the shank bends, and it can break at the collet")
            .subject(&bit.name)
            .fix(Fix::new(
                Grade::Choice,
                format!("use one with a shank of {}", told(usual)),
                at,
                format!("shank {}", tape.source(usual)),
            )),
        );
    }
}
