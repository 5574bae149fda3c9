//! Fronts and drawer boxes.

use super::*;
pub(crate) use super::{NOTE, PART_FINISH};

words! {
    STOCK: Refer<Stock> = ("stock", "what they are made of", "stock cherry");
}

block! {
    /// `fronts { … }`, and `front { … }` of one opening
    fronts: "fronts", "the fronts",
    "Doors, drawer fronts, and false fronts: all of a case, or with `front` those of one opening.";
    STOCK;
    SET: HowSet = (
        "set",
        "how they sit: in their openings or over the frame",
        "set overlay { by 1/2 }",
    ).may_open(overlay::block).default("inset");
    BUILD: HowBuilt = (
        "build",
        "how they are built",
        "build panel { stile 2-1/4; rail 2-1/4; panel-stock thin-ply; groove 3/8 }",
    ).may_open(panel::block).default("slab");
    GAP: Length = (
        "gap",
        "the gap around an inset front, and between overlay fronts whose overlay is not written",
        "gap 3/32",
    ).default("3/32 in").metric("2.5 mm")
        .can_be("0.3 mm", "4 in")
        .usual("1/32 in", "4 mm");
    MEETING: Length = (
        "meeting",
        "the gap between the two leaves of a pair",
        "meeting 1/8",
    ).default("1/8 in").metric("3 mm")
        .can_be("0.3 mm", "4 in")
        .usual("1/32 in", "5/16 in");
    HINGE: Refer<Hinge> = (
        "hinge",
        "the doors' hinge; its braces say where the first and the last one sit on these doors",
        "hinge inset-cup { from-top 4 }",
    ).may_open(hinge_place::block);
    HINGES: Count<20> = (
        "hinges",
        "how many hinges each door has; if not written, its height and weight decide",
        "hinges 3",
    )
        .can_be("0", "20")
        .usual("2", "6");
    STOP: StopKind = (
        "stop",
        "what an inset door closes against: a `strip`, or `none`; unless written, a strip where its hinges don't pull it shut and no board stands right behind it",
        "stop strip",
    );
    CATCH: CatchWord = (
        "catch",
        "what holds a door shut: a `magnet`, a `ball`, or `none`; unless written, a magnet where its hinges don't pull it shut",
        "catch ball",
    );
    PULL: Refer<Pull> = (
        "pull",
        "the pull or knob, or `none`; its braces say where it sits on these fronts",
        "pull ring { from-top 3 }",
    ).may_open(pull_place::block);
    FINGER: Braces = (
        "finger",
        "a cut for the fingers instead of a pull: in the middle of the top edge of a drawer front, or in the latch edge of a door",
        "finger { wide 4; deep 1 }",
    ).opens(finger::block);
    FLUTES: Braces = (
        "flutes",
        "flutes cut into the front face",
        "flutes { run vertical; bit round-nose-half; deep 5/32; pitch 3/4; land 3/16 }",
    ).opens(flutes::block);
    GRAIN: Run = (
        "grain",
        "which way the grain of slab fronts runs; unless written, up a door, and along the longer side of a drawer front or a false front",
        "grain vertical",
    );
    IN_SEQUENCE: Flag = (
        "in-sequence",
        "slab fronts of sheets that stand in one bank, row, or pair come from one sheet beside each other, as they stand, so that the grain runs on from one to the next; those of boards do so unless `lay-out` in the shop says otherwise",
        "in-sequence",
    );
    EDGES: Refer<Stock> = (
        "edges",
        "what all four edges of a slab front are lipped or banded with, or `none`; its size includes it, so the core is cut smaller",
        "edges cherry { thick 1/4; bottom none }",
    ).may_open(front_edges::block);
    FINISH = PART_FINISH;
    NOTE;
}

block! {
    /// `hinge NAME { … }` of fronts
    hinge_place: "hinge-place", "the place of hinges",
    "Where the uppermost and the lowest hinge of a door sit; any others are spread evenly between them. What is not written stays as the hinge itself says with `from-end`.";
    FROM_TOP: Length = (
        "from-top",
        "the distance from the top of the door to the center of its uppermost hinge",
        "from-top 4",
    )
        .can_be("10 mm", "40 in")
        .usual("32 mm", "30 in");
    FROM_BOTTOM: Length = (
        "from-bottom",
        "the distance from the bottom of the door to the center of its lowest hinge",
        "from-bottom 6",
    )
        .can_be("10 mm", "40 in")
        .usual("32 mm", "30 in");
}

block! {
    /// `pull NAME { … }` of fronts
    pull_place: "pull-place", "the place of a pull",
    "Where a pull sits on a front. What is not written stays as the pull itself says. Of `from-top`, `from-bottom`, and `middle`, write one.";
    FROM_TOP: Length = ("from-top", "the distance from the top of the front to its middle", "from-top 3")
        .can_be("0 mm", "2.5 m")
        .usual("12 mm", "60 in");
    FROM_BOTTOM: Length = (
        "from-bottom",
        "the distance from the bottom of the front to its middle",
        "from-bottom 3",
    )
        .can_be("0 mm", "2.5 m")
        .usual("12 mm", "60 in");
    MIDDLE: Flag = ("middle", "it sits at half the height of the front", "middle");
    FROM_EDGE: Length = (
        "from-edge",
        "the distance from a door's latch edge to its screws",
        "from-edge 1-1/8",
    )
        .can_be("0 mm", "16 in")
        .usual("8 mm", "4 in");
    PULLS: Count<6> = (
        "pulls",
        "how many a drawer front has, evenly spread; two sit at its quarter points",
        "pulls 2",
    ).default("1")
        .can_be("0", "6");
}

