//! Values and trailing comments that stand in a column.
//!
//! A column is taken from the source: where values stood below each other, and
//! not by chance, they do so again. Values of plain statements that follow each
//! other in a block stand below each other anyhow, but for a word that is too
//! long for the column that the maker has chosen. Written twice a text
//! gives the same bytes, since whatever is put into a column stands in one when
//! it is read again.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::line::{Kind, Line};

/// The most spaces behind the longest word of a column.
const WIDEST_GAP: usize = 3;

/// The spaces before a trailing comment, at least.
const BEFORE_COMMENT: usize = 2;

/// The furthest column in which comments are left where they stood.
const FURTHEST: usize = 72;

/// A piece of a line, by their numbers.
type Place = (usize, usize);

/// Aligns the values of lines that follow each other.
pub(super) fn values(lines: &mut [Line]) {
    let mut run: Vec<usize> = Vec::new();
    for at in 0..=lines.len() {
        match lines.get(at).map(|line| line.kind) {
            Some(Kind::Statements | Kind::Plain) => run.push(at),
            Some(Kind::Continued) => {}
            _ => align_run(lines, &std::mem::take(&mut run)),
        }
    }
}

fn align_run(lines: &mut [Line], run: &[usize]) {
    let mut columns: BTreeMap<usize, Vec<Place>> = BTreeMap::new();
    let places = run.iter().flat_map(|at| {
        let pieces = lines.get(*at).map_or(0, |line| line.pieces.len());
        (1..pieces).map(|piece| (*at, piece))
    });
    for place in places {
        columns.entry(column(lines, place)).or_default().push(place);
    }
    let spaced = |place: &Place| stood(lines, *place) > 1;
    let is_column = |places: &Vec<Place>| places.len() > 1 && places.iter().any(spaced);
    let (mut columns, rest): (BTreeMap<_, _>, BTreeMap<_, _>) =
        columns.into_iter().partition(|(_, places)| is_column(places));
    // The column may be as wide as those that stood in it left it.
    let mut gaps: BTreeMap<usize, usize> = columns
        .iter()
        .map(|(column, places)| {
            let least = places.iter().map(|place| stood(lines, *place)).min().unwrap_or(1);
            (*column, least.clamp(1, WIDEST_GAP))
        })
        .collect();
    let mut taken: BTreeMap<Place, usize> = columns
        .iter()
        .flat_map(|(column, places)| places.iter().map(|place| (*place, *column)))
        .collect();
    // What an edit has pushed out of its column goes back, if it stays on its
    // own side of the other piece of its line.
    let strays: Vec<Place> = rest.into_values().flatten().filter(spaced).collect();
    for (line, piece) in strays {
        let (from, to) = if piece == 1 {
            (0, taken.get(&(line, 2)).copied().unwrap_or(usize::MAX))
        } else {
            (taken.get(&(line, 1)).map_or(0, |column| column + 1), usize::MAX)
        };
        let stood = column(lines, (line, piece));
        if let Some(nearest) = nearest(&columns, stood, from, to)
            && let Some(places) = columns.get_mut(&nearest)
        {
            places.push((line, piece));
            taken.insert((line, piece), nearest);
        }
    }
    for group in plain(lines, run) {
        match usual(&group, &taken) {
            Some(column) => join(lines, &group, column, &mut columns, &mut gaps, &mut taken),
            None => stand_alone(lines, &group),
        }
    }
    // From the left: what moves a piece moves those behind it on its line.
    for (column, places) in columns {
        let before = |(line, piece): &Place| lines.get(*line).map_or(0, |line| line.width(*piece));
        let longest = places.iter().map(before).max().unwrap_or(0);
        let target = longest + gaps.get(&column).copied().unwrap_or(1);
        for (line, piece) in places {
            let before = lines.get(line).map_or(0, |line| line.width(piece));
            if let Some(piece) = lines.get_mut(line).and_then(|line| line.pieces.get_mut(piece)) {
                piece.gap = target.saturating_sub(before);
            }
        }
    }
}

