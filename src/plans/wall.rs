//! What carries the wall screws of each case, and how long they are.

use crate::measure::{Length, Unit};
use crate::model::{Case, Piece, RailSide};
use crate::parts::{Part, PartId, Parts, Role};
use crate::plans::operations::Wall;
use crate::trade;

/// How the cases of a piece are screwed to the wall behind them: through their
/// nailers, or through a back that is thick enough. Not all are screwed on at once: those
/// are chosen that are.
#[must_use]
pub fn wall(piece: &Piece, parts: &Parts, is: impl Fn(&Case) -> bool) -> Wall {
    let unit = piece.tape().unit;
    let mut wall = Wall {
        nailers: Vec::new(),
        backs: Vec::new(),
        thick: Length::ZERO,
        back: Length::ZERO,
        screws: screws(piece, &is),
        into: trade::into_stud(unit),
        lining: trade::wallboard(unit),
    };
    for case in piece.cases.iter().filter(|case| is(case)) {
        let nailers = held_by(parts, case, Role::is_nailer);
        let back = held_by(parts, case, |role| role == Role::Back);
        let thick = |ids: &[PartId]| {
            let own = ids.iter().filter_map(|id| parts.get(*id));
            own.map(|part: &Part| part.thickness.length).max().unwrap_or_default()
        };
        let own = (thick(&nailers), thick(&back));
        // One length of screw for the whole piece: that of the thickest case.
        if own.0 + own.1 > wall.thick + wall.back {
            (wall.thick, wall.back) = own;
        }
        match nailers.is_empty() {
            true if piece.has_stout_back(case) => wall.backs.extend(back),
            _ => wall.nailers.extend(nailers),
        }
    }
    wall
}

/// The rows of wall screws in a case: the lower nailer makes a second one.
#[must_use]
pub fn rows(parts: &Parts, case: &Case) -> u32 {
    let lower = |part: &Part| part.role == Role::Nailer(RailSide::Bottom);
    if parts.of_case(case.id).iter().any(lower) { 2 } else { 1 }
}

/// The screws at each stud: as many as a case that hangs asks for, else the usual.
fn screws(piece: &Piece, is: impl Fn(&Case) -> bool) -> u32 {
    let hung = piece.cases.iter().filter(|case| is(case)).filter_map(|case| case.hung.as_ref());
    hung.map(|hung| hung.screws).max().unwrap_or(trade::SCREWS_AT_STUD)
}

fn held_by(parts: &Parts, case: &Case, is: impl Fn(Role) -> bool) -> Vec<PartId> {
    let own = parts.iter_case(case.id).filter(|(_, part)| is(part.role));
    own.map(|(id, _)| id).collect()
}

impl Wall {
    /// The least length of a screw, to which the lining of the wall is added.
    #[must_use]
    pub fn least(&self) -> Length {
        self.thick + self.back + self.into
    }

    /// The screw that is bought for a wall with the usual lining.
    #[must_use]
    pub fn screw(&self, unit: Unit) -> Length {
        let least = self.least() + self.lining;
        trade::shortest_sold(least, least + self.into, unit)
            .unwrap_or_else(|| trade::long_screw(least, unit))
    }
}
