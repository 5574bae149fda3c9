//! Markdown for a pull request, and one self-contained HTML page in the style
//! of the papers.

use std::fmt::Write as _;

use askama::Template;

use crate::papers::{filters, in_markdown};
use crate::revision::difference::Difference;
use crate::revision::sections::Entry;

use super::report::{Report, report};

#[derive(Template)]
#[template(path = "difference.html")]
struct Page<'a> {
    title: String,
    reports: &'a [Report],
}

/// A difference as a page of its own.
#[must_use]
pub fn html(difference: &Difference) -> String {
    in_html(&[report(difference)])
}

pub(super) fn in_html(reports: &[Report]) -> String {
    let title = match reports {
        [report] => format!("What changes · {}", report.title),
        _ => "What changes".to_owned(),
    };
    // Only a template that is at fault can fail, which every test would show.
    Page { title, reports }.render().unwrap_or_default()
}

/// A difference as Markdown.
#[must_use]
pub fn markdown(difference: &Difference) -> String {
    in_marks(&report(difference))
}

pub(super) fn in_marks(report: &Report) -> String {
    let mut text = format!("## {}\n\n", in_markdown(&report.title));
    let _ = writeln!(text, "{}\n", in_markdown(&report.sides));
    for line in &report.summary {
        let _ = writeln!(text, "**{}**\n", in_markdown(line));
    }
    if !report.faults.is_empty() {
        entries(&mut text, "-", &report.faults);
        text.push('\n');
    }
    for (section, own) in &report.sections {
        let _ = writeln!(text, "### {}\n", section.title);
        entries(&mut text, if section.work { "- [ ]" } else { "-" }, own);
        text.push('\n');
    }
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

fn entries(text: &mut String, bullet: &str, entries: &[Entry]) {
    for entry in entries {
        let _ = writeln!(text, "{bullet} {}", in_markdown(&entry.head));
        for line in &entry.lines {
            let _ = writeln!(text, "  - {}", in_markdown(line));
        }
    }
}
