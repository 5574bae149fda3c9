//! The figures on paper that are no figure of an operation or a part, each with
//! the reason.

/// A phrase of a paper, with `#` for each figure that it excuses.
pub(super) struct Excused {
    pub(super) phrase: &'static str,
    pub(super) why: &'static str,
}

const fn excused(phrase: &'static str, why: &'static str) -> Excused {
    Excused { phrase, why }
}

const PRICE: &str = "a price, as the maker wrote it";
const SHEET: &str = "what the sheet of the hardware says, where the spec does not";
const GLUE: &str =
    "what is reckoned with; what it comes to is the spreading and the clamps of the step";
const SHOP: &str = "a figure of the shop itself; what it comes to is the time of the step";

const THUMB: &str = "a rule of the trade for any screw of that gauge";
const BY_HAND: &str = "worked by hand in `tests/fitting.rs`";

pub(super) const EXCUSED: &[Excused] = &[
    excused("[ ] # take out the screws in the pull holes", "the number of the step"),
    excused("[ ] # slide the drawer out", "the number of the step"),
    excused("For the wall, about # cabinet screws", "worked by hand in `tests/hung.rs`"),
    excused("cabinet screws of # to # mm", "the gauge, which is the same in every metric job"),
    excused("A bit wider than # runs in a router table only", "a rule of the trade for any bit"),
    excused(
        "are # longer than on the cut list, and its stiles and outer rails # wider; strike a line # inside",
        "what the step that fits the fronts takes off, and carries as its own figure",
    ),
    excused(
        "# larger at every outer edge",
        "what the step that fits the fronts takes off, and carries as its own figure",
    ),
    excused("each strip # longer than its edge", "the strip of the operation has it on already"),
    excused("longer than that by # for now", "the rough size of the operation has it on already"),
    excused("they were sawn # larger", "the rough size of the operation has it on already"),
    excused(
        "in halves that pass it, # boards and # boards",
        "the operation has how many boards there are in all",
    ),
    excused("falls under # CFR #", "the numbers of a rule of the law"),
    excused("tilt the blade to # degrees", "the angle of every miter"),
    excused("at # min each", SHOP),
    excused(
        "spread # in of it, or # in of a flat seam, # s for each clamp, which was set to its width in the dry run, a quarter of a minute for each screw that is driven while glue waits for its clamp, and a clamp for every # in of a joint or # in",
        GLUE,
    ),
    excused(
        "spread # mm of it, or # mm of a flat seam, # s for each clamp, which was set to its width in the dry run, a quarter of a minute for each screw that is driven while glue waits for its clamp, and a clamp for every # mm of a joint or # mm",
        GLUE,
    ),
    excused("# min to change each set-up", SHOP),
    excused("# min for each of the # times that a guide or jig is moved", SHOP),
    excused("# s for each of the # times that a piece goes over", SHOP),
    excused("# min of routing at a feed of # a minute", SHOP),
    excused("# % to the surface to finish and take # % of the wood", "no setting of the router"),
    excused(
        "from line to line the straight-edge moves by #",
        "the difference of two lines, which the operation has one by one",
    ),
    excused("USD # each", PRICE),
    excused("USD # per pack", PRICE),
    excused("EUR # each", PRICE),
    excused("# per pair", PRICE),
    excused("look for binding up to # degrees", SHEET),
    excused("drill their screw holes at # degrees", SHEET),
    excused("Most sheets ask for a hole of # mm, # mm deep, with its center # mm", SHEET),
    excused("No. # screw bore # through the first board and # in the second", THUMB),
    excused("for a No. # screw # and #; in soft wood and sheets the pilot is # less", THUMB),
    excused("-mm screw bore # mm through the first board and # mm in the second", THUMB),
    excused("-mm screw # mm and # mm; in soft wood and sheets the pilot is # mm less", THUMB),
    excused("long No. #", THUMB),
    excused("open to # degrees, but", SHEET),
    excused("wall at about #", BY_HAND),
    excused("at about # degrees: clamp a block", BY_HAND),
    excused("no deeper than # into the side of a box and # into what carries", BY_HAND),
    excused("no deeper than # into what carries", BY_HAND),
];
