//! A paper as the templates print it, whatever the format.

use std::collections::BTreeSet;

/// How a column stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Align {
    Left,
    Right,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Column {
    pub(super) head: &'static str,
    pub(super) align: Align,
    /// A figure that a tool is set to, or a mark: printed large.
    pub(super) strong: bool,
    /// Sentences, which a page prints across the row, below its other cells.
    pub(super) below: bool,
}

pub(super) const fn left(head: &'static str) -> Column {
    Column { head, align: Align::Left, strong: false, below: false }
}

pub(super) const fn right(head: &'static str) -> Column {
    Column { head, align: Align::Right, strong: false, below: false }
}

impl Column {
    pub(super) const fn strong(mut self) -> Self {
        self.strong = true;
        self
    }

    pub(super) const fn below(mut self) -> Self {
        self.below = true;
        self
    }
}

/// What there is to tick in a table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Ticks {
    /// A row is a piece of work.
    #[default]
    Rows,
    /// The first cell has the marks of all pieces of the row: each is ticked
    /// by itself.
    Pieces,
    /// Nothing: the table is for looking up.
    None,
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Table {
    pub(super) columns: Vec<Column>,
    pub(super) rows: Vec<Vec<String>>,
    /// What the rows come to.
    pub(super) foot: String,
    pub(super) ticks: Ticks,
    /// The rows that are done already.
    pub(super) ticked: BTreeSet<usize>,
}

impl Table {
    pub(super) fn is_ticked(&self, row: &usize) -> bool {
        self.ticked.contains(row)
    }

    /// True where a row begins a body of the table, which no sheet parts: the
    /// first two rows are one, and so are the last two.
    pub(super) fn begins_body(&self, row: &usize) -> bool {
        let count = self.rows.len();
        match *row {
            0 => true,
            1 => false,
            row => row + 1 < count,
        }
    }

    /// True where a row ends a body.
    pub(super) fn ends_body(&self, row: &usize) -> bool {
        let next = row + 1;
        next >= self.rows.len() || self.begins_body(&next)
    }

    /// The columns that stand side by side.
    pub(super) fn shown(&self) -> impl Iterator<Item = &Column> {
        self.columns.iter().filter(|column| !column.below)
    }

    /// True where each row has its own box.
    pub(super) fn ticks_rows(&self) -> bool {
        self.ticks == Ticks::Rows
    }

    /// True for a cell with marks that are ticked one by one.
    pub(super) fn ticks_each(&self, column: &usize) -> bool {
        self.ticks == Ticks::Pieces && *column == 0
    }
}

/// A piece of a paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Block {
    /// A new part of the paper.
    Heading(String),
    /// A setting of a tool: the figure, large, and what it is.
    Setting { figure: String, what: String, more: Vec<String> },
    /// Lines of work.
    Table(Table),
    /// A line or two of text.
    Note(String),
    /// What to mind so that nobody is hurt.
    Caution(String),
    /// How to know that it came out right.
    Proof(Vec<String>),
    /// A drawing, with what it shows in words; a small one stands beside a setting.
    Drawing { svg: String, caption: String, small: bool },
}

impl Block {
    /// True for what has letters in a drawing.
    pub(super) fn is_drawn(&self) -> bool {
        matches!(self, Self::Drawing { svg, .. } if !svg.is_empty())
    }

    /// All that it says.
    pub(super) fn texts(&self) -> Vec<&str> {
        match self {
            Self::Heading(text) | Self::Note(text) | Self::Caution(text) => vec![text],
            Self::Setting { figure, what, more } => {
                [figure, what].into_iter().chain(more).map(String::as_str).collect()
            }
            Self::Table(table) => {
                let cells = table.rows.iter().flatten().map(String::as_str);
                cells.chain([table.foot.as_str()]).collect()
            }
            Self::Proof(lines) => lines.iter().map(String::as_str).collect(),
            Self::Drawing { svg, caption, small: _ } => vec![svg, caption],
        }
    }
}

/// The rounded figures that stand in a text or in the letters of a drawing without their finer
/// value behind them, from the first sign of each to its `~`.
pub(super) fn rounded(text: &str) -> impl Iterator<Item = String> {
    text.match_indices(['~', '≈']).filter_map(|(at, mark)| {
        let (before, behind) = (text.get(..at)?, text.get(at + mark.len()..)?);
        let digit = |letter: char| letter.is_ascii_digit();
        let is_finer = behind.strip_prefix(" (").is_some_and(|finer| finer.starts_with(digit));
        let sign = |letter: char| digit(letter) || "-/.−".contains(letter);
        let start = before.trim_end_matches(sign).len();
        let figure = before.get(start..).filter(|_| !is_finer)?;
        Some(format!("{figure}~"))
    })
}

/// A whole paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Page {
    pub(super) title: &'static str,
    pub(super) job: String,
    pub(super) revision: String,
    /// Of the texts the paper was made from.
    pub(super) hash: String,
    /// `inches to 1/32`.
    pub(super) measure: String,
    pub(super) notes: Vec<String>,
    pub(super) blocks: Vec<Block>,
    /// Figures that were rounded, with their exact values.
    pub(super) exacts: Vec<(String, String)>,
}

#[cfg(test)]
mod tests {
    use super::rounded;

    #[test]
    fn rounded_figures_are_found_whole_and_without_those_told_finer() {
        let text =
            "cut 13-7/32~ wide, \u{2212}2.5~ up, 3/16~ (0.203) deep, and 7/8~ (m) high, 508≈";
        assert_eq!(rounded(text).collect::<Vec<_>>(), ["13-7/32~", "\u{2212}2.5~", "7/8~", "508~"]);
    }
}
