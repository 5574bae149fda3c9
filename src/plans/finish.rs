//! The surface that a finish goes on, and how much of it a coat takes.
//!
//! A face that comes with a finish is left out, and so is one of a sheet that nobody sees
//! and that needs no finish to stay flat: the wall side of a back and of an end in a piece
//! that is fixed there, and the underside of a drawer bottom (common practice, no source).
//! Solid wood is coated on all its faces, or it cups.
//!
//! Counted: every face and edge that air reaches, with the curve of its flutes;
//! of the fronts both faces, of the cases the inside too. What parts that stay
//! together cover of each other is left out, and so are packers and hinge
//! blocks. A joint is taken as its box: a shoulder beside a tenon is covered.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Duration, Exact, Length, Tape};
use crate::model::{CaseId, Exposure, Finish, FinishId, FrontId, OpeningId, Piece, Side, Stock};
use crate::parts::{Assembly, Direction, Face, FeatureKind, Part, PartId, Parts, Role, cover_of};
use crate::trade;

/// What is coated, in the order it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Coated {
    /// Carcasses, frames, bases, and backs.
    Cases,
    /// Face frames that have another finish than their case.
    Frames,
    /// Doors, drawer fronts, and false fronts.
    Fronts,
    /// Drawer boxes.
    Boxes,
    /// Shelves that lie on pins.
    Shelves,
    /// Both faces of countertops.
    Countertops,
    /// Both faces of covers, which go on where the piece stands.
    Covers,
}

impl Coated {
    const ALL: [Self; 7] = [
        Self::Cases,
        Self::Frames,
        Self::Fronts,
        Self::Boxes,
        Self::Shelves,
        Self::Countertops,
        Self::Covers,
    ];

    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Cases => "case",
            Self::Frames => "frame",
            Self::Fronts => "fronts",
            Self::Boxes => "drawer boxes",
            Self::Shelves => "loose shelves",
            Self::Countertops => "countertop",
            Self::Covers => "covers",
        }
    }
}

/// What stays together when the piece is taken apart to be finished.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Unit {
    Case(CaseId),
    Front(FrontId),
    Box(OpeningId),
    Shelf(PartId),
    Countertop(PartId),
    Cover(PartId),
}

/// Square meters of each sort.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Surface(Vec<(Coated, f64)>);

impl Surface {
    /// Square meters of everything.
    #[must_use]
    pub fn whole(&self) -> f64 {
        self.0.iter().map(|(_, area)| area).sum()
    }

    /// What there is of each sort.
    pub fn sorts(&self) -> impl Iterator<Item = (Coated, f64)> {
        self.0.iter().copied().filter(|(_, area)| *area > 0.0)
    }
}

/// Square feet in a square meter.
const SQUARE_FEET: f64 = 1.0 / (0.3048 * 0.3048);

/// Liters in a quart of the United States, and milliliters in its fluid ounce.
const QUART: f64 = 0.946_352_946;
const OUNCE: f64 = QUART * 1000.0 / 32.0;

/// Areas as they are printed, and what they come to: each is rounded for itself, to a
/// tenth of a square meter or to a square foot, so that the same boards have the same
/// figure at every coat; the sum is that of the printed figures.
#[must_use]
pub fn added(tape: &Tape, areas: &[f64]) -> (Vec<String>, String) {
    let parts = if tape.unit.is_metric() { 10.0 } else { SQUARE_FEET };
    let rounded: Vec<f64> = areas.iter().map(|area| (area * parts).round()).collect();
    let whole: f64 = rounded.iter().sum();
    match tape.unit.is_metric() {
        true => {
            let text = |tenths: f64| format!("{:.1}", tenths / 10.0);
            (rounded.iter().map(|own| text(*own)).collect(), format!("{} m2", text(whole)))
        }
        false => {
            let own = rounded.iter().map(|own| format!("{own:.0}")).collect();
            (own, format!("{whole:.0} sq ft ({:.1} m2)", areas.iter().sum::<f64>()))
        }
    }
}

/// `7.5 m2`, in an inch job with square feet before it.
#[must_use]
pub fn told(tape: &Tape, square_meters: f64) -> String {
    added(tape, &[square_meters]).1
}

