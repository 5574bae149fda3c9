//! The strokes of a set-up: where the guide puts the bit, what it takes, and
//! whether a hand can do it.

mod sawn;

use super::board::{Board, Cut, Sort};
use super::body::{cross, dot};
use super::figures::said;
use super::packet::{BitShape, Face, Figure, Guide, Packet, Piece, Setting, Tool};
use super::standing::Ground;
use super::wood::{NOTHING, Space};

/// What a piece of a set-up came to.
#[derive(Debug, Default)]
pub(super) struct Routed {
    pub(super) cuts: Vec<Cut>,
    pub(super) wrong: Vec<String>,
}

/// A stroke, from the datum: both sides of the bit.
type Stroke = [f64; 2];

/// A face or edge that bears a base: 2 in or 50 mm (common practice, no source).
const BEARS: f64 = 50.0;
/// So much of a straight-edge lies on the board at least, for a clamp to hold it
/// (common practice, no source).
const HELD: f64 = 25.0;
/// The widest bit that is run by hand: 1 in (common practice, no source).
const BY_HAND: f64 = 25.4;
/// No pass is deeper than 1/4 in or half the bit (common practice, no source).
const PASS: f64 = 6.35;

/// Runs one piece through a set-up whose guide is off by so much.
pub(super) fn run(
    packet: &Packet,
    operation: usize,
    setting: &Setting,
    piece: &Piece,
    board: &Board<'_>,
    off: f64,
) -> Routed {
    let mut routed = Routed::default();
    match try_run(packet, operation, setting, piece, board, off, &mut routed) {
        Ok(()) => {}
        Err(wrong) => routed.wrong.push(wrong),
    }
    routed
}

fn try_run(
    packet: &Packet,
    operation: usize,
    setting: &Setting,
    piece: &Piece,
    board: &Board<'_>,
    off: f64,
    routed: &mut Routed,
) -> Result<(), String> {
    let tool = packet.tools.iter().find(|tool| tool.id == setting.tool);
    let tool = tool.ok_or_else(|| format!("there is no bit {}", setting.tool))?;
    let (face, datum) = (board.face(&piece.face)?, board.face(&setting.datum)?);
    if face.axis == datum.axis {
        return Err(format!(
            "no guide set from the {} leads a bit over the {}",
            setting.datum, piece.face
        ));
    }
    let run = 3 - face.axis - datum.axis;
    let deep = setting.depths.last().ok_or("it has no depth")?.print;
    let across = board.exact[datum.axis];
    let base = packet.shop.base_plate.exact;
    let strokes = strokes(setting, tool, base, across, deep);

    let hand = Hand { packet, setting, tool, board, face, datum, run };
    if (tool.shape == BitShape::Blade) != (setting.guide == Guide::Saw) {
        return Err(format!("{} is no tool for such a setting", setting.tool));
    }
    if setting.guide != Guide::Saw {
        routed.wrong.extend(hand.depths());
    }
    if !matches!(setting.guide, Guide::Lines | Guide::Saw) {
        routed.wrong.extend(climbs(setting.guide, &strokes, across));
    }
    routed.wrong.extend(match setting.guide {
        Guide::Near | Guide::Far => hand.straight_edge(piece),
        Guide::Table => hand.fence(piece),
        Guide::Lines => hand.by_hand(piece),
        Guide::Saw => sawn::wrong(&hand, piece, &strokes),
    });

    let along = stopped(board, piece, run)?;
    if !matches!(setting.guide, Guide::Table | Guide::Saw) {
        let ground = Ground::of(board, piece, datum, run)?;
        routed.wrong.extend(hand.stands(&ground, &strokes, along, base));
    }
    let into = match face.is_end {
        true => [board.exact[face.axis] - deep, board.exact[face.axis]],
        false => [0.0, deep],
    };
    if deep > board.exact[face.axis] - NOTHING {
        routed.wrong.push(format!("{} deep goes through the board", said(deep)));
    }
    let channels = joined(strokes);
    if setting.guide != Guide::Lines && channels.len() > 1 {
        routed.wrong.push("a ridge is left between two strokes".to_owned());
    }
    for channel in channels {
        let mut space: Space = [[0.0; 2]; 3];
        space[run] = along;
        space[face.axis] = into;
        // By an edge there is one wall. It is crept up on until its board lies flush in
        // the test cut, however the guide is off; beyond the edge there is no wood.
        let (edge, mark) = (board.drawn.size[datum.axis].exact, packet.job.tape.exact / 2.0);
        let off = match (channel[0] <= mark, channel[1] >= edge - mark) {
            (true, _) => 0.0,
            (false, true) => across - edge,
            (false, false) => off,
        };
        let channel = channel.map(|at| at + off);
        let channel = [channel[0].max(0.0), channel[1].min(across)];
        space[datum.axis] = board.counted(datum, channel);
        let sort = match tool.shape {
            BitShape::Straight | BitShape::Blade => Sort::Channel,
            BitShape::RoundNose => Sort::Flute,
        };
        if space[datum.axis][1] <= NOTHING || space[datum.axis][0] >= across - NOTHING {
            routed.wrong.push("the bit runs beside the board".to_owned());
        }
        routed.cuts.push(Cut { operation, sort, space, face, run: Some(run) });
    }
    Ok(())
}

