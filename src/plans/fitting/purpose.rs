//! What screws are for, and how long they are.

use crate::measure::Length;

/// What they are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Purpose {
    /// Pocket holes into sheets and soft wood, which a coarse thread bites.
    Pockets,
    /// Pocket holes into hard wood, which asks for a fine thread.
    HardPockets,
    /// Boards of the case and its base that are screwed together.
    Boards,
    /// Countertops, from below.
    Countertops,
    /// Cases that stand on others, down through their bottoms.
    Stacked,
    /// Packers beside slides.
    Packers,
    /// Strips of drawers on wood.
    Strips,
    /// The corners of drawer boxes whose boards only meet.
    Corners,
    /// Fillers, from inside their case.
    Fillers,
    /// Covers, from inside their case.
    Covers,
    /// Covers over backs, through these.
    BackCovers,
    /// Cases beside each other.
    Ties,
    /// The bottoms of drawers that are pushed in from behind.
    Bottoms,
    /// Blocks behind hinges.
    Blocks,
    /// Blocks that hold false fronts.
    Holding,
    /// Strips that doors close against.
    Stops,
    /// False fronts, from behind through their blocks.
    FalseFronts,
    /// The back of a case.
    Backs,
    /// The plates of hinges.
    Plates,
    /// Drawer fronts, to stay.
    Fronts,
    /// Drawer fronts, while they are set.
    Setting,
    /// Loose shelves.
    ShelfPins,
    /// The clips of undermount slides.
    Clips,
}

/// How long they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Long {
    /// It does not matter, or their own sheet says.
    BySheet,
    /// This length, or of plates and pins this diameter.
    Is(Length),
    /// At least this length.
    AtLeast(Length),
    /// None is sold between these two.
    Between(Length, Length),
}
