//! Drawers that run on the boards of their case: figures worked by hand.

use casewright::measure::Length;
use casewright::model::JointKind;
use casewright::papers::{self, Format};
use casewright::parts::{Direction, JointSort, Part, Parts};

use crate::bench;
use crate::support::{compile, slugs, spec};

fn inches(top: i64, bottom: i64) -> Length {
    Length::inches(top, bottom)
}

/// The parts of a spec, and the slugs of all findings.
fn made(text: &str) -> (Parts, Vec<String>) {
    let compiled = compile(text);
    let slugs = compiled.diagnostics.iter().map(|found| found.slug.to_string()).collect();
    (compiled.parts.unwrap_or_default(), slugs)
}

fn part<'p>(parts: &'p Parts, path: &str) -> &'p Part {
    parts.all.iter().find(|part| part.path == path).unwrap_or_else(|| panic!("no {path}"))
}

/// Length, width, and thickness.
fn size(parts: &Parts, path: &str) -> [Length; 3] {
    let part = part(parts, path);
    [&part.length, &part.width, &part.thickness].map(|size| size.length)
}

/// The chest is 30 wide between stiles of 1-3/4, so its lower opening is 26-1/2 wide. Over
/// a base of 3-1/2 stand rails of 1-1/2, 1, 1, and 1-1/2, and the drawers of 5-1/2: each
/// of the two below is (30 − 3-1/2 − 1-1/2 − 1 − 1 − 1-1/2 − 5-1/2) / 2 = 8 high.
///
/// Yellow poplar swells by 0.00158 of its width across the rings for a point of moisture
/// (Wood Handbook, Table 13-5). From 40 % to 60 % it takes up 3.27 points: 8 × 0.00158 ×
/// 3.27 = 0.041, on a tape of 1/32 no more than 1/16. With 1/32 to spare the box is 8 −
/// 3/32 = 7-29/32 high, and 26-1/2 − 1/16 = 26-7/16 wide. Behind the front of 3/4 it
/// leaves 1/2 before the nailer of 23/32, which lies against the back of 0.205: 18 − 3/4 −
/// 0.205 − 23/32 − 1/2 = 15.82625.
#[test]
fn a_box_runs_in_its_opening_through_the_year() {
    let (parts, found) = made(&spec("orchard-lane-chest.case"));
    assert_eq!(found, Vec::<String>::new());
    let deep = inches(1_582_625, 100_000);
    assert_eq!(size(&parts, "chest.lower.left-side"), [deep, inches(253, 32), inches(1, 2)]);
    let front = part(&parts, "chest.lower.box-front");
    assert_eq!(front.length.length, inches(423, 16));
    // It stands on the bottom of the case, at the top of the bottom rail.
    assert_eq!(front.extent(Direction::Y).0, inches(5, 1));
}

/// Under the back runs the bottom: its groove is 1/2 up, and it is 0.205 thick. So the
/// back begins 0.705 up and ends 1/4 below the sides: 7-29/32 − 0.705 − 1/4 = 6.95125. The
/// bottom lies 1/4 deep in each groove, less 1/32 at both ends: 26-7/16 − 1 + 1/2 − 1/16 =
/// 25-7/8 long, and from its groove in the front to the outside of the back 15.82625 −
/// 1/2 + 1/4 − 1/32 = 15.545 wide.
#[test]
fn the_back_stands_on_the_bottom() {
    let (parts, _) = made(&spec("orchard-lane-chest.case"));
    let back = part(&parts, "chest.lower.box-back");
    assert_eq!(back.width.length, inches(695_125, 100_000));
    assert_eq!(back.extent(Direction::Y).0, inches(5, 1) + inches(705, 1000));
    let [long, wide, _] = size(&parts, "chest.lower.box-bottom");
    assert_eq!((long, wide), (inches(207, 8), inches(15_545, 1000)));
}

