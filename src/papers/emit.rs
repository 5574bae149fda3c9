//! The formats: plain text, Markdown and one self-contained HTML page.

use std::borrow::Cow;
use std::fmt::Write as _;

use askama::Template;
use unicode_width::UnicodeWidthStr as _;

use crate::diagnostics::render::paragraph;

use super::page::{Align, Block, Page, Table};
use super::placed::{Placed, placed};
use super::visible::visible;
use super::{PAPERS, Paper};

#[derive(Template)]
#[template(path = "page.html")]
struct Html<'a> {
    page: &'a Page,
    placed: Vec<Placed<'a>>,
    /// One of them begins the end of the page.
    tailed: bool,
    /// Those that the page leads to.
    papers: &'static [Paper],
}

#[derive(Template)]
#[template(path = "page.md")]
struct Markdown<'a> {
    page: &'a Page,
}

#[derive(Template)]
#[template(path = "page.txt")]
struct Text<'a> {
    page: &'a Page,
}

/// Rendering into a string can't fail but for a template that is at fault,
/// which shows as an empty paper in every test.
pub(super) fn html(page: &Page) -> String {
    let placed = placed(page);
    let tailed = placed.iter().any(|own| own.tail);
    Html { page, placed, tailed, papers: PAPERS }.render().unwrap_or_default()
}

pub(super) fn markdown(page: &Page) -> String {
    Markdown { page }.render().unwrap_or_default()
}

pub(super) fn text(page: &Page) -> String {
    Text { page }.render().unwrap_or_default()
}

/// Filters for the templates.
#[allow(unreachable_pub, reason = "the filter attribute makes items public in this module")]
pub(crate) mod filters {
    use std::borrow::Cow;

    use crate::papers::markdown::in_markdown;

    use super::{Table, at_foot, in_html, plain_table, visible};

    /// In letters that can be seen: for plain text, and for HTML that the
    /// template escapes.
    #[askama::filter_fn]
    pub(crate) fn shown<'a>(text: &'a str, _: &dyn askama::Values) -> askama::Result<Cow<'a, str>> {
        Ok(visible(text))
    }

    /// Escaped for HTML, fractions set as a maker reads them.
    #[askama::filter_fn]
    pub(crate) fn figures<'a>(
        text: &'a str,
        _: &dyn askama::Values,
    ) -> askama::Result<Cow<'a, str>> {
        Ok(in_html(text))
    }

    /// What the foot of every printed sheet repeats, as the inside of a text in
    /// quotes of a style sheet.
    #[askama::filter_fn]
    pub(crate) fn foot(text: &str, _: &dyn askama::Values) -> askama::Result<String> {
        Ok(at_foot(text))
    }

    /// Safe inside a Markdown paragraph or table cell.
    #[askama::filter_fn]
    pub(crate) fn mark<'a>(text: &'a str, _: &dyn askama::Values) -> askama::Result<Cow<'a, str>> {
        Ok(in_markdown(text))
    }

    /// A table in columns of plain text.
    #[askama::filter_fn]
    pub(in crate::papers) fn columns(
        table: &Table,
        _: &dyn askama::Values,
    ) -> askama::Result<String> {
        Ok(plain_table(table))
    }
}

/// The bytes that [`in_html`] looks at: the rest stand for themselves, and a
/// paper is made of them.
const LOOKED_AT: [bool; 256] = {
    let mut looked_at = [false; 256];
    let mut at = 0;
    while at < looked_at.len() {
        looked_at[at] = matches!(at as u8, b'0'..=b'9' | b'&' | b'<' | b'>' | b'"' | b'\'');
        at += 1;
    }
    looked_at
};

/// The most letters of a name that the foot of a sheet has room for.
const FOOT: usize = 60;

/// A name for the foot of a sheet. A letter that could end the text, the style
/// sheet or the element around it is written as its number (CSS Syntax, 4.3.7).
fn at_foot(text: &str) -> String {
    let text = visible(text);
    let mut out = String::with_capacity(text.len());
    for (at, c) in text.chars().enumerate() {
        if at == FOOT {
            out.push('…');
            break;
        }
        match c {
            ' ' | '.' | ',' | '-' | '/' => out.push(c),
            c if c.is_alphanumeric() => out.push(c),
            c => {
                let _ = write!(out, "\\{:x} ", u32::from(c));
            }
        }
    }
    out
}

