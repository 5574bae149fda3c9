//! A case and its boards.

use super::*;
pub(crate) use super::{
    AROUND, CASE_ACROSS, CASE_BACK, CASE_BASE, CASE_BOTTOM, CASE_COVER, CASE_DOWN, CASE_DRAWERS,
    CASE_EDGES, CASE_END, CASE_ENDS, CASE_FINISH, CASE_FRONTS, CASE_HIGH, CASE_HUNG, CASE_LEG,
    CASE_LIKE, CASE_PARTITIONS, CASE_SHELVES, CASE_STOCK, CASE_TOP, CASE_WIDE, NOTE, PART_FINISH,
};
pub(crate) use super::{HOLE_ACROSS, HOLE_LYING, HOLE_UPRIGHT};

words! {
    STOCK: Refer<Stock> = ("stock", "what it is made of", "stock birch-ply");
    BOARD_JOINT: BoardJoint = (
        "joint",
        "how it is joined; if not written, with dadoes",
        "joint dado { deep 1/4 }",
    ).may_open(joint::block);
    EDGES: Refer<Stock> = (
        "edges",
        "what its front edge is lipped or banded with, or `none`; its size includes it, so the core is cut smaller",
        "edges cherry { thick 1/4 }",
    ).may_open(edges::block);
    /// How thick a strip of solid wood is ripped.
    LIP_THICK: Length = (
        "thick",
        "how thick a lip of solid wood is; banding is as thick as its stock",
        "thick 1/4",
    ).default("1/4 in").metric("6 mm")
        .can_be("1 mm", "75 mm")
        .usual("1.5 mm", "1-1/2 in");
    /// A load that stands on a board; its limit is tighter where none is written.
    LOAD: Load = (
        "load",
        "what stands on it, for its sag; books weigh 40 to 50 lb per square foot",
        "load 40 lb per ft2",
    ).default("15 lb per ft2")
        .can_be("1 kg per m2", "5000 kg per m2")
        .usual("20 kg per m2", "700 kg per m2");
    BACK_JOINT: BackJoint = (
        "joint",
        "how it is fixed: in rabbets of the ends, or screwed on behind them; if not written, in rabbets",
        "joint rabbet { deep 3/8 }",
    ).may_open(joint::block);
}

block! {
    /// `case NAME { … }`
    case: "case", "a case",
    "A cabinet. Its sizes are overall sizes: they include the frame, the base, and overlay fronts, but not a countertop. You may leave a size out where the openings give it.";
    LIKE = CASE_LIKE;
    WIDE = CASE_WIDE;
    DEEP: Length = ("deep", "overall depth, from the foremost face to the back; a countertop may overhang both", "deep 17").required()
        .can_be("30 mm", "3 m")
        .usual("4 in", "36 in");
    HIGH = CASE_HIGH;
    STOCK = CASE_STOCK;
    BASE = CASE_BASE;
    HUNG = CASE_HUNG;
    ON: Path = (
        "on",
        "the case or the run that it stands on, in place of the floor",
        "on sideboard",
    ).may_open(stands_on::block);
    ENDS = CASE_ENDS;
    END = CASE_END;
    COVER = CASE_COVER;
    BOTTOM = CASE_BOTTOM;
    BACK = CASE_BACK;
    TOP = CASE_TOP;
    COUNTERTOP: Braces = (
        "countertop",
        "what is laid on top of the case; `high` leaves it out",
        "countertop { stock oak; over 1 }",
    ).opens(countertop::block).also("worktop");
    PARTITIONS = CASE_PARTITIONS;
    SHELVES = CASE_SHELVES;
    LEG = CASE_LEG;
    FRAME: Maybe<Nothing> = (
        "frame",
        "the face frame, or `none`",
        "frame { stock cherry; … }",
    ).may_open(frame::block).required();
    ACROSS = CASE_ACROSS;
    DOWN = CASE_DOWN;
    FRONTS = CASE_FRONTS;
    DRAWERS = CASE_DRAWERS;
    EDGES = CASE_EDGES;
    FINISH = CASE_FINISH;
    AROUND;
    NOTE;
}

