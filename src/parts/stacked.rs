//! Where a case that stands on another one is screwed down on it, through its bottom.

use crate::measure::{Length, Unit, between};
use crate::model::{Case, CaseId, Climate, Piece};
use crate::trade;

use super::feature::FeatureKind;
use super::id::{PartId, Role};
use super::joint::Joint;
use super::part::{Assembly, Part, Parts};
use super::screw_rows::{bays, screw_rows};
use super::space::{Cuboid, Direction};

/// A row of screws down through the bottom of a case into what it stands on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StackRow {
    /// The bottom.
    pub bottom: PartId,
    /// The board that they go into.
    pub into: PartId,
    /// How far behind the foremost face of the piece they are.
    pub z: Length,
    /// Where they are, from the left side of the piece, bay by bay between the uprights
    /// over the bottom.
    pub screws: Vec<Vec<Length>>,
    /// How long the slots in the bottom are, up to a mark of the tape; `None` where they
    /// are round holes.
    pub slot: Option<Length>,
}

impl Parts {
    /// True for a joint by which a case stands on another.
    #[must_use]
    pub fn stacks(&self, joint: &Joint) -> bool {
        let both = self.get(joint.part).zip(self.get(joint.into));
        both.is_some_and(|(part, into)| part.role == Role::Bottom && part.case != into.case)
    }
}

impl StackRow {
    /// How many screws.
    #[must_use]
    pub fn count(&self) -> u32 {
        u32::try_from(self.screws.iter().map(Vec::len).sum::<usize>()).unwrap_or(u32::MAX)
    }
}

/// The bottom of a case that stands on another, where it lies on what that ends with.
#[must_use]
pub fn stack_bottom<'p>(parts: &'p Parts, upper: &Case) -> Option<(PartId, &'p Part)> {
    let up = upper.on.as_ref()?.up.length;
    let mut own = parts.iter_case(upper.id);
    own.find(|(_, part)| part.role == Role::Bottom && part.extent(Direction::Y).0 == up)
}

/// The place that a case takes on what it stands on.
#[must_use]
pub fn footprint(parts: &Parts, upper: &Case) -> Option<Cuboid> {
    let up = upper.on.as_ref()?.up.length;
    let own = parts.of_case(upper.id).iter().map(Part::cuboid);
    own.filter(|space| space.from.y == up).reduce(|all, space| all.union(&space))
}

/// The boards that a case which stands on another comes down on: the countertop there, or
/// else whatever ends at that height under a board of its own. A thin back carries nothing.
#[must_use]
pub fn stack_rests(piece: &Piece, parts: &Parts, upper: &Case) -> Vec<PartId> {
    let Some(up) = upper.on.as_ref().map(|on| on.up.length) else { return Vec::new() };
    let own = parts.of_case(upper.id).iter().map(Part::cuboid);
    let feet: Vec<Cuboid> = own.filter(|space| space.from.y == up).collect();
    let rests = |part: &Part| {
        let fixed = match part.assembly {
            Assembly::Carcass(_) | Assembly::Frame(_) | Assembly::Countertop(_) => true,
            Assembly::Base(_)
            | Assembly::Front(_)
            | Assembly::DrawerBox(_)
            | Assembly::Filler(..)
            | Assembly::Loose(_) => false,
        };
        let own = part.cuboid();
        let meets = |foot: &Cuboid| {
            [Direction::X, Direction::Z].into_iter().all(|side| own.overlaps_along(foot, side))
        };
        fixed && part.role != Role::Back && own.to.y == up && feet.iter().any(meets)
    };
    below(piece, parts, upper).filter(|(_, part)| rests(part)).map(|(id, _)| id).collect()
}

/// The parts of the cases under one that stands on others, and the countertop over them.
fn below<'p>(
    piece: &Piece,
    parts: &'p Parts,
    upper: &Case,
) -> impl Iterator<Item = (PartId, &'p Part)> + use<'p> {
    // A countertop over several cases is counted with the first of them.
    let with_top = |case: &Case| [piece.top_over(case.id).map(|top| top.row.first), Some(case.id)];
    let mut cases: Vec<CaseId> = piece.cases_below(upper).flat_map(with_top).flatten().collect();
    cases.sort_unstable();
    cases.dedup();
    cases.into_iter().flat_map(|case| parts.iter_case(case))
}

/// The boards under a case that stands on another: the countertop there, or else the tops
/// and stretchers.
#[must_use]
pub fn stack_carriers<'p>(
    piece: &Piece,
    parts: &'p Parts,
    upper: &Case,
) -> Vec<(PartId, &'p Part)> {
    let Some(above) = footprint(parts, upper) else { return Vec::new() };
    let lies = |part: &Part| {
        let own = part.cuboid();
        matches!(part.role, Role::Countertop | Role::Top | Role::Stretcher)
            && own.to.y == above.from.y
            && [Direction::X, Direction::Z]
                .into_iter()
                .all(|side| own.overlap_along(&above, side).is_positive())
    };
    below(piece, parts, upper).filter(|(_, part)| lies(part)).collect()
}

