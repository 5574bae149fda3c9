//! What a drawer runs on that has no slides: the board under it, or strips on that
//! board; guides beside it, kickers over it, and the blocks that stop it.

use crate::measure::Length;
use crate::model::{Axis, DrawerBoxes, JointKind, OnWood, Opening, Set, Side, Size, Stock};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::{Assembly, Part};
use crate::parts::space::{Direction, Face};
use crate::trade;

use super::builder::{Builder, Draft, INWARD, SIDEWAYS};
use super::drawers::{Made, behind_doors};
use super::inside;
use super::posts;

/// The strips and stops of a drawer, with its box on what carries it.
pub(super) fn build(
    builder: &mut Builder<'_>,
    opening: &Opening,
    boxes: &DrawerBoxes,
    made: &Made,
    space: &inside::Space,
) {
    let Some(depth) = Depth::of(builder, opening, made) else { return };
    let Some(free) = &opening.on_wood else { return };
    let own = Own { opening, boxes, depth: &depth, free };
    for (index, side) in Side::BOTH.into_iter().enumerate() {
        guide(builder, &own, made, side, space);
        let floor = builder.part(made.sides[index]).map(Part::cuboid).and_then(|box_side| {
            let middle = |way| (box_side.from.along(way) + box_side.to.along(way)).half();
            floor(builder, opening, (middle(Direction::X), middle(Direction::Z)))
        });
        let runner = floor.and_then(|floor| runner(builder, &own, side, floor));
        if let Some(carrier) = runner.or(floor) {
            builder.join(JointSort::Slid, made.sides[index], carrier, false, opening.span);
        }
        kicker(builder, &own, side);
        stop(builder, &own, made, side);
    }
}

/// A drawer, and how far back its strips run.
struct Own<'a> {
    opening: &'a Opening,
    boxes: &'a DrawerBoxes,
    depth: &'a Depth,
    free: &'a OnWood,
}

/// Where the strips of a drawer begin and end.
struct Depth {
    from: Size,
    long: Size,
}

impl Depth {
    /// From the front of the case's boards, or behind doors from the front of the drawer, to
    /// the rear of the box.
    fn of(builder: &Builder<'_>, opening: &Opening, made: &Made) -> Option<Self> {
        let from = behind_doors(builder, opening).unwrap_or_else(|| builder.planes.carcass.clone());
        let long = builder.part(made.sides[0])?.side(Direction::Z, true) - &from;
        Some(Self { from, long })
    }
}

/// True for a board that lies in the case.
fn lies(part: &Part) -> bool {
    match part.role {
        Role::Bottom
        | Role::Top
        | Role::Stretcher
        | Role::FixedShelf
        | Role::Divider
        | Role::WebRail
        | Role::WebRunner => part.placement.thickness == Direction::Y,
        _ => false,
    }
}

/// The nearest board under the lower edge of an opening, where it lies below this place: a
/// web frame has none between its rails and runners.
fn floor(builder: &Builder<'_>, opening: &Opening, (x, z): (Length, Length)) -> Option<PartId> {
    let covers = |part: &Part, direction, at| {
        let (from, to) = part.extent(direction);
        from < at && at < to
    };
    let top = |part: &Part| part.extent(Direction::Y).1;
    let middle = builder.case.x + opening.x + opening.wide.length.half();
    let under =
        || builder.own().filter(|(_, part)| lies(part) && part.extent(Direction::Y).0 < opening.y);
    let nearest = under().filter(|(_, part)| covers(part, Direction::X, middle));
    let nearest = nearest.map(|(_, part)| top(part)).max()?;
    let mut level = under().filter(|(_, part)| top(part) == nearest);
    let found =
        level.find(|(_, part)| covers(part, Direction::X, x) && covers(part, Direction::Z, z));
    found.map(|(id, _)| id)
}

/// The nearest boards over the upper edge of an opening, all at one height, that lie
/// over this stretch.
fn ceiling(builder: &Builder<'_>, top: Length, x: (Length, Length)) -> Vec<PartId> {
    let over = |part: &Part| {
        let (from, to) = part.extent(Direction::X);
        lies(part) && from < x.1 && x.0 < to && part.extent(Direction::Y).0 >= top
    };
    let height = |part: &Part| part.extent(Direction::Y).0;
    let nearest = builder.own().filter(|(_, part)| over(part)).map(|(_, part)| height(part)).min();
    let own = builder.own().filter(|(_, part)| over(part) && Some(height(part)) == nearest);
    let (runners, boards): (Vec<(PartId, &Part)>, _) =
        own.partition(|(_, part)| part.role == Role::WebRunner);
    // Under a web frame a strip lies along a runner, and only crosses the rails.
    let own = if runners.is_empty() { boards } else { runners };
    own.into_iter().map(|(id, _)| id).collect()
}