block! {
    /// `edges STOCK { … }`
    edges: "edges", "an edging",
    "A strip on the edge of a sheet: a lip ripped from solid wood, or banding from a roll. The size of a board is its finished size, so the board is sawn smaller by the strip. Strips go on before any joint is cut; those at the ends and at the back first, the front edge last. A lip is trimmed flush with both faces, and then the board is cut to its final size with the lip against the fence. An edge behind a member of the frame takes none, and solid wood needs none.";
    THICK = LIP_THICK;
}

block! {
    /// `edges STOCK { … }` of fronts
    front_edges: "edges-of-fronts", "the edging of fronts",
    "Strips on the edges of a slab front of sheet goods: on all four unless said otherwise.";
    THICK = LIP_THICK;
    LEFT: Nothing = ("left", "`none` leaves the left edge bare", "left none").other_hand("right");
    RIGHT: Nothing = ("right", "`none` leaves the right edge bare", "right none").other_hand("left");
    TOP: Nothing = ("top", "`none` leaves the top edge bare", "top none");
    BOTTOM: Nothing = ("bottom", "`none` leaves the bottom edge bare", "bottom none");
}

block! {
    /// `edges STOCK { … }` of a countertop
    countertop_edges: "edges-of-countertop", "the edging of a countertop",
    "Strips on the edges of a countertop of sheet goods: on those that are free unless said otherwise. One against a wall or another case is left bare.";
    THICK = LIP_THICK;
    LEFT: Nothing = ("left", "`none` leaves the left edge bare", "left none").other_hand("right");
    RIGHT: Nothing = ("right", "`none` leaves the right edge bare", "right none").other_hand("left");
    FRONT: Nothing = ("front", "`none` leaves the front edge bare", "front none");
    BACK: Nothing = ("back", "`none` leaves the back edge bare", "back none");
}

block! {
    /// `ends { … }`
    ends: "ends", "the ends",
    "Both ends of the case.";
    STOCK;
    BUILD: HowBuilt = (
        "build",
        "how they are built: each of one board, or of frame and panel between the posts of the base",
        "build panel { rail 2-1/2; panel-stock thin-ply }",
    ).may_open(end_panel::block).default("slab");
    JOINT = BOARD_JOINT;
    EDGES;
    NOTE;
}

block! {
    /// `build panel { … }` of ends
    end_panel: "end-panel", "a paneled end",
    "A rail at the top and one at the bottom, with tenons into the front and back posts, and a panel that floats in the grooves of all four. The tenons are as thick as the grooves are wide, and the grooves are as wide as the panel is thick. In a post the groove runs from one mortise to the other. An end is glued up by itself, before anything goes between the two.";
    RAIL: Length = (
        "rail",
        "the width of its rails",
        "rail 2-1/2",
    ).required()
        .can_be("1/2 in", "16 in")
        .usual("30 mm", "9 in");
    BOTTOM_RAIL: Length = (
        "bottom-rail",
        "the width of its bottom rail, where that differs",
        "bottom-rail 3-1/2",
    )
        .can_be("1/2 in", "24 in")
        .usual("30 mm", "14 in");
    SET_BACK: Length = (
        "set-back",
        "how far its rails stand back from the outside faces of the posts, and the boards of the case are notched around the posts; if not written, its rails are flush with the inside faces, and the boards lie straight between the posts",
        "set-back 1/4",
    )
        .can_be("0 mm", "6 in")
        .usual("0 mm", "1-1/2 in");
    PANEL_STOCK: Refer<Stock> = (
        "panel-stock",
        "what the panel is made of",
        "panel-stock thin-ply",
    ).required();
    GROOVE: Length = (
        "groove",
        "how deep the grooves are",
        "groove 3/8",
    ).default("3/8 in").metric("9 mm")
        .can_be("1 mm", "40 mm")
        .usual("4 mm", "16 mm");
    ROOM: Length = (
        "room",
        "how far the tenons stay off the bottom of each mortise, and the panel off the bottom of each groove; half of the groove at most",
        "room 1/16",
    ).default("1/16 in").metric("1.5 mm")
        .can_be("0 mm", "20 mm")
        .usual("0.3 mm", "6 mm");
    TENON: Length = (
        "tenon",
        "how long the tenons of the rails are",
        "tenon 1",
    ).default("1 in").metric("25 mm")
        .can_be("5 mm", "150 mm")
        .usual("10 mm", "90 mm");
    SET_IN: Length = (
        "set-in",
        "how far the tenons are set in from the upper edge of the top rail and from the lower edge of the bottom rail, so that their mortises are closed; if not written, a third of the rail's width",
        "set-in 3/4",
    )
        .can_be("0 mm", "150 mm")
        .usual("3 mm", "3 in");
    FLOAT: Length = (
        "float",
        "the room left free in each groove for a solid panel to move, where that is more than `room`",
        "float 1/8",
    ).default("1/16 in").metric("1.5 mm")
        .can_be("0 mm", "50 mm")
        .usual("0.3 mm", "10 mm");
    NOTE;
}

