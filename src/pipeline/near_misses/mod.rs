//! Small changes of written sizes that would save a sheet or a board. A short search says
//! which may; then the text is changed, and the piece read, checked, and planned anew.

mod change;
mod figures;
mod places;
mod settings;

pub use change::{Change, Way};
pub use settings::{Fewer, NearSetting};

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Exact, Length, Span};
use crate::model::{Piece, Size, StockId};
use crate::plans::Workings;
use crate::plans::abrasives;
use crate::plans::boards::{self, OfLumber};
use crate::plans::buying::{Bought, What};
use crate::plans::fitting::{Long, Purpose};
use crate::plans::liquids::{self, Liquid};
use crate::plans::sawing::Blank;
use crate::plans::sheets::{self, OfStock};
use crate::trade;
use crate::vocabulary::Supply;

use super::Compilation;
use figures::{Figure, figures};

/// In a piece of more parts than this a check takes so long that none is made.
const LARGE: usize = 1_000;
/// How many changed pieces are read and planned at the most.
const CHECKS: usize = 8;
/// How many changes are told at the most.
const TOLD: usize = 5;

/// A small change that saves a sheet or a board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NearMiss {
    /// What is changed.
    pub change: Change,
    /// What is bought less.
    pub saves: Vec<Saves>,
    /// By how much less the buying list comes to, where what is saved has a price.
    pub costs_less: Option<Exact>,
}

/// What a change saves of a stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Saves {
    /// Which.
    pub stock: StockId,
    /// So many sheets or boards.
    pub count: i64,
}

/// What there may be less of.
enum Target<'w> {
    Sheets(&'w OfStock),
    Boards(&'w OfLumber),
}

impl Target<'_> {
    fn stock(&self) -> StockId {
        match self {
            Self::Sheets(own) => own.stock,
            Self::Boards(own) => own.stock,
        }
    }

    /// True where it may come with less, as far as a short search finds, once each part is so
    /// much smaller.
    fn is_fewer(&self, work: &Workings<'_>, less: &dyn Fn(&Blank) -> [Length; 2]) -> bool {
        match self {
            Self::Sheets(own) => sheets::fewer_if(work, own, less),
            Self::Boards(own) => boards::fewer_if(work, own, less),
        }
    }
}

/// The small changes that save most for the least, the smallest first.
pub(super) fn find(compiled: &Compilation, work: &Workings<'_>) -> Vec<NearMiss> {
    let piece = work.piece;
    if !may_change(work) {
        return Vec::new();
    }
    let targets = targets(work);
    if targets.is_empty() {
        return Vec::new();
    }
    let mut worth_trying = Vec::new();
    for figure in figures(piece) {
        let steps = steps(piece, &figure);
        for target in &targets {
            if let Some(least) = least(work, &figure, &steps, target) {
                worth_trying.push((
                    steps[least],
                    steps.get(least + 1).copied(),
                    figure.span,
                    target.stock(),
                ));
            }
        }
    }
    worth_trying.sort_by_key(|(less, ..)| *less);
    let figures: BTreeMap<Span, Figure> = figures(piece).map(|own| (own.span, own)).collect();
    let (mut tried, mut found) = (BTreeSet::new(), Vec::<NearMiss>::new());
    for (less, more, span, stock) in worth_trying {
        let Some(figure) = figures.get(&span) else { continue };
        let is_told = |own: &NearMiss| {
            own.change.span == span && own.saves.iter().any(|it| it.stock == stock)
        };
        for less in [Some(less), more].into_iter().flatten() {
            if found.iter().any(is_told) || found.len() == TOLD || tried.len() == CHECKS {
                break;
            }
            if tried.insert((span, less)) {
                found.extend(proved(compiled, work, figure, less));
            }
        }
    }
    found
}

/// The small changes that make two settings of the fence or of the router one, the smallest
/// first.
pub(super) fn find_settings(compiled: &Compilation, work: &Workings<'_>) -> Vec<NearSetting> {
    match may_change(work) {
        true => settings::find(compiled, work),
        false => Vec::new(),
    }
}

/// True for a piece that is tried again: what is cut stays as it is.
fn may_change(work: &Workings<'_>) -> bool {
    work.parts.all.len() <= LARGE && work.piece.cuts.is_empty()
}

/// The stocks of which fewer may do.
fn targets<'w>(work: &'w Workings<'_>) -> Vec<Target<'w>> {
    let stock = |id: StockId| work.piece.stock(id);
    let may = |id: StockId, bought: usize| {
        let has_on_hand = stock(id).is_some_and(|own| !own.on_hand.is_empty());
        bought > 1 || (bought == 1 && has_on_hand)
    };
    let bought = |own: &OfStock| usize::try_from(own.bought()).unwrap_or(0);
    let sheets = work.sheets().iter();
    let sheets = sheets.filter(|own| own.unplaced.is_empty() && may(own.stock, bought(own)));
    let is_known = |own: &OfLumber| stock(own.stock).is_some_and(|own| own.boards.is_some());
    let boards = work.boards().iter().filter(|own| {
        is_known(own) && own.unplaced.is_empty() && may(own.stock, own.bought().count())
    });
    sheets.map(Target::Sheets).chain(boards.map(Target::Boards)).collect()
}

