//! What is cut into a part, before and after.

use std::collections::BTreeMap;

use crate::measure::{Length, Tape};
use crate::model::{BitId, Piece};
use crate::papers;
use crate::parts::{Feature, FeatureKind, Part};
use crate::plans::Workings;

use super::difference::{Cut, Silent};
use super::two_sided::{Figure, Lists, Pair};

/// The cuts that are not the same on both sides. A cut that keeps its distance
/// from one end of a part that grew at the other is the same.
pub(super) fn unlike<'a>(old: (&Piece, &'a Part), new: (&Piece, &'a Part)) -> Lists<&'a Feature> {
    let (was, now) = (placed(old.1), placed(new.1));
    let mut left: Vec<&Placed<'_>> = now.iter().collect();
    let mut dropped = Vec::new();
    for own in &was {
        match left.iter().position(|other| alike((old.0, own), (new.0, other))) {
            Some(at) => {
                left.remove(at);
            }
            None => dropped.push(own.feature),
        }
    }
    Lists { added: left.into_iter().map(|own| own.feature).collect(), dropped }
}

/// A cut with its places, which are worked out once: each cut is held against
/// all of the other side.
struct Placed<'a> {
    feature: &'a Feature,
    u: Along,
    v: Along,
}

/// Where a cut begins and ends along one side of its face.
struct Along {
    from_start: (Length, Length),
    from_end: (Length, Length),
    /// How long it is, where it stands in the middle.
    middle: Option<Length>,
}

fn placed(part: &Part) -> Vec<Placed<'_>> {
    let along = |(from, to): (Length, Length), size: Length| Along {
        from_start: (from, to),
        from_end: (size - from, size - to),
        middle: (from + to == size).then(|| to - from),
    };
    let features = part.features.iter().map(|feature| {
        let size = part.face_size(feature.face);
        Placed { feature, u: along(feature.u, size.0), v: along(feature.v, size.1) }
    });
    features.collect()
}

fn alike((old, was): (&Piece, &Placed<'_>), (new, now): (&Piece, &Placed<'_>)) -> bool {
    let (a, b) = (was.feature, now.feature);
    a.face == b.face
        && a.deep == b.deep
        && same_kind((old, a.kind), (new, b.kind))
        && same_extent(&was.u, &now.u)
        && same_extent(&was.v, &now.v)
}

fn same_kind(old: (&Piece, FeatureKind), new: (&Piece, FeatureKind)) -> bool {
    match (old.1, new.1) {
        (FeatureKind::Flute(was), FeatureKind::Flute(now)) => {
            let bit = |piece: &Piece, id: BitId| {
                piece.bit(id).map(|bit| (bit.name.clone(), bit.shape, bit.diameter))
            };
            bit(old.0, was) == bit(new.0, now)
        }
        (was, now) => was == now,
    }
}

/// At the same distance from one side or the other, from both, or in the middle.
fn same_extent(was: &Along, now: &Along) -> bool {
    was.from_start == now.from_start
        || was.from_end == now.from_end
        || (was.from_start.0 == now.from_start.0 && was.from_end.1 == now.from_end.1)
        || (was.middle.is_some() && was.middle == now.middle)
}

/// What of it the cut list says.
pub(super) fn compare(
    (old, a): (&Workings<'_>, &Part),
    (new, b): (&Workings<'_>, &Part),
    tape: Tape,
) -> Cut {
    let unlike = unlike((old.piece, a), (new.piece, b));
    if unlike.is_empty() {
        return Cut::default();
    }
    let was = papers::cuts(a, old, tape);
    let now = papers::cuts(b, new, tape);
    let lines = lines(&was, &now, without_part);
    let mut moved = Vec::new();
    if lines.is_empty() {
        moved = silent(&unlike, tape);
    }
    Cut { lines, moved }
}

/// What the cut list does not tell: a cut that only runs further, say.
fn silent(unlike: &Lists<&Feature>, tape: Tape) -> Vec<Silent> {
    let mut left = unlike.dropped.clone();
    let mut told: Vec<Silent> = Vec::new();
    for now in &unlike.added {
        let cut = now.kind.word();
        let at = left.iter().position(|was| was.kind.word() == cut);
        match at.map(|at| left.remove(at)) {
            Some(was) => told.extend(resized(was, now, tape)),
            None => told.push(Silent { cut, size: None, was: None, now: None }),
        }
    }
    let gone = left.iter().map(|was| was.kind.word());
    told.extend(gone.map(|cut| Silent { cut, size: None, was: None, now: None }));
    told.sort_unstable();
    told.dedup();
    told
}

/// In which sizes a cut differs; in none where it only stands elsewhere.
fn resized(was: &Feature, now: &Feature, tape: Tape) -> Vec<Silent> {
    let cut = now.kind.word();
    let extent = |(from, to): (Length, Length)| to - from;
    let (u, v) = ((extent(was.u), extent(now.u)), (extent(was.v), extent(now.v)));
    let [long, wide] = if u.0.max(u.1) >= v.0.max(v.1) { [u, v] } else { [v, u] };
    let sizes = [("long", long), ("wide", wide), ("deep", (was.deep, now.deep))];
    let differs = sizes.into_iter().filter(|(_, (was, now))| was != now);
    let told: Vec<Silent> = differs
        .map(|(size, (was, now))| {
            let Pair { was, now } = Figure::both(was, now, tape);
            Silent { cut, size: Some(size), was: Some(was), now: Some(now) }
        })
        .collect();
    match told.is_empty() {
        true => vec![Silent { cut, size: None, was: None, now: None }],
        false => told,
    }
}

/// The part that is let in may only have another mark.
fn without_part(line: &str) -> String {
    line.split(", houses ").next().unwrap_or(line).to_owned()
}

/// Lines that only one side has, in their order; `told` is what is compared.
pub(super) fn lines(was: &[String], now: &[String], told: fn(&str) -> String) -> Lists<String> {
    let mut count: BTreeMap<String, i64> = BTreeMap::new();
    for line in now {
        *count.entry(told(line)).or_default() += 1;
    }
    let mut dropped = Vec::new();
    for line in was {
        let left = count.entry(told(line)).or_default();
        if *left > 0 {
            *left -= 1;
        } else {
            dropped.push(told(line));
        }
    }
    let mut added = Vec::new();
    for line in now.iter().rev() {
        let left = count.entry(told(line)).or_default();
        if *left > 0 {
            *left -= 1;
            added.push(told(line));
        }
    }
    added.reverse();
    Lists { added, dropped }
}
