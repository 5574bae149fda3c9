//! Strips on the edges of sheets: which parts get them, and where.

use crate::measure::Length;
use crate::model::{
    Axis, Brim, Case, Edged, Edging, Exposure, MemberId, MemberKind, Piece, Side, Stock,
};
use crate::parts::edging::{Strip, overlong};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::part::{Part, Parts};
use crate::parts::space::{Direction, Face};

use super::builder::Builder;
use super::cover::{at_end, cover_of};

/// Puts its strips on every part of a case that shows the edge of a sheet.
pub(super) fn build(builder: &mut Builder<'_>) {
    let (piece, case) = (builder.piece, builder.case);
    let asked: Vec<(usize, Edging)> = builder
        .own()
        .filter_map(|(id, part)| Some((id.0, asked(piece, case, part)?.clone())))
        .filter(|(at, _)| {
            let stock = builder.parts.all.get(*at).and_then(|part| piece.stock(part.stock));
            stock.is_some_and(Stock::is_sheet)
        })
        .collect();
    for (at, edging) in asked {
        let Some(part) = builder.parts.all.get(at) else { continue };
        let faces: Vec<Face> = faces(piece, case, part, &edging)
            .into_iter()
            .filter(|face| !is_covered(builder, part, *face))
            .collect();
        let banding = piece.stock(edging.stock).is_some_and(Stock::is_banding);
        let strips = faces.into_iter().map(|face| Strip {
            face,
            stock: edging.stock,
            thick: edging.thick.clone(),
            banding,
            span: edging.span,
        });
        let strips: Vec<Strip> = strips.collect();
        if let Some(part) = builder.parts.all.get_mut(at) {
            put_on(piece, part, strips);
        }
    }
}

/// Puts strips on a part, whose core is sawn so much smaller.
fn put_on(piece: &Piece, part: &mut Part, strips: Vec<Strip>) {
    part.strips = strips;
    let (_, over) = overlong(piece.tape().unit);
    let [length, width] = part.core();
    part.rough.length = match part.is_cut_after([Face::LengthStart, Face::LengthEnd]) {
        true => length.length + over,
        false => length.length,
    };
    part.rough.width = match part.is_cut_after([Face::WidthStart, Face::WidthEnd]) {
        true => width.length + over,
        false => width.length,
    };
}

/// Puts a strip on each end of a kick, and of the front and the back of a base, that is seen
/// below the end of a case: the strip that its case has on its edges.
pub(super) fn below(piece: &Piece, parts: &mut Parts) {
    let long = parts.iter().filter(|(_, part)| {
        let is_sheet = piece.stock(part.stock).is_some_and(|own| !own.is_solid());
        is_sheet && part.is_below()
    });
    let all: Vec<(PartId, Vec<Strip>)> =
        long.map(|(id, part)| (id, seen_strips(piece, parts, part))).collect();
    for (id, strips) in all {
        if let Some(part) = parts.all.get_mut(id.0).filter(|_| !strips.is_empty()) {
            put_on(piece, part, strips);
        }
    }
}

/// The strips for the ends of a part that are seen below ends of cases.
fn seen_strips(piece: &Piece, parts: &Parts, part: &Part) -> Vec<Strip> {
    let ends = parts.seen_over(piece, part).into_iter().filter_map(|(side, id)| {
        let edging = match &piece.case(parts.get(id)?.case)?.edges {
            Edged::With(edging) => edging,
            Edged::Bare | Edged::Unsaid => return None,
        };
        Some(Strip {
            face: part.placement.face(Direction::X, side == Side::Left),
            stock: edging.stock,
            thick: edging.thick.clone(),
            banding: piece.stock(edging.stock).is_some_and(Stock::is_banding),
            span: edging.span,
        })
    });
    let mut strips: Vec<Strip> = ends.collect();
    // The two ends of one board are covered alike.
    let first = strips.first().map(|strip| strip.stock);
    strips.retain(|strip| Some(strip.stock) == first);
    strips
}

/// What is asked of the edges of a part, by itself or by its case.
pub fn asked<'a>(piece: &'a Piece, case: &'a Case, part: &Part) -> Option<&'a Edging> {
    let member = |id: MemberId| case.members.get(id.at).map(|member| &member.kind);
    let own = match (part.role, part.of) {
        (Role::End(side), _) => &side.of(&case.ends).edges,
        (Role::Cover, _) => &cover_of(case, part)?.edges,
        (Role::Bottom, _) => &case.bottom.as_ref()?.board.edges,
        (Role::Top, _) => &case.top.as_ref()?.board.edges,
        (Role::Stretcher, _) if part.which == Which::Front => &case.top.as_ref()?.board.edges,
        (Role::Countertop, _) => &piece.top_over(case.id)?.spec.edges,
        // Where nothing else is said, a lying divider is a shelf to whoever sees it.
        (Role::Divider, Of::Member(id)) if is_lying(case, id) => {
            let board = case.members.get(id.at)?.lying_board()?;
            board.edges.or(&case.edges).or(&case.shelves.edges)
        }
        (Role::Partition | Role::Divider | Role::FixedShelf, Of::Member(id)) => match member(id)? {
            MemberKind::Stile(crate::model::Partition::Board(board))
            | MemberKind::Divider(board) => &board.edges,
            MemberKind::Rail(Some(shelf)) => &shelf.board.edges,
            MemberKind::Stile(crate::model::Partition::None) | MemberKind::Rail(None) => {
                return None;
            }
        },
        (Role::FixedShelf | Role::AdjustableShelf, _) => &case.shelves.edges,
        (Role::Slab, Of::Front(front)) => {
            &case.openings.get(front.opening.at)?.front.as_ref()?.edges
        }
        (
            Role::Post(_)
            | Role::EndRail(_)
            | Role::EndPanel(_)
            | Role::Partition
            | Role::Divider
            | Role::WebRail
            | Role::WebRunner
            | Role::DustPanel
            | Role::Slab
            | Role::Stretcher
            | Role::Nailer(_)
            | Role::Back
            | Role::Leg
            | Role::Kick
            | Role::BaseMember
            | Role::BaseLeg
            | Role::Stile
            | Role::Rail
            | Role::FrontStile
            | Role::FrontRail
            | Role::FrontPanel
            | Role::Bead
            | Role::DrawerSide
            | Role::DrawerFront
            | Role::DrawerBack
            | Role::DrawerBottom
            | Role::Packer
            | Role::HingeBlock
            | Role::HoldingBlock
            | Role::Guide
            | Role::Kicker
            | Role::Runner
            | Role::Stop
            | Role::Filler
            | Role::Batten,
            _,
        ) => return None,
    };
    match own.or(&case.edges) {
        Edged::With(edging) => Some(edging),
        Edged::Bare | Edged::Unsaid => None,
    }
}

