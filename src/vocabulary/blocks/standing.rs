//! What a case stands on, or what it hangs by.

pub(crate) use super::NOTE;
pub(crate) use super::cabinet::STOCK;
use super::*;

/// What says by itself how high a case stands.
const ON_LEGS: &str = "legs";

block! {
    /// `base { … }`
    base: "base", "the base",
    "A toe kick is a recess under the front. It is cut into the ends, or it belongs to a separate frame that the case stands on. A piece of furniture stands on corner posts, or on bought legs, instead. Without a base, the case stands on its ends or hangs on the wall. In a run it is made once for cases that stand side by side: one frame, leveled by itself before they come onto it, or one board across the notches of all their ends. A board across notches goes on when the piece stands level, and is scribed to the floor.";
    TOE_KICK: Flag = ("toe-kick", "a recess under the front", "toe-kick");
    HIGH: Size = ("high", "the height from the floor to the underside of the frame", "high 4").required().unless(ON_LEGS)
        .can_be("20 mm", "36 in")
        .usual("1 in", "7-1/2 in")
        .usual_beside("posts", "1 in", "30 in");
    SET_BACK: Length = (
        "set-back",
        "how far the toe kick board stands back from the face of the frame, or from the front edges of a case without one; in a run all kicks of cases that are equally deep stand in one line, as far back as behind overlay fronts",
        "set-back 3",
    ).default("3 in").metric("75 mm")
        .can_be("0 in", "24 in")
        .usual("5/8 in", "5 in");
    SCRIBE: Length = (
        "scribe",
        "how much higher than drawn the toe kick board across notched ends is cut, so that it can be scribed to the floor when the piece stands level",
        "scribe 3/4",
    ).default("1/2 in").metric("12 mm")
        .can_be("1/8 in", "6 in")
        .usual("1/4 in", "2 in");
    CUT_INTO: CutInto = ("cut-into", "the ends run to the floor, and the recess is notched into them", "cut-into ends");
    SEPARATE: Flag = ("separate", "the base is a frame of its own under the case", "separate");
    LEGS: Refer<Leg> = (
        "legs",
        "bought legs under its bottom, by the name of their hardware; they say how high it stands",
        "legs tapered { in 1 }",
    ).may_open(stands_on_legs::block);
    POSTS: Braces = (
        "posts",
        "a post at each corner, from the floor to the top, with paneled ends between them; a case on posts is a piece of furniture, and several in one file stand each by itself",
        "posts { stock post }",
    ).opens(posts::block);
    STOCK;
    NOTE;
    [one_of "the kind of base"] {
        /// What a base is.
        pub(crate) BaseKind {
            /// A recess under the front.
            ToeKick = TOE_KICK,
            /// Corner posts.
            Posts = POSTS,
            /// Bought legs.
            Legs = LEGS,
        }
    }
    [one_of "how the base is built"] {
        /// How a base is built.
        pub(crate) BaseBuild {
            /// The ends run to the floor and are notched.
            CutInto = CUT_INTO,
            /// A frame of its own under the case.
            Separate = SEPARATE,
            /// The corner posts reach up to the top.
            Posts = POSTS,
            /// The legs come as they are.
            Legs = LEGS,
        }
    }
}

block! {
    /// `posts { … }`
    posts: "posts", "the posts",
    "A post at each corner of a piece of furniture, from the floor to the top. The posts take the place of the outer stiles of the face frame, whose rails go into them with tenons, and they are the stiles of the paneled ends. Doors hang on the front posts. A loose shelf stands on pins in all four, and a fixed one is screwed to them or let into them; it is as long as the space between them. A post is as deep as its stock is thick.";
    STOCK: Refer<Stock> = ("stock", "what they are made of", "stock post").required();
    WIDE: Length = (
        "wide",
        "their width, left to right; if not written, they are square",
        "wide 1-3/4",
    )
        .can_be("1/2 in", "8 in")
        .usual("1 in", "4 in");
    NOTE;
}

