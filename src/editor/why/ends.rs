//! Where the tenons of a paneled end lie on its rails and posts.

use crate::measure::Length;
use crate::model::Size;
use crate::parts::{Direction, Part, PartId, Role};

use super::cuts::SET_IN;
use super::depth::panel;
use super::teller::Teller;

/// Where the tenons of the rails of an end begin and end along the width of those: on the
/// rail itself, or on a post, from where that begins.
pub(super) fn at_rails(
    tell: &Teller<'_>,
    (id, part): (PartId, &Part),
    direction: Direction,
) -> Vec<Size> {
    let panel = panel(tell, part).filter(|_| part.role.end_side().is_some());
    let Some(panel) = panel else { return Vec::new() };
    let joints = tell.parts.joints.iter().filter(|joint| joint.into == id);
    let joined = joints.filter_map(|joint| tell.parts.get(joint.part));
    let rails = joined.chain([part]).filter(|own| matches!(own.role, Role::EndRail(_)));
    let start = part.side(direction, false);
    rails
        .flat_map(|rail| {
            let own = panel.set_in(rail.width.length, tell.tape.mark);
            let set_in = set_in(tell, own, panel.set_in.as_ref());
            let [low, high] = [false, true].map(|far| rail.side(direction, far) - &start);
            [&low + &panel.groove, &high - &panel.groove, low + &set_in, high - set_in]
        })
        .collect()
}

/// How far tenons are set in: as it is written, or by the rule.
pub(super) fn set_in(tell: &Teller<'_>, own: Length, written: Option<&Size>) -> Size {
    let written = written.filter(|size| size.length == own).cloned();
    written.unwrap_or_else(|| tell.custom(own, "set-in of the tenon", SET_IN))
}

/// Where the posts of its case begin and end, from where a board that is notched around
/// them begins.
pub(super) fn at_posts(tell: &Teller<'_>, part: &Part, direction: Direction) -> Vec<Size> {
    let own = tell.parts.of_case(part.case).iter();
    let posts = own.filter(|post| matches!(post.role, Role::Post(_)));
    let start = part.side(direction, false);
    posts.flat_map(|post| [false, true].map(|far| post.side(direction, far) - &start)).collect()
}