block! {
    /// `finger { … }`
    finger: "finger", "a finger pull",
    "A cut through the edge of a front, which fingers reach into. Of a door, `from-top` or `from-bottom` says how high it is; without them, it is halfway up. On a drawer front it is in the middle.";
    WIDE: Length = ("wide", "how long it is along the edge", "wide 4").default("4 in").metric("100 mm")
        .can_be("10 mm", "4 m")
        .usual("1 in", "24 in");
    DEEP: Length = ("deep", "how far it goes in from the edge", "deep 1").default("1 in").metric("25 mm")
        .can_be("1 mm", "10 in")
        .usual("3/8 in", "3 in");
    FROM_TOP: Length = ("from-top", "the distance from the top of a door to its middle", "from-top 4")
        .can_be("0 mm", "2.5 m")
        .usual("12 mm", "60 in");
    FROM_BOTTOM: Length = (
        "from-bottom",
        "the distance from the bottom of a door to its middle",
        "from-bottom 4",
    )
        .can_be("0 mm", "2.5 m")
        .usual("12 mm", "60 in");
}

block! {
    /// `set overlay { … }`
    overlay: "overlay", "an overlay",
    "How far a front reaches over the edges of its opening. Where the case has a `gap` and no `by`, the overlay follows from it: two fronts on one board share it and leave the gap between them. At the bottom of the case a front covers the board there, at the sides and the top it stays back by half a gap, and under a countertop or beside a filler by a whole one.";
    BY: Length = (
        "by",
        "how far it reaches over on every side, unless `gap` gives it",
        "by 1/2",
    ).default("1/2 in").metric("12 mm")
        .can_be("1 mm", "4 in")
        .usual("3 mm", "1-3/4 in");
    LEFT: Length = ("left", "how far it reaches over at the left, where that differs", "left 3/4")
        .can_be("0 in", "4 in")
        .usual("1.5 mm", "1-3/4 in")
        .other_hand("right");
    RIGHT: Length = ("right", "how far it reaches over at the right, where that differs", "right 3/4")
        .can_be("0 in", "4 in")
        .usual("1.5 mm", "1-3/4 in")
        .other_hand("left");
    TOP: Length = ("top", "how far it reaches over at the top, where that differs", "top 1/4")
        .can_be("0 in", "4 in")
        .usual("1.5 mm", "1-3/4 in");
    BOTTOM: Length = ("bottom", "how far it reaches over at the bottom, where that differs", "bottom 3/4")
        .can_be("0 in", "4 in")
        .usual("1.5 mm", "1-3/4 in");
}

