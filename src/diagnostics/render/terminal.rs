//! The page for a person: title, the statements with their figures, the sums,
//! what happens at the bench, and the edits that mend it.

use std::collections::BTreeMap;

use super::snippet::snippet;
use super::visible::visible;
use super::wrap::{columns, fill, terms, words};
use super::{Look, mend};
use crate::diagnostics::{Diagnostic, Sources};

/// Findings of one slug that are drawn in full; the rest is counted.
const MOST_OF_A_KIND: usize = 20;

/// Names of others that the same is true of.
const MOST_ALSO: usize = 6;

/// The column at which the lines under the snippet start, at least.
const HEAD_LEAST: usize = 8;

/// The widest head that others are aligned to.
const HEAD_MOST: usize = 16;

/// The narrowest text under the snippet.
const BODY_LEAST: usize = 24;

/// Every finding as a page of its own, an empty line behind each; of many
/// with one slug only the first, then a count.
#[must_use]
pub fn terminal(sources: &Sources, diagnostics: &[Diagnostic], look: Look) -> String {
    let mut pages: Vec<String> = Vec::new();
    let mut drawn: BTreeMap<&str, usize> = BTreeMap::new();
    for diagnostic in diagnostics {
        let count = drawn.entry(diagnostic.slug).or_default();
        *count += 1;
        if *count <= MOST_OF_A_KIND {
            pages.push(page(sources, diagnostic, look));
        }
    }
    for (slug, count) in drawn {
        if let Some(more @ 1..) = count.checked_sub(MOST_OF_A_KIND) {
            pages
                .push(format!("{more} more findings of {slug}; `--format short` lists them all\n"));
        }
    }
    pages.iter().map(|page| format!("{page}\n")).collect()
}

fn page(sources: &Sources, diagnostic: &Diagnostic, look: Look) -> String {
    let (snippet, left_out) = snippet(sources, diagnostic, look);
    let mut lines = title(diagnostic, look);
    lines.extend(snippet);
    lines.extend(foot(sources, diagnostic, left_out, look));
    lines.push(String::new());
    lines.join("\n")
}

/// `error[sizes-conflict]: bank is 1/32 too tall`.
fn title(diagnostic: &Diagnostic, look: Look) -> Vec<String> {
    let kind = format!("{}[{}]", diagnostic.severity.word(), diagnostic.slug);
    let title = visible(&diagnostic.title, look.unicode);
    let room = look.width.saturating_sub(2).max(BODY_LEAST);
    let first = look.width.saturating_sub(columns(&kind) + 2).max(BODY_LEAST);
    let lines = fill(&words(&title), first, room);
    let mut shown = Vec::with_capacity(lines.len());
    for (i, line) in lines.iter().enumerate() {
        shown.push(match i {
            0 => format!("{}: {}", look.severity(diagnostic.severity, &kind), look.strong(line)),
            _ => format!("  {}", look.strong(line)),
        });
    }
    shown
}

/// A line under the snippet: a head in its own column, then text in pieces
/// that are not broken. Without a head it is a sentence over the whole width.
struct Row {
    head: String,
    pieces: Vec<String>,
}

impl Row {
    fn new(head: impl Into<String>, pieces: Vec<String>) -> Self {
        Self { head: head.into(), pieces }
    }
}

fn foot(sources: &Sources, diagnostic: &Diagnostic, left_out: usize, look: Look) -> Vec<String> {
    let text = |text: &str| words(&visible(text, look.unicode));
    let mut rows: Vec<Row> = Vec::new();
    for sum in &diagnostic.sums {
        let pieces = terms(&visible(&sum.text(), look.unicode));
        rows.push(Row::new(visible(&sum.head, look.unicode), pieces));
    }
    for (head, line) in &diagnostic.working {
        rows.push(Row::new(visible(head, look.unicode), text(line)));
    }
    rows.extend(diagnostic.because.as_deref().map(|because| Row::new("", text(because))));
    rows.extend(diagnostic.notes.iter().map(|note| Row::new("note", text(note))));
    if !diagnostic.also.is_empty() {
        rows.push(Row::new("also", text(&also(&diagnostic.also))));
    }
    if left_out > 0 {
        let more = format!("{left_out} more statements take part, and `--format json` lists them");
        rows.push(Row::new("note", text(&more)));
    }
    let column = 1 + rows
        .iter()
        .map(|row| columns(&row.head))
        .filter(|width| *width <= HEAD_MOST)
        .fold(HEAD_LEAST - 1, usize::max);
    rows.extend(fixes(sources, diagnostic, column, look));
    let slug = format!("casewright explain {}", diagnostic.slug);
    rows.push(Row::new("more", vec![slug]));
    rows.iter().flat_map(|row| lay(row, column, look)).collect()
}

/// The first few of many names.
fn also(names: &[String]) -> String {
    let said = names.get(..MOST_ALSO.min(names.len())).unwrap_or_default().join(", ");
    match names.len().saturating_sub(MOST_ALSO) {
        0 => said,
        more => format!("{said} and {more} more"),
    }
}

/// The ways to mend it: what will stand there, then what that brings about.
fn fixes(sources: &Sources, diagnostic: &Diagnostic, column: usize, look: Look) -> Vec<Row> {
    let home = diagnostic.primary.span.file;
    let ways: Vec<(String, String)> = diagnostic
        .fixes
        .iter()
        .map(|fix| {
            let title = visible(&fix.title, look.unicode).into_owned();
            (mend::describe(sources, fix, home, look), title)
        })
        .collect();
    let room = look.width.saturating_sub(2 + column);
    // Side by side, where all of them fit on a line each.
    let widest = ways.iter().map(|(edit, _)| columns(edit)).max().unwrap_or(0);
    let aligned = ways.iter().all(|(_, title)| widest + 2 + columns(title) <= room);
    ways.into_iter()
        .enumerate()
        .map(|(i, (edit, title))| {
            let pieces = match (edit.is_empty(), title.is_empty()) {
                (true, _) => words(&title),
                (false, true) => vec![edit],
                (false, false) if aligned => {
                    let gap = widest.saturating_sub(columns(&edit)) + 2;
                    vec![format!("{edit}{}{title}", " ".repeat(gap))]
                }
                (false, false) => words(&format!("{edit} ({title})")),
            };
            Row::new(if i == 0 { "mend" } else { "or" }, pieces)
        })
        .collect()
}

fn lay(row: &Row, column: usize, look: Look) -> Vec<String> {
    let head = row.head.as_str();
    if head.is_empty() {
        let room = look.width.saturating_sub(2).max(BODY_LEAST);
        let lines = fill(&row.pieces, room, room);
        return lines.into_iter().map(|line| format!("  {line}")).collect();
    }
    let room = look.width.saturating_sub(2 + column).max(BODY_LEAST);
    // A head that is too long for the column pushes its first line aside.
    let gap = column.saturating_sub(columns(head)).max(1);
    let first = look.width.saturating_sub(2 + columns(head) + gap).max(BODY_LEAST);
    let lines = fill(&row.pieces, first, room);
    let indent = " ".repeat(2 + column);
    let mut shown = Vec::with_capacity(lines.len());
    for (i, line) in lines.iter().enumerate() {
        shown.push(match i {
            0 => format!("  {}{}{line}", look.faint(head), " ".repeat(gap)),
            _ => format!("{indent}{line}"),
        });
    }
    shown
}
