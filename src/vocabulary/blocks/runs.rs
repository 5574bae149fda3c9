//! A run: several cases side by side that share what is written once for all.

use super::*;
pub(crate) use super::{
    AROUND, CASE_ACROSS, CASE_BACK, CASE_BASE, CASE_BOTTOM, CASE_COVER, CASE_DOWN, CASE_DRAWERS,
    CASE_EDGES, CASE_END, CASE_ENDS, CASE_FINISH, CASE_FRONTS, CASE_HUNG, CASE_LEG, CASE_LIKE,
    CASE_PARTITIONS, CASE_SHELVES, CASE_STOCK, CASE_TOP, CASE_WIDE, NOTE, RUN_HIGH,
};

words! {
    SHARE: Number = ("share", "its share of the width that is left", "share 1")
        .can_be("0.001", "1000")
        .usual("1/8", "8");
    SAME: Path = ("same", "another case, filler, or space of the run that it is as wide as", "same sink");
}

block! {
    /// `run NAME { … }`
    run: "run", "a run of cases",
    "Several cases side by side. What you write here holds for each of its cases, unless the case says otherwise.";
    WIDE: Size = (
        "wide",
        "overall width: its cases, fillers, and spaces, scribes included",
        "wide 96",
    )
        .can_be("3 in", "30 m")
        .usual("12 in", "40 ft");
    DEEP: Length = (
        "deep",
        "overall depth of its cases, from the foremost face to the back",
        "deep 24",
    )
        .can_be("30 mm", "3 m")
        .usual("4 in", "36 in");
    HIGH = RUN_HIGH;
    STOCK = CASE_STOCK;
    BASE = CASE_BASE;
    HUNG = CASE_HUNG;
    ENDS = CASE_ENDS;
    COVER: Covered = (
        "cover",
        "a finished panel over an end of the run that is seen, `left` or `right`, or over the `back` of all its cases, which is parted at a joint between two cases where it would be larger than a sheet",
        "cover back { stock cherry-ply }",
    ).opens(cover::block).many();
    BOTTOM = CASE_BOTTOM;
    BACK = CASE_BACK;
    TOP = CASE_TOP;
    COUNTERTOP: Braces = (
        "countertop",
        "what is laid on its cases and over the spaces between them, in one piece; a case with a `high` of its own parts it",
        "countertop { stock oak; over 1 }",
    ).opens(countertop::block).also("worktop");
    PARTITIONS = CASE_PARTITIONS;
    SHELVES = CASE_SHELVES;
    FRAME: Maybe<Nothing> = (
        "frame",
        "`none`: its cases are frameless, unless one has a frame of its own",
        "frame none",
    );
    ACROSS: Braces = (
        "across",
        "its cases, fillers, and spaces, left to right",
        "across { case sink { wide 32; … }; case bank { share 1; … } }",
    ).opens(run_list::block).required();
    FRONTS = CASE_FRONTS;
    DRAWERS = CASE_DRAWERS;
    EDGES = CASE_EDGES;
    FINISH = CASE_FINISH;
    NOTE;
}

block! {
    /// `across { … }` of a run
    run_list: "run-list", "the list of a run",
    "What stands in the run, left to right.";
    CASE: Define = (
        "case",
        "a case of the run",
        "case sink { wide 32; across { doors pots { share 1 } } }",
    ).opens(run_case::block).many();
    FILLER: Define = (
        "filler",
        "a strip between a case and the wall, or between two cases",
        "filler corner { wide 2 }",
    ).may_open(filler::block).many();
    SPACE: Define = (
        "space",
        "a place that stays free for an appliance",
        "space dishwasher { takes { wide 23-7/8; high 34 }; clear 1/16 }",
    ).opens(space::block).many();
}

use run_list::{CASE, FILLER, SPACE};

kinds! {
    /// What may stand in a run.
    pub(crate) Stands {
        /// A case.
        Case = CASE,
        /// A strip.
        Filler = FILLER,
        /// A free place.
        Space = SPACE,
    }
}

