//! Boards behind the frame and fronts over the edges: figures worked by hand.

use casewright::measure::Length;
use casewright::model::OpeningKind;
use casewright::papers::{self, Format};
use casewright::parts::{Bore, Direction, Feature, FeatureKind, Part, Role};
use casewright::plans::Workings;
use casewright::plans::tipping::What;

use crate::bench;
use crate::support::{compile, spec};

const SHOP: &str = r#"
casework 1
job "Trial" { units in; tape 1/32 }
site { left open; right open; fixing wall; humidity 35% to 45% }
shop { humidity 40%; clamps 16; open-time 40 min }
stock ply  { plywood 3/4; actual 3/4; species white-ash; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; actual 1/4; species white-ash; sheet { long 96; wide 48 } }
stock ash  { lumber 4/4; thickness 3/4; species white-ash; sawn quarter }
hinge cup { cup 35 mm; bore 12.5 mm; from-edge 4 mm; swing 107 deg; gap 1.5 mm; door-thickness 16 mm to 26 mm }
pull knob { screw 5/32; stands 1/16 }
slide runner { undermount; length 9; room 9-3/4; box-inside opening - 1-5/8; box-high opening - 7/8; notch { wide 35 mm; high 13 mm } }
"#;

fn framed(list: &str) -> String {
    format!(
        "{SHOP}
case books {{
  wide 40; deep 13; high 80
  stock ply
  base {{ toe-kick; high 4; set-back 2; cut-into ends }}
  bottom {{ joint dado {{ deep 1/4 }}; flush }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ panel; joint dado {{ deep 1/4 }} }}
  partitions {{ joint dado {{ deep 1/4 }} }}
  shelves {{ joint dado {{ deep 1/4 }}; set-back 0 }}
  frame {{
    stock ash; joint pocket
    stile left {{ wide 2 }}; stile right {{ wide 2 }}
    rail top {{ wide 3 }}; rail bottom {{ wide 1-1/2 }}
    {list}
  }}
  fronts {{ stock ash; set inset; gap 3/32; meeting 1/8; hinge cup; pull knob }}
  drawers {{ stock ash; bottom-stock thin; slide runner; groove {{ up 13 mm; deep 1/4 }}; joint rabbet }}
}}
"
    )
}

/// The part with this name, and the slugs of all findings.
fn part(text: &str, path: &str) -> (Option<Part>, Vec<String>) {
    let compiled = compile(text);
    let slugs = compiled.diagnostics.iter().map(|found| found.slug.to_string()).collect();
    let parts = compiled.parts.unwrap_or_default();
    (parts.all.into_iter().find(|part| part.path == path), slugs)
}

fn inches(top: i64, bottom: i64) -> Length {
    Length::inches(top, bottom)
}

/// Niches over doors: the rail carries their floor. The ends are 3/4 thick and the
/// dado 1/4 deep, so the shelf is 40 − 2 × 3/4 + 2 × 1/4 = 39 long. It lies behind
/// the frame of 3/4 and before the back of 1/4, and is 13 − 3/4 − 1/4 = 12 wide. The
/// doors are 26 high over 4 + 1-1/2, and the rail is 1-1/2 wide: its top, and that of
/// the shelf, is 33 above the floor.
#[test]
fn a_rail_under_a_niche_carries_its_floor() {
    let text =
        framed("down { open upper { share 1 }; rail { wide 1-1/2 }; doors lower { high 26 } }");
    let (shelf, _) = part(&text, "books.shelf-upper-lower");
    let shelf = shelf.expect("a shelf");
    assert_eq!((shelf.length.length, shelf.width.length), (inches(39, 1), inches(12, 1)));
    assert_eq!(shelf.cuboid().to.y, inches(33, 1));
    let lip =
        text.replace("rail { wide 1-1/2 }; doors", "rail { wide 1-1/2; shelf { lip 1/4 } }; doors");
    let (shelf, _) = part(&lip, "books.shelf-upper-lower");
    assert_eq!(shelf.expect("a shelf").cuboid().to.y, inches(131, 4));
}

