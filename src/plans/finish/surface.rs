//! The surface of parts, as far as a finish goes on it.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{CaseId, FinishId, FrontId, OpeningId, Piece};
use crate::parts::{Assembly, Direction, FeatureKind, Part, PartId, Parts, Role};
use crate::trade;

use super::super::assembly::is_glass;
use super::{of_part, unseen};

/// What is coated, in the order it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Coated {
    /// Carcasses, frames, bases, and backs.
    Cases,
    /// Face frames that have another finish than their case.
    Frames,
    /// Fillers that have another finish than their case.
    Fillers,
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
    const ALL: [Self; 8] = [
        Self::Cases,
        Self::Frames,
        Self::Fillers,
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
            Self::Fillers => "fillers",
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

/// A part in space, in millimeters.
struct Body {
    from: [f64; 3],
    to: [f64; 3],
    unit: Unit,
    sort: Coated,
    finish: Option<FinishId>,
    /// It is cut from a sheet, whose face veneer is thin.
    of_sheet: bool,
    /// What flutes add to it and notches take away, in square millimeters.
    more: f64,
    /// The faces that no finish goes on, by axis and whether the axis ends there.
    uncoated: [[bool; 2]; 3],
}

/// The surface of the parts with this finish, but for those left out.
pub fn surface(piece: &Piece, parts: &Parts, finish: FinishId, left_out: &[PartId]) -> Surface {
    let times = |body: &Body| f64::from(u8::from(body.finish == Some(finish)));
    surface_of(piece, parts, times, left_out)
}

/// The square meters of the solid wood, or of the sheets, that have this finish.
pub fn of_wood(piece: &Piece, parts: &Parts, finish: FinishId, is_solid: bool) -> f64 {
    let is = |body: &Body| body.finish == Some(finish) && body.of_sheet != is_solid;
    surface_of(piece, parts, |body| f64::from(u8::from(is(body))), &[]).whole()
}

/// The square meters that are sanded when all is taken apart, each as often as it has grits:
/// `grits` says how many for what has a finish, solid wood or sheets. The insides of cases
/// and boxes, about half of their surface, were sanded before they were glued up.
pub fn sanded(
    piece: &Piece,
    parts: &Parts,
    left_out: &[PartId],
    grits: impl Fn(Option<FinishId>, bool) -> usize,
) -> f64 {
    let share = |sort: Coated| match sort {
        Coated::Cases | Coated::Boxes => 0.5,
        Coated::Frames
        | Coated::Fillers
        | Coated::Fronts
        | Coated::Shelves
        | Coated::Countertops
        | Coated::Covers => 1.0,
    };
    let times = |body: &Body| share(body.sort) * grits(body.finish, body.of_sheet) as f64;
    surface_of(piece, parts, times, left_out).whole()
}

/// The surface of the bodies, but for those left out; each counts so many times.
fn surface_of(
    piece: &Piece,
    parts: &Parts,
    times: impl Fn(&Body) -> f64,
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
    let counts = |(id, body): &&(PartId, Body)| times(body) > 0.0 && !left_out.contains(id);
    for own in units.values() {
        for (id, body) in own.iter().filter(counts) {
            let others = own.iter().filter(|(other, _)| other != id).map(|(_, body)| body);
            let area = bare(body, others) + body.more;
            if let Some((_, sum)) = areas.iter_mut().find(|(sort, _)| *sort == body.sort) {
                *sum += area.max(0.0) / 1e6 * times(body);
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
    if is_glass(piece, part) {
        return None;
    }
    let finish = of_part(piece, part);
    let differs = finish != piece.case(part.case)?.finish;
    let sort = match (sort, part.assembly) {
        (Coated::Cases, Assembly::Filler(..)) if differs => Coated::Fillers,
        (Coated::Cases, _) if differs => Coated::Frames,
        (sort, _) => sort,
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
    let of_sheet = piece.stock(part.stock).is_some_and(|stock| !stock.is_solid());
    let more = cut_into(piece, part, bare_faces);
    Some(Body { from, to, unit, sort, finish, of_sheet, more, uncoated })
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
            | FeatureKind::Glazing(_)
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
        Body {
            from,
            to,
            unit: Unit::Case(CaseId(0)),
            sort: Coated::Cases,
            finish: None,
            of_sheet: false,
            more: 0.0,
            uncoated,
        }
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

    const CONSOLE: &str = include_str!("../../../specs/hall-console.case");

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
        let alcove = include_str!("../../../specs/alcove-shelves.case");
        let text = alcove.replace(
            "case left-books {",
            "finish clear { varnish }\ncase left-books { finish clear",
        );
        with(&text, |piece, parts| {
            let whole = surface(piece, parts, FinishId(0), &[]);
            assert!((whole.whole() - 6.2).abs() < 0.2, "{whole:?}");
            assert_eq!(whole.sorts().map(|(sort, _)| sort).collect::<Vec<_>>(), [Coated::Cases]);
            // Half of it, the insides, is sanded before; the rest with each grit for sheets.
            let others = parts.iter().filter(|(_, part)| !part.path.starts_with("left-books."));
            let others: Vec<PartId> = others.map(|(id, _)| id).collect();
            let twice = sanded(piece, parts, &others, |_, of_sheet| if of_sheet { 2 } else { 9 });
            assert!((twice - 6.2).abs() < 0.2, "{twice}");
            let back = parts.named("left-books.back").expect("a back").0;
            let less = surface(piece, parts, FinishId(0), &[back]);
            // Less what the boards and a nailer before it cover of it, and its rabbets.
            assert!((whole.whole() - less.whole() - 1.35).abs() < 0.1, "{less:?}");
        });
    }
}