/// What a liter covers, in square meters to a tenth, `9 m2`, `8.5 m2`; in an inch job what
/// a quart covers, in square feet rounded down to tens, unless the spec says it in meters.
#[must_use]
pub fn covering(tape: &Tape, square_meters: Exact, is_written: bool) -> String {
    if in_quarts(tape, is_written) {
        let feet = square_meters.to_f64() * SQUARE_FEET * QUART;
        return format!("{:.0} sq ft", (feet / 10.0).floor() * 10.0);
    }
    let tenths = (square_meters * Exact::int(10)).round();
    match tenths % 10 {
        0 => format!("{} m2", tenths / 10),
        tenth => format!("{}.{tenth} m2", tenths / 10),
    }
}

/// True where a coverage is told of a quart.
#[must_use]
pub fn in_quarts(tape: &Tape, is_written: bool) -> bool {
    !tape.unit.is_metric() && !is_written
}

/// So many milliliters; in an inch job with fluid ounces before them, or from 1-1/2 quarts
/// on with quarts.
#[must_use]
pub fn measured_out(tape: &Tape, milliliters: i64) -> String {
    if tape.unit.is_metric() {
        return format!("{milliliters} ml");
    }
    let ounces = milliliters as f64 / OUNCE;
    match ounces > 48.0 {
        true => format!("{:.1} quarts ({milliliters} ml)", (ounces / 3.2).ceil() / 10.0),
        false => format!("{:.0} fl oz ({milliliters} ml)", ounces.ceil()),
    }
}

/// One coat on so much surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Coat {
    /// Milliliters, with what stays in brush and rag; `None` where neither the
    /// spec nor any table says what a liter covers.
    pub milliliters: Option<f64>,
    /// Square meters a liter.
    pub covers: Option<Exact>,
    /// Square meters that it goes on.
    pub area: f64,
    /// How long it takes to put on.
    pub time: Duration,
    /// How often it is mixed anew, so that each lot is used up within its pot
    /// life.
    pub lots: i64,
    /// Milliliters of both parts in each lot.
    pub each: Option<(i64, i64)>,
}

impl Coat {
    /// Milliliters to have at hand, up to the next ten; what is mixed comes to it.
    #[must_use]
    pub fn at_hand(&self) -> Option<i64> {
        let whole = (self.milliliters? / 10.0).ceil() as i64 * 10;
        Some(self.each.map_or(whole, |(one, other)| (one + other) * self.lots))
    }

    /// One coat of a finish. What the spec says of it goes first; else the lower
    /// figure for its kind, which never leaves a front half done.
    #[must_use]
    pub fn of(finish: &Finish, square_meters: f64) -> Self {
        let usual = trade::finish_named(finish.kind.slug()).map(|good| good.covers.0);
        let usual = usual.filter(|covers| *covers > 0).map(|covers| Exact::int(covers.into()));
        let covers = finish.covers.or(usual);
        let milliliters = covers.and_then(|covers| trade::finish_needed(square_meters, covers));
        let time = trade::coating_time(square_meters);
        let life = finish.pot_life.filter(|life| life.0.is_positive());
        let lots = life.map_or(1, |life| (time.0 / life.0).ceil().clamp(1, 100));
        let each = finish.mix.zip(milliliters);
        let each = each.map(|(mix, whole)| trade::mixed(whole / lots as f64, mix));
        Self { milliliters, covers, area: square_meters, time, lots, each }
    }
}

/// A part in space, in millimeters.
struct Body {
    from: [f64; 3],
    to: [f64; 3],
    unit: Unit,
    sort: Coated,
    /// What flutes add to it and notches take away, in square millimeters.
    more: f64,
    /// The faces that no finish goes on, by axis and whether the axis ends there.
    uncoated: [[bool; 2]; 3],
}

/// The finish of a part: what its own block names, else that of its case.
#[must_use]
pub fn of_part(piece: &Piece, part: &Part) -> Option<FinishId> {
    let case = piece.case(part.case)?;
    let of_frame = || case.frame.as_ref().and_then(|frame| frame.finish);
    let own = match (part.role, part.assembly) {
        (Role::Cover, _) => cover_of(case, part).and_then(|cover| cover.finish),
        // Posts are its stiles, and the rails and panels between them go with them.
        (Role::Post(_) | Role::EndRail(_) | Role::EndPanel(_), _) => of_frame(),
        (_, Assembly::Front(front)) => {
            piece.opening(front.opening).and_then(|opening| opening.front.as_ref()?.finish)
        }
        (_, Assembly::DrawerBox(_)) => case.drawers.as_ref().and_then(|boxes| boxes.finish),
        (_, Assembly::Countertop(_)) => piece.top_over(case.id).and_then(|top| top.spec.finish),
        (_, Assembly::Frame(_) | Assembly::Filler(..)) => of_frame(),
        (_, Assembly::Base(_) | Assembly::Carcass(_) | Assembly::Loose(_)) => None,
    };
    own.or(case.finish)
}

