//! What is struck with a pencil before it is cut: where boards stand that no
//! channel places, and the tails of dovetails.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::JointKind;
use crate::parts::{
    Assembly, Cuboid, Direction, Face, Feature, FeatureKind, Joint, JointSort, Part, PartId, Role,
};
use crate::trade;

use super::Workings;

/// All that is laid out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Layout {
    /// Boards with the places of what stands against them.
    pub sticks: Vec<Stick>,
    /// Boards with tails.
    pub tails: Vec<Tails>,
}

/// A board, with all that meets it where no channel says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stick {
    /// The board.
    pub host: PartId,
    /// The face that the lines are struck on, of a post: boards come to several of its
    /// faces, and it has lines for each.
    pub face: Option<Face>,
    /// What stands against it, from its datum end on.
    pub lines: Vec<Line>,
}

/// Where one board stands against another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The board that stands there.
    pub part: PartId,
    /// From and to along the length of the other, from the datum end of that.
    pub along: Stretch,
    /// From and to across it; nothing where it goes from side to side.
    pub across: Option<Stretch>,
}

/// From and to, counted from a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The face.
    pub datum: Face,
    /// Where it starts.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

/// A row of dovetails at the ends of a board, or at one of them where they differ.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tails {
    /// The board with the tails.
    pub part: PartId,
    /// The end that they are at; `None` where both ends are alike.
    pub end: Option<Face>,
    /// From and to along the end: the stretch that the pins go into.
    pub row: (Length, Length),
    /// The boards whose pins go between them.
    pub pins: Vec<PartId>,
    /// The edge that all is counted from.
    pub datum: Face,
    /// How long the tails are, from the end to the baseline.
    pub long: Length,
    /// From and to along the end, where a tail is widest.
    pub tails: Vec<(Length, Length)>,
    /// So many along for one across.
    pub slope: i64,
    /// By how much each side of a tail comes in, from the end to the baseline.
    pub lean: Length,
    /// The tail that a groove for a bottom runs out through, from one; none where
    /// there is no groove, or where no tail hides it.
    pub grooved: Option<usize>,
}

/// The layout of a piece.
pub(super) fn plan(work: &Workings<'_>) -> Layout {
    let all = || work.parts.iter();
    let mut joints: BTreeMap<PartId, Vec<&Joint>> = BTreeMap::new();
    for joint in &work.parts.joints {
        joints.entry(joint.into).or_default().push(joint);
    }
    let into = |id| joints.get(&id).map_or(&[][..], Vec::as_slice);
    Layout {
        sticks: all().flat_map(|(id, part)| sticks(work, (id, part), into(id))).collect(),
        tails: all().flat_map(|(id, part)| tails(work, (id, part), into(id))).collect(),
    }
}

/// True for a joint at which the end of a board stands against another, and
/// nothing but a line says where. A dado or rabbet is placed by its set-up.
fn is_struck(joint: &Joint) -> bool {
    match joint.sort {
        JointSort::Wood(kind) => match kind {
            JointKind::Pocket
            | JointKind::Screw
            | JointKind::Tenon
            | JointKind::Dowel
            | JointKind::Butt => true,
            JointKind::Dado | JointKind::Rabbet | JointKind::Dovetail => false,
        },
        JointSort::Miter
        | JointSort::Floating
        | JointSort::Glazed
        | JointSort::Pinned
        | JointSort::Planted
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid
        | JointSort::FrontFixed => false,
    }
}