block! {
    /// `partitions { … }`
    panels: "panels", "these boards",
    "Upright boards.";
    STOCK;
    JOINT = BOARD_JOINT;
    EDGES;
    NOTE;
}

block! {
    /// `end left { … }`
    end: "end", "an end",
    "One end of the case.";
    STOCK;
    SEAM: Seam = (
        "seam",
        "how it meets the frame's stile; `miter` wraps the grain around the corner",
        "seam miter",
    ).default("butt");
    EDGES;
    HOLE = HOLE_UPRIGHT;
    NOTE;
}

block! {
    /// `cover left { … }`
    cover: "cover", "a cover",
    "A panel of sheet goods over a side of a case that is seen. One over an end reaches down to the floor; it lies behind the stile of the frame, or beside the fronts of a frameless case and flush with them. One over the back reaches down to the floor too; it lies between the covers over the ends. One under a case that hangs lies under all of it. A cover goes on where the piece stands: it is scribed to the floor or the wall that it meets, and screwed on from inside the case.";
    STOCK;
    EDGES;
    SCRIBE: Length = (
        "scribe",
        "how much longer and wider than drawn it is cut, so that it can be scribed to the floor that it stands on and to the wall behind it",
        "scribe 3/4",
    ).default("1/2 in").metric("12 mm")
        .can_be("1/8 in", "6 in")
        .usual("1/4 in", "2 in");
    FINISH = PART_FINISH;
    NOTE;
}

block! {
    /// `bottom { … }`
    bottom: "bottom", "the bottom",
    "The bottom of the case. Its underside lies at the height of the base. A solid-wood bottom between posts is glued only to the rail in front of it; pocket screws without glue hold it at the rails of the ends, and it is free to move toward the back.";
    STOCK;
    JOINT = BOARD_JOINT;
    FLUSH: Flag = ("flush", "its top face lies level with the top of the bottom rail", "flush");
    LOAD;
    EDGES;
    NOTE;
}

block! {
    /// `back { … }`
    back: "back", "the back",
    "The back, set in rabbets of the ends or screwed on behind.";
    STOCK;
    JOINT = BACK_JOINT;
    NAILERS: Nailers = (
        "nailers",
        "the boards on edge before the back that the wall screws go through: `1` under the top, `2` with another above the bottom, or `none`. If not written, a case that is fixed to the wall gets one, or two where it hangs, is 6 ft (1800 mm) high, or stands on another case with its bottom higher up, and no drawer runs on wood; none, hung or not, where its back is sold as 1/2 in (12 mm) or thicker, which takes the screws itself",
        "nailers 2 { wide 4; stock birch-ply }",
    ).may_open(nailers::block);
    HOLE = HOLE_ACROSS;
    NOTE;
}

