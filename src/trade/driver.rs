//! What a driver needs to get at a screw: the room along the axis of the screw.

use crate::measure::{Length, Unit};

/// A box along the three axes: from and to, in millimeters.
pub type Block = [[f64; 2]; 3];

/// The box from and to these lengths.
#[must_use]
pub fn block(ranges: [[Length; 2]; 3]) -> Block {
    let side = |[from, to]: [Length; 2]| [from.to_mm_f64(), to.to_mm_f64()];
    let [x, y, z] = ranges;
    [side(x), side(y), side(z)]
}

/// The smallest box that holds both.
#[must_use]
pub fn block_round(one: &Block, other: &Block) -> Block {
    [0, 1, 2].map(|axis| {
        let ([from, to], [other_from, other_to]) = (one[axis], other[axis]);
        [from.min(other_from), to.max(other_to)]
    })
}

/// The box that holds nothing, to begin [`block_round`] with.
pub const NOWHERE: Block = [[f64::INFINITY, f64::NEG_INFINITY]; 3];

/// True where two boxes share space.
#[must_use]
pub fn blocks_meet(one: &Block, other: &Block) -> bool {
    one.iter().zip(other).all(|(one, other)| one[0] < other[1] && other[0] < one[1])
}

/// The angle at which a pocket screw leans to the face that it is bored into: 15 degrees
/// (common practice: the usual jig).
const LEANS: f64 = 15.0;

/// What runs out from the head of a screw along its axis, in millimeters: from where to
/// where, and how thick.
struct Stretch(f64, f64, f64);

/// A drill with a long bit of 6 in (150 mm): the bit, and the drill with its chuck, 8 in
/// (200 mm) long and 2-1/2 in (64 mm) thick (common practice, no source).
const STRAIGHT: [Stretch; 2] = [Stretch(1.0, 150.0, 10.0), Stretch(150.0, 350.0, 64.0)];

/// A right-angle driver: a short bit of 2 in (50 mm), and a head 3-1/2 in (90 mm) long and
/// 1-1/2 in (38 mm) thick (common practice, no source).
const ANGLED: [Stretch; 2] = [Stretch(1.0, 50.0, 10.0), Stretch(50.0, 140.0, 38.0)];

/// A short screwdriver with the hand round it: 3-1/2 in (90 mm) long and 1-1/2 in (38 mm)
/// thick (common practice, no source).
const BY_HAND: Stretch = Stretch(1.0, 90.0, 38.0);

/// The arm of a right-angle driver, which leaves the head at its far end to any of four sides:
/// 8 in (200 mm), as thick as the head (common practice, no source).
const ARM: f64 = 200.0;

/// A long bit is so long: 6 in, 150 mm (common practice, no source).
#[must_use]
pub fn long_bit() -> Length {
    Length::mm(150)
}

/// What a drill needs at a pocket, whose axis leaves the face of its board at 15 degrees: a rail
/// beside the pocket may stand out of that face by no more than this. Where the chuck begins,
/// 150 mm out, the axis is 150 × sin 15 = 38.8 from the face, and the chuck reaches 32 × cos 15 =
/// 30.9 back to it; 1 of those 7.9 is left free.
#[must_use]
pub fn passed_by_drill() -> Length {
    Length::mm(69) / 10
}

/// So far from the middle of a pocket a board stands clear of the drill: half of its 2-1/2 in,
/// 64 mm, and 1/16 in or 1 mm free.
#[must_use]
pub fn beside_drill(unit: Unit) -> Length {
    unit.either(Length::inches(21, 16), Length::mm(33))
}

/// So much room the drill takes square to the face of a pocket: at its end, 350 mm out, the axis
/// is 350 × sin 15 = 90.6 from the face, and the drill reaches 30.9 farther.
#[must_use]
pub fn before_pocket() -> Length {
    Length::mm(122)
}

/// So far from the end of a board so thick the drill reaches along it at a pocket: its axis
/// leaves the face thick / 2 × 3.73 from the end, and 350 × cos 15 = 338.1 farther ends the
/// drill, whose corner reaches 32 × sin 15 = 8.3 beyond.
#[must_use]
pub fn along_pocket(thick: Length) -> Length {
    thick.half() * 373 / 100 + Length::mm(347)
}

/// Between two boards, a right-angle driver takes so much: 1-1/2 in, 38 mm (common practice,
/// no source).
#[must_use]
pub fn driver_wide(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// Boards that are nearer than this to a driver only touch it, in millimeters.
const TOUCHES: f64 = 1.0;

/// So far along its line a screw moves that no driver gets at where it is printed, and so
/// much wood stays beside it then: 1 in (25 mm), and 1/4 in (6 mm), in millimeters (common
/// practice, no source).
pub const ASIDE: (f64, f64) = (25.0, 6.0);

/// The thickest board that a screw goes through: 2 in (50 mm) of a 3 in screw (common
/// practice, no source).
#[must_use]
pub fn screwed_through() -> Length {
    Length::mm(50)
}

/// A screw to be driven: where the bit meets its head, and the way from there back to the
/// hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScrewWay {
    at: [f64; 3],
    back: [f64; 3],
    across: [f64; 3],
}

