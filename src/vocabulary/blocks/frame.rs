//! The face frame, and the lists of openings that are the elevation.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, may, needs};

const WIDE: Word = Word::new("wide", "its width", "wide 17-1/4").takes(&[needs(Kind::Size)]);
const HIGH: Word = Word::new("high", "its height", "high 5").takes(&[needs(Kind::Size)]);
const SHARE: Word =
    Word::new("share", "takes this share of what is left", "share 1").takes(&[needs(Kind::Number)]);
const SAME: Word = Word::new("same", "is as wide or high as another in its list", "same upper")
    .takes(&[needs(Kind::Path)]);
const FRONT: Word =
    Word::new("front", "where its front differs from the others", "front { build panel { … } }")
        .opens("fronts");
const STOCK: Word =
    Word::new("stock", "what it is made of", "stock cherry").takes(&[needs(Kind::Refer("stock"))]);
const JOINT: Word = Word::new("joint", "how its members are joined", "joint pocket")
    .takes(&[needs(Kind::Choice(&["pocket", "tenon", "dowel"]))])
    .may_open("joint");
const DIVIDER_JOINT: Word = Word::new("joint", "how it is joined", "joint dado { deep 1/4 }")
    .takes(&[needs(Kind::Choice(&["dado", "pocket", "screw"]))])
    .may_open("joint");
const ACROSS: Word = Word::new("across", "openings left to right", "across top-row { … }")
    .takes(&[may(Kind::Define)])
    .opens("group")
    .many();
const DOWN: Word = Word::new("down", "openings top to bottom", "down bank { wide 17-1/4; … }")
    .takes(&[may(Kind::Define)])
    .opens("group")
    .many();
const DRAWER: Word = Word::new("drawer", "a drawer", "drawer upper { high 5 }")
    .takes(&[needs(Kind::Define)])
    .may_open("drawer")
    .many();
const DOOR: Word = Word::new("door", "a single door", "door left-hand { hung left }")
    .takes(&[needs(Kind::Define)])
    .may_open("door")
    .many();
const DOORS: Word =
    Word::new("doors", "a pair of doors that meet in the middle", "doors press { share 1 }")
        .takes(&[needs(Kind::Define)])
        .may_open("doors")
        .many();
const OPEN: Word = Word::new("open", "an open niche", "open niche { wide 15 }")
    .takes(&[needs(Kind::Define)])
    .may_open("open")
    .many();
const FALSE: Word =
    Word::new("false", "a false front that does not open", "false apron { high 6 }")
        .takes(&[needs(Kind::Define)])
        .may_open("false")
        .many();
const STILE: Word =
    Word::new("stile", "an upright of the frame between two openings", "stile { wide 1-1/2 }")
        .takes(&[may(Kind::Define)])
        .opens("stile")
        .many();
const RAIL: Word =
    Word::new("rail", "a crosspiece of the frame between two openings", "rail { wide 1-1/2 }")
        .takes(&[may(Kind::Define)])
        .opens("rail")
        .many();
const DIVIDER: Word = Word::new("divider", "a board of the case between two openings of a frame-less case: a partition in `across`, a fixed shelf in `down`", "divider { stock birch-ply }")
    .takes(&[may(Kind::Define)])
    .may_open("divider")
    .many();
const SHELF: Word =
    Word::new("shelf", "shelves behind it", "shelf { adjustable 2 }").opens("shelf");

/// `frame { … }`
pub(super) const FRAME: Block = Block {
    name: "frame",
    title: "the frame",
    help: "A solid face frame on the front of the case: its outer members, and between them the openings.",
    words: &[
        STOCK,
        JOINT,
        Word::new("stile", "an outer stile", "stile left { wide 1-3/4; seam mitre }")
            .takes(&[needs(Kind::Choice(&["left", "right"]))])
            .opens("outer-stile")
            .many(),
        Word::new("rail", "an outer rail", "rail top { wide 1-1/2 }")
            .takes(&[needs(Kind::Choice(&["top", "bottom"]))])
            .opens("outer-rail")
            .many(),
        Word::new("across", "the openings, left to right", "across { … }").opens("list"),
        Word::new("down", "the openings, top to bottom", "down { … }").opens("list"),
        NOTE,
    ],
    one_of: &[(&["across", "down"], "the list of openings")],
};

/// `stile left { … }` of a frame
pub(super) const OUTER_STILE: Block = Block {
    name: "outer-stile",
    title: "an outer stile",
    help: "The stile at the left or right of the frame; it runs the whole height.",
    words: &[
        Word::new("wide", "its width, scribe included", "wide 1-3/4")
            .takes(&[needs(Kind::Size)])
            .required(),
        Word::new(
            "seam",
            "how it meets the end: `mitre` wraps the grain round the corner",
            "seam mitre",
        )
        .takes(&[needs(Kind::Choice(&["mitre", "butt"]))])
        .default("butt"),
        NOTE,
    ],
    one_of: &[],
};

/// `rail top { … }` of a frame
pub(super) const OUTER_RAIL: Block = Block {
    name: "outer-rail",
    title: "an outer rail",
    help: "The rail at the top or bottom of the frame; it runs between the outer stiles.",
    words: &[
        Word::new("wide", "its width", "wide 1-1/2").takes(&[needs(Kind::Size)]).required(),
        NOTE,
    ],
    one_of: &[],
};

