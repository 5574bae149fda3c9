//! Rules: what can't be built, and what a maker should look at.
//! In: a piece and its parts. Out: diagnostics. Checks change nothing.
//! Must not know how a finding is printed.

mod accept;
mod boring;
mod cut;
mod explain;
mod hardware;
mod joinery;
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

use std::cell::LazyCell;

use crate::diagnostics::Sink;
use crate::measure::{FileId, Span};
use crate::model::Piece;
use crate::parts::Parts;
use crate::plans::ledger::Ledger;

pub use accept::accept;
pub use explain::{explain, first_sentence, index};
pub use rule::{Base, Check, Example, Rule};

/// The rules that look at a piece, in the order they are listed.
const RULES: &[&Rule] = &[
    &joinery::part_impossible::RULE,
    &joinery::dado_too_deep::RULE,
    &joinery::groove_meets_joint::RULE,
    &joinery::member_too_narrow::RULE,
    &joinery::mitre_unequal::RULE,
    &joinery::panel_too_thick::RULE,
    &joinery::pocket_screw_through::RULE,
    &joinery::pocket_seen::RULE,
    &joinery::rabbet_too_thin::RULE,
    &joinery::tenon_too_thick::RULE,
    &hardware::box_too_big::RULE,
    &hardware::cup_web::RULE,
    &hardware::door_binds::RULE,
    &hardware::door_stopped::RULE,
    &hardware::door_thickness::RULE,
    &hardware::drawer_hits_door::RULE,
    &hardware::fronts_collide::RULE,
    &hardware::gap_wide::RULE,
    &hardware::hinge_gap::RULE,
    &hardware::hinge_hits_shelf::RULE,
    &hardware::hinge_missing::RULE,
    &hardware::leaf_too_narrow::RULE,
    &hardware::open_doors_meet::RULE,
    &hardware::slide_load::RULE,
    &hardware::slide_room::RULE,
    &hardware::slide_unheld::RULE,
    &hardware::too_few_hinges::RULE,
    &boring::bore_meets_joint::RULE,
    &boring::bore_web::RULE,
    &boring::pull_meets_box::RULE,
    &hardware::shelves_crowded::RULE,
    &material::actual_odd::RULE,
    &material::part_too_large::RULE,
    &cut::cut_gone::RULE,
    &cut::cut_elsewhere::RULE,
    &cut::cut_misfit::RULE,
    &cut::cut_stock_gone::RULE,
    &cut::cut_unsized::RULE,
    &measured::front_tapered::RULE,
    &measured::lean_too_much::RULE,
    &measured::measured_far::RULE,
    &measured::measured_odd::RULE,
    &movement::cross_grain::RULE,
    &movement::gap_closes::RULE,
    &movement::milled_off::RULE,
    &movement::panel_room::RULE,
    &material::planed_too_thick::RULE,
    &material::planing_scant::RULE,
    &material::species_unknown::RULE,
    &ornament::flute_too_deep::RULE,
    &ornament::flutes_none::RULE,
    &ornament::flutes_too_short::RULE,
    &ornament::flutes_uneven::RULE,
    &ornament::pull_in_flute::RULE,
    &site::base_too_deep::RULE,
    &site::keep_out_hit::RULE,
    &site::scribe_too_wide::RULE,
    &joinery::parts_overlap::RULE,
    &strength::sag::RULE,
    &strength::tips::RULE,
    // Last: a piece that can't be built is not judged by how it is made.
    &shop::bit_speed::RULE,
    &shop::clamps_short::RULE,
    &shop::open_time_short::RULE,
    &shop::small_for_router::RULE,
    &shop::small_parts::RULE,
    &accept::RULE,
];

/// Every rule: those that look at a piece, then those of the reader.
pub fn all() -> impl Iterator<Item = &'static Rule> {
    RULES.iter().copied().chain(reading::RULES)
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
    for rule in RULES {
        if let Check::Piece(check) = rule.check {
            check(piece, sink);
        }
    }
}

/// Runs the rules that look at the parts.
pub fn parts(piece: &Piece, parts: &Parts, sink: &mut Sink) {
    let ledger = LazyCell::new(|| Ledger::of(piece, parts));
    for rule in RULES {
        match rule.check {
            Check::Parts(check) => check(piece, parts, sink),
            Check::Cut(check) if !piece.cuts.is_empty() => check(&ledger, sink),
            _ => {}
        }
        // Whatever else is said of a board that can't be is a second message.
        let first = joinery::part_impossible::RULE.slug;
        if rule.slug == first && sink.all().iter().any(|found| found.slug == first) {
            return;
        }
    }
}
