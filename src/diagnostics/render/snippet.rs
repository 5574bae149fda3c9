//! The lines of the spec that take part, each label under its statement.
//! miette draws the lines; the frame round them is ours, because one message
//! may show lines that lie far apart or in several files.

use std::fmt;
use std::ops::Range;

use miette::{
    GraphicalReportHandler, LabeledSpan, MietteError, MietteSpanContents, SourceCode, SourceSpan,
    SpanContents,
};

use super::Look;
use super::drawn::Drawn;
use super::visible::visible;
use super::wrap::{columns, fill, words};
use crate::diagnostics::{Diagnostic, Label, Severity, Source, Sources};
use crate::measure::FileId;

/// Labels drawn in one message; the rest is counted.
const MOST_LABELS: usize = 16;

/// The narrowest column a label is broken to.
const LABEL_LEAST: usize = 24;

/// A label on the one line it is drawn on.
struct Spot {
    /// The line, from 1.
    line: usize,
    /// Bytes within the line.
    bytes: Range<usize>,
    text: String,
    primary: bool,
}

/// The labels of one file.
struct Place<'a> {
    file: FileId,
    source: &'a Source,
    spots: Vec<Spot>,
}

impl Spot {
    /// The column at which miette starts the text of the label.
    fn stem(&self, drawn: &Drawn) -> usize {
        (drawn.column(self.bytes.start) + drawn.column(self.bytes.end)) / 2 + 4
    }
}

/// The framed lines of a finding, and how many labels were left out.
pub(super) fn snippet(
    sources: &Sources,
    diagnostic: &Diagnostic,
    look: Look,
) -> (Vec<String>, usize) {
    let (places, left_out) = places(sources, diagnostic, look);
    let digits = places
        .iter()
        .flat_map(|place| &place.spots)
        .map(|spot| spot.line.to_string().len())
        .max()
        .unwrap_or(1);
    let theme = look.theme();
    let chars = &theme.characters;
    let margin = " ".repeat(digits + 2);
    let mut lines = Vec::new();
    for (i, place) in places.iter().enumerate() {
        let corner = if i == 0 { chars.ltop } else { chars.lcross };
        let subject = match (&diagnostic.subject, i) {
            (Some(subject), 0) => format!(" {}", visible(subject, look.unicode)),
            _ => String::new(),
        };
        lines.push(format!(
            "{margin}{corner}{}[{}]{subject}",
            chars.hbar,
            theme.styles.link.style(place.header(look)),
        ));
        for (j, run) in runs(&place.spots).into_iter().enumerate() {
            if j > 0 {
                lines.push(format!("{}{}", " ".repeat(digits), look.ellipsis()));
            }
            lines.extend(rows(place.source, run, digits, diagnostic.severity, look));
        }
    }
    if !places.is_empty() {
        lines.push(format!("{margin}{}{}", chars.lbot, chars.hbar.to_string().repeat(4)));
    }
    (lines, left_out)
}

/// All labels by file, the primary one's file first, each in order of place.
fn places<'a>(
    sources: &'a Sources,
    diagnostic: &Diagnostic,
    look: Look,
) -> (Vec<Place<'a>>, usize) {
    let mut places: Vec<Place<'a>> = Vec::new();
    let labels = std::iter::once((true, &diagnostic.primary))
        .chain(diagnostic.labels.iter().map(|label| (false, label)));
    for (primary, label) in labels.take(MOST_LABELS) {
        let file = label.span.file;
        let Some(source) = sources.get(file) else { continue };
        let spot = spot(source, label, primary, look);
        match places.iter_mut().find(|place| place.file == file) {
            Some(place) => place.add(spot),
            None => places.push(Place { file, source, spots: vec![spot] }),
        }
    }
    if let Some((_, others)) = places.split_first_mut() {
        others.sort_by_key(|place| place.file);
    }
    for place in &mut places {
        place.part();
    }
    (places, (diagnostic.labels.len() + 1).saturating_sub(MOST_LABELS))
}

impl Place<'_> {
    /// `hall-console.case:96:25`, where the primary label stands, else the first.
    fn header(&self, look: Look) -> String {
        let spot = self.spots.iter().find(|spot| spot.primary).or(self.spots.first());
        let (line, column) = spot.map_or((1, 1), |spot| {
            let before = self.source.line(spot.line).get(..spot.bytes.start).unwrap_or("");
            (spot.line, before.chars().count() + 1)
        });
        format!("{}:{line}:{column}", visible(&self.source.name, look.unicode))
    }

    /// Adds a label; two on the very same words become one.
    fn add(&mut self, spot: Spot) {
        let same = |s: &&mut Spot| s.line == spot.line && s.bytes == spot.bytes;
        let Some(found) = self.spots.iter_mut().find(same) else {
            return self.spots.push(spot);
        };
        found.primary |= spot.primary;
        if found.text.is_empty() {
            found.text = spot.text;
        } else if !spot.text.is_empty() && found.text != spot.text {
            found.text = format!("{}; {}", found.text, spot.text);
        }
    }

    /// Orders the labels and parts those that overlap, so that each underlines
    /// words of its own.
    fn part(&mut self) {
        self.spots.sort_by_key(|spot| (spot.line, spot.bytes.start, spot.bytes.end));
        for i in 1..self.spots.len() {
            let (head, tail) = self.spots.split_at_mut(i);
            let (Some(left), Some(right)) = (head.last_mut(), tail.first_mut()) else { continue };
            if left.line != right.line || right.bytes.start >= left.bytes.end {
                continue;
            }
            if left.bytes.start < right.bytes.start {
                left.bytes.end = right.bytes.start;
            } else {
                right.bytes.start = left.bytes.end;
                right.bytes.end = right.bytes.end.max(left.bytes.end);
            }
        }
    }
}

