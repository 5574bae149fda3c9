//! Fronts as wholes: the parts of each, where it stands, and its pull.

use crate::measure::{Length, Span};
use crate::model::{CaseId, Edge, FrontId, Fronts, Hinge, Opening, Piece, Pull, Set, Side, Size};
use crate::trade::Leaf;

use super::feature::{Bore, FeatureKind};
use super::part::{Assembly, Part, Parts};
use super::path::front_path;
use super::space::{Cuboid, Direction, Point};

/// A closed front: a door leaf, a drawer front or a false front.
#[derive(Clone, Debug)]
pub struct Front<'a> {
    /// Which one.
    pub id: FrontId,
    /// Its name for print: `console.press.left-door`.
    pub path: String,
    /// The case it belongs to.
    pub case: CaseId,
    /// The opening before which it stands.
    pub opening: &'a Opening,
    /// How it is made and hung.
    pub fronts: &'a Fronts,
    /// Its boards.
    pub parts: Vec<&'a Part>,
    /// The space it takes.
    pub space: Cuboid,
    /// The side it is hung on.
    pub hung: Option<Side>,
    /// Its pull, with the space of it.
    pub pull: Option<(&'a Pull, Cuboid)>,
}

impl Front<'_> {
    /// Where its edge is that it hangs by, along the front of the piece.
    #[must_use]
    pub fn hinge_edge(&self, hung: Side) -> Length {
        match hung {
            Side::Left => self.space.from.x,
            Side::Right => self.space.to.x,
        }
    }

    /// It and its pull as they turn on a hinge.
    #[must_use]
    pub fn leaf(&self, hung: Side, hinge: &Hinge) -> Leaf {
        let thick = self.space.size(Direction::Z);
        let turns = hinge.pivot(&self.fronts.set, thick);
        let leaf = Leaf::new(self.space.size(Direction::X), thick, &turns);
        let Some((pull, at)) = &self.pull else { return leaf };
        let edge = self.hinge_edge(hung);
        let from_hinge = match hung {
            Side::Left => (at.from.x - edge, at.to.x - edge),
            Side::Right => (edge - at.to.x, edge - at.from.x),
        };
        leaf.with_pull(from_hinge, pull.stands)
    }

    /// What it is called in a sentence: `leaf`, `front`.
    #[must_use]
    pub fn noun(&self) -> &'static str {
        if self.hung.is_some() { "leaf" } else { "front" }
    }

    /// How far an overlay front lies over each edge of its opening; without those where
    /// another front meets it with no board between.
    pub fn overlays(&self) -> impl Iterator<Item = (Edge, &Size)> {
        let meets = |edge: Edge| match self.id.leaf.side() {
            Some(side) => edge == Edge::at(side).facing(),
            None => false,
        };
        Edge::ALL
            .into_iter()
            .filter(move |edge| self.fronts.set != Set::Inset && !meets(*edge))
            .map(|edge| (edge, self.opening.reach.of(edge)))
            .filter(|(_, over)| over.length.is_positive())
    }

    /// How it is called in a message: by its opening, or by its own name where
    /// the opening has two.
    #[must_use]
    pub fn name(&self) -> &str {
        if self.opening.is_pair() { &self.path } else { &self.opening.path }
    }

    /// The statement that its first board comes from.
    #[must_use]
    pub fn span(&self) -> Span {
        self.parts.first().map_or(self.opening.span, |part| part.span)
    }
}

/// Every front of a piece, in the order they were built.
#[must_use]
pub fn fronts<'a>(piece: &'a Piece, parts: &'a Parts) -> Vec<Front<'a>> {
    let mut all: Vec<Front<'a>> = Vec::new();
    for part in &parts.all {
        let Assembly::Front(id) = part.assembly else { continue };
        // The parts of one front follow each other.
        if all.last().is_none_or(|front| front.id != id) {
            all.extend(front(piece, part, id));
        }
        let Some(front) = all.last_mut().filter(|front| front.id == id) else { continue };
        front.space = front.space.union(&part.cuboid());
        front.parts.push(part);
        let Some(pull) = front.fronts.pull.and_then(|pull| piece.pull(pull)) else { continue };
        if let Some(space) = pull_space(part, pull) {
            front.pull = Some((pull, space));
        }
    }
    all
}

/// A front of which no board is known yet but the place of its first.
fn front<'a>(piece: &'a Piece, part: &Part, id: FrontId) -> Option<Front<'a>> {
    let opening = piece.opening(id.opening)?;
    Some(Front {
        id,
        path: front_path(piece, id),
        case: part.case,
        opening,
        fronts: opening.front.as_ref()?,
        parts: Vec::new(),
        space: part.cuboid(),
        hung: opening.hung(id.leaf),
        pull: None,
    })
}

/// The space of a pull: over its screws, as far as it stands off the face. Its
/// own width is not in the spec; its screws are the least it has.
fn pull_space(part: &Part, pull: &Pull) -> Option<Cuboid> {
    let own = part.cuboid();
    let holes = part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Pull));
    let spaces = holes.map(|hole| {
        let (x, y) = match part.placement.length {
            Direction::X => (hole.u, hole.v),
            _ => (hole.v, hole.u),
        };
        let (from, front) = (own.from, own.from.z);
        Cuboid {
            from: Point::new(from.x + x.0, from.y + y.0, front - pull.stands),
            to: Point::new(from.x + x.1, from.y + y.1, front),
        }
    });
    spaces.reduce(|a, b| a.union(&b))
}
