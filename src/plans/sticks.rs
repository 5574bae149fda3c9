//! Long sticks that short parts are planed and ripped as, and crosscut from last.

mod channels;

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{Set, StockId};
use crate::parts::{Assembly, Part, PartId, Role, Which};
use crate::trade;

use super::Workings;
use super::assembly::{Stage, gluing, stage};
use super::operations::rough_pieces;
use super::small_parts::is_short;
use channels::Through;

/// One rough stick.
#[derive(Clone, Debug, PartialEq)]
pub struct Stick {
    /// What is crosscut from it, the longest first.
    pub parts: Vec<PartId>,
    /// Its rough length: all parts with a kerf and what is left on each to fit it, and
    /// the shop's allowance once.
    pub long: Length,
    /// What is cut in it while it is whole, since it runs through all of its parts alike:
    /// parts and the numbers of their features.
    pub channels: Vec<(PartId, usize)>,
}

/// All of them.
#[derive(Clone, Debug, Default)]
pub struct Sticks {
    /// In the order of their first parts.
    pub all: Vec<Stick>,
    of: BTreeMap<PartId, usize>,
    /// Which is whole while a feature is cut.
    cut_in: BTreeMap<(PartId, usize), usize>,
}

impl Stick {
    /// True for the part that the whole stick is told with.
    #[must_use]
    pub fn is_under(&self, part: PartId) -> bool {
        self.parts.first() == Some(&part)
    }
}

impl Sticks {
    /// The rough pieces that parts of one stock are sawn from: nominal thickness, width,
    /// and length.
    #[must_use]
    pub fn pieces(
        &self,
        work: &Workings<'_>,
        nominal: Length,
        own: &[(PartId, &Part)],
    ) -> Vec<(Length, Length, Length)> {
        let of = |(id, part): &(PartId, &Part)| {
            let rough = self.rough(work, *id, part);
            rough.map(|(count, [long, wide])| std::iter::repeat_n((nominal, wide, long), count))
        };
        own.iter().filter_map(of).flatten().collect()
    }

    /// The rough pieces of a part, how many and how long and wide; nothing where the stick that
    /// it comes from is told with another. Each board of a blank and each layer of a laminated
    /// part is a rough piece of its own: it is wider by what is jointed off its edges.
    pub(super) fn rough(
        &self,
        work: &Workings<'_>,
        id: PartId,
        part: &Part,
    ) -> Option<(usize, [Length; 2])> {
        if self.of(id).is_some_and(|stick| !stick.is_under(id)) {
            return None;
        }
        let rough = rough_pieces(work, part);
        let count = usize::try_from(rough.pieces).unwrap_or(1).max(1);
        Some((count, [self.rough_long(id, part), rough.size[1]]))
    }

    /// How long the rough piece is that a part comes from.
    #[must_use]
    pub fn rough_long(&self, id: PartId, part: &Part) -> Length {
        self.of(id).map_or(part.rough.length, |stick| stick.long)
    }

    /// The one that a part is crosscut from.
    #[must_use]
    pub fn of(&self, part: PartId) -> Option<&Stick> {
        self.all.get(*self.of.get(&part)?)
    }

    /// The one that is still whole when a feature of a part is cut, by its place among all.
    #[must_use]
    pub fn cut_in(&self, part: PartId, number: usize) -> Option<usize> {
        self.cut_in.get(&(part, number)).copied()
    }

    /// True for a part that is crosscut only when something is cut in its stick.
    #[must_use]
    pub fn is_cut_first(&self, part: PartId) -> bool {
        self.of(part).is_some_and(|stick| !stick.channels.is_empty())
    }
}

/// Parts of one section, which come to their size in the same step, and which are ripped wider
/// or not for what is planed off them when they are fitted.
type Section = (StockId, bool, bool, [Length; 4]);

/// The sticks of all short parts. A stick that would be too short itself is sawn together
/// with a longer part of its section, or is left as long as the machines ask for.
pub(super) fn plan(work: &Workings<'_>) -> Sticks {
    let mut sections: BTreeMap<Section, (Vec<PartId>, Vec<PartId>)> = BTreeMap::new();
    for (id, part) in work.parts.iter() {
        if work.ledger().is_cut(id) || !part.strips.is_empty() {
            continue;
        }
        let (short, long) = sections.entry(section(work, part)).or_default();
        match is_short(work.piece, part) {
            true => short.push(id),
            // A blank is glued up to its own size.
            false if gluing::is_blank(work.piece, part) => {}
            false => long.push(id),
        }
    }
    let mut all: Vec<Stick> = sections
        .into_values()
        .filter(|(short, _)| !short.is_empty())
        .flat_map(|(short, long)| of_section(work, short, &long))
        .collect();
    all.sort_by(|one, other| one.parts.cmp(&other.parts));
    for stick in &mut all {
        let through = |id: &PartId| Some((*id, channels::of(work.parts.get(*id)?)));
        let parts: Vec<_> = stick.parts.iter().filter_map(through).collect();
        stick.channels = channels::of_stick(&parts);
    }
    let of =
        (0..).zip(&all).flat_map(|(index, stick)| stick.parts.iter().map(move |id| (*id, index)));
    let cut_in = (0..)
        .zip(&all)
        .flat_map(|(index, stick)| stick.channels.iter().map(move |cut| (*cut, index)));
    Sticks { of: of.collect(), cut_in: cut_in.collect(), all }
}

