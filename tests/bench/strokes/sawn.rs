//! A channel by a plain blade of the table saw: what each cut takes, and whether a hand can
//! push the board over it.

use super::super::figures::said;
use super::super::packet::{Piece, Push, Setting};
use super::super::wood::NOTHING;
use super::{Hand, Stroke, rest};

/// No piece shorter than 12 in along it is pushed along a fence (manuals of table saws).
const RIPPED: f64 = 304.8;
/// So much shorter a hand would not notice.
const OFF: f64 = 5.0;
/// A fence of a small saw opens 52 in at most (manuals of table saws).
const OPENS: f64 = 1321.0;
/// No sled takes a piece that is wider than 4 ft (common practice, no source).
const ON_SLED: f64 = 1220.0;

/// The cuts in their order, from the datum. The first wall is read off the tape. The other
/// is crept up on in a test cut until the mating part slides in, so the two are as far
/// apart as they should be. What comes between is read off the tape too.
pub(super) fn cuts(setting: &Setting, kerf: f64) -> Vec<Stroke> {
    let Some(first) = setting.set.first() else { return Vec::new() };
    let near = |(number, set): (usize, &super::Figure)| match number {
        1 => first.print + set.exact - first.exact,
        _ => set.print,
    };
    setting.set.iter().enumerate().map(near).map(|near| [near, near + kerf]).collect()
}

/// What is wrong with the cuts, and with pushing this board over them.
pub(super) fn wrong(hand: &Hand<'_>, piece: &Piece, cuts: &[Stroke]) -> Vec<String> {
    let mut wrong = Vec::new();
    let kerf = hand.packet.shop.kerf.exact;
    if (hand.tool.diameter.exact - kerf).abs() > NOTHING {
        wrong.push(format!("the blade of this saw takes {}", said(kerf)));
    }
    if !piece.stops.is_empty() {
        wrong.push("a saw cuts right through the board".to_owned());
    }
    if hand.setting.depths.len() != 1 {
        wrong.push("a blade is raised once".to_owned());
    }
    let thin = hand.board.exact.iter().copied().fold(f64::MAX, f64::min);
    if hand.board.exact[hand.face.axis] > thin + NOTHING {
        wrong.push("the board has to lie flat on the saw".to_owned());
    }
    let (run, across) = (hand.board.exact[hand.run], hand.board.exact[hand.datum.axis]);
    match piece.push {
        None => wrong.push("it doesn't say what guides the board".to_owned()),
        Some(Push::Fence)
            if run < across - hand.mm(OFF) || run < hand.mm(RIPPED) - hand.mm(OFF) =>
        {
            wrong.push(format!("{} along the fence is too short", said(run)));
        }
        Some(Push::Sled) if run > hand.mm(ON_SLED) => {
            wrong.push(format!("no sled takes {}", said(run)));
        }
        Some(Push::Fence | Push::Sled) => {}
    }
    // Both walls stand before the wood between them goes: the cuts lie between the first two.
    let walls = match cuts {
        [near, far, ..] => [near[0], far[1]],
        [only] => *only,
        [] => return wrong,
    };
    let mut clear: Vec<Stroke> = Vec::new();
    for (number, cut) in cuts.iter().enumerate() {
        let fresh: f64 = rest(*cut, &clear).iter().map(|range| range[1] - range[0]).sum();
        if cut[0] < walls[0] - NOTHING || cut[1] > walls[1] + NOTHING {
            wrong.push(format!("the cut at {} goes into a wall", said(cut[0])));
        }
        if fresh <= NOTHING {
            wrong.push("a cut finds nothing left to saw".to_owned());
        }
        // A blade that cuts on one side only wanders; the last cut takes what is left.
        if number > 1 && number + 1 < cuts.len() && fresh < kerf / 3.0 {
            wrong.push(format!("the cut at {} takes a sliver", said(cut[0])));
        }
        if cut[0] <= NOTHING || cut[0] > hand.mm(OPENS) {
            wrong.push(format!("no fence is set to {}", said(cut[0])));
        }
        clear.push(*cut);
    }
    wrong
}
