//! A case and its boards.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, may, needs};

const STOCK: Word = Word::new("stock", "what it is made of", "stock birch-ply")
    .takes(&[needs(Kind::Refer("stock"))]);
const JOINT_WORD: Word = Word::new("joint", "how it is joined", "joint dado { deep 1/4 }")
    .takes(&[needs(Kind::Choice(&["dado", "rabbet", "pocket", "screw", "dowel"]))])
    .may_open("joint");
/// A load that stands on a board; its limit is tighter where none is written.
const LOAD: Word = Word::new(
    "load",
    "what stands on it, for its sag: books 40 to 50 lb on a square foot",
    "load 40 lb per ft2",
)
.takes(&[needs(Kind::Load)])
.default("15 lb per ft2");
const BACK_JOINT: Word = Word::new(
    "joint",
    "let into rabbets of the ends, or screwed on behind them",
    "joint rabbet { deep 3/8 }",
)
.takes(&[needs(Kind::Choice(&["rabbet", "screw"]))])
.may_open("joint");

/// `case NAME { … }`
pub(super) const CASE: Block = Block {
    name: "case",
    title: "a case",
    help: "A cabinet. Its sizes are over all: frame and base included, fronts flush (inset) or included (overlay), worktop not. A size may be left out where the openings give it.",
    words: &[
        Word::new("wide", "over all, scribes included", "wide 66").takes(&[needs(Kind::Size)]),
        Word::new("deep", "the foremost face to the back", "deep 17").takes(&[needs(Kind::Length)]).required(),
        Word::new("high", "the floor to the top", "high 33").takes(&[needs(Kind::Size)]),
        Word::new("stock", "what its boards are made of unless they say otherwise", "stock birch-ply").takes(&[needs(Kind::Refer("stock"))]),
        Word::new("base", "what it stands on", "base { toe-kick; high 4; set-back 3; cut-into ends }").opens("base"),
        Word::new("ends", "both ends", "ends { stock birch-ply }").opens("panels"),
        Word::new("end", "one end, where it differs", "end left { stock cherry-ply; seam mitre }")
            .takes(&[needs(Kind::Choice(&["left", "right"]))])
            .opens("end")
            .many(),
        Word::new("bottom", "the bottom", "bottom { joint dado { deep 1/4 } }").opens("bottom"),
        Word::new("back", "the back", "back { stock thin-ply; joint rabbet { deep 3/8 } }").opens("back"),
        Word::new("top", "the top: stretchers or a whole panel", "top { stretchers 2 { wide 4 }; joint pocket }").opens("top"),
        Word::new("partitions", "the upright boards: one behind each full-height stile, or between openings of a frame-less case", "partitions { joint dado { deep 1/4 } }").opens("panels"),
        Word::new("shelves", "the shelves", "shelves { stock birch-ply; clearance 1/8 }").opens("shelves"),
        Word::new("leg", "an upright under the bottom, behind the toe kick", "leg { at 33; wide 12 }").opens("leg").many(),
        Word::new("frame", "the face frame, or `none`", "frame { stock cherry; … }")
            .takes(&[may(Kind::Choice(&["none"]))])
            .may_open("frame")
            .required(),
        Word::new("across", "the openings of a frame-less case, left to right", "across { … }").opens("list"),
        Word::new("down", "the openings of a frame-less case, top to bottom", "down { … }").opens("list"),
        Word::new("fronts", "doors and drawer fronts", "fronts { stock cherry; set inset; gap 3/32 }").opens("fronts"),
        Word::new("drawers", "drawer boxes", "drawers { stock maple; slide soft-15 }").opens("drawers"),
        Word::new("finish", "the finish of its seen parts", "finish oil").takes(&[needs(Kind::Refer("finish"))]),
        NOTE,
    ],
    one_of: &[],
};

/// `base { … }`
pub(super) const BASE: Block = Block {
    name: "base",
    title: "the base",
    help: "A toe kick is a recess under the front: cut into the ends, or a separate frame that the case stands on. Without a base the case stands on its ends or hangs on the wall.",
    words: &[
        Word::new("toe-kick", "a recess under the front", "toe-kick"),
        Word::new("high", "from the floor to the underside of the frame", "high 4")
            .takes(&[needs(Kind::Size)])
            .required(),
        Word::new("set-back", "from the face of the frame back to the kick board", "set-back 3")
            .takes(&[needs(Kind::Length)])
            .default("3 in")
            .metric("75 mm"),
        Word::new("cut-into", "the ends run to the floor and are notched", "cut-into ends")
            .takes(&[needs(Kind::Choice(&["ends"]))]),
        Word::new("separate", "a frame of its own under the case", "separate"),
        STOCK,
        NOTE,
    ],
    one_of: &[
        (&["toe-kick"], "the kind of base"),
        (&["cut-into", "separate"], "how the base is built"),
    ],
};

