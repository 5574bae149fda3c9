//! A drawer stop that a nailer behind it shuts in.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::RailSide;
use crate::parts::{Direction, Part, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "stop-shut-in",
    severity: Severity::Error,
    finds: "A nailer stands behind the place of a drawer stop, at its height.",
    why: "A stop is pushed against the front of the box from behind, under the drawer that stands in its place; a nailer leaves no way for it, nor for the hand.",
    source: "Plane geometry, and the order of the work.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Chest,
        sound: "back     { stock thin; joint rabbet { deep 3/8 } }",
        wrong: "back     { stock thin; joint rabbet { deep 3/8 }; nailers 2 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    for case in &piece.cases {
        let own = work.parts.of_case(case.id);
        let stops = |nailer: &Part| {
            let space = nailer.cuboid();
            own.iter().find(|part| {
                let stop = part.cuboid();
                part.role == Role::Stop
                    && [Direction::X, Direction::Y]
                        .iter()
                        .all(|axis| space.overlap_along(&stop, *axis).is_positive())
            })
        };
        let nailers = own.iter().filter_map(|part| match part.role {
            Role::Nailer(edge) => Some((edge, part)),
            _ => None,
        });
        for (edge, nailer) in nailers {
            let Some(stop) = stops(nailer) else { continue };
            let opening = stop.opening().and_then(|id| piece.opening(id));
            let path = opening.map_or(case.name.as_str(), |opening| &opening.path);
            let mut found = RULE
                .finding(
                    format!("{} shuts in the stops of {path}", nailer.path),
                    case.nailers.span,
                    "this nailer",
                )
                .because("a stop is pushed to its place from behind")
                .subject(path);
            if let Some(opening) = opening {
                found = found.label(opening.span, "its stops are behind this front");
            }
            found = match (edge, &case.nailers.said_at) {
                (RailSide::Bottom, Some(place)) => {
                    found.fix(place.says("nailers 1", "a nailer under the top only"))
                }
                (RailSide::Bottom, None) | (RailSide::Top, _) => found.note(
                    "let the drawers run on slides, or take a back that takes the wall screws itself, 1/2 in or 12 mm thick, with `nailers none`",
                ),
            };
            sink.push(found);
        }
    }
}