/// Escapes HTML and sets `26-1/2` as a whole number with a built-up fraction,
/// which is the text `26 1/2`;
/// the mark of a rounded figure becomes a raised ≈.
fn in_html(text: &str) -> Cow<'_, str> {
    let text = visible(text);
    let next = |from: usize| {
        let rest = text.as_bytes().get(from..)?;
        Some(from + rest.iter().position(|byte| LOOKED_AT[usize::from(*byte)])?)
    };
    let Some(mut at) = next(0) else { return text };
    let bytes = text.as_bytes();
    // A figure takes up to 80 bytes more as it is set.
    let figures = bytes.iter().filter(|byte| matches!(byte, b'/' | b'~')).count();
    let mut out = String::with_capacity(text.len() + 32 + 80 * figures);
    let mut copied = 0;
    loop {
        let escaped = match bytes[at] {
            b'&' => "&amp;",
            b'<' => "&lt;",
            b'>' => "&gt;",
            b'"' => "&quot;",
            b'\'' => "&#39;",
            _ => "",
        };
        if escaped.is_empty() {
            let before = at.checked_sub(1).map_or(b' ', |before| bytes[before]);
            if before.is_ascii_alphanumeric() || before == b'.' {
                at += 1;
            } else {
                out.push_str(&text[copied..at]);
                at = figure(&mut out, &text, at);
                copied = at;
            }
        } else {
            out.push_str(&text[copied..at]);
            out.push_str(escaped);
            at += 1;
            copied = at;
        }
        match next(at) {
            Some(marked) => at = marked,
            None => break,
        }
    }
    out.push_str(&text[copied..]);
    Cow::Owned(out)
}

/// Writes the figure that begins at `at`, and says where it ends.
fn figure(out: &mut String, text: &str, at: usize) -> usize {
    let digits = |from: usize| {
        let rest = text.as_bytes().get(from..).unwrap_or(&[]);
        from + rest.iter().take_while(|byte| byte.is_ascii_digit()).count()
    };
    let is = |at: usize, sign: u8| text.as_bytes().get(at) == Some(&sign);
    let whole = digits(at);
    // A whole number, a hyphen and a fraction; or a fraction alone.
    let numer = match is(whole, b'-') && is(digits(whole + 1), b'/') {
        true => whole + 1..digits(whole + 1),
        false => at..whole,
    };
    let denom = numer.end + 1..digits(numer.end + 1);
    let mut end = if !numer.is_empty() && is(numer.end, b'/') && !denom.is_empty() {
        // A space between whole and fraction is heard and copied; it is set
        // so narrow that it is hardly seen.
        if numer.start > at {
            out.push_str(&text[at..whole]);
            out.push_str("<span class=\"fr\"> ");
        } else {
            out.push_str("<span class=\"fr\">");
        }
        for piece in ["<sup>", &text[numer], "</sup>/<sub>", &text[denom.clone()], "</sub></span>"]
        {
            out.push_str(piece);
        }
        denom.end
    } else {
        let places = if is(whole, b'.') { digits(whole + 1) } else { whole };
        let end = if places > whole + 1 { places } else { whole };
        out.push_str(&text[at..end]);
        end
    };
    if is(end, b'~') {
        out.push_str("<sup class=\"ro\">≈</sup>");
        end += 1;
    }
    end
}

/// The widest that a cell stands before the last column of plain text. What is
/// longer, the marks of many pieces, goes on below itself; a trim is told in
/// one line.
const WIDEST_CELL: usize = 160;

fn plain_table(table: &Table) -> String {
    let last = table.columns.len().saturating_sub(1);
    let rows: Vec<Vec<Cell<'_>>> = table
        .rows
        .iter()
        .enumerate()
        .map(|(at, row)| {
            let cells = row.iter().enumerate();
            cells
                .map(|(column, cell)| match table.ticks_each(&column) {
                    true => Cell::ticked(cell, table.is_ticked(&at)),
                    false => Cell::of(cell, column < last),
                })
                .collect()
        })
        .collect();
    let mut widths: Vec<usize> = table.columns.iter().map(|column| width(column.head)).collect();
    for row in &rows {
        for (cell, widest) in row.iter().zip(&mut widths) {
            *widest = (*widest).max(cell.wide);
        }
    }
    let whole: usize = widths.iter().map(|wide| wide + 2).sum();
    let mut text = String::with_capacity((rows.len() + 1) * (whole + 6));
    let mut line = |tick: &str, row: &mut dyn Iterator<Item = (&str, usize)>| {
        if table.ticks_rows() {
            text.push_str("  ");
            text.push_str(tick);
        }
        for (((cell, wide), widest), column) in row.zip(&widths).zip(&table.columns) {
            let pad = widest.saturating_sub(wide);
            let (before, behind) = match column.align {
                Align::Left => (0, pad),
                Align::Right => (pad, 0),
            };
            text.push_str("  ");
            blank(&mut text, before);
            text.push_str(cell);
            blank(&mut text, behind);
        }
        text.truncate(text.trim_end().len());
        text.push('\n');
    };
    line("   ", &mut table.columns.iter().map(|column| (column.head, width(column.head))));
    for (index, row) in rows.iter().enumerate() {
        let tick = if table.is_ticked(&index) { "[x]" } else { "[ ]" };
        line(tick, &mut row.iter().map(|cell| (cell.first.as_ref(), cell.first_wide)));
        for at in 0..row.iter().map(|cell| cell.more.len()).max().unwrap_or(0) {
            let more = row.iter().map(|cell| cell.more.get(at).map_or("", String::as_str));
            line("   ", &mut more.map(|line| (line, width(line))));
        }
    }
    text
}

