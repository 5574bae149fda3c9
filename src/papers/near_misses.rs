//! What would save a sheet or a board.

use crate::diagnostics::{counted, listed};
use crate::pipeline::{NearMiss, Saves, Way};

use super::Source;
use super::buying_list::in_hundredths;
use super::page::{Block, Table, Ticks, left, right};

/// A line for each small change.
pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let all = source.near_misses();
    if all.is_empty() {
        return Vec::new();
    }
    let has_prices = all.iter().any(|own| own.costs_less.is_some());
    let mut columns = vec![left("change"), left("write"), left("buy").strong()];
    if has_prices {
        columns.push(right("the list comes to"));
    }
    let row = |own: &NearMiss| {
        let mut row = vec![change(source, own), written(source, own), saves(source, own)];
        if has_prices {
            let less = own.costs_less.map(|less| format!("{} less", in_hundredths(less)));
            row.push(less.unwrap_or_default());
        }
        row
    };
    let table = Table {
        columns,
        rows: all.iter().map(row).collect(),
        ticks: Ticks::None,
        ..Table::default()
    };
    vec![
        Block::Heading("What would save a sheet or a board".to_owned()),
        Block::Note("Nothing here is changed yet. Each line is one small change by itself. The piece was read, checked, and planned anew with it: it can be built, it has no finding that it has not now, and it takes so much less. Whether it looks as good and still fits its place is for you to judge. `give` in the job says how far the sizes may give.".to_owned()),
        Block::Table(table),
    ]
}

/// `cupboard 1/8 less deep`.
fn change(source: &Source<'_, '_>, own: &NearMiss) -> String {
    let way = match own.way {
        Way::Narrower => "narrower",
        Way::LessDeep => "less deep",
        Way::Lower => "lower",
    };
    format!("{} {} {way}", own.what, source.figures.text(own.less))
}

/// `deep 17-7/8 in line 34`.
fn written(source: &Source<'_, '_>, own: &NearMiss) -> String {
    let line = source.compiled.map(|compiled| compiled.sources.position(own.span).line);
    match line {
        Some(line) => format!("`{}` in line {line}", own.text),
        None => format!("`{}`", own.text),
    }
}

fn saves(source: &Source<'_, '_>, own: &NearMiss) -> String {
    let told = |saves: &Saves| {
        let stock = source.work.piece.stock(saves.stock)?;
        let noun = if stock.is_solid() { "board" } else { "sheet" };
        Some(format!("{} of {} less", counted(saves.count, noun), stock.name))
    };
    listed(&own.saves.iter().filter_map(told).collect::<Vec<_>>())
}
