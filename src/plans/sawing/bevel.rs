//! An edge that is mitered along its whole length.

use crate::measure::{Length, Unit};
use crate::model::Shop;
use crate::parts::{Face, Feature, FeatureKind, Part};

use super::Tool;

/// How an edge is mitered at 45 degrees so that the board keeps its width to the long point.
///
/// Against the fence the blade leans away from it, so that what comes off lies free and
/// below, and the face with the long point looks up. By hand that face looks down, as the
/// good face of a sheet does under such a saw, and the line is struck on the other. Either
/// way the blade enters the lower or leaves the upper face as far from the far edge as the
/// board is wide less its thickness (plane geometry; which face looks up: common practice, no
/// source).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Bevel {
    /// The fence, or a straight-edge for a saw by hand where the board is too large.
    pub tool: Tool,
    /// The edge that `at` counts from.
    pub on: Face,
    /// The face that looks up.
    pub up: Face,
    /// From that edge to the blade, on the face without the long point.
    pub at: Length,
}

impl Bevel {
    /// For a feature of a part; `None` for all but a miter along an edge through the whole
    /// thickness, one face of which is seen.
    #[must_use]
    pub fn of(shop: &Shop, unit: Unit, part: &Part, feature: &Feature) -> Option<Self> {
        let [long, wide, thick] = [&part.length, &part.width, &part.thickness].map(|s| s.length);
        let is_edge = matches!(feature.face, Face::WidthStart | Face::WidthEnd);
        if feature.kind != FeatureKind::Miter || !is_edge || feature.deep != thick {
            return None;
        }
        let show = part.show?;
        let tool = match Tool::of(shop, unit, (long, wide - thick, wide)) {
            Tool::Fence => Tool::Fence,
            Tool::Sled | Tool::Guide => Tool::Guide,
        };
        let up = if tool == Tool::Fence { show } else { show.opposite() };
        Some(Self { tool, on: feature.face.opposite(), up, at: wide - thick })
    }
}
