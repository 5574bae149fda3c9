//! Round holes that are bored through a board.

pub(crate) use super::NOTE;
use super::*;

words! {
    HOLE_LEFT: Length = ("from-left", "from the left edge of the board to the center of the hole", "from-left 6")
        .can_be("5 mm", "10 m")
        .usual("20 mm", "5 m")
        .other_hand("from-right");
    HOLE_RIGHT: Length = ("from-right", "from the right edge of the board to the center of the hole", "from-right 6")
        .can_be("5 mm", "10 m")
        .usual("20 mm", "5 m")
        .other_hand("from-left");
    HOLE_FRONT: Length = ("from-front", "from the front edge of the board to the center of the hole", "from-front 4")
        .can_be("5 mm", "3 m")
        .usual("20 mm", "1 m");
    HOLE_BACK: Length = ("from-back", "from the back edge of the board to the center of the hole", "from-back 3")
        .can_be("5 mm", "3 m")
        .usual("20 mm", "1 m");
    HOLE_BOTTOM: Length = ("from-bottom", "from the lower edge of the board to the center of the hole", "from-bottom 10")
        .can_be("5 mm", "6 m")
        .usual("20 mm", "3 m");
    HOLE_TOP: Length = ("from-top", "from the upper edge of the board to the center of the hole", "from-top 4")
        .can_be("5 mm", "6 m")
        .usual("20 mm", "3 m");
    /// A hole through a board that lies.
    HOLE_LYING: Length = (
        "hole",
        "a round hole through it, for cords, a faucet, or a grommet: its diameter",
        "hole 2 { from-left 6; from-back 3 }",
    ).opens(hole_lying::block).many()
        .can_be("5 mm", "500 mm")
        .usual("8 mm", "160 mm");
    /// A hole through a board that stands across the case.
    HOLE_ACROSS: Length = (
        "hole",
        "a round hole through it, for cords or a pipe: its diameter",
        "hole 2 { from-left 6; from-bottom 10 }",
    ).opens(hole_across::block).many()
        .can_be("5 mm", "500 mm")
        .usual("8 mm", "160 mm");
    /// A hole through a board that stands from front to back.
    HOLE_UPRIGHT: Length = (
        "hole",
        "a round hole through it, for cords or a pipe: its diameter",
        "hole 2 { from-back 3; from-bottom 10 }",
    ).opens(hole_upright::block).many()
        .can_be("5 mm", "500 mm")
        .usual("8 mm", "160 mm");
}

block! {
    /// `hole 2 { … }` in a countertop or a shelf
    hole_lying: "hole", "a hole",
    "A round hole right through a board. Its center is measured from two edges of the finished board. It is bored before the board goes in, from the face that is seen, and nothing may lie behind it.";
    FROM_LEFT = HOLE_LEFT;
    FROM_RIGHT = HOLE_RIGHT;
    FROM_FRONT = HOLE_FRONT;
    FROM_BACK = HOLE_BACK;
    NOTE;
    [one_of "its place from left to right"] {
        /// From which side.
        pub(crate) Across of Length {
            /// The left edge.
            Left = FROM_LEFT,
            /// The right edge.
            Right = FROM_RIGHT,
        }
    }
    [one_of "its place from front to back"] {
        /// From the front or the back.
        pub(crate) Deep of Length {
            /// The front edge.
            Front = FROM_FRONT,
            /// The back edge.
            Back = FROM_BACK,
        }
    }
}

block! {
    /// `hole 2 { … }` in a back
    hole_across: "hole-of-back", "a hole in the back",
    "A round hole right through the back. Its center is measured from two edges of the finished board.";
    FROM_LEFT = HOLE_LEFT;
    FROM_RIGHT = HOLE_RIGHT;
    FROM_BOTTOM = HOLE_BOTTOM;
    FROM_TOP = HOLE_TOP;
    NOTE;
    [one_of "its place from left to right"] {
        /// From which side.
        pub(crate) Across of Length {
            /// The left edge.
            Left = FROM_LEFT,
            /// The right edge.
            Right = FROM_RIGHT,
        }
    }
    [one_of "its place from bottom to top"] {
        /// From below or above.
        pub(crate) Up of Length {
            /// The lower edge.
            Bottom = FROM_BOTTOM,
            /// The upper edge.
            Top = FROM_TOP,
        }
    }
}

block! {
    /// `hole 2 { … }` in an end
    hole_upright: "hole-of-end", "a hole in an end",
    "A round hole right through an end. Its center is measured from two edges of the finished board.";
    FROM_FRONT = HOLE_FRONT;
    FROM_BACK = HOLE_BACK;
    FROM_BOTTOM = HOLE_BOTTOM;
    FROM_TOP = HOLE_TOP;
    NOTE;
    [one_of "its place from front to back"] {
        /// From the front or the back.
        pub(crate) Deep of Length {
            /// The front edge.
            Front = FROM_FRONT,
            /// The back edge.
            Back = FROM_BACK,
        }
    }
    [one_of "its place from bottom to top"] {
        /// From below or above.
        pub(crate) Up of Length {
            /// The lower edge.
            Bottom = FROM_BOTTOM,
            /// The upper edge.
            Top = FROM_TOP,
        }
    }
}
