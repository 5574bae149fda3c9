//! Finishes: what a liter covers, how long a coat takes, and what its rags do.

use crate::measure::{Duration, Exact};

/// What is known of a kind of finish.
#[derive(Clone, Copy, Debug)]
pub struct FinishGood {
    /// Its word in a spec.
    pub name: &'static str,
    /// Square meters that a liter covers in one coat, from and to; 0 where no
    /// figure is published that holds for most.
    pub covers: (u32, u32),
    /// How long until dust no longer sticks to it; empty where it is wiped dry.
    pub dust_dry: &'static str,
    /// How long a coat dries before the next.
    pub recoat: &'static str,
    /// The least that the quickest products of its kind ask for between two coats, in
    /// minutes, and the longest that any asks for (from memory: labels).
    pub between_coats: (u32, u32),
    /// The least and the most days that it takes to its full hardness; `None` where it stays
    /// soft.
    pub cured: Option<[u32; 2]>,
    /// How the wood is sanded before the first coat.
    pub sanding: Sanding,
    /// The grit that a dry coat is rubbed down with before the next.
    pub between: Option<u32>,
    /// How many minutes a coat dries where the spec says nothing.
    pub dries: u32,
    /// What its rags do.
    pub rags: Rags,
    /// True for what is thinned with water alone: its vapor does not burn.
    pub is_watery: bool,
}

/// What rags with a finish do that lie in a heap. What dries by taking up oxygen heats up
/// by itself and can catch fire (common practice, from labels).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rags {
    /// They heat up: it is bound with a drying oil.
    Heat,
    /// They heat up where it is bound with oil, and not where it is thinned with water.
    HeatWhereOily,
    /// They don't.
    StayCold,
}

impl FinishGood {
    /// How long it takes to its full hardness, as a maker says it; empty where it stays soft.
    #[must_use]
    pub fn cured_in(&self) -> String {
        match self.cured {
            None => String::new(),
            Some([least, most]) if least == most => format!("{least} days"),
            Some([least, most]) => format!("{least} to {most} days"),
        }
    }
}

/// How wood is sanded before the first coat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sanding {
    /// For what soaks in. Not past 220: advice for oiled floors; 150 to 180 on
    /// furniture is common practice.
    SoaksIn,
    /// For what lies on the wood (common practice, no source).
    LiesOn,
}

impl Sanding {
    /// The grits, in their order; the last one for the faces that are seen, where
    /// they are finer.
    #[must_use]
    pub fn grits(self) -> &'static [u32] {
        match self {
            Self::SoaksIn => &[120, 150, 180],
            Self::LiesOn => &[120, 150, 180, 220],
        }
    }

    /// The grits for sheets, whose face veneer coarser ones sand through: half a millimeter and
    /// less (common practice, no source).
    #[must_use]
    pub fn on_sheets(self) -> &'static [u32] {
        let all = self.grits();
        let first = all.iter().position(|grit| *grit >= Self::VENEER);
        first.and_then(|first| all.get(first..)).unwrap_or(all)
    }

    /// The grit that sheets are begun with.
    pub const VENEER: u32 = 180;

    /// The grit past which wood takes up too little of what soaks in.
    pub const POLISHED: u32 = 220;
}

/// What a coat is rubbed down with (common practice, no source).
const RUB_DOWN: Option<u32> = Some(320);

/// The kinds of finish. Common practice, from label values. Hardwax oil of one
/// part: dust dry after 6 to 12 h, the next coat after 8 to 24 h; recoating of
/// oil polyurethane after 4 to 24 h (published trade pages). Film finishes thinned with
/// water: the next coat after 2 to 3 h, hard after 5 to 7 days, 400 to 500 square feet a
/// gallon (charts of floor finishes). Lacquer thinned with its own thinner: 7 days to its
/// full hardness and 270 to 300 square feet a gallon sprayed (published data sheets of
/// nitrocellulose lacquers); between coats from memory. Drying oil: 400 square feet a
/// gallon (a published label of tung oil thinned by half); its upper figure from memory. Wax
/// is sold by weight, and no figure for it was found. Dust dry of the others: from memory.
pub const FINISHES: &[FinishGood] = &[
    FinishGood {
        name: "hardwax-oil",
        covers: (20, 35),
        dust_dry: "6 to 12 h",
        recoat: "8 to 24 h",
        between_coats: (4 * 60, 36 * 60),
        cured: Some([7, 14]),
        sanding: Sanding::SoaksIn,
        between: None,
        dries: 24 * 60,
        rags: Rags::Heat,
        is_watery: false,
    },
    FinishGood {
        name: "oil",
        covers: (9, 15),
        dust_dry: "12 to 24 h",
        recoat: "24 h",
        between_coats: (4 * 60, 72 * 60),
        cured: Some([30, 30]),
        sanding: Sanding::SoaksIn,
        between: None,
        dries: 24 * 60,
        rags: Rags::Heat,
        is_watery: false,
    },
    FinishGood {
        name: "varnish",
        covers: (10, 12),
        dust_dry: "2 to 6 h",
        recoat: "4 to 24 h",
        between_coats: (2 * 60, 48 * 60),
        cured: Some([30, 30]),
        sanding: Sanding::LiesOn,
        between: RUB_DOWN,
        dries: 24 * 60,
        rags: Rags::HeatWhereOily,
        is_watery: false,
    },
    FinishGood {
        name: "lacquer",
        covers: (6, 10),
        dust_dry: "10 to 30 min",
        recoat: "1/2 to 2 h",
        between_coats: (20, 24 * 60),
        cured: Some([7, 7]),
        sanding: Sanding::LiesOn,
        between: RUB_DOWN,
        dries: 2 * 60,
        rags: Rags::StayCold,
        is_watery: false,
    },
    FinishGood {
        name: "water-lacquer",
        covers: (9, 12),
        dust_dry: "20 to 30 min",
        recoat: "2 to 3 h",
        between_coats: (60, 24 * 60),
        cured: Some([5, 7]),
        sanding: Sanding::LiesOn,
        between: RUB_DOWN,
        dries: 3 * 60,
        rags: Rags::StayCold,
        is_watery: true,
    },
    FinishGood {
        name: "wax",
        covers: (0, 0),
        dust_dry: "",
        recoat: "24 h",
        between_coats: (10, 48 * 60),
        cured: None,
        sanding: Sanding::SoaksIn,
        between: None,
        dries: 24 * 60,
        rags: Rags::StayCold,
        is_watery: false,
    },
    FinishGood {
        name: "paint",
        covers: (10, 12),
        dust_dry: "1 to 4 h",
        recoat: "2 to 24 h",
        between_coats: (60, 48 * 60),
        cured: Some([7, 30]),
        sanding: Sanding::LiesOn,
        between: RUB_DOWN,
        dries: 24 * 60,
        rags: Rags::HeatWhereOily,
        is_watery: false,
    },
];

