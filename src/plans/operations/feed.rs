//! Which way the router is pushed along its straight-edge, or the bit of a router
//! table goes through the work.

use crate::parts::{Face, Part};
use crate::plans::guide::Guide;
use crate::plans::made::axis;

/// From one face of a part to the face across from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Feed {
    /// Where the router comes from.
    pub from: Face,
    /// Where it goes to.
    pub to: Face,
}

/// The feed that has the straight-edge on its left, seen from above the face
/// that is cut. Pushed over a router table from right to left, the work has the
/// fence on the right of the bit's way through it, and the face that the bit comes
/// from goes first.
#[must_use]
pub fn feed(part: &Part, guide: Guide, cut: Face, datum: Face) -> Feed {
    let toward_datum = match guide {
        Guide::Near => true,
        Guide::Far | Guide::Table | Guide::Saw => false,
    };
    let run = 3 - axis(cut) - axis(datum);
    // Left of a feed f, over a face that looks along n, lies n × f: a guide on
    // the side of the datum, against the way d away from it, asks for f = n × d.
    let out = !cut.is_start();
    let away = datum.is_start();
    let turn = is_even([axis(cut), axis(datum), run]) == is_right_handed(part);
    let mut forward = (out == away) == turn;
    if !toward_datum {
        forward = !forward;
    }
    let (start, end) = match run {
        0 => (Face::LengthStart, Face::LengthEnd),
        1 => (Face::WidthStart, Face::WidthEnd),
        _ => (Face::ThickStart, Face::ThickEnd),
    };
    let (from, to) = if forward { (start, end) } else { (end, start) };
    Feed { from, to }
}

/// True where length, width and thickness are a right-handed frame. The axes of
/// the piece are not: z runs away from whoever sees x to the right and y up.
fn is_right_handed(part: &Part) -> bool {
    let place = part.placement;
    !is_even([place.length, place.width, place.thickness].map(|axis| axis as usize))
}

/// True for an even order of three axes.
fn is_even(axes: [usize; 3]) -> bool {
    matches!(axes, [0, 1, 2] | [1, 2, 0] | [2, 0, 1])
}
