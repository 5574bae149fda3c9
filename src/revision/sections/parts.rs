//! Parts, in words: like changes together.

use crate::revision::difference::{Board, Difference, Joined, Marked, PartChange, Silent};
use crate::revision::two_sided::Lists;

use super::Entry;
use super::words::{self, count, grouped, grown, sizes, told};

/// Parts that are on both sides: what can't be mended first.
pub(super) fn changed(difference: &Difference) -> Vec<Entry> {
    let changes = &difference.parts.changed;
    let remade = changes.iter().filter(|change| change.is_remade());
    let known = difference.sides.now.cut.is_some_and(|cut| cut > 0);
    let with_bench = |mut entry: Entry, own: &[&PartChange]| {
        entry.lines.extend(known.then(|| on_bench(own)));
        entry
    };
    let mut entries: Vec<Entry> = grouped(remade.map(|change| (what(change), change)))
        .into_iter()
        .map(|(what, own)| with_bench(remake(&what, &own), &own))
        .collect();
    let worked = changes.iter().filter(|change| !change.is_remade());
    entries.extend(grouped(worked.map(|change| (particulars(change), change))).into_iter().map(
        |(lines, own)| {
            let parts = count(own.len(), "part");
            let edges_only = |change: &&PartChange| {
                change.edges.is_some() && change.cuts.is_empty() && change.joints.is_empty()
            };
            let what = if own.iter().all(edges_only) { "edges" } else { "cuts or joints" };
            let head = format!("{parts} with other {what}: {}", marks(&own));
            with_bench(Entry { head, lines }, &own)
        },
    ));
    entries
}

/// What happens to a part that must be cut anew.
fn what(change: &PartChange) -> String {
    let (was, now) = (&change.was, &change.now);
    let mut words = Vec::new();
    if change.restocked {
        words.push(match was.stock == now.stock {
            true => format!("made of {} that is now {} (was {})", now.stock, now.wood, was.wood),
            false => format!("made of {} (was {})", now.stock, was.stock),
        });
    }
    if !change.resized.is_empty() {
        words.push(grown(&change.resized));
    }
    if change.turned {
        words.push("with the grain turned".to_owned());
    }
    if words.is_empty() || (change.larger_core && change.resized.is_empty()) {
        words.extend(covered(change));
    }
    words.join(", ")
}

/// `edges bare (was front edge: cherry 1/4)`
fn covered(change: &PartChange) -> Option<String> {
    change.edges.as_ref().map(|edges| format!("edges {} (was {})", edges.now, edges.was))
}

/// Which of these parts the shop has cut; told once it has cut some.
fn on_bench(own: &[&PartChange]) -> String {
    let cut: Vec<&str> = own
        .iter()
        .filter(|change| change.now.cut.is_some())
        .map(|change| change.now.mark.as_str())
        .collect();
    match (cut.len(), own.len()) {
        (0, 1) => "not cut yet".to_owned(),
        (0, _) => "none of them is cut yet".to_owned(),
        (1, 1) => "already cut".to_owned(),
        (all, both) if all == both => "all of them are already cut".to_owned(),
        _ => format!("already cut: {}", cut.join(", ")),
    }
}

fn remake(what: &str, own: &[&PartChange]) -> Entry {
    let head = format!("{} {what}", count(own.len(), "part"));
    let by_size = grouped(own.iter().map(|change| (sizes(&change.resized), *change)));
    let (mut head, mut lines) = match by_size.as_slice() {
        [(size, own)] => {
            let lines = if size.is_empty() { Vec::new() } else { vec![size.clone()] };
            (format!("{head}: {}", marks(own)), lines)
        }
        many => (head, many.iter().map(|(size, own)| format!("{size}: {}", marks(own))).collect()),
    };
    let worked: Vec<&PartChange> = own
        .iter()
        .copied()
        .filter(|change| !change.cuts.is_empty() || !change.joints.is_empty())
        .collect();
    if worked.len() == own.len() && own.len() == 1 {
        head.push_str("; its cuts or joints change too");
    } else if !worked.is_empty() {
        let worked: Vec<&str> = worked.iter().map(|change| change.now.mark.as_str()).collect();
        lines.push(format!("cuts or joints change too: {}", worked.join(", ")));
    }
    Entry { head, lines }
}

fn marks(own: &[&PartChange]) -> String {
    words::marks(own.iter().map(|change| (&change.now, Some(change.was.mark.as_str()))))
}

