//! What all builders share: where the planes of a case lie, and how a part,
//! a feature or a joint is added.

use crate::measure::{Length, Span};
use crate::model::{Case, CaseId, Joinery, JointKind, Piece, Side, Size, StockId};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Key, Of, PartId, Role, Which};
use crate::parts::joint::{Joint, JointSort};
use crate::parts::part::{Assembly, Grain, Part, Parts, Rough};
use crate::parts::path;
use crate::parts::space::{Cuboid, Direction, Face, Placement, Point};
use crate::trade;

use super::aside::Aside;
use super::posts;

/// The planes of a case that lie parallel to its front, from the foremost face.
#[derive(Clone, Debug)]
pub struct Planes {
    /// The face of the frame, or the front edge of a frame-less carcass.
    pub frame: Size,
    /// The front edge of the carcass, behind the frame.
    pub carcass: Size,
    /// The inside of the back.
    pub inside: Size,
    /// The rear of the case.
    pub rear: Size,
}

/// A part before it is added.
pub(super) struct Draft {
    pub(super) of: Of,
    pub(super) which: Which,
    pub(super) role: Role,
    pub(super) assembly: Assembly,
    pub(super) stock: StockId,
    pub(super) length: Size,
    pub(super) width: Size,
    /// The stock's own unless given.
    pub(super) thickness: Option<Size>,
    /// Its origin, along x from the left side of the case, with the statements that it comes
    /// from where they are known.
    pub(super) stands: [Size; 3],
    pub(super) axes: [Direction; 3],
    pub(super) show: Option<Face>,
    pub(super) span: Span,
    pub(super) notes: Vec<String>,
}

/// Upright, facing left or right: length up, width back, thickness across.
pub(super) const UPRIGHT: [Direction; 3] = [Direction::Y, Direction::Z, Direction::X];
/// Lying: length across, width back, thickness up.
pub(super) const LYING: [Direction; 3] = [Direction::X, Direction::Z, Direction::Y];
/// In the plane of the front, length up.
pub(super) const STANDING: [Direction; 3] = [Direction::Y, Direction::X, Direction::Z];
/// In the plane of the front, length across.
pub(super) const ACROSS: [Direction; 3] = [Direction::X, Direction::Y, Direction::Z];
/// Upright and square to the front, length back, width up.
pub(super) const SIDEWAYS: [Direction; 3] = [Direction::Z, Direction::Y, Direction::X];

/// Lying, from front to back: length back, width across, thickness up.
pub(super) const INWARD: [Direction; 3] = [Direction::Z, Direction::X, Direction::Y];

/// Adds the parts of one case.
pub(super) struct Builder<'a> {
    pub(super) piece: &'a Piece,
    pub(super) case: &'a Case,
    pub(super) id: CaseId,
    /// The first part of this case: a look-up never goes through the others'.
    first: usize,
    pub(super) parts: &'a mut Parts,
    pub(super) planes: Planes,
    /// The hinges that stand elsewhere than at even steps.
    pub(super) aside: &'a Aside,
}

impl<'a> Builder<'a> {
    pub(super) fn new(
        piece: &'a Piece,
        case: &'a Case,
        parts: &'a mut Parts,
        aside: &'a Aside,
    ) -> Self {
        let planes = planes(piece, case);
        let first = parts.all.len();
        Self { piece, case, id: case.id, first, parts, planes, aside }
    }

    /// From the left side of the case to a place in the whole piece.
    pub(super) fn at(&self, x: Length, y: Length, z: Length) -> Point {
        Point::new(self.case.x + x, y, z)
    }

    /// A place in the case, with the statements it comes from.
    pub(super) fn stands(x: impl Into<Size>, y: impl Into<Size>, z: impl Into<Size>) -> [Size; 3] {
        [x.into(), y.into(), z.into()]
    }

    /// Where a face of a board lies along x, in the whole piece: at `plane`.
    pub(super) fn side(&self, board: PartId, far: bool, plane: Length) -> Size {
        let side = self.part(board).map(|board| board.side(Direction::X, far));
        side.filter(|side| side.length == plane).unwrap_or_else(|| plane.into())
    }

    /// The parts of this case so far.
    pub(super) fn own(&self) -> impl Iterator<Item = (PartId, &Part)> {
        self.parts.iter_from(self.first)
    }

