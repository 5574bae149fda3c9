//! The boards are crosscut and ripped by their numbered cuts, a blade's width at a time.
//! What comes of them is what solid parts are made of, and what lips are ripped from.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::cuts::{Cut, Lies, Way, made};
use super::figures::said;
use super::packet::{Figure, Packet};
use super::wood::NOTHING;

/// A board as the packet has it.
#[derive(Debug, Deserialize)]
pub(super) struct Plank {
    board: u32,
    stock: String,
    on_hand: bool,
    size: [Figure; 2],
    lost: Vec<[Figure; 2]>,
    cuts: Vec<Cut>,
    pieces: Vec<Piece>,
}

#[derive(Debug, Deserialize)]
struct Piece {
    part: String,
    #[serde(default)]
    lips: Vec<Lip>,
}

#[derive(Debug, Deserialize)]
struct Lip {
    part: String,
    edge: String,
}

/// A rough piece of a stock.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct FromBoard {
    pub(super) stock: String,
    pub(super) size: [f64; 2],
    /// Of a board in the rack, on which a strip that is not worth a cut may be left.
    on_hand: bool,
}

/// What comes of the boards: rough pieces by the part that they are for, what lips are ripped
/// from, and from which of these by the part and the edge of each.
#[derive(Debug, Default)]
pub(super) struct Sawn {
    pub(super) roughs: BTreeMap<String, Vec<FromBoard>>,
    pub(super) for_lips: Vec<FromBoard>,
    pub(super) lips: BTreeMap<(String, String), usize>,
    pub(super) complaints: Vec<String>,
}

/// Saws all boards of a packet.
pub(super) fn saw(packet: &Packet) -> Sawn {
    let mut sawn = Sawn::default();
    for plank in &packet.boards {
        let wrong = plank.sawn(packet.shop.kerf.exact, &mut sawn);
        sawn.complaints
            .extend(wrong.into_iter().map(|own| format!("board {}: {own}", plank.board)));
    }
    sawn
}

impl Plank {
    fn sawn(&self, kerf: f64, sawn: &mut Sawn) -> Vec<String> {
        let mut wrong = Vec::new();
        let whole = Lies {
            at: 0.0,
            size: self.size.each_ref().map(|side| side.exact),
            turns: 1,
            way: Way::Crosscut,
        };
        let names: Vec<&str> = self.pieces.iter().map(|piece| piece.part.as_str()).collect();
        let off = made(&self.cuts, whole, kerf, &names, &mut wrong);
        // Unless something is to be as long as it is, it is crosscut first.
        let is_as_long = |own: &&Lies| own.size[0] > self.size[0].exact - NOTHING;
        if !off.iter().flatten().any(|own| is_as_long(&own)) {
            let rips = |cut: &&Cut| cut.piece.is_empty() && cut.way == Way::Rip;
            let rips = self.cuts.iter().filter(rips);
            wrong.extend(rips.map(|cut| format!("cut {} rips a whole board", cut.first)));
        }
        for (piece, own) in self.pieces.iter().zip(off) {
            let Some(own) = own else { continue };
            if own.turns > 3 {
                wrong.push(format!("the cuts turn once too often for {}", piece.part));
            }
            wrong.extend(self.keep(piece, own, sawn));
        }
        wrong
    }

    /// What came off is kept; none of it is lost wood.
    fn keep(&self, piece: &Piece, own: Lies, sawn: &mut Sawn) -> Option<String> {
        let (stock, on_hand) = (self.stock.clone(), self.on_hand);
        let rough = FromBoard { stock, size: own.size, on_hand };
        if piece.lips.is_empty() {
            sawn.roughs.entry(piece.part.clone()).or_default().push(rough);
        } else {
            sawn.for_lips.push(rough);
            for lip in &piece.lips {
                let key = (lip.part.clone(), lip.edge.clone());
                if sawn.lips.insert(key, sawn.for_lips.len() - 1).is_some() {
                    return Some(format!("{} has two lips on its {}", lip.part, lip.edge));
                }
            }
        }
        let until = own.at + own.size[0];
        let meets = |lost: &&[Figure; 2]| {
            own.at < lost[1].exact - NOTHING && lost[0].exact < until - NOTHING
        };
        let lost = self.lost.iter().find(meets)?;
        let [from, to] = lost.each_ref().map(|end| said(end.exact));
        Some(format!("{} has lost wood in it, from {from} to {to}", piece.part))
    }
}

