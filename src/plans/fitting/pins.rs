//! The rows of holes that loose shelves stand on.

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{Case, Opening, Piece, Pins, Set};
use crate::parts::{
    self, Cuboid, Direction, Face, FeatureKind, JointSort, Part, PartId, Parts, Role,
};
use crate::plans::Workings;

use super::struck::{Blocked, blocked, is_block};
use super::{Index, above_end, from_edge, post_pins};

/// The rows of holes at both sides of an opening, or of one of the spaces that
/// its fixed shelves make of it.
#[derive(Clone, Debug)]
pub struct PinRows<'a> {
    /// The opening.
    pub opening: &'a Opening,
    /// The fixed shelf under the space.
    pub over: Option<&'a Part>,
    /// The fixed shelf over it.
    pub under: Option<&'a Part>,
    /// Hole, depth and pitch.
    pub pins: Pins,
    /// How many places a row has, the lowest first.
    pub count: u32,
    /// From the lower edge of the opening, or the fixed shelf, to the lowest.
    pub first: Length,
    /// Places without a hole, numbered from 1 at the lowest: a block, a hinge plate
    /// or another hole is there on one of the boards.
    pub left_out: Vec<u32>,
    /// Places with a hole where no shelf can lie, since it would strike a hinge, a nailer, or
    /// a block.
    pub blocked: Vec<Blocked<'a>>,
    /// The rows of each board: both in the left one and both in the right one, or one in each
    /// of the four posts.
    pub boards: Vec<RowBoard<'a>>,
    /// How many loose shelves the space has.
    pub loose: usize,
    /// Each shelf, lowest first, with the place nearest to an even share of the opening at
    /// which it strikes nothing; a shelf without one is not among them.
    pub shelves: Vec<(&'a Part, u32)>,
}

/// The rows in a face of a board.
#[derive(Clone, Copy, Debug)]
pub struct RowBoard<'a> {
    /// The board.
    pub part: &'a Part,
    /// The face toward the opening.
    pub face: Face,
    /// From the bottom end of the board to the lowest place.
    pub first: Length,
    /// From an edge of the board to the front row and to the back row; a front post has no
    /// back row, and a back post no front row.
    pub rows: [Option<Length>; 2],
    /// That edge is the back one, since the front edges of the two boards do not lie in one
    /// plane, and their back edges do; or it is the back face of a back post.
    pub from_back: bool,
}

impl RowBoard<'_> {
    /// True where it is a post.
    #[must_use]
    pub fn is_post(&self) -> bool {
        matches!(self.part.role, Role::Post(_))
    }

    /// The distances of its rows from the foremost face of the piece.
    #[must_use]
    pub fn lines(&self) -> Vec<Length> {
        let (front, back) = self.part.extent(Direction::Z);
        let from = |row| if self.from_back { back - row } else { front + row };
        self.rows.into_iter().flatten().map(from).collect()
    }

    /// How many rows it has.
    #[must_use]
    pub fn count(&self) -> usize {
        self.rows.into_iter().flatten().count()
    }

    /// The edge that its rows count from.
    #[must_use]
    pub fn edge(&self) -> Face {
        self.part.placement.face(Direction::Z, !self.from_back)
    }
}

impl PinRows<'_> {
    /// How far the rows of both boards lie from the edge that they count from; `None` where
    /// the boards have none in common.
    #[must_use]
    pub fn alike(&self) -> Option<(bool, [Option<Length>; 2])> {
        let own = |board: &RowBoard<'_>| (board.from_back, board.rows);
        let first = self.boards.first().map(own)?;
        self.boards.iter().all(|board| own(board) == first).then_some(first)
    }

    /// True where a board with these rows is a post.
    #[must_use]
    pub fn in_posts(&self) -> bool {
        self.boards.iter().any(RowBoard::is_post)
    }

    /// What they are called: the opening, and which of its spaces.
    #[must_use]
    pub fn title(&self) -> String {
        let title = self.opening.title();
        match (self.over, self.under) {
            (Some(shelf), _) => format!("{title} over {}", shelf.mark),
            (None, Some(shelf)) => format!("{title} under {}", shelf.mark),
            (None, None) => title.to_owned(),
        }
    }

    /// What the first hole counts from.
    #[must_use]
    pub fn floor_name(&self) -> String {
        match self.over {
            Some(shelf) => shelf.mark.clone(),
            None => "the lower edge of the opening".to_owned(),
        }
    }

    /// The height above the floor of what the first hole counts from.
    fn floor(&self) -> Length {
        floor(self.opening, self.over)
    }

    /// The heights above the floor at which holes are bored.
    pub fn heights(&self) -> impl Iterator<Item = Length> {
        self.bored().map(|number| self.height(number))
    }

    /// The height of a place above the floor.
    #[must_use]
    pub fn height(&self, number: u32) -> Length {
        self.floor() + self.first + self.pins.pitch * (i64::from(number) - 1)
    }

    /// True where a shelf can lie on the pins of a place.
    #[must_use]
    pub fn is_free(&self, number: u32) -> bool {
        let blocked = self.blocked.iter().any(|own| own.places.contains(&number));
        !blocked && !self.left_out.contains(&number)
    }
}

