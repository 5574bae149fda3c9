//! Small changes of written sizes that would save a sheet or a board. A short search says
//! which may; then the text is changed, and the piece read, checked, and planned anew.

use std::collections::{BTreeMap, BTreeSet};

use crate::diagnostics::{self, Fix, Grade};
use crate::measure::{Exact, FileId, Length, Span};
use crate::model::{Boundary, Case, MemoryFiles, Piece, Size, StockId};
use crate::plans::Workings;
use crate::plans::boards::{self, OfLumber};
use crate::plans::buying::{Bought, What};
use crate::plans::fitting::{Long, Purpose};
use crate::plans::liquids::{self, Liquid};
use crate::plans::sawing::Blank;
use crate::plans::sheets::{self, OfStock};
use crate::trade;

use super::causes::{holds, same};
use super::{Compilation, check_once};

/// In a piece of more parts than this a check takes so long that none is made.
const LARGE: usize = 1_000;
/// How many changed pieces are read and planned at the most.
const CHECKS: usize = 8;
/// How many changes are told at the most.
const TOLD: usize = 5;

/// A small change that saves a sheet or a board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NearMiss {
    /// What comes out smaller: `cupboard`.
    pub what: String,
    /// Which way.
    pub way: Way,
    /// By how much.
    pub less: Length,
    /// The statement that gives the size now.
    pub span: Span,
    /// What would stand there.
    pub text: String,
    /// What is bought less.
    pub saves: Vec<Saves>,
    /// By how much less the buying list comes to, where what is saved has a price.
    pub costs_less: Option<Exact>,
}

/// Which way something is smaller.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// In width.
    Narrower,
    /// From front to back.
    LessDeep,
    /// In height.
    Lower,
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

/// A written size that may give.
#[derive(Debug)]
struct Figure {
    what: String,
    way: Way,
    word: &'static str,
    length: Length,
    span: Span,
}

