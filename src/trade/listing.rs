//! The knowledge as tables to read, each with where its figures come from.

use super::{SHEETS, SPECIES, Species};

/// A table of figures.
#[derive(Clone, Debug)]
pub struct Listing {
    /// Its name: what the command takes.
    pub slug: &'static str,
    /// Its title.
    pub title: &'static str,
    /// The heads of its columns.
    pub head: Vec<&'static str>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
    /// Where the figures come from, and what the marks mean.
    pub source: &'static str,
    /// How a spec brings figures of its own instead.
    pub own: &'static str,
}

/// Every table, in the order they are listed.
pub const LISTINGS: &[fn() -> Listing] = &[species, sheets];

fn species() -> Listing {
    let row = |species: &Species| {
        let mark = |letter: char| if species.memory.contains(letter) { "*" } else { "" };
        let wood = species.wood;
        vec![
            species.name.to_owned(),
            format!("0.{:02}{}", wood.gravity / 10, mark('g')),
            format!("0.{:05}{}", wood.radial / 10, mark('r')),
            format!("0.{:05}{}", wood.tangential / 10, mark('t')),
            format!("{}.{:02}{}", wood.stiffness / 1000, wood.stiffness % 1000 / 10, mark('e')),
            species.note.to_owned(),
        ]
    };
    Listing {
        slug: "species",
        title: "Woods",
        head: vec!["name", "gravity", "radial", "tangential", "stiffness", ""],
        rows: SPECIES.iter().map(row).collect(),
        source: "Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010): specific gravity and modulus of elasticity (million psi) at 12 % moisture from Table 5-3b; change of size for each point of moisture, across the rings (radial) and along them (tangential), from Table 13-5. European woods: BRE, Movement of timbers (Technical Note 38). A figure with * is from memory and not yet compared with its source.",
        own: "species pear { gravity 0.69; shrinks { radial 3.9%; tangential 11.3% }; stiffness 7.8 GPa }",
    }
}

fn sheets() -> Listing {
    let rows = SHEETS
        .iter()
        .map(|sheet| {
            vec![
                sheet.name.to_owned(),
                format!("0.{:02}", sheet.gravity / 10),
                format!("{}.{:02}", sheet.stiffness / 1000, sheet.stiffness % 1000 / 10),
                sheet.source.to_owned(),
            ]
        })
        .collect();
    Listing {
        slug: "sheets",
        title: "Sheet goods",
        head: vec!["name", "gravity", "stiffness", "published"],
        rows,
        source: "The heavy and limp end of the published range, so that no weight or sag is made out less than it is. Stiffness in million psi.",
        own: "stock birch { plywood 18 mm; gravity 0.68; stiffness 1400000 psi }",
    }
}
