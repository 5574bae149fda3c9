//! What the maker learns later: sizes as they came out, and parts that are cut.

use super::*;

block! {
    /// `measured { … }`
    measured: "measured", "what is measured",
    "Sizes as a tape or calliper read them. A measured opening counts for whatever is made after its frame: fronts, drawer boxes, packers, hinge blocks, and shelves on pins in a frame-less case; the frame itself stays as drawn. A measured stock or shop takes the place of the written figure. `casewright measure` prints a form to fill in.";
    WITH: Length = (
        "with",
        "how true the tape reads: an opening that differs by no more is as drawn",
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
        "the air of the shop as it was",
        "shop { humidity 46% }",
    ).opens(measured_shop::block);
}

block! {
    /// `opening PATH { … }` of `measured`.
    measured_opening: "measured-opening", "a measured opening",
    "What is not measured stays as drawn. Measure the width at the top, in the middle and at the bottom, and write the least.";
    WIDE: Length = ("wide", "between its sides", "wide 26-17/32");
    HIGH: Length = ("high", "between bottom and top", "high 26");
    DIAGONALS: Braces = (
        "diagonals",
        "from corner to corner: how far it is out of square",
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
    "A stock as a calliper reads it: the mean of several places.";
    ACTUAL: Length = (
        "actual",
        "how thick it is; of lumber, what it was planed to",
        "actual 0.707",
    ).required();
}

block! {
    /// `shop { … }` of `measured`.
    measured_shop: "measured-shop", "the measured shop",
    "The air of the shop as an instrument read it.";
    HUMIDITY: Percent = ("humidity", "the air when the wood was milled", "humidity 46%").required();
}

block! {
    /// `cut DATE { … }`
    cut: "cut", "what is cut",
    "Parts that are cut, each by its name, the end of its name, or its mark. The last word on a part counts: of the latest day, and of one day the last in the file.";
    PART: Path = (
        "PART",
        "a part; a size that is not written is taken to be as it is drawn now",
        "console.bottom { long 64-5/16; wide 16-9/32 }",
    ).may_open(cut_part::block).any_name().many();
}

block! {
    /// `made … { … }` of a cut part.
    made: "made", "a joint that is made",
    "The box of wood that it takes, or of a tenon the tenon itself, counted from the left, lower or front side of the part. What reaches from side to side is left out. Of a hole its centre and diameter stand for its box.";
    AT: (Length, By, Length) = (
        "at",
        "the centre of a hole, along the part and across it",
        "at 17-13/16 by 21.5 mm",
    );
    ACROSS: Length = ("across", "the diameter of that hole", "across 35 mm");
    LONG: LengthRange = ("long", "from and to along the part", "long 25-15/16 to 26-21/32");
    WIDE: LengthRange = ("wide", "from and to across it", "wide 0 to 16-9/32");
    THICK: LengthRange = ("thick", "from and to through it", "thick 0 to 1/4");
}

block! {
    /// `PART { … }` of `cut`.
    cut_part: "cut-part", "a cut part",
    "The finished size that the part was cut to, along its grain, across it and in thickness.";
    LONG: Length = ("long", "its length", "long 64-5/16");
    WIDE: Length = ("wide", "its width", "wide 16-9/32");
    THICK: Length = ("thick", "its thickness", "thick 23/32");
    STOCK: Label = ("stock", "what it was cut from", "stock birch-ply");
    SPECIES: Label = ("species", "the wood it is of", "species black-cherry");
    MARK: Label = ("mark", "the mark that is penciled on it, which it keeps", "mark KST");
    SAWN: Flag = ("sawn", "it is sawn to size and has no joints yet", "sawn");
    JOINTS: Count<1_000> = (
        "joints",
        "how many joints and bores it had when it was made, where `made` does not tell them one by one",
        "joints 0",
    );
    MADE: MadeKind = (
        "made",
        "a joint or bore that is in it, with the wood that it takes; `casewright record` writes them",
        "made dado { long 25-15/16 to 26-21/32; thick 0 to 1/4 }",
    ).may_open(made::block).many();
    SPOILED: Flag = ("spoiled", "it is spoiled, and is to be cut again", "spoiled");
}
