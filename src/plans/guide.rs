//! Where the guide of a router stands for a channel, and in which order: one
//! guide a set-up, and no setting that makes a climb cut of the next.
//!
//! Seen from above a hand-held router turns clockwise and pulls to the left of
//! its feed, so a straight-edge stands on its left. A stroke that takes wood on
//! the left of the bit only is sound; one that takes it on the right only is a
//! climb cut. Every further stroke therefore steps to the left of the feed:
//! toward a straight-edge, or on a router table away from the fence. (A router
//! manual and a page on router tables say so; the order for two walls is in a
//! woodworking magazine's note on wide dadoes: the wall farthest from the
//! straight-edge first.)

use crate::measure::{Exact, Length, Unit};
use crate::model::Size;
use crate::parts::{Channel, Face};
use crate::trade;

/// What the router runs along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guide {
    /// A straight-edge between the datum and the cut.
    Near,
    /// A straight-edge on the far side of the cut, seen from the datum.
    Far,
    /// The fence of a router table; the datum runs along it.
    Table,
    /// The fence of the table saw, or the stop on its sled; the datum lies against it.
    Saw,
}

impl Guide {
    /// Which of so many places the set-over from the first is counted to: the last, or of a
    /// saw the other wall, since what comes behind it lies between the two.
    #[must_use]
    pub fn set_over_to(self, places: usize) -> usize {
        let last = places.saturating_sub(1);
        match self {
            Self::Saw => last.min(1),
            Self::Near | Self::Far | Self::Table => last,
        }
    }
}

/// A guide and its places, from the datum, in the order in which they are cut:
/// to the edge of a straight-edge, or from the fence to the near side of the bit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Guided {
    /// What the router runs along.
    pub guide: Guide,
    /// Where it is set, one place a stroke.
    pub settings: Vec<Length>,
    /// How far the last place lies from the first; zero for one place.
    pub set_over: Length,
}

impl Guided {
    /// Where the center of a bit `bit` across runs, from the datum, in a router
    /// whose base plate is `base` across.
    pub(super) fn centers(&self, bit: Length, base: Length) -> Vec<Length> {
        let center = |set: &Length| match self.guide {
            Guide::Near => *set + base.half(),
            Guide::Far => *set - base.half(),
            Guide::Table | Guide::Saw => *set + bit.half(),
        };
        self.settings.iter().map(center).collect()
    }
}

/// What a guide needs to know of the board.
#[derive(Clone, Copy, Debug)]
pub(super) struct Board {
    /// The face that is cut.
    pub(super) face: Face,
    /// The face across the run of the cut.
    pub(super) across: Length,
    /// The face along it.
    pub(super) run: Length,
    /// The cut runs out on both sides.
    pub(super) through: bool,
}

impl Board {
    /// True where a fence as near as that leads the board over a router table: no
    /// long board on its end, no sheet, no cut that begins or ends in the wood.
    pub(super) fn goes_over_table(&self, channel: &Channel, unit: Unit) -> bool {
        let within = channel.from + channel.wide <= trade::farthest_fence(unit);
        let (across, run) = trade::largest_on_table(unit);
        within && self.through && self.across <= across.min(self.run) && self.run <= run
    }
}

/// The guide for a channel cut with a bit `bit` across in a router whose base
/// plate is `base` across.
pub(super) fn guide(
    channel: &Channel,
    board: Board,
    bit: Length,
    base: Length,
    unit: Unit,
) -> Guided {
    let cut = Cut {
        from: channel.from.into(),
        wide: channel.wide.into(),
        bit: bit.into(),
        base: base.into(),
    };
    let places = |guide| cut.places(guide).iter().map(|place| place.length).collect();
    let nearest: Vec<Length> = places(Guide::Table);
    let far: Vec<Length> = places(Guide::Far);
    let near: Vec<Length> = places(Guide::Near);
    // The straight-edge needs so much of the board to be clamped on, and the
    // base so much to stand on.
    let hold = trade::narrowest_routed(unit);
    // A narrow board is held in scrap for a cut that no fence reaches.
    let beyond = nearest.iter().any(|side| *side > trade::farthest_fence(unit));
    // A cut across a post is made like one across a board.
    let across = matches!(board.face, Face::WidthStart | Face::WidthEnd) && !channel.along;
    let stands = (board.face.is_broad() || across) && (board.run >= hold || beyond);
    let first = near.iter().min().copied().unwrap_or_default();
    let last = far.last().copied().unwrap_or_default();
    // What lies so near its datum that the base hangs off goes over the table
    // where the board is small enough for it.
    let hangs = nearest.iter().any(|side| *side + bit.half() < trade::carried_beside(base));
    let fenced = hangs && board.goes_over_table(channel, unit);
    let (guide, settings) = if stands && first >= hold {
        (Guide::Near, near)
    } else if stands && !fenced && board.across - last >= hold {
        (Guide::Far, far)
    } else {
        return on_table(channel, bit);
    };
    guided(guide, settings)
}

