//! Glass that fits its frame too tightly.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::model::Build;
use crate::parts::front_path;
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pane-tight",
    severity: Severity::Warning,
    finds: "The glass of a door has less than 1/16 in (1.5 mm) of room in its rabbet on a side.",
    why: "A frame that is a little out of square, or that shrinks in a dry winter, presses on the edge of the glass, and it cracks from there.",
    source: "Common practice: a pane is ordered 1/8 in (3 mm) smaller than its rabbet in width and height.",
    formula: "",
    accept: "Accept it if you have the glass cut to the frame when that is made.",
    example: Example {
        base: Base::Glazed,
        sound: "groove 10; tenon 30",
        wrong: "groove 10; room 0.5; tenon 30",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    let least = trade::pane_clear(tape.unit);
    for front in work.fronts() {
        let Build::Panel(build) = &front.fronts.build else { continue };
        let Some(glazed) = build.glazed.as_ref().filter(|own| own.clear.length < least) else {
            continue;
        };
        let clear = glazed.clear.length;
        let path = front_path(piece, front.id);
        let title = format!(
            "the glass of {path} has {} of room on each side, and it takes {}",
            tape.text(clear),
            tape.text(least)
        );
        let figure = tape.source(least);
        sink.push(
            RULE.finding(title, glazed.clear_at.span(), "this room")
                .sum(Sum::new("short by", least - clear, tape))
                .because("a frame that moves presses on the edge of the glass, and it cracks")
                .fix(glazed.clear_at.says(&format!("room {figure}"), format!("leave {figure}")))
                .subject(&path),
        );
    }
}
