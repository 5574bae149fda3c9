//! Every gap round every front: as it is fitted, and what the year makes of it.

use crate::measure::{Exact, Length};
use crate::model::{Axis, CaseId, Edge, Leaf, Opening, Piece, StockId};
use crate::parts::{Assembly, Cuboid, Direction, Front, Part, Role};
use crate::plans::Workings;

use super::Climate;
use super::fronts::Mover;
use super::stack::{self, Stack};

/// Wood beside a gap, and what its swelling does to the gap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Swell {
    /// What it is: `leaf`, `rail above`.
    pub what: String,
    /// Its stock.
    pub stock: StockId,
    /// How wide it is across the grain.
    pub wide: Length,
    /// Change for each point of moisture, in millionths.
    pub coefficient: u32,
    /// The part of its swelling that closes the gap.
    pub share: Exact,
    /// What it takes from the gap on the driest day: mostly below nought.
    pub driest: Length,
    /// What it takes on the dampest day.
    pub dampest: Length,
}

/// What stands across a gap.
#[derive(Clone, Copy, Debug)]
pub enum Against<'a> {
    /// A board of the case.
    Part(&'a Part),
    /// Another front, of this opening.
    Front(&'a Opening, Leaf),
}

/// A gap at one edge of a front.
#[derive(Clone, Debug)]
pub struct Gap<'a> {
    /// The front.
    pub front: Front<'a>,
    /// Its edge.
    pub edge: Edge,
    /// What stands across the gap.
    pub against: Against<'a>,
    /// It is the gap between the two leaves of a pair.
    pub meeting: bool,
    /// As it is fitted.
    pub fitted: Length,
    /// On the driest day of the room.
    pub driest: Length,
    /// On the dampest day.
    pub dampest: Length,
    /// What makes the difference.
    pub swells: Vec<Swell>,
    /// How far it may be off when it is made.
    pub stack: Stack,
}

impl Gap<'_> {
    /// What the edge is called: of a door by its hinges, else by its place.
    #[must_use]
    pub fn edge_name(&self) -> &'static str {
        let hinges = self.front.hung.map(Edge::at);
        match (self.edge, hinges) {
            (Edge::Left | Edge::Right, Some(hinges)) if self.edge == hinges => "hinge",
            (Edge::Left | Edge::Right, Some(_)) if self.front.opening.is_pair() => "meeting",
            (Edge::Left | Edge::Right, Some(_)) => "latch",
            (edge, _) => edge.word(),
        }
    }

    /// True for a gap beside a front, which narrows where its opening leans.
    #[must_use]
    pub fn is_upright(&self) -> bool {
        matches!(self.edge, Edge::Left | Edge::Right)
    }

    /// The least it comes to.
    #[must_use]
    pub fn least(&self) -> Length {
        self.fitted.min(self.driest).min(self.dampest)
    }

    /// The most it comes to.
    #[must_use]
    pub fn greatest(&self) -> Length {
        self.fitted.max(self.driest).max(self.dampest)
    }
}

/// Beyond this nothing is beside a front; it only stands near it.
const NEAR: Length = Length::mm(25);

/// Every gap of a piece, front by front. A gap between two fronts comes once,
/// with the left or upper of them.
pub(in crate::plans) fn gaps<'a>(work: &Workings<'a>) -> Vec<Gap<'a>> {
    let fronts = work.fronts();
    let mut found: Vec<Gap<'a>> = Vec::new();
    let mut members: Vec<(Cuboid, &Part)> = Vec::new();
    let mut case = None;
    for (index, front) in fronts.iter().enumerate() {
        // Fronts stand in the order of their cases; only those of this case
        // and the two beside it can be near.
        let near = |other: &&Front<'_>| other.case.0.abs_diff(front.case.0) <= 1;
        let before = fronts.get(..index).unwrap_or(&[]).iter().rev().take_while(near);
        let after = fronts.get(index + 1..).unwrap_or(&[]).iter().take_while(near);
        let others: Vec<&Front<'_>> = before.chain(after).collect();
        if case.replace(front.case) != Some(front.case) {
            let of_case = work.parts.of_case(front.case).iter();
            // Packers and guides stand beside the fronts of drawers behind doors, a filler or a
            // cover beside those of its run.
            let still = of_case.filter(|part| {
                matches!(part.assembly, Assembly::Frame(_) | Assembly::Carcass(_))
                    || matches!(part.role, Role::Packer | Role::Guide | Role::Filler | Role::Cover)
            });
            let still = still.chain(beside(work, front.case)).chain(above(work, front.case));
            members = still.map(|part| (part.cuboid(), part)).collect();
        }
        for edge in Edge::ALL {
            found.extend(gap(work, front, edge, (&others, &members)));
        }
    }
    found
}

/// The outer boards of the two cases beside one, which may reach as far forward as its fronts.
fn beside<'a>(work: &Workings<'a>, case: CaseId) -> impl Iterator<Item = &'a Part> + use<'a> {
    let parts = work.parts;
    let cases = [case.0.checked_sub(1), case.0.checked_add(1)].into_iter().flatten();
    let boards = cases.flat_map(move |at| parts.of_case(CaseId(at)));
    boards.filter(|part| matches!(part.role, Role::End(_) | Role::Stile))
}

