//! What every part weighs and where it balances, and what is lifted together.
//!
//! A part's weight is that of its box less what is cut out of it. Pocket and
//! dowel holes are left out, and where two cuts meet their corner is taken
//! twice: grams. Hardware, glue and finish are not counted.

use std::collections::BTreeMap;

use crate::diagnostics::listed;
use crate::measure::{Exact, Length, Mass};
use crate::model::{CaseId, FrontId, Leaf, OpeningId, OpeningKind, Piece};
use crate::parts::{
    Assembly, Cuboid, Direction, Face, Feature, FeatureKind, Part, Parts, Role, front_path,
};
use crate::trade::{self, Carry};

use super::shelves::is_stuck;

/// A weight and where it balances.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Body {
    /// Its weight, in whole grams.
    pub grams: i64,
    /// Grams times the place of their center, in millimetres, along x, y and z.
    moment: [f64; 3],
    /// A measured figure takes part in it.
    pub measured: bool,
}

impl Body {
    /// A weight at a place, in millimetres.
    #[must_use]
    pub fn at(grams: i64, place: [f64; 3]) -> Self {
        Self { grams, moment: place.map(|along| along * grams as f64), measured: false }
    }

    /// Its weight.
    #[must_use]
    pub fn mass(&self) -> Mass {
        Mass(Exact::ratio(self.grams, 1000))
    }

    /// Where it balances, in millimetres; nowhere for nothing.
    #[must_use]
    pub fn center(&self) -> Option<[f64; 3]> {
        (self.grams > 0).then(|| self.moment.map(|along| along / self.grams as f64))
    }

    /// Gram-millimetres about a line `z` millimetres behind the foremost face;
    /// below nought where the weight lies before it.
    #[must_use]
    pub fn about(&self, z: f64) -> f64 {
        self.moment[2] - z * self.grams as f64
    }

    /// The same weight, moved along z.
    #[must_use]
    pub fn moved(mut self, z: f64) -> Self {
        self.moment[2] += z * self.grams as f64;
        self
    }

    /// Both together.
    #[must_use]
    pub fn with(mut self, other: Self) -> Self {
        self.grams += other.grams;
        self.measured |= other.measured;
        for (own, other) in self.moment.iter_mut().zip(other.moment) {
            *own += other;
        }
        self
    }
}

/// What is lifted as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lifted {
    /// A case as it is fitted, without its doors, drawers and loose shelves.
    Case(CaseId),
    /// The loose shelves of a case that come out of it.
    Shelves(CaseId),
    /// The covers, the fillers, and the kick of a case, which go on where it stands.
    Covers(CaseId),
    /// The separate base of a case, or of several of a run, by the first of them.
    Base(CaseId),
    /// The countertop of a case.
    Countertop(CaseId),
    /// A door leaf.
    Door(FrontId),
    /// The drawer of an opening with its front.
    Drawer(OpeningId),
}

impl Lifted {
    /// The case it belongs to.
    #[must_use]
    pub fn case(self) -> CaseId {
        match self {
            Self::Case(case)
            | Self::Shelves(case)
            | Self::Covers(case)
            | Self::Base(case)
            | Self::Countertop(case) => case,
            Self::Door(front) => front.opening.case,
            Self::Drawer(opening) => opening.case,
        }
    }
}

/// What is lifted, by its name.
#[must_use]
pub fn name(piece: &Piece, lifted: Lifted) -> String {
    match lifted {
        Lifted::Base(case) => piece.base_named(case),
        Lifted::Countertop(case) => {
            piece.top_over(case).map_or(String::new(), |top| piece.top_named(top))
        }
        Lifted::Case(case) | Lifted::Shelves(case) | Lifted::Covers(case) => {
            piece.case(case).map_or(String::new(), |case| case.name.clone())
        }
        Lifted::Door(front) => front_path(piece, front),
        Lifted::Drawer(opening) => {
            piece.opening(opening).map_or(String::new(), |opening| opening.path.clone())
        }
    }
}

