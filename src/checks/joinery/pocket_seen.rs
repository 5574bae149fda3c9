//! Pocket holes in a face that is seen.

use std::cmp::Reverse;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{Case, Opening, Sight};
use crate::parts::{Direction, Feature, FeatureKind, Part, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pocket-seen",
    severity: Severity::Warning,
    finds: "The pocket holes of a partition show in a niche, or in a cupboard when its doors are open.",
    why: "A pocket is an oval hole two inches long. Behind drawers nobody sees it; in a niche everybody does.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it if you plug the holes in the same wood, or paint or line the face.",
    example: Example {
        base: Base::Console,
        sound: "stile { wide 1-1/2; partition { joint dado { deep 1/4 } } }",
        wrong: "stile { wide 1-1/2; partition { joint pocket } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for part in parts
        .all
        .iter()
        .filter(|part| matches!(part.role, Role::Partition | Role::FixedShelf | Role::Divider))
    {
        let Some(case) = piece.case(part.case) else { continue };
        let pockets = part.features.iter().filter(|f| matches!(f.kind, FeatureKind::Pockets(..)));
        let looked_at = pockets
            .flat_map(|hole| seen_from(part, hole, case).into_iter().map(move |o| (hole, o)))
            .filter(|(_, opening)| opening.sight() > Sight::Hidden);
        // Niches come before doors, and of two alike the one further left.
        let Some((pockets, opening)) = looked_at
            .min_by_key(|(_, opening)| (Reverse(opening.sight()), opening.x, Reverse(opening.y)))
        else {
            continue;
        };
        let how = if opening.sight() == Sight::Open { "in" } else { "behind the doors of" };
        sink.push(
            RULE.finding(format!("the pocket holes of {} show {how} {}", part.path, opening.path), pockets.span, "pocket screws")
                .label(part.span, "this board")
                .note("a dado hides the joint (`joint dado { deep 1/4 }`); you can also plug the pockets and accept this")
                .subject(&part.path),
        );
    }
}

/// The openings into whose room the holes at one end of a part look.
fn seen_from<'a>(part: &Part, pockets: &Feature, case: &'a Case) -> Vec<&'a Opening> {
    let space = part.hollow(pockets, pockets.v);
    let stretch = |direction| {
        let from = if direction == Direction::X { case.x } else { Length::ZERO };
        let (near, far) = (space.from.along(direction) - from, space.to.along(direction) - from);
        match part.placement.direction(pockets.face) == direction {
            true if pockets.face.is_start() => (near, near),
            true => (far, far),
            false => (near, far),
        }
    };
    case.beside(stretch(Direction::X), stretch(Direction::Y))
}
