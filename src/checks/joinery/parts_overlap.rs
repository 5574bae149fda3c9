//! Two boards in one place.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::parts::{Assembly, Part, clashes};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "parts-overlap",
    severity: Severity::Error,
    finds: "Two boards of a case take the same place, and neither is cut out for the other.",
    why: "One of them can't go in.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "stretchers 2 { wide 4 }",
        wrong: "stretchers 2 { wide 9 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// Fronts, and drawers in their openings, have rules of their own.
fn is_judged(part: &Part) -> bool {
    !matches!(part.assembly, Assembly::Front(_) | Assembly::DrawerBox(_))
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    // What another rule has said already may be why they overlap.
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    for clash in clashes(parts).0 {
        let (Some(one), Some(other)) = (parts.get(clash.one), parts.get(clash.other)) else {
            continue;
        };
        if !is_judged(one) || !is_judged(other) {
            continue;
        }
        let [wide, high, deep] = clash.by.map(|by| tape.text(by));
        let mut diagnostic = RULE
            .finding(
                format!("{} and {} take the same place", one.path, other.path),
                one.span,
                if one.span == other.span { "these boards" } else { "this board" },
            )
            .working("they share", format!("{wide} wide, {high} high, and {deep} deep"))
            .subject(&one.path);
        if one.span != other.span {
            diagnostic = diagnostic.label(other.span, "and this one");
        }
        sink.push(diagnostic);
        return;
    }
}