/// A strip is glued to a sheet, and to solid wood whose grain runs along it; other solid
/// wood moves under it, and it is screwed to that through slots.
fn fix(builder: &mut Builder<'_>, own: &Own<'_>, strip: PartId, to: PartId) {
    let across = |board: &&Part| board.placement.length != Direction::Z;
    let board = builder.part(to).filter(across);
    let moves =
        board.and_then(|board| builder.piece.stock(board.stock)).is_some_and(Stock::is_solid);
    let kind = if moves { JointKind::Screw } else { JointKind::Butt };
    builder.join(JointSort::Wood(kind), strip, to, !moves, own.boxes.span);
}

/// A part of the drawer that stays in the case.
struct Strip {
    role: Role,
    side: Side,
    /// Along its length, width, and thickness.
    size: [Size; 3],
    stands: [Size; 3],
    axes: [Direction; 3],
    show: Option<Face>,
}

fn add(builder: &mut Builder<'_>, own: &Own<'_>, strip: Strip) -> PartId {
    let [length, width, thickness] = strip.size;
    builder.add(Draft {
        of: Of::Opening(own.opening.id),
        which: Which::At(strip.side),
        role: strip.role,
        assembly: Assembly::Loose(builder.id),
        stock: own.boxes.packer_stock,
        length,
        width,
        thickness: Some(thickness),
        stands: strip.stands,
        axes: strip.axes,
        show: strip.show,
        span: own.boxes.span,
        notes: Vec::new(),
    })
}

/// A strip from the board beside the opening to its edge, where they are apart.
fn guide(builder: &mut Builder<'_>, own: &Own<'_>, made: &Made, side: Side, space: &inside::Space) {
    let opening = own.opening;
    let index = usize::from(side == Side::Right);
    let beside = builder.part(space.boards[index]).map(|board| board.role);
    if matches!(beside, Some(Role::Post(_))) {
        match builder.case.bare_stile(opening, side) {
            Some(shared) => behind_stile(builder, own, side, &shared),
            None => between_posts(builder, own, side),
        };
        return;
    }
    let off = opening.grown(Axis::Across).half();
    // Past the edge of its opening it keeps the drawer clear of the open doors.
    let clear = &opening.clear[index];
    let thickness = &space.packing[index] + clear - &off;
    if !thickness.length.is_positive() {
        return;
    }
    let x = match side {
        Side::Left => &opening.stands[0] - &space.packing[index],
        Side::Right => &opening.stands[0] + &opening.wide + &off - clear,
    };
    let high = builder.part(made.sides[index]).map(|side| side.width.clone()).unwrap_or_default();
    let usual = own.free.strip.clone();
    let high = if high.length < usual.length { high } else { usual };
    let strip = Strip {
        role: Role::Guide,
        side,
        size: [own.depth.long.clone(), high, thickness],
        stands: Builder::stands(x, &opening.stands[1], &own.depth.from),
        axes: SIDEWAYS,
        show: None,
    };
    let id = add(builder, own, strip);
    fix(builder, own, id, space.boards[index]);
}

/// A guide beside a drawer between posts: from the front post to the back one, flush with
/// their inside faces.
fn between_posts(builder: &mut Builder<'_>, own: &Own<'_>, side: Side) -> Option<PartId> {
    let front = posts::find(builder, side, Which::Front).and_then(|id| builder.part(id));
    let from = front?.side(Direction::Z, true);
    before_post(builder, own, side, (&posts::recess(builder, side), &from))
}

/// A guide behind a stile that no board stands behind: as thick as one beside a post, where
/// the stile has room for that.
fn behind_stile(
    builder: &mut Builder<'_>,
    own: &Own<'_>,
    side: Side,
    room: &Size,
) -> Option<PartId> {
    let usual = posts::recess(builder, side);
    let wide = if usual.length < room.length { &usual } else { room };
    before_post(builder, own, side, (wide, &own.depth.from))
}

/// A guide that is so wide with the play of its drawer, from a place to the back post, on the
/// board that the drawer runs on.
fn before_post(
    builder: &mut Builder<'_>,
    own: &Own<'_>,
    side: Side,
    (wide, from): (&Size, &Size),
) -> Option<PartId> {
    let opening = own.opening;
    let off = opening.grown(Axis::Across).half();
    let clear = side.of(&opening.clear);
    let thickness = wide + clear - &off;
    let back = posts::find(builder, side, Which::Back).and_then(|id| builder.part(id));
    let post_at = back?.side(Direction::Z, false);
    let ends = &own.depth.from + &own.depth.long;
    let to = if ends.length < post_at.length { ends } else { post_at };
    let x = match side {
        Side::Left => &opening.stands[0] - wide,
        Side::Right => &opening.stands[0] + &opening.wide + &off - clear,
    };
    let middle = (x.length + thickness.length.half(), (from.length + to.length).half());
    let floor = floor(builder, opening, (builder.case.x + middle.0, middle.1))?;
    let y = builder.part(floor)?.side(Direction::Y, true);
    let high = &own.free.strip + &opening.stands[1] - &y;
    let strip = Strip {
        role: Role::Guide,
        side,
        size: [&to - from, high, thickness],
        stands: Builder::stands(x, y, from),
        axes: SIDEWAYS,
        show: None,
    };
    let id = add(builder, own, strip);
    fix(builder, own, id, floor);
    Some(id)
}

