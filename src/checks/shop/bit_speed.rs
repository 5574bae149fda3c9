//! A router bit that is run faster than its size allows.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Length, Tape, Unit};
use crate::model::Bit;
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "bit-speed",
    severity: Severity::Warning,
    finds: "A router bit runs faster than the limit for its diameter. A bit in a used file counts only where the piece is cut with it.",
    why: "The rim of a wide bit runs faster than the rim of a narrow one. At too high a speed the bit burns the wood and itself, and it can bend its shank or throw a cutter.",
    source: "Common practice; several published charts agree: 24,000 rpm up to 1 in, 18,000 up to 2 in, 16,000 up to 2-1/2 in, and 12,000 above that.",
    formula: "The rim speed is π × diameter × rpm.",
    accept: "Accept it if the bit itself is marked with a higher limit. The bit's own limit takes precedence over the chart.",
    example: Example {
        base: Base::Console,
        sound: "shank 1/2; speed 16000",
        wrong: "shank 1/2; speed 26000",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let fast: Vec<(&Bit, u32)> = piece
        .bits
        .iter()
        .filter_map(|bit| bit.speed.map(|speed| (bit, speed)))
        .filter(|(bit, speed)| *speed > trade::speed_limit(bit.diameter))
        .collect();
    if fast.is_empty() {
        return;
    }
    let setups = work.setups();
    let cuts = |bit: &Bit| setups.iter().any(|s| s.cutter.name.as_ref() == Some(&bit.name));
    for (bit, speed) in fast {
        if !crate::checks::in_spec(bit.span) && !cuts(bit) {
            continue;
        }
        let tape = piece.tape();
        let limit = trade::speed_limit(bit.diameter);
        let at = bit.speed_span.unwrap_or(bit.span);
        let rim = |turns| rim(trade::rim_speed(bit.diameter, turns), tape);
        sink.push(
            RULE.finding(
                format!(
                    "{} runs at {speed} rpm, and the limit for a bit {} across is {limit} rpm",
                    bit.name,
                    tape.figure(bit.diameter)
                ),
                at,
                format!("{speed} rpm"),
            )
            .label(bit.span, format!("{} across", tape.figure(bit.diameter)))
            .because("at too high a speed a bit burns, and it can bend its shank or throw a cutter")
            .note(format!(
                "its rim runs {} at {speed} rpm and {} at {limit} rpm",
                rim(speed),
                rim(limit)
            ))
            .note("a limit marked on the bit takes precedence")
            .subject(&bit.name)
            .fix(Fix::new(
                Grade::Choice,
                format!("run it at {limit} rpm"),
                at,
                format!("speed {limit}"),
            )),
        );
    }
}

/// How far the rim runs: feet a minute, or metres a second.
fn rim(minute: Length, tape: &Tape) -> String {
    match tape.unit {
        Unit::Inch | Unit::Foot => format!("{} ft/min", minute.in_unit(Unit::Foot).round()),
        _ => format!("{} m/s", (minute.in_unit(Unit::Metre) / 60).round()),
    }
}
