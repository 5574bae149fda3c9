//! A free-standing case that tips forward.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Figure, Severity, Sink, Sum, listed};
use crate::measure::{Moment, Scale};
use crate::model::Piece;
use crate::plans::Workings;
use crate::plans::tipping::{Pull, Tipping, What};

/// What the rule is called: the weights paper says what the spec accepts of it.
pub(crate) const SLUG: &str = "tips";

pub(in crate::checks) const RULE: Rule = Rule {
    slug: SLUG,
    severity: Severity::Warning,
    finds: "A case that is not fixed to the wall tips forward with every drawer out and full and every door open. It tips about the front edge of its base, toe kick, or ends.",
    why: "A case that tips over can kill. A child who climbs on an open drawer weighs more than everything counted here.",
    source: "Statics: moments about the front edge of the base, toe kick, or ends. Contents: 15 lb per square foot of drawer (ANSI/KCMA A161.1), or `load`. Densities: the Wood Handbook's gravities at 12 % moisture.",
    formula: "The case tips where Σ weight × distance in front of the edge exceeds Σ weight × distance behind it. Drawers are out by the length of their slides, and doors are open 90 degrees. The case itself is empty and stands alone, with its countertop on; hardware is not counted.",
    accept: "Accept it if something that the spec does not know about holds the case down. Standing between two walls makes a case no safer.",
    example: Example {
        base: Base::First,
        sound: "site { left open; right open; fixing wall; humidity 30% to 55% }",
        wrong: "site { left open; right open; humidity 30% to 55% }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    if piece.site.fixed {
        return;
    }
    let _weights = work.weights();
    for tipping in work.tipping() {
        if tipping.tips() {
            sink.extend(finding(piece, tipping));
        }
    }
}

fn finding(piece: &Piece, tipping: &Tipping) -> Option<Diagnostic> {
    let tape = piece.tape();
    let scale = Scale::of(tape);
    let names = tipping.cases.iter().filter_map(|id| piece.case(*id));
    let names: Vec<&str> = names.map(|case| case.name.as_str()).collect();
    let case = piece.case(*tipping.cases.first()?)?;
    let (tips, whose) = if names.len() == 1 { ("tips", "its") } else { ("tip", "their") };
    let them = if names.len() == 1 { "it" } else { "them" };
    let (holds, pulls) = tipping.moments();
    let mut diagnostic = RULE.finding(
        format!(
            "{} {tips} forward with {whose} {} open; {} pull {them} over, and only {} hold {them}",
            listed(&names),
            opened(tipping),
            scale.moments(&[pulls]).1,
            scale.moments(&[holds]).1
        ),
        case.span,
        "this stands free",
    );
    let base = case.base.as_ref().map(|base| base.span);
    let stands = base.or(case.on_legs.as_ref().map(|legs| legs.span));
    if let Some(stands) = stands {
        let back = format!("it stands on an edge {} behind its front", tape.figure(tipping.behind));
        diagnostic = diagnostic.label(stands, back);
    }
    for (head, side, pulls) in
        [("holds", "behind", &tipping.holds), ("pulls", "ahead of", &tipping.pulls)]
    {
        diagnostic = diagnostic.sum(sum(head, side, pulls, piece));
    }
    let diagnostic = diagnostic
        .sum(Sum::told("over by", scale.moment_over(pulls, holds)))
        .because("it falls on whoever opens it")
        .note("hardware and a child on an open drawer are not counted")
        .subject(&case.path);
    // What shows its back stands away from any wall.
    let is_free = piece.cases.iter().any(|case| case.covers.back.is_some());
    Some(match is_free {
        true => diagnostic.note("it stands free in the room: screw cleats to the floor and its base to those, and accept this with that as the reason"),
        false => diagnostic.fix(super::fix_to_wall(piece, case)),
    })
}

/// Every weight with its arm, as moments that add up.
fn sum(head: &str, side: &str, pulls: &[Pull], piece: &Piece) -> Sum {
    let tape = piece.tape();
    let scale = Scale::of(tape);
    let moments: Vec<Moment> = pulls.iter().map(|pull| pull.moment).collect();
    let (each, whole) = scale.moments(&moments);
    let terms = pulls.iter().zip(each);
    terms.fold(Sum::told(head, whole), |sum, (pull, moment)| {
        let name = format!(
            "{} ({}, {} {side} the edge)",
            name(pull.what),
            scale.text(pull.mass),
            tape.text(pull.arm.abs())
        );
        sum.and(Figure::told(moment), name)
    })
}

/// What is open.
fn opened(tipping: &Tipping) -> &'static str {
    let has = |find: fn(&What) -> bool| {
        tipping.pulls.iter().chain(&tipping.holds).any(|pull| find(&pull.what))
    };
    match (has(|w| matches!(w, What::Drawers(_))), has(|w| matches!(w, What::Doors(_)))) {
        (true, false) => "drawers",
        (false, true) => "doors",
        _ => "drawers and doors",
    }
}

fn name(what: What) -> String {
    let counted = |count, one: &str, many: &str| match count {
        1 => one.to_owned(),
        _ => format!("{count} {many}"),
    };
    match what {
        What::Case => "the empty case".to_owned(),
        What::Drawers(count) => counted(count, "drawer", "drawers"),
        What::Contents => "contents".to_owned(),
        What::Doors(count) => counted(count, "door", "doors"),
    }
}