/// A way along an axis: which of the three, and whether it runs to its end.
pub type Axis = (usize, bool);

fn unit((axis, forward): Axis) -> [f64; 3] {
    let mut way = [0.0; 3];
    way[axis] = if forward { 1.0 } else { -1.0 };
    way
}

impl ScrewWay {
    /// A screw square through a board: `back` is the way to the hand, `across` another
    /// axis.
    #[must_use]
    pub fn square(at: [Length; 3], back: Axis, across: usize) -> Self {
        let at = at.map(Length::to_mm_f64);
        Self { at, back: unit(back), across: unit((across, true)) }
    }

    /// The same screw so many millimeters along its line.
    #[must_use]
    pub fn moved(self, by: f64) -> Self {
        Self { at: [0, 1, 2].map(|axis| self.at[axis] + self.across[axis] * by), ..self }
    }

    /// Where it is along its line.
    #[must_use]
    pub fn along(&self) -> f64 {
        dot(self.at, self.across)
    }

    /// A pocket screw in a board so `thick`: `end` lies on the face that the pocket is
    /// bored into, at the end of the board, which runs on from there along `along`;
    /// `out` is the way out of that face. The screw comes from the middle of the end, so
    /// its axis leaves the face half the thickness over the tangent of its angle further
    /// along.
    #[must_use]
    pub fn pocket(end: [Length; 3], along: Axis, out: Axis, thick: Length) -> Self {
        let (sin, cos) = LEANS.to_radians().sin_cos();
        let reach = thick.to_mm_f64() / 2.0 * cos / sin;
        let (run, rise) = (unit(along), unit(out));
        let end = end.map(Length::to_mm_f64);
        let axes = [0, 1, 2];
        Self {
            at: axes.map(|axis| end[axis] + run[axis] * reach),
            back: axes.map(|axis| run[axis] * cos + rise[axis] * sin),
            across: unit((3 - along.0 - out.0, true)),
        }
    }

    /// A box that no driver of this screw reaches out of, wherever its arm goes.
    #[must_use]
    pub fn reach(&self) -> Block {
        let Stretch(_, far, _) = STRAIGHT[1];
        let Stretch(.., thick) = ANGLED[1];
        let beside = ARM + thick / 2.0;
        [0, 1, 2].map(|axis| {
            let (head, hand) = (self.at[axis], self.at[axis] + self.back[axis] * far);
            [head.min(hand) - beside, head.max(hand) + beside]
        })
    }

    /// A box that no straight driver of this screw reaches out of.
    #[must_use]
    pub fn drill(&self) -> Block {
        let Stretch(_, far, thick) = STRAIGHT[1];
        [0, 1, 2].map(|axis| {
            let (head, hand) = (self.at[axis], self.at[axis] + self.back[axis] * far);
            [head.min(hand) - thick / 2.0, head.max(hand) + thick / 2.0]
        })
    }

    /// The first of these boards that keeps a straight driver off, where a right-angle
    /// driver does not get in either.
    #[must_use]
    pub fn stopped(&self, boards: &[Block]) -> Option<usize> {
        let hit = |bar: &Bar| boards.iter().position(|board| bar.meets(board));
        let stopped = STRAIGHT.iter().find_map(|own| hit(&self.bar(own)))?;
        let other = cross(self.back, self.across);
        let head = ANGLED.iter().all(|own| hit(&self.bar(own)).is_none());
        let Stretch(_, end, thick) = ANGLED[1];
        let elbow = end - thick / 2.0;
        let from = [0, 1, 2].map(|axis| self.at[axis] + self.back[axis] * elbow);
        let turns = || {
            let ways = [self.across, other].into_iter();
            let mut arms = ways.flat_map(|way| {
                let side = cross(way, self.back);
                let arm = |sign: f64| {
                    let way = way.map(|own| own * sign);
                    Bar::along(from, [way, side, self.back], [0.0, ARM], thick / 2.0)
                };
                [arm(1.0), arm(-1.0)]
            });
            arms.any(|arm| hit(&arm).is_none())
        };
        (!(head && turns())).then_some(stopped)
    }

    /// The same where a short screwdriver will do, too.
    #[must_use]
    pub fn stopped_by_hand(&self, boards: &[Block]) -> Option<usize> {
        let hand = self.bar(&BY_HAND);
        let stopped = self.stopped(boards)?;
        boards.iter().any(|board| hand.meets(board)).then_some(stopped)
    }

    fn bar(&self, Stretch(near, far, thick): &Stretch) -> Bar {
        let other = cross(self.back, self.across);
        Bar::along(self.at, [self.back, self.across, other], [*near, *far], thick / 2.0)
    }
}

/// A bar in space: its middle, its three axes, half its size along each, and the box that
/// holds it.
struct Bar {
    middle: [f64; 3],
    axes: [[f64; 3]; 3],
    half: [f64; 3],
    around: Block,
}

