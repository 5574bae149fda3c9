//! Which boards lie under a load, what carries them, and what helps them along their edges.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{
    Board, Carries, Case, Member, MemberKind, Opening, OpeningKind, Piece, RailShelf,
};
use crate::parts::{self, Direction, Of, Part, PartId, Parts, Role};
use crate::trade::{self, Beam};

use super::Lying;

/// Every board that something stands on, and that does not lie on the floor.
pub(in crate::plans) fn lying<'a>(piece: &'a Piece, parts: &'a Parts) -> Vec<Lying<'a>> {
    // What each lying board is let into, and the uprights that end under it.
    let mut hosts: BTreeMap<PartId, Vec<&Part>> = BTreeMap::new();
    let mut under: BTreeMap<PartId, Vec<&Part>> = BTreeMap::new();
    for joint in &parts.joints {
        let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
            continue;
        };
        let holds = matches!(into.role, Role::End(_) | Role::EndRail(_) | Role::Partition);
        if is_lying(part) && holds {
            hosts.entry(joint.part).or_default().push(into);
        } else if is_lying(into) && matches!(part.role, Role::Partition | Role::Leg) {
            under.entry(joint.into).or_default().push(part);
        }
    }
    let mut found = Vec::new();
    let mut from = 0;
    for case in &piece.cases {
        let of_case = parts.of_case(case.id);
        let own: Vec<&Part> = of_case.iter().chain(base_below(piece, parts, case)).collect();
        let own = own.as_slice();
        for (offset, part) in of_case.iter().enumerate().filter(|(_, part)| is_lying(part)) {
            let id = PartId(from + offset);
            let Some(carries) = carries(piece, case, part) else { continue };
            if part.role == Role::Countertop {
                let under = piece.top_over(case.id).map_or(Vec::new(), |top| parts.under(top));
                let under: Vec<&Part> = under.into_iter().map(|(_, part)| part).collect();
                found.extend(on_cases(piece, &under, part, carries));
                continue;
            }
            let none = Vec::new();
            let hosts = hosts.get(&id).unwrap_or(&none);
            let under = under.get(&id).unwrap_or(&none);
            let bears =
                match (&part.role, case.top.as_ref().and_then(|top| top.stretchers.as_ref())) {
                    (Role::Stretcher, Some((count, _))) => case.deep.length / i64::from(*count),
                    _ => part.width.length,
                };
            let lying = one(piece, own, part, carries, hosts, under);
            found.extend(lying.map(|lying| Lying { bears, ..lying }.held()));
        }
        from += of_case.len();
    }
    found
}

/// What a case stands on that is counted with another one.
fn base_below<'a>(piece: &Piece, parts: &'a Parts, case: &Case) -> impl Iterator<Item = &'a Part> {
    let first = piece.base_of(case.id);
    let shared = if first == case.id { &[] } else { parts.of_case(first) };
    shared.iter().filter(move |part| part.of == Of::Row(first))
}

fn is_lying(part: &Part) -> bool {
    matches!(
        part.role,
        Role::Bottom
            | Role::Top
            | Role::Countertop
            | Role::Stretcher
            | Role::Divider
            | Role::FixedShelf
            | Role::AdjustableShelf
    )
}

