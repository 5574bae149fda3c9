//! Hanging rails: the shop screws the cups on by their printed places, lays the rail in,
//! and looks whether it is level, long enough, held, and out of the way of all else.

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{Cup, Packet, Rail, Work};
use super::wood::{NOTHING, Space};

/// A rail shorter than the room between its boards by more than this falls out of its
/// cups: 1/4 in (common practice, no source).
const LOOSE: f64 = 6.4;
/// A board that a cup is screwed to is at least so thick: 7/16 in, as 1/2 in sheets come
/// (common practice, no source).
const HOLDS: f64 = 11.0;
/// A longer rail hangs in its middle too: 48 in and a little (common practice, no
/// source).
const ALONE: f64 = 1220.0;

/// What is wrong with the rails of a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let rails = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::Rail(rail) => Some(rail),
        _ => None,
    });
    let shop = Shop { packet, boards, tolerance };
    rails
        .flat_map(|rail| {
            let found = shop.rail(rail).unwrap_or_else(|error| vec![error]);
            found.into_iter().map(|what| format!("rail of {}: {what}", rail.opening))
        })
        .collect()
}

struct Shop<'a> {
    packet: &'a Packet,
    boards: &'a [Board<'a>],
    tolerance: f64,
}

impl Shop<'_> {
    fn board(&self, mark: &str) -> Result<&Board<'_>, String> {
        let found = self.boards.iter().find(|board| board.part.mark == mark);
        found.ok_or_else(|| format!("there is no {mark}"))
    }

    fn space(board: &Board<'_>) -> Space {
        board.placed(&whole(board.exact))
    }

    /// The face that a cup lies on, along x, and its center there, in height and depth.
    fn cup(&self, cup: &Cup, left: bool) -> Result<[f64; 3], String> {
        let board = self.board(&cup.part)?;
        let face = board.face(&cup.face)?;
        let ends = [board.face(&cup.from[0])?, board.face(&cup.from[1])?];
        let axes = [face.axis, ends[0].axis, ends[1].axis].map(|axis| {
            let mut own = [[0.0, 0.0]; 3];
            own[axis] = [0.0, 1.0];
            let placed = board.placed(&own);
            (0..3).find(|way| placed[*way][1] - placed[*way][0] > NOTHING)
        });
        if axes != [Some(0), Some(1), Some(2)] {
            return Err(format!("no cup lies on the {} of {}", cup.face, cup.part));
        }
        let space = Self::space(board);
        let at = if left { space[0][1] } else { space[0][0] };
        Ok([at, space[1][0] + cup.above_end.print, space[2][0] + cup.from_edge.print])
    }

    fn rail(&self, rail: &Rail) -> Result<Vec<String>, String> {
        let mut wrong = Vec::new();
        let [left, right] = &rail.on[..] else {
            return Err(format!("it has {} cups", rail.on.len()));
        };
        let ends = [self.cup(left, true)?, self.cup(right, false)?];
        let mm = |length: f64| self.packet.job.unit.mm(length);
        for (axis, what) in [(1, "not level"), (2, "not square to the ends")] {
            // Each of the two places may be off by half a mark.
            if (ends[0][axis] - ends[1][axis]).abs() > self.tolerance * 2.0 {
                wrong.push(format!("it lies {what}"));
            }
        }
        let clear = ends[1][0] - ends[0][0];
        if (clear - rail.between.print).abs() > self.tolerance {
            wrong.push(format!("{} are said to be between its boards", said(rail.between.print)));
        }
        let play = clear - rail.long.print;
        if play < -self.tolerance || play > mm(LOOSE) + self.tolerance {
            wrong.push(format!(
                "cut {} long it has a play of {}",
                said(rail.long.print),
                said(play)
            ));
        }
        let (thick, [x, y, z]) = (rail.diameter.exact / 2.0, ends[0]);
        let space = [[x, ends[1][0]], [y - thick, y + thick], [z - thick, z + thick]];
        for board in self.boards {
            let own = Self::space(board);
            let inside = (0..3).all(|axis| {
                let over = space[axis][1].min(own[axis][1]) - space[axis][0].max(own[axis][0]);
                over > self.tolerance
            });
            if inside {
                wrong.push(format!("{} is where it hangs", board.name()));
            }
        }
        let mut holds = vec![self.board(&left.part)?, self.board(&right.part)?];
        if clear > mm(ALONE) && rail.hangers.is_empty() {
            wrong.push("it is too long for its two cups".to_owned());
        }
        if !rail.hangers.is_empty() {
            let above = rail.hangs_from.as_deref().unwrap_or_default();
            let board = self.board(above)?;
            let own = Self::space(board);
            let under = own[1][0] > y && own[2][0] < z && z < own[2][1];
            let places = rail.hangers.iter().map(|place| x + place.print);
            if !under || places.into_iter().any(|at| at < own[0][0] || own[0][1] < at) {
                wrong.push(format!("its hangers don't reach {above}"));
            }
            holds.push(board);
        }
        for board in holds {
            let own = board.exact.into_iter().fold(f64::MAX, f64::min);
            if own < mm(HOLDS) {
                wrong.push(format!("{} is too thin for its screws", board.name()));
            }
            // A flange is about 1/16 in thick.
            if rail.screw.is_none_or(|screw| screw.exact >= own + mm(1.6)) {
                wrong.push(format!("its screws come through {}", board.name()));
            }
        }
        Ok(wrong)
    }
}