/// What goes on a case where it stands, by kind: `covers and kick`.
#[must_use]
pub fn later(parts: &Parts, case: CaseId) -> String {
    let kinds = [(Role::Cover, "covers"), (Role::Filler, "filler"), (Role::Kick, "kick")];
    let has = |role: Role| parts.of_case(case).iter().any(|part| part.role == role);
    let kinds: Vec<&str> =
        kinds.into_iter().filter(|(role, _)| has(*role)).map(|(_, word)| word).collect();
    listed(&kinds)
}

/// The weights of a piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weights {
    /// One for each part, in their order.
    pub parts: Vec<Body>,
    /// What is lifted together, case by case.
    pub lifted: BTreeMap<Lifted, Body>,
    /// The space that each of them takes.
    spaces: BTreeMap<Lifted, Cuboid>,
    /// Stocks that were taken to weigh what is usual, by index.
    pub guessed: Vec<usize>,
}

impl Weights {
    /// Everything together.
    #[must_use]
    pub fn whole(&self) -> Body {
        self.lifted.values().fold(Body::default(), |all, one| all.with(*one))
    }

    /// What is lifted of a case: itself, its base, its doors and drawers.
    pub fn of_case(&self, case: CaseId) -> impl Iterator<Item = &Body> {
        self.lifted.iter().filter(move |(lifted, _)| lifted.case() == case).map(|(_, body)| body)
    }

    /// How one of them is carried, with what comes on top of its wood.
    #[must_use]
    pub fn carry(&self, lifted: &Lifted) -> Carry {
        // Loose shelves and what goes on later are carried one by one.
        let as_one = !matches!(lifted, Lifted::Shelves(_) | Lifted::Covers(_));
        let space = self.spaces.get(lifted).filter(|_| as_one);
        trade::carry(
            trade::with_hardware(self.of(lifted).mass()),
            space.map_or(Length::ZERO, least),
        )
    }

    /// How the whole is carried in one piece.
    #[must_use]
    pub fn carry_whole(&self) -> Carry {
        let space = self.whole_space();
        let thick = space.as_ref().map_or(Length::ZERO, least);
        trade::carry(trade::with_hardware(self.whole().mass()), thick)
    }

    /// The space that one thing takes that is carried as it is.
    #[must_use]
    pub fn space(&self, lifted: &Lifted) -> Option<&Cuboid> {
        self.spaces.get(lifted)
    }

    /// The space that everything takes.
    #[must_use]
    pub fn whole_space(&self) -> Option<Cuboid> {
        self.spaces.values().copied().reduce(|one, other| one.union(&other))
    }

    /// The weight of one thing that is lifted; nothing where there is none.
    #[must_use]
    pub fn of(&self, lifted: &Lifted) -> Body {
        self.lifted.get(lifted).copied().unwrap_or_default()
    }
}

/// The least of its three sizes, which one holds away from the body.
fn least(space: &Cuboid) -> Length {
    Direction::ALL.into_iter().map(|axis| space.size(axis)).min().unwrap_or_default()
}

/// Weighs every part.
pub(super) fn weigh(piece: &Piece, parts: &Parts) -> Weights {
    let mut weights = Weights::default();
    for part in &parts.all {
        let body = body(piece, part);
        weights.parts.push(body);
        let own = lifted(piece, parts, part);
        let sum = weights.lifted.entry(own).or_default();
        *sum = sum.with(body);
        let space = weights.spaces.entry(own).or_insert(part.cuboid());
        *space = space.union(&part.cuboid());
        if piece.stock(part.stock).is_some_and(|stock| stock.gravity.is_none())
            && !weights.guessed.contains(&part.stock.0)
        {
            weights.guessed.push(part.stock.0);
        }
    }
    weights
}

/// What a part is lifted with. A false front stays on its case, and so does a
/// loose shelf that nothing brings out again.
#[must_use]
pub fn lifted(piece: &Piece, parts: &Parts, part: &Part) -> Lifted {
    if part.role == Role::AdjustableShelf && !is_stuck(piece, parts, part) {
        return Lifted::Shelves(part.case);
    }
    if matches!(part.role, Role::Cover | Role::Filler | Role::Batten | Role::Kick) {
        return Lifted::Covers(part.case);
    }
    match part.assembly {
        Assembly::Base(case) => Lifted::Base(case),
        Assembly::Countertop(case) => Lifted::Countertop(case),
        Assembly::DrawerBox(opening) => Lifted::Drawer(opening),
        Assembly::Front(front) if front.leaf != Leaf::Front => Lifted::Door(front),
        Assembly::Front(front) => match piece.opening(front.opening).map(|it| &it.kind) {
            Some(OpeningKind::Drawer { .. }) => Lifted::Drawer(front.opening),
            _ => Lifted::Case(front.opening.case),
        },
        Assembly::Carcass(case)
        | Assembly::Frame(case)
        | Assembly::Filler(case, _)
        | Assembly::Loose(case) => Lifted::Case(case),
    }
}