block! {
    /// `top { … }`
    top: "top", "the top",
    "Two or more stretchers under a countertop, or one whole panel.";
    STRETCHERS: Count<20> = (
        "stretchers",
        "how many boards run from end to end",
        "stretchers 2 { wide 4 }",
    ).may_open(stretchers::block)
        .can_be("0", "20")
        .usual("1", "6");
    PANEL: Flag = ("panel", "the top is one whole panel", "panel");
    STOCK;
    JOINT: BoardJoint = (
        "joint",
        "how it is joined; if not written, stretchers with pocket screws, and a panel in a dado, which is a rabbet where it lies at the end of the boards",
        "joint dado { deep 1/4 }",
    ).may_open(joint::block);
    LOAD;
    EDGES;
    NOTE;
    [one_of "what the top is"] {
        /// What a top is.
        pub(crate) TopKind {
            /// Boards that lie from end to end.
            Stretchers = STRETCHERS,
            /// A whole panel.
            Panel = PANEL,
        }
    }
}

block! {
    /// `stretchers 2 { … }`
    stretchers: "stretchers", "the stretchers",
    "Flat boards from end to end at the top.";
    WIDE: Length = ("wide", "their width, front to back", "wide 4").default("4 in").metric("100 mm")
        .can_be("3/4 in", "48 in")
        .usual("25 mm", "12 in");
}

block! {
    /// `countertop { … }`
    countertop: "countertop", "a countertop",
    "A board that is laid on top of the case when it stands in its place, and is screwed to it from below, through stretchers or through a whole top. One of solid wood is free to move: only the screws at the front hold it fast, and those behind go through slots. Where the piece is not fixed to a wall and a board lies under the middle of the countertop, that one holds it fast.";
    STOCK;
    OVER: Length = (
        "over",
        "how far it reaches past the case at every side that is free, in place of what is usual there; at a wall, and beside another case, it ends with the case",
        "over 1 { back 0 }",
    ).may_open(over::block).can_be("0 mm", "1.2 m").usual("3 mm", "460 mm");
    HELD: HowHeld = (
        "held",
        "how it is held; if not written, solid wood by slots, and a sheet by screws",
        "held slots",
    );
    EDGES: Refer<Stock> = (
        "edges",
        "what its free edges are lipped or banded with, or `none`; its size includes it, so the core is cut smaller",
        "edges oak { thick 3/4 }",
    ).may_open(countertop_edges::block);
    LOAD: Load = (
        "load",
        "what stands on it, for its sag, where the `top` under it gives no load; a seat bears 60 lb per square foot",
        "load 60 lb per ft2",
    ).default("15 lb per ft2")
        .can_be("1 kg per m2", "5000 kg per m2")
        .usual("20 kg per m2", "700 kg per m2");
    HOLE = HOLE_LYING;
    FINISH = PART_FINISH;
    NOTE;
}

block! {
    /// `over 1 { … }`
    over: "over", "an overhang",
    "How far a countertop reaches past the case, where one side differs from the others. The front counts from the foremost face, which is that of the fronts where they lie over the case.";
    FRONT: Length = ("front", "how far it reaches past the front", "front 1").default("1 in").metric("25 mm").can_be("0 mm", "1.2 m").usual("3 mm", "460 mm");
    BACK: Length = ("back", "how far it reaches past the back", "back 12").can_be("0 mm", "1.2 m").usual("3 mm", "460 mm");
    LEFT: Length = ("left", "how far it reaches past the left side, where that end is seen", "left 1/2").default("1/2 in").metric("12 mm").other_hand("right").can_be("0 mm", "1.2 m").usual("3 mm", "460 mm");
    RIGHT: Length = ("right", "how far it reaches past the right side, where that end is seen", "right 1/2").default("1/2 in").metric("12 mm").other_hand("left").can_be("0 mm", "1.2 m").usual("3 mm", "460 mm");
}

block! {
    /// `shelves { … }`
    shelves: "shelves", "the shelves",
    "What all shelves of the case have in common. Horizontal dividers get the edges of the shelves, too, unless their own are given.";
    STOCK;
    BUILD: BoardBuild = (
        "build",
        "how those behind rails are built: one board, or a web frame for drawers that run on it",
        "build web { wide 2-1/2 }",
    ).may_open(web::block).default("slab");
    CLEARANCE: Length = (
        "clearance",
        "how much shorter an adjustable shelf is than its space",
        "clearance 1/8",
    ).default("1/8 in").metric("3 mm")
        .can_be("0.2 mm", "50 mm")
        .usual("0.8 mm", "10 mm");
    SET_BACK: Length = (
        "set-back",
        "how far they stand back from the frame or the front edge",
        "set-back 1/2",
    ).default("1/4 in").metric("6 mm")
        .can_be("0 in", "40 in")
        .usual("1.5 mm", "90 mm");
    PINS: Braces = (
        "pins",
        "the rows of holes for the pins of adjustable shelves",
        "pins { hole 5 mm; deep 10 mm; pitch 32 mm }",
    ).opens(pins::block);
    JOINT = BOARD_JOINT;
    LOAD;
    EDGES;
    NOTE;
}

