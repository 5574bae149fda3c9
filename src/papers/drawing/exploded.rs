//! A piece exploded: each case by itself, what stands before it, and one drawer box and
//! one paneled door of each kind. Bodies are moved along the ways they go together, so
//! far that none hides another.

use std::collections::BTreeMap;

use crate::model::Piece;
use crate::parts::{Assembly, Direction, Part, Role, Which};

mod webs;

pub(in crate::papers) use webs::webs;

use super::cells::Cells;
use super::kinds::{self, Kind};
use super::labels::{Area, Labels, about};
use super::legible::{self, SHEET, legible, letter, points};
use super::slant::{Body, EVEN, FLAT, Point, STEEP, Side, Slant, shift};
use super::svg::{Line, Svg, mm, wide};

/// Where a part goes when its case is exploded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Layer {
    /// An upright of the case.
    Upright,
    /// What stands or lies between the uprights.
    Between,
    Countertop,
    Top,
    Bottom,
    /// What carries the bottom from front to back.
    Sleeper,
    BaseFront,
    BaseBack,
    Back,
    BackCover,
    UnderCover,
    Frame,
    Front,
    DrawerBox,
}

fn layer(part: &Part) -> Layer {
    match part.role {
        Role::End(_) | Role::Post(_) | Role::EndRail(_) | Role::EndPanel(_) | Role::Partition => {
            Layer::Upright
        }
        Role::Divider
        | Role::FixedShelf
        | Role::WebRail
        | Role::WebRunner
        | Role::DustPanel
        | Role::AdjustableShelf
        | Role::Packer
        | Role::HingeBlock
        | Role::HoldingBlock
        | Role::Guide
        | Role::Kicker
        | Role::Runner
        | Role::Stop => Layer::Between,
        Role::Filler => Layer::Frame,
        Role::Cover if part.which == Which::Back => Layer::BackCover,
        Role::Cover if part.which == Which::Bottom => Layer::UnderCover,
        Role::Batten | Role::Cover => Layer::Upright,
        Role::Countertop => Layer::Countertop,
        Role::Top | Role::Stretcher => Layer::Top,
        Role::Bottom => Layer::Bottom,
        Role::Leg | Role::BaseLeg => Layer::Sleeper,
        Role::Kick => Layer::BaseFront,
        Role::BaseMember => match part.which {
            Which::Front => Layer::BaseFront,
            Which::Back => Layer::BaseBack,
            Which::Only
            | Which::At(_)
            | Which::Top
            | Which::Bottom
            | Which::Number(_)
            | Which::AtNumber(..) => Layer::Sleeper,
        },
        Role::Back => Layer::Back,
        Role::Nailer(_) => Layer::Between,
        Role::Stile | Role::Rail => Layer::Frame,
        Role::Slab | Role::FrontStile | Role::FrontRail | Role::FrontPanel | Role::Bead => {
            Layer::Front
        }
        Role::DrawerSide | Role::DrawerFront | Role::DrawerBack | Role::DrawerBottom => {
            Layer::DrawerBox
        }
    }
}

/// A case exploded with its back and its base; `None` where it has nothing of that.
pub(in crate::papers) fn case(parts: &[Part]) -> Option<String> {
    let parts = webs::without(parts);
    drawn(|slant| case_apart(&parts, slant), "exploded view of the boards of a case")
}

/// The fronts, the frame, and the drawer boxes of a case; `None` where it has none.
pub(in crate::papers) fn before(piece: &Piece, parts: &[Part]) -> Option<String> {
    let what = "exploded view of what belongs in front of a case";
    drawn(|slant| layers(piece, parts, slant), what)
}

