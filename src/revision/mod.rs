//! What two revisions of a piece have that is different, as the shop sees it.
//! In: two compilations. Out: a [`Difference`], and its text in every format.
//! Must not know disk, git or terminal.

mod already_cut;
mod assembly;
mod buying;
mod comparison;
mod cut_part;
mod difference;
mod features;
mod findings;
mod hardware;
mod ids;
mod matching;
mod names;
mod openings;
mod part_places;
mod parts;
mod render;
mod sections;
mod setups;
mod side;
mod two_sided;
mod year;

pub use comparison::Comparison;
pub use cut_part::{CutPart, CutState, Need};
pub use difference::{
    Board, Compared, Counted, Cut, Difference, Fault, Finding, GapChange, GapPlace, Joined, Marked,
    OpeningChange, OpeningSize, PaperChange, PartChange, Renamed, Revision, Room, Setting,
    SettingChange, SetupChange, Step, StepChange, Verdict, Weight, WeightChange,
};
pub use render::{SCHEMA, all_html, all_json, all_markdown, all_text, html, json, markdown, text};
pub use sections::{Entry, SECTIONS, Section};
pub use two_sided::{Amount, Changes, Figure, Lists, Pair, Resized, Told};

use crate::papers;
use crate::pipeline::Compilation;
use crate::plans::{Hands, OneByOne, Workings};

use matching::Match;
use names::Names;

/// A revision and what it is called: a file, or a file at a revision of git.
#[derive(Clone, Copy, Debug)]
pub struct Named<'a> {
    /// What it is called.
    pub name: &'a str,
    /// What became of it.
    pub compiled: &'a Compilation,
}

/// Compares two revisions of a piece; what can't be compared is left out, and
/// [`Difference::compared`] says so.
#[must_use]
pub fn compare(was: Named<'_>, now: Named<'_>) -> Difference {
    compare_with(was, now, &OneByOne)
}

/// As [`compare`], with the hands that are there.
#[must_use]
pub fn compare_with(was: Named<'_>, now: Named<'_>, hands: &impl Hands) -> Difference {
    let sides = Pair { was: side::told(was), now: side::told(now) };
    let mut difference = Difference::empty(sides);
    let (Some(old), Some(new)) = (&was.compiled.piece, &now.compiled.piece) else {
        let names = Names::default();
        difference.findings = findings::compare(was.compiled, now.compiled, &names);
        return difference;
    };
    // Both sides are printed by one tape, or the figures could not be compared.
    let tape = *new.tape();
    let (before, after) = ((old, was.compiled.parts.as_ref()), (new, now.compiled.parts.as_ref()));
    let matched = Match::of(before, after);
    let names = Names::of(before, after, &matched);
    difference.compared.openings = true;
    difference.openings = openings::compare(old, new, &matched, tape);
    difference.hardware.extend(hardware::counts(old, new));
    difference.findings = findings::compare(was.compiled, now.compiled, &names);
    difference.renamed = names.told(old, new, &matched);
    let (Some(old_parts), Some(new_parts)) = (before.1, after.1) else {
        return difference;
    };
    difference.compared.parts = true;
    let old = Workings::of(old, old_parts);
    let new = Workings::of(new, new_parts);
    difference.cut = already_cut::compare(&old, &new, &matched, tape);
    difference.parts = parts::compare(&old, &new, &matched, tape);
    let (changed, renamed) = (&difference.parts.changed, &difference.renamed.of);
    difference.renamed.marks = parts::re_marked(&old, &new, &matched, changed, renamed);
    difference.hardware.extend(hardware::screws(&old, &new, tape));
    difference.setups = setups::compare(&old, &new, &matched, tape);
    let (steps, work) = assembly::compare(&old, &new, &matched, &names, tape);
    difference.steps = steps;
    difference.work = work;
    difference.gaps = year::gaps(&old, &new, &matched, tape);
    difference.panels = year::panels(&old, &new, &matched, tape);
    difference.weights = year::weights(&old, &new, &matched);
    if was.compiled.is_sound() && now.compiled.is_sound() {
        difference.compared.papers = true;
        difference.buying = buying::compare(&old, &new);
        let both = hands
            .both(|| papers::bodies(&old, was.compiled), || papers::bodies(&new, now.compiled));
        let both = both.0.into_iter().zip(both.1);
        difference.papers = papers::PAPERS
            .iter()
            .zip(both)
            .filter(|(_, (old, new))| old != new)
            .map(|(paper, _)| PaperChange { slug: paper.slug, title: paper.title })
            .collect();
    }
    difference
}
