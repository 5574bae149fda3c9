//! A glass shelf that its load breaks or bends.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Length, Tape};
use crate::model::Stock;
use crate::parts::Role;
use crate::plans::Workings;
use crate::plans::spans::Lying;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "glass-shelf-weak",
    severity: Severity::Warning,
    finds: "A glass shelf is bent harder by its load than plain or tempered glass bears for years, or it sags more than the span over 144.",
    why: "Glass gives no warning: a shelf that is loaded too much for a long time breaks one day, and what stands on it falls with the pieces.",
    source: "Plain glass under a lasting load: 6.55 N/mm2 (950 psi), which is what the Glass and Glazing Federation's recommendations for furniture glass come to (6 mm over 1000 mm: 32 kg/m2). Tempered glass: four times as much, as in ASTM E1300. Load: ANSI/KCMA A161.1, and 40 lb per square foot on an open shelf, as for wood. Stiffness: EN 572-1. Limit of sag: Architectural Woodwork Standards, 1st ed.",
    formula: "Stress 3 q L² / (4 t²) under the load q over the span L, t the thickness; sag 5 q L⁴ / (32 E t³). Glass does not creep. The shelf's own weight is left out, as in the recommendations.",
    accept: "Accept it if the shelf carries only light things, and say so with `load` where you can.",
    example: Example {
        base: Base::Glazed,
        sound: "stock plate  { glass 6 mm; tempered;",
        wrong: "stock plate  { glass 2 mm; tempered;",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let mut told: Vec<&str> = Vec::new();
    for one in work.lying() {
        let Some(stock) = piece.stock(one.part.stock).filter(|own| own.is_glass()) else {
            continue;
        };
        let opening = one.part.opening().and_then(|id| piece.opening(id));
        let name = opening.map_or(one.part.path.as_str(), |opening| opening.path.as_str());
        if told.contains(&name) || holds(one, stock, stock.thickness.length) {
            continue;
        }
        told.push(name);
        sink.push(finding(work, one, stock, name));
    }
}

/// True for a shelf so thick that neither breaks nor sags too far.
fn holds(one: &Lying<'_>, stock: &Stock, thick: Length) -> bool {
    let tempered = stock.pane.tempered.is_some();
    let stress = trade::glass_stress(one.carries.load, one.span, thick);
    stress <= trade::glass_bears(tempered) && !is_bent(one, stock, thick)
}

fn is_bent(one: &Lying<'_>, stock: &Stock, thick: Length) -> bool {
    let Some(stiffness) = stock.stiffness else { return false };
    let sag = trade::glass_sag(one.carries.load, one.span, thick, stiffness);
    sag > trade::WRITTEN.over(one.span).to_mm_f64()
}

fn finding(work: &Workings<'_>, one: &Lying<'_>, stock: &Stock, name: &str) -> Diagnostic {
    let (piece, tape) = (work.piece, work.piece.tape());
    let thick = stock.thickness.length;
    let tempered = stock.pane.tempered.is_some();
    let stress = trade::glass_stress(one.carries.load, one.span, thick);
    let bears = trade::glass_bears(tempered);
    let kind = if tempered { "tempered" } else { "plain" };
    let told = |newtons: f64| match tape.unit.is_metric() {
        true => format!("{newtons:.1} N/mm2"),
        false => format!("{:.0} psi", newtons * trade::PSI_IN_NEWTON),
    };
    let title = match stress > bears {
        true => format!(
            "the glass of the shelves of {name} is bent to {} over {}, and {kind} glass bears {} for years",
            told(stress),
            tape.text(one.span),
            told(bears)
        ),
        false => format!(
            "the glass shelves of {name} sag {} over {}, and {} is the most",
            sag_told(
                tape,
                trade::glass_sag(
                    one.carries.load,
                    one.span,
                    thick,
                    stock.stiffness.unwrap_or_default()
                )
            ),
            tape.text(one.span),
            sag_told(tape, trade::WRITTEN.over(one.span).to_mm_f64())
        ),
    };
    let mut found = RULE
        .finding(title, stock.nominal_span, format!("{} thick", tape.figure(thick)))
        .label(one.part.span, format!("under {}", one.carries.load))
        .because("glass breaks without a warning, and what stands on it falls with the pieces")
        .subject(name);
    let glass = trade::glass_sold(tape.unit);
    let thicker = glass.into_iter().find(|sold| *sold > thick && holds(one, stock, *sold));
    let only_shelves = work.parts.all.iter().all(|part| {
        let own = piece.stock(part.stock).is_some_and(|other| other.name == stock.name);
        !own || part.role == Role::AdjustableShelf
    });
    found = match thicker {
        Some(sold) if only_shelves => {
            let figure = tape.figure_with_unit(sold);
            let title = format!("use glass {figure} thick");
            let text = format!("glass {figure}");
            found.fix(Fix::new(Grade::Choice, title, stock.nominal_span, text))
        }
        Some(sold) => found.note(format!("glass {} thick holds it", tape.figure_with_unit(sold))),
        None => found.note("part the opening, so that the shelves are shorter"),
    };
    let note = "tempered glass bears four times as much as plain glass, but it sags as far";
    if tempered { found } else { found.note(note) }
}

fn sag_told(tape: &Tape, millimeters: f64) -> String {
    tape.text(Length::mm((millimeters * 100.0) as i64) / 100)
}