/// The strokes in their order, from the datum. The first place is read off the
/// tape, as it is printed; how far the guide goes over to the next is set by a
/// gauge, to the thousandth that the sheet prints beside it.
fn strokes(setting: &Setting, tool: &Tool, base: f64, across: f64, deep: f64) -> Vec<Stroke> {
    let bit = tool.diameter.exact;
    let half = wide(tool, deep) / 2.0;
    let Some(first) = setting.set.first() else { return Vec::new() };
    // The width of a rabbet whose bit hangs over the edge is crept up on, until its
    // board lies flush in the test cut.
    let hangs = setting.guide == Guide::Far && first.exact - base / 2.0 < half - NOTHING;
    let start = if hangs { first.exact } else { first.print };
    let place = |set: &Figure| start + set.exact - first.exact;
    let center = |center: f64| [center - half, center + half];
    match setting.guide {
        Guide::Near => setting.set.iter().map(|set| center(place(set) + base / 2.0)).collect(),
        Guide::Far => setting.set.iter().map(|set| center(place(set) - base / 2.0)).collect(),
        Guide::Table => setting.set.iter().map(|set| center(place(set) + bit / 2.0)).collect(),
        Guide::Saw => sawn::cuts(setting, bit),
        Guide::Lines => setting
            .set
            .iter()
            .flat_map(|set| {
                let middle = (set.exact * 2.0 - across).abs() < NOTHING;
                let other = (!middle).then(|| center(across - set.print));
                std::iter::once(center(set.print)).chain(other)
            })
            .collect(),
    }
}

/// How wide a bit cuts: a round nose that is not let in by its half cuts the
/// chord of its circle.
fn wide(tool: &Tool, deep: f64) -> f64 {
    let bit = tool.diameter.exact;
    match tool.shape {
        BitShape::RoundNose if deep < bit / 2.0 => 2.0 * (deep * (bit - deep)).sqrt(),
        BitShape::RoundNose | BitShape::Straight | BitShape::Blade => bit,
    }
}

/// What several strokes leave together: those that meet are one channel.
fn joined(mut strokes: Vec<Stroke>) -> Vec<Stroke> {
    strokes.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut channels: Vec<Stroke> = Vec::new();
    for stroke in strokes {
        match channels.last_mut() {
            Some(last) if stroke[0] <= last[1] + NOTHING => last[1] = last[1].max(stroke[1]),
            _ => channels.push(stroke),
        }
    }
    channels
}