/// The first of a kind of drawer box or paneled door, exploded.
pub(in crate::papers) fn kind(kind: &Kind<'_>) -> Option<String> {
    let first = kind.each.first()?;
    let (bodies, what) = match first.first()?.assembly {
        Assembly::DrawerBox(_) => (box_apart(first), "exploded view of a drawer box"),
        Assembly::Base(_)
        | Assembly::Carcass(_)
        | Assembly::Frame(_)
        | Assembly::Front(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => (door_apart(first), "exploded view of a paneled front"),
    };
    Some(small(&bodies, what))
}

fn bodies<'p>(parts: &[&'p Part], own: Layer) -> Vec<Body<'p>> {
    parts.iter().filter(|part| layer(part) == own).map(|part| Body::part(part)).collect()
}

/// How far bodies of this size are apart.
fn gap(parts: &[Body<'_>]) -> f64 {
    let long = |body: &Body<'_>| {
        let size = |along| mm(body.space.size(along));
        size(Direction::X).max(size(Direction::Y)).max(size(Direction::Z))
    };
    parts.iter().map(long).fold(0.0, f64::max) * 0.03
}

fn case_apart<'p>(parts: &[&'p Part], slant: Slant) -> Vec<Body<'p>> {
    let mut all = between_uprights(parts, slant);
    let gap = gap(&all);
    let middle = slant.extent(&all);
    let groups = [
        (Layer::Top, true),
        (Layer::Countertop, true),
        (Layer::Bottom, false),
        (Layer::UnderCover, false),
        (Layer::BaseBack, false),
        (Layer::Sleeper, false),
        (Layer::BaseFront, false),
    ];
    for (own, is_above) in groups {
        let mut group = bodies(parts, own);
        if own == Layer::Sleeper {
            spread_across(&mut group, slant, gap);
        }
        // The middle of what spans the case stays that of the case.
        if let (Some(middle), Some(own)) = (middle, slant.extent(&group)) {
            let off = (middle.0.0 + middle.1.0 - own.0.0 - own.1.0) / 2.0;
            shift(&mut group, (off, 0.0));
        }
        if let Some(rest) = slant.extent(&all) {
            match is_above {
                true => slant.above(&mut group, &rest, gap),
                false => slant.below(&mut group, &rest, gap),
            }
        }
        all.append(&mut group);
    }
    for own in [Layer::Back, Layer::BackCover] {
        let mut back = bodies(parts, own);
        if let Some(rest) = slant.extent(&all) {
            slant.clear(&mut back, &rest, gap, true);
        }
        all.append(&mut back);
    }
    all
}

/// The uprights of a case apart, and between them what stands or lies there.
fn between_uprights<'p>(parts: &[&'p Part], slant: Slant) -> Vec<Body<'p>> {
    let mut uprights = bodies(parts, Layer::Upright);
    let mut between = bodies(parts, Layer::Between);
    let mut places: Vec<f64> = uprights.iter().map(|own| own.middle(Direction::X)).collect();
    places.sort_by(f64::total_cmp);
    places.dedup();
    let deep = |own: &Body<'_>| mm(own.space.size(Direction::Z));
    let gap = gap(&uprights);
    let step = gap + slant.to_the_right(uprights.iter().map(deep).fold(0.0, f64::max));
    // What stands between two uprights is one step from either.
    let steps = |own: &Body<'_>| {
        let left = places.partition_point(|place| *place < own.middle(Direction::X));
        2.0 * left as f64
    };
    for own in &mut uprights {
        own.by.0 = steps(own) * step;
    }
    let mut bays: BTreeMap<usize, Vec<&mut Body<'_>>> = BTreeMap::new();
    for own in &mut between {
        let bay = steps(own);
        own.by.0 = (bay - 1.0) * step;
        bays.entry(bay as usize).or_default().push(own);
    }
    for bay in bays.values_mut() {
        slant.stack(bay, gap * 0.5);
    }
    uprights.append(&mut between);
    uprights
}

