//! The sheets are sawn by their numbered cuts, a blade's width at a time. What comes of
//! them is what the parts are made of.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::cuts::{Cut, Lies, Way, follow, made};
use super::figures::said;
use super::packet::{Along, Drawn, DrawnPart, Figure, Packet};
use super::wood::NOTHING;

/// A sheet as the packet has it.
#[derive(Debug, Deserialize)]
pub(super) struct Sheet {
    pub(super) sheet: u32,
    pub(super) stock: String,
    grain: Grain,
    size: [Figure; 2],
    trim: Figure,
    cuts: Vec<Cut>,
    pieces: Vec<Piece>,
    /// Fronts that come off it beside each other, as they stand.
    #[serde(default)]
    sequences: Vec<Vec<String>>,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Grain {
    Long,
    Wide,
    None,
}

#[derive(Debug, Deserialize)]
struct Piece {
    part: String,
    turned: bool,
    larger: bool,
}

/// A rectangle that came off, for some parts.
#[derive(Clone, Debug)]
pub(super) struct Rough {
    /// Along the parts' length, and across it.
    pub(super) size: [f64; 2],
    /// It is cut to size later.
    pub(super) larger: bool,
    /// Its length runs across the grain of its sheet.
    pub(super) across: bool,
}

/// What comes of the sheets, by the first of the parts; and what went wrong.
#[derive(Debug, Default)]
pub(super) struct Sawn {
    pub(super) roughs: BTreeMap<String, Vec<Rough>>,
    pub(super) complaints: Vec<String>,
}

/// Saws all sheets of a packet.
pub(super) fn saw(packet: &Packet) -> Sawn {
    let mut sawn = Sawn::default();
    let kerf = packet.shop.kerf.exact;
    for sheet in &packet.sheets {
        for wrong in one(sheet, kerf, &mut sawn.roughs) {
            sawn.complaints.push(format!("sheet {}: {wrong}", sheet.sheet));
        }
        for group in &sheet.sequences {
            let wrong = out_of_sequence(sheet, group, &packet.drawn);
            sawn.complaints.extend(wrong.map(|wrong| format!("sheet {}: {wrong}", sheet.sheet)));
        }
    }
    sawn
}

/// What is wrong with fronts whose grain is to run on: they come off one behind the other as
/// they stand from the top down, or from left to right, and the cuts between them go across
/// the way that they follow each other.
fn out_of_sequence(sheet: &Sheet, group: &[String], drawn: &Drawn) -> Option<String> {
    let told = group.join(", ");
    let index = |mark: &String| sheet.pieces.iter().position(|piece| &piece.part == mark);
    let of_part = |mark: &String| drawn.parts.iter().find(|part| &part.mark == mark);
    let indexes: Option<Vec<usize>> = group.iter().map(index).collect();
    let parts: Option<Vec<&DrawnPart>> = group.iter().map(of_part).collect();
    let (Some(indexes), Some(parts)) = (indexes, parts) else {
        return Some(format!("not all of {told} come off it"));
    };
    let Some(way) = follow(&sheet.cuts, &indexes) else {
        return Some(format!("{told} do not follow each other"));
    };
    let at = |part: &DrawnPart, axis: usize| part.at[axis].exact;
    let down = parts.windows(2).all(|two| at(two[0], 1) > at(two[1], 1) + NOTHING);
    let across = parts.windows(2).all(|two| at(two[0], 0) < at(two[1], 0) - NOTHING);
    let run = match (down, across) {
        (true, _) => Along::Y,
        (false, true) => Along::X,
        (false, false) => return Some(format!("{told} do not stand so")),
    };
    let is_alike = parts.iter().all(|part| part.axes[0] == parts[0].axes[0]);
    let along = parts[0].axes[0] == run;
    let crosscut = along == (sheet.grain != Grain::Wide);
    let is_right = is_alike && crosscut == (way == Way::Crosscut);
    (!is_right).then(|| format!("the grain of {told} does not run on"))
}

fn one(sheet: &Sheet, kerf: f64, roughs: &mut BTreeMap<String, Vec<Rough>>) -> Vec<String> {
    let mut wrong = Vec::new();
    let size = [0, 1].map(|side| sheet.size[side].exact - 2.0 * sheet.trim.exact);
    let whole = Lies { at: 0.0, size, turns: 1, way: Way::Rip };
    let names: Vec<&str> = sheet.pieces.iter().map(|piece| piece.part.as_str()).collect();
    let off = made(&sheet.cuts, whole, kerf, &names, &mut wrong);
    for (piece, own) in sheet.pieces.iter().zip(off) {
        if let Some(own) = own {
            keep(sheet, piece, own.size, roughs);
        }
    }
    wrong
}

fn keep(
    sheet: &Sheet,
    piece: &Piece,
    [long, wide]: [f64; 2],
    roughs: &mut BTreeMap<String, Vec<Rough>>,
) {
    // Of a sheet whose grain runs across it, a part lies across it.
    let along = (sheet.grain != Grain::Wide) != piece.turned;
    let size = if along { [long, wide] } else { [wide, long] };
    let across = piece.turned && sheet.grain != Grain::None;
    let rough = Rough { size, larger: piece.larger, across };
    roughs.entry(piece.part.clone()).or_default().push(rough);
}

/// What is wrong with what a part is made of: so many pieces of this size are asked for.
pub(super) fn wrong_of(
    roughs: &[Rough],
    [long, wide]: [f64; 2],
    pieces: usize,
    has_grain: bool,
    slack: f64,
) -> Option<String> {
    if roughs.len() != pieces {
        return Some(format!("{} are sawn of the {pieces} pieces for it", roughs.len()));
    }
    roughs.iter().find_map(|rough| {
        if has_grain && rough.across {
            return Some("its grain runs across it".to_owned());
        }
        let told = format!("{} by {}", said(rough.size[0]), said(rough.size[1]));
        let small = rough.size[0] < long - slack || rough.size[1] < wide - slack;
        let large = rough.size[0] > long + slack || rough.size[1] > wide + slack;
        match (small, large && !rough.larger) {
            (true, _) => Some(format!("its sheet gives it only {told}")),
            (_, true) => Some(format!("its sheet gives it {told}, which nobody cuts down")),
            (false, false) => None,
        }
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::{Rough, Sheet, one};

    fn length(exact: f64) -> Value {
        json!({"exact": exact.to_string(), "print": exact.to_string()})
    }

    /// A sheet of 100 by 50, 2 trimmed off: 96 by 46. Two strips of 20 with a blade of 3
    /// leave a strip of nothing: 20 + 3 + 20 + 3 = 46. From the first come 60 and 30, with
    /// 3 wasted between and behind: 60 + 3 + 30 + 3 = 96.
    fn sheet() -> Value {
        json!({
            "sheet": 1, "stock": "ply", "on_hand": false, "grain": "long",
            "size": [length(100.0), length(50.0)], "trim": length(2.0),
            "cuts": [
                {"first": 1, "last": 2, "in": "", "way": "rip", "off": length(20.0), "tool": "fence",
                 "gives": [{"piece": "A"}, {"rough": 0}]},
                {"first": 3, "last": 3, "in": "A", "way": "crosscut", "off": length(60.0), "tool": "sled",
                 "gives": [{"rough": 1}]},
                {"first": 4, "last": 4, "in": "A", "way": "crosscut", "off": length(30.0), "tool": "sled",
                 "gives": [{"rough": 2}]},
            ],
            "pieces": [
                {"part": "B", "turned": false, "larger": false},
                {"part": "LE", "turned": false, "larger": false},
                {"part": "RE", "turned": true, "larger": false},
            ],
        })
    }

    fn sawn(sheet: &Value) -> (Vec<String>, Vec<(String, Vec<Rough>)>) {
        let sheet: Sheet = serde_json::from_value(sheet.clone()).unwrap();
        let mut roughs = std::collections::BTreeMap::new();
        let wrong = one(&sheet, 3.0, &mut roughs);
        (wrong, roughs.into_iter().collect())
    }

    #[test]
    fn a_sheet_is_sawn_as_by_hand() {
        let (wrong, roughs) = sawn(&sheet());
        assert_eq!(wrong, Vec::<String>::new());
        let sizes: Vec<(&str, [f64; 2])> =
            roughs.iter().map(|(mark, own)| (mark.as_str(), own[0].size)).collect();
        assert_eq!(sizes, [("B", [96.0, 20.0]), ("LE", [60.0, 20.0]), ("RE", [20.0, 30.0])]);
    }

    #[test]
    fn cuts_that_can_not_be_made_are_noticed() {
        let mut wide = sheet();
        wide["cuts"][0]["off"] = length(24.0);
        assert_eq!(sawn(&wide).0, ["cut 1 takes 24 off what is 19"]);
        let mut lost = sheet();
        lost["cuts"].as_array_mut().unwrap().pop();
        assert_eq!(sawn(&lost).0, ["no cut frees RE"]);
        let mut early = sheet();
        early["cuts"][1]["in"] = "B".into();
        assert_eq!(sawn(&early).0, ["cut 3 is in B, which is not there", "no cut frees LE"]);
    }
}