/// What is wrong with what a part is made of: so many pieces of this size are asked for, and
/// a mark of the tape larger at the most, or by a strip where it is of a board in the rack.
pub(super) fn wrong_of(
    roughs: &[FromBoard],
    (stock, [long, wide]): (&str, [f64; 2]),
    pieces: usize,
    (mark, strip): (f64, f64),
) -> Option<String> {
    if roughs.len() != pieces {
        return Some(format!("boards give {} of the {pieces} pieces for it", roughs.len()));
    }
    roughs.iter().find_map(|rough| {
        let [own_long, own_wide] = rough.size;
        let told = format!("{} by {}", said(own_long), said(own_wide));
        let is_small = own_long < long - mark / 2.0 || own_wide < wide - mark / 2.0;
        let more = mark * 1.01 + if rough.on_hand { strip } else { 0.0 };
        let is_large = own_long > long + more || own_wide > wide + more;
        match () {
            () if rough.stock != stock => Some(format!("its board is {}", rough.stock)),
            () if is_small => Some(format!("its board gives it only {told}")),
            () if is_large => Some(format!("its board gives it {told}, more than it takes")),
            () => None,
        }
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::{Plank, Sawn};

    fn length(exact: f64) -> Value {
        json!({"exact": exact.to_string(), "print": exact.to_string()})
    }

    /// A board of 100 by 10 that loses 0 to 2, a knot from 42 to 50, and its last 2. By a
    /// blade of 1: waste of 1 and the blade are 2; a length of 30 and the blade reach 33,
    /// waste of 16 and the blade 50; a length of 40 and the blade 91, before 98. The first
    /// length is ripped into 4 and 5, which with a blade are 10, and the second gives one
    /// of 6.
    fn plank() -> Value {
        json!({
            "board": 1, "stock": "oak", "on_hand": true, "size": [length(100.0), length(10.0)],
            "lost": [[length(0.0), length(2.0)], [length(42.0), length(50.0)], [length(98.0), length(100.0)]],
            "cuts": [
                {"first": 1, "last": 1, "in": "", "way": "crosscut", "off": length(1.0), "gives": ["lost"]},
                {"first": 2, "last": 2, "in": "", "way": "crosscut", "off": length(30.0), "gives": [{"piece": "a"}]},
                {"first": 3, "last": 3, "in": "", "way": "crosscut", "off": length(16.0), "gives": ["lost"]},
                {"first": 4, "last": 4, "in": "", "way": "crosscut", "off": length(40.0), "gives": [{"piece": "b"}]},
                {"first": 5, "last": 5, "in": "a", "way": "rip", "off": length(4.0), "gives": [{"rough": 0}, {"rough": 1}]},
                {"first": 6, "last": 6, "in": "b", "way": "rip", "off": length(6.0), "gives": [{"rough": 2}]},
            ],
            "pieces": [{"part": "LS"}, {"part": "RS"}, {"part": "TRL"}],
        })
    }

    fn sawn(plank: &Value) -> (Vec<String>, Sawn) {
        let plank: Plank = serde_json::from_value(plank.clone()).unwrap();
        let mut sawn = Sawn::default();
        let wrong = plank.sawn(1.0, &mut sawn);
        (wrong, sawn)
    }

    #[test]
    fn a_board_is_sawn_as_by_hand() {
        let (wrong, sawn) = sawn(&plank());
        assert_eq!(wrong, Vec::<String>::new());
        let sizes: Vec<(&str, [f64; 2])> =
            sawn.roughs.iter().map(|(mark, own)| (mark.as_str(), own[0].size)).collect();
        assert_eq!(sizes, [("LS", [30.0, 4.0]), ("RS", [30.0, 5.0]), ("TRL", [40.0, 6.0])]);
    }

    #[test]
    fn lost_wood_is_noticed() {
        let mut short = plank();
        short["cuts"][2]["off"] = length(10.0);
        assert_eq!(sawn(&short).0, ["TRL has lost wood in it, from 42 to 50"]);
        let mut long = plank();
        long["cuts"][3]["off"] = length(49.0);
        assert_eq!(sawn(&long).0, ["TRL has lost wood in it, from 98 to 100"]);
    }

    #[test]
    fn cuts_that_no_maker_makes_are_noticed() {
        let mut rip = plank();
        rip["cuts"][0]["way"] = "rip".into();
        assert!(sawn(&rip).0.contains(&"cut 1 rips a whole board".to_owned()));
        let mut wide = plank();
        wide["cuts"][4]["off"] = length(12.0);
        assert_eq!(sawn(&wide).0, ["cut 5 takes 12 off what is 10"]);
        let mut gone = plank();
        gone["cuts"].as_array_mut().unwrap().pop();
        assert_eq!(sawn(&gone).0, ["no cut frees TRL"]);
    }
}
