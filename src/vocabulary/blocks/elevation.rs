//! The face frame, and the lists of openings that are the elevation.

use super::*;
pub(crate) use super::{AROUND, NOTE, PART_FINISH};

words! {
    WIDE: Size = ("wide", "its width", "wide 17-1/4")
        .can_be("10 mm", "6 m")
        .usual("60 mm", "8 ft");
    HIGH: Size = ("high", "its height", "high 5")
        .can_be("10 mm", "3.5 m")
        .usual("40 mm", "8.5 ft");
    DRAWER_HIGH: Size = ("high", "its height", "high 5")
        .can_be("10 mm", "3.5 m")
        .usual("45 mm", "20 in");
    DOOR_HIGH: Size = ("high", "its height", "high 26")
        .can_be("10 mm", "3.5 m")
        .usual("125 mm", "8.5 ft");
    FALSE_HIGH: Size = ("high", "its height", "high 5")
        .can_be("10 mm", "3.5 m")
        .usual("25 mm", "60 in");
    SHARE: Number = ("share", "its share of what is left", "share 1")
        .can_be("0.001", "1000")
        .usual("1/8", "8");
    SAME: Path = ("same", "another opening in its list that it is as wide or high as", "same upper");
    FRONT: Braces = (
        "front",
        "how its front differs from the others",
        "front { build panel { … } }",
    ).opens(fronts::block);
    STOCK: Refer<Stock> = ("stock", "what it is made of", "stock cherry");
    JOINT: FrameJoint = (
        "joint",
        "how its members are joined",
        "joint pocket",
    ).may_open(joint::block);
    EDGES: Refer<Stock> = (
        "edges",
        "what its front edge is lipped or banded with, or `none`; its size includes it, so the core is cut smaller",
        "edges cherry { thick 1/4 }",
    ).may_open(edges::block);
    DIVIDER_JOINT: DividerJoint = (
        "joint",
        "how it is joined",
        "joint dado { deep 1/4 }",
    ).may_open(joint::block);
    ACROSS: Maybe<Define> = (
        "across",
        "openings left to right",
        "across top-row { … }",
    ).opens(group::block).many().reads_across();
    DOWN: Maybe<Define> = (
        "down",
        "openings top to bottom",
        "down bank { wide 17-1/4; … }",
    ).opens(group::block).many();
    DRAWER: Define = (
        "drawer",
        "a drawer",
        "drawer upper { high 5 }",
    ).may_open(drawer::block).many();
    DOOR: Define = (
        "door",
        "a single door",
        "door left-hand { hung left }",
    ).may_open(door::block).many();
    DOORS: Define = (
        "doors",
        "a pair of doors that meet in the middle",
        "doors press { share 1 }",
    ).may_open(doors::block).many();
    OPEN: Define = (
        "open",
        "an open niche",
        "open niche { wide 15 }",
    ).may_open(open::block).many();
    FALSE: Define = (
        "false",
        "a false front that does not open",
        "false apron { high 6 }",
    ).may_open(false_front::block).many();
    STILE: Maybe<Define> = (
        "stile",
        "an upright member of the frame between two openings",
        "stile { wide 1-1/2 }",
    ).opens(stile::block).many();
    RAIL: Maybe<Define> = (
        "rail",
        "a crosspiece of the frame between two openings",
        "rail { wide 1-1/2 }",
    ).opens(rail::block).many();
    DIVIDER: Maybe<Define> = (
        "divider",
        "a board between two openings without a member of the frame before it; it is a partition in `across` and a fixed shelf in `down`",
        "divider { stock birch-ply }",
    ).may_open(divider::block).many();
    SHELF: Braces = ("shelf", "shelves behind it", "shelf { adjustable 2 }").opens(shelf::block);
    TRAY: Define = (
        "tray",
        "a drawer box without a front, behind doors",
        "tray jars { share 1 }",
    ).may_open(tray::block).many();
    DRAWER_BEHIND: Define = (
        "drawer",
        "a drawer with a front of its own, behind doors",
        "drawer socks { high 7 }",
    ).may_open(drawer_behind::block).many();
    ACROSS_BEHIND: Braces = (
        "across",
        "what stands behind it, left to right",
        "across { … }",
    ).opens(list_behind::block).reads_across();
    DOWN_BEHIND: Braces = (
        "down",
        "what stands behind it, top to bottom",
        "down { tray jars { share 1 }; tray tins { same jars } }",
    ).opens(list_behind::block);
    GROUP_ACROSS: Maybe<Define> = (
        "across",
        "what stands there, left to right",
        "across { share 1; … }",
    ).opens(group_behind::block).many().reads_across();
    GROUP_DOWN: Maybe<Define> = (
        "down",
        "what stands there, top to bottom",
        "down folded { wide 450 mm; … }",
    ).opens(group_behind::block).many();
    SLIDE: Refer<Slide> = ("slide", "its slide, where it differs from the others", "slide soft-12");
    ROD: Flag = (
        "rod",
        "a hanging rail from side to side",
        "rod { diameter 1-1/4 }",
    ).may_open(rod::block);
    BOX: Braces = (
        "box",
        "its box, where it is lower than its slide lets it be",
        "box { high 3-1/2 }",
    ).opens(box_size::block);
    HOLDS: Load = ("load", "what it holds, where that differs", "load 40 lb per ft2")
        .can_be("1 kg per m2", "5000 kg per m2")
        .usual("20 kg per m2", "700 kg per m2");
}