/// What stands on a board; `None` where nothing does.
fn carries(piece: &Piece, case: &Case, part: &Part) -> Option<Carries> {
    match part.role {
        Role::Bottom => case.bottom.as_ref().map(|bottom| bottom.carries),
        // What stands on a countertop bends that, over its ends and partitions.
        Role::Top | Role::Stretcher if piece.top_over(case.id).is_some() => None,
        Role::Top | Role::Stretcher => case.top.as_ref().and_then(|top| top.carries),
        Role::Countertop => {
            let own = piece.top_over(case.id).and_then(|top| top.spec.carries);
            let top = case.top.as_ref()?;
            Some(own.or(top.carries).unwrap_or_else(Carries::usual))
        }
        Role::Divider => {
            let own = match part.of {
                Of::Member(member) => piece.member(member).and_then(divider),
                Of::Case(_) | Of::Row(_) | Of::Opening(_) | Of::Front(_) => None,
            };
            let own = own.and_then(|board| board.carries);
            own.or_else(|| stood_on(case, part).then_some(case.shelves.carries))
        }
        Role::FixedShelf if part.opening().is_none() => {
            let own = match part.of {
                Of::Member(member) => piece.member(member).and_then(rail_shelf),
                Of::Case(_) | Of::Row(_) | Of::Opening(_) | Of::Front(_) => None,
            };
            let carries = own.and_then(|shelf| shelf.carries).unwrap_or(case.shelves.carries);
            let lip = own.map_or(Length::ZERO, |shelf| shelf.lip.length);
            let open = stands_on(case, part, lip).any(|opening| opening.kind == OpeningKind::Open);
            Some(books(carries, open))
        }
        _ => {
            let opening = part.opening().and_then(|id| piece.opening(id));
            let own = opening.and_then(|opening| opening.shelves.as_ref()?.carries);
            let carries = own.unwrap_or(case.shelves.carries);
            let open = opening.is_some_and(|opening| opening.kind == OpeningKind::Open);
            Some(books(carries, open))
        }
    }
}

/// Where nothing is written, books may stand on what lies open.
fn books(carries: Carries, open: bool) -> Carries {
    match carries.written {
        None if open => Carries { load: trade::book_load(), open, ..carries },
        _ => carries,
    }
}

fn rail_shelf(member: &Member) -> Option<&RailShelf> {
    match &member.kind {
        MemberKind::Rail(shelf) => shelf.as_deref(),
        MemberKind::Stile(_) | MemberKind::Divider(_) => None,
    }
}

fn divider(member: &Member) -> Option<&Board> {
    match &member.kind {
        MemberKind::Divider(board) => Some(board),
        MemberKind::Stile(_) | MemberKind::Rail(_) => None,
    }
}

/// True for a divider with a door or niche over it; over a drawer or a false
/// front nothing stands on it.
fn stood_on(case: &Case, part: &Part) -> bool {
    stands_on(case, part, Length::ZERO).next().is_some()
}

/// The doors and niches over a board whose top lies this far below their edge.
fn stands_on<'a>(case: &'a Case, part: &Part, lip: Length) -> impl Iterator<Item = &'a Opening> {
    let space = part.cuboid();
    case.openings.iter().filter(move |opening| {
        let x = case.x + opening.x;
        opening.keeps_things()
            && opening.y == space.to.y + lip
            && x < space.to.x
            && space.from.x < x + opening.wide.length
    })
}

/// A countertop lies on the ends, and by way of stretchers on the partitions under them;
/// the rail of the frame bends with its front edge.
fn on_cases<'a>(
    piece: &Piece,
    own: &[&'a Part],
    part: &'a Part,
    carries: Carries,
) -> Option<Lying<'a>> {
    let of = || own.iter().copied();
    let ends = of().filter(|own| matches!(own.role, Role::End(_) | Role::Post(_)));
    // The outermost ends hold it, and those between bear it, on either side of a space.
    let (from, to) = ends.clone().fold(None, |all: Option<(Length, Length)>, end| {
        let (from, to) = end.extent(Direction::X);
        Some(all.map_or((from, to), |(first, last)| (first.min(from), last.max(to))))
    })?;
    let is_outer = |end: &&Part| {
        let (start, stop) = end.extent(Direction::X);
        start == from || stop == to
    };
    let (hosts, inner): (Vec<&Part>, Vec<&Part>) = ends.partition(is_outer);
    let carrier = of().find(|own| matches!(own.role, Role::Stretcher | Role::Top))?;
    let reaches = |upright: &&Part| {
        upright.role == Role::Partition
            && upright.extent(Direction::Y).1 >= carrier.extent(Direction::Y).0
    };
    let under: Vec<&Part> = of().filter(reaches).chain(inner).collect();
    one(piece, own, part, carries, &hosts, &under).map(Lying::held)
}

