//! Doors and drawers as they move in plan: what the rules of swinging share.

use std::collections::BTreeMap;
use std::ops::Range;

use crate::diagnostics::{Fix, Grade, Sum};
use crate::measure::{Angle, Exact, Length, Span, Tape};
use crate::model::{
    Axis, Case, Fronts, Hinge, HingeKind, Item, Member, MemberKind, Opening, OpeningKind, Piece,
    Pull, Set, Side, Size,
};
use crate::parts::{Assembly, Bore, Cuboid, Direction, FeatureKind, Part, Parts, Point};
use crate::trade::{Body, Hung, Leaf, Patch, Pivot};
use crate::vocabulary::Origin;

/// Square to the front: what a door should reach.
pub(super) const SQUARE: Angle = Angle(Exact::int(90));

/// A closed front.
pub(super) struct Front<'a> {
    /// Its name: `console.press.left-door`.
    pub(super) path: &'a str,
    /// The case it belongs to.
    pub(super) case: usize,
    /// The opening before which it stands.
    pub(super) opening: &'a Opening,
    /// How it is made and hung.
    pub(super) fronts: &'a Fronts,
    /// Its space.
    pub(super) space: Cuboid,
    /// Its pull, with the space of it.
    pub(super) pull: Option<(&'a Pull, Cuboid)>,
}

impl Front<'_> {
    /// The space of the front or of its pull.
    pub(super) fn body(&self, body: Body) -> Option<&Cuboid> {
        match body {
            Body::Leaf => Some(&self.space),
            Body::Pull => self.pull.as_ref().map(|(_, space)| space),
        }
    }

    /// How it is called in a message.
    pub(super) fn name(&self) -> &str {
        if self.opening.leaves() == 2 { self.path } else { &self.opening.path }
    }
}

/// Every front of a piece, in the order they were built.
pub(super) fn fronts<'a>(piece: &'a Piece, parts: &'a Parts) -> Vec<Front<'a>> {
    let openings: BTreeMap<&str, &Opening> = piece
        .cases
        .iter()
        .flat_map(|case| &case.openings)
        .filter(|opening| opening.front.is_some())
        .map(|opening| (opening.path.as_str(), opening))
        .collect();
    let mut all: Vec<Front<'a>> = Vec::new();
    for part in &parts.all {
        let Assembly::Front(path) = &part.assembly else { continue };
        let own = part.cuboid();
        // The parts of one front follow each other.
        if all.last().is_none_or(|front| front.path != path) {
            let opening = path.rsplit_once('.').and_then(|(opening, _)| openings.get(opening));
            let Some(opening) = opening.copied() else { continue };
            let Some(fronts) = &opening.front else { continue };
            let (case, space) = (part.case, own);
            all.push(Front { path, case, opening, fronts, space, pull: None });
        }
        let Some(front) = all.last_mut() else { continue };
        front.space = front.space.union(&own);
        let Some(pull) = front.fronts.pull.and_then(|pull| piece.pulls.get(pull)) else { continue };
        if let Some(space) = pull_space(part, pull) {
            front.pull = Some((pull, space));
        }
    }
    all
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

/// True where two things share any height.
pub(super) fn level(a: &Cuboid, b: &Cuboid) -> bool {
    a.overlap_along(b, Direction::Y).is_positive()
}

/// A space in plan, out from the foremost face.
pub(super) fn patch(space: &Cuboid) -> Patch {
    Patch { x: (space.from.x, space.to.x), out: (-space.to.z, -space.from.z) }
}

/// A door that swings.
pub(super) struct Door<'a> {
    /// The door, closed.
    pub(super) front: &'a Front<'a>,
    /// Its case.
    pub(super) case: &'a Case,
    /// The side it is hung on.
    pub(super) hung: Side,
    /// Its leaf in plan.
    pub(super) swing: Hung,
    /// How far it opens, square to the front at most.
    pub(super) open: Angle,
    /// It may come so far into another thing before that counts.
    pub(super) mercy: Length,
    /// How far the front corner has moved from the hinge side when square.
    pub(super) aside: Length,
}

/// Every door among the fronts whose hinge is known.
pub(super) fn doors<'a>(piece: &'a Piece, fronts: &'a [Front<'a>]) -> Vec<Door<'a>> {
    fronts.iter().filter_map(|front| door(piece, front)).collect()
}

