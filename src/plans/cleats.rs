//! Cleats that carry the wall screws of a case: made on site from offcuts, on edge
//! against the back, between its uprights.

use crate::measure::{Length, Unit};
use crate::model::{Case, CaseId, Piece, StockId};
use crate::parts::{Direction, Part, PartId, Parts, Role, Which};

/// Cleats of one length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cleats {
    /// The case that they fix.
    pub case: CaseId,
    /// The board that they lie tight under; nothing where no board is near the top.
    pub under: Option<PartId>,
    /// How many.
    pub count: usize,
    /// Between two uprights.
    pub long: Length,
    /// From the lower to the upper edge.
    pub wide: Length,
    /// What they are ripped from.
    pub stock: StockId,
}

/// How wide a cleat is: 3 in, 75 mm (a range of 3 to 4 in is common practice, no
/// source).
fn wide(unit: Unit) -> Length {
    unit.either(Length::inches(3, 1), Length::mm(75))
}

/// The cleats of every case of a piece that is fixed to the wall, the longest first.
#[must_use]
pub fn cleats(piece: &Piece, parts: &Parts) -> Vec<Cleats> {
    let cases = piece.cases.iter().filter(|_| piece.site.fixed);
    cases.flat_map(|case| of_case(piece, parts, case)).collect()
}

fn of_case(piece: &Piece, parts: &Parts, case: &Case) -> Vec<Cleats> {
    let under = upper_board(parts, case);
    let own = || parts.iter_case(case.id);
    let host = under.and_then(|id| parts.get(id));
    let ends = || own().map(|(_, part)| part).filter(|part| matches!(part.role, Role::End(_)));
    let Some(top) = host
        .map(|host| host.extent(Direction::Y).0)
        .or_else(|| ends().map(|end| end.extent(Direction::Y).1).max())
    else {
        return Vec::new();
    };
    let Some(stock) = host.or_else(|| ends().next()).map(|part| part.stock) else {
        return Vec::new();
    };
    let wide = wide(piece.tape().unit);
    // Uprights that stand where the cleats lie.
    let mut uprights: Vec<(Length, Length)> = own()
        .map(|(_, part)| part)
        .filter(|part| matches!(part.role, Role::End(_) | Role::Partition))
        .filter(|part| {
            let (from, to) = part.extent(Direction::Y);
            from < top && top - wide < to
        })
        .map(|part| part.extent(Direction::X))
        .collect();
    uprights.sort_unstable();
    let mut found: Vec<Cleats> = Vec::new();
    for pair in uprights.windows(2) {
        let [(_, from), (to, _)] = pair else { continue };
        let long = *to - *from;
        if !long.is_positive() {
            continue;
        }
        match found.iter_mut().find(|own| own.long == long) {
            Some(own) => own.count += 1,
            None => found.push(Cleats { case: case.id, under, count: 1, long, wide, stock }),
        }
    }
    found.sort_by_key(|own| std::cmp::Reverse(own.long));
    found
}

/// The board under which a cleat at the wall is fixed. It lies flat, so no screw goes
/// through it into the wall.
fn upper_board(parts: &Parts, case: &Case) -> Option<PartId> {
    let is_upper = |part: &Part| {
        part.role == Role::Top || part.role == Role::Stretcher && part.which == Which::Back
    };
    parts.iter_case(case.id).find(|(_, part)| is_upper(part)).map(|(id, _)| id)
}
