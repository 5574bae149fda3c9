//! The blocks of a paper as its page needs them: each with what it must know
//! of those before it and behind it.

mod whole;

use std::fmt::Write as _;

use super::columns::Widths;
use super::page::{Block, Page, Table, Ticks};

/// A setting of a tool, which holds for the rows below it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Setting<'a> {
    pub(super) figure: &'a str,
    pub(super) what: &'a str,
    pub(super) more: &'a [String],
}

impl Setting<'_> {
    /// `17-1/4 fence, 6 pieces`
    fn title(&self) -> String {
        format!("{} {}", self.figure, self.what).trim_start().to_owned()
    }
}

/// A block in its place.
#[derive(Debug)]
pub(super) struct Placed<'a> {
    pub(super) block: &'a Block,
    /// The level of a setting's heading.
    pub(super) level: u8,
    /// It stays on one sheet with the start of what follows.
    pub(super) keeps: bool,
    /// What stays on one sheet as a whole begins with it.
    pub(super) opens: bool,
    /// And ends with it.
    pub(super) closes: bool,
    /// The end of the page begins with it: what has no table or drawing any more,
    /// so that the foot of the page does not stand on a sheet by itself.
    pub(super) tail: bool,
    /// What only a table has.
    pub(super) table: Laid<'a>,
}

/// How a table is laid out.
#[derive(Debug, Default)]
pub(super) struct Laid<'a> {
    /// What it is a table of.
    pub(super) caption: String,
    /// The setting right above it, which stands in its head and so comes
    /// again on each sheet that the table runs on to.
    pub(super) setting: Option<Setting<'a>>,
    /// There is a setting farther up: the head names it again, in print.
    pub(super) again: bool,
    /// The elements of its columns.
    pub(super) columns: String,
    /// The names that the cells bear on a screen too narrow for columns.
    pub(super) style: String,
    /// How many columns there are, with the boxes and an empty one.
    pub(super) cells: usize,
}

/// Every block of a page in its place.
pub(super) fn placed(page: &Page) -> Vec<Placed<'_>> {
    let tables: Vec<&Table> = page.blocks.iter().filter_map(table_of).collect();
    let widths = Widths::of(&tables);
    let mut placed = Vec::with_capacity(page.blocks.len());
    let (mut heading, mut setting): (Option<&str>, Option<Setting<'_>>) = (None, None);
    let mut blocks = page.blocks.iter().peekable();
    let mut is_above = false;
    while let Some(block) = blocks.next() {
        let next = blocks.peek();
        let mut laid = Laid::default();
        match block {
            Block::Heading(text) => (heading, setting) = (Some(text.as_str()), None),
            Block::Setting { figure, what, more } => {
                setting = Some(Setting { figure, what, more });
                if matches!(next, Some(Block::Table(_))) {
                    is_above = true;
                    continue;
                }
            }
            Block::Table(table) => {
                laid = lay(table, &widths);
                let title = setting.as_ref().map(Setting::title);
                laid.again = title.is_some() && !is_above;
                laid.setting = setting.filter(|_| is_above);
                laid.caption = title.unwrap_or_else(|| heading.unwrap_or(page.title).to_owned());
            }
            _ => {}
        }
        is_above = false;
        let leads = matches!(block, Block::Setting { .. } | Block::Drawing { small: true, .. });
        let keeps = match next {
            Some(Block::Table(_)) => leads || matches!(block, Block::Note(_)),
            Some(Block::Setting { .. }) => matches!(block, Block::Note(_)),
            Some(Block::Drawing { .. } | Block::Proof(_) | Block::Caution(_)) => leads,
            _ => false,
        };
        let level = if heading.is_some() { 3 } else { 2 };
        placed.push(Placed {
            block,
            level,
            keeps,
            opens: false,
            closes: false,
            tail: false,
            table: laid,
        });
    }
    // All notes below a heading stay with it and with what they lead to.
    let mut is_led = false;
    for own in &mut placed {
        is_led = matches!(own.block, Block::Heading(_)) || (is_led && is_note(own.block));
        own.keeps |= is_led && is_note(own.block);
    }
    for (from, to) in whole::wholes(&placed) {
        placed[from].opens = true;
        placed[to].closes = true;
    }
    let last = placed.iter().rposition(|own| !whole::may_end(own)).map_or(0, |at| at + 1);
    if let Some(own) = placed.get_mut(last) {
        own.tail = true;
    }
    placed
}

fn is_note(block: &Block) -> bool {
    matches!(block, Block::Note(_))
}

fn table_of(block: &Block) -> Option<&Table> {
    match block {
        Block::Table(table) => Some(table),
        _ => None,
    }
}

fn lay<'a>(table: &Table, widths: &Widths) -> Laid<'a> {
    let (columns, cells) = widths.elements(table);
    let ticks = usize::from(table.ticks == Ticks::Rows);
    let mut style = String::new();
    for (at, column) in table.columns.iter().enumerate().skip(1) {
        // The heads are fixed words of this program.
        if column.below {
            let _ = write!(style, "--below:'{}';", column.head);
        } else if !column.head.is_empty() {
            let _ = write!(style, "--h{}:'{}';", at + 1 + ticks, column.head);
        }
    }
    Laid { columns, style, cells, ..Laid::default() }
}
