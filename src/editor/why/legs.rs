//! Where the holes for bought legs lie, and how large they are.

use crate::measure::Length;
use crate::model::{Fixing, Size};
use crate::parts::{self, Part};
use crate::vocabulary::words;

use super::teller::Teller;

/// Where a hole lies on its bottom, from its left end and from its front edge.
pub(super) fn hole(tell: &Teller<'_>, part: &Part, (u, v): (Length, Length)) -> (Size, Size) {
    let case = tell.piece.case(part.case);
    let all = case.map_or(Vec::new(), |case| parts::legs_under(tell.piece, case, part));
    let mut holes = all.into_iter().flat_map(|leg| leg.holes);
    let found = holes.find(|[along, across]| (along.length, across.length) == (u, v));
    found.map_or_else(|| (u.into(), v.into()), |[along, across]| (along, across))
}

/// The diameter and the depth of a hole, as the sheet of the leg gives them.
pub(super) fn drill(tell: &Teller<'_>, part: &Part, (wide, deep): (Length, Length)) -> Vec<Size> {
    let case = tell.piece.case(part.case);
    let Some((_, leg)) = case.and_then(|case| tell.piece.legs_under(case)) else {
        return Vec::new();
    };
    let at = Some(leg.span);
    let (across, down) = match leg.fixing {
        Fixing::Plate { .. } => {
            use words::leg_plate::{BLOCK, DEEP, PILOT};
            (tell.origin(&BLOCK, PILOT, at), tell.origin(&BLOCK, DEEP, at))
        }
        Fixing::Bolt(_) | Fixing::Dowel(_) => {
            use words::leg_hole::{BLOCK, BORE, DEEP};
            (tell.origin(&BLOCK, BORE, at), tell.origin(&BLOCK, DEEP, at))
        }
    };
    vec![
        tell.fact(wide, format!("hole for {}", leg.name), across),
        tell.fact(deep, format!("depth of the hole for {}", leg.name), down),
    ]
}