/// Over a drawer nothing needs a floor, and over doors only what is asked for.
#[test]
fn a_rail_over_doors_carries_a_shelf_only_for_what_stands_on_it() {
    let list = "down { drawer upper { share 1 }; rail { wide 1-1/2 }; doors lower { high 26 } }";
    assert_eq!(part(&framed(list), "books.shelf-upper-lower").0, None);
    let asked = list.replace("rail { wide 1-1/2 }", "rail { wide 1-1/2; shelf }");
    assert!(part(&framed(&asked), "books.shelf-upper-lower").0.is_some());
    let left_out =
        "down { open upper { share 1 }; rail { wide 1-1/2; shelf none }; doors lower { high 26 } }";
    let (shelf, slugs) = part(&framed(left_out), "books.shelf-upper-lower");
    assert_eq!(shelf, None);
    assert!(slugs.contains(&"no-floor".to_owned()), "{slugs:?}");
}

/// Two drawers side by side between a niche and doors: the board between them stands
/// on the shelf behind the lower rail and reaches up to the shelf behind the upper
/// one. The row is 5 high, the rail over it 1-1/2 wide, the shelf behind that 3/4
/// thick and flush with its top: 5 + 1-1/2 − 3/4 = 5-3/4 between the shelves, and 1/4
/// into each: 6-1/4.
#[test]
fn a_board_stands_between_two_drawers_side_by_side() {
    let text = framed(
        "down {
           open upper { share 1 }; rail { wide 1-1/2 }
           across { high 5; drawer a { share 1 }; stile { wide 1-1/2 }; drawer b { share 1 } }
           rail { wide 1-1/2 }; doors lower { high 26 }
         }",
    );
    let (partition, slugs) = part(&text, "books.partition-a-b");
    assert_eq!(partition.expect("a partition").length.length, inches(25, 4));
    assert!(!slugs.iter().any(|slug| slug == "slide-unheld"), "{slugs:?}");
    assert!(part(&text, "books.shelf-a-lower").0.is_some());
}

/// A niche beside a cupboard would be open into it: a board stands between them unasked, on
/// the bottom and up to the shelf behind the rail over them, for which that shelf lies there.
/// Two doors, two niches, and bays of a niche over a cupboard each may be one room. The row is
/// 20 high, the rail over it 1-1/2 wide, and the shelf behind that 3/4 thick and flush with
/// its top: 20 + 1-1/2 − 3/4 = 20-3/4 between bottom and shelf.
#[test]
fn what_a_door_closes_is_closed_beside_a_niche_too() {
    let row = |row: &str| {
        let list = format!(
            "down {{ doors upper {{ share 1 }}; rail {{ wide 1-1/2 }}; across {{ high 20; {row} }} }}"
        );
        framed(&list).replace("partitions { joint dado { deep 1/4 } }\n", "")
    };
    let stile = "stile { wide 1-1/2 }";
    let parted = [
        format!("door a {{ share 1; hung left }}; {stile}; open b {{ share 1 }}"),
        format!("open a {{ share 1 }}; {stile}; doors b {{ share 1 }}"),
    ];
    for own in parted {
        let text = row(&own);
        let (board, _) = part(&text, "books.partition-a-b");
        let board = board.expect("a partition");
        let (shelf, _) = part(&text, "books.shelf-upper-a");
        let (bottom, _) = part(&text, "books.bottom");
        let (shelf, bottom) = (shelf.expect("a shelf"), bottom.expect("a bottom"));
        assert_eq!(shelf.cuboid().from.y - bottom.cuboid().to.y, inches(83, 4), "{own}");
        assert!(board.cuboid().from.y <= bottom.cuboid().to.y, "{own}");
        assert!(board.cuboid().to.y >= shelf.cuboid().from.y, "{own}");
        assert_eq!(bench::built(&compile(&text)), Vec::<String>::new(), "{own}");
    }
    let one_room = [
        format!("doors a {{ share 1 }}; {stile}; doors b {{ share 1 }}"),
        format!("open a {{ share 1 }}; {stile}; open b {{ share 1 }}"),
    ];
    for own in one_room {
        assert_eq!(part(&row(&own), "books.partition-a-b").0, None, "{own}");
    }
    let bay = |name: &str| {
        format!(
            "down {{ share 1; open {name}-top {{ share 1 }}; rail {{ wide 1-1/2 }}; doors {name} {{ share 1 }} }}"
        )
    };
    let bays = format!("across {{ {}; {stile}; {} }}", bay("a"), bay("b"));
    let text = framed(&bays).replace("partitions { joint dado { deep 1/4 } }\n", "");
    let boards = compile(&text).parts.expect("parts");
    assert!(!boards.all.iter().any(|own| own.path.contains("partition")), "{bays}");
}

