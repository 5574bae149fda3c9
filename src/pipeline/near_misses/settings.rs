//! Small changes of written sizes that would make two settings one: of the fence that boards
//! are ripped at, or of the router.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Duration, Exact, Length, Span};
use crate::model::StockId;
use crate::parts::Part;
use crate::pipeline::Compilation;
use crate::plans::Workings;
use crate::plans::assembly::{Stage, stage};
use crate::plans::setups::Setup;

use super::change::Change;
use super::figures::{Figure, depth, figures, members, openings};
use super::places::{self, Free};
use super::{bought, comes_to};

/// How many changed pieces are read and planned at the most.
const CHECKS: usize = 6;
/// How many changes are told at the most.
const TOLD: usize = 3;

/// A small change that saves a setting.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NearSetting {
    /// What is changed.
    pub change: Change,
    /// What is set less often.
    pub fewer: Fewer,
}

/// How many settings there are less.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fewer {
    /// Of the fence, where the cut list has boards ripped.
    pub rips: usize,
    /// Of the router, and of the blade that cuts dadoes.
    pub set_ups: usize,
    /// By how much less time those of the router take.
    pub time: Duration,
}

/// What is ripped at one setting: of one stock, one thickness, and one width.
type Rip = (StockId, Length, Length);

/// Two settings that a change may make one: those two rips, or those two set-ups by their
/// places.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Pair {
    Rips(Rip, Rip),
    SetUps(usize, usize),
}

/// The changes that save a setting, the smallest first; of those as small, what may save most.
pub(super) fn find(compiled: &Compilation, work: &Workings<'_>) -> Vec<NearSetting> {
    let (own, depths, rips) = (free(work), depths(work), rips(work));
    let mut worth_trying: BTreeMap<(Span, Length), (&Figure, Vec<Pair>)> = BTreeMap::new();
    let places = places::alike(work, &own);
    let ripped = own.iter().filter(|(figure, _)| !figure.is_of_opening);
    let all = ripped.flat_map(|(figure, gives)| of_rips((work, &rips), figure, *gives));
    let all = all.chain(depths.iter().map(|(figure, more, pair)| (figure, *more, *pair)));
    let all = all.chain(
        places
            .into_iter()
            .map(|(figure, more, [one, other])| (figure, more, Pair::SetUps(one, other))),
    );
    for (figure, more, pair) in all {
        let own = worth_trying.entry((figure.span, more)).or_insert((figure, Vec::new()));
        own.1.push(pair);
    }
    let mut order: Vec<_> = worth_trying.into_iter().collect();
    order.sort_by_key(|((span, more), (_, pairs))| (more.abs(), Reverse(pairs.len()), *span));
    let (mut told, mut found, mut tried) = (BTreeSet::new(), Vec::new(), 0);
    for ((span, more), (figure, pairs)) in order {
        if found.len() == TOLD || tried == CHECKS {
            break;
        }
        let is_told = found.iter().any(|own: &NearSetting| own.change.span == span);
        if is_told || pairs.iter().all(|pair| told.contains(pair)) {
            continue;
        }
        tried += 1;
        let change = figure.changed_by(work.piece.tape(), more);
        if let Some(fewer) = proved(compiled, work, &change) {
            found.push(NearSetting { change, fewer });
            told.extend(pairs);
        }
    }
    found
}

/// The figures that widths and places may hang on, with how much less and how much more each
/// may be.
fn free(work: &Workings<'_>) -> Vec<Free> {
    let give = work.piece.job.give;
    let of_cases = figures(work.piece).map(|own| {
        let less = own.along.give(give);
        (own, [less, Length::ZERO])
    });
    let of_frames = members(work.piece).map(|own| (own, [give.members; 2]));
    let of_openings = openings(work.piece).map(|own| (own, [give.openings; 2]));
    of_cases.chain(of_frames).chain(of_openings).collect()
}

/// The parts that are ripped at each setting of the fence.
fn rips<'w>(work: &'w Workings<'_>) -> BTreeMap<Rip, Vec<&'w Part>> {
    let mut all: BTreeMap<Rip, Vec<&Part>> = BTreeMap::new();
    for id in (0..work.piece.stocks.len()).map(StockId) {
        for (_, part) in work.left_of(id) {
            let [_, wide] = part.sawn();
            all.entry((id, part.thickness.length, wide)).or_default().push(part);
        }
    }
    all
}

