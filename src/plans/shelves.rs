//! How a loose shelf gets into its case: through the opening before it, or from
//! behind before the back is on.

use crate::measure::Length;
use crate::model::{Axis, Opening, Piece};
use crate::parts::{Direction, Part, Parts, Role};
use crate::trade;

/// An opening in a face frame that a loose shelf goes in through.
#[derive(Clone, Copy, Debug)]
pub struct Through<'a> {
    /// The opening.
    pub opening: &'a Opening,
    /// Its width as built, and the height that the shelf has to be turned in: that
    /// of the opening, or of the space between its fixed shelves.
    pub size: [Length; 2],
    /// The height that the shelf asks for to be tilted in; nothing where the opening
    /// is narrower than the shelf is thick.
    pub needed: Option<Length>,
    /// True where it can be turned level between its boards once it is inside.
    pub turns: bool,
}

impl Through<'_> {
    /// True where the shelf can't be tilted in.
    #[must_use]
    pub fn is_too_low(&self) -> bool {
        self.needed.is_none_or(|needed| needed > self.size[1])
    }
}

/// Room that a shelf is turned level with, in millimeters: its boards may be a little
/// thicker than drawn (1/32 in, common practice, no source).
const TURNING: f64 = 0.8;

/// The opening that a loose shelf goes in through; nothing for any other part, and
/// for a case without a face frame, where nothing is in its way.
#[must_use]
pub fn through<'a>(piece: &'a Piece, parts: &Parts, shelf: &Part) -> Option<Through<'a>> {
    let case = piece.case(shelf.case).filter(|_| shelf.role == Role::AdjustableShelf)?;
    case.frame.as_ref()?;
    let opening = piece.opening(shelf.opening()?)?;
    let [wide, high] = [Axis::Across, Axis::Down].map(|axis| opening.as_built(axis).length);
    let room = between_fixed(piece, shelf, opening, high) - behind(parts, shelf, opening);
    let size = [wide, room];
    let (long, thick) = (shelf.length.length, shelf.thickness.length);
    let clear = long + case.shelves.clearance.length;
    let diagonal = long.to_mm_f64().hypot(thick.to_mm_f64());
    let turns = long <= wide || diagonal + TURNING <= clear.to_mm_f64();
    Some(Through { opening, size, needed: trade::height_to_tilt(long, thick, size[0]), turns })
}

/// The clear height between the fixed shelves of an opening so high.
fn between_fixed(piece: &Piece, shelf: &Part, opening: &Opening, high: Length) -> Length {
    let fixed = opening.shelves.as_ref().map_or(0, |set| i64::from(set.fixed));
    let of_case = piece.case(shelf.case).and_then(|case| case.shelves.stock);
    let thick = piece.thickness(of_case.unwrap_or(shelf.stock)).length;
    (high - thick * fixed) / (fixed + 1)
}

/// What nailers take of the height in which a shelf is turned: it is as deep as the case,
/// and its raised end meets them.
fn behind(parts: &Parts, shelf: &Part, opening: &Opening) -> Length {
    let own = parts.of_case(shelf.case);
    let (low, high) = (opening.y, opening.y + opening.high.length);
    let y = |part: &Part| part.extent(Direction::Y);
    let nailers = own.iter().filter(|part| part.role.is_nailer());
    let taken = nailers.filter_map(|nailer| {
        let (from, to) = y(nailer);
        let taken = to.min(high) - from.max(low);
        let between = |fixed: &&Part| {
            let at = y(fixed).0;
            fixed.role == Role::FixedShelf
                && fixed.of == shelf.of
                && (y(shelf).0 < at) == (at < from)
        };
        let meets = taken.is_positive()
            && shelf.cuboid().overlap_along(&nailer.cuboid(), Direction::X).is_positive()
            && !own.iter().any(|fixed| between(&fixed));
        meets.then_some(taken)
    });
    taken.max().unwrap_or_default()
}

/// True for a loose shelf that can only come in from behind, before the back is on.
#[must_use]
pub fn is_stuck(piece: &Piece, parts: &Parts, shelf: &Part) -> bool {
    through(piece, parts, shelf).is_some_and(|through| through.is_too_low() || !through.turns)
}
