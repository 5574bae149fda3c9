//! A board of the piece.

use crate::measure::{Length, Span};
use crate::model::{CaseId, FrontId, OnTop, OpeningId, Side, Size, StockId};

use super::edging::Strip;
use super::feature::{Feature, FeatureKind};
use super::id::{Key, Of, PartId, Role, Which};
use super::joint::Joint;
use super::named::Meant;
use super::space::{Cuboid, Direction, Face, Placement};

/// What a part is put together with first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Assembly {
    /// The separate base of a case, or of several of a run, by the first of them.
    Base(CaseId),
    /// The carcass of a case.
    Carcass(CaseId),
    /// The face frame of a case.
    Frame(CaseId),
    /// A front.
    Front(FrontId),
    /// The box of the drawer in this opening.
    DrawerBox(OpeningId),
    /// What is laid on top of a case in its place.
    Countertop(CaseId),
    /// The filler at an end of a case, with its batten, or the cover over that end.
    Filler(CaseId, Side),
    /// Laid in or screwed on at the end.
    Loose(CaseId),
}

/// Which way the grain runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Grain {
    /// Along the length.
    Length,
    /// The stock has none.
    None,
}

/// The size a part is first cut to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rough {
    /// Its length.
    pub length: Length,
    /// Its width.
    pub width: Length,
    /// Its thickness.
    pub thickness: Length,
}

/// Wood that is left on at an edge or end until it is scribed to the floor or a wall.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spare {
    /// The edge or end.
    pub face: Face,
    /// How far it reaches past the finished size.
    pub by: Size,
}

/// A board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its name for print, dotted from the case: `console.bank.upper.front`.
    pub path: String,
    /// Where the end of that name begins, which is the part's own.
    pub(super) own: usize,
    /// What it is of.
    pub of: Of,
    /// Which of several.
    pub which: Which,
    /// The short mark that is pencilled on it.
    pub mark: String,
    /// What it is.
    pub role: Role,
    /// What it is put together with first.
    pub assembly: Assembly,
    /// The case it belongs to.
    pub case: CaseId,
    /// Its stock.
    pub stock: StockId,
    /// Finished, along the grain; tenons included.
    pub length: Size,
    /// Finished.
    pub width: Size,
    /// Finished.
    pub thickness: Size,
    /// The size it is first cut to.
    pub rough: Rough,
    /// Which way its grain runs.
    pub grain: Grain,
    /// Where it stands, all closed.
    pub placement: Placement,
    /// From the left side of the piece to that of its case.
    pub beside: Size,
    /// The origin of its placement along x from there, y, and z, with the statements that
    /// it comes from where they are known.
    pub stands: [Size; 3],
    /// The broad face that is seen in the finished piece. What a face is called
    /// does not go by it: see [`Part::face_name`].
    pub show: Option<Face>,
    /// The side that its front is hung on, of a part of a door.
    pub hung: Option<Side>,
    /// Wood that is left on beyond its finished size until it is scribed where the piece
    /// stands.
    pub spare: Vec<Spare>,
    /// Strips on its edges, in the order in which they go on; its size includes them.
    pub strips: Vec<Strip>,
    /// What is cut into it.
    pub features: Vec<Feature>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// The statement it comes from.
    pub span: Span,
    /// What its placement and its sizes come to, worked out once.
    pub(super) space: Cuboid,
}

impl Part {
    /// Its length, width, and thickness.
    #[must_use]
    pub fn sizes(&self) -> [Length; 3] {
        [self.length.length, self.width.length, self.thickness.length]
    }

    /// The space it takes.
    #[must_use]
    pub fn cuboid(&self) -> Cuboid {
        self.space
    }

    /// Where its side lies along a direction, with the statements that it comes
    /// from where they are known.
    #[must_use]
    pub fn side(&self, direction: Direction, far: bool) -> Size {
        let [x, y, z] = &self.stands;
        let from = match direction {
            Direction::X => &self.beside + x,
            Direction::Y => y.clone(),
            Direction::Z => z.clone(),
        };
        match far {
            true => from + self.along(direction),
            false => from,
        }
    }

    /// Its size along a direction.
    #[must_use]
    pub fn along(&self, direction: Direction) -> &Size {
        if direction == self.placement.length {
            &self.length
        } else if direction == self.placement.width {
            &self.width
        } else {
            &self.thickness
        }
    }

    /// Moves it up by so much, to be drawn there.
    pub fn raise(&mut self, by: Length) {
        self.placement.origin.y += by;
        self.space = self.space.shifted(Direction::Y, by);
    }

    /// The sizes that `u` and `v` of a face run along.
    #[must_use]
    pub fn face_size(&self, face: Face) -> (Length, Length) {
        let (length, width, thick) = (self.length.length, self.width.length, self.thickness.length);
        match face {
            Face::ThickStart | Face::ThickEnd => (length, width),
            Face::WidthStart | Face::WidthEnd => (length, thick),
            Face::LengthStart | Face::LengthEnd => (width, thick),
        }
    }

    /// What is left on it between these two faces until it is scribed.
    #[must_use]
    pub fn spare_between(&self, faces: [Face; 2]) -> Size {
        let own = self.spare.iter().filter(|spare| faces.contains(&spare.face));
        own.fold(Size::zero(), |sum, spare| sum + &spare.by)
    }

