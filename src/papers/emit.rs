//! The formats: plain text, Markdown and one self-contained HTML page.

use std::fmt::Write as _;

use askama::Template;
use unicode_width::UnicodeWidthStr as _;

use crate::diagnostics::render::plain;

use super::page::{Align, Block, Page, Table};

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
        Ok(visible(text))
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

/// What a spec says, on one line and in letters that can be seen: marks that
/// turn the order of letters act in a browser as they do on a terminal.
pub(crate) fn visible(text: &str) -> String {
    plain(&text.replace(['\n', '\r'], " "))
}

/// Escapes HTML and sets `26-1/2` as a whole number with a built-up fraction;
/// the mark of a rounded figure becomes a raised ≈.
fn in_html(text: &str) -> String {
    let mut out = String::with_capacity(text.len() * 2);
    let chars: Vec<char> = visible(text).chars().collect();
    let mut at = 0;
    while let Some(c) = chars.get(at).copied() {
        let fresh = at == 0 || !(chars[at - 1].is_ascii_alphanumeric() || chars[at - 1] == '.');
        if c.is_ascii_digit() && fresh {
            let run = |from: usize| chars[from..].iter().take_while(|c| c.is_ascii_digit()).count();
            let first = run(at);
            let digits =
                |from: usize, len: usize| chars[from..from + len].iter().collect::<String>();
            let is = |at: usize, c: char| chars.get(at) == Some(&c);
            // A whole number, a hyphen and a fraction; or a fraction alone.
            let (whole, numer_at) = if is(at + first, '-')
                && is(at + first + 1 + run_or(&chars, at + first + 1), '/')
            {
                (digits(at, first), at + first + 1)
            } else {
                (String::new(), at)
            };
            let numer = run(numer_at);
            if numer > 0 && is(numer_at + numer, '/') {
                let denom_at = numer_at + numer + 1;
                let denom = run_or(&chars, denom_at);
                if denom > 0 {
                    let _ = write!(
                        out,
                        "{whole}<span class=\"fr\"><sup>{}</sup>&frasl;<sub>{}</sub></span>",
                        digits(numer_at, numer),
                        digits(denom_at, denom)
                    );
                    at = denom_at + denom;
                    at += rounded(&mut out, &chars, at);
                    continue;
                }
            }
            let places = if is(at + first, '.') { run_or(&chars, at + first + 1) } else { 0 };
            let first = if places > 0 { first + 1 + places } else { first };
            out.push_str(&digits(at, first));
            at += first;
            at += rounded(&mut out, &chars, at);
            continue;
        }
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
        at += 1;
    }
    out
}

fn run_or(chars: &[char], from: usize) -> usize {
    chars.iter().skip(from).take_while(|c| c.is_ascii_digit()).count()
}

fn rounded(out: &mut String, chars: &[char], at: usize) -> usize {
    if chars.get(at) == Some(&'~') {
        out.push_str("<sup class=\"ro\">≈</sup>");
        return 1;
    }
    0
}

fn plain_table(table: &Table) -> String {
    let cells: Vec<Vec<String>> =
        table.rows.iter().map(|row| row.iter().map(|cell| visible(cell)).collect()).collect();
    let columns = table.columns.len();
    let width = |column: usize| {
        let head = table.columns.get(column).map_or(0, |c| c.head.width());
        cells
            .iter()
            .filter_map(|row| row.get(column))
            .map(|cell| cell.width())
            .max()
            .unwrap_or(0)
            .max(head)
    };
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut text = String::new();
    let mut line = |tick: &str, row: &[String]| {
        let mut line = format!("  {tick}");
        for (column, cell) in row.iter().enumerate() {
            let pad = widths.get(column).copied().unwrap_or(0).saturating_sub(cell.width());
            let pad = " ".repeat(pad);
            let align = table.columns.get(column).map_or(Align::Left, |c| c.align);
            let _ = match align {
                Align::Left => write!(line, "  {cell}{pad}"),
                Align::Right => write!(line, "  {pad}{cell}"),
            };
        }
        text.push_str(line.trim_end());
        text.push('\n');
    };
    let heads: Vec<String> = table.columns.iter().map(|c| c.head.to_owned()).collect();
    line("   ", &heads);
    for (index, row) in cells.iter().enumerate() {
        line(if table.is_ticked(&index) { "[x]" } else { "[ ]" }, row);
    }
    text
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