/// The countertop over a case, which reaches out over its fronts.
fn above<'a>(work: &Workings<'a>, case: CaseId) -> impl Iterator<Item = &'a Part> + use<'a> {
    let parts = work.parts;
    let top = work.piece.top_over(case).into_iter();
    let boards = top.flat_map(move |top| parts.of_case(top.row.first));
    boards.filter(|part| matches!(part.assembly, Assembly::Countertop(_)))
}

fn gap<'a>(
    work: &Workings<'a>,
    front: &Front<'a>,
    edge: Edge,
    (others, members): (&[&Front<'a>], &[(Cuboid, &'a Part)]),
) -> Option<Gap<'a>> {
    let (piece, parts, climate) = (work.piece, work.parts, work.climate());
    let own = slack(front, edge);
    let between = |other: &Front<'_>| match other.opening.id == front.opening.id {
        true => Length::ZERO,
        false => own + slack(other, edge.facing()),
    };
    let beside = others
        .iter()
        .filter_map(|other| {
            Some((distance(&front.space, &other.space, edge, between(other))?, *other))
        })
        .min_by_key(|(distance, _)| *distance);
    let member = members
        .iter()
        .filter_map(|(space, part)| Some((distance(&front.space, space, edge, own)?, *part)))
        .min_by_key(|(distance, _)| *distance);
    let mut movers = front.movers(piece, parts, edge);
    let (fitted, against, meeting) = match (beside, member) {
        (Some((fitted, other)), member) if member.is_none_or(|(near, _)| fitted <= near) => {
            if matches!(edge, Edge::Left | Edge::Top) {
                return None;
            }
            movers.extend(other.movers(piece, parts, edge.facing()));
            (
                fitted,
                Against::Front(other.opening, other.id.leaf),
                other.opening.id == front.opening.id,
            )
        }
        (_, Some((fitted, part))) => {
            movers.extend(member_mover(piece, part, edge));
            (fitted, Against::Part(part), false)
        }
        _ => return None,
    };
    let swells: Vec<Swell> =
        movers.iter().filter_map(|mover| swell(piece, climate, mover)).collect();
    let on = |day: fn(&Swell) -> Length| fitted - swells.iter().map(day).sum::<Length>();
    Some(Gap {
        edge,
        against,
        meeting,
        fitted,
        driest: on(|swell| swell.driest),
        dampest: on(|swell| swell.dampest),
        stack: stack::of(piece, front, edge, (fitted, meeting)),
        swells,
        front: front.clone(),
    })
}

/// How far an edge of the front's opening lies outside of where it is drawn.
/// The frame stands in space as drawn, the front as measured.
fn slack(front: &Front<'_>, edge: Edge) -> Length {
    let axis = match edge.direction() {
        Direction::X => Axis::Across,
        _ => Axis::Down,
    };
    front.opening.grown_by(axis).half()
}

/// From an edge of a front to a body beside it, which as built is off by
/// `slack`; `None` where it is not beside.
fn distance(front: &Cuboid, body: &Cuboid, edge: Edge, slack: Length) -> Option<Length> {
    let level = |direction| front.overlaps_along(body, direction);
    if !level(edge.along()) || !level(Direction::Z) {
        return None;
    }
    let direction = edge.direction();
    let distance = if edge.is_far() {
        body.from.along(direction) - front.to.along(direction)
    } else {
        front.from.along(direction) - body.to.along(direction)
    };
    let distance = distance + slack;
    (!distance.is_negative() && distance <= NEAR).then_some(distance)
}

/// How a member of the frame moves toward an opening. It is held by its end
/// joints, so half of its swelling goes to each side; an outer stile is held
/// where the rails end at its inner edge and swells outward only.
fn member_mover(piece: &Piece, part: &Part, edge: Edge) -> Option<Mover> {
    if part.placement.width != edge.direction() {
        return None;
    }
    let case = piece.case(part.case)?;
    let (from, to) = part.extent(Direction::X);
    let outer = from <= case.x || to >= case.x + case.wide.length;
    if part.role == Role::Stile && outer {
        return None;
    }
    let noun = match part.role {
        Role::Stile => "stile",
        Role::Rail => "rail",
        _ => "board",
    };
    let place = match edge {
        Edge::Top => "above",
        Edge::Bottom => "below",
        Edge::Left | Edge::Right => "beside",
    };
    Some(Mover {
        what: format!("{noun} {place}"),
        stock: part.stock,
        wide: part.width.length,
        share: Exact::ratio(1, 2),
    })
}

fn swell(piece: &Piece, climate: &Climate, mover: &Mover) -> Option<Swell> {
    let stock = piece.stock(mover.stock)?;
    stock.wood?;
    let whole = climate.swelling(stock, mover.wide);
    Some(Swell {
        what: mover.what.clone(),
        stock: mover.stock,
        wide: mover.wide,
        coefficient: whole.coefficient,
        share: mover.share,
        driest: whole.driest * mover.share,
        dampest: whole.dampest * mover.share,
    })
}
