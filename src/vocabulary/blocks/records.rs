//! What the maker learns later: sizes as they came out, and parts that are cut.

use super::*;

block! {
    /// `measured { … }`
    measured: "measured", "what is measured",
    "Sizes as a tape or a caliper reads them. A measured opening counts for everything that is made after its frame: fronts, drawer boxes, packers, hinge blocks, and shelves on pins in a frameless case. The frame itself stays as drawn. A measured stock or shop takes the place of the written figure. `casewright measure` prints a form to fill in.";
    WITH: Length = (
        "with",
        "how true the tape reads; an opening that differs by no more counts as drawn",
        "with 1/64",
    ).default("1/64 in").metric("0.4 mm");
    OPENING: Path = (
        "opening",
        "an opening as it came out of the clamps",
        "opening console.press { wide 26-17/32; high 26 }",
    ).opens(measured_opening::block).many();
    STOCK: Refer<Stock> = (
        "stock",
        "a stock as it came from the yard or off the planer",
        "stock birch-ply { actual 0.707 }",
    ).opens(measured_stock::block).many();
    SHOP: Braces = (
        "shop",
        "the air of the shop as it was measured",
        "shop { humidity 46% }",
    ).opens(measured_shop::block);
}

block! {
    /// `opening PATH { … }` of `measured`.
    measured_opening: "measured-opening", "a measured opening",
    "What you don't measure stays as drawn. Measure the width at the top, the middle, and the bottom, and write the least.";
    WIDE: Length = ("wide", "the width between its sides", "wide 26-17/32");
    HIGH: Length = ("high", "the height between its bottom and top", "high 26");
    DIAGONALS: Braces = (
        "diagonals",
        "its two diagonals, which show how far it is out of square",
        "diagonals { rising 37-5/32; falling 37-7/32 }",
    ).opens(diagonals::block);
}

block! {
    /// `diagonals { … }`
    diagonals: "diagonals", "the diagonals",
    "Both diagonals of an opening, seen from the front.";
    RISING: Length = (
        "rising",
        "from the lower left corner to the upper right",
        "rising 37-5/32",
    ).required();
    FALLING: Length = (
        "falling",
        "from the upper left corner to the lower right",
        "falling 37-7/32",
    ).required();
}

block! {
    /// `stock NAME { … }` of `measured`.
    measured_stock: "measured-stock", "a measured stock",
    "A stock as a caliper reads it. Write the mean of several places.";
    ACTUAL: Length = (
        "actual",
        "how thick it is; for lumber, what it was planed to",
        "actual 0.707",
    ).required();
}

block! {
    /// `shop { … }` of `measured`.
    measured_shop: "measured-shop", "the measured shop",
    "The air of the shop as an instrument reads it.";
    HUMIDITY: Percent = ("humidity", "the relative humidity when the wood was milled", "humidity 46%").required();
}

block! {
    /// `cut DATE { … }`
    cut: "cut", "what is cut",
    "Parts that are cut. Name each by its name, the end of its name, or its mark. The last record of a part counts: the latest day, and within one day the last one in the file.";
    PART: Path = (
        "PART",
        "a part that is cut; a size that is not written is taken as it is drawn now",
        "console.bottom { long 64-5/16; wide 16-9/32 }",
    ).may_open(cut_part::block).any_name().many();
}

block! {
    /// `made … { … }` of a cut part.
    made: "made", "a joint that is made",
    "The box of wood that the joint removes, or for a tenon the tenon itself, measured from the left, lower, or front side of the part. Leave out a direction in which it runs right through. A hole has its center and diameter instead of a box.";
    AT: (Length, By, Length) = (
        "at",
        "the center of a hole, along the part and across it",
        "at 17-13/16 by 21.5 mm",
    );
    ACROSS: Length = ("across", "the diameter of that hole", "across 35 mm");
    LONG: LengthRange = ("long", "where it starts and ends along the part", "long 25-15/16 to 26-21/32");
    WIDE: LengthRange = ("wide", "where it starts and ends across the part", "wide 0 to 16-9/32");
    THICK: LengthRange = ("thick", "where it starts and ends through the thickness", "thick 0 to 1/4");
}

block! {
    /// `PART { … }` of `cut`.
    cut_part: "cut-part", "a cut part",
    "The finished size that the part was cut to: along its grain, across it, and in thickness.";
    LONG: Length = ("long", "its length", "long 64-5/16");
    WIDE: Length = ("wide", "its width", "wide 16-9/32");
    THICK: Length = ("thick", "its thickness", "thick 23/32");
    STOCK: Label = ("stock", "what it was cut from", "stock birch-ply");
    SPECIES: Label = ("species", "the wood it was cut from", "species black-cherry");
    MARK: Label = ("mark", "the mark that is penciled on it, which it keeps", "mark KST");
    SAWN: Flag = ("sawn", "the part is sawn to size and has no joints yet", "sawn");
    JOINTS: Count<1_000> = (
        "joints",
        "how many joints and bores it had when it was made, where `made` does not list them one by one",
        "joints 0",
    );
    MADE: MadeKind = (
        "made",
        "a joint or bore in it, with the wood that it removes; `casewright record` writes these",
        "made dado { long 25-15/16 to 26-21/32; thick 0 to 1/4 }",
    ).may_open(made::block).many();
    SPOILED: Flag = ("spoiled", "the part is spoiled and must be cut again", "spoiled");
}
