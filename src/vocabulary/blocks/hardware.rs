//! Hardware, bits and finishes: figures from the maker's own data sheets.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, needs};

/// `hinge NAME { … }`
pub(super) const HINGE: Block = Block {
    name: "hinge",
    title: "a hinge",
    help: "A concealed hinge in a bored cup, or a butt hinge on a pin. Take the figures from the sheet of the hinge in your hand.",
    words: &[
        Word::new("cup", "a concealed hinge: the diameter of its cup", "cup 35 mm")
            .takes(&[needs(Kind::Length)]),
        Word::new("butt", "a butt hinge with a pin", "butt"),
        Word::new("bore", "the depth of the cup", "bore 12.5 mm").takes(&[needs(Kind::Length)]),
        Word::new("from-edge", "from the door's edge to the edge of the cup", "from-edge 4 mm")
            .takes(&[needs(Kind::Length)]),
        Word::new(
            "pin-ahead",
            "from the face of the frame forward to the pin's centre, for a butt hinge",
            "pin-ahead 3/16",
        )
        .takes(&[needs(Kind::Length)])
        .default("0"),
        Word::new("swing", "how far it opens", "swing 105 deg")
            .takes(&[needs(Kind::Angle)])
            .default("180 deg"),
        Word::new("gap", "the least gap at the hinge side for this door thickness", "gap 1.5 mm")
            .takes(&[needs(Kind::Length)])
            .default("0"),
        Word::new("adjust", "how far it can be adjusted sideways, to either side", "adjust 2 mm")
            .takes(&[needs(Kind::Length)])
            .default("0"),
        Word::new("door-thickness", "the doors it fits", "door-thickness 16 mm to 26 mm")
            .takes(&[needs(Kind::LengthRange)]),
        Word::new(
            "pose",
            "where a concealed hinge carries the door at one angle, from the drawing on its sheet; without poses it is taken to turn about the front corner of its hinge edge",
            "pose { at 45 deg; out 6 mm; aside 8 mm }",
        )
        .opens("pose")
        .many(),
        Word::new("from-end", "from the door's end to the centre of its first hinge", "from-end 3")
            .takes(&[needs(Kind::Length)])
            .default("3 in")
            .metric("75 mm"),
        Word::new(
            "plate",
            "the plate of a cup hinge: the holes for its two screws",
            "plate { back 37 mm; apart 32 mm; screw 5 mm; deep 12 mm }",
        )
        .opens("plate"),
        Word::new("price", "what it costs", "price 5.80 each")
            .takes(&[needs(Kind::Price(&["each", "pair"]))]),
        NOTE,
    ],
    one_of: &[(&["cup", "butt"], "the kind of hinge")],
};

/// `plate { … }`
pub(super) const PLATE: Block = Block {
    name: "plate",
    title: "the plate of a hinge",
    help: "What the arm of a cup hinge is screwed to, with two screws above each other: on the board beside the opening, on the inside edge of a stile that reaches far enough back, or else on a block behind the stile, flush with its edge.",
    words: &[
        Word::new(
            "back",
            "from the front edge of what it is screwed to, or behind an inset door from the door's back, to the line of its screws",
            "back 37 mm",
        )
        .takes(&[needs(Kind::Length)])
        .default("37 mm"),
        Word::new("apart", "between its two screws", "apart 32 mm")
            .takes(&[needs(Kind::Length)])
            .default("32 mm"),
        Word::new("screw", "the diameter of their holes", "screw 5 mm")
            .takes(&[needs(Kind::Length)])
            .default("5 mm"),
        Word::new("deep", "the depth of their holes", "deep 12 mm")
            .takes(&[needs(Kind::Length)])
            .default("12 mm"),
    ],
    one_of: &[],
};

/// `pose { … }`
pub(super) const POSE: Block = Block {
    name: "pose",
    title: "a pose",
    help: "How far the front corner of the door's hinge edge has moved from its place when closed. Two poses at least, from `at 0 deg` upward; between two of them the corner runs straight, past the last one it stays.",
    words: &[
        Word::new("at", "how far the door is open", "at 45 deg")
            .takes(&[needs(Kind::Angle)])
            .required(),
        Word::new("out", "how far the corner has come out toward the room", "out 6 mm")
            .takes(&[needs(Kind::Length)])
            .default("0"),
        Word::new(
            "aside",
            "how far it has moved away from the hinge stile; below nought toward it",
            "aside 8 mm",
        )
        .takes(&[needs(Kind::Offset)])
        .default("0"),
    ],
    one_of: &[],
};