/// The end of 23/32 lies behind a stile of 1-3/4: a guide is 1-1/32 thick. The shelf of
/// 23/32 lies flush in a rail of 1: a kicker under it is 9/32 thick, one under the web frame
/// of 3/4 is 1/4, and under the top in
/// a rail of 1-1/2 it is 25/32. A stop lies on the shelf, 1/8 below the bottom, whose
/// groove is 1/2 up: 3/8. It stands behind the front of 3/4 and the box front of 1/2, and
/// in the quarter of a box of 26-7/16, which has 1/32 of play at each side.
#[test]
fn strips_fill_what_is_left_round_a_drawer() {
    let (parts, _) = made(&spec("orchard-lane-chest.case"));
    let deep = inches(1_582_625, 100_000);
    assert_eq!(size(&parts, "chest.lower.left-guide"), [deep, inches(1, 1), inches(33, 32)]);
    assert_eq!(size(&parts, "chest.middle.right-kicker"), [deep, inches(1, 1), inches(9, 32)]);
    assert_eq!(size(&parts, "chest.lower.right-kicker"), [deep, inches(1, 1), inches(1, 4)]);
    assert_eq!(size(&parts, "chest.small.left.left-kicker"), [deep, inches(1, 1), inches(25, 32)]);
    let stop = part(&parts, "chest.lower.left-stop");
    assert_eq!(stop.thickness.length, inches(3, 8));
    assert_eq!(stop.extent(Direction::Z).0, inches(5, 4));
    let (from, to) = stop.extent(Direction::X);
    assert_eq!((from + to).half(), inches(7, 4) + inches(1, 32) + inches(423, 64));
    assert!(!parts.all.iter().any(|part| part.path.ends_with("lower.left-runner")));
}

/// A bottom that is not flush lies at the lower edge of its rail: 1-1/2 − 23/32 = 25/32
/// under the opening.
#[test]
fn a_lower_bottom_gets_runners() {
    let text = spec("orchard-lane-chest.case")
        .replace("joint dado { deep 1/4 }; flush", "joint dado { deep 1/4 }");
    let (parts, found) = made(&text);
    assert_eq!(found, Vec::<String>::new());
    let runner = part(&parts, "chest.lower.left-runner");
    assert_eq!(runner.thickness.length, inches(25, 32));
    // Its edge is that of the opening, and its top is level with that.
    assert_eq!(runner.extent(Direction::X).0, inches(7, 4));
    assert_eq!(runner.extent(Direction::Y).1, inches(5, 1));
    assert_eq!(part(&parts, "chest.lower.left-side").extent(Direction::Y).0, inches(5, 1));
}

/// Strips are glued to plywood, and never across the grain of solid wood.
#[test]
fn strips_lie_dry_across_solid_wood() {
    let text = spec("orchard-lane-chest.case");
    let joint = |text: &str, strip: &str| {
        let (parts, _) = made(text);
        let (id, _) = parts.iter().find(|(_, part)| part.path == strip).expect("a strip");
        let joint = parts.joints.iter().find(|joint| joint.part == id).expect("a joint");
        (joint.sort, joint.glued)
    };
    let glued = (JointSort::Wood(JointKind::Butt), true);
    let slotted = (JointSort::Wood(JointKind::Screw), false);
    assert_eq!(joint(&text, "chest.lower.left-guide"), glued);
    let solid = text.replace("  stock    ply\n", "  stock    ply\n  ends { stock cherry }\n");
    assert_ne!(solid, text);
    assert_eq!(joint(&solid, "chest.lower.left-guide"), slotted);
    assert_eq!(joint(&solid, "chest.lower.left-kicker"), glued);
}

/// A box 7-29/32 high swells by 0.041, and it has 3/32. One of 7-31/32 has 1/32, which is
/// less; 7-15/16 has 1/16, which is more.
#[test]
fn a_box_that_is_written_too_high_jams() {
    let found = |high: &str| {
        let own = format!("drawer lower {{ share 1; box {{ high {high} }} }}");
        made(&spec("orchard-lane-chest.case").replace("drawer lower  { share 1 }", &own)).1
    };
    assert_eq!(found("7-15/16"), Vec::<String>::new());
    assert_eq!(found("7-31/32"), ["wood-jams"]);
    assert_eq!(found("8"), ["box-too-big"]);
}

/// What can't run on wood is told at its line.
#[test]
fn a_drawer_on_wood_needs_a_level_board() {
    let text = spec("orchard-lane-chest.case");
    let with = |from: &str, to: &str| {
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text, "{from}");
        made(&changed).1
    };
    let middle = "rail          { wide 1; shelf { stock maple; build web { panel-stock thin } } }";
    assert_eq!(with(middle, "rail { wide 1; shelf none }"), ["no-floor"]);
    assert_eq!(with(middle, "rail { wide 1; shelf { lip 1/16 } }"), ["runner-off-level"]);
    assert_eq!(with("wooden { play 1/16 }", "wooden; length 16"), ["word-twice"]);
    assert_eq!(with("wooden { play 1/16 }", "wooden { play 0 }"), ["figure-impossible"]);
}

