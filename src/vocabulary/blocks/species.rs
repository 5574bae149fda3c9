//! Woods.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, needs};

/// `species NAME { … }`
pub(super) const SPECIES: Block = Block {
    name: "species",
    title: "a species",
    help: "A wood with figures of your own: how heavy, how stiff and how restless it is. `radial` and `tangential` are the change for each point of moisture, across and along the rings; tables that give the shrinkage from green to oven-dry instead go into `shrinks`.",
    words: &[
        Word::new(
            "gravity",
            "specific gravity: oven-dry weight over the volume at 12 % moisture",
            "gravity 0.50",
        )
        .takes(&[needs(Kind::Number)])
        .required(),
        Word::new("radial", "change across the rings for each point of moisture", "radial 0.00126")
            .takes(&[needs(Kind::Number)]),
        Word::new(
            "tangential",
            "change along the rings for each point of moisture",
            "tangential 0.00248",
        )
        .takes(&[needs(Kind::Number)]),
        Word::new(
            "shrinks",
            "shrinkage from green to oven-dry, where that is what the table gives",
            "shrinks { radial 3.7%; tangential 7.1% }",
        )
        .opens("shrinks"),
        Word::new("stiffness", "modulus of elasticity", "stiffness 1490000 psi")
            .takes(&[needs(Kind::Stiffness)])
            .required(),
        NOTE,
    ],
    one_of: &[(&["tangential", "shrinks"], "how much it moves")],
};

/// `shrinks { … }`
pub(super) const SHRINKS: Block = Block {
    name: "shrinks",
    title: "the shrinkage",
    help: "Shrinkage from green to oven-dry. The change for each point of moisture follows as S / (3000 − 20 S), S in percent.",
    words: &[
        Word::new("radial", "across the rings", "radial 3.7%")
            .takes(&[needs(Kind::Percent)])
            .required(),
        Word::new("tangential", "along the rings", "tangential 7.1%")
            .takes(&[needs(Kind::Percent)])
            .required(),
    ],
    one_of: &[],
};
