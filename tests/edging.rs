//! What covers the edges of sheets: figures worked by hand.

use casewright::measure::Length;
use casewright::model::MemoryFiles;
use casewright::papers::{self, EXAMPLES, Format, SHARED};
use casewright::parts::{Face, Part};
use casewright::pipeline::{self, Compilation};
use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet, slugs, spec};

fn inches(top: i64, bottom: i64) -> Length {
    Length::inches(top, bottom)
}

/// The example with covered edges.
fn example() -> Compilation {
    EXAMPLES.iter().find(|own| own.slug == "edges").unwrap().compiled().unwrap()
}

fn part(compiled: &Compilation, path: &str) -> Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1.clone()
}

fn text(compiled: &Compilation, paper: &str) -> String {
    papers::one(compiled, paper, Format::Text).expect(paper)
}

/// A strip of the packet as it is printed: where it goes, and its length, width, and
/// thickness.
fn strips(compiled: &Compilation, path: &str) -> Vec<(String, [String; 3])> {
    let mark = part(compiled, path).mark;
    let packet = packet(compiled);
    let all = packet["operations"].as_array().unwrap().iter();
    let own = all.filter(|own| own["kind"] == "edge" && own["part"] == mark.as_str());
    own.map(|own| {
        let size = [0, 1, 2].map(|at| own["strip"][at]["exact"].as_str().unwrap().to_owned());
        (own["face"].as_str().unwrap().to_owned(), size)
    })
    .collect()
}

/// The bottom is 22 deep less the door's 23/32 and the back's 13/64: 21-5/64, of which
/// 1/32 is banding. It is 24 less two ends of 23/32 and twice 1/4 in its dadoes: 23-1/16.
/// Its banding is cut 1 longer and 1/16 wider than the edge.
#[test]
fn banding_is_part_of_the_size_and_the_core_is_sawn_to_the_rest() {
    let compiled = example();
    let bottom = part(&compiled, "store.bottom");
    assert_eq!(bottom.width.length, inches(21 * 64 + 5, 64));
    let [length, width] = bottom.core();
    assert_eq!(length.length, inches(369, 16));
    assert_eq!(width.length, inches(21 * 64 + 3, 64));
    assert_eq!((bottom.rough.length, bottom.rough.width), (length.length, width.length));
    let size = ["385/16", "25/32", "1/32"].map(str::to_owned);
    assert_eq!(strips(&compiled, "store.bottom"), [("front edge".to_owned(), size)]);
}

/// The shelf is 24 less two ends and 1/8 of clearance, 22-7/16, by 21-5/64 less its
/// set-back of 1/4, 20-53/64. Its lip takes 3/4 of that. The core is sawn 1/4 over both
/// ways, and both are cut off when the lip is on: 22-11/16 by 20-21/64. The strip is 1
/// longer than that, and as wide as its boards are planed.
#[test]
fn a_lipped_board_is_sawn_over_and_cut_to_size_with_its_lip_on() {
    let compiled = example();
    let shelf = part(&compiled, "store.store.shelf");
    assert_eq!(shelf.length.length, inches(22 * 16 + 7, 16));
    assert_eq!(shelf.width.length, inches(20 * 64 + 53, 64));
    assert_eq!(shelf.core()[1].length, inches(20 * 64 + 5, 64));
    assert_eq!(shelf.rough.length, inches(22 * 16 + 11, 16));
    assert_eq!(shelf.rough.width, inches(20 * 64 + 21, 64));
    let size = ["379/16", "13/16", "3/4"].map(str::to_owned);
    assert_eq!(strips(&compiled, "store.store.shelf"), [("front edge".to_owned(), size)]);
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let place = |kind: &str| {
        operations.iter().position(|own| {
            let own_part = own["part"] == shelf.mark.as_str();
            let among = own["parts"]
                .as_array()
                .is_some_and(|all| all.iter().any(|mark| mark == shelf.mark.as_str()));
            own["kind"] == kind && (own_part || among)
        })
    };
    assert!(place("break down") < place("edge") && place("edge") < place("mill"));
}