/// What a part weighs before anything is cut into it, to the milligram.
#[must_use]
pub fn whole(piece: &Piece, part: &Part) -> Mass {
    milligrams(piece, part, whole_volume(part))
}

/// What a feature takes of the weight of its part, to the milligram; `None` for
/// what is left out.
#[must_use]
pub fn taken(piece: &Piece, part: &Part, feature: &Feature) -> Option<Mass> {
    cut(piece, sides(part), feature).map(|(volume, _)| milligrams(piece, part, volume))
}

fn milligrams(piece: &Piece, part: &Part, volume: f64) -> Mass {
    let kilograms = trade::kilograms(volume, piece.density(part.stock));
    Mass(Exact::ratio((kilograms * 1e6).round() as i64, 1_000_000))
}

/// The volume of a part before anything is cut into it, in cubic millimeters.
fn whole_volume(part: &Part) -> f64 {
    trade::volume(part.length.length, part.width.length, part.thickness.length)
}

/// Length, width, and thickness in millimeters.
fn sides(part: &Part) -> [f64; 3] {
    [&part.length, &part.width, &part.thickness].map(|size| size.length.to_mm_f64())
}

/// A part less what is cut out of it.
fn body(piece: &Piece, part: &Part) -> Body {
    let size = sides(part);
    let mut volume = whole_volume(part);
    let mut moment = size.map(|along| volume * along / 2.0);
    for feature in &part.features {
        let Some((cut, center)) = cut(piece, size, feature) else { continue };
        volume -= cut;
        for (own, along) in moment.iter_mut().zip(center) {
            *own -= cut * along;
        }
    }
    let kilograms = trade::kilograms(volume.max(0.0), piece.density(part.stock));
    let grams = (kilograms * 1000.0).round() as i64;
    if volume <= 0.0 {
        return Body::default();
    }
    let axes = [part.placement.length, part.placement.width, part.placement.thickness];
    let mut place = [0.0; 3];
    for (axis, along) in axes.into_iter().zip(moment) {
        let at = part.placement.origin.along(axis).to_mm_f64() + along / volume;
        match axis {
            Direction::X => place[0] = at,
            Direction::Y => place[1] = at,
            Direction::Z => place[2] = at,
        }
    }
    let sizes = [&part.length, &part.width, &part.thickness];
    let measured = sizes.iter().any(|size| piece.facts.is_measured(size));
    Body { measured, ..Body::at(grams, place) }
}

