//! The formats: plain text, Markdown and one self-contained HTML page.

use std::borrow::Cow;

use askama::Template;
use unicode_width::UnicodeWidthStr as _;

use crate::diagnostics::render::paragraph;

use super::page::{Align, Block, Page, Table};
use super::visible::visible;

#[derive(Template)]
#[template(path = "page.html")]
struct Html<'a> {
    page: &'a Page,
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
    Html { page }.render().unwrap_or_default()
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
    use crate::papers::markdown::in_markdown;

    use super::{Table, in_html, plain_table, visible};

    /// In letters that can be seen: for plain text, and for HTML that the
    /// template escapes.
    #[askama::filter_fn]
    pub(crate) fn shown(text: &str, _: &dyn askama::Values) -> askama::Result<String> {
        Ok(visible(text).into_owned())
    }

    /// Escaped for HTML, fractions set as a maker reads them.
    #[askama::filter_fn]
    pub(crate) fn figures(text: &str, _: &dyn askama::Values) -> askama::Result<String> {
        Ok(in_html(text))
    }

    /// Safe inside a Markdown paragraph or table cell.
    #[askama::filter_fn]
    pub(crate) fn mark(text: &str, _: &dyn askama::Values) -> askama::Result<String> {
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

/// Escapes HTML and sets `26-1/2` as a whole number with a built-up fraction;
/// the mark of a rounded figure becomes a raised ≈.
fn in_html(text: &str) -> String {
    let text = visible(text);
    let bytes = text.as_bytes();
    let mut out = String::with_capacity(text.len() * 2);
    // Runs of letters that stand for themselves are copied whole.
    let (mut copied, mut at) = (0, 0);
    while let Some(byte) = bytes.get(at) {
        let before = at.checked_sub(1).map_or(b' ', |before| bytes[before]);
        let fresh = !(before.is_ascii_alphanumeric() || before == b'.');
        if byte.is_ascii_digit() && fresh {
            out.push_str(&text[copied..at]);
            at = figure(&mut out, &text, at);
            copied = at;
            continue;
        }
        let escaped = match byte {
            b'&' => "&amp;",
            b'<' => "&lt;",
            b'>' => "&gt;",
            b'"' => "&quot;",
            b'\'' => "&#39;",
            _ => "",
        };
        at += 1;
        if !escaped.is_empty() {
            out.push_str(&text[copied..at - 1]);
            out.push_str(escaped);
            copied = at;
        }
    }
    out.push_str(&text[copied..]);
    out
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
        if numer.start > at {
            out.push_str(&text[at..whole]);
        }
        for piece in [
            "<span class=\"fr\"><sup>",
            &text[numer],
            "</sup>&frasl;<sub>",
            &text[denom.clone()],
            "</sub></span>",
        ] {
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
    let rows: Vec<Vec<Vec<Cow<'_, str>>>> = table
        .rows
        .iter()
        .map(|row| {
            let cells = row.iter().enumerate();
            cells.map(|(column, cell)| lines(cell, column < last)).collect()
        })
        .collect();
    let mut widths: Vec<usize> = table.columns.iter().map(|column| width(column.head)).collect();
    for row in &rows {
        for (cell, widest) in row.iter().zip(&mut widths) {
            *widest = cell.iter().map(|line| width(line)).fold(*widest, usize::max);
        }
    }
    let mut text = String::new();
    let mut line = |tick: &str, row: &mut dyn Iterator<Item = &str>| {
        text.push_str("  ");
        text.push_str(tick);
        for ((cell, widest), column) in row.zip(&widths).zip(&table.columns) {
            let pad = widest.saturating_sub(width(cell));
            let (before, behind) = match column.align {
                Align::Left => (0, pad),
                Align::Right => (pad, 0),
            };
            text.push_str("  ");
            text.extend(std::iter::repeat_n(' ', before));
            text.push_str(cell);
            text.extend(std::iter::repeat_n(' ', behind));
        }
        text.truncate(text.trim_end().len());
        text.push('\n');
    };
    line("   ", &mut table.columns.iter().map(|column| column.head));
    for (index, row) in rows.iter().enumerate() {
        for at in 0..row.iter().map(Vec::len).max().unwrap_or(1) {
            let tick = match at {
                0 if table.is_ticked(&index) => "[x]",
                0 => "[ ]",
                _ => "   ",
            };
            line(tick, &mut row.iter().map(|cell| cell.get(at).map_or("", Cow::as_ref)));
        }
    }
    text
}

/// The lines of a cell: one, unless it is too wide for a column before others.
fn lines(cell: &str, before_others: bool) -> Vec<Cow<'_, str>> {
    let cell = visible(cell);
    if !before_others || width(&cell) <= WIDEST_CELL {
        return vec![cell];
    }
    paragraph(&cell, WIDEST_CELL, "", "").into_iter().map(Cow::Owned).collect()
}

/// How many columns a text takes.
fn width(text: &str) -> usize {
    if text.is_ascii() { text.len() } else { text.width() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_set_and_markup_is_not_obeyed() {
        assert_eq!(
            in_html("26-1/2 <b>"),
            "26<span class=\"fr\"><sup>1</sup>&frasl;<sub>2</sub></span> &lt;b&gt;"
        );
        assert_eq!(
            in_html("3/4~"),
            "<span class=\"fr\"><sup>3</sup>&frasl;<sub>4</sub></span><sup class=\"ro\">≈</sup>"
        );
        assert_eq!(
            in_html("332.5~ RL-1 2026-03-14"),
            "332.5<sup class=\"ro\">≈</sup> RL-1 2026-03-14"
        );
    }
}