/// The bought legs under a bottom between the outer ones.
fn middle_legs(piece: &Piece, bottom: &Part) -> Vec<(Length, Length)> {
    let Some(case) = piece.case(bottom.case) else { return Vec::new() };
    let Some((legs, leg)) = piece.legs_under(case) else { return Vec::new() };
    let across = usize::try_from(legs.across).unwrap_or(usize::MAX);
    let front = parts::legs_under(piece, case, bottom).into_iter().take(across);
    let (from, half) = (bottom.cuboid().from.x, leg.wide.length.half());
    let middle = front.skip(1).take(across.saturating_sub(2));
    middle
        .map(|leg| from + leg.center[0].length)
        .map(|center| (center - half, center + half))
        .collect()
}

fn one<'a>(
    piece: &Piece,
    own: &[&'a Part],
    part: &'a Part,
    carries: Carries,
    hosts: &[&'a Part],
    under: &[&'a Part],
) -> Option<Lying<'a>> {
    let space = part.cuboid();
    if space.from.y.is_zero() {
        return None;
    }
    // From face to face of what it is let into; a board that nothing holds at
    // an end is taken whole.
    let middle = (space.from.x + space.to.x).half();
    let (mut left, mut right) = (space.from.x, space.to.x);
    for host in hosts.iter().map(|host| host.cuboid()) {
        if host.to.x <= middle {
            left = left.max(host.to.x);
        } else if host.from.x >= middle {
            right = right.min(host.from.x);
        }
    }
    let mut held: Vec<(Length, Length)> = Vec::new();
    let below = |other: &Part| other.cuboid().from.y < space.from.y;
    held.extend(under.iter().filter(|other| below(other)).map(|other| other.extent(Direction::X)));
    if part.role == Role::Bottom {
        for member in
            own.iter().filter(|other| matches!(other.role, Role::BaseMember | Role::BaseLeg))
        {
            let under = member.cuboid();
            let touches = under.to.y == space.from.y;
            if touches && under.from.x <= left && right <= under.to.x {
                return None;
            }
            held.extend(touches.then_some((under.from.x, under.to.x)));
        }
        held.extend(middle_legs(piece, part));
    }
    held.retain(|(from, to)| left < *to && *from < right);
    held.sort_unstable();
    let mut spans = Vec::new();
    let mut at = left;
    for (from, to) in &held {
        spans.push(*from - at);
        at = at.max(*to);
    }
    spans.push(right - at);
    let span = spans.iter().copied().max().filter(|span| span.is_positive())?;
    let over = matches!(spans.as_slice(), [first, second] if first == second);
    Some(Lying {
        part,
        carries,
        span,
        beam: if over { Beam::TwoSpans } else { Beam::Simple },
        supports: held.len(),
        front: helpers(own, part, right - left, is_before),
        rear: helpers(own, part, right - left, is_behind),
        bears: part.width.length,
    })
}

/// The rail along the front edge of a board, and the kick board under a bottom.
fn is_before(part: &Part, other: &Part) -> bool {
    let (space, reach) = (part.cuboid(), other.cuboid());
    match other.role {
        Role::Rail => reach.to.z == space.from.z && reach.overlaps_along(&space, Direction::Y),
        Role::Kick => {
            part.role == Role::Bottom
                && reach.to.y == space.from.y
                && reach.overlaps_along(&space, Direction::Z)
        }
        _ => false,
    }
}

/// The back that lies on the rear edge of a board and is pinned to it.
fn is_behind(part: &Part, other: &Part) -> bool {
    let (space, reach) = (part.cuboid(), other.cuboid());
    other.role == Role::Back
        && reach.from.z == space.to.z
        && reach.overlaps_along(&space, Direction::Y)
}

/// What bends with an edge of a bottom, top or stretcher: what runs along it
/// for nine tenths of the way or more.
fn helpers<'a>(
    own: &[&'a Part],
    part: &'a Part,
    clear: Length,
    is_at: fn(&Part, &Part) -> bool,
) -> Vec<&'a Part> {
    if !matches!(part.role, Role::Bottom | Role::Top | Role::Stretcher) {
        return Vec::new();
    }
    let space = part.cuboid();
    let helps = |other: &&Part| {
        let along = other.cuboid().overlap_along(&space, Direction::X);
        is_at(part, other) && along * 10 >= clear * 9
    };
    own.iter().copied().filter(helps).collect()
}