/// A row lies at least so far behind the front edge of its shelf: 3/4 in, 19 mm
/// (common practice, no source).
const UNDER_SHELF: Length = Length::mm(19);

/// The least wood between two holes (common practice, as for hinge cups).
pub(super) const WEB: Length = Length::mm(2);

/// The rows beside every opening with loose shelves.
pub(in crate::plans) fn plan<'a>(piece: &'a Piece, parts: &'a Parts) -> Vec<PinRows<'a>> {
    let mut found = Vec::new();
    if !parts.all.iter().any(|part| part.role == Role::AdjustableShelf) {
        return found;
    }
    let index = &Index::of(parts);
    for case in &piece.cases {
        for opening in &case.openings {
            found.extend(spaces(piece, case, opening, index));
        }
    }
    found
}

/// How far up each loose shelf lies on the pins that it goes on first, from where its own
/// opening would be shared out evenly: there may be no hole.
#[must_use]
pub fn raised<'a>(rows: &[PinRows<'a>]) -> BTreeMap<&'a str, Length> {
    let shelves = rows.iter().flat_map(|row| {
        row.shelves
            .iter()
            .map(|(shelf, place)| (&*shelf.path, row.height(*place) - shelf.extent(Direction::Y).0))
    });
    shelves.filter(|(_, by)| !by.is_zero()).collect()
}

/// The parts with every loose shelf on its pins.
#[must_use]
pub fn on_pins<'a>(rows: &[PinRows<'_>], parts: &'a Parts) -> Cow<'a, Parts> {
    let up = raised(rows);
    if up.is_empty() {
        return Cow::Borrowed(parts);
    }
    let mut laid = parts.clone();
    for part in &mut laid.all {
        if let Some(by) = up.get(&*part.path) {
            part.raise(*by);
        }
    }
    Cow::Owned(laid)
}

/// A space between two fixed shelves, or the whole of an opening, with the loose
/// shelves in it.
#[derive(Default)]
struct Space<'a> {
    over: Option<&'a Part>,
    under: Option<&'a Part>,
    loose: Vec<(PartId, &'a Part)>,
}

/// The rows of every space of an opening, the lowest first.
fn spaces<'a>(
    piece: &'a Piece,
    case: &'a Case,
    opening: &'a Opening,
    index: &Index<'a>,
) -> Vec<PinRows<'a>> {
    let mut spaces = vec![Space::default()];
    for (id, part) in index.of_opening(opening.id).iter().copied() {
        let Some(space) = spaces.last_mut() else { continue };
        match part.role == Role::FixedShelf {
            true => {
                space.under = Some(part);
                spaces.push(Space { over: Some(part), ..Space::default() });
            }
            false if part.role == Role::AdjustableShelf => space.loose.push((id, part)),
            false => {}
        }
    }
    spaces.into_iter().filter_map(|space| rows(piece, case, opening, space, index)).collect()
}

