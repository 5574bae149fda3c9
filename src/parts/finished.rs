//! Faces that come with a finish on them: no finish goes on, and no glue holds there.

use crate::model::{JointKind, Piece};

use super::joint::JointSort;
use super::part::{Part, Parts};
use super::space::{Direction, Face};

impl Part {
    /// The faces that come with a finish on them.
    #[must_use]
    pub fn finished_faces(&self, piece: &Piece) -> Vec<Face> {
        let faces = piece.stock(self.stock).and_then(|stock| stock.prefinished);
        match faces.map(|faces| faces.value) {
            None | Some(0) => Vec::new(),
            Some(1) => {
                self.show.filter(|_| self.is_front()).or(self.marks().side).into_iter().collect()
            }
            Some(_) => vec![Face::ThickStart, Face::ThickEnd],
        }
    }

    fn is_front(&self) -> bool {
        self.role == super::id::Role::Slab
    }
}

/// The axis along which two parts meet on a face that comes with a finish, their faces
/// laid on each other; `None` where the joint is cut down to bare wood, or meets an edge.
#[must_use]
pub fn meets_finish(piece: &Piece, part: &Part, into: &Part) -> Option<Direction> {
    let axis = part.touching(into)?;
    let (own, other) = (part.extent(axis), into.extent(axis));
    let ahead = own.0 == other.1;
    let on = |board: &Part, start: bool| {
        board.finished_faces(piece).contains(&board.placement.face(axis, start))
    };
    (on(part, ahead) || on(into, !ahead)).then_some(axis)
}

/// What is screwed on a finished face is screwed there without glue.
pub(super) fn dry(piece: &Piece, parts: &mut Parts) {
    if piece.stocks.iter().all(|stock| stock.prefinished.is_none()) {
        return;
    }
    let is_screwed = |sort: JointSort| {
        matches!(sort, JointSort::Wood(JointKind::Pocket | JointKind::Screw) | JointSort::Planted)
    };
    let all = &parts.all;
    for joint in parts.joints.iter_mut().filter(|joint| joint.glued && is_screwed(joint.sort)) {
        let pair = all.get(joint.part.0).zip(all.get(joint.into.0));
        if pair.is_some_and(|(part, into)| meets_finish(piece, part, into).is_some()) {
            joint.glued = false;
        }
    }
}
