//! Hanging rails: where their cups go, how long they are cut, and what else they hang
//! from.

use crate::measure::{Length, Mass, Unit};
use crate::model::{Beyond, Case, Edge, Opening, OpeningKind, Piece, Rod, Side, Size};
use crate::parts::{self, Cuboid, Direction, Face, Part, Parts, Point, Role};
use crate::trade::{self, Beam};

use super::Long;

/// A hanging rail.
#[derive(Clone, Debug)]
pub struct Rail<'a> {
    /// Its opening.
    pub opening: &'a Opening,
    /// What the maker says of it.
    pub rod: &'a Rod,
    /// The boards at its left and right end.
    pub ends: Vec<RailEnd<'a>>,
    /// Between those boards.
    pub clear: Size,
    /// How long it is cut.
    pub long: Size,
    /// Its center above the lower edge of its opening.
    pub above_opening: Size,
    /// Its center above the floor of the room.
    pub height: Size,
    /// The lying board above it, which the middle hangers are screwed to.
    pub above: Option<&'a Part>,
    /// From the left board to each middle hanger.
    pub hangers: Vec<Length>,
    /// From its center down to what lies below it.
    pub room: Length,
    /// What lies there; `None` for the lower edge of the opening.
    pub below: Option<&'a Part>,
    /// The depth from the closed doors, or the face of the case, to the inside of the
    /// back.
    pub deep: Length,
    /// What hangs on it.
    pub load: Mass,
    /// Its distance from the back is the usual one of the trade.
    pub back_is_usual: bool,
    /// The space that it takes.
    pub space: Cuboid,
}

/// The cup at one end of a rail.
#[derive(Clone, Debug)]
pub struct RailEnd<'a> {
    /// At which end.
    pub side: Side,
    /// The board that it is screwed to.
    pub board: &'a Part,
    /// The face toward the opening.
    pub face: Face,
    /// Its center above the bottom end of the board.
    pub above_end: Size,
    /// Its center behind the front edge of the board.
    pub from_edge: Size,
}

impl Rail<'_> {
    /// How far it sags between two of its holds; `None` where nothing is known of how
    /// stiff its wood is.
    #[must_use]
    pub fn sag(&self, piece: &Piece) -> Option<Length> {
        let stiffness = match self.rod.stock {
            Some(stock) => trade::pole_stiffness(piece.stock(stock)?.stiffness?, self.rod.diameter),
            None => trade::tube_stiffness(self.rod.diameter),
        };
        let spans = self.spans();
        let pounds = self.load.0.to_f64() / Mass::pounds(crate::measure::Exact::ONE).0.to_f64();
        let load = pounds / spans as f64;
        let span = trade::inches(self.span());
        Some(trade::rounded_up(Beam::Simple.sag(load, span, stiffness)))
    }

    /// Between two of its holds.
    #[must_use]
    pub fn span(&self) -> Length {
        self.clear.length / self.spans()
    }

    fn spans(&self) -> i64 {
        i64::try_from(self.hangers.len()).unwrap_or(0) + 1
    }

    /// The screws of its cups and hangers: the longest that is sold that stays short of
    /// the far face of the thinnest board it hangs on, through a flange of 1/16 in.
    #[must_use]
    pub fn screws(&self, unit: Unit) -> Long {
        let hangs_from = self.above.filter(|_| !self.hangers.is_empty());
        let boards = self.ends.iter().map(|end| end.board).chain(hangs_from);
        let thin = boards.map(|board| board.thickness.length).min().unwrap_or_default();
        let flange = unit.either(Length::inches(1, 16), Length::mm(2));
        let most = (thin + flange - trade::short_of_face(unit)).max(Length::ZERO);
        match trade::screw_sold(Length::ZERO, most, unit) {
            Some(sold) => Long::Is(sold),
            None => Long::Between(Length::ZERO, most),
        }
    }

    /// How many screws hold it.
    #[must_use]
    pub fn screw_count(&self) -> u32 {
        let holds = self.ends.len() + self.hangers.len();
        trade::RAIL_SCREWS.saturating_mul(u32::try_from(holds).unwrap_or(u32::MAX))
    }
}

/// The hanging rails of a piece.
#[must_use]
pub fn plan<'a>(piece: &'a Piece, parts: &'a Parts) -> Vec<Rail<'a>> {
    let mut found = Vec::new();
    for case in &piece.cases {
        for opening in &case.openings {
            let Some(rod) = &opening.rod else { continue };
            found.extend(rail(piece, case, opening, rod, parts.of_case(case.id)));
        }
    }
    found
}