/// Bodies that stand in a row from left to right, each clear of the next.
fn spread_across(row: &mut [Body<'_>], slant: Slant, gap: f64) {
    row.sort_by_key(|own| own.space.from.x);
    for at in 1..row.len() {
        let (before, own) = row.split_at_mut(at);
        if let (Some(before), Some(own)) = (before.last(), own.first_mut()) {
            let far = slant.area(before).1.0 + gap - slant.area(own).0.0;
            own.by.0 += far.max(0.0);
        }
    }
}

/// The fronts, the frame behind them, and the drawer boxes behind that.
fn layers<'p>(piece: &Piece, parts: &'p [Part], slant: Slant) -> Vec<Body<'p>> {
    let mut all = Vec::new();
    let mut boxes = closed(piece, parts, Layer::DrawerBox);
    let between = gap(&boxes);
    slant.stack(&mut boxes.iter_mut().collect::<Vec<_>>(), between);
    let all_parts: Vec<&Part> = parts.iter().collect();
    let mut fronts = closed(piece, parts, Layer::Front);
    let mut frame = bodies(&all_parts, Layer::Frame);
    // Without a frame a filler stands beside the fronts, and not behind all of them.
    if !parts.iter().any(|part| matches!(part.role, Role::Stile | Role::Rail)) {
        fronts.append(&mut frame);
    }
    for mut group in [fronts, frame, boxes] {
        if let Some(rest) = slant.extent(&all) {
            slant.clear(&mut group, &rest, gap(&all) * 1.5, true);
        }
        all.append(&mut group);
    }
    all
}

/// The parts of a layer, those of one drawer box or paneled door in one piece, with the
/// name of that.
fn closed<'p>(piece: &Piece, parts: &'p [Part], own: Layer) -> Vec<Body<'p>> {
    let all: Vec<&Part> = parts.iter().filter(|part| layer(part) == own).collect();
    let groups = all.chunk_by(|a, b| a.assembly == b.assembly);
    let body = |group: &[&'p Part]| match group {
        [one] => Some(Body::part(one)),
        [] => None,
        [first, ..] => Body::closed(group.to_vec(), kinds::name_in_case(piece, first)),
    };
    groups.filter_map(body).collect()
}

/// The bottom of a drawer box with the sides beside it, the back behind, and the front
/// before them.
fn box_apart<'p>(parts: &[&'p Part]) -> Vec<Body<'p>> {
    let of = |role: Role| -> Vec<Body<'p>> {
        parts.iter().filter(|part| part.role == role).map(|part| Body::part(part)).collect()
    };
    let mut all = of(Role::DrawerBottom);
    let sides = of(Role::DrawerSide);
    let gap = gap(&sides);
    let center = all.first().map_or(0.0, |bottom| bottom.middle(Direction::X));
    if let Some(bottom) = EVEN.extent(&all) {
        for side in sides {
            let is_right = side.middle(Direction::X) > center;
            let mut side = [side];
            EVEN.beside(&mut side, &bottom, gap, is_right);
            all.extend(side);
        }
    }
    for (role, is_back) in [(Role::DrawerBack, true), (Role::DrawerFront, false)] {
        let mut own = of(role);
        if let Some(rest) = EVEN.extent(&all) {
            EVEN.clear(&mut own, &rest, gap, is_back);
        }
        all.append(&mut own);
    }
    all
}

/// The stiles, rails, and panels of a door, farther apart by what is hidden in their
/// joints.
fn door_apart<'p>(parts: &[&'p Part]) -> Vec<Body<'p>> {
    let mut all: Vec<Body<'p>> = parts.iter().map(|part| Body::part(part)).collect();
    let hidden = parts.iter().flat_map(|part| &part.features).map(|own| mm(own.deep));
    let step = hidden.fold(0.0, f64::max) + gap(&all) * 0.7;
    let places = |role: Role, along: Direction| -> Vec<f64> {
        let of_role = all.iter().filter(|own| own.parts.iter().any(|part| part.role == role));
        of_role.map(|own| own.middle(along)).collect()
    };
    let stiles = places(Role::FrontStile, Direction::X);
    let rails = places(Role::FrontRail, Direction::Y);
    // A member is two steps from the next, and what stands between them one.
    let steps = |places: &[f64], at: f64| {
        let before = places.iter().filter(|place| **place < at).count() as f64;
        if places.contains(&at) { 2.0 * before } else { 2.0 * before - 1.0 }
    };
    // A stile runs past all rails, and stands in the middle of them.
    let beside = rails.len().saturating_sub(1) as f64;
    // Beads lie behind the glass, which would hide them: they are drawn beside the door.
    let sides = parts.iter().map(|part| part.extent(Direction::X));
    let sides = sides.reduce(|(from, to), (other, end)| (from.min(other), to.max(end)));
    let wide = sides.map_or(0.0, |(from, to)| mm(to - from));
    let aside = wide + step * 2.0 * stiles.len() as f64;
    for own in &mut all {
        let (x, y) = (own.middle(Direction::X), own.middle(Direction::Y));
        let is_stile = own.parts.iter().any(|part| part.role == Role::FrontStile);
        let down = if is_stile { beside } else { steps(&rails, y) };
        let is_bead = own.parts.iter().any(|part| part.role == Role::Bead);
        let by = if is_bead { aside } else { 0.0 };
        own.by = (steps(&stiles, x) * step + by, -down * step);
    }
    all
}

