//! Cabinet woods: how heavy, how stiff and how restless they are.
//!
//! Sources: *Wood Handbook* (USDA Forest Products Laboratory, FPL-GTR-190,
//! 2010), Table 5-3b for specific gravity and modulus of elasticity at 12 %
//! moisture (Table 5-5b for mahogany and teak), Table 13-5 for the coefficients of
//! dimensional change. European
//! woods: BRE, *Movement of timbers* (Technical Note 38), its movement from
//! 90 % to 60 % humidity spread over 8 points of moisture; density over 1120
//! for the gravity; all of it from memory. What is from memory is marked.

use crate::measure::Exact;
use crate::vocabulary::Sawn;

/// The properties of a wood, as whole numbers so that two are equal or not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wood {
    /// Specific gravity in thousandths: oven-dry mass over volume at 12 %.
    pub gravity: u32,
    /// Change across the rings for each point of moisture, in millionths.
    pub radial: u32,
    /// Change along the rings for each point of moisture, in millionths.
    pub tangential: u32,
    /// Modulus of elasticity in thousands of pounds to the square inch.
    pub stiffness: u32,
}

impl Wood {
    /// Specific gravity.
    #[must_use]
    pub fn gravity(&self) -> Exact {
        Exact::ratio(i64::from(self.gravity), 1000)
    }

    /// Kilograms in a cubic metre at 12 % moisture: gravity × 1000 × 1.12.
    #[must_use]
    pub fn density(&self) -> f64 {
        super::density(self.gravity)
    }
}

impl Sawn {
    /// The word for it in a spec.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.spelling()
    }

    /// Change of a board's width for each point of moisture, in millionths:
    /// along the rings of a flat-sawn board, across those of a quartered one.
    /// A rift-sawn one is taken to lie half way (common practice, no source).
    #[must_use]
    pub fn coefficient(self, wood: &Wood) -> u32 {
        match self {
            Self::Flat => wood.tangential,
            Self::Quarter => wood.radial,
            Self::Rift => (wood.tangential + wood.radial).div_ceil(2),
        }
    }
}

/// A wood of the table.
#[derive(Clone, Copy, Debug)]
pub struct Species {
    /// Its name in a spec.
    pub name: &'static str,
    /// Other names it goes by; a message that suggests the right one knows them.
    pub also: &'static [&'static str],
    /// Its properties.
    pub wood: Wood,
    /// Which of them are from memory: `g` gravity, `r` radial, `t` tangential,
    /// `e` stiffness.
    pub memory: &'static str,
    /// Anything else the reader of the table should know.
    pub note: &'static str,
}

const fn species(
    name: &'static str,
    also: &'static [&'static str],
    figures: [u32; 4],
    memory: &'static str,
    note: &'static str,
) -> Species {
    let [gravity, radial, tangential, stiffness] = figures;
    Species { name, also, wood: Wood { gravity, radial, tangential, stiffness }, memory, note }
}

/// Published for green wood only (0.45 and 0.55, Table 5-5b), and brought to 12 % by
/// G / (1 − 0.159 G) (Wood Handbook, ch. 4).
const GREEN: &str = "gravity from that when green";
const GROUP: &str = "commercial group";
const BRE: &str = "BRE";

/// The woods, by name.
pub const SPECIES: &[Species] = &[
    // gravity, radial, tangential, stiffness
    species("american-beech", &["beech"], [640, 1900, 4310, 1720], "", ""),
    species("basswood", &["lime", "linden"], [370, 2300, 3300, 1460], "", ""),
    species("black-cherry", &["cherry", "american-cherry"], [500, 1260, 2480, 1490], "", ""),
    species("black-walnut", &["walnut", "american-walnut"], [550, 1900, 2740, 1680], "ge", ""),
    species("butternut", &["white-walnut"], [380, 1160, 2230, 1180], "", ""),
    species("douglas-fir", &["oregon-pine"], [480, 1650, 2670, 1950], "r", "coast type"),
    species("eastern-white-pine", &["pine", "white-pine"], [350, 710, 2120, 1240], "grte", ""),
    species("european-ash", &[], [630, 1600, 2300, 1730], "grte", BRE),
    species("european-beech", &["steamed-beech"], [640, 2100, 4000, 1830], "grte", BRE),
    species("european-oak", &[], [610, 1900, 3100, 1460], "grte", BRE),
    species("european-sycamore", &[], [550, 1800, 3500, 1360], "grte", BRE),
    species("hickory", &["shagbark"], [720, 2590, 4110, 2160], "r", "shagbark"),
    species(
        "mahogany",
        &["true-mahogany", "honduras-mahogany"],
        [485, 1720, 2380, 1500],
        "rt",
        GREEN,
    ),
    species("pecan", &[], [660, 1690, 3150, 1730], "", ""),
    species("ponderosa-pine", &["yellow-pine"], [400, 1330, 2160, 1290], "rt", ""),
    species("red-alder", &["alder"], [410, 1510, 2560, 1380], "", ""),
    species("red-maple", &["soft-maple"], [540, 1370, 2890, 1640], "", ""),
    species("red-oak", &["oak", "northern-red-oak"], [630, 1580, 3690, 1820], "", GROUP),
    species(
        "sugar-maple",
        &["maple", "hard-maple", "rock-maple"],
        [630, 1650, 3530, 1830],
        "e",
        "",
    ),
    species("sycamore", &["american-sycamore"], [490, 1720, 2960, 1420], "ge", ""),
    species("teak", &[], [603, 1010, 1860, 1550], "rt", GREEN),
    species("western-red-cedar", &["cedar", "red-cedar"], [320, 1110, 2340, 1110], "grte", ""),
    species("white-ash", &["ash", "american-ash"], [600, 1690, 2740, 1740], "", ""),
    species("white-fir", &["fir"], [390, 1120, 2450, 1500], "gte", ""),
    species("white-oak", &[], [680, 1800, 3650, 1780], "", GROUP),
    species("yellow-birch", &["birch"], [620, 2560, 3380, 2010], "", ""),
    species("yellow-poplar", &["poplar", "tulipwood"], [420, 1580, 2890, 1580], "rtge", ""),
];