block! {
    /// `hung { … }`
    hung: "hung", "a hung case",
    "A case on the wall, clear of the floor. Write how high its underside hangs (`up`) or its top (`top`). Screws go into the studs through a nailer under its top and another above its bottom. With `over` it hangs over a case or a run on the floor. Without it, it hangs beside the other cases of the file. A run that hangs says it once for all its cases: strips carry them, and each is screwed to the studs and then to the one beside it. Where its cases have a `high` of their own, `top` hangs their tops in one line, and `up` their undersides.";
    UP: Length = (
        "up",
        "from the floor to its underside",
        "up 18",
    )
        .can_be("20 mm", "4 m")
        .usual("150 mm", "2200 mm");
    TOP: Length = (
        "top",
        "from the floor to its top, in place of `up`: the shorter it is, the higher its underside hangs",
        "top 84",
    )
        .can_be("4 in", "6 m")
        .usual("8 in", "3 m");
    OVER: Path = (
        "over",
        "the case or the run on the floor that it hangs over; if not written, it hangs beside the other cases",
        "over bench",
    );
    LEFT: Length = (
        "left",
        "how far its left side hangs in from the left side of what it hangs over; without `left` and `right` it hangs over its middle",
        "left 2",
    )
        .can_be("0 mm", "30 m")
        .usual("0 mm", "10 m")
        .other_hand("right");
    RIGHT: Length = (
        "right",
        "how far its right side hangs in from the right side of what it hangs over, in place of `left`",
        "right 2",
    )
        .can_be("0 mm", "30 m")
        .usual("0 mm", "10 m")
        .other_hand("left");
    STUDS: Count<40> = (
        "studs",
        "how many studs there are behind it; unless written, as many as it surely meets where they stand 16 in (400 mm) apart",
        "studs 3",
    ).can_be("1", "40")
        .usual("1", "16");
    SCREWS: Count<6> = (
        "screws",
        "how many screws go through each nailer into each stud",
        "screws 2",
    ).default("2")
        .can_be("1", "6")
        .usual("2", "4");
    [one_of "how high it hangs"] {
        /// What says how high a case hangs.
        pub(crate) HangsAt {
            /// From the floor to its underside.
            Up = UP,
            /// From the floor to its top.
            Top = TOP,
        }
    }
}

block! {
    /// `on NAME { … }`
    stands_on: "on", "a case that stands on another",
    "A case on top of a base case, or of a run of them, or of the countertop there. Each is made, carried, and lifted by itself. It is set when what it stands on is leveled, fixed, and covered. Screws go down through its bottom, without glue, so that the two come apart again; where its bottom lies higher, behind a rail, two nailers hold it to the wall. Its back stands over that of the case below, and at a wall it is fixed to that too.";
    LEFT: Length = (
        "left",
        "how far its left side stands in from the left side of what it stands on; without `left` and `right` it stands in the middle",
        "left 2",
    )
        .can_be("0 mm", "30 m")
        .usual("0 mm", "10 m")
        .other_hand("right");
    RIGHT: Length = (
        "right",
        "how far its right side stands in from the right side of what it stands on, in place of `left`",
        "right 2",
    )
        .can_be("0 mm", "30 m")
        .usual("0 mm", "10 m")
        .other_hand("left");
    BACK: Length = (
        "back",
        "how far its back stands forward of that of the case below, where neither is fixed to a wall",
        "back 1",
    ).default("0 in").metric("0 mm")
        .can_be("0 mm", "2 m")
        .usual("0 mm", "300 mm");
}

block! {
    /// `nailers … { … }`
    nailers: "nailers", "the nailers",
    "Boards on edge between the ends, tight against the back, that carry the wall screws. Partitions are notched for them.";
    WIDE: Length = (
        "wide",
        "their width, from the lower to the upper edge",
        "wide 4",
    ).default("4 in").metric("100 mm")
        .can_be("20 mm", "600 mm")
        .usual("50 mm", "300 mm");
    CLEAR: Length = (
        "clear",
        "how far they end beside a pipe or outlet that stands in their way",
        "clear 1",
    ).default("1/2 in").metric("12 mm")
        .can_be("0 mm", "600 mm")
        .usual("0 mm", "150 mm");
    STOCK;
    NOTE;
}

block! {
    /// `leg { … }`
    leg: "leg", "a leg",
    "An upright board under the bottom, standing on the floor at right angles to the front. In a separate base it stands between the front and the back of the base and takes the place of a sleeper.";
    AT: Length = (
        "at",
        "the distance from the left side of the case to its center; without `at` and `from-right` it stands in the middle",
        "at 33",
    )
        .can_be("0 m", "10 m")
        .other_hand("from-right");
    FROM_RIGHT: Length = (
        "from-right",
        "the distance from the right side of the case to its center, in place of `at`",
        "from-right 33",
    )
        .can_be("0 m", "10 m")
        .other_hand("at");
    WIDE: Length = (
        "wide",
        "its width, front to back; if not written, it reaches from the toe kick board to the back of the case or of the separate base",
        "wide 12",
    )
        .can_be("1/2 in", "3 m")
        .usual("40 mm", "40 in");
    STOCK;
    NOTE;
}
