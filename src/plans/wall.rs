//! What carries the wall screws of each case, and how long they are.

use crate::measure::{Length, Tape, Unit, between};
use crate::model::{Case, KeepOut, KeepOutId, Piece, RailSide, Side};
use crate::parts::{Direction, Part, PartId, Parts, Role};
use crate::plans::beside;
use crate::plans::operations::{Narrow, Wall};
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
        narrow: narrow(piece, parts, &is),
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

/// The cases that may have no stud behind them, since they, or the pieces of a nailer that ends
/// beside something at the wall, are narrower than studs stand apart.
/// One that stands on the floor is held by those that it is screwed to, too. Where a case that
/// hangs says how many studs it has, they have been found.
fn narrow(piece: &Piece, parts: &Parts, is: impl Fn(&Case) -> bool) -> Vec<Narrow> {
    let apart = piece.stud_spacing();
    let cases: Vec<&Case> = piece.cases.iter().filter(|case| is(case)).collect();
    // The longest of the pieces into which something at the wall parts a nailer.
    let longest = |case: &Case| {
        let nailers = held_by(parts, case, Role::is_nailer);
        let long = nailers.iter().filter_map(|id| Some(parts.get(*id)?.length.length)).max();
        long.filter(|_| !piece.site.keep_outs.is_empty())
    };
    let is_narrow = |case: &&Case| {
        case.wide.length < apart || longest(case).is_some_and(|longest| longest < apart)
    };
    if !cases.iter().any(is_narrow) {
        return Vec::new();
    }
    let pairs = beside::pairs(piece, parts);
    let wide = |case: &Case| {
        let (mut from, mut to) = (case.x, case.x + case.wide.length);
        // From left to right and back again: what hangs on what is screwed to it comes too.
        for pair in pairs.iter().chain(pairs.iter().rev()).filter(|_| case.hung.is_none()) {
            let [left, right] = pair.cases.map(|id| piece.case(id));
            let (Some(left), Some(right)) = (left, right) else { continue };
            let far = right.x + right.wide.length;
            if (from <= left.x && left.x < to) || (from < far && far <= to) {
                (from, to) = (from.min(left.x), to.max(far));
            }
        }
        longest(case).map_or(to - from, |longest| longest.min(to - from))
    };
    let is_found = |case: &Case| case.hung.as_ref().is_some_and(|hung| hung.studs.is_some());
    let narrow = cases.into_iter().filter(|case| !is_found(case)).map(|case| (case, wide(case)));
    let narrow = narrow.filter(|(_, wide)| *wide < apart);
    narrow.map(|(case, wide)| Narrow { case: case.id, wide, apart }).collect()
}

/// The rows of wall screws in a case: the lower nailer makes a second one.
#[must_use]
pub fn rows(parts: &Parts, case: &Case) -> u32 {
    let lower = |part: &Part| part.role == Role::Nailer(RailSide::Bottom);
    if parts.of_case(case.id).iter().any(lower) { 2 } else { 1 }
}

/// From where to where a back is cut out round all the room that is kept for what stands
/// behind it, with so much to spare: from its left end or edge, and from its lower one.
/// `None` where that is not behind this board.
#[must_use]
pub fn cut_out(back: &Part, what: &KeepOut, spare: Length) -> Option<[(Length, Length); 2]> {
    let along = |axis, from: Length, size: Length| {
        let (start, end) = back.extent(axis);
        let within = |at: Length| at.max(start).min(end) - start;
        (within(from - spare), within(from + size + spare))
    };
    let across = along(Direction::X, what.from_left, what.wide);
    let up = along(Direction::Y, what.up, what.high);
    (across.0 < across.1 && up.0 < up.1).then_some([across, up])
}

/// How wide a cutout is between two lines that are struck by the tape.
#[must_use]
pub fn sawn(tape: &Tape, (from, to): (Length, Length)) -> Length {
    tape.print(to).shown - tape.print(from).shown
}

/// What stands at the wall behind the back of a case, which is cut out around it.
#[must_use]
pub fn behind<'p>(piece: &'p Piece, parts: &Parts, case: &Case) -> Vec<(KeepOutId, &'p KeepOut)> {
    let backs = parts.of_case(case.id).iter().filter(|part| part.role == Role::Back);
    let ends: Vec<(Length, Length)> = backs.map(|back| back.extent(Direction::Y)).collect();
    let all = (0..).map(KeepOutId).zip(&piece.site.keep_outs);
    let behind = all.filter(|(_, keep_out)| {
        let (from, to) = (keep_out.from_left, keep_out.from_left + keep_out.wide);
        let across = from < case.x + case.wide.length && case.x < to;
        let top = keep_out.up + keep_out.high;
        across && ends.iter().any(|(low, high)| *low < top && keep_out.up < *high)
    });
    behind.collect()
}

/// Where the wall screws of a row may go, from and to along the piece: through the nailers
/// there, or in a case without any close under the top through a back that takes them, as
/// far as that is whole.
#[must_use]
pub fn row(piece: &Piece, parts: &Parts, case: &Case, side: RailSide) -> Vec<(Length, Length)> {
    let own = parts.of_case(case.id);
    let nailers = own.iter().filter(|part| part.role == Role::Nailer(side));
    let mut found: Vec<(Length, Length)> = nailers.map(|part| part.extent(Direction::X)).collect();
    if found.is_empty() && side == RailSide::Top && piece.has_stout_back(case) {
        let backs = own.iter().filter(|part| part.role == Role::Back);
        found.extend(backs.flat_map(|back| whole(piece, parts, case, back)));
    }
    found.sort_unstable();
    found
}

/// Where a back is whole from its top down as far as a nailer would be wide.
fn whole(piece: &Piece, parts: &Parts, case: &Case, back: &Part) -> Vec<(Length, Length)> {
    let ((from, to), top) = (back.extent(Direction::X), back.extent(Direction::Y).1);
    let low = top - case.nailers.wide.length;
    let cuts = behind(piece, parts, case).into_iter().filter_map(|(id, own)| {
        let spare = piece.clear_of_back(case, id);
        let meets = own.up - spare < top && low < own.up + own.high + spare;
        meets.then(|| (own.from_left - spare, own.from_left + own.wide + spare))
    });
    between((from, to), cuts)
}

/// How many studs, so far apart, may stand where a row is not: in its gaps, around a pipe for
/// one, or between it and the end of the case. They hold nothing there.
#[must_use]
pub fn missed(parts: &Parts, case: &Case, row: &[(Length, Length)], spacing: Length) -> u32 {
    let (left, right) = (case.x, case.x + case.wide.length);
    let left = parts.end(case.id, Side::Left).map_or(left, |part| part.extent(Direction::X).1);
    let right = parts.end(case.id, Side::Right).map_or(right, |part| part.extent(Direction::X).0);
    let (mut at, mut studs) = (left, 0);
    for (from, to) in row.iter().chain([&(right, right)]) {
        if at < *from {
            studs += ((*from - at) / spacing).floor() + 1;
        }
        at = at.max(*to);
    }
    studs.try_into().unwrap_or(u32::MAX)
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
