//! The vocabulary: one file a group of blocks, one registry.

#[macro_use]
mod declare;

mod boards_behind;
mod bought_legs;
mod cabinet;
mod elevation;
mod finishes;
mod fronts_and_boxes;
mod hardware;
mod holes;
mod in_openings;
mod job_and_shop;
mod materials;
mod of_case;
mod records;
mod runs;
mod standing;
mod whole_file;

pub(crate) use boards_behind::*;
pub(crate) use bought_legs::*;
pub(crate) use cabinet::*;
pub(crate) use elevation::*;
pub(crate) use finishes::*;
pub(crate) use fronts_and_boxes::*;
pub(crate) use hardware::*;
pub(crate) use holes::*;
pub(crate) use in_openings::*;
pub(crate) use job_and_shop::*;
pub(crate) use materials::*;
pub(crate) use of_case::*;
pub(crate) use records::*;
pub(crate) use runs::*;
pub(crate) use standing::*;
pub(crate) use whole_file::*;

use super::choices::*;
use super::takes::*;
use super::word::Block;

/// Every block of the language, the file itself first.
pub static BLOCKS: &[&Block] = &[
    &file::BLOCK,
    &job::BLOCK,
    &give::BLOCK,
    &site::BLOCK,
    &wall::BLOCK,
    &keep_out::BLOCK,
    &baseboard::BLOCK,
    &shop::BLOCK,
    &allow::BLOCK,
    &times::BLOCK,
    &tolerance::BLOCK,
    &supply::BLOCK,
    &glue::BLOCK,
    &abrasive::BLOCK,
    &species::BLOCK,
    &shrinks::BLOCK,
    &stock::BLOCK,
    &sheet::BLOCK,
    &on_hand::BLOCK,
    &roll::BLOCK,
    &boards::BLOCK,
    &hinge::BLOCK,
    &plate::BLOCK,
    &pose::BLOCK,
    &slide::BLOCK,
    &notch::BLOCK,
    &hook::BLOCK,
    &wooden::BLOCK,
    &pull::BLOCK,
    &bought_leg::BLOCK,
    &leg_plate::BLOCK,
    &leg_hole::BLOCK,
    &bit::BLOCK,
    &finish::BLOCK,
    &mix::BLOCK,
    &can::BLOCK,
    &case::BLOCK,
    &like::BLOCK,
    &edges::BLOCK,
    &front_edges::BLOCK,
    &countertop_edges::BLOCK,
    &run::BLOCK,
    &run_list::BLOCK,
    &run_case::BLOCK,
    &filler::BLOCK,
    &space::BLOCK,
    &takes_block::BLOCK,
    &base::BLOCK,
    &stands_on_legs::BLOCK,
    &posts::BLOCK,
    &ends::BLOCK,
    &end_panel::BLOCK,
    &panels::BLOCK,
    &end::BLOCK,
    &cover::BLOCK,
    &bottom::BLOCK,
    &back::BLOCK,
    &hung::BLOCK,
    &stands_on::BLOCK,
    &nailers::BLOCK,
    &top::BLOCK,
    &stretchers::BLOCK,
    &countertop::BLOCK,
    &over::BLOCK,
    &hole_lying::BLOCK,
    &hole_across::BLOCK,
    &hole_upright::BLOCK,
    &leg::BLOCK,
    &shelves::BLOCK,
    &pins::BLOCK,
    &joint::BLOCK,
    &frame::BLOCK,
    &outer_stile::BLOCK,
    &outer_rail::BLOCK,
    &list::BLOCK,
    &group::BLOCK,
    &stile::BLOCK,
    &rail::BLOCK,
    &rail_shelf::BLOCK,
    &divider::BLOCK,
    &web::BLOCK,
    &drawer::BLOCK,
    &tray::BLOCK,
    &drawer_behind::BLOCK,
    &box_size::BLOCK,
    &around::BLOCK,
    &list_behind::BLOCK,
    &group_behind::BLOCK,
    &door::BLOCK,
    &doors::BLOCK,
    &open::BLOCK,
    &rod::BLOCK,
    &false_front::BLOCK,
    &shelf::BLOCK,
    &fronts::BLOCK,
    &hinge_place::BLOCK,
    &pull_place::BLOCK,
    &finger::BLOCK,
    &overlay::BLOCK,
    &panel::BLOCK,
    &mid_rail::BLOCK,
    &flutes::BLOCK,
    &drawers::BLOCK,
    &groove::BLOCK,
    &measured::BLOCK,
    &measured_opening::BLOCK,
    &diagonals::BLOCK,
    &measured_stock::BLOCK,
    &measured_shop::BLOCK,
    &cut::BLOCK,
    &cut_part::BLOCK,
    &made::BLOCK,
];

words! {
    /// What a box, or every board of a case, is cut round.
    AROUND: Text = (
        "around",
        "a keep-out that it is cut around: a drawer box, or every board and box of a case",
        "around \"trap\" { clear 1 }",
    ).may_open(around::block).many();
    /// How long something that is bought takes to come.
    LEAD_TIME: LeadTime = (
        "lead-time",
        "how long it takes to come once it is ordered: the buying list says what to order first",
        "lead-time 3 weeks",
    )
        .can_be("1 day", "104 weeks")
        .usual("1 day", "26 weeks");
    /// The same of what is bought by the piece.
    LEAD_TIMES: LeadTime = (
        "lead-time",
        "how long they take to come once they are ordered: the buying list says what to order first",
        "lead-time 3 weeks",
    )
        .can_be("1 day", "104 weeks")
        .usual("1 day", "26 weeks");
    /// The note that any item may carry to the papers.
    NOTE: Text = (
        "note",
        "printed on the papers beside this item",
        "note \"sand to 180 before glue-up\"",
    ).many();
}

/// The block with this name.
#[must_use]
pub fn block_named(name: &str) -> Option<&'static Block> {
    BLOCKS.iter().copied().find(|block| block.name == name)
}
