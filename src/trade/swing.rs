//! How the leaf of a door swings, in plan.
//!
//! Plane geometry throughout. A leaf in its own frame: the front corner at its
//! hinge edge is the origin when it is closed, `aside` runs from the hinge edge
//! to the lead edge, `out` toward the room.

use std::ops::{Add, Div, Mul, Sub};

use super::plane::{Spot, behind, shared};
use crate::measure::{Angle, Exact, Length, Unit};

/// Where the front corner at the hinge edge lies at one angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pose {
    /// How far the door is open.
    pub at: Angle,
    /// From its place when closed toward the room.
    pub out: Length,
    /// Away from the hinge stile; below nought toward it.
    pub aside: Length,
}

/// What a leaf turns about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pivot {
    /// A pin in line with the hinge edge.
    Pin {
        /// From the leaf's front forward to the pin; below nought behind it.
        ahead: Length,
    },
    /// A linkage: its poses from nought upward, straight lines between them,
    /// and past the last one its displacement.
    Poses(Vec<Pose>),
}

impl Pivot {
    /// How far the front corner has moved aside when the door stands square to
    /// the front.
    #[must_use]
    pub fn aside_when_square(&self) -> Length {
        match self {
            Self::Pin { ahead } => *ahead,
            Self::Poses(poses) => {
                let mm = |length: Length| length.in_unit(Unit::Millimetre);
                let table: Vec<_> =
                    poses.iter().map(|pose| (pose.at.0, [mm(pose.out), mm(pose.aside)])).collect();
                let [_, aside] = along(&table, Exact::int(90)).unwrap_or([Exact::ZERO; 2]);
                Length::new(aside, Unit::Millimetre)
            }
        }
    }
}

/// A table read between its lines.
fn along<T>(table: &[(T, [T; 2])], at: T) -> Option<[T; 2]>
where
    T: Copy + PartialOrd + Add<Output = T> + Sub<Output = T> + Mul<Output = T> + Div<Output = T>,
{
    let mut before: Option<&(T, [T; 2])> = None;
    for line in table {
        if at <= line.0 {
            let Some((from, values)) = before else { return Some(line.1) };
            let part = (at - *from) / (line.0 - *from);
            let [a, b] = [values[0], values[1]];
            return Some([a + (line.1[0] - a) * part, b + (line.1[1] - b) * part]);
        }
        before = Some(line);
    }
    before.map(|line| line.1)
}

/// What turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Body {
    /// The leaf.
    Leaf,
    /// Its pull.
    Pull,
}

/// An edge of a leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// The edge it is hung by.
    Hinge,
    /// The edge it is opened at.
    Lead,
}

/// What a leaf turns about, in millimetres and degrees.
#[derive(Clone, Debug)]
enum Turn {
    Pin(f64),
    Poses(Vec<(f64, [f64; 2])>),
}

/// A leaf at one angle: its front corner at the hinge edge, and which way it
/// runs from there.
struct Stand {
    corner: Spot,
    sin: f64,
    cos: f64,
}

impl Stand {
    /// A place so far from the hinge edge and so far before the front face.
    fn spot(&self, from_hinge: f64, before: f64) -> Spot {
        let Self { corner, sin, cos } = self;
        Spot::new(
            corner.aside + from_hinge * cos - before * sin,
            corner.out + from_hinge * sin + before * cos,
        )
    }
}

/// A leaf in plan.
#[derive(Clone, Debug)]
pub struct Leaf {
    wide: f64,
    thick: f64,
    /// From the hinge edge to the pull's near and far side, and how far it stands.
    pull: Option<(f64, f64, f64)>,
    turn: Turn,
}

impl Leaf {
    /// A leaf without a pull.
    #[must_use]
    pub fn new(wide: Length, thick: Length, pivot: &Pivot) -> Self {
        let turn = match pivot {
            Pivot::Pin { ahead } => Turn::Pin(ahead.to_mm_f64()),
            Pivot::Poses(poses) => Turn::Poses(
                poses
                    .iter()
                    .map(|pose| {
                        (pose.at.0.to_f64(), [pose.out.to_mm_f64(), pose.aside.to_mm_f64()])
                    })
                    .collect(),
            ),
        };
        Self { wide: wide.to_mm_f64(), thick: thick.to_mm_f64(), pull: None, turn }
    }

