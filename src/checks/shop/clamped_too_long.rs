//! A glue-up that stays in the clamps for longer than it cures.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Duration, Exact};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "clamped-too-long",
    severity: Severity::Warning,
    finds: "The shop's `clamp` is longer than its `cure`: a glue-up would stay in the clamps for longer than its joints cure before they are worked.",
    why: "A joint that is ready to be worked holds by itself, so one of the two figures is wrong, and the hours on the assembly order with it.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it if your clamps wait for you and not for the glue.",
    example: Example {
        base: Base::First,
        sound: "clamp 1 h; cure 24 h",
        wrong: "clamp 12 h; cure 10 h",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let shop = &work.piece.shop;
    let Some(span) = shop.clamp_span.filter(|_| shop.clamp > shop.cure) else { return };
    let title = format!(
        "a glue-up stays {} in the clamps, and its joints are worked after {}",
        shop.clamp, shop.cure
    );
    let mut found = RULE.finding(title, span, shop.clamp.to_string()).subject("shop");
    if let Some(cure) = shop.cure_span {
        found = found.label(cure, shop.cure.to_string());
    }
    let hours = |count: i64| Duration(Exact::int(count * 60));
    let fix = |at, title: &str, text: &str| Some(Fix::new(Grade::Choice, title, at, text));
    let fix = match shop.cure_span {
        _ if shop.cure >= hours(1) => fix(span, "1 h, which most glues take", "clamp 1 h"),
        Some(cure) if shop.clamp <= hours(24) => {
            fix(cure, "24 h, after which most glues have cured", "cure 24 h")
        }
        Some(_) | None => None,
    };
    sink.push(match fix {
        Some(fix) => found.fix(fix),
        None => found,
    });
}
