//! Hardware that has no block of its own: hanging rails with their cups and hangers, the
//! catches of doors, and what keeps doors from a wall. A `supply` says how it is sold.

use std::cmp::Reverse;

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::{CatchKind, Sold, SoldSupply};
use crate::parts::front_told;
use crate::plans::fitting::{Rail, at_wall};
use crate::vocabulary::Supply;

use super::Source;
use super::buying_list::Line;
use super::fitting;
use super::supplies::sold_line;

/// What they are called among the sorts of the list.
const HARDWARE: &str = "hardware";

pub(super) fn lines(source: &Source<'_, '_>) -> Vec<Line> {
    let mut lines = rails(source);
    lines.extend(catches(source));
    lines.extend(door_stops(source));
    lines
}

/// Hardware of which nothing is said.
pub(super) fn unpriced(amount: usize, what: String) -> Line {
    let amount = amount.to_string();
    let (name, price) = (what.clone(), String::new());
    Line { sort: HARDWARE, name, amount, what, price, comes_to: None, lead: None }
}

/// How a sort is sold that does not differ in size.
fn sold(source: &Source<'_, '_>, sort: Supply) -> Sold {
    let mut all = source.work.piece.supplies.iter();
    all.find(|own| own.sort == sort).map(|own| own.sold).unwrap_or_default()
}

/// The catches of doors that no hinge holds shut.
fn catches(source: &Source<'_, '_>) -> Vec<Line> {
    let all = &source.work.fitting().catches;
    let of = |kind: CatchKind| {
        let sort = match kind {
            CatchKind::Magnet => Supply::MagneticCatches,
            CatchKind::Ball => Supply::BallCatches,
        };
        let count = all.iter().filter(|own| own.kind == kind).count();
        let told = fitting::catch_kind(kind).to_owned();
        sold_line(source, HARDWARE, told, (whole(count), sold(source, sort)))
    };
    let mut kinds: Vec<CatchKind> = Vec::new();
    for own in all {
        if !kinds.contains(&own.kind) {
            kinds.push(own.kind);
        }
    }
    kinds.into_iter().filter_map(of).collect()
}

fn whole(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// What keeps doors from what they would strike before their hinges stop them.
fn door_stops(source: &Source<'_, '_>) -> Option<Line> {
    let doors: Vec<String> = at_wall(source.work)
        .iter()
        .map(|own| front_told(source.work.piece, own.front.id))
        .collect();
    let told = format!("door stops, or limiters for the hinges: {}", listed(&doors));
    let own = (whole(doors.len()), sold(source, Supply::DoorStops));
    let line = sold_line(source, HARDWARE, told, own)?;
    Some(Line { name: line.what.clone(), ..line })
}

/// How a sort is sold for rails of this thickness, by what is said of that, else of all. Where
/// rails of several are bought, nobody knows of which those on hand are that say nothing of it.
fn of_rail<'s>(
    source: &'s Source<'_, '_>,
    sort: Supply,
    diameter: Length,
) -> impl Iterator<Item = (&'s SoldSupply, Sold)> {
    let rails = &source.work.fitting().rails;
    let is_only = rails.iter().all(|own| own.rod.diameter == diameter);
    let all = source.work.piece.supplies.iter().filter(move |own| own.sort == sort);
    let has_own = all.clone().any(|own| own.diameter == Some(diameter));
    let own = all.filter(move |own| match own.diameter {
        Some(known) => known == diameter,
        None => !has_own,
    });
    own.map(move |own| {
        let is_known = is_only || own.diameter.is_some();
        let on_hand = if is_known { own.sold.on_hand } else { 0 };
        (own, Sold { on_hand, ..own.sold })
    })
}

