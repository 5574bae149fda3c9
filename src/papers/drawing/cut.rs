//! What a plane cuts through and what stands beyond it.

use crate::measure::Length;
use crate::model::{Case, CaseId, Piece, Side};
use crate::parts::{Assembly, Cuboid, Direction, FeatureKind, Part, PartId, Parts, Role, Which};

use super::labels::Area;
use super::svg::{Fill, Line, Svg, mm};

/// A plane through the piece, and how it lies on the paper.
#[derive(Clone, Copy, Debug)]
pub(super) enum Plane {
    /// Upright from front to back, seen from the left: the front is on the right.
    FromLeft { x: Length, deep: Length, high: Length },
    /// Level, seen from above between two places from left to right: the front is
    /// below.
    FromAbove { y: Length, deep: Length, between: (Length, Length) },
}

/// What is cut, and what is seen beyond.
pub(super) struct Sorted<'p> {
    pub(super) cut: Vec<(PartId, &'p Part)>,
    pub(super) beyond: Vec<(PartId, &'p Part)>,
}

impl Plane {
    /// Where a box lies on the paper.
    pub(super) fn area(self, space: &Cuboid) -> Area {
        match self {
            Self::FromLeft { deep, high, .. } => (
                (mm(deep - space.to.z), mm(high - space.to.y)),
                (mm(deep - space.from.z), mm(high - space.from.y)),
            ),
            Self::FromAbove { deep, between, .. } => (
                (mm(space.from.x.max(between.0)), mm(deep - space.to.z)),
                (mm(space.to.x.min(between.1)), mm(deep - space.from.z)),
            ),
        }
    }

    fn cuts(self, space: &Cuboid) -> bool {
        match self {
            Self::FromLeft { x, .. } => space.from.x < x && x < space.to.x,
            Self::FromAbove { y, .. } => space.from.y < y && y < space.to.y,
        }
    }

    fn is_beyond(self, space: &Cuboid) -> bool {
        match self {
            Self::FromLeft { x, .. } => space.from.x >= x,
            Self::FromAbove { y, .. } => space.to.y <= y,
        }
    }

    fn shows(self, space: &Cuboid) -> bool {
        match self {
            Self::FromLeft { .. } => true,
            Self::FromAbove { between, .. } => space.from.x < between.1 && between.0 < space.to.x,
        }
    }

    /// How far away a part begins.
    fn far(self, space: &Cuboid) -> Length {
        match self {
            Self::FromLeft { .. } => space.from.x,
            Self::FromAbove { .. } => Length::ZERO - space.to.y,
        }
    }

    /// Sorts what is to be drawn: what is cut with each guest behind its hosts, and
    /// what stands beyond with the farthest first.
    pub(super) fn sort<'p>(self, parts: impl Iterator<Item = (PartId, &'p Part)>) -> Sorted<'p> {
        let shown: Vec<_> = parts.filter(|(_, part)| self.shows(&part.cuboid())).collect();
        let of = |keep: &dyn Fn(&Cuboid) -> bool| -> Vec<(PartId, &'p Part)> {
            shown.iter().filter(|(_, part)| keep(&part.cuboid())).copied().collect()
        };
        let mut beyond = of(&|space| self.is_beyond(space));
        beyond.sort_by(|(_, a), (_, b)| {
            let far = |part: &Part| self.far(&part.cuboid());
            far(b).cmp(&far(a)).then_with(|| a.path.cmp(&b.path))
        });
        let mut cut = of(&|space| self.cuts(space));
        cut.sort_by_key(|(_, part)| part.path.as_str());
        // A board that lies in a channel of another is drawn over it: a bottom over its
        // groove, a back over its rabbets.
        let mut hosts: Vec<(PartId, PartId)> = Vec::new();
        for (host, part) in &cut {
            for channel in part.features.iter().filter(|own| own.is_channel()) {
                if let Some(guest) = channel.takes {
                    hosts.push((*host, guest));
                    continue;
                }
                let hollows: Vec<Cuboid> = part.hollows(channel).collect();
                let lies_there = |guest: &Part| {
                    let space = guest.cuboid();
                    hollows.iter().any(|hollow| hollow.overlaps(&space))
                };
                let guests = cut.iter().filter(|(id, guest)| id != host && lies_there(guest));
                hosts.extend(guests.map(|(guest, _)| (*host, *guest)));
            }
        }
        let rank = |part: PartId| {
            let host = hosts.iter().find(|(_, guest)| *guest == part).map(|(host, _)| *host);
            let over = host.map(|host| hosts.iter().any(|(_, guest)| *guest == host));
            over.map_or(0, |is_over| if is_over { 2 } else { 1 })
        };
        cut.sort_by_cached_key(|(id, _)| rank(*id));
        Sorted { cut, beyond }
    }

    /// What a level plane cuts of a board that is mitered to the next: its long point is
    /// on the outside face of an end, and on the front face of a stile. Of others, and
    /// from the side, all of it.
    fn outline(self, part: &Part) -> [(f64, f64); 4] {
        let ((left, back), (right, front)) = self.area(&part.cuboid());
        let whole = [(left, back), (right, back), (right, front), (left, front)];
        let miter = part.features.iter().find(|own| own.kind == FeatureKind::Miter);
        let (Self::FromAbove { .. }, Some(miter)) = (self, miter) else { return whole };
        let deep = mm(miter.deep);
        match (part.role, miter.face.is_start()) {
            (Role::End(Side::Left), _) => {
                [(left, back), (right, back), (right, front - deep), (left, front)]
            }
            (Role::End(Side::Right), _) => {
                [(left, back), (right, back), (right, front), (left, front - deep)]
            }
            (Role::Stile, true) => {
                [(left + deep, back), (right, back), (right, front), (left, front)]
            }
            (Role::Stile, false) => {
                [(left, back), (right - deep, back), (right, front), (left, front)]
            }
            _ => whole,
        }
    }

    /// Draws what is cut through, each with the channels that the plane meets.
    pub(super) fn draw_cut(self, svg: &mut Svg, cut: &[(PartId, &Part)]) {
        for (_, part) in cut {
            svg.polygon(&self.outline(part), Line::Wide, Fill::Hatched);
            let channels = part
                .features
                .iter()
                .filter(|own| own.is_channel() || own.kind == FeatureKind::Notch);
            for channel in channels {
                for hollow in part.hollows(channel).filter(|hollow| self.cuts(hollow)) {
                    let area = self.area(&hollow);
                    svg.rect(area.0, area.1, Line::Narrow, Fill::White);
                }
            }
        }
    }
}