block! {
    /// `build panel { … }`
    panel: "panel", "a frame-and-panel front",
    "Two full-height stiles, rails between them, and panels in their grooves.";
    STILE: Length = ("stile", "the width of its stiles", "stile 2-1/4").required()
        .can_be("1/2 in", "16 in")
        .usual("30 mm", "9 in");
    RAIL: Length = (
        "rail",
        "the width of its rails: of the top rail, and of the others unless they are written",
        "rail 2-1/4",
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
    MID_RAIL: Flag = (
        "mid-rail",
        "a rail between the top and the bottom rail, with a panel above it and one below; write several from the top down; mid rails written for all fronts go on the doors only, and a drawer front needs its own",
        "mid-rail { wide 3; from-bottom 30 }",
    ).may_open(mid_rail::block).many();
    PANEL_STOCK: Refer<Stock> = (
        "panel-stock",
        "what the panel is made of; a door of glass has a rabbet behind, and beads in it",
        "panel-stock thin-ply",
    ).required();
    GROOVE: Length = (
        "groove",
        "how deep the grooves are",
        "groove 3/8",
    ).default("3/8 in").metric("9 mm")
        .can_be("1 mm", "40 mm")
        .usual("4 mm", "16 mm");
    GROOVE_WIDE: Length = (
        "groove-wide",
        "how wide the grooves are of a door whose `panel-stock` is glass: its tenons are as thick, and what lies behind them is cut off for the glass when the frame is glued up",
        "groove-wide 1/4",
    ).default("1/4 in").metric("6 mm")
        .can_be("2 mm", "25 mm")
        .usual("4 mm", "13 mm");
    BEADS: Refer<Stock> = (
        "beads",
        "the lumber of the beads that hold the glass of a door from behind; if not written, that of its stiles and rails",
        "beads maple",
    );
    ROOM: Length = (
        "room",
        "how far the tenons of the rails and the panel stay off the bottom of each groove or mortise; half of the groove at most",
        "room 1/16",
    ).default("1/16 in").metric("1.5 mm")
        .can_be("0 mm", "20 mm")
        .usual("0.3 mm", "6 mm");
    TENON: Length = (
        "tenon",
        "how long the tenons of the rails are, which go into mortises in the grooves, each as thick as its groove is wide; if not written, they go into the grooves alone, as far as `room` leaves them",
        "tenon 1-1/4",
    )
        .can_be("5 mm", "150 mm")
        .usual("10 mm", "90 mm");
    SET_IN: Length = (
        "set-in",
        "how far those tenons are set in from the ends of the stiles, so that their mortises are closed; there the groove is filled by a haunch; if not written, a third of the rail's width",
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
    /// `mid-rail { … }`
    mid_rail: "mid-rail", "a mid rail",
    "A rail across the middle of a framed front. Without a place it leaves as much room above it as below; so do several between two others. Of `from-top` and `from-bottom`, write one.";
    WIDE: Length = ("wide", "its width, where it differs from the top rail's", "wide 3")
        .can_be("1/2 in", "24 in")
        .usual("30 mm", "12 in");
    FROM_TOP: Length = (
        "from-top",
        "the distance from the top of the front to its middle",
        "from-top 30",
    )
        .can_be("1 in", "3 m")
        .usual("5 in", "90 in");
    FROM_BOTTOM: Length = (
        "from-bottom",
        "the distance from the bottom of the front to its middle",
        "from-bottom 30",
    )
        .can_be("1 in", "3 m")
        .usual("5 in", "90 in");
}

block! {
    /// `flutes { … }`
    flutes: "flutes", "flutes",
    "Parallel round-bottomed grooves. As many are cut as fit, with the same margin on both sides.";
    RUN: Run = ("run", "the direction that they run", "run vertical").default("vertical");
    BIT: Refer<Bit> = ("bit", "the bit that cuts them", "bit round-nose-half").required();
    DEEP: Length = ("deep", "how deep they are", "deep 5/32").required()
        .can_be("0.2 mm", "40 mm")
        .usual("0.8 mm", "12 mm");
    PITCH: Length = ("pitch", "the distance from center to center", "pitch 3/4").required()
        .can_be("0.1 mm", "12 in")
        .usual("5 mm", "3 in");
    LAND: Length = (
        "land",
        "the least flat left between flutes and at the edges",
        "land 3/16",
    ).default("1/8 in").metric("3 mm")
        .can_be("0 mm", "6 in")
        .usual("1.5 mm", "1 in");
    STOP: Length = (
        "stop",
        "how far they stop short of both ends; if not written, they run through",
        "stop 1",
    ).default("0")
        .can_be("0 in", "40 in")
        .usual("1/4 in", "8 in");
    NOTE;
}

block! {
    /// `drawers { … }`
    drawers: "drawers", "the drawers",
    "The drawer boxes of a case.";
    STOCK;
    BOTTOM_STOCK: Refer<Stock> = (
        "bottom-stock",
        "what their bottoms are made of",
        "bottom-stock thin-ply",
    ).required();
    SLIDE: Refer<Slide> = ("slide", "the slide they run on", "slide soft-15").required();
    LOAD: Load = (
        "load",
        "what they hold per square foot of bottom",
        "load 15 lb per ft2",
    ).default("15 lb per ft2")
        .can_be("1 kg per m2", "5000 kg per m2")
        .usual("20 kg per m2", "700 kg per m2");
    GROOVE: Braces = (
        "groove",
        "the groove for the bottom",
        "groove { up 13 mm; deep 5/16 }",
    ).opens(groove::block);
    JOINT: DrawerJoint = (
        "joint",
        "how the corners are joined",
        "joint rabbet",
    ).may_open(joint::block).default("rabbet");
    PACKER_STOCK: Refer<Stock> = (
        "packer-stock",
        "what the packers beside the slides are made of; if not written, the same as the boxes",
        "packer-stock birch-ply",
    );
    PACKER_WIDE: Length = (
        "packer-wide",
        "the height of a packer",
        "packer-wide 2",
    ).default("2 in").metric("50 mm")
        .can_be("10 mm", "16 in")
        .usual("12 mm", "6 in");
    FINISH = PART_FINISH;
    NOTE;
}

block! {
    /// `groove { … }`
    groove: "groove", "the groove for a drawer bottom",
    "The groove in the front, sides, and back that holds a drawer's bottom.";
    UP: Length = (
        "up",
        "the distance from the lower edge to the groove",
        "up 13 mm",
    ).default("1/2 in").metric("12 mm")
        .can_be("0 in", "24 in")
        .usual("5 mm", "30 mm");
    DEEP: Length = ("deep", "how deep it is", "deep 1/4").default("1/4 in").metric("6 mm")
        .can_be("1 mm", "30 mm")
        .usual("2.5 mm", "12 mm");
    PLAY: Length = (
        "play",
        "how much smaller the bottom is than the space in its grooves",
        "play 1/16",
    ).default("1/16 in").metric("1.5 mm")
        .can_be("0 mm", "20 mm")
        .usual("0.3 mm", "5 mm");
}
