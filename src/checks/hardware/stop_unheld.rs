//! A stop with nothing to carry it, or where something else stands.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::checks::site::scribe_too_wide;
use crate::diagnostics::{Fix, Severity, Sink};
use crate::measure::{Length, Unit};
use crate::model::{Edge, OpeningKind, Set};
use crate::parts::{Assembly, Part, Role};
use crate::plans::Workings;
use crate::plans::fitting::Stop;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "stop-unheld",
    severity: Severity::Error,
    finds: "An inset door on hinges that don't pull it shut needs a stop, and at its latch edge or over it nothing lies near enough to carry a strip, or something else stands in its place.",
    why: "Without a stop the door swings into the case, strains its hinges, and never closes flush.",
    source: "Common practice; no published source.",
    formula: "The strip stands 3/8 in (10 mm) into the opening right behind the closed door. It lies flat on the back of a frame as thick as the door, or on a board no more than 1-1/2 in (38 mm) beyond the edge.",
    accept: "",
    example: Example {
        base: Base::Wardrobe,
        sound: "gap     2.5 mm",
        wrong: "gap     2.5 mm; stop strip",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// What a box keeps below the strip that it passes under: 1/8 in or 3 mm (common practice,
/// no source).
fn clear(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // An end that no longer stands behind its stile is told there.
    let scribed = scribe_too_wide::RULE.told(sink);
    let case = |part: &Part| work.piece.case(part.case).map(|case| case.path.as_str());
    let is_told = |part: &Part| {
        matches!(part.role, Role::End(_)) && case(part).is_some_and(|path| scribed.contains(path))
    };
    for stop in &work.fitting().stops {
        if stop.struck.is_some_and(is_told) {
            continue;
        }
        let fronts = stop.opening.front.as_ref();
        if let Some(written) = fronts.filter(|own| own.set != Set::Inset).and_then(|own| own.stop) {
            let title =
                format!("{} lies over its opening, and nothing stops it there", stop.opening.path);
            sink.push(
                RULE.finding(title, written.span, "a strip for an overlay door")
                    .because("an overlay door closes against the case itself")
                    .note("take `stop strip` out")
                    .subject(&stop.opening.path),
            );
            continue;
        }
        let at = fronts.and_then(|fronts| fronts.stop).map_or(stop.opening.span, |stop| stop.span);
        let (title, label) = match (stop.struck, stop.on) {
            (Some(other), _) => (
                format!("the stop of {} would stand where {} is", stop.opening.path, other.path),
                Some((other.span, "stands there")),
            ),
            (None, None) => (
                format!(
                    "nothing behind the {} edge of {} carries its stop",
                    stop.edge.word(),
                    stop.opening.path
                ),
                None,
            ),
            (None, Some(_)) => continue,
        };
        let found = RULE
            .finding(title, at, "closes against nothing")
            .because("an inset door on these hinges closes against nothing but its stop");
        let found = match lower_box(work, stop) {
            Some(fix) => found.fix(fix),
            None => found,
        };
        let found = found
            .note("let a shelf or the `lip` of a rail stop the door and write `stop none`, or take hinges that pull the door shut")
            .subject(&stop.opening.path);
        sink.push(match label {
            Some((span, text)) => found.label(span, text),
            None => found,
        });
    }
}

/// The edit that lets the drawer or tray that is in the way pass below the strip.
fn lower_box(work: &Workings<'_>, stop: &Stop<'_>) -> Option<Fix> {
    let struck = stop.struck?;
    let Assembly::DrawerBox(id) = struck.assembly else { return None };
    let (piece, tape) = (work.piece, work.piece.tape());
    let (case, opening) = (piece.case(struck.case)?, piece.opening(id)?);
    let OpeningKind::Drawer { box_high_at, .. } = &opening.kind else { return None };
    let boxes = case.drawers.as_ref()?;
    let own = piece.drawer_box(case, opening)?;
    let bottom = opening.y + own.above.length;
    let high = tape.down(stop.space.from.y - bottom - clear(tape.unit));
    let needs = boxes.groove_up.length + piece.thickness(boxes.bottom_stock).length;
    let is_useful = stop.edge == Edge::Top && high >= needs.twice();
    let title = format!("let the box of {} pass below the stop", opening.path);
    is_useful.then(|| box_high_at.says(&format!("high {}", tape.source(high)), title))
}