/// In a frame, two inset fronts before a divider share its thickness but for one gap:
/// the openings are (40 − 4 − 3/4) / 2 = 17-5/8 wide, and a front is wider by
/// (3/4 − 3/32) / 2 = 21/64 at the divider and less wide by 3/32 at the stile:
/// 17-5/8 + 21/64 − 6/64 = 17-55/64.
#[test]
fn inset_fronts_close_before_a_divider() {
    let text = framed("across { drawer a { share 1 }; divider; drawer b { share 1 } }");
    let (front, _) = part(&text, "books.a.front");
    let front = front.expect("a front");
    let (from, to) = front.extent(Direction::X);
    assert_eq!(to - from, inches(17 * 64 + 55, 64));
    let other = part(&text, "books.b.front").0.expect("a front");
    assert_eq!(other.extent(Direction::X).0 - to, inches(3, 32));
}

fn frameless(fronts: &str) -> String {
    format!(
        "{SHOP}
case bank {{
  wide 40; deep 22; high 30
  stock ply
  base {{ toe-kick; high 4; set-back 3; cut-into ends }}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ stretchers 2 {{ wide 4 }}; joint screw }}
  frame none
  across {{
    down {{ wide 20; drawer upper {{ high 6 }}; drawer lower {{ share 1 }} }}
    divider
    door pots {{ share 1; hung right }}
  }}
  fronts {{ stock ply; {fronts}; hinge cup; pull knob }}
  drawers {{ stock ash; bottom-stock thin; slide runner; groove {{ up 13 mm; deep 1/4 }}; joint rabbet }}
}}
"
    )
}

/// With a gap of 1/8: the drawers are 20 wide, cover the end of 3/4 but for half a
/// gap, and half of the divider but for half a gap: 20 + 11/16 + 5/16 = 21. Between
/// the two there is no board, and each stays back by half a gap. The bottom is covered,
/// and under the countertop a whole gap is left.
#[test]
fn an_overlay_follows_from_the_gap() {
    let text = frameless("set overlay; gap 1/8");
    let upper = part(&text, "bank.upper.front").0.expect("a front").cuboid();
    let lower = part(&text, "bank.lower.front").0.expect("a front").cuboid();
    let pots = part(&text, "bank.pots.front")
        .0
        .or(part(&text, "bank.pots.door").0)
        .expect("a door")
        .cuboid();
    assert_eq!(upper.to.x - upper.from.x, inches(21, 1));
    assert_eq!(upper.from.y - lower.to.y, inches(1, 8));
    assert_eq!(pots.from.x - upper.to.x, inches(1, 8));
    assert_eq!((lower.from.y, upper.to.y), (inches(4, 1), inches(30, 1) - inches(1, 8)));
    assert_eq!((upper.from.x, pots.to.x), (inches(1, 16), inches(40, 1) - inches(1, 16)));
}

/// A front of 21 by 6 + 7/8 less two half gaps: two pulls sit at its quarter points,
/// 5-1/4 and 15-3/4 from its left edge, 1-1/2 below its top; none on the door.
#[test]
fn pulls_sit_where_the_front_says() {
    let text = frameless("set overlay; gap 1/8; pull knob { from-top 1-1/2; pulls 2 }")
        .replace("; hinge cup; pull knob }", "; hinge cup }")
        .replace("hung right }", "hung right; front { pull none } }");
    let (front, slugs) = part(&text, "bank.upper.front");
    let front = front.expect("a front");
    let holes: Vec<_> = front.features.iter().map(Feature::center).collect();
    let y = front.width.length - inches(3, 2);
    assert_eq!(holes, [(inches(21, 4), y), (inches(63, 4), y)], "{slugs:?}");
    let door = part(&text, "bank.pots.front").0.or(part(&text, "bank.pots.door").0);
    assert!(door.expect("a door").features.iter().all(|f| f.kind != FeatureKind::Bore(Bore::Pull)));
}

/// What is written for one edge holds there, and `by` at the others.
#[test]
fn an_overlay_may_differ_by_edge() {
    let text = frameless("set overlay { by 5/16; left 1/2; bottom 0 }; gap 1/8");
    let lower = part(&text, "bank.lower.front").0.expect("a front").cuboid();
    assert_eq!((lower.from.x, lower.from.y), (inches(1, 4), inches(19, 4)));
    assert_eq!(lower.to.x, inches(83, 4) + inches(5, 16));
}

