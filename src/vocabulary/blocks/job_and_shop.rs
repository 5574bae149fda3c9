//! The job.

pub(crate) use super::NOTE;
use super::*;

block! {
    /// `job "…" { … }`
    job: "job", "the job",
    "The heading of every sheet, and how figures are written.";
    REVISION: LetterOrNumber = (
        "revision",
        "the letter or number of this revision",
        "revision B",
    ).default("A");
    UNITS: Units = ("units", "the unit of bare numbers and of the papers", "units in").required();
    TAPE: Length = (
        "tape",
        "the finest mark printed on the papers: 1/2, 1/4, and so on to 1/128 in an inch job, and 1, 0.5, or 0.1 mm in a metric job; if not written, 1/32 or 0.5 mm",
        "tape 1/32",
    );
    CURRENCY: Text = ("currency", "the currency of all prices", "currency \"USD\"");
    GIVE: Braces = (
        "give",
        "how far written sizes may give where that saves a sheet, a board, or a setting of the fence or the router; the buying list tells of it, and changes nothing by itself",
        "give { wide 0; deep 1/4 }",
    ).opens(give::block);
    NOTE;
}

block! {
    /// `give { … }`
    give: "give", "what may give",
    "How much smaller a case may come out than it is written, where that saves a sheet, a board, or a setting, and how far rails, stiles, joints, and openings may change where that makes two settings one. The buying list tells which small change would save one, and each has been tried: the changed piece is sound, with no finding that it doesn't have now. Write 0 for what may not change: the width of a built-in, the height of a counter. Cases in line stay in line, and what stands between two walls keeps its width, whatever else changes.";
    WIDE: Length = (
        "wide",
        "how much narrower a case may be, and a stretcher or a nailer",
        "wide 0",
    ).default("1/2 in").metric("12 mm")
        .can_be("0 in", "12 in")
        .usual("0 in", "3 in");
    DEEP: Length = ("deep", "how much less deep a case may be", "deep 1/4")
        .default("1/2 in").metric("12 mm")
        .can_be("0 in", "12 in")
        .usual("0 in", "3 in");
    HIGH: Length = ("high", "how much lower a case may be", "high 0")
        .default("1/2 in").metric("12 mm")
        .can_be("0 in", "12 in")
        .usual("0 in", "3 in");
    MEMBERS: Length = (
        "members",
        "how much wider or narrower a rail or stile may be where it is then ripped at one setting of the fence with others",
        "members 1/8",
    ).default("1/2 in").metric("12 mm")
        .can_be("0 in", "6 in")
        .usual("0 in", "2 in");
    JOINTS: Length = (
        "joints",
        "how much deeper or less deep a dado, groove, or rabbet may be where it is then cut at one set-up with others",
        "joints 1/16",
    ).default("1/8 in").metric("3 mm")
        .can_be("0 in", "2 in")
        .usual("0 in", "1/2 in");
    OPENINGS: Length = (
        "openings",
        "how much larger or smaller an opening may be where what lies beside it is then let in at one set-up with others",
        "openings 1/8",
    ).default("1/2 in").metric("12 mm")
        .can_be("0 in", "12 in")
        .usual("0 in", "3 in");
}

block! {
    /// `site { … }`
    site: "site", "the site",
    "The room that the piece is installed in: what stands at its sides, and what it must stay clear of.";
    LEFT: Meets = (
        "left",
        "what the left side meets",
        "left open",
    ).may_open(wall::block).default("open");
    RIGHT: Meets = (
        "right",
        "what the right side meets",
        "right wall { scribe 3/4 }",
    ).may_open(wall::block).default("open");
    FIXING: Fixing = (
        "fixing",
        "how the piece is fixed; `wall` means that it is screwed to the wall behind it, so that it can't tip",
        "fixing wall",
    ).default("none");
    HUMIDITY: PercentRange = (
        "humidity",
        "the relative humidity of the room on its driest and dampest days of the year",
        "humidity 30% to 55%",
    ).default("30% to 55%")
        .can_be("1%", "100%")
        .usual("10%", "85%");
    TEMPERATURE: Temperature = (
        "temperature",
        "the room's usual temperature",
        "temperature 68 F",
    ).default("70 F")
        .can_be("-10 C", "45 C")
        .usual("8 C", "35 C");
    KEEP_OUT: Text = (
        "keep-out",
        "a pipe, outlet, or trap that no part may touch",
        "keep-out \"heating pipe\" { from-left 52; up 0; wide 6; high 3-1/4; deep 3 }",
    ).opens(keep_out::block).many();
    BASEBOARD: Braces = (
        "baseboard",
        "the baseboard on the wall behind the piece, where it stays: what stands on the floor before it is notched for it, so that the piece comes up to the wall",
        "baseboard { high 5-1/2; thick 3/4 }",
    ).opens(baseboard::block);
    NOTE;
}