/// Eight stops of 2 come from one stick: each with a kerf of 1/8 and a shaving of 1/32 at
/// both ends is 2-3/16, and with the allowance of 1 that is 8 × 2-3/16 + 1 = 18-1/2. The
/// stile of 5-1/2 alone would be 5-1/2 + 3/16 + 1 = 6-11/16, under 12, so it is sawn with a
/// rail of 26-1/2 and its section: 5-11/16 + 26-11/16 + 1 = 33-3/8.
///
/// A board of 4/4 planes to 13/16 (National Hardwood Lumber Association, S2S): kickers of
/// 25/32 are of one board, and guides of 1-1/32 of two layers.
#[test]
fn short_parts_come_from_sticks_and_a_thick_strip_from_a_rough_board() {
    let compiled = compile(&spec("orchard-lane-chest.case"));
    let list = papers::one(&compiled, "cut-list", Format::Text).expect("a paper");
    for told in ["8       2  stick 18-1/2 x 1-1/2", "stick 33-3/8 x 1-3/4", "from the stick of TRL"]
    {
        assert!(list.contains(told), "{told}: {list}");
    }
    assert!(list.contains("to 25/32 thick, of one board"), "{list}");
    assert!(list.contains("to 1-1/32 thick, laminated"), "{list}");
    let order = papers::one(&compiled, "assembly-order", Format::Text).expect("a paper");
    let stops = "LE-LSP, LE-RSP, RI-LSP, RI-RSP, MI-LSP, MI-RSP, LO-LSP, LO-RSP";
    for told in [
        "33-3/8 x 1-3/4 of cherry for TRL, SLE-RI",
        &format!("18-1/2 x 1-1/2 of maple for {stops}"),
    ] {
        assert!(order.contains(told), "{told}: {order}");
    }
    assert!(order.contains("LE-LGD: laminate") && !order.contains("LE-LKR: laminate"), "{order}");
}

/// The bottom of a box goes 1/4 less 1/32 into the grooves of both sides of 1/2: it is 2 ×
/// 1/2 − 2 × 1/4 + 1/16 = 9/16 shorter than the box front, which lies over both. From its
/// groove in the front to the outside of the back it comes 1/2 − 1/4 + 1/32 = 9/32 short of
/// the sides. The back is 0.705 + 1/4 = 0.955 lower than the sides, 31/32 on a tape of 1/32.
///
/// The web frame carries the middle drawer: its stops stand on the front rail, and the
/// kickers of the lower drawer are glued to its runners only.
#[test]
fn bottoms_are_cut_by_their_boxes_and_strips_glued_where_nothing_moves() {
    let compiled = compile(&spec("orchard-lane-chest.case"));
    let order = papers::one(&compiled, "assembly-order", Format::Text).expect("a paper");
    let (bottoms, backs) = ("LE-XB, RI-XB, MI-XB, LO-XB", "LE-XK, RI-XK, MI-XK, LO-XK");
    for told in [
        &*format!(
            "{bottoms} 9/16 shorter than their box fronts are long, and 9/32 less from front to back than their sides are long"
        ),
        &format!("{backs} 31/32~ lower than their sides are high"),
        "glue LO-LKR, LO-RKR to the runners of the web frame",
        "LE-LGD to LE; LE-LKR to T; LE-RGD to PLE-RI; LE-RKR to T; RI-LGD to PLE-RI; RI-LKR to T; RI-RGD to RE;",
        "use no pins",
        "pushed 25/32 up into place",
    ] {
        assert!(order.contains(told), "{told}: {order}");
    }
    let fitting = papers::one(&compiled, "fitting", Format::Text).expect("a paper");
    let row = fitting.lines().find(|line| line.contains("middle  MI-LSP")).expect("a row");
    let row: Vec<&str> = row.split_whitespace().collect();
    assert!(row.contains(&"FWMILO") && row.contains(&"1-1/4"), "{fitting}");
}