/// The parts of a case and of the next: what stands further along is mostly hidden,
/// and drawing it each time would cost the square of the cases.
pub(super) fn near(parts: &Parts, case: usize) -> impl Iterator<Item = (PartId, &Part)> {
    let from = parts.all.partition_point(|part| part.case.0 < case);
    let own = parts.all.iter().enumerate().skip(from);
    own.take_while(move |(_, part)| part.case.0 <= case + 1).map(|(at, part)| (PartId(at), part))
}

/// The cover over the back of a case that is counted with an earlier one.
pub(super) fn covers_over<'p>(
    piece: &Piece,
    parts: &'p Parts,
    case: &Case,
) -> impl Iterator<Item = (PartId, &'p Part)> {
    let first = piece.back_cover_of(case.id).first().copied().filter(|id| *id != case.id);
    let all = first.into_iter().flat_map(|id| parts.iter_case(id));
    all.filter(|(_, part)| part.role == Role::Cover && part.which == Which::Back)
}

/// The parts near a case, and those of the cases that stand on it or that it stands on; with
/// the countertop over it, the cover over its back, and the base under it, which are counted
/// with the first case of several that have them together.
pub(super) fn stack<'p>(
    piece: &Piece,
    parts: &'p Parts,
    case: &Case,
) -> impl Iterator<Item = (PartId, &'p Part)> {
    let others = piece.cases.iter().filter(|other| {
        let beside = other.id.0 == case.id.0 || other.id.0 == case.id.0 + 1;
        !beside && (piece.stands_on(other, case.id) || piece.stands_on(case, other.id))
    });
    let others: Vec<CaseId> = others.map(|other| other.id).collect();
    let top = piece.top_over(case.id).map(|top| top.row.first);
    let base = piece.base_row(case.id).map(|row| row.first);
    let apart = |first: Option<CaseId>| {
        first.filter(|id| *id != case.id && !others.contains(id)).into_iter()
    };
    let over = apart(top).flat_map(|id| parts.iter_case(id));
    let over = over.filter(|(_, part)| part.role == Role::Countertop);
    let under = apart(base).flat_map(|id| parts.iter_case(id));
    let under = under
        .filter(|(_, part)| matches!(part.assembly, Assembly::Base(_)) || part.role == Role::Kick);
    let shared: Vec<(PartId, &Part)> = over.chain(under).collect();
    let stacked = others.into_iter().flat_map(|id| parts.iter_case(id));
    let covers = covers_over(piece, parts, case);
    near(parts, case.id.0).chain(stacked).chain(shared).chain(covers)
}

/// Where the notch of an end lies that takes its lower front corner: how high it
/// reaches and how far back.
pub(super) fn toe(part: &Part) -> Option<(Length, Length)> {
    if !matches!(part.role, Role::End(_)) {
        return None;
    }
    let notch = part.features.iter().find(|own| own.kind == FeatureKind::Notch)?;
    let space = part.cuboid();
    Some((space.from.y + notch.u.1, space.from.z + notch.v.1))
}

/// An end above its notch and behind it.
pub(super) fn above_and_behind(space: &Cuboid, (y, z): (Length, Length)) -> [Cuboid; 2] {
    let (mut above, mut behind) = (*space, *space);
    above.from.y = y;
    behind.to.y = y;
    behind.from.z = z;
    [above, behind]
}

/// True for a board that lies.
pub(super) fn lies(part: &Part) -> bool {
    let space = part.cuboid();
    space.size(Direction::Y) < space.size(Direction::Z)
}
