//! What stands at the wall behind the piece: pipes, outlets, and traps.

use crate::measure::Length;
use crate::model::KeepOut;
use crate::parts::{Direction, PartId};
use crate::plans::wall;

use super::Maker;

impl<'a> Maker<'_, 'a> {
    /// Where what stands at the wall is to be: boards, nailers, and boxes are sawn clear of
    /// it.
    pub(super) fn found_in_house(&self) -> Vec<String> {
        let across = |from: Length, to: Length| match (from.is_negative(), to.is_negative()) {
            (false, _) => format!("{} and {} to the right of", self.text(from), self.text(to)),
            (true, false) => {
                format!("{} to the left and {} to the right of", self.text(-from), self.text(to))
            }
            (true, true) => format!("{} and {} to the left of", self.text(-from), self.text(-to)),
        };
        let found = self.piece.site.keep_outs.iter().map(|own| {
            format!(
                "before you saw anything, measure the {} in the house: all of it must lie between {} where the left side of the piece comes, between {} and {} above the highest place of the floor there, and no farther out from the wall than {}; where it does not, enter where it is, print these papers again, and work by the new ones",
                own.name,
                across(own.from_left, own.from_left + own.wide),
                self.text(own.up),
                self.text(own.up + own.high),
                self.text(own.deep)
            )
        });
        found.chain(self.baseboard_found()).collect()
    }

    /// The baseboard that stays: the uprights are notched for it.
    fn baseboard_found(&self) -> Option<String> {
        let own = self.piece.site.baseboard.as_ref()?;
        Some(format!(
            "before you saw anything, measure the baseboard in the house in several places behind the piece: from {} to {} to the right of where its left side comes, the baseboard must lie between {} and {} above the highest place of the floor there, and no farther out from the wall than {}; where it does not, enter what you measured, print these papers again, and work by the new ones",
            self.text(Length::ZERO),
            self.text(self.piece.wide()),
            self.text(Length::ZERO),
            self.text(own.high.length),
            self.text(own.thick.length)
        ))
    }

    /// How large the cutout in a back is, and where on it, if it takes all of the room that is
    /// kept.
    pub(super) fn cut_out(&self, back: PartId, what: &KeepOut, spare: Length) -> Option<String> {
        let (part, tape) = (self.parts.get(back)?, self.piece.tape());
        let [(left, right), (low, high)] = wall::cut_out(part, what, spare)?;
        let edge = |axis| part.face_name(part.placement.face(axis, true));
        Some(format!(
            "to clear all of the room that is kept for the {}, make the cutout in {} {} wide and {} high: from {} to {} from its {}, and from {} to {} from its {}",
            what.name,
            part.mark,
            self.text(wall::sawn(tape, (left, right))),
            self.text(wall::sawn(tape, (low, high))),
            self.text(left),
            self.text(right),
            edge(Direction::X),
            self.text(low),
            self.text(high),
            edge(Direction::Y)
        ))
    }

    /// Where a back lies in the piece, from which what stands behind it is laid out on it.
    pub(super) fn laid_out(&self, back: PartId) -> Option<String> {
        let part = self.parts.get(back)?;
        let at = |axis| self.text(part.extent(axis).0);
        let edge = |axis| part.face_name(part.placement.face(axis, true));
        Some(format!(
            "where one of these needs less than that, or has moved within it, lay out that cutout by what you measured, on the front of {}: the {} of this back lies {} from the left side of the piece, and its {} lies {} above the floor",
            part.mark,
            edge(Direction::X),
            at(Direction::X),
            edge(Direction::Y),
            at(Direction::Y)
        ))
    }
}
