//! Round holes that a maker asks for in a board.

use crate::measure::Length;
use crate::model::{Hole, HoleEdge, Size};
use crate::parts::feature::{Bore, Feature, FeatureKind};
use crate::parts::id::{PartId, Role};
use crate::parts::part::Part;
use crate::parts::space::{Direction, Face};

use super::builder::Builder;

/// Bores them through the boards of a case and through what lies on it.
pub(super) fn build(builder: &mut Builder<'_>) {
    let own: Vec<(PartId, Vec<Hole>)> =
        builder.own().map(|(id, part)| (id, asked(builder, part))).collect();
    for (id, holes) in own {
        for hole in holes {
            if let Some(feature) = builder.part(id).map(|part| through(part, &hole)) {
                builder.cut(id, feature);
                builder.note(id, &hole.notes);
            }
        }
    }
}

/// What the spec asks for in a board.
fn asked(builder: &Builder<'_>, part: &Part) -> Vec<Hole> {
    match part.role {
        Role::Back => builder.case.back_holes.clone(),
        Role::End(side) => side.of(&builder.case.ends).holes.clone(),
        Role::Countertop => {
            let top = builder.piece.top_over(builder.id);
            top.map(|top| top.spec.holes.clone()).unwrap_or_default()
        }
        Role::FixedShelf | Role::AdjustableShelf => {
            let opening = part.opening().and_then(|id| builder.piece.opening(id));
            let shelves = opening.and_then(|opening| opening.shelves.as_ref());
            shelves.map(|own| own.holes.clone()).unwrap_or_default()
        }
        _ => Vec::new(),
    }
}

/// A hole as it is bored, from the face that is seen.
fn through(part: &Part, hole: &Hole) -> Feature {
    let center = |direction: Direction| {
        hole.from_start(direction).map_or(Length::ZERO, |(size, is_start)| match is_start {
            true => size.length,
            false => part.along(direction).length - size.length,
        })
    };
    let (u, v) = (center(part.placement.length), center(part.placement.width));
    let radius = hole.radius();
    Feature {
        kind: FeatureKind::Bore(Bore::Round),
        face: part.show.filter(|face| face.is_broad()).unwrap_or(Face::ThickEnd),
        u: (u - radius, u + radius),
        v: (v - radius, v + radius),
        deep: part.thickness.length,
        deep_at: None,
        takes: None,
        span: hole.span,
    }
}

impl Hole {
    /// What its place along a direction of the piece is measured as, and true where that
    /// counts from where the direction begins.
    #[must_use]
    pub fn from_start(&self, direction: Direction) -> Option<(&Size, bool)> {
        let of = |edge: HoleEdge| match edge {
            HoleEdge::Left => (Direction::X, true),
            HoleEdge::Right => (Direction::X, false),
            HoleEdge::Bottom => (Direction::Y, true),
            HoleEdge::Top => (Direction::Y, false),
            HoleEdge::Front => (Direction::Z, true),
            HoleEdge::Back => (Direction::Z, false),
        };
        let mut own = self.from.iter().map(|(edge, size)| (of(*edge), size));
        own.find(|((own, _), _)| *own == direction).map(|((_, start), size)| (size, start))
    }
}
