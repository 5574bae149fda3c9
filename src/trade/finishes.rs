//! Finishes: what a liter covers, how long a coat takes, and what its rags do.

/// What is known of a kind of finish.
#[derive(Clone, Copy, Debug)]
pub struct FinishGood {
    /// Its word in a spec.
    pub name: &'static str,
    /// Square meters that a liter covers in one coat, from and to; 0 where no
    /// figure is published that holds for most.
    pub covers: (u32, u32),
    /// How long a coat dries before the next.
    pub recoat: &'static str,
    /// How long it takes to its full hardness.
    pub cured: &'static str,
    /// It dries by taking up oxygen: rags that lie in a heap heat up by
    /// themselves and can catch fire.
    pub heats: bool,
}

const fn finish(
    name: &'static str,
    covers: (u32, u32),
    recoat: &'static str,
    cured: &'static str,
    heats: bool,
) -> FinishGood {
    FinishGood { name, covers, recoat, cured, heats }
}

/// The kinds of finish. Common practice, from label values; a paint or varnish
/// counts as one that heats, since those bound with oil do.
pub const FINISHES: &[FinishGood] = &[
    finish("hardwax-oil", (20, 35), "8 to 12 h", "7 to 14 days", true),
    finish("oil", (0, 0), "24 h", "30 days", true),
    finish("varnish", (10, 12), "12 to 24 h", "30 days", true),
    finish("lacquer", (6, 10), "2 to 3 h", "5 to 7 days", false),
    finish("wax", (0, 0), "24 h", "", false),
    finish("paint", (10, 12), "2 to 24 h", "7 to 30 days", true),
];

/// True for a finish whose rags can catch fire by themselves.
#[must_use]
pub fn heats_in_rags(name: &str) -> bool {
    FINISHES.iter().any(|finish| finish.name == name && finish.heats)
}