    /// Its space without its tenons: from shoulder to shoulder.
    #[must_use]
    pub fn shoulders(&self) -> Cuboid {
        let mut space = self.cuboid();
        for tenon in self.features.iter().filter(|own| own.kind == FeatureKind::Tenon) {
            let axis = self.placement.direction(tenon.face);
            match tenon.face.is_start() {
                true => space.from.set(axis, space.from.along(axis) + tenon.deep),
                false => space.to.set(axis, space.to.along(axis) - tenon.deep),
            }
        }
        space
    }

    /// The length and the width that it is sawn to with the first cuts: those of its core
    /// where its edges are covered.
    #[must_use]
    pub fn sawn(&self) -> [Length; 2] {
        match self.strips.is_empty() {
            true => self.as_made().map(|size| size.length),
            false => [self.rough.length, self.rough.width],
        }
    }

    /// The length and width that it is cut to in the shop: finished, with what is scribed
    /// off where the piece stands.
    #[must_use]
    pub fn as_made(&self) -> [Size; 2] {
        [
            &self.length + self.spare_between([Face::LengthStart, Face::LengthEnd]),
            &self.width + self.spare_between([Face::WidthStart, Face::WidthEnd]),
        ]
    }

    /// What tells it from every other part of its piece.
    #[must_use]
    pub fn key(&self) -> Key {
        Key { of: self.of, role: self.role, which: self.which }
    }

    /// The opening it belongs to, if it is one's.
    #[must_use]
    pub fn opening(&self) -> Option<OpeningId> {
        self.of.opening()
    }

    /// The end of its name, within its case or opening: `left-end`.
    #[must_use]
    pub fn word(&self) -> &str {
        self.path.get(self.own..).unwrap_or(&self.path)
    }

    /// The axis along which it lies against another part, face to face.
    #[must_use]
    pub fn touching(&self, other: &Self) -> Option<Direction> {
        let (one, two) = (self.cuboid(), other.cuboid());
        Direction::ALL.into_iter().find(|axis| one.overlap_along(&two, *axis).is_zero())
    }

    /// From and to along an axis of the piece.
    #[must_use]
    pub fn extent(&self, direction: Direction) -> (Length, Length) {
        let cuboid = self.cuboid();
        (cuboid.from.along(direction), cuboid.to.along(direction))
    }
}

/// Every part of a piece.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Parts {
    /// The parts, in the order in which they were built: case by case.
    pub all: Vec<Part>,
    /// The joints, case by case as their parts.
    pub joints: Vec<Joint>,
    /// The part that each `cut` of the piece means, in their order.
    pub cuts: Vec<Meant>,
}

impl Parts {
    /// True where a part or a strip on one is of this stock.
    #[must_use]
    pub fn uses(&self, id: StockId) -> bool {
        let is_of =
            |part: &Part| part.stock == id || part.strips.iter().any(|strip| strip.stock == id);
        self.all.iter().any(is_of)
    }

    /// A part; `None` for an id that another set gave out.
    #[must_use]
    pub fn get(&self, id: PartId) -> Option<&Part> {
        self.all.get(id.0)
    }

    /// Every part with its id.
    pub fn iter(&self) -> impl Iterator<Item = (PartId, &Part)> {
        self.all.iter().enumerate().map(|(index, part)| (PartId(index), part))
    }

    /// Every part behind the first so many, with its id.
    pub(super) fn iter_from(&self, first: usize) -> impl Iterator<Item = (PartId, &Part)> + Clone {
        (first..).map(PartId).zip(self.all.get(first..).unwrap_or(&[]))
    }

    /// The parts of the cases that a countertop lies on, with their ids, itself among them.
    #[must_use]
    pub fn under(&self, top: &OnTop) -> Vec<(PartId, &Part)> {
        self.iter().filter(|(_, part)| top.has(part.case)).collect()
    }

    /// The parts of one case; they follow each other.
    #[must_use]
    pub fn of_case(&self, case: CaseId) -> &[Part] {
        let from = self.all.partition_point(|part| part.case < case);
        let to = self.all.partition_point(|part| part.case <= case);
        self.all.get(from..to).unwrap_or(&[])
    }

    /// The end of a case at a side.
    #[must_use]
    pub fn end(&self, case: CaseId, side: Side) -> Option<&Part> {
        self.of_case(case).iter().find(|part| part.role == Role::End(side))
    }

    /// The joints of the parts of one case into others; they follow each other.
    #[must_use]
    pub fn joints_of(&self, case: CaseId) -> &[Joint] {
        let own = |joint: &Joint| self.get(joint.part).map(|part| part.case);
        let from = self.joints.partition_point(|joint| own(joint) < Some(case));
        let to = self.joints.partition_point(|joint| own(joint) <= Some(case));
        self.joints.get(from..to).unwrap_or(&[])
    }

    /// The parts of one case, each with its id.
    pub fn iter_case(&self, case: CaseId) -> impl Iterator<Item = (PartId, &Part)> + Clone {
        let from = self.all.partition_point(|part| part.case < case);
        self.iter_from(from).take(self.of_case(case).len())
    }

    /// The id of one of these parts.
    #[must_use]
    pub fn id_of(&self, part: &Part) -> Option<PartId> {
        self.iter_case(part.case).find(|(_, own)| std::ptr::eq(*own, part)).map(|(id, _)| id)
    }

    /// The mark of a part; empty for an id that another set gave out.
    #[must_use]
    pub fn mark(&self, id: PartId) -> &str {
        self.get(id).map_or("", |part| part.mark.as_str())
    }

    /// The part that a key tells from the others.
    #[must_use]
    pub fn find(&self, key: &Key) -> Option<(PartId, &Part)> {
        self.iter().find(|(_, part)| part.key() == *key)
    }
}
