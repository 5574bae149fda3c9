//! The blocks that hold a false front: one at each side of its opening, behind its back.

use crate::measure::{Length, Unit, between};
use crate::model::{Holding, JointKind, Side, Size};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::Face;

use super::builder::{Builder, Draft, STANDING, UPRIGHT};
use super::carcass::Carcass;
use super::front::Front;
use super::fronts::front_z;
use super::{hinging, inside};

/// The least of an edge that a block lies against: 1/2 in, 12 mm (common practice, no
/// source).
fn least(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}

/// How wide a block is that lies behind a front between the sides of a case without a frame:
/// 1-1/2 in, 38 mm, so that a right-angle driver gets at its screws beside the board that it
/// is fixed to (common practice, no source).
fn beside_board(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// How long a block is in a high opening: half as long as that is high and at least 6 in,
/// 150 mm, which holds a front as well and goes in past a nailer (common practice, no source).
fn long_enough(high: &Size, unit: Unit) -> Size {
    let least = Size::from(unit.either(Length::inches(6, 1), Length::mm(150)));
    let half = high.half();
    if half.length > least.length { half } else { least }
}

/// Where the block at one side is fixed, and how far it reaches past the edge of the
/// opening there.
struct Held {
    on: PartId,
    past: Size,
    /// It lies flat on the back of a stile, and not against a side of its board.
    flat: bool,
    /// The plane of its front, from the foremost face of the case.
    front: Size,
    /// How far behind that plane what it is fixed to begins.
    ahead: Size,
}

/// Adds the blocks of a false front, and fixes it to them: `sides` are the boards of the
/// front at its left and right. Nothing where no wood is beside it.
pub(super) fn build(
    builder: &mut Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    sides: [PartId; 2],
) {
    let Some(sizes) = builder.piece.holding.clone() else { return };
    for side in Side::BOTH {
        let Some(held) = held(builder, carcass, leaf, (side, &sizes.thick)) else { continue };
        let block = block(builder, leaf, (side, &sizes), &held);
        builder.join(JointSort::FrontFixed, *side.of(&sides), block, false, leaf.opening.span);
    }
}

fn held(
    builder: &Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    (side, thick): (Side, &Size),
) -> Option<Held> {
    let unit = builder.piece.tape().unit;
    let (beside, _) = hinging::beside(builder, leaf, side)?;
    let back = front_z(builder, leaf) + builder.thickness(leaf.fronts.stock);
    let stands = builder.part(beside)?;
    let (from, rear) = (stands.cuboid().from.z, stands.cuboid().to.z);
    let wide = stands.width.clone();
    let is_stile = stands.assembly == Assembly::Frame(builder.id);
    // Wood that stands on behind the front, flush with the edge of the opening.
    if rear - back.length.max(from) >= least(unit) {
        // A board of the case begins behind the frame.
        let ahead = match from > back.length {
            true => &builder.planes.carcass - &back,
            false => Size::zero(),
        };
        let past = Size::zero();
        return Some(Held { on: beside, past, flat: false, front: back, ahead });
    }
    if !is_stile {
        return None;
    }
    let space = inside::space(builder, leaf.opening, carcass);
    let index = usize::from(side == Side::Right);
    let (board, packing) = (space.boards[index], space.packing[index].clone());
    let behind = &builder.planes.carcass;
    let is_bare = packing.length > wide.length;
    if rear >= back.length && (is_bare || packing.length >= thick.length) {
        let half = wide.half();
        let past = if half.length < thick.length { half } else { thick.clone() };
        let front = behind.clone();
        return Some(Held { on: beside, past, flat: true, front, ahead: Size::zero() });
    }
    let front = if behind.length > back.length { behind.clone() } else { back };
    let held = Held { on: board, past: packing, flat: false, front, ahead: Size::zero() };
    (!is_bare).then_some(held)
}

fn block(
    builder: &mut Builder<'_>,
    leaf: &Front<'_>,
    (side, sizes): (Side, &Holding),
    held: &Held,
) -> PartId {
    let opening = leaf.opening;
    // Of a sheet it is as thick as that.
    let stock = builder.case.frame.as_ref().map_or(leaf.fronts.stock, |frame| frame.stock);
    let sheet = builder.piece.stock(stock).is_some_and(|stock| !stock.is_solid());
    let deep = if sheet { builder.thickness(stock) } else { sizes.thick.clone() };
    let lies = builder.case.frame.is_none();
    let over = match lies {
        true => Size::from(beside_board(builder.piece.tape().unit)),
        false => deep.clone(),
    };
    // Two share a very narrow opening.
    let half = opening.wide.half();
    let over = if half.length < over.length { half } else { over };
    let across = &over + &held.past;
    let x = match side {
        Side::Left => &opening.stands[0] - &held.past,
        Side::Right => &opening.stands[0] + &opening.wide - &over,
    };
    let whole = &opening.high - &sizes.play;
    let enough = long_enough(&opening.high, builder.piece.tape().unit);
    let high = if whole.length > enough.length { enough } else { whole };
    let full = (&opening.stands[1] + (&opening.high - &high).half(), high);
    let box_x = (builder.case.x + x.length, builder.case.x + x.length + across.length);
    let reach = if held.flat { deep.length } else { deep.length + held.ahead.length };
    let box_z = (held.front.length, held.front.length + reach);
    let (y, long) = clear_of_boards(builder, full, (box_x, box_z), &sizes.play);
    let (axes, width, thickness, show) = match held.flat || lies {
        true => (STANDING, across, deep, Face::ThickEnd),
        false => (
            UPRIGHT,
            &deep + &held.ahead,
            across,
            if side == Side::Left { Face::ThickEnd } else { Face::ThickStart },
        ),
    };
    let id = builder.add(Draft {
        of: Of::Opening(opening.id),
        which: Which::At(side),
        role: Role::HoldingBlock,
        assembly: Assembly::Loose(builder.id),
        stock,
        length: long,
        width,
        thickness: Some(thickness),
        stands: Builder::stands(x, y, held.front.clone()),
        axes,
        show: Some(show),
        span: opening.span,
        notes: Vec::new(),
    });
    builder.join(JointSort::Wood(JointKind::Screw), id, held.on, true, opening.span);
    id
}

/// From and to.
type Range = (Length, Length);

/// From where and how long a block stands: over all of the stretch that it is given, or where
/// a shelf of its neighbor runs on behind the opening, over the longest part of that.
fn clear_of_boards(
    builder: &Builder<'_>,
    (y, long): (Size, Size),
    (x, z): (Range, Range),
    play: &Size,
) -> (Size, Size) {
    let meets = |one: Range, other: Range| one.0 < other.1 && other.0 < one.1;
    let (from, to) = (y.length, y.length + long.length);
    let taken: Vec<Range> = builder
        .own()
        .map(|(_, part)| part.cuboid())
        .filter(|own| meets((own.from.x, own.to.x), x) && meets((own.from.z, own.to.z), z))
        .filter(|own| meets((own.from.y, own.to.y), (from, to)))
        .map(|own| (own.from.y - play.length, own.to.y + play.length))
        .collect();
    if taken.is_empty() {
        return (y, long);
    }
    let longest =
        |best: Range, own: Range| if own.1 - own.0 > best.1 - best.0 { own } else { best };
    let best = between((from, to), taken).into_iter().fold((from, from), longest);
    (Size::from(best.0), Size::from_terms(best.1 - best.0, Vec::new()))
}
