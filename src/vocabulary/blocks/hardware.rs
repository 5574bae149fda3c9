//! Hardware and bits: figures from the maker's own data sheets.

use super::*;
pub(crate) use super::{LEAD_TIMES, NOTE};

block! {
    /// `hinge NAME { … }`
    hinge: "hinge", "a hinge",
    "A concealed hinge in a bored cup, or a butt hinge on a pin. Take the figures from your hinge maker's sheet.";
    CUP: Length = ("cup", "the hinge is concealed, and this is the diameter of its cup", "cup 35 mm")
        .can_be("10 mm", "60 mm")
        .usual("25 mm", "40 mm");
    BUTT: Flag = ("butt", "the hinge is a butt hinge with a pin", "butt");
    BORE: Length = ("bore", "the depth of the cup", "bore 12.5 mm")
        .can_be("3 mm", "40 mm")
        .usual("6 mm", "20 mm");
    FROM_EDGE: Length = (
        "from-edge",
        "the distance from the door's edge to the edge of the cup",
        "from-edge 4 mm",
    )
        .can_be("0 mm", "50 mm")
        .usual("2 mm", "10 mm");
    PIN_AHEAD: Length = (
        "pin-ahead",
        "how far the center of a butt hinge's pin stands in front of the frame's face",
        "pin-ahead 3/16",
    ).default("0")
        .can_be("0 mm", "6 in")
        .usual("1 mm", "20 mm");
    SWING: Angle = (
        "swing",
        "how far it opens; if not written, the checks take the door to open square, and look for binding up to 180 degrees",
        "swing 105 deg",
    ).default("180 deg")
        .can_be("30 deg", "270 deg")
        .usual("75 deg", "180 deg");
    GAP: Length = (
        "gap",
        "the least gap at the hinge side for this door thickness",
        "gap 1.5 mm",
    ).default("0")
        .can_be("0 mm", "20 mm")
        .usual("0.3 mm", "5 mm");
    ADJUST: Length = (
        "adjust",
        "how far it can be adjusted to either side",
        "adjust 2 mm",
    ).default("0")
        .can_be("0 mm", "25 mm")
        .usual("0.5 mm", "8 mm");
    DOOR_THICKNESS: LengthRange = (
        "door-thickness",
        "the door thicknesses it fits",
        "door-thickness 16 mm to 26 mm",
    )
        .can_be("3 mm", "150 mm")
        .usual("10 mm", "60 mm");
    POSE: Braces = (
        "pose",
        "where a concealed hinge carries the door at one angle, from the drawing on its maker's sheet; without poses, the door is taken to turn about the front corner of its hinge edge",
        "pose { at 45 deg; out 6 mm; aside 8 mm }",
    ).opens(pose::block).many();
    FROM_END: Length = (
        "from-end",
        "the distance from the door's end to the center of its first hinge",
        "from-end 3",
    ).default("3 in").metric("75 mm")
        .can_be("10 mm", "40 in")
        .usual("32 mm", "10 in");
    PLATE: Braces = (
        "plate",
        "the plate of a cup hinge, with the holes for its two screws",
        "plate { back 37 mm; apart 32 mm; screw 5 mm; deep 12 mm }",
    ).opens(plate::block);
    CLOSING: Closing = (
        "closing",
        "whether it pulls the door shut (`self`) or lets it swing (`free`); unless written, a cup hinge pulls it shut and a butt hinge does not",
        "closing free",
    );
    PRICE: Price<ByPiece> = ("price", "what it costs", "price 5.80 each");
    PACK: Count<1_000> = (
        "pack",
        "how many of these come in a pack: whole packs are bought",
        "pack 10",
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
    [one_of "the kind of hinge"] {
        /// What a hinge is.
        pub(crate) Hanging {
            /// Concealed, in a bored cup.
            Cup = CUP,
            /// On a pin.
            Butt = BUTT,
        }
    }
}

block! {
    /// `plate { … }`
    plate: "plate", "the plate of a hinge",
    "The plate that carries the arm of a cup hinge. Two screws, one above the other, hold it to the board beside the opening, to the inside edge of a stile that reaches far enough back, or else to a block behind the stile, flush with its edge.";
    BACK: Length = (
        "back",
        "the distance to the line of its screws from the front edge of what it is screwed to, or from the back of an inset door",
        "back 37 mm",
    ).default("37 mm")
        .can_be("5 mm", "150 mm")
        .usual("9 mm", "60 mm");
    APART: Length = ("apart", "the distance between its two screws", "apart 32 mm").default("32 mm")
        .can_be("5 mm", "100 mm")
        .usual("16 mm", "64 mm");
    SCREW: Length = ("screw", "the diameter of their holes", "screw 5 mm").default("5 mm")
        .can_be("1 mm", "15 mm")
        .usual("2 mm", "8 mm");
    DEEP: Length = ("deep", "the depth of their holes", "deep 12 mm").default("12 mm")
        .can_be("3 mm", "60 mm")
        .usual("6 mm", "20 mm");
}

block! {
    /// `pose { … }`
    pose: "pose", "a pose",
    "How far the front corner of the door's hinge edge has moved from its closed place. Give at least two poses, starting with `at 0 deg`. Between two poses the corner moves in a straight line, and past the last one it stays put.";
    AT: Angle = ("at", "how far the door is open", "at 45 deg").required()
        .can_be("0 deg", "270 deg");
    OUT: Length = (
        "out",
        "how far the corner has come out toward the room",
        "out 6 mm",
    ).default("0")
        .can_be("0 mm", "150 mm")
        .usual("1 mm", "40 mm");
    ASIDE: Offset = (
        "aside",
        "how far it has moved away from the hinge stile; a negative figure is toward it",
        "aside 8 mm",
    ).default("0")
        .can_be("-150 mm", "150 mm")
        .usual("-40 mm", "40 mm");
}

/// The slide that is no hardware: the words of hardware say nothing beside it.
const ON_WOOD: &str = "wooden";

block! {
    /// `slide NAME { … }`
    slide: "slide", "a slide",
    "A pair of drawer slides, or `wooden` for a drawer that runs on the boards of its case. In the sizes of hardware, the word `opening` stands for the width or height of the opening.";
    UNDERMOUNT: Flag = ("undermount", "the slide runs under the drawer", "undermount");
    SIDE_MOUNT: Flag = ("side-mount", "the slide runs beside the drawer", "side-mount");
    WOODEN: Flag = (
        "wooden",
        "nothing is bought: the drawer runs on the board under its opening, between guides and under kickers, and blocks behind its front stop it; all of these are made where the boards of the case don't do their work",
        "wooden { play 1/16 }",
    ).may_open(wooden::block);
    LENGTH: Length = ("length", "the nominal length of the slide and the drawer", "length 15").required().unless(ON_WOOD)
        .can_be("4 in", "60 in")
        .usual("6 in", "36 in");
    ROOM: Length = ("room", "the depth that it needs behind the drawer front", "room 15-3/4").required().unless(ON_WOOD)
        .can_be("4 in", "62 in")
        .usual("6 in", "38 in");
    BOX_INSIDE: Size = ("box-inside", "the drawer's inside width", "box-inside opening - 1-5/8").unless(ON_WOOD)
        .can_be("1 in", "3 m")
        .usual("2 in", "60 in");
    BOX_OUTSIDE: Size = ("box-outside", "the drawer's outside width", "box-outside opening - 1").unless(ON_WOOD)
        .can_be("1 in", "3 m")
        .usual("2 in", "60 in");
    BOX_HIGH: Size = (
        "box-high",
        "the greatest height of the drawer box",
        "box-high opening - 7/8",
    ).required().unless(ON_WOOD)
        .can_be("10 mm", "1 m")
        .usual("32 mm", "16 in");
    BOX_UP: Length = (
        "box-up",
        "the height of the box's lower edge above the lower edge of its opening, from the slide's sheet; if not written, the box stands in the middle of the height that `box-high` leaves it",
        "box-up 9/16",
    ).unless(ON_WOOD)
        .can_be("0 mm", "150 mm")
        .usual("3 mm", "40 mm");
    NOTCH: Braces = (
        "notch",
        "what is cut out of the drawer's back for each runner",
        "notch { wide 35 mm; high 13 mm }",
    ).unless(ON_WOOD).opens(notch::block);
    HOOK: Braces = (
        "hook",
        "the hole in the drawer's back for the hook of each runner",
        "hook { bore 6 mm; deep 10 mm; from-side 7 mm; up 11 mm }",
    ).unless(ON_WOOD).opens(hook::block);
    BEHIND_FRONT: Length = (
        "behind-front",
        "how far its front end lies behind the back of an inset front, or behind the face of the frame under an overlay front; from the slide's sheet, without a default",
        "behind-front 1/8",
    ).unless(ON_WOOD)
        .can_be("0 mm", "100 mm")
        .usual("0.5 mm", "16 mm");
    UP: Length = (
        "up",
        "the height of its lower edge above the lower edge of its opening; if not written, an undermount slide is level with that edge, and the center line of a side-mount slide is at half the height of the box",
        "up 1/4",
    ).unless(ON_WOOD)
        .can_be("0 mm", "500 mm")
        .usual("1 mm", "200 mm");
    LOAD: Mass = ("load", "the most weight it carries", "load 75 lb").unless(ON_WOOD)
        .can_be("2 kg", "500 kg")
        .usual("8 kg", "150 kg");
    ADJUST: Length = (
        "adjust",
        "how far the drawer can be adjusted up or down",
        "adjust 1.5 mm",
    ).unless(ON_WOOD).default("0")
        .can_be("0 mm", "25 mm")
        .usual("0.5 mm", "8 mm");
    PRICE: Price<ByPair> = ("price", "what it costs", "price 31 per pair").unless(ON_WOOD);
    PACK: Count<1_000> = (
        "pack",
        "how many pairs come in a pack: whole packs are bought",
        "pack 10",
    )
        .can_be("2", "1000")
        .usual("2", "250").unless(ON_WOOD);
    ON_HAND: Count<10_000> = (
        "on-hand",
        "how many pairs are in the shop already: they are taken off what is bought",
        "on-hand 4",
    )
        .can_be("1", "10000")
        .usual("1", "1000").unless(ON_WOOD);
    LEAD_TIME: LeadTime = (
        "lead-time",
        "how long they take to come once they are ordered: the buying list says what to order first",
        "lead-time 3 weeks",
    )
        .can_be("1 day", "104 weeks")
        .usual("1 day", "26 weeks").unless(ON_WOOD);
    NOTE;
    [one_of "the kind of slide"] {
        /// Where a slide runs.
        pub(crate) Mount {
            /// Under the drawer.
            Under = UNDERMOUNT,
            /// Beside it.
            Beside = SIDE_MOUNT,
            /// On the boards of the case.
            Wooden = WOODEN,
        }
    }
    [one_of "the drawer's width"] {
        /// Which width of a drawer the sheet of its slide gives.
        pub(crate) Across of Size {
            /// Between its sides.
            Inside = BOX_INSIDE,
            /// Over its sides.
            Outside = BOX_OUTSIDE,
        }
    }
}

block! {
    /// `wooden { … }`
    wooden: "wooden", "a drawer on wood",
    "A drawer that runs on the boards of its case. Its box is as high as its opening leaves it on the dampest day of the room, and reaches back to 1/2 in (12 mm) from the back of the case, or from the nailers before it: all drawers of a case alike, where one of them may meet a nailer. The back of the box stands on its bottom, which is pushed in from behind.";
    PLAY: Length = (
        "play",
        "how much narrower than its opening the box is",
        "play 1/32",
    ).default("1/16 in").metric("1.5 mm")
        .can_be("0.1 mm", "12 mm")
        .usual("0.2 mm", "6 mm");
}

/// The name that the sizes of a slide have for the width or height of its
/// opening.
pub(crate) const OWN_OPENING: &str = "opening";

block! {
    /// `notch { … }`
    notch: "notch", "a notch",
    "A notch in the lower corner of the drawer's back.";
    WIDE: Length = ("wide", "its width", "wide 35 mm").required()
        .can_be("5 mm", "150 mm")
        .usual("12 mm", "60 mm");
    HIGH: Length = ("high", "its height", "high 13 mm").required()
        .can_be("2 mm", "60 mm")
        .usual("6 mm", "30 mm");
}

block! {
    /// `hook { … }`
    hook: "hook", "a hook",
    "The hole that the hook of a runner goes into, one at each side of the drawer's back. It is bored from outside.";
    BORE: Length = ("bore", "its diameter", "bore 6 mm").required()
        .can_be("2 mm", "20 mm")
        .usual("4 mm", "12 mm");
    DEEP: Length = ("deep", "its depth", "deep 10 mm").required()
        .can_be("2 mm", "40 mm")
        .usual("5 mm", "20 mm");
    FROM_SIDE: Length = (
        "from-side",
        "the distance from the inside face of the drawer's side to its center",
        "from-side 7 mm",
    ).required()
        .can_be("0 mm", "60 mm")
        .usual("3 mm", "25 mm");
    UP: Length = (
        "up",
        "the height of its center above the upper edge of the notch; where there is no notch, above the lower edge of the back",
        "up 11 mm",
    ).required()
        .can_be("0 mm", "60 mm")
        .usual("4 mm", "30 mm");
}

block! {
    /// `pull NAME { … }`
    pull: "pull", "a pull",
    "A pull on two screws, or a knob on one.";
    CENTERS: Length = (
        "centers",
        "the distance between its two screws; leave it out for a knob",
        "centers 3",
    ).also("centres")
        .can_be("10 mm", "60 in")
        .usual("1 in", "24 in");
    SCREW: Length = ("screw", "the diameter of its screw hole", "screw 5/32").required()
        .can_be("1 mm", "20 mm")
        .usual("2 mm", "8 mm");
    UP: PullHeight = ("up", "its height on a drawer front", "up middle").default("middle");
    FROM_EDGE: Length = (
        "from-edge",
        "the distance from a door's latch edge to its screws",
        "from-edge 1-1/4",
    ).default("1-1/4 in").metric("30 mm")
        .can_be("0 mm", "16 in")
        .usual("8 mm", "12 in");
    FOOT: Length = (
        "foot",
        "the diameter of the foot around each screw; if not written, twice the screw",
        "foot 3/8",
    )
        .can_be("2 mm", "150 mm")
        .usual("5 mm", "60 mm");
    STANDS: Length = (
        "stands",
        "how far it stands off the face of its front",
        "stands 32 mm",
    ).default("32 mm")
        .can_be("0 mm", "200 mm")
        .usual("1.5 mm", "80 mm");
    PRICE: Price<ByPiece> = ("price", "what it costs", "price 12 each");
    PACK: Count<1_000> = (
        "pack",
        "how many of these come in a pack: whole packs are bought",
        "pack 10",
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
}

block! {
    /// `bit NAME { … }`
    bit: "bit", "a bit",
    "A router bit.";
    ROUND_NOSE: Length = ("round-nose", "a round-nose bit of this diameter", "round-nose 1/2")
        .can_be("1 mm", "80 mm")
        .usual("2 mm", "40 mm");
    STRAIGHT: Length = ("straight", "a straight bit of this diameter", "straight 1/2")
        .can_be("1 mm", "80 mm")
        .usual("2 mm", "40 mm");
    SHANK: Length = ("shank", "the diameter of its shank", "shank 1/2")
        .can_be("3 mm", "26 mm")
        .usual("6 mm", "1/2 in");
    SPEED: Count<100_000> = ("speed", "the speed it runs at, in rpm", "speed 16000")
        .can_be("1000", "60000")
        .usual("6000", "30000");
    NOTE;
    [one_of "the shape of the bit"] {
        /// The shape of a router bit.
        pub BitShape of Length {
            /// Cuts a round-bottomed groove.
            RoundNose = ROUND_NOSE,
            /// Cuts a square one.
            Straight = STRAIGHT,
        }
    }
}