/// The shelf is sawn 22-11/16 long, 1/4 more than it is in the end, and 20-21/64 wide. A sheet of 23-11/16 has 1/2 in
/// trimmed off at each end and gives that; one of 23-1/2 gives 22-1/2, which would do for the
/// shelf without its lip.
#[test]
fn what_is_sawn_over_for_a_lip_comes_off_a_sheet() {
    let text = EXAMPLES.iter().find(|own| own.slug == "edges").unwrap().text;
    let told = |long: &str| {
        let stock = format!(
            "stock small {{ plywood 3/4; actual 23/32; species sugar-maple; sheet {{ long {long}; wide 48 }} }}\n\njob"
        );
        let text = text.replacen("\njob", &format!("\n{stock}"), 1);
        let text = text.replacen("shelves {", "shelves { stock small;", 1);
        let files = MemoryFiles::one("a.case", &text).with(SHARED.0, SHARED.1);
        let compiled = pipeline::check(&files, "a.case").expect("readable");
        let found = compiled.diagnostics.into_iter().find(|own| own.slug == "part-too-large");
        found.map(|own| own.title)
    };
    assert_eq!(told("23-11/16"), None);
    let title = "store.store.shelf is sawn over for its lips, to 22-11/16 by 20-11/32~, but a trimmed sheet of small is only 22-1/2 by 47";
    assert_eq!(told("23-1/2").as_deref(), Some(title));
}

/// The door lies over a 24 in case by all but 1/16 at each side: 23-7/8. Two lips of 1/4
/// leave 23-3/8 for its core. The strip at the top goes on before those along the sides,
/// and these are as long as the core, sawn 1/4 over at the bottom, and that strip, and 1
/// more.
#[test]
fn strips_at_the_ends_go_on_first_and_those_along_cover_them() {
    let compiled = example();
    let door = part(&compiled, "store.store.door");
    assert_eq!(door.width.length, inches(191, 8));
    assert_eq!(door.core()[1].length, inches(187, 8));
    let faces: Vec<Face> = door.strips.iter().map(|strip| strip.face).collect();
    assert_eq!(faces, [Face::LengthEnd, Face::WidthStart, Face::WidthEnd]);
    let all = strips(&compiled, "store.store.door");
    let length = |top: i64, bottom: i64| inches(top, bottom);
    assert_eq!(all[0].1[0], "195/8");
    let along = door.length.length + inches(1, 4) + length(1, 1);
    assert_eq!(door.edge_long(1) + inches(1, 1), along);
    assert_eq!(
        all.iter().map(|(face, _)| face.as_str()).collect::<Vec<_>>(),
        ["top end", "hinge edge", "latch edge"]
    );
}

/// Two ends of 34-1/2, a bottom of 23-1/16, a divider of 22-9/16 and twice 23/96 (a third
/// of 23/32) in its dadoes, and a top of 22-9/16 and twice 3/8 in its rabbets, each with 1
/// more, and two ends of a kick of 4-1/2, also with 1 more each: 71 + 24-1/16 + 24-1/24 +
/// 24-5/16 + 11 = 154-5/12. A tenth more is 169.86, up to 15 feet.
#[test]
fn a_roll_is_bought_with_a_tenth_for_waste() {
    let list = text(&example(), "cut-list");
    assert!(list.contains("Buy 15 feet of banding 25/32 wide or more: 7 strips"), "{list}");
    let own = EXAMPLES.iter().find(|own| own.slug == "edges").unwrap();
    let text = own.text.replace("banding 1/32", "banding 1/32; price 0.80 per ft");
    let (name, shared) = SHARED;
    let files = MemoryFiles::one("a.case", &text).with(name, shared);
    let priced = pipeline::check(&files, "a.case").unwrap();
    let list = papers::one(&priced, "buying-list", Format::Csv).unwrap();
    let row = list.lines().find(|line| line.starts_with("edging,")).unwrap();
    assert!(row.contains(",15 ft,") && row.ends_with(",0.80 per ft,12.00"), "{row}");
}

