//! What the shop can do, and do safely.

mod bit_shank;
mod bit_speed;
mod clamped_too_long;
mod clamps_short;
mod open_time_short;
mod recoat_odd;
mod small_for_router;
mod small_parts;

use std::collections::BTreeMap;

use crate::checks::rule::Rule;
use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::Span;
use crate::model::Piece;
use crate::parts::{Part, Parts};
use crate::plans::Workings;
use crate::plans::assembly::gluing::{Closing, GlueUp, Load, Sort};

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &bit_shank::RULE,
    &bit_speed::RULE,
    &clamped_too_long::RULE,
    &clamps_short::RULE,
    &open_time_short::RULE,
    &recoat_odd::RULE,
    &small_for_router::RULE,
    &small_parts::RULE,
];

/// The glue-ups that take more than the shop `has` by what `need` says of each:
/// blanks are glued up one after the other, so only the worst of them counts; of
/// things that one statement asks for, such as a bank of drawers, the worst stands
/// for all.
fn too_much<'w, N: Ord>(
    work: &'w Workings<'_>,
    need: impl Fn(&Load) -> N,
    has: N,
) -> Vec<&'w GlueUp> {
    if work.loads_at_once().iter().all(|load| need(load) <= has) {
        return Vec::new();
    }
    let mut kept: Vec<&GlueUp> = Vec::new();
    let mut at: BTreeMap<(Sort, Span), usize> = BTreeMap::new();
    for new in work.glue_ups() {
        let asked = if new.sort == Sort::Panel { Span::default() } else { new.span };
        let index = *at.entry((new.sort, asked)).or_insert(kept.len());
        match kept.get_mut(index) {
            Some(old) if need(&new.load) > need(&old.load) => *old = new,
            Some(_) => {}
            None => kept.push(new),
        }
    }
    kept.retain(|glue_up| need(&glue_up.load) > has);
    kept
}

/// A figure of the shop that falls short of what a glue-up needs.
struct Short {
    /// The word in `shop`.
    word: &'static str,
    /// The statement, if it is written.
    written: Option<Span>,
    /// What the shop has.
    has: String,
    /// What would do.
    needs: String,
    /// What changing it brings about.
    fix: String,
}

/// A warning at the shop's own figure, or where that is a default, a note at the
/// glue-up itself.
fn short(
    rule: &Rule,
    title: String,
    asks: String,
    glue_up: &GlueUp,
    piece: &Piece,
    short: Short,
) -> Diagnostic {
    let Short { word, written, has, needs, fix } = short;
    let text = format!("{word} {needs}");
    let diagnostic = match written {
        Some(span) => rule.finding(title, span, has).label(glue_up.span, asks).fix(Fix::new(
            Grade::Choice,
            fix,
            span,
            text,
        )),
        None => {
            // Of a shop that the spec says nothing of it is advice, no more.
            let diagnostic = rule.at_times(rule.finding(title, glue_up.span, asks)).note(format!(
                "this assumes that {has}; give your own figure with `{word}` in `shop`"
            ));
            match piece.shop.start {
                Some(at) => diagnostic.fix(Fix::new(Grade::Choice, fix, at, format!(" {text};"))),
                None => diagnostic,
            }
        }
    };
    diagnostic.subject(&glue_up.path)
}

/// How many boards of a glue-up are named before the rest is counted.
const NAMED: usize = 12;

/// The parts that close, those that are named and the rest: one alone is named too.
fn named(rows: &[Closing]) -> (&[Closing], &[Closing]) {
    let named = if rows.len() > NAMED + 1 { NAMED } else { rows.len() };
    rows.split_at(named)
}

/// `488 more boards`.
fn more(rest: &[Closing]) -> String {
    format!("{} more boards", rest.len())
}

/// The last names of the parts that close, as a sentence lists them.
fn names(parts: &Parts, rows: &[Closing]) -> String {
    let names: Vec<&str> =
        rows.iter().filter_map(|row| parts.get(row.part)).map(Part::word).collect();
    names.join(", ")
}

/// `1 joint`, `4 joints`.
fn count(number: u32, what: &str) -> String {
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}
