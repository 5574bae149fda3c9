//! The marks of a part: the face, the edge and the end that everything on it is
//! set from. A mark never lies on an edge that may still be planed or scribed.

use crate::measure::Length;
use crate::model::{RailSide, Side};

use super::feature::{Bore, FeatureKind};
use super::id::{Role, Which};
use super::part::Part;
use super::space::{Direction, Face};

/// The marks of a part; `None` where nothing on it is set from one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Marks {
    /// The face side: a broad face, marked with a loop.
    pub side: Option<Face>,
    /// The face edge, marked with a V whose point touches the face side.
    pub edge: Option<Face>,
    /// The datum end, marked with a bar: lengths count from it.
    pub end: Option<Face>,
}

impl Marks {
    /// The one of two faces across from each other that carries a mark.
    #[must_use]
    pub fn among(&self, faces: [Face; 2]) -> Option<Face> {
        let marked = [self.side, self.edge, self.end];
        faces.into_iter().find(|face| marked.contains(&Some(*face)))
    }
}

impl Part {
    /// Its face side, face edge and datum end.
    ///
    /// Uprights count from the bottom end, so that what is level in the piece
    /// is set alike on all of them; lying parts count from the left end. A
    /// frame member is marked on the edge toward its opening, which is also the
    /// one that a scribed or mitered stile keeps; a front on the edge that is
    /// not planed to the opening (common practice, no source).
    #[must_use]
    pub fn marks(&self) -> Marks {
        let to = |direction, start| self.placement.face(direction, start);
        let (left, front) = (to(Direction::X, true), to(Direction::Z, true));
        let (bottom, top) = (to(Direction::Y, true), to(Direction::Y, false));
        let marks = |side, edge, end| Marks { side: Some(side), edge: Some(edge), end: Some(end) };
        let inner = |side: Side| self.side_edge(side.other());
        match self.role {
            Role::End(_) => Marks { side: self.inside(), ..marks(left, front, bottom) },
            // What stands on the floor may be trimmed there; the rails at the top are flush
            // with all four.
            Role::Post(side) => {
                let away = to(Direction::Z, self.which == Which::Front);
                marks(away, inner(side), top)
            }
            // They are flush with the posts on the inside, and the panel lies in the edge.
            Role::EndRail(_) if self.which == Which::Top => {
                Marks { side: self.inside(), ..marks(left, bottom, front) }
            }
            Role::EndRail(_) => Marks { side: self.inside(), ..marks(left, top, front) },
            Role::EndPanel(_) => marks(self.inside().map_or(left, Face::opposite), front, bottom),
            Role::Partition => marks(left, front, bottom),
            // A whole top lies between the ends, flush with their front edges, and
            // is marked like the bottom below it.
            Role::Bottom
            | Role::Top
            | Role::Countertop
            | Role::Stretcher
            | Role::Divider
            | Role::FixedShelf
            | Role::AdjustableShelf
            | Role::DrawerBottom => marks(top, front, left),
            Role::Back if self.placement.length == Direction::Y => marks(front, left, bottom),
            // The edge of a rail that its runners stand on.
            Role::WebRail if self.which == Which::Front => {
                marks(top, to(Direction::Z, false), left)
            }
            Role::WebRail => marks(top, front, left),
            Role::DustPanel if self.placement.length == Direction::X => marks(top, front, left),
            Role::WebRunner | Role::DustPanel => marks(top, left, front),
            // The edge that lies against a board of the case.
            Role::Nailer(RailSide::Top) => marks(front, top, left),
            Role::Back | Role::Nailer(RailSide::Bottom) => marks(front, bottom, left),
            // The floor may take wood off the lower edge of these, so their
            // height counts from the top. Legs and sleepers run from front to
            // back.
            Role::Kick => marks(front, top, left),
            Role::BaseMember if self.placement.length == Direction::X => marks(front, top, left),
            Role::Leg | Role::BaseLeg | Role::BaseMember => marks(left, top, front),
            Role::Stile | Role::FrontStile => marks(front, self.at().map_or(left, inner), bottom),
            // The opening of a top rail, or its panel, is below it; that of another
            // stands on it.
            Role::Rail | Role::FrontRail if self.which == Which::Top => marks(front, bottom, left),
            Role::Rail | Role::FrontRail => marks(front, top, left),
            Role::Slab => match self.hung {
                Some(side) if self.placement.length == Direction::Y => {
                    marks(self.slab_side(), self.side_edge(side), bottom)
                }
                Some(side) => marks(self.slab_side(), bottom, self.side_edge(side)),
                None if self.placement.length == Direction::Y => marks(front, left, bottom),
                None => marks(front, bottom, left),
            },
            Role::FrontPanel => marks(front, left, bottom),
            Role::DrawerSide => Marks { side: self.inside(), ..marks(left, bottom, front) },
            Role::DrawerFront | Role::DrawerBack => {
                Marks { side: self.inside(), ..marks(front, bottom, left) }
            }
            // The floor may take wood off its lower end or edge, and the wall off its rear.
            Role::Cover if self.which == Which::Back => match self.placement.length {
                Direction::Y => marks(front, left, top),
                Direction::X | Direction::Z => marks(front, top, left),
            },
            Role::Cover if self.which == Which::Bottom => marks(top, front, left),
            Role::Cover => Marks { side: self.inside(), ..marks(left, front, top) },
            Role::Filler => marks(front, self.at().map_or(left, inner), bottom),
            Role::Batten => marks(left, front, bottom),
            Role::HingeBlock => Marks { side: self.show, ..marks(left, front, bottom) },
            Role::HoldingBlock if self.placement.thickness == Direction::X => {
                marks(left, front, bottom)
            }
            Role::HoldingBlock => marks(front, left, bottom),
            // It is cut to length and screwed on; nothing is set on it.
            Role::Packer | Role::Guide | Role::Kicker | Role::Runner | Role::Stop | Role::Bead => {
                Marks::default()
            }
        }
    }

    /// The face side of a door: the front for flutes, the back where it carries
    /// only the cups of its hinges.
    fn slab_side(&self) -> Face {
        let has = |is: fn(&FeatureKind) -> bool| self.features.iter().any(|f| is(&f.kind));
        let fluted = has(|kind| matches!(kind, FeatureKind::Flute(_)));
        let bored = has(|kind| matches!(kind, FeatureKind::Bore(Bore::Cup)));
        self.placement.face(Direction::Z, fluted || !bored)
    }

    /// The face that a place counts from, of two across from each other: the
    /// marked one, or where none is the first.
    #[must_use]
    pub fn datum(&self, faces: [Face; 2]) -> Face {
        self.marks().among(faces).unwrap_or(faces[0])
    }

    /// How far a place lies from a face, counted along the part's own axes.
    #[must_use]
    pub fn distance(&self, datum: Face, place: Length) -> Length {
        if datum.is_start() { place } else { self.depth(datum) - place }
    }
}
