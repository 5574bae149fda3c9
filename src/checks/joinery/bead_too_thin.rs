//! Glass so thick that its beads would be too thin.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::model::Build;
use crate::parts::front_path;
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "bead-too-thin",
    severity: Severity::Error,
    finds: "What is left behind the glass of a door, up to the back of its frame, is too little for a bead: less than 3/16 in (5 mm).",
    why: "Pins split a thin bead, and the glass falls out of its frame.",
    source: "Common practice, no published source.",
    formula: "The frame's thickness, less the front lip, the glass, and 1/32 in (1 mm) by which a bead stays below the back. The front lip is half of what the groove leaves of the thickness.",
    accept: "",
    example: Example {
        base: Base::Glazed,
        sound: "stock mirror { glass 4 mm;",
        wrong: "stock mirror { glass 9 mm;",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let (tape, unit) = (piece.tape(), piece.tape().unit);
    let least = trade::thinnest_bead(unit);
    for front in work.fronts() {
        let Build::Panel(build) = &front.fronts.build else { continue };
        let Some(glazed) = &build.glazed else { continue };
        let thick = piece.thickness(front.fronts.stock).length;
        let glass = piece.thickness(build.panel_stock).length;
        let lip = (thick - glazed.groove_wide.length).half();
        let shy = glazed.shy.length;
        let left = thick - lip - glass - shy;
        if left >= least {
            continue;
        }
        let path = front_path(piece, front.id);
        let title = format!(
            "{} is left for the beads of {path}, and they take {} or more",
            tape.text(left),
            tape.text(least)
        );
        let mut found = RULE
            .finding(title, build.span, "held by beads")
            .sum(
                Sum::new("left", left, tape)
                    .plus(thick, "frame", tape)
                    .minus(lip, "front lip", tape)
                    .minus(glass, "glass", tape)
                    .minus(shy, "below the back", tape),
            )
            .because("pins split a thin bead")
            .subject(&path);
        if let Some(stock) = piece.stock(build.panel_stock) {
            let thickest = tape.down(thick - lip - shy - least);
            let label = format!("{} thick", tape.figure(glass));
            found = found.label(stock.nominal_span, label);
            if thickest.is_positive() {
                found = found.note(format!(
                    "take glass no thicker than {}, a thicker frame, or wider grooves, which bring the glass forward",
                    tape.figure_with_unit(thickest)
                ));
            }
        }
        // A front lip as thin as what is left has to be, and no thinner than walls last.
        let wide = tape.up((least + glass + shy).twice() - thick);
        if (thick - wide).half() >= trade::lasting_wall() {
            let figure = tape.source(wide);
            let text = format!("groove-wide {figure}");
            let title = format!("cut the grooves {figure} wide");
            found = found.fix(glazed.groove_wide_at.says(&text, title));
        }
        sink.push(found);
    }
}
