//! How pieces are laid out on sheets so that a saw can cut them: guillotine plans.
//! In: sizes as whole numbers. Out: which sheet each piece comes from and by which cuts,
//! and how few sheets any plan could do with. Must not know units, wood, or parts.
//!
//! A saw cuts from edge to edge, so a sheet is a tree of such cuts. The search is that of
//! Gardeyn and Wauters, A goal-driven ruin and recreate heuristic for the 2D variable-sized
//! bin packing problem with guillotine constraints (European Journal of Operational
//! Research, 2022): pieces are taken out and put in again, within less than the best plan
//! costs so far, until all are in. It counts rounds and never looks at a clock, and its
//! random numbers begin alike, so a spec has one plan on any machine.

mod bound;
mod rows;
mod search;
mod tidy;
mod tree;

pub use bound::fewest;
pub use search::plan;
pub use tree::{Node, What};

/// Which way a rectangle is divided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// Into pieces one after another along its length: crosscuts.
    Crosscut,
    /// Into pieces beside each other along its width: rips.
    Rip,
}

impl Way {
    /// Both.
    pub const BOTH: [Self; 2] = [Self::Crosscut, Self::Rip];

    /// The one across it.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Crosscut => Self::Rip,
            Self::Rip => Self::Crosscut,
        }
    }

    /// What the cut is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Crosscut => "crosscut",
            Self::Rip => "rip",
        }
    }

    /// The size it divides.
    #[must_use]
    pub fn of(self, [long, wide]: Size) -> i64 {
        match self {
            Self::Crosscut => long,
            Self::Rip => wide,
        }
    }

    /// The same rectangle with another size that way.
    #[must_use]
    pub fn with(self, [long, wide]: Size, own: i64) -> Size {
        match self {
            Self::Crosscut => [own, wide],
            Self::Rip => [long, own],
        }
    }
}

/// Length and width, each with the width of a saw cut: `n` pieces in a row take as many
/// cuts as there are pieces, but for what the cut behind the last would take of the edge.
pub type Size = [i64; 2];

/// A size of sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kind {
    /// Its size, a saw cut longer and wider.
    pub size: Size,
    /// What one costs.
    pub cost: i64,
    /// How many there are; `None` where more can be bought.
    pub count: Option<usize>,
    /// The cut that it came of and its stage, where it is what is left of a sheet; `None` for
    /// a sheet that no cut has been made in.
    pub above: Option<(Way, u8)>,
}

/// A piece to be cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// Its size, a saw cut longer and wider.
    pub size: Size,
    /// It may lie across the sheet.
    pub turns: bool,
}

impl Wanted {
    /// How it may lie: turned or not, and its size so.
    fn ways(&self) -> impl Iterator<Item = (bool, Size)> {
        let [long, wide] = self.size;
        let turned = (self.turns && long != wide).then_some((true, [wide, long]));
        [(false, self.size)].into_iter().chain(turned)
    }
}

/// How a saw is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stages {
    /// How often the cuts may turn, the first way counted; `None` where that is all one.
    pub most: Option<u8>,
    /// Which way a whole sheet is cut. Where a piece is as large as the sheet that way, the
    /// first cuts go the other way and count as the second stage.
    pub first: Option<Way>,
}

impl Stages {
    /// The stage of a cut in a rectangle that comes of a cut of a stage.
    #[must_use]
    pub fn of(&self, above: Option<(Way, u8)>, way: Way) -> u8 {
        match above {
            Some((own, stage)) if own == way => stage,
            Some((_, stage)) => stage + 1,
            None => 1 + u8::from(self.first.is_some_and(|first| first != way)),
        }
    }
}

/// What is to be cut, from what, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    /// The sizes of sheets.
    pub kinds: Vec<Kind>,
    /// The pieces.
    pub pieces: Vec<Wanted>,
    /// What the saw takes with a cut.
    pub kerf: i64,
    /// How the saw is used.
    pub stages: Stages,
    /// No plan costs less than this, where that is known from elsewhere.
    pub floor: i64,
    /// How many rounds the search may take for fewer sheets, and for larger leftovers.
    pub rounds: [usize; 2],
}

impl Order {
    /// What sheets of these kinds cost.
    fn cost_of(&self, kinds: impl Iterator<Item = usize>) -> i64 {
        kinds.filter_map(|kind| self.kinds.get(kind)).map(|kind| kind.cost).sum()
    }

    /// The cut that sheets of a kind came of.
    fn above(&self, kind: usize) -> Option<(Way, u8)> {
        self.kinds.get(kind)?.above
    }

    /// The pieces that some sheet is large enough for.
    fn placeable(&self) -> impl Iterator<Item = &Wanted> {
        let fits = |piece: &Wanted| {
            self.kinds.iter().any(|kind| {
                piece.ways().any(|(_, size)| size[0] <= kind.size[0] && size[1] <= kind.size[1])
            })
        };
        self.pieces.iter().filter(move |piece| fits(piece))
    }
}

fn area([long, wide]: Size) -> i128 {
    i128::from(long) * i128::from(wide)
}

/// A sheet as it is cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Which of the kinds it is.
    pub kind: usize,
    /// Its cuts.
    pub root: Node,
}

/// All sheets.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// Each as it is cut.
    pub sheets: Vec<Sheet>,
    /// The pieces that fit no sheet.
    pub unplaced: Vec<usize>,
    /// No plan costs less than this, as far as is known.
    pub least: i64,
}

impl Plan {
    /// What its sheets cost.
    #[must_use]
    pub fn cost(&self, order: &Order) -> i64 {
        order.cost_of(self.sheets.iter().map(|sheet| sheet.kind))
    }
}