/// Where a strip over or under a side of the box begins: at the edge of the opening, or of
/// what the open doors leave of it.
fn strip_x(opening: &Opening, side: Side, wide: &Size) -> Size {
    let off = opening.grown(Axis::Across).half();
    let clear = side.of(&opening.clear);
    match side {
        Side::Left => &opening.stands[0] - off + clear,
        Side::Right => &opening.stands[0] + &opening.wide + off - clear - wide,
    }
}

/// A strip on the board below, where that lies lower than the opening.
fn runner(builder: &mut Builder<'_>, own: &Own<'_>, side: Side, floor: PartId) -> Option<PartId> {
    let unit = builder.piece.tape().unit;
    let top = builder.part(floor)?.side(Direction::Y, true);
    let high = &own.opening.stands[1] - &top;
    if high.length < trade::thinnest_strip(unit) {
        return None;
    }
    let wide = own.free.strip.clone();
    let x = strip_x(own.opening, side, &wide);
    let strip = Strip {
        role: Role::Runner,
        side,
        size: [own.depth.long.clone(), wide, high],
        stands: Builder::stands(x, top, &own.depth.from),
        axes: INWARD,
        show: Some(Face::ThickEnd),
    };
    let id = add(builder, own, strip);
    fix(builder, own, id, floor);
    Some(id)
}

/// A strip under the boards above, where they lie higher than the opening.
fn kicker(builder: &mut Builder<'_>, own: &Own<'_>, side: Side) {
    let unit = builder.piece.tape().unit;
    let top = &own.opening.stands[1] + own.opening.as_built(Axis::Down);
    let wide = own.free.strip.clone();
    let x = strip_x(own.opening, side, &wide);
    let from = builder.case.x + x.length;
    let above = ceiling(builder, top.length, (from, from + wide.length));
    let Some(under) =
        above.first().and_then(|id| builder.part(*id)).map(|part| part.side(Direction::Y, false))
    else {
        return;
    };
    let high = under - &top;
    if high.length < trade::thinnest_strip(unit) {
        return;
    }
    let strip = Strip {
        role: Role::Kicker,
        side,
        size: [own.depth.long.clone(), wide, high],
        stands: Builder::stands(x, top, &own.depth.from),
        axes: INWARD,
        show: Some(Face::ThickStart),
    };
    let id = add(builder, own, strip);
    for board in above {
        fix(builder, own, id, board);
    }
}

/// A block on the board below, behind the front of the box: an inset front stops flush.
fn stop(builder: &mut Builder<'_>, own: &Own<'_>, made: &Made, side: Side) {
    let [long, wide, most] = own.free.stop.clone();
    let inset = own.opening.front.as_ref().is_some_and(|front| front.set == Set::Inset);
    let parts = [made.front, made.bottom, made.sides[0], made.sides[1]];
    let [Some(front), Some(bottom), Some(left), Some(right)] = parts.map(|id| builder.part(id))
    else {
        return;
    };
    let under = bottom.side(Direction::Y, false) - &own.opening.stands[1];
    let room = under - &own.free.over_stop;
    let over = if most.length < room.length { most } else { room };
    if !inset || over.length < own.free.over_stop.length {
        return;
    }
    let (from, to) = (left.side(Direction::X, false), right.side(Direction::X, true));
    let quarter = (&to - &from) / 4;
    let middle = match side {
        Side::Left => from + quarter,
        Side::Right => to - quarter,
    };
    let z = front.side(Direction::Z, true);
    let Some((floor, below)) = floor(builder, own.opening, (middle.length, z.length))
        .and_then(|id| Some((id, builder.part(id)?)))
    else {
        return;
    };
    let top = below.side(Direction::Y, true);
    let high = &own.opening.stands[1] - &top + over;
    // On the front rail of a web frame it ends with that.
    let room = below.side(Direction::Z, true) - &z;
    if room.length < trade::shortest_stop(builder.piece.tape().unit) {
        return;
    }
    let long = if long.length < room.length { long } else { room };
    let x = middle - wide.half() - &builder.case.beside;
    let strip = Strip {
        role: Role::Stop,
        side,
        size: [long, wide, high],
        stands: Builder::stands(x, top, z),
        axes: INWARD,
        show: Some(Face::ThickEnd),
    };
    let id = add(builder, own, strip);
    builder.join(JointSort::Wood(JointKind::Butt), id, floor, true, own.boxes.span);
}
