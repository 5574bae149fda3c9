//! Cases that stand side by side and are screwed to each other.

use crate::measure::{Length, Unit};
use crate::model::{Case, Piece, Side};
use crate::parts::{Direction, Part, Parts};
use crate::trade;

use super::operations::Beside;

/// How many screws hold two cases together: two near the front and two near the back
/// (common practice, no source).
const SCREWS: u32 = 4;

/// How far they go into the second end at least: 3/8 in, 10 mm (common practice, no
/// source).
fn into_far(unit: Unit) -> Length {
    unit.either(Length::inches(3, 8), Length::mm(10))
}

/// Every two cases that stand side by side, and how they are screwed together: through
/// both ends, and short of the far face.
#[must_use]
pub(super) fn pairs(piece: &Piece, parts: &Parts) -> Vec<Beside> {
    let thick = |end: Option<&Part>| end.map_or(Length::ZERO, |part| part.thickness.length);
    // What stands on other cases is beside what stands there too, and what hangs over them
    // beside what hangs there.
    let (below, placed): (Vec<&Case>, Vec<&Case>) =
        piece.cases.iter().partition(|case| case.is_in_row());
    let (above, over): (Vec<&Case>, Vec<&Case>) =
        placed.into_iter().partition(|case| case.on.is_some());
    let rows = [below, above, over];
    let pairs = rows.iter().flat_map(|row| row.windows(2)).filter_map(|pair| match pair {
        [left, right]
            if left.x + left.wide.length == right.x
                && left.base_high().length < right.high.length
                && right.base_high().length < left.high.length =>
        {
            Some([left.id, right.id])
        }
        _ => None,
    });
    let unit = piece.tape().unit;
    let beside = pairs.map(|cases| {
        let ends = [parts.end(cases[0], Side::Right), parts.end(cases[1], Side::Left)];
        let [near, far] = ends.map(thick);
        // Frames that stand proud of their ends meet, and the ends do not.
        let between = match ends {
            [Some(one), Some(other)] => other.extent(Direction::X).0 - one.extent(Direction::X).1,
            [..] => Length::ZERO,
        };
        let most = near + between + far - trade::short_of_face(unit);
        let least = (near.max(far) + between + into_far(unit)).min(most);
        Beside { cases, screws: SCREWS, most, sold: trade::screw_sold(least, most, unit) }
    });
    beside.collect()
}
