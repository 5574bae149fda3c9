//! The air the wood was milled in and the air it will live in.

use crate::measure::{Length, Percent};
use crate::trade;

use super::piece::Piece;
use super::stock::Stock;

/// Air, and the moisture that wood comes to in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Its humidity.
    pub humidity: Percent,
    /// The moisture of wood, in percent.
    pub moisture: f64,
}

/// The three states of the wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Climate {
    /// When it was milled, and the fronts were fitted.
    pub milled: Air,
    /// The driest day of the room.
    pub driest: Air,
    /// The dampest day.
    pub dampest: Air,
}

impl Climate {
    /// The air of a piece's shop and room, at the room's temperature: wood
    /// follows humidity far more than warmth.
    #[must_use]
    pub fn of(piece: &Piece) -> Self {
        let air = |humidity| Air {
            humidity,
            moisture: trade::equilibrium(piece.site.temperature, humidity),
        };
        let (driest, dampest) = piece.site.humidity;
        Self { milled: air(piece.shop.humidity), driest: air(driest), dampest: air(dampest) }
    }

    /// How much wider than when it was milled a board is on the driest and on
    /// the dampest day; nought for sheets and for woods nothing is known of.
    #[must_use]
    pub fn swelling(&self, stock: &Stock, wide: Length) -> Swelling {
        let Some(wood) = stock.wood else { return Swelling::default() };
        let coefficient = stock.sawn.coefficient(&wood);
        self.with(coefficient, wide)
    }

    /// The same for a coefficient in millionths.
    #[must_use]
    pub fn with(&self, coefficient: u32, wide: Length) -> Swelling {
        let to = |air: Air| trade::movement(wide, coefficient, self.milled.moisture, air.moisture);
        Swelling { coefficient, driest: to(self.driest), dampest: to(self.dampest) }
    }
}

/// What the year does to a board's width.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Swelling {
    /// Change for each point of moisture, in millionths.
    pub coefficient: u32,
    /// On the driest day: mostly below nought.
    pub driest: Length,
    /// On the dampest day.
    pub dampest: Length,
}

impl Swelling {
    /// From its narrowest to its widest, the day it was milled included.
    #[must_use]
    pub fn range(&self) -> Length {
        self.dampest.max(self.driest).max(Length::ZERO)
            - self.dampest.min(self.driest).min(Length::ZERO)
    }
}