/// The volume of a cut and its middle along length, width and thickness.
fn cut(piece: &Piece, size: [f64; 3], feature: &Feature) -> Option<(f64, [f64; 3])> {
    let span = |(from, to): (Length, Length)| (to - from).to_mm_f64();
    let (u, v, deep) = (span(feature.u), span(feature.v), feature.deep.to_mm_f64());
    // Its groove is counted by itself.
    let deep = match feature.kind {
        FeatureKind::Glazing(lip) => lip.to_mm_f64(),
        _ => deep,
    };
    let area = match feature.kind {
        FeatureKind::Glazing(_)
        | FeatureKind::Dado
        | FeatureKind::Groove
        | FeatureKind::Rabbet
        | FeatureKind::Notch
        | FeatureKind::Slot
        | FeatureKind::Haunch
        | FeatureKind::Mortise => u * v * deep,
        // A round hole in the square that the feature gives.
        FeatureKind::Bore(_) => u * v * deep * std::f64::consts::FRAC_PI_4,
        // A triangle along the edge; half of a corner is tails.
        FeatureKind::Miter | FeatureKind::Dovetails => u * v * deep / 2.0,
        FeatureKind::Flute(bit) => {
            let bit = piece.bit(bit)?;
            u.max(v) * trade::flute_area(bit.diameter, feature.deep).to_f64()
        }
        FeatureKind::Tenon => {
            let [_, width, thick] = size;
            (width * thick - u * v).max(0.0) * deep
        }
        FeatureKind::Pockets(..) | FeatureKind::Dowels(..) => return None,
    };
    let (mid_u, mid_v) = feature.center();
    let (mid_u, mid_v) = (mid_u.to_mm_f64(), mid_v.to_mm_f64());
    let inward = |size: f64| if feature.face.is_start() { deep / 2.0 } else { size - deep / 2.0 };
    let [length, width, thick] = size;
    let center = match feature.face {
        Face::ThickStart | Face::ThickEnd => [mid_u, mid_v, inward(thick)],
        Face::WidthStart | Face::WidthEnd => [mid_u, inward(width), mid_v],
        Face::LengthStart | Face::LengthEnd => [inward(length), mid_u, mid_v],
    };
    Some((area, center))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn weighed(text: &str) -> (Piece, Parts, Weights) {
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
        let (piece, parts) = (compiled.piece.expect("a piece"), compiled.parts.expect("parts"));
        let weights = weigh(&piece, &parts);
        (piece, parts, weights)
    }

    const CONSOLE: &str = include_str!("../../specs/hall-console.case");

    /// The console's shelf: 27-5/32 x 15-51/64 x 23/32 in of plywood at 0.6 x
    /// 1.12 x 62.43 lb/ft³; its top rail 61-3/4 x 1-1/2 x 3/4 in of cherry at
    /// 0.50 x 1.12 x 62.43 lb/ft³ (Wood Handbook, Table 5-3b).
    #[test]
    fn boards_weigh_their_volume() {
        let (_, parts, weights) = weighed(CONSOLE);
        for (name, cubic_inches, density) in [
            ("console.press.shelf-1", 27.15625 * 15.796_875 * 0.71875, 0.6 * 1.12),
            ("console.top-rail", 61.75 * 1.5 * 0.75, 0.5 * 1.12),
        ] {
            let (id, _) = parts.named(name).expect("a part");
            let grams = cubic_inches * 16.387_064 * density;
            let got = weights.parts[id.0].grams as f64;
            assert!((got - grams).abs() < 1.0, "{name}: {got} {grams}");
        }
    }

    /// A notch at the front of an end takes its weight away from the front.
    #[test]
    fn what_is_cut_out_moves_the_balance() {
        let (_, parts, weights) = weighed(CONSOLE);
        let (id, part) = parts.named("console.right-end").expect("a part");
        let whole = trade::volume(part.length.length, part.width.length, part.thickness.length);
        let whole = trade::kilograms(whole, 672.0) * 1000.0;
        let body = weights.parts[id.0];
        assert!((body.grams as f64) < whole);
        let [_, y, z] = body.center().expect("a weight");
        let middle = part.cuboid();
        assert!(y > (middle.from.y + middle.to.y).half().to_mm_f64());
        assert!(z > (middle.from.z + middle.to.z).half().to_mm_f64());
    }

    #[test]
    fn what_is_lifted_is_everything_once() {
        for text in [CONSOLE, include_str!("../../specs/tide-cottage-press.case")] {
            let (_, parts, weights) = weighed(text);
            let all: i64 = weights.parts.iter().map(|body| body.grams).sum();
            assert_eq!(weights.whole().grams, all);
            assert_eq!(weights.parts.len(), parts.all.len());
            assert!(weights.lifted.keys().any(|lifted| matches!(lifted, Lifted::Drawer(..))));
            assert!(weights.lifted.keys().any(|lifted| matches!(lifted, Lifted::Door(..))));
        }
    }

    #[test]
    fn an_unknown_wood_is_taken_at_the_usual_weight_and_said_so() {
        let text = CONSOLE.replace("species sugar-maple", "species bog-oak");
        let (piece, _, weights) = weighed(&text);
        let names: Vec<&str> =
            weights.guessed.iter().map(|index| piece.stocks[*index].name.as_str()).collect();
        assert_eq!(names, ["maple"]);
    }
}
