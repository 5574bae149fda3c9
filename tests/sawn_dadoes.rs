//! Dadoes and grooves by a plain blade of the table saw: figures worked by hand.

use casewright::measure::Length;
use casewright::model::MemoryFiles;
use casewright::papers::{self, Format};
use casewright::pipeline::{self, Compilation};
use casewright::plans::guide::Guide;
use casewright::plans::sawing::Tool;
use casewright::plans::setups::Setup;

use crate::bench;
use crate::support::{compile, slugs, spec};

fn in_(numerator: i64, denominator: i64) -> Length {
    Length::inches(numerator, denominator)
}

/// The example of the reference with another shop.
fn books(shop: &str) -> Compilation {
    let text = include_str!("../specs/examples/dadoes-by-saw.case");
    let own = "shop { dadoes saw }";
    assert!(text.contains(own));
    let files = MemoryFiles::one("a.case", &text.replace(own, shop))
        .with("shop.case", include_str!("../specs/examples/shop.case"));
    pipeline::check(&files, "a.case").expect("readable")
}

fn sheet(compiled: &Compilation) -> String {
    papers::one(compiled, "jig-sheet", Format::Text).expect("the jig sheet")
}

/// What is sawn, by its settings.
fn sawn(setups: &[Setup]) -> Vec<&Setup> {
    setups.iter().filter(|setup| setup.is_sawn()).collect()
}

/// The bottom lies on a base 4 high and is 23/32 thick: its dado runs from 4 to 4-23/32,
/// and with a kerf of 4/32 the far wall is cut at 4-19/32. Three quarters of the kerf are
/// 3/32, and 19/32 are 6-1/3 of those: seven steps of 19/224, 0.085, and so six cuts.
#[test]
fn walls_come_first_and_the_waste_last() {
    let compiled = books("shop { dadoes saw }");
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let work = compiled.workings().expect("workings");
    let setups = sawn(work.setups());
    let guided = setups[0].guided.as_ref().expect("a guide");
    assert_eq!(guided.guide, Guide::Saw);
    let steps = [0, 7, 1, 2, 3, 4, 5, 6];
    assert_eq!(guided.settings, steps.map(|step| in_(4, 1) + in_(19 * step, 224)));
    assert_eq!(guided.set_over, in_(19, 32));
    assert_eq!(setups[0].passes, vec![in_(1, 4)]);
    // 48 long and 12 wide: it would turn on the fence.
    assert!(setups[0].runs.iter().all(|run| run.push == Some(Tool::Sled)));
    let paper = sheet(&compiled);
    assert!(paper.contains(">> 4, then 4-19/32  set-up 1: table-saw fence"), "{paper}");
    assert!(paper.contains("with 6 more cuts"), "{paper}");
    assert!(paper.contains("move it 0.085 farther before each"), "{paper}");
    assert!(paper.contains("== Straight bit"), "the rabbets stay with the router");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// With a kerf of 3/32 the far wall is cut at 4-23/32 − 3/32 = 4-5/8.
#[test]
fn the_kerf_is_that_of_the_saw() {
    let compiled = books("shop { dadoes saw; kerf 3/32 }");
    let paper = sheet(&compiled);
    assert!(paper.contains(">> 4, then 4-5/8  set-up 1: table-saw fence"), "{paper}");
    assert!(paper.contains("== Table saw with a plain blade, kerf 3/32 =="), "{paper}");
}

/// A fence that opens 8 in reaches the bottom's dado, which ends at 4-23/32, and not that
/// of the divider, about 26 up, which stays with the router.
#[test]
fn what_lies_beyond_the_fence_is_routed() {
    let compiled = books("shop { dadoes saw; fence 8 }");
    let work = compiled.workings().expect("workings");
    assert_eq!(sawn(work.setups()).len(), 1);
    let routed = work.setups().iter().filter(|setup| !setup.is_sawn());
    let far = routed.flat_map(|setup| &setup.lines).filter(|line| line.from > in_(20, 1));
    assert_eq!(far.count(), 1);
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// The ends are 48 long; a sled that takes 10 in takes no board 11-13/16 wide.
#[test]
fn what_neither_fence_nor_sled_takes_is_routed() {
    let compiled = books("shop { dadoes saw; sled 10 }");
    let work = compiled.workings().expect("workings");
    assert_eq!(sawn(work.setups()).len(), 0);
    assert!(!sheet(&compiled).contains("table-saw"), "nothing is told of a saw");
}

/// The boxes of the hall console have grooves that run through, 15 in above a fence; what
/// stops in its frame stays with the router.
#[test]
fn grooves_of_drawers_go_along_the_fence() {
    let text = spec("hall-console.case");
    let with = text.replacen("  clamps    9;", "  dadoes saw; clamps    9;", 1);
    assert_ne!(text, with);
    let compiled = compile(&with);
    let work = compiled.workings().expect("workings");
    let all = sawn(work.setups());
    assert!(!all.is_empty());
    for setup in &all {
        for run in &setup.runs {
            assert_eq!(run.stops, (Length::ZERO, Length::ZERO), "{}", setup.datum);
        }
    }
    let pushed: Vec<_> = all.iter().flat_map(|setup| &setup.runs).map(|run| run.push).collect();
    assert!(pushed.contains(&Some(Tool::Fence)), "{pushed:?}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// What a spec says of the shop goes before what a used file says; the rest of that
/// file's shop still holds.
#[test]
fn a_shop_is_filled_up_from_the_used_file() {
    let compiled = books("shop { clamps 9; allow { length 2 } }");
    let shop = &compiled.piece.as_ref().expect("a piece").shop;
    assert_eq!(shop.clamps, 9);
    // 15 min in the used file, where 8 is usual.
    assert_eq!(shop.open_time.to_string(), "15 min");
    assert_eq!(shop.allow_length, in_(2, 1));
}
