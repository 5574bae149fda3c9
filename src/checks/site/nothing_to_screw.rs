//! A case that is to be fixed to the wall, without a board that takes the screws.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "nothing-to-screw",
    severity: Severity::Error,
    finds: "The site says that the piece is fixed to the wall, and a case has neither a nailer nor a back that takes the screws.",
    why: "A screw through a thin back holds nothing: it pulls through, and the case comes down or tips.",
    source: "A naval training manual: mounting strips must be included in wall units. The least thickness of a back is common practice; no published source.",
    formula: "A back from 1/2 in (12 mm) up takes the screws; a thinner one needs a nailer.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "back { stock thin; joint rabbet { deep 3/8 } }",
        wrong: "back { stock thin; joint rabbet { deep 3/8 }; nailers none }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let bare = piece
        .cases
        .iter()
        .filter(|case| piece.site.fixed && piece.nailers(case) == 0 && !piece.has_stout_back(case));
    for case in bare {
        let title = match &case.back {
            Some(back) => format!(
                "{} is to be fixed to the wall, and the only board behind it is a back {} thick",
                case.name,
                tape.text(piece.thickness(back.stock).length)
            ),
            None => {
                format!("{} is to be fixed to the wall, and no board stands behind it", case.name)
            }
        };
        let mut found = RULE
            .finding(title, case.nailers.span, "no nailer")
            .because("the wall screws hold nothing")
            .subject(&case.path);
        if let Some(place) = &piece.site.fixed_at {
            found = found.label(place.span(), "the wall screws are asked for here");
        }
        if let Some(place) = &case.nailers.said_at {
            found = found.fix(match &case.hung {
                None => place.says("nailers 1", "a nailer under the top"),
                Some(_) => {
                    place.says("nailers 2", "a nailer under the top, and one above the bottom")
                }
            });
        }
        sink.push(found);
    }
}
