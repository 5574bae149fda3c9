//! How bodies lie on the paper that are seen from the front, the right, and above, and
//! how they are moved clear of each other there.

use crate::measure::Length;
use crate::parts::{Cuboid, Direction, FeatureKind, Part, Role};

use super::holes;
use super::labels::{Area, is_within, meets, union};
use super::notched;
use super::svg::{Fill, mm};

pub(super) type Point = (f64, f64);

/// A cabinet projection: what runs back is drawn half as long, so far to the right and
/// so far up.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slant {
    right: f64,
    up: f64,
}

/// Twice as far up as to the right: layers of a wide piece stand over each other.
pub(super) const STEEP: Slant = Slant { right: 0.224, up: 0.447 };
/// Twice as far to the right as up: layers of a tall piece stand beside each other.
pub(super) const FLAT: Slant = Slant { right: 0.447, up: 0.224 };
/// As far to the right as up.
pub(super) const EVEN: Slant = Slant { right: 0.354, up: 0.354 };

/// A part, or parts that stay together, with the one text that names them.
pub(super) struct Body<'p> {
    pub(super) parts: Vec<&'p Part>,
    pub(super) label: String,
    pub(super) space: Cuboid,
    /// How far it is moved on the paper.
    pub(super) by: Point,
}

/// A face as it lies on the paper.
pub(super) struct Side {
    pub(super) body: usize,
    /// What names a closed body stands here first: the front of a drawer box, the panel
    /// of a door.
    pub(super) bears_name: bool,
    pub(super) corners: Vec<Point>,
    pub(super) area: Area,
    pub(super) fill: Fill,
    /// The holes in it that are seen face on: their centers and radii.
    pub(super) holes: Vec<(Point, f64)>,
}

impl<'p> Body<'p> {
    /// A part by itself, with its mark.
    pub(super) fn part(part: &'p Part) -> Self {
        let space = part.cuboid();
        Self { parts: vec![part], label: part.mark.clone(), space, by: (0.0, 0.0) }
    }

    /// Parts that stay together; `None` where there are none.
    pub(super) fn closed(parts: Vec<&'p Part>, label: String) -> Option<Self> {
        let spaces = parts.iter().map(|part| part.cuboid());
        let space = spaces.reduce(|a, b| a.union(&b))?;
        Some(Self { parts, label, space, by: (0.0, 0.0) })
    }

    pub(super) fn middle(&self, along: Direction) -> f64 {
        mm(self.space.from.along(along) + self.space.to.along(along)) / 2.0
    }
}

impl Slant {
    fn project(self, (x, y, z): (f64, f64, f64)) -> Point {
        (x + z * self.right, -y - z * self.up)
    }

    /// Where a body lies, in its place or moved.
    pub(super) fn area(self, body: &Body<'_>) -> Area {
        let (from, to) = (&body.space.from, &body.space.to);
        let low = self.project((mm(from.x), mm(from.y), mm(from.z)));
        let far = self.project((mm(to.x), mm(to.y), mm(to.z)));
        let (x, y) = body.by;
        ((low.0 + x, far.1 + y), (far.0 + x, low.1 + y))
    }

