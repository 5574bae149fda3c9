//! The room.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, needs};

/// `site { … }`
pub(super) const SITE: Block = Block {
    name: "site",
    title: "the site",
    help: "The room the piece is fitted in: what stands at its sides and what it must keep clear of.",
    words: &[
        Word::new("left", "what the left side meets", "left open")
            .takes(&[needs(Kind::Choice(&["open", "wall"]))])
            .may_open("wall")
            .default("open"),
        Word::new("right", "what the right side meets", "right wall { scribe 3/4 }")
            .takes(&[needs(Kind::Choice(&["open", "wall"]))])
            .may_open("wall")
            .default("open"),
        Word::new(
            "fixing",
            "`wall` where the piece is screwed to the wall behind it, so that it can't tip",
            "fixing wall",
        )
        .takes(&[needs(Kind::Choice(&["wall", "none"]))])
        .default("none"),
        Word::new(
            "humidity",
            "the room's driest and dampest air through the year",
            "humidity 30% to 55%",
        )
        .takes(&[needs(Kind::PercentRange)])
        .default("30% to 55%"),
        Word::new("temperature", "the room's usual temperature", "temperature 68 F")
            .takes(&[needs(Kind::Temperature)])
            .default("70 F"),
        Word::new(
            "keep-out",
            "a pipe, socket or trap that no part may touch",
            "keep-out \"heating pipe\" { from-left 52; up 0; wide 6; high 3-1/4; deep 3 }",
        )
        .takes(&[needs(Kind::Text)])
        .opens("keep-out")
        .many(),
        NOTE,
    ],
    one_of: &[],
};

/// `left wall { … }`
pub(super) const WALL: Block = Block {
    name: "wall",
    title: "a wall",
    help: "A wall at one side of the piece.",
    words: &[Word::new(
        "scribe",
        "how far the outer stile reaches past the carcass, to be planed to the wall",
        "scribe 3/4",
    )
    .takes(&[needs(Kind::Length)])
    .default("0")],
    one_of: &[],
};

/// `keep-out "…" { … }`
pub(super) const KEEP_OUT: Block = Block {
    name: "keep-out",
    title: "a keep-out",
    help: "A box that stands against the wall behind the piece. Measured from the left side of the whole piece, from the floor, and out from the wall.",
    words: &[
        Word::new(
            "from-left",
            "from the left side of the piece to its left side; below nought where it begins left of the piece",
            "from-left 52",
        )
        .takes(&[needs(Kind::Offset)])
        .required(),
        Word::new("up", "from the floor to its underside", "up 16")
            .takes(&[needs(Kind::Length)])
            .default("0"),
        Word::new("wide", "its width", "wide 6").takes(&[needs(Kind::Length)]).required(),
        Word::new("high", "its height", "high 3-1/4").takes(&[needs(Kind::Length)]).required(),
        Word::new("deep", "how far it stands out from the wall", "deep 3")
            .takes(&[needs(Kind::Length)])
            .required(),
        NOTE,
    ],
    one_of: &[],
};
