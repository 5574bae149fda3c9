//! Glue on a face that came with a finish.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::model::{Board, Case, JointKind};
use crate::parts::{Joint, JointSort, Part, meets_finish};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "glue-on-finish",
    severity: Severity::Error,
    finds: "A joint is glued to a face that comes with a finish on it, and nothing else holds it.",
    why: "Glue sticks to the finish and not to the wood, and the finish peels off with it. Screws hold by themselves, and a dado or rabbet is cut down to bare wood.",
    source: "Common practice, no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Chest,
        sound: "plywood 3/4; actual 23/32;",
        wrong: "plywood 3/4; actual 23/32; prefinished 2;",
    },
    check: Check::Parts(check),
    sometimes: Some((
        Severity::Warning,
        "It is a stop, guide, kicker, or runner of a drawer on wood: it is pinned, and its place is small enough to be scraped bare.",
    )),
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    if piece.stocks.iter().all(|stock| stock.prefinished.is_none()) {
        return;
    }
    let mut once = Once::default();
    for joint in parts.joints.iter().filter(|joint| joint.glued) {
        let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
            continue;
        };
        if meets_finish(piece, part, into).is_some() && once.is_first(&part.path) {
            let found = finding(work, joint, part, into);
            sink.push(match part.role.is_of_runs() {
                true => RULE.at_times(found),
                false => found,
            });
        }
    }
}

fn finding(work: &Workings<'_>, joint: &Joint, part: &Part, into: &Part) -> Diagnostic {
    let piece = work.piece;
    let of =
        |board: &&Part| piece.stock(board.stock).is_some_and(|stock| stock.prefinished.is_some());
    let board = [into, part].into_iter().find(of).unwrap_or(into);
    let case = piece.case(part.case);
    let own = case.and_then(|case| board_of(case, joint));
    let at = own.and_then(|own| own.joint.span).unwrap_or(joint.span);
    let word = match joint.sort {
        JointSort::Wood(kind) => kind.word(),
        _ => "glue",
    };
    let mut found = RULE
        .finding(
            format!(
                "{} is glued to {}, and the glue would hold on nothing but a finish",
                part.path, into.path
            ),
            at,
            format!("{word}, glued"),
        )
        .subject(&part.path);
    if let Some(stock) = piece.stock(board.stock)
        && let Some(faces) = stock.prefinished
    {
        found = found.label(faces.span, format!("{} comes with a finish", stock.name));
    }
    let plain = own.filter(|own| own.joint.diameter_span.is_none() && own.joint.span.is_some());
    match plain {
        Some(own) => {
            let at = own.joint.span.unwrap_or(own.span);
            found.fix(Fix::new(Grade::Choice, "screw it", at, "joint screw")).fix(Fix::new(
                Grade::Choice,
                "let it in, down to bare wood",
                at,
                "joint dado",
            ))
        }
        None => found.note("scrape the finish off down to bare wood where this is glued"),
    }
}

/// The board of a case that a joint belongs to, where its joint can be written.
fn board_of<'a>(case: &'a Case, joint: &Joint) -> Option<&'a Board> {
    let boards = [
        case.bottom.as_ref().map(|bottom| &bottom.board),
        case.top.as_ref().map(|top| &top.board),
        case.partitions.as_ref(),
    ];
    let glued = |own: &&Board| {
        own.span == joint.span && matches!(own.joint.kind, JointKind::Dowel | JointKind::Butt)
    };
    boards.into_iter().flatten().find(glued)
}