/// Trays behind doors, worked by hand. The opening is 30 − 2-1/4 − 1-3/4 = 26 wide. The
/// right leaf, 3/4 thick and open 155 degrees, stands 3/4 × sin 155 = 0.3170 over it from
/// its hinge edge, which is 3/32 inside: 0.4107. With 1/16 to spare that is 0.4732, and
/// 1/2 at the next mark. The left leaf meets the wall before: its hinge edge is 2-1/4 +
/// 3/32 − 1/2 = 1-27/32 from a wall that takes all of the scribe, and it is (26 − 3/16 −
/// 1/8) / 2 = 12-27/32 wide, so it opens no farther than 90 degrees and the angle whose
/// sine is 1.84375 / 12.84375, 98.3, and no less than 90. There it stands 3/4 × sin 98.3 =
/// 0.7421 to 0.75 over: with 3/32 and 1/16 that is 0.8984 to 0.9063, and 29/32 at the mark.
/// So the box is 26 − 1/2 − 29/32 − 1-3/8 = 23-7/32 inside, and with its sides of 1/2 it is
/// 24-7/32 wide; its front reaches 1/4 into both sides: 23-23/32. At the left the scribe of
/// 1/2 and the end of 23/32 lie behind the stile of 2-1/4: the packer is 2-1/4 − 1/2 −
/// 23/32 + 29/32 = 1-15/16 thick, and at the right 1-3/4 − 23/32 + 1/2 = 1-17/32. The boxes
/// begin 1/4 behind the leaves, 3/4 + 1/4 = 1 behind the face of the frame. The lowest
/// opening is 16 high, its box would be 16 − 13/16 = 15-3/16 high and begins (16 −
/// 15-3/16) / 2 = 13/32 over the opening's lower edge, which the flush bottom puts 4 +
/// 1-1/2 = 5-1/2 over the floor.
#[test]
fn trays_stay_clear_of_the_open_leaves() {
    let text = spec("weir-house-pantry.case");
    let found = |name: &str| part(&text, &format!("pantry.lower.{name}")).0.expect("a part");
    assert_eq!(found("jars.box-front").length.length, inches(759, 32));
    for (side, thick) in [("left", inches(31, 16)), ("right", inches(49, 32))] {
        let packer = found(&format!("jars.{side}-packer"));
        assert_eq!(packer.thickness.length, thick, "{side}");
        assert_eq!(packer.extent(Direction::Z).0, inches(1, 1), "{side}");
    }
    let side = found("pans.left-side");
    assert_eq!(side.extent(Direction::Z).0, inches(1, 1));
    let (low, high) = side.extent(Direction::Y);
    assert_eq!((low, high - low), (inches(11, 2) + inches(13, 32), inches(7, 2)));
    let (left, _) = side.extent(Direction::X);
    let (_, right) = found("pans.right-side").extent(Direction::X);
    assert_eq!(right - left, inches(775, 32));
    // A single door takes room at its own side only; without the wall it opens all the way.
    let single = text
        .replace("doors lower {", "door lower {\n        hung left")
        .replace("doors upper {", "door upper { hung left;")
        .replace("wall { scribe 1/2 }", "open");
    let thick = |side: &str| {
        let found = part(&single, &format!("pantry.lower.jars.{side}-packer")).0;
        found.map(|packer| packer.thickness.length)
    };
    // 2-1/4 − 23/32 + 1/2.
    assert_eq!(thick("left"), Some(inches(65, 32)));
    assert_eq!(thick("right"), Some(inches(33, 32)));
}

/// A door that came out 1/16 narrower makes its trays as much narrower.
#[test]
fn trays_follow_the_opening_of_their_doors_as_it_was_measured() {
    let text = spec("weir-house-pantry.case");
    let measured = format!("{text}\nmeasured {{ opening lower {{ wide 25-15/16; high 48 }} }}\n");
    let front = |text: &str| part(text, "pantry.lower.jars.box-front").0.map(|it| it.length.length);
    assert_eq!(front(&measured), Some(inches(759, 32) - inches(1, 16)));
}

