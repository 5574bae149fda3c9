//! False fronts and the blocks that hold them: figures worked by hand.

use casewright::measure::Length;
use casewright::model::MemoryFiles;
use casewright::papers::{self, Format};
use casewright::parts::{Cuboid, Direction, Part};
use casewright::pipeline::{self, Compilation};

use crate::bench;
use crate::support::{compile, demo_pieces, packet, slugs, spec};

fn part<'a>(compiled: &'a Compilation, path: &str) -> &'a Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1
}

/// From and to in sixty-fourths of an inch: along x, up, and back.
fn lies(space: &Cuboid, [x, y, z]: [[i64; 2]; 3]) {
    let figures = |[from, to]: [i64; 2]| (Length::inches(from, 64), Length::inches(to, 64));
    assert_eq!((space.from.x, space.to.x), figures(x));
    assert_eq!((space.from.y, space.to.y), figures(y));
    assert_eq!((space.from.z, space.to.z), figures(z));
}

fn first(list: &str, set: &str) -> Compilation {
    let text = spec("first.case").replace("drawer upper { high 5 }", list);
    let text = text.replace("set inset", set).replace("pull knob\n", "pull none\n");
    if list.contains("drawer ") {
        return compile(&text);
    }
    // Without a drawer nothing says how drawers are made.
    let (before, rest) = text.split_once("  drawers {").expect("the drawers");
    let (_, after) = rest.split_once("joint rabbet\n  }\n").expect("their end");
    compile(&format!("{before}{after}"))
}

