//! The board plan: which boards to take, and every cut in them.

use std::collections::BTreeSet;

use crate::diagnostics::{counted, listed};
use crate::measure::{Length, Unit};
use crate::model::Stock;
use crate::parts::Role;
use crate::plans::boards::{self, Looks, OfLumber};
use crate::plans::buying;
use crate::plans::sawing::{Laid, Sawn};
use crate::vocabulary::LayOut;

use super::Source;
use super::buying_list::amount;
use super::cut_list;
use super::drawing::sheet;
use super::page::{Block, Table, Ticks, left, right};
use super::sawn::{drawn, least, on_hand, size, told};

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let work = source.work;
    let plans: Vec<(&OfLumber, &Stock)> =
        work.boards().iter().filter_map(|own| Some((own, work.piece.stock(own.stock)?))).collect();
    if plans.is_empty() {
        return vec![Block::Note("Nothing is left to saw from boards.".to_owned())];
    }
    let shop = &work.piece.shop;
    let [kerf, ends] =
        [shop.kerf, boards::lost_at_ends(work.piece)].map(|own| source.figures.text(own));
    let mut blocks = vec![
        Block::Note(format!("Crosscut each board first, from one end to the other in the order of the numbers: measure each length from the cut before it, square a line, and saw. Then rip what comes of it, and crosscut the strips that hold more than one piece. The plans count {kerf} for the blade, and {ends} at each end of a board from the yard, which falls off with its checks. The figures are rough sizes: the cut list has what each piece is jointed, planed, and cut to. In the drawings, what is lost is crossed out, and widths are drawn {} times as large as lengths.", sheet::WIDER)),
        Block::Note(match shop.lay_out {
            LayOut::Looks => "Looks come before yield. Fronts are laid out first: those of a bank from the top down and those of a pair or a row from left to right, one after another along one board where it is long enough, and the boards of one panel together. Then come the members of frames, then what is seen inside, and then all else. Mark on each piece which end of the board it came from, and number the pieces of a front in the order in which they come off.",
            LayOut::Yield => "The boards are laid out so that few are bought, whatever shows. Look at them before you saw, and change pieces of one size among each other for their looks.",
        }.to_owned()),
        Block::Caution("A rough board rocks, and it pinches the blade. Crosscut it by hand or with a saw that is led over it, held up on both sides of the cut. Rip at the band saw, or flatten a face and joint an edge first, with that face on the table and that edge against the fence. Keep the guard and riving knife on, wear a mask, and run the dust collector.".to_owned()),
        taken(source, &plans),
    ];
    for (own, stock) in plans {
        blocks.push(Block::Heading(cut_list::heading(stock, source)));
        blocks.extend(about(source, own, stock).into_iter().map(Block::Note));
        for board in &own.boards {
            blocks.extend(of_board(source, stock, board));
        }
    }
    let [on_hand, _] = examples(work.piece.tape().unit);
    blocks.push(Block::Note(format!("Once the boards are in your shop, enter each one in its stock at its real size, as in `{on_hand}`, where `lost` is the stretch lost to a knot, a split, or checks, measured from one end. Print these papers again, and the plan will use your boards.")));
    blocks
}

/// How a board in the shop and those of the yard are entered, in the unit of the job.
fn examples(unit: Unit) -> [&'static str; 2] {
    match unit {
        Unit::Inch => [
            "on-hand { long 103; wide 7-1/4; lost 0 to 2; lost 31 to 36 }",
            "boards { wide 5 to 8; long 96 to 120 }",
        ],
        Unit::Foot => [
            "on-hand { long 103 in; wide 7-1/4 in; lost 0 in to 2 in; lost 31 in to 36 in }",
            "boards { wide 5 in to 8 in; long 8 to 10 }",
        ],
        Unit::Millimetre => [
            "on-hand { long 2600; wide 185; lost 0 to 50; lost 790 to 915 }",
            "boards { wide 120 to 200; long 2400 to 3000 }",
        ],
        Unit::Centimetre => [
            "on-hand { long 260; wide 18.5; lost 0 to 5; lost 79 to 91.5 }",
            "boards { wide 12 to 20; long 240 to 300 }",
        ],
        Unit::Metre => [
            "on-hand { long 2.6; wide 185 mm; lost 0 mm to 50 mm; lost 790 mm to 915 mm }",
            "boards { wide 120 mm to 200 mm; long 2.4 to 3 }",
        ],
    }
}

