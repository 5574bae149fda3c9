//! Places in space. x runs to the right seen from the front, y up from the
//! floor, z back from the foremost face; the origin is the lower left front
//! corner of the whole piece.

use crate::measure::Length;
use crate::model::{KeepOut, Piece};

/// A point, or a size along the three axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Point {
    /// To the right.
    pub x: Length,
    /// Up.
    pub y: Length,
    /// Back.
    pub z: Length,
}

impl Point {
    /// A point.
    #[must_use]
    pub const fn new(x: Length, y: Length, z: Length) -> Self {
        Self { x, y, z }
    }

    /// The coordinate along a direction.
    #[must_use]
    pub fn along(&self, direction: Direction) -> Length {
        *self.at(direction)
    }

    fn at(&self, direction: Direction) -> &Length {
        match direction {
            Direction::X => &self.x,
            Direction::Y => &self.y,
            Direction::Z => &self.z,
        }
    }

    pub(crate) fn set(&mut self, direction: Direction, value: Length) {
        match direction {
            Direction::X => self.x = value,
            Direction::Y => self.y = value,
            Direction::Z => self.z = value,
        }
    }
}

/// An axis of the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Direction {
    /// Left to right.
    X,
    /// Up.
    Y,
    /// Front to back.
    Z,
}

impl Direction {
    /// All three.
    pub const ALL: [Self; 3] = [Self::X, Self::Y, Self::Z];

    /// Which of the three axes of the piece it is: 0 for the first.
    #[must_use]
    pub(crate) fn index(self) -> usize {
        match self {
            Self::X => 0,
            Self::Y => 1,
            Self::Z => 2,
        }
    }
}

/// A face of a part, named in the part's own frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Where the length begins: an end.
    LengthStart,
    /// Where the length ends.
    LengthEnd,
    /// Where the width begins: an edge.
    WidthStart,
    /// Where the width ends.
    WidthEnd,
    /// Where the thickness begins: a broad face.
    ThickStart,
    /// Where the thickness ends.
    ThickEnd,
}

impl Face {
    /// All six.
    pub const ALL: [Self; 6] = [
        Self::LengthStart,
        Self::LengthEnd,
        Self::WidthStart,
        Self::WidthEnd,
        Self::ThickStart,
        Self::ThickEnd,
    ];

    /// True where the axis begins.
    #[must_use]
    pub fn is_start(self) -> bool {
        matches!(self, Self::LengthStart | Self::WidthStart | Self::ThickStart)
    }

    /// The face across from it.
    #[must_use]
    pub fn opposite(self) -> Self {
        match self {
            Self::LengthStart => Self::LengthEnd,
            Self::LengthEnd => Self::LengthStart,
            Self::WidthStart => Self::WidthEnd,
            Self::WidthEnd => Self::WidthStart,
            Self::ThickStart => Self::ThickEnd,
            Self::ThickEnd => Self::ThickStart,
        }
    }

    /// True for the two broad faces, between the edges and ends.
    #[must_use]
    pub fn is_broad(self) -> bool {
        matches!(self, Self::ThickStart | Self::ThickEnd)
    }

    /// `end`, `edge` or `face`.
    #[must_use]
    pub fn noun(self) -> &'static str {
        match self {
            Self::LengthStart | Self::LengthEnd => "end",
            Self::WidthStart | Self::WidthEnd => "edge",
            Self::ThickStart | Self::ThickEnd => "face",
        }
    }
}

/// Where a part stands: its corner nearest the origin, and the axes of the
/// piece that its length, width and thickness run along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placement {
    /// The corner with the least x, y and z.
    pub origin: Point,
    /// The axis its length runs along.
    pub length: Direction,
    /// The axis its width runs along.
    pub width: Direction,
    /// The axis its thickness runs along.
    pub thickness: Direction,
}

