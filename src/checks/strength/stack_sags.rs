//! A case that stands between the uprights of what it stands on, and bends that.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::model::Piece;
use crate::plans::Workings;
use crate::plans::stacked::{Bends, Presses};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "stack-sags",
    severity: Severity::Warning,
    finds: "An end or a partition of a case stands between the uprights of the case below, and when it is full, the board there sags after years by more than the span over 144.",
    why: "Where a top bends under what stands on it, the case above leans and opens at its joints, and the doors below it jam.",
    source: "Sag: American Wood Council, Design Aid 6, simple beam, load at any point. Limit: Architectural Woodwork Standards, 1st ed., p. 279. Creep: common practice.",
    formula: "P a (L² − a²)^(3/2) / (9 √3 EI L), where a is the distance to the nearer upright below, and P the share of the full weight that comes down there: half the way to the next upright at each side. Of the board below only as much of its depth counts as the case stands on.",
    accept: "Accept it if something that the spec does not say carries the board there, or if the case is never filled.",
    example: Example { base: Base::Hutch, sound: "wide 36; deep 11", wrong: "wide 24; deep 11" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for own in work.presses() {
        if let Some(bends) = own.bends.as_ref().filter(|bends| bends.sag > bends.limit) {
            sink.extend(finding(work.piece, own, bends));
        }
    }
}

fn finding(piece: &Piece, own: &Presses<'_>, bends: &Bends<'_>) -> Option<Diagnostic> {
    let case = piece.case(own.case)?;
    let on = case.on.as_ref()?;
    let tape = piece.tape();
    let (sag, limit) = (tape.up(bends.sag), tape.down(bends.limit));
    Some(
        RULE.finding(
            format!(
                "{} sags {} under {} after years, and the limit is {}",
                bends.board.path,
                tape.figure(sag),
                case.name,
                tape.figure(limit)
            ),
            on.span,
            format!("{} stands between the uprights below", bends.upright.path),
        )
        .label(bends.board.span, format!("free over {}", tape.text(bends.span)))
        .sum(
            Sum::new("over by", sag - limit, tape)
                .plus(sag, "sag", tape)
                .minus(limit, "limit", tape),
        )
        .because("the case above leans, and what is below it jams")
        .note("let its ends stand over the ends or partitions below, or put a partition under them")
        .subject(&case.path),
    )
}
