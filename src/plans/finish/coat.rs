//! How much one coat takes, and how long.

use crate::measure::{Duration, Exact};
use crate::model::Finish;
use crate::trade;

/// One coat on so much surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Coat {
    /// Milliliters, with what stays in brush and rag; `None` where neither the
    /// spec nor any table says what a liter covers.
    pub milliliters: Option<f64>,
    /// Square meters a liter.
    pub covers: Option<Exact>,
    /// Square meters that it goes on.
    pub area: f64,
    /// How long it takes to put on.
    pub time: Duration,
    /// How often it is mixed anew, so that each lot is used up within its pot
    /// life.
    pub lots: i64,
    /// Milliliters of both parts in each lot.
    pub each: Option<(i64, i64)>,
}

impl Coat {
    /// Milliliters to have at hand, up to the next ten; what is mixed comes to it.
    #[must_use]
    pub fn at_hand(&self) -> Option<i64> {
        let whole = (self.milliliters? / 10.0).ceil() as i64 * 10;
        Some(self.each.map_or(whole, |(one, other)| (one + other) * self.lots))
    }

    /// One coat of a finish. What the spec says of it goes first; else the lower
    /// figure for its kind, which never leaves a front half done.
    #[must_use]
    pub fn of(finish: &Finish, square_meters: f64) -> Self {
        let usual = trade::finish_named(finish.kind.slug()).map(|good| good.covers.0);
        let usual = usual.filter(|covers| *covers > 0).map(|covers| Exact::int(covers.into()));
        let covers = finish.covers.or(usual);
        let milliliters = covers.and_then(|covers| trade::finish_needed(square_meters, covers));
        let time = trade::coating_time(square_meters);
        let life = finish.pot_life.filter(|life| life.0.is_positive());
        let lots = life.map_or(1, |life| (time.0 / life.0).ceil().clamp(1, 100));
        let each = finish.mix.zip(milliliters);
        let each = each.map(|(mix, whole)| trade::mixed(whole / lots as f64, mix));
        Self { milliliters, covers, area: square_meters, time, lots, each }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    const CONSOLE: &str = include_str!("../../../specs/hall-console.case");

    /// Worked by hand: 24 m2 take 15 + 240 min, more than a pot life of 2 h twice:
    /// three lots. 24 m2 at 30 are 800 ml, with 15 % 920; a third of it, 306.7 ml,
    /// mixed 3 to 1: 76.7, so 80 ml a share.
    #[test]
    fn no_lot_is_mixed_that_hardens_in_the_cup() {
        let text = CONSOLE.replace("pot-life 4 h", "pot-life 2 h");
        let files = MemoryFiles::one("a.case", &text);
        let piece = pipeline::check(&files, "a.case").expect("readable").piece.expect("a piece");
        let coat = Coat::of(&piece.finishes[0], 24.0);
        assert_eq!((coat.lots, coat.each), (3, Some((240, 80))));
        assert_eq!(coat.time, Duration(Exact::int(255)));
    }
}