/// Worked by hand, in millimeters. The doors fill 2250 − 80 − 60 − 45 = 2065 by 1200 − 45 −
/// 60 = 1095; each leaf is (1095 − 2 × 2.5 − 3) / 2 = 543.5 wide and 19 thick. The right one
/// opens until its pull, 22 off its face, meets the wall 60 − 15 + 2.5 = 47.5 beside its
/// hinges: 543.5 sin a + 22 cos a = 47.5 at a = 2.69 degrees past square. There it stands 19 ×
/// cos 2.69 = 18.98 over its edge: with the gap of 2.5 and 2 to spare 23.48, and 23.5 at the
/// mark. So the front of a drawer 450 wide is 450 − 23.5 − 2 × 2.5 = 421.5 wide; the lowest
/// leaves 2.5 below and half of it above: 180 − 3.75 = 176.25, the middle one 177.5. Its
/// face lies 19 + 60 = 79 behind that of the frame, its box begins at 98 and is 450 − 23.5 −
/// 26 = 400.5 wide. The packer is 60 − 15 − 17.8 + 23.5 = 50.7 thick, and from the face of the
/// front to the end of the slide 19 + 3 + 450 = 472 long.
#[test]
fn drawers_behind_doors_clear_them_open_and_closed() {
    let text = spec("mill-lane-wardrobe.case");
    let found =
        |name: &str| part(&text, &format!("wardrobe.clothes.folded.{name}")).0.expect("a part");
    let mm = |tenths: i64| casewright::measure::Length::mm(tenths) / 10;
    for (name, high) in [("wool", 17_625), ("shirts", 17_750), ("socks", 17_625)] {
        let front = found(&format!("{name}.front"));
        assert_eq!(front.length.length, mm(4215), "{name}");
        assert_eq!(front.width.length * 10, mm(high), "{name}");
        assert_eq!(front.extent(Direction::Z).0, mm(790), "{name}");
        assert_eq!(front.extent(Direction::X).0, mm(6925), "{name}");
    }
    let packer = found("wool.right-packer");
    assert_eq!((packer.thickness.length, packer.length.length), (mm(507), mm(4720)));
    assert_eq!(packer.extent(Direction::Z).0, mm(790));
    let [left, right] = ["left", "right"].map(|side| found(&format!("wool.{side}-side")));
    assert_eq!(right.extent(Direction::X).1 - left.extent(Direction::X).0, mm(4005));
    assert_eq!(left.extent(Direction::Z).0, mm(980));
    // Without a figure of its own, the front stands back by what its pull stands off and 6.
    let usual =
        text.replace("; set-back 60 mm", "").replace("from-end       130", "from-end       700");
    let front = part(&usual, "wardrobe.clothes.folded.shirts.front").0.expect("a front");
    assert_eq!(front.extent(Direction::Z).0, mm(190 + 220 + 60));
}

/// Worked by hand, in millimeters: the underside of the top lies 2250 − 17.8 over the floor,
/// and the rail 50 lower: 2182.2. The board over the shoes ends 125 + 300 + 17.8 = 442.8 up.
/// Between the left end and the board at the right there are 45 + 627.2 − 17.8 = 654.4, and
/// the rail is cut 3 shorter. From the back of the doors to the inside of the back there are
/// 600 − 5.8 − 19 = 575.2: the rail hangs in the middle, 287.6 behind the front edge of the
/// end, which begins where the doors end, and 281.6 behind that of the board, which stands 6
/// farther back, as shelves do. At 50 kg a meter a tube of 30 with a wall of 1
/// may be short or long; over 1200 it hangs in its middle too.
#[test]
fn a_rail_hangs_between_two_boards() {
    let text = spec("mill-lane-wardrobe.case");
    let rails = |text: &str| {
        let compiled = compile(text);
        let work = casewright::plans::Workings::of(
            compiled.piece.as_ref().expect("a piece"),
            compiled.parts.as_ref().expect("its parts"),
        );
        let rails = work.fitting().rails.iter();
        let told = rails.map(|rail| {
            let ends = rail.ends.iter();
            let ends: Vec<_> =
                ends.map(|end| (end.above_end.length, end.from_edge.length)).collect();
            (rail.long.length, rail.above_opening.length, rail.room, ends, rail.hangers.len())
        });
        told.collect::<Vec<_>>()
    };
    let mm = |tenths: i64| casewright::measure::Length::mm(tenths) / 10;
    let (long, above, room, ends, hangers) = rails(&text).pop().expect("a rail");
    assert_eq!((long, above, room, hangers), (mm(6514), mm(17_394), mm(17_394), 0));
    // The end stands on the floor; the board at the right on the bottom, let into it by a
    // third of 17.8.
    assert_eq!(ends, [(mm(21_822), mm(2876)), (mm(21_822 - 1250) + mm(178) / 3, mm(2816))]);
}

