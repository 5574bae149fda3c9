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
                Covered::Back => piece
                    .site
                    .fixed
                    .then(|| Meets::All("the piece is fixed to the wall there".to_owned())),
                Covered::Under => None,
            };
            let Some(meets) = meets else { continue };
            let (cover_of, name) = (cover_told(covered), &case.name);
            let (title, note) = match meets {
                Meets::All(what) => (
                    format!("nobody sees the {cover_of} of {name}, because {what}"),
                    "take the cover out".to_owned(),
                ),
                Meets::Part(beside, side) => (
                    format!("the {cover_of} of {name} lies where {beside} is screwed to its end"),
                    format!(
                        "part of that end is seen: take the cover out, and give the end a stock that may be seen, as in `end {} {{ stock … }}`",
                        side.word()
                    ),
                ),
            };
            let found = RULE.finding(title, cover.span, "this cover").label(case.span, "this case");
            sink.push(found.note(note).subject(&case.path));
        }
    }
}

/// What stands at a side of a case.
enum Meets<'p> {
    /// It hides the whole of it.
    All(String),
    /// This case hides part of it.
    Part(&'p str, Side),
}

/// What stands at a side of a case, where that is not free.
fn meets<'p>(piece: &'p Piece, case: &'p Case, side: Side) -> Option<Meets<'p>> {
    if let Exposure::Wall { .. } = side.of(&case.exposure) {
        return Some(Meets::All("a wall is there".to_owned()));
    }
    if let Some(filler) = case.filler(side) {
        return Some(Meets::All(format!("the filler {} is there", filler.name)));
    }
    let own = (case.base_high().length, case.high.length);
    if let Some(beside) = piece.hides(case, side, own) {
        return Some(Meets::All(format!("{} stands there", beside.name)));
    }
    let level = |other: &&Case| other.base_high().length < own.1 && own.0 < other.high.length;
    let beside = piece.touching(case, side).find(level)?;
    Some(Meets::Part(&beside.name, side))
}
