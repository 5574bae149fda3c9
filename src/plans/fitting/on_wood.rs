//! Drawers that run on the boards of their case: what they run on, what keeps them
//! straight and level, and where they stop.

use crate::measure::Length;
use crate::model::{Axis, Case, JointKind, Opening, Piece, Set, Size};
use crate::parts::{self, Direction, JointSort, Of, Part, Role, Which};
use crate::trade;

use super::Index;

/// A drawer on wood.
#[derive(Clone, Debug)]
pub struct OnWood<'a> {
    /// Its opening.
    pub opening: &'a Opening,
    /// The boards that its sides stand on: runners, or the one board under it.
    pub on: Vec<&'a Part>,
    /// The strips beside it.
    pub guides: Vec<&'a Part>,
    /// The strips over it.
    pub kickers: Vec<&'a Part>,
    /// The strips under it.
    pub runners: Vec<&'a Part>,
    /// The blocks behind its front.
    pub stops: Vec<&'a Part>,
    /// The boards that those stand on.
    pub stops_on: Vec<&'a Part>,
    /// How much narrower and lower than its opening, as built, the box is.
    pub less: [Size; 2],
    /// Behind doors, where its strips begin.
    pub behind_doors: Option<BehindDoors>,
    /// From the box to the nailer that stands behind it, else to the inside of the back.
    pub behind: Size,
    /// That nailer.
    pub nailer: Option<&'a Part>,
    /// Where its stops go; `None` where it has none.
    pub stopped: Option<Stopped>,
    /// Why a drawer with an inset front has none.
    pub unstopped: Option<Unstopped>,
    /// How much farther apart the guides stand at their rear ends.
    pub open: Option<Length>,
}

/// Why no stop has room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unstopped {
    /// The bottom of the box lies too low over the board that it runs on.
    Under,
    /// That board, or the front rail of the web frame, ends too soon behind the front of the
    /// box: it must reach so far from the front edge.
    Narrow(Length),
}

/// Where the strips of a drawer behind doors begin.
#[derive(Clone, Debug)]
pub struct BehindDoors {
    /// From the face of the frame, or the front edge of a case without one, to the face of its
    /// own front, with which they begin.
    pub back: Size,
    /// How far past the left and the right edge of the opening its guides stand, clear of the
    /// open doors.
    pub past: [Size; 2],
}

/// The places of a drawer's stops.
#[derive(Clone, Debug)]
pub struct Stopped {
    /// From the face of the frame, or the front edge of a case without one, to their
    /// front ends.
    pub back: Size,
    /// From each edge of the opening, as built, to the middle of the stop on that side.
    pub aside: Size,
}

/// True for a guide or a cleat that stands between a front and a back post, flush with their
/// inside faces, and not against a board beside its opening.
#[must_use]
pub fn is_between_posts(piece: &Piece, part: &Part) -> bool {
    let Some(case) =
        piece.case(part.case).filter(|_| matches!(part.role, Role::Guide | Role::Packer))
    else {
        return false;
    };
    let Some(posts) = &case.posts else { return false };
    let (from, to) = part.extent(Direction::X);
    let wide = posts.wide.length;
    from < case.x + wide || case.x + case.wide.length - wide < to
}

/// True for a guide that stands on the board under it, behind a stile of a case on posts that
/// no board stands behind.
#[must_use]
pub fn is_behind_stile(piece: &Piece, part: &Part) -> bool {
    let (Some(case), Of::Opening(id), Which::At(side)) =
        (piece.case(part.case), part.of, part.which)
    else {
        return false;
    };
    let bare = |opening: &Opening| case.bare_stile(opening, side).is_some();
    part.role == Role::Guide && case.posts.is_some() && piece.opening(id).is_some_and(bare)
}

pub(super) fn plan<'a>(piece: &'a Piece, index: &Index<'a>) -> Vec<OnWood<'a>> {
    let openings =
        piece.cases.iter().flat_map(|case| case.openings.iter().map(move |own| (case, own)));
    openings.filter_map(|(case, opening)| on_wood(piece, case, opening, index)).collect()
}

