//! Whether boards hold their load, and whether the piece stands.

mod back_missing;
mod case_loose;
mod glass_shelf_weak;
mod hangs_and_stands;
mod hung_load;
mod hung_unfixed;
mod leg_load;
mod no_floor;
mod overhang;
mod rod_bends;
mod sag;
mod stack_sags;
mod stack_unheld;
mod studs_few;
mod tips;
mod studs_many;
mod niche_undivided;
mod upright_free;

use crate::checks::rule::Rule;
use crate::diagnostics::{Fix, Grade};
use crate::measure::Span;
use crate::model::{Case, Piece};

pub(crate) use tips::SLUG as TIPS;

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &back_missing::RULE,
    &case_loose::RULE,
    &glass_shelf_weak::RULE,
    &hangs_and_stands::RULE,
    &hung_load::RULE,
    &hung_unfixed::RULE,
    &leg_load::RULE,
    &niche_undivided::RULE,
    &no_floor::RULE,
    &overhang::RULE,
    &rod_bends::RULE,
    &sag::RULE,
    &stack_sags::RULE,
    &stack_unheld::RULE,
    &studs_few::RULE,
    &studs_many::RULE,
    &tips::RULE,
    &upright_free::RULE,
];

/// The edit that has the piece screwed to the wall: in its `site`, or in one that is put
/// before the first case, or before the run that holds it.
fn fix_to_wall(piece: &Piece, case: &Case) -> Fix {
    const TITLE: &str = "screw it to the wall";
    if let Some(place) = piece.site.fixed_at {
        return place.says("fixing wall", TITLE);
    }
    let first = piece.cases.first().unwrap_or(case);
    let run = first.run.and_then(|run| piece.run(run));
    let at = run.map_or(first.span, |run| run.span);
    Fix::new(Grade::Choice, TITLE, Span { end: at.start, ..at }, "site { fixing wall }\n\n")
}
