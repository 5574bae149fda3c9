//! Places of cuts that a small change makes those of another set-up.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Exact, Length, Span};
use crate::model::Size;
use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::setups::Setup;

use super::figures::Figure;
use super::settings::is_on_tape;

/// A figure that may give, with how much less and how much more it may be.
pub(super) type Free = (Figure, [Length; 2]);

/// A set-up whose cuts all lie so far from the datum because of what they take.
struct Place<'w> {
    /// Which of the set-ups.
    at: usize,
    setup: &'w Setup,
    /// From the datum to the near side.
    from: Length,
    /// How much farther all of them lie if the figure of a statement is one more; `None`
    /// where it moves some otherwise than others.
    factors: BTreeMap<Span, Option<Exact>>,
}

/// By how much a figure has to be more, so that the cuts of one set-up lie as far from their
/// datum as those of another that is like it else; which two those are, by their places.
pub(super) fn alike<'f>(
    work: &Workings<'_>,
    free: &'f [Free],
) -> Vec<(&'f Figure, Length, [usize; 2])> {
    let free: BTreeMap<Span, &Free> = free.iter().map(|own| (own.0.span, own)).collect();
    let setups = work.setups().iter().enumerate();
    let places: Vec<Place<'_>> =
        setups.filter_map(|(at, setup)| place(work, &free, at, setup)).collect();
    let mut all = Vec::new();
    for (number, one) in places.iter().enumerate() {
        for other in places.iter().skip(number + 1) {
            if one.from == other.from || !one.setup.is_alike_but_place(other.setup) {
                continue;
            }
            let spans: BTreeSet<&Span> = one.factors.keys().chain(other.factors.keys()).collect();
            for span in spans {
                let factor = |own: &Place<'_>| *own.factors.get(span).unwrap_or(&Some(Exact::ZERO));
                let Some((factor, other_factor)) = factor(one).zip(factor(other)) else { continue };
                let differ = factor - other_factor;
                let Some((figure, [less, most])) = free.get(span).filter(|_| !differ.is_zero())
                else {
                    continue;
                };
                let more = (other.from - one.from) * (Exact::ONE / differ);
                let room = if more.is_positive() { *most } else { *less };
                if more.abs() <= room && is_on_tape(work, figure.length + more) {
                    all.push((figure, more, [one.at, other.at]));
                }
            }
        }
    }
    all
}

/// Where the cuts of a set-up lie; `None` where they don't lie where what they take does.
fn place<'w>(
    work: &Workings<'_>,
    free: &BTreeMap<Span, &Free>,
    at: usize,
    setup: &'w Setup,
) -> Option<Place<'w>> {
    let mut sizes: Vec<Size> = Vec::new();
    for cut in setup.cuts() {
        let own = of_cut(work, cut)?;
        if !sizes.contains(&own) {
            sizes.push(own);
        }
    }
    let from = sizes.first()?.length;
    let of_size = |size: &Size| {
        let mut all: BTreeMap<Span, Exact> = BTreeMap::new();
        for (fact, factor) in work.piece.facts.of(size) {
            if let Some(span) = fact.origin.span().filter(|span| free.contains_key(span)) {
                *all.entry(span).or_insert(Exact::ZERO) += factor;
            }
        }
        all
    };
    let own: Vec<BTreeMap<Span, Exact>> = sizes.iter().map(of_size).collect();
    let spans: BTreeSet<Span> = own.iter().flat_map(|own| own.keys().copied()).collect();
    let factor = |span: Span| {
        let mut all = own.iter().map(|own| own.get(&span).copied().unwrap_or(Exact::ZERO));
        let first = all.next()?;
        all.all(|own| own == first).then_some(first)
    };
    let factors = spans.into_iter().map(|span| (span, factor(span))).collect();
    Some(Place { at, setup, from, factors })
}

/// From the datum of a cut to its near side, with the statements that it comes from.
fn of_cut(work: &Workings<'_>, (id, number): (PartId, usize)) -> Option<Size> {
    let part = work.parts.get(id)?;
    let feature = part.features.get(number)?;
    let taken = work.parts.get(feature.takes?)?;
    let channel = part.channel(feature);
    let axis = part.placement.direction(channel.datum);
    let far = !channel.datum.is_start();
    let (own, other) = (part.side(axis, far), taken.side(axis, far));
    let from = if far { own - other } else { other - own };
    (from.length == channel.from).then_some(from)
}
