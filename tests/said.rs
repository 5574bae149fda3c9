//! What a careful reader of the papers looked for in vain, or read two ways.

use casewright::papers::{self, Format};

use crate::support::{compile, spec};

fn paper(spec: &str, slug: &str) -> String {
    papers::one(&compile(&crate::support::spec(spec)), slug, Format::Text).expect("a paper")
}

fn holds(text: &str, all: &[&str]) {
    for told in all {
        assert!(text.contains(told), "{told}: {text}");
    }
}

/// The blocks of the fitting sheet stand in the step that drives the screws, what no sander
/// reaches is sanded before it is closed in, and a stile is never shy of its case.
#[test]
fn a_step_says_what_hands_need_in_it() {
    let order = paper("orchard-lane-chest.case", "assembly-order");
    let step = |title: &str| {
        let from = order.find(title).unwrap_or_else(|| panic!("{title}: {order}"));
        let rest = &order[from..];
        rest[..rest[3..].find("\n>> ").map_or(rest.len(), |at| at + 3)].to_owned()
    };
    let frame = step(">> 9  Glue up the face frame");
    holds(
        &frame,
        &["keep the openings middle, lower, left, and right even with the spacer blocks"],
    );
    holds(
        &step("  Dry-fit the carcass of chest\n   put"),
        &["sand the faces that come to lie inside"],
    );
    holds(
        &step("Cut the joints of the drawer boxes\n   before"),
        &["sand the inside faces of the boxes"],
    );
    holds(&order, &["the insides were sanded before", "hair proud of it and never shy"]);
    let fitting = paper("orchard-lane-chest.case", "fitting");
    holds(
        &fitting,
        &["TNL behind left and right", "What else the piece takes is in the assembly order"],
    );
    let list = paper("orchard-lane-chest.case", "cut-list");
    holds(
        &list,
        &[
            "[ ] LE-F  [ ] RI-F  drawer front",
            "small, across: 12-1/2 + 1-1/2 + 12-1/2",
            "chest, down: ",
        ],
    );
    let gaps = paper("orchard-lane-chest.case", "gaps");
    assert!(!gaps.contains("A door moves away") && gaps.contains("A drawer front moves away"));
}

/// A rabbet of 0.205 may be cut by any straight bit from 9/32 to 1 in. The dadoes of 23/32
/// ask for one of 5/8 and none of 5/16 is needed, so it is cut with that, its straight-edge
/// 0.205 + 3 − 5/16 = 2.893 from the back edge.
#[test]
fn a_rabbet_is_cut_with_a_bit_that_is_needed_anyway() {
    let sheet = paper("orchard-lane-chest.case", "jig-sheet");
    assert_eq!(sheet.matches("== Straight bit").count(), 3, "{sheet}");
    holds(&sheet, &[">> 2-29/32~ (2.893)  set-up 7: straight-edge, from the back edge"]);
}

/// The countertop of the hutch is one board wider than the planer: it went through before
/// its last joint, and nothing planes it again. Its doors hang at both sides: the hinge
/// stile of the left one is its left stile, and that of the right one its right stile.
#[test]
fn a_hutch_is_told_as_it_is_made() {
    let order = paper("heron-quay-hutch.case", "assembly-order");
    assert!(!order.contains(
        "flatten and plane each blank, then rip and crosscut it to the size on the cut list: CT"
    ));
    holds(&order, &["level that joint with a scraper only", "rip and crosscut CT to the size"]);
    let drawings = paper("heron-quay-hutch.case", "drawings");
    holds(&drawings, &["those hung on the other side are mirror images"]);
    let row = drawings.lines().find(|line| line.trim_start().starts_with("hinge stile"));
    assert_eq!(
        row.map(|row| row.split_whitespace().collect::<Vec<_>>()),
        Some(vec!["hinge", "stile", "CHL-LS,", "CHR-RS"])
    );
    let list = paper("heron-quay-hutch.case", "cut-list");
    holds(&list, &["hinge cups only in step", "pull holes only in step"]);
}

/// A pocket hole reaches about 2-1/8 in from the end of a stretcher of 3/4, so the first
/// slot of a countertop is 3 from it and not 2, and the last as far from the other end:
/// 39-1/8 − 3 = 36-1/8.
#[test]
fn slots_of_a_countertop_keep_off_pocket_holes() {
    let list = paper("heron-quay-hutch.case", "cut-list");
    let row = list.lines().find(|line| line.contains("back stretcher")).expect("a stretcher");
    holds(row, &["3 pocket holes", "center 3, ", "36-1/8 from the left end"]);
}

/// How far a screw moves aside is told in the unit of the job.
#[test]
fn screws_move_aside_in_the_unit_of_the_job() {
    holds(&paper("orchard-lane-chest.case", "layout"), &["move it an inch along its line"]);
    holds(&paper("alcove-shelves.case", "layout"), &["move it 25 mm along its line"]);
    assert!(spec("alcove-shelves.case").contains("units mm"));
}

