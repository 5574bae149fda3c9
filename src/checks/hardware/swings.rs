//! Doors and drawers as they move in plan: what the rules of swinging share.

use std::ops::Range;

use crate::diagnostics::{Diagnostic, Fix, Grade, Sum};
use crate::measure::{Angle, Exact, Length, Span, Tape};
use crate::model::{
    Axis, Case, Item, Member, MemberKind, OpeningId, OpeningKind, Piece, Side, Size,
};
use crate::parts::{Cuboid, Direction, Front};
use crate::plans::fitting::patch;
use crate::trade::{Body, Hung};
use crate::vocabulary::Origin;

/// The space of a front or of its pull.
pub(super) fn body<'a>(front: &'a Front<'_>, body: Body) -> Option<&'a Cuboid> {
    match body {
        Body::Leaf => Some(&front.space),
        Body::Pull => front.pull.as_ref().map(|(_, space)| space),
    }
}

/// True where two things share any height.
pub(super) fn level(a: &Cuboid, b: &Cuboid) -> bool {
    a.overlaps_along(b, Direction::Y)
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
    /// The hinge says how far it opens; else that is taken.
    swing_written: bool,
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
    let hung = front.hung?;
    let hinge = front.fronts.hinge.and_then(|(hinge, _)| piece.hinge(hinge))?;
    let space = front.space;
    let turns = hinge.pivot(&front.fronts.set, space.size(Direction::Z));
    let (leaf, x) = (front.leaf(hung, hinge), front.hinge_edge(hung));
    let open = hinge.swing.min(Angle::SQUARE);
    Some(Door {
        front,
        case: piece.case(front.case)?,
        hung,
        swing: Hung::new(leaf, (x, -space.from.z), hung == Side::Right, open),
        open,
        swing_written: hinge.swing_written,
        mercy: hinge.mercy(),
        aside: turns.aside_when_square(),
    })
}

/// What is said of a finding about a door whose hinge gives no swing.
const ASSUMED: &str = "the hinge gives no `swing`, so the door is taken to open square; give the angle of its sheet if it stops sooner";

impl Door<'_> {
    /// True where its hinge does not say how far it opens.
    pub(super) fn is_assumed(&self) -> bool {
        !self.swing_written
    }

    /// Tells where the angle that a finding goes by is taken and not given.
    pub(super) fn tell_assumed(&self, diagnostic: Diagnostic) -> Diagnostic {
        if self.swing_written { diagnostic } else { diagnostic.note(ASSUMED) }
    }
}

impl Door<'_> {
    /// On which side it hangs, as a label at its statement: there the other side may stand,
    /// where the case is mirrored.
    pub(super) fn hung_told(&self) -> String {
        let side = self.hung.word();
        match self.case.is_mirrored {
            true => format!("hung {side} in {}, which is mirrored", self.case.name),
            false => format!("hung {side}"),
        }
    }

    /// The leaf, and its pull where it has one.
    pub(super) fn bodies(&self) -> impl Iterator<Item = (Body, &Cuboid)> {
        [Body::Leaf, Body::Pull]
            .into_iter()
            .filter_map(|own| body(self.front, own).map(|space| (own, space)))
    }

    /// True where it may come near what stands from and to along the front.
    pub(super) fn is_near(&self, from: Length, to: Length) -> bool {
        let around = self.around();
        from < self.swing.x() + around && self.swing.x() - around < to
    }

    /// From the first to the last of the cases that it may come near, its own among them.
    /// Cases stand left to right, but those that stand on others come anywhere among them.
    pub(super) fn near_cases(&self, piece: &Piece) -> Range<usize> {
        let around = self.around();
        let (from, to) = (self.swing.x() - around, self.swing.x() + around);
        if piece.stacked().next().is_some() {
            let is_near = |case: &Case| from < case.x + case.wide.length && case.x < to;
            let first = piece.cases.iter().position(is_near).unwrap_or_default();
            return first..piece.cases.iter().rposition(is_near).map_or(first, |last| last + 1);
        }
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
        self.bodies()
            .filter(|(_, space)| level(space, thing))
            .filter_map(|(body, _)| {
                Some((self.swing.stopped(body, &patch(thing), self.mercy)?, body))
            })
            .min_by_key(|(angle, _)| *angle)
    }

    /// From the closed hinge edge to a thing at the hinge side; negative for
    /// one that starts before the leaf.
    pub(super) fn to(&self, thing: &Cuboid) -> Length {
        match self.hung {
            Side::Left => self.swing.x() - thing.to.x,
            Side::Right => thing.from.x - self.swing.x(),
        }
    }

    /// True for a thing at its height that stands between the planes of its two faces.
    pub(super) fn is_beside(&self, thing: &Cuboid) -> bool {
        let leaf = &self.front.space;
        level(leaf, thing) && leaf.overlaps_along(thing, Direction::Z)
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
        (self.open == Angle::SQUARE).then(|| self.stands(body) - self.aside)
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
pub(in crate::checks) fn written(piece: &Piece, size: &Size) -> Option<Span> {
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
                format!("make {} {} wide", self.name, tape.figure(wide)),
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
        let free = any_gives_way(piece, member.list);
        return Some(Stile { name: member.path.clone(), wide: &member.wide, span, free });
    }
    let outer = door.hung.of(&frame.stiles);
    let span = written(piece, &outer.wide)?;
    let name = format!("the {} stile of {}", door.hung.word(), case.name);
    Some(Stile {
        name,
        wide: &outer.wide,
        span,
        free: gives_way(piece, OpeningId { case: case.id, at: 0 }),
    })
}

/// True where an opening takes what is left of the width.
fn gives_way(piece: &Piece, id: OpeningId) -> bool {
    let Some(opening) = piece.opening(id) else { return false };
    if opening.size_spans[0].is_some() {
        return false;
    }
    match &opening.kind {
        OpeningKind::List(Axis::Across, _) => any_gives_way(piece, id),
        OpeningKind::List(Axis::Down, items) => {
            openings_of(items).all(|child| gives_way(piece, child))
        }
        // One figure alone: it is the same as another opening.
        _ => written(piece, &opening.wide).is_none(),
    }
}

fn any_gives_way(piece: &Piece, list: OpeningId) -> bool {
    match piece.opening(list).map(|list| &list.kind) {
        Some(OpeningKind::List(_, items)) => {
            openings_of(items).any(|child| gives_way(piece, child))
        }
        _ => false,
    }
}

fn openings_of(items: &[Item]) -> impl Iterator<Item = OpeningId> {
    items.iter().filter_map(|item| match item {
        Item::Opening(opening) => Some(*opening),
        Item::Member(_) => None,
    })
}
