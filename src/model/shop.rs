//! The shop the piece is made in.

use crate::measure::{Duration, Exact, Length, Percent, Span, Unit};
use crate::vocabulary::{DadoTool, Entries, FirstCuts, LayOut, Said, Word, takes, words};

use super::lower::Lower;

/// The shop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shop {
    /// The air when the wood was milled and the fronts are fitted.
    pub humidity: Percent,
    /// The statement that says so.
    pub humidity_span: Option<Span>,
    /// How true the shop works.
    pub tolerance: Tolerance,
    /// One playing card used as a shim.
    pub card: Length,
    /// The width of the saw's cut.
    pub kerf: Length,
    /// How far the fence of the table saw opens.
    pub fence: Length,
    /// The widest piece that the crosscut sled takes.
    pub sled: Length,
    /// Which way a sheet is cut first.
    pub first_cuts: FirstCuts,
    /// What comes first when boards are laid out.
    pub lay_out: LayOut,
    /// How many kinds of cuts follow each other in a sheet.
    pub stages: u8,
    /// What cuts dadoes and grooves that run through.
    pub dadoes: DadoTool,
    /// Left on the length of solid parts cut rough.
    pub allow_length: Length,
    /// Left on their width.
    pub allow_width: Length,
    /// Trimmed off each factory edge of a sheet.
    pub edge_trim: Length,
    /// Sawn off each end of a board from the yard.
    pub board_ends: Length,
    /// How long a glue-up stays in the clamps.
    pub clamp: Duration,
    /// The statement that says so.
    pub clamp_span: Option<Span>,
    /// How long glue cures before it is worked.
    pub cure: Duration,
    /// The statement that says so.
    pub cure_span: Option<Span>,
    /// The working day.
    pub day: Duration,
    /// How many clamps there are.
    pub clamps: u32,
    /// The statement that says so.
    pub clamps_span: Option<Span>,
    /// How long the glue stays open once it is spread.
    pub open_time: Duration,
    /// The statement that says so.
    pub open_time_span: Option<Span>,
    /// Just behind the opening brace of its block, where a word can be added.
    pub start: Option<Span>,
    /// Across the router's base plate.
    pub base_plate: Length,
    /// The widest board that the planer takes.
    pub planer: Length,
    /// How far the router is fed in a minute.
    pub feed: Length,
    /// How long a change of set-up takes.
    pub set_up: Duration,
    /// How long what is done by hand takes.
    pub times: Times,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// How far a size may be off, to either side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerance {
    /// A part cut to a stop or fence.
    pub cut: Length,
    /// The difference of an opening's diagonals.
    pub square: Length,
    /// A front or hinge set by hand.
    pub place: Length,
}

/// How long one of each takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Times {
    /// Moving a guide or jig to its next place and clamping it.
    pub clamping: Duration,
    /// Handling a piece for one pass on the router table.
    pub pass: Duration,
    /// The pocket holes of a joint.
    pub pockets: Duration,
    /// Both halves of a dowel joint.
    pub dowels: Duration,
    /// A mortise.
    pub mortise: Duration,
    /// A tenon.
    pub tenon: Duration,
    /// A dovetailed corner.
    pub dovetails: Duration,
    /// A mitered end or edge.
    pub miter: Duration,
    /// A notch.
    pub notch: Duration,
    /// Fitting an inset front.
    pub fit_front: Duration,
    /// Sanding a square meter with one grit.
    pub sanding: Duration,
}

impl Times {
    /// What the block says, or else its defaults.
    fn read(body: &Entries) -> Self {
        use words::times::{
            CLAMPING, DOVETAILS, DOWELS, FIT_FRONT, MITER, MORTISE, NOTCH, PASS, POCKETS, SANDING,
            TENON,
        };
        let time = |word: Word<takes::Duration>| {
            body.get(word).map(|duration| duration.value).unwrap_or_default()
        };
        Self {
            clamping: time(CLAMPING),
            pass: time(PASS),
            pockets: time(POCKETS),
            dowels: time(DOWELS),
            mortise: time(MORTISE),
            tenon: time(TENON),
            dovetails: time(DOVETAILS),
            miter: time(MITER),
            notch: time(NOTCH),
            sanding: time(SANDING),
            fit_front: time(FIT_FRONT),
        }
    }
}

