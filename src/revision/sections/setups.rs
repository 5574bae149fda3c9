//! Set-ups of the router, in words.

use crate::revision::difference::{Difference, Setting, SetupChange};

use super::Entry;
use super::words::change;

pub(super) fn entries(difference: &Difference) -> Vec<Entry> {
    let setups = &difference.setups;
    let mut entries: Vec<Entry> = setups.changed.iter().map(changed).collect();
    let told = |word: &str, setting: &Setting| {
        Entry::line(format!("{word}: {}: {}", what(setting), setting.pieces.join(", ")))
    };
    entries.extend(setups.added.iter().map(|setting| told("new", setting)));
    entries.extend(setups.dropped.iter().map(|setting| told("gone", setting)));
    entries
}

fn changed(setup: &SetupChange) -> Entry {
    let now = &setup.now;
    let mut lines: Vec<String> = setup
        .set
        .iter()
        .map(|set| format!("{} {}", set.what, change(&set.was, &set.now)))
        .collect();
    let head = match lines.is_empty() {
        true => format!("{}: same setting", what(now)),
        false => format!("{} in {}", now.cut, now.pieces.join(", ")),
    };
    let mut pieces = |word: &str, marks: &[String]| {
        if !marks.is_empty() {
            lines.push(format!("{word}: {}", marks.join(", ")));
        }
    };
    pieces("also in", &setup.pieces.added);
    pieces("no longer in", &setup.pieces.dropped);
    pieces("starts elsewhere in", &setup.begins);
    pieces("already made in", &now.made);
    Entry { head, lines }
}

/// `dado 23/32 wide, 1/4 deep, 4 from the bottom end`
fn what(setting: &Setting) -> String {
    let Setting { cut, bit, fence, datum, deep, wide, lines, .. } = setting;
    let bit = bit.as_ref().map_or(String::new(), |bit| format!(", bit {bit}"));
    if *cut == "flutes" {
        return format!(
            "{lines} flutes {} deep, the first {} from the {datum}{bit}",
            deep.text, fence.text
        );
    }
    let place = match fence.length.is_zero() {
        true => format!("along the {datum}"),
        false => format!("{} from the {datum}", fence.text),
    };
    format!("{cut} {} wide, {} deep, {place}{bit}", wide.text, deep.text)
}
