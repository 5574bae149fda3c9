//! The edges of an opening or a front, seen from the front.

use crate::vocabulary::Side;

use super::opening::Axis;

/// An edge of an opening or a front, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edge {
    /// The left.
    Left,
    /// The right.
    Right,
    /// The upper.
    Top,
    /// The lower.
    Bottom,
}

impl Edge {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Left, Self::Right, Self::Top, Self::Bottom];

    /// The one at a side.
    #[must_use]
    pub fn at(side: Side) -> Self {
        match side {
            Side::Left => Self::Left,
            Side::Right => Self::Right,
        }
    }

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Top => "top",
            Self::Bottom => "bottom",
        }
    }

    /// The edge that faces it across a gap.
    #[must_use]
    pub fn facing(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Top => Self::Bottom,
            Self::Bottom => Self::Top,
        }
    }

    /// The axis across which it lies: of a list along it, the neighbor is beyond it.
    #[must_use]
    pub fn axis(self) -> Axis {
        match self {
            Self::Left | Self::Right => Axis::Across,
            Self::Top | Self::Bottom => Axis::Down,
        }
    }

    /// True where the item beyond it comes after, in a list along its axis.
    #[must_use]
    pub fn is_last(self) -> bool {
        matches!(self, Self::Right | Self::Bottom)
    }
}

/// One of a thing for each edge.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Edges<T>([T; 4]);

impl<T> Edges<T> {
    /// What `of` gives for each edge.
    #[must_use]
    pub fn new(of: impl FnMut(Edge) -> T) -> Self {
        Self(Edge::ALL.map(of))
    }

    /// That of one edge.
    #[must_use]
    pub fn of(&self, edge: Edge) -> &T {
        let [left, right, top, bottom] = &self.0;
        match edge {
            Edge::Left => left,
            Edge::Right => right,
            Edge::Top => top,
            Edge::Bottom => bottom,
        }
    }
}
