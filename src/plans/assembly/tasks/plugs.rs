//! Plugs in pocket holes that drawers run over.

use crate::model::CaseId;
use crate::parts::{Direction, FeatureKind, Part, PartId, Role};
use crate::plans::operations::Doing;

use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// Pocket holes in a face that drawers run on are plugged once the case stands: the edge of
    /// a side catches in an open hole and wears it out (common practice, no source).
    pub(super) fn plugged(&mut self, case: CaseId, stands: Vec<usize>) -> Vec<usize> {
        let parts = self.ids_in(case, |part| part.role == Role::WebRail);
        let parts: Vec<PartId> = parts.into_iter().filter(|id| self.is_run_over(*id)).collect();
        if parts.is_empty() {
            return stands;
        }
        let lines = vec![
            format!(
                "glue plugs into the pocket holes in the top faces of {}, and pare and sand them flush when the glue holds: drawers run over them",
                self.marks(&parts)
            ),
            "a plug may lie a hair low, but never stand proud".to_owned(),
        ];
        let title = match self.piece.case(case).filter(|_| self.piece.cases.len() > 1) {
            Some(own) => format!("Plug the pocket holes of {}", own.name),
            None => "Plug the pocket holes".to_owned(),
        };
        let efforts = vec![Usual::Plugs.times(parts.len())];
        let mut after = stands;
        after.extend(self.ready(&parts));
        let task = self.simple(title, lines, parts.clone(), Work::Bench, efforts, after);
        self.does(task, vec![Doing::Plug(parts.clone())]);
        self.makes(&parts, task);
        vec![task]
    }

    /// True for a board with pocket holes in its upper face, on which a drawer runs.
    fn is_run_over(&self, id: PartId) -> bool {
        let Some(part) = self.parts.get(id) else { return false };
        let up = part.placement.face(Direction::Y, false);
        let mut pockets = part.features.iter().filter(|own| own.face == up);
        pockets.any(|own| matches!(own.kind, FeatureKind::Pockets(..))) && self.carries(part)
    }

    /// True where the box of a drawer runs on the upper face of a board.
    fn carries(&self, part: &Part) -> bool {
        let Some(case) = self.piece.case(part.case) else { return false };
        let (top, (left, right)) = (part.extent(Direction::Y).1, part.extent(Direction::X));
        case.openings.iter().filter(|own| own.on_wood.is_some()).any(|own| {
            let from = case.x + own.x;
            own.y == top && from < right && left < from + own.wide.length
        })
    }
}
