//! A case that hangs where nothing says that there is a wall to hang it on.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hung-unfixed",
    severity: Severity::Error,
    finds: "A case hangs, and the site does not say that the piece is fixed to the wall.",
    why: "What hangs is held by nothing but its wall screws.",
    source: "Statics.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Hung,
        sound: "site { left open; right open; fixing wall; humidity 35% to 60% }",
        wrong: "site { left open; right open; humidity 35% to 60% }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    if piece.site.fixed {
        return;
    }
    for case in &piece.cases {
        let Some(hung) = &case.hung else { continue };
        let title = format!("{} hangs, and the site has no wall that it is fixed to", case.name);
        let found = RULE.finding(title, hung.span, "it hangs here");
        sink.push(
            found
                .because("nothing holds it up")
                .fix(super::fix_to_wall(piece, case))
                .subject(&case.path),
        );
    }
}