/// Where a label is drawn: of a label over several lines, the first.
fn spot(source: &Source, label: &Label, primary: bool, look: Look) -> Spot {
    let length = source.text.len();
    let first = floor(&source.text, (label.span.start as usize).min(length));
    let last = (label.span.end as usize).clamp(first, length);
    let line = source.position(u32::try_from(first).unwrap_or(u32::MAX)).line;
    let text = source.line(line);
    let line_start = source.line_start(line);
    let start = first.saturating_sub(line_start).min(text.len());
    let end = if last.saturating_sub(line_start) > text.len() {
        text.trim_end().len().max(start)
    } else {
        ceil(text, last.saturating_sub(line_start))
    };
    Spot { line, bytes: start..end, text: visible(&label.text, look.unicode).into_owned(), primary }
}

fn floor(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

fn ceil(text: &str, mut at: usize) -> usize {
    while at < text.len() && !text.is_char_boundary(at) {
        at += 1;
    }
    at
}

/// Labels whose lines follow each other or leave out one line at most.
fn runs(spots: &[Spot]) -> Vec<&[Spot]> {
    spots.chunk_by(|left, right| right.line <= left.line + 2).collect()
}

/// The drawn lines from the first to the last label of a run.
fn rows(
    source: &Source,
    run: &[Spot],
    digits: usize,
    severity: Severity,
    look: Look,
) -> Vec<String> {
    let (Some(first), Some(last)) = (run.first(), run.last()) else { return Vec::new() };
    let room = look.width.saturating_sub(digits + 4).max(LABEL_LEAST);
    let mut excerpt = Excerpt { text: String::new(), first: first.line, labels: Vec::new() };
    let mut theme = look.theme();
    let styles = look.theme().styles;
    theme.styles.highlights.clear();
    for line in first.line..=last.line {
        let here = || run.iter().filter(move |spot| spot.line == line);
        let drawn = draw(source.line(line), here, room, look);
        let offset = excerpt.text.len();
        for spot in here() {
            let (start, end) = (drawn.place(spot.bytes.start), drawn.place(spot.bytes.end));
            let width = room.saturating_sub(spot.stem(&drawn)).max(LABEL_LEAST);
            let text = fill(&words(&spot.text), width, width).join("\n");
            let text = (!text.is_empty()).then_some(text);
            excerpt.labels.push(LabeledSpan::new(text, offset + start, end.saturating_sub(start)));
            theme.styles.highlights.push(match severity {
                _ if !spot.primary => styles.help,
                Severity::Error => styles.error,
                Severity::Warning => styles.warning,
                Severity::Note => styles.advice,
            });
        }
        excerpt.text.push_str(&drawn.text);
        // An empty line needs something for its label to stand under.
        excerpt.text.push_str(if drawn.text.is_empty() { " \n" } else { "\n" });
    }
    let ltop = theme.characters.ltop;
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_links(false)
        .without_cause_chain()
        .without_syntax_highlighting()
        .with_context_lines(0)
        .with_width(look.width);
    let mut out = String::new();
    if handler.render_report(&mut out, &excerpt).is_err() {
        return Vec::new();
    }
    // miette heads the lines with a title and a frame, and ends with a frame.
    let mut rows: Vec<&str> =
        out.lines().skip_while(|line| !line.trim_start().starts_with(ltop)).skip(1).collect();
    rows.pop();
    let pad = " ".repeat(digits.saturating_sub(last.line.to_string().len()));
    rows.into_iter().map(|row| format!("{pad}{}", row.trim_end())).collect()
}

/// Draws a line so that its labels are in sight and their texts within `room`.
fn draw<'a, I: Iterator<Item = &'a Spot>>(
    line: &str,
    spots: impl Fn() -> I,
    room: usize,
    look: Look,
) -> Drawn {
    let focus = spots().map(|spot| spot.bytes.start).min().unwrap_or(0)
        ..spots().map(|spot| spot.bytes.end).max().unwrap_or(0);
    let drawn = Drawn::new(line, &focus, room, look);
    let reach = |spot: &Spot| spot.stem(&drawn) + columns(&spot.text).min(LABEL_LEAST);
    let over = spots().map(reach).max().unwrap_or(0).saturating_sub(room);
    if over == 0 {
        return drawn;
    }
    // Cut shorter, the line moves left and takes the labels with it.
    Drawn::new(line, &focus, room.saturating_sub(over), look)
}

/// Some lines of a text that follow each other, as miette takes them.
#[derive(Debug)]
struct Excerpt {
    text: String,
    /// The number of the first line, from 1.
    first: usize,
    labels: Vec<LabeledSpan>,
}

impl fmt::Display for Excerpt {
    fn fmt(&self, _: &mut fmt::Formatter<'_>) -> fmt::Result {
        Ok(())
    }
}

impl std::error::Error for Excerpt {}

impl miette::Diagnostic for Excerpt {
    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(self)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.labels.iter().cloned()))
    }
}

impl SourceCode for Excerpt {
    /// Always all of it: what belongs together was chosen before.
    fn read_span<'a>(
        &'a self,
        _: &SourceSpan,
        _: usize,
        _: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let all = SourceSpan::from((0, self.text.len()));
        let (first, count) = (self.first.saturating_sub(1), self.text.lines().count());
        let contents = MietteSpanContents::new(self.text.as_bytes(), all, first, 0, count);
        Ok(Box::new(contents))
    }
}