impl Species {
    /// True where its gravity is published at 12 %.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        !self.memory.contains('g') && self.note != GREEN
    }

    /// Where its gravity is from.
    #[must_use]
    pub fn gravity_from(&self) -> &'static str {
        match (self.memory.contains('g'), self.note == GREEN) {
            (true, _) => "from memory, not compared with a published table",
            (false, true) => {
                "Wood Handbook, Table 5-5b, for green wood, brought to 12 % by its ch. 4"
            }
            (false, false) => "Wood Handbook, Table 5-3b, ch. 4",
        }
    }
}

/// The wood with this name.
#[must_use]
pub fn species_named(name: &str) -> Option<&'static Species> {
    SPECIES.iter().find(|species| species.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Total shrinkage green to oven-dry, radial and tangential, in tenths of a
    /// percent: Wood Handbook, Tables 4-3 and 4-4. Its coefficients are
    /// S / (3000 − 20 S) (22 % and 2200 − 12 S for western red cedar).
    #[test]
    fn coefficients_are_those_that_the_shrinkage_gives() {
        for (name, radial, tangential) in [
            ("white-ash", 49, 78),
            ("basswood", 66, 93),
            ("american-beech", 55, 119),
            ("yellow-birch", 73, 95),
            ("black-cherry", 37, 71),
            ("pecan", 49, 89),
            ("red-maple", 40, 82),
            ("sugar-maple", 48, 99),
            ("sycamore", 50, 84),
            ("black-walnut", 55, 78),
            ("yellow-poplar", 46, 82),
            ("red-alder", 44, 73),
            ("butternut", 34, 64),
            ("douglas-fir", 48, 76),
            ("eastern-white-pine", 21, 61),
            ("ponderosa-pine", 39, 62),
            ("white-fir", 33, 70),
        ] {
            let wood = species_named(name).expect("in the table").wood;
            for (shrinks, has) in [(radial, wood.radial), (tangential, wood.tangential)] {
                let s = f64::from(shrinks) / 10.0;
                let c = s / (3000.0 - 20.0 * s);
                assert!((c - f64::from(has) / 1e6).abs() < 0.000_006_5, "{name} {c} {has}");
            }
        }
        let cedar = species_named("western-red-cedar").expect("in the table").wood;
        let c = 5.0 / (2200.0 - 12.0 * 5.0);
        assert!((c - f64::from(cedar.tangential) / 1e6).abs() < 0.000_006);
    }

    /// Wood Handbook, Table 5-3b, worked: white oak 762 kg/m³, cherry 560,
    /// sugar maple 706 at 12 % moisture.
    #[test]
    fn density_is_gravity_with_its_water() {
        for (name, density) in
            [("white-oak", 762.0), ("black-cherry", 560.0), ("sugar-maple", 706.0)]
        {
            let wood = species_named(name).expect("in the table").wood;
            assert!((wood.density() - density).abs() < 1.0, "{name}");
        }
    }

    /// Wood Handbook, ch. 4: G12 = Gb / (1 − 0.265 × (30 − 12) / 30 × Gb), of the green
    /// gravities 0.45 and 0.55 of Table 5-5b. Its worked neighbor in Table 5-3b: black
    /// cherry is 0.47 green and 0.50 at 12 %, as 0.47 / (1 − 0.159 × 0.47) = 0.508 says to
    /// within what the Table rounds.
    #[test]
    fn green_gravities_are_brought_to_the_moisture_of_the_others() {
        let at_12 = |green: f64| green / (1.0 - 0.265 * 0.6 * green);
        for (name, green) in [("mahogany", 0.45), ("teak", 0.55)] {
            let own = species_named(name).expect("in the table");
            assert!((f64::from(own.wood.gravity) / 1000.0 - at_12(green)).abs() < 0.0006, "{name}");
            assert!(own.gravity_from().contains("green"));
        }
        assert!((at_12(0.47) - 0.50).abs() < 0.01);
        assert!(species_named("european-ash").expect("it").gravity_from().contains("memory"));
    }

    #[test]
    fn names_are_in_order_and_mean_one_wood() {
        assert!(SPECIES.is_sorted_by_key(|species| species.name));
        let mut names: Vec<&str> =
            SPECIES.iter().flat_map(|s| s.also.iter().copied().chain([s.name])).collect();
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), count);
    }
}
