//! One countertop over a run: figures worked by hand.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{Direction, FeatureKind, Part};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::support::{compile, slugs, spec};

fn laundry() -> String {
    spec("gate-cottage-laundry.case")
}

/// The laundry with another thing in the place of its washer, or behind its linen.
fn with(from: &str, to: &str) -> Compilation {
    let text = laundry();
    assert!(text.contains(from), "{from}");
    compile(&text.replacen(from, to, 1))
}

fn mm(figure: i64) -> Length {
    Length::mm(figure)
}

fn tops(compiled: &Compilation) -> Vec<Part> {
    let all = compiled.parts.as_ref().expect("parts").all.iter();
    all.filter(|part| part.word() == "countertop").cloned().collect()
}

fn sound(compiled: &Compilation) {
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
}

/// From the wall over the filler, the sink, the washer's place, the bank, and the linen to
/// 20 past the seen end: 2450 + 20. The cases are 560 deep: 560 + 20 before the fronts.
/// It lies 880 above the floor.
#[test]
fn one_board_lies_over_all_cases_and_spaces() {
    let compiled = compile(&laundry());
    sound(&compiled);
    let tops = tops(&compiled);
    let [top] = tops.as_slice() else { panic!("{tops:#?}") };
    assert_eq!(top.path, "laundry.countertop");
    assert_eq!(top.extent(Direction::X), (mm(0), mm(2470)));
    assert_eq!(top.width.length, mm(580));
    assert_eq!(top.extent(Direction::Y).0, mm(880));
    assert_eq!(top.extent(Direction::Z), (mm(-20), mm(560)));
}

/// It is screwed to every case: through the middle of the front stretchers, 50 behind the
/// front edges of the ends at 18, in round holes, and through slots in all others.
#[test]
fn every_case_holds_it() {
    let compiled = compile(&laundry());
    sound(&compiled);
    let packet = papers::one(&compiled, "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let mut laid = packet["operations"].as_array().unwrap().iter();
    let laid = laid.find(|own| own["kind"] == "lay on").expect("it is laid on");
    assert_eq!(laid["ends"][0]["side"], "left");
    assert_eq!(laid["ends"][0]["most"]["print"], "12");
    let rows: Vec<(bool, &str)> = laid["rows"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| (row["slotted"] == true, row["at"]["print"].as_str().unwrap()))
        .collect();
    // Three cases with a front stretcher each, three with one at the back, and the bank
    // has a third in the middle.
    assert_eq!(rows.iter().filter(|(slotted, _)| !slotted).count(), 3);
    assert_eq!(rows.len(), 7);
    assert!(rows.iter().all(|(_, at)| *at == "50"), "{rows:?}");
    let slotted = |word: &str| -> Vec<bool> {
        let all = compiled.parts.as_ref().unwrap().all.iter();
        let own = all.filter(|part| part.word() == word);
        own.map(|part| part.features.iter().any(|own| own.kind == FeatureKind::Slot)).collect()
    };
    assert_eq!(slotted("front-stretcher"), [false; 3]);
    assert_eq!(slotted("back-stretcher"), [true; 3]);
}

/// A case with a height of its own parts it: it ends beside that, with no overhang there.
/// A space that it leaves open parts it too.
#[test]
fn what_stands_higher_parts_it() {
    let ends = |compiled: &Compilation| {
        sound(compiled);
        let tops = tops(compiled);
        tops.iter().map(|part| part.extent(Direction::X)).collect::<Vec<_>>()
    };
    let tall = with("case linen { wide 400;", "case linen { wide 400; high 2000;");
    assert_eq!(ends(&tall), [(mm(0), mm(2050))]);
    let open = with("clear 5 }", "clear 5; countertop none }");
    assert_eq!(ends(&open), [(mm(0), mm(860)), (mm(1470), mm(2470))]);
    let names: Vec<String> = tops(&open).iter().map(|part| part.path.clone()).collect();
    assert_eq!(names, ["laundry.sink.countertop", "laundry.bank.countertop"]);
}

/// Over a space at the end of the run nothing bears it. With a case behind the space, or
/// with the countertop left out over it, all is sound; what stands there may be higher then.
#[test]
fn an_end_over_a_space_is_held_by_nothing() {
    let last = |says: &str| {
        let text = laundry();
        let from = text.find("    space washer").unwrap();
        let to = text[from..].find('\n').unwrap() + from + 1;
        let space = text[from..to].replace("clear 5 }", says);
        let text = [&text[..from], &text[to..]].concat();
        let linen = text.find("    case linen").unwrap();
        let at = text[linen..].find('\n').unwrap() + linen + 1;
        compile(&[&text[..at], space.as_str(), &text[at..]].concat())
    };
    let unheld = |compiled: &Compilation| slugs(compiled).contains(&"countertop-unheld");
    assert!(unheld(&last("clear 5 }")));
    let open = last("clear 5; countertop none }");
    sound(&open);
    assert_eq!(tops(&open)[0].extent(Direction::X), (mm(0), mm(1840)));
    assert!(!unheld(&open) && !unheld(&compile(&laundry())));
}
