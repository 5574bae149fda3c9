//! Solid boards that screws hold fast, far apart across their grain: to one board that runs
//! there and does not move so, or to the members of a base.

use std::collections::BTreeMap;

use crate::diagnostics::{Diagnostic, Sink};
use crate::measure::Length;
use crate::model::{JointKind, Piece};
use crate::parts::{Assembly, Joint, JointSort, Part, PartId, Parts, Role};
use crate::plans::fitting::from_end;
use crate::plans::seasons::Climate;

use super::cross_grain::{RULE, in_a_year, most, moves};

/// What holds a board, and by which joint.
type Held<'a> = (&'a Part, &'a Joint);

pub(super) fn look(piece: &Piece, parts: &Parts, climate: &Climate, sink: &mut Sink) {
    let mut held: BTreeMap<PartId, Vec<Held<'_>>> = BTreeMap::new();
    for joint in parts.joints.iter().filter(|joint| !joint.glued && is_by_screws(joint)) {
        for (own, other) in [(joint.part, joint.into), (joint.into, joint.part)] {
            if let Some(other) = parts.get(other) {
                held.entry(own).or_default().push((other, joint));
            }
        }
    }
    for (id, held) in held {
        let board = parts.get(id).filter(|board| {
            board.role != Role::Countertop && moves(piece, board, board.placement.width)
        });
        if let Some(board) = board
            && let Some((apart, holder)) = farthest(piece, board, &held)
        {
            sink.extend(report(piece, climate, board, apart, holder));
        }
    }
}

/// True for boards that screws alone hold together.
fn is_by_screws(joint: &Joint) -> bool {
    match joint.sort {
        JointSort::Wood(kind) => {
            kind == JointKind::Screw || (kind == JointKind::Pocket && !joint.glued)
        }
        JointSort::Planted => true,
        JointSort::Miter
        | JointSort::Floating
        | JointSort::Glazed
        | JointSort::Pinned
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid
        | JointSort::FrontFixed => false,
    }
}

/// How far the outer screws stand apart across its grain, and what they hold it to.
fn farthest<'a>(piece: &Piece, board: &Part, held: &[Held<'a>]) -> Option<(Length, Held<'a>)> {
    let (axis, unit) = (board.placement.width, piece.tape().unit);
    let in_base = |other: &Part| matches!(other.assembly, Assembly::Base(_));
    // The members of a base are one thing; any other board holds by itself.
    let base = held.iter().filter(|(other, _)| in_base(other) && other.placement.thickness == axis);
    let middle = |other: &Part| {
        let (from, to) = other.extent(axis);
        (from + to).half()
    };
    let rows = base.clone().map(|(other, _)| middle(other));
    let (first, last) = (rows.clone().min(), rows.max());
    let of_base = first.zip(last).zip(base.clone().next());
    let of_base = of_base.map(|((first, last), own)| (last - first, *own));
    // All but the front screw of a packer, or of a strip that a drawer runs on, go through
    // slots.
    let alone = held.iter().filter(|(other, _)| {
        other.role != Role::Packer
            && !other.role.is_of_runs()
            && !in_base(other)
            && other.placement.thickness != axis
            && !moves(piece, other, axis)
    });
    let alone = alone.map(|own| {
        let long = board.cuboid().overlap_along(&own.0.cuboid(), axis);
        (long - from_end(long, unit) * 2, *own)
    });
    of_base.into_iter().chain(alone).max_by_key(|(apart, _)| *apart)
}

fn report(
    piece: &Piece,
    climate: &Climate,
    board: &Part,
    apart: Length,
    (holder, joint): Held<'_>,
) -> Option<Diagnostic> {
    let (tape, stock) = (piece.tape(), piece.stock(board.stock)?);
    let own = climate.swelling(stock, apart.max(Length::ZERO));
    // Screws bend in their holes before the board gives way: they bear twice what glue
    // does (common practice, no source).
    if own.range() <= most() * 2 {
        return None;
    }
    let to = match holder.assembly {
        Assembly::Base(case) => format!("the base of {}", piece.base_named(case)),
        Assembly::Carcass(_)
        | Assembly::Frame(_)
        | Assembly::Front(_)
        | Assembly::DrawerBox(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => holder.path.clone(),
    };
    let title = format!(
        "{} is screwed fast across its grain to {to}, and it moves {} between its outer screws",
        board.path,
        tape.fine(own.range())
    );
    let found = RULE
        .finding(title, joint.span, "screwed here")
        .label(stock.span, format!("{}, {}sawn", stock.wood_name(), stock.sawn.word()))
        .because("it splits when it shrinks, or shears its screws off")
        .note("make this board of sheet goods, or both of solid wood with the grain the same way; or make the holes of all but the front screws slots that run across its grain, and accept this")
        .subject(&board.path);
    Some(in_a_year(found, piece, climate, apart, &own))
}