/// Bodies on a sheet of their own, seen so that they are drawn larger.
fn drawn<'p>(apart: impl Fn(Slant) -> Vec<Body<'p>>, what: &str) -> Option<String> {
    let seen = |slant: Slant| {
        let bodies = apart(slant);
        let (from, to) = slant.extent(&bodies)?;
        Some((bodies, slant, (to.0 - from.0, to.1 - from.1)))
    };
    let (steep, flat) = (seen(STEEP)?, seen(FLAT)?);
    let (bodies, slant, size) = if points(steep.2) >= points(flat.2) { steep } else { flat };
    // Marks are led out beside the bodies.
    let draw = |letter| picture(&bodies, slant, Svg::lettered(letter), letter);
    Some(legible(letter(size, (4.0, 2.0)), draw).finish(what))
}

/// Bodies on a part of a sheet.
fn small(bodies: &[Body<'_>], what: &str) -> String {
    /// How much of the width of a sheet, and of its height.
    const PART: (f64, f64) = (0.72, 0.5);
    let Some((from, to)) = EVEN.extent(bodies) else { return String::new() };
    let (across, upright) = (to.0 - from.0, to.1 - from.1);
    let points = (SHEET.0 * PART.0 / across).min(SHEET.1 * PART.1 / upright);
    let letter = legible::LETTER / points;
    let svg = Svg::lettered(letter).on_paper(points * legible::MILLIMETERS);
    picture(bodies, EVEN, svg, letter).finish(what)
}

/// The bodies, the far ones first, and their marks.
fn picture(bodies: &[Body<'_>], slant: Slant, mut svg: Svg, letter: f64) -> Svg {
    let mut order: Vec<&Body<'_>> = bodies.iter().collect();
    order.sort_by(|a, b| slant.far(b).total_cmp(&slant.far(a)));
    let mut sides: Vec<Side> = Vec::new();
    for (number, body) in order.iter().enumerate() {
        slant.faces(body, number, &mut sides);
    }
    let whole = sides.iter().map(|side| side.area).reduce(both).unwrap_or_default();
    let mut labels = Labels::over(&whole);
    let mut faces = Faces { sides: &sides, drawn: Cells::over(&whole) };
    for (number, side) in sides.iter().enumerate() {
        svg.polygon(&side.corners, Line::Narrow, side.fill);
        labels.draw(side.area);
        for ((x, y), radius) in side.holes.iter().copied() {
            svg.circle((x, y), radius, Line::Narrow);
            labels.take(((x - radius, y - radius), (x + radius, y + radius)));
        }
        faces.drawn.put(&side.area, number);
    }
    marks(&mut svg, &mut labels, &order, &faces, letter);
    svg
}

/// The area that holds two.
fn both(a: Area, b: Area) -> Area {
    let (from, to) = ((a.0.0.min(b.0.0), a.0.1.min(b.0.1)), (a.1.0.max(b.1.0), a.1.1.max(b.1.1)));
    (from, to)
}

/// The faces of a drawing in the order in which they are drawn, and where they are.
struct Faces<'s> {
    sides: &'s [Side],
    drawn: Cells<usize>,
}

impl Faces<'_> {
    /// The face that is seen at a point.
    fn top(&self, at: Point) -> Option<usize> {
        let holds = |face: &usize| self.sides.get(*face).is_some_and(|side| side.holds(at));
        self.drawn.near(&(at, at)).find(holds)
    }
}

