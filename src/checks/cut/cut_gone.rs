//! A cut part that the design no longer has.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::model::{Cut, Piece};
use crate::parts::{self, Parts};
use crate::plans::Workings;
use crate::plans::ledger::{Ledger, State};

use super::{other_use, would_do};

/// As many parts as are offered that a board could be.
const MOST_OFFERED: usize = 3;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-gone",
    severity: Severity::Warning,
    finds: "A part is cut, but the design does not have it or no longer has it. Where `cut` gives the board's size and stock, the message lists the parts still to be cut that the board would make.",
    why: "A revision has left a board on the bench, or the name is misspelled and the part would be cut twice.",
    source: "Our own rule.",
    formula: "",
    accept: "Accept it if you put the board aside for another job.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.old-shelf }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let ledger = work.ledger();
    let (piece, parts) = (ledger.piece, ledger.parts);
    for cut in ledger.gone.iter().filter(|cut| cut.spoiled.is_none()) {
        sink.push(gone(piece, parts, ledger, cut));
    }
    for (cut, ids) in &ledger.unclear {
        let known = ids.iter().filter_map(|id| parts.get(*id));
        let names: Vec<&str> = known.map(|part| part.path.as_str()).collect();
        sink.push(
            Diagnostic::error(
                "name-unknown",
                format!("`{}` is the name of several parts", cut.name.value),
                cut.name.span,
                "write more of the name",
            )
            .note(format!("the parts are {}", names.join(", "))),
        );
    }
}

fn gone<'a>(piece: &Piece, parts: &'a Parts, ledger: &Ledger<'a>, cut: &'a Cut) -> Diagnostic {
    let name = &cut.name.value;
    let mut diagnostic = RULE
        .finding(
            format!("{name} is cut, but the design has no part with that name"),
            cut.name.span,
            format!("cut on {}", cut.date),
        )
        .subject(name);
    let rename = |title: String, path: &str| Fix::new(Grade::Choice, title, cut.name.span, path);
    let just: Vec<&str> = parts
        .iter()
        .filter(|(id, _)| ledger.is_just(*id, cut))
        .map(|(_, part)| part.path.as_str())
        .collect();
    let is_free = |path: &&str| {
        parts.named(path).is_some_and(|(id, _)| matches!(ledger.state(id), State::Uncut))
    };
    let near = parts::near(parts, name).filter(is_free);
    match just.as_slice() {
        [] => {
            if let Some(near) = near {
                diagnostic = diagnostic.fix(rename(format!("it is the part `{near}`"), near));
            }
        }
        just => {
            let same = match cut.made.is_empty() {
                true => "this part has the same size",
                false => "this part has the same size and the same joints",
            };
            let first = just.iter().copied().filter(|path| Some(*path) == near);
            let others = just.iter().copied().filter(|path| Some(*path) != near);
            for path in first.chain(others).take(MOST_OFFERED) {
                diagnostic = diagnostic.fix(rename(same.to_owned(), path));
            }
            return diagnostic;
        }
    }
    match other_use(piece, ledger, cut) {
        Some(uses) if uses.is_empty() => {
            diagnostic.note("no part that is still to be cut fits on this board")
        }
        Some(uses) => diagnostic.note(would_do(&uses)),
        None => diagnostic,
    }
}
