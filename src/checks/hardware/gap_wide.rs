//! A reveal wider than anybody draws on purpose.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Exact, Length, Tape, Unit};
use crate::model::{Beyond, Edge, Piece, Set};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "gap-wide",
    severity: Severity::Warning,
    finds: "The gap around an inset front, between the two leaves of a pair, or between two overlay fronts with no board behind it, is more than 5/16 in (8 mm); or it is so wide that an overlay front ends short of the edge of its opening.",
    why: "Light and dust get through, and what is behind the fronts shows. The figure is usually in the wrong unit, such as `gap 3` in an inch job.",
    source: "Gaps as built are 1/16 to 1/8 in (common practice). The American Hardwood Information Center's summary of grades allows 1/32 to 3/32 in.",
    formula: "Over a board that it shares with another, a front reaches half of the board's thickness less half of the gap.",
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
            let is_written = tape.print(wide).shown == wide;
            if is_written && meant <= most && meant >= Length::mm(1) {
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
    overlaid(piece, sink);
}

/// Overlay fronts that a gap keeps from closing their openings.
fn overlaid(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let usual =
        tape.unit.either(Length::inches(3, 32), Length::new(Exact::ratio(5, 2), Unit::Millimetre));
    let all = piece.cases.iter().flat_map(|case| case.openings.iter().map(move |own| (case, own)));
    for (case, opening) in all {
        let Some(front) = opening.front.as_ref().filter(|front| front.set != Set::Inset) else {
            continue;
        };
        let gap = front.gap.length;
        let open = |edge: Edge| {
            let short = -opening.reach.of(edge).length;
            // Another front meets it there, or it lies between boards behind a door.
            let is_inset = match case.beyond(opening.id, edge) {
                Beyond::Opening(_) => true,
                Beyond::Member(_) | Beyond::Outside => short == gap,
            };
            match is_inset {
                true => (gap > trade::widest_gap(tape.unit)).then_some((gap, edge)),
                false => short.is_positive().then_some((short, edge)),
            }
        };
        let Some((wide, edge)) = Edge::ALL.into_iter().filter_map(open).max_by_key(|own| own.0)
        else {
            continue;
        };
        let at = match edge {
            Edge::Top => "above",
            Edge::Bottom => "below",
            Edge::Left => "left of",
            Edge::Right => "right of",
        };
        let mend = Fix::new(
            Grade::Choice,
            format!("{}, as most gaps are", tape.figure(usual)),
            front.gap_span,
            format!("gap {}", tape.source(usual)),
        );
        sink.push(
            RULE.finding(
                format!(
                    "{} of the opening stays open {at} the front of {}",
                    tape.figure_with_unit(wide),
                    opening.path
                ),
                front.gap_span,
                tape.figure_with_unit(gap),
            )
            .label(opening.span, format!("around {}", opening.name()))
            .because("light and dust get in there, and what is behind the front shows")
            .fix(mend)
            .subject(&opening.path)
            .urgency(wide / Length::mm(1)),
        );
    }
}
