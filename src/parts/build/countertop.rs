//! What is laid on top of a case, and the slots that it moves in.

use crate::model::{Countertop, JointKind, Size};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::{Assembly, Part};
use crate::parts::screw_rows::{ScrewRow, is_carrier, screw_rows};
use crate::parts::space::Face;
use crate::trade;

use super::builder::{Builder, Draft, LYING};

pub(super) fn build(builder: &mut Builder<'_>) {
    let case = builder.case;
    let Some(top) = &case.countertop else { return };
    let over = &top.over;
    let ([left, right], zero) = (&over.sides, Size::zero());
    let id = builder.add(Draft {
        of: Of::Case(builder.id),
        which: Which::Only,
        role: Role::Countertop,
        assembly: Assembly::Countertop(builder.id),
        stock: top.stock,
        length: &case.wide + left + right,
        width: &case.deep + &over.front + &over.back,
        thickness: None,
        stands: builder.stands(&zero - left, &case.high, &zero - &over.front),
        axes: LYING,
        show: Some(Face::ThickEnd),
        span: top.span,
        notes: top.notes.clone(),
    });
    let carriers = builder.own().filter(|(_, part)| is_carrier(part));
    let carriers: Vec<PartId> = carriers.map(|(id, _)| id).collect();
    for board in carriers {
        builder.join(JointSort::Wood(JointKind::Screw), id, board, false, top.span);
    }
    let own: Vec<(PartId, &Part)> = builder.own().collect();
    for row in screw_rows(builder.piece, &own) {
        slots(builder, top, &row);
    }
}

fn slots(builder: &mut Builder<'_>, top: &Countertop, row: &ScrewRow) {
    let Some((board, long)) = builder.part(row.board).zip(row.slot) else { return };
    let (origin, deep) = (board.placement.origin, board.thickness.length);
    let (middle, wide) = (row.z - origin.z, trade::slot_wide(builder.piece.tape().unit));
    for x in &row.screws {
        let at = *x - origin.x;
        let slot = Feature {
            kind: FeatureKind::Slot,
            face: Face::ThickStart,
            u: (at - wide.half(), at + wide.half()),
            v: (middle - long.half(), middle + long.half()),
            deep,
            deep_at: None,
            takes: None,
            span: top.span,
        };
        builder.cut(row.board, slot);
    }
}