block! {
    /// `baseboard { … }`
    baseboard: "baseboard", "the baseboard",
    "A baseboard on the wall behind the piece that stays where it is. The lower back corner of each end and of each upright under a bottom is notched for it, and a separate base ends before it. The bottom and the back lie above it, so the base must be at least as high.";
    HIGH: Length = ("high", "its height above the floor", "high 5-1/2").required()
        .can_be("10 mm", "1 m")
        .usual("2 in", "10 in");
    THICK: Length = ("thick", "how far it stands out from the wall", "thick 3/4").required()
        .can_be("2 mm", "150 mm")
        .usual("1/4 in", "1-1/2 in");
    PLAY: Length = (
        "play",
        "how much more room the notches leave, over it and before it",
        "play 1/8",
    ).default("1/8 in").metric("3 mm")
        .can_be("0 mm", "2 in")
        .usual("1/16 in", "1/2 in");
    NOTE;
}

block! {
    /// `left wall { … }`
    wall: "wall", "a wall",
    "A wall at one side of the piece.";
    SCRIBE: Length = (
        "scribe",
        "how far the outer stile reaches past the carcass, so that it can be planed to the wall",
        "scribe 3/4",
    ).default("0")
        .can_be("0 in", "6 in")
        .usual("1/8 in", "2 in");
}

block! {
    /// `keep-out "…" { … }`
    keep_out: "keep-out", "a keep-out",
    "A box that stands against the wall behind the piece. It is measured from the left side of the whole piece, from the floor, and out from the wall.";
    FROM_LEFT: Offset = (
        "from-left",
        "the distance from the left side of the piece to its left side; negative where it starts to the left of the piece",
        "from-left 52",
    ).required()
        .can_be("-30 m", "30 m")
        .usual("-2 m", "6 m");
    UP: Length = ("up", "the height from the floor to its underside", "up 16").default("0")
        .can_be("0 m", "6 m")
        .usual("0 m", "2.5 m");
    WIDE: Length = ("wide", "its width", "wide 6").required()
        .can_be("3 mm", "10 m")
        .usual("3/4 in", "12 ft");
    HIGH: Length = ("high", "its height", "high 3-1/4").required()
        .can_be("3 mm", "6 m")
        .usual("3/4 in", "10 ft");
    DEEP: Length = ("deep", "how far it stands out from the wall", "deep 3").required()
        .can_be("2 mm", "3 m")
        .usual("1/4 in", "36 in");
    HOT: Flag = ("hot", "it gets hot, or moves: what is cut around it stays 1 in (25 mm) clear", "hot");
    NOTE;
}

