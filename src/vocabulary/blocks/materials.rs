//! Materials.

use super::*;
pub(crate) use super::{LEAD_TIME, LEAD_TIMES, NOTE};

block! {
    /// `stock NAME { … }`
    stock: "stock", "a stock",
    "A material. For sheet goods, give the nominal thickness that they are sold by, and with `actual` what a caliper reads. For lumber, give the rough thickness in quarters and the thickness that it is planed to. What a sheet or board is called by may be a bare fraction of an inch in any file (`plywood 3/4`, `lumber 4/4`); every other bare number is in the unit of the file.";
    PLYWOOD: Nominal = ("plywood", "plywood of this nominal thickness", "plywood 3/4")
        .can_be("2 mm", "100 mm")
        .usual("3 mm", "40 mm");
    MDF: Nominal = ("mdf", "MDF of this nominal thickness", "mdf 18 mm")
        .can_be("2 mm", "100 mm")
        .usual("2.5 mm", "40 mm");
    PARTICLEBOARD: Nominal = (
        "particleboard",
        "particleboard of this nominal thickness",
        "particleboard 5/8",
    )
        .can_be("3 mm", "100 mm")
        .usual("8 mm", "40 mm");
    HARDBOARD: Nominal = ("hardboard", "hardboard of this nominal thickness", "hardboard 1/4")
        .can_be("1 mm", "30 mm")
        .usual("2 mm", "10 mm");
    GLASS: Nominal = (
        "glass",
        "glass of this thickness, which a glazier cuts to size: for the lights of framed fronts (`panel-stock`) and for loose shelves",
        "glass 1/8",
    )
        .can_be("1 mm", "25 mm")
        .usual("2 mm", "13 mm");
    LUMBER: Nominal = (
        "lumber",
        "boards of this rough thickness, in quarters of an inch or as a length",
        "lumber 4/4",
    )
        .can_be("3 mm", "16 in")
        .usual("1/2 in", "4 in");
    BANDING: Nominal = (
        "banding",
        "edge banding of this thickness, by the roll; `edges` puts it on",
        "banding 1 mm",
    )
        .can_be("0.2 mm", "6 mm")
        .usual("0.3 mm", "3 mm");
    ACTUAL: Length = (
        "actual",
        "the sheet's thickness as measured; if not written, the nominal one",
        "actual 23/32",
    )
        .can_be("0.1 mm", "1 m");
    THICKNESS: Length = ("thickness", "the thickness that lumber is planed to", "thickness 3/4")
        .can_be("0.2 mm", "150 mm")
        .usual("6 mm", "4 in");
    PREFINISHED: Count<2> = (
        "prefinished",
        "how many faces of a sheet come with a finish on them: both, or with 1 its face side, the one that looks into the case or that is seen of a front",
        "prefinished 2",
    )
        .can_be("1", "2");
    MIRROR: Flag = (
        "mirror",
        "the glass is a mirror, with silver on one face; the other looks out",
        "mirror",
    );
    TEMPERED: Flag = (
        "tempered",
        "the glass is tempered, which makes it safety glass; nobody can cut it later",
        "tempered",
    );
    SPECIES: Label = ("species", "the wood of a board, or of a sheet's face veneer", "species black-cherry");
    GRAVITY: Number = (
        "gravity",
        "the specific gravity, of wood at 12 % moisture; if not written, that of the species or the kind of sheet",
        "gravity 0.68",
    )
        .can_be("0.05", "4")
        .usual("0.25", "3");
    STIFFNESS: Stiffness = (
        "stiffness",
        "the modulus of elasticity; if not written, that of the species or the kind of sheet",
        "stiffness 1400000 psi",
    )
        .can_be("50000 psi", "12000000 psi")
        .usual("200000 psi", "11000000 psi");
    SAWN: Sawn = ("sawn", "how the boards are sawn", "sawn quarter").default("flat");
    SHEET: Braces = (
        "sheet",
        "the size of a whole sheet, once for each size that it is sold in",
        "sheet { long 96; wide 48; grain long }",
    ).opens(sheet::block).many();
    ON_HAND: Braces = (
        "on-hand",
        "a piece of sheet or a board already in the rack",
        "on-hand { long 40; wide 27 }",
    ).opens(on_hand::block).many();
    ROLL: Braces = (
        "roll",
        "what is left of a roll of banding in the shop, once for each roll",
        "roll { long 25 ft; wide 7/8 }",
    ).opens(roll::block).many();
    BOARDS: Braces = (
        "boards",
        "the boards the yard has",
        "boards { wide 5 to 8; long 96 to 120 }",
    ).opens(boards::block);
    PRICE: Price<BySize> = ("price", "what it costs", "price 82 per sheet");
    LEAD_TIME;
    NOTE;
    [one_of "what it is"] {
        /// What a stock is.
        pub StockKind of Nominal {
            /// Veneers glued crosswise.
            Plywood = PLYWOOD,
            /// Medium-density fibreboard.
            Mdf = MDF,
            /// Pressed chips.
            Particleboard = PARTICLEBOARD,
            /// Thin hard fibreboard.
            Hardboard = HARDBOARD,
            /// Panes, which a glazier cuts.
            Glass = GLASS,
            /// Solid boards.
            Lumber = LUMBER,
            /// Strips for edges, by the roll.
            Banding = BANDING,
        }
    }
}