    /// A part that several cases share, by the first of them.
    pub(super) fn shared(&self, first: CaseId, role: Role, which: Which) -> Option<PartId> {
        let key = Key { of: Of::Row(first), role, which };
        self.parts.iter_case(first).find(|(_, part)| part.key() == key).map(|(id, _)| id)
    }

    pub(super) fn thickness(&self, stock: StockId) -> Size {
        self.piece.thickness(stock)
    }

    pub(super) fn add(&mut self, draft: Draft) -> PartId {
        let thickness = draft.thickness.unwrap_or_else(|| self.thickness(draft.stock));
        let (mut rough, grain) = match self.piece.stock(draft.stock) {
            Some(stock) if stock.is_solid() => {
                let shop = &self.piece.shop;
                let rough = Rough {
                    length: draft.length.length + shop.allow_length,
                    width: draft.width.length + shop.allow_width,
                    thickness: stock.nominal,
                };
                (rough, Grain::Length)
            }
            stock => {
                let rough = Rough {
                    length: draft.length.length,
                    width: draft.width.length,
                    thickness: thickness.length,
                };
                (rough, sheet_grain(stock))
            }
        };
        // A part thicker than its rough board is glued up from layers.
        rough.thickness = rough.thickness.max(thickness.length);
        let [length, width, thick] = draft.axes;
        let [x, y, z] = &draft.stands;
        let key = Key { of: draft.of, role: draft.role, which: draft.which };
        let (path, own) = path::path(self.piece, &key);
        let hung = self.hung(draft.of);
        let placement = Placement {
            origin: Point::new(self.case.beside.length + x.length, y.length, z.length),
            length,
            width,
            thickness: thick,
        };
        let space =
            Cuboid::of(&placement, draft.length.length, draft.width.length, thickness.length);
        self.parts.all.push(Part {
            path,
            own,
            of: draft.of,
            which: draft.which,
            mark: String::new(),
            role: draft.role,
            assembly: draft.assembly,
            case: self.id,
            stock: draft.stock,
            length: draft.length,
            width: draft.width,
            thickness,
            rough,
            grain,
            placement,
            beside: self.case.beside.clone(),
            stands: draft.stands,
            show: draft.show,
            hung,
            spare: Vec::new(),
            strips: Vec::new(),
            features: Vec::new(),
            notes: draft.notes,
            span: draft.span,
            space,
        });
        PartId(self.parts.all.len() - 1)
    }

    /// The side on which a front is hung.
    fn hung(&self, of: Of) -> Option<Side> {
        match of {
            Of::Front(front) => self.piece.opening(front.opening)?.hung(front.leaf),
            Of::Case(_) | Of::Row(_) | Of::Member(_) | Of::Opening(_) => None,
        }
    }

    pub(super) fn part(&self, id: PartId) -> Option<&Part> {
        self.parts.get(id)
    }

    pub(super) fn note(&mut self, id: PartId, notes: &[String]) {
        if let Some(part) = self.parts.all.get_mut(id.0) {
            part.notes.extend(notes.iter().cloned());
        }
    }

    pub(super) fn cut(&mut self, id: PartId, feature: Feature) {
        // Two hosts at one end, such as two stretchers over a partition, ask
        // for the same tenon.
        if let Some(part) = self.parts.all.get_mut(id.0)
            && !part.features.contains(&feature)
        {
            part.features.push(feature);
        }
    }

    pub(super) fn join(
        &mut self,
        sort: JointSort,
        part: PartId,
        into: PartId,
        glued: bool,
        span: Span,
    ) {
        self.parts.joints.push(Joint { sort, part, into, glued, span });
    }

    /// A depth, and the statement that says it.
    pub(super) fn depth(&self, size: Option<&Size>) -> (Length, Option<Span>) {
        size.map_or((Length::ZERO, None), |size| (size.length, self.piece.facts.written(size)))
    }

    /// Cuts into `host` the channel that takes the end of `part`, and joins
    /// them as `joint` says. `face` is the host's face that the part meets.
    /// The part is as long already as the joint asks.
    pub(super) fn house(
        &mut self,
        part: PartId,
        host: PartId,
        face: Face,
        joint: &Joinery,
        span: Span,
    ) {
        self.house_behind(part, (host, face), joint, (Length::ZERO, span));
    }