/// The plain statements of a block that follow each other, two or more.
fn plain(lines: &[Line], run: &[usize]) -> Vec<Vec<usize>> {
    let is_plain =
        |at: &usize| lines.get(*at).is_some_and(|line| line.kind == Kind::Plain && line.indent > 0);
    let next = |one: &usize, other: &usize| one + 1 == *other && is_plain(one) && is_plain(other);
    let groups = run.chunk_by(next).filter(|group| group.len() > 1);
    groups.map(<[usize]>::to_vec).collect()
}

/// The column that most values of a group stand in; nothing where none does.
fn usual(group: &[usize], taken: &BTreeMap<Place, usize>) -> Option<usize> {
    let mut counts: BTreeMap<usize, usize> = BTreeMap::new();
    for column in group.iter().filter_map(|line| taken.get(&(*line, 1))) {
        *counts.entry(*column).or_default() += 1;
    }
    counts.into_iter().rev().max_by_key(|(_, count)| *count).map(|(column, _)| column)
}

/// Values that stand in no column, each below the other.
fn stand_alone(lines: &mut [Line], group: &[usize]) {
    let word = |lines: &[Line], line: usize| lines.get(line).map_or(0, |line| line.width(1));
    let longest = group.iter().map(|line| word(lines, *line)).max().unwrap_or(0);
    for line in group {
        let gap = longest + 1 - word(lines, *line);
        if let Some(piece) = lines.get_mut(*line).and_then(|line| line.pieces.get_mut(1)) {
            piece.gap = gap;
        }
    }
}

/// Puts the other values of a group into the column of most, as far as their
/// words leave room: it does not move for them.
fn join(
    lines: &[Line],
    group: &[usize],
    column: usize,
    columns: &mut BTreeMap<usize, Vec<Place>>,
    gaps: &mut BTreeMap<usize, usize>,
    taken: &mut BTreeMap<Place, usize>,
) {
    let Some(places) = columns.get_mut(&column) else { return };
    // Where a block stands behind a name depends on the columns before it.
    if places.iter().any(|(_, piece)| *piece > 1) {
        return;
    }
    let word = |line: usize| lines.get(line).map_or(0, |line| line.width(1));
    let longest = places.iter().map(|(line, _)| word(*line)).max().unwrap_or(0);
    let gap = gaps.entry(column).or_insert(1);
    let target = longest + *gap;
    for line in group.iter().copied().filter(|line| word(*line) < target) {
        if let Entry::Vacant(free) = taken.entry((line, 1)) {
            free.insert(column);
            places.push((line, 1));
            *gap = (*gap).min(target - word(line));
        }
    }
}

fn column(lines: &[Line], (line, piece): Place) -> usize {
    lines.get(line).and_then(|line| line.pieces.get(piece)).map_or(0, |piece| piece.column)
}

fn stood(lines: &[Line], (line, piece): Place) -> usize {
    lines.get(line).and_then(|line| line.pieces.get(piece)).map_or(0, |piece| piece.stood)
}

/// Of the columns in `from..to`, the one nearest to where a piece stood.
fn nearest<T>(columns: &BTreeMap<usize, T>, stood: usize, from: usize, to: usize) -> Option<usize> {
    let at = stood.max(from);
    let left = (from < at.min(to)).then(|| columns.range(from..at.min(to)).next_back());
    let right = (at < to).then(|| columns.range(at..to).next());
    let both = [left.flatten(), right.flatten()];
    both.into_iter().flatten().map(|(column, _)| *column).min_by_key(|it| it.abs_diff(stood))
}

/// Aligns the trailing comments of lines that follow each other.
pub(super) fn comments(lines: &mut [Line]) {
    for run in lines.chunk_by_mut(|one, next| one.comment.is_some() && next.comment.is_some()) {
        let longest = run.iter().map(Line::code_width).max().unwrap_or(0);
        let room = longest + BEFORE_COMMENT;
        let mut stood: BTreeMap<usize, usize> = BTreeMap::new();
        for comment in run.iter().filter_map(|line| line.comment.as_ref()) {
            *stood.entry(comment.stood).or_default() += 1;
        }
        // Where most of them stood; of equals the leftmost.
        let usual = stood.iter().rev().max_by_key(|(_, count)| **count).map(|(at, _)| *at);
        let usual = usual.filter(|at| (room..=FURTHEST).contains(at)).unwrap_or(room);
        for comment in run.iter_mut().filter_map(|line| line.comment.as_mut()) {
            comment.column = usual;
        }
    }
}
