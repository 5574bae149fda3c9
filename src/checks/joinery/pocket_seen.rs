//! Pocket holes in a face that is seen.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Length;
use crate::model::{Case, OpeningKind, Piece};
use crate::parts::{Direction, FeatureKind, Parts, Role};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pocket-seen",
    severity: Severity::Warning,
    finds: "A partition fixed with pocket screws whose pockets face a niche, or a cupboard that is seen into when its doors are open.",
    why: "A pocket is an oval hole two inches long. Behind drawers nobody sees it; in a niche everybody does.",
    source: "common practice, no source.",
    formula: "",
    accept: "The holes are plugged in the same wood, or the face is painted or lined.",
    example: Example {
        base: Base::Console,
        sound: "stile { wide 1-1/2; partition { joint dado { deep 1/4 } } }",
        wrong: "stile { wide 1-1/2; partition { joint pocket } }",
    },
    check: Check::Parts(check),
};

fn check(piece: &Piece, parts: &Parts, sink: &mut Sink) {
    for part in parts
        .all
        .iter()
        .filter(|part| matches!(part.role, Role::Partition | Role::FixedShelf | Role::Divider))
    {
        let Some(pockets) =
            part.features.iter().find(|f| matches!(f.kind, FeatureKind::Pockets(..)))
        else {
            continue;
        };
        let Some(case) = piece.cases.get(part.case) else { continue };
        let space = part.cuboid();
        let seen = if part.role == Role::Partition {
            let x = if pockets.face.is_start() {
                space.from.x - Length::mm(1)
            } else {
                space.to.x + Length::mm(1)
            };
            seen_from(case, x - case.x, None)
        } else {
            let middle = (space.from.x + space.to.x).half() - case.x;
            seen_from(case, middle, Some(space.from.along(Direction::Y) - Length::mm(1)))
        };
        let Some((path, how)) = seen else { continue };
        sink.push(
            Diagnostic::warning(RULE.slug, format!("the pocket holes of {} are seen {how} {path}", part.path), pockets.span, "pocket screws")
                .label(part.span, "this board")
                .note("a dado hides the joint: `joint dado { deep 1/4 }`; or plug the pockets and accept it")
                .subject(&part.path),
        );
    }
}

/// The opening that looks onto a place in the case, if it is ever open to the eye.
fn seen_from(case: &Case, x: Length, y: Option<Length>) -> Option<(&str, &'static str)> {
    case.openings.iter().filter(|o| o.is_leaf()).find_map(|o| {
        // A partition stands behind a stile: the opening beside it begins a little further on.
        let reach = Length::inches(3, 1);
        let covers = o.x - reach <= x
            && x <= o.x + o.wide.length + reach
            && y.is_none_or(|y| o.y <= y && y <= o.y + o.high.length);
        let beside = covers && nearest_beside(case, x) == Some(o.x);
        let how = match o.kind {
            OpeningKind::Open => "in",
            OpeningKind::Door(_) | OpeningKind::Doors => "behind the doors of",
            _ => return None,
        };
        (if y.is_some() { covers } else { beside }).then_some((o.path.as_str(), how))
    })
}

/// The left edge of the opening nearest to a place beside a partition.
fn nearest_beside(case: &Case, x: Length) -> Option<Length> {
    let distance = |o: &crate::model::Opening| {
        let (from, to) = (o.x, o.x + o.wide.length);
        if x < from {
            from - x
        } else if x > to {
            x - to
        } else {
            Length::ZERO
        }
    };
    case.openings.iter().filter(|o| o.is_leaf()).min_by_key(|o| distance(o)).map(|o| o.x)
}
