//! Plain text for a terminal.

use std::fmt::Write as _;

use crate::diagnostics::render::{paragraph, plain};
use crate::revision::difference::Difference;
use crate::revision::sections::Entry;

use super::report::{Report, report};

/// A difference as plain text, wrapped to so many columns.
#[must_use]
pub fn text(difference: &Difference, width: usize) -> String {
    in_text(&report(difference), width)
}

pub(super) fn in_text(report: &Report, width: usize) -> String {
    let mut text = format!("{}\n{}\n", plain(&report.title), plain(&report.sides));
    for line in &report.summary {
        let _ = writeln!(text, "{line}");
    }
    if !report.faults.is_empty() {
        text.push('\n');
        entries(&mut text, &report.faults, width);
    }
    for (section, own) in &report.sections {
        let _ = writeln!(text, "\n== {} ==", section.title);
        entries(&mut text, own, width);
    }
    text
}

fn entries(text: &mut String, entries: &[Entry], width: usize) {
    for entry in entries {
        line(text, "  ", "    ", &entry.head, width);
        for own in &entry.lines {
            line(text, "      ", "        ", own, width);
        }
    }
}

/// A line goes on further in, and breaks between words only: a mark or a
/// figure is never torn.
fn line(text: &mut String, first: &str, rest: &str, line: &str, width: usize) {
    // Both sides of a change stay on one line.
    let bound = plain(line).replace(" → ", "\u{a0}→\u{a0}");
    for wrapped in paragraph(&bound, width, first, rest) {
        text.push_str(wrapped.replace('\u{a0}', " ").trim_end());
        text.push('\n');
    }
}
