//! A pocket screw that does not suit the thickness.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Length, Span, Unit};
use crate::model::{Joinery, JointKind, Piece, StockId};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pocket-screw-through",
    severity: Severity::Error,
    finds: "A pocket screw is so long that its point comes through, or the stock is too thin for any pocket screw.",
    why: "The screw leaves the pocket near the middle of the thickness and runs on at a slant. One size too long, and it breaks out of the face that is seen.",
    source: "Common practice: the usual chart of pocket screws by thickness (1/2 in: 1; 5/8: 1-1/8; 3/4: 1-1/4; 7/8 and 1: 1-1/2; 1-1/4: 2; 1-1/2: 2-1/2).",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "top { stretchers 2 { wide 4 }; joint pocket }",
        wrong: "top { stretchers 2 { wide 4 }; joint pocket { screw 2 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

/// How much longer than usual a screw may be: charts differ by an eighth.
fn slack() -> Length {
    Length::inches(1, 4)
}

/// True where a screw of this length is told of here.
pub(super) fn is_too_long(screw: Option<Length>, thick: Length, unit: Unit) -> bool {
    let usual = trade::pocket_screw(thick, unit);
    usual.zip(screw).is_some_and(|(usual, screw)| screw > usual + slack())
}

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        let boards = [
            case.top.as_ref().map(|top| (&top.board, "top")),
            case.bottom.as_ref().map(|bottom| (&bottom.board, "bottom")),
            case.partitions.as_ref().map(|board| (board, "partitions")),
        ];
        for (board, what) in boards.into_iter().flatten() {
            joint(
                piece,
                &board.joint,
                board.stock,
                board.span,
                &format!("{}.{what}", case.path),
                sink,
            );
        }
        if let Some(frame) = &case.frame {
            joint(
                piece,
                &frame.joint,
                frame.stock,
                frame.span,
                &format!("{}.frame", case.path),
                sink,
            );
        }
    }
}

fn joint(
    piece: &Piece,
    joint: &Joinery,
    stock: StockId,
    span: Span,
    subject: &str,
    sink: &mut Sink,
) {
    if joint.kind != JointKind::Pocket {
        return;
    }
    let tape = piece.tape();
    let thick = piece.thickness(stock).length;
    let at = joint.span.unwrap_or(span);
    let thickness_span = piece.stock(stock).map_or(span, |stock| stock.thickness_span);
    match (trade::pocket_screw(thick, tape.unit), joint.screw) {
        (None, _) => sink.push(
            RULE.finding(
                format!("pocket screws don't work in stock {} thick", tape.figure(thick)),
                at,
                "pocket screws",
            )
            .label(thickness_span, tape.figure(thick))
            .note("they need stock from 1/2 to 1-3/4 in thick; choose another joint")
            .subject(subject),
        ),
        (Some(usual), Some(screw)) if screw > usual + slack() => sink.push(
            RULE.finding(
                format!(
                    "a {} pocket screw comes through {} stock",
                    tape.figure_with_unit(screw),
                    tape.figure(thick)
                ),
                joint.screw_span.unwrap_or(at),
                format!("{} long", tape.figure(screw)),
            )
            .label(thickness_span, tape.figure(thick))
            .because(format!(
                "the usual screw for this thickness is {}",
                tape.figure_with_unit(usual)
            ))
            .subject(subject)
            .fix(Fix::new(
                Grade::Choice,
                "use the usual screw",
                joint.screw_span.unwrap_or(at),
                format!("screw {}", tape.source(usual)),
            )),
        ),
        _ => {}
    }
}