    /// Where bodies lie together; `None` where there are none.
    pub(super) fn extent(self, bodies: &[Body<'_>]) -> Option<Area> {
        bodies.iter().map(|body| self.area(body)).reduce(|a, b| union(&a, &b))
    }

    /// How far a depth reaches to the right.
    pub(super) fn to_the_right(self, deep: f64) -> f64 {
        deep * self.right
    }

    /// Moves bodies back, or forward, along the way that runs from front to back, until
    /// they are so far clear of an area.
    pub(super) fn clear(self, bodies: &mut [Body<'_>], of: &Area, gap: f64, is_back: bool) {
        let Some(own) = self.extent(bodies) else { return };
        let turn = if is_back { 1.0 } else { -1.0 };
        let (beside, over) = match is_back {
            true => (of.1.0 + gap - own.0.0, own.1.1 - of.0.1 + gap),
            false => (own.1.0 - of.0.0 + gap, of.1.1 + gap - own.0.1),
        };
        let deep = (beside / self.right).min(over / self.up).max(0.0) * turn;
        shift(bodies, (deep * self.right, -deep * self.up));
    }

    /// Moves bodies straight up, above an area.
    pub(super) fn above(self, bodies: &mut [Body<'_>], of: &Area, gap: f64) {
        let Some(own) = self.extent(bodies) else { return };
        shift(bodies, (0.0, of.0.1 - gap - own.1.1));
    }

    /// Moves bodies straight down, below an area.
    pub(super) fn below(self, bodies: &mut [Body<'_>], of: &Area, gap: f64) {
        let Some(own) = self.extent(bodies) else { return };
        shift(bodies, (0.0, of.1.1 + gap - own.0.1));
    }

    /// Moves bodies sideways, to the right of an area or to the left.
    pub(super) fn beside(self, bodies: &mut [Body<'_>], of: &Area, gap: f64, is_right: bool) {
        let Some(own) = self.extent(bodies) else { return };
        let by = if is_right { of.1.0 + gap - own.0.0 } else { of.0.0 - gap - own.1.0 };
        shift(bodies, (by, 0.0));
    }

    /// Moves each body up until it lies on none below it.
    pub(super) fn stack(self, bodies: &mut [&mut Body<'_>], gap: f64) {
        bodies.sort_by_key(|own| own.space.from.y);
        let mut placed: Vec<Area> = Vec::with_capacity(bodies.len());
        for body in bodies {
            // Those that lie highest come last: one pass from below finds them all.
            for below in &placed {
                let own = self.area(body);
                if meets(&own, below) {
                    body.by.1 += below.0.1 - gap - own.1.1;
                }
            }
            placed.push(self.area(body));
            placed.sort_by(|a, b| b.0.1.total_cmp(&a.0.1));
        }
    }

    /// The faces of a body that are seen, those of the nearest part last and of each
    /// part the front last.
    pub(super) fn faces(self, body: &Body<'_>, number: usize, sides: &mut Vec<Side>) {
        let mut parts = body.parts.clone();
        let far = |part: &Part| self.far_of(&part.cuboid());
        parts.sort_by(|a, b| far(b).total_cmp(&far(a)).then_with(|| a.path.cmp(&b.path)));
        for part in parts {
            let is_plate = matches!(part.role, Role::DrawerFront | Role::FrontPanel);
            let front = mm(part.cuboid().from.z);
            let bored = holes::seen(part, Direction::Z, true);
            let bored: Vec<(Point, f64)> = bored
                .iter()
                .map(|hole| {
                    let (x, y, _) = holes::center(hole);
                    let at = self.project((x, y, front));
                    let at = (at.0 + body.by.0, at.1 + body.by.1);
                    (at, holes::radius(hole, Direction::Z))
                })
                .collect();
            self.part(part, body.by, &mut |corners, fill, is_front| {
                let bears_name = is_front && is_plate;
                let mut own = Side { bears_name, ..Side::new(number, corners, fill) };
                if is_front {
                    let in_it = bored.iter().filter(|(at, _)| own.holds(*at)).copied();
                    own.holes = in_it.collect();
                }
                sides.push(own);
            });
        }
    }

    /// How far away a body is from whoever looks at it.
    pub(super) fn far(self, body: &Body<'_>) -> f64 {
        self.far_of(&body.space)
    }

    fn far_of(self, space: &Cuboid) -> f64 {
        let middle = |along| mm(space.from.along(along) + space.to.along(along)) / 2.0;
        middle(Direction::Z) - middle(Direction::X) * self.right - middle(Direction::Y) * self.up
    }

    fn part(self, part: &Part, by: Point, side: &mut dyn FnMut(Vec<Point>, Fill, bool)) {
        let project = |x: f64, y: f64, z: f64| {
            let at = self.project((x, y, z));
            (at.0 + by.0, at.1 + by.1)
        };
        if let Some(faces) = notched::faces(part) {
            for own in faces {
                let corners = own.corners.into_iter().map(|(x, y, z)| project(x, y, z));
                side(corners.collect(), own.fill, own.is_front);
            }
            return;
        }
        for own in with_tenons(part) {
            let (x0, y0, z0) = (mm(own.from.x), mm(own.from.y), mm(own.from.z));
            let (x1, y1, z1) = (mm(own.to.x), mm(own.to.y), mm(own.to.z));
            let at =
                |corners: [(f64, f64, f64); 4]| corners.map(|(x, y, z)| project(x, y, z)).to_vec();
            let top = at([(x0, y1, z0), (x1, y1, z0), (x1, y1, z1), (x0, y1, z1)]);
            let right = at([(x1, y0, z0), (x1, y1, z0), (x1, y1, z1), (x1, y0, z1)]);
            let front = at([(x0, y0, z0), (x1, y0, z0), (x1, y1, z0), (x0, y1, z0)]);
            side(top, Fill::White, false);
            side(right, Fill::Grey, false);
            side(front, Fill::White, true);
        }
    }
}

impl Side {
    fn new(body: usize, corners: Vec<Point>, fill: Fill) -> Self {
        let far = f64::INFINITY;
        let area = corners.iter().fold(((far, far), (-far, -far)), |area: Area, at| {
            ((area.0.0.min(at.0), area.0.1.min(at.1)), (area.1.0.max(at.0), area.1.1.max(at.1)))
        });
        Self { body, bears_name: false, corners, area, fill, holes: Vec::new() }
    }

    pub(super) fn holds(&self, at: Point) -> bool {
        if !is_within(&(at, at), &self.area) {
            return false;
        }
        let Some(mut a) = self.corners.last() else { return false };
        let mut crossed = false;
        for b in &self.corners {
            crossed ^= (a.1 > at.1) != (b.1 > at.1)
                && at.0 < (b.0 - a.0) * (at.1 - a.1) / (b.1 - a.1) + a.0;
            a = b;
        }
        crossed
    }
}

pub(super) fn shift(bodies: &mut [Body<'_>], by: Point) {
    for body in bodies {
        body.by = (body.by.0 + by.0, body.by.1 + by.1);
    }
}

/// A part from shoulder to shoulder, and the tenons of a rail of a door beside it: the
/// rail covers the one on its left, the one on its right covers the end of the rail.
fn with_tenons(part: &Part) -> Vec<Cuboid> {
    let body = part.shoulders();
    if part.role != Role::FrontRail {
        return vec![body];
    }
    let mut boxes = vec![body];
    for tenon in part.features.iter().filter(|own| own.kind == FeatureKind::Tenon) {
        let (place, mut own) = (&part.placement, part.cuboid());
        let axis = place.direction(tenon.face);
        let (from, to) = match tenon.face.is_start() {
            true => (own.from.along(axis), body.from.along(axis)),
            false => (body.to.along(axis), own.to.along(axis)),
        };
        narrow(&mut own, axis, from, to);
        for (across, (from, to)) in [(place.width, tenon.u), (place.thickness, tenon.v)] {
            let start = place.origin.along(across);
            narrow(&mut own, across, start + from, start + to);
        }
        boxes.insert(if tenon.face.is_start() { 0 } else { boxes.len() }, own);
    }
    boxes
}

/// Leaves of a box what lies between two places along an axis.
fn narrow(space: &mut Cuboid, along: Direction, from: Length, to: Length) {
    match along {
        Direction::X => (space.from.x, space.to.x) = (from, to),
        Direction::Y => (space.from.y, space.to.y) = (from, to),
        Direction::Z => (space.from.z, space.to.z) = (from, to),
    }
}
