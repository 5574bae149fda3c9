//! A dowel out of proportion to the wood that it stands in.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{JointKind, Piece};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "dowel-odd",
    severity: Severity::Warning,
    finds: "The dowels of a frame are thinner than a quarter of its stock or thicker than three fifths of it.",
    why: "A thin dowel snaps or lets the joint twist. A thick one leaves walls so thin that they split as the glue is driven down the hole.",
    source: "Common practice; no published source: a third to a half of the thickness.",
    formula: "",
    accept: "Accept a thin dowel that only keeps the parts in line.",
    example: Example {
        base: Base::First,
        sound: "stock maple; joint pocket\n",
        wrong: "stock maple; joint dowel { diameter 4.5 mm }\n",
    },
    check: Check::Piece(check),
    sometimes: Some((
        Severity::Error,
        "The dowel leaves less than 1/8 in (3 mm) of wood on a side, so that its hole can't be bored.",
    )),
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let least = trade::least_wall(tape.unit);
    for case in &piece.cases {
        let Some(frame) = case.frame.as_ref().filter(|it| it.joint.kind == JointKind::Dowel) else {
            continue;
        };
        let (Some(dowel), Some(stock)) = (frame.joint.diameter, piece.stock(frame.stock)) else {
            continue;
        };
        let thick = stock.thickness.length;
        let wall = (thick - dowel).half();
        let is_thin = dowel * 4 < thick;
        if !is_thin && dowel * 5 <= thick * 3 && wall >= least {
            continue;
        }
        let at = frame.joint.diameter_span.or(frame.joint.span).unwrap_or(frame.span);
        let title = format!(
            "a dowel {} thick stands in {} {} thick",
            tape.figure(dowel),
            stock.name,
            tape.figure(thick)
        );
        let mut found = RULE
            .finding(title, at, format!("{} thick", tape.figure(dowel)))
            .label(stock.thickness_span, format!("{} thick", tape.figure(thick)))
            .sum(
                Sum::new("both walls", thick - dowel, tape)
                    .plus(thick, "frame", tape)
                    .minus(dowel, "dowel", tape),
            )
            .because(match is_thin {
                true => "so thin a dowel snaps, or lets the joint twist",
                false => "the walls beside so thick a dowel split",
            })
            .subject(&case.path);
        if wall < least {
            found = RULE.at_times(found);
        }
        let sizes = match tape.unit.is_metric() {
            true => [6, 8, 10, 12].map(Length::mm),
            false => [2, 3, 4, 5].map(|eighths| Length::inches(eighths, 8)),
        };
        let fits = |size: &Length| *size * 3 >= thick && *size * 2 <= thick;
        let sold = sizes.into_iter().find(|size| fits(size) && (thick - *size).half() >= least);
        sink.push(match (sold, frame.joint.diameter_span) {
            (Some(sold), Some(span)) => found.fix(Fix::new(
                Grade::Choice,
                "a third to a half of the thickness",
                span,
                format!("diameter {}", tape.source(sold)),
            )),
            (Some(sold), None) => found.note(format!("`diameter {}` suits it", tape.source(sold))),
            (None, _) => found.note("no dowel that is sold suits it; choose another joint"),
        });
    }
}
