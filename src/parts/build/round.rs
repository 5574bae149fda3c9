//! Boards and boxes that are cut round pipes and sockets.

use crate::measure::Length;
use crate::model::{CutRound, Opening, OpeningKind};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{PartId, Role};
use crate::parts::part::{Assembly, Part};
use crate::parts::space::{Cuboid, Direction, Face, Point, keep_out_space};

use super::builder::Builder;

/// Cuts the boxes, and the boards of the case, round what they are told to go round.
pub(super) fn build(builder: &mut Builder<'_>) {
    let case = builder.case;
    for round in &case.around {
        cut(builder, round, |part| is_cut_round(part.role));
        // A drawer of its own mind is cut as it says itself.
        for opening in case.openings.iter().filter(|own| own.around().is_empty()) {
            cut_box(builder, opening, round);
        }
    }
    for opening in &case.openings {
        for round in opening.around() {
            cut_box(builder, opening, round);
        }
    }
}

impl Opening {
    /// What its drawer box is cut round.
    #[must_use]
    pub fn around(&self) -> &[CutRound] {
        match &self.kind {
            OpeningKind::Drawer { around, .. } => around,
            OpeningKind::List(..)
            | OpeningKind::Door(_)
            | OpeningKind::Doors
            | OpeningKind::Open
            | OpeningKind::False => &[],
        }
    }
}

fn cut_box(builder: &mut Builder<'_>, opening: &Opening, round: &CutRound) {
    let own = Assembly::DrawerBox(opening.id);
    cut(builder, round, |part| part.assembly == own);
}

/// What may be cut at its rear edge. Ends and kicks stand too far from the wall or
/// are seen, nailers are divided, and a back is cut out on site.
#[must_use]
pub fn is_cut_round(role: Role) -> bool {
    matches!(
        role,
        Role::Bottom
            | Role::Top
            | Role::Stretcher
            | Role::Partition
            | Role::Divider
            | Role::FixedShelf
            | Role::AdjustableShelf
    )
}

/// Cuts what `is` picks round a keep-out. A keep-out comes out of the wall, so the cut
/// is open at the rear edge of a board that lies or stands square to it; in a board
/// that stands along the wall, the back of a box, it is open at the top, since the
/// box passes it when it is let down on its slides.
fn cut(builder: &mut Builder<'_>, round: &CutRound, is: impl Fn(&Part) -> bool) {
    let Some(keep_out) = builder.piece.site.keep_outs.get(round.keep_out.0) else { return };
    let clear = builder.piece.clear_of(round);
    let back = builder.piece.ahead(builder.case);
    let mut space = keep_out_space(builder.piece, keep_out);
    space.from =
        Point::new(space.from.x - clear, space.from.y - clear, space.from.z - clear - back);
    space.to = Point::new(space.to.x + clear, space.to.y + clear, space.to.z + clear - back);
    let hit: Vec<PartId> = builder
        .own()
        .filter(|(_, part)| is(part) && part.cuboid().overlaps(&space))
        .map(|(id, _)| id)
        .collect();
    for id in hit {
        let Some(part) = builder.part(id) else { continue };
        let (u, v) =
            (range(part, &space, part.placement.length), range(part, &space, part.placement.width));
        let feature = Feature {
            kind: FeatureKind::Notch,
            face: Face::ThickEnd,
            u,
            v,
            deep: part.thickness.length,
            deep_at: None,
            takes: None,
            span: round.span,
        };
        builder.cut(id, feature);
    }
}

/// From and to along a direction of a part, in its own frame, what a cut takes.
fn range(part: &Part, space: &Cuboid, direction: Direction) -> (Length, Length) {
    let own = part.cuboid();
    let start = own.from.along(direction);
    let from = space.from.along(direction).max(start) - start;
    let in_box = matches!(part.assembly, Assembly::DrawerBox(_));
    let open_above =
        in_box && direction == Direction::Y && part.placement.thickness != Direction::Y;
    let to = match open_above {
        true => own.to.along(direction),
        false => space.to.along(direction).min(own.to.along(direction)),
    };
    (from, to - start)
}
