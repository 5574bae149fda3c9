//! A cover over a side that nobody sees.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Case, Covered, Exposure, Piece, Side, cover_told};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cover-hidden",
    severity: Severity::Error,
    finds: "A cover lies over an end that stands at a wall, beside another case, or behind a filler, or over the back of a piece that is fixed to the wall.",
    why: "There is no room for a hand to set it, nobody sees it, and the screws that fix the case to its neighbor would go through the panel.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Hutch,
        sound: "site { left open;",
        wrong: "site { left wall { scribe 1/4 };",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        for (covered, cover) in case.covers.all() {
            let meets = match covered {
                Covered::Left => meets(piece, case, Side::Left),
                Covered::Right => meets(piece, case, Side::Right),
                Covered::Back => {
                    piece.site.fixed.then(|| "the piece is fixed to the wall there".to_owned())
                }
                Covered::Under => None,
            };
            let Some(meets) = meets else { continue };
            sink.push(
                RULE.finding(
                    format!(
                        "nobody sees the {} of {}, because {meets}",
                        cover_told(covered),
                        case.name
                    ),
                    cover.span,
                    "this cover",
                )
                .label(case.span, "this case")
                .note("take the cover out")
                .subject(&case.path),
            );
        }
    }
}

/// What stands at a side of a case, where that is not free.
fn meets(piece: &Piece, case: &Case, side: Side) -> Option<String> {
    if let Exposure::Wall { .. } = side.of(&case.exposure) {
        return Some("a wall is there".to_owned());
    }
    if let Some(filler) = case.filler(side) {
        return Some(format!("the filler {} is there", filler.name));
    }
    let touches = |other: &&Case| match side {
        Side::Left => other.x + other.wide.length == case.x,
        Side::Right => case.x + case.wide.length == other.x,
    };
    let level = |other: &&Case| {
        other.base_high().length < case.high.length && case.base_high().length < other.high.length
    };
    let beside = piece.cases.iter().filter(touches).find(level)?;
    Some(format!("{} stands there", beside.name))
}
