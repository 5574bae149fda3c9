//! One base under several cases of a run: figures worked by hand.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{Direction, Part};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::support::{compile, packet, spec};

/// The laundry without its washer: a filler of 60, the sink of 800, and the bank of 580
/// beside it, on this base.
fn laundry(base: &str) -> String {
    let mut text = spec("gate-cottage-laundry.case");
    for line in ["    space washer", "    case linen"] {
        let from = text.find(line).unwrap();
        let to = text[from..].find('\n').unwrap() + from + 1;
        text.replace_range(from..to, "");
    }
    text.replace("wide 2450", "wide 1440").replace("separate", base)
}

fn sound(text: &str) -> Compilation {
    let compiled = compile(text);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    compiled
}

fn mm(figure: i64) -> Length {
    Length::mm(figure)
}

/// The parts whose own names begin so, in their order.
fn called<'c>(compiled: &'c Compilation, word: &str) -> Vec<&'c Part> {
    let all = compiled.parts.as_ref().expect("parts").all.iter();
    all.filter(|part| part.word().starts_with(word)).collect()
}

fn operations<'p>(packet: &'p Value, kind: &str) -> Vec<&'p Value> {
    let all = packet["operations"].as_array().unwrap().iter();
    all.filter(|own| own["kind"] == kind).collect()
}

/// The base runs from the outer side of the sink at 60 to that of the bank at 1440. A
/// sleeper of 18 stands at each end and one in the middle under the two ends that meet at
/// 860; from the first to that one are 809 over all, which is more than 24 in, and so one
/// more stands halfway, at (60 + 851) / 2. Its front stands 60 behind the edges of the
/// ends, which lie 18 behind the fronts; its back 25 before the back of 6: between them
/// are 560 - 6 - 25 - 18 - (18 + 60 + 18) = 415.
#[test]
fn a_base_is_made_once_for_all_its_cases() {
    let compiled = sound(&laundry("separate"));
    let long = ["base-front", "base-back"].map(|word| called(&compiled, word));
    for all in &long {
        let [own] = all.as_slice() else { panic!("{all:#?}") };
        assert_eq!([own.length.length, own.width.length], [mm(1380), mm(100)]);
        assert_eq!(own.extent(Direction::X), (mm(60), mm(1440)));
        assert!(own.path.starts_with("laundry.base"), "{}", own.path);
    }
    let sleepers = ["base-left", "base-sleeper", "base-right"];
    let sleepers: Vec<&Part> = sleepers.iter().flat_map(|word| called(&compiled, word)).collect();
    let at = sleepers.iter().map(|part| part.extent(Direction::X).0);
    assert_eq!(at.collect::<Vec<_>>(), [mm(60), mm(911).half(), mm(851), mm(1422)]);
    assert!(sleepers.iter().all(|part| part.length.length == mm(415)), "{sleepers:#?}");
}

/// It is leveled once, 560 - 511 - 18 = 31 off the wall and 60 off the left one, on a line
/// 100 over the floor. Along 1380 stand three blocks at each side, of 25 with screws of no
/// more than 25 + 18 - 3 = 40. Then the cases come onto it, are fixed to each other, and
/// are screwed down through bottoms of 18 with no more than 18 + 100 - 3.
#[test]
fn a_base_is_leveled_before_its_cases_come() {
    let packet = packet(&sound(&laundry("separate")));
    let set = operations(&packet, "set base");
    let [set] = set.as_slice() else { panic!("{set:#?}") };
    let print = |own: &Value| own["print"].as_str().unwrap().to_owned();
    assert_eq!(print(&set["high"]), "100");
    assert_eq!(print(&set["behind"]), "31");
    assert_eq!([&set["beside"]["side"], &set["beside"]["off"]["print"]], ["left", "60"]);
    assert_eq!(set["blocks"], 6);
    assert_eq!([print(&set["block"]), print(&set["most"])], ["25", "40"]);
    let down = operations(&packet, "set on base");
    assert_eq!(down.iter().map(|own| print(&own["most"])).collect::<Vec<_>>(), ["115", "115"]);
    let order = ["carry", "set base", "fix cases", "set on base", "fix to wall", "fit filler"];
    let order = order.map(|kind| operations(&packet, kind)[0]["step"].as_u64().unwrap());
    assert!(order.is_sorted_by(|one, other| one < other), "{order:?}");
}

