//! How each edge of a front moves.

use crate::measure::{Exact, Length};
use crate::model::{Edge, OpeningKind, Piece, Runs, StockId};
use crate::parts::{Assembly, Direction, Front, Part, Parts, Role};

impl Edge {
    /// The axis it looks along.
    #[must_use]
    pub fn direction(self) -> Direction {
        match self {
            Self::Left | Self::Right => Direction::X,
            Self::Top | Self::Bottom => Direction::Y,
        }
    }

    /// The axis it runs along.
    pub(super) fn along(self) -> Direction {
        match self {
            Self::Left | Self::Right => Direction::Y,
            Self::Top | Self::Bottom => Direction::X,
        }
    }

    /// True where it looks toward the end of its axis.
    pub(super) fn is_far(self) -> bool {
        matches!(self, Self::Right | Self::Top)
    }
}

/// Boards side by side whose swelling moves an edge, and how much of it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Mover {
    /// What they are: `leaf`, `2 stiles of the leaf`.
    pub(super) what: String,
    /// Their stock.
    pub(super) stock: StockId,
    /// Their width, all together.
    pub(super) wide: Length,
    /// The part of their swelling that closes the gap; below nought where it
    /// opens it.
    pub(super) share: Exact,
}

impl Front<'_> {
    /// What moves one of its edges. A door moves away from its hinges, for it
    /// can't move toward them; any other front from the middle of its
    /// fixings, half to each side. Rails and stiles keep their length.
    pub(super) fn movers(&self, piece: &Piece, parts: &Parts, edge: Edge) -> Vec<Mover> {
        let mut movers = Vec::new();
        let hinged = self.hung.map(Edge::at);
        let share = match hinged {
            Some(hinged) if hinged == edge => Exact::ZERO,
            Some(_) if edge.direction() == Direction::X => Exact::ONE,
            _ => Exact::ratio(1, 2),
        };
        let across = |part: &&&Part| {
            matches!(part.role, Role::Slab | Role::FrontStile)
                && part.placement.width == edge.direction()
        };
        let moving: Vec<&&Part> = self.parts.iter().filter(across).collect();
        if let Some(first) = moving.first().filter(|_| !share.is_zero()) {
            let noun = self.noun();
            let what = match moving.len() {
                1 => noun.to_owned(),
                count => format!("{count} stiles of the {noun}"),
            };
            let wide = moving.iter().map(|part| part.width.length).sum();
            movers.push(Mover { what, stock: first.stock, wide, share });
        }
        movers.extend(self.lift(piece, parts, edge));
        movers
    }

    /// A drawer that lies on its runners grows upward from them, and takes
    /// its front along by half of that.
    fn lift(&self, piece: &Piece, parts: &Parts, edge: Edge) -> Option<Mover> {
        let OpeningKind::Drawer { slide: Some(slide), .. } = self.opening.kind else { return None };
        let lies = match &piece.slide(slide)?.runs {
            Runs::Hardware(hardware) => hardware.undermount,
            Runs::Wooden(_) => true,
        };
        if edge.direction() != Direction::Y || !lies {
            return None;
        }
        let side = parts.of_case(self.case).iter().find(|part| {
            part.role == Role::DrawerSide && part.assembly == Assembly::DrawerBox(self.opening.id)
        })?;
        if side.placement.width != Direction::Y {
            return None;
        }
        let half = Exact::ratio(1, 2);
        let share = if edge == Edge::Top { half } else { -half };
        Some(Mover {
            what: "side of the box".to_owned(),
            stock: side.stock,
            wide: side.width.length,
            share,
        })
    }
}