fn on_wood<'a>(
    piece: &'a Piece,
    case: &'a Case,
    opening: &'a Opening,
    index: &Index<'a>,
) -> Option<OnWood<'a>> {
    let free = opening.on_wood.as_ref()?;
    let own = index.of_opening(opening.id);
    let of = |role: Role| -> Vec<&'a Part> {
        own.iter().filter(|(_, part)| part.role == role).map(|(_, part)| *part).collect()
    };
    let under = |role: Role, sort: JointSort| {
        let mut boards: Vec<&'a Part> = Vec::new();
        for (id, _) in own.iter().filter(|(_, part)| part.role == role) {
            for board in index.holding(*id, sort) {
                if !boards.iter().any(|known| std::ptr::eq(*known, board)) {
                    boards.push(board);
                }
            }
        }
        boards
    };
    let on = under(Role::DrawerSide, JointSort::Slid);
    let stops_on = under(Role::Stop, JointSort::Wood(JointKind::Butt));
    let size = piece.drawer_box(case, opening)?;
    let [wide, tall] = [Axis::Across, Axis::Down].map(|axis| opening.as_built(axis));
    let guides = of(Role::Guide);
    let stops = of(Role::Stop);
    let stopped = stops.first().map(|stop| {
        let back = stop.side(Direction::Z, false) - piece.before_frame(case);
        let middle = (stop.side(Direction::X, false) + stop.side(Direction::X, true)).half();
        let [left, _] = opening.stands_as_built();
        Stopped { back, aside: middle - &case.beside - left }
    });
    let planes = parts::planes(piece, case);
    let behind_doors = case.door_before(opening).is_some().then(|| BehindDoors {
        back: piece.behind_doors(case, opening),
        past: opening.clear.clone(),
    });
    let inset = opening.front.as_ref().is_some_and(|front| front.set == Set::Inset);
    let unstopped = (inset && stopped.is_none()).then(|| {
        let part = |role: Role| own.iter().find(|(_, part)| part.role == role).map(|(_, own)| own);
        let under = part(Role::DrawerBottom).map_or(Length::ZERO, |bottom| {
            bottom.extent(Direction::Y).0 - opening.stands[1].length - free.over_stop.length
        });
        let behind = part(Role::DrawerFront).or_else(|| part(Role::Slab));
        let behind = behind.map_or(Length::ZERO, |front| front.extent(Direction::Z).1);
        // Runners of a web frame end behind its front rail.
        let rail = |on: &Part| {
            let mut all = index.parts.of_case(case.id).iter();
            all.find(|part| {
                part.role == Role::WebRail && part.of == on.of && part.which == Which::Front
            })
        };
        let begins = on.iter().map(|on| rail(on).unwrap_or(on).extent(Direction::Z).0).min();
        match begins.filter(|_| under >= free.over_stop.length) {
            Some(begins) => {
                Unstopped::Narrow(behind + trade::shortest_stop(piece.tape().unit) - begins)
            }
            None => Unstopped::Under,
        }
    });
    let rear = &planes.frame + piece.before_box(case, opening) + &size.deep;
    let sides = own.iter().filter(|(_, part)| part.role == Role::DrawerSide);
    let level = |nailer: &&Part| {
        let mut sides = sides.clone().map(|(_, side)| side.cuboid());
        let nailed = nailer.cuboid();
        nailer.role.is_nailer()
            && sides.any(|side| {
                [Direction::X, Direction::Y]
                    .iter()
                    .all(|axis| side.overlap_along(&nailed, *axis).is_positive())
            })
    };
    let nailer = index.parts.of_case(case.id).iter().find(level);
    let behind = match nailer {
        Some(nailer) => nailer.side(Direction::Z, false) - rear,
        None => &planes.inside - rear,
    };
    Some(OnWood {
        opening,
        on,
        stops_on,
        kickers: of(Role::Kicker),
        runners: of(Role::Runner),
        less: [wide - &size.outside, tall - &size.high],
        behind_doors,
        behind,
        nailer,
        stopped,
        unstopped,
        open: (!guides.is_empty()).then(|| trade::guides_open(piece.tape().unit)),
        guides,
        stops,
    })
}