/// The braces of the first `across` or `down`.
pub(super) const LIST: Block = Block {
    name: "list",
    title: "a list of openings",
    help: "The elevation: `across` is read left to right, `down` top to bottom, and they nest as deep as the piece does. Order matters here and nowhere else.",
    words: &[DRAWER, DOOR, DOORS, OPEN, FALSE, ACROSS, DOWN, STILE, RAIL, DIVIDER],
    one_of: &[],
};

/// The braces of a nested `across` or `down`.
pub(super) const GROUP: Block = Block {
    name: "group",
    title: "a nested list of openings",
    help: "A list inside a list: it has a size of its own besides its openings.",
    words: &[
        WIDE, HIGH, SHARE, SAME, NOTE, DRAWER, DOOR, DOORS, OPEN, FALSE, ACROSS, DOWN, STILE, RAIL,
        DIVIDER,
    ],
    one_of: &[],
};

/// `stile { … }` between openings
pub(super) const STILE_BLOCK: Block = Block {
    name: "stile",
    title: "a stile",
    help: "An upright of the frame. Where it runs the whole height of the openings, a partition stands behind it.",
    words: &[
        Word::new("wide", "its width", "wide 1-1/2").takes(&[needs(Kind::Size)]).required(),
        Word::new(
            "partition",
            "the partition behind it, where it differs; `none` leaves it out",
            "partition { joint dado { deep 1/4 } }",
        )
        .takes(&[may(Kind::Choice(&["none"]))])
        .may_open("panels"),
        NOTE,
    ],
    one_of: &[],
};

/// `rail { … }` between openings
pub(super) const RAIL_BLOCK: Block = Block {
    name: "rail",
    title: "a rail",
    help: "A crosspiece of the frame.",
    words: &[
        Word::new("wide", "its width", "wide 1-1/2").takes(&[needs(Kind::Size)]).required(),
        NOTE,
    ],
    one_of: &[],
};

/// `divider { … }`
pub(super) const DIVIDER_BLOCK: Block = Block {
    name: "divider",
    title: "a divider",
    help: "A board of the case between two openings.",
    words: &[STOCK, DIVIDER_JOINT, NOTE],
    one_of: &[],
};

/// `drawer NAME { … }`
pub(super) const DRAWER_BLOCK: Block = Block {
    name: "drawer",
    title: "a drawer",
    help: "An opening with a drawer.",
    words: &[
        WIDE,
        HIGH,
        SHARE,
        SAME,
        FRONT,
        Word::new("slide", "where its slide differs", "slide soft-12")
            .takes(&[needs(Kind::Refer("slide"))]),
        Word::new("around", "the keep-out that its box is cut round", "around \"trap\"")
            .takes(&[needs(Kind::Text)]),
        Word::new("load", "what it holds, where it differs", "load 40 lb per ft2")
            .takes(&[needs(Kind::Load)]),
        NOTE,
    ],
    one_of: &[],
};

/// `door NAME { … }`
pub(super) const DOOR_BLOCK: Block = Block {
    name: "door",
    title: "a door",
    help: "An opening with a single door.",
    words: &[
        WIDE,
        HIGH,
        SHARE,
        SAME,
        Word::new("hung", "the side of its hinges", "hung left")
            .takes(&[needs(Kind::Choice(&["left", "right"]))])
            .required(),
        FRONT,
        SHELF,
        NOTE,
    ],
    one_of: &[],
};

/// `doors NAME { … }`
pub(super) const DOORS_BLOCK: Block = Block {
    name: "doors",
    title: "a pair of doors",
    help: "An opening with two leaves that meet in the middle.",
    words: &[WIDE, HIGH, SHARE, SAME, FRONT, SHELF, NOTE],
    one_of: &[],
};

/// `open NAME { … }`
pub(super) const OPEN_BLOCK: Block = Block {
    name: "open",
    title: "a niche",
    help: "An opening without a front.",
    words: &[WIDE, HIGH, SHARE, SAME, SHELF, NOTE],
    one_of: &[],
};

/// `false NAME { … }`
pub(super) const FALSE_FRONT: Block = Block {
    name: "false",
    title: "a false front",
    help: "An opening closed by a front that does not open.",
    words: &[WIDE, HIGH, SHARE, SAME, FRONT, NOTE],
    one_of: &[],
};

/// `shelf { … }`
pub(super) const SHELF_BLOCK: Block = Block {
    name: "shelf",
    title: "the shelves of an opening",
    help: "How many shelves stand behind an opening.",
    words: &[
        Word::new("adjustable", "shelves on pins", "adjustable 2")
            .takes(&[needs(Kind::Count(100))]),
        Word::new("fixed", "shelves joined to the case, evenly spaced", "fixed 1")
            .takes(&[needs(Kind::Count(100))]),
        Word::new("load", "what stands on each, where it differs", "load 50 lb per ft2")
            .takes(&[needs(Kind::Load)]),
        NOTE,
    ],
    one_of: &[(&["adjustable", "fixed"], "how the shelves are held")],
};