block! {
    /// `shop { … }`
    shop: "shop", "the shop",
    "How this shop works: its saw, its clamps, and its hours.";
    HUMIDITY: Percent = (
        "humidity",
        "the relative humidity when the wood is milled and the fronts are fitted",
        "humidity 40%",
    ).default("40%")
        .can_be("1%", "100%")
        .usual("15%", "80%");
    KERF: Length = (
        "kerf",
        "the width of the saw's cut",
        "kerf 1/8",
    ).default("1/8 in").metric("3 mm")
        .can_be("0.3 mm", "10 mm")
        .usual("0.5 mm", "1/4 in");
    FENCE: Length = (
        "fence",
        "how far the fence of the table saw opens; a wider cut goes along a straight-edge",
        "fence 50",
    ).default("30 in").metric("760 mm")
        .can_be("4 in", "10 ft")
        .usual("12 in", "60 in");
    SLED: Length = (
        "sled",
        "the widest piece that the crosscut sled takes",
        "sled 24",
    ).default("24 in").metric("600 mm")
        .can_be("2 in", "6 ft")
        .usual("10 in", "4 ft");
    FIRST_CUTS: FirstCuts = (
        "first-cuts",
        "which way a sheet is cut first",
        "first-cuts crosscut",
    ).default("rip");
    LAY_OUT: LayOut = (
        "lay-out",
        "what comes first when boards are laid out: the looks, or that few are bought",
        "lay-out yield",
    ).default("looks");
    STAGES: Count<6> = (
        "stages",
        "how many rounds of cuts a sheet takes: rips, then crosscuts, then rips again make 3",
        "stages 2",
    ).default("3")
        .can_be("2", "6");
    DADOES: DadoTool = (
        "dadoes",
        "what cuts dadoes and grooves that run through; the saw has a plain blade as wide as the kerf, and leaves to the router whatever stops in the wood, lies on an edge, or is too large to push",
        "dadoes saw",
    ).default("router");
    ALLOW: Braces = (
        "allow",
        "how much larger a rough part is than the finished part",
        "allow { length 1; width 1/4; edge-trim 1/2 }",
    ).opens(allow::block);
    CLAMP: Duration = (
        "clamp",
        "how long a glue-up stays in the clamps",
        "clamp 1 h",
    ).default("1 h")
        .can_be("1 min", "168 h")
        .usual("15 min", "24 h");
    CURE: Duration = (
        "cure",
        "how long a joint cures before you work it",
        "cure 24 h",
    ).default("24 h")
        .can_be("10 min", "720 h")
        .usual("4 h", "120 h");
    DAY: Duration = ("day", "the length of the working day", "day 8 h").default("8 h")
        .can_be("5 min", "24 h")
        .usual("2 h", "14 h");
    CLAMPS: Count<1_000> = ("clamps", "how many clamps the shop has", "clamps 8").default("8")
        .can_be("0", "1000")
        .usual("2", "50");
    OPEN_TIME: Duration = (
        "open-time",
        "how long the glue stays open once it is spread; white and yellow glues take 5 to 10 min",
        "open-time 8 min",
    ).default("8 min")
        .can_be("0 min", "24 h")
        .usual("3 min", "90 min");
    BASE_PLATE: Length = (
        "base-plate",
        "the width of the router's base plate, which sets the distance of a straight-edge",
        "base-plate 6",
    ).default("6 in").metric("150 mm")
        .can_be("2 in", "24 in")
        .usual("3 in", "12 in");
    PLANER: Length = (
        "planer",
        "the widest board that the planer takes; a wider blank is glued up in two halves",
        "planer 12-1/2",
    ).default("12-1/2 in").metric("318 mm")
        .can_be("3 in", "60 in")
        .usual("6 in", "26 in");
    FEED: Feed = (
        "feed",
        "how fast the router is fed",
        "feed 100 per min",
    ).default("100 in per min").metric("2.5 m per min")
        .can_be("0.1 m per min", "60 m per min")
        .usual("0.5 m per min", "12 m per min");
    SET_UP: Duration = (
        "set-up",
        "how long it takes to change a set-up",
        "set-up 15 min",
    ).default("15 min")
        .can_be("10 s", "24 h")
        .usual("2 min", "90 min");
    TIMES: Braces = (
        "times",
        "how long this shop takes for what the papers estimate",
        "times { clamping 2 min; mortise 8 min }",
    ).opens(times::block);
    TOLERANCE: Braces = (
        "tolerance",
        "how true this shop works",
        "tolerance { cut 1/64; square 1/16; place 1/64 }",
    ).opens(tolerance::block);
    CARD: Length = (
        "card",
        "the thickness of one playing card of the deck used as shims",
        "card 0.3 mm",
    ).default("0.3 mm")
        .can_be("0.05 mm", "2 mm")
        .usual("0.15 mm", "1 mm");
    NOTE;
}

