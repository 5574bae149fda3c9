//! The openings of a case and the members between them, solved and placed.

use crate::measure::{Angle, Length, Span, Unit};
use crate::vocabulary::takes::Size as SizeWord;
use crate::vocabulary::words::{self, Nested};
use crate::vocabulary::{Side, Word};

use super::came_out::CameOut;
use super::carries::Carries;
use super::cut_round::CutRound;
use super::drawer_box::OnWood;
use super::edge::{Edge, Edges};
use super::front::{Fronts, Set};
use super::hole::Hole;
use super::id::{CaseId, Leaf, MemberId, OpeningId, SlideId, StockId};
use super::insertion::Insertion;
use super::joinery::Board;
use super::rod::Rod;
use super::size::Size;

/// Which way a list of openings runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Axis {
    /// Left to right.
    Across,
    /// Top to bottom.
    Down,
}

impl Axis {
    /// Both.
    pub const BOTH: [Self; 2] = [Self::Across, Self::Down];

    /// The one that a nested list runs along.
    pub(super) fn of(nested: Nested) -> Self {
        match nested {
            Nested::Across => Self::Across,
            Nested::Down => Self::Down,
        }
    }

    /// The word that gives the size of an opening along this axis.
    pub(super) fn size(self) -> Word<SizeWord> {
        match self {
            Self::Across => words::group::WIDE,
            Self::Down => words::group::HIGH,
        }
    }

    /// How that word is spelled.
    #[must_use]
    pub fn size_word(self) -> &'static str {
        self.size().spelling()
    }

    /// The other axis.
    #[must_use]
    pub fn crosswise(self) -> Self {
        match self {
            Self::Across => Self::Down,
            Self::Down => Self::Across,
        }
    }
}

/// An item of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Item {
    /// An opening or nested list.
    Opening(OpeningId),
    /// A stile, rail or divider.
    Member(MemberId),
}

/// Shelves behind an opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShelfSet {
    /// How many are joined to the case.
    pub fixed: u32,
    /// How many stand on pins in each space between the fixed ones, or in the
    /// whole opening.
    pub loose: u32,
    /// What those on pins are made of, where that differs from the case's other shelves,
    /// and where it is said.
    pub loose_stock: Option<(StockId, Insertion)>,
    /// What stands on each, where that differs from the case's other shelves.
    pub carries: Option<Carries>,
    /// The holes through each.
    pub holes: Vec<Hole>,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

impl ShelfSet {
    /// What the fixed ones and those on pins are made of, in a case whose shelves are of this.
    #[must_use]
    pub fn stocks(&self, of_case: Option<StockId>) -> Option<[StockId; 2]> {
        let loose = self.loose_stock.map(|(stock, _)| stock).or(of_case)?;
        Some([of_case.unwrap_or(loose), loose])
    }

    /// How many there are in all.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.fixed.saturating_add(self.loose.saturating_mul(self.fixed.saturating_add(1)))
    }
}

/// What an opening is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OpeningKind {
    /// A list.
    List(Axis, Vec<Item>),
    /// A drawer; without a front, a tray behind doors.
    Drawer {
        /// Its slide; `None` where neither the drawer nor the case's drawers
        /// name one that is known.
        slide: Option<SlideId>,
        /// What its box is cut round.
        around: Vec<CutRound>,
        /// What it holds, where that differs from the case's other drawers.
        carries: Option<Carries>,
        /// How high its box is, where that is less than its slide lets it be.
        box_high: Option<Box<Size>>,
        /// Where that stands, or would.
        box_high_at: Insertion,
    },
    /// A single door, hung on this side.
    Door(Side),
    /// A pair of doors.
    Doors,
    /// A niche.
    Open,
    /// A front that does not open.
    False,
}

/// An opening, or a list of them. Its place is the lower left corner in the
/// plane of the front, from the left side of the case and the floor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opening {
    /// Which one.
    pub id: OpeningId,
    /// Its name, dotted from the case: `console.bank.upper`. A list without a
    /// name has that of the list it stands in.
    pub path: String,
    /// The maker gave it a name: every leaf, and a list that has one of its own.
    pub named: bool,
    /// What it is called on paper, within its case.
    pub(super) title: String,
    /// The same with its case, where openings of other cases are called so too.
    pub(super) title_in_case: Option<String>,
    /// What it is.
    pub kind: OpeningKind,
    /// The list it stands in, or the door that a list stands behind; `None` for the
    /// root.
    pub parent: Option<OpeningId>,
    /// The list behind it, of a door that has one.
    pub behind: Option<OpeningId>,
    /// Its width.
    pub wide: Size,
    /// Its height.
    pub high: Size,
    /// From the left side of the case.
    pub x: Length,
    /// From the floor.
    pub y: Length,
    /// Both with the statements they come from.
    pub stands: [Size; 2],
    /// Its front; `None` for lists and niches.
    pub front: Option<Fronts>,
    /// How far that reaches past each edge of the opening; below nought where it
    /// leaves a gap.
    pub reach: Edges<Size>,
    /// How far the slides of a tray stay clear of the open leaf, at its left and right
    /// edge.
    pub clear: [Size; 2],
    /// How far the leaf opens that keeps the slides of a tray clear; of two, the one that
    /// opens less.
    pub leaf_opens: Option<Angle>,
    /// What the box of a drawer that runs on wood leaves free; `None` for all others.
    pub on_wood: Option<Box<OnWood>>,
    /// From the back of the closed leaf to the front of a tray, or to the face of the
    /// front of a drawer.
    pub set_back: Size,
    /// The statement that gives it, where one does.
    pub set_back_span: Option<Span>,
    /// Shelves behind it.
    pub shelves: Option<ShelfSet>,
    /// The hanging rail in it.
    pub rod: Option<Box<Rod>>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// The statement.
    pub span: Span,
    /// The statements that give its width and height, where they stand.
    pub size_spans: [Option<Span>; 2],
    /// What was measured in it. Its other sizes are as drawn.
    pub came_out: CameOut,
}

