//! Finishes: what they are, how they are applied, and how they are sold.

use super::*;
pub(crate) use super::{LEAD_TIME, NOTE};

block! {
    /// `finish NAME { … }`
    finish: "finish", "a finish",
    "A finish and how it is applied.";
    HARDWAX_OIL: Flag = ("hardwax-oil", "the finish is a hardwax oil", "hardwax-oil");
    OIL: Flag = ("oil", "the finish is a drying oil", "oil");
    VARNISH: Flag = ("varnish", "the finish is a varnish", "varnish");
    LACQUER: Flag = (
        "lacquer",
        "the finish is a lacquer with its own thinner, such as nitrocellulose: its vapor burns",
        "lacquer",
    );
    WATER_LACQUER: Flag =
        ("water-lacquer", "the finish is a lacquer that is thinned with water", "water-lacquer");
    WAX: Flag = ("wax", "the finish is a wax", "wax");
    PAINT: Flag = ("paint", "the finish is a paint", "paint");
    COATS: Count<50> = ("coats", "how many coats", "coats 2").default("1")
        .can_be("0", "50")
        .usual("1", "9");
    COVERS: Coverage = ("covers", "the area that it covers in one coat", "covers 30 m2 per l")
        .can_be("0.5 m2 per l", "200 m2 per l")
        .usual("4 m2 per l", "60 m2 per l");
    MIX: Ratio = ("mix", "the ratio in which its two parts are mixed", "mix 3 to 1")
        .may_open(mix::block)
        .can_be("0.01", "200")
        .usual("0.5", "20");
    POT_LIFE: Duration = ("pot-life", "how long you can use it once it is mixed", "pot-life 4 h")
        .can_be("1 min", "1440 h")
        .usual("25 min", "24 h");
    CURE: Duration = (
        "cure",
        "how long a coat dries before you work on it again; if not written, 24 h, but 2 h for a lacquer and 3 h for one thinned with water",
        "cure 24 h",
    )
        .can_be("5 min", "1440 h")
        .usual("20 min", "96 h");
    PRICE: Price<ByVolume> = (
        "price",
        "what it costs by the liter, the quart, or the gallon: whole ones are bought",
        "price 38 per l",
    );
    CAN: Volume = (
        "can",
        "a can that it is sold in, once for each size; for a two-part finish, a can of the first part. The buying list says which cans hold what the coats take, for the least money where all have a price",
        "can 750 ml { price 41 each }",
    )
        .may_open(can::block)
        .many()
        .can_be("10 ml", "250000 ml")
        .usual("50 ml", "25000 ml");
    ON_HAND: Volume = (
        "on-hand",
        "how much of it is in the shop already, of a two-part finish how much of the first part: it is taken off what is bought",
        "on-hand 500 ml",
    )
        .can_be("1 ml", "250000 ml")
        .usual("10 ml", "25000 ml");
    LEAD_TIME;
    NOTE;
    [one_of "the kind of finish"] {
        /// What a finish is.
        pub FinishKind {
            /// Hardens by oxidation; its rags can catch fire of themselves.
            HardwaxOil = HARDWAX_OIL,
            /// Likewise.
            Oil = OIL,
            /// A varnish.
            Varnish = VARNISH,
            /// A lacquer with a thinner that burns.
            Lacquer = LACQUER,
            /// A lacquer thinned with water.
            WaterLacquer = WATER_LACQUER,
            /// A wax.
            Wax = WAX,
            /// A paint.
            Paint = PAINT,
        }
    }
}

block! {
    /// `mix 3 to 1 { … }`
    mix: "mix", "a mix",
    "What a two-part finish is mixed from. The first part is what the finish itself is sold as.";
    CAN: Volume = (
        "can",
        "a can or bottle that the second part is sold in, once for each size",
        "can 250 ml { price 19 each }",
    )
        .may_open(can::block)
        .many()
        .can_be("10 ml", "250000 ml")
        .usual("20 ml", "10000 ml");
    ON_HAND: Volume = (
        "on-hand",
        "how much of the second part is in the shop already: it is taken off what is bought",
        "on-hand 100 ml",
    )
        .can_be("1 ml", "250000 ml")
        .usual("5 ml", "10000 ml");
}

block! {
    /// `can 750 ml { … }`
    can: "can", "a can",
    "A size of can or bottle, and what one costs.";
    PRICE: Price<ByCan> = (
        "price",
        "what one costs; if not written, as much as the price by volume comes to, where that is given",
        "price 41 each",
    );
}
