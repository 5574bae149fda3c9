//! What bears the cases that hang, and those that stand on others.

use crate::measure::Scale;
use crate::trade;

use crate::papers::Source;
use crate::papers::page::{Block, Table, Ticks, left, right};

/// What the wall screws of every case that hangs bear when it is full.
pub(super) fn hung(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let piece = source.work.piece;
    let scale = Scale::of(piece.tape());
    let mut table = Table {
        columns: vec![
            left("case").strong(),
            right("itself"),
            right("in it"),
            right("studs"),
            right("screws"),
            right("down on each"),
            right("out of each"),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    for hangs in source.work.hung() {
        let Some(case) = piece.case(hangs.case) else { continue };
        table.rows.push(vec![
            case.name.clone(),
            scale.text(hangs.own),
            scale.text(hangs.holds),
            hangs.studs.to_string(),
            hangs.screws.1.to_string(),
            scale.text(hangs.down),
            scale.text(hangs.out),
        ]);
    }
    if table.rows.is_empty() {
        return;
    }
    table.foot = format!(
        "{} that is 38 mm (1-1/2 in) deep in a stud of spruce bears {} down or {} out, and less where it bears both",
        if source.work.piece.tape().unit.is_metric() { "a 4 mm screw (#8)" } else { "a #8 screw" },
        scale.text(trade::screw_down()),
        scale.text(trade::screw_out())
    );
    blocks.push(Block::Heading("What do the wall screws bear?".into()));
    blocks.push(Block::Note("The case is full: every board and every drawer bears its load. All the screws share the weight, and those in the upper nailer take the pull. These figures use the studs that the spec names, or as many as the case is sure to meet where studs stand 16 in (400 mm) apart. They leave out any stud that may stand where pipes or outlets interrupt the nailer, or the back, that takes the screws. Count the studs before you hang it.".into()));
    blocks.push(Block::Table(table));
}

/// What every case that stands on another presses on when it is full.
pub(super) fn stacked(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let piece = source.work.piece;
    let scale = Scale::of(piece.tape());
    let mut table = Table {
        columns: vec![
            left("case").strong(),
            left("on"),
            right("itself"),
            right("in it"),
            left("bends").strong(),
            right("sag"),
            right("limit"),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    for presses in source.work.presses() {
        let Some(case) = piece.case(presses.case) else { continue };
        let [mark, sag, limit] = match &presses.bends {
            None => [String::new(), String::new(), String::new()],
            Some(own) => [
                own.board.mark.clone(),
                source.figures.text(piece.tape().up(own.sag)),
                source.figures.text(piece.tape().down(own.limit)),
            ],
        };
        table.rows.push(vec![
            case.name.clone(),
            case.on.as_ref().map_or(String::new(), |on| on.name.clone()),
            scale.text(presses.own),
            scale.text(presses.holds),
            mark,
            sag,
            limit,
        ]);
    }
    if table.rows.is_empty() {
        return;
    }
    table.foot = "an empty place: every upright of the case stands over one below".to_owned();
    blocks.push(Block::Heading("What stands on another case?".into()));
    blocks.push(Block::Note("The case is full: every board and every drawer bears its load. Its weight comes down through its ends and partitions; where one of them stands between the uprights below, the board there bends, and its sag is that after years.".into()));
    blocks.push(Block::Table(table));
}