/// Doors on hinges that swing free, in openings 80 − 4 − 3 − 1-1/2 = 71-1/2 high. A single
/// one, hung at the left, closes against a strip along its right edge, 1/4 shorter than the
/// opening; a pair 40 − 2 − 2 − 12 − 2 = 22 wide closes against one at the top. Frame and
/// doors are 3/4 thick, so both lie flat on the back of the frame: half of 3/4 on it, half
/// behind the door, 3/8 thick and 3/4 behind the face. Hinges that pull the doors shut need
/// none, and so does a door before a board.
#[test]
fn doors_that_swing_free_get_a_strip_and_a_catch() {
    let list = "across { door one { wide 12; hung left }; stile { wide 2 }; doors two { share 1; shelf { adjustable 1 } } }";
    let free = framed(list).replace("hinge cup {", "hinge cup { closing free;");
    let found = |text: &str| {
        let compiled = compile(text);
        let work = casewright::plans::Workings::of(
            compiled.piece.as_ref().expect("a piece"),
            compiled.parts.as_ref().expect("its parts"),
        );
        let stops = work.fitting().stops.iter();
        let stops: Vec<_> = stops
            .map(|stop| {
                let [long, across, deep] = &stop.size;
                let sizes = [long.length, across.length, deep.length, stop.set_back.length];
                (stop.opening.name().to_owned(), stop.edge.word(), sizes, stop.over)
            })
            .collect();
        (stops, work.fitting().catches.len())
    };
    let strip = |name: &str, edge: &'static str, long: Length| {
        let sizes = [long, inches(3, 4), inches(3, 8), inches(3, 4)];
        (name.to_owned(), edge, sizes, inches(3, 8))
    };
    let both = vec![strip("one", "right", inches(285, 4)), strip("two", "top", inches(87, 4))];
    assert_eq!(found(&free), (both.clone(), 3));
    assert_eq!(found(&framed(list)), (vec![], 0));
    let divided = free.replace(
        "shelf { adjustable 1 }",
        "down { open a { share 1 }; divider; open b { share 1 } }",
    );
    assert_eq!(found(&divided), (both[..1].to_vec(), 3));
    let without = free.replace("pull knob }", "pull knob; stop none; catch none }");
    assert_eq!(found(&without), (vec![], 0));
}

/// What is wrong with a list behind doors is told at its line.
#[test]
fn a_list_behind_doors_stands_alone() {
    let text = spec("weir-house-pantry.case");
    let with = |from: &str, to: &str| {
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text, "{from}");
        part(&changed, "none").1
    };
    let lower = "front { pull bar { from-top 4 } }\n";
    assert_eq!(with(lower, "shelf { adjustable 1 }\n"), ["word-twice"]);
    assert_eq!(with(lower, "across { open rest { share 1 } }\n"), ["word-twice"]);
    assert_eq!(with("tray tins  {", "open tins {"), ["word-unknown"]);
    assert_eq!(
        with("tray tins  { same jars; box { high 3-1/4 } }", "open tins { same jars }"),
        ["no-floor"]
    );
    assert_eq!(
        with(
            "doors upper { share 1;",
            "tray crates { share 1 }\n rail { wide 1-1/2 }\n doors upper { share 1;"
        ),
        ["word-unknown"]
    );
}

/// A slide that takes 7/8 of an opening 5 high lets its box be 4-1/8: 4-1/4 is too much,
/// and 1 leaves nothing above the bottom.
#[test]
fn a_box_is_no_higher_than_its_slide_lets_it_be() {
    let slugs = |high: &str| {
        let list = format!(
            "down {{ drawer a {{ high 5; box {{ high {high} }} }}; rail {{ wide 1-1/2 }}; open b {{ share 1 }} }}"
        );
        let mut slugs = part(&framed(&list), "none").1;
        // The sides are short pieces, whatever their height.
        slugs.retain(|slug| slug != "small-parts");
        slugs
    };
    assert_eq!(slugs("4-1/8"), Vec::<String>::new());
    assert_eq!(slugs("3"), Vec::<String>::new());
    assert_eq!(slugs("4-1/4"), ["box-too-big"]);
    assert_eq!(slugs("1"), ["box-too-big"]);
}

