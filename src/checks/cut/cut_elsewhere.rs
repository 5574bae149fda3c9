//! A board that is just what another part is now.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Edit, Fix, Grade, Severity, Sink};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-elsewhere",
    severity: Severity::Note,
    finds: "A cut part no longer matches its own place, but it is exactly what the same part of another opening needs.",
    why: "Openings have changed names, as happens when you add a drawer above the others. The board belongs where it fits, and then nothing has to be trimmed.",
    source: "Our own rule.",
    formula: "",
    accept: "Accept it if the board stays where it is and you trim it.",
    example: Example {
        base: Base::Console,
        sound: "finish oil { hardwax-oil; coats 1; covers 30 m2 per l; mix 3 to 1; pot-life 4 h; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 1; covers 30 m2 per l; mix 3 to 1; pot-life 4 h; cure 24 h }\ncut 2026-03-14 { console.bank.upper.front { long 17-1/16; wide 8-13/16; stock cherry; joints 0 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let ledger = work.ledger();
    let elsewhere = ledger.elsewhere();
    let Some(((cut, part), rest)) = elsewhere.split_first() else { return };
    let more = match rest.len() {
        0 => String::new(),
        1 => ", and 1 other cut part matches another part".to_owned(),
        count => format!(", and {count} other cut parts match other parts"),
    };
    let mut diagnostic = RULE.finding(
        format!("{} as it was cut now matches {}{more}", cut.name.value, part.path),
        cut.name.span,
        format!("cut on {}", cut.date),
    );
    for (cut, part) in rest.iter().take(3) {
        diagnostic = diagnostic.label(cut.name.span, format!("this matches {}", part.path));
    }
    let edits = elsewhere
        .iter()
        .map(|(cut, part)| Edit { span: cut.name.span, text: part.path.clone() })
        .collect();
    let title = match rest.is_empty() {
        true => "record it under that name".to_owned(),
        false => "record them under those names".to_owned(),
    };
    sink.push(diagnostic.fix(Fix { title, grade: Grade::Choice, edits }));
}
