//! Finishes.

use crate::measure::{Days, Duration, Exact, Rate, Span, Volume};
use crate::trade;
use crate::vocabulary::words::finish::FinishKind;
use crate::vocabulary::{Entry, Kinds, Said, words};

use super::lower::Lower;
use super::sold::{Can, cans};

impl FinishKind {
    /// Its word in a spec.
    #[must_use]
    pub fn slug(self) -> &'static str {
        self.spelling()
    }

    /// How it is called on the papers.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::HardwaxOil => "hardwax oil",
            Self::WaterLacquer => "water-based lacquer",
            Self::Oil | Self::Varnish | Self::Lacquer | Self::Wax | Self::Paint => self.spelling(),
        }
    }
}

/// A finish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finish {
    /// Its name in the spec.
    pub name: String,
    /// What it is.
    pub kind: FinishKind,
    /// How many coats.
    pub coats: u32,
    /// Square metres that a litre covers in one coat.
    pub covers: Option<Exact>,
    /// How it is mixed with its second part.
    pub mix: Option<(Exact, Exact)>,
    /// How long it may be used once mixed.
    pub pot_life: Option<Duration>,
    /// How long a coat dries before the next work.
    pub cure: Duration,
    /// The statement that says so, where one does.
    pub cure_span: Option<Span>,
    /// What it costs by volume.
    pub price: Option<Rate>,
    /// The cans it comes in; of two parts, those of the first.
    pub cans: Vec<Can>,
    /// The cans of its second part.
    pub second_cans: Vec<Can>,
    /// How much is in the shop already; of two parts, of each.
    pub on_hand: [Option<Volume>; 2],
    /// How long it takes to come.
    pub lead: Option<Days>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn finish(entry: &Entry, _ctx: &mut Lower) -> Option<Finish> {
    use words::finish::{CAN, COATS, COVERS, CURE, LEAD_TIME, MIX, ON_HAND, POT_LIFE, PRICE};

    let body = entry.body()?;
    let kind: FinishKind = body.which()?.0;
    let usual = || {
        let minutes = trade::finish_named(kind.slug()).map(|good| good.dries)?;
        Some(Duration(Exact::int(minutes.into())))
    };
    let price = body.get(PRICE).map(|price| price.value);
    let of_mix = body.one(MIX).and_then(Said::body);
    Some(Finish {
        name: entry.name()?.value.to_owned(),
        kind,
        coats: body.get(COATS)?.value.max(1),
        covers: body.get(COVERS).map(|covers| covers.value),
        mix: body.get(MIX).map(|mix| mix.value),
        pot_life: body.get(POT_LIFE).map(|life| life.value),
        cure: body.get(CURE).map(|cure| cure.value).or_else(usual)?,
        cure_span: body.one(CURE).map(|cure| cure.head),
        price,
        cans: cans(body, CAN, price),
        second_cans: of_mix.map(|body| cans(body, words::mix::CAN, None)).unwrap_or_default(),
        on_hand: [
            body.get(ON_HAND).map(|own| own.value),
            of_mix.and_then(|body| body.get(words::mix::ON_HAND)).map(|own| own.value),
        ],
        lead: body.get(LEAD_TIME).map(|own| own.value),
        notes: body.notes(),
        span: entry.head,
    })
}