/// `slide NAME { … }`
pub(super) const SLIDE: Block = Block {
    name: "slide",
    title: "a slide",
    help: "A pair of drawer slides. In its sizes the word `opening` stands for the opening's width or height.",
    words: &[
        Word::new("undermount", "it runs under the drawer", "undermount"),
        Word::new("side-mount", "it runs beside the drawer", "side-mount"),
        Word::new("length", "its nominal length, and the drawer's", "length 15")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("room", "the depth it needs behind the drawer front", "room 15-3/4")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("box-inside", "the drawer's inside width", "box-inside opening - 1-5/8")
            .takes(&[needs(Kind::Size)]),
        Word::new("box-outside", "the drawer's outside width", "box-outside opening - 1")
            .takes(&[needs(Kind::Size)]),
        Word::new("box-high", "the greatest height of the drawer box", "box-high opening - 7/8")
            .takes(&[needs(Kind::Size)])
            .required(),
        Word::new(
            "notch",
            "what is cut out of the drawer's back for each runner",
            "notch { wide 35 mm; high 13 mm }",
        )
        .opens("notch"),
        Word::new("load", "the most it carries", "load 75 lb").takes(&[needs(Kind::Mass)]),
        Word::new(
            "adjust",
            "how far the drawer can be adjusted in height, to either side",
            "adjust 1.5 mm",
        )
        .takes(&[needs(Kind::Length)])
        .default("0"),
        Word::new("price", "what it costs", "price 31 per pair")
            .takes(&[needs(Kind::Price(&["pair", "each"]))]),
        NOTE,
    ],
    one_of: &[
        (&["undermount", "side-mount"], "the kind of slide"),
        (&["box-inside", "box-outside"], "the drawer's width"),
    ],
};

/// `notch { … }`
pub(super) const NOTCH: Block = Block {
    name: "notch",
    title: "a notch",
    help: "A notch in the lower corner of the drawer's back.",
    words: &[
        Word::new("wide", "its width", "wide 35 mm").takes(&[needs(Kind::Length)]).required(),
        Word::new("high", "its height", "high 13 mm").takes(&[needs(Kind::Length)]).required(),
    ],
    one_of: &[],
};

/// `pull NAME { … }`
pub(super) const PULL: Block = Block {
    name: "pull",
    title: "a pull",
    help: "A pull on two screws, or a knob on one.",
    words: &[
        Word::new("centres", "between its two screws; a knob has none", "centres 3")
            .takes(&[needs(Kind::Length)]),
        Word::new("screw", "the diameter of its screw's hole", "screw 5/32")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("up", "its height on a drawer front", "up middle")
            .takes(&[needs(Kind::Choice(&["middle", "upper-third"]))])
            .default("middle"),
        Word::new("from-edge", "from a door's lead edge to its screws", "from-edge 1-1/4")
            .takes(&[needs(Kind::Length)])
            .default("1-1/4 in")
            .metric("30 mm"),
        Word::new(
            "foot",
            "the diameter of the foot round each screw; twice the screw unless written",
            "foot 3/8",
        )
        .takes(&[needs(Kind::Length)]),
        Word::new("stands", "how far it stands off the face of its front", "stands 32 mm")
            .takes(&[needs(Kind::Length)])
            .default("32 mm"),
        Word::new("price", "what it costs", "price 12 each")
            .takes(&[needs(Kind::Price(&["each", "pair"]))]),
        NOTE,
    ],
    one_of: &[],
};

/// `bit NAME { … }`
pub(super) const BIT: Block = Block {
    name: "bit",
    title: "a bit",
    help: "A router bit.",
    words: &[
        Word::new("round-nose", "a round-nose bit of this diameter", "round-nose 1/2")
            .takes(&[needs(Kind::Length)]),
        Word::new("straight", "a straight bit of this diameter", "straight 1/2")
            .takes(&[needs(Kind::Length)]),
        Word::new("shank", "the diameter of its shank", "shank 1/2").takes(&[needs(Kind::Length)]),
        Word::new("speed", "the speed it is run at, in turns a minute", "speed 16000")
            .takes(&[needs(Kind::Count(100_000))]),
        NOTE,
    ],
    one_of: &[(&["round-nose", "straight"], "the shape of the bit")],
};

/// `finish NAME { … }`
pub(super) const FINISH: Block = Block {
    name: "finish",
    title: "a finish",
    help: "A finish and how it is put on.",
    words: &[
        Word::new("hardwax-oil", "a hardwax oil", "hardwax-oil"),
        Word::new("oil", "a drying oil", "oil"),
        Word::new("varnish", "a varnish", "varnish"),
        Word::new("lacquer", "a lacquer", "lacquer"),
        Word::new("wax", "a wax", "wax"),
        Word::new("paint", "a paint", "paint"),
        Word::new("coats", "how many coats", "coats 2")
            .takes(&[needs(Kind::Count(50))])
            .default("1"),
        Word::new("covers", "how far it goes in one coat", "covers 30 m2 per l")
            .takes(&[needs(Kind::Coverage)]),
        Word::new("mix", "how it is mixed with its second part", "mix 3 to 1")
            .takes(&[needs(Kind::Ratio)]),
        Word::new("pot-life", "how long it may be used once mixed", "pot-life 4 h")
            .takes(&[needs(Kind::Duration)]),
        Word::new("cure", "how long a coat dries before the next work", "cure 24 h")
            .takes(&[needs(Kind::Duration)])
            .default("24 h"),
        NOTE,
    ],
    one_of: &[(
        &["hardwax-oil", "oil", "varnish", "lacquer", "wax", "paint"],
        "the kind of finish",
    )],
};