    /// With a pull between two distances from the hinge edge, that `stands`
    /// off the front face.
    #[must_use]
    pub fn with_pull(mut self, (near, far): (Length, Length), stands: Length) -> Self {
        self.pull = Some((near.to_mm_f64(), far.to_mm_f64(), stands.to_mm_f64()));
        self
    }

    /// Where the front corner at the hinge edge lies.
    fn corner(&self, degrees: f64) -> Spot {
        match &self.turn {
            Turn::Pin(ahead) => {
                let (sin, cos) = degrees.to_radians().sin_cos();
                Spot::new(ahead * sin, ahead * (1.0 - cos))
            }
            Turn::Poses(table) => {
                let [out, aside] = along(table, degrees).unwrap_or([0.0; 2]);
                Spot::new(aside, out)
            }
        }
    }

    /// How the leaf stands when it is open so far.
    fn stand(&self, degrees: f64) -> Stand {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Stand { corner: self.corner(degrees), sin, cos }
    }

    /// The four corners of the leaf, its edges off square by a bevel that takes
    /// so much off the back.
    fn bevelled(&self, degrees: f64, hinge: f64, lead: f64) -> [Spot; 4] {
        let stand = self.stand(degrees);
        [
            stand.spot(0.0, 0.0),
            stand.spot(self.wide, 0.0),
            stand.spot(self.wide - lead, -self.thick),
            stand.spot(hinge, -self.thick),
        ]
    }

    /// The corners of the leaf, or of its pull as a rectangle on its face; no
    /// corners for a pull that there is not.
    fn corners(&self, body: Body, degrees: f64) -> Vec<Spot> {
        match (body, self.pull) {
            (Body::Leaf, _) => self.bevelled(degrees, 0.0, 0.0).to_vec(),
            (Body::Pull, Some((near, far, stands))) => {
                let stand = self.stand(degrees);
                [(near, 0.0), (far, 0.0), (far, stands), (near, stands)]
                    .map(|(from_hinge, before)| stand.spot(from_hinge, before))
                    .to_vec()
            }
            (Body::Pull, None) => Vec::new(),
        }
    }

    /// A box that holds the leaf or pull wherever it is on its way up to an
    /// angle of half a turn at most: a place so far from the hinge edge, and so
    /// far before the face, never gets farther from the front corner than the
    /// two make together, and the corner itself moves by no more than it does.
    fn sweep(&self, body: Body, up_to: f64) -> [Spot; 4] {
        let (near, far, behind, before) = match (body, self.pull) {
            (Body::Leaf, _) => (0.0, self.wide, self.thick, 0.0),
            (Body::Pull, Some((near, far, stands))) => (near, far, 0.0, stands),
            (Body::Pull, None) => (0.0, 0.0, 0.0, 0.0),
        };
        let off: f64 = f64::max(behind, before);
        let reach = f64::max(near.abs(), far.abs()).hypot(off);
        // Up to square nothing swings past the hinge edge but what stands off
        // the face, and nothing back but what lies behind it.
        let square = up_to <= 90.0 && near >= 0.0;
        let (past, back) = if square { (before, behind) } else { (reach, reach) };
        let (aside, out) = self.moved();
        [
            Spot::new(aside.0 - past, out.0 - back),
            Spot::new(aside.1 + reach, out.0 - back),
            Spot::new(aside.1 + reach, out.1 + reach),
            Spot::new(aside.0 - past, out.1 + reach),
        ]
    }

    /// From and to of where the front corner at the hinge edge may lie.
    fn moved(&self) -> ((f64, f64), (f64, f64)) {
        let none = (0.0, 0.0);
        let wider = |(from, to): (f64, f64), at: f64| (from.min(at), to.max(at));
        match &self.turn {
            // By half a turn it comes out to the other side of the pin.
            Turn::Pin(ahead) => (wider(none, *ahead), wider(none, ahead * 2.0)),
            Turn::Poses(table) => table
                .iter()
                .fold((none, none), |(a, o), (_, [out, aside])| (wider(a, *aside), wider(o, *out))),
        }
    }

