//! What stands at the wall behind the piece: pipes, outlets, and traps.

use crate::measure::Length;
use crate::parts::{Direction, PartId};

use super::Maker;

impl<'a> Maker<'_, 'a> {
    /// Where what stands at the wall is to be: boards, nailers, and boxes are sawn clear of
    /// it.
    pub(super) fn found_in_house(&self) -> Vec<String> {
        let tape = self.piece.tape();
        let across = |from: Length, to: Length| match (from.is_negative(), to.is_negative()) {
            (false, _) => format!("{} and {} to the right of", tape.text(from), tape.text(to)),
            (true, false) => {
                format!("{} to the left and {} to the right of", tape.text(-from), tape.text(to))
            }
            (true, true) => format!("{} and {} to the left of", tape.text(-from), tape.text(-to)),
        };
        let found = self.piece.site.keep_outs.iter().map(|own| {
            format!(
                "before you saw anything, measure the {} in the house: all of it must lie between {} where the left side of the piece comes, between {} and {} above the highest place of the floor there, and no farther out from the wall than {}; where it does not, enter where it is, print these papers again, and work by the new ones",
                own.name,
                across(own.from_left, own.from_left + own.wide),
                tape.text(own.up),
                tape.text(own.up + own.high),
                tape.text(own.deep)
            )
        });
        found.collect()
    }

    /// Where a back lies in the piece, from which what stands behind it is laid out on it.
    pub(super) fn laid_out(&self, back: PartId) -> Option<String> {
        let (part, tape) = (self.parts.get(back)?, self.piece.tape());
        let at = |axis| tape.text(part.extent(axis).0);
        let edge = |axis| part.face_name(part.placement.face(axis, true));
        Some(format!(
            "lay it out on the front of {}: its {} lies {} from the left side of the piece, and its {} {} above the floor",
            part.mark,
            edge(Direction::X),
            at(Direction::X),
            edge(Direction::Y),
            at(Direction::Y)
        ))
    }
}
