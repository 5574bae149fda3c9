//! Pieces of furniture that stand each by itself: each has all of its parts, nothing holds one
//! to another, and they are drawn clear of each other.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::board::{Board, whole};
use super::packet::{Packet, Work};

/// A piece that is set by itself, with the marks of all its parts.
#[derive(Debug, Deserialize)]
pub(super) struct StandApart {
    pub(super) case: String,
    pub(super) parts: Vec<String>,
}

/// The pieces that are set by themselves.
fn pieces(packet: &Packet) -> Vec<&StandApart> {
    let all = packet.operations.iter().filter_map(|own| match &own.work {
        Work::StandApart(own) => Some(own),
        _ => None,
    });
    all.collect()
}

/// What is wrong with how they stand.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let pieces = pieces(packet);
    if pieces.is_empty() {
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut of: BTreeMap<&str, &str> = BTreeMap::new();
    for own in &pieces {
        for part in &own.parts {
            if let Some(other) = of.insert(part, &own.case) {
                found.push(format!("{part}: it is of {other} and of {}", own.case));
            }
        }
    }
    if pieces.len() == 1 {
        found.push(format!("{}: it stands apart from nothing", pieces[0].case));
    }
    for board in boards.iter().filter(|own| !of.contains_key(own.part.mark.as_str())) {
        found.push(format!("{}: it is of no piece that is set", board.part.mark));
    }
    for joint in &packet.joints {
        if of.get(joint.part.as_str()) != of.get(joint.into.as_str()) {
            found.push(format!("{}: it is held by {}, of another piece", joint.part, joint.into));
        }
    }
    let ends = |own: &&StandApart| {
        let all = boards.iter().filter(|board| own.parts.contains(&board.part.mark));
        let across = all.map(|board| board.placed(&whole(board.exact))[0]);
        across.fold([f64::MAX, f64::MIN], |all, own| [all[0].min(own[0]), all[1].max(own[1])])
    };
    let mut ends: Vec<[f64; 2]> = pieces.iter().map(ends).collect();
    ends.sort_by(|one, other| one[0].total_cmp(&other[0]));
    if ends.windows(2).any(|pair| pair[1][0] < pair[0][1] + tolerance) {
        found.push("two pieces that stand apart are drawn as one".to_owned());
    }
    let together = packet.operations.iter().filter(|own| match &own.work {
        Work::Together(own) => {
            own.cases.iter().any(|case| pieces.iter().any(|piece| piece.case == *case))
        }
        _ => false,
    });
    found.extend(together.map(|own| format!("step {}: it fixes one piece to another", own.step)));
    found
}

#[cfg(test)]
mod spoiled {
    use casewright::papers;
    use serde_json::{Value, json};

    use crate::bench::demos;
    use crate::bench::spoiled::{drop_last, noticed, operation, without};
    use crate::support::compile;

    fn pair() -> Value {
        let shared = papers::SHARED.1.replace("units in", "");
        let example = papers::EXAMPLES.iter().find(|own| own.slug == "nightstands").unwrap();
        let text = example.text.replace("use \"shop.case\"\n", &format!("{shared}\n"));
        serde_json::from_str(&demos::packet(&compile(&text)).unwrap()).unwrap()
    }

    #[test]
    fn pieces_that_do_not_stand_by_themselves() {
        let forgotten = |packet: &mut Value| {
            drop_last(&mut operation(packet, "stand apart", 0)["parts"]);
        };
        noticed(pair(), forgotten, "it is of no piece that is set");
        let alone = |packet: &mut Value| {
            without(packet, "stand apart", 1);
        };
        noticed(pair(), alone, "it stands apart from nothing");
        let shared = |packet: &mut Value| {
            let other = operation(packet, "stand apart", 1)["parts"][0].clone();
            operation(packet, "stand apart", 0)["parts"].as_array_mut().unwrap().push(other);
        };
        noticed(pair(), shared, "it is of left-stand and of right-stand");
        let held = |packet: &mut Value| {
            let post = operation(packet, "stand apart", 1)["parts"][0].clone();
            packet["joints"][0]["into"] = post;
        };
        noticed(pair(), held, "of another piece");
        let tied = |packet: &mut Value| {
            let mut own = without(packet, "carry", 0);
            let step = own["step"].take();
            let tie = json!({"step": step, "kind": "fix cases", "cases": ["left-stand", "right-stand"], "screws": 4, "most": {"exact": "1", "print": "1"}});
            packet["operations"].as_array_mut().unwrap().push(tie);
        };
        noticed(pair(), tied, "it fixes one piece to another");
    }
}