/// Nothing is cut into a board before its edges are covered.
#[test]
fn edges_come_before_joints() {
    let packet = packet(&example());
    let operations = packet["operations"].as_array().unwrap();
    let mut seen = 0;
    for edge in operations.iter().filter(|own| own["kind"] == "edge") {
        let mark = &edge["part"];
        let at = operations.iter().rposition(|own| own["kind"] == "edge" && own["part"] == *mark);
        let cut = operations.iter().position(|own| match own["kind"].as_str() {
            Some("setting") => {
                own["pieces"].as_array().unwrap().iter().any(|piece| piece["part"] == *mark)
            }
            Some("bore" | "shape") => own["part"] == *mark,
            _ => false,
        });
        assert!(cut.is_none_or(|cut| at.is_some_and(|at| at < cut)), "{mark}");
        seen += usize::from(cut.is_some());
    }
    assert!(seen >= 5, "{seen}");
}

/// Behind a face frame only what stands back from it shows its edge, and below it the ends of
/// the kick.
#[test]
fn the_frame_covers_the_edges_behind_it() {
    let text = spec("first.case")
        .replace("stock ply                              #", "edges maple\n  stock ply  #");
    let compiled = compile(&text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let parts = compiled.parts.as_ref().unwrap();
    let edged: Vec<&str> = parts
        .all
        .iter()
        .filter(|part| !part.strips.is_empty())
        .map(|part| part.path.as_str())
        .collect();
    assert_eq!(edged, ["cupboard.kick", "cupboard.store.shelf"]);
}

/// The console stands between its walls or not: a countertop of sheet is lipped where it
/// is free. Fixed to the wall, its back is bare; at the left it meets a wall.
#[test]
fn a_countertop_is_lipped_where_it_is_free() {
    let bar = spec("quarry-steps-coffee-bar.case");
    let sheet =
        bar.replace("countertop { stock walnut }", "countertop { stock ply; edges walnut }");
    assert_ne!(bar, sheet);
    let compiled = compile(&sheet);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    let top = part(&compiled, "bar.countertop");
    let faces: Vec<Face> = top.strips.iter().map(|strip| strip.face).collect();
    assert_eq!(faces, [Face::LengthEnd, Face::WidthStart]);
    // 40-1/2 by 21 in all, as one of solid wood.
    assert_eq!(top.length.length, inches(81, 2));
    assert_eq!(top.core()[0].length, inches(161, 4));
}

/// A front that is planed to its opening gets strips with that shaving on them.
#[test]
fn lips_of_an_inset_front_have_the_shaving_on_them() {
    let first = spec("first.case");
    let lipped = first.replace("stock maple; set inset", "stock ply; edges maple; set inset");
    let compiled = compile(&lipped);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let order = text(&compiled, "assembly-order");
    assert!(order.contains("rip these strips 1/32 thicker than that"), "{order}");
    assert!(bench::complaints(&packet(&compiled).to_string()).is_empty());
}

/// The shop finds what is wrong with strips.
#[test]
fn the_shop_notices_strips_that_are_wrong() {
    let sound = packet(&example());
    let at = |packet: &Value| {
        packet["operations"]
            .as_array()
            .unwrap()
            .iter()
            .position(|own| own["kind"] == "edge")
            .unwrap()
    };
    let noticed = |spoil: &dyn Fn(&mut Value), what: &str| {
        let mut packet = sound.clone();
        spoil(&mut packet);
        let complaints = bench::complaints(&packet.to_string());
        assert!(complaints.iter().any(|own| own.contains(what)), "{what}: {complaints:#?}");
    };
    let figure = |text: &str| serde_json::json!({"exact": text, "print": text});
    noticed(
        &|packet| {
            let own = at(packet);
            packet["operations"].as_array_mut().unwrap().remove(own);
        },
        "is not covered with tape",
    );
    noticed(
        &|packet| {
            let own = at(packet);
            packet["operations"][own]["strip"][1] = figure("1/2");
        },
        "the strip is",
    );
    noticed(
        &|packet| {
            let own = at(packet);
            packet["operations"][own]["strip"][2] = figure("1/16");
        },
        "is not as thick as that",
    );
    noticed(
        &|packet| {
            let own = at(packet);
            let operations = packet["operations"].as_array_mut().unwrap();
            let moved = operations.remove(own);
            operations.push(moved);
        },
        "its joints are cut already",
    );
}

/// A divider of an open place has no stile before it: the rails cover its two ends, and the
/// rest of its front edge is seen and can be lipped. A partition stands behind its stile,
/// and an end behind its own.
#[test]
fn a_divider_in_a_frame_can_be_lipped() {
    let text = r#"
casework 1
job "Niche" { units in; tape 1/32 }
site { fixing wall }
shop { clamps 12 }
stock ply   { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }
stock thin  { plywood 1/4; actual 13/64; sheet { long 96; wide 48 } }
stock maple { lumber 4/4; thickness 3/4; species sugar-maple }
case niche {
  wide 30; deep 18; high 30
  stock ply
  base { toe-kick; high 4; set-back 3; cut-into ends }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }
  partitions { joint dado { deep 1/4 } }
  frame {
    stock maple; joint pocket
    stile left { wide 1-3/4 }; stile right { wide 1-3/4 }
    rail top { wide 1-1/2 }; rail bottom { wide 1-1/2 }
    across { open a { share 1 }; divider { edges maple { thick 1/4 } }; open b { share 1 } }
  }
}
"#;
    let compiled = compile(text);
    assert!(!slugs(&compiled).contains(&"edge-unused"), "{:#?}", compiled.diagnostics);
    let parts = compiled.parts.as_ref().expect("parts");
    let lipped: Vec<&Part> = parts.all.iter().filter(|part| !part.strips.is_empty()).collect();
    let [divider] = lipped.as_slice() else { panic!("one is lipped: {lipped:#?}") };
    // 18 less a frame of 3/4 and a back of 13/64, of which 1/4 is the lip.
    assert_eq!(divider.width.length, inches(17 * 64 + 3, 64));
    assert_eq!(divider.core()[1].length, inches(16 * 64 + 51, 64));
    assert_eq!(bench::complaints(&packet(&compiled).to_string()), Vec::<String>::new());
}