/// An island has no wall to strike a line on: nothing of its order speaks of one.
#[test]
fn a_base_without_a_wall_is_leveled_by_the_floor() {
    let site = "left wall { scribe 12 }; right open; fixing wall;";
    let island = laundry("separate")
        .replace(site, "left open; right open;")
        .replace("    filler corner { share 1 }\n", "");
    let compiled = sound(&island.replace("wide 1440", "wide 1380"));
    let order = papers::one(&compiled, "assembly-order", Format::Text).expect("an order");
    let own = order.lines().find(|line| line.contains("highest place")).expect("leveled");
    assert!(own.contains("until the upper edges of the base are 100 above that place"), "{own}");
    let walls: Vec<&str> = order.lines().filter(|line| line.contains("the wall ")).collect();
    assert!(walls.is_empty(), "{walls:#?}");
}

/// Each end has its notch, and one board goes across all four, when the cases hold.
#[test]
fn one_kick_goes_over_all_notches() {
    let compiled = sound(&laundry("cut-into ends"));
    let kicks = called(&compiled, "kick");
    let [kick] = kicks.as_slice() else { panic!("{kicks:#?}") };
    assert_eq!(kick.path, "laundry.kick");
    assert_eq!(kick.extent(Direction::X), (mm(60), mm(1440)));
    let sheet = papers::one(&compiled, "assembly-order", Format::Text).expect("a sheet");
    let step = |title: &str| {
        let at = sheet.rfind(title);
        at.unwrap_or_else(|| panic!("{title}: {sheet}"))
    };
    assert!(step("Fix it to the wall") < step("Fix the toe kick"));
    assert!(step("Fix the toe kick") < step("Fit the filler"));
}

/// A space parts the base, a filler doesn't, and neither do cases that differ in depth
/// share one: their fronts stand in different planes.
#[test]
fn a_base_ends_where_nothing_stands_on_it() {
    let bases = |text: &str| called(&sound(text), "base-front").len();
    assert_eq!(bases(&spec("gate-cottage-laundry.case")), 2);
    let one = laundry("separate");
    let filled = one
        .replace("    case bank {", "    filler middle { wide 50 }\n    case bank {")
        .replace("wide 1440", "wide 1490");
    assert_eq!(bases(&filled), 1);
    assert_eq!(bases(&one.replace("wide 580\n", "wide 580; deep 540\n")), 2);
}

/// The fronts of the sink and of the bank lie 18 before their ends, and their kick 60
/// behind those, 78 in all. An open case between them that is as deep has its front edges
/// flush with the fronts: its kick stands 78 behind them, in one board with the others, and
/// its ends are notched to 78 + 18 = 96. One that is set back by the fronts has its kick
/// on that line of itself, 560 - 542 + 60, though as a board of its own.
#[test]
fn kicks_of_a_run_stand_in_one_line() {
    let open = "case shelves { wide 300; across { open all { share 1 } } }";
    let with = |case: &str| {
        let text = laundry("cut-into ends").replace("wide 1440", "wide 1740");
        sound(&text.replace("    case bank", &format!("    {case}\n    case bank")))
    };
    let compiled = with(open);
    let kicks = called(&compiled, "kick");
    let [kick] = kicks.as_slice() else { panic!("{kicks:#?}") };
    assert_eq!(kick.extent(Direction::Z), (mm(78), mm(96)));
    assert_eq!(kick.extent(Direction::X), (mm(60), mm(1740)));
    let parts = compiled.parts.as_ref().expect("parts");
    let notch = |path: &str| {
        let end = parts.named(path).expect("an end").1;
        let kind = casewright::parts::FeatureKind::Notch;
        let notch = end.features.iter().find(|own| own.kind == kind).expect("a notch");
        (notch.v.1 - notch.v.0, end.extent(Direction::Z).0)
    };
    assert_eq!(notch("laundry.shelves.left-end"), (mm(96), mm(0)));
    assert_eq!(notch("laundry.bank.left-end"), (mm(78), mm(18)));
    let back = with(&open.replace("wide 300;", "wide 300; deep 542;"));
    let behind: Vec<Length> =
        called(&back, "kick").iter().map(|kick| kick.extent(Direction::Z).0).collect();
    assert_eq!(behind, [mm(78); 3]);
}