/// The pantry has trays behind its doors, full when they are out: they tip it as drawers
/// do, beside the doors.
#[test]
fn trays_tip_a_case_as_drawers_do() {
    let compiled = compile(&spec("weir-house-pantry.case"));
    let (piece, parts) = (compiled.piece.unwrap(), compiled.parts.unwrap());
    let openings = piece.cases.iter().flat_map(|case| &case.openings);
    let slides = |own: &&casewright::model::Opening| matches!(own.kind, OpeningKind::Drawer { .. });
    let (trays, fronts): (Vec<_>, Vec<_>) =
        openings.filter(slides).partition(|own| own.front.is_none());
    assert!(!trays.is_empty());
    let work = Workings::of(&piece, &parts);
    let [tipping] = work.tipping() else { panic!("one case") };
    let counted = What::Drawers(trays.len() + fronts.len());
    assert!(tipping.pulls.iter().any(|pull| pull.what == counted), "{tipping:#?}");
}

/// The kick of the first piece stands 3 behind its face and is 23/32 thick; the ends are notched
/// behind it. A piece that is fixed to the wall has its doors and drawers kept out until the
/// screws hold, and its kick comes on after that: until then it tips about the notches, 3-23/32
/// behind its face. One that stands free has its kick on when they come in, and tips about that.
#[test]
fn a_case_tips_about_what_it_stands_on_by_then() {
    let edge = |text: &str| {
        let compiled = compile(text);
        let (piece, parts) = (compiled.piece.unwrap(), compiled.parts.unwrap());
        let work = Workings::of(&piece, &parts);
        let [tipping] = work.tipping() else { panic!("one case") };
        tipping.edge
    };
    let fixed = spec("first.case");
    let free = fixed.replace("fixing wall; ", "");
    assert!(free != fixed);
    assert_eq!(edge(&free), Length::inches(3, 1));
    assert_eq!(edge(&fixed), Length::inches(119, 32));
}

const BY_A_FILLER: &str = r#"
casework 1
job "t" { units in; tape 1/64 }
site { left open; right wall { scribe 1/2 }; fixing wall; humidity 30% to 55% }
shop { clamps 12 }
stock ply   { plywood 3/4; actual 3/4; species sugar-maple; sheet { long 96; wide 48 } }
stock thin  { plywood 1/4; actual 1/4; species sugar-maple; sheet { long 96; wide 48 } }
stock maple { lumber 4/4; thickness 3/4; species red-maple; sawn quarter }
hinge full {
  cup 35 mm; bore 13 mm; from-edge 5 mm; swing 110 deg
  gap 0; door-thickness 15 mm to 24 mm; plate { back 37 mm; apart 32 mm; screw 5 mm; deep 12 mm }
}
slide roll {
  undermount; length 21; room 21-7/8
  box-inside opening - 42 mm; box-high opening - 1
  notch { wide 35 mm; high 13 mm }; behind-front 1/8; load 90 lb
}
pull bar { centers 160 mm; screw 5/32; stands 1-1/4 }
run low {
  wide 34; deep 24; high 34; stock ply
  base { toe-kick; high 4; set-back 3; cut-into ends }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }
  frame none
  across {
    case one { share 1; across { doors pair { share 1; front { hinge full { from-bottom 9; from-top 4 } }; down { tray a { share 1; box { high 4 } }; tray b { share 1; box { high 4 } } } } } }
    filler strip { wide 2-1/2 }
  }
  fronts { stock maple; set overlay; gap 1/8; hinge full; pull bar { from-top 5-1/2 } }
  drawers { stock maple; bottom-stock thin; slide roll; load 18 lb per ft2; groove { up 13 mm; deep 1/4 }; joint dovetail; packer-stock maple }
}
"#;

/// The case is 31-1/2 wide, and its right leaf ends 1/8 before the filler of 2-1/2: it hangs
/// 2-5/8 before the wall, over 3/4 − 1/8 = 5/8 of the end. The leaves are (31-1/2 − 1/16 −
/// 1/8 − 1/8) / 2 = 15.594 wide. Its pull, 1-1/4 off its face, meets the wall at 15.594 sin
/// a + 1-1/4 cos a = 2-5/8, a = 5.08 degrees past square: there the leaf of 3/4 stands 0.747
/// over its edge. Less 5/8 and with 1/16 to spare that is 0.1846, 3/16 on the tape. Without
/// the wall it opens 20 degrees past square, 0.705 over its edge: 0.1423, 5/32.
#[test]
fn a_wall_beyond_a_filler_stops_the_leaf_too() {
    let thick = |text: &str| {
        let packer = part(text, "low.one.pair.a.right-packer").0.expect("a packer");
        packer.thickness.length
    };
    assert_eq!(thick(BY_A_FILLER), inches(3, 16));
    let open = BY_A_FILLER.replace("right wall { scribe 1/2 }", "right open");
    assert_eq!(thick(&open), inches(5, 32));
}