pub(super) fn lower(
    body: Option<&Entries>,
    measured: Option<(Percent, Span)>,
    ctx: &mut Lower,
) -> Shop {
    use words::shop::{
        ALLOW, BASE_PLATE, CARD, CLAMP, CLAMPS, CURE, DADOES, DAY, FEED, FENCE, FIRST_CUTS,
        HUMIDITY, KERF, LAY_OUT, OPEN_TIME, PLANER, SET_UP, SLED, STAGES,
    };
    use words::{allow, tolerance as true_to};

    let start = body.map(|body| Span { start: body.open.end, ..body.open });
    let empty;
    let body = match body {
        Some(body) => body,
        None => {
            empty = ctx.empty(&words::shop::BLOCK);
            &empty
        }
    };
    let empty_allow = ctx.empty(&allow::BLOCK);
    let left_on = body.one(ALLOW).and_then(Said::body).unwrap_or(&empty_allow);
    let length = |entries: &Entries, word: Word<takes::Length>| {
        entries.get(word).map_or(Length::ZERO, |value| value.value)
    };
    let humidity = body.get(HUMIDITY).map(|humidity| humidity.value);
    // The word has a default, so there always is one.
    let humidity = humidity.unwrap_or(Percent(Exact::int(40)));
    let written = body.one(HUMIDITY).map(|entry| entry.head);
    let (humidity, humidity_span) = match measured {
        Some((percent, span)) if percent != humidity => (percent, Some(span)),
        _ => (humidity, None),
    };
    let empty_tolerance = ctx.empty(&true_to::BLOCK);
    let tolerance =
        body.one(words::shop::TOLERANCE).and_then(Said::body).unwrap_or(&empty_tolerance);
    let empty_times = ctx.empty(&words::times::BLOCK);
    let times = body.one(words::shop::TIMES).and_then(Said::body).unwrap_or(&empty_times);
    let times = Times::read(times);
    let feed = body.get(FEED).map(|feed| feed.value).filter(|feed| feed.is_positive());
    let hours = |word: Word<takes::Duration>| {
        body.get(word).map(|duration| duration.value).unwrap_or_default()
    };
    let day = hours(DAY);
    let clamps = body.get(CLAMPS);
    let open_time = body.get(OPEN_TIME);
    let base_plate = ctx.positive(body, BASE_PLATE, "router base").known().unwrap_or_default();
    let planer = ctx.positive(body, PLANER, "planer").known().unwrap_or_default();
    Shop {
        humidity,
        humidity_span: humidity_span.or(written),
        tolerance: Tolerance {
            cut: length(tolerance, true_to::CUT),
            square: length(tolerance, true_to::SQUARE),
            place: length(tolerance, true_to::PLACE),
        },
        card: length(body, CARD),
        kerf: length(body, KERF),
        allow_length: length(left_on, allow::LENGTH),
        allow_width: length(left_on, allow::WIDTH),
        edge_trim: length(left_on, allow::EDGE_TRIM),
        board_ends: length(left_on, allow::BOARD_ENDS),
        fence: length(body, FENCE),
        sled: length(body, SLED),
        first_cuts: body.get(FIRST_CUTS).map_or(FirstCuts::Rip, |first| first.value),
        lay_out: body.get(LAY_OUT).map_or(LayOut::Looks, |first| first.value),
        dadoes: body.get(DADOES).map_or(DadoTool::Router, |tool| tool.value),
        stages: body.get(STAGES).and_then(|count| u8::try_from(count.value).ok()).unwrap_or(3),
        clamp: hours(CLAMP),
        clamp_span: body.one(CLAMP).map(|clamp| clamp.head),
        cure: hours(CURE),
        cure_span: body.one(CURE).map(|cure| cure.head),
        day: if day.0.is_positive() { day } else { Duration::hours(Exact::int(8)) },
        clamps: clamps.map_or(0, |count| count.value),
        clamps_span: clamps.and_then(|count| count.origin.span()),
        open_time: open_time.map(|d| d.value).unwrap_or_default(),
        open_time_span: open_time.and_then(|d| d.origin.span()),
        start,
        base_plate: base_plate.length,
        planer: planer.length,
        feed: feed.unwrap_or_else(|| Length::new(Exact::int(100), Unit::Inch)),
        set_up: hours(SET_UP),
        times,
        notes: body.notes(),
    }
}