fn door<'a>(piece: &'a Piece, front: &'a Front<'a>) -> Option<Door<'a>> {
    let hung = match front.opening.kind {
        OpeningKind::Door(side) => side,
        OpeningKind::Doors if front.path.ends_with(".left-door") => Side::Left,
        OpeningKind::Doors => Side::Right,
        _ => return None,
    };
    let hinge = front.fronts.hinge.and_then(|(hinge, _)| piece.hinges.get(hinge))?;
    let space = front.space;
    let thick = space.size(Direction::Z);
    let turns = pivot(hinge, &front.fronts.set, thick);
    let mut leaf = Leaf::new(space.size(Direction::X), thick, &turns);
    let x = match hung {
        Side::Left => space.from.x,
        Side::Right => space.to.x,
    };
    if let Some((pull, at)) = &front.pull {
        let from_hinge = match hung {
            Side::Left => (at.from.x - x, at.to.x - x),
            Side::Right => (x - at.to.x, x - at.from.x),
        };
        leaf = leaf.with_pull(from_hinge, pull.stands);
    }
    let open = hinge.swing.min(SQUARE);
    Some(Door {
        front,
        case: piece.cases.get(front.case)?,
        hung,
        swing: Hung::new(leaf, (x, -space.from.z), hung == Side::Right, open),
        open,
        mercy: mercy(hinge),
        aside: turns.aside_when_square(),
    })
}

/// What a door on this hinge turns about.
pub(super) fn pivot(hinge: &Hinge, set: &Set, thick: Length) -> Pivot {
    match &hinge.kind {
        HingeKind::Cup { poses, .. } if poses.is_empty() => Pivot::Pin { ahead: Length::ZERO },
        HingeKind::Cup { poses, .. } => Pivot::Poses(poses.clone()),
        HingeKind::Butt { pin_ahead } => Pivot::Pin {
            // The pin is measured from the frame, which an overlay front covers.
            ahead: match set {
                Set::Inset => *pin_ahead,
                Set::Overlay(_) => *pin_ahead - thick,
            },
        },
    }
}

/// A cup hinge whose path nobody has given is taken at its word only to 1/16 in
/// (common practice, no source); else a hair, so that what touches goes free.
fn mercy(hinge: &Hinge) -> Length {
    match &hinge.kind {
        HingeKind::Cup { poses, .. } if poses.is_empty() => Length::inches(1, 16),
        _ => Length::mm(1) / 100,
    }
}

impl Door<'_> {
    /// The leaf, and its pull where it has one.
    pub(super) fn bodies(&self) -> impl Iterator<Item = (Body, &Cuboid)> {
        [Body::Leaf, Body::Pull]
            .into_iter()
            .filter_map(|body| self.front.body(body).map(|space| (body, space)))
    }

    /// True where it may come near what stands from and to along the front.
    pub(super) fn is_near(&self, from: Length, to: Length) -> bool {
        let around = self.around();
        from < self.swing.x() + around && self.swing.x() - around < to
    }

    /// The cases that it may come near, its own among them. Cases stand left to
    /// right.
    pub(super) fn near_cases(&self, piece: &Piece) -> Range<usize> {
        let around = self.around();
        let (from, to) = (self.swing.x() - around, self.swing.x() + around);
        let first = piece.cases.partition_point(|case| case.x + case.wide.length <= from);
        first..piece.cases.partition_point(|case| case.x < to).max(first)
    }

    /// Farther than this from its hinge edge nothing of it ever comes.
    fn around(&self) -> Length {
        self.front.space.size(Direction::X) + self.stands(Body::Pull) + Length::mm(100)
    }

    /// The first of leaf and pull that is stopped by a thing on the way to
    /// square, and the angle it reaches.
    pub(super) fn stopped_by(&self, thing: &Cuboid) -> Option<(Angle, Body)> {
        let patch = patch(thing);
        self.bodies()
            .filter(|(_, space)| level(space, thing))
            .filter_map(|(body, _)| Some((self.swing.stopped(body, &patch, self.mercy)?, body)))
            .min_by_key(|(angle, _)| *angle)
    }

    /// From the closed hinge edge to a thing at the hinge side; below nought
    /// for one that begins before the leaf.
    pub(super) fn to(&self, thing: &Cuboid) -> Length {
        match self.hung {
            Side::Left => self.swing.x() - thing.to.x,
            Side::Right => thing.from.x - self.swing.x(),
        }
    }

    /// How far the leaf, or its pull, stands off its face.
    pub(super) fn stands(&self, body: Body) -> Length {
        match (body, &self.front.pull) {
            (Body::Pull, Some((pull, _))) => pull.stands,
            _ => Length::ZERO,
        }
    }

    /// How far the leaf or pull reaches to the hinge side when the door stands
    /// square; `None` for a hinge that does not go so far.
    pub(super) fn reach(&self, body: Body) -> Option<Length> {
        (self.open == SQUARE).then(|| self.stands(body) - self.aside)
    }

    /// What that reach is a sum of, added to a line of arithmetic.
    pub(super) fn add_reach(&self, mut sum: Sum, body: Body, tape: &Tape) -> Sum {
        if body == Body::Pull {
            sum = sum.plus(self.stands(body), "pull", tape);
        }
        match self.aside {
            aside if aside.is_positive() => sum.minus(aside, "moved by the hinge", tape),
            aside if aside.is_negative() => sum.plus(-aside, "moved by the hinge", tape),
            _ => sum,
        }
    }

    /// The statement that says how far its pull stands, with the figure.
    pub(super) fn pull_label(&self, tape: &Tape) -> Option<(Span, String)> {
        let (pull, _) = self.front.pull.as_ref()?;
        Some((pull.stands_span, format!("stands {}", tape.figure(pull.stands))))
    }
}

