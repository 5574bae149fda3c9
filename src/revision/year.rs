//! Gaps and panels through the year, and weights.

use std::collections::BTreeMap;

use crate::measure::{Scale, Tape};
use crate::model::{FrontId, Piece};
use crate::papers;
use crate::parts::{Key, Part};
use crate::plans::Workings;
use crate::plans::seasons::{Float, Gap};
use crate::plans::weights::{self, Lifted};

use super::difference::{GapChange, GapPlace, Room, Weight, WeightChange};
use super::matching::Match;
use super::two_sided::{Changes, Figure, Pair, Told};

/// Every gap that is not as wide as it was, as far as its paper shows.
pub(super) fn gaps(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
    tape: Tape,
) -> Changes<GapChange, GapPlace> {
    let place = |piece: &Piece, gap: &Gap<'_>| GapPlace {
        front: Told::of_front(piece, gap.front.id),
        edge: gap.edge.word(),
        room: Room {
            fitted: Figure::new(gap.fitted, tape),
            least: Figure::fine(gap.least(), tape),
            greatest: Figure::fine(gap.greatest(), tape),
        },
    };
    let mut was: BTreeMap<(FrontId, &str), GapPlace> = BTreeMap::new();
    let mut changes = Changes::default();
    for gap in old.gaps() {
        match matched.front(gap.front.id) {
            Some(front) => {
                was.insert((front, gap.edge.word()), place(old.piece, gap));
            }
            None => changes.dropped.push(place(old.piece, gap)),
        }
    }
    for gap in new.gaps() {
        let now = place(new.piece, gap);
        match was.remove(&(gap.front.id, now.edge)) {
            None => changes.added.push(now),
            Some(was) if same_room(&was.room, &now.room) => {}
            Some(mut was) => {
                let mut room = now.room;
                let fitted = Figure::both(was.room.fitted.length, room.fitted.length, tape);
                (was.room.fitted, room.fitted) = (fitted.was, fitted.now);
                changes.changed.push(GapChange {
                    front: Pair { was: was.front, now: now.front },
                    edge: now.edge,
                    room: Pair { was: was.room, now: room },
                });
            }
        }
    }
    changes.dropped.extend(was.into_values());
    changes.dropped.sort_by(|a, b| (&a.front, a.edge).cmp(&(&b.front, b.edge)));
    changes
}

/// Wood swells a little differently with every width; what no paper shows is
/// no change.
fn same_room(was: &Room, now: &Room) -> bool {
    was.fitted.length == now.fitted.length
        && was.least.text == now.least.text
        && was.greatest.text == now.greatest.text
}

/// Every panel that is on both sides and has other room in its grooves.
pub(super) fn panels(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
    tape: Tape,
) -> Vec<GapChange> {
    let room = |float: &Float<'_>| Room {
        fitted: Figure::fine(float.room, tape),
        least: Figure::fine(float.room.min(float.driest).min(float.dampest), tape),
        greatest: Figure::fine(float.room.max(float.driest).max(float.dampest), tape),
    };
    let floats = new.floats();
    let now: BTreeMap<Key, &Float<'_>> =
        floats.iter().map(|float| (float.panel.key(), float)).collect();
    let index: BTreeMap<Key, usize> =
        old.parts.iter().map(|(id, part)| (part.key(), id.0)).collect();
    let change = |was: &Float<'_>| {
        let after = matched.parts.new_of(*index.get(&was.panel.key())?)?;
        let now = *now.get(&new.parts.all.get(after)?.key())?;
        let (before, after) = (room(was), room(now));
        (!same_room(&before, &after)).then(|| GapChange {
            front: Pair { was: told(old, was.panel), now: told(new, now.panel) },
            edge: "each side",
            room: Pair { was: before, now: after },
        })
    };
    old.floats().iter().filter_map(change).collect()
}

/// A panel by its whole name.
fn told(side: &Workings<'_>, panel: &Part) -> Told {
    match side.piece.case(panel.case) {
        Some(case) => Told::within(case, &panel.path),
        None => Told { short: panel.path.clone(), whole: panel.path.clone() },
    }
}

/// Every weight that is not what it was, as far as its paper shows; the whole
/// comes last.
pub(super) fn weights(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
) -> Changes<WeightChange, Weight> {
    let scale = Scale::of(new.piece.tape());
    let of = |side: &Workings<'_>| {
        let weighed = side.weights();
        // As its paper prints it, where that is in the same unit.
        let (printed, all) = papers::lifted(side);
        let alike = Scale::of(side.piece.tape()) == scale;
        let printed: BTreeMap<Option<Lifted>, String> = printed
            .into_iter()
            .map(|(lifted, text)| (Some(lifted), text))
            .chain([(None, all)])
            .filter(|_| alike)
            .collect();
        let weight = |what: &'static str, path: Told, body: weights::Body| Weight {
            what,
            path,
            grams: body.grams,
            text: scale.text(body.mass()),
        };
        let one = |(lifted, body): (&Lifted, &weights::Body)| {
            let what = match lifted {
                Lifted::Case(_) => "case",
                Lifted::Shelves(_) => "loose shelves",
                Lifted::Covers(_) => "parts added on site",
                Lifted::Base(_) => "base",
                Lifted::Countertop(_) => "countertop",
                Lifted::Door(_) => "door",
                Lifted::Drawer(_) => "drawer",
            };
            let name = weights::name(side.piece, *lifted);
            let name = match (lifted, side.piece.case(lifted.case())) {
                (Lifted::Door(_) | Lifted::Drawer(_), Some(case)) => Told::within(case, &name),
                _ => Told { short: name.clone(), whole: name },
            };
            (Some(*lifted), weight(what, name, *body))
        };
        let mut all: Vec<(Option<Lifted>, Weight)> = weighed.lifted.iter().map(one).collect();
        all.sort_by(|(a, one), (b, other)| {
            let kind = |lifted: &Option<Lifted>| lifted.map(|it| (rank(it), it.case()));
            (kind(a), &one.path).cmp(&(kind(b), &other.path))
        });
        all.push((None, weight("whole", Told::default(), weighed.whole())));
        for (lifted, own) in &mut all {
            own.text = printed.get(lifted).cloned().unwrap_or_else(|| own.text.clone());
        }
        all
    };
    let mut was: BTreeMap<Option<Lifted>, Weight> = BTreeMap::new();
    let mut changes = Changes::default();
    for (lifted, weight) in of(old) {
        match lifted.map(|lifted| matched.lifted(lifted)) {
            Some(None) => changes.dropped.push(weight),
            Some(now) => {
                was.insert(now, weight);
            }
            None => {
                was.insert(None, weight);
            }
        }
    }
    for (lifted, now) in of(new) {
        match was.remove(&lifted) {
            None => changes.added.push(now),
            Some(was) if was.text == now.text || was.grams == now.grams => {}
            Some(was) => changes.changed.push(WeightChange { was, now }),
        }
    }
    changes.dropped.extend(was.into_values());
    changes.dropped.sort_by(|a, b| (a.what, &a.path).cmp(&(b.what, &b.path)));
    changes
}

/// The order in which kinds are listed.
fn rank(lifted: Lifted) -> u8 {
    match lifted {
        Lifted::Case(_) => 0,
        Lifted::Shelves(_) => 1,
        Lifted::Covers(_) => 2,
        Lifted::Base(_) => 3,
        Lifted::Countertop(_) => 4,
        Lifted::Door(_) => 5,
        Lifted::Drawer(_) => 6,
    }
}
