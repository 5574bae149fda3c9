//! The file itself.

use crate::vocabulary::word::{Block, Kind, Word, may, needs};

/// What stands outside all braces.
pub(super) const FILE: Block = Block {
    name: "file",
    title: "the file",
    help: "What stands outside all braces. A file that others `use` needs only what it shares.",
    words: &[
        Word::new("casework", "the version of the language", "casework 1")
            .takes(&[needs(Kind::Count(1_000))]),
        Word::new(
            "use",
            "takes the stock, hardware, finishes and shop of another file below this one's folder",
            "use \"shop.case\"",
        )
        .takes(&[needs(Kind::Text)])
        .many(),
        Word::new("units", "the unit of bare numbers in a file that others use", "units mm")
            .takes(&[needs(Kind::Choice(&["in", "mm"]))]),
        Word::new("job", "the job: its name, units and tape", "job \"Hall console\" { units in }")
            .takes(&[needs(Kind::Text)])
            .opens("job"),
        Word::new("site", "the room it is fitted in", "site { left open; right wall { scribe 3/4 } }")
            .opens("site"),
        Word::new("shop", "the shop it is made in", "shop { kerf 1/8; clamps 8 }").opens("shop"),
        Word::new(
            "stock",
            "a material, under a name of your own",
            "stock birch-ply { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }",
        )
        .takes(&[needs(Kind::Define)])
        .opens("stock")
        .many(),
        Word::new(
            "species",
            "a wood that the built-in table lacks, or your own figures for one that it has (`casewright trade species` lists it)",
            "species pear { gravity 0.69; shrinks { radial 3.9%; tangential 11.3% }; stiffness 7.8 GPa }",
        )
        .takes(&[needs(Kind::Define)])
        .opens("species")
        .many(),
        Word::new("hinge", "a hinge, from its maker's sheet", "hinge inset-cup { cup 35 mm; bore 12.5 mm; from-edge 4 mm; gap 1.5 mm }")
            .takes(&[needs(Kind::Define)])
            .opens("hinge")
            .many(),
        Word::new("slide", "a drawer slide, from its maker's sheet", "slide soft-15 { undermount; length 15; room 15-3/4; box-inside opening - 1-5/8; box-high opening - 7/8 }")
            .takes(&[needs(Kind::Define)])
            .opens("slide")
            .many(),
        Word::new("pull", "a pull or knob", "pull ring { centres 3; screw 5/32; up middle }")
            .takes(&[needs(Kind::Define)])
            .opens("pull")
            .many(),
        Word::new("bit", "a router bit", "bit half-straight { straight 1/2; shank 1/2; speed 18000 }")
            .takes(&[needs(Kind::Define)])
            .opens("bit")
            .many(),
        Word::new("finish", "a finish", "finish oil { hardwax-oil; coats 2; cure 24 h }")
            .takes(&[needs(Kind::Define)])
            .opens("finish")
            .many(),
        Word::new("case", "a cabinet; several stand side by side, left to right", "case console { wide 66; deep 17; high 33 … }")
            .takes(&[needs(Kind::Define)])
            .opens("case")
            .many(),
        Word::new("accept", "silences one warning at one place, with the reason", "accept pocket-seen on console.partition-press-niche \"filled with plugs\"")
            .takes(&[
                needs(Kind::Label),
                needs(Kind::Exactly("on")),
                needs(Kind::Path),
                needs(Kind::Text),
            ])
            .many(),
        Word::new(
            "measured",
            "sizes as they came out of the clamps, from the yard and in the shop; the day may be said",
            "measured { opening console.press { wide 26-17/32 } }",
        )
        .takes(&[may(Kind::Date)])
        .opens("measured")
        .many(),
        Word::new(
            "cut",
            "parts that are cut already, and the day; `casewright record` writes it",
            "cut 2026-03-14 { console.left-end; console.bottom { wide 16-9/32 } }",
        )
        .takes(&[needs(Kind::Date)])
        .opens("cut")
        .many(),
    ],
    one_of: &[],
};
