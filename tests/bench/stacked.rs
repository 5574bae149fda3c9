//! A case that is set on another: it stands where it is printed, and its screws have holes
//! to go through and wood to go into.

use super::board::{Board, Sort, whole};
use super::figures::said;
use super::packet::{Packet, SetOn, Work};
use super::wood::Space;

/// Every case that is set on another.
fn all(packet: &Packet) -> impl Iterator<Item = &SetOn> {
    packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::SetOn(set) => Some(set),
        _ => None,
    })
}

fn placed(board: &Board<'_>) -> Space {
    board.placed(&whole(board.exact))
}

/// The boards with these marks.
fn called<'b, 'p>(boards: &'b [Board<'p>], marks: &[String]) -> Vec<&'b Board<'p>> {
    boards.iter().filter(|board| marks.contains(&board.part.mark)).collect()
}

/// True for a part that lies with its foot on what its case is set on.
pub(super) fn rests(packet: &Packet, boards: &[Board<'_>], part: usize, tolerance: f64) -> bool {
    let own = placed(&boards[part]);
    let on = |board: &&Board<'_>| {
        let other = placed(board);
        let covers =
            |axis: usize| own[axis][1].min(other[axis][1]) > own[axis][0].max(other[axis][0]);
        (own[1][0] - other[1][1]).abs() < tolerance && covers(0) && covers(2)
    };
    all(packet)
        .filter(|set| boards[part].part.path.starts_with(&format!("{}.", set.case)))
        .any(|set| called(boards, &set.into).iter().any(on))
}

/// What is wrong with cases that are set on others.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let found = all(packet).filter_map(|set| {
        let what = set_on(packet, boards, set, tolerance).err()?;
        Some(format!("{}: {what}", set.case))
    });
    found.collect()
}

fn set_on(
    packet: &Packet,
    boards: &[Board<'_>],
    set: &SetOn,
    tolerance: f64,
) -> Result<(), String> {
    let own = boards.iter().filter(|own| own.part.path.starts_with(&format!("{}.", set.case)));
    let into = called(boards, &set.into);
    if into.len() != set.into.len() || into.is_empty() {
        return Err("what it stands on is not there".to_owned());
    }
    if let Some(printed) = &set.from_end {
        let left = own.map(|board| placed(board)[0][0]).fold(f64::MAX, f64::min);
        let true_one = left - placed(into[0])[0][0];
        if (printed.print - true_one).abs() > tolerance {
            return Err(format!("it stands {} from the end", said(true_one)));
        }
    }
    let walled = |mark: &String| {
        packet.operations.iter().any(|operation| match &operation.work {
            Work::Walled(wall) => wall.through.contains(mark),
            _ => false,
        })
    };
    let Some(bottom) = &set.bottom else {
        let mut own =
            boards.iter().filter(|own| own.part.path.starts_with(&format!("{}.", set.case)));
        return match own.any(|board| walled(&board.part.mark)) {
            true => Ok(()),
            false => Err("nothing holds it where it stands".to_owned()),
        };
    };
    let screws = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::ScrewLine(line) if line.through == *bottom && set.into.contains(&line.into) => {
            Some(line.count)
        }
        _ => None,
    });
    let screws: u32 = screws.sum();
    if screws != set.round {
        return Err(format!("{} screws in round holes have {screws} places", set.round));
    }
    let board = boards.iter().find(|board| board.part.mark == *bottom);
    let slots = board.into_iter().flat_map(|board| &board.cuts);
    let slots = slots.filter(|cut| cut.sort == Sort::Slot).count();
    if slots != set.slotted {
        return Err(format!("{} screws in slots have {slots}", set.slotted));
    }
    if set.round + u32::try_from(set.slotted).unwrap() == 0 {
        return Err("no screw holds it".to_owned());
    }
    // Where no wall holds it, two rows do: one alone is a hinge.
    let is_solid = |board: &&Board<'_>| {
        let stock = packet.stocks.iter().find(|stock| stock.name == board.part.stock);
        stock.and_then(|stock| stock.movement).is_some_and(|movement| movement > 0.0)
    };
    match set.back.is_none() && set.round > 0 && into.iter().any(is_solid) {
        true => Err("it holds solid wood fast that is to move under it".to_owned()),
        false => Ok(()),
    }
}

/// The packet of the hutch, whose bottom lies down on its countertop or behind its rail.
fn hutch(is_down: bool) -> serde_json::Value {
    let text = crate::support::spec("heron-quay-hutch.case");
    let (base, upper) = text.split_once("case hutch").unwrap();
    let upper = if is_down { upper.replace("; flush", "") } else { upper.to_owned() };
    let compiled = crate::support::compile(&format!("{base}case hutch{upper}"));
    serde_json::from_str(&super::demos::packet(&compiled).unwrap()).unwrap()
}

fn of_kind<'p>(packet: &'p mut serde_json::Value, kind: &str) -> Vec<&'p mut serde_json::Value> {
    let all = packet["operations"].as_array_mut().unwrap().iter_mut();
    all.filter(|own| own["kind"] == kind).collect()
}

fn noticed(packet: &serde_json::Value, what: &str) {
    let found = super::complaints(&packet.to_string());
    assert!(found.iter().any(|own| own.contains(what)), "{what}: {found:#?}");
}

#[test]
fn a_hutch_that_only_stands_there_is_noticed() {
    let mut packet = hutch(false);
    assert_eq!(super::complaints(&packet.to_string()), Vec::<String>::new());
    let mut last = packet["operations"].as_array().unwrap().iter();
    let last = last.rposition(|own| own["kind"] == "fix to wall").unwrap();
    packet["operations"].as_array_mut().unwrap().remove(last);
    noticed(&packet, "nothing holds it up");
    noticed(&packet, "hutch: nothing holds it where it stands");
}

#[test]
fn screws_without_a_slot_are_noticed() {
    let sound = hutch(true);
    assert_eq!(super::complaints(&sound.to_string()), Vec::<String>::new());
    let spoiled = |word: &str, value: serde_json::Value| {
        let mut packet = sound.clone();
        of_kind(&mut packet, "set on case")[0][word] = value;
        packet
    };
    noticed(&spoiled("slotted", 5.into()), "hutch: 5 screws in slots have 4");
    noticed(&spoiled("round", 2.into()), "hutch: 2 screws in round holes have 0 places");
    noticed(&spoiled("into", serde_json::json!([])), "hutch: what it stands on is not there");
    let mut moved = sound.clone();
    of_kind(&mut moved, "set on case")[0]["from_end"]["print"] = "5".into();
    noticed(&moved, "hutch: it stands 3.75 from the end");
}