block! {
    /// `times { … }`: common practice, no source.
    times: "times", "the times",
    "How long one cut, one joint, or one front takes by hand in this shop. The papers multiply these by how many there are.";
    CLAMPING: Duration = (
        "clamping",
        "to move a straight-edge, a router-table fence, or a flute jig to its next place and clamp it",
        "clamping 2 min",
    ).default("3 min")
        .can_be("1 s", "24 h")
        .usual("20 s", "15 min");
    PASS: Duration = (
        "pass",
        "to pick up one piece, take it over the router table once, and put it down, besides the feed itself",
        "pass 1/4 min",
    ).default("1/2 min")
        .can_be("1 s", "24 h")
        .usual("5 s", "4 min");
    POCKETS: Duration = (
        "pockets",
        "to bore the pocket holes of one joint",
        "pockets 2 min",
    ).default("3 min")
        .can_be("1 s", "24 h")
        .usual("30 s", "20 min");
    DOWELS: Duration = (
        "dowels",
        "to bore both halves of one dowel joint",
        "dowels 6 min",
    ).default("8 min")
        .can_be("1 s", "24 h")
        .usual("1 min", "60 min");
    MORTISE: Duration = ("mortise", "to lay out and cut one mortise", "mortise 8 min")
        .default("12 min")
        .can_be("1 s", "24 h")
        .usual("90 s", "100 min");
    TENON: Duration = ("tenon", "to cut one tenon and fit it", "tenon 6 min").default("8 min")
        .can_be("1 s", "24 h")
        .usual("1 min", "60 min");
    DOVETAILS: Duration = (
        "dovetails",
        "to lay out, cut, and fit one dovetailed corner",
        "dovetails 12 min",
    ).default("30 min")
        .can_be("1 s", "24 h")
        .usual("4 min", "4 h");
    MITER: Duration = ("miter", "to cut one mitered end or edge", "miter 6 min").default("10 min")
        .can_be("1 s", "24 h")
        .usual("90 s", "90 min");
    NOTCH: Duration = (
        "notch",
        "to cut one notch, or to saw one tenon back to its haunch",
        "notch 5 min",
    ).default("8 min")
        .can_be("1 s", "24 h")
        .usual("1 min", "60 min");
    FIT_FRONT: Duration = (
        "fit-front",
        "to plane one inset front to its opening and shim it to its gaps",
        "fit-front 20 min",
    ).default("25 min")
        .can_be("1 s", "24 h")
        .usual("3 min", "3 h");
    SANDING: Duration = (
        "sanding",
        "to sand a square meter, 11 square feet, with one grit",
        "sanding 6 min",
    ).default("4 min")
        .can_be("1 s", "24 h")
        .usual("30 s", "40 min");
}

block! {
    /// `tolerance { … }`
    tolerance: "tolerance", "the tolerances",
    "How far a size may be off in either direction when it is made with care in this shop.";
    CUT: Length = (
        "cut",
        "for a part cut to a stop or a fence",
        "cut 1/64",
    ).default("1/64 in").metric("0.4 mm")
        .can_be("0 mm", "5 mm")
        .usual("0.05 mm", "1/16 in");
    SQUARE: Length = (
        "square",
        "for the difference between the two diagonals of an opening",
        "square 1/16",
    ).default("1/32 in").metric("0.8 mm")
        .can_be("0 mm", "10 mm")
        .usual("0.1 mm", "1/8 in");
    PLACE: Length = (
        "place",
        "for a front or a hinge set by hand",
        "place 1/64",
    ).default("1/64 in").metric("0.4 mm")
        .can_be("0 mm", "5 mm")
        .usual("0.05 mm", "1/16 in");
}

block! {
    /// `allow { … }`
    allow: "allow", "the allowances",
    "What is left on a part when it is cut rough.";
    LENGTH: Length = (
        "length",
        "the extra length of solid parts",
        "length 1",
    ).default("1 in").metric("25 mm")
        .can_be("0 in", "12 in")
        .usual("1/4 in", "6 in");
    WIDTH: Length = (
        "width",
        "the extra width of solid parts",
        "width 1/4",
    ).default("1/4 in").metric("6 mm")
        .can_be("0 in", "4 in")
        .usual("1/16 in", "1 in");
    EDGE_TRIM: Length = (
        "edge-trim",
        "how much is trimmed off each factory edge of a sheet",
        "edge-trim 1/2",
    ).default("1/2 in").metric("12 mm")
        .can_be("0 in", "6 in")
        .usual("1/16 in", "2 in");
    BOARD_ENDS: Length = (
        "board-ends",
        "how much is sawn off each end of a rough board from the yard, for checks and dirt",
        "board-ends 1",
    ).default("1 in").metric("25 mm")
        .can_be("0 in", "24 in")
        .usual("0 in", "8 in");
}