/// A channel cut along the fence of a router table.
pub(super) fn on_table(channel: &Channel, bit: Length) -> Guided {
    let cut = Cut {
        from: channel.from.into(),
        wide: channel.wide.into(),
        bit: bit.into(),
        base: Size::zero(),
    };
    guided(Guide::Table, cut.near_sides().iter().map(|side| side.length).collect())
}

/// A channel cut with a plain blade of the table saw, kerf by kerf: both walls, and what
/// clears the wood between them.
pub(super) fn on_saw(channel: &Channel, kerf: Length) -> Guided {
    let cut = Cut {
        from: channel.from.into(),
        wide: channel.wide.into(),
        bit: kerf.into(),
        base: Size::zero(),
    };
    guided(Guide::Saw, cut.kerfs().iter().map(|side| side.length).collect())
}

fn guided(guide: Guide, settings: Vec<Length>) -> Guided {
    let over = |first: &Length, last: &Length| (*last - *first).abs();
    let last = settings.get(guide.set_over_to(settings.len()));
    let set_over = settings.first().zip(last).map(|(first, last)| over(first, last));
    let set_over = set_over.unwrap_or_default();
    Guided { guide, settings, set_over }
}

/// A channel and the tool that cuts it: all that a guide is set by. With the
/// statements that these sizes come from, its places tell theirs.
#[derive(Clone, Debug)]
pub struct Cut {
    /// From the datum to the near side of the channel.
    pub from: Size,
    /// The width of the channel.
    pub wide: Size,
    /// The diameter of the bit.
    pub bit: Size,
    /// Across the base plate of the router.
    pub base: Size,
}

impl Cut {
    /// Where a guide is set, from the datum, in the order in which it is cut. The
    /// base plate runs along a straight-edge, half of it from the bit's center.
    #[must_use]
    pub fn places(&self, guide: Guide) -> Vec<Size> {
        let nearest = self.near_sides();
        let half = (&self.base - &self.bit).half();
        match guide {
            Guide::Table => nearest,
            Guide::Saw => self.kerfs(),
            Guide::Far => nearest.iter().map(|side| side + &self.bit + &half).collect(),
            Guide::Near => nearest.iter().rev().map(|side| side - &half).collect(),
        }
    }

    /// Where the near side of a saw blade runs, from the datum: at the wall that places the
    /// board, at the wall that gives its fit, and then evenly between them. (A training
    /// manual for carpenters of the US Navy cuts one shoulder, then the other, and then as
    /// often as it takes between them.)
    ///
    /// Steps of three quarters of a kerf at most leave no ridge, however a figure is rounded,
    /// and they come to more than half a kerf, so that no cut finds its wood gone.
    fn kerfs(&self) -> Vec<Size> {
        let over = &self.wide - &self.bit;
        if over.length <= trade::mating() {
            return vec![self.from.clone()];
        }
        let mut kerfs = vec![self.from.clone(), &self.from + over.clone()];
        if over.length > self.bit.length {
            let most = self.bit.length * Exact::ratio(3, 4);
            let steps = (over.length / most).ceil().clamp(2, 1_000);
            let between = (1..steps).map(|step| over.clone() * Exact::ratio(step, steps));
            kerfs.extend(between.map(|step| &self.from + step));
        }
        kerfs
    }