const HUNG: &str = r#"
casework 1
job "Hung case" { units in; tape 1/32 }
site { fixing wall; humidity 30% to 60% }
shop { humidity 45% }
stock ply  { plywood 3/4; actual 23/32; species sugar-maple; sheet { long 96; wide 48 } }
stock half { plywood 1/2; actual 15/32; species sugar-maple; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; actual 13/64; species sugar-maple; sheet { long 96; wide 48 } }
stock side { lumber 4/4; thickness 1/2; species sugar-maple }
slide on-wood { wooden { play 1/16 } }
pull wire { centers 3; screw 5/32 }
case tools {
  wide 24; deep 12; high 30
  stock ply
  hung { up 48; studs 2 }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }
  frame none
  down { open upper { share 1 }; divider; drawer small { high 5 } }
  fronts { stock ply; set overlay; gap 1/8; pull wire }
  drawers { stock side; bottom-stock thin; slide on-wood; groove { up 3/8; deep 1/4 }; joint dovetail }
}
"#;

/// A case of 12 less a front of 23/32, a back of 13/64, and 1/2 behind the box is 10-37/64.
/// The nailer hangs under the top, from 30 − 23/32 − 4 = 25-9/32 up. A drawer below a
/// divider whose upper face is right there, 23/32 + 23-27/32 + 23/32, has all of that
/// room; one that is a mark of the tape higher may meet the nailer, and so may one that
/// stands before it: 10-37/64 − 23/32 = 9-55/64.
#[test]
fn a_nailer_takes_room_only_from_drawers_that_reach_up_to_it() {
    let deep = |high: &str| {
        let (parts, _) = made(&HUNG.replace("high 5 ", &format!("high {high} ")));
        size(&parts, "tools.small.left-side")[0]
    };
    assert_eq!(deep("5"), inches(677, 64));
    assert_eq!(deep("23-27/32"), inches(677, 64));
    assert_eq!(deep("23-7/8"), inches(631, 64));
    let above = HUNG.replace(
        "open upper { share 1 }; divider; drawer small { high 5 }",
        "drawer small { high 5 }; divider; open lower { share 1 }",
    );
    assert_eq!(size(&made(&above).0, "tools.small.left-side")[0], inches(631, 64));
}

/// Plywood that is sold as 1/2 is 15/32 thick, and takes the wall screws of a case that
/// hangs as it does of one that stands: no nailer, and 12 − 23/32 − 15/32 − 1/2 = 10-5/16
/// for the boxes. Of 7/16 it takes none.
#[test]
fn a_stout_back_takes_the_wall_screws_of_a_hung_case() {
    let nailers = |text: &str| {
        let (parts, _) = made(text);
        let own = parts.all.iter().filter(|part| part.role.is_nailer()).count();
        (own, size(&parts, "tools.small.left-side")[0])
    };
    let half = HUNG.replace("back { stock thin;", "back { stock half;");
    assert_eq!(nailers(&half), (0, inches(165, 16)));
    let less = half.replace("plywood 1/2;", "plywood 7/16;").replace("15/32;", "13/32;");
    assert_eq!(nailers(&less).0, 1);
    let stands = half
        .replace("hung { up 48; studs 2 }", "base { toe-kick; high 4; set-back 3; cut-into ends }");
    assert_eq!(nailers(&stands).0, 0);
}

/// A chest of solid poplar, whose ends move under the strips of its drawer.
const SOLID: &str = r#"casework 1

job "Blanket chest" { units in }
site { humidity 30% to 60% }
shop { humidity 42%; kerf 1/8; clamps 12; open-time 15 min }

stock poplar { lumber 4/4; thickness 3/4; species yellow-poplar }
stock side   { lumber 4/4; thickness 1/2; species yellow-poplar }
stock thin   { plywood 1/4; actual 13/64; species yellow-birch; sheet { long 96; wide 48 } }

slide on-wood { wooden { play 1/16 } }
pull knob { screw 5/32; foot 3/4 }
finish paint { paint; coats 3 }

case chest {
  wide 44; deep 19; high 22
  stock poplar
  base { toe-kick; high 3; set-back 2; cut-into ends }
  bottom { joint dado { deep 1/4 }; flush }
  back { stock thin; joint rabbet { deep 3/8 } }
  shelves { joint dado { deep 1/4 } }

  frame {
    stock poplar; joint pocket
    stile left  { wide 2 }
    stile right { wide 2 }
    rail top    { wide 2 }
    rail bottom { wide 1-1/2 }
    down {
      false well { share 1; front { pull none } }
      rail { wide 1; shelf { } }
      drawer long { high 6 }
    }
  }

  fronts { stock poplar; set inset; gap 3/32; pull knob { pulls 2 } }
  drawers {
    stock side; bottom-stock thin; slide on-wood
    groove { up 1/2; deep 1/4 }; joint dovetail
    packer-stock poplar
  }
  finish paint
}

