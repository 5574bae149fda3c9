//! Stops and catches of doors: an inset door on hinges that don't pull it shut has nothing
//! to close against but these.

use crate::measure::{Length, Unit};
use crate::model::{Case, CatchKind, Edge, FrontId, Fronts, Opening, Piece, Size, StockId};
use crate::parts::{self, Assembly, Cuboid, Direction, Face, Front, Part, Parts, Point, Role};
use crate::trade;
use crate::vocabulary::StopKind;

use super::screw_lengths::bought;
use super::screws::Long;

/// The strip that a door closes against.
#[derive(Clone, Debug)]
pub struct Stop<'a> {
    /// The opening of the door.
    pub opening: &'a Opening,
    /// Along which edge of it.
    pub edge: Edge,
    /// What it is glued and screwed to; `None` where nothing there could carry it.
    pub on: Option<&'a Part>,
    /// The face of that part that it lies on.
    pub face: Option<Face>,
    /// What it is made of.
    pub stock: StockId,
    /// Its length, its size across the edge, and its size from front to back.
    pub size: [Size; 3],
    /// How far it stands into the opening.
    pub over: Length,
    /// From the edge of its door to that edge of the opening; below zero at a divider without
    /// a member before it, which the door lies over.
    pub gap: Length,
    /// From the face of the frame, or of a case without one, to its front.
    pub set_back: Size,
    /// The space that it takes.
    pub space: Cuboid,
    /// The first part that stands there already.
    pub struck: Option<&'a Part>,
}

impl Stop<'_> {
    /// How many screws hold it to what it lies on, and how long they are; `None` where it
    /// lies on nothing.
    #[must_use]
    pub fn screws(&self, unit: Unit) -> Option<(u32, Long)> {
        let (on, face) = (self.on?, self.face?);
        let through = self.space.size(on.placement.direction(face));
        let wood = on.cuboid().size(on.placement.direction(face));
        let most = through + wood - trade::short_of_face(unit);
        let count = trade::screws_along(self.size[0].length);
        Some((count, bought(through + trade::into_face(unit), most, unit)))
    }
}

/// The catch that holds a leaf shut.
#[derive(Clone, Debug)]
pub struct Catch<'a> {
    /// Its leaf.
    pub front: FrontId,
    /// The opening.
    pub opening: &'a Opening,
    /// Of which kind.
    pub kind: CatchKind,
    /// At which edge of the opening it is.
    pub edge: Edge,
    /// From the latch edge of the leaf, or from its top where it is at the latch edge, to
    /// its center.
    pub along: Length,
}

/// The stops of a piece, one for each opening that has one.
#[must_use]
pub fn stops<'a>(piece: &'a Piece, parts: &'a Parts) -> Vec<Stop<'a>> {
    let mut found = Vec::new();
    for case in &piece.cases {
        for opening in case.openings.iter().filter(|opening| opening.is_door()) {
            let Some(fronts) = &opening.front else { continue };
            let own = parts.of_case(case.id);
            let stop = stop(piece, case, (opening, fronts), own);
            // At a divider without a member before it a leaf is larger than its opening.
            let leaves = own.iter().filter(|part| is_leaf(part, opening));
            let leaves: Vec<Cuboid> = leaves.map(Part::cuboid).collect();
            // A board right behind the door stops it as well.
            let stands_behind = |part: &&Part| {
                let space = part.cuboid();
                matches!(
                    part.role,
                    Role::Bottom
                        | Role::Top
                        | Role::Stretcher
                        | Role::Divider
                        | Role::FixedShelf
                        | Role::WebRail
                        | Role::Partition
                ) && space.from.z == stop.space.from.z
                    && (is_over(case, opening, &space)
                        || leaves.iter().any(|leaf| closes_before(leaf, &space)))
            };
            let needs = match fronts.stop {
                Some(written) => written.value == StopKind::Strip,
                None => piece.needs_stop(fronts) && own.iter().find(stands_behind).is_none(),
            };
            if needs {
                found.push(stop);
            }
        }
    }
    found
}

/// True for a leaf of an opening.
fn is_leaf(part: &Part, opening: &Opening) -> bool {
    matches!(part.assembly, Assembly::Front(front) if front.opening == opening.id)
}

/// True for a leaf that closes before this space.
fn closes_before(leaf: &Cuboid, space: &Cuboid) -> bool {
    leaf.overlaps_along(space, Direction::X) && leaf.overlaps_along(space, Direction::Y)
}

/// True for what is seen in an opening from the front.
fn is_over(case: &Case, opening: &Opening, space: &Cuboid) -> bool {
    let (x, y) = (case.x + opening.x, opening.y);
    let meets = |from: Length, to: Length, at: Length, long: Length| from < at + long && at < to;
    meets(space.from.x, space.to.x, x, opening.wide.length)
        && meets(space.from.y, space.to.y, y, opening.high.length)
}

/// The edge at which a door closes last: its latch edge, or its top where two leaves meet
/// or where shelves and boxes stand behind the latch edge.
#[must_use]
pub fn closes_at(opening: &Opening) -> Edge {
    let hung = opening.leaves().iter().filter_map(|leaf| opening.hung(*leaf)).next();
    let clear = opening.shelves.is_none() && opening.behind.is_none();
    match hung {
        Some(side) if !opening.is_pair() && clear => Edge::at(side.other()),
        _ => Edge::Top,
    }
}