block! {
    /// `sheet { … }`
    sheet: "sheet", "a sheet",
    "A whole sheet as you buy it. Where a stock is sold in several sizes, the plans take those that cost least by their prices, or those with the least area where one has no price.";
    LONG: Length = ("long", "its length", "long 96").required()
        .can_be("300 mm", "6 m")
        .usual("24 in", "4.3 m");
    WIDE: Length = ("wide", "its width", "wide 48").required()
        .can_be("300 mm", "3 m")
        .usual("450 mm", "7 ft");
    GRAIN: SheetGrain = ("grain", "which way the face grain runs", "grain long").default("long");
    PRICE: Price<BySheet> = (
        "price",
        "what a sheet of this size costs; if not written, the price of the stock",
        "price 104 per sheet",
    );
}

block! {
    /// `on-hand { … }`
    on_hand: "on-hand", "a piece on hand",
    "A piece of sheet or a board that is already in the rack. Its ends count as sound, unless a stretch of a board is lost.";
    LONG: Length = ("long", "its length, along the grain", "long 40").required()
        .can_be("1 in", "6 m")
        .usual("6 in", "12 ft");
    WIDE: Length = ("wide", "its width", "wide 27").required()
        .can_be("1 in", "3 m")
        .usual("3 in", "7 ft");
    LOST: LengthRange = (
        "lost",
        "a stretch of a board that is lost to a knot, a split, or checks: from where to where, both measured from one end",
        "lost 31 to 36-1/2",
    ).many()
        .can_be("0 in", "12 m")
        .usual("0 in", "20 ft");
}

block! {
    /// `roll { … }`
    roll: "roll", "a roll",
    "A roll of banding that is in the shop already. Strips are cut from it as far as it reaches, the longest first, where it is wide enough for them.";
    LONG: Length = ("long", "how much is left of it", "long 25 ft").required()
        .can_be("1 in", "300 m")
        .usual("12 in", "100 m");
    WIDE: Length = ("wide", "its width", "wide 7/8").required()
        .can_be("5 mm", "200 mm")
        .usual("10 mm", "100 mm");
}

block! {
    /// `boards { … }`
    boards: "boards", "the boards",
    "The range of widths and lengths of the boards that the yard has.";
    WIDE: LengthRange = ("wide", "their widths", "wide 5 to 8").required()
        .can_be("1 in", "1 m")
        .usual("2 in", "24 in");
    LONG: LengthRange = ("long", "their lengths", "long 96 to 120").required()
        .can_be("200 mm", "12 m")
        .usual("24 in", "20 ft");
}

block! {
    /// `supply SORT { … }`
    supply: "supply", "a supply",
    "How screws, pins, clips, hanging rails, catches, or door stops are sold, for the buying list. It counts what the piece takes, with a tenth more of screws, pins, and clips, and rounds it up to whole packs. Where several of a sort differ in length, give `long`, and where hanging rails differ in thickness, give `diameter`; without it, one holds for all that have none of their own.";
    LONG: Length = (
        "long",
        "how long the screws are; of shelf pins and plate screws, how wide their holes are; of hanging rails, how long one is from which they are cut",
        "long 1-1/4",
    )
        .can_be("2 mm", "6 m")
        .usual("3 mm", "12 ft");
    DIAMETER: Length = (
        "diameter",
        "how thick hanging rails are, or those that cups and hangers are for",
        "diameter 1-1/4",
    )
        .can_be("5 mm", "150 mm")
        .usual("10 mm", "70 mm");
    PACK: Count<10_000> = (
        "pack",
        "how many come in a pack: whole packs are bought",
        "pack 100",
    )
        .can_be("2", "10000")
        .usual("2", "2500");
    PRICE: Price<ByPack> = ("price", "what a pack costs, or one", "price 7.50 per pack");
    ON_HAND: Count<100_000> = (
        "on-hand",
        "how many are in the shop already: they are taken off what is bought; it takes `long` where several lengths are bought, and `diameter` where rails of several are",
        "on-hand 40",
    )
        .can_be("1", "100000")
        .usual("1", "5000");
    LEAD_TIME = LEAD_TIMES;
}