/// How many faces a drawing has at the most whose marks are looked for a place one by
/// one: nobody reads a drawing of more.
const MARKED: usize = 1200;

/// Each mark on what is seen of its body, or beside it with a line.
fn marks(svg: &mut Svg, labels: &mut Labels, order: &[&Body<'_>], faces: &Faces<'_>, letter: f64) {
    if faces.sides.len() > MARKED {
        return;
    }
    let mut led = Vec::new();
    for (number, body) in order.iter().enumerate().rev() {
        let half = wide(&body.label, letter) / 2.0;
        // A mark has no room on a face that is smaller, by more than sums are rounded.
        let ((left, top), (right, bottom)) = about((0.0, 0.0), half * 0.999, letter * 0.999);
        let fits = seen(number, body, faces, (right - left, bottom - top)).find(|(at, face)| {
            let own = about(*at, half, letter);
            let (from, to) = own;
            let is_on_it = |at| faces.top(at) == Some(*face);
            [from, to, (from.0, to.1), (to.0, from.1)].into_iter().all(is_on_it)
                && labels.is_free(&own)
        });
        match fits {
            Some((at, _)) => labels.write(svg, at, &body.label, letter),
            None => led.push((number, body)),
        }
    }
    // Those that have no room on themselves come last, round the others.
    for (number, body) in led {
        let mut lead = |(at, _)| labels.lead(svg, at, &body.label, letter);
        let seen = || seen(number, body, faces, (0.0, 0.0));
        // From the middle of the largest face, or from a few other points of the body.
        if seen().next().is_some_and(&mut lead) {
            continue;
        }
        let all: Vec<(Point, usize)> = seen().collect();
        let step = all.len().div_ceil(4).max(1);
        all.into_iter().step_by(step).skip(1).any(lead);
    }
}

/// Points of a body that nothing covers, each with its face: those of its largest face
/// first, of a closed one those of the face that bears its name. Faces that are less wide
/// or high than `least` are left out.
fn seen(
    number: usize,
    body: &Body<'_>,
    faces: &Faces<'_>,
    least: (f64, f64),
) -> impl Iterator<Item = (Point, usize)> {
    const STEPS: usize = 9;
    let all = faces.sides.iter().enumerate();
    let mut own: Vec<_> = all.filter(|(_, own)| own.body == number).collect();
    let is_closed = body.parts.len() > 1;
    let size = |own: &Side| (own.area.1.0 - own.area.0.0) * (own.area.1.1 - own.area.0.1);
    own.sort_by(|(_, a), (_, b)| {
        let aside = |own: &Side| is_closed && !own.bears_name;
        aside(a).cmp(&aside(b)).then_with(|| size(b).total_cmp(&size(a)))
    });
    own.retain(|(_, own)| {
        let (from, to) = own.area;
        to.0 - from.0 >= least.0 && to.1 - from.1 >= least.1
    });
    own.into_iter().flat_map(move |(face, own)| {
        let (from, to) = own.area;
        let point = move |step: usize| {
            // From the middle outward, so that a mark stands in the middle if it can.
            let place = |step: usize| {
                let away = step.div_ceil(2) as f64 / STEPS as f64;
                if step.is_multiple_of(2) { 0.5 - away } else { 0.5 + away }
            };
            let (along, up) = (place(step % STEPS), place(step / STEPS));
            (from.0 + (to.0 - from.0) * along, from.1 + (to.1 - from.1) * up)
        };
        let points = (0..STEPS * STEPS).map(point);
        let seen = points.filter(move |at| own.holds(*at) && faces.top(*at) == Some(face));
        seen.map(move |at| (at, face))
    })
}
