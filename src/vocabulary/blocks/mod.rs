//! The vocabulary: one file a group of blocks, one registry.

mod case;
mod frame;
mod fronts;
mod hardware;
mod job;
mod later;
pub use later::MADE;
mod shop;
mod site;
mod species;
mod stock;
mod top;

use super::word::{Block, Kind, Word, needs};

/// Every block of the language, the file itself first.
pub const BLOCKS: &[&Block] = &[
    &top::FILE,
    &job::JOB,
    &site::SITE,
    &site::WALL,
    &site::KEEP_OUT,
    &shop::SHOP,
    &shop::ALLOW,
    &shop::TOLERANCE,
    &species::SPECIES,
    &species::SHRINKS,
    &stock::STOCK,
    &stock::SHEET,
    &stock::ON_HAND,
    &stock::BOARDS,
    &hardware::HINGE,
    &hardware::PLATE,
    &hardware::POSE,
    &hardware::SLIDE,
    &hardware::NOTCH,
    &hardware::PULL,
    &hardware::BIT,
    &hardware::FINISH,
    &case::CASE,
    &case::BASE,
    &case::PANELS,
    &case::END,
    &case::BOTTOM,
    &case::BACK,
    &case::TOP,
    &case::STRETCHERS,
    &case::LEG,
    &case::SHELVES,
    &case::JOINT,
    &frame::FRAME,
    &frame::OUTER_STILE,
    &frame::OUTER_RAIL,
    &frame::LIST,
    &frame::GROUP,
    &frame::STILE_BLOCK,
    &frame::RAIL_BLOCK,
    &frame::DIVIDER_BLOCK,
    &frame::DRAWER_BLOCK,
    &frame::DOOR_BLOCK,
    &frame::DOORS_BLOCK,
    &frame::OPEN_BLOCK,
    &frame::FALSE_FRONT,
    &frame::SHELF_BLOCK,
    &fronts::FRONTS,
    &fronts::OVERLAY,
    &fronts::PANEL,
    &fronts::FLUTES,
    &fronts::DRAWERS,
    &fronts::GROOVE,
    &later::MEASURED,
    &later::OPENING,
    &later::DIAGONALS,
    &later::STOCK,
    &later::SHOP,
    &later::CUT,
    &later::CUT_PART,
    &later::MADE_JOINT,
];

/// The note that any item may carry to the papers.
const NOTE: Word = Word::new(
    "note",
    "printed on the papers beside this item",
    "note \"sand to 180 before glue-up\"",
)
.takes(&[needs(Kind::Text)])
.many();

/// The block with this name.
#[must_use]
pub fn block_named(name: &str) -> Option<&'static Block> {
    BLOCKS.iter().copied().find(|block| block.name == name)
}
