//! What is laid on top of cases, and the slots that it moves in.

use crate::measure::{Length, Span};
use crate::model::{JointKind, Piece, Size};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::{Joint, JointSort};
use crate::parts::part::{Assembly, Part, Parts};
use crate::parts::screw_rows::{is_carrier, screw_rows};
use crate::parts::space::Face;
use crate::trade;

use super::builder::{Builder, Draft, LYING};

/// Lays on what lies on a case, or on the row of cases that begins with it.
pub(super) fn build(builder: &mut Builder<'_>) {
    let Some(top) = builder.piece.top_over(builder.id) else { return };
    if top.row.first != builder.id {
        return;
    }
    let over = &top.over;
    let ([left, right], zero) = (&over.sides, Size::zero());
    // The front of a case that is less deep than another lies behind that of the other.
    let before = &top.deep - &builder.case.deep;
    builder.add(Draft {
        of: top.run.map_or(Of::Case(builder.id), |_| Of::Row(builder.id)),
        which: Which::Only,
        role: Role::Countertop,
        assembly: Assembly::Countertop(builder.id),
        stock: top.spec.stock,
        length: &top.wide + left + right,
        width: &top.deep + &over.front + &over.back,
        thickness: None,
        stands: Builder::stands(&top.left - left, &top.high, &zero - &over.front - before),
        axes: LYING,
        show: Some(Face::ThickEnd),
        span: top.spec.span,
        notes: top.spec.notes.clone(),
    });
}

/// Screws every countertop down through what carries it, when all cases under it are
/// there.
pub(super) fn fasten(piece: &Piece, parts: &mut Parts) {
    for top in &piece.tops {
        let own = parts.under(top);
        let Some((id, _)) = own.iter().find(|(_, part)| part.role == Role::Countertop) else {
            continue;
        };
        let carriers = own.iter().filter(|(_, part)| is_carrier(part));
        let joints: Vec<Joint> = carriers
            .map(|(board, _)| Joint {
                sort: JointSort::Wood(JointKind::Screw),
                part: *id,
                into: *board,
                glued: false,
                span: top.spec.span,
            })
            .collect();
        let mut slots: Vec<(PartId, Feature)> = Vec::new();
        for row in screw_rows(piece, top, &own) {
            let Some((board, long)) = parts.get(row.board).zip(row.slot) else { continue };
            let at = (row.z, long);
            let own = self::slots(piece, board, at, row.screws.iter().flatten(), top.spec.span);
            slots.extend(own.into_iter().map(|slot| (row.board, slot)));
        }
        parts.joints.extend(joints);
        for (board, slot) in slots {
            if let Some(part) = parts.all.get_mut(board.0) {
                part.features.push(slot);
            }
        }
    }
}

/// The slots of a row of screws so far behind the foremost face, in the board that they go
/// through.
pub(super) fn slots<'s>(
    piece: &Piece,
    board: &Part,
    (z, long): (Length, Length),
    screws: impl Iterator<Item = &'s Length>,
    span: Span,
) -> Vec<Feature> {
    let (origin, deep) = (board.placement.origin, board.thickness.length);
    let (middle, wide) = (z - origin.z, trade::slot_wide(piece.tape().unit));
    let slot = |x: &Length| {
        let at = *x - origin.x;
        Feature {
            kind: FeatureKind::Slot,
            face: Face::ThickStart,
            u: (at - wide.half(), at + wide.half()),
            v: (middle - long.half(), middle + long.half()),
            deep,
            deep_at: None,
            takes: None,
            span,
        }
    };
    screws.map(slot).collect()
}
