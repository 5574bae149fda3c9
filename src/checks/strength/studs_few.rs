//! A case that hangs from fewer than two studs.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Piece;

/// The studs that a hung case is screwed to at least (common practice, no source; a
/// naval training manual asks for mounting strips that reach over them).
pub(super) const LEAST: u32 = 2;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "studs-few",
    severity: Severity::Warning,
    finds: "A case that hangs is so narrow that it surely meets only one stud, or none, and the spec does not say that there are more. Where it is screwed to another one that hangs beside it, one stud is enough.",
    why: "On one stud a case turns about its two screws like a picture on a nail, and wallboard holds no cabinet.",
    source: "Studs stand 16 or 24 in apart, 400 or 600 mm (a trade page on wall framing). Two studs at least: common practice, no source.",
    formula: "The width of the case over 16 in or 400 mm, rounded down.",
    accept: "Accept it if you let blocking into the wall between the studs, or hang it on masonry.",
    example: Example {
        base: Base::Hung,
        sound: "hung { up 250 }",
        wrong: "hung { up 250; studs 1 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(hung) = &case.hung else { continue };
        let studs = piece.studs_behind(case);
        // What is screwed to a case beside it does not turn about one stud.
        let enough = if piece.hangs_beside(case) { 1 } else { LEAST };
        if studs >= enough {
            continue;
        }
        let title = match hung.studs {
            Some(_) => format!("{} hangs from one stud only", case.name),
            None => format!(
                "{} is {} wide, and where studs are {} apart, {} sure to stand behind it",
                case.name,
                tape.figure(case.wide.length),
                tape.figure(piece.stud_spacing()),
                if studs == 0 { "none is" } else { "only one is" }
            ),
        };
        let mut found = RULE.finding(title, hung.span, "it hangs here").subject(&case.path);
        if hung.studs.is_none() {
            found =
                found.fix(hung.said_at[0].says("studs 2", "two studs, once you have found them"));
        }
        sink.push(found.note("find the studs before you settle where it hangs"));
    }
}