block! {
    /// `frame { … }`
    frame: "frame", "the frame",
    "A solid face frame on the front of the case, with its outer members and the openings between them.";
    STOCK;
    JOINT;
    STILE: Side = (
        "stile",
        "an outer stile",
        "stile left { wide 1-3/4; seam miter }",
    ).opens(outer_stile::block).many();
    RAIL: RailSide = (
        "rail",
        "an outer rail",
        "rail top { wide 1-1/2 }",
    ).opens(outer_rail::block).many();
    ACROSS: Braces = ("across", "the openings, left to right", "across { … }").opens(list::block).reads_across();
    DOWN: Braces = ("down", "the openings, top to bottom", "down { … }").opens(list::block);
    FINISH = PART_FINISH;
    NOTE;
    [one_of "the list of openings"] {
        /// Which way the root list of a frame runs.
        pub(crate) Root {
            /// Left to right.
            Across = ACROSS,
            /// Top to bottom.
            Down = DOWN,
        }
    }
}

block! {
    /// `stile left { … }` of a frame
    outer_stile: "outer-stile", "an outer stile",
    "The stile at the left or right of the frame. It runs the full height.";
    WIDE: Size = ("wide", "its width, scribe included", "wide 1-3/4").required()
        .can_be("5 mm", "1 m")
        .usual("18 mm", "8 in");
    SEAM: Seam = (
        "seam",
        "how it meets the end; `miter` wraps the grain around the corner",
        "seam miter",
    ).default("butt");
    NOTE;
}

block! {
    /// `rail top { … }` of a frame
    outer_rail: "outer-rail", "an outer rail",
    "The rail at the top or bottom of the frame. It runs between the outer stiles.";
    WIDE: Size = ("wide", "its width", "wide 1-1/2").required()
        .can_be("5 mm", "1 m")
        .usual("18 mm", "9 in");
    NOTE;
}

block! {
    /// The braces of the first `across` or `down`.
    list: "list", "a list of openings",
    "The elevation. `across` reads left to right and `down` reads top to bottom, and they nest as deep as the piece does. Order matters here and nowhere else.";
    DRAWER;
    DOOR;
    DOORS;
    OPEN;
    FALSE;
    ACROSS;
    DOWN;
    STILE;
    RAIL;
    DIVIDER;
}

block! {
    /// The braces of a nested `across` or `down`.
    group: "group", "a nested list of openings",
    "A list inside a list. It has a size of its own besides its openings.";
    WIDE;
    HIGH;
    SHARE;
    SAME;
    NOTE;
    DRAWER;
    DOOR;
    DOORS;
    OPEN;
    FALSE;
    ACROSS;
    DOWN;
    STILE;
    RAIL;
    DIVIDER;
}

block! {
    /// `stile { … }` between openings
    stile: "stile", "a stile",
    "An upright member of the frame. A partition stands behind it where it has a board of the case to stand on and one to reach up to: at the bottom and top of the case, or the shelf behind a rail. Unasked, one stands beside a drawer, and between what a door closes and what stays open.";
    WIDE: Size = ("wide", "its width", "wide 1-1/2").required()
        .can_be("5 mm", "1 m")
        .usual("12 mm", "9 in");
    PARTITION: Maybe<Nothing> = (
        "partition",
        "the partition behind it, where it differs from the others; `none` leaves it out",
        "partition { joint dado { deep 1/4 } }",
    ).may_open(panels::block);
    NOTE;
}

block! {
    /// `rail { … }` between openings
    rail: "rail", "a rail",
    "A crosspiece of the frame. Where it carries what stands above it, a fixed shelf lies behind it: under a niche and under doors, unless `shelf none` leaves it out.";
    WIDE: Size = ("wide", "its width", "wide 1-1/2").required()
        .can_be("5 mm", "1 m")
        .usual("12 mm", "9 in");
    SHELF: Maybe<Nothing> = (
        "shelf",
        "the fixed shelf behind it; `none` leaves it out",
        "shelf { load 40 lb per ft2 }",
    ).may_open(rail_shelf::block);
    NOTE;
}

block! {
    /// `around "…" { … }`
    around: "around", "a cut around a keep-out",
    "The cuts go through the whole thickness. In a board they are open at its rear edge, in the sides and the back of a box at the top.";
    CLEAR: Length = (
        "clear",
        "how far the cuts stay clear of it; if not written, 1 in (25 mm) where the keep-out is hot, and 1/2 in (12 mm) elsewhere",
        "clear 1",
    ).can_be("0 mm", "1200 mm")
        .usual("0 mm", "150 mm");
}

block! {
    /// `drawer NAME { … }`
    drawer: "drawer", "a drawer",
    "An opening with a drawer.";
    WIDE;
    HIGH = DRAWER_HIGH;
    SHARE;
    SAME;
    FRONT;
    SLIDE;
    AROUND;
    BOX;
    HOLDS;
    NOTE;
}