/// By how much a figure has to be more, so that what is ripped at one setting is as wide as
/// what is ripped at another at the same time.
fn of_rips<'f>(
    (work, rips): (&Workings<'_>, &BTreeMap<Rip, Vec<&Part>>),
    figure: &'f Figure,
    [less, most]: [Length; 2],
) -> Vec<(&'f Figure, Length, Pair)> {
    let factor = |part: &Part| -> Exact {
        let [_, wide] = part.as_made();
        let facts = work.piece.facts.of(&wide);
        facts.filter(|(fact, _)| fact.origin.span() == Some(figure.span)).map(|own| own.1).sum()
    };
    // All that one setting is for must change alike.
    let alike = |parts: &[&Part]| -> Option<(Exact, Stage)> {
        let first = parts.first()?;
        let own = (factor(first), stage(first));
        parts.iter().all(|part| (factor(part), stage(part)) == own).then_some(own)
    };
    let known: Vec<(Rip, (Exact, Stage))> =
        rips.iter().filter_map(|(rip, parts)| Some((*rip, alike(parts)?))).collect();
    let mut all = Vec::new();
    for (one, (factor, at)) in known.iter().filter(|(_, (factor, _))| !factor.is_zero()) {
        for (other, (other_factor, other_at)) in &known {
            let differ = *factor - *other_factor;
            let is_beside = (one.0, one.1) == (other.0, other.1) && one.2 != other.2;
            if !is_beside || at != other_at || differ.is_zero() {
                continue;
            }
            let more = (other.2 - one.2) * (Exact::ONE / differ);
            let room = if more.is_positive() { most } else { less };
            if more.abs() <= room && is_on_tape(work, figure.length + more) {
                all.push((figure, more, Pair::Rips(*one.min(other), *one.max(other))));
            }
        }
    }
    all
}

/// True for a size above nought that a maker sets by the tape.
pub(super) fn is_on_tape(work: &Workings<'_>, length: Length) -> bool {
    length.is_positive() && work.piece.tape().print(length).shown == length
}

/// The depths of joints that may be those of another set-up which is like it else.
fn depths(work: &Workings<'_>) -> Vec<(Figure, Length, Pair)> {
    let setups = work.setups();
    let mut all = Vec::new();
    for (at, one) in setups.iter().enumerate() {
        let Some(figure) = said_deep(work, one) else { continue };
        for (other_at, other) in setups.iter().enumerate() {
            let more = other.deep - one.deep;
            let is_near = more.abs() <= work.piece.job.give.joints;
            if more.is_zero() || !is_near || !one.is_alike_but_deep(other) {
                continue;
            }
            if is_on_tape(work, figure.length + more) {
                let pair = Pair::SetUps(at.min(other_at), at.max(other_at));
                all.extend(depth(work.piece, figure.span).map(|own| (own, more, pair)));
            }
        }
    }
    all
}

/// The one statement that says how deep all cuts of a set-up are.
fn said_deep(work: &Workings<'_>, setup: &Setup) -> Option<Figure> {
    let deep_at = |(id, number)| work.parts.get(id)?.features.get::<usize>(number)?.deep_at;
    let mut all = setup.cuts().map(deep_at);
    let first = all.next()??;
    all.all(|own| own == Some(first)).then(|| depth(work.piece, first))?
}

/// What a change saves; `None` where it saves no setting, or asks for more of something.
fn proved(compiled: &Compilation, work: &Workings<'_>, change: &Change) -> Option<Fewer> {
    let after = change.made(compiled, work)?;
    let then = after.workings()?;
    let count = |work: &Workings<'_>| {
        let time: Exact = work.setups().iter().map(|own| own.time.0).sum();
        (rips(work).len(), work.setups().len(), time)
    };
    let (now, later) = (count(work), count(&then));
    let fewer = Fewer {
        rips: now.0.checked_sub(later.0)?,
        set_ups: now.1.checked_sub(later.1)?,
        time: Duration(now.2 - later.2),
    };
    let saves = fewer.rips + fewer.set_ups > 0 && !fewer.time.0.is_negative();
    (saves && takes_no_more(work, &then)).then_some(fewer)
}

/// True where no more sheets and boards are bought, and the list comes to no more.
fn takes_no_more(work: &Workings<'_>, then: &Workings<'_>) -> bool {
    let now = bought(work);
    let more = |(stock, count): (&StockId, &i64)| *count > now.get(stock).copied().unwrap_or(0);
    !bought(then).iter().any(more) && comes_to(then) <= comes_to(work)
}
