//! Sheets that come with a finish: figures worked by hand.

use casewright::model::JointKind;
use casewright::papers::{self, Format};
use casewright::parts::JointSort;
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet, slugs, spec};

fn with(prefinished: &str) -> Compilation {
    let sheet = format!("plywood 3/4; actual 23/32; {prefinished}");
    compile(&spec("first.case").replacen("plywood 3/4; actual 23/32;", &sheet, 1))
}

/// Square meters that the first coat goes on, of the loose shelf and in all.
fn coated(compiled: &Compilation) -> (f64, f64) {
    let packet = packet(compiled);
    let coats = packet["operations"].as_array().unwrap().iter();
    let first = coats.into_iter().find(|own| own["kind"] == "finish").expect("a coat").clone();
    let number = |value: &Value| {
        let text = value["exact"].as_str().or_else(|| value.as_str()).unwrap_or_default();
        let mut halves = text.split('/');
        let top: f64 = halves.next().and_then(|own| own.parse().ok()).unwrap_or(f64::NAN);
        top / halves.next().and_then(|own| own.parse().ok()).unwrap_or(1.0)
    };
    let surfaces = first["surfaces"].as_array().unwrap();
    let shelf = surfaces.iter().find(|own| own["what"] == "loose shelves");
    (shelf.map_or(0.0, |own| number(&own["area"])), number(&first["area"]))
}

/// The shelf is 34-7/16 by 16-51/64 in: 0.373 m2 on each face. With both faces finished
/// only its edges are left, with one its underside too.
#[test]
fn no_finish_goes_on_a_finished_face() {
    let [none, one, both] = ["", "prefinished 1;", "prefinished 2;"].map(|own| coated(&with(own)));
    let face = 34.4375 * 16.796_875 * 0.0254 * 0.0254;
    assert!((none.0 - one.0 - face).abs() < 0.06, "{none:?} {one:?}");
    assert!((one.0 - both.0 - face).abs() < 0.06, "{one:?} {both:?}");
    assert!(none.1 > one.1 && one.1 > both.1, "{none:?} {one:?} {both:?}");
}

/// Screws hold without glue, dadoes are glued as before, and dowels are refused.
#[test]
fn glue_holds_on_bare_wood_only() {
    let compiled = with("prefinished 2;");
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let parts = compiled.parts.as_ref().unwrap();
    let glued = |path: &str, kind: JointKind| {
        let (id, _) = parts.named(path).unwrap();
        let own =
            parts.joints.iter().find(|own| own.part == id && own.sort == JointSort::Wood(kind));
        own.unwrap().glued
    };
    assert!(glued("cupboard.bottom", JointKind::Dado));
    assert!(!glued("cupboard.front-stretcher", JointKind::Pocket));
    assert!(bench::complaints(&packet(&compiled).to_string()).is_empty());
    let text = spec("first.case").replacen("actual 23/32;", "actual 23/32; prefinished 2;", 1);
    let doweled = text.replace("{ wide 4 }; joint pocket", "{ wide 4 }; joint dowel");
    assert_eq!(slugs(&compile(&doweled)), ["glue-on-finish"]);
    let let_in = text.replace("{ wide 4 }; joint pocket", "{ wide 4 }; joint dado");
    assert!(!slugs(&compile(&let_in)).contains(&"glue-on-finish"));
}

/// A packer on a finished sheet is screwed on without glue, and its holes stay round: a
/// sheet does not move under it. On an end of boards they are slots but for the first.
#[test]
fn packers_on_a_finished_sheet_need_no_slots() {
    let order = |compiled: &Compilation| {
        papers::one(compiled, "assembly-order", Format::Text).expect("the order")
    };
    let dry = "without glue";
    let slots = "run across the grain of a solid board";
    let sheet = order(&with("prefinished 2;"));
    let fixed = |order: &str| {
        let line = order.lines().find(|line| line.contains("fix the packers first"));
        line.expect("packers").to_owned()
    };
    assert!(fixed(&sheet).contains(dry) && !sheet.contains(slots), "{}", fixed(&sheet));
    let boards = spec("first.case").replace("ends { stock ply }", "ends { stock maple }");
    let boards = order(&compile(&boards));
    assert!(fixed(&boards).contains(dry) && boards.contains(slots), "{}", fixed(&boards));
    let plain = order(&with(""));
    assert!(!fixed(&plain).contains(dry) && !plain.contains(slots), "{}", fixed(&plain));
}