fn section(work: &Workings<'_>, part: &Part) -> Section {
    let first = stage(part) == Stage::First;
    let (wide, thick) = (part.width.length, part.thickness.length);
    let sizes = [wide, thick, part.rough.width, part.rough.thickness];
    (part.stock, first, is_ripped_wider(work, part), sizes)
}

/// True for a board at the outer edge of an inset framed front: it is ripped wider, by the
/// shaving that comes off when the front is fitted. A mid rail is not.
fn is_ripped_wider(work: &Workings<'_>, part: &Part) -> bool {
    let Assembly::Front(id) = part.assembly else { return false };
    let inset = work.piece.opening(id.opening).and_then(|own| own.front.as_ref());
    let is_outer = match part.role {
        Role::FrontStile => true,
        Role::FrontRail => matches!(part.which, Which::Top | Which::Bottom),
        _ => false,
    };
    is_outer && inset.is_some_and(|fronts| fronts.set == Set::Inset)
}

/// The sticks of one section. Those whose channels are alike go together where they make a
/// stick that is long enough: its channels are cut before it is crosscut.
fn of_section(work: &Workings<'_>, short: Vec<PartId>, long: &[PartId]) -> Vec<Stick> {
    let least = trade::shortest_planed(work.piece.tape().unit);
    let mut groups: Vec<(Vec<Through>, Vec<PartId>)> = Vec::new();
    for id in short {
        let own = work.parts.get(id).map(channels::of).unwrap_or_default();
        match groups.iter_mut().find(|(known, _)| channels::are_alike(known, &own)) {
            Some((_, parts)) => parts.push(id),
            None => groups.push((own, vec![id])),
        }
    }
    let (mut groups, rest): (Vec<_>, Vec<_>) =
        groups.into_iter().partition(|(_, parts)| sawn(work, parts) >= least);
    let channels = rest.first().map(|(own, _)| own.clone()).unwrap_or_default();
    let mut rest: Vec<PartId> = rest.into_iter().flat_map(|(_, parts)| parts).collect();
    let is_short = !rest.is_empty() && sawn(work, &rest) < least;
    if is_short && with_long(work, &rest, long).is_none() {
        // No stick of its own: it would be too short.
        let nearest = groups.iter_mut().rev();
        let nearest = nearest.max_by_key(|(own, _)| channels::in_common(own, &channels));
        if let Some((_, parts)) = nearest {
            parts.append(&mut rest);
        }
    }
    let mut sticks: Vec<Stick> =
        groups.into_iter().flat_map(|(_, parts)| of_group(work, parts, long)).collect();
    if !rest.is_empty() {
        sticks.extend(of_group(work, rest, long));
    }
    sticks
}

/// How long a stick of these parts is.
fn sawn(work: &Workings<'_>, ids: &[PartId]) -> Length {
    let tape = work.piece.tape();
    let each = work.piece.shop.kerf + trade::shaving(tape.unit).twice();
    let sum = |sum, id: &PartId| sum + finished(work, *id) + each;
    tape.up(ids.iter().fold(work.piece.shop.allow_length, sum))
}

fn finished(work: &Workings<'_>, id: PartId) -> Length {
    work.parts.get(id).map_or(Length::ZERO, |part| part.length.length)
}

/// The longest stick of a section.
fn longest(work: &Workings<'_>, short: &[PartId]) -> Length {
    let first = short.first().and_then(|id| work.parts.get(*id));
    let stock = first.and_then(|part| work.piece.stock(part.stock));
    stock
        .and_then(|stock| stock.boards)
        .map_or(trade::longest_stick(work.piece.tape().unit), |boards| boards.long.0)
}

/// Short parts together with one of those that are long enough by themselves: one that has
/// most channels in common with them. Of such it is the shortest that will do: a long stick is
/// harder to keep straight.
fn with_long(work: &Workings<'_>, short: &[PartId], long: &[PartId]) -> Option<Stick> {
    let most = longest(work, short);
    let through = |id: PartId| work.parts.get(id).map(channels::of).unwrap_or_default();
    let own = through(*short.first()?);
    let with = |id: &PartId| {
        let mut parts = vec![*id];
        parts.extend(short);
        let long = sawn(work, &parts);
        let unlike = own.len() - channels::in_common(&own, &through(*id));
        (long <= most).then_some((unlike, Stick { parts, long, channels: Vec::new() }))
    };
    let joined = long.iter().filter_map(with).min_by_key(|(unlike, stick)| (*unlike, stick.long));
    joined.map(|(_, stick)| stick)
}

/// The sticks of short parts that go together.
fn of_group(work: &Workings<'_>, mut short: Vec<PartId>, long: &[PartId]) -> Vec<Stick> {
    let least = trade::shortest_planed(work.piece.tape().unit);
    short.sort_by_key(|id| (std::cmp::Reverse(finished(work, *id)), *id));
    let whole = sawn(work, &short);
    if whole < least {
        let joined = with_long(work, &short, long);
        let alone = Stick { parts: short, long: least, channels: Vec::new() };
        return vec![joined.unwrap_or(alone)];
    }
    // As few as will do, and alike: none of them comes to be a short one itself.
    let most = longest(work, &short);
    let count = usize::try_from((whole / most.max(least)).ceil()).unwrap_or(1).max(1);
    let mut sticks = vec![Vec::new(); count];
    for (index, id) in short.into_iter().enumerate() {
        if let Some(stick) = sticks.get_mut(index % count) {
            stick.push(id);
        }
    }
    let made = sticks.into_iter().filter(|parts| !parts.is_empty());
    made.map(|parts| Stick { long: sawn(work, &parts).max(least), parts, channels: Vec::new() })
        .collect()
}
