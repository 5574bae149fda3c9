//! One line of a spec made fit to draw: tabs spread, hostile characters
//! written out, long lines cut to the part that matters; each byte of the
//! original still knows where it went.

use std::ops::Range;

use unicode_width::UnicodeWidthChar;

use super::Look;
use super::visible::{Shown, shown};
use super::wrap::columns;

/// Columns between tab stops.
const TAB: usize = 4;

/// How much is kept before the part that matters of a line that is cut.
const LEAD: usize = 12;

/// A line as it is drawn.
pub(super) struct Drawn {
    /// What is printed.
    pub(super) text: String,
    /// For each byte of the original and for its end, the byte in `text`.
    places: Vec<usize>,
}

/// A character of the original with the room it takes.
struct Cell {
    /// First byte in the original.
    at: usize,
    c: char,
    /// Columns.
    width: usize,
}

impl Drawn {
    /// Draws a line in at most `room` columns; if it is longer, the bytes
    /// `focus` stay in sight.
    pub(super) fn new(line: &str, focus: &Range<usize>, room: usize, look: Look) -> Self {
        let cells = cells(line, look);
        let window = window(&cells, focus, room, columns(look.ellipsis()));
        let mut drawn = Self { text: String::new(), places: Vec::with_capacity(line.len() + 1) };
        if window.start > 0 {
            drawn.text.push_str(look.ellipsis());
        }
        for (i, cell) in cells.iter().enumerate() {
            drawn.places.extend(std::iter::repeat_n(drawn.text.len(), cell.c.len_utf8()));
            if window.contains(&i) {
                drawn.push(cell, look);
            }
        }
        drawn.places.push(drawn.text.len());
        if window.end < cells.len() {
            drawn.text.push_str(look.ellipsis());
        }
        drawn
    }

    /// Where a byte of the original stands in the printed text.
    pub(super) fn place(&self, byte: usize) -> usize {
        self.places.get(byte).or(self.places.last()).copied().unwrap_or(0)
    }

    /// The column at which a byte of the original stands, from 0.
    pub(super) fn column(&self, byte: usize) -> usize {
        self.text.get(..self.place(byte)).map_or(0, columns)
    }

    fn push(&mut self, cell: &Cell, look: Look) {
        match shown(cell.c, look.unicode) {
            _ if cell.c == '\t' => self.text.extend(std::iter::repeat_n(' ', cell.width)),
            Shown::Itself => self.text.push(cell.c),
            Shown::As(text) => self.text.push_str(&text),
        }
    }
}

fn cells(line: &str, look: Look) -> Vec<Cell> {
    let mut column = 0;
    line.char_indices()
        .map(|(at, c)| {
            let width = match shown(c, look.unicode) {
                _ if c == '\t' => TAB - column % TAB,
                Shown::Itself => c.width().unwrap_or(0),
                Shown::As(text) => columns(&text),
            };
            column += width;
            Cell { at, c, width }
        })
        .collect()
}

/// The cells that are kept.
fn window(cells: &[Cell], focus: &Range<usize>, room: usize, mark: usize) -> Range<usize> {
    let width = |cells: &[Cell]| cells.iter().map(|cell| cell.width).sum::<usize>();
    if width(cells) <= room {
        return 0..cells.len();
    }
    let room = room.saturating_sub(2 * mark);
    let index = |byte: usize| cells.partition_point(|cell| cell.at < byte);
    let (from, to) = (index(focus.start), index(focus.end).max(index(focus.start)));
    let (before, _) = cells.split_at(from);
    let (until, _) = cells.split_at(to);
    let mut start = 0;
    if width(until) > room {
        // Walk back from what matters as far as the lead allows.
        let mut lead = 0;
        start = from;
        for cell in before.iter().rev() {
            lead += cell.width;
            if lead > LEAD {
                break;
            }
            start -= 1;
        }
    }
    let mut kept = 0;
    let end = cells
        .iter()
        .enumerate()
        .skip(start)
        .find(|(_, cell)| {
            kept += cell.width;
            kept > room
        })
        .map_or(cells.len(), |(i, _)| i);
    start..end
}

#[cfg(test)]
mod tests {
    use super::*;

    fn draw(line: &str, focus: Range<usize>, room: usize) -> Drawn {
        Drawn::new(line, &focus, room, Look::plain())
    }

    #[test]
    fn a_byte_keeps_its_place_behind_what_was_written_out() {
        let drawn = draw("\u{202e}wide 3", 3..7, 80);
        assert_eq!(drawn.text, "<U+202E>wide 3");
        assert_eq!(drawn.text.get(drawn.place(3)..drawn.place(7)), Some("wide"));
        assert_eq!(drawn.place(9), drawn.text.len());
    }

    #[test]
    fn tabs_go_to_the_next_stop() {
        let drawn = draw("a\twide", 2..6, 80);
        assert_eq!(drawn.text, "a   wide");
        assert_eq!(drawn.column(2), 4);
    }

    #[test]
    fn a_long_line_is_cut_round_what_matters() {
        let line = format!("{}wide 3{}", "x".repeat(500), "y".repeat(500));
        let drawn = draw(&line, 500..506, 40);
        assert!(columns(&drawn.text) <= 40, "{}", drawn.text);
        assert!(drawn.text.starts_with("…xxx") && drawn.text.ends_with("yyy…"), "{}", drawn.text);
        assert_eq!(drawn.text.get(drawn.place(500)..drawn.place(506)), Some("wide 3"));
    }

    #[test]
    fn every_byte_has_a_place_within_the_text() {
        for line in ["", "é\tü", "\u{1b}[2J", "日本語 wide 日本語 wide 日本語"] {
            for unicode in [true, false] {
                let look = Look { unicode, ..Look::plain() };
                for at in 0..=line.len() + 2 {
                    let drawn = Drawn::new(line, &(at..at + 1), 12, look);
                    assert!(drawn.text.get(..drawn.place(at)).is_some(), "{line:?} {at}");
                }
            }
        }
    }
}
