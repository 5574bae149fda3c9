//! Cases and openings.

use crate::measure::{Length, Tape};
use crate::model::{Case, Opening, OpeningKind, Piece, Side, Space, SpaceId};

use super::difference::{OpeningChange, OpeningSize};
use super::matching::Match;
use super::two_sided::{Changes, Figure, Pair, Resized, Told};

/// Compares every case and every opening that has a name.
pub(super) fn compare(
    old: &Piece,
    new: &Piece,
    matched: &Match,
    tape: Tape,
) -> Changes<OpeningChange, OpeningSize> {
    let mut changes = Changes::default();
    for (before, after, pairs) in matched.both_cases(old, new) {
        let sizes = [
            Resized::of("wide", before.wide.length, after.wide.length, tape),
            Resized::of("deep", before.deep.length, after.deep.length, tape),
            Resized::of("high", before.overall_high().length, after.overall_high().length, tape),
            Resized::of("up", off_floor(before), off_floor(after), tape),
        ];
        let resized: Vec<Resized> = sizes.into_iter().flatten().collect();
        let kind = Pair { was: kind_of_case(before), now: kind_of_case(after) };
        if !resized.is_empty() || kind.was != kind.now {
            changes.changed.push(OpeningChange {
                path: Pair { was: Told::of_case(before), now: Told::of_case(after) },
                kind,
                resized,
            });
        }
        for (was, now) in pairs.iter() {
            let (Some(a), Some(b)) = (before.openings.get(was), after.openings.get(now)) else {
                continue;
            };
            if a.named && b.named {
                changes.changed.extend(change((before, a), (after, b), tape));
            }
        }
        let (dropped, added) = pairs.left_over();
        changes.dropped.extend(sizes_of(before, Some(&dropped), tape));
        changes.added.extend(sizes_of(after, Some(&added), tape));
    }
    let (dropped, added) = matched.cases.left_over();
    for case in dropped.into_iter().filter_map(|index| old.cases.get(index)) {
        changes.dropped.extend(whole(case, tape));
    }
    for case in added.into_iter().filter_map(|index| new.cases.get(index)) {
        changes.added.extend(whole(case, tape));
    }
    spaces(old, new, tape, &mut changes);
    changes
}

/// How far a case hangs or stands off the floor; nought for one on it.
fn off_floor(case: &Case) -> Length {
    case.off_floor().map_or(Length::ZERO, |up| up.length)
}

/// Compares the places for appliances: how wide they are, and how high what they take.
fn spaces(old: &Piece, new: &Piece, tape: Tape, changes: &mut Changes<OpeningChange, OpeningSize>) {
    let all = |piece: &Piece| -> Vec<(String, Space)> {
        let of = |(id, own): (SpaceId, &Space)| {
            piece.run(id.run).map(|run| (run.name.clone(), own.clone()))
        };
        piece.spaces().filter_map(of).collect()
    };
    let (old, new) = (all(old), all(new));
    let same = |one: &(String, Space), other: &(String, Space)| {
        (&one.0, &one.1.name) == (&other.0, &other.1.name)
    };
    // An empty one is as high as what stands beside it.
    let high = |own: &Space| own.takes.as_ref().map_or(own.high.length, |takes| takes[1].length);
    let size = |own: &Space| OpeningSize {
        path: Told::of_space(own),
        kind: SPACE,
        wide: Figure::new(own.wide.length, tape),
        high: Figure::new(high(own), tape),
    };
    for own in &old {
        let before = &own.1;
        let Some((_, after)) = new.iter().find(|other| same(own, other)) else {
            changes.dropped.push(size(before));
            continue;
        };
        let sizes = [
            Resized::of("wide", before.wide.length, after.wide.length, tape),
            Resized::of("high", high(before), high(after), tape),
        ];
        let resized: Vec<Resized> = sizes.into_iter().flatten().collect();
        if !resized.is_empty() {
            changes.changed.push(OpeningChange {
                path: Pair { was: Told::of_space(before), now: Told::of_space(after) },
                kind: Pair { was: SPACE, now: SPACE },
                resized,
            });
        }
    }
    let added = new.iter().filter(|own| !old.iter().any(|other| same(own, other)));
    changes.added.extend(added.map(|(_, own)| size(own)));
}

/// What a free place in a run is called.
const SPACE: &str = "space";

fn kind_of_case(case: &Case) -> &'static str {
    match case.run {
        Some(_) => "case of a run",
        None => "case",
    }
}

fn change(
    (before, a): (&Case, &Opening),
    (after, b): (&Case, &Opening),
    tape: Tape,
) -> Option<OpeningChange> {
    let kind = Pair { was: kind(a), now: kind(b) };
    let sizes = [
        Resized::of("wide", a.wide.length, b.wide.length, tape),
        Resized::of("high", a.high.length, b.high.length, tape),
    ];
    let resized: Vec<Resized> = sizes.into_iter().flatten().collect();
    let path = Pair { was: Told::within(before, &a.path), now: Told::within(after, &b.path) };
    (kind.was != kind.now || !resized.is_empty()).then_some(OpeningChange { path, kind, resized })
}

/// A case that is only on one side, and its openings.
fn whole(case: &Case, tape: Tape) -> Vec<OpeningSize> {
    let mut all = vec![OpeningSize {
        path: Told::of_case(case),
        kind: kind_of_case(case),
        wide: Figure::new(case.wide.length, tape),
        high: Figure::new(case.overall_high().length, tape),
    }];
    all.extend(sizes_of(case, None, tape));
    all
}

fn sizes_of(case: &Case, only: Option<&[usize]>, tape: Tape) -> Vec<OpeningSize> {
    let wanted = |index: usize| only.is_none_or(|only| only.contains(&index));
    case.openings
        .iter()
        .enumerate()
        .filter(|(index, opening)| wanted(*index) && opening.named)
        .map(|(_, opening)| OpeningSize {
            path: Told::within(case, &opening.path),
            kind: kind(opening),
            wide: Figure::new(opening.wide.length, tape),
            high: Figure::new(opening.high.length, tape),
        })
        .collect()
}

fn kind(opening: &Opening) -> &'static str {
    match opening.kind {
        OpeningKind::List(..) => "group",
        OpeningKind::Drawer { .. } if opening.is_tray() => "tray",
        OpeningKind::Drawer { .. } => "drawer",
        OpeningKind::Door(Side::Left) => "door hung left",
        OpeningKind::Door(Side::Right) => "door hung right",
        OpeningKind::Doors => "pair of doors",
        OpeningKind::Open if opening.rod.is_some() => "niche with a rail",
        OpeningKind::Open => "niche",
        OpeningKind::False => "false front",
    }
}
