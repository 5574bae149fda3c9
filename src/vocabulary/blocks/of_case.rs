//! Words that a case and a run of cases share.

use super::*;

words! {
    CASE_LIKE: Path = (
        "like",
        "another case that this one is made like",
        "like left-stand { mirrored }",
    ).may_open(like::block).takes_over();
    CASE_WIDE: Size = ("wide", "overall width, scribes included, without the overhang of a countertop", "wide 66")
        .can_be("3 in", "10 m")
        .usual("150 mm", "16 ft");
    CASE_HIGH: Size = ("high", "overall height, from the floor to the top, or from the underside of a case that hangs; a countertop is not counted", "high 33")
        .can_be("3 in", "6 m")
        .usual("9 in", "10 ft");
    /// A run stands on the floor.
    RUN_HIGH: Size = ("high", "overall height, from the floor to the top; a countertop is not counted", "high 33")
        .can_be("3 in", "6 m")
        .usual("9 in", "10 ft");
    CASE_STOCK: Refer<Stock> = (
        "stock",
        "what its boards are made of, unless a board names another stock",
        "stock birch-ply",
    );
    CASE_HUNG: Braces = (
        "hung",
        "it hangs on the wall instead of standing on the floor",
        "hung { up 18 }",
    ).opens(hung::block);
    CASE_BASE: Braces = (
        "base",
        "what it stands on",
        "base { toe-kick; high 4; set-back 3; cut-into ends }",
    ).opens(base::block);
    CASE_ENDS: Braces =
        ("ends", "both ends", "ends { stock birch-ply }").opens(ends::block);
    CASE_END: Side = (
        "end",
        "one end, where it differs from the other",
        "end left { stock cherry-ply; seam miter }",
    ).opens(end::block).many();
    CASE_COVER: Covered = (
        "cover",
        "a finished panel over a side that is seen, inside the overall sizes: over an end, over the back of a piece that stands free in the room, or under a case that hangs",
        "cover left { stock cherry-ply }",
    ).opens(cover::block).many();
    CASE_BOTTOM: Braces = (
        "bottom",
        "the bottom",
        "bottom { joint dado { deep 1/4 } }",
    ).opens(bottom::block);
    CASE_BACK: Maybe<Nothing> = (
        "back",
        "the back, or `none` for a case that stays open behind",
        "back { stock thin-ply; joint rabbet { deep 3/8 } }",
    ).may_open(back::block);
    CASE_TOP: Braces = (
        "top",
        "the top of the box, made of stretchers or of one panel; a `countertop` is the board that shows",
        "top { stretchers 2 { wide 4 }; joint pocket }",
    ).opens(top::block);
    CASE_PARTITIONS: Braces = (
        "partitions",
        "the upright boards: one behind each full-height stile, or between the openings of a frameless case",
        "partitions { joint dado { deep 1/4 } }",
    ).opens(panels::block);
    CASE_SHELVES: Braces = (
        "shelves",
        "the shelves",
        "shelves { stock birch-ply; clearance 1/8 }",
    ).opens(shelves::block);
    CASE_LEG: Braces = (
        "leg",
        "an upright under the bottom, behind the toe kick",
        "leg { at 33; wide 12 }",
    ).opens(leg::block).many();
    CASE_ACROSS: Braces = (
        "across",
        "the openings of a frameless case, left to right",
        "across { … }",
    ).opens(list::block).reads_across();
    CASE_DOWN: Braces = (
        "down",
        "the openings of a frameless case, top to bottom",
        "down { … }",
    ).opens(list::block);
    CASE_FRONTS: Braces = (
        "fronts",
        "doors and drawer fronts",
        "fronts { stock cherry; set inset; gap 3/32 }",
    ).opens(fronts::block);
    CASE_DRAWERS: Braces = (
        "drawers",
        "drawer boxes",
        "drawers { stock maple; slide soft-15 }",
    ).opens(drawers::block);
    CASE_EDGES: Refer<Stock> = (
        "edges",
        "what the edges of its sheets are lipped or banded with, where they are seen and nothing else is said: the front edges of boards, all four of slab fronts, those of a countertop, and the ends of a toe kick, and of the front and the back of a separate base",
        "edges band",
    ).may_open(edges::block);
    CASE_FINISH: Refer<Finish> = (
        "finish",
        "the finish of all that shows; frame, fronts, drawers, countertop, and covers may name another",
        "finish oil",
    );
    /// The finish of what stands on its own, or is seen apart from the case.
    PART_FINISH: Refer<Finish> =
        ("finish", "another finish than that of the case", "finish paint");
}

block! {
    /// `like NAME { … }`
    like: "like", "the braces of `like`",
    "A case that is made like another, with all that is written there: sizes, openings with their names, hardware, stock, joints, base, and back. A redraw of the one is a redraw of both. What this case says itself, such as where it hangs, takes the place of the same statement there, with all that stands in its braces; its openings and its frame are those of the other. Its parts and openings have its own name before theirs, as in `right-stand.upper`. A case of a run may be like another case of the same run.";
    MIRRORED: Flag = (
        "mirrored",
        "the other way round: what is left there is right here, such as the side of a hinge, an end, or a stile, and what stands in `across` reads from right to left",
        "mirrored",
    );
}
