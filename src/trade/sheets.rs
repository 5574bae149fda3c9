//! Sheet goods: how heavy and how stiff, and what is left on what is sawn from them.

use crate::measure::{Length, Unit};

/// What is known of a kind of sheet.
#[derive(Clone, Copy, Debug)]
pub struct SheetGood {
    /// Its word in a spec.
    pub name: &'static str,
    /// Specific gravity in thousandths, on the same basis as that of solid wood.
    pub gravity: u32,
    /// Modulus of elasticity in thousands of pounds to the square inch.
    pub stiffness: u32,
    /// The range that is published, and where.
    pub source: &'static str,
}

/// Sheet goods, and glass. The stiffness of sheets is at the low end of the published range,
/// so that no sag comes out too small. The gravity of plywood is at the high end; those of
/// the others lie in the middle. Glass has no moisture in it: its gravity is its density.
pub const SHEETS: &[SheetGood] = &[
    SheetGood {
        name: "plywood",
        gravity: 600,
        stiffness: 950,
        source: "gravity 0.4 to 0.6, stiffness 1.01 to 1.24: Wood Handbook, Table 12-1; stiffness of veneer core 0.95: Architectural Woodwork Standards, 1st ed., p. 279",
    },
    SheetGood {
        name: "mdf",
        gravity: 800,
        stiffness: 520,
        source: "gravity 0.7 to 0.9, stiffness 0.52: Wood Handbook, Table 12-1",
    },
    SheetGood {
        name: "particleboard",
        gravity: 700,
        stiffness: 400,
        source: "gravity 0.6 to 0.8, stiffness 0.40 to 0.60: Wood Handbook, Table 12-1",
    },
    SheetGood {
        name: "hardboard",
        gravity: 950,
        stiffness: 450,
        source: "gravity 0.9 to 1.0, stiffness 0.45 to 0.80: Wood Handbook, Table 12-1",
    },
    SheetGood {
        name: "glass",
        gravity: 2500,
        stiffness: 10_150,
        source: "soda-lime glass, density 2500 kg/m3 and modulus 70 GPa: EN 572-1",
    },
];

/// The kind of sheet with this name.
#[must_use]
pub fn sheet_named(name: &str) -> Option<&'static SheetGood> {
    SHEETS.iter().find(|sheet| sheet.name == name)
}

/// The narrowest leftover of a sheet that is worth keeping: 2 in or 50 mm (common practice,
/// no source).
#[must_use]
pub fn narrowest_kept(unit: Unit) -> Length {
    unit.either(Length::inches(2, 1), Length::mm(50))
}

/// How much longer and wider a piece is sawn that is cut to its size later: 1/4 in or 6 mm
/// (common practice, no source).
#[must_use]
pub fn sheet_spare(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}
