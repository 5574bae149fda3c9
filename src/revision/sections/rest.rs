//! What to buy, hardware, findings and papers, in words.

use crate::papers::PAPERS;
use crate::revision::difference::{Difference, Finding};

use super::Entry;

pub(super) fn hardware(difference: &Difference) -> Vec<Entry> {
    let counts = difference.hardware.iter();
    counts
        .map(|count| format!("{} {}: {} → {}", count.what, count.name, count.was, count.now))
        .map(Entry::line)
        .collect()
}

pub(super) fn buying(difference: &Difference) -> Vec<Entry> {
    let buying = &difference.buying;
    let nothing = || "nothing".to_owned();
    let mut entries: Vec<Entry> = buying
        .amounts
        .iter()
        .map(|own| {
            let [was, now] = [&own.was, &own.now].map(|side| side.clone().unwrap_or_else(nothing));
            Entry::line(format!("{}: {was} → {now}", own.what))
        })
        .collect();
    let leads = buying.lead_times.iter().map(|own| {
        let [was, now] = [&own.was, &own.now].map(|side| side.as_deref().unwrap_or("no lead time"));
        Entry::line(format!("lead time of {}: {was} → {now}", own.what))
    });
    entries.extend(leads);
    let total = buying.total.iter();
    entries.extend(total.map(|own| Entry::line(format!("together: {} → {}", own.was, own.now))));
    entries
}

pub(super) fn findings(difference: &Difference) -> Vec<Entry> {
    let findings = &difference.findings;
    // The errors of a side stand at the head.
    let all = |findings: &[Finding], word: &str| -> Vec<Entry> {
        let told = findings.iter().filter(|finding| finding.severity != "error");
        told.map(|finding| entry(word, finding)).collect()
    };
    let mut entries = all(&findings.added, "new");
    entries.extend(all(&findings.dropped, "gone"));
    entries
}

fn entry(word: &str, finding: &Finding) -> Entry {
    let Finding { slug, severity, title, subjects } = finding;
    let also = subjects.get(1..).unwrap_or(&[]);
    let also = if also.is_empty() { String::new() } else { format!("; also {}", also.join(", ")) };
    Entry::line(format!("{word}: {severity}[{slug}]: {title}{also}"))
}

pub(super) fn papers(difference: &Difference) -> Vec<Entry> {
    let titles: Vec<&str> = difference.papers.iter().map(|paper| paper.title).collect();
    match titles.len() {
        0 => Vec::new(),
        all if all == PAPERS.len() => vec![Entry::line("all of them")],
        _ => vec![Entry::line(titles.join(", "))],
    }
}