/// Boards that are laid out with those of their assembly. The outer rails of a framed
/// front and the boards of a drawer box lie flush with the ends of what they meet, but
/// mortises for those rails have ends of their own, and a mid rail stands between.
fn is_laid_out(host: &Part, lines: &[Line]) -> bool {
    let is_flush = |line: &Line| {
        let Stretch { from, to, .. } = line.along;
        from.is_zero() || to == host.length.length
    };
    match host.assembly {
        Assembly::Base(_) | Assembly::Carcass(_) | Assembly::Frame(_) => true,
        Assembly::Front(_) => {
            let mortised = host.features.iter().any(|own| own.kind == FeatureKind::Mortise);
            mortised || !lines.iter().all(is_flush)
        }
        Assembly::DrawerBox(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => false,
    }
}

/// The lines on a board from the joints that it holds, on each face of a post by
/// themselves.
fn sticks(work: &Workings<'_>, (id, host): (PartId, &Part), into: &[&Joint]) -> Vec<Stick> {
    let faces: Vec<Option<Face>> = match host.role {
        Role::Post(_) => Face::ALL.into_iter().map(Some).collect(),
        _ => vec![None],
    };
    faces.into_iter().filter_map(|face| stick(work, (id, host), face, into)).collect()
}

/// The face of a board that the end of another comes to.
fn met(host: &Part, guest: &Part) -> Face {
    let axis = guest.placement.length;
    let middle = |part: &Part| {
        let (from, to) = part.extent(axis);
        from + to
    };
    host.placement.face(axis, middle(guest) < middle(host))
}

fn stick(
    work: &Workings<'_>,
    (id, host): (PartId, &Part),
    face: Option<Face>,
    into: &[&Joint],
) -> Option<Stick> {
    let joints = into.iter().filter(|joint| is_struck(joint));
    let guests = joints.filter_map(|joint| Some((joint.part, work.parts.get(joint.part)?)));
    // A cleat for a slide stands between posts.
    let is_cleat = |guest: &Part| guest.role == Role::Packer && matches!(host.role, Role::Post(_));
    let own = guests.filter(|(_, guest)| {
        guest.assembly == host.assembly || guest.role.is_nailer() || is_cleat(guest)
    });
    let own = own.filter(|(_, guest)| face.is_none_or(|face| met(host, guest) == face));
    let mut lines: Vec<Line> = own.filter_map(|(id, guest)| line(host, id, guest)).collect();
    lines.sort_by_key(|line| (line.along.from, line.along.to));
    (!lines.is_empty() && is_laid_out(host, &lines)).then_some(Stick { host: id, face, lines })
}

fn line(host: &Part, part: PartId, guest: &Part) -> Option<Line> {
    let (space, there) = (host.cuboid(), guest.cuboid());
    let length = host.placement.length;
    // The end of the guest looks along its own length.
    let meets = guest.placement.length;
    if meets == length {
        return None;
    }
    let across = Direction::ALL.into_iter().find(|axis| ![meets, length].contains(axis))?;
    let along = stretch(host, &space, &there, length);
    let across = stretch(host, &space, &there, across);
    let whole = across.to - across.from == space.size(host.placement.direction(across.datum));
    Some(Line { part, along, across: (!whole).then_some(across) })
}

/// What two boards share along an axis of the piece, from the marked face of the
/// host.
fn stretch(host: &Part, own: &Cuboid, other: &Cuboid, axis: Direction) -> Stretch {
    let start = own.from.along(axis);
    let from = other.from.along(axis).max(start) - start;
    let to = other.to.along(axis).min(own.to.along(axis)) - start;
    let datum = host.datum([true, false].map(|start| host.placement.face(axis, start)));
    let [one, two] = [from, to].map(|place| host.distance(datum, place));
    Stretch { datum, from: one.min(two), to: one.max(two) }
}

/// The rows of tails of a board: one where both its ends are alike.
fn tails(work: &Workings<'_>, (id, part): (PartId, &Part), into: &[&Joint]) -> Vec<Tails> {
    let rows = part.features.iter().filter(|own| own.kind == FeatureKind::Dovetails);
    let rows: Vec<&Feature> = rows.collect();
    let alike = rows.iter().all(|own| rows.first().is_some_and(|first| own.u == first.u));
    let own = rows.iter().take(if alike { 1 } else { rows.len() });
    own.map(|row| {
        let end = (!alike).then_some(row.face);
        tailed(work, (id, part), (row, end), into)
    })
    .collect()
}

/// The tails of one row, from the joints that their board holds.
fn tailed(
    work: &Workings<'_>,
    (id, part): (PartId, &Part),
    (row, end): (&Feature, Option<Face>),
    into: &[&Joint],
) -> Tails {
    let tape = work.piece.tape();
    let species = work.piece.stock(part.stock).and_then(|stock| stock.species.as_deref());
    let slope = trade::dovetail_slope(species);
    let (long, lean) = (row.deep, row.deep / slope);
    let datum = part.datum([Face::WidthStart, Face::WidthEnd]);
    let [one, two] = [row.u.0, row.u.1].map(|place| part.distance(datum, place));
    let from = one.min(two);
    let wide = row.u.1 - row.u.0;
    let own = trade::tails(wide, tape.unit, tape.mark);
    // In the middle of the row, and on marks of the tape from the edge of the board.
    let first = own.first().map_or(Length::ZERO, |tail| tail.0);
    let all = own.last().map_or(Length::ZERO, |tail| tail.1) - first;
    let start = from + (wide - all).half();
    let by = tape.mark * (start / tape.mark).round() - first;
    let tails: Vec<(Length, Length)> =
        own.into_iter().map(|(start, end)| (start + by, end + by)).collect();
    // The boards whose pins stand at that end.
    let place = |id: PartId| work.parts.get(id).map(Part::cuboid);
    let at_end = |pins: PartId| match (end, place(pins)) {
        (Some(end), Some(pins)) => {
            let middle = |space: &Cuboid| {
                let axis = part.placement.length;
                space.from.along(axis) + space.to.along(axis)
            };
            (middle(&pins) < middle(&part.cuboid())) == end.is_start()
        }
        _ => true,
    };
    let pins = into.iter().filter(|joint| joint.sort == JointSort::Wood(JointKind::Dovetail));
    let pins = pins.map(|joint| joint.part).filter(|id| at_end(*id));
    let grooves = part.features.iter().filter(|own| own.kind == FeatureKind::Groove);
    let hides = |groove: (Length, Length), tail: &(Length, Length)| {
        let [one, two] = [groove.0, groove.1].map(|place| part.distance(datum, place));
        tail.0 + lean <= one.min(two) && one.max(two) <= tail.1 - lean
    };
    let mut hidden = grooves.map(|own| tails.iter().position(|tail| hides(own.v, tail)));
    let grooved = hidden.next().flatten().map(|tail| tail + 1);
    Tails {
        part: id,
        end,
        row: (from, one.max(two)),
        pins: pins.collect(),
        datum,
        long,
        slope,
        lean,
        grooved,
        tails,
    }
}