/// How many boards each stock takes, how well they are used, and whether fewer would do.
fn taken(source: &Source<'_, '_>, plans: &[(&OfLumber, &Stock)]) -> Block {
    let mut table = Table {
        columns: vec![
            left("stock"),
            right("boards").strong(),
            right("they come to"),
            right("in the pieces"),
            right("by rule of thumb"),
            left("on hand, sawn too"),
            left("could fewer do?"),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    for (own, stock) in plans {
        let bought = own.bought().count();
        let estimate = buying::estimate(source.work, own.stock, stock);
        table.rows.push(vec![
            stock.name.clone(),
            bought.to_string(),
            amount(source, &buying::planned(source.work, own, stock)),
            format!("{} %", own.in_hundred()),
            estimate.map_or_else(String::new, |(own, _)| amount(source, &own)),
            on_hand(source, &own.boards),
            fewer(own, i64::try_from(bought).unwrap_or(i64::MAX)),
        ]);
    }
    Block::Table(table)
}

fn fewer(own: &OfLumber, bought: i64) -> String {
    if own.looks == 0 || own.least >= bought {
        return least(own.least, bought);
    }
    let looks = counted(own.looks, "board");
    format!("yes: the looks cost {looks} more (`lay-out yield` saves that)")
}

/// What is counted on, and what no board holds.
fn about(source: &Source<'_, '_>, own: &OfLumber, stock: &Stock) -> Vec<String> {
    let [_, yard] = examples(source.work.piece.tape().unit);
    let counted_on: Vec<String> = own.sizes.iter().map(|own| size(source, *own)).collect();
    let mut notes = Vec::new();
    if own.bought().next().is_some() {
        notes.push(match stock.boards {
            None => format!(
                "The stock does not say which boards the yard has, so the plan counts on the usual ones: {}. Enter those of your yard, as in `{}`.",
                listed(&counted_on),
                yard
            ),
            Some(_) => format!(
                "The plan counts on boards from the middle of what the yard has, and on larger ones only where a piece asks for one or that saves a board: {}. Take each at least as large as its plan says.",
                listed(&counted_on)
            ),
        });
    }
    let unplaced: BTreeSet<String> = own.unplaced.iter().map(|blank| told(source, blank)).collect();
    if !unplaced.is_empty() {
        let marks: Vec<String> = unplaced.into_iter().collect();
        notes.push(format!(
            "No board is left that is large enough for these, so they are in no plan: {}.",
            marks.join(", ")
        ));
    }
    notes
}

fn of_board(source: &Source<'_, '_>, stock: &Stock, own: &Sawn) -> Vec<Block> {
    let what = match own.on_hand {
        true => format!("the board of {} on hand, {}", stock.name, size(source, own.size)),
        false => format!("a board of {}, at least {}", stock.name, size(source, own.size)),
    };
    let mut more = vec![chosen(source, own)];
    if own.on_hand && !own.lost.is_empty() {
        let text = |length: Length| source.figures.text(length);
        let lost: Vec<String> =
            own.lost.iter().map(|(from, to)| format!("{} to {}", text(*from), text(*to))).collect();
        more.push(format!("lost, from the end where the cuts start: {}", listed(&lost)));
    }
    drawn(source, own, ("Board", what, more), (sheet::board(source, own), "comes off"))
}

/// What to look for in a board that gives such pieces.
fn chosen(source: &Source<'_, '_>, own: &Sawn) -> String {
    let work = source.work;
    let looks = |laid: &Laid| Looks::of(work, &laid.blank);
    let shown = own.laid.iter().filter(|laid| looks(laid) == Looks::Front);
    let roles: Vec<Role> =
        shown.filter_map(|laid| Some(work.parts.get(laid.blank.part)?.role)).collect();
    let is_front = |role: &Role| matches!(role, Role::Slab | Role::FrontPanel);
    let mut what = Vec::new();
    if roles.iter().any(is_front) {
        what.push("fronts");
    }
    if roles.contains(&Role::Countertop) {
        what.push("countertops");
    }
    if roles.iter().any(|role| !is_front(role) && *role != Role::Countertop) {
        what.push("the outside of the case");
    }
    let shelved = own.laid.iter().any(|laid| looks(laid) == Looks::Shelf);
    if shelved {
        what.push("the inside that is seen");
    }
    let framed = own.laid.iter().any(|laid| looks(laid) == Looks::Frame);
    match (what.is_empty(), framed) {
        (false, true) => {
            what.push("frames");
            let what = listed(&what);
            format!("for {what}: choose it for its figure, with straight grain along the edges")
        }
        (false, false) => format!("for {}: choose it for its figure and color", listed(&what)),
        (true, true) => "for frames: choose it for straight grain from end to end".to_owned(),
        (true, false) => "for what is little seen: a plain board will do".to_owned(),
    }
}
