//! A solid panel without room in its grooves, or one that leaves them.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::Length;
use crate::model::{Build, PanelBuild, Piece};
use crate::plans::Workings;
use crate::plans::seasons::{Climate, Float};

use super::{product, quarter_fix, weather};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "panel-room",
    severity: Severity::Warning,
    finds: "A solid panel swells to the bottom of its grooves, or it shrinks until the grooves hold less than 1/8 in (3 mm) of it.",
    why: "A panel without room pushes its frame apart at the joints. A panel that leaves its groove rattles and shows a gap along the stile.",
    source: "Wood Handbook (FPL-GTR-190), Table 13-5 and Eq. 13-2. That 1/8 in should stay in the groove is common practice; no published source.",
    formula: "Panel width × coefficient × points of moisture, half of it on each side, compared with the room left in each groove.",
    accept: "Accept it if the panel's wood or make moves less than its species, such as a veneered board entered as lumber.",
    example: Example {
        base: Base::Press,
        sound: "panel-stock ash-thin; groove 10; float 2; tenon 30 }",
        wrong: "panel-stock ash-thin; groove 10; room 0.5; float 0.5; tenon 30 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// What should stay in the groove.
fn least_held() -> Length {
    Length::inches(1, 8)
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let climate = work.climate();
    for float in work.floats() {
        let tight = !float.least().is_positive() && !float.swelling.range().is_zero();
        let loose = float.held_least() < least_held() && float.held >= least_held();
        if tight || loose {
            sink.push(report(piece, climate, float, tight));
        }
    }
}

fn report(piece: &Piece, climate: &Climate, float: &Float<'_>, tight: bool) -> Diagnostic {
    let tape = piece.tape();
    let damp = if tight { float.dampest <= float.driest } else { float.dampest > float.driest };
    let (change, season) = match damp {
        true => (float.swelling.dampest, "damp"),
        false => (float.swelling.driest, "dry"),
    };
    let build = panel_build(piece, float);
    let span =
        build.and_then(|build| piece.facts.written(&build.float)).unwrap_or(float.panel.span);
    let title = if tight {
        format!(
            "{} has no room in the {season} season; each groove leaves it {}, and it swells {} on each side",
            float.panel.path,
            tape.figure(float.room),
            tape.fine(change.half())
        )
    } else {
        format!(
            "{} leaves its groove in the {season} season; the groove holds {}, and the panel shrinks {} on each side",
            float.panel.path,
            tape.figure(float.held),
            tape.fine(change.half().abs())
        )
    };
    let mut diagnostic = RULE
        .finding(title, span, tape.figure(float.room))
        .subject(&float.panel.path)
        .urgency(if tight { -float.least() } else { -float.held_least() } / Length::mm(1));
    let Some(stock) = piece.stock(float.panel.stock) else { return diagnostic };
    let wood = stock.wood_name();
    let text = format!("{wood}, {}sawn", stock.sawn.word());
    diagnostic = diagnostic.label(stock.sawn_span.unwrap_or(stock.span), text);
    diagnostic = weather(diagnostic, piece, climate, damp);
    let wide = float.panel.width.length;
    let product = product(tape, climate, damp, wide, float.swelling.coefficient);
    diagnostic = diagnostic.working(
        "panel",
        format!(
            "{product} = {}, and half of that is {}",
            tape.fine(change.abs()),
            tape.fine(change.half().abs())
        ),
    );
    if !tight {
        let left = tape.fine(float.held_least());
        return diagnostic
            .working(
                "held",
                format!(
                    "{} − {} = {left}",
                    tape.figure(float.held),
                    tape.fine(change.half().abs())
                ),
            )
            .note("cut deeper grooves, or make two panels with a stile between them");
    }
    let Some(build) = build else { return diagnostic };
    let needed = tape.up(change.half());
    if span != float.panel.span && build.groove.length - needed >= least_held() {
        diagnostic = diagnostic.fix(Fix::new(
            Grade::Choice,
            format!("leave {} free in each groove", tape.figure(needed)),
            span,
            format!("float {}", tape.source(needed)),
        ));
    }
    if let Some(fix) = quarter_fix(&[stock]) {
        let radial = stock.wood.map_or(0, |wood| wood.radial);
        let quartered = climate.with(radial, wide);
        let most = quartered.dampest.max(quartered.driest).half();
        if most < float.room {
            diagnostic = diagnostic.fix(fix);
        }
    }
    diagnostic.note("put no glue in the grooves; a plywood panel does not move")
}

/// How the front of the panel is built.
fn panel_build<'p>(piece: &'p Piece, float: &Float<'_>) -> Option<&'p PanelBuild> {
    let opening = piece.opening(float.panel.opening()?)?;
    match &opening.front.as_ref()?.build {
        Build::Panel(panel) => Some(panel),
        Build::Slab => None,
    }
}
