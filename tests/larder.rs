//! A tall larder with a filler, trays behind a door, and fronts of MDF: figures worked by hand.

use casewright::papers::{self, Format};
use serde_json::Value;

use crate::support::{compile, packet};

pub(crate) const LARDER: &str = r#"casework 1

job "Tall larder" { units mm; currency "EUR"; give { wide 0; high 0 } }
site { left wall { scribe 12 }; right wall; fixing wall; humidity 35% to 65% }

shop {
  humidity 45%; kerf 3.2; fence 1300; sled 700
  clamps 14; open-time 15 min; clamp 45 min; cure 12 h
}
stock birch  { plywood 18 mm; actual 17.8; species yellow-birch; sheet { long 2500; wide 1250; price 96 per sheet } }
stock birch-9 { plywood 9 mm; actual 8.9; species yellow-birch; sheet { long 2500; wide 1250; price 58 per sheet } }
stock birch-6 { plywood 6 mm; actual 6.1; species yellow-birch; sheet { long 2500; wide 1250; price 41 per sheet } }
stock mdf-19 { mdf 19 mm; actual 19; sheet { long 2800; wide 2070; grain none; price 74 per sheet } }
stock side  { lumber 20 mm; thickness 14; species european-beech; boards { wide 120 to 200; long 2000 to 3000 } }
stock abs   { banding 1 mm }
hinge clip {
  cup 35 mm; bore 12.5; from-edge 5; swing 110 deg; gap 1.5; adjust 2
  door-thickness 15 mm to 26 mm; from-end 85
  plate { back 37; apart 32; screw 5; deep 12 }
  price 4.20 each
}
slide runner-450 {
  undermount; length 450; room 465
  box-inside opening - 42; box-high opening - 30; box-up 14
  notch { wide 35; high 13 }; hook { bore 6; deep 10; from-side 7; up 11 }
  behind-front 3; load 30 kg; adjust 2; price 34 per pair
}
pull bar-160 { centers 160; screw 4.5; stands 32; foot 12; price 7.50 each }
finish oil { hardwax-oil; coats 2; covers 24 m2 per l; cure 24 h; can 750 ml { price 38 each }; can 2500 ml { price 105 each } }
finish white { water-lacquer; coats 3; covers 8 m2 per l; cure 3 h; can 1 l { price 32 each } }
supply shelf-pins { pack 50; price 6 per pack }

run larder {
  wide 600; deep 580; high 2200
  stock birch
  edges abs
  base { toe-kick; high 100; set-back 50; separate }
  bottom { joint dado { deep 6 } }
  back { stock birch-9; joint rabbet { deep 9 }; nailers 1 }
  top { panel; joint rabbet { deep 9 } }
  shelves { pins { deep 10 }; load 75 kg per m2; joint dado { deep 6 } }
  frame none
  across {
    filler corner { wide 50 }
    case tall {
      share 1
      down {
        door upper { share 1; hung left; shelf { adjustable 4 } }
        divider { load 75 kg per m2; joint dado { deep 6 } }
        door lower {
          high 1000; hung left
          down {
            drawer pull-out-1 { share 1; set-back 60 }
            drawer pull-out-2 { same pull-out-1; set-back 60 }
            drawer pull-out-3 { same pull-out-1; set-back 60 }
            drawer pull-out-4 { same pull-out-1; set-back 60 }
          }
        }
      }
    }
  }
  fronts { stock mdf-19; edges none; set overlay; gap 3; hinge clip; pull bar-160; finish white }
  drawers {
    stock side; bottom-stock birch-6; slide runner-450
    groove { up 13; deep 6 }; joint rabbet
  }
  finish oil
}
"#;

fn paper(text: &str, slug: &str) -> String {
    papers::one(&compile(text), slug, Format::Text).expect("a paper")
}