/// How much less a figure may be, the least first.
fn steps(piece: &Piece, figure: &Figure) -> Vec<Length> {
    let most = figure.along.give(piece.job.give);
    let step = trade::near_miss_step(piece.tape().unit);
    let whole = (most / step).floor();
    let mut all: Vec<Length> = (1..=whole).map(|count| step * count).collect();
    if all.last().is_none_or(|last| *last < most) && most.is_positive() {
        all.push(most);
    }
    all.retain(|less| *less < figure.length);
    all
}

/// The first of the steps that may save one of a stock.
fn least(
    work: &Workings<'_>,
    figure: &Figure,
    steps: &[Length],
    target: &Target<'_>,
) -> Option<usize> {
    let factor = |size: &Size| -> Exact {
        let own = work.piece.facts.of(size);
        own.filter(|(fact, _)| fact.origin.span() == Some(figure.span)).map(|(_, own)| own).sum()
    };
    let of_stock = work.left_of(target.stock());
    let factors: BTreeMap<_, [Exact; 2]> = of_stock
        .map(|(id, part)| (id, [&part.length, &part.width].map(factor)))
        .filter(|(_, own)| own.iter().any(|own| own.is_positive()))
        .collect();
    if factors.is_empty() || steps.is_empty() {
        return None;
    }
    let is_fewer = |step: usize| {
        let less = |blank: &Blank| {
            let own = factors.get(&blank.part);
            own.map_or([Length::ZERO; 2], |own| own.map(|factor| steps[step] * factor))
        };
        target.is_fewer(work, &less)
    };
    let (mut low, mut high) = (0, steps.len() - 1);
    if !is_fewer(high) {
        return None;
    }
    while low < high {
        let middle = usize::midpoint(low, high);
        if is_fewer(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Some(high)
}

/// The change, where the changed piece is as sound as the piece is, and takes less.
fn proved(
    compiled: &Compilation,
    work: &Workings<'_>,
    figure: &Figure,
    less: Length,
) -> Option<NearMiss> {
    let change = figure.changed_by(work.piece.tape(), -less);
    let after = change.made(compiled, work)?;
    let (saves, costs_less) = saved(work, &after.workings()?)?;
    Some(NearMiss { change, saves, costs_less })
}

/// What is bought less, and by how much less that is; `None` where nothing is, or where more
/// is bought of another stock.
fn saved(work: &Workings<'_>, then: &Workings<'_>) -> Option<(Vec<Saves>, Option<Exact>)> {
    let [now, then_bought] = [bought(work), bought(then)];
    let mut saves = Vec::new();
    for (stock, count) in &now {
        let count = count - then_bought.get(stock).copied().unwrap_or(0);
        if count < 0 {
            return None;
        }
        if count > 0 {
            saves.push(Saves { stock: *stock, count });
        }
    }
    if saves.is_empty() || then_bought.keys().any(|stock| !now.contains_key(stock)) {
        return None;
    }
    let is_priced = |own: &&Bought| own.comes_to().is_some();
    let priced: BTreeSet<StockId> = work
        .buying()
        .iter()
        .filter(is_priced)
        .filter_map(|own| match own.what {
            What::Stock(id) => Some(id),
            What::Hardware(_) => None,
        })
        .collect();
    let costs_less = comes_to(work) - comes_to(then);
    if costs_less.is_negative() {
        return None;
    }
    let is_told =
        saves.iter().all(|own| priced.contains(&own.stock)) && screws(work) == screws(then);
    Some((saves, is_told.then_some(costs_less)))
}

/// What all but the screws comes to, as far as it has a price.
fn comes_to(work: &Workings<'_>) -> Exact {
    let Piece { finishes, glue, .. } = work.piece;
    let is_priced = finishes.iter().any(|own| own.price.is_some() || !own.cans.is_empty())
        || glue.price.is_some()
        || !glue.bottles.is_empty();
    let wet: Exact = match is_priced {
        true => liquids::list(work).iter().filter_map(Liquid::comes_to).sum(),
        false => Exact::ZERO,
    };
    let abrasives: Exact =
        abrasives::bought(work).iter().filter_map(abrasives::Bought::comes_to).sum();
    work.buying().iter().filter_map(Bought::comes_to).sum::<Exact>() + wet + abrasives
}

/// Screws by what they are for, how long they are, and how many; the studs behind each case; and
/// how long hanging rails are.
type Fastenings = (Vec<(Purpose, Long, u32)>, Vec<u32>, Vec<Length>);

/// The screws of a piece, on whose packs its price hangs too, and its hanging rails where they
/// are cut from what has a price.
fn screws(work: &Workings<'_>) -> Fastenings {
    let own = work.fastened().screws.iter().map(|own| (own.purpose, own.long, own.count));
    let studs = work.piece.cases.iter().map(|case| work.piece.studs_behind(case));
    let are_sold = work.piece.supplies.iter().any(|own| own.sort == Supply::HangingRails);
    let rails = if are_sold { &work.fitting().rails[..] } else { &[] };
    let rails = rails.iter().map(|rail| rail.long.length);
    (own.collect(), studs.collect(), rails.collect())
}

/// How many sheets and boards are bought of each stock that is planned.
fn bought(work: &Workings<'_>) -> BTreeMap<StockId, i64> {
    let sheets = work.sheets().iter().map(|own| (own.stock, own.bought()));
    let boards = work
        .boards()
        .iter()
        .filter(|own| work.piece.stock(own.stock).is_some_and(|own| own.boards.is_some()));
    let boards =
        boards.map(|own| (own.stock, i64::try_from(own.bought().count()).unwrap_or(i64::MAX)));
    sheets.chain(boards).collect()
}
