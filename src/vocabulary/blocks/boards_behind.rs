//! The lying boards between the openings of a case: behind a rail, or by themselves.

pub(crate) use super::NOTE;
pub(crate) use super::elevation::{DIVIDER_JOINT, EDGES, STOCK};
use super::*;

words! {
    /// A load of a board that is as that of the shelves where it is not written.
    LOAD: Load = ("load", "what stands on it, where that differs from the other shelves", "load 40 lb per ft2")
        .can_be("1 kg per m2", "5000 kg per m2")
        .usual("20 kg per m2", "700 kg per m2");
    /// How a lying board between openings is built.
    BOARD_BUILD: BoardBuild = (
        "build",
        "how it is built: one board, or a web frame for drawers that run on it; if not written, a shelf behind a rail is as the shelves of the case say, and a divider is one board",
        "build web { wide 2-1/2; panel-stock thin-ply }",
    ).may_open(web::block);
}

block! {
    /// `build web { … }`
    web: "web", "a web frame",
    "A frame in place of a board, of the stock of the shelf or divider that is built so: name solid wood there, as in `shelf { stock maple; build web { } }`. It has a rail at the front and one at the back, and between them runners, from front to back, that stand with stub tenons in grooves along the rails. A runner lies at each side, and one wherever the inner sides of drawers above or below need it; each is as wide as it takes to carry them. The frame goes into dadoes. Where an end or a partition is of solid wood, only the front tenons and the ends of the rails are glued: the back tenons are longer and stay dry, with a gap at their shoulders, so that the wood can move.";
    WIDE: Length = (
        "wide",
        "the width of its rails, and the least width of its runners",
        "wide 2-1/2",
    ).default("2-1/2 in").metric("60 mm")
        .can_be("1/2 in", "16 in")
        .usual("30 mm", "6 in");
    TENON: Length = (
        "tenon",
        "how long the stub tenons of the runners are; dry ones at the back are longer by what the year asks for",
        "tenon 3/8",
    ).default("3/8 in").metric("10 mm")
        .can_be("3 mm", "60 mm")
        .usual("6 mm", "30 mm");
    ROOM: Length = (
        "room",
        "how much deeper the grooves are than what goes into them",
        "room 1/16",
    ).default("1/16 in").metric("1.5 mm")
        .can_be("0 mm", "20 mm")
        .usual("0.3 mm", "6 mm");
    PANEL_STOCK: Refer<Stock> = (
        "panel-stock",
        "the sheet that dust panels are made of; they lie in the grooves between the runners, and the grooves are as wide as the sheet is thick; if not written, it has none",
        "panel-stock thin-ply",
    );
}

block! {
    /// `shelf { … }` of a rail
    rail_shelf: "rail-shelf", "the shelf behind a rail",
    "A fixed shelf behind a rail, from one upright board to the next. Its top lies level with the top of the rail.";
    STOCK;
    JOINT = DIVIDER_JOINT;
    BUILD = BOARD_BUILD;
    LIP: Length = (
        "lip",
        "how far the rail stands up above the shelf; more than the width of the rail less the thickness of the shelf makes the shelf a stop for a door below",
        "lip 1/4",
    ).default("0 in")
        .can_be("0 mm", "6 in")
        .usual("1.5 mm", "2 in");
    LOAD;
    NOTE;
}

block! {
    /// `divider { … }`
    divider: "divider", "a divider",
    "A board of the case between two openings; what it does not say is as the partitions are. In a case with a face frame, its front edge stands behind the frame, and inset fronts beside it close before it.";
    STOCK;
    JOINT = DIVIDER_JOINT;
    BUILD = BOARD_BUILD;
    LOAD;
    EDGES;
    NOTE;
}