    /// The same where what fastens its end stays so far behind its front edge.
    pub(super) fn house_behind(
        &mut self,
        part: PartId,
        (host, face): (PartId, Face),
        joint: &Joinery,
        (behind, span): (Length, Span),
    ) {
        let glued = joint.kind.is_glued() && !posts::moves_across(self, part, host);
        self.join(JointSort::Wood(joint.kind), part, host, glued, span);
        let (Some(guest), Some(holder)) = (self.part(part), self.part(host)) else { return };
        let kind = match joint.kind {
            JointKind::Dado => FeatureKind::Dado,
            JointKind::Rabbet => FeatureKind::Rabbet,
            JointKind::Pocket
            | JointKind::Screw
            | JointKind::Tenon
            | JointKind::Dowel
            | JointKind::Dovetail
            | JointKind::Butt => {
                let end = guest.placement.face(holder.placement.direction(face), !face.is_start());
                let along = guest.placement.width;
                let (own, wood) = (meeting(guest, end), posts::holding(holder));
                let from = own.from.along(along);
                // A stretcher covers only a strip of the end below it.
                let held = (
                    (wood.from.along(along).max(from) - from).max(behind),
                    wood.to.along(along).min(own.to.along(along)) - from,
                );
                self.fasten_end((part, end), (host, face), held, joint, span);
                return;
            }
        };
        let guest = guest.cuboid();
        self.channel(kind, (host, face), (Some(part), guest), joint, span);
    }

    /// The channel in the face of a host that takes what fills this space.
    pub(super) fn channel(
        &mut self,
        kind: FeatureKind,
        (host, face): (PartId, Face),
        (takes, guest): (Option<PartId>, Cuboid),
        joint: &Joinery,
        span: Span,
    ) {
        let Some(holder) = self.part(host) else { return };
        let (deep, deep_at) = self.depth(joint.deep.as_ref());
        let (place, space) = (holder.placement, holder.cuboid());
        let range = |direction: Direction| {
            let start = space.from.along(direction);
            let from = guest.from.along(direction).max(start) - start;
            let to = guest.to.along(direction).min(space.to.along(direction)) - start;
            (from, to)
        };
        let (u, v) = match face {
            Face::ThickStart | Face::ThickEnd => (range(place.length), range(place.width)),
            Face::WidthStart | Face::WidthEnd => (range(place.length), range(place.thickness)),
            Face::LengthStart | Face::LengthEnd => (range(place.width), range(place.thickness)),
        };
        self.cut(host, Feature { kind, face, u, v, deep, deep_at, takes, span });
    }

    /// Pocket holes, dowels or a tenon at one end of a part. `held` is the
    /// stretch of its width that meets wood there, a face of the host, or that is
    /// tenon.
    pub(super) fn fasten_end(
        &mut self,
        (id, end): (PartId, Face),
        host: (PartId, Face),
        held: (Length, Length),
        joint: &Joinery,
        span: Span,
    ) {
        let Some(part) = self.part(id) else { return };
        let (length, thick) = (part.length.length, part.thickness.length);
        let count = trade::pocket_count(held.1 - held.0);
        let at_end = |deep: Length| match end {
            Face::LengthStart => (Length::ZERO, deep),
            _ => (length - deep, length),
        };
        let unit = self.piece.tape().unit;
        let feature = match joint.kind {
            JointKind::Pocket => {
                let back = part.show.map_or(Face::ThickEnd, Face::opposite);
                // A pocket reaches about twice the thickness into the board.
                let deep = thick.twice();
                // The screw must suit the board that it goes into too.
                let suits = || {
                    let into = self
                        .part(host.0)
                        .map_or(thick, |own| own.cuboid().size(part.placement.length));
                    let fits = trade::pocket_screw_into(thick, into, unit);
                    fits.or_else(|| trade::pocket_screw(thick, unit))
                };
                Feature {
                    kind: FeatureKind::Pockets(count, joint.screw.or_else(suits)),
                    face: back,
                    u: at_end(deep),
                    v: held,
                    deep: thick,
                    deep_at: None,
                    takes: None,
                    span,
                }
            }
            JointKind::Dowel => {
                self.dowel((id, end), host, held, joint, span);
                return;
            }
            JointKind::Tenon => {
                let long = joint.long.clone().unwrap_or_default().length;
                let tenon = joint.thick.clone().unwrap_or_default().length;
                let shoulder = (thick - tenon).half();
                Feature {
                    kind: FeatureKind::Tenon,
                    face: end,
                    u: held,
                    v: (shoulder, shoulder + tenon),
                    deep: long,
                    deep_at: None,
                    takes: None,
                    span,
                }
            }
            // Nothing is cut into the end for these.
            JointKind::Dado
            | JointKind::Rabbet
            | JointKind::Screw
            | JointKind::Dovetail
            | JointKind::Butt => return,
        };
        self.cut(id, feature);
    }

