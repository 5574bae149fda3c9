//! A web frame whose rails and runners would be sawn from a sheet.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{Piece, Stock};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "web-of-sheet",
    severity: Severity::Warning,
    finds: "The rails and runners of a web frame are sawn from a sheet, which is mostly the stock of the case where none is named for the frame.",
    why: "The stub tenons and the grooves of the frame lie in the edges of plies, which hold glue badly and split when a full drawer runs on them.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it if you have built such frames of this sheet and they hold.",
    example: Example {
        base: Base::Chest,
        sound: "shelf { stock maple; build web { panel-stock thin } }",
        wrong: "shelf { build web { panel-stock thin } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for member in piece.cases.iter().flat_map(|case| &case.members) {
        let Some(board) = member.lying_board() else { continue };
        let Some(web) = board.web.as_deref() else { continue };
        let Some(sheet) = piece.stock(board.stock).filter(|own| !own.is_solid()) else { continue };
        let title = format!("the web frame of {} would be sawn from {}", member.path, sheet.name);
        let found = RULE
            .finding(title, web.span, "this frame")
            .label(sheet.thickness_span, "a sheet")
            .because("its tenons and grooves would lie in the edges of plies")
            .subject(&member.path);
        sink.push(match nearest(piece, sheet.thickness.length) {
            Some(wood) => found.fix(web.stock_at.says(
                &format!("stock {}", wood.name),
                format!("make it of {}, which is solid", wood.name),
            )),
            None => found.note("define a `stock` of lumber, and name it where the frame is built"),
        });
    }
}

/// The solid wood of the spec that is nearest to that thickness.
fn nearest(piece: &Piece, thick: Length) -> Option<&Stock> {
    let solid = piece.stocks.iter().filter(|own| own.is_solid());
    solid.min_by_key(|own| (own.thickness.length - thick).abs())
}
