//! A shelf between posts that ends far before the panels of the ends.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::{Length, Unit};
use crate::parts::{Direction, Part, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "shelf-short",
    severity: Severity::Warning,
    finds: "A shelf between posts ends more than 1/2 in (12 mm) before the panel of an end.",
    why: "The shelf is as long as the space between the posts. Where the rails of the ends stand back from the inside faces of the posts, their panels do too, and what is set at the end of the shelf falls down there.",
    source: "Plane geometry. The 1/2 in (12 mm) is common practice; no published source.",
    formula: "From the end of the shelf to the panel: how far the rails of the ends stand back from the inside faces of the posts, plus how far the panel lies behind the face of the rail. Add half the play of a loose shelf, or subtract how deep a fixed one is let in.",
    accept: "Accept it if you close the gap with a strip between the posts, or if nothing small is kept there.",
    example: Example {
        base: Base::Posts,
        sound: "open niche { share 1 }",
        wrong: "open niche { share 1; shelf { adjustable 1 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The widest gap beside a shelf.
fn widest(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let tape = work.piece.tape();
    for case in &work.piece.cases {
        let Some(posts) = &case.posts else { continue };
        let parts = work.parts.of_case(case.id);
        let panels: Vec<&Part> =
            parts.iter().filter(|part| matches!(part.role, Role::EndPanel(_))).collect();
        let mut once = Once::default();
        let is_shelf = |part: &&Part| {
            let lies = part.placement.thickness == Direction::Y;
            lies && matches!(part.role, Role::AdjustableShelf | Role::FixedShelf | Role::Divider)
        };
        for shelf in parts.iter().filter(is_shelf) {
            let gaps = panels.iter().filter_map(|panel| gap(parts, shelf, panel));
            let Some((gap, clear)) = gaps.max() else { continue };
            if gap <= widest(tape.unit) || !once.is_first(shelf.span) {
                continue;
            }
            let found = RULE.finding(
                format!("{} ends {} short of the panel of an end", shelf.path, tape.text(gap)),
                shelf.span,
                "as long as the space between the posts",
            );
            let mut sum = Sum::new("gap", gap, tape).plus(
                gap - clear,
                "from the inside face of the post to the panel",
                tape,
            );
            if clear.is_positive() {
                sum = sum.plus(clear, "play of the shelf", tape);
            }
            if clear.is_negative() {
                sum = sum.minus(-clear, "let into the post", tape);
            }
            sink.push(
                found
                    .label(posts.ends.span, "the panels stand back here")
                    .because("what is set at the end of the shelf falls down there")
                    .subject(&shelf.path)
                    .sum(sum)
                    .note("take `set-back` out of the ends: then their rails are flush with the inside faces of the posts")
                    .note("drawers on wood need the set-back: there you can close the gap with a strip between the posts, and accept this"),
            );
        }
    }
}

/// From the end of a shelf to a panel that no other upright board parts it from, and how much
/// of that is before the inside face of the posts.
fn gap(parts: &[Part], shelf: &Part, panel: &Part) -> Option<(Length, Length)> {
    let (own, end) = (shelf.cuboid(), panel.cuboid());
    let posts = parts.iter().filter(|part| matches!(part.role, Role::Post(_)));
    let is_left = end.to.x <= own.from.x;
    // It may be let into them.
    let all = posts.map(Part::cuboid);
    let face = match is_left {
        true => all.filter(|post| post.from.x < own.from.x).map(|post| post.to.x).min(),
        false => all.filter(|post| own.to.x < post.to.x).map(|post| post.from.x).max(),
    }?;
    // A partition stands between, where the shelf ends elsewhere.
    let is_parted = parts.iter().any(|part| {
        let space = part.cuboid();
        part.role == Role::Partition
            && space.from.y < own.to.y
            && own.from.y < space.to.y
            && match is_left {
                true => end.to.x <= space.from.x && space.to.x <= own.from.x,
                false => own.to.x <= space.from.x && space.to.x <= end.from.x,
            }
    });
    (!is_parted).then(|| match is_left {
        true => (own.from.x - end.to.x, own.from.x - face),
        false => (end.from.x - own.to.x, face - own.to.x),
    })
}