block! {
    /// `glue { … }`
    glue: "glue", "the glue",
    "How the wood glue is sold, for the buying list, which counts it by the length of the joints.";
    PRICE: Price<ByVolume> = (
        "price",
        "what it costs by the liter, the quart, or the gallon: whole ones are bought, unless a `bottle` says otherwise",
        "price 32 per gal",
    );
    BOTTLE: Volume = (
        "bottle",
        "a bottle that it is sold in, once for each size",
        "bottle 16 fl-oz { price 8.50 each }",
    )
        .may_open(can::block)
        .many()
        .can_be("10 ml", "250000 ml")
        .usual("50 ml", "25000 ml");
    ON_HAND: Volume = (
        "on-hand",
        "how much of it is in the shop already: it is taken off what is bought",
        "on-hand 8 fl-oz",
    )
        .can_be("1 ml", "250000 ml")
        .usual("10 ml", "25000 ml");
    LEAD_TIME;
}

block! {
    /// `abrasive GRIT { … }`
    abrasive: "abrasive", "an abrasive",
    "Sheets or discs of sandpaper of one grit, for the buying list. It counts the surface that is sanded with each grit: plywood and other panels start at a finer grit than solid wood, and each coat is rubbed down with another grit before the next goes on. A grit without an `abrasive` is not on the list.";
    LASTS: Area = (
        "lasts",
        "how much surface one sheet or disc sands before it is dull",
        "lasts 10 ft2",
    ).default("10 ft2").metric("1 m2")
        .can_be("0.01 m2", "100 m2")
        .usual("0.1 m2", "10 m2");
    PACK: Count<10_000> = (
        "pack",
        "how many come in a pack: whole packs are bought",
        "pack 10",
    )
        .can_be("2", "10000")
        .usual("2", "500");
    PRICE: Price<ByPack> = ("price", "what a pack costs, or one", "price 9.50 per pack");
    ON_HAND: Count<100_000> = (
        "on-hand",
        "how many are in the shop already: they are taken off what is bought",
        "on-hand 4",
    )
        .can_be("1", "100000")
        .usual("1", "1000");
    LEAD_TIME = LEAD_TIMES;
}

block! {
    /// `species NAME { … }`
    species: "species", "a species",
    "A wood with figures of your own: how heavy it is, how stiff it is, and how much it moves. `radial` and `tangential` are the change for each point of moisture, across and along the rings. Use `shrinks` for tables that give the shrinkage from green to oven-dry instead.";
    GRAVITY: Number = (
        "gravity",
        "the specific gravity: oven-dry weight over the volume at 12 % moisture",
        "gravity 0.50",
    ).required()
        .can_be("0.05", "1.5")
        .usual("0.1", "1.35");
    RADIAL: Number = (
        "radial",
        "the change across the rings for each point of moisture",
        "radial 0.00126",
    )
        .can_be("0.0001", "0.02")
        .usual("0.0005", "0.006");
    TANGENTIAL: Number = (
        "tangential",
        "the change along the rings for each point of moisture",
        "tangential 0.00248",
    )
        .can_be("0.0001", "0.02")
        .usual("0.001", "0.008");
    SHRINKS: Braces = (
        "shrinks",
        "the shrinkage from green to oven-dry, where the table gives that",
        "shrinks { radial 3.7%; tangential 7.1% }",
    ).opens(shrinks::block);
    STIFFNESS: Stiffness = (
        "stiffness",
        "the modulus of elasticity",
        "stiffness 1490000 psi",
    ).required()
        .can_be("50000 psi", "10000000 psi")
        .usual("200000 psi", "4500000 psi");
    NOTE;
    [one_of "how much it moves"] {
        /// What a species gives of its movement.
        pub(crate) Movement {
            /// The change for each point of moisture.
            Coefficient = TANGENTIAL,
            /// The shrinkage from green to oven-dry.
            Shrinkage = SHRINKS,
        }
    }
}

block! {
    /// `shrinks { … }`
    shrinks: "shrinks", "the shrinkage",
    "Shrinkage from green to oven-dry. The change for each point of moisture follows as S / (3000 − 20 S), S in percent.";
    RADIAL: Percent = ("radial", "the shrinkage across the rings", "radial 3.7%").required()
        .can_be("0.3%", "25%")
        .usual("1.5%", "10%");
    TANGENTIAL: Percent = ("tangential", "the shrinkage along the rings", "tangential 7.1%").required()
        .can_be("0.3%", "25%")
        .usual("3%", "16%");
}