/// `ends { … }`, `partitions { … }`
pub(super) const PANELS: Block = Block {
    name: "panels",
    title: "these boards",
    help: "Upright boards.",
    words: &[STOCK, JOINT_WORD, NOTE],
    one_of: &[],
};

/// `end left { … }`
pub(super) const END: Block = Block {
    name: "end",
    title: "an end",
    help: "One end of the case.",
    words: &[
        STOCK,
        Word::new(
            "seam",
            "how it meets the frame's stile: `mitre` wraps the grain round the corner",
            "seam mitre",
        )
        .takes(&[needs(Kind::Choice(&["mitre", "butt"]))])
        .default("butt"),
        NOTE,
    ],
    one_of: &[],
};

/// `bottom { … }`
pub(super) const BOTTOM: Block = Block {
    name: "bottom",
    title: "the bottom",
    help: "The bottom of the case; its underside lies at the height of the base.",
    words: &[
        STOCK,
        JOINT_WORD,
        Word::new("flush", "its top lies level with the top of the bottom rail instead", "flush"),
        LOAD,
        NOTE,
    ],
    one_of: &[],
};

/// `back { … }`
pub(super) const BACK: Block = Block {
    name: "back",
    title: "the back",
    help: "The back, in rabbets of the ends or planted on.",
    words: &[STOCK, BACK_JOINT, NOTE],
    one_of: &[],
};

/// `top { … }`
pub(super) const TOP: Block = Block {
    name: "top",
    title: "the top",
    help: "Two or more stretchers under a worktop, or a whole panel.",
    words: &[
        Word::new("stretchers", "how many boards lie from end to end", "stretchers 2 { wide 4 }")
            .takes(&[needs(Kind::Count(20))])
            .may_open("stretchers"),
        Word::new("panel", "a whole panel", "panel"),
        STOCK,
        JOINT_WORD,
        LOAD,
        NOTE,
    ],
    one_of: &[(&["stretchers", "panel"], "what the top is")],
};

/// `stretchers 2 { … }`
pub(super) const STRETCHERS: Block = Block {
    name: "stretchers",
    title: "the stretchers",
    help: "Flat boards from end to end at the top.",
    words: &[Word::new("wide", "front to back", "wide 4")
        .takes(&[needs(Kind::Length)])
        .default("4 in")
        .metric("100 mm")],
    one_of: &[],
};

/// `leg { … }`
pub(super) const LEG: Block = Block {
    name: "leg",
    title: "a leg",
    help: "An upright board under the bottom, from the floor, square to the front. In a separate base it stands between the front and the back of the base, and a sleeper in its place is left out.",
    words: &[
        Word::new(
            "at",
            "from the left side of the case to its centre; the middle unless written",
            "at 33",
        )
        .takes(&[needs(Kind::Length)]),
        Word::new(
            "wide",
            "front to back; from the kick board to the back of the case or of a separate base unless written",
            "wide 12",
        )
        .takes(&[needs(Kind::Length)]),
        STOCK,
        NOTE,
    ],
    one_of: &[],
};

/// `shelves { … }`
pub(super) const SHELVES: Block = Block {
    name: "shelves",
    title: "the shelves",
    help: "What all shelves of the case have in common.",
    words: &[
        STOCK,
        Word::new(
            "clearance",
            "an adjustable shelf is this much shorter than its space",
            "clearance 1/8",
        )
        .takes(&[needs(Kind::Length)])
        .default("1/8 in")
        .metric("3 mm"),
        Word::new("set-back", "behind the frame or the front edge", "set-back 1/2")
            .takes(&[needs(Kind::Length)])
            .default("1/4 in")
            .metric("6 mm"),
        JOINT_WORD,
        LOAD,
        NOTE,
    ],
    one_of: &[],
};

/// `joint … { … }`
pub(super) const JOINT: Block = Block {
    name: "joint",
    title: "a joint",
    help: "The sizes of a joint.",
    words: &[
        Word::new(
            "deep",
            "how deep a dado or rabbet is cut; unless written a third of the thickness, of a rabbet half",
            "deep 1/4",
        )
        .takes(&[needs(Kind::Length)]),
        Word::new("long", "the length of a tenon", "long 1")
            .takes(&[needs(Kind::Length)])
            .default("1 in")
            .metric("25 mm"),
        Word::new(
            "thick",
            "the thickness of a tenon; a third of the stock unless written",
            "thick 1/4",
        )
        .takes(&[needs(Kind::Length)]),
        Word::new("diameter", "the diameter of a dowel", "diameter 3/8")
            .takes(&[needs(Kind::Length)])
            .default("3/8 in")
            .metric("9 mm"),
        Word::new("screw", "the length of a screw", "screw 1-1/4").takes(&[needs(Kind::Length)]),
    ],
    one_of: &[],
};