block! {
    /// `pins { … }`
    pins: "pins", "the shelf pins",
    "Rows of holes in the boards at both sides of an opening, a row near the front and a row near the back of each.";
    HOLE: Length = ("hole", "the diameter of a hole", "hole 5 mm").default("1/4 in").metric("5 mm")
        .can_be("2 mm", "20 mm")
        .usual("3 mm", "10 mm");
    DEEP: Length = ("deep", "the depth of a hole", "deep 10 mm").default("3/8 in").metric("10 mm")
        .can_be("3 mm", "40 mm")
        .usual("5 mm", "20 mm");
    PITCH: Length = (
        "pitch",
        "the distance from one hole of a row to the next",
        "pitch 32 mm",
    ).default("1-1/4 in").metric("32 mm")
        .can_be("5 mm", "300 mm")
        .usual("9 mm", "100 mm");
    FROM_EDGE: Length = (
        "from-edge",
        "the distance of the front row from the front edge of its board, or from the back of an inset front, and of the back row from the face of the back",
        "from-edge 37 mm",
    ).default("1-1/2 in").metric("37 mm")
        .can_be("5 mm", "500 mm")
        .usual("12 mm", "6 in");
    FROM_END: Length = (
        "from-end",
        "the distance of the first hole from the lower edge of its opening, and the least distance of the last from the upper edge",
        "from-end 100 mm",
    ).default("4 in").metric("100 mm")
        .can_be("5 mm", "60 in")
        .usual("1 in", "24 in");
}

block! {
    /// `joint … { … }`
    joint: "joint", "a joint",
    "The sizes of a joint.";
    DEEP: Length = (
        "deep",
        "how deep a dado or rabbet is cut; if not written, a dado takes a third of the thickness of the board that it is cut into, and a rabbet half",
        "deep 1/4",
    )
        .can_be("1 mm", "60 mm")
        .usual("2 mm", "20 mm");
    LONG: Length = ("long", "the length of a tenon", "long 1").default("1 in").metric("25 mm")
        .can_be("5 mm", "150 mm")
        .usual("10 mm", "90 mm");
    THICK: Length = (
        "thick",
        "the thickness of a tenon; if not written, a third of the stock",
        "thick 1/4",
    )
        .can_be("2 mm", "60 mm")
        .usual("4 mm", "1 in");
    SET_IN: Length = (
        "set-in",
        "how far the tenon of a rail at the end of a stile is set in from that end, so that its mortise is closed; if not written, a third of the rail's width; with 0 the mortise is open at the end",
        "set-in 1/2",
    )
        .can_be("0 mm", "150 mm")
        .usual("3 mm", "3 in");
    DIAMETER: Length = (
        "diameter",
        "the diameter of a dowel",
        "diameter 3/8",
    ).default("3/8 in").metric("9 mm")
        .can_be("3 mm", "40 mm")
        .usual("4 mm", "20 mm");
    // 1/16 to 1/8 in deeper than the tenon is long: a woodworking magazine, "Make
    // more room in the mortise".
    ROOM: Length = (
        "room",
        "how much deeper a mortise or a dowel hole is than what goes into it is long, for glue",
        "room 1/16",
    ).default("1/16 in").metric("1.5 mm")
        .can_be("0 mm", "20 mm")
        .usual("0.4 mm", "6 mm");
    SCREW: Length = ("screw", "the length of a screw", "screw 1-1/4")
        .can_be("8 mm", "200 mm")
        .usual("15 mm", "120 mm");
}
