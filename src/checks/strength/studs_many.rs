//! More studs behind a case than a wall has.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "studs-many",
    severity: Severity::Warning,
    finds: "A case that hangs is said to have so many studs behind it that they would stand less than 12 in (300 mm) apart.",
    why: "What each screw bears is worked out from the studs. Where half of them are not there, the others bear twice as much.",
    source: "Studs stand 16 or 24 in apart, 400 or 600 mm, and 12 in or 300 mm at the closest (a trade page on wall framing).",
    formula: "The width of the case over 12 in or 300 mm, rounded down, and one more.",
    accept: "Accept it if you found the studs, or hang the case on blocking or masonry.",
    example: Example {
        base: Base::Hung,
        sound: "hung { up 250 }",
        wrong: "hung { up 250; studs 14 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let closest = tape.unit.either(Length::inches(12, 1), Length::mm(300));
    for case in &piece.cases {
        let Some(hung) = &case.hung else { continue };
        let Some(studs) = hung.studs else { continue };
        let most = (case.wide.length / closest).floor() + 1;
        if i64::from(studs) <= most {
            continue;
        }
        sink.push(
            RULE.finding(
                format!(
                    "{studs} studs behind {}, which is {} wide, would stand less than {} apart",
                    case.name,
                    tape.figure(case.wide.length),
                    tape.figure_with_unit(closest)
                ),
                hung.span,
                "it hangs here",
            )
            .because("what each screw bears is worked out from the studs")
            .note(format!("no more than {most} are likely there; `studs` says how many you found"))
            .subject(&case.path),
        );
    }
}