block! {
    /// `case NAME { … }` in a run
    run_case: "run-case", "a case of a run",
    "A cabinet in a run. What it doesn't say, the run says for all its cases, word by word and inside braces too. Its width may also be a share of the run's.";
    LIKE = CASE_LIKE;
    WIDE = CASE_WIDE;
    SHARE;
    SAME;
    DEEP: Length = (
        "deep",
        "overall depth, where it differs from that of the run",
        "deep 12",
    )
        .can_be("30 mm", "3 m")
        .usual("4 in", "36 in");
    HIGH = RUN_HIGH;
    STOCK = CASE_STOCK;
    ENDS = CASE_ENDS;
    END = CASE_END;
    COVER = CASE_COVER;
    BOTTOM = CASE_BOTTOM;
    BACK = CASE_BACK;
    TOP = CASE_TOP;
    PARTITIONS = CASE_PARTITIONS;
    SHELVES = CASE_SHELVES;
    LEG = CASE_LEG;
    FRAME: Maybe<Nothing> = (
        "frame",
        "the face frame, or `none`",
        "frame { stock cherry; … }",
    ).may_open(frame::block);
    ACROSS = CASE_ACROSS;
    DOWN = CASE_DOWN;
    FRONTS = CASE_FRONTS;
    DRAWERS = CASE_DRAWERS;
    EDGES = CASE_EDGES;
    FINISH = CASE_FINISH;
    AROUND;
    NOTE;
}

block! {
    /// `filler NAME { … }`
    filler: "filler", "a filler",
    "A strip beside a case, as high as its fronts and flush with them. At a wall it is scribed to it. A batten behind it is screwed to the end of the case.";
    WIDE: Size = (
        "wide",
        "its width as it is cut, scribe included: at a wall, at least its width less the scribe is left; if not written, the least that clears a door: 1-1/2 in (38 mm) plus the scribe",
        "wide 2",
    )
        .can_be("10 mm", "600 mm")
        .usual("1 in", "8 in");
    SHARE;
    SAME;
    STOCK: Refer<Stock> = (
        "stock",
        "what it is made of; if not written, what the fronts of its case are made of",
        "stock cherry",
    );
    BATTEN: Length = (
        "batten",
        "how far the batten behind it reaches back along the end of the case",
        "batten 2",
    ).default("2 in").metric("50 mm")
        .can_be("15 mm", "300 mm")
        .usual("1 in", "6 in");
    NOTE;
}

block! {
    /// `space NAME { … }`
    space: "space", "a space",
    "A place between cases that stays free for an appliance, which is pushed in once the piece stands. Without `takes` it stays open for knees or a bin. With an appliance it is as wide as the appliance and the clearance at both sides, unless you write its width.";
    WIDE: Size = ("wide", "its width", "wide 24")
        .can_be("3 in", "10 m")
        .usual("10 in", "8 ft");
    SHARE;
    SAME;
    TAKES: Braces = (
        "takes",
        "the appliance that it takes, by the sheet of its maker; if not written, it stays empty",
        "takes { wide 23-7/8; high 34 }",
    ).opens(takes_block::block);
    CLEAR: Length = (
        "clear",
        "how much stays clear at each side of the appliance and above it",
        "clear 1/16",
    ).default("0 in").metric("0 mm")
        .can_be("0 mm", "300 mm")
        .usual("0 mm", "60 mm");
    COUNTERTOP: Nothing = (
        "countertop",
        "`none`: the countertop of the run ends at both its sides, so that what stands here may be higher",
        "countertop none",
    );
    NOTE;
}

block! {
    /// `takes { … }`
    takes_block: "takes", "an appliance",
    "The sizes of an appliance.";
    WIDE: Length = ("wide", "its width", "wide 23-7/8").required()
        .can_be("50 mm", "3 m")
        .usual("10 in", "6 ft");
    HIGH: Length = ("high", "its height", "high 34").required()
        .can_be("50 mm", "3 m")
        .usual("10 in", "7 ft");
}
