//! What is told of the cuts in a sheet or a board.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::plans::sawing::{Blank, Cut, Gives, Sawn};
use crate::trade;

use super::Source;
use super::page::{Table, left, right};

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

/// The cuts of a sheet or a board, one setting after another.
pub(super) fn cuts(
    source: &Source<'_, '_>,
    own: &Sawn,
    (whole, set): (&str, &'static str),
) -> Table {
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