impl Opening {
    /// What it is called on paper: its own name, with those of the lists it
    /// stands in where another opening of its case has the same, and with its case where
    /// one of another case has.
    #[must_use]
    pub fn title(&self) -> &str {
        self.title_in_case.as_deref().unwrap_or(&self.title)
    }

    /// The same beside the name of its case.
    #[must_use]
    pub fn title_within(&self) -> &str {
        &self.title
    }

    /// Its width or height along `axis`.
    #[must_use]
    pub fn along(&self, axis: Axis) -> &Size {
        match axis {
            Axis::Across => &self.wide,
            Axis::Down => &self.high,
        }
    }

    /// Its size for what is made after its frame: as measured, else as drawn.
    #[must_use]
    pub fn as_built(&self, axis: Axis) -> &Size {
        let measured = match axis {
            Axis::Across => &self.came_out.wide,
            Axis::Down => &self.came_out.high,
        };
        measured.as_ref().unwrap_or_else(|| self.along(axis))
    }

    /// By how much it came out larger than drawn; below nought for smaller.
    #[must_use]
    pub fn grown(&self, axis: Axis) -> Size {
        self.as_built(axis) - self.along(axis)
    }

    /// The same, as a bare length: for the sums of many openings.
    #[must_use]
    pub fn grown_by(&self, axis: Axis) -> Length {
        self.as_built(axis).length - self.along(axis).length
    }

    /// The most that it can come out larger or smaller and still be made up
    /// for, and by what.
    #[must_use]
    pub fn most_off(&self, unit: Unit) -> (Length, &'static str) {
        match &self.front {
            Some(fronts) if fronts.set == Set::Inset => (fronts.gap.length.twice(), "its two gaps"),
            Some(_) => (unit.either(Length::inches(1, 8), Length::mm(3)), "an overlay front"),
            None => (unit.either(Length::inches(1, 4), Length::mm(6)), "shelves and fittings"),
        }
    }

    /// Its lower left corner as built. Nobody knows which of its sides is off,
    /// so the middle stays where it is drawn.
    #[must_use]
    pub fn corner_as_built(&self) -> (Length, Length) {
        let [x, y] = self.stands_as_built();
        (x.length, y.length)
    }

    /// The same with the statements they come from.
    #[must_use]
    pub fn stands_as_built(&self) -> [Size; 2] {
        let [x, y] = &self.stands;
        let off = |axis| Size::from(self.grown_by(axis).half());
        [x - off(Axis::Across), y - off(Axis::Down)]
    }

    /// True for a drawer, door, niche or false front; false for a list.
    #[must_use]
    pub fn is_leaf(&self) -> bool {
        !matches!(self.kind, OpeningKind::List(..))
    }

    /// True for a single door or a pair.
    #[must_use]
    pub fn is_door(&self) -> bool {
        matches!(self.kind, OpeningKind::Door(_) | OpeningKind::Doors)
    }