/// A lying divider behind inset doors of 3/4 stands 1/4 behind their backs, as shelves do, so
/// that no rail of a door touches it: 3/4 + 1/4 = 1 behind the face of the frame. Its front
/// edge is seen when they are open, and what the shelves say of their edges holds for it.
#[test]
fn a_divider_behind_doors_stands_back_and_is_edged_like_a_shelf() {
    let text = spec("first.case")
        .replace("pull knob {", "stock tape { banding 1/32 }\npull knob {")
        .replace(
            "  top { stretchers",
            "  shelves { joint dado { deep 1/4 }; edges tape }\n  top { stretchers",
        )
        .replace(
            "doors store { share 1; shelf { adjustable 1 } }",
            "doors store { share 1; down { open a { share 1 }; divider; open b { share 1 } } }",
        );
    let compiled = compile(&text);
    let parts = compiled.parts.as_ref().expect("its parts");
    let divider = parts.all.iter().find(|part| part.role == Role::Divider).expect("a divider");
    let front = divider.extent(Direction::Z).0;
    assert_eq!(front, Length::inches(1, 1));
    assert_eq!(divider.strips.len(), 1);
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
    let bare = text.replace("; divider;", "; divider { edges none };");
    let compiled = compile(&bare);
    let parts = compiled.parts.as_ref().expect("its parts");
    let divider = parts.all.iter().find(|part| part.role == Role::Divider).expect("a divider");
    assert!(divider.strips.is_empty());
}

/// A narrow case of sheets, with trays behind its door.
const TRAYS: &str = r#"casework 1

job "Pantry beside the oven" { units mm; currency "EUR" }
site { fixing wall; humidity 30% to 60% }
shop { humidity 45%; kerf 3; clamps 10 }

stock birch { plywood 18 mm; actual 17.8; species yellow-birch; sheet { long 2500; wide 1250 } }
stock thin  { plywood 6 mm; actual 6; species yellow-birch; sheet { long 2500; wide 1250 } }
stock box   { plywood 12 mm; actual 12; species yellow-birch; sheet { long 2500; wide 1250 } }
stock tape  { banding 1 mm }

hinge clip-110 {
  cup 35; bore 12.5; from-edge 5; swing 110 deg
  gap 1; door-thickness 16 to 24; plate { back 37; apart 32; screw 5; deep 12 }
}
slide ball-500 {
  side-mount; length 500; room 510
  box-outside opening - 25.4; box-high opening - 20; load 45 kg
}
pull bar { centers 160; screw 5; foot 10; from-edge 40 }
finish oil { hardwax-oil; coats 2; cure 24 h }

case pantry {
  wide 300; deep 580; high 870
  stock birch
  edges tape
  base { toe-kick; high 100; set-back 50; cut-into ends }
  bottom { joint dado { deep 6 } }
  back { stock thin; joint rabbet { deep 9 } }
  top { stretchers 2 { wide 100 }; joint pocket }
  frame none

  across {
    door front {
      share 1; hung left
      down {
        tray cans    { share 1; box { high 90 } }
        tray jars    { share 1; box { high 90 } }
        tray bottles { high 300; box { high 120 } }
      }
    }
  }

  fronts { stock birch; set overlay; gap 3; hinge clip-110 { from-bottom 140 }; pull bar { from-top 120 } }
  drawers {
    stock box; bottom-stock thin; slide ball-500
    groove { up 12; deep 6 }; joint rabbet
    load 40 kg per m2
  }
  finish oil
}
"#;

/// The trays are pulled out past the open leaves when the doors are hung: they are in by then,
/// also where the doors are ready long before them.
#[test]
fn trays_are_in_before_they_are_tried() {
    for name in ["trays", "weir-house-pantry"] {
        let text = if name == "trays" { TRAYS.to_owned() } else { spec("weir-house-pantry.case") };
        let compiled = compile(&text);
        let order = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
        let steps = order.rsplit_once("At a glance").expect("the steps").1;
        let tried = steps.find("pull out every").expect("the trial");
        let fitted = steps.find("and put in the boxes").expect("the slides");
        assert!(fitted < tried, "{name}: {steps}");
    }
}