"#;

/// The strips lie across the grain of solid ends, and all screws but the front ones go through
/// slots: the ends move under them, and nothing splits. The screws of the paper say so too.
#[test]
fn strips_on_solid_ends_let_them_move() {
    let compiled = compile(SOLID);
    assert_eq!(slugs(&compiled), ["tips"]);
    let order = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    assert!(order.contains("slots along the strip"), "{order}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// A tool cabinet without a frame, 32 wide of sheets of 23/32: between its ends are 30-9/16.
/// Behind its doors two drawers run on wood.
const BEHIND_DOORS: &str = "casework 1
job \"tools\" { units in }
site { fixing wall; humidity 30% to 60% }
shop { humidity 45%; clamps 16; open-time 20 min }
stock ply { plywood 3/4; actual 23/32; species yellow-birch; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; actual 13/64; species yellow-birch; sheet { long 96; wide 48 } }
stock side { plywood 1/2; species yellow-birch; sheet { long 96; wide 48 } }
stock maple { lumber 4/4; thickness 3/4; species sugar-maple; boards { wide 4 to 8; long 96 to 120 } }
hinge butt { butt; pin-ahead 3/16; gap 1/32 }
slide wood { wooden { play 1/16 } }
pull knob { screw 5/32; stands 3/4 }
finish oil { hardwax-oil; coats 2 }
case tools {
  wide 32; deep 16; high 34
  stock ply
  hung { up 40 }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }
  partitions { joint dado { deep 1/4 } }
  frame none
  across {
    doors store {
      share 1
      down {
        open planes { share 1 }
        divider
        drawer upper { high 5; front { build slab } }
        divider { stock maple; build web { wide 4 } }
        drawer lower { high 6; front { build slab } }
      }
    }
  }
  fronts { stock maple; set inset; gap 3/32; meeting 3/16; build panel { stile 2-1/4; rail 2-1/4; panel-stock thin }; hinge butt; pull knob }
  drawers { stock side; bottom-stock thin; slide wood; groove { up 1/2; deep 1/4 }; joint butt; packer-stock maple }
  finish oil
}
";

/// The knob stands off 3/4, and 1/4 more stays clear of the doors, which are 3/4 thick: the fronts
/// of the drawers begin 1-3/4 behind the front edge of the case, and so do the guides.
///
/// The open leaves stand in the opening at both sides by the same, so both guides stand past the
/// edges by that, and the box is as wide as what is left between them, less the play of 1/16.
#[test]
fn drawers_behind_doors_run_between_guides() {
    let compiled = compile(BEHIND_DOORS);
    let errors: Vec<_> = compiled
        .diagnostics
        .iter()
        .filter(|found| found.severity == casewright::diagnostics::Severity::Error)
        .collect();
    assert!(errors.is_empty(), "{errors:?}");
    let parts = compiled.parts.clone().unwrap();
    for drawer in ["upper", "lower"] {
        let at = |name: &str| part(&parts, &format!("tools.store.{drawer}.{name}"));
        let [left, right] = ["left-guide", "right-guide"].map(at);
        assert_eq!(left.extent(Direction::Z).0, inches(7, 4));
        assert_eq!(at("front").extent(Direction::Z).0, inches(7, 4));
        let past = left.thickness.length;
        assert_eq!(left.extent(Direction::X), (inches(23, 32), inches(23, 32) + past));
        let wide = at("box-front");
        let between = right.extent(Direction::X).0 - left.extent(Direction::X).1;
        assert_eq!(between, inches(489, 16) - past * 2);
        let [one, other] =
            ["left-side", "right-side"].map(at).map(|side| side.extent(Direction::X));
        assert_eq!(one.0 - left.extent(Direction::X).1, inches(1, 32));
        assert_eq!(right.extent(Direction::X).0 - other.1, inches(1, 32));
        assert!(wide.length.length < between);
    }
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
    let sheet = papers::one(&compiled, "fitting", Format::Text).unwrap();
    let row = sheet.lines().find(|line| line.contains("upper") && line.contains("UP-LGD"));
    assert!(row.is_some_and(|row| row.contains("1-3/4")), "{sheet}");
}