    /// How far the leaf reaches past one of its edges' places when closed,
    /// behind the plane of the front, anywhere on its way up to `degrees`.
    fn reach(&self, edge: Edge, bevel: f64, up_to: f64) -> f64 {
        let off = self.thick * bevel.to_radians().tan();
        let (hinge, lead) = if edge == Edge::Hinge { (off, 0.0) } else { (0.0, off) };
        let past = |degrees: f64| {
            let within = behind(&self.bevelled(degrees, hinge, lead));
            let past = within.iter().map(|spot| match edge {
                Edge::Hinge => -spot.aside,
                Edge::Lead => spot.aside - self.wide,
            });
            past.fold(f64::NEG_INFINITY, f64::max)
        };
        // Cut off at nought only here: on a level stretch the search would
        // walk past what stands out between two samples.
        peak(up_to, past).max(0.0)
    }

    /// The gap that an inset leaf needs beside one of its edges, so that
    /// nothing of it strikes while it opens `up_to` an angle. Rounded up to a
    /// thousandth of a millimetre.
    #[must_use]
    pub fn gap_needed(&self, edge: Edge, up_to: Angle) -> Length {
        thousandths_up(self.reach(edge, 0.0, up_to.0.to_f64()))
    }

    /// How far the leaf, open so far, stands over its opening from the place of its
    /// closed hinge edge; nothing where it stands clear of that. What slides out past
    /// it must stay beyond. Rounded up to a thousandth of a millimetre.
    #[must_use]
    pub fn stands_over(&self, at: Angle) -> Length {
        let corners = self.corners(Body::Leaf, at.0.to_f64());
        thousandths_up(corners.iter().map(|spot| spot.aside).fold(0.0, f64::max))
    }

    /// The bevel of an edge, off square toward the back, with which `gap` is
    /// enough: up to 10 degrees, rounded up to a tenth; `None` where none helps.
    #[must_use]
    pub fn back_bevel(&self, edge: Edge, gap: Length, up_to: Angle) -> Option<Angle> {
        // A hair more than the gap: what bisection closes in on.
        let gap = gap.to_mm_f64() + 1e-6;
        let clears = |bevel: f64| self.reach(edge, bevel, up_to.0.to_f64()) <= gap;
        let (mut strikes, mut free) = (0.0, 10.0);
        if !clears(free) {
            return None;
        }
        for _ in 0..24 {
            let middle = (strikes + free) / 2.0;
            if clears(middle) { free = middle } else { strikes = middle }
        }
        Some(Angle(Exact::ratio((free * 10.0 - 1e-4).ceil() as i64, 10)))
    }
}

/// Up to the next thousandth of a millimetre, past the noise of the arithmetic.
fn thousandths_up(mm: f64) -> Length {
    Length::mm(1) * Exact::ratio((mm * 1000.0 - 1e-3).ceil() as i64, 1000)
}

/// The greatest value on the way up to an angle: sampled, then narrowed round
/// the greatest sample.
fn peak(up_to: f64, value: impl Fn(f64) -> f64) -> f64 {
    let steps = (up_to * 4.0).ceil().max(1.0) as u32;
    let step = up_to / f64::from(steps);
    let mut best = (0.0, value(0.0));
    for number in 1..=steps {
        let at = step * f64::from(number);
        let here = value(at);
        if here > best.1 {
            best = (at, here);
        }
    }
    let (mut from, mut to) = ((best.0 - step).max(0.0), (best.0 + step).min(up_to));
    for _ in 0..60 {
        let third = (to - from) / 3.0;
        if value(from + third) < value(to - third) { from += third } else { to -= third }
    }
    best.1.max(value((from + to) / 2.0))
}

