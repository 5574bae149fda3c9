//! A glue-up that takes more clamps than there are.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Exact;
use crate::parts::Parts;
use crate::plans::Workings;
use crate::plans::assembly::gluing::{Closing, GlueUp, Load, Sort};

use super::Short;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "clamps-short",
    severity: Severity::Warning,
    finds: "A glue-up takes more clamps than the shop has.",
    why: "Every joint of one glue-up must be drawn up before the glue grabs. If you run out of clamps, a joint stays open, and the piece is out of square for good.",
    source: "Common practice; no published source.",
    formula: "One clamp for each 12 in of a joint or part of it, and two for one over 8 in. A clamp along a part closes the joints at both its ends. A panel takes one for each 8 in of its length, and at least two. Pocket screws and screws hold their own joints.",
    accept: "Accept it if you can borrow clamps for a day, or if you draw the joints up by other means: cauls, wedges, tape, or pins.",
    example: Example { base: Base::First, sound: "clamps 6 }", wrong: "clamps 5 }" },
    check: Check::Parts(check),
    sometimes: Some((
        Severity::Note,
        "The spec does not give `clamps` in `shop`, so the figure is assumed.",
    )),
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    let has = piece.shop.clamps;
    for glue_up in super::too_much(work, Load::clamps, has) {
        let needs = glue_up.load.clamps();
        let joints = glue_up.load.joints();
        let told = match (glue_up.sort, glue_up.load.closings.as_slice()) {
            (Sort::Panel, [row]) => format!(
                "{} at one for each 8 in or 200 mm, rounded up, comes to {}",
                tape.figure(row.long / i64::from(row.joints.max(1))),
                clamps(needs)
            ),
            _ => format!(
                "{} = {}, at one for each 12 in or 300 mm of a joint, two for one over 8 in or 200 mm",
                sum(parts, glue_up),
                clamps(needs)
            ),
        };
        let diagnostic = super::short(
            &RULE,
            format!("the {} takes {}, and the shop has {has}", glue_up.what, clamps(needs)),
            format!("{} to close at once", super::count(joints, "joint")),
            glue_up,
            piece,
            Short {
                word: "clamps",
                written: piece.shop.clamps_span,
                has: format!("the shop has {}", clamps(has)),
                needs: needs.to_string(),
                fix: format!("get {}", clamps(needs)),
            },
        );
        let diagnostic = diagnostic
            .because("a joint stays open if no clamp draws it up before the glue grabs")
            .note(told);
        // The one that takes the most tells it for all.
        let diagnostic =
            diagnostic.alike(format!("of {has}")).urgency(Exact::int(i64::from(needs)));
        sink.push(diagnostic.note(instead(glue_up.sort)));
    }
}

fn clamps(number: u32) -> String {
    super::count(number, "clamp")
}

/// `2 for bottom + 1 each for shelf-1, shelf-2`; of many boards the rest is counted:
/// `+ 488 for 488 more boards`.
fn sum(parts: &Parts, glue_up: &GlueUp) -> String {
    let alike = |a: &Closing, b: &Closing| a.clamps == b.clamps;
    let own: Vec<Closing> =
        glue_up.load.closings.iter().filter(|row| row.clamps > 0).copied().collect();
    let (named, rest) = super::named(&own);
    let terms = named.chunk_by(alike).map(|rows| {
        let each = if rows.len() > 1 { " each" } else { "" };
        let count = rows.first().map_or(0, |row| row.clamps);
        format!("{count}{each} for {}", super::names(parts, rows))
    });
    let mut terms: Vec<String> = terms.collect();
    if !rest.is_empty() {
        let clamps: u32 = rest.iter().map(|row| row.clamps).sum();
        terms.push(format!("{clamps} for {}", super::more(rest)));
    }
    terms.join(" + ")
}

/// What holds with the clamps there are.
fn instead(sort: Sort) -> &'static str {
    match sort {
        Sort::Joints => {
            "you can also glue it up in two stages: leave dry whatever can still go in later, until the first joints have set"
        }
        _ => {
            "you can also lay a stiff caul along the joint, so that fewer clamps draw up all of it"
        }
    }
}
