//! The piece taken apart along the ways it goes together.

use crate::parts::{Assembly, Cuboid, Direction, Part, Parts, Role};

use super::cells::Cells;
use super::cut::{above_and_behind, toe};
use super::labels::{Area, Labels, is_within, room};
use super::svg::{Fill, Line, Svg, mm};

type Point = (f64, f64);

/// A face as it lies on the paper.
struct Side {
    part: usize,
    corners: Vec<Point>,
    area: Area,
    fill: Fill,
}

/// The piece taken apart, seen from the front, the right, and above.
pub(in crate::papers) fn exploded(parts: &Parts, whole: &Cuboid) -> String {
    let size = mm(whole.to.x).max(mm(whole.to.y)).max(mm(whole.to.z));
    let mut svg = Svg::new(size * 2.2);
    let far = |part: &Part, by: &[f64; 3]| {
        let space = part.cuboid();
        let mid = |d: Direction| mm(space.from.along(d) + space.to.along(d)) / 2.0;
        (mid(Direction::Z) + by[2]) * 1.0 + (mid(Direction::X) + by[0]) * 0.35
            - (mid(Direction::Y) + by[1]) * 0.35
    };
    let with_place = |part| {
        let by = apart(part, whole, size);
        (part, by, far(part, &by))
    };
    let mut order: Vec<(&Part, [f64; 3], f64)> = parts.all.iter().map(with_place).collect();
    // Far things first: seen from the front, right and above.
    order.sort_by(|(a, _, far_a), (b, _, far_b)| {
        far_b.total_cmp(far_a).then_with(|| a.path.cmp(&b.path))
    });
    let mut sides: Vec<Side> = Vec::new();
    for (at, (part, by, _)) in order.iter().enumerate() {
        faces(part, by, &mut |corners, fill| sides.push(Side::new(at, corners, fill)));
    }
    for side in &sides {
        svg.polygon(&side.corners, Line::Narrow, side.fill);
    }
    if order.len() <= MARKED {
        marks(&mut svg, &order, &sides, size / 44.0);
    }
    svg.finish("exploded view of the piece")
}

/// The faces of a part that are seen, the front last.
fn faces(part: &Part, by: &[f64; 3], side: &mut dyn FnMut(Vec<Point>, Fill)) {
    let project = |x: f64, y: f64, z: f64| {
        let (x, y, z) = (x + by[0], y + by[1], z + by[2]);
        (x + z * 0.45, -y - z * 0.30)
    };
    let space = part.cuboid();
    let notch = toe(part);
    let boxes = match notch {
        // What stands behind is covered by what stands before and above it.
        Some(at) => above_and_behind(&space, at).into_iter().rev().collect(),
        None => vec![space],
    };
    for own in boxes {
        let (x0, y0, z0) = (mm(own.from.x), mm(own.from.y), mm(own.from.z));
        let (x1, y1, z1) = (mm(own.to.x), mm(own.to.y), mm(own.to.z));
        let at = |corners: [(f64, f64, f64); 4]| corners.map(|(x, y, z)| project(x, y, z)).to_vec();
        let top = at([(x0, y1, z0), (x1, y1, z0), (x1, y1, z1), (x0, y1, z1)]);
        let right = at([(x1, y0, z0), (x1, y1, z0), (x1, y1, z1), (x1, y0, z1)]);
        let front = at([(x0, y0, z0), (x1, y0, z0), (x1, y1, z0), (x0, y1, z0)]);
        side(top, Fill::White);
        if notch.is_none() {
            side(right, Fill::Grey);
        }
        side(front, Fill::White);
    }
    if let Some((y, z)) = notch {
        let x = mm(space.to.x);
        let (y0, y1, y2) = (mm(space.from.y), mm(y), mm(space.to.y));
        let (z0, z1, z2) = (mm(space.from.z), mm(z), mm(space.to.z));
        let corners = [(y2, z0), (y2, z2), (y0, z2), (y0, z1), (y1, z1), (y1, z0)];
        side(corners.map(|(y, z)| project(x, y, z)).to_vec(), Fill::Grey);
    }
}

/// The smallest area that holds all points.
fn hull(points: impl IntoIterator<Item = Point>) -> Area {
    let far = f64::INFINITY;
    points.into_iter().fold(((far, far), (-far, -far)), |area: Area, at| {
        ((area.0.0.min(at.0), area.0.1.min(at.1)), (area.1.0.max(at.0), area.1.1.max(at.1)))
    })
}

impl Side {
    fn new(part: usize, corners: Vec<Point>, fill: Fill) -> Self {
        let area = hull(corners.iter().copied());
        Self { part, corners, area, fill }
    }

