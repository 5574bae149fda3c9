//! A hanging rail on a board that is too thin for its screws.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::parts::Part;
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rod-unheld",
    severity: Severity::Error,
    finds: "The cup at an end of a hanging rail, or a hanger in its middle, would be screwed to a board under 1/2 in (12 mm) thick, or there is no board to screw the middle hanger to.",
    why: "The screws of a cup have no hold in a thin sheet. A full rail pulls them out, or the sheet bends until the rail falls out of its cups.",
    source: "Common practice; no published source.",
    formula: "A rail over 48 in (1200 mm) hangs from the board above it too, at equal distances.",
    accept: "",
    example: Example {
        base: Base::Wardrobe,
        sound: "open coats { share 1; rod { hangs long } }",
        wrong: "across { share 1; open coats { share 1; rod { hangs long } }; divider { stock thin }; open hats { wide 200 mm } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let tape = work.piece.tape();
    let thin = |board: &&Part| board.thickness.length < trade::holds_rail(tape.unit);
    for rail in &work.fitting().rails {
        let path = &rail.opening.path;
        let above = rail.above.filter(|_| !rail.hangers.is_empty());
        let boards = rail.ends.iter().map(|end| end.board).chain(above);
        for board in boards.filter(thin) {
            let title = format!(
                "the rail of {path} would be screwed to {}, which is {} thick",
                board.path,
                tape.figure(board.thickness.length)
            );
            sink.push(
                RULE.finding(title, rail.rod.span, "this rail")
                    .label(board.span, "too thin for its screws")
                    .because("a full rail pulls the screws out")
                    .note("make this board of a stock of 1/2 in (12 mm) or more")
                    .subject(path),
            );
        }
        if !rail.hangers.is_empty() && rail.above.is_none() {
            let title = format!(
                "the rail of {path} is {} long, and no board lies above it for a hanger in its middle",
                tape.figure(rail.clear.length)
            );
            sink.push(
                RULE.finding(title, rail.rod.span, "this rail")
                    .because("a rail over 48 in (1200 mm) bends, and its ends pull out of their cups")
                    .note("give the case a `top` of one panel, or put a `divider` over the rail or beside it")
                    .subject(path),
            );
        }
    }
}