/// The finishes that parts of the piece have, in the order in which the spec describes
/// them.
#[must_use]
pub fn used<'p>(piece: &'p Piece, parts: &Parts) -> Vec<(FinishId, &'p Finish)> {
    let own: BTreeSet<FinishId> =
        parts.all.iter().filter_map(|part| of_part(piece, part)).collect();
    own.into_iter().filter_map(|id| Some((id, piece.finish(id)?))).collect()
}

/// The surface of the parts with this finish, but for those left out.
pub fn surface(piece: &Piece, parts: &Parts, finish: FinishId, left_out: &[PartId]) -> Surface {
    surface_of(piece, parts, |part| of_part(piece, part) == Some(finish), left_out)
}

/// The square meters that are sanded when all is taken apart: the insides of cases and
/// boxes, about half of their surface, were sanded before they were glued up.
pub fn sanded(piece: &Piece, parts: &Parts, left_out: &[PartId]) -> f64 {
    let surface = surface_of(piece, parts, |_| true, left_out);
    let share = |sort: Coated| match sort {
        Coated::Cases | Coated::Boxes => 0.5,
        Coated::Frames
        | Coated::Fronts
        | Coated::Shelves
        | Coated::Countertops
        | Coated::Covers => 1.0,
    };
    surface.sorts().map(|(sort, area)| area * share(sort)).sum()
}

/// The surface of the parts that `is` picks, but for those left out.
fn surface_of(
    piece: &Piece,
    parts: &Parts,
    is: impl Fn(&Part) -> bool,
    left_out: &[PartId],
) -> Surface {
    let mut areas = Coated::ALL.map(|sort| (sort, 0.0));
    let mut units: BTreeMap<Unit, Vec<(PartId, Body)>> = BTreeMap::new();
    for (id, part) in parts.iter() {
        if let Some(body) = body(piece, id, part) {
            units.entry(body.unit).or_default().push((id, body));
        }
    }
    // What has another finish covers what it lies against all the same.
    let counts = |id: &PartId| !left_out.contains(id) && parts.get(*id).is_some_and(&is);
    for own in units.values() {
        for (id, body) in own.iter().filter(|(id, _)| counts(id)) {
            let others = own.iter().filter(|(other, _)| other != id).map(|(_, body)| body);
            let area = bare(body, others) + body.more;
            if let Some((_, sum)) = areas.iter_mut().find(|(sort, _)| *sort == body.sort) {
                *sum += area.max(0.0) / 1e6;
            }
        }
    }
    Surface(areas.to_vec())
}

/// Both faces and all edges of some parts before they are put together, in
/// square meters.
pub fn of_parts(piece: &Piece, parts: &Parts, ids: &[PartId]) -> f64 {
    let bodies = ids.iter().filter_map(|id| body(piece, *id, parts.get(*id)?));
    bodies.map(|body| bare(&body, std::iter::empty()) + body.more).sum::<f64>() / 1e6
}

