//! What would save a sheet or a board, and what a setting.

use crate::diagnostics::{counted, listed};
use crate::pipeline::{Change, Fewer, NearMiss, NearSetting, Saves, Way};

use super::Source;
use super::buying_list::in_hundredths;
use super::page::{Block, Table, Ticks, left, right};

/// Both, each with what was done to prove it.
pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let mut blocks = of_stock(source);
    blocks.extend(of_settings(source));
    blocks
}

/// A line for each small change that saves a sheet or a board.
fn of_stock(source: &Source<'_, '_>) -> Vec<Block> {
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
        let mut row =
            vec![change(source, &own.change), written(source, &own.change), saves(source, own)];
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
fn change(source: &Source<'_, '_>, own: &Change) -> String {
    let way = match own.way {
        Way::Narrower => "narrower",
        Way::Wider => "wider",
        Way::LessDeep => "less deep",
        Way::Deeper => "deeper",
        Way::Lower => "lower",
        Way::Higher => "higher",
        Way::Shorter => "shorter",
        Way::Taller => "taller",
    };
    format!("{} {} {way}", own.what, source.figures.text(own.by))
}

/// `deep 17-7/8 in line 34`.
fn written(source: &Source<'_, '_>, own: &Change) -> String {
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

/// A line for each small change that makes two settings one.
fn of_settings(source: &Source<'_, '_>) -> Vec<Block> {
    let all = source.near_settings();
    if all.is_empty() {
        return Vec::new();
    }
    let row = |own: &NearSetting| {
        vec![change(source, &own.change), written(source, &own.change), fewer(own.fewer)]
    };
    let table = Table {
        columns: vec![left("change"), left("write"), left("set").strong()],
        rows: all.iter().map(row).collect(),
        ticks: Ticks::None,
        ..Table::default()
    };
    vec![
        Block::Heading("What would save a setting".to_owned()),
        Block::Note("Nothing here is changed yet either, and each line was tried by itself as well. Each change makes two widths on the cut list the same, so that the fence is set less often, or does the same for two set-ups on the jig sheet. None takes more sheets or boards. `members`, `joints`, and `openings` of `give` in the job say how far rails, stiles, joints, and openings may change.".to_owned()),
        Block::Table(table),
    ]
}

/// `1 fewer fence setting and 1 set-up fewer on the jig sheet, which saves 28 min`.
fn fewer(own: Fewer) -> String {
    let rips = (own.rips > 0).then(|| {
        let settings = if own.rips == 1 { "setting" } else { "settings" };
        format!("{} fewer fence {settings}", own.rips)
    });
    let set_ups = (own.set_ups > 0).then(|| {
        let (count, time) = (counted(own.set_ups, "set-up"), own.time.whole_minutes());
        format!("{count} fewer on the jig sheet, which saves {time}")
    });
    listed(&rips.into_iter().chain(set_ups).collect::<Vec<_>>())
}