/// What is cut and joined otherwise, line by line.
fn particulars(change: &PartChange) -> Vec<String> {
    // Whatever else is resized is made anew.
    let mut lines: Vec<String> = change
        .resized
        .iter()
        .map(|size| format!("the sheet is {} thick (was {})", size.now.text, size.was.text))
        .collect();
    lines.extend(covered(change));
    lines.extend(joints(&change.joints));
    lines.extend(told(&change.cuts.lines));
    lines.extend(change.cuts.moved.iter().map(silent));
    lines
}

/// `dado 12 → 12-1/4 long`
fn silent(cut: &Silent) -> String {
    match (cut.size, &cut.was, &cut.now) {
        (Some(size), Some(was), Some(now)) => {
            format!("{} {} → {} {size}", cut.cut, was.text, now.text)
        }
        _ => format!("{} moved; see the papers", cut.cut),
    }
}

fn joints(joints: &Lists<Joined>) -> Vec<String> {
    let how = |list: &[Joined]| {
        let glue = |joint: &Joined| match joint.glued {
            true => joint.how.to_owned(),
            false => format!("{}, no glue", joint.how),
        };
        let all = grouped(list.iter().map(|joint| (glue(joint), ())));
        all.into_iter().map(|(how, _)| how).collect::<Vec<_>>().join("; ")
    };
    let (was, now) = (how(&joints.dropped), how(&joints.added));
    match (was.is_empty(), now.is_empty()) {
        (true, true) => Vec::new(),
        (false, false) => vec![format!("joined by {now} (was {was})")],
        (true, false) => {
            let into: Vec<&str> = joints.added.iter().map(|joint| joint.into.as_str()).collect();
            vec![format!("now also joined to {}: {now}", into.join(", "))]
        }
        (false, true) => {
            let into: Vec<&str> = joints.dropped.iter().map(|joint| joint.into.as_str()).collect();
            vec![format!("no longer joined to {}: {was}", into.join(", "))]
        }
    }
}

pub(super) fn added(difference: &Difference) -> Vec<Entry> {
    boards(&difference.parts.added)
}

pub(super) fn dropped(difference: &Difference) -> Vec<Entry> {
    boards(&difference.parts.dropped)
}

/// Boards stock by stock, those of one size together.
fn boards(boards: &[Board]) -> Vec<Entry> {
    let size = |board: &Board| {
        format!("{} × {} × {}", board.length.text, board.width.text, board.thickness.text)
    };
    grouped(boards.iter().map(|board| (board.stock.as_str(), board)))
        .into_iter()
        .map(|(stock, own)| Entry {
            head: format!("{stock}: {}", count(own.len(), "part")),
            lines: grouped(own.into_iter().map(|board| (size(board), board)))
                .into_iter()
                .map(|(size, own)| {
                    let marks = words::marks(own.into_iter().map(|board| (board, None)));
                    format!("{size}: {marks}")
                })
                .collect(),
        })
        .collect()
}

/// New names, each once, with the marks that follow from it.
pub(super) fn renamed(difference: &Difference) -> Vec<Entry> {
    let renamed = &difference.renamed;
    let mut marks: Vec<_> = renamed.marks.iter().collect();
    let mut entries = Vec::new();
    // From the inside out, each with the marks that belong to no inner one.
    let mut openings: Vec<_> = renamed.openings.iter().enumerate().collect();
    openings.sort_by_key(|(_, opening)| std::cmp::Reverse(opening.was.matches('.').count()));
    for (at, opening) in openings {
        let own;
        (own, marks) = marks.into_iter().partition(|mark| mark.within == Some(at));
        entries.push(Entry {
            head: format!("{} is now called {}", opening.was.short, opening.now.short),
            lines: changes(own),
        });
    }
    for stock in &renamed.stocks {
        entries.push(Entry::line(format!("stock {} is now called {}", stock.was, stock.now)));
    }
    if !marks.is_empty() {
        let lines = changes(marks);
        entries.push(Entry { head: "marks that change because of other names".to_owned(), lines });
    }
    entries
}

fn changes(marks: Vec<&Marked>) -> Vec<String> {
    let all: Vec<String> =
        marks.iter().map(|mark| format!("{} → {}", mark.mark.was, mark.mark.now)).collect();
    if all.is_empty() { Vec::new() } else { vec![all.join(", ")] }
}