/// True for a member that lies between an opening and the one below it.
fn is_lying(case: &Case, id: MemberId) -> bool {
    case.members.get(id.at).is_some_and(|member| member.axis == Axis::Down)
}

/// The edges that strips go on, in their order: those that are not seen first, and the
/// front edge or the upper one last.
fn faces(piece: &Piece, case: &Case, part: &Part, edging: &Edging) -> Vec<Face> {
    let toward = |brim: Brim| match brim {
        Brim::Left => (Direction::X, true),
        Brim::Right => (Direction::X, false),
        Brim::Bottom => (Direction::Y, true),
        Brim::Top => (Direction::Y, false),
        Brim::Front => (Direction::Z, true),
        Brim::Back => (Direction::Z, false),
    };
    let meets = piece.top_over(case.id).map_or(&case.exposure, |top| &top.exposure);
    let seen = |side: Side| matches!(side.of(meets), Exposure::Seen);
    let order: &[Brim] = match part.role {
        Role::Slab => &[Brim::Left, Brim::Right, Brim::Bottom, Brim::Top],
        Role::Countertop => &[Brim::Left, Brim::Right, Brim::Back, Brim::Front],
        Role::Cover => match part.which {
            Which::Back => &[Brim::Left, Brim::Right],
            Which::Bottom => &[Brim::Left, Brim::Right, Brim::Front],
            _ => &[Brim::Back, Brim::Front],
        },
        _ => &[Brim::Front],
    };
    let free = |brim: &Brim| match (part.role, brim) {
        (Role::Countertop, Brim::Left) => seen(Side::Left),
        (Role::Countertop, Brim::Right) => seen(Side::Right),
        (Role::Countertop | Role::Cover, Brim::Back) => !piece.site.fixed,
        // A cover over an end lies over the edge of that over the back, not of that below.
        (Role::Cover, Brim::Left | Brim::Right) => {
            let side = if *brim == Brim::Left { Side::Left } else { Side::Right };
            let end = match part.which {
                Which::Back => at_end(piece, case, side),
                _ => case,
            };
            let is_over = part.which == Which::Back && side.of(&end.covers.ends).is_some();
            // What hangs beside it may begin above it.
            let (low, high) = part.extent(Direction::Y);
            let is_free = match side.of(&end.exposure) {
                Exposure::Seen => true,
                Exposure::Neighbour => {
                    part.which == Which::Bottom && piece.hides(end, side, (low, high)).is_none()
                }
                Exposure::Wall { .. } => false,
            };
            !is_over && is_free
        }
        _ => true,
    };
    let named = order.iter().filter(|brim| free(brim) && !edging.bare.contains(brim));
    let mut faces: Vec<Face> = named
        .map(|brim| toward(*brim))
        .map(|(direction, start)| part.placement.face(direction, start))
        .collect();
    // A strip along the grain covers the ends of those across it.
    faces.sort_by_key(|face| !matches!(face, Face::LengthStart | Face::LengthEnd));
    faces
}

/// True where the frame covers an edge. A board of the case has a member of the frame of
/// its own before it; a divider and a shelf have none, and show what no member happens to
/// cover.
fn is_covered(builder: &Builder<'_>, part: &Part, face: Face) -> bool {
    let direction = part.placement.direction(face);
    let at = |part: &Part, start: bool| {
        let (from, to) = part.extent(direction);
        if start { from } else { to }
    };
    let plane = at(part, face.is_start());
    let over = builder.own().filter(|(_, other)| {
        matches!(other.role, Role::Stile | Role::Rail)
            && at(other, !face.is_start()) == plane
            && Direction::ALL
                .into_iter()
                .filter(|along| *along != direction)
                .all(|along| part.cuboid().overlap_along(&other.cuboid(), along).is_positive())
    });
    let own = match part.of {
        Of::Member(id) => builder.case.members.get(id.at).map(|member| &member.kind),
        _ => None,
    };
    let has_own =
        !matches!((part.of, own), (Of::Opening(_), _) | (_, Some(MemberKind::Divider(_))));
    let mut covers: Vec<(Length, Length)> =
        over.map(|(_, other)| other.extent(part.placement.length)).collect();
    if has_own {
        return !covers.is_empty();
    }
    covers.sort_unstable();
    let (from, to) = part.extent(part.placement.length);
    let reached =
        covers.into_iter().fold(
            from,
            |reached, (start, end)| {
                if start <= reached { reached.max(end) } else { reached }
            },
        );
    reached >= to
}