fn rail<'a>(
    piece: &'a Piece,
    case: &'a Case,
    opening: &'a Opening,
    rod: &'a Rod,
    own: &'a [Part],
) -> Option<Rail<'a>> {
    let unit = piece.tape().unit;
    let planes = parts::planes(piece, case);
    let face = &planes.frame + piece.behind_doors(case, opening);
    let deep = &planes.inside - &face;
    let usual = trade::rail_from_back(unit);
    let back_is_usual = rod.from_back.is_none() && deep.half().length > usual;
    let from_back = match &rod.from_back {
        Some(written) => written.clone(),
        None if back_is_usual => Size::from(usual),
        None => deep.half(),
    };
    // Parts count from the foremost face of the piece, their sizes from that of the case.
    let line = &planes.inside - &from_back;
    let z = piece.ahead(case) + line.length;
    let x = case.x + opening.x + opening.wide.length.half();
    let top = &opening.stands[1] + &opening.high;
    let middle = opening.y + opening.high.length.half();
    let over = |part: &Part, direction, at| {
        let (from, to) = part.extent(direction);
        from <= at && at <= to
    };
    let lying = || {
        own.iter().filter(|part| {
            let is_board = matches!(
                part.role,
                Role::Top
                    | Role::Stretcher
                    | Role::Divider
                    | Role::FixedShelf
                    | Role::AdjustableShelf
                    | Role::Bottom
            );
            // A web frame lies at the height of its rails wherever these are.
            let is_there = is_board && over(part, Direction::Z, z) || part.role == Role::WebRail;
            is_there && over(part, Direction::X, x)
        })
    };
    // Where nothing parts the opening from the one over it, the rail hangs from its edge.
    let bare = matches!(case.beyond(opening.id, Edge::Top), Beyond::Opening(_));
    let above = lying()
        .filter(|part| !bare && part.role != Role::AdjustableShelf)
        .filter(|part| part.extent(Direction::Y).0 > middle)
        .min_by_key(|part| part.extent(Direction::Y).0);
    // A member without a board has the next opening right behind it.
    let between = |above: &&Part| {
        let (own, upper) = (opening.x + opening.wide.length.half(), above.extent(Direction::Y).0);
        case.openings.iter().any(|other| {
            !matches!(other.kind, OpeningKind::List(..))
                && (other.x..other.x + other.wide.length).contains(&own)
                && other.y >= top.length
                && other.y < upper
        })
    };
    let above = above.filter(|above| !between(above));
    let underside = above.map_or(top, |above| above.side(Direction::Y, false));
    // Nothing is screwed up into what may be a dust panel, or nothing at all.
    let above = above.filter(|part| part.role != Role::WebRail);
    let height = underside - &rod.down;
    let y = height.length;
    let beside = || {
        own.iter().filter(|part| {
            matches!(part.role, Role::End(_) | Role::Partition)
                && over(part, Direction::Y, y)
                && over(part, Direction::Z, z)
        })
    };
    let left = beside()
        .filter(|part| part.extent(Direction::X).1 <= x)
        .max_by_key(|part| part.extent(Direction::X).1)?;
    let right = beside()
        .filter(|part| part.extent(Direction::X).0 >= x)
        .min_by_key(|part| part.extent(Direction::X).0)?;
    let clear = right.side(Direction::X, false) - left.side(Direction::X, true);
    let end = |side: Side, board: &'a Part| RailEnd {
        side,
        board,
        face: board.placement.face(Direction::X, side == Side::Right),
        above_end: &height - board.side(Direction::Y, false),
        from_edge: &line - board.side(Direction::Z, false),
    };
    let spans = (clear.length / trade::longest_rail(unit)).ceil().clamp(1, 100);
    let below = lying()
        .filter(|part| part.extent(Direction::Y).1 < y && y > opening.y)
        .max_by_key(|part| part.extent(Direction::Y).1);
    let thick = rod.diameter.half();
    let at = |x: Length, off: Length| Point::new(x, y + off, z + off);
    let space = Cuboid {
        from: at(left.extent(Direction::X).1, -thick),
        to: at(right.extent(Direction::X).0, thick),
    };
    let floor = below.map_or(opening.y, |below| below.extent(Direction::Y).1);
    Some(Rail {
        opening,
        rod,
        ends: vec![end(Side::Left, left), end(Side::Right, right)],
        long: &clear - Size::from(trade::rail_play(unit)),
        above_opening: &height - &opening.stands[1],
        above,
        hangers: (1..spans).map(|number| clear.length * number / spans).collect(),
        room: y - floor,
        below,
        deep: deep.length,
        load: rod.load.unwrap_or_else(|| trade::clothes_load(clear.length)),
        clear,
        height,
        space,
        back_is_usual,
    })
}