/// The word for what strikes.
pub(super) fn word(body: Body) -> &'static str {
    match body {
        Body::Leaf => "leaf",
        Body::Pull => "pull",
    }
}

/// Where a size is written as one figure.
pub(super) fn written(piece: &Piece, size: &Size) -> Option<Span> {
    let mut facts = piece.facts.of(size);
    match (facts.next(), facts.next()) {
        (Some((fact, factor)), None) if factor == Exact::ONE => match fact.origin {
            Origin::Written(span) => Some(span),
            Origin::Measured(_) | Origin::Default { .. } => None,
        },
        _ => None,
    }
}

/// A stile whose width is written as one figure.
pub(super) struct Stile<'a> {
    /// How it is called.
    pub(super) name: String,
    /// Its width.
    pub(super) wide: &'a Size,
    /// The statement of that width.
    pub(super) span: Span,
    /// Its list has an opening that takes what is left: the stile may be made
    /// wider without contradicting the other sizes.
    pub(super) free: bool,
}

impl Stile<'_> {
    /// The edit that makes it wider by so much, at a mark of the tape.
    pub(super) fn widened(&self, by: Length, tape: &Tape) -> Option<Fix> {
        let wide = tape.up(self.wide.length + by);
        self.free.then(|| {
            Fix::new(
                Grade::Choice,
                format!("{} {} wide", self.name, tape.figure(wide)),
                self.span,
                format!("wide {}", tape.source(wide)),
            )
        })
    }
}

/// The stile at the hinge side of a door: an outer one, or one between two
/// openings.
pub(super) fn hinge_stile<'a>(piece: &'a Piece, door: &Door<'a>) -> Option<Stile<'a>> {
    let (case, opening) = (door.case, door.front.opening);
    let frame = case.frame.as_ref()?;
    let edge = match door.hung {
        Side::Left => opening.x,
        Side::Right => opening.x + opening.wide.length,
    };
    let beside = |member: &&Member| {
        let meets = match door.hung {
            Side::Left => member.x + member.wide.length == edge,
            Side::Right => member.x == edge,
        };
        let high =
            member.y < opening.y + opening.high.length && opening.y < member.y + member.long.length;
        matches!(member.kind, MemberKind::Stile(_)) && meets && high
    };
    if let Some(member) = case.members.iter().find(beside) {
        let span = written(piece, &member.wide)?;
        let free = any_gives_way(piece, case, member.list);
        return Some(Stile { name: member.path.clone(), wide: &member.wide, span, free });
    }
    let outer = door.hung.of(&frame.stiles);
    let span = written(piece, &outer.wide)?;
    let name = format!("the {} stile of {}", door.hung.word(), case.name);
    Some(Stile { name, wide: &outer.wide, span, free: gives_way(piece, case, 0) })
}

/// True where an opening takes what is left of the width.
fn gives_way(piece: &Piece, case: &Case, index: usize) -> bool {
    let Some(opening) = case.openings.get(index) else { return false };
    if opening.size_spans[0].is_some() {
        return false;
    }
    match &opening.kind {
        OpeningKind::List(Axis::Across, _) => any_gives_way(piece, case, index),
        OpeningKind::List(Axis::Down, items) => {
            openings_of(items).all(|child| gives_way(piece, case, child))
        }
        // One figure alone: it is the same as another opening.
        _ => written(piece, &opening.wide).is_none(),
    }
}

fn any_gives_way(piece: &Piece, case: &Case, list: usize) -> bool {
    match case.openings.get(list).map(|list| &list.kind) {
        Some(OpeningKind::List(_, items)) => {
            openings_of(items).any(|child| gives_way(piece, case, child))
        }
        _ => false,
    }
}

fn openings_of(items: &[Item]) -> impl Iterator<Item = usize> {
    items.iter().filter_map(|item| match item {
        Item::Opening(index) => Some(*index),
        Item::Member(_) => None,
    })
}
