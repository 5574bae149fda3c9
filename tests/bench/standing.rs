//! Whether the base of a hand-held router stands on wood: on the work, and on the
//! strips that are clamped beside it.

use super::board::Board;
use super::figures::said;
use super::packet::{Face, Piece};
use super::wood::NOTHING;

/// How many places along a stroke are looked at.
const PLACES: u32 = 40;

/// The wood under a base, seen from above the face that is cut.
pub(super) struct Ground {
    /// Across the cut, counted from the datum.
    across: [f64; 2],
    /// Along it, counted from where the axis begins.
    along: [f64; 2],
}

impl Ground {
    /// The work and its strips, each as long as the work and the strips beside it.
    pub(super) fn of(
        board: &Board<'_>,
        piece: &Piece,
        datum: Face,
        run: usize,
    ) -> Result<Self, String> {
        let mut ground =
            Self { across: [0.0, board.exact[datum.axis]], along: [0.0, board.exact[run]] };
        for strip in &piece.supports {
            let side = board.face(&strip.along)?;
            let wide = strip.wide.print;
            if wide <= NOTHING {
                return Err(format!("a strip along the {} has no width", strip.along));
            }
            let (range, is_far) = match side.axis {
                axis if axis == datum.axis => (&mut ground.across, side.is_end != datum.is_end),
                axis if axis == run => (&mut ground.along, side.is_end),
                _ => return Err(format!("no strip lies along the {}", strip.along)),
            };
            if is_far {
                range[1] += wide;
            } else {
                range[0] -= wide;
            }
        }
        Ok(ground)
    }

    /// What is wrong where a base `base` across runs with its middle over `center`,
    /// along the board from and to.
    ///
    /// Of what a square base has on each side of the bit, half lies on wood; along
    /// the cut, half of it lies on wood at both ends of the stroke, where it comes
    /// on and goes off the work, and all of it somewhere between. (Common practice,
    /// no source.)
    pub(super) fn carries(&self, center: f64, [from, to]: [f64; 2], base: f64) -> Option<String> {
        let half = base / 2.0;
        let beside = [center - self.across[0], self.across[1] - center];
        if let Some(short) = beside.iter().find(|room| **room < half / 2.0 - NOTHING) {
            return Some(format!(
                "over {} the base hangs off: only {} of its {} lie on wood beside the bit",
                said(center),
                said(short.max(0.0)),
                said(half)
            ));
        }
        let under =
            |place: f64| (place + half).min(self.along[1]) - (place - half).max(self.along[0]);
        let step = (to - from) / f64::from(PLACES);
        let places = (0..=PLACES).map(|number| from + step * f64::from(number));
        let (mut least, mut most) = (f64::MAX, f64::MIN);
        for carried in places.map(under) {
            (least, most) = (least.min(carried), most.max(carried));
        }
        if least < half - NOTHING {
            return Some(format!("only {} of the base lie on wood along the cut", said(least)));
        }
        let longest = (self.along[1] - self.along[0]).min(base);
        // A board is sawn to a fence, and a base as long as it hangs over by a hair.
        (longest < base * 0.995 || most < half - NOTHING).then(|| {
            format!(
                "the base is never whole on wood: {} of {} along the cut",
                said(most),
                said(base)
            )
        })
    }

    /// True where a straight-edge at a place lies on wood as far as it must.
    pub(super) fn holds(&self, place: f64, held: f64) -> bool {
        self.across[1] - place >= held - NOTHING
    }
}