impl Bar {
    /// One that runs from a place along the first of its axes.
    fn along(from: [f64; 3], axes: [[f64; 3]; 3], [near, far]: [f64; 2], half: f64) -> Self {
        let at = f64::midpoint(near, far);
        let middle = [0, 1, 2].map(|axis| from[axis] + axes[0][axis] * at);
        let half = [(far - near) / 2.0, half, half];
        let around = [0, 1, 2].map(|axis| {
            let reach: f64 = (0..3).map(|own| half[own] * axes[own][axis].abs()).sum();
            [middle[axis] - reach, middle[axis] + reach]
        });
        Self { middle, axes, half, around }
    }

    /// True where it and a board share space: along each of the fifteen ways in which two
    /// boxes can lie apart, half of both together is more than lies between their middles.
    fn meets(&self, board: &Block) -> bool {
        // Most boards lie apart along an axis of their own.
        let mut axes = self.around.iter().zip(board);
        if axes.any(|(own, board)| own[1].min(board[1]) - own[0].max(board[0]) <= TOUCHES) {
            return false;
        }
        let middle = board.map(|[from, to]| f64::midpoint(from, to));
        let half = board.map(|[from, to]| (to - from) / 2.0);
        let between = [0, 1, 2].map(|axis| middle[axis] - self.middle[axis]);
        let shared = |way: [f64; 3]| {
            let bar: f64 = (0..3).map(|own| self.half[own] * dot(self.axes[own], way).abs()).sum();
            let board: f64 = (0..3).map(|axis| half[axis] * way[axis].abs()).sum();
            bar + board - dot(between, way).abs()
        };
        let square = [0, 1, 2].map(|axis| unit((axis, true)));
        let crossed = self.axes.into_iter().flat_map(|own| square.map(|way| cross(own, way)));
        let long = |way: [f64; 3]| dot(way, way).sqrt();
        let crossed = crossed.filter(|way| long(*way) > 1e-9);
        let crossed = crossed.map(|way| way.map(|own| own / long(way)));
        self.axes.into_iter().chain(square).chain(crossed).all(|way| shared(way) > TOUCHES)
    }
}

fn dot(one: [f64; 3], other: [f64; 3]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(range: [i64; 2]) -> [Length; 2] {
        range.map(Length::mm)
    }

    fn wall(from: i64) -> Block {
        block([mm([from, from + 18]), mm([-500, 500]), mm([-500, 500])])
    }

    fn straight() -> ScrewWay {
        ScrewWay::square([Length::ZERO; 3], (0, true), 2)
    }

    /// Worked by hand. A drill with its long bit needs 350, a right-angle driver 140: with
    /// a wall that far off either gets in, and one 138 off stops both.
    #[test]
    fn a_right_angle_driver_gets_in_where_a_drill_does_not() {
        assert_eq!(straight().stopped(&[wall(351)]), None);
        assert_eq!(straight().stopped(&[wall(200)]), None);
        assert_eq!(straight().stopped(&[wall(140)]), None);
        assert_eq!(straight().stopped(&[wall(138)]), Some(0));
    }

    /// Worked by hand. The drill ends 350 behind the screw, the arm of the other 219 beside
    /// it: 200, and half of 38.
    #[test]
    fn no_driver_reaches_out_of_its_box() {
        let reach = straight().reach();
        assert_eq!(reach, [[-219.0, 569.0], [-219.0, 219.0], [-219.0, 219.0]]);
        assert!(blocks_meet(&reach, &wall(568)) && !blocks_meet(&reach, &wall(569)));
    }

    /// Worked by hand. Between shelves 150 apart about the screw the drill, 64 thick, has
    /// room; the arm of the other turns aside where they leave no 200.
    #[test]
    fn the_arm_turns_to_where_there_is_room() {
        let shelf = |from: i64| block([mm([0, 400]), mm([from, from + 18]), mm([-500, 500])]);
        let between = [shelf(75), shelf(-93), wall(160)];
        assert_eq!(straight().stopped(&between), None);
        // Closed to the front and the back, too, no side is left for the arm.
        let side = |from: i64| block([mm([0, 400]), mm([-500, 500]), mm([from, from + 18])]);
        let shut = [shelf(75), shelf(-93), wall(160), side(100), side(-118)];
        assert_eq!(straight().stopped(&shut), Some(2));
    }

    /// Worked by hand. In a board 18 thick the axis leaves the face 9 / tan 15 = 33.6 from
    /// the end; 150 on along it the drill begins, 38.8 above the face. Its lower edge lies
    /// 32 × cos 15 = 30.9 nearer to it: 7.9 above. A strip 7 thick on the board beside it
    /// is not in the way and one of 12 is.
    #[test]
    fn a_pocket_screw_leans_out_of_its_face() {
        let screw = ScrewWay::pocket([Length::ZERO; 3], (0, true), (1, true), Length::mm(18));
        assert!((screw.at[0] - 33.588).abs() < 0.001, "{screw:?}");
        let strip = |thick: i64| [mm([150, 500]), mm([0, thick]), mm([-500, 500])];
        let stops =
            |thick: i64| STRAIGHT[1..].iter().any(|own| screw.bar(own).meets(&block(strip(thick))));
        assert!(!stops(7) && stops(12));
    }
}