/// The kick is 24 long and seen at both ends. Each has the banding of its case, 1/32 thick, so
/// its core is 23-15/16. A strip is 1 longer than the 4 of the kick with 1/2 left on for the
/// floor. Beside a wall its end is bare, and so are both where only the boards say what is on
/// their edges. The front and the back of a separate base are covered like a kick.
#[test]
fn the_ends_of_a_kick_that_are_seen_are_covered_as_the_ends_over_them() {
    let compiled = example();
    let kick = part(&compiled, "store.kick");
    assert_eq!(kick.length.length, inches(24, 1));
    assert_eq!(kick.core()[0].length, inches(383, 16));
    let size = ["11/2", "25/32", "1/32"].map(str::to_owned);
    let both = ["left end", "right end"].map(|face| (face.to_owned(), size.clone()));
    assert_eq!(strips(&compiled, "store.kick"), both);
    assert!(!text(&compiled, "assembly-order").contains("of KICK are seen"));
    let own = EXAMPLES.iter().find(|own| own.slug == "edges").unwrap();
    let with = |changes: &[(&str, &str)]| {
        let mut text = own.text.to_owned();
        for (from, to) in changes {
            assert!(text.contains(from), "{from}");
            text = text.replacen(from, to, 1);
        }
        let files = MemoryFiles::one("a.case", &text).with(SHARED.0, SHARED.1);
        pipeline::check(&files, "a.case").expect("readable")
    };
    let walled = with(&[("fixing wall", "left wall; fixing wall")]);
    assert_eq!(strips(&walled, "store.kick"), both[1..]);
    let bare = with(&[("  edges tape\n", "  ends { edges tape }\n")]);
    assert_eq!(strips(&bare, "store.kick"), []);
    assert!(text(&bare, "assembly-order").contains("both ends of KICK are seen"));
    let base = with(&[("cut-into ends", "separate")]);
    for (path, high) in [("store.base-front", "5"), ("store.base-back", "5")] {
        let size = [high, "25/32", "1/32"].map(str::to_owned);
        let both = ["left end", "right end"].map(|face| (face.to_owned(), size.clone()));
        assert_eq!(strips(&base, path), both);
    }
    for compiled in [compiled, walled, bare, base] {
        assert_eq!(bench::built(&compiled), Vec::<String>::new());
    }
}
