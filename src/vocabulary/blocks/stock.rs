//! Materials.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, needs};

/// `stock NAME { … }`
pub(super) const STOCK: Block = Block {
    name: "stock",
    title: "a stock",
    help: "A material. Sheet goods give the nominal thickness they are sold by and, with `actual`, what a calliper reads; lumber gives its rough thickness in quarters and the thickness it is planed to.",
    words: &[
        Word::new("plywood", "plywood of this nominal thickness", "plywood 3/4")
            .takes(&[needs(Kind::Nominal)]),
        Word::new("mdf", "medium-density fibreboard of this nominal thickness", "mdf 18 mm")
            .takes(&[needs(Kind::Nominal)]),
        Word::new("particleboard", "particleboard of this nominal thickness", "particleboard 5/8")
            .takes(&[needs(Kind::Nominal)]),
        Word::new("hardboard", "hardboard of this nominal thickness", "hardboard 1/4")
            .takes(&[needs(Kind::Nominal)]),
        Word::new(
            "lumber",
            "boards of this rough thickness: quarters of an inch, or a length with its unit",
            "lumber 4/4",
        )
        .takes(&[needs(Kind::Nominal)]),
        Word::new(
            "actual",
            "the sheet's thickness as measured; the nominal one unless written",
            "actual 23/32",
        )
        .takes(&[needs(Kind::Length)]),
        Word::new("thickness", "what lumber is planed to", "thickness 3/4")
            .takes(&[needs(Kind::Length)]),
        Word::new("species", "the wood, or the face veneer", "species black-cherry")
            .takes(&[needs(Kind::Label)]),
        Word::new(
            "gravity",
            "specific gravity at 12 % moisture; that of the species or the kind of sheet unless written",
            "gravity 0.68",
        )
        .takes(&[needs(Kind::Number)]),
        Word::new(
            "stiffness",
            "modulus of elasticity; that of the species or the kind of sheet unless written",
            "stiffness 1400000 psi",
        )
        .takes(&[needs(Kind::Stiffness)]),
        Word::new("sawn", "how the boards are sawn", "sawn quarter")
            .takes(&[needs(Kind::Choice(&["flat", "quarter", "rift"]))])
            .default("flat"),
        Word::new("sheet", "the size of a whole sheet", "sheet { long 96; wide 48; grain long }")
            .opens("sheet"),
        Word::new("on-hand", "a piece already in the rack", "on-hand { long 40; wide 27 }")
            .opens("on-hand")
            .many(),
        Word::new("boards", "the boards the yard has", "boards { wide 5 to 8; long 96 to 120 }")
            .opens("boards"),
        Word::new("price", "what it costs", "price 82 per sheet").takes(&[needs(Kind::Price(&[
            "sheet",
            "board-foot",
            "each",
            "m2",
            "m3",
        ]))]),
        NOTE,
    ],
    one_of: &[(&["plywood", "mdf", "particleboard", "hardboard", "lumber"], "what it is")],
};

/// `sheet { … }`
pub(super) const SHEET: Block = Block {
    name: "sheet",
    title: "a sheet",
    help: "A whole sheet as it is bought.",
    words: &[
        Word::new("long", "its length", "long 96").takes(&[needs(Kind::Length)]).required(),
        Word::new("wide", "its width", "wide 48").takes(&[needs(Kind::Length)]).required(),
        Word::new("grain", "which way the face grain runs", "grain long")
            .takes(&[needs(Kind::Choice(&["long", "wide", "none"]))])
            .default("long"),
    ],
    one_of: &[],
};

/// `on-hand { … }`
pub(super) const ON_HAND: Block = Block {
    name: "on-hand",
    title: "a piece on hand",
    help: "A piece that is in the rack already.",
    words: &[
        Word::new("long", "its length, along the grain", "long 40")
            .takes(&[needs(Kind::Length)])
            .required(),
        Word::new("wide", "its width", "wide 27").takes(&[needs(Kind::Length)]).required(),
    ],
    one_of: &[],
};

/// `boards { … }`
pub(super) const BOARDS: Block = Block {
    name: "boards",
    title: "the boards",
    help: "The narrowest to the widest and the shortest to the longest board the yard has.",
    words: &[
        Word::new("wide", "their widths", "wide 5 to 8")
            .takes(&[needs(Kind::LengthRange)])
            .required(),
        Word::new("long", "their lengths", "long 96 to 120")
            .takes(&[needs(Kind::LengthRange)])
            .required(),
    ],
    one_of: &[],
};
