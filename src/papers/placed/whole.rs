//! What stays on one sheet as a whole: a set-up with its drawing, table, and check.

use crate::papers::page::{Block, Table};

use super::Placed;

/// How many lines of text a sheet holds, on the shorter of the two sheets: 247 mm
/// between its margins, 5.4 mm to a line, and one for what is counted too high.
const SHEET: usize = 46;
/// How many letters stand in a line.
const LINE: usize = 100;
/// How many quarters of a line a row takes.
const ROW: usize = 5;
/// How many lines stay together without a drawing: what is longer is parted between
/// rows or sentences, lest it leave half a sheet empty.
const PLAIN: usize = 15;

/// The first and the last block of everything that stays on one sheet. What is
/// longer than a sheet stays together as far as its first rows only.
pub(super) fn wholes(placed: &[Placed<'_>]) -> Vec<(usize, usize)> {
    let mut wholes = Vec::new();
    let mut from = 0;
    while from < placed.len() {
        if !begins(placed, from) {
            from += 1;
            continue;
        }
        let end = end(placed, from);
        let high = |to: usize| placed[from..to].iter().map(lines).sum::<usize>();
        let is_drawn = placed[from..end].iter().any(|it| is_drawing(it.block));
        let most = if is_drawn { SHEET } else { PLAIN };
        let fits = match high(end) <= most {
            true => Some(end),
            false if !is_drawn => None,
            false => {
                let tables = (from..end).rev().filter(|at| is_table(placed[*at].block));
                tables.into_iter().find(|to| *to > from && high(*to) <= SHEET)
            }
        };
        if let Some(to) = fits.filter(|to| *to > from) {
            wholes.push((from, to - 1));
        }
        from = end;
    }
    wholes
}

/// True for what may stand with the foot of a page: a check or a note that nothing
/// else holds.
pub(super) fn may_end(own: &Placed<'_>) -> bool {
    matches!(own.block, Block::Proof(_) | Block::Note(_)) && !own.opens && !own.closes && !own.keeps
}

fn is_drawing(block: &Block) -> bool {
    matches!(block, Block::Drawing { .. })
}

fn is_table(block: &Block) -> bool {
    matches!(block, Block::Table(_))
}

/// A heading, a setting, or the note that leads to one.
fn begins(placed: &[Placed<'_>], at: usize) -> bool {
    let own = &placed[at];
    match own.block {
        Block::Heading(_) | Block::Setting { .. } => true,
        Block::Table(_) => own.table.setting.is_some(),
        Block::Note(_) => own.keeps,
        Block::Caution(_) | Block::Proof(_) | Block::Drawing { .. } => false,
    }
}

/// Behind the last block of what begins here: a heading takes the notes below it
/// along, and what they lead to.
fn end(placed: &[Placed<'_>], from: usize) -> usize {
    let mut is_led = true;
    for (at, own) in placed.iter().enumerate().skip(from) {
        match own.block {
            Block::Heading(_) if at == from => {}
            Block::Heading(_) => return at,
            Block::Note(_) if is_led => {}
            Block::Note(_) => return at,
            Block::Setting { .. } | Block::Table(_) => {
                if !is_led && begins(placed, at) {
                    return at;
                }
                is_led = false;
            }
            Block::Proof(_) => return at + 1,
            Block::Caution(_) | Block::Drawing { .. } => {}
        }
    }
    placed.len()
}

/// About how many lines a block takes, rather one too many.
fn lines(own: &Placed<'_>) -> usize {
    let text = |text: &str| text.chars().count().div_ceil(LINE);
    match own.block {
        Block::Heading(_) => 3,
        Block::Setting { figure, what, more } => setting(figure, what, more),
        Block::Table(table) => {
            let set = own.table.setting;
            let above = set.map_or(1, |set| setting(set.figure, set.what, set.more));
            above + rows(table) + text(&table.foot) + 1
        }
        Block::Note(note) => text(note) + 1,
        Block::Caution(caution) => text(caution) + 2,
        Block::Proof(proof) => 3 + proof.iter().map(|line| text(line)).sum::<usize>(),
        Block::Drawing { svg, small, .. } => match small {
            true => 2 + millimetres(svg) * 10 / 54,
            false => SHEET - 5,
        },
    }
}

fn setting(figure: &str, what: &str, more: &[String]) -> usize {
    let head = (figure.chars().count() * 2 + what.chars().count()).div_ceil(LINE);
    head + 1 + more.iter().map(|line| line.chars().count().div_ceil(LINE)).sum::<usize>()
}

/// The rows of a table with its head.
fn rows(table: &Table) -> usize {
    let each = table.rows.iter().map(|row| {
        let cells = row.iter().zip(&table.columns);
        let below = cells.clone().filter(|(cell, column)| column.below && !cell.is_empty());
        let below: usize = below.map(|(cell, _)| cell.chars().count().div_ceil(LINE - 10)).sum();
        let marks = row.first().filter(|_| table.ticks_each(&0));
        let marks = marks.map_or(1, |marks| marks.split_whitespace().count());
        (ROW * marks).max(ROW) + below * 4
    });
    (each.sum::<usize>() + ROW).div_ceil(4)
}

/// How high a drawing of its own size stands on paper.
fn millimetres(svg: &str) -> usize {
    let high = svg.split_once(" height=\"").and_then(|(_, rest)| rest.split_once("mm\""));
    let digits = |high: &str| high.bytes().take_while(u8::is_ascii_digit).count();
    high.and_then(|(high, _)| high.get(..digits(high))?.parse().ok()).unwrap_or(0)
}