    fn holds(&self, at: Point) -> bool {
        if !is_within(&(at, at), &self.area) {
            return false;
        }
        let next = self.corners.iter().cycle().skip(1);
        let crossed = self.corners.iter().zip(next).filter(|(a, b)| {
            (a.1 > at.1) != (b.1 > at.1) && at.0 < (b.0 - a.0) * (at.1 - a.1) / (b.1 - a.1) + a.0
        });
        crossed.count() % 2 == 1
    }
}

/// How many parts a drawing has at the most whose marks are looked for a place one by
/// one: nobody reads a drawing of more.
const MARKED: usize = 400;

/// Each mark on what is seen of its part, or beside it with a line.
fn marks(svg: &mut Svg, order: &[(&Part, [f64; 3], f64)], sides: &[Side], letter: f64) {
    let whole = sides.iter().map(|side| side.area).reduce(|a, b| hull([a.0, a.1, b.0, b.1]));
    let whole = whole.unwrap_or_default();
    let (mut labels, mut drawn) = (Labels::over(&whole), Cells::over(&whole));
    for side in sides {
        labels.draw(side.area);
        drawn.put(&side.area, side);
    }
    let is_seen = |part: usize, at: Point| {
        let top = drawn.near(&(at, at)).find(|side: &&Side| side.holds(at));
        top.is_some_and(|side| side.part == part)
    };
    let mut led = Vec::new();
    for (number, (part, _, _)) in order.iter().enumerate().rev() {
        let is_seen = |at: Point| is_seen(number, at);
        let mut seen = Vec::new();
        let fits = points(number, sides).filter(|at| is_seen(*at)).find(|at| {
            seen.push(*at);
            let own = room(*at, &part.mark, letter);
            let (from, to) = own;
            [from, to, (from.0, to.1), (to.0, from.1)].into_iter().all(is_seen)
                && labels.is_free(&own)
        });
        match (fits, seen.get(seen.len() / 2)) {
            (Some(at), _) => labels.write(svg, at, &part.mark, letter),
            (None, Some(at)) => led.push((*at, part.mark.as_str())),
            (None, None) => {}
        }
    }
    // Those that have no room on themselves come last, round the others.
    for (at, mark) in led {
        labels.lead(svg, at, mark, letter);
    }
}

/// Points on the faces of a part, those of its last faces first.
fn points(part: usize, sides: &[Side]) -> impl Iterator<Item = Point> {
    const STEPS: usize = 9;
    // From the middle outward, so that a mark stands in the middle if it can.
    let place = |step: usize| {
        let away = step.div_ceil(2) as f64 / STEPS as f64;
        if step.is_multiple_of(2) { 0.5 - away } else { 0.5 + away }
    };
    sides.iter().filter(move |side| side.part == part).rev().flat_map(move |own| {
        let (from, to) = own.area;
        let at = move |step: usize| {
            let (along, up) = (place(step % STEPS), place(step / STEPS));
            (from.0 + (to.0 - from.0) * along, from.1 + (to.1 - from.1) * up)
        };
        (0..STEPS * STEPS).map(at).filter(|at| own.holds(*at))
    })
}

/// How far a part is moved from its place.
fn apart(part: &Part, whole: &Cuboid, size: f64) -> [f64; 3] {
    let step = size * 0.22;
    let space = part.cuboid();
    let middle = mm(whole.to.x) / 2.0;
    let side = if mm(space.from.x + space.to.x) / 2.0 < middle { -1.0 } else { 1.0 };
    match (&part.assembly, part.role) {
        (Assembly::Front(_), _) => [0.0, 0.0, -step * 7.5],
        (Assembly::Frame(_), _) => [0.0, 0.0, -step * 3.8],
        (Assembly::DrawerBox(_), Role::DrawerFront) => [0.0, 0.0, -step * 1.9],
        (Assembly::DrawerBox(_), Role::DrawerBottom) => [0.0, -step * 0.12, -step * 1.7],
        (Assembly::DrawerBox(_), _) => [0.0, 0.0, -step * 1.7],
        (Assembly::Base(_), _) => [0.0, -step * 1.6, 0.0],
        (_, Role::End(_)) => [side * step, 0.0, 0.0],
        (_, Role::Bottom) => [0.0, -step * 0.6, 0.0],
        (_, Role::Leg | Role::Kick) => {
            [0.0, -step * 1.1, if part.role == Role::Kick { -step * 0.9 } else { 0.0 }]
        }
        (_, Role::Stretcher | Role::Top) => [0.0, step * 0.9, 0.0],
        (_, Role::Back) => [0.0, step * 0.3, step * 1.9],
        _ => [0.0, 0.0, 0.0],
    }
}
