//! What an opening holds that is neither a list nor a front.

use super::*;
pub(crate) use super::{HOLE_LYING, NOTE};

block! {
    /// `rod { … }`
    rod: "rod", "a hanging rail",
    "A rail to hang clothes on, from the board at one side to the board at the other. It lies in a cup at each end, and a long one hangs from the board above it in between too. It is bought as a tube of steel, or as a pole of the `stock`, and cut to length.";
    DIAMETER: Length = ("diameter", "how thick it is", "diameter 1-1/4").default("1-1/4 in").metric("30 mm")
        .can_be("5 mm", "150 mm")
        .usual("10 mm", "70 mm");
    DOWN: Length = (
        "down",
        "from the underside of the board above to its center",
        "down 2",
    ).default("2 in").metric("50 mm")
        .can_be("0 mm", "2 m")
        .usual("15 mm", "1 m");
    FROM_BACK: Length = (
        "from-back",
        "from the inside of the back to its center; unless written, the middle of the depth, and no more than 12 in or 300 mm",
        "from-back 11",
    )
        .can_be("20 mm", "1.2 m")
        .usual("50 mm", "600 mm");
    HANGS: Hangs = ("hangs", "what hangs on it: `short` clothes or `long` ones", "hangs long").default("short");
    LOAD: Mass = ("load", "what hangs on it in all; unless written, 15 lb on each foot", "load 60 lb")
        .can_be("0.5 kg", "500 kg")
        .usual("4 kg", "200 kg");
    STOCK: Refer<Stock> = ("stock", "the wood of a pole; unless written, it is a tube of steel", "stock oak");
    NOTE;
}

block! {
    /// `shelf { … }`
    shelf: "shelf", "the shelves of an opening",
    "The shelves behind an opening.";
    ADJUSTABLE: Count<100> = ("adjustable", "how many shelves stand on pins; where there are fixed ones too, in each space between them", "adjustable 2")
        .can_be("0", "100");
    FIXED: Count<100> = ("fixed", "how many shelves are joined to the case, with the same clear height between them", "fixed 1")
        .can_be("0", "100");
    STOCK: Refer<Stock> = ("stock", "what its adjustable shelves are made of, where that differs from the case's other shelves: glass, for example", "stock plate");
    LOAD: Load = ("load", "what stands on each shelf, where that differs", "load 50 lb per ft2")
        .can_be("1 kg per m2", "5000 kg per m2")
        .usual("20 kg per m2", "700 kg per m2");
    HOLE = HOLE_LYING;
    NOTE;
}