/// A case of 36 with its right side at a wall, and 3/4 there to be scribed: its base is
/// 35-1/4 long, and a strip of 3/4 closes the gap. At the left its plies are seen beside the
/// end, and in front the heads of its screws. Open at both sides it has no strip and is
/// seen at both; of solid wood it shows no plies.
#[test]
fn a_base_of_one_case_is_closed_at_the_wall_and_covered_where_it_is_seen() {
    let with = |right: &str, base: &str| {
        let text = spec("first.case")
            .replace("right open", right)
            .replace("set-back 3; cut-into ends", &format!("set-back 3; separate{base}"));
        let compiled = sound(&text);
        let paper = |slug| papers::one(&compiled, slug, Format::Text).expect("a paper");
        (paper("cut-list"), paper("assembly-order"))
    };
    let seen = "the front face of BSF is seen: sink the heads of its screws, and fill the holes";
    let (list, order) = with("right wall { scribe 3/4 }", "");
    assert!(list.contains("BSF, from its right end to the wall"), "{list}");
    assert!(order.contains("close the gap beside BSF at the wall with a strip"), "{order}");
    assert!(order.contains(seen), "{order}");
    let one = "the ends of BSF and BSK are seen beside LE: cover them there with veneer";
    assert!(order.contains(one), "{order}");
    let (list, order) = with("right open", "");
    assert!(!list.contains("scribe strip"), "{list}");
    assert!(order.contains("are seen beside LE and RE"), "{order}");
    // A base 4 high of 23/32, with 1/4 to trim.
    assert!(order.contains("strips of 4-1/4 x 31/32, ironed or glued on"), "{order}");
    let (_, order) = with("right open", "; stock maple");
    assert!(order.contains(seen) && !order.contains("with veneer"), "{order}");
}

/// Under paint the plies are filled, and no veneer is bought; under oil a strip for each end
/// of the kick is, as high as the kick of 4 with the 1/2 that is left on to scribe, and
/// 1/4 to trim.
#[test]
fn plies_are_filled_under_paint_and_veneered_under_a_clear_finish() {
    let with = |finish: &str| {
        let text = spec("first.case");
        let compiled = sound(&text.replace("finish oil { hardwax-oil;", finish));
        let paper = |slug| papers::one(&compiled, slug, Format::Text).expect("a paper");
        (paper("assembly-order"), paper("buying-list"))
    };
    let (order, list) = with("finish oil { hardwax-oil;");
    let strips = "strips of it on, 4-3/4 x 31/32, and trim them flush";
    assert!(order.contains(strips), "{order}");
    let bought = "veneer to match ply: strips no smaller than 4-3/4 x 31/32, for the ends of KICK";
    assert!(list.contains(bought), "{list}");
    let (order, list) = with("finish oil { paint;");
    let filled = "both ends of KICK are seen: fill them with wood filler and sand them flush";
    assert!(order.contains(filled), "{order}");
    assert!(!order.contains("veneer that matches") && !list.contains("veneer"), "{list}");
}
