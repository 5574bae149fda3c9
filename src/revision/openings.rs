//! Cases and openings.

use crate::measure::{Length, Tape};
use crate::model::{Case, Opening, OpeningKind, Piece, Side};

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
            Resized::of("up", hung_up(before), hung_up(after), tape),
        ];
        let resized: Vec<Resized> = sizes.into_iter().flatten().collect();
        if !resized.is_empty() {
            changes.changed.push(OpeningChange {
                path: Pair { was: Told::of_case(before), now: Told::of_case(after) },
                kind: Pair { was: "case", now: "case" },
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
    changes
}

/// How far a case hangs off the floor; nought for one that stands.
fn hung_up(case: &Case) -> Length {
    case.hung.as_ref().map_or(Length::ZERO, |hung| hung.up.length)
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
        kind: "case",
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
