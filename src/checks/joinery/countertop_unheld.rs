//! A countertop that nothing holds, or whose slots don't fit in what holds it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Case, Countertop, OnTop, Piece};
use crate::parts::{Part, PartId, screw_rows};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "countertop-unheld",
    severity: Severity::Error,
    finds: "No board lies under a countertop to screw it down through, or that board is too narrow for the slots that solid wood moves in, or the countertop of a run ends over a space with nothing at its other side.",
    why: "A countertop that only lies there slides and warps, and the first person who leans on its edge tips it. A slot that runs out at the edge of a stretcher holds nothing.",
    source: "Common practice; no published source.",
    formula: "A slot is 1/4 in (6 mm) wide, and as long as that, twice the movement between its row of screws and the one that holds fast, and twice 1/16 in (1.5 mm). At least 3/8 in (10 mm) of wood stays at both its ends.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "top { stretchers 2 { wide 4 }; joint pocket }",
        wrong: "top { stretchers 2 { wide 1 }; joint pocket }; countertop { stock maple }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for top in &work.piece.tops {
        let loose = work.piece.of_row(top.row).filter(|case| case.top.is_none());
        let loose: Vec<&Case> = loose.collect();
        loose.iter().for_each(|case| unheld(case, &top.spec, sink));
        if !top.bare.is_empty() {
            bare(work.piece, top, sink);
        } else if loose.is_empty() {
            slots(work.piece, top, &work.parts.under(top), sink);
        }
    }
}

/// An end over a free place at the end of its run.
fn bare(piece: &Piece, top: &OnTop, sink: &mut Sink) {
    let tape = piece.tape();
    for (side, id) in &top.bare {
        let Some(space) = piece.space(*id) else { continue };
        sink.push(
            RULE.finding(
                format!(
                    "nothing holds the {} end of the countertop of {}: it ends over {}, {} past the case there",
                    side.word(),
                    piece.top_named(top),
                    space.name,
                    tape.figure(space.wide.length)
                ),
                space.span,
                "no case that carries the countertop stands at the other side of this",
            )
            .label(top.spec.span, "this countertop")
            .note(format!(
                "put a case at the other side of {0}, or write `countertop none` in {0}, and the countertop ends beside it",
                space.name
            ))
            .subject(&space.path),
        );
    }
}

fn unheld(case: &Case, countertop: &Countertop, sink: &mut Sink) {
    sink.push(
        RULE.finding(
            format!("nothing holds the countertop of {}, because the case has no top", case.name),
            countertop.span,
            "no board lies under this",
        )
        .note("give the case a top of stretchers, for example `top { stretchers 2 { wide 4 } }`")
        .subject(&case.path),
    );
}

fn slots(piece: &Piece, top: &OnTop, own: &[(PartId, &Part)], sink: &mut Sink) {
    let tape = piece.tape();
    let beside = trade::beside_slot(tape.unit);
    let rows = screw_rows(piece, top, own);
    // The longest slot says it for all.
    let slotted = rows.iter().filter_map(|row| {
        let (_, board) = own.iter().find(|(id, _)| *id == row.board)?;
        let long = row.slot?;
        let short = long + beside.twice() - board.width.length;
        short.is_positive().then_some((short, long, *board))
    });
    let Some((short, long, board)) = slotted.max_by_key(|(short, ..)| *short) else { return };
    let needs: Length = tape.up(long + beside.twice());
    sink.push(
        RULE.finding(
            format!(
                "a slot {} long for the countertop does not fit in {}, which is {} wide",
                tape.figure(long),
                board.path,
                tape.figure(board.width.length)
            ),
            board.span,
            tape.figure(board.width.length),
        )
        .label(top.spec.span, "this moves across its grain")
        .sum(
            Sum::new("short by", short, tape)
                .plus(long, "slot", tape)
                .plus(beside.twice(), "wood at both ends", tape)
                .minus(board.width.length, "wide", tape),
        )
        .note(format!("make the stretchers {} wide or more", tape.figure(needs)))
        .subject(&board.path),
    );
}
