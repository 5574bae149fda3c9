//! Rows of shelf pins that find no room in a post.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Case;
use crate::parts::{Direction, Part, Role};
use crate::plans::Workings;
use crate::plans::fitting::{PinRows, post_pins};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pins-off-post",
    severity: Severity::Error,
    finds: "A loose shelf between posts covers less of a post than the diameter of its pin holes.",
    why: "The shelf stands on one row of pins in each post. A pin that it does not cover carries nothing, and a hole that runs into the groove of the panel or into the screws of the back has no wood around it.",
    source: "Plane geometry. That 2 mm of wood stay beside a groove, and that the screws of a back go 5/8 in or 16 mm in, is common practice; no published source.",
    formula: "In a front post: from the front edge of the shelf to the back face of the post, or to 2 mm before the groove of the panel. In a back post: from its front face, or 2 mm behind that groove, to 2 mm before the screws of the back.",
    accept: "",
    example: Example {
        base: Base::Posts,
        sound: "set-back 1/4; panel-stock thin } }\n  bottom     { joint pocket }\n  back       { stock thin; joint rabbet { deep 3/8 } }\n  top        { stretchers 2 { wide 3 }; joint pocket }\n  countertop { stock cherry; over 1 }\n\n  frame {\n    stock  cherry\n    joint  tenon { long 1 }\n    rail top     { wide 1-1/2 }\n    rail bottom  { wide 1-1/2 }\n    across { open niche { share 1 } }",
        wrong: "panel-stock thin } }\n  bottom     { joint pocket }\n  back       { stock thin; joint rabbet { deep 3/8 } }\n  top        { stretchers 2 { wide 3 }; joint pocket }\n  countertop { stock cherry; over 1 }\n  shelves    { set-back 1/2 }\n\n  frame {\n    stock  cherry\n    joint  tenon { long 1 }\n    rail top     { wide 1-1/2 }\n    rail bottom  { wide 1-1/2 }\n    across { open niche { share 1; shelf { adjustable 1 } } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for rows in work.pin_rows() {
        let Some(case) = work.piece.case(rows.opening.case()) else { continue };
        let shelf = work.parts.all.iter().find(|part| {
            part.role == Role::AdjustableShelf && part.opening() == Some(rows.opening.id)
        });
        let Some(shelf) = shelf else { continue };
        let posts = rows.boards.iter().map(|board| board.part);
        let posts = posts.filter(|part| matches!(part.role, Role::Post(_)));
        let worst = posts
            .map(|post| (room(work, case, rows, (post, shelf)), post))
            .min_by_key(|((near, far), _)| *far - *near);
        let Some(((near, far), post)) = worst else { continue };
        if far - near < rows.pins.hole {
            sink.push(finding(work, case, rows, (post, shelf), (near, far)));
        }
    }
}

fn room(
    work: &Workings<'_>,
    case: &Case,
    rows: &PinRows<'_>,
    (post, shelf): (&Part, &Part),
) -> (Length, Length) {
    post_pins::under_shelf(post, shelf, rows.opening, (work.piece, case))
}

fn finding(
    work: &Workings<'_>,
    case: &Case,
    rows: &PinRows<'_>,
    (post, shelf): (&Part, &Part),
    (near, far): (Length, Length),
) -> Diagnostic {
    let tape = work.piece.tape();
    let hole = rows.pins.hole;
    let start = post.extent(Direction::Z).0;
    let span = rows.opening.shelves.as_ref().map_or(rows.opening.span, |set| set.span);
    let mut found = RULE
        .finding(
            format!("the pins of {} find no room in {}", rows.opening.path, post.path),
            span,
            format!("on pins {} across", tape.figure(hole)),
        )
        .because("a pin that the shelf does not cover carries nothing, and one in a groove holds nothing")
        .subject(&rows.opening.path);
    if let Some(posts) = &case.posts {
        found = found.label(posts.span, format!("{} deep", tape.figure(posts.deep.length)));
    }
    found = found.sum(
        Sum::new("room", far - near, tape)
            .plus(far - start, "where the usable wood ends", tape)
            .minus(near - start, "where it starts under the shelf", tape),
    );
    // The shelf may come forward, where its own front edge is what is too far back.
    let back = case.shelves.set_back.length;
    let most = tape.down(back - (hole - (far - near)));
    let is_shelf = near == shelf.extent(Direction::Z).0;
    if is_shelf && !most.is_negative() && back.is_positive() {
        let fix = case.shelves.set_back_at.says(
            &format!("set-back {}", tape.source(most)),
            format!("let the shelves stand back no more than {}", tape.figure(most)),
        );
        return found.fix(fix);
    }
    found.note("use deeper posts, narrower pins, or `fixed` shelves; with `set-back` in the ends their panels stand clear of the pins")
}
