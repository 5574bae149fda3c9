//! Rules: what can't be built, and what a maker should look at.
//! In: a piece and its parts. Out: diagnostics. Checks change nothing.
//! Must not know how a finding is printed.

mod accept;
mod boring;
mod cut;
mod edges;
mod explain;
mod hardware;
mod joinery;
mod like;
mod material;
mod measured;
mod movement;
mod once;
mod ornament;
mod reading;
mod rule;
mod shop;
mod site;
mod strength;

use crate::diagnostics::Sink;
use crate::measure::{FileId, Span};
use crate::model::Piece;
use crate::plans::Workings;

pub use accept::{accept, accepted, accepting};
pub use explain::{explain, first_sentence, index};
pub use rule::{Base, Check, Example, Rule};
pub(crate) use strength::TIPS;

/// The rules that look at a piece, subject by subject, in the order they are
/// listed.
const SUBJECTS: &[&[&Rule]] = &[
    joinery::FIRST,
    material::FIRST,
    joinery::RULES,
    hardware::RULES,
    boring::RULES,
    material::RULES,
    edges::RULES,
    cut::RULES,
    measured::RULES,
    movement::RULES,
    ornament::RULES,
    site::RULES,
    joinery::LATE,
    strength::RULES,
    // Last: a piece that can't be built is not judged by how it is made.
    shop::RULES,
    hardware::LATE,
    &[&accept::RULE],
];

fn rules() -> impl Iterator<Item = &'static Rule> {
    SUBJECTS.iter().copied().flatten().copied()
}

/// Every rule: those that look at a piece, then those of the reader.
pub fn all() -> impl Iterator<Item = &'static Rule> {
    rules().chain(reading::RULES).chain(like::RULES)
}

/// Every slug.
pub fn slugs() -> impl Iterator<Item = &'static str> {
    all().map(|rule| rule.slug)
}

/// True for what stands in the spec itself, not in a file that it uses: what
/// others share and this piece does without is not judged here.
fn in_spec(span: Span) -> bool {
    span.file == FileId::default()
}

/// Runs the rules that look at the solved piece.
pub fn piece(piece: &Piece, sink: &mut Sink) {
    for rule in rules() {
        if let Check::Piece(check) = rule.check {
            check(piece, sink);
        }
    }
}

/// Runs the rules that look at the parts.
pub fn parts(work: &Workings<'_>, sink: &mut Sink) {
    for rule in rules() {
        if let Check::Parts(check) = rule.check {
            check(work, sink);
        }
        // Whatever else is said of a board that can't be is a second message.
        let first = joinery::part_impossible::RULE.slug;
        if rule.slug == first && joinery::part_impossible::is_told(work, sink) {
            return;
        }
    }
}
