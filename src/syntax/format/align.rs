//! Values and trailing comments that stand in a column.
//!
//! A column is taken from the source: where values stood below each other, and
//! not by chance, they do so again. Written twice a text gives the same bytes,
//! since whatever is put into a column stands in one when it is read again.

use std::collections::BTreeMap;

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
            Some(Kind::Statements) => run.push(at),
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
    let gaps: BTreeMap<usize, usize> = columns
        .iter()
        .map(|(column, places)| {
            let least = places.iter().map(|place| stood(lines, *place)).min().unwrap_or(1);
            (*column, least.clamp(1, WIDEST_GAP))
        })
        .collect();
    // What an edit has pushed out of its column goes back.
    let strays: Vec<Place> = rest.into_values().flatten().filter(spaced).collect();
    for place in strays {
        if let Some(nearest) = nearest(lines, &columns, place)
            && let Some(places) = columns.get_mut(&nearest)
        {
            places.push(place);
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

fn column(lines: &[Line], (line, piece): Place) -> usize {
    lines.get(line).and_then(|line| line.pieces.get(piece)).map_or(0, |piece| piece.column)
}

fn stood(lines: &[Line], (line, piece): Place) -> usize {
    lines.get(line).and_then(|line| line.pieces.get(piece)).map_or(0, |piece| piece.stood)
}

/// The column nearest to where a piece stood, on its own side of the other
/// piece of its line.
fn nearest(lines: &[Line], columns: &BTreeMap<usize, Vec<Place>>, place: Place) -> Option<usize> {
    let other = if place.1 == 1 { (place.0, 2) } else { (place.0, 1) };
    let taken = columns.iter().find(|(_, places)| places.contains(&other)).map(|(at, _)| *at);
    let own = column(lines, place);
    let fits = |at: &usize| match taken {
        None => true,
        Some(taken) if place.1 == 1 => *at < taken,
        Some(taken) => *at > taken,
    };
    columns.keys().copied().filter(fits).min_by_key(|at| (at.abs_diff(own), *at))
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