/// The rows of a case that stands on another, from the front back: near the back edge of
/// its bottom, where they show least, and near the front edge too where no wall holds it;
/// over stretchers along their middle. Over solid wood they go through slots, so that it
/// can move under a case that does not; where the piece stands free, the front row holds.
#[must_use]
pub fn stack_rows(piece: &Piece, parts: &Parts, upper: &Case) -> Vec<StackRow> {
    let Some((id, bottom)) = stack_bottom(parts, upper) else { return Vec::new() };
    let unit = piece.tape().unit;
    let own: Vec<(PartId, &Part)> = parts.iter_case(upper.id).collect();
    let above = bottom.cuboid();
    let bays = bays(&own, (id, bottom), false);
    let mut rows = Vec::new();
    for (into, part) in stack_carriers(piece, parts, upper) {
        let space = part.cuboid();
        let (from, to) = (space.from.z.max(above.from.z), space.to.z.min(above.to.z));
        // A narrower strip of it holds no screw.
        if to - from < trade::from_cut(unit).twice() {
            continue;
        }
        let places = match part.role {
            Role::Stretcher => vec![(from + to).half()],
            _ => {
                let edge = trade::row_from_edge(unit).min((to - from) / 4);
                let front = (!piece.site.fixed).then_some(from + edge);
                front.into_iter().chain([to - edge]).collect()
            }
        };
        let over = bays.iter().map(|bay| (bay.0.max(space.from.x), bay.1.min(space.to.x)));
        // Beside an upright the driver needs its room.
        let lap = |bay: &(Length, Length)| bay.1 - bay.0 >= trade::driver_wide(unit);
        let over: Vec<(Length, Length)> = over.filter(lap).collect();
        let held = held(piece, parts, part).or(places.first().copied());
        let row = |z| {
            let slot = held.and_then(|held| slot(piece, part, (z, held)));
            let mut cuts = [cuts(part, z, unit), cuts(bottom, z, unit)].concat();
            cuts.sort_unstable();
            let screws = over.iter().flat_map(|bay| in_wood(*bay, &cuts, unit)).collect();
            StackRow { bottom: id, into, z, screws, slot }
        };
        rows.extend(places.into_iter().map(row).filter(|row| row.count() > 0));
    }
    rows.sort_by_key(|row| row.z);
    rows
}

/// What is cut out of a board where screws come down through or into it, from and to along
/// the piece.
fn cuts(part: &Part, z: Length, unit: Unit) -> Vec<(Length, Length)> {
    let (beside, deep) = (trade::from_cut(unit), trade::countertop_bite(unit).1);
    let low = part.extent(Direction::Y).1 - deep;
    // The slots of the bottom are made for these screws.
    let features = part.features.iter().filter(|own| own.kind != FeatureKind::Slot);
    let hollows = features.flat_map(|own| part.hollows(own));
    let meets = |own: &Cuboid| low < own.to.y && own.from.z - beside < z && z < own.to.z + beside;
    hollows.filter(meets).map(|own| (own.from.x, own.to.x)).collect()
}

/// The screws of a bay: evenly along it, or where one of them would come down into a cut,
/// along each stretch between the cuts.
fn in_wood(bay: (Length, Length), cuts: &[(Length, Length)], unit: Unit) -> Vec<Vec<Length>> {
    let beside = trade::from_cut(unit);
    let even = trade::countertop_screws(bay, false, unit);
    let is_cut = |at: &Length| cuts.iter().any(|cut| cut.0 - beside < *at && *at < cut.1 + beside);
    if !even.iter().any(is_cut) {
        return vec![even];
    }
    let stretches = between(bay, cuts.iter().copied());
    let wide = stretches.into_iter().filter(|(from, to)| *to - *from > beside.twice());
    wide.map(|stretch| trade::countertop_screws(stretch, false, unit)).collect()
}

/// The line across which a countertop of solid wood stands still while the case over it
/// is fixed to the wall: that of its own screws.
fn held(piece: &Piece, parts: &Parts, part: &Part) -> Option<Length> {
    let top = piece.top_over(part.case).filter(|_| part.role == Role::Countertop)?;
    let rows = screw_rows(piece, top, &parts.under(top));
    rows.iter().find(|row| row.slot.is_none() && piece.site.fixed).map(|row| row.z)
}

/// The slot that solid wood asks for so far from where it is held; `None` for sheets, and
/// for the row that holds it.
fn slot(piece: &Piece, part: &Part, (z, held): (Length, Length)) -> Option<Length> {
    let stock = piece.stock(part.stock).filter(|stock| stock.is_solid() && z != held)?;
    let moves = Climate::of(piece).swelling(stock, (z - held).abs());
    let most = moves.driest.abs().max(moves.dampest.abs());
    Some(piece.tape().up(trade::slot_long(most, piece.tape().unit)))
}