/// The small changes that save most for the least, the smallest first.
pub(super) fn find(compiled: &Compilation, work: &Workings<'_>) -> Vec<NearMiss> {
    let piece = work.piece;
    // What is cut stays as it is.
    if work.parts.all.len() > LARGE || !piece.cuts.is_empty() {
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
        let is_told =
            |own: &NearMiss| own.span == span && own.saves.iter().any(|it| it.stock == stock);
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

/// The sizes of cases that are written and may give, and those of what nobody sees.
fn figures(piece: &Piece) -> impl Iterator<Item = Figure> {
    let mut all: BTreeMap<Span, Figure> = BTreeMap::new();
    let walls = [&piece.site.left, &piece.site.right];
    let is_between_walls = walls.iter().all(|side| matches!(side, Boundary::Wall { .. }));
    for case in &piece.cases {
        let own = [(Way::LessDeep, &case.deep), (Way::Lower, &case.high)];
        let own = own.into_iter().filter(|(way, _)| !has_another_in_line(piece, case, *way));
        let wide = (!is_between_walls).then_some((Way::Narrower, &case.wide));
        let name = |span: Span| match case.run.and_then(|run| piece.run(run)) {
            Some(run) if !holds(case.span, span) => run.name.clone(),
            Some(_) | None => case.path.clone(),
        };
        for (way, size) in own.chain(wide) {
            if let Some(figure) = figure(piece, size, way, name) {
                all.entry(figure.span).or_insert(figure);
            }
        }
        let stretchers = case.top.as_ref().and_then(|top| top.stretchers.as_ref());
        let stretchers = stretchers.map(|(_, wide)| (wide, "the stretchers"));
        let nailers = Some((&case.nailers.wide, "the nailers"));
        for (size, what) in stretchers.into_iter().chain(nailers) {
            let name = |span| format!("{what} of {}", name(span));
            if let Some(figure) = figure(piece, size, Way::Narrower, name) {
                all.entry(figure.span).or_insert(figure);
            }
        }
    }
    all.into_values()
}

/// The figure of a size that is written as such, in the spec itself and not in a file that
/// others use too.
fn figure(piece: &Piece, size: &Size, way: Way, name: impl Fn(Span) -> String) -> Option<Figure> {
    let mut terms = piece.facts.of(size).filter(|(_, factor)| *factor == Exact::ONE);
    let (fact, None) = (terms.next()?, terms.next()) else { return None };
    let (fact, _) = fact;
    let (word, span) = (fact.word?, fact.origin.span()?);
    let is_own = span.file == FileId::default() && fact.length == size.length;
    is_own.then(|| Figure { what: name(span), way, word, length: fact.length, span })
}

/// True where another case is as deep or as high by a figure of its own: they are in line.
fn has_another_in_line(piece: &Piece, case: &Case, way: Way) -> bool {
    let size = |case: &'_ Case| match way {
        Way::Narrower => case.wide.clone(),
        Way::LessDeep => case.deep.clone(),
        Way::Lower => case.high.clone(),
    };
    let own = size(case);
    piece.cases.iter().any(|other| {
        let other = size(other);
        other.length == own.length && piece.facts.written(&other) != piece.facts.written(&own)
    })
}

/// How much less a figure may be, the least first.
fn steps(piece: &Piece, figure: &Figure) -> Vec<Length> {
    let give = piece.job.give;
    let most = match figure.way {
        Way::Narrower => give.wide,
        Way::LessDeep => give.deep,
        Way::Lower => give.high,
    };
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
    let text = format!("{} {}", figure.word, work.piece.tape().source(figure.length - less));
    let after =
        changed(compiled, Fix::new(Grade::Choice, String::new(), figure.span, text.clone()))?;
    let is_known = |found| compiled.diagnostics.iter().any(|known| same(known, found));
    if !after.is_sound()
        || !after.diagnostics.iter().all(is_known)
        || after.accepted.len() != compiled.accepted.len()
    {
        return None;
    }
    let then = after.workings()?;
    if then.parts.all.len() != work.parts.all.len() {
        return None;
    }
    let (saves, costs_less) = saved(work, &then)?;
    let Figure { what, way, span, .. } = figure;
    Some(NearMiss { what: what.clone(), way: *way, less, span: *span, text, saves, costs_less })
}

/// The piece with a fix made.
fn changed(compiled: &Compilation, fix: Fix) -> Option<Compilation> {
    let mut files = MemoryFiles::default();
    for (_, source) in compiled.sources.iter() {
        files = files.with(&source.name, &source.text);
    }
    for (file, text) in diagnostics::mend(&compiled.sources, &[&fix]).texts {
        files = files.with(&compiled.sources.get(file)?.name, &text);
    }
    check_once(&files, &compiled.sources.get(FileId::default())?.name).ok()
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
    let has_priced_finish = work.piece.finishes.iter().any(|own| own.price.is_some());
    let sum = |work: &Workings<'_>| {
        let finish = match has_priced_finish {
            true => liquids::list(work).iter().filter_map(Liquid::comes_to).sum(),
            false => Exact::ZERO,
        };
        work.buying().iter().filter_map(Bought::comes_to).sum::<Exact>() + finish
    };
    let costs_less = sum(work) - sum(then);
    if costs_less.is_negative() {
        return None;
    }
    let is_told =
        saves.iter().all(|own| priced.contains(&own.stock)) && screws(work) == screws(then);
    Some((saves, is_told.then_some(costs_less)))
}

/// The screws of a piece, on whose packs its price hangs too.
fn screws(work: &Workings<'_>) -> (Vec<(Purpose, Long, u32)>, Vec<u32>) {
    let own = work.fastened().screws.iter().map(|own| (own.purpose, own.long, own.count));
    let studs = work.piece.cases.iter().map(|case| work.piece.studs_behind(case));
    (own.collect(), studs.collect())
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
