//! Wall screws that bear too much.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::{Mass, Scale};
use crate::model::{Case, Hung};
use crate::plans::Workings;
use crate::plans::hung::Hangs;
use crate::trade;

use super::studs_few;

/// The most screws that go into one stud one above the other through a nailer.
const MOST: u32 = 4;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hung-load",
    severity: Severity::Warning,
    finds: "A full case that hangs loads its wall screws by more than a #8 screw bears in a stud of spruce.",
    why: "The screws bend and work their way out of the studs, and the case comes off the wall with all that is in it.",
    source: "Withdrawal and lateral load of wood screws: T. G. Hicks, Civil Engineering Formulas, equations 6.37 and 6.38 and Table 6.2. Loads on boards: ANSI/KCMA A161.1, or those of the spec.",
    formula: "Down on each screw: the whole weight over all screws. Out of each screw of the upper nailer: the weights times how far they hang from the wall, over the height of that nailer above the lower edge. Each over what a screw bears; the two shares may come to one.",
    accept: "Accept it if you hang it on larger screws, or on anchors with figures of their own.",
    example: Example {
        base: Base::Hung,
        sound: "hung { up 250 }",
        wrong: "hung { up 250; studs 2; screws 1 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // A sag is told by itself; what overlaps or can't be made weighs nothing true.
    if sink.has_errors() {
        return;
    }
    for hangs in work.hung() {
        let Some(case) = work.piece.case(hangs.case) else { continue };
        // Too few studs are told by themselves.
        let loaded = hangs.share() > 1.0 && hangs.studs >= studs_few::LEAST;
        let Some(hung) = case.hung.as_ref().filter(|_| loaded) else { continue };
        sink.push(finding(work, case, hung, hangs));
    }
}

fn finding(work: &Workings<'_>, case: &Case, hung: &Hung, hangs: &Hangs) -> Diagnostic {
    let scale = Scale::of(work.piece.tape());
    let told = |mass: Mass| scale.text(mass);
    let whole = Mass(hangs.own.0 + hangs.holds.0);
    let each = format!("{} down and {} out of the wall", told(hangs.down), told(hangs.out));
    let bears = format!("{} down or {} out", told(trade::screw_down()), told(trade::screw_out()));
    // The two shares fall as the screws grow in number.
    let more = (1..=MOST).find(|count| {
        let grown = f64::from(*count) / f64::from(hung.screws);
        hangs.share() <= grown
    });
    let found = RULE
        .finding(
            format!(
                "full, {} weighs {}: {each} on each of its screws, and one bears {bears}",
                case.name,
                told(whole)
            ),
            hung.span,
            format!("{} screws in {} studs", hangs.screws.1, hangs.studs),
        )
        .sum(Sum::told(
            "weighs",
            format!("{} itself + {} in it", told(hangs.own), told(hangs.holds)),
        ))
        .because("screws that bear more bend, and work their way out of the studs")
        .subject(&case.path);
    match more {
        Some(count) => {
            found.fix(hung.said_at[1].says(&format!("screws {count}"), "more screws in each stud"))
        }
        None => found.note("divide it into two cases, or let it stand on a base"),
    }
}