/// What is known of a kind of finish, by its word in a spec.
#[must_use]
pub fn finish_named(name: &str) -> Option<&'static FinishGood> {
    FINISHES.iter().find(|finish| finish.name == name)
}

/// What stays in the can, the brush, and the rag, in percent of what goes on the
/// wood (common practice, no source).
pub const FINISH_WASTE: i64 = 15;

/// The milliliters that one coat takes on so many square meters, at so many
/// square meters a liter, with [`FINISH_WASTE`]; nothing where it covers
/// nothing.
#[must_use]
pub fn finish_needed(square_meters: f64, covers: Exact) -> Option<f64> {
    let covers = covers.to_f64();
    let waste = 1.0 + FINISH_WASTE as f64 / 100.0;
    (covers > 0.0).then(|| square_meters / covers * 1000.0 * waste)
}

/// Minutes to lay out for a coat and to clean up after it (common practice, no source).
pub const COAT_READY: i64 = 15;

/// How long it takes to brush one coat on so many square meters: 10 min for each, up to
/// the next whole minute (common practice, no source).
#[must_use]
pub fn brushing_time(square_meters: f64) -> Duration {
    Duration(Exact::int((square_meters * 10.0).ceil() as i64))
}

/// How long it takes to put one coat on so many square meters: [`brushing_time`] and
/// [`COAT_READY`].
#[must_use]
pub fn coating_time(square_meters: f64) -> Duration {
    Duration(brushing_time(square_meters).0 + Exact::int(COAT_READY))
}

/// Milliliters of each of two parts mixed `a` to `b` that give at least so many
/// milliliters. One share is a multiple of 5 ml, which a small cup shows.
#[must_use]
pub fn mixed(milliliters: f64, (a, b): (Exact, Exact)) -> (i64, i64) {
    let shares = (a + b).to_f64();
    if shares <= 0.0 {
        return (0, 0);
    }
    let share = Exact::int((milliliters / shares / 5.0).ceil().max(1.0) as i64 * 5);
    ((share * a).ceil(), (share * b).ceil())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: 6 m2 at 30 m2 a liter are 200 ml, with 15 % 230 ml; 3 to 1
    /// of it are 57.5 ml a share, so 60: 180 and 60.
    #[test]
    fn a_coat_takes_its_surface_over_its_coverage() {
        let needs = finish_needed(6.0, Exact::int(30)).expect("a figure");
        assert!((needs - 230.0).abs() < 1e-9);
        assert_eq!(mixed(needs, (Exact::int(3), Exact::ONE)), (180, 60));
        assert_eq!(mixed(1.0, (Exact::int(10), Exact::ONE)), (50, 5));
        assert_eq!(finish_needed(6.0, Exact::ZERO), None);
        assert_eq!(coating_time(6.0), Duration(Exact::int(75)));
    }

    /// 1 square foot a gallon is 0.02454 m2 a liter: 400 are 9.8, 500 are 12.3. What is
    /// counted with never covers more than a label says.
    #[test]
    fn what_a_liter_covers_is_what_labels_say_of_a_gallon() {
        let feet = |per_gallon: f64| per_gallon * 0.024_54;
        for (name, from, to) in
            [("oil", 400.0, 620.0), ("water-lacquer", 400.0, 500.0), ("lacquer", 250.0, 410.0)]
        {
            let (least, most) = finish_named(name).expect("it").covers;
            assert!(
                f64::from(least) <= feet(from) && feet(from) < f64::from(least) + 1.0,
                "{name}"
            );
            assert!(f64::from(most) <= feet(to) && feet(to) < f64::from(most) + 1.0, "{name}");
        }
        for good in FINISHES {
            let (least, most) = good.between_coats;
            assert!(least <= good.dries && good.dries <= most, "{}", good.name);
        }
    }
}
