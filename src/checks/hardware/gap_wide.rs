//! A reveal wider than anybody draws on purpose.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Length, Tape, Unit};
use crate::model::{Piece, Set};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "gap-wide",
    severity: Severity::Warning,
    finds: "The gap around an inset front, or between the two leaves of a pair, is more than 5/16 in (8 mm).",
    why: "Light and dust get through. The figure is usually in the wrong unit, such as `gap 3` in an inch job.",
    source: "Gaps as built are 1/16 to 1/8 in (common practice). The American Hardwood Information Center's summary of grades allows 1/32 to 3/32 in.",
    formula: "",
    accept: "Accept it if you want a shadow gap.",
    example: Example { base: Base::First, sound: "gap 3/32;", wrong: "gap 1/2;" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let most = trade::widest_gap(tape.unit);
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let Some(front) = &opening.front else { continue };
        let gap = (front.set == Set::Inset).then_some((&front.gap, front.gap_span, "gap"));
        // Where only the reveal is written, it holds between the leaves too.
        let own = opening.is_pair() && (gap.is_none() || front.meeting_span != front.gap_span);
        let meeting = own.then_some((&front.meeting, front.meeting_span, "meeting"));
        for (size, span, word) in gap.into_iter().chain(meeting) {
            let wide = size.length;
            if wide <= most {
                continue;
            }
            let what =
                if word == "gap" { "a gap around a front" } else { "a gap between two leaves" };
            let mut diagnostic = RULE
                .finding(
                    format!("{what} is {} wide and shows daylight", tape.figure_with_unit(wide)),
                    span,
                    tape.figure_with_unit(wide),
                )
                .label(opening.span, format!("around {}", opening.name()))
                .subject(&opening.path);
            // The same count in the other unit, where that is a reveal.
            let count = wide.in_unit(tape.unit);
            let other = match tape.unit {
                Unit::Millimetre => Unit::Inch,
                _ => Unit::Millimetre,
            };
            let meant = Length::new(count, other);
            if meant <= most && meant >= Length::mm(1) {
                let count = match other {
                    Unit::Millimetre => Tape::millimetres().exact(meant),
                    _ => count.to_string(),
                };
                diagnostic = diagnostic.fix(Fix::new(
                    Grade::Choice,
                    format!("{count} {}, if that is what you meant", other.name()),
                    span,
                    format!("{word} {count} {}", other.name()),
                ));
            }
            sink.push(diagnostic);
        }
    }
}
