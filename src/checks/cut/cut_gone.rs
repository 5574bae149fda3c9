//! A cut part that the design no longer has.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::model::Piece;
use crate::parts::{self, Parts};
use crate::plans::Workings;
use crate::plans::ledger::{Ledger, Nameless, State, Suits};

use super::{other_use, would_do};

/// As many parts as are offered that a board could be.
const MOST_OFFERED: usize = 3;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-gone",
    severity: Severity::Warning,
    finds: "A part is cut, but the design does not have it or no longer has it. Where `cut` gives the board's size and stock, the message offers the part that the board is by its size and joints, as it lies there or once it is trimmed, or else lists the parts still to be cut that the board would make.",
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
    for board in &ledger.nameless() {
        sink.push(gone(piece, parts, ledger, board));
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

fn gone<'a>(
    piece: &Piece,
    parts: &'a Parts,
    ledger: &Ledger<'a>,
    board: &Nameless<'a>,
) -> Diagnostic {
    let cut = board.cut;
    let name = &cut.name.value;
    let mut diagnostic = RULE
        .finding(
            format!("{name} is cut, but the design has no part with that name"),
            cut.name.span,
            format!("cut on {}", cut.date),
        )
        .subject(name);
    let rename = |title: String, path: &str| Fix::new(Grade::Choice, title, cut.name.span, path);
    for (id, suits) in board.could_be.iter().take(MOST_OFFERED) {
        let Some(part) = parts.get(*id) else { continue };
        let title = match (suits, cut.made.is_empty()) {
            (Suits::Just, true) => "this part has the same size",
            (Suits::Just, false) => "this part has the same size and the same joints",
            (Suits::Trimmed, _) => "trimmed, the board is this part, with all its joints",
        };
        diagnostic = diagnostic.fix(rename(title.to_owned(), &part.path));
    }
    if !board.could_be.is_empty() {
        return diagnostic;
    }
    let is_free = |path: &&str| {
        parts.named(path).is_some_and(|(id, _)| matches!(ledger.state(id), State::Uncut))
    };
    if let Some(near) = parts::near(parts, name).filter(is_free) {
        diagnostic = diagnostic.fix(rename(format!("it is the part `{near}`"), near));
    }
    match other_use(piece, ledger, cut) {
        Some(uses) if uses.is_empty() => {
            diagnostic.note("no part that is still to be cut fits on this board")
        }
        Some(uses) => diagnostic.note(would_do(&uses)),
        None => diagnostic,
    }
}