block! {
    /// `tray NAME { … }`
    tray: "tray", "a tray",
    "A drawer box without a front that stands behind doors. Its slides keep clear of the open leaf, so its box is narrower than what is seen of its opening.";
    WIDE;
    HIGH = DRAWER_HIGH;
    SHARE;
    SAME;
    SLIDE;
    AROUND;
    BOX;
    HOLDS;
    SET_BACK: Length = (
        "set-back",
        "from the back of the closed doors, or from the face of the case behind overlay doors, to its front",
        "set-back 1/2",
    ).default("1/4 in").metric("6 mm")
        .can_be("0 in", "12 in")
        .usual("1.5 mm", "6 in");
    NOTE;
}

block! {
    /// `drawer NAME { … }` behind doors
    drawer_behind: "drawer-behind", "a drawer behind doors",
    "A drawer that stands behind doors. Its front lies between the boards and packers beside it, so far behind the closed doors that its pull clears them. Front and box keep clear of the open leaf, as those of a tray do.";
    WIDE;
    HIGH = DRAWER_HIGH;
    SHARE;
    SAME;
    FRONT;
    SLIDE;
    AROUND;
    BOX;
    HOLDS;
    SET_BACK: Length = (
        "set-back",
        "from the back of the closed doors, or from the face of the case behind overlay doors, to the face of its front; unless written, what its pull stands off and 1/4 in or 6 mm",
        "set-back 1-1/4",
    )
        .can_be("0 mm", "600 mm")
        .usual("1 mm", "300 mm");
    NOTE;
}

block! {
    /// `box { … }` of a drawer or tray
    box_size: "box", "the size of a box",
    "What a drawer box measures where it is smaller than its slide lets it be. Its lower edge stays where the slide holds it.";
    HIGH: Length = ("high", "its height", "high 3-1/2").required()
        .can_be("10 mm", "1 m")
        .usual("30 mm", "16 in");
}

block! {
    /// The list of a door.
    list_behind: "list-behind", "a list behind doors",
    "What is seen when the doors are open. It fills the opening of the doors, and it reads as the elevation does. The frame is before it, so a board between two items is a `divider`.";
    TRAY;
    DRAWER = DRAWER_BEHIND;
    OPEN;
    ACROSS = GROUP_ACROSS;
    DOWN = GROUP_DOWN;
    DIVIDER;
}

block! {
    /// A nested list behind doors.
    group_behind: "group-behind", "a nested list behind doors",
    "A list inside a list behind doors. It has a size of its own besides what stands in it.";
    WIDE;
    HIGH;
    SHARE;
    SAME;
    NOTE;
    TRAY;
    DRAWER = DRAWER_BEHIND;
    OPEN;
    ACROSS = GROUP_ACROSS;
    DOWN = GROUP_DOWN;
    DIVIDER;
}

block! {
    /// `door NAME { … }`
    door: "door", "a door",
    "An opening with a single door.";
    WIDE;
    HIGH = DOOR_HIGH;
    SHARE;
    SAME;
    HUNG: Side = ("hung", "the side that its hinges are on", "hung left").required();
    FRONT;
    SHELF;
    ACROSS = ACROSS_BEHIND;
    DOWN = DOWN_BEHIND;
    NOTE;
}

block! {
    /// `doors NAME { … }`
    doors: "doors", "a pair of doors",
    "An opening with two leaves that meet in the middle.";
    WIDE;
    HIGH = DOOR_HIGH;
    SHARE;
    SAME;
    FRONT;
    SHELF;
    ACROSS = ACROSS_BEHIND;
    DOWN = DOWN_BEHIND;
    NOTE;
}

block! {
    /// `open NAME { … }`
    open: "open", "a niche",
    "An opening without a front.";
    WIDE;
    HIGH;
    SHARE;
    SAME;
    SHELF;
    ROD;
    NOTE;
}

block! {
    /// `false NAME { … }`
    false_front: "false", "a false front",
    "An opening that is closed by a front that does not open.";
    WIDE;
    HIGH = FALSE_HIGH;
    SHARE;
    SAME;
    FRONT;
    NOTE;
}

kinds! {
    /// A list in a list of openings.
    pub(crate) Nested {
        /// Left to right.
        Across = ACROSS,
        /// Top to bottom.
        Down = DOWN,
    }
}

kinds! {
    /// An opening in a list.
    pub(crate) OpeningWord {
        /// A drawer.
        Drawer = DRAWER,
        /// A single door.
        Door = DOOR,
        /// A pair of doors.
        Doors = DOORS,
        /// A niche.
        Open = OPEN,
        /// A front that does not open.
        False = FALSE,
        /// A box without a front, behind doors.
        Tray = TRAY,
    }
}

kinds! {
    /// What stands between two openings of a list.
    pub(crate) Between {
        /// An upright of the frame.
        Stile = STILE,
        /// A crosspiece of the frame.
        Rail = RAIL,
        /// A board of a frame-less case.
        Divider = DIVIDER,
    }
}
