//! Turns of phrase that the sections share.

use crate::revision::difference::Board;
use crate::revision::two_sided::{Lists, Resized};

/// `1 part`, `3 parts`.
pub(super) fn count(number: usize, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}

/// `1/2 longer and 1/4 narrower`
pub(super) fn grown(resized: &[Resized]) -> String {
    let one = |change: &Resized| {
        let more = change.by.length.is_positive();
        let word = match (change.size, more) {
            ("length", true) => "longer",
            ("length", false) => "shorter",
            ("width" | "wide", true) => "wider",
            ("width" | "wide", false) => "narrower",
            ("high", true) => "higher",
            ("high", false) => "lower",
            ("deep", true) => "deeper",
            ("deep", false) => "shallower",
            ("up", true) => "further up",
            ("up", false) => "further down",
            (_, true) => "thicker",
            (_, false) => "thinner",
        };
        format!("{} {word}", change.by.text.trim_start_matches(['+', '−']))
    };
    resized.iter().map(one).collect::<Vec<_>>().join(" and ")
}

/// `61-3/4 → 62-1/4 long, 4 → 3-3/4 wide`
pub(super) fn sizes(resized: &[Resized]) -> String {
    let one = |change: &Resized| {
        let word = match change.size {
            "length" => "long",
            "width" => "wide",
            "thickness" => "thick",
            other => other,
        };
        format!("{} → {} {word}", change.was.text, change.now.text)
    };
    resized.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// `B (bottom), K (back)`: the mark is enough where there are many.
pub(super) fn marks<'a>(boards: impl Iterator<Item = (&'a Board, Option<&'a str>)>) -> String {
    let boards: Vec<_> = boards.collect();
    let few = boards.len() <= 2;
    let one = |(board, was): &(&Board, Option<&str>)| {
        let was = was.filter(|was| *was != board.mark).map(|was| format!("was {was}"));
        let more: Vec<String> = few.then(|| board.name.clone()).into_iter().chain(was).collect();
        match more.is_empty() {
            true => board.mark.clone(),
            false => format!("{} ({})", board.mark, more.join("; ")),
        }
    };
    boards.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// Things with one key together, in the order in which the keys came.
pub(super) fn grouped<K: PartialEq, T>(items: impl Iterator<Item = (K, T)>) -> Vec<(K, Vec<T>)> {
    let mut groups: Vec<(K, Vec<T>)> = Vec::new();
    for (key, item) in items {
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, own)) => own.push(item),
            None => groups.push((key, vec![item])),
        }
    }
    groups
}

/// `16 from the left end → 17 from the left end` with what both end in once.
pub(super) fn change(was: &str, now: &str) -> String {
    match (was.split_once(" from "), now.split_once(" from ")) {
        (Some((was, a)), Some((now, b))) if a == b => format!("{was} → {now} from {a}"),
        _ => format!("{was} → {now}"),
    }
}

/// Lines that went and came. A list that only grew or shrank is told by what
/// came and went in it.
pub(super) fn told(lines: &Lists<String>) -> Vec<String> {
    let mut added: Vec<&String> = lines.added.iter().collect();
    let mut told = Vec::new();
    let mut dropped = Vec::new();
    for was in &lines.dropped {
        let list = added.iter().enumerate().find_map(|(at, now)| Some((at, in_list(was, now)?)));
        match list {
            Some((at, line)) => {
                added.remove(at);
                told.push(line);
            }
            None => dropped.push(was),
        }
    }
    let (was, now) = match (dropped.is_empty(), added.is_empty()) {
        (false, false) => ("was", "now"),
        _ => ("no longer", "now also"),
    };
    // What stands at one place before and after stands together here.
    let (mut dropped, mut added) = (dropped.into_iter(), added.into_iter());
    loop {
        let pair = (dropped.next(), added.next());
        if pair == (None, None) {
            break;
        }
        if let (Some(was), Some(now)) = pair
            && bare(was) == bare(now)
        {
            told.push(format!("{now}, moved by less than the tape shows"));
            continue;
        }
        told.extend(pair.0.map(|line| format!("{was} {line}")));
        told.extend(pair.1.map(|line| format!("{now} {line}")));
    }
    told
}

/// A line without the marks of what was rounded and measured.
fn bare(line: &str) -> String {
    line.replace(" (m)", "").replace('~', "")
}

/// `packers first: also TR-LPK; no longer UP-LPK`
fn in_list(was: &str, now: &str) -> Option<String> {
    let (head, was) = was.rsplit_once(": ")?;
    let (_, now) = now.rsplit_once(": ").filter(|(other, _)| *other == head)?;
    let (was, now): (Vec<&str>, Vec<&str>) = (was.split(", ").collect(), now.split(", ").collect());
    if was.len().max(now.len()) < 3 {
        return None;
    }
    let only = |own: &[&str], other: &[&str]| -> Vec<String> {
        own.iter().filter(|one| !other.contains(one)).map(|one| (*one).to_owned()).collect()
    };
    let (came, went) = (only(&now, &was), only(&was, &now));
    if came.is_empty() && went.is_empty() {
        return None;
    }
    let mut changes = Vec::new();
    if !came.is_empty() {
        changes.push(format!("also {}", came.join(", ")));
    }
    if !went.is_empty() {
        changes.push(format!("no longer {}", went.join(", ")));
    }
    Some(format!("{head}: {}", changes.join("; ")))
}

/// `left`, `left and top`, `left, top and bottom`
pub(super) fn listed(words: &[&str]) -> String {
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((last, _)) => (*last).to_owned(),
        None => String::new(),
    }
}
