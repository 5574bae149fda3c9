//! Wood that is not nominal, and machines that are a little off.

use super::packet::Packet;

/// How far they are off: lengths in millimeters, moisture in points.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Off {
    /// Every sheet's thickness.
    pub(super) sheet: f64,
    /// The thickness of the boards that come from an odd sheet: every other one.
    pub(super) odd: f64,
    /// How much more a saw takes than it should; what is sawn is so much narrower.
    pub(super) kerf: f64,
    /// Each fence, stop, and straight-edge. The two settings of one channel are off
    /// together, since the second is set over from the first by a gauge.
    pub(super) fence: f64,
    /// Each second fence is off the other way.
    pub(super) alternate: bool,
    /// The moisture of solid wood, from what it was milled at.
    pub(super) moisture: f64,
}

/// Wood and machines that a shop may meet with: a sheet is up to 0.3 mm off, a kerf
/// 0.1, a fence 0.2, and wood two points of moisture (common practice, no source).
pub(super) const ALL: [(&str, Off); 4] = [
    (
        "thick and damp",
        Off { sheet: 0.3, odd: 0.0, kerf: -0.1, fence: 0.2, alternate: false, moisture: 2.0 },
    ),
    (
        "thin and dry",
        Off { sheet: -0.3, odd: 0.0, kerf: 0.1, fence: -0.2, alternate: false, moisture: -2.0 },
    ),
    (
        "some boards thick",
        Off { sheet: 0.0, odd: 0.3, kerf: -0.1, fence: 0.2, alternate: true, moisture: 0.0 },
    ),
    (
        "some boards thin",
        Off { sheet: 0.0, odd: -0.3, kerf: 0.1, fence: -0.2, alternate: true, moisture: 0.0 },
    ),
];

impl Off {
    /// Nothing is off.
    pub(super) const NOMINAL: Self =
        Self { sheet: 0.0, odd: 0.0, kerf: 0.0, fence: 0.0, alternate: false, moisture: 0.0 };

    /// The same in the unit of the job.
    pub(super) fn of(self, packet: &Packet) -> Self {
        let mm = |millimeters| packet.job.unit.mm(millimeters);
        let [sheet, odd, kerf, fence] = [self.sheet, self.odd, self.kerf, self.fence].map(mm);
        Self { sheet, odd, kerf, fence, ..self }
    }

    /// How far the fence of an operation is off.
    pub(super) fn fence(&self, operation: usize) -> f64 {
        if self.alternate && operation % 2 == 1 { -self.fence } else { self.fence }
    }

    /// How much a part may be out of its drawn place or size by all this: it is
    /// ripped to a fence, and what is cut into it is set by another.
    pub(super) fn slack(&self) -> f64 {
        2.0 * self.fence.abs() + self.kerf.abs() + self.odd.abs()
    }
}
