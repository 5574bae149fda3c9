//! A framed front so low that its rails lie in each other.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Build, Opening, OpeningId, PanelBuild, Piece, RailAt, Size};
use crate::parts::{Assembly, Role, Which};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rails-meet",
    severity: Severity::Error,
    finds: "A frame-and-panel front is no higher than its top rail and its bottom rail together, or one of its mid rails lies in another rail or leaves less than 1/4 in (6 mm) beside it, or its two stiles leave less than 1/4 in (6 mm) of a panel to be seen.",
    why: "The two rails would lie in each other, and there is no room for a panel between them. It is usually one low drawer among doors that are built the same way.",
    source: "Plane geometry. The 1/4 in is common practice; no published source.",
    formula: "The height between each rail and the next, and the width of the front less its two stiles.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "set inset; build slab",
        wrong: "set inset; build panel { stile 2-1/4; rail 2-1/2; panel-stock thin; groove 3/8 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let (mut seen, mut narrow) = (BTreeSet::new(), BTreeSet::new());
    let mut mids = BTreeSet::new();
    for rail in parts.all.iter() {
        let Assembly::Front(front) = rail.assembly else { continue };
        if (rail.role, rail.which) != (Role::FrontRail, Which::Top) {
            continue;
        }
        let Some(opening) = piece.opening(front.opening) else { continue };
        let Some(fronts) = &opening.front else { continue };
        let Build::Panel(build) = &fronts.build else { continue };
        let wide = rail.length.length - build.tenon.length.twice();
        // One that is all tenon is another rule's.
        let shown = wide.is_positive() && wide < trade::least_panel(tape.unit);
        if shown && narrow.insert(front.opening) {
            sink.push(
                RULE.finding(
                    format!(
                        "the two stiles of the front of {} leave {} for a panel",
                        opening.path,
                        tape.text(wide)
                    ),
                    build.span,
                    format!("stiles {} wide", tape.figure(build.stile.length)),
                )
                .label(opening.span, "too narrow for them")
                .because("what is left is no panel that can be made or held")
                .note("give this opening a front of one board with `front { build slab }`, make it wider, or use narrower stiles")
                .subject(&opening.path),
            );
        }
        let stile = parts
            .of_case(rail.case)
            .iter()
            .find(|part| part.assembly == rail.assembly && part.role == Role::FrontStile);
        let Some(height) = stile.map(|stile| &stile.length) else { continue };
        let high = height.length;
        if !build.mids.is_empty() {
            between(piece, opening, (build, height), &mut mids, sink);
            continue;
        }
        let rails = build.rail.length + build.bottom.length;
        let left = high - rails;
        // What the tape shows as nothing is no panel either. Two leaves are one
        // finding.
        if tape.print(left).shown.is_positive() || !seen.insert(front.opening) {
            continue;
        }
        sink.push(
            RULE.finding(
                format!("the two rails of the front of {} leave no room for a panel", opening.path),
                build.span,
                format!("rails {} wide", tape.figure(build.rail.length)),
            )
            .label(opening.span, format!("its front is {} high", tape.text(high)))
            .sum(
                Sum::new("between the rails", tape.print(high).shown - tape.print(rails).shown, tape)
                    .plus(tape.print(high).shown, "front", tape)
                    .minus(tape.print(rails).shown, "two rails", tape),
            )
            .because("one rail would lie in the place of the other")
            .note(format!(
                "give this opening a front of one board with `front {{ build slab }}`, make it higher, or use rails narrower than {}",
                tape.figure(high.half())
            ))
            .subject(&opening.path)
            .urgency(-left / Length::mm(1)),
        );
    }
}

/// The rails of a front with mid rails, each and the next below it.
fn between(
    piece: &Piece,
    opening: &Opening,
    (build, high): (&PanelBuild, &Size),
    seen: &mut BTreeSet<(OpeningId, usize)>,
    sink: &mut Sink,
) {
    let tape = piece.tape();
    let name = |at: RailAt| match at {
        RailAt::Top => "the top rail".to_owned(),
        RailAt::Bottom => "the bottom rail".to_owned(),
        RailAt::Mid(_) if build.mids.len() == 1 => "the mid rail".to_owned(),
        RailAt::Mid(index) => format!("mid rail {} from the top", index + 1),
    };
    let rails = build.rails(high);
    for (index, pair) in rails.windows(2).enumerate() {
        let [upper, lower] = pair else { continue };
        let left = upper.low.length - lower.high().length;
        if left >= trade::least_panel(tape.unit) || !seen.insert((opening.id, index)) {
            continue;
        }
        let own = [upper.at, lower.at].into_iter().find_map(|at| match at {
            RailAt::Mid(index) => build.mids.get(index),
            RailAt::Top | RailAt::Bottom => None,
        });
        let (upper_name, lower_name) = (name(upper.at), name(lower.at));
        let room = match left.is_positive() {
            true => tape.text(left),
            false => "no room".to_owned(),
        };
        sink.push(
            RULE.finding(
                format!(
                    "{upper_name} and {lower_name} of the front of {} leave {room} for a panel between them",
                    opening.path
                ),
                own.map_or(build.span, |mid| mid.span),
                "this mid rail",
            )
            .label(opening.span, format!("its front is {} high", tape.text(high.length)))
            .sum(
                Sum::new("between them", left, tape)
                    .plus(upper.low.length, format!("up to {upper_name}"), tape)
                    .minus(lower.high().length, format!("up to the upper edge of {lower_name}"), tape),
            )
            .because("what is left is no panel that can be made or held")
            .note("mid rails are written from the top down; `from-top` and `from-bottom` count from the edge of the front to the middle of the rail")
            .subject(&opening.path)
            .urgency(-left / Length::mm(1)),
        );
    }
}
