//! A case that pipes and sockets leave no place for its upper wall screws.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, listed};
use crate::model::{KeepOut, RailSide};
use crate::plans::{Workings, wall};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "nailer-lost",
    severity: Severity::Error,
    finds: "A case is to be fixed to the wall, and what stands at the wall leaves no nailer under its top, or cuts away the back that takes the screws there.",
    why: "The upper screws keep the case from coming forward. Without a nailer the screws hold only in a thin back and pull through it, or the case tips.",
    source: "A naval training manual: mounting strips must be included in wall units. How short a nailer may be is common practice; no published source.",
    formula: "A nailer is divided around what stands in it. A stretch shorter than 6 in (150 mm) is left out.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "site { left open; right open; fixing wall; humidity 30% to 55% }",
        wrong: "site { left open; right open; fixing wall; humidity 30% to 55%; keep-out \"duct\" { from-left 3; up 29; wide 30; high 4; deep 2 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let (piece, parts) = (work.piece, work.parts);
    for case in piece.cases.iter().filter(|_| piece.site.fixed) {
        let behind = wall::behind(piece, parts, case);
        let bears = piece.nailers(case) > 0 || piece.has_stout_back(case);
        if !bears || behind.is_empty() || !wall::row(piece, parts, case, RailSide::Top).is_empty() {
            continue;
        }
        // Those that reach up to where a nailer stands, unless it stands lower than usual.
        let low = case.high.length - case.nailers.wide.length - case.nailers.clear.length;
        let mut at: Vec<&KeepOut> = behind.iter().map(|(_, own)| *own).collect();
        if at.iter().any(|own| low < own.up + own.high) {
            at.retain(|own| low < own.up + own.high);
        }
        let names: Vec<&str> = at.iter().map(|own| own.name.as_str()).collect();
        let names = listed(&names);
        let long = piece.tape().text(trade::shortest_nailer(piece.tape().unit));
        let found = RULE
            .finding(
                format!("{} has no board for its upper wall screws beside the {names}", case.name),
                case.span,
                "this case is fixed to the wall",
            )
            .because(format!("a nailer there would be shorter than {long}, which holds too little"))
            .note(format!(
                "stand the case where at least {long} of its width is free at the top, or make it wider there; measure what stands at the wall, and enter it no larger than it is"
            ))
            .subject(&case.path);
        sink.push(at.iter().fold(found, |all, own| all.label(own.span, "this stands at the wall")));
    }
}