impl Placement {
    /// The axis that a face looks along.
    #[must_use]
    pub fn direction(&self, face: Face) -> Direction {
        match face {
            Face::LengthStart | Face::LengthEnd => self.length,
            Face::WidthStart | Face::WidthEnd => self.width,
            Face::ThickStart | Face::ThickEnd => self.thickness,
        }
    }

    /// The face that looks along a direction, towards its start or its end.
    #[must_use]
    pub fn face(&self, direction: Direction, start: bool) -> Face {
        let (first, last) = if direction == self.length {
            (Face::LengthStart, Face::LengthEnd)
        } else if direction == self.width {
            (Face::WidthStart, Face::WidthEnd)
        } else {
            (Face::ThickStart, Face::ThickEnd)
        };
        if start { first } else { last }
    }

    /// The place of a face in words: `left`, `top`, `front`.
    #[must_use]
    pub fn side(&self, face: Face) -> &'static str {
        match (self.direction(face), face.is_start()) {
            (Direction::X, true) => "left",
            (Direction::X, false) => "right",
            (Direction::Y, true) => "bottom",
            (Direction::Y, false) => "top",
            (Direction::Z, true) => "front",
            (Direction::Z, false) => "back",
        }
    }
}

/// A box in space.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cuboid {
    /// The corner with the least x, y and z.
    pub from: Point,
    /// The corner with the greatest.
    pub to: Point,
}

impl Cuboid {
    /// The box of a part.
    #[must_use]
    pub fn of(placement: &Placement, length: Length, width: Length, thickness: Length) -> Self {
        let from = placement.origin;
        let mut to = from;
        to.set(placement.length, from.along(placement.length) + length);
        to.set(placement.width, from.along(placement.width) + width);
        to.set(placement.thickness, from.along(placement.thickness) + thickness);
        Self { from, to }
    }

    /// How far two boxes overlap along an axis; nought or less where they don't.
    #[must_use]
    pub fn overlap_along(&self, other: &Self, direction: Direction) -> Length {
        let from = self.from.along(direction).max(other.from.along(direction));
        let to = self.to.along(direction).min(other.to.along(direction));
        to - from
    }

    /// True where two boxes share more than a point of an axis.
    #[must_use]
    pub fn overlaps_along(&self, other: &Self, direction: Direction) -> bool {
        let from = self.from.at(direction).max(other.from.at(direction));
        from < self.to.at(direction).min(other.to.at(direction))
    }

    /// True where two boxes share space, touching faces not counted.
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        let along = |axis| self.overlaps_along(other, axis);
        along(Direction::X) && along(Direction::Y) && along(Direction::Z)
    }

    /// The smallest box that holds both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        let (a, b) = (self, other);
        Self {
            from: Point::new(
                a.from.x.min(b.from.x),
                a.from.y.min(b.from.y),
                a.from.z.min(b.from.z),
            ),
            to: Point::new(a.to.x.max(b.to.x), a.to.y.max(b.to.y), a.to.z.max(b.to.z)),
        }
    }

    /// The same box so far along an axis.
    #[must_use]
    pub fn shifted(&self, direction: Direction, by: Length) -> Self {
        let Self { mut from, mut to } = *self;
        for corner in [&mut from, &mut to] {
            corner.set(direction, corner.along(direction) + by);
        }
        Self { from, to }
    }

    /// The size along an axis.
    #[must_use]
    pub fn size(&self, direction: Direction) -> Length {
        self.to.along(direction) - self.from.along(direction)
    }
}

/// The space of a keep-out: the wall stands behind the deepest case.
#[must_use]
pub fn keep_out_space(piece: &Piece, keep_out: &KeepOut) -> Cuboid {
    let wall = piece.wall();
    Cuboid {
        from: Point::new(keep_out.from_left, keep_out.up, wall - keep_out.deep),
        to: Point::new(keep_out.from_left + keep_out.wide, keep_out.up + keep_out.high, wall),
    }
}
