//! The file itself.

use super::*;

block! {
    /// What stands outside all braces.
    file: "file", "the file",
    "What stands outside all braces. A file that other specs `use` needs only what it shares.";
    CASEWORK: Count<1_000> = ("casework", "the version of the language", "casework 1");
    USE: File = (
        "use",
        "another file in or below this one's folder, whose stock, hardware, finishes, and shop this spec takes",
        "use \"shop.case\"",
    ).many();
    UNITS: Units = ("units", "the unit of bare numbers in a file that other specs use", "units mm");
    JOB: Text = (
        "job",
        "the job, with its name, units, and tape",
        "job \"Hall console\" { units in }",
    ).opens(job::block);
    SITE: Braces = (
        "site",
        "the room that the piece is installed in",
        "site { left open; right wall { scribe 3/4 } }",
    ).opens(site::block);
    SHOP: Braces = (
        "shop",
        "the shop that the piece is made in; what it leaves out is as in the shop of a used file",
        "shop { kerf 1/8; clamps 8 }",
    ).opens(shop::block);
    STOCK: Define = (
        "stock",
        "a material, under a name of your own",
        "stock birch-ply { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }",
    ).opens(stock::block).many();
    SPECIES: Define = (
        "species",
        "a wood that the built-in table lacks, or your own figures for one that it has (`casewright trade species` prints the table)",
        "species pear { gravity 0.69; shrinks { radial 3.9%; tangential 11.3% }; stiffness 7.8 GPa }",
    ).opens(species::block).many();
    HINGE: Define = (
        "hinge",
        "a hinge, with the figures of its maker's sheet",
        "hinge inset-cup { cup 35 mm; bore 12.5 mm; from-edge 4 mm; gap 1.5 mm }",
    ).opens(hinge::block).many();
    SLIDE: Define = (
        "slide",
        "a drawer slide, with the figures of its maker's sheet",
        "slide soft-15 { undermount; length 15; room 15-3/4; box-inside opening - 1-5/8; box-high opening - 7/8 }",
    ).opens(slide::block).many();
    PULL: Define = (
        "pull",
        "a pull or knob",
        "pull ring { centers 3; screw 5/32; up middle }",
    ).opens(pull::block).many();
    LEG: Define = (
        "leg",
        "a leg that is bought and screwed under a case, with the figures of its maker's sheet",
        "leg tapered { high 6; wide 2-1/2; foot 7/8; plate { screws 4; from-edge 3/8 } }",
    ).opens(bought_leg::block).many();
    BIT: Define = (
        "bit",
        "a router bit",
        "bit half-straight { straight 1/2; shank 1/2; speed 18000 }",
    ).opens(bit::block).many();
    FINISH: Define = (
        "finish",
        "a finish",
        "finish oil { hardwax-oil; coats 2; cure 24 h }",
    ).opens(finish::block).many();
    SUPPLY: Supply = (
        "supply",
        "screws, pins, clips, hanging rails, catches, or door stops as they are sold: how many to a pack, what one costs, and how many are on hand",
        "supply wood-screws { long 1-1/4; pack 100; price 7.50 per pack }",
    ).opens(supply::block).many();
    GLUE: Braces = (
        "glue",
        "how the wood glue is sold",
        "glue { bottle 16 fl-oz { price 8.50 each } }",
    ).opens(glue::block);
    ABRASIVE: Count<5_000> = (
        "abrasive",
        "sandpaper of one grit as it is sold; without any, the buying list has none",
        "abrasive 120 { pack 10; price 9.50 per pack }",
    ).opens(abrasive::block).many()
        .can_be("24", "5000")
        .usual("60", "600");
    CASE: Define = (
        "case",
        "a cabinet; several stand side by side, left to right",
        "case console { wide 66; deep 17; high 33 … }",
    ).opens(case::block).many();
    RUN: Define = (
        "run",
        "several cases side by side that share what is written once for all of them",
        "run kitchen { high 34; deep 24; across { case sink { … }; case bank { … } } }",
    ).opens(run::block).many();
    ACCEPT: (Finding, On, Path, Text) = (
        "accept",
        "a warning that you accept at one place and at all that lies below it, with your reason",
        "accept pocket-seen on console.partition-press-niche \"filled with plugs\"",
    ).many();
    MEASURED: Maybe<Date> = (
        "measured",
        "sizes as measured after glue-up, from the yard, and in the shop; you may write the day",
        "measured { opening console.press { wide 26-17/32 } }",
    ).opens(measured::block).many();
    CUT: Date = (
        "cut",
        "parts that are already cut, and the day; `casewright record` writes this",
        "cut 2026-03-14 { console.left-end; console.bottom { wide 16-9/32 } }",
    ).opens(cut::block).many();
}

use file::{ACCEPT, CASE, CUT, JOB, MEASURED, RUN, SITE};

kinds! {
    /// What only the spec itself may hold, and no file that it uses.
    pub(crate) OfPiece {
        /// The job.
        Job = JOB,
        /// The room.
        Site = SITE,
        /// A case.
        Case = CASE,
        /// A run of cases.
        Run = RUN,
        /// A warning that is accepted.
        Accept = ACCEPT,
        /// What is measured.
        Measured = MEASURED,
        /// What is cut.
        Cut = CUT,
    }
}

kinds! {
    /// What stands on the floor, left to right.
    pub(crate) OnFloor {
        /// A case by itself.
        Case = CASE,
        /// A run of cases.
        Run = RUN,
    }
}