fn body(piece: &Piece, id: PartId, part: &Part) -> Option<Body> {
    let (unit, sort) = match (part.role, part.assembly) {
        // What slides on wood is waxed, not finished.
        (Role::Packer | Role::HingeBlock | Role::HoldingBlock, _) => return None,
        (role, _) if role.is_of_runs() => return None,
        (Role::Cover, _) => (Unit::Cover(id), Coated::Covers),
        (Role::AdjustableShelf, _) => (Unit::Shelf(id), Coated::Shelves),
        (_, Assembly::Front(front)) => (Unit::Front(front), Coated::Fronts),
        (_, Assembly::Countertop(_)) => (Unit::Countertop(id), Coated::Countertops),
        (_, Assembly::DrawerBox(opening)) => (Unit::Box(opening), Coated::Boxes),
        (
            _,
            Assembly::Base(case)
            | Assembly::Carcass(case)
            | Assembly::Frame(case)
            | Assembly::Filler(case, _)
            | Assembly::Loose(case),
        ) => (Unit::Case(case), Coated::Cases),
    };
    let sort = match sort {
        Coated::Cases if of_part(piece, part) != piece.case(part.case)?.finish => Coated::Frames,
        sort => sort,
    };
    let extents = Direction::ALL.map(|direction| part.extent(direction));
    let [from, to] = [extents.map(|(from, _)| from), extents.map(|(_, to)| to)]
        .map(|ends| ends.map(Length::to_mm_f64));
    let mut uncoated = [[false; 2]; 3];
    let mut own = part.finished_faces(piece);
    own.extend(unseen(piece, part).filter(|face| !own.contains(face)));
    for face in &own {
        uncoated[part.placement.direction(*face).index()][usize::from(!face.is_start())] = true;
    }
    let bare_faces = 2.0 - own.len() as f64;
    Some(Body { from, to, unit, sort, more: cut_into(piece, part, bare_faces), uncoated })
}

/// The face of a sheet that lies against the wall or under a drawer, where nobody sees it.
#[must_use]
pub fn unseen(piece: &Piece, part: &Part) -> Option<Face> {
    if piece.stock(part.stock).is_none_or(Stock::is_solid) {
        return None;
    }
    let at_wall = |side: Side| {
        let case = piece.case(part.case);
        case.is_some_and(|case| matches!(side.of(&case.exposure), Exposure::Wall { .. }))
    };
    let (axis, start) = match part.role {
        Role::Back if piece.site.fixed => (Direction::Z, false),
        Role::DrawerBottom => (Direction::Y, true),
        Role::End(side) if at_wall(side) => (Direction::X, side == Side::Left),
        _ => return None,
    };
    Some(part.placement.face(axis, start))
}

/// What flutes add to a part's faces, less what notches take, in square
/// millimeters.
fn cut_into(piece: &Piece, part: &Part, bare_faces: f64) -> f64 {
    let span = |(from, to): (Length, Length)| (to - from).to_mm_f64();
    let each = part.features.iter().map(|feature| {
        let (u, v) = (span(feature.u), span(feature.v));
        match feature.kind {
            FeatureKind::Flute(bit) => piece.bit(bit).map_or(0.0, |bit| {
                let arc = trade::flute_arc(bit.diameter, feature.deep).to_mm_f64();
                u.max(v) * (arc - u.min(v))
            }),
            FeatureKind::Notch if feature.face.is_broad() => -bare_faces * u * v,
            FeatureKind::Notch
            | FeatureKind::Slot
            | FeatureKind::Dado
            | FeatureKind::Groove
            | FeatureKind::Rabbet
            | FeatureKind::Miter
            | FeatureKind::Pockets(..)
            | FeatureKind::Bore(_)
            | FeatureKind::Tenon
            | FeatureKind::Haunch
            | FeatureKind::Mortise
            | FeatureKind::Dovetails
            | FeatureKind::Dowels(..) => 0.0,
        }
    });
    each.sum()
}

