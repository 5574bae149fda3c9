//! What the maker learns later: sizes as they came out, and parts that are cut.

use crate::vocabulary::word::{Block, Kind, Word, needs};

/// `measured { … }`
pub(super) const MEASURED: Block = Block {
    name: "measured",
    title: "what is measured",
    help: "Sizes as a tape or calliper read them. A measured opening counts for whatever is made after its frame: fronts, drawer boxes, packers, hinge blocks, and shelves on pins in a frame-less case; the frame itself stays as drawn. A measured stock or shop takes the place of the written figure. `casewright measure` prints a form to fill in.",
    words: &[
        Word::new(
            "with",
            "how true the tape reads: an opening that differs by no more is as drawn",
            "with 1/64",
        )
        .takes(&[needs(Kind::Length)])
        .default("1/64 in")
        .metric("0.4 mm"),
        Word::new(
            "opening",
            "an opening as it came out of the clamps",
            "opening console.press { wide 26-17/32; high 26 }",
        )
        .takes(&[needs(Kind::Path)])
        .opens("measured-opening")
        .many(),
        Word::new(
            "stock",
            "a stock as it came from the yard or off the planer",
            "stock birch-ply { actual 0.707 }",
        )
        .takes(&[needs(Kind::Refer("stock"))])
        .opens("measured-stock")
        .many(),
        Word::new("shop", "the air of the shop as it was", "shop { humidity 46% }")
            .opens("measured-shop"),
    ],
    one_of: &[],
};

/// `opening PATH { … }` of `measured`.
pub(super) const OPENING: Block = Block {
    name: "measured-opening",
    title: "a measured opening",
    help: "What is not measured stays as drawn. Measure the width at the top, in the middle and at the bottom, and write the least.",
    words: &[
        Word::new("wide", "between its sides", "wide 26-17/32").takes(&[needs(Kind::Length)]),
        Word::new("high", "between bottom and top", "high 26").takes(&[needs(Kind::Length)]),
        Word::new(
            "diagonals",
            "from corner to corner: how far it is out of square",
            "diagonals { rising 37-5/32; falling 37-7/32 }",
        )
        .opens("diagonals"),
    ],
    one_of: &[],
};

/// `diagonals { … }`
pub(super) const DIAGONALS: Block = Block {
    name: "diagonals",
    title: "the diagonals",
    help: "Both diagonals of an opening, seen from the front.",
    words: &[
        Word::new("rising", "from the lower left corner to the upper right", "rising 37-5/32")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("falling", "from the upper left corner to the lower right", "falling 37-7/32")
            .takes(&[needs(Kind::Length)])
            .required(),
    ],
    one_of: &[],
};

/// `stock NAME { … }` of `measured`.
pub(super) const STOCK: Block = Block {
    name: "measured-stock",
    title: "a measured stock",
    help: "A stock as a calliper reads it: the mean of several places.",
    words: &[Word::new(
        "actual",
        "how thick it is; of lumber, what it was planed to",
        "actual 0.707",
    )
    .takes(&[needs(Kind::Length)])
    .required()],
    one_of: &[],
};

/// `shop { … }` of `measured`.
pub(super) const SHOP: Block = Block {
    name: "measured-shop",
    title: "the measured shop",
    help: "The air of the shop as an instrument read it.",
    words: &[Word::new("humidity", "the air when the wood was milled", "humidity 46%")
        .takes(&[needs(Kind::Percent)])
        .required()],
    one_of: &[],
};

/// `cut DATE { … }`
pub(super) const CUT: Block = Block {
    name: "cut",
    title: "what is cut",
    help: "Parts that are cut, each by its name, the end of its name, or its mark. The last word on a part counts: of the latest day, and of one day the last in the file.",
    words: &[Word::new(
        "PART",
        "a part; a size that is not written is taken to be as it is drawn now",
        "console.bottom { long 64-5/16; wide 16-9/32 }",
    )
    .takes(&[needs(Kind::Path)])
    .may_open("cut-part")
    .any_name()
    .many()],
    one_of: &[],
};

/// The joints that `made` knows.
pub const MADE: &[&str] = &[
    "dado",
    "groove",
    "rabbet",
    "mitre",
    "notch",
    "mortise",
    "tenon",
    "dovetails",
    "flute",
    "pocket-holes",
    "dowel-holes",
    "hinge-cup",
    "pull-hole",
    "plate-hole",
];

/// `made … { … }` of a cut part.
pub(super) const MADE_JOINT: Block = Block {
    name: "made",
    title: "a joint that is made",
    help: "The box of wood that it takes, or of a tenon the tenon itself, counted from the left, lower or front side of the part. What reaches from side to side is left out. Of a hole its centre and diameter stand for its box.",
    words: &[
        Word::new(
            "at",
            "the centre of a hole, along the part and across it",
            "at 17-13/16 by 21.5 mm",
        )
        .takes(&[needs(Kind::Length), needs(Kind::Choice(&["by"])), needs(Kind::Length)]),
        Word::new("across", "the diameter of that hole", "across 35 mm")
            .takes(&[needs(Kind::Length)]),
        Word::new("long", "from and to along the part", "long 25-15/16 to 26-21/32")
            .takes(&[needs(Kind::LengthRange)]),
        Word::new("wide", "from and to across it", "wide 0 to 16-9/32")
            .takes(&[needs(Kind::LengthRange)]),
        Word::new("thick", "from and to through it", "thick 0 to 1/4")
            .takes(&[needs(Kind::LengthRange)]),
    ],
    one_of: &[],
};

/// `PART { … }` of `cut`.
pub(super) const CUT_PART: Block = Block {
    name: "cut-part",
    title: "a cut part",
    help: "The finished size that the part was cut to, along its grain, across it and in thickness.",
    words: &[
        Word::new("long", "its length", "long 64-5/16").takes(&[needs(Kind::Length)]),
        Word::new("wide", "its width", "wide 16-9/32").takes(&[needs(Kind::Length)]),
        Word::new("thick", "its thickness", "thick 23/32").takes(&[needs(Kind::Length)]),
        Word::new("stock", "what it was cut from", "stock birch-ply").takes(&[needs(Kind::Label)]),
        Word::new("species", "the wood it is of", "species black-cherry")
            .takes(&[needs(Kind::Label)]),
        Word::new("sawn", "it is sawn to size and has no joints yet", "sawn"),
        Word::new(
            "joints",
            "how many joints and bores it had when it was made, where `made` does not tell them one by one",
            "joints 0",
        )
        .takes(&[needs(Kind::Count(1_000))]),
        Word::new(
            "made",
            "a joint or bore that is in it, with the wood that it takes; `casewright record` writes them",
            "made dado { long 25-15/16 to 26-21/32; thick 0 to 1/4 }",
        )
        .takes(&[needs(Kind::Choice(MADE))])
        .may_open("made")
        .many(),
        Word::new("spoiled", "it is spoiled, and is to be cut again", "spoiled"),
    ],
    one_of: &[],
};
