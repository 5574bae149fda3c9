//! How parts come together: in which order, and from which side each.

use std::collections::BTreeSet;

use crate::measure::Length;
use crate::parts::{Direction, Joint, PartId, Parts};

use super::apart::Scene;

/// A side of the standing piece, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
    /// Below.
    Below,
    /// Above.
    Above,
    /// The front.
    Front,
    /// The back.
    Back,
}

impl Side {
    pub(super) const ALL: [Self; 6] =
        [Self::Front, Self::Above, Self::Left, Self::Right, Self::Back, Self::Below];

    /// Its name in a sentence: comes in `from the left`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Below => "below",
            Self::Above => "above",
            Self::Front => "front",
            Self::Back => "back",
        }
    }

    /// The axis that leads to it, and whether that axis begins there.
    pub(super) fn axis(self) -> (Direction, bool) {
        match self {
            Self::Left => (Direction::X, true),
            Self::Right => (Direction::X, false),
            Self::Below => (Direction::Y, true),
            Self::Above => (Direction::Y, false),
            Self::Front => (Direction::Z, true),
            Self::Back => (Direction::Z, false),
        }
    }

    /// The side across from it.
    pub(super) fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Below => Self::Above,
            Self::Above => Self::Below,
            Self::Front => Self::Back,
            Self::Back => Self::Front,
        }
    }
}

/// A straight stretch of the way in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Leg {
    /// The side that it comes from.
    pub from: Side,
    /// How far; from outside the piece where nothing is said.
    pub by: Option<Length>,
}

/// What comes in as one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Move {
    /// Its parts.
    pub parts: Vec<PartId>,
    /// Its way in, the first leg first; none for what lies there already.
    pub legs: Vec<Leg>,
    /// It is tilted in, because no straight way leads to its place.
    pub tilted: bool,
}

/// What is put together by itself: a whole assembly, or some of its parts that go
/// into the rest as one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The joints that close, by their place among all.
    pub joints: Vec<usize>,
    /// How its parts come together.
    pub moves: Vec<Move>,
}

impl Step {
    /// All its parts.
    pub(crate) fn parts(&self) -> BTreeSet<PartId> {
        self.moves.iter().flat_map(|own| own.parts.iter().copied()).collect()
    }
}

/// The way in which these joints, each with its place among all, are closed: what
/// is put together by itself stands before what it goes into. `fixed` gives all
/// the parts that a part is one with already.
pub(in crate::plans) fn steps(
    parts: &Parts,
    joints: &[(usize, &Joint)],
    fixed: &dyn Fn(PartId) -> Vec<PartId>,
) -> Vec<Step> {
    let scene = Scene::new(parts, joints.iter().map(|(_, joint)| *joint).collect(), fixed);
    let mut closed: BTreeSet<usize> = BTreeSet::new();
    scene
        .apart()
        .into_iter()
        .map(|lot| {
            let is_within = |joint: &Joint| {
                [joint.part, joint.into].iter().all(|id| lot.has(scene.group_of(*id)))
            };
            let own = joints.iter().filter(|(_, joint)| is_within(joint));
            let joints = own.map(|(index, _)| *index).filter(|index| closed.insert(*index));
            Step { joints: joints.collect(), moves: lot.moves }
        })
        .collect()
}