/// Where the cut begins and ends along the board.
fn stopped(board: &Board<'_>, piece: &Piece, run: usize) -> Result<[f64; 2], String> {
    let mut along = [0.0, board.exact[run]];
    for stop in &piece.stops {
        let of = board.face(&stop.of)?;
        if of.axis != run {
            return Err(format!("it can't stop short of the {}: it runs along it", stop.of));
        }
        match of.is_end {
            true => along[1] -= stop.short.print,
            false => along[0] += stop.short.print,
        }
    }
    if along[1] - along[0] <= NOTHING {
        return Err("its stops leave nothing to cut".to_owned());
    }
    Ok(along)
}

/// Strokes that would pull the router out of the hand. Seen from above the
/// router turns clockwise; with its straight-edge on the left of the feed, a
/// stroke may take fresh wood on the left of the bit only. On a table, feed
/// from right to left, fresh wood must lie on the side away from the fence. (A
/// router manual, a woodworking magazine's note on wide dadoes, and a page on
/// router tables; see the notes on climb cuts in `plans::guide`.)
fn climbs(guide: Guide, strokes: &[Stroke], across: f64) -> Vec<String> {
    let mut wrong = Vec::new();
    // Beside the board there is nothing to cut.
    let mut clear: Vec<Stroke> = vec![[f64::MIN, 0.0], [across, f64::MAX]];
    for stroke in strokes {
        let fresh = rest(*stroke, &clear);
        let taken: f64 = fresh.iter().map(|range| range[1] - range[0]).sum();
        let full = stroke[1] - stroke[0];
        if fresh.is_empty() {
            wrong.push("a stroke finds nothing left to cut".to_owned());
        } else if taken < full - NOTHING {
            // Toward the datum for a straight-edge on its side of the cut.
            let toward = guide == Guide::Near;
            let left = fresh.iter().all(|range| match toward {
                true => (range[0] - stroke[0]).abs() <= NOTHING,
                false => (range[1] - stroke[1]).abs() <= NOTHING,
            });
            if !left {
                wrong.push(format!(
                    "the stroke from {} to {} is a climb cut",
                    said(stroke[0]),
                    said(stroke[1])
                ));
            }
        }
        clear.push(*stroke);
    }
    wrong
}

/// What is left of a range without others.
fn rest(range: Stroke, gone: &[Stroke]) -> Vec<Stroke> {
    let mut left = vec![range];
    for gone in gone {
        left = left
            .iter()
            .flat_map(|piece| {
                let before = [piece[0], piece[1].min(gone[0])];
                let behind = [piece[0].max(gone[1]), piece[1]];
                [before, behind].into_iter().filter(|piece| piece[1] - piece[0] > NOTHING)
            })
            .collect();
    }
    left
}

/// A hand with a router, over one face of one board.
struct Hand<'a> {
    packet: &'a Packet,
    setting: &'a Setting,
    tool: &'a Tool,
    board: &'a Board<'a>,
    face: Face,
    datum: Face,
    run: usize,
}

