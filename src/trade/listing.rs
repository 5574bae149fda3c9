//! The knowledge as tables to read, each with where its figures come from.

use crate::measure::{Exact, Length, Tape};

use super::{
    FINISHES, Rags, SHEETS, SPECIES, Species, planes_to, pocket_screw, rim_speed, rough_boards,
    speed_limit, tallied_feet,
};

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
pub const LISTINGS: &[fn() -> Listing] = &[species, sheets, lumber, screws, bits, finishes];

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
        source: "Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010). Specific gravity and modulus of elasticity (million psi) at 12 % moisture are from Table 5-3b. Those of mahogany and teak are from Table 5-5b, where the gravity is for green wood; here it is brought to 12 %. The change of size for each point of moisture, across the rings (radial) and along them (tangential), is from Table 13-5. The changes of European woods are from BRE, Movement of timbers (Technical Note 38). A figure with * is from memory and has not been compared with its source yet.",
        own: "species pear { gravity 0.69; shrinks { radial 3.9%; tangential 11.3% }; stiffness 7.8 GPa }",
    }
}

fn sheets() -> Listing {
    let rows = SHEETS
        .iter()
        .map(|sheet| {
            vec![
                sheet.name.to_owned(),
                format!("{}.{:02}", sheet.gravity / 1000, sheet.gravity % 1000 / 10),
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
        source: "Stiffness is the least of the published range, in million psi, so that no sag comes out too small. Gravity is its middle, and for plywood its upper end.",
        own: "stock birch { plywood 18 mm; gravity 0.68; stiffness 1400000 psi }",
    }
}

fn lumber() -> Listing {
    let inches = Tape::inches();
    let rows = rough_boards()
        .into_iter()
        .map(|(name, rough)| {
            let planed = planes_to(rough).map_or(String::new(), |planed| inches.exact(planed));
            let board = tallied_feet(rough, Length::inches(8, 1), Length::inches(120, 1));
            let tally = board * Exact::int(100);
            vec![
                name.to_owned(),
                planed,
                format!("{}.{:02}", tally.floor() / 100, tally.floor() % 100),
            ]
        })
        .collect();
    Listing {
        slug: "lumber",
        title: "Rough boards",
        head: vec!["rough", "planed on both faces", "8 in by 10 ft, board feet"],
        rows,
        source: "National Hardwood Lumber Association: standard thickness of surfaced lumber (S2S), as two reference charts reprint it; 10/4 is from memory. Surface measure follows an export guide to its rules. Boards are tallied in board feet, and boards under 1 in thick count as 1 in.",
        own: "stock oak { lumber 5/4; thickness 1-1/16; species white-oak }",
    }
}

fn screws() -> Listing {
    let inches = Tape::inches();
    let rows = [(1, 2), (5, 8), (3, 4), (7, 8), (1, 1), (5, 4), (3, 2)]
        .into_iter()
        .map(|(n, d)| {
            let thick = Length::inches(n, d);
            let screw = pocket_screw(thick, crate::measure::Unit::Inch)
                .map_or("none".to_owned(), |screw| inches.exact(screw));
            vec![inches.exact(thick), screw]
        })
        .collect();
    Listing {
        slug: "screws",
        title: "Pocket screws",
        head: vec!["stock, in", "screw, in"],
        rows,
        source: "Common practice; several published charts agree. Use fine thread for hardwood, and coarse thread for softwood and sheet goods. Drive two screws into a rail up to 3 in wide, and one more for each further 3 in.",
        own: "the chart of your pocket jig's maker takes precedence over this one",
    }
}

fn bits() -> Listing {
    let inches = Tape::inches();
    let rows = [(1, 4), (1, 2), (3, 4), (1, 1), (3, 2), (2, 1), (5, 2), (7, 2)]
        .into_iter()
        .map(|(n, d)| {
            let wide = Length::inches(n, d);
            let limit = speed_limit(wide);
            let rim = rim_speed(wide, limit);
            vec![
                inches.exact(wide),
                limit.to_string(),
                format!("{} m/s", (rim.to_mm_f64() / 60_000.0).round()),
            ]
        })
        .collect();
    Listing {
        slug: "bits",
        title: "Router bits",
        head: vec!["diameter, in", "most rpm", "rim speed"],
        rows,
        source: "Common practice; four published charts agree. The limit marked on the bit takes precedence. Make no pass deeper than half the diameter or 1/4 in. Use a bit over 1 in wide only in a router table.",
        own: "bit round-nose-half { round-nose 1/2; shank 1/2; speed 16000 }",
    }
}

fn finishes() -> Listing {
    let rows = FINISHES
        .iter()
        .map(|finish| {
            let covers = match finish.covers {
                (0, 0) => String::new(),
                (from, to) => format!("{from} to {to}"),
            };
            vec![
                finish.name.to_owned(),
                covers,
                finish.dust_dry.to_owned(),
                finish.recoat.to_owned(),
                finish.cured_in(),
                match finish.rags {
                    Rags::Heat => "rags can catch fire",
                    Rags::HeatWhereOily => "rags can catch fire where it is bound with oil",
                    Rags::StayCold => "",
                }
                .to_owned(),
            ]
        })
        .collect();
    Listing {
        slug: "finishes",
        title: "Finishes",
        head: vec!["name", "m2 per liter", "dust dry after", "next coat after", "hard after", ""],
        rows,
        source: "Common practice, from label values for one coat. The can in your hand takes precedence. Drying oils take up oxygen and give off heat, so spread their rags flat outdoors, or put them in water in a metal can with a lid.",
        own: "finish oil { hardwax-oil; coats 2; covers 24 m2 per l; cure 12 h }",
    }
}