/// A template lies on one edge of all boards: on the back one, where their front edges do not
/// lie in one plane and their back edges do.
fn count_from_back(boards: &mut [RowBoard<'_>], lines: [Length; 2]) {
    if boards.iter().any(RowBoard::is_post) {
        return;
    }
    let agree = |edge: fn(&Part) -> Length| {
        boards.windows(2).all(|two| match two {
            [one, other] => edge(one.part) == edge(other.part),
            _ => true,
        })
    };
    if agree(|part| part.extent(Direction::Z).0) || !agree(|part| part.extent(Direction::Z).1) {
        return;
    }
    for board in boards {
        board.from_back = true;
        board.rows = lines.map(|line| Some(board.part.extent(Direction::Z).1 - line));
    }
}

fn floor(opening: &Opening, over: Option<&Part>) -> Length {
    over.map_or(opening.y, |shelf| shelf.extent(Direction::Y).1)
}

fn rows<'a>(
    piece: &'a Piece,
    case: &'a Case,
    opening: &'a Opening,
    Space { over, under, loose }: Space<'a>,
    index: &Index<'a>,
) -> Option<PinRows<'a>> {
    let (id, lowest_shelf) = loose.first().copied()?;
    let floor = floor(opening, over);
    let pins = case.shelves.pins;
    let lines = lines(piece, case, opening, lowest_shelf, &pins);
    let head = under.map(|shelf| shelf.extent(Direction::Y).0);
    let high = head.unwrap_or(opening.y + opening.high.length) - floor;
    // A shelf that is drawn lower than the usual first hole gets holes too.
    let drawn = (lowest_shelf.extent(Direction::Y).0 - floor).max(pins.pitch);
    let thick = lowest_shelf.cuboid().size(Direction::Y);
    let (count, first) = match spread(high, pins.from_end.min(drawn), pins.pitch) {
        // In a space that is hardly higher than its shelf that lies halfway between where it is
        // drawn and the highest place that it has.
        (_, first) if first + thick > high => {
            let drawn = lowest_shelf.extent(Direction::Y).0 - floor;
            (1, (drawn + high - thick).half())
        }
        spread => spread,
    };
    let mut boards: Vec<RowBoard<'a>> = Vec::new();
    let middle = |part: &Part| {
        let (from, to) = part.extent(Direction::X);
        (from + to).half()
    };
    for board in index.holding(id, JointSort::Laid) {
        let start = middle(board) > middle(lowest_shelf);
        let (rows, from_back) = match matches!(board.role, Role::Post(_)) {
            true => post_pins::row(board, lowest_shelf, opening, (piece, case)),
            false => (lines.map(|line| Some(from_edge(board, line))), false),
        };
        boards.push(RowBoard {
            part: board,
            face: board.placement.face(Direction::X, start),
            first: above_end(board, floor + first),
            rows,
            from_back,
        });
    }
    count_from_back(&mut boards, lines);
    let up = |number: u32| first + pins.pitch * i64::from(number - 1);
    let blocks: Vec<Cuboid> = index
        .parts
        .of_case(case.id)
        .iter()
        .filter(|part| is_block(part))
        .map(Part::cuboid)
        .collect();
    let taken = |number: &u32| {
        let height = floor + up(*number);
        let taken =
            |board| is_taken(board, &pins, height) || is_covered(board, &pins, height, &blocks);
        boards.iter().any(taken)
    };
    let taken: Vec<u32> = (1..=count).filter(taken).collect();
    // A row begins and ends with a hole.
    let free = || (1..=count).filter(|number| !taken.contains(number));
    let (lowest, highest) = (free().next()?, free().next_back()?);
    let below = lowest - 1;
    let (first, count) = (up(lowest), highest - below);
    let inner = taken.iter().filter(|number| (lowest..=highest).contains(number));
    let left_out: Vec<u32> = inner.map(|number| number - below).collect();
    for board in &mut boards {
        board.first += pins.pitch * i64::from(below);
    }
    let mut rows = PinRows {
        opening,
        over,
        under,
        pins,
        count,
        first,
        left_out,
        blocked: Vec::new(),
        boards,
        loose: loose.len(),
        shelves: Vec::new(),
    };
    rows.blocked = blocked(&rows, lowest_shelf, case, index);
    // Two shelves never lie on one place.
    let mut below = 0;
    for (_, shelf) in loose {
        let lies = shelf.extent(Direction::Y).0;
        let free = (below + 1..=count).filter(|number| rows.is_free(*number));
        let Some(place) = free.min_by_key(|number| (rows.height(*number) - lies).abs()) else {
            continue;
        };
        rows.shelves.push((shelf, place));
        below = place;
    }
    Some(rows)
}