    /// Where the near side of the bit runs, from the datum: both walls of the
    /// channel, and as many strokes between them as clear what is left. A bit wider
    /// than its rabbet hangs over the datum.
    fn near_sides(&self) -> Vec<Size> {
        let over = &self.wide - &self.bit;
        if over.length < -trade::mating() {
            return vec![&self.from + over];
        }
        if over.length <= trade::mating() {
            return vec![self.from.clone()];
        }
        let bit = self.bit.length;
        let fresh = bit - trade::stroke_overlap(bit);
        let more = (over.length / fresh).ceil().clamp(1, 1_000);
        (0..=more).map(|step| &self.from + over.clone() * Exact::ratio(step, more)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn channel(from: Length, wide: Length) -> Channel {
        let stops = (Length::ZERO, Length::ZERO);
        Channel { along: false, datum: Face::LengthStart, from, wide, stops }
    }

    fn mm(millimetres: i64) -> Length {
        Length::mm(millimetres)
    }

    fn board(across: i64, run: i64) -> Board {
        Board { face: Face::ThickStart, across: mm(across), run: mm(run), through: true }
    }

    fn set(from: i64, wide: i64, board: Board, bit: i64) -> (Guide, Vec<Length>) {
        let guided = guide(&channel(mm(from), mm(wide)), board, mm(bit), mm(150), Unit::Millimetre);
        (guided.guide, guided.settings)
    }

    /// Worked by hand: a dado from 27 to 45 with a bit of 12 under a base of
    /// 150. On the far side the base's edge lies 75 beyond the bit's center:
    /// 27 + 6 + 75 = 108 for the near wall, 45 − 6 + 75 = 114 for the far one.
    #[test]
    fn a_far_straight_edge_begins_at_the_near_wall() {
        assert_eq!(set(27, 18, board(1820, 560), 12), (Guide::Far, vec![mm(108), mm(114)]));
    }

    /// A dado from 400 to 418: the far wall first, 418 − 6 − 75 = 337, then
    /// toward the datum, 400 + 6 − 75 = 331.
    #[test]
    fn a_near_straight_edge_begins_at_the_far_wall() {
        assert_eq!(set(400, 18, board(1820, 560), 12), (Guide::Near, vec![mm(337), mm(331)]));
    }

    /// A groove from 13 to 19 in a drawer side 100 wide: the straight-edge would
    /// have 150 / 2 + 19 = 94 behind it and 6 to lie on.
    #[test]
    fn a_board_too_narrow_for_a_straight_edge_goes_to_the_table() {
        assert_eq!(set(13, 6, board(100, 450), 6), (Guide::Table, vec![mm(13)]));
        assert_eq!(set(13, 8, board(100, 450), 6), (Guide::Table, vec![mm(13), mm(15)]));
    }

    /// A stretcher 40 wide and 1500 long: near its end a cut of 18 goes over the
    /// table; at 600 the straight-edge stands at 618 − 6 − 75 and 600 + 6 − 75.
    #[test]
    fn a_narrow_board_is_cut_by_a_straight_edge_where_no_fence_reaches() {
        assert_eq!(set(200, 18, board(1500, 40), 12).0, Guide::Table);
        assert_eq!(set(600, 18, board(1500, 40), 12), (Guide::Near, vec![mm(537), mm(531)]));
    }

    /// A groove from 13 to 19 in a side 200 by 450: under a base of 150 the bit's
    /// center is 16 from the edge, and the base has 75 on that side, of which 37.5
    /// must lie on wood. A dado as near the end of a case's end, 560 by 1820,
    /// stays with the straight-edge: 13 + 3 + 75.
    #[test]
    fn a_groove_by_the_edge_of_a_small_board_goes_to_the_table() {
        assert_eq!(set(13, 6, board(200, 450), 6), (Guide::Table, vec![mm(13)]));
        assert_eq!(set(13, 6, board(1820, 560), 6), (Guide::Far, vec![mm(91)]));
        // 40 from the edge the center is 43 from it.
        assert_eq!(set(40, 6, board(200, 450), 6), (Guide::Far, vec![mm(118)]));
    }

    /// A rabbet 5.5 wide cut with a bit of 12: its center runs 6 before the wall,
    /// half a millimeter outside the edge, and the straight-edge stands at
    /// 5.5 − 6 + 75 = 74.5.
    #[test]
    fn a_bit_wider_than_its_rabbet_hangs_over_the_edge() {
        let rabbet = channel(Length::ZERO, mm(11).half());
        let guided = guide(&rabbet, board(560, 1820), mm(12), mm(150), Unit::Millimetre);
        assert_eq!((guided.guide, guided.settings), (Guide::Far, vec![mm(149).half()]));
    }

    #[test]
    fn an_edge_goes_to_the_table() {
        let edge = Board { face: Face::WidthEnd, across: mm(600), run: mm(600), through: true };
        assert_eq!(set(200, 12, edge, 12).0, Guide::Table);
    }

    /// 40 wide with a bit of 12, each stroke 1.5 over the one before: 28 is left
    /// after the first, 28 / 10.5 = 2.7, so three more.
    #[test]
    fn strokes_overlap_until_the_channel_is_clear() {
        let (_, settings) = set(200, 40, board(1820, 560), 12);
        assert_eq!(settings.len(), 4);
        assert!(settings.is_sorted_by(|a, b| a > b));
        assert_eq!(settings[0] - settings[3], mm(28));
        assert!(settings.windows(2).all(|pair| pair[0] - pair[1] <= mm(12) - Length::mm(1)));
    }

    /// No tool is set truer than that: a bit of 18 cuts a channel of 18.05.
    #[test]
    fn a_bit_as_wide_as_its_channel_cuts_it_at_once() {
        let wide = mm(18) + mm(1) * Exact::ratio(1, 20);
        let one =
            guide(&channel(mm(27), wide), board(1820, 560), mm(18), mm(150), Unit::Millimetre);
        assert_eq!(one.settings.len(), 1);
    }
}
