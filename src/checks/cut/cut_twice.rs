//! Two records of one part on one day.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::model::Cut;
use crate::parts::{Meant, Part};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-twice",
    severity: Severity::Warning,
    finds: "A part has two records of one day, by two of its names or in two `cut` blocks, and the first board is not marked as spoiled. A part that is sawn and then gets its joints on the same day is no finding.",
    why: "Only the last record counts. Either the part was cut twice and a board too many lies on the bench, or one of the records is meant for another part, which would be cut again.",
    source: "Our own rule.",
    formula: "",
    accept: "Accept it if you cut a second board on purpose, to have one to spare.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.kick { long 36; wide 4 } }\ncut 2026-03-14 { kick { long 36; wide 4 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let parts = work.parts;
    let mut last: Vec<Option<&Cut>> = vec![None; parts.all.len()];
    for (cut, meant) in work.piece.cuts.iter().zip(&parts.cuts) {
        let Meant::One(id) = meant else { continue };
        let (Some(known), Some(part)) = (last.get_mut(id.0), parts.get(*id)) else { continue };
        if let Some(first) = known.replace(cut).filter(|first| is_again(first, cut)) {
            tell(part, first, cut, sink);
        }
    }
}

/// True where both records are of a sound board, as far along in the one as in
/// the other: what is sawn in the morning is made in the afternoon.
fn is_again(first: &Cut, second: &Cut) -> bool {
    let goes_on = first.sawn.is_some() && second.sawn.is_none();
    first.date == second.date && first.spoiled.is_none() && second.spoiled.is_none() && !goes_on
}

fn tell(part: &Part, first: &Cut, second: &Cut, sink: &mut Sink) {
    let (at, before, after) = first.add;
    sink.push(
        RULE.finding(
            format!("{} is recorded twice on {}", part.path, second.date),
            second.name.span,
            "the second record, which counts",
        )
        .label(first.name.span, "the first record")
        .because("a second board of it lies on the bench, or another part is not recorded")
        .note("take out the record that is wrong, or give it the name of the part that was cut")
        .subject(&part.path)
        .fix(Fix::new(
            Grade::Choice,
            "the first board is spoiled",
            at,
            format!("{before}spoiled{after}"),
        )),
    );
}