/// The angle before which something first holds on the way up to `up_to`:
/// sampled at each degree at most, then bisected. What holds from the start is
/// no matter of turning.
fn first(up_to: f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    if holds(0.0) {
        return None;
    }
    let steps = up_to.ceil().max(1.0) as u32;
    let angle = |number: u32| up_to * f64::from(number) / f64::from(steps);
    let number = (1..=steps).find(|number| holds(angle(*number)))?;
    let (mut free, mut held) = (angle(number - 1), angle(number));
    for _ in 0..24 {
        let middle = (free + held) / 2.0;
        if holds(middle) { held = middle } else { free = middle }
    }
    Some(free)
}

/// A rectangle in plan, square to the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Patch {
    /// From and to along the front, left to right.
    pub x: (Length, Length),
    /// From and to out toward the room.
    pub out: (Length, Length),
}

/// A leaf in its place in plan.
#[derive(Clone, Debug)]
pub struct Hung {
    leaf: Leaf,
    x: Length,
    out: Length,
    by_right: bool,
    open: f64,
    /// The boxes that leaf and pull keep to on their way.
    sweeps: [[Spot; 4]; 2],
}

impl Hung {
    /// A leaf whose front corner at the hinge edge lies at `(x, out)` when it
    /// is closed, hung by its right edge or its left, that opens so far.
    #[must_use]
    pub fn new(leaf: Leaf, (x, out): (Length, Length), by_right: bool, open: Angle) -> Self {
        let open = open.0.to_f64();
        let sweeps = [Body::Leaf, Body::Pull].map(|body| leaf.sweep(body, open));
        Self { leaf, x, out, by_right, open, sweeps }
    }

    /// Where its hinge edge lies along the front when it is closed.
    #[must_use]
    pub fn x(&self) -> Length {
        self.x
    }

    /// A rectangle as the leaf sees it.
    fn seen(&self, patch: &Patch) -> [Spot; 4] {
        let aside = |x: Length| if self.by_right { self.x - x } else { x - self.x };
        let (a, b) = (aside(patch.x.0).to_mm_f64(), aside(patch.x.1).to_mm_f64());
        let out = |out: Length| (out - self.out).to_mm_f64();
        let (from, to) = (out(patch.out.0), out(patch.out.1));
        [Spot::new(a, from), Spot::new(b, from), Spot::new(b, to), Spot::new(a, to)]
    }

    /// The angle that the leaf reaches before its leaf or pull comes more than
    /// `mercy` into a rectangle, rounded down to a tenth of a degree; `None`
    /// where it goes free until it is open, or lies in it when closed.
    #[must_use]
    pub fn stopped(&self, body: Body, by: &Patch, mercy: Length) -> Option<Angle> {
        let (patch, mercy) = (self.seen(by), mercy.to_mm_f64());
        let [leaf, pull] = &self.sweeps;
        if shared(if body == Body::Leaf { leaf } else { pull }, &patch) <= 0.0 {
            return None;
        }
        let reached =
            first(self.open, |degrees| shared(&self.leaf.corners(body, degrees), &patch) > mercy)?;
        Some(Angle(Exact::ratio((reached * 10.0 + 1e-6).floor() as i64, 10)))
    }

    /// True where the leaf or pull, fully open, lies more than `mercy` in a
    /// rectangle.
    #[must_use]
    pub fn meets(&self, body: Body, patch: &Patch, mercy: Length) -> bool {
        let own = self.leaf.corners(body, self.open);
        shared(&own, &self.seen(patch)) > mercy.to_mm_f64()
    }

    /// True where the leaf or pull, fully open, lies more than `mercy` in that
    /// of another, open too.
    #[must_use]
    pub fn meets_open(&self, body: Body, other: &Self, others: Body, mercy: Length) -> bool {
        let own = self.leaf.corners(body, self.open);
        let (x, out) = ((other.x - self.x).to_mm_f64(), (other.out - self.out).to_mm_f64());
        let shape: Vec<Spot> = other
            .leaf
            .corners(others, other.open)
            .into_iter()
            .map(|spot| {
                let right = if other.by_right { x - spot.aside } else { x + spot.aside };
                Spot::new(if self.by_right { -right } else { right }, out + spot.out)
            })
            .collect();
        shared(&own, &shape) > mercy.to_mm_f64()
    }
}

#[cfg(test)]
mod tests;
