//! Which part of one revision is which of the other: by its name with the
//! openings' new names in it, then by role and place, then by being alike.

use std::collections::BTreeMap;

use crate::model::{Case, Item, Opening, OpeningKind, Piece};
use crate::parts::{Direction, Part, Parts, Role};

use super::features;
use super::matching::{Match, Pairs, pair_left_over, same_place};
use super::names::openings_renamed;

/// Matches every part that is on both sides.
pub(super) fn parts(old: (&Piece, &Parts), new: (&Piece, &Parts), matched: &Match) -> Pairs {
    let (old_piece, old) = old;
    let (new_piece, new) = new;
    let mut pairs = Pairs::new(old.all.len(), new.all.len());
    let openings = openings_renamed(old_piece, new_piece, matched);
    let members = members(old_piece, new_piece, matched);
    let paths: BTreeMap<&str, usize> =
        new.iter().map(|(id, part)| (part.path.as_str(), id.0)).collect();
    for (id, part) in old.iter() {
        let path = translated(part, &openings, &members);
        if let Some(now) = paths.get(path.as_str()) {
            pairs.pair(id.0, *now);
        }
    }
    // What remains was renamed together with its neighbours, or is as good as
    // what it takes the place of.
    let alike = |was: usize, now: usize, test: fn(&Compared<'_>) -> bool| {
        let (Some(a), Some(b)) = (old.all.get(was), new.all.get(now)) else { return false };
        let (Some(old_case), Some(new_case)) =
            (old_piece.cases.get(a.case), new_piece.cases.get(b.case))
        else {
            return false;
        };
        let sides = Compared { old_piece, a, old_case, new_piece, b, new_case };
        matched.cases.new_of(a.case) == Some(b.case)
            && a.role == b.role
            && matched.stocks.new_of(a.stock.0) == Some(b.stock.0)
            && test(&sides)
    };
    pair_left_over(&mut pairs, |was, now| alike(was, now, at_one_place));
    pair_left_over(&mut pairs, |was, now| alike(was, now, interchangeable));
    pairs
}

/// Two parts with what they are measured in.
struct Compared<'a> {
    old_piece: &'a Piece,
    a: &'a Part,
    old_case: &'a Case,
    new_piece: &'a Piece,
    b: &'a Part,
    new_case: &'a Case,
}

/// The same way up at nearly the same place of its case.
fn at_one_place(sides: &Compared<'_>) -> bool {
    let Compared { a, b, old_case, new_case, .. } = sides;
    let extent = |part: &Part, case: &Case, direction| {
        let (from, to) = part.extent(direction);
        if direction == Direction::X { (from - case.x, to - case.x) } else { (from, to) }
    };
    same_way_up(a, b)
        && Direction::ALL.into_iter().all(|direction| {
            same_place(extent(a, old_case, direction), extent(b, new_case, direction))
        })
}

/// Cut alike, so that one will do for the other.
fn interchangeable(sides: &Compared<'_>) -> bool {
    let Compared { a, b, old_piece, new_piece, .. } = sides;
    let size = |part: &Part| [&part.length, &part.width, &part.thickness].map(|s| s.length);
    same_way_up(a, b)
        && size(a) == size(b)
        && features::unlike((old_piece, a), (new_piece, b)).is_empty()
}

pub(super) fn same_way_up(a: &Part, b: &Part) -> bool {
    let axes = |part: &Part| (part.placement.length, part.placement.width);
    axes(a) == axes(b)
}

/// The name a part has now if nothing happened to it but new names round it.
fn translated(
    part: &Part,
    openings: &BTreeMap<String, String>,
    members: &BTreeMap<String, String>,
) -> String {
    let path = super::names::path(openings, &part.path);
    let is_member = matches!(part.role, Role::Stile | Role::Rail | Role::Partition | Role::Divider);
    if !is_member {
        return path;
    }
    let renamed = part.path.rsplit_once('.').and_then(|(list, own)| {
        let (word, beside) = own.split_once('-')?;
        let now = members.get(&key(list, beside))?;
        let (list, _) = path.rsplit_once('.')?;
        Some(format!("{list}.{word}-{now}"))
    });
    renamed.unwrap_or(path)
}

fn key(list: &str, beside: &str) -> String {
    format!("{list}.{beside}")
}

/// A stile or rail carries the names of the openings beside it: the end of its
/// name before, with its list, and now.
fn members(old: &Piece, new: &Piece, matched: &Match) -> BTreeMap<String, String> {
    let mut renamed = BTreeMap::new();
    for (before, after, pairs) in matched.both_cases(old, new) {
        for opening in &before.openings {
            let OpeningKind::List(_, items) = &opening.kind else { continue };
            for (index, item) in items.iter().enumerate() {
                let Item::Member(_) = item else { continue };
                let beside = [index.checked_sub(1), index.checked_add(1)].map(|at| {
                    match at.and_then(|at| items.get(at)) {
                        Some(Item::Opening(opening)) => Some(*opening),
                        _ => None,
                    }
                });
                let was = beside.map(|opening| name(before, opening));
                let now = beside.map(|opening| match opening {
                    Some(opening) => {
                        pairs.new_of(opening).map_or("", |opening| name(after, Some(opening)))
                    }
                    None => name(after, None),
                });
                if was != now && !now.contains(&"") {
                    renamed.insert(key(&opening.path, &was.join("-")), now.join("-"));
                }
            }
        }
    }
    renamed
}

fn name(case: &Case, opening: Option<usize>) -> &str {
    match opening.and_then(|opening| case.openings.get(opening)) {
        Some(opening) => Opening::name(opening),
        None => "edge",
    }
}