impl Hand<'_> {
    fn mm(&self, millimeters: f64) -> f64 {
        self.packet.job.unit.mm(millimeters)
    }

    fn depths(&self) -> Vec<String> {
        let mut wrong = Vec::new();
        // The running depth is read off the tape: half a mark more or less.
        let most = self.mm(PASS).min(self.tool.diameter.exact / 2.0) + self.packet.job.tape.exact;
        let mut so_far = 0.0;
        for depth in &self.setting.depths {
            let pass = depth.print - so_far;
            if pass <= NOTHING {
                wrong.push(format!("a pass at {} takes nothing", said(depth.print)));
            } else if pass > most + NOTHING {
                wrong.push(format!("a pass of {} at once is too deep", said(pass)));
            }
            so_far = depth.print;
        }
        wrong
    }

    /// A bit wider than 1 in belongs on the table, and so does a narrow face, unless it lies
    /// between two strips that bear the base.
    fn by_hand(&self, piece: &Piece) -> Vec<String> {
        let mut wrong = Vec::new();
        if self.tool.diameter.exact > self.mm(BY_HAND) + NOTHING {
            wrong.push("so wide a bit is not run by hand".to_owned());
        }
        let strips = |axis: usize| {
            let own = piece.supports.iter().filter_map(move |strip| {
                let side = self.board.face(&strip.along).ok()?;
                (side.axis == axis).then_some((side.is_end, strip.wide.print))
            });
            let own: Vec<(bool, f64)> = own.collect();
            let both = [false, true].iter().all(|end| own.iter().any(|(side, _)| side == end));
            if both { own.iter().map(|(_, wide)| wide).sum() } else { 0.0 }
        };
        let face = [self.datum.axis, self.run].map(|axis| self.board.exact[axis] + strips(axis));
        if face.iter().any(|size| *size < self.mm(BEARS) - NOTHING) {
            wrong.push("the face is too narrow for the router to stand on".to_owned());
        }
        wrong
    }

    /// The base stands on wood along every stroke; of lines, so does the
    /// straight-edge beyond them.
    fn stands(
        &self,
        ground: &Ground,
        strokes: &[Stroke],
        along: [f64; 2],
        base: f64,
    ) -> Vec<String> {
        let mut wrong = Vec::new();
        for stroke in strokes {
            wrong.extend(ground.carries((stroke[0] + stroke[1]) / 2.0, along, base));
        }
        if self.setting.guide == Guide::Lines {
            let edges = self.setting.set.iter().map(|set| set.print + base / 2.0);
            for edge in edges.filter(|edge| !ground.holds(*edge, self.mm(HELD))) {
                wrong.push(format!("a straight-edge at {} has no wood under it", said(edge)));
            }
        }
        wrong
    }

    fn straight_edge(&self, piece: &Piece) -> Vec<String> {
        let mut wrong = self.by_hand(piece);
        let across = self.board.exact[self.datum.axis];
        for set in &self.setting.set {
            let held = match self.setting.guide {
                Guide::Near => set.print,
                _ => across - set.print,
            };
            if held < self.mm(HELD) - NOTHING {
                wrong.push(format!("a straight-edge at {} has no board under it", said(set.print)));
            }
        }
        wrong.extend(self.guide_on_left(piece));
        wrong
    }

    /// A straight-edge must be on the left of the router as it is pushed, and the
    /// fence of a table on the right of the bit.
    fn guide_on_left(&self, piece: &Piece) -> Option<String> {
        let Some(feed) = &piece.feed else {
            return Some("it doesn't say which way to push the router".to_owned());
        };
        let ends = [&feed.from, &feed.to].map(|name| self.board.face(name).ok());
        let [Some(from), Some(to)] = ends else {
            return Some(format!("it has no {} or no {}", feed.from, feed.to));
        };
        if from.axis != self.run || to.axis != self.run || from.is_end == to.is_end {
            return Some(format!("{} to {} is not along the cut", feed.from, feed.to));
        }
        // The piece's z runs back from its front: the other way round, right,
        // up, and toward the eye are the axes of a right hand.
        let turned = |way: [f64; 3]| [way[0], way[1], -way[2]];
        let left = cross(turned(self.board.way(self.face)), turned(self.board.way(to)));
        let toward_datum = turned(self.board.way(self.datum));
        let side = dot(left, toward_datum);
        let guide = if self.setting.guide == Guide::Near { side } else { -side };
        (guide < 0.0).then(|| {
            format!(
                "pushed from the {} to the {}, the router has its {} on the wrong side",
                feed.from,
                feed.to,
                if self.setting.guide == Guide::Table { "fence" } else { "straight-edge" }
            )
        })
    }

    /// On the table a bit that reaches behind the fence can't be set by a figure. The
    /// work is pushed from right to left past a fence on its far side, so the fence
    /// is on the right of the bit's way through it, and the datum with it. (A page on
    /// router tables.)
    fn fence(&self, piece: &Piece) -> Vec<String> {
        let buried = self.setting.set.iter().filter(|set| set.print < -NOTHING);
        let mut wrong: Vec<String> =
            buried.map(|set| format!("no fence is set to {}", said(set.print))).collect();
        // Work that is cut right through is pushed as the fence asks.
        if piece.feed.is_some() || !piece.stops.is_empty() {
            wrong.extend(self.guide_on_left(piece));
        }
        wrong
    }
}
