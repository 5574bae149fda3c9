//! Pieces of sheet, boards, and rolls of banding that are in the shop already.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Length, Span, Tape};
use crate::vocabulary::words::{self, stock::StockKind};
use crate::vocabulary::{Entries, Kinds};

use super::lower::Lower;

/// A piece in the rack.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnHand {
    /// Its length.
    pub long: Length,
    /// Its width.
    pub wide: Length,
    /// The stretches that are lost, from one end of it, in their order; none of them meets
    /// another.
    pub lost: Vec<(Length, Length)>,
}

/// The pieces in the rack. What is lost of a sheet is reported, and so is what is lost
/// beyond the end of a board.
pub(super) fn read(body: &Entries, kind: StockKind, ctx: &mut Lower) -> Vec<OnHand> {
    let mut all = rolls(body, kind, ctx);
    for said in body.all(words::stock::ON_HAND) {
        let Some(piece) = said.body() else { continue };
        if kind == StockKind::Banding {
            said.mark_all();
            ctx.sink.push(roll_told(said.head));
            continue;
        }
        let long = piece.get(words::on_hand::LONG).map(|long| long.value);
        let wide = piece.get(words::on_hand::WIDE).map(|wide| wide.value);
        let mut stretches: Vec<(Length, Length)> = Vec::new();
        for said in piece.all(words::on_hand::LOST) {
            let Some(stretch) = said.value() else { continue };
            let (from, to) = *stretch.value;
            if kind != StockKind::Lumber {
                ctx.sink.push(lost_of_sheet(kind, said.head));
            } else if let Some(long) = long.filter(|long| to > *long) {
                ctx.sink.push(lost_beyond(ctx.tape, (to, said.head), long));
            } else if from < to {
                stretches.push((from, to));
            }
        }
        if let (Some(long), Some(wide)) = (long, wide) {
            all.push(OnHand { long, wide, lost: joined(stretches) });
        }
    }
    all
}

/// The rolls of a banding. One of another stock is reported.
fn rolls(body: &Entries, kind: StockKind, ctx: &mut Lower) -> Vec<OnHand> {
    let mut all = Vec::new();
    for said in body.all(words::stock::ROLL) {
        let Some(roll) = said.body() else { continue };
        if kind != StockKind::Banding {
            said.mark_all();
            ctx.sink.push(roll_of_another(kind, said.head));
            continue;
        }
        let long = roll.get(words::roll::LONG).map(|long| long.value);
        let wide = roll.get(words::roll::WIDE).map(|wide| wide.value);
        let both = long.zip(wide);
        all.extend(both.map(|(long, wide)| OnHand { long, wide, lost: Vec::new() }));
    }
    all
}

fn roll_told(span: Span) -> Diagnostic {
    let title = "write banding that is on hand as a `roll`";
    Diagnostic::error("not-supported-yet", title, span, "this is for sheets and boards")
        .fix(Fix::new(Grade::Sure, "write `roll`", span, "roll"))
}

fn roll_of_another(kind: StockKind, span: Span) -> Diagnostic {
    let title = format!("`roll` can't stand in a stock of {}", kind.spelling());
    Diagnostic::error("not-supported-yet", title, span, "this is for banding").fix(Fix::new(
        Grade::Sure,
        "write `on-hand`",
        span,
        "on-hand",
    ))
}

/// Stretches in their order, those that meet made one.
pub(crate) fn joined(mut stretches: Vec<(Length, Length)>) -> Vec<(Length, Length)> {
    stretches.sort_unstable();
    let mut all: Vec<(Length, Length)> = Vec::new();
    for (from, to) in stretches {
        match all.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            Some(_) | None => all.push((from, to)),
        }
    }
    all
}

fn lost_of_sheet(kind: StockKind, span: Span) -> Diagnostic {
    let title = format!("`lost` can't stand in a stock of {}", kind.spelling());
    Diagnostic::error("not-supported-yet", title, span, "this is for boards")
        .note("write the sound part of the sheet as the piece that is on hand")
}

fn lost_beyond(tape: Tape, (to, span): (Length, Span), long: Length) -> Diagnostic {
    let title = format!(
        "a board {} long loses nothing at {}",
        tape.figure_with_unit(long),
        tape.figure_with_unit(to)
    );
    Diagnostic::error("absurd-size", title, span, tape.figure_with_unit(to))
        .note("both figures of `lost` count from one end of the board, and the second is no larger than its length")
}
