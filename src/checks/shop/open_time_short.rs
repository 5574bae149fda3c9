//! A glue-up that takes longer to close than the glue stays open.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::plans::Workings;
use crate::plans::assembly::gluing::{GlueUp, Load, Sort};

use super::Short;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "open-time-short",
    severity: Severity::Warning,
    finds: "The glue skins over before you can spread and close the last joint of a glue-up, and drive the screws that go in meanwhile.",
    why: "Glue that has skinned over doesn't wet the other face. The joint looks closed, and it comes apart.",
    source: "Common practice: white and yellow glues stay open 5 to 10 min, slow ones up to 20, and less in dry heat. The rates of spreading, clamping, and driving have no published source.",
    formula: "A quarter of a minute for each joint that a clamp closes, and a minute for each 30 in of it, or 60 in of a face frame's flat seams. 10 s for each clamp, which was set to its width in the dry run. A quarter of a minute for each screw that is driven while that glue waits, those that hold the back on to square the case among them. Where screws close every joint, none is counted.",
    accept: "Accept it if you have a helper, or if you have timed yourself and are quicker.",
    example: Example { base: Base::Press, sound: "open-time 15 min", wrong: "open-time 4 min" },
    check: Check::Parts(check),
    sometimes: Some((
        Severity::Note,
        "The spec does not give `open-time` in `shop`, so the figure is assumed.",
    )),
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    let open = piece.shop.open_time;
    for glue_up in super::too_much(work, Load::closing, open) {
        let needs = glue_up.load.closing();
        let joints = super::count(glue_up.load.joints(), "joint");
        let rate = match glue_up.load.is_flat() {
            true => "60 in or 1.5 m",
            false => "30 in or 760 mm",
        };
        let mut sum = Sum::new("glue line", glue_up.load.long(), tape);
        let (named, rest) = super::named(&glue_up.load.closings);
        for row in named {
            sum = sum.plus(row.long, parts.get(row.part).map_or("", |part| part.word()), tape);
        }
        if !rest.is_empty() {
            sum = sum.plus(rest.iter().map(|row| row.long).sum(), super::more(rest), tape);
        }
        let screws = glue_up.load.driven();
        let work = if screws > 0 { "spread, clamp, and screw" } else { "spread and clamp" };
        let clamped = super::count(glue_up.load.clamps(), "clamp");
        let screwed = match screws {
            0 => format!(", with {clamped} at 10 s each"),
            driven => format!(
                ", with {clamped} at 10 s each and {} at 15 s each",
                super::count(driven, "screw")
            ),
        };
        let diagnostic = super::short(
            &RULE,
            format!("the {} takes {needs} to {work}, but the glue stays open {open}", glue_up.what),
            format!("{joints} in one glue-up"),
            glue_up,
            piece,
            Short {
                word: "open-time",
                written: piece.shop.open_time_span,
                has: format!("the glue stays open {open}"),
                needs: needs.to_string(),
                fix: format!("use a slower glue that stays open {needs}"),
            },
        )
        .sum(sum)
        .urgency(needs.0)
        .because("glue that has skinned over no longer wets the other face")
        .note(format!(
            "{joints} at 15 s each, and {} at {rate} a minute{screwed}, come to {needs}, rounded up",
            tape.text(glue_up.load.long())
        ));
        sink.push(match instead(glue_up) {
            Some(text) => diagnostic.note(text),
            None => diagnostic,
        });
    }
}

/// How to part the work, so that each go has less to spread.
fn instead(glue_up: &GlueUp) -> Option<&'static str> {
    match glue_up.sort {
        Sort::Panel if glue_up.load.joints() > 1 => {
            Some("you can also glue up two halves, and glue them to each other once they have set")
        }
        Sort::Joints => Some(
            "you can also glue it up in two stages: one end of every part first, with the other side put on dry to hold them in place",
        ),
        _ => None,
    }
}