/// The middle hinge of the upper door is 527.75 above the opening, and the screws of its plate
/// are at 511.75 and 543.75. Of the places at 132 and each 32 above that, the 13th at 516 and
/// the 14th at 548 lie within 5 of them: no hole is there, and the 15th place, at 580, is hole
/// 13. The third shelf is shared out at 612, the 16th place: a hand that counts the holes finds
/// there hole 14.
#[test]
fn shelves_go_on_the_holes_that_a_hand_counts() {
    let sheet = paper(LARDER, "fitting");
    for line in [
        "24 holes in each row, 32 mm from center to center; the first is 132 above the lower edge of the opening",
        "holes 12 and 13 are 96 mm apart: 2 are left out between them, where another hole or a block is in the way",
        "to stand where they are drawn, the shelves go on holes 3, 10, 14, and 21, counted from the bottom",
    ] {
        assert!(sheet.contains(line), "no `{line}` in {sheet}");
    }
}

/// The doors hang on the left end, at 85, 512.6, and 940.2 and at 1113.2, 1563.35, and 2013.5
/// from its bottom end. Their plates take 24 above and below the middle, and a driver 6 more.
#[test]
fn screws_of_a_filler_keep_clear_of_hinges() {
    let packet = packet(&compile(LARDER));
    let lines = packet["operations"].as_array().unwrap().iter();
    let own = lines.filter(|own| own["kind"] == "screw line" && own["into"] == "LBT");
    let print = |figure: &Value| {
        let text = figure["print"].as_str().unwrap().trim_end_matches('~');
        text.parse::<f64>().unwrap()
    };
    let mut screws = Vec::new();
    for line in own {
        assert_eq!(line["from"][1], "bottom end");
        let apart = line.get("apart").map_or(0.0, print);
        let count = line["count"].as_u64().unwrap();
        screws.extend((0..count).map(|number| print(&line["first"]) + apart * number as f64));
    }
    assert!(screws.len() >= 8, "{screws:?}");
    for hinge in [85.0, 512.6, 940.2, 1113.2, 1563.35, 2013.5] {
        let near: Vec<&f64> = screws.iter().filter(|at| (**at - hinge).abs() < 30.0).collect();
        assert!(near.is_empty(), "{near:?} beside the hinge at {hinge}");
    }
}

/// From the floor: the base of 100 and the bottom of 17.8, four openings of 250 behind the
/// lower door, the divider of 17.8, and what is left below the top of 17.8: 2200 - 100 - 3 x
/// 17.8 - 1000 = 1046.6.
#[test]
fn the_elevation_with_open_doors_has_the_spaces_behind_each() {
    let page = papers::one(&compile(LARDER), "drawings", Format::Html).expect("a page");
    let open = page.split("its doors open").nth(1).expect("an elevation");
    let open = open.split("</svg>").next().unwrap();
    for figure in [">250<", ">1046.5≈<", ">2200<"] {
        assert!(open.contains(figure), "no {figure}");
    }
    assert!(!open.contains(">1082"));
    // What a drawing rounds is listed below as it is.
    assert!(paper(LARDER, "drawings").contains("1046.5~ = 1046.60"));
}

/// The lacquer lies on the doors, the fronts, and the filler of MDF, whose edges are bare; oil
/// soaks in.
#[test]
fn edges_of_mdf_are_sealed_before_lacquer() {
    let told = "seal the sawn edges of MDF";
    let order = paper(LARDER, "assembly-order");
    let line = order.lines().find(|line| line.contains(told)).expect("a line");
    assert!(line.ends_with(": UP-D, LO-D, PO1-F, PO2-F, PO3-F, PO4-F, LFL"), "{line}");
    assert!(
        !paper(&LARDER.replace("finish white }", "finish oil }"), "assembly-order").contains(told)
    );
}

/// What is entered is in the unit of the job.
#[test]
fn examples_are_in_the_unit_of_the_job() {
    let plan = paper(LARDER, "board-plan");
    assert!(plan.contains("`on-hand { long 2600; wide 185; lost 0 to 50; lost 790 to 915 }`"));
}

/// The two drawer fronts of one size share a line of the cut list.
#[test]
fn alike_fronts_share_a_line() {
    let list = paper(LARDER, "cut-list");
    let line = list.lines().find(|line| line.contains("[ ] PO2-F")).expect("a line");
    assert!(line.contains("PO3-F") && line.contains("drawer front"), "{line}");
}