/// The front is as thick as the frame, 3/4, so its back lies in the plane of the back of
/// the stile. Behind that the end lies 1-3/4 − 23/32 = 1-1/32 past the opening, which is
/// more than 3/4: the block lies flat on the stile, 3/4 over it and 3/4 into the opening,
/// from 1 to 2-1/2 from the side. The opening of 5 ends 1-1/2 under the top at 34-1/2, so
/// it begins at 28; the block is 1/4 shorter, from 28-1/8 to 32-7/8.
#[test]
fn a_block_lies_flat_on_the_back_of_a_wide_stile() {
    let compiled = first("false upper { high 5 }", "set inset");
    // The hinge, the slide, and the pull are left over.
    assert_eq!(slugs(&compiled), ["block-unused"; 3]);
    let block = part(&compiled, "cupboard.upper.left-holding-block");
    lies(&block.cuboid(), [[64, 160], [1800, 2104], [48, 96]]);
    // Its screws go from its back into the stile, and beside them into the front.
    let fitting = papers::one(&compiled, "fitting", Format::Text).expect("the fitting sheet");
    // Through 3/4 and 5/8 of the 3/4 stile at the most: 1-3/8, sold as 1-1/4.
    assert!(fitting.contains("4  wood screws, 1-1/4 long"), "{fitting}");
    // Through 3/4 and 1/2 into the front: 1-1/4.
    assert!(fitting.contains("4  pan-head screws with washers, 1-1/4 long"), "{fitting}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// A partition of 23/32 behind a stile of 1-1/2 lies (1-1/2 − 23/32) / 2 = 25/64 past the
/// opening: no room for a flat block, so it stands against the partition, 25/64 + 3/4 =
/// 1-9/64 thick. The openings are (32-1/2 − 1-1/2) / 2 = 15-1/2 wide: the left one ends
/// 17-1/4 from the side, and the block begins 3/4 before that, at 16-1/2.
#[test]
fn a_block_stands_against_a_near_partition() {
    let list = "across { high 5; false one { share 1 }; stile { wide 1-1/2; partition { joint dado { deep 1/4 } } }; drawer two { share 1 } }";
    let compiled = first(list, "set inset");
    let block = part(&compiled, "cupboard.one.right-holding-block");
    lies(&block.cuboid(), [[1056, 1129], [1800, 2104], [48, 96]]);
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// An overlay front lies before the frame: its block stands in the opening, against the
/// edge of the stile, with its front flush with the face of the frame. The apron of the
/// wash stand is 6 high, so its blocks are 5-3/4 long.
#[test]
fn a_block_of_an_overlay_front_stands_in_the_opening() {
    let mut all = demo_pieces().into_iter();
    let (_, compiled) = all.find(|(name, _)| name == "ferry-road-wash-stand").expect("the stand");
    let block = part(&compiled, "stand.basin.apron.left-holding-block");
    assert_eq!(block.length.length, Length::inches(23, 4));
    // The stile left of the basin ends 2 + 13 + 1-1/2 = 16-1/2 from the side; the opening
    // goes from 33 − 1-1/2 − 6 = 25-1/2 up. The front is 3/4 thick, and 0 is its face.
    lies(&block.cuboid(), [[1056, 1104], [1640, 2008], [48, 96]]);
    let steps = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    let at = |title: &str| steps.find(title).unwrap_or_else(|| panic!("{title}"));
    assert!(at("Fix the blocks of the false fronts\n   ") < at("Fix the false fronts\n   "));
    assert!(steps.contains("AP-LHB, AP-RHB"), "{steps}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// A front thinner than the frame leaves some of the stile's edge behind it: 3/4 − 1/4 =
/// 1/2, as much as a block needs; its front stands 1/4 behind the face.
#[test]
fn a_block_behind_a_thin_front_goes_by_what_is_left_of_the_stile() {
    let text = spec("first.case")
        .replace("drawer upper { high 5 }", "false upper { high 5; front { stock slip } }")
        .replace("pull knob\n", "pull none\n")
        .replace(
            "hinge cup-hinge {",
            "stock slip { lumber 4/4; thickness 1/4; species sugar-maple }\nhinge cup-hinge {",
        );
    let compiled = compile(&text);
    let block = part(&compiled, "cupboard.upper.left-holding-block");
    lies(&block.cuboid(), [[112, 160], [1800, 2104], [16, 64]]);
}

/// A frame of 7/8 stands on 1/8 behind a front of 3/4, too little for a block: it lies on
/// the back of the stile, and shims of 1/8 fill what is left before it. The screws go
/// through 3/4 and 1/8 and as much as 1/2 into the front: 1-1/4, of which 3/8 bites.
#[test]
fn shims_lie_between_a_front_and_the_block_behind_a_thicker_frame() {
    let text = spec("first.case")
        .replace("drawer upper { high 5 }", "false upper { high 5 }")
        .replace("pull knob\n", "pull none\n")
        .replace("stock maple; joint pocket", "stock thick; joint pocket")
        .replace(
            "hinge cup-hinge {",
            "stock thick { lumber 5/4; thickness 7/8; species sugar-maple; sawn quarter }\nhinge cup-hinge {",
        );
    let compiled = compile(&text);
    let block = part(&compiled, "cupboard.upper.left-holding-block");
    lies(&block.cuboid(), [[64, 160], [1800, 2104], [56, 104]]);
    let steps = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    assert!(steps.contains("UP-F: put shims of 1/8 between it and its blocks"), "{steps}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// The boxes of drawers come in when the blocks are fixed, and would be in their way; so the
/// back comes off for the blocks, and stays off for the packers of the slides.
#[test]
fn blocks_are_fixed_before_drawers_come() {
    let pieces = demo_pieces();
    let stand = pieces.iter().find(|(name, _)| name == "ferry-road-wash-stand");
    let compiled = &stand.expect("the wash stand").1;
    let order = papers::one(compiled, "assembly-order", Format::Text).expect("the order");
    let steps = order.rsplit_once("At a glance").expect("the steps").1;
    let step = |title: &str| {
        let (before, after) = steps.split_once(&format!(" {title}\n")).expect("the step");
        let number = before.rsplit(">> ").next().expect("its number").trim();
        let number: u32 = number.trim_end_matches('*').trim().parse().expect("a number");
        (number, after.split("\n>> ").next().unwrap_or_default().to_owned())
    };
    let (blocks, told) = step("Fix the blocks of the false fronts");
    let (drawers, later) = step("Fit the slides, drawers, and drawer fronts");
    assert!(blocks < drawers, "{blocks} and {drawers}");
    assert!(told.contains("first take off K"), "{told}");
    assert!(later.contains("fix the packers first") && !later.contains("take off K"), "{later}");
}

/// A sink base of sheets, without a frame.
const SINK: &str = r#"casework 1
job "Sink base" { units in }
site { left open; right open; fixing wall }
shop { clamps 10; open-time 40 min }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
hinge cup { cup 35 mm; bore 12.5 mm; from-edge 4 mm; swing 105 deg; gap 1.5 mm; door-thickness 16 mm to 26 mm }
pull bar { centers 96 mm; screw 5 mm }
case sink {
  wide 36; deep 23; high 34-1/2; stock ply
  base { toe-kick; high 4; set-back 3; cut-into ends }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { stretchers 2 { wide 4 }; joint pocket }
  frame none
  down { UPPER; doors below { share 1 } }
  fronts { stock ply; set overlay; gap 1/8; hinge cup; pull bar }
}
"#;

/// A right-angle driver is 1-1/2 thick, so that a screw beside the end of a case without a
/// frame stands 3/4 from it: in the middle of a block that is 1-1/2 wide.
#[test]
fn a_block_in_a_case_without_a_frame_leaves_the_driver_room() {
    let compiled = compile(&SINK.replace("UPPER", "false basin { high 6 }"));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let block = part(&compiled, "sink.basin.left-holding-block").cuboid();
    assert_eq!(block.size(Direction::X), Length::inches(3, 2));
    assert_eq!(block.size(Direction::Z), Length::inches(3, 4));
    let layout = papers::one(&compiled, "layout", Format::Text).expect("the layout");
    let row = layout.lines().find(|line| line.contains("BA-LHB") && line.contains("BA-F"));
    assert!(row.expect("its screws").contains("3/4  left edge"), "{row:?}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// Two side by side have wood at their outer sides alone, on which they would turn.
#[test]
fn a_false_front_is_held_at_both_sides() {
    let two = "across { high 6; false one { share 1 }; false two { same one } }";
    let compiled = compile(&SINK.replace("UPPER", two));
    assert_eq!(slugs(&compiled), ["front-unheld"; 2]);
    let parted =
        "across { high 6; false one { share 1 }; divider; false two { same one } }; divider";
    let compiled = compile(&SINK.replace("UPPER", parted));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// Behind the stile no partition stands, so that the shelf runs on behind the false front. It is
/// drawn in the middle of its opening, which goes from 33 − 12 = 21 up: from 21 + (12 − 23/32) / 2
/// = 26-41/64. The blocks of the false front would be half as high as that, from 24 to 30, and
/// end 1/4 below the shelf as drawn, at 26-25/64. The holes are at 25, 26-1/4, 27-1/2, and 28-3/4:
/// on the nearest, and on the lowest, the shelf would lie in the blocks.
#[test]
fn a_shelf_on_pins_lies_clear_of_the_blocks_beside_its_opening() {
    let list = "across { high 12; false one { share 1 }; stile { wide 1-1/2; partition none }; open two { share 1; shelf { adjustable 1 } } }";
    let compiled = first(list, "set inset");
    for side in ["left", "right"] {
        let block = part(&compiled, &format!("cupboard.one.{side}-holding-block")).cuboid();
        let figures = [24 * 64, 26 * 64 + 25].map(|own| Length::inches(own, 64));
        assert_eq!([block.from.y, block.to.y], figures);
    }
    let fitting = papers::one(&compiled, "fitting", Format::Text).expect("the fitting sheet");
    let told = |text: &str| fitting.lines().any(|line| line.trim() == text);
    assert!(told("lay no shelf on holes 1 and 2: the block ON-LHB is there"), "{fitting}");
    let lies = "to stand where it is drawn, the shelf goes on hole 3, counted from the bottom";
    assert!(told(lies), "{fitting}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// Two cases beside each other, and a false front in one: its blocks are reached from behind, so
/// the back of that case alone comes off for them. The other stays on, and keeps its case square,
/// until all is taken apart to be sanded.
#[test]
fn only_the_back_behind_a_false_front_comes_off_for_it() {
    let lower = "
case lower {
  wide 30; deep 22; high 34-1/2
  stock ply
  base { toe-kick; high 4; set-back 3; separate }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }
  frame none
  across { open pots { share 1; shelf { adjustable 1 } } }
  finish oil
}
";
    let text = include_str!("../specs/examples/false-front.case");
    let text = text.replace("units in }", "units in; give { wide 0 } }") + lower;
    let files = MemoryFiles::one("a.case", &text)
        .with("shop.case", include_str!("../specs/examples/shop.case"));
    let compiled = pipeline::check(&files, "a.case").expect("readable");
    let packet = packet(&compiled);
    let back = |path: &str| part(&compiled, path).mark.clone();
    let (own, other) = (back("sink.back"), back("lower.back"));
    let all = packet["operations"].as_array().expect("operations");
    let off = all.iter().filter(|own| own["kind"] == "take off");
    let off: Vec<Vec<&str>> = off
        .map(|own| own["parts"].as_array().unwrap().iter().filter_map(|own| own.as_str()).collect())
        .collect();
    // Each was tacked on to square its case, and comes off so that the nailers go in.
    let other = other.as_str();
    assert_eq!(off[2..off.len() - 1], [vec![own.as_str()]], "{off:?}");
    let last = off.last().expect("all is taken apart");
    assert!(last.contains(&other) && !last.contains(&own.as_str()), "{off:?}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}
