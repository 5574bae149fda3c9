//! Legs that are bought and fixed under a case.

use super::*;
pub(crate) use super::{LEAD_TIMES, NOTE};

block! {
    /// `leg NAME { … }`
    bought_leg: "bought leg", "a bought leg",
    "A leg that is bought, turned, tapered, or square, and fixed under the bottom of a case by a plate on screws, by a bolt, or by a dowel. Take the figures from your leg maker's sheet.";
    HIGH: Length = (
        "high",
        "from the floor to the underside of the board that it is fixed to, its plate included, with its adjuster turned in",
        "high 6",
    ).required()
        .can_be("20 mm", "1 m")
        .usual("2 in", "16 in");
    WIDE: Length = (
        "wide",
        "the width of its plate, which is square, or of its top where it has no plate",
        "wide 2-1/2",
    ).required()
        .can_be("15 mm", "200 mm")
        .usual("1 in", "5 in");
    FOOT: Length = (
        "foot",
        "its width at the floor, upright below the middle of its top; the piece tips over it",
        "foot 7/8",
    ).required()
        .can_be("5 mm", "200 mm")
        .usual("12 mm", "4 in");
    PLATE: Braces = (
        "plate",
        "it has a plate, or goes into one, that is screwed to the board above it",
        "plate { screws 4; from-edge 3/8; pilot 1/8; deep 1/2 }",
    ).opens(leg_plate::block);
    BOLT: Braces = (
        "bolt",
        "its hanger bolt is turned into a threaded insert in the board above it, in this hole",
        "bolt { bore 3/8; deep 1/2 }",
    ).opens(leg_hole::block);
    DOWEL: Braces = (
        "dowel",
        "a dowel at its top is glued into a hole in the board above it",
        "dowel { bore 3/4; deep 1/2 }",
    ).opens(leg_hole::block);
    ADJUST: Length = (
        "adjust",
        "how far its adjuster can be turned out to level the piece; without one, the piece is shimmed",
        "adjust 1/2",
    ).default("0")
        .can_be("0 mm", "80 mm")
        .usual("3 mm", "30 mm");
    LOAD: Mass = ("load", "the most weight that one of them carries", "load 100 lb")
        .can_be("2 kg", "1000 kg")
        .usual("10 kg", "300 kg");
    PRICE: Price<ByPiece> = ("price", "what it costs", "price 9.50 each");
    PACK: Count<1_000> = (
        "pack",
        "how many of these come in a pack: whole packs are bought",
        "pack 4",
    )
        .can_be("2", "1000")
        .usual("2", "250");
    ON_HAND: Count<10_000> = (
        "on-hand",
        "how many of these are in the shop already: they are taken off what is bought",
        "on-hand 4",
    )
        .can_be("1", "10000")
        .usual("1", "1000");
    LEAD_TIME = LEAD_TIMES;
    NOTE;
    [one_of "how the leg is fixed"] {
        /// How a bought leg is fixed.
        pub(crate) LegFixing {
            /// By a plate on screws.
            Plate = PLATE,
            /// By a bolt in an insert.
            Bolt = BOLT,
            /// By a dowel in glue.
            Dowel = DOWEL,
        }
    }
}

block! {
    /// `plate { … }` of a leg
    leg_plate: "plate of a leg", "the plate of a leg",
    "The plate that a leg is fixed by. Its screws stand in its corners, or, where there are two or three, in as many of them.";
    SCREWS: Count<4> = ("screws", "how many screws hold it", "screws 4").default("4")
        .can_be("2", "4");
    FROM_EDGE: Length = (
        "from-edge",
        "from both edges of the plate at a corner to the center of the screw there",
        "from-edge 3/8",
    ).default("3/8 in").metric("9 mm")
        .can_be("2 mm", "60 mm")
        .usual("4 mm", "25 mm");
    PILOT: Length = (
        "pilot",
        "the diameter of the pilot hole for each screw",
        "pilot 1/8",
    ).default("1/8 in").metric("3 mm")
        .can_be("1 mm", "10 mm")
        .usual("1.5 mm", "5 mm");
    DEEP: Length = (
        "deep",
        "how deep the screws go into the board: their length less the thickness of the plate; the pilot holes are as deep",
        "deep 1/2",
    ).default("1/2 in").metric("13 mm")
        .can_be("4 mm", "80 mm")
        .usual("8 mm", "40 mm");
}

block! {
    /// `bolt { … }` and `dowel { … }` of a leg
    leg_hole: "hole for a leg", "the hole that a leg is fixed in",
    "The hole in the middle above a leg, for the insert that its bolt turns into, or for its dowel.";
    BORE: Length = ("bore", "its diameter", "bore 3/8").required()
        .can_be("3 mm", "60 mm")
        .usual("6 mm", "30 mm");
    DEEP: Length = ("deep", "its depth", "deep 1/2").required()
        .can_be("4 mm", "80 mm")
        .usual("8 mm", "40 mm");
}

block! {
    /// `legs NAME { … }`
    stands_on_legs: "legs", "the legs under a case",
    "Bought legs under the bottom of a case: one near each corner, and others between them along the front and the back where more than two stand across. The pilot holes are bored while the bottom lies flat, and the legs are screwed on when the piece is finished.";
    IN: Length = (
        "in",
        "how far their plates stand in from the outside faces of the ends, and from the front and the back edge of the bottom",
        "in 1",
    ).default("1 in").metric("25 mm")
        .can_be("0 mm", "1 m")
        .usual("0 mm", "6 in");
    ACROSS: Count<12> = (
        "across",
        "how many legs stand along the front, and as many along the back, in even steps",
        "across 3",
    ).default("2")
        .can_be("2", "12")
        .usual("2", "5");
    NOTE;
}
