//! Fronts and drawer boxes.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, needs};

const STOCK: Word = Word::new("stock", "what they are made of", "stock cherry")
    .takes(&[needs(Kind::Refer("stock"))]);

/// `fronts { … }`, and `front { … }` of one opening
pub(super) const FRONTS: Block = Block {
    name: "fronts",
    title: "the fronts",
    help: "Doors, drawer fronts and false fronts: all of a case, or with `front` those of one opening.",
    words: &[
        STOCK,
        Word::new(
            "set",
            "how they lie: in their openings, or over the frame",
            "set overlay { by 1/2 }",
        )
        .takes(&[needs(Kind::Choice(&["inset", "overlay"]))])
        .may_open("overlay")
        .default("inset"),
        Word::new(
            "build",
            "how they are built",
            "build panel { stile 2-1/4; rail 2-1/4; panel-stock thin-ply; groove 3/8 }",
        )
        .takes(&[needs(Kind::Choice(&["slab", "panel"]))])
        .may_open("panel")
        .default("slab"),
        Word::new("gap", "the reveal round an inset front", "gap 3/32")
            .takes(&[needs(Kind::Length)])
            .default("3/32 in")
            .metric("2.5 mm"),
        Word::new("meeting", "between the two leaves of a pair", "meeting 1/8")
            .takes(&[needs(Kind::Length)])
            .default("1/8 in")
            .metric("3 mm"),
        Word::new("hinge", "the doors' hinge", "hinge inset-cup")
            .takes(&[needs(Kind::Refer("hinge"))]),
        Word::new(
            "hinges",
            "how many on each door; by height and weight unless written",
            "hinges 3",
        )
        .takes(&[needs(Kind::Count(20))]),
        Word::new("pull", "the pull", "pull ring").takes(&[needs(Kind::Refer("pull"))]),
        Word::new(
            "flutes",
            "flutes cut into the show face",
            "flutes { run vertical; bit round-nose-half; deep 5/32; pitch 3/4; land 3/16 }",
        )
        .opens("flutes"),
        NOTE,
    ],
    one_of: &[],
};

/// `set overlay { … }`
pub(super) const OVERLAY: Block = Block {
    name: "overlay",
    title: "an overlay",
    help: "How far a front reaches over the edge of its opening.",
    words: &[Word::new("by", "on every side", "by 1/2")
        .takes(&[needs(Kind::Length)])
        .default("1/2 in")
        .metric("12 mm")],
    one_of: &[],
};

/// `build panel { … }`
pub(super) const PANEL: Block = Block {
    name: "panel",
    title: "a frame-and-panel front",
    help: "Two stiles the whole height, two rails between them, and a panel in their grooves.",
    words: &[
        Word::new("stile", "the width of its stiles", "stile 2-1/4")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("rail", "the width of its rails", "rail 2-1/4")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("panel-stock", "what the panel is made of", "panel-stock thin-ply")
            .takes(&[needs(Kind::Refer("stock"))])
            .required(),
        Word::new("groove", "how deep the grooves are, and the tongues of the rails", "groove 3/8")
            .takes(&[needs(Kind::Length)])
            .default("3/8 in")
            .metric("9 mm"),
        Word::new("float", "left free in each groove for a solid panel to move", "float 1/8")
            .takes(&[needs(Kind::Length)])
            .default("1/16 in")
            .metric("1.5 mm"),
        NOTE,
    ],
    one_of: &[],
};

/// `flutes { … }`
pub(super) const FLUTES: Block = Block {
    name: "flutes",
    title: "flutes",
    help: "Parallel round-bottomed grooves, as many as fit, the same margin at both sides.",
    words: &[
        Word::new("run", "which way they run", "run vertical")
            .takes(&[needs(Kind::Choice(&["vertical", "horizontal"]))])
            .default("vertical"),
        Word::new("bit", "the bit that cuts them", "bit round-nose-half")
            .takes(&[needs(Kind::Refer("bit"))])
            .required(),
        Word::new("deep", "how deep", "deep 5/32").takes(&[needs(Kind::Length)]).required(),
        Word::new("pitch", "from centre to centre", "pitch 3/4")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("land", "the least flat left between flutes and at the edges", "land 3/16")
            .takes(&[needs(Kind::Length)])
            .default("1/8 in")
            .metric("3 mm"),
        Word::new(
            "stop",
            "how far they stop short of both ends; run through unless written",
            "stop 1",
        )
        .takes(&[needs(Kind::Length)])
        .default("0"),
        NOTE,
    ],
    one_of: &[],
};

/// `drawers { … }`
pub(super) const DRAWERS: Block = Block {
    name: "drawers",
    title: "the drawers",
    help: "The drawer boxes of a case.",
    words: &[
        STOCK,
        Word::new("bottom-stock", "what their bottoms are made of", "bottom-stock thin-ply")
            .takes(&[needs(Kind::Refer("stock"))])
            .required(),
        Word::new("slide", "what they run on", "slide soft-15")
            .takes(&[needs(Kind::Refer("slide"))])
            .required(),
        Word::new("load", "what they hold on each square foot of bottom", "load 15 lb per ft2")
            .takes(&[needs(Kind::Load)])
            .default("15 lb per ft2"),
        Word::new("groove", "the groove for the bottom", "groove { up 13 mm; deep 5/16 }")
            .opens("groove"),
        Word::new("joint", "how the corners are joined", "joint rabbet")
            .takes(&[needs(Kind::Choice(&["rabbet", "dovetail", "butt"]))])
            .may_open("joint")
            .default("rabbet"),
        Word::new(
            "packer-stock",
            "what the packers behind narrow partitions are made of; as the boxes unless written",
            "packer-stock birch-ply",
        )
        .takes(&[needs(Kind::Refer("stock"))]),
        Word::new("packer-wide", "the height of a packer", "packer-wide 2")
            .takes(&[needs(Kind::Length)])
            .default("2 in")
            .metric("50 mm"),
        NOTE,
    ],
    one_of: &[],
};

/// `groove { … }`
pub(super) const GROOVE: Block = Block {
    name: "groove",
    title: "the groove for a drawer bottom",
    help: "The groove in front, sides and back that holds a drawer's bottom.",
    words: &[
        Word::new("up", "from the lower edge to the groove", "up 13 mm")
            .takes(&[needs(Kind::Length)])
            .default("1/2 in")
            .metric("12 mm"),
        Word::new("deep", "how deep it is", "deep 1/4")
            .takes(&[needs(Kind::Length)])
            .default("1/4 in")
            .metric("6 mm"),
        Word::new(
            "play",
            "the bottom is this much smaller than its grooves would hold",
            "play 1/16",
        )
        .takes(&[needs(Kind::Length)])
        .default("1/16 in")
        .metric("1.5 mm"),
    ],
    one_of: &[],
};
