//! Wood that is cut already, in words: what must be made again, what is
//! trimmed, what came since.

use crate::revision::cut_part::{CutPart, CutState, Need};
use crate::revision::difference::Difference;

use super::Entry;
use super::words::{count, grouped};

/// What is to be done to the wood on the bench.
pub(super) fn work(difference: &Difference) -> Vec<Entry> {
    entries(difference, |said| said <= Said::Worked)
}

/// What the shop has written down meanwhile, and asks for nothing.
pub(super) fn record(difference: &Difference) -> Vec<Entry> {
    entries(difference, |said| said > Said::Worked)
}

fn entries(difference: &Difference, wanted: impl Fn(Said) -> bool) -> Vec<Entry> {
    let cut = &difference.cut;
    let both = cut.changed.iter().map(|pair| (Some(&pair.was), Some(&pair.now)));
    let added = cut.added.iter().map(|now| (None, Some(now)));
    let dropped = cut.dropped.iter().map(|was| (Some(was), None));
    let mut told: Vec<(Said, &CutPart)> =
        both.chain(added).chain(dropped).filter_map(|(was, now)| said(was, now)).collect();
    told.retain(|(said, _)| wanted(*said));
    told.sort_by_key(|(said, _)| *said);
    grouped(told.into_iter()).into_iter().map(|(said, own)| entry(said, &own)).collect()
}

/// What is said of a part, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Said {
    Again,
    Spoiled,
    Gone,
    OldName,
    Worked,
    Fits,
    Since,
    Struck,
}

fn said<'a>(was: Option<&'a CutPart>, now: Option<&'a CutPart>) -> Option<(Said, &'a CutPart)> {
    let Some(now) = now else { return Some((Said::Struck, was?)) };
    let said = match now.state {
        CutState::Spoiled => Said::Spoiled,
        CutState::ForNothing => Said::Gone,
        CutState::OldName => Said::OldName,
        CutState::Cut if now.needs.iter().any(Need::is_anew) => Said::Again,
        CutState::Cut if !now.needs.is_empty() => Said::Worked,
        CutState::Cut => match was {
            Some(was) if was.state == CutState::Cut && !was.needs.is_empty() => Said::Fits,
            _ => Said::Since,
        },
    };
    Some((said, now))
}

fn entry(said: Said, own: &[&CutPart]) -> Entry {
    let parts = count(own.len(), "part");
    let head = match said {
        Said::Again => format!("{parts} already cut, to make again"),
        Said::Spoiled => format!("{parts} spoiled, to cut again"),
        Said::Gone => format!("{parts} already cut, no longer in the drawing"),
        Said::OldName => {
            format!("{parts} already cut, to record under the new name of each")
        }
        Said::Worked => format!("{parts} already cut, to trim or rework"),
        Said::Fits => format!("{parts} already cut, fitting again without work"),
        Said::Since => format!("{parts} cut since"),
        Said::Struck => format!("{parts} no longer recorded as cut"),
    };
    match said {
        Said::Again | Said::Worked => {
            let lines = grouped(own.iter().map(|part| (needs(part), *part)));
            let line = |(needs, own): (String, Vec<&CutPart>)| format!("{}: {needs}", names(&own));
            Entry { head, lines: lines.into_iter().map(line).collect() }
        }
        Said::OldName => {
            let line = |part: &&CutPart| format!("{} is {} ({})", part.path, part.mark, part.name);
            Entry { head, lines: own.iter().map(line).collect() }
        }
        Said::Spoiled | Said::Gone | Said::Fits | Said::Since | Said::Struck => {
            Entry::line(format!("{head}: {}", names(own)))
        }
    }
}

/// `B (bottom), K (back)`: the mark is enough where there are many.
fn names(own: &[&CutPart]) -> String {
    let few = own.len() <= 2;
    let name = |part: &&CutPart| match part.mark.is_empty() {
        true => part.name.clone(),
        false if few => format!("{} ({})", part.mark, part.name),
        false => part.mark.clone(),
    };
    own.iter().map(name).collect::<Vec<_>>().join(", ")
}

/// `cut 64-5/16 long, trim it to 63-13/16; cut 1 more joint or bore into it`
fn needs(part: &CutPart) -> String {
    let one = |need: &Need| match need {
        Need::Stock { cut: Some(cut), wanted: Some(wanted) } if cut != wanted => {
            format!("cut from {cut}, but the drawing wants {wanted}")
        }
        Need::Stock { wanted, .. } => {
            format!(
                "cut from another sheet than {}",
                wanted.as_deref().unwrap_or("the drawing wants")
            )
        }
        Need::Larger { size, cut, wanted } => {
            format!("cut {} {}, but the drawing wants {}", cut.text, word(size), wanted.text)
        }
        Need::Smaller { size, cut, wanted, off } => {
            let off: Vec<String> =
                off.iter().map(|off| format!("{} off the {}", off.by.text, off.side)).collect();
            let off = if off.is_empty() { String::new() } else { format!(" ({})", off.join(", ")) };
            format!("cut {} {}; trim it to {}{off}", cut.text, word(size), wanted.text)
        }
        Need::Joint { joint, how, cut, wanted: Some(wanted) } => {
            let cut = sized(how, &cut.text);
            format!("{joint} made {cut}, but the drawing wants {}", wanted.text)
        }
        Need::Joint { joint, how, cut, wanted: None } => {
            format!(
                "{joint} made {}, but the drawing no longer has one there",
                sized(how, &cut.text)
            )
        }
        Need::Joints { which: Some(which), larger: Some(larger), .. } => {
            format!("still to cut: {which}; to make larger: {larger}")
        }
        Need::Joints { which: Some(which), .. } => format!("still to cut: {which}"),
        Need::Joints { larger: Some(larger), .. } => format!("to make larger: {larger}"),
        Need::Joints { more: 1, .. } => "cut 1 more joint or bore".to_owned(),
        Need::Joints { more, .. } => format!("cut {more} more joints or bores"),
    };
    let mut told: Vec<String> = Vec::new();
    // Into a board that is to be made again nothing is cut.
    let again = part.needs.iter().any(Need::is_anew);
    for need in part.needs.iter().filter(|need| !again || need.is_anew()).map(one) {
        if !told.contains(&need) {
            told.push(need);
        }
    }
    told.join("; ")
}

/// `at 17-3/16`, `1/4 wide`
fn sized(how: &str, figure: &str) -> String {
    if how == "at" { format!("at {figure}") } else { format!("{figure} {how}") }
}

fn word(size: &str) -> &str {
    match size {
        "length" => "long",
        "width" => "wide",
        _ => "thick",
    }
}
