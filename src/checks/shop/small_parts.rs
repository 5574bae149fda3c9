//! Solid parts too small for the planer or the saw.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum, listed};
use crate::model::{Piece, StockId};
use crate::parts::{Part, PartId, Role};
use crate::plans::Workings;
use crate::plans::small_parts::{is_narrow, is_short};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "small-parts",
    severity: Severity::Note,
    finds: "Solid parts are too small to mill by themselves. They are cut rough shorter than 12 in (300 mm), too short to plane and joint, or they are narrower than 3/4 in (19 mm), too narrow to rip. Each stock is reported once.",
    why: "A board shorter than the distance between a planer's rollers tips into the knives and is thrown out. On a jointer it brings your hands over the knives. A narrow strip is drawn down beside the saw blade.",
    source: "Common practice; no published source. Your machine's manual takes precedence.",
    formula: "Rough length: the finished length plus the shop's allowance.",
    accept: "Accept it if you know this and mill these parts as one blank.",
    example: Example {
        base: Base::First,
        sound: "undermount; length 15; room 15-3/4",
        wrong: "undermount; length 10; room 10-3/4",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    for (index, stock) in piece.stocks.iter().enumerate() {
        // Blocks, stops, and beads are sawn off a strip anyway; the cut list has the caution.
        let own: Vec<&Part> = parts
            .all
            .iter()
            .filter(|part| part.stock == StockId(index))
            .filter(|part| {
                !matches!(
                    part.role,
                    Role::HingeBlock | Role::HoldingBlock | Role::Stop | Role::Bead
                )
            })
            .collect();
        let pick = |small: fn(&Piece, &Part) -> bool| -> Vec<&Part> {
            own.iter().copied().filter(|part| small(piece, part)).collect()
        };
        let short = pick(is_short);
        if let Some(longest) = short.iter().rev().max_by_key(|part| part.rough.length) {
            let least = tape.figure_with_unit(trade::shortest_planed(tape.unit));
            let rough = longest.rough.length;
            sink.push(
                RULE.finding(
                    format!(
                        "{} shorter than {least} rough, too short to plane one by one",
                        pieces(short.len(), &stock.name)
                    ),
                    stock.span,
                    "cut from this",
                )
                .label(longest.span, format!("{} long", tape.text(longest.length.length)))
                .sum(
                    Sum::new("rough", rough, tape)
                        .plus(longest.length.length, longest.word(), tape)
                        .plus(rough - longest.length.length, "allowance on the length", tape),
                )
                .because("the planer's rollers must always hold one end of the board")
                .note(format!(
                    "plane, joint, and rip {} as {}, as the assembly order has it; {}",
                    marks(&short),
                    blanks(work, &short),
                    cut_when(work, &short)
                ))
                .subject(&stock.name),
            );
        }
        let narrow = pick(is_narrow);
        if let Some(part) = narrow.iter().min_by_key(|part| part.width.length) {
            let least = tape.figure_with_unit(trade::narrowest_ripped(tape.unit));
            sink.push(
                RULE.finding(format!(
                        "{} narrower than {least}, too narrow to rip one by one",
                        pieces(narrow.len(), &stock.name)
                    ),
                    part.span,
                    format!("{} wide", tape.text(part.width.length)),
                )
                .label(stock.span, "its stock")
                .because("the saw can draw a narrow strip down beside the blade")
                .note(format!(
                    "rip {} off a wider board, with the strip on the side of the blade away from the fence",
                    marks(&narrow)
                ))
                .subject(&stock.name),
            );
        }
    }
}

/// What is cut into these parts before their sticks are crosscut, and what after that.
fn cut_when(work: &Workings<'_>, short: &[&Part]) -> String {
    let ids = short.iter().filter_map(|part| work.parts.id_of(part));
    let (first, last): (Vec<PartId>, Vec<PartId>) =
        ids.partition(|id| work.sticks().is_cut_first(*id));
    match (first.is_empty(), last.is_empty()) {
        (true, _) => "joints and grooves come after that".to_owned(),
        (false, true) => "the grooves and rabbets that run alike through all pieces of a blank are cut before that, and other joints after it".to_owned(),
        (false, false) => format!(
            "the grooves and rabbets that run alike through all pieces of a blank, those of {}, are cut before that, and other joints after it",
            listed(&first.iter().map(|id| work.parts.mark(*id)).collect::<Vec<_>>())
        ),
    }
}

fn pieces(count: usize, stock: &str) -> String {
    match count {
        1 => format!("1 piece of {stock} is"),
        _ => format!("{count} pieces of {stock} are"),
    }
}

/// What short parts are milled as: those of one section as one.
fn blanks(work: &Workings<'_>, short: &[&Part]) -> String {
    let ids = short.iter().filter_map(|part| work.parts.id_of(part));
    // Each stick is told with its first part.
    let sticks: BTreeSet<PartId> =
        ids.filter_map(|id| work.sticks().of(id)?.parts.first().copied()).collect();
    match sticks.len() {
        0 | 1 => "one longer blank, and crosscut it last".to_owned(),
        several => format!("{several} longer blanks, and crosscut each last"),
    }
}

fn marks(parts: &[&Part]) -> String {
    let marks: Vec<&str> = parts.iter().map(|part| part.mark.as_str()).collect();
    marks.join(", ")
}
