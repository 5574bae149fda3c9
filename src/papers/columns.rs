//! How wide the columns of a page stand: one that is called the same is as
//! wide in every table, so that the eye runs straight down the page.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::page::{Align, Column, Table, Ticks};

/// Hundredths of the size of the type.
type Em = u32;

/// What a letter page of body type holds across, less its margins.
const PAGE: Em = 46_00;

/// The widest that a column of words stands at first, and the least that it
/// is brought down to where the page has no room.
const WORDS: Em = 20_00;
const LEAST_WORDS: Em = 6_00;

/// Room between a column and the next.
const GAP: Em = 70;

/// A box to tick with its space.
const BOX: Em = 160;

/// What a column needs.
#[derive(Clone, Copy, Debug, Default)]
struct Need {
    /// To stand in one line.
    whole: Em,
    /// To keep its longest word whole.
    word: Em,
}

/// The widths of all columns of a page, by their heads.
#[derive(Debug, Default)]
pub(super) struct Widths {
    needs: BTreeMap<&'static str, Need>,
    /// The widest that a column of words may stand.
    words: Em,
}

impl Widths {
    /// Of all tables of a page.
    pub(super) fn of(tables: &[&Table]) -> Self {
        let mut widths = Self { needs: BTreeMap::new(), words: WORDS };
        for table in tables {
            for (at, column) in table.columns.iter().enumerate().filter(|(_, own)| !own.below) {
                let need = widths.needs.entry(column.head).or_default();
                let head = reach(column.head, 90);
                need.whole = need.whole.max(head.whole);
                need.word = need.word.max(head.word);
                for cell in table.rows.iter().filter_map(|row| row.get(at)) {
                    let own = in_cell(table, at, column, cell);
                    need.whole = need.whole.max(own.whole);
                    need.word = need.word.max(own.word);
                }
            }
        }
        let fits = |widths: &Self| tables.iter().all(|table| widths.table(table) <= PAGE);
        while widths.words > LEAST_WORDS && !fits(&widths) {
            widths.words -= 1_00;
        }
        widths
    }

    /// How wide a table stands, its boxes left out.
    fn table(&self, table: &Table) -> Em {
        table.shown().map(|column| self.column(column)).sum()
    }

    fn column(&self, column: &Column) -> Em {
        let need = self.needs.get(column.head).copied().unwrap_or_default();
        GAP + match column.align {
            Align::Right => need.whole,
            Align::Left => need.whole.min(self.words).max(need.word),
        }
    }

    /// The columns of a table as elements, and how many they are. The last one
    /// takes what is left of the page: one of words, or one that is empty.
    pub(super) fn elements(&self, table: &Table) -> (String, usize) {
        let mut elements = String::new();
        if table.ticks == Ticks::Rows {
            elements.push_str("<col class=\"tick\">");
        }
        let mut columns: Vec<&Column> = table.shown().collect();
        let below = columns.len() < table.columns.len();
        if !below && columns.last().is_some_and(|last| last.align == Align::Left) {
            columns.pop();
        }
        for column in &columns {
            let wide = self.column(column);
            let _ = write!(elements, "<col style=\"width:{}.{:02}em\">", wide / 100, wide % 100);
        }
        elements.push_str("<col>");
        (elements, columns.len() + usize::from(table.ticks == Ticks::Rows) + 1)
    }
}

/// What a cell takes. Marks to tick one by one stand one below the other.
fn in_cell(table: &Table, at: usize, column: &Column, cell: &str) -> Need {
    let size = if column.strong { 125 } else { 100 };
    if table.ticks == Ticks::Pieces && at == 0 {
        let marks = cell.split_whitespace().map(|mark| reach(mark, size).whole + BOX);
        let longest = marks.max().unwrap_or(0);
        return Need { whole: longest, word: longest };
    }
    reach(cell, size)
}

/// How far a text and its longest word reach, at a size in hundredths. A line
/// may break behind a hyphen.
fn reach(text: &str, size: Em) -> Need {
    let (mut whole, mut word, mut longest) = (0, 0, 0);
    for c in text.chars() {
        let wide = letter(c);
        (whole, word) = (whole + wide, word + wide);
        longest = longest.max(word);
        if matches!(c, ' ' | '-') {
            word = 0;
        }
    }
    Need { whole: whole * size / 100, word: longest * size / 100 }
}

/// How wide a letter is in the sans-serif type of the page: rounded up, since
/// a reader may have another.
fn letter(letter: char) -> Em {
    match letter {
        ' ' | '.' | ',' | ':' | ';' | '\'' | '|' | 'i' | 'j' | 'l' => 28,
        '-' | '(' | ')' | '/' | 'f' | 't' | 'r' | 'I' => 36,
        'm' | 'w' | 'M' | 'W' | '@' | '%' => 92,
        letter if letter.is_uppercase() => 74,
        letter if letter.is_ascii() => 57,
        _ => 100,
    }
}

#[cfg(test)]
mod tests {
    use crate::papers::page::{left, right};

    use super::*;

    fn table(columns: Vec<Column>, row: &[&str]) -> Table {
        let rows = vec![row.iter().map(|cell| (*cell).to_owned()).collect()];
        Table { columns, rows, ..Table::default() }
    }

    #[test]
    fn columns_of_one_head_are_as_wide_as_the_widest_needs() {
        let short = table(vec![left("mark"), right("length"), left("grain")], &["B", "9", "any"]);
        let long = table(
            vec![left("mark"), right("length"), right("rough"), left("grain")],
            &["PBA-PR", "64-5/16", "65-5/16 x 17", "along"],
        );
        let widths = Widths::of(&[&short, &long]);
        let (short, cells) = widths.elements(&short);
        assert_eq!(cells, 4);
        let (long, cells) = widths.elements(&long);
        assert_eq!(cells, 5);
        let same = short.trim_end_matches("<col>");
        assert!(same.matches("<col ").count() == 3 && long.starts_with(same), "{short}\n{long}");
    }

    #[test]
    fn words_give_way_where_the_page_has_no_room_and_figures_do_not() {
        let words = "a very long name of a part that goes on and on";
        let figures = "1234567890123456789";
        let wide = table(
            vec![left("one"), right("two"), left("three"), right("four")],
            &[words, figures, words, figures],
        );
        let widths = Widths::of(&[&wide]);
        assert!(widths.table(&wide) <= PAGE);
        assert!(widths.column(&wide.columns[1]) >= 19 * 55);
        assert!(widths.column(&wide.columns[0]) >= LEAST_WORDS);
    }
}