    /// The board of the carcass or frame whose face lies in the plane
    /// `at` of `direction` and covers the point between: what the end of a
    /// part that stops there meets.
    pub(super) fn board_at(
        &self,
        direction: Direction,
        at: Length,
        faces_start: bool,
        near: Point,
        of: &Assembly,
    ) -> Option<(PartId, Face)> {
        let others = || Direction::ALL.into_iter().filter(|other| *other != direction);
        self.own()
            .filter(|(_, part)| part.assembly == *of)
            .find(|(_, part)| {
                let space = part.cuboid();
                let plane = if faces_start {
                    space.from.along(direction)
                } else {
                    space.to.along(direction)
                };
                plane == at
                    && others().all(|other| {
                        space.from.along(other) <= near.along(other)
                            && near.along(other) <= space.to.along(other)
                    })
            })
            .map(|(id, part)| (id, part.placement.face(direction, faces_start)))
    }

    /// How far a part reaches into each board that holds it.
    pub(super) fn let_in(&self, joint: &Joinery) -> Size {
        match joint.kind {
            JointKind::Dado | JointKind::Rabbet => joint.deep.clone().unwrap_or_default(),
            JointKind::Tenon => joint.long.clone().unwrap_or_default(),
            JointKind::Pocket
            | JointKind::Screw
            | JointKind::Dowel
            | JointKind::Dovetail
            | JointKind::Butt => Size::zero(),
        }
    }

    /// Left and right sides of the carcass, from the left side of the case.
    pub(super) fn carcass_sides(&self) -> [Size; 2] {
        let [left, right] = Side::BOTH.map(|side| self.case.set_in(side));
        [left, &self.case.wide - &right]
    }

    /// Inner faces of the two ends, from the left side of the case.
    pub(super) fn inner_sides(&self) -> [Size; 2] {
        let [left, right] = self.carcass_sides();
        [left + self.end_thickness(Side::Left), right - self.end_thickness(Side::Right)]
    }
}

/// The space of a part as far as it can be fastened at one of its ends: a partition
/// that is notched for a nailer at its rear corner is less deep there.
fn meeting(part: &Part, end: Face) -> Cuboid {
    let mut space = part.cuboid();
    if part.role != Role::Partition {
        return space;
    }
    let wide = part.width.length;
    let at_end = |feature: &&Feature| {
        let (from, to) = feature.u;
        let reaches = match end {
            Face::LengthStart => from.is_zero(),
            Face::LengthEnd => to == part.length.length,
            Face::WidthStart | Face::WidthEnd | Face::ThickStart | Face::ThickEnd => false,
        };
        feature.kind == FeatureKind::Notch && reaches && feature.v.1 == wide
    };
    if let Some(notch) = part.features.iter().find(at_end) {
        space.to.z = space.from.z + notch.v.0;
    }
    space
}

fn sheet_grain(stock: Option<&crate::model::Stock>) -> Grain {
    use crate::model::{SheetGrain, StockKind};
    let Some(stock) = stock else { return Grain::Length };
    match (stock.kind, stock.sheet.map(|sheet| sheet.grain)) {
        (StockKind::Plywood, Some(SheetGrain::None)) => Grain::None,
        (StockKind::Plywood, Some(SheetGrain::Long | SheetGrain::Wide) | None) => Grain::Length,
        // Lumber has a grain of its own.
        (
            StockKind::Mdf
            | StockKind::Particleboard
            | StockKind::Hardboard
            | StockKind::Glass
            | StockKind::Lumber
            | StockKind::Banding,
            _,
        ) => Grain::None,
    }
}

/// Where the planes of a case lie.
#[must_use]
pub fn planes(piece: &Piece, case: &Case) -> Planes {
    let ahead = piece.before_frame(case);
    let frame = case.frame.as_ref().map(|frame| piece.thickness(frame.stock)).unwrap_or_default();
    let back = case.back.as_ref().map(|back| piece.thickness(back.stock)).unwrap_or_default();
    Planes {
        carcass: &ahead + &frame,
        inside: &case.deep - case.covers.behind() - &back,
        rear: &case.deep - case.covers.behind(),
        frame: ahead,
    }
}
