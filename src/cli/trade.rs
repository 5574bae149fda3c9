//! `casewright trade`

use std::fmt::Write as _;

use crate::diagnostics::render::paragraph;
use crate::trade::{LISTINGS, Listing};

use super::args::Trade;
use super::exit::Exit;
use super::terminal::{Terminal, complain_of_name};

/// The widest line of running text.
const WIDE: usize = 76;

pub(super) fn run(trade: &Trade, terminal: &Terminal) -> Exit {
    let all: Vec<Listing> = LISTINGS.iter().map(|listing| listing()).collect();
    let Some(name) = &trade.table else {
        let lines: Vec<String> =
            all.iter().map(|listing| format!("{:<10} {}\n", listing.slug, listing.title)).collect();
        terminal.print(&lines.concat());
        return Exit::Sound;
    };
    if let Some(listing) = all.iter().find(|listing| listing.slug == name) {
        terminal.print(&table(listing));
        return Exit::Sound;
    }
    complain_of_name("no table", name, all.iter().map(|listing| listing.slug));
    Exit::Misused
}

/// Columns under their heads; what does not fit beside them goes below.
fn table(listing: &Listing) -> String {
    let mut text = format!("{}\n\n", listing.title);
    let last = listing.head.len().saturating_sub(1);
    let wide = |column: usize| {
        let cells = listing.rows.iter().filter_map(|row| row.get(column)).map(String::as_str);
        let heads = listing.head.get(column).copied();
        cells.chain(heads).map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..last).map(wide).collect();
    let indent: usize = widths.iter().map(|wide| wide + 2).sum();
    let mut line = |cells: &mut dyn Iterator<Item = &str>| {
        let mut row = String::new();
        for (column, cell) in cells.enumerate() {
            match widths.get(column) {
                Some(wide) => {
                    let _ = write!(row, "{cell:<wide$}  ");
                }
                None => {
                    let wide = WIDE.saturating_sub(indent).max(24);
                    let lines = paragraph(cell, wide, "", "");
                    row.push_str(&lines.join(&format!("\n{}", " ".repeat(indent))));
                }
            }
        }
        text.push_str(row.trim_end());
        text.push('\n');
    };
    line(&mut listing.head.iter().copied());
    for row in &listing.rows {
        line(&mut row.iter().map(String::as_str));
    }
    let _ = writeln!(text, "\n{}\n", paragraph(listing.source, WIDE, "", "").join("\n"));
    let _ = writeln!(text, "For your own figures:\n  {}", listing.own);
    text
}