/// Where the front row and the back row lie, from the foremost face of the piece.
fn lines(piece: &Piece, case: &Case, opening: &Opening, shelf: &Part, pins: &Pins) -> [Length; 2] {
    let planes = parts::planes(piece, case);
    let ahead = piece.ahead(case);
    let behind = match &opening.front {
        Some(fronts) if fronts.set == Set::Inset => {
            planes.frame.length + piece.thickness(fronts.stock).length
        }
        _ => Length::ZERO,
    };
    let edge = ahead + planes.carcass.length.max(behind) + pins.from_edge;
    let (from, to) = shelf.extent(Direction::Z);
    let front = edge.max(from + UNDER_SHELF);
    let back = ahead + planes.inside.length - pins.from_edge;
    // A shelf too shallow for both carries on its quarters.
    if back - front < pins.pitch.max(pins.hole.twice()) {
        let quarter = (to - from) / 4;
        return [from + quarter, to - quarter];
    }
    [front, back]
}

/// How many places a row has in an opening `high` high, and how far above its
/// lower edge the first lies: `from_end` where both ends leave a third of the
/// height between them, else about its middle.
fn spread(high: Length, from_end: Length, pitch: Length) -> (u32, Length) {
    let between = high - from_end.twice();
    let steps = |room: Length| (room / pitch).floor().clamp(0, 1000);
    if between * 3 >= high {
        let count = u32::try_from(steps(between)).unwrap_or(0) + 1;
        return (count, from_end);
    }
    let steps = steps(high / 3);
    (u32::try_from(steps).unwrap_or(0) + 1, (high - pitch * steps).half())
}

/// True where a hole of either row would strike a hole that is there.
fn is_taken(board: &RowBoard<'_>, pins: &Pins, height: Length) -> bool {
    let bores = board.part.features.iter().filter(|f| matches!(f.kind, FeatureKind::Bore(_)));
    bores.flat_map(|bore| board.part.hollows(bore).map(move |space| (bore, space))).any(
        |(bore, space)| {
            let other_side = bore.face != board.face;
            let thick = board.part.depth(board.face);
            if other_side && bore.deep + pins.deep + WEB <= thick {
                return false;
            }
            let reach = (bore.u.1 - bore.u.0).half() + pins.hole.half() + WEB;
            let near =
                |at: Length, from: Length, to: Length| (at - (from + to).half()).abs() < reach;
            near(height, space.from.y, space.to.y)
                && board.lines().iter().any(|line| near(*line, space.from.z, space.to.z))
        },
    )
}

/// True where a block lies on a hole of either row.
fn is_covered(board: &RowBoard<'_>, pins: &Pins, height: Length, blocks: &[Cuboid]) -> bool {
    let radius = pins.hole.half();
    let (from, to) = board.part.extent(Direction::X);
    let meets = |at: Length, from: Length, to: Length| from < at + radius && at - radius < to;
    blocks.iter().any(|block| {
        let lies_on = block.from.x == to || block.to.x == from;
        lies_on
            && meets(height, block.from.y, block.to.y)
            && board.lines().iter().any(|line| meets(*line, block.from.z, block.to.z))
    })
}

/// The holes of all rows of pins in a board.
pub(super) fn holes_in(work: &Workings<'_>, board: &Part) -> Vec<Cuboid> {
    let rows = work.pin_rows().iter().filter(|rows| rows.opening.id.case == board.case);
    rows.flat_map(|rows| in_board(rows, board)).collect()
}

/// The holes of these rows in a board.
fn in_board(rows: &PinRows<'_>, board: &Part) -> Vec<Cuboid> {
    let own = rows.boards.iter().filter(|own| std::ptr::eq(own.part, board));
    let radius = rows.pins.hole.half();
    let holes = own.flat_map(|own| {
        let lines = own.lines();
        rows.heights().flat_map(move |y| lines.clone().into_iter().map(move |z| (y, z)))
    });
    let space = |(y, z): (Length, Length)| {
        let mut hole = board.cuboid();
        (hole.from.y, hole.to.y) = (y - radius, y + radius);
        (hole.from.z, hole.to.z) = (z - radius, z + radius);
        hole
    };
    holes.map(space).collect()
}
