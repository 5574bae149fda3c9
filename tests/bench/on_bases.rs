//! Cases on separate bases: whether each stands where the figures say, and whether the order
//! in the house can be followed. A base that comes apart is leveled by itself before its case
//! comes onto it, and what is wider than its place between two walls goes onto no base there
//! before both its stiles are planed.

use std::collections::BTreeSet;

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{Edge, LevelBase, Operation, Packet, StandOn, Work};
use super::wood::Space;

/// What is wrong with how cases stand on their bases, and with how they come there.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let mut wrong = Vec::new();
    for own in &packet.operations {
        match &own.work {
            Work::StandOn(on) => wrong.extend(placed(boards, on, tolerance)),
            Work::LevelBase(base) => wrong.extend(behind(boards, base, tolerance)),
            _ => {}
        }
    }
    wrong.extend(order(packet));
    wrong
}

fn space(boards: &[Board<'_>], mark: &str) -> Option<Space> {
    let board = boards.iter().find(|board| board.part.mark == mark)?;
    Some(board.placed(&whole(board.exact)))
}

/// Where cases stand, laid out by hand from the face and the ends of the base.
fn placed(boards: &[Board<'_>], on: &StandOn, tolerance: f64) -> Vec<String> {
    let on_base = |what: String| format!("{} on its base: {what}", on.cases.join(" and "));
    let Some(base) = space(boards, &on.base) else {
        return vec![on_base(format!("there is no {}", on.base))];
    };
    let mut wrong = Vec::new();
    if on.from.is_empty() {
        wrong.push(on_base("nothing is measured".to_owned()));
    }
    for mark in &on.from {
        let Some(own) = space(boards, mark) else {
            wrong.push(on_base(format!("there is no {mark}")));
            continue;
        };
        let ahead = base[2][0] - own[2][0];
        if (ahead - on.before.print).abs() > tolerance {
            wrong.push(on_base(format!(
                "{mark} stands {} before the base, not {}",
                said(ahead),
                said(on.before.print)
            )));
        }
    }
    let is_of = |board: &&Board<'_>, word: &str| {
        on.cases.iter().any(|case| board.part.path.ends_with(&format!("{case}.{word}")))
    };
    let ends = ["left-end", "right-end"].map(|word| {
        let own = boards.iter().filter(|board| is_of(board, word));
        own.map(|board| board.placed(&whole(board.exact))[0])
            .reduce(|one, other| [one[0].min(other[0]), one[1].max(other[1])])
    });
    let [Some(left), Some(right)] = ends else {
        wrong.push(on_base("it has no ends".to_owned()));
        return wrong;
    };
    for (what, is, told) in
        [("left", base[0][0] - left[0], &on.left), ("right", right[1] - base[0][1], &on.right)]
    {
        let told = told.as_ref().map_or(0.0, |told| told.print);
        if (is - told).abs() > tolerance {
            wrong.push(on_base(format!(
                "its {what} side stands {} past the base, not {}",
                said(is),
                said(told)
            )));
        }
    }
    wrong
}

/// How far the base stands off the wall, which the rearmost board meets.
fn behind(boards: &[Board<'_>], base: &LevelBase, tolerance: f64) -> Option<String> {
    let told = base.behind.as_ref()?;
    let wall = boards.iter().map(|board| board.placed(&whole(board.exact))[2][1]);
    let wall = wall.fold(f64::MIN, f64::max);
    let rear = base.parts.iter().filter_map(|mark| space(boards, mark)).map(|own| own[2][1]);
    let off = wall - rear.fold(f64::MIN, f64::max);
    ((off - told.print).abs() > tolerance).then(|| {
        format!(
            "the base of {} stands {} off the wall, not {}",
            base.parts.join(" and "),
            said(off),
            said(told.print)
        )
    })
}

/// In which order bases and cases come into their places in the house.
fn order(packet: &Packet) -> Vec<String> {
    let all = || packet.operations.iter().enumerate();
    let stacked: BTreeSet<&String> = packet
        .operations
        .iter()
        .filter_map(|own| match &own.work {
            Work::SetOn(on) => Some(&on.case),
            _ => None,
        })
        .collect();
    let Some(house) =
        all().find_map(|(index, own)| matches!(own.work, Work::Carry {}).then_some(index))
    else {
        return Vec::new();
    };
    let scribed: Vec<(usize, Edge)> = all()
        .filter_map(|(index, own)| match &own.work {
            Work::Scribe(own) if !stacked.contains(&own.case) => Some((index, own.side)),
            _ => None,
        })
        .collect();
    let is_between =
        [Edge::Left, Edge::Right].iter().all(|side| scribed.iter().any(|(_, own)| own == side));
    let mut wrong = Vec::new();
    // What stood on its base at the bench comes apart, and stands on it again in the house.
    let on = |range: &dyn Fn(usize) -> bool| -> Vec<(usize, &StandOn)> {
        all()
            .filter(|(index, _)| range(*index))
            .filter_map(|(index, own)| match &own.work {
                Work::StandOn(on) => Some((index, on)),
                _ => None,
            })
            .collect()
    };
    let (bench, home) = (on(&|index| index < house), on(&|index| index > house));
    for (_, own) in &bench {
        let cases = own.cases.join(" and ");
        if !home.iter().any(|(_, other)| other.cases == own.cases) {
            wrong.push(format!("{cases} is never stood on its base in the house"));
        }
    }
    for (index, own) in &home {
        let cases = own.cases.join(" and ");
        let lies = |other: &Operation| match &other.work {
            Work::LevelBase(base) => base.parts.contains(&own.base),
            _ => false,
        };
        if !all().any(|(at, other)| house < at && at < *index && lies(other)) {
            wrong.push(format!("the base of {cases} is not leveled before the case is on it"));
        }
        let screwed = |other: &Operation| match &other.work {
            Work::OnBase(base) => base.parts.contains(&own.base),
            _ => false,
        };
        if !all().any(|(at, other)| at > *index && screwed(other)) {
            wrong.push(format!("{cases} is not held on its base in the house"));
        }
        if is_between && scribed.iter().any(|(at, _)| at > index) {
            wrong.push(format!(
                "{cases} is too wide to go onto its base between the walls: its stiles are planed only later"
            ));
        }
    }
    wrong
}

#[cfg(test)]
mod spoiled {
    use serde_json::{Value, json};

    use crate::bench::spoiled::{at, noticed};
    use crate::bench::{built, demos};
    use crate::support::{compile, spec};

    /// The first cabinet between two walls, on a base that comes apart.
    fn alcove(base: &str) -> String {
        spec("first.case")
            .replace(
                "site { left open; right open;",
                "site { left wall { scribe 1/2 }; right wall { scribe 1/2 };",
            )
            .replace("stile left  { wide 1-3/4 }", "stile left  { wide 2-1/4 }")
            .replace("stile right { wide 1-3/4 }", "stile right { wide 2-1/4 }")
            .replace("cut-into ends", base)
    }

    fn packet() -> Value {
        let packet = demos::packet(&compile(&alcove("separate"))).unwrap();
        serde_json::from_str(&packet).unwrap()
    }

    #[test]
    fn a_case_comes_onto_its_base_between_walls() {
        assert_eq!(built(&compile(&alcove("separate"))), Vec::<String>::new());
    }

    /// As the papers had it: on the base, and then before its place to be scribed.
    #[test]
    fn a_case_on_its_base_that_is_still_too_wide() {
        let early = |packet: &mut Value| {
            let (carried, level) = (at(packet, "carry", 0), at(packet, "level base", 0));
            let (stands, held) = (at(packet, "stand on base", 1), at(packet, "screw onto base", 0));
            assert!(carried < level && level < stands && stands < held);
            let all = packet["operations"].as_array_mut().unwrap();
            let mut own: Vec<Value> = [held, stands].map(|index| all.remove(index)).into();
            own.reverse();
            all.splice(level + 1..level + 1, own);
        };
        noticed(packet(), early, "cupboard is too wide to go onto its base between the walls");
    }

    #[test]
    fn a_base_that_nobody_levels() {
        let without = |kind: &'static str, number: usize| {
            move |packet: &mut Value| {
                let index = at(packet, kind, number);
                packet["operations"].as_array_mut().unwrap().remove(index);
            }
        };
        noticed(packet(), without("level base", 0), "is not leveled before the case is on it");
        noticed(packet(), without("stand on base", 1), "is never stood on its base in the house");
        noticed(packet(), without("screw onto base", 0), "is not held on its base in the house");
    }

    /// The carcass has its front edges 3 - 3/4 before the base, and the frame its face 3.
    #[test]
    fn a_case_that_stands_elsewhere_on_its_base() {
        let said = packet();
        let all = said["operations"].as_array().unwrap();
        let own: Vec<&Value> = all.iter().filter(|own| own["kind"] == "stand on base").collect();
        let before: Vec<&Value> = own.iter().map(|own| &own["before"]["print"]).collect();
        assert_eq!(before, [&json!("2-1/4"), &json!("3")]);
        let figure = json!({"exact": "1", "print": "1"});
        let moved = |word: &'static str, value: Value| {
            move |packet: &mut Value| {
                let index = at(packet, "stand on base", 0);
                packet["operations"][index][word] = value;
            }
        };
        noticed(packet(), moved("before", figure.clone()), "LE stands 2.25 before the base, not 1");
        noticed(
            packet(),
            moved("left", figure.clone()),
            "its left side stands 0 past the base, not 1",
        );
        let off = move |packet: &mut Value| {
            let index = at(packet, "level base", 0);
            packet["operations"][index]["behind"] = figure;
        };
        noticed(packet(), off, "off the wall, not 1");
    }
}
