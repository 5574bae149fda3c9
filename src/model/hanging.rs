//! What a door weighs, and how many hinges it hangs on.

use crate::measure::{Length, Mass};
use crate::trade;

use super::front::{Build, Fronts};
use super::hinge::HingeKind;
use super::id::StockId;
use super::opening::Opening;
use super::piece::Piece;
use super::stock::Stock;

/// The hinges that one leaf needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HingeNeed {
    /// For its height.
    pub by_height: u32,
    /// For its weight; none for butt hinges, which are counted by height alone.
    pub by_weight: u32,
}

impl HingeNeed {
    /// The larger of the two.
    #[must_use]
    pub fn most(self) -> u32 {
        self.by_height.max(self.by_weight)
    }
}

impl Piece {
    /// What a stock weighs, in kilograms to the cubic metre: wood and sheets at 12 %
    /// moisture, and glass, which takes up none.
    #[must_use]
    pub fn density(&self, id: StockId) -> f64 {
        let stock = self.stock(id);
        let gravity = stock.and_then(|stock| stock.gravity).unwrap_or(trade::USUAL_GRAVITY);
        match stock.is_some_and(Stock::is_glass) {
            true => f64::from(gravity),
            false => trade::density(gravity),
        }
    }

    /// What one leaf of a door weighs; flutes, cups and tongues are left out.
    #[must_use]
    pub fn leaf_mass(&self, opening: &Opening, fronts: &Fronts) -> Mass {
        let (wide, high) = opening.leaf(fronts);
        let (wide, high) = (wide.length, high.length);
        let board = |stock: StockId, length: Length, width: Length| {
            let volume = trade::volume(length, width, self.thickness(stock).length);
            trade::kilograms(volume, self.density(stock))
        };
        let kilograms = match &fronts.build {
            Build::Slab => board(fronts.stock, high, wide),
            Build::Panel(panel) => {
                let stile = panel.stile.length;
                let mids = panel.mids.iter().map(|mid| mid.wide.length);
                let rails = panel.rail.length + panel.bottom.length + mids.sum();
                let (inner_wide, inner_high) = (wide - stile.twice(), high - rails);
                board(fronts.stock, high.twice(), stile)
                    + board(fronts.stock, inner_wide, rails)
                    + board(panel.panel_stock, inner_high, inner_wide)
            }
        };
        trade::grams(kilograms)
    }

    /// How many hinges a leaf needs.
    #[must_use]
    pub fn hinges_needed(&self, opening: &Opening, fronts: &Fronts) -> HingeNeed {
        let high = opening.leaf(fronts).1.length;
        let hinge = fronts.hinge.and_then(|(hinge, _)| self.hinge(hinge));
        if hinge.is_some_and(|hinge| matches!(hinge.kind, HingeKind::Butt { .. })) {
            return HingeNeed { by_height: trade::butts_for_height(high), by_weight: 0 };
        }
        HingeNeed {
            by_height: trade::hinges_for_height(high),
            by_weight: trade::hinges_for_weight(self.leaf_mass(opening, fronts)),
        }
    }

    /// How many hinges hang a leaf: as written, else as many as it needs.
    #[must_use]
    pub fn hinges_on(&self, opening: &Opening, fronts: &Fronts) -> u32 {
        fronts.hinges.map_or_else(|| self.hinges_needed(opening, fronts).most(), |n| n.value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Exact;
    use crate::model::MemoryFiles;
    use crate::parts::{Bore, FeatureKind};
    use crate::pipeline;

    /// 23 x 40 in of 3/4 in sugar maple at 44 lb/ft³ weigh 17.6 lb: two hinges
    /// for the height, three for the weight, and three cups are bored. On butt
    /// hinges the height alone counts: one in each 30 in, two.
    #[test]
    fn a_heavy_door_gets_its_hinges_without_being_told() {
        let text = include_str!("../../specs/first.case")
            .replace("wide 36; deep 18; high 34-1/2", "deep 18")
            .replace(
                "doors store { share 1; shelf { adjustable 1 } }",
                "door store { wide 23-3/16; high 40-3/16; hung left }",
            );
        let own = |text: &str| {
            let files = MemoryFiles::one("a.case", text);
            let compiled = pipeline::check(&files, "a.case").expect("readable");
            let (piece, parts) = (compiled.piece.expect("a piece"), compiled.parts.expect("parts"));
            let opening =
                piece.cases[0].openings.iter().find(|o| o.is_door()).expect("a door").clone();
            let fronts = opening.front.clone().expect("fronts");
            let cup = FeatureKind::Bore(Bore::Cup);
            let cups = parts.all.iter().flat_map(|part| &part.features);
            let cups = cups.filter(|feature| feature.kind == cup).count();
            (piece.leaf_mass(&opening, &fronts), piece.hinges_on(&opening, &fronts), cups)
        };
        let (mass, hinges, cups) = own(&text);
        let off = (mass.0 - Mass::pounds(Exact::ratio(176, 10)).0).abs();
        assert!(off < Exact::ratio(1, 20), "{mass}");
        assert_eq!((hinges, cups), (3, 3));
        let butt = text.replace("cup 35 mm; bore 12.5 mm; from-edge 4 mm;", "butt;");
        assert_eq!(own(&butt).1, 2);
    }
}
