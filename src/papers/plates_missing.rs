//! Hinges whose plates are not entered.

use crate::model::{HingeId, HingeKind, Piece};

/// The cup hinges of doors that give no plate, so that their blocks are not listed.
pub(super) fn told(piece: &Piece) -> impl Iterator<Item = String> {
    let hung = |hinge: usize| {
        let doors = piece.cases.iter().flat_map(|case| &case.openings).filter(|of| of.is_door());
        let mut fronts = doors.filter_map(|opening| opening.front.as_ref()?.hinge);
        fronts.any(|(id, _)| id == HingeId(hinge))
    };
    let hinges = piece.hinges.iter().enumerate().filter(move |(index, hinge)| {
        matches!(hinge.kind, HingeKind::Cup { plate: None, .. }) && hung(*index)
    });
    hinges.map(|(_, hinge)| {
        format!("No plate is entered for the hinge {}, so this list has no blocks that its plates stand on. Look them up on its sheet before you saw.", hinge.name)
    })
}
