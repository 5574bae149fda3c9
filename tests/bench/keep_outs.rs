//! What stands at the wall behind the piece: no board is where it may be, other than a back
//! that is cut out round it, and that is laid out from where it truly lies.

use serde::Deserialize;

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{Figure, Packet, Work};
use super::wood::{Space, common};

/// A pipe, an outlet, or a trap, and the box that it must lie in.
#[derive(Debug, Deserialize)]
pub(super) struct Find {
    what: String,
    across: [Figure; 2],
    up: [Figure; 2],
    deep: Figure,
}

/// A back is cut out round one.
#[derive(Debug, Deserialize)]
pub(super) struct CutOut {
    part: String,
    lies: [Figure; 2],
    round: String,
    spare: Figure,
    kept: [[Figure; 2]; 2],
    size: [Figure; 2],
}

fn placed(board: &Board<'_>) -> Space {
    board.placed(&whole(board.exact))
}

/// What is wrong with the boards around what stands at the wall.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let all = || packet.operations.iter().map(|own| &own.work);
    let found: Vec<&Find> = all()
        .filter_map(|own| match own {
            Work::Find(own) => Some(own),
            _ => None,
        })
        .collect();
    let cut_out: Vec<&CutOut> = all()
        .filter_map(|own| match own {
            Work::CutOut(own) => Some(own),
            _ => None,
        })
        .collect();
    let mut wrong = Vec::new();
    for own in &cut_out {
        if !found.iter().any(|find| find.what == own.round) {
            wrong.push(format!("{}: nobody measured the {} first", own.part, own.round));
        }
        let Some(board) = boards.iter().find(|board| board.part.mark == own.part) else {
            wrong.push(format!("there is no {}", own.part));
            continue;
        };
        let space = placed(board);
        for (axis, printed) in own.lies.iter().enumerate() {
            if (space[axis][0] - printed.print).abs() > tolerance {
                let at = said(space[axis][0]);
                wrong.push(format!("{}: it lies at {at} where the cut-out counts from", own.part));
            }
        }
    }
    for own in &cut_out {
        let Some(board) = boards.iter().find(|board| board.part.mark == own.part) else { continue };
        let Some(find) = found.iter().find(|find| find.what == own.round) else { continue };
        wrong.extend(tight(own, find, &placed(board), tolerance));
    }
    let wall = boards.iter().map(|board| placed(board)[2][1]).fold(f64::MIN, f64::max);
    for find in found {
        let reach = |[from, to]: &[Figure; 2]| [from.print, to.print];
        let space = [reach(&find.across), reach(&find.up), [wall - find.deep.print, wall]];
        for board in boards {
            let is_cut_out = |own: &&CutOut| own.part == board.part.mark && own.round == find.what;
            let both = common(&placed(board), &space);
            let Some(both) =
                both.filter(|both| both.iter().all(|[from, to]| to - from > tolerance))
            else {
                continue;
            };
            let own = board.own(&both);
            let is_gone = board.cuts.iter().any(|cut| {
                (0..3).all(|axis| {
                    cut.space[axis][0] < own[axis][0] + tolerance
                        && own[axis][1] < cut.space[axis][1] + tolerance
                })
            });
            if !is_gone && !cut_out.iter().any(is_cut_out) {
                wrong.push(format!("{}: the {} may be there", board.part.mark, find.what));
            }
        }
    }
    wrong
}

/// How far a cut-out, sawn where it is printed on the back, is from what is found in the house
/// and the spare round it, where it is off.
fn tight(own: &CutOut, find: &Find, back: &Space, tolerance: f64) -> Option<String> {
    [&find.across, &find.up].into_iter().enumerate().find_map(|(axis, kept)| {
        let [from, to] = back[axis];
        let [start, end] = own.kept[axis].each_ref().map(|at| from + at.print);
        let spare = own.spare.print;
        let wanted =
            [(kept[0].print - spare).clamp(from, to), (kept[1].print + spare).clamp(from, to)];
        let size = own.size[axis].print;
        let off = [start - wanted[0], end - wanted[1], end - start - size];
        let off = off.into_iter().fold(0.0, |most: f64, own| most.max(own.abs()));
        (off > 2.0 * tolerance).then(|| {
            format!("{}: its cut-out round the {} is {} off", own.part, own.round, said(off))
        })
    })
}

#[cfg(test)]
mod spoiled {
    use casewright::papers;
    use serde_json::{Value, json};

    use crate::bench::demos;
    use crate::bench::spoiled::{noticed, operation};
    use crate::support::{compile, demo_pieces};

    fn stand() -> Value {
        let mut all = demo_pieces().into_iter();
        let (_, stand) = all.find(|(name, _)| name == "ferry-road-wash-stand").unwrap();
        serde_json::from_str(&demos::packet(&stand).unwrap()).unwrap()
    }

    #[test]
    fn a_baseboard_thicker_than_the_notches() {
        let shared = papers::SHARED.1.replace("units in", "");
        let example = papers::EXAMPLES.iter().find(|own| own.slug == "baseboard").unwrap();
        let text = example.text.replace("use \"shop.case\"\n", &format!("{shared}\n"));
        let packet = demos::packet(&compile(&text)).unwrap();
        let thicker = |packet: &mut Value| {
            operation(packet, "find in house", 0)["deep"] = json!({"exact": "1", "print": "1"});
        };
        let packet: Value = serde_json::from_str(&packet).unwrap();
        noticed(packet, thicker, "LE: the baseboard may be there");
    }

    #[test]
    fn a_trap_in_another_place() {
        let higher = |packet: &mut Value| {
            operation(packet, "find in house", 0)["up"][1] = json!({"exact": "34", "print": "34"});
        };
        noticed(stand(), higher, "the trap may be there");
        let nobody = |packet: &mut Value| {
            let all = packet["operations"].as_array_mut().unwrap();
            all.retain(|own| own["kind"] != "find in house");
        };
        noticed(stand(), nobody, "K: nobody measured the trap first");
        let elsewhere = |packet: &mut Value| {
            operation(packet, "cut out", 0)["lies"][0] = json!({"exact": "1", "print": "1"});
        };
        noticed(stand(), elsewhere, "where the cut-out counts from");
        let wider = |packet: &mut Value| {
            operation(packet, "cut out", 0)["kept"][0][0] = json!({"exact": "1", "print": "1"});
        };
        noticed(stand(), wider, "K: its cut-out round the trap is");
    }
}
