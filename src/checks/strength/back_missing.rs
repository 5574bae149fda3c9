//! A case of whose back nothing is said.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{Piece, Stock};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "back-missing",
    severity: Severity::Warning,
    finds: "The spec says nothing of the back of a case.",
    why: "The back is what keeps a case square. Without it the case leans to a side, its doors and drawers go out of line, and nothing behind takes the screws that hold it to a wall. A line that is lost shows nowhere else.",
    source: "Common practice, no source.",
    formula: "",
    accept: "Write `back none` in the case that stays open behind, so that all papers show that it is meant.",
    example: Example {
        base: Base::First,
        sound: "  back { stock thin; joint rabbet { deep 3/8 } }\n",
        wrong: "",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        let Some(own) = case.back_at else { continue };
        let run = case.run.and_then(|run| piece.run(run));
        // What a run does not say is missing once for all its cases.
        let (at, place) = run.map_or((case.span, own), |run| (run.span, run.back_at));
        let mut found = RULE
            .finding(format!("{} has no back", case.path), at, "there is no `back` here")
            .because("nothing keeps it square, and its fronts go out of line")
            .subject(&case.path);
        if let Some(sheet) = piece.stocks.iter().find(|own| is_for_backs(own, piece)) {
            let edit = format!("back {{ stock {} }}", sheet.name);
            found = found.fix(place.says(&edit, format!("close it with {}", sheet.name)));
        }
        sink.push(found.fix(place.says("back none", "leave it open behind")));
    }
}

/// A sheet that backs are made of: 3/8 in, 10 mm at the most (common practice, no source).
fn is_for_backs(stock: &Stock, piece: &Piece) -> bool {
    let most = piece.tape().unit.either(Length::inches(3, 8), Length::mm(10));
    !stock.is_solid() && !stock.is_banding() && stock.nominal <= most
}
