//! Gaps and panels through the year, and weights.

use std::collections::BTreeMap;

use crate::measure::{Scale, Tape};
use crate::plans::seasons::{self, Float, Gap};
use crate::plans::weights::{self, Lifted};

use super::difference::{GapChange, GapPlace, Room, Weight, WeightChange};
use super::matching::Match;
use super::names::Names;
use super::side::Revision;
use super::two_sided::{Changes, Figure, Pair};

/// Every gap that is not as wide as it was, as far as its paper shows.
pub(super) fn gaps(
    old: &Revision<'_>,
    new: &Revision<'_>,
    names: &Names,
    tape: Tape,
) -> Changes<GapChange, GapPlace> {
    let place = |gap: &Gap<'_>| GapPlace {
        front: gap.front.path.to_owned(),
        edge: gap.edge.word(),
        room: Room {
            fitted: Figure::new(gap.fitted, tape),
            least: Figure::fine(gap.least(), tape),
            greatest: Figure::fine(gap.greatest(), tape),
        },
    };
    let mut was: BTreeMap<(String, &str), GapPlace> = BTreeMap::new();
    for gap in seasons::gaps(old.piece, old.parts) {
        was.insert((names.path(gap.front.path), gap.edge.word()), place(&gap));
    }
    let mut changes = Changes::default();
    for gap in seasons::gaps(new.piece, new.parts) {
        let now = place(&gap);
        match was.remove(&(now.front.clone(), now.edge)) {
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
    changes.dropped = was.into_values().collect();
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
    old: &Revision<'_>,
    new: &Revision<'_>,
    matched: &Match,
    tape: Tape,
) -> Vec<GapChange> {
    let room = |float: &Float<'_>| Room {
        fitted: Figure::fine(float.room, tape),
        least: Figure::fine(float.room.min(float.driest).min(float.dampest), tape),
        greatest: Figure::fine(float.room.max(float.driest).max(float.dampest), tape),
    };
    let floats = seasons::floats(new.piece, new.parts);
    let now: BTreeMap<&str, &Float<'_>> =
        floats.iter().map(|float| (float.panel.path.as_str(), float)).collect();
    let index: BTreeMap<&str, usize> =
        old.parts.iter().map(|(id, part)| (part.path.as_str(), id.0)).collect();
    let change = |was: Float<'_>| {
        let after = matched.parts.new_of(*index.get(was.panel.path.as_str())?)?;
        let now = *now.get(new.parts.all.get(after)?.path.as_str())?;
        let (before, after) = (room(&was), room(now));
        (!same_room(&before, &after)).then(|| GapChange {
            front: Pair { was: was.panel.path.clone(), now: now.panel.path.clone() },
            edge: "each side",
            room: Pair { was: before, now: after },
        })
    };
    seasons::floats(old.piece, old.parts).into_iter().filter_map(change).collect()
}

/// Every weight that is not what it was, as far as its paper shows; the whole
/// comes last.
pub(super) fn weights(
    old: &Revision<'_>,
    new: &Revision<'_>,
    names: &Names,
) -> Changes<WeightChange, Weight> {
    let scale = Scale::of(new.piece.tape());
    let of = |side: &Revision<'_>| {
        let weighed = weights::weigh(side.piece, side.parts);
        let case = |index: &usize| {
            side.piece.cases.get(*index).map_or(String::new(), |case| case.name.clone())
        };
        let mut all: Vec<(&'static str, String, weights::Body)> = weighed
            .lifted
            .iter()
            .map(|(lifted, body)| match lifted {
                Lifted::Case(index) => ("case", case(index), *body),
                Lifted::Base(index) => ("base", case(index), *body),
                Lifted::Door(_, path) => ("door", path.clone(), *body),
                Lifted::Drawer(_, path) => ("drawer", path.clone(), *body),
            })
            .collect();
        all.push(("whole", String::new(), weighed.whole()));
        all
    };
    let weight = |kind: &'static str, name: &str, body: weights::Body| Weight {
        what: kind,
        path: name.to_owned(),
        grams: body.grams,
        text: scale.text(body.mass()),
    };
    let mut was: BTreeMap<(&'static str, String), Weight> = BTreeMap::new();
    for (kind, name, body) in of(old) {
        was.insert((kind, names.path(&name)), weight(kind, &name, body));
    }
    let mut changes = Changes::default();
    for (kind, name, body) in of(new) {
        let now = weight(kind, &name, body);
        match was.remove(&(kind, name)) {
            None => changes.added.push(now),
            Some(was) if was.text == now.text => {}
            Some(was) => changes.changed.push(WeightChange { was, now }),
        }
    }
    changes.dropped = was.into_values().collect();
    changes
}