    /// Its leaves, left to right.
    #[must_use]
    pub fn leaves(&self) -> &'static [Leaf] {
        match self.kind {
            OpeningKind::Doors => &[Leaf::LeftDoor, Leaf::RightDoor],
            OpeningKind::Door(_) => &[Leaf::Door],
            _ => &[Leaf::Front],
        }
    }

    /// The side on which one of its leaves is hung.
    #[must_use]
    pub fn hung(&self, leaf: Leaf) -> Option<Side> {
        match (leaf, &self.kind) {
            (Leaf::Door, OpeningKind::Door(side)) => Some(*side),
            (leaf, OpeningKind::Doors) => leaf.side(),
            _ => None,
        }
    }

    /// How high the box of a drawer is, where the drawer says it.
    #[must_use]
    pub fn box_high(&self) -> Option<&Size> {
        match &self.kind {
            OpeningKind::Drawer { box_high, .. } => box_high.as_deref(),
            OpeningKind::List(..)
            | OpeningKind::Door(_)
            | OpeningKind::Doors
            | OpeningKind::Open
            | OpeningKind::False => None,
        }
    }

    /// The width that the slides of a drawer have, as built: that of its opening, less
    /// what open leaves take of it.
    #[must_use]
    pub fn wide_for_slides(&self) -> Size {
        let [left, right] = &self.clear;
        self.as_built(Axis::Across) - left - right
    }

    /// True for a drawer box without a front.
    #[must_use]
    pub fn is_tray(&self) -> bool {
        matches!(self.kind, OpeningKind::Drawer { .. }) && self.front.is_none()
    }

    /// True for one with a pair of leaves.
    #[must_use]
    pub fn is_pair(&self) -> bool {
        matches!(self.kind, OpeningKind::Doors)
    }

    /// How many leaves its front has.
    #[must_use]
    pub fn leaf_count(&self) -> u32 {
        if self.is_pair() { 2 } else { 1 }
    }

    /// The case it belongs to.
    #[must_use]
    pub fn case(&self) -> CaseId {
        self.id.case
    }

    /// The lower left corner of its front, from the left side of the case and the
    /// floor, with the statements it comes from.
    #[must_use]
    pub fn front_stands(&self) -> [Size; 2] {
        let [x, y] = self.stands_as_built();
        [x - self.reach.of(Edge::Left), y - self.reach.of(Edge::Bottom)]
    }

    /// The same, as bare lengths.
    #[must_use]
    pub fn front_corner(&self) -> (Length, Length) {
        let [x, y] = self.front_stands();
        (x.length, y.length)
    }

    /// The width and height of its front, or of each leaf of a pair.
    #[must_use]
    pub fn leaf(&self, fronts: &Fronts) -> (Size, Size) {
        let over = |one, other| self.reach.of(one) + self.reach.of(other);
        let wide = self.as_built(Axis::Across) + &over(Edge::Left, Edge::Right);
        let high = self.as_built(Axis::Down) + &over(Edge::Bottom, Edge::Top);
        let wide = if self.is_pair() { (wide - &fronts.meeting).half() } else { wide };
        (wide, high)
    }

    /// The last part of its name.
    #[must_use]
    pub fn name(&self) -> &str {
        self.path.rsplit('.').next().unwrap_or(&self.path)
    }
}

/// What stands behind a stile.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Partition {
    /// Nothing.
    None,
    /// A board of the case.
    Board(Box<Board>),
}

/// The fixed shelf behind a rail.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RailShelf {
    /// The board.
    pub board: Board,
    /// How far the rail stands up above it.
    pub lip: Size,
    /// What stands on it, where that differs from the case's other shelves.
    pub carries: Option<Carries>,
}

/// What a member between two openings is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MemberKind {
    /// An upright of the frame, and what stands behind it.
    Stile(Partition),
    /// A crosspiece of the frame, and the shelf behind it.
    Rail(Option<Box<RailShelf>>),
    /// A board of a frame-less case: upright in `across`, lying in `down`.
    Divider(Box<Board>),
}

impl Member {
    /// The name that the maker gave it.
    #[must_use]
    pub fn given(&self) -> Option<&str> {
        match &self.called {
            Called::Given(name) => Some(name),
            Called::Between { .. } => None,
        }
    }

    /// True for a stile of the frame.
    #[must_use]
    pub fn is_stile(&self) -> bool {
        matches!(self.kind, MemberKind::Stile(_))
    }

    /// What it is: `stile`, `rail`, `divider`.
    #[must_use]
    pub fn noun(&self) -> &'static str {
        match self.kind {
            MemberKind::Stile(_) => "stile",
            MemberKind::Rail(_) => "rail",
            MemberKind::Divider(_) => "divider",
        }
    }
}

/// What a member is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Called {
    /// By the name the maker gave it.
    Given(String),
    /// By the openings that it stands between.
    Between {
        /// The nearest ones with a name; `None` at the edge of its list.
        beside: [Option<OpeningId>; 2],
        /// The end of its name: `bank-press`.
        words: String,
        /// Its number, from the left or the top, among those between the same
        /// two openings.
        number: Option<u32>,
    },
}

impl Default for Called {
    fn default() -> Self {
        Self::Between { beside: [None; 2], words: String::new(), number: None }
    }
}

/// A member between two openings. Placed like an [`Opening`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Member {
    /// Which one.
    pub id: MemberId,
    /// Its name, dotted from the case: `console.stile-bank-press`.
    pub path: String,
    /// Where that name comes from.
    pub called: Called,
    /// What it is.
    pub kind: MemberKind,
    /// The axis of the list it stands in.
    pub axis: Axis,
    /// The list it stands in.
    pub list: OpeningId,
    /// Along its list: the width of a stile or rail, the thickness of a divider.
    pub wide: Size,
    /// Across its list: its length in the front.
    pub long: Size,
    /// From the left side of the case.
    pub x: Length,
    /// From the floor.
    pub y: Length,
    /// Both with the statements they come from.
    pub stands: [Size; 2],
    /// It runs the whole height of the root list.
    pub full: bool,
    /// The statement that leaves out the board behind it.
    pub left_out: Option<Span>,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}