/// A cell of plain text: one line, unless it is too wide for a column before
/// others.
struct Cell<'a> {
    first: Cow<'a, str>,
    first_wide: usize,
    more: Vec<String>,
    /// As wide as its widest line.
    wide: usize,
}

impl<'a> Cell<'a> {
    fn of(cell: &'a str, before_others: bool) -> Self {
        let first = visible(cell);
        let wide = width(&first);
        if !before_others || wide <= WIDEST_CELL {
            return Self { first, first_wide: wide, more: Vec::new(), wide };
        }
        Self::lines(paragraph(&first, WIDEST_CELL, "", ""))
    }

    fn ticked(marks: &str, is_done: bool) -> Self {
        Self::lines(ticked(marks, is_done))
    }

    fn lines(mut more: Vec<String>) -> Self {
        let wide = more.iter().map(|line| width(line)).max().unwrap_or(0);
        let first = if more.is_empty() { String::new() } else { more.remove(0) };
        Self { first_wide: width(&first), first: Cow::Owned(first), more, wide }
    }
}

fn blank(text: &mut String, count: usize) {
    const BLANKS: &str = "                                ";
    let mut left = count;
    while left > 0 {
        let now = left.min(BLANKS.len());
        text.push_str(&BLANKS[..now]);
        left -= now;
    }
}

/// Marks, each behind its own box.
fn ticked(marks: &str, is_done: bool) -> Vec<String> {
    let tick = if is_done { "[x]" } else { "[ ]" };
    let mut lines = vec![String::new()];
    for mark in visible(marks).split_whitespace() {
        if lines.last().is_some_and(|line| width(line) + width(mark) > WIDEST_CELL) {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            let space = if line.is_empty() { "" } else { "  " };
            let _ = write!(line, "{space}{tick} {mark}");
        }
    }
    lines
}

/// How many columns a text takes.
fn width(text: &str) -> usize {
    if text.is_ascii() { text.len() } else { text.width() }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn every_letter_of_a_text_without_figures_is_escaped(text in "[a-zé&<>\"' .;/~-]{0,40}") {
            let escaped: String = text
                .chars()
                .map(|c| match c {
                    '&' => "&amp;".to_owned(),
                    '<' => "&lt;".to_owned(),
                    '>' => "&gt;".to_owned(),
                    '"' => "&quot;".to_owned(),
                    '\'' => "&#39;".to_owned(),
                    c => c.to_string(),
                })
                .collect();
            prop_assert_eq!(in_html(&text), escaped);
        }

        /// Digits and words in turn: each figure is set, wherever it stands.
        #[test]
        fn every_figure_of_a_text_is_set(
            words in prop::collection::vec(("[a-z&]{1,9}", 0u8..99, 1u8..9, 2u8..64), 0..9),
        ) {
            let (mut text, mut set) = (String::new(), String::new());
            for (word, whole, numer, denom) in words {
                text += &format!("{word} {whole}-{numer}/{denom}~; ");
                set += &word.replace('&', "&amp;");
                set += &format!(
                    " {whole}<span class=\"fr\"> <sup>{numer}</sup>/<sub>{denom}</sub></span><sup class=\"ro\">≈</sup>; "
                );
            }
            prop_assert_eq!(in_html(&text), set);
        }
    }

    #[test]
    fn fractions_are_set_and_markup_is_not_obeyed() {
        assert_eq!(
            in_html("26-1/2 <b>"),
            "26<span class=\"fr\"> <sup>1</sup>/<sub>2</sub></span> &lt;b&gt;"
        );
        assert_eq!(
            in_html("3/4~"),
            "<span class=\"fr\"><sup>3</sup>/<sub>4</sub></span><sup class=\"ro\">≈</sup>"
        );
        assert_eq!(
            in_html("332.5~ RL-1 2026-03-14"),
            "332.5<sup class=\"ro\">≈</sup> RL-1 2026-03-14"
        );
    }
}
