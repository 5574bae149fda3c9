//! What all formats for people say, in order.

use crate::revision::comparison::Comparison;
use crate::revision::difference::{Difference, Revision, Verdict};
use crate::revision::sections::{Entry, SECTIONS, Section};
use crate::revision::two_sided::Pair;

/// A difference in words.
#[derive(Debug)]
pub(super) struct Report {
    /// The job and its revisions.
    pub(super) title: String,
    /// What was compared with what.
    pub(super) sides: String,
    /// What it comes to.
    pub(super) summary: Vec<String>,
    /// The errors of the sides that have some.
    pub(super) faults: Vec<Entry>,
    /// The sections that have entries.
    pub(super) sections: Vec<(&'static Section, Vec<Entry>)>,
}

/// What is said of a piece, whatever became of it.
pub(super) fn of(comparison: &Comparison) -> Report {
    match comparison {
        Comparison::Both(difference) => report(difference),
        Comparison::New(side) => alone(side, "is new", "to make", Tense::Now),
        Comparison::Gone(side) => alone(side, "is gone", "no longer needed", Tense::Then),
    }
}

/// A piece that only one side has.
fn alone(side: &Revision, is: &str, parts: &str, tense: Tense) -> Report {
    let title = match (&side.job, &side.revision) {
        (Some(job), Some(revision)) => format!("{job}: revision {revision}"),
        _ => "A piece".to_owned(),
    };
    let summary = side.parts.map(|count| {
        let plural = if count == 1 { "part" } else { "parts" };
        let cut = match side.cut {
            None | Some(0) => String::new(),
            Some(cut) => format!(", {cut} of them already cut"),
        };
        format!("{count} {plural} {parts}{cut}.")
    });
    Report {
        title,
        sides: format!("{} {is}", side.name),
        summary: summary.into_iter().collect(),
        faults: faults(side, tense).into_iter().collect(),
        sections: Vec::new(),
    }
}

pub(super) fn report(difference: &Difference) -> Report {
    let Pair { was, now } = &difference.sides;
    let sections = SECTIONS
        .iter()
        .map(|section| (section, (section.entries)(difference)))
        .filter(|(_, entries)| !entries.is_empty());
    // The name says which side it is, unless both have the same.
    let tense = if was.name == now.name { Tense::Then } else { Tense::Now };
    Report {
        title: title(was, now),
        // Of many specs each is only named.
        sides: match was.name == now.name {
            true => now.name.clone(),
            false => format!("{} → {}", was.name, now.name),
        },
        summary: summary(difference),
        faults: [faults(was, tense), faults(now, Tense::Now)].into_iter().flatten().collect(),
        sections: sections.collect(),
    }
}

fn title(was: &Revision, now: &Revision) -> String {
    let two = |was: &Option<String>, now: &Option<String>| match (was, now) {
        (Some(was), Some(now)) if was != now => format!("{was} → {now}"),
        (_, Some(one)) | (Some(one), None) => one.clone(),
        (None, None) => String::new(),
    };
    let (job, revision) = (two(&was.job, &now.job), two(&was.revision, &now.revision));
    match (job.is_empty(), revision.is_empty()) {
        (true, _) => "Two revisions".to_owned(),
        (false, true) => job,
        (false, false) => format!("{job}: revision {revision}"),
    }
}

fn summary(difference: &Difference) -> Vec<String> {
    let Pair { was, now } = &difference.sides;
    let mut lines = Vec::new();
    if let (Some(was), Some(now)) = (&was.measure, &now.measure)
        && was != now
    {
        lines.push(format!("The earlier revision is in {was}, and the later one is in {now}. The figures here are in {now}."));
    }
    match difference.verdict() {
        Verdict::Nothing => lines.push("Nothing changes in the shop.".to_owned()),
        Verdict::Something => lines.push(counts(difference)),
        Verdict::Untold => {
            let compared = difference.compared;
            lines.push(match (compared.openings, compared.parts) {
                (false, _) => "Only findings can be compared.".to_owned(),
                (true, false) => "Parts and papers can't be compared.".to_owned(),
                (true, true) => format!("Papers can't be compared. {}", counts(difference)),
            });
        }
    }
    lines
}

fn counts(difference: &Difference) -> String {
    let parts = &difference.parts;
    let remade: Vec<_> = parts.changed.iter().filter(|change| change.is_remade()).collect();
    let on_bench = remade.iter().filter(|change| change.now.cut.is_some()).count();
    let known = difference.sides.now.cut.filter(|cut| *cut > 0);
    let remake = match (known, on_bench) {
        (None, _) => "to make again".to_owned(),
        (_, 0) => "changed and not cut yet".to_owned(),
        (_, cut) if cut == remade.len() => "changed and already cut".to_owned(),
        (_, cut) => format!("changed, {cut} of them already cut"),
    };
    let remade = remade.len();
    let all = [
        (remade, remake.as_str()),
        (parts.changed.len() - remade, "to rework"),
        (parts.added.len(), "new"),
        (parts.dropped.len(), "no longer needed"),
        (difference.renamed.marks.len(), "to mark again"),
    ];
    let told: Vec<String> = all
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, what)| format!("{count} {what}"))
        .collect();
    match (told.is_empty(), difference.sides.now.parts) {
        (true, _) => "No part changes.".to_owned(),
        (false, Some(now)) => {
            let cut = known.map_or(String::new(), |cut| format!(", {cut} cut"));
            format!("Parts: {}; {now} in all{cut}.", told.join(", "))
        }
        (false, None) => format!("Parts: {}.", told.join(", ")),
    }
}

/// When a side had its errors.
enum Tense {
    Then,
    Now,
}

fn faults(side: &Revision, tense: Tense) -> Option<Entry> {
    let lines: Vec<String> = side
        .errors
        .iter()
        .map(|fault| format!("{}:{}: {} [{}]", fault.file, fault.line, fault.title, fault.slug))
        .collect();
    let plural = if lines.len() == 1 { "an error" } else { "errors" };
    let head = match tense {
        Tense::Now => format!("{} has {plural} and can't be built", side.name),
        Tense::Then => format!("{} had {plural} and could not be built", side.name),
    };
    (!lines.is_empty()).then_some(Entry { head, lines })
}
