//! The sections of a difference, in the order in which they matter at the
//! bench: first what is cut already and must be made anew.

mod already_cut;
mod assembly;
mod openings;
mod parts;
mod rest;
mod setups;
mod words;
mod year;

use super::difference::Difference;

/// Something that differs, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What.
    pub head: String,
    /// Its particulars.
    pub lines: Vec<String>,
}

impl Entry {
    fn line(head: impl Into<String>) -> Self {
        Self { head: head.into(), lines: Vec::new() }
    }
}

/// A section.
#[derive(Clone, Copy, Debug)]
pub struct Section {
    /// Its name for programs.
    pub slug: &'static str,
    /// Its title.
    pub title: &'static str,
    /// It is work at the bench, to be ticked off.
    pub work: bool,
    /// Its entries; none where nothing differs.
    pub entries: fn(&Difference) -> Vec<Entry>,
}

/// Every section. What to buy comes right behind the wood that is cut already: before
/// that, it is what is decided first.
pub const SECTIONS: &[Section] = &[
    Section { slug: "cut", title: "Wood already cut", work: true, entries: already_cut::work },
    Section { slug: "buying", title: "To buy", work: false, entries: rest::buying },
    Section { slug: "remake", title: "Parts that change", work: true, entries: parts::changed },
    Section { slug: "new-parts", title: "New parts", work: true, entries: parts::added },
    Section {
        slug: "parts-gone",
        title: "Parts no longer needed",
        work: true,
        entries: parts::dropped,
    },
    Section { slug: "renamed", title: "Only renamed", work: true, entries: parts::renamed },
    Section { slug: "record", title: "Recorded since", work: false, entries: already_cut::record },
    Section { slug: "openings", title: "Openings", work: false, entries: openings::entries },
    Section { slug: "hardware", title: "Hardware", work: false, entries: rest::hardware },
    Section { slug: "set-ups", title: "Router set-ups", work: true, entries: setups::entries },
    Section { slug: "assembly", title: "Assembly", work: false, entries: assembly::entries },
    Section { slug: "gaps", title: "Gaps through the year", work: false, entries: year::gaps },
    Section { slug: "weights", title: "Weights", work: false, entries: year::weights },
    Section { slug: "findings", title: "Findings", work: false, entries: rest::findings },
    Section { slug: "papers", title: "Papers to print again", work: false, entries: rest::papers },
];