fn stop<'a>(
    piece: &'a Piece,
    case: &'a Case,
    (opening, fronts): (&'a Opening, &'a Fronts),
    own: &'a [Part],
) -> Stop<'a> {
    let unit = piece.tape().unit;
    let planes = parts::planes(piece, case);
    let thick = piece.thickness(fronts.stock);
    let edge = closes_at(opening);
    let shift = piece.ahead(case);
    let front = shift + planes.frame.length + thick.length;
    let over = trade::stop_over(unit);
    let (x, y) = (case.x + opening.x, opening.y);
    let (right, top) = (x + opening.wide.length, y + opening.high.length);
    let middle = Point::new((x + right).half(), (y + top).half(), front + over.half());
    let (direction, at) = match edge {
        Edge::Left => (Direction::X, x),
        Edge::Right => (Direction::X, right),
        Edge::Top | Edge::Bottom => (Direction::Y, top),
    };
    let along = if direction == Direction::X { Direction::Y } else { Direction::X };
    let outward = edge != Edge::Left;
    let covers = |part: &Part, direction: Direction, at: Length| {
        let (from, to) = part.extent(direction);
        from <= at && at <= to
    };
    // How far a part lies beyond the edge.
    let beyond = |part: &Part| {
        let (from, to) = part.extent(direction);
        if outward { from - at } else { at - to }
    };
    let board = own
        .iter()
        .filter(|part| match direction {
            Direction::X => {
                matches!(part.role, Role::End(_) | Role::Post(_) | Role::Partition)
            }
            Direction::Y | Direction::Z => {
                matches!(
                    part.role,
                    Role::Top | Role::Stretcher | Role::Divider | Role::FixedShelf | Role::WebRail
                )
            }
        })
        .filter(|part| covers(part, along, middle.along(along)))
        .filter(|part| covers(part, Direction::Z, middle.z))
        .filter(|part| !beyond(part).is_negative())
        .min_by_key(|part| beyond(part));
    let member = own
        .iter()
        // On posts the frame belongs to the carcass.
        .filter(|part| matches!(part.role, Role::Stile | Role::Rail))
        .filter(|part| covers(part, along, middle.along(along)) && beyond(part).is_zero())
        .find(|part| part.extent(Direction::Z).1 == front);
    let packing = board.map(&beyond);
    // Flat on the back of the frame where the board beyond leaves room, else on the board.
    let flat = member.filter(|_| packing.is_none_or(|packing| packing >= over));
    let (on, past, deep) = match (flat, board) {
        (Some(member), _) => (Some(member), over, over),
        (None, Some(board)) => {
            let packing = packing.unwrap_or_default();
            let near = packing <= trade::widest_stop(unit);
            (near.then_some(board), packing, trade::door_stop_wide(unit))
        }
        (None, None) => (None, over, over),
    };
    let spare = trade::stop_spare(unit);
    let (long, full) = match along {
        Direction::Y => (&opening.high, (y, top)),
        Direction::X | Direction::Z => (&opening.wide, (x, right)),
    };
    let stretch = (full.0 + spare.half(), full.1 - spare.half());
    let across = if outward { (at - over, at + past) } else { (at - past, at + over) };
    let corner = |pick: fn((Length, Length)) -> Length, z: Length| match direction {
        Direction::X => Point::new(pick(across), pick(stretch), z),
        Direction::Y | Direction::Z => Point::new(pick(stretch), pick(across), z),
    };
    let space =
        Cuboid { from: corner(|range| range.0, front), to: corner(|range| range.1, front + deep) };
    let ends = own.iter().filter(|part| is_leaf(part, opening)).map(|part| part.extent(direction));
    let reaches = match outward {
        true => ends.map(|(_, to)| to - at).max(),
        false => ends.map(|(from, _)| at - from).max(),
    };
    let gap = match reaches {
        Some(past) if past.is_positive() => -past,
        Some(_) | None => fronts.gap.length,
    };
    let struck = own.iter().find(|part| !is_leaf(part, opening) && part.cuboid().overlaps(&space));
    Stop {
        opening,
        edge,
        on,
        face: on.map(|on| match flat {
            Some(_) => on.placement.face(Direction::Z, false),
            None => on.placement.face(direction, outward),
        }),
        stock: case.frame.as_ref().map_or(fronts.stock, |frame| frame.stock),
        size: [long - Size::from(spare), Size::from(over + past), Size::from(deep)],
        over,
        gap,
        set_back: thick,
        space,
        struck,
    }
}

/// The catches of a piece, leaf by leaf.
#[must_use]
pub fn catches<'a>(piece: &'a Piece, fronts: &[Front<'a>]) -> Vec<Catch<'a>> {
    let unit = piece.tape().unit;
    let mut found = Vec::new();
    for front in fronts.iter().filter(|front| front.hung.is_some()) {
        let Some(kind) = piece.catch(front.fronts) else { continue };
        found.push(Catch {
            front: front.id,
            opening: front.opening,
            kind,
            edge: closes_at(front.opening),
            along: trade::catch_from_corner(unit),
        });
    }
    found
}
