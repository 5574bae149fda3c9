//! The shop.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, needs};

/// `shop { … }`
pub(super) const SHOP: Block = Block {
    name: "shop",
    title: "the shop",
    help: "How this shop works: its saw, its clamps and its hours.",
    words: &[
        Word::new(
            "humidity",
            "the air when the wood was milled and the fronts are fitted",
            "humidity 40%",
        )
        .takes(&[needs(Kind::Percent)])
        .default("40%"),
        Word::new("kerf", "the width of the saw's cut", "kerf 1/8")
            .takes(&[needs(Kind::Length)])
            .default("1/8 in")
            .metric("3 mm"),
        Word::new(
            "allow",
            "rough size over finished size",
            "allow { length 1; width 1/4; edge-trim 1/2 }",
        )
        .opens("allow"),
        Word::new("clamp", "how long a glue-up stays in the clamps", "clamp 1 h")
            .takes(&[needs(Kind::Duration)])
            .default("1 h"),
        Word::new("cure", "how long glue cures before it is worked", "cure 24 h")
            .takes(&[needs(Kind::Duration)])
            .default("24 h"),
        Word::new("day", "the working day", "day 8 h")
            .takes(&[needs(Kind::Duration)])
            .default("8 h"),
        Word::new("clamps", "how many clamps there are", "clamps 8")
            .takes(&[needs(Kind::Count(1_000))])
            .default("8"),
        Word::new(
            "open-time",
            "how long the glue stays open once it is spread; white and yellow glue 5 to 10 min",
            "open-time 8 min",
        )
        .takes(&[needs(Kind::Duration)])
        .default("8 min"),
        Word::new(
            "base-plate",
            "across the router's base plate, for the distance of a straight-edge",
            "base-plate 6",
        )
        .takes(&[needs(Kind::Length)])
        .default("6 in")
        .metric("150 mm"),
        Word::new("feed", "how fast the router is fed", "feed 100 per min")
            .takes(&[needs(Kind::Feed)])
            .default("100 in per min")
            .metric("2.5 m per min"),
        Word::new("set-up", "how long it takes to change a set-up", "set-up 15 min")
            .takes(&[needs(Kind::Duration)])
            .default("15 min"),
        Word::new(
            "tolerance",
            "how true this shop works",
            "tolerance { cut 1/64; square 1/16; place 1/64 }",
        )
        .opens("tolerance"),
        Word::new(
            "card",
            "the thickness of one playing card of the deck used as shims",
            "card 0.3 mm",
        )
        .takes(&[needs(Kind::Length)])
        .default("0.3 mm"),
        NOTE,
    ],
    one_of: &[],
};

/// `tolerance { … }`
pub(super) const TOLERANCE: Block = Block {
    name: "tolerance",
    title: "the tolerances",
    help: "How far a size may be off, to either side, when it is made with care in this shop.",
    words: &[
        Word::new("cut", "a part cut to a stop or fence", "cut 1/64")
            .takes(&[needs(Kind::Length)])
            .default("1/64 in")
            .metric("0.4 mm"),
        Word::new("square", "the difference of an opening's two diagonals", "square 1/16")
            .takes(&[needs(Kind::Length)])
            .default("1/32 in")
            .metric("0.8 mm"),
        Word::new("place", "a front or hinge set by hand", "place 1/64")
            .takes(&[needs(Kind::Length)])
            .default("1/64 in")
            .metric("0.4 mm"),
    ],
    one_of: &[],
};

/// `allow { … }`
pub(super) const ALLOW: Block = Block {
    name: "allow",
    title: "the allowances",
    help: "What is left on when a part is cut rough.",
    words: &[
        Word::new("length", "left on the length of solid parts", "length 1")
            .takes(&[needs(Kind::Length)])
            .default("1 in")
            .metric("25 mm"),
        Word::new("width", "left on the width of solid parts", "width 1/4")
            .takes(&[needs(Kind::Length)])
            .default("1/4 in")
            .metric("6 mm"),
        Word::new("edge-trim", "trimmed off each factory edge of a sheet", "edge-trim 1/2")
            .takes(&[needs(Kind::Length)])
            .default("1/2 in")
            .metric("12 mm"),
    ],
    one_of: &[],
};
