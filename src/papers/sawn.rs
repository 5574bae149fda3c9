//! What is told of the cuts in a sheet or a board.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::plans::sawing::{Blank, Cut, Gives, Sawn};
use crate::trade;

use super::Source;
use super::page::{Block, Table, left, right};

/// What a rough piece is for: a mark, those of a stick, or lips.
pub(super) fn told(source: &Source<'_, '_>, blank: &Blank) -> String {
    let mark = |id| source.work.parts.mark(id).to_owned();
    if !blank.strips.is_empty() {
        return match blank.strips.len() {
            1 => format!("lip of {}", mark(blank.part)),
            count => format!("{count} lips"),
        };
    }
    match source.work.sticks().of(blank.part) {
        Some(stick) => format!(
            "stick of {}",
            stick.parts.iter().map(|id| mark(*id)).collect::<Vec<_>>().join(" ")
        ),
        None => mark(blank.part),
    }
}

/// True for one cut in each of two pieces of a board that gives one piece alike.
fn is_alike(one: &Cut, other: &Cut) -> bool {
    let is_single = |own: &Cut| {
        let is_blank = matches!(own.gives[..], [Gives::Blank(_)]);
        own.tool.is_none() && !own.from.is_empty() && own.numbers.0 == own.numbers.1 && is_blank
    };
    is_single(one) && is_single(other) && one.way == other.way && one.off == other.off
}

/// A sheet or a board: what it is and what to mind of it, its drawing with the marks of what is
/// too narrow for them, and its cuts under the name of what is set for them.
pub(super) fn drawn(
    source: &Source<'_, '_>,
    own: &Sawn,
    (title, what, more): (&str, String, Vec<String>),
    ((svg, bare), set): ((String, Vec<String>), &'static str),
) -> Vec<Block> {
    let noun = title.to_lowercase();
    let figure = format!("{noun} {}", own.number);
    let mut caption = format!(
        "{title} {}: {what}: the cuts by their numbers, and the pieces by their marks",
        own.number
    );
    if !bare.is_empty() {
        caption.push_str(&format!(
            "; too narrow for their marks are {}, so look for the numbers of their cuts",
            listed(&bare)
        ));
    }
    let mut blocks =
        vec![Block::Setting { figure, what, more }, Block::Drawing { svg, caption, small: false }];
    if !own.cuts.is_empty() {
        blocks.push(Block::Table(cuts(source, own, (&format!("the {noun}"), set))));
    }
    blocks
}

/// What is sawn of the rack.
pub(super) fn on_hand(source: &Source<'_, '_>, all: &[Sawn]) -> String {
    let had = all.iter().filter(|own| own.on_hand);
    let had: Vec<String> = had.map(|own| size(source, own.size)).collect();
    if had.is_empty() { "none".to_owned() } else { listed(&had) }
}

/// Whether fewer would do than are bought, where no plan buys fewer than `least`.
pub(super) fn least(least: i64, bought: i64) -> String {
    match least >= bought {
        true => "no, this is the least".to_owned(),
        false => format!("not known: at least {least}"),
    }
}

/// The cuts of a sheet or a board, one setting after another.
fn cuts(source: &Source<'_, '_>, own: &Sawn, (whole, set): (&str, &'static str)) -> Table {
    let mut table = Table {
        columns: vec![
            right("cut"),
            left("in"),
            right(set).strong(),
            left("how"),
            left("gives").strong(),
        ],
        foot: left_over(source, own),
        ..Table::default()
    };
    let mut rest = own.cuts.as_slice();
    while let Some(cut) = rest.first() {
        // The first cut in each of several pieces, all at one setting, is one row.
        let alike = rest.iter().take_while(|own| is_alike(cut, own)).count().max(1);
        let (together, others) = rest.split_at(alike);
        rest = others;
        let first = cut.numbers.0;
        let last = together.last().map_or(first, |own| own.numbers.1);
        let names: Vec<&str> = together.iter().map(|own| own.from.as_str()).collect();
        let gives = together.iter().flat_map(|cut| &cut.gives);
        let gives: Vec<String> = gives.map(|gives| given(source, own, gives)).collect();
        table.rows.push(vec![
            if first == last { first.to_string() } else { format!("{first}-{last}") },
            match names[..] {
                [""] => whole.to_owned(),
                [name] => format!("piece {name}"),
                _ => format!("pieces {}", names.join(", ")),
            },
            source.figures.mating(cut.off),
            match cut.tool {
                Some(tool) => format!("{}, {}", cut.way.word(), tool.word()),
                None => cut.way.word().to_owned(),
            },
            gives.join(", "),
        ]);
    }
    table
}

fn given(source: &Source<'_, '_>, own: &Sawn, gives: &Gives) -> String {
    match gives {
        Gives::Piece(name) => format!("piece {name}"),
        Gives::Blank(index) => own.laid.get(*index).map_or_else(String::new, |laid| {
            let what = told(source, &laid.blank);
            if laid.blank.later { format!("{what} (rough)") } else { what }
        }),
        Gives::Lost => "waste".to_owned(),
    }
}

fn left_over(source: &Source<'_, '_>, own: &Sawn) -> String {
    let least = trade::narrowest_kept(source.work.piece.tape().unit);
    let kept = own.left.iter().filter(|area| area.size.iter().all(|side| *side >= least));
    let kept: Vec<String> = kept.map(|area| size(source, area.size)).collect();
    match kept.is_empty() {
        true => "nothing that is left over is worth keeping".to_owned(),
        false => format!("left over: {}", listed(&kept)),
    }
}

/// `96 x 48`.
pub(super) fn size(source: &Source<'_, '_>, [long, wide]: [Length; 2]) -> String {
    format!("{} x {}", source.figures.text(long), source.figures.text(wide))
}
