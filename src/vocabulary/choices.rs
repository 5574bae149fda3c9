//! Every list of choices, as the types that the model matches on.

use crate::measure::Unit;

choices! {
    /// Left or right, seen from the front.
    Side {
        /// The left.
        Left = "left" other "right",
        /// The right.
        Right = "right" other "left",
    }

    /// The side of a case that a panel covers.
    Covered {
        /// The outside of its left end.
        Left = "left" other "right",
        /// The outside of its right end.
        Right = "right" other "left",
        /// Its back, where it stands free in the room.
        Back = "back",
        /// Its underside, where it hangs.
        Under = "under",
    }

    /// Which of the outer rails of a frame.
    RailSide {
        /// The one at the top.
        Top = "top",
        /// The one at the bottom.
        Bottom = "bottom",
    }

    /// Which way a sheet is cut first.
    FirstCuts {
        /// Along its length, into strips.
        Rip = "rip",
        /// Across it, into shorter sheets.
        Crosscut = "crosscut",
    }

    /// Small hardware that is sold by the pack.
    Supply {
        /// Screws with a plain shank and a countersunk head.
        WoodScrews = "wood-screws",
        /// Screws with large heads, which hold drawer fronts.
        LargeHeadScrews = "large-head-screws",
        /// Pan-head screws with washers, for slots and wide holes.
        PanHeadScrews = "pan-head-screws",
        /// Short screws with flat heads, for backs.
        FlatHeadScrews = "flat-head-screws",
        /// Pocket screws with a coarse thread, for sheets and soft wood.
        PocketScrews = "pocket-screws",
        /// Pocket screws with a fine thread, for hard wood.
        FinePocketScrews = "fine-pocket-screws",
        /// Screws through a case into the studs.
        CabinetScrews = "cabinet-screws",
        /// Screws for the plates of hinges.
        PlateScrews = "plate-screws",
        /// Screws for pulls.
        PullScrews = "pull-screws",
        /// Screws for the cups of hanging rails.
        RailScrews = "rail-screws",
        /// Pins that loose shelves lie on.
        ShelfPins = "shelf-pins",
        /// The clips of undermount slides, left and right ones counted together.
        Clips = "clips",
        /// Tubes or poles that hanging rails are cut from; the `long` of one gives as many rails
        /// as fit into it.
        HangingRails = "hanging-rails",
        /// The cups that hold the ends of hanging rails.
        RailCups = "rail-cups",
        /// What long hanging rails hang from between their ends.
        RailHangers = "rail-hangers",
        /// Magnetic catches for doors.
        MagneticCatches = "magnetic-catches",
        /// Ball catches for doors.
        BallCatches = "ball-catches",
        /// Stops that keep doors from a wall, or limiters for their hinges.
        DoorStops = "door-stops",
    }

    /// What comes first when boards are laid out.
    LayOut {
        /// Fronts that are seen together follow each other along one board, then come the
        /// members of frames, and then all else.
        Looks = "looks",
        /// As few boards as possible are bought.
        Yield = "yield",
    }

    /// What cuts dadoes and grooves that run through.
    DadoTool {
        /// The router, along a straight-edge or over its table.
        Router = "router",
        /// A plain blade in the table saw, cut beside cut.
        Saw = "saw",
    }

    /// How boards are joined.
    JointKind {
        /// A board let into a groove across another.
        Dado = "dado",
        /// A board in a step along another's edge.
        Rabbet = "rabbet",
        /// Screws in pockets bored at a slant.
        Pocket = "pocket",
        /// Screws through the face.
        Screw = "screw",
        /// Tenon and mortise.
        Tenon = "tenon",
        /// Dowels.
        Dowel = "dowel",
        /// Dovetails.
        Dovetail = "dovetail",
        /// Glued edge to edge or face to face.
        Butt = "butt",
    }

    /// How a frame member meets an end of the case.
    Seam {
        /// Both are mitered, so that the grain wraps round the corner.
        Miter = "miter" also "mitre",
        /// The frame covers the end's front edge.
        Butt = "butt",
    }

    /// How a countertop is held on its case.
    HowHeld {
        /// Screws through slots, in which solid wood moves.
        Slots = "slots",
        /// Screws through round holes.
        Screw = "screw",
    }

    /// What stands in place of a thing that is left out.
    Nothing {
        /// Nothing.
        None = "none",
    }

    /// What a base is cut into.
    CutInto {
        /// The ends, which run to the floor.
        Ends = "ends",
    }

    /// How fronts lie.
    HowSet {
        /// In their openings, flush with the frame.
        Inset = "inset",
        /// Over the frame.
        Overlay = "overlay",
    }

    /// How fronts are built.
    HowBuilt {
        /// One board, or several glued edge to edge.
        Slab = "slab",
        /// Frame and panel.
        Panel = "panel",
    }

    /// How a lying board between openings is built.
    BoardBuild {
        /// One board, or several glued edge to edge.
        Slab = "slab",
        /// A frame with runners.
        Web = "web",
    }

    /// What hangs on a rail.
    Hangs {
        /// Shirts, jackets, skirts.
        Short = "short",
        /// Dresses and coats.
        Long = "long",
    }

    /// Whether a hinge pulls its door shut.
    Closing {
        /// It pulls the door shut and holds it there.
        Itself = "self",
        /// The door swings freely.
        Free = "free",
    }

    /// What an inset door closes against.
    StopKind {
        /// A strip of wood behind it.
        Strip = "strip",
        /// Nothing of its own.
        None = "none",
    }

    /// What holds a door shut, and what is written for none.
    CatchWord {
        /// A magnet.
        Magnet = "magnet",
        /// A ball on a spring.
        Ball = "ball",
        /// Nothing.
        None = "none",
    }

    /// Which way flutes or grain run.
    Run {
        /// Up and down.
        Vertical = "vertical",
        /// From side to side.
        Horizontal = "horizontal",
    }

    /// What bare numbers count.
    Units {
        /// Inches.
        Inches = "in",
        /// Millimetres.
        Millimetres = "mm",
    }

    /// Where a pull sits on a drawer front.
    PullHeight {
        /// Half way up.
        Middle = "middle",
        /// A third from the top.
        UpperThird = "upper-third",
    }

    /// What a side of the piece meets.
    Meets {
        /// Nothing: it is seen.
        Open = "open",
        /// A wall that may not be straight.
        Wall = "wall",
    }

    /// What the piece is screwed to.
    Fixing {
        /// The wall behind it.
        Wall = "wall",
        /// Nothing.
        None = "none",
    }

    /// How many nailers stand behind a case.
    Nailers {
        /// None: the screws find another board.
        None = "none",
        /// One, under the top.
        One = "1",
        /// One under the top and one above the bottom.
        Two = "2",
    }

    /// How boards are sawn.
    Sawn {
        /// Rings lie flat.
        Flat = "flat",
        /// Rings stand upright.
        Quarter = "quarter",
        /// In between.
        Rift = "rift",
    }

    /// Which way the face grain of a sheet runs.
    SheetGrain {
        /// Along its length.
        Long = "long",
        /// Across it.
        Wide = "wide",
        /// It has none.
        None = "none",
    }

    /// What stands between the two figures of a place.
    By {
        /// Along it by across it.
        By = "by",
    }

    /// What a joint or bore that is in a part already is called.
    MadeKind {
        /// A groove across the grain.
        Dado = "dado",
        /// A groove along it.
        Groove = "groove",
        /// A step along an edge.
        Rabbet = "rabbet",
        /// An edge cut at a slant.
        Miter = "miter" also "mitre",
        /// A corner cut out.
        Notch = "notch",
        /// A long hole for a screw.
        Slot = "slot",
        /// The hole for a tenon.
        Mortise = "mortise",
        /// A tenon.
        Tenon = "tenon",
        /// The corner cut off a tenon beside its haunch.
        Haunch = "haunch",
        /// Dovetails.
        Dovetails = "dovetails",
        /// A flute.
        Flute = "flute",
        /// Pockets bored at a slant for screws.
        PocketHoles = "pocket-holes",
        /// Holes for dowels.
        DowelHoles = "dowel-holes",
        /// The hole for the cup of a hinge.
        HingeCup = "hinge-cup",
        /// A hole for the screw of a pull.
        PullHole = "pull-hole",
        /// A hole for a screw of a hinge plate.
        PlateHole = "plate-hole",
        /// A round hole for cords, a faucet, or a grommet.
        RoundHole = "round-hole",
        /// A hole for a bought leg: for a screw of its plate, its bolt, or its dowel.
        LegHole = "leg-hole",
    }
}

impl Units {
    /// The unit itself.
    #[must_use]
    pub const fn unit(self) -> Unit {
        match self {
            Self::Inches => Unit::Inch,
            Self::Millimetres => Unit::Millimetre,
        }
    }
}

some_of! {
    /// Joints of the boards of a case.
    BoardJoint: JointKind = Dado, Rabbet, Pocket, Screw, Dowel;
    /// Joints of a back.
    BackJoint: JointKind = Rabbet, Screw;
    /// Joints of a face frame.
    FrameJoint: JointKind = Pocket, Tenon, Dowel;
    /// Joints of a divider.
    DividerJoint: JointKind = Dado, Pocket, Screw;
    /// Joints of the corners of a drawer box.
    DrawerJoint: JointKind = Rabbet, Dovetail, Butt;
}
