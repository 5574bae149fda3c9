//! What the faces, edges and ends of a part are called: by where they end up in
//! the finished piece. Left and right are as seen from the front.

use crate::model::{Leaf, Side};

use super::id::{Of, Role, Which};
use super::part::Part;
use super::space::{Direction, Face};

/// What its place alone does not say of an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Edge {
    /// Away from the openings.
    Outer,
    /// Toward them, or toward the panel of a front.
    Inner,
    /// On the side of the hinges.
    Hinge,
    /// Across from the hinges.
    Latch,
    /// Across from the hinges, where the other leaf of a pair closes beside it.
    Meeting,
}

impl Edge {
    fn word(self) -> &'static str {
        match self {
            Self::Outer => "outer",
            Self::Inner => "inner",
            Self::Hinge => "hinge",
            Self::Latch => "latch",
            Self::Meeting => "meeting",
        }
    }
}

/// What sets the names of a part apart from those of place.
enum Names {
    /// Nothing does.
    Place,
    /// It closes one side of a case or a box: the broad face that looks in, and
    /// what the other is called.
    Closes(Face, &'static str),
    /// Its left and its right edge have names of their own.
    Edges([Edge; 2]),
}

impl Part {
    /// A face by its trade name: `inside face`, `underside`, `hinge edge`,
    /// `bottom end`.
    #[must_use]
    pub fn face_name(&self, face: Face) -> String {
        let (direction, start) = (self.placement.direction(face), face.is_start());
        if let Role::Post(side) = self.role {
            return self.post_face_name(side, face);
        }
        let place = match (direction, start) {
            (Direction::Y, true) if face.is_broad() => return "underside".to_owned(),
            _ => self.placement.side(face),
        };
        let word = match self.names() {
            Names::Closes(inside, _) if face == inside => "inside",
            Names::Closes(inside, out) if face == inside.opposite() => out,
            Names::Edges([left, _]) if face == self.side_edge(Side::Left) => left.word(),
            Names::Edges([_, right]) if face == self.side_edge(Side::Right) => right.word(),
            Names::Place | Names::Closes(..) | Names::Edges(_) => place,
        };
        format!("{word} {}", face.noun())
    }

    /// A post has four faces alike, and two ends.
    fn post_face_name(&self, side: Side, face: Face) -> String {
        match self.placement.direction(face) {
            Direction::X if face == self.side_edge(side.other()) => "inside face".to_owned(),
            Direction::X => "outside face".to_owned(),
            Direction::Z => format!("{} face", self.placement.side(face)),
            Direction::Y => format!("{} end", self.placement.side(face)),
        }
    }

    /// The broad face that looks into the case or the drawer box, of a part that
    /// closes one side of it.
    pub(super) fn inside(&self) -> Option<Face> {
        match self.names() {
            Names::Closes(inside, _) => Some(inside),
            Names::Place | Names::Edges(_) => None,
        }
    }

    /// The edge on the side of the hinges: of a door of one board, or of the
    /// stile that carries them.
    #[must_use]
    pub fn hinge_edge(&self) -> Option<Face> {
        let Names::Edges(edges) = self.names() else { return None };
        let at = Side::BOTH.into_iter().zip(edges).find(|(_, edge)| *edge == Edge::Hinge);
        at.map(|(side, _)| self.side_edge(side))
    }

    /// The left or right edge of a part that stands in the plane of the front.
    pub(super) fn side_edge(&self, side: Side) -> Face {
        self.placement.face(Direction::X, side == Side::Left)
    }

    /// The side it is at, of two alike.
    pub(super) fn at(&self) -> Option<Side> {
        match self.which {
            Which::At(side) => Some(side),
            Which::Only
            | Which::Top
            | Which::Bottom
            | Which::Front
            | Which::Back
            | Which::Number(_)
            | Which::AtNumber(..) => None,
        }
    }

    fn names(&self) -> Names {
        let looks = |direction, start| self.placement.face(direction, start);
        let closes = |side| Names::Closes(looks(Direction::X, side == Side::Right), "outside");
        match self.role {
            Role::End(side) | Role::EndRail(side) | Role::EndPanel(side) => closes(side),
            Role::Cover if self.which == Which::Back => {
                Names::Closes(looks(Direction::Z, true), "outside")
            }
            Role::DrawerSide | Role::Cover => self.at().map_or(Names::Place, closes),
            Role::DrawerFront => Names::Closes(looks(Direction::Z, false), "outside"),
            Role::DrawerBack => Names::Closes(looks(Direction::Z, true), "outside"),
            Role::Back => Names::Closes(looks(Direction::Z, true), "wall"),
            Role::Stile | Role::Filler => match self.at() {
                Some(Side::Left) => Names::Edges([Edge::Outer, Edge::Inner]),
                Some(Side::Right) => Names::Edges([Edge::Inner, Edge::Outer]),
                None => Names::Place,
            },
            Role::FrontStile => {
                let [left, right] = self.leaf_edges().unwrap_or([Edge::Outer; 2]);
                match self.at() {
                    Some(Side::Left) => Names::Edges([left, Edge::Inner]),
                    Some(Side::Right) => Names::Edges([Edge::Inner, right]),
                    None => Names::Place,
                }
            }
            Role::Slab => self.leaf_edges().map_or(Names::Place, Names::Edges),
            Role::Post(_)
            | Role::Bottom
            | Role::Top
            | Role::Countertop
            | Role::Stretcher
            | Role::Nailer(_)
            | Role::Partition
            | Role::Divider
            | Role::FixedShelf
            | Role::WebRail
            | Role::WebRunner
            | Role::DustPanel
            | Role::AdjustableShelf
            | Role::Leg
            | Role::Kick
            | Role::BaseMember
            | Role::BaseLeg
            | Role::Rail
            | Role::FrontRail
            | Role::FrontPanel
            | Role::Bead
            | Role::DrawerBottom
            | Role::Packer
            | Role::HingeBlock
            | Role::HoldingBlock
            | Role::Guide
            | Role::Kicker
            | Role::Runner
            | Role::Stop
            | Role::Batten => Names::Place,
        }
    }

    /// The left and the right edge of the door that it is of.
    fn leaf_edges(&self) -> Option<[Edge; 2]> {
        // With level grain they are the ends of the board, and go by their sides.
        if self.placement.length != Direction::Y {
            return None;
        }
        let latch = match self.of {
            Of::Front(front) => match front.leaf {
                Leaf::LeftDoor | Leaf::RightDoor => Edge::Meeting,
                Leaf::Door | Leaf::Front => Edge::Latch,
            },
            Of::Case(_) | Of::Row(_) | Of::Member(_) | Of::Opening(_) => return None,
        };
        Some(match self.hung? {
            Side::Left => [Edge::Hinge, latch],
            Side::Right => [latch, Edge::Hinge],
        })
    }
}