/// The six faces of a body, less what the others cover of them: those that have
/// wood just outside of a face.
fn bare<'a>(body: &Body, others: impl Iterator<Item = &'a Body>) -> f64 {
    let size = |axis: usize| body.to[axis] - body.from[axis];
    let across = |axis: usize| ((axis + 1) % 3, (axis + 2) % 3);
    let mut faces = [[0.0; 2]; 3];
    for (axis, both) in faces.iter_mut().enumerate() {
        let (a, b) = across(axis);
        *both = [size(a) * size(b); 2];
    }
    for other in others {
        let over = |axis: usize| {
            (body.to[axis].min(other.to[axis]) - body.from[axis].max(other.from[axis])).max(0.0)
        };
        for (axis, both) in faces.iter_mut().enumerate() {
            let (a, b) = across(axis);
            let covered = over(a) * over(b);
            let (low, high) = (body.from[axis], body.to[axis]);
            if other.from[axis] < low && low <= other.to[axis] {
                both[0] -= covered;
            }
            if other.from[axis] <= high && high < other.to[axis] {
                both[1] -= covered;
            }
        }
    }
    let all = faces.iter().flatten().zip(body.uncoated.iter().flatten());
    all.filter(|(_, uncoated)| !**uncoated).map(|(area, _)| area.max(0.0)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn with<T>(text: &str, look: impl FnOnce(&Piece, &Parts) -> T) -> T {
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
        look(&compiled.piece.expect("a piece"), &compiled.parts.expect("parts"))
    }

    fn cube(from: [f64; 3], to: [f64; 3]) -> Body {
        let uncoated = [[false; 2]; 3];
        Body { from, to, unit: Unit::Case(CaseId(0)), sort: Coated::Cases, more: 0.0, uncoated }
    }

    /// By hand: a block 100 x 100 x 100 has 60,000; a board 50 wide, 20 thick and
    /// 100 long that is let 10 deep into its top covers 50 x 100 of it. The board
    /// has 2 x (1,000 + 2,000 + 5,000), and 5,000 of its underside and 1,000 of
    /// each side are in the wood.
    #[test]
    fn what_lies_in_another_is_not_coated_there() {
        let block = cube([0.0; 3], [100.0; 3]);
        let board = cube([20.0, 90.0, 0.0], [70.0, 110.0, 100.0]);
        let all = |body: &Body, other: Option<&Body>| bare(body, other.into_iter()).round() as i64;
        assert_eq!(all(&block, None), 60_000);
        assert_eq!(all(&block, Some(&board)), 55_000);
        assert_eq!(all(&board, None), 16_000);
        assert_eq!(all(&board, Some(&block)), 9_000);
    }

    const CONSOLE: &str = include_str!("../../specs/hall-console.case");

    /// Worked by hand: the upper drawer front of the console, 17-1/16 x 4-13/16
    /// x 3/4. Both faces 164.23 and its edges 32.81 sq in; 22 flutes 4-13/16 long,
    /// their arc 0.5236 and their chord 0.4330: 9.59 more. 206.63 sq in.
    #[test]
    fn a_fluted_front_has_more_surface_than_a_flat_one() {
        with(CONSOLE, |piece, parts| {
            let (id, _) = parts.named("console.bank.upper.front").expect("a front");
            let inches = of_parts(piece, parts, &[id]) / 0.0254 / 0.0254;
            assert!((inches - 206.63).abs() < 0.05, "{inches}");
        });
    }

    /// The alcove's bookcase, worked by hand in mm: ends 2000 x 300 x 18, a bottom,
    /// a top, and four shelves of 18 between them, a back of 6 in rabbets of 9. The
    /// outside and the inside of the ends, 2.4 m2; of six lying boards 764 long
    /// both faces and the front edge, 291 deep before the back: 2.7 + 0.1; the
    /// back's face, 1.55, for the other lies at the wall. So does the outside of the left
    /// end, 0.6. With the narrow edges and a nailer about 6.2 m2.
    #[test]
    fn a_bookcase_is_coated_inside_and_out() {
        let alcove = include_str!("../../specs/alcove-shelves.case");
        let text = alcove.replace(
            "case left-books {",
            "finish clear { varnish }\ncase left-books { finish clear",
        );
        with(&text, |piece, parts| {
            let whole = surface(piece, parts, FinishId(0), &[]);
            assert!((whole.whole() - 6.2).abs() < 0.2, "{whole:?}");
            assert_eq!(whole.sorts().map(|(sort, _)| sort).collect::<Vec<_>>(), [Coated::Cases]);
            let back = parts.named("left-books.back").expect("a back").0;
            let less = surface(piece, parts, FinishId(0), &[back]);
            // Less what the boards and a nailer before it cover of it, and its rabbets.
            assert!((whole.whole() - less.whole() - 1.35).abs() < 0.1, "{less:?}");
        });
    }

    /// Worked by hand: 24 m2 take 15 + 240 min, more than a pot life of 2 h twice:
    /// three lots. 24 m2 at 30 are 800 ml, with 15 % 920; a third of it, 306.7 ml,
    /// mixed 3 to 1: 76.7, so 80 ml a share.
    #[test]
    fn no_lot_is_mixed_that_hardens_in_the_cup() {
        let text = CONSOLE.replace("pot-life 4 h", "pot-life 2 h");
        with(&text, |piece, _| {
            let coat = Coat::of(&piece.finishes[0], 24.0);
            assert_eq!((coat.lots, coat.each), (3, Some((240, 80))));
            assert_eq!(coat.time, Duration(Exact::int(255)));
        });
    }
}