/// A leg in the middle of a case, under a partition that is glued into the bottom.
pub(crate) const LEG_UNDER: &str = r#"casework 1
job "Legs" { units in }
site { fixing wall }
stock ply  { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; actual 13/64; sheet { long 96; wide 48 } }
case chest {
  wide 60; deep 15; high 30
  stock ply
  base { toe-kick; high 4; set-back 2; cut-into ends }
  back { stock thin; joint rabbet }
  bottom { joint dado }
  top { panel; joint dado }
  partitions { joint dado }
  leg { }
  frame none
  across { open a { share 1 }; divider; open b { share 1 } }
}
"#;

/// No screw goes down into a leg under a partition: it gets a block of 1 in below. The leg
/// is 15 less 2 to the kick, its 23/32, and the rabbet of the back, 13/64: 12-5/64; the
/// block is 1 in shorter. Its screws are the longest sold up to 1 + 23/32 − 1/8 = 1-19/32.
/// A leg beside the partition keeps its screws from above, on a line.
#[test]
fn a_leg_under_a_partition_is_held_from_below() {
    let papers_of = |leg: &str| {
        let compiled = compile(&LEG_UNDER.replacen("leg { }", leg, 1));
        ["assembly-order", "fitting"]
            .map(|slug| papers::one(&compiled, slug, Format::Text).expect("the paper"))
    };
    let [order, fitting] = papers_of("leg { }");
    assert!(order.contains("glue a block 1 square and 11-3/32~ long"), "{order}");
    assert!(!order.contains("LEG: glue and screw from above"));
    assert!(fitting.contains("4  wood screws, 1-1/2 long"), "{fitting}");
    let [order, _] = papers_of("leg { at 20 }");
    assert!(order.contains("LEG: glue and screw from above, on the lines of the layout sheet"));
}

/// The back of the first cabinet is 35-5/16 by 30-1/2, and one of its faces lies at the wall:
/// 0.695 m2 that a piece which stands free has more. Nobody coats the underside of a drawer
/// bottom of plywood either.
#[test]
fn no_finish_goes_on_what_lies_at_the_wall() {
    let coated = |text: &str| {
        let packet = crate::support::packet(&compile(text));
        let all = packet["operations"].as_array().expect("operations").iter();
        let coat = all.into_iter().find(|own| own["kind"] == "finish").expect("a coat").clone();
        let surfaces = coat["surfaces"].as_array().expect("surfaces").clone();
        let case = surfaces.iter().find(|own| own["what"] == "case").expect("the case");
        case["area"]["exact"].as_str().expect("a figure").parse::<f64>().expect("decimal")
    };
    let fixed = spec("first.case").replace(
        "{ stock thin; joint rabbet { deep 3/8 } }",
        "{ stock thin; joint rabbet { deep 3/8 }; nailers 1 }",
    );
    let free = fixed.replace("fixing wall; ", "");
    assert!((coated(&free) - coated(&fixed) - 0.695).abs() < 0.002);
    let order = paper("first.case", "assembly-order");
    holds(&order, &["no coat goes on the wall side of K and the underside of UP-XB"]);
}

/// The top of the sink's case is 18 thick and its doors lie 15 over it: 3 are left under the
/// countertop, which reaches out over them, and stand among the gaps.
#[test]
fn the_gap_under_a_countertop_is_told() {
    let gaps = paper("gate-cottage-laundry.case", "gaps");
    let rows: Vec<String> = gaps
        .lines()
        .map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "))
        .filter(|line| line.contains(" top countertop "))
        .collect();
    let all = ["pots, left door", "pots, right door", "upper, front", "towels, door"];
    assert_eq!(rows.len(), all.len(), "{rows:#?}");
    for (row, front) in rows.iter().zip(all) {
        assert!(row.contains(&format!("{front} top countertop 3.00 3.00")), "{row}");
    }
}

/// A door that strikes the wall needs something that stops it, which is bought; what is cut
/// from offcuts is not. The corners of rabbeted boxes are held while their glue sets, and a
/// miter has blocks of a size.
#[test]
fn what_holds_and_stops_is_told_where_it_is_bought_and_made() {
    let list = paper("gate-cottage-laundry.case", "buying-list");
    holds(&list, &["1  door stops, or limiters for the hinges: the left door of pots in sink"]);
    let none = paper("first.case", "buying-list");
    assert!(!none.contains("limiters"), "{none}");
    let fitting = paper("fern-bank-stand.case", "fitting");
    assert!(!fitting.contains("Order both"), "{fitting}");
    let order = paper("first.case", "assembly-order");
    holds(&order, &["a rabbet is open toward its end", "ease the upper edges of the drawer boxes"]);
    let dovetailed = paper("orchard-lane-chest.case", "assembly-order");
    assert!(!dovetailed.contains("a rabbet is open toward its end"));
    let packet = crate::support::packet(&compile(&spec("tide-cottage-press.case")));
    let all = packet["operations"].as_array().expect("operations");
    let blocks = all.iter().find(|own| own["kind"] == "glue blocks").expect("blocks");
    assert_eq!(blocks["block"]["print"], "50");
    // Two seams of a case 1900 mm high or so, with a pair for each foot of either.
    assert_eq!(blocks["pairs"], 12);
}