/// Hanging rails with their cups and hangers.
fn rails(source: &Source<'_, '_>) -> Vec<Line> {
    let all = &source.work.fitting().rails;
    let mut kinds: Vec<(String, Vec<&Rail<'_>>)> = Vec::new();
    for rail in all {
        let told = fitting::rail(source, rail);
        match kinds.iter_mut().find(|own| own.0 == told) {
            Some((_, own)) => own.push(rail),
            None => kinds.push((told, vec![rail])),
        }
    }
    kinds.into_iter().flat_map(|(told, own)| of_kind(source, &told, &own)).collect()
}

/// Those of one kind: `steel tube, 1-1/4`.
fn of_kind(source: &Source<'_, '_>, told: &str, all: &[&Rail<'_>]) -> Vec<Line> {
    let facts = &source.work.piece.facts;
    let Some(first) = all.first() else { return Vec::new() };
    let diameter = first.rod.diameter;
    let sold = |sort: Supply| of_rail(source, sort, diameter).next().map(|own| own.1);
    let long = |rail: &Rail<'_>| source.figures.size(&rail.long, facts);
    let mut lines = Vec::new();
    let tubes: Vec<Tube> = of_rail(source, Supply::HangingRails, diameter)
        .map(|(own, sold)| Tube { long: own.long, sold })
        .collect();
    let alone = |rail: &Rail<'_>| {
        let what = format!("hanging rail of {}: {told}", long(rail));
        unpriced(1, what)
    };
    if tubes.is_empty() {
        lines.extend(all.iter().map(|rail| alone(rail)));
    } else {
        let wanted: Vec<Length> = all.iter().map(|rail| rail.long.length).collect();
        let cut = Cut::of(&tubes, &wanted, source.work.piece.shop.kerf);
        for (at, tube) in tubes.iter().enumerate() {
            let taken = cut.taken.get(at).copied().unwrap_or_default();
            let of = tube.long.map(|long| format!(", {} long", source.figures.text(long)));
            let mut rails: Vec<&Rail<'_>> = Vec::new();
            rails.extend(
                all.iter().zip(&cut.from).filter(|own| *own.1 == Some(at)).map(|own| *own.0),
            );
            rails.sort_by_key(|rail| Reverse(rail.long.length));
            let lengths: Vec<String> = rails.into_iter().map(long).collect();
            let noun = if lengths.len() == 1 { "a hanging rail" } else { "hanging rails" };
            let told =
                format!("{told}{}, for {noun} of {}", of.unwrap_or_default(), listed(&lengths));
            lines.extend(sold_line(source, HARDWARE, told, (whole(taken), tube.sold)));
        }
        // None that is sold is long enough for these.
        let left = all.iter().zip(&cut.from).filter(|own| own.1.is_none());
        lines.extend(left.map(|(rail, _)| alone(rail)));
    }
    let cups = whole(2 * all.len());
    let own = sold(Supply::RailCups);
    let told_of = match (own.is_none() && tubes.is_empty(), all.len()) {
        (true, 1) => "that rail".to_owned(),
        (true, _) => "those rails".to_owned(),
        // They may all be on hand.
        (false, _) => format!("hanging rails, {told}"),
    };
    let told_of = format!("cups for the ends of {told_of}");
    lines.extend(sold_line(source, HARDWARE, told_of, (cups, own.unwrap_or_default())));
    let hangers: usize = all.iter().map(|rail| rail.hangers.len()).sum();
    if hangers > 0 {
        let told = format!("hangers for the middle of long hanging rails, {told}");
        let own = sold(Supply::RailHangers).unwrap_or_default();
        lines.extend(sold_line(source, HARDWARE, told, (whole(hangers), own)));
    }
    lines
}

/// A tube or pole as it is sold or lies in the shop.
struct Tube {
    /// How long; `None` where each is long enough for one rail.
    long: Option<Length>,
    sold: Sold,
}

/// Which rail is cut from which sort of tube.
struct Cut {
    /// The sort that each rail comes from; `None` where none is long enough.
    from: Vec<Option<usize>>,
    /// How many of each sort are cut up.
    taken: Vec<usize>,
}

impl Cut {
    /// The longest rail first: from what is left of a tube that is cut already, else from the
    /// shortest on hand that it fits into, else from the shortest that is bought, of those with
    /// a price first.
    fn of(tubes: &[Tube], wanted: &[Length], kerf: Length) -> Self {
        let mut order: Vec<(usize, Length)> = wanted.iter().copied().enumerate().collect();
        order.sort_by_key(|(at, long)| (Reverse(*long), *at));
        let mut cut = Self { from: vec![None; wanted.len()], taken: vec![0; tubes.len()] };
        // What is left of each that is cut: of which sort, and how long.
        let mut rest: Vec<(usize, Length)> = Vec::new();
        for (at, long) in order {
            let left = rest.iter_mut().filter(|own| own.1 >= long).min_by_key(|own| own.1);
            if let Some((sort, left)) = left {
                *left = (*left - long - kerf).max(Length::ZERO);
                cut.from[at] = Some(*sort);
                continue;
            }
            let fits = |tube: &Tube| tube.long.is_none_or(|own| own >= long);
            let key = |sort: usize, tube: &Tube| {
                let is_there =
                    i64::try_from(cut.taken[sort]).unwrap_or(i64::MAX) < tube.sold.on_hand;
                (!is_there, !is_there && tube.sold.price.is_none(), tube.long)
            };
            let open = tubes.iter().enumerate().filter(|(_, tube)| fits(tube));
            let Some((sort, tube)) = open.min_by_key(|(sort, tube)| key(*sort, tube)) else {
                continue;
            };
            cut.taken[sort] += 1;
            cut.from[at] = Some(sort);
            if let Some(whole) = tube.long {
                rest.push((sort, (whole - long - kerf).max(Length::ZERO)));
            }
        }
        cut
    }
}
