//! The fitting sheet: figures worked by hand, and what must hold of any piece.

use casewright::measure::Length;
use casewright::model::{Axis, OpeningKind};
use casewright::papers::{self, Format};
use casewright::parts::{Bore, Direction, FeatureKind, Part, Parts, Role};
use casewright::pipeline::Compilation;
use casewright::plans::Workings;
use casewright::plans::fitting::{Line, PinRows, pins};

use crate::support::{Bench, compile, demo_pieces, slugs, spec};

/// What the cupboard of the alcove says of its partitions.
const PARTITIONS: &str = "partitions { joint dado { deep 6 } }";

/// The lines of the sheet, each with single spaces.
fn sheet(compiled: &Compilation) -> Vec<String> {
    let text = papers::one(compiled, "fitting", Format::Text).expect("the sheet");
    text.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}

fn assert_lines(compiled: &Compilation, lines: &[&str]) {
    let sheet = sheet(compiled);
    for line in lines {
        assert!(sheet.iter().any(|own| own.ends_with(line)), "{line}\n{}", sheet.join("\n"));
    }
}

/// The filler of the laundry is cut 60 wide and 12 of that may come off at the wall, so the
/// left door of the sink hangs 48 + 3 = 51 from the wall at the least. It is 396.25 wide,
/// half of the case and what it lies over, so its lead edge meets the wall when it has turned
/// past square by an angle whose sine is 51 / 396.25: 7.39 degrees. The wall stops it at 97.
#[test]
fn a_wall_stops_a_door_before_its_hinges_do() {
    let laundry = spec("gate-cottage-laundry.case");
    let bare = laundry.replace("pull knob { from-top 50 }", "pull none");
    assert_ne!(laundry, bare);
    let told = "open to 110 degrees, but it strikes the left wall at about 97: fit a door stop, or a limiter for its hinges, that stops the door short of that.";
    assert_lines(&compile(&bare), &[told]);
}

/// Beside a narrow case the left door of the cupboard hangs 8 + 1-3/4 + 3/32 = 9-27/32 from
/// the side of the piece. It is (32-1/2 - 3/8) / 2 = 16-1/16 wide: past square it meets a wall
/// there at an angle whose sine is 9.844 / 16.0625, 37.8 degrees. Where 1/2 of the narrow
/// case's stile may come off, at 9.344 / 16.0625, 35.6 degrees, though its own case meets no
/// wall.
#[test]
fn the_scribe_of_the_outer_case_brings_the_wall_nearer_to_an_inner_door() {
    let told = |scribe: &str| {
        let narrow = "case narrow { wide 8; deep 18; high 34-1/2; stock ply; base { toe-kick; high 4; set-back 3; cut-into ends }; bottom { joint dado { deep 1/4 } }; back { stock thin; joint rabbet { deep 3/8 } }; top { stretchers 2 { wide 4 }; joint pocket }; frame { stock maple; joint pocket; stile left { wide 2 }; stile right { wide 1-1/2 }; rail top { wide 1-1/2 }; rail bottom { wide 1-1/2 }; across { open slot { share 1 } } }; finish oil }\n";
        let text = spec("first.case")
            .replace("left open", &format!("left wall {{ scribe {scribe} }}"))
            .replace("swing 105 deg", "swing 155 deg; pose { at 0 deg }; pose { at 155 deg }")
            .replace("pull knob\n", "pull none\n")
            .replace("case cupboard", &format!("{narrow}case cupboard"));
        sheet(&compile(&text)).join("\n")
    };
    let at = |angle: u32| format!("it strikes the left wall at about {angle}:");
    assert!(told("0").contains(&at(127)), "{}", told("0"));
    assert!(told("1/2").contains(&at(125)), "{}", told("1/2"));
}

/// The right door of the cupboard hangs 1-3/4 + 3/32 = 1.844 from the tower beside it, which
/// reaches 23-13/16 − 18 = 5.8125 farther forward: past square it meets the tower's corner at
/// an angle whose tangent is 1.844 / 5.8125, 17.6 degrees, whether the path of the hinge is
/// given or not: a stop is set to where the door may touch. That another case, which stands on
/// the cupboard, is written between the two changes nothing.
#[test]
fn a_deeper_case_stops_a_door_past_a_case_on_top() {
    let plain = |name: &str, how: &str| {
        format!(
            "case {name} {{\n{how}\nstock ply; bottom {{ joint dado {{ deep 1/4 }} }}\nback {{ stock thin; joint rabbet {{ deep 3/8 }} }}\ntop {{ panel; joint dado {{ deep 1/4 }} }}\nframe none; across {{ open all {{ share 1 }} }}\n}}\n"
        )
    };
    let upper = plain("upper", "on cupboard; wide 36; deep 10; high 30");
    let tower = plain(
        "tower",
        "wide 20; deep 23-13/16; high 34-1/2; base { toe-kick; high 4; set-back 3; cut-into ends }",
    );
    let text = |swing: &str| {
        let own = spec("first.case").replace("swing 105 deg", swing);
        compile(&format!("{own}\n{upper}{tower}"))
    };
    let told = |angle: u32| {
        format!(
            "The hinges of the right door of store in cupboard open to 155 degrees, but it strikes the side of tower at about {angle}: fit a door stop, or a limiter for its hinges, that stops the door short of that."
        )
    };
    assert_lines(&text("swing 155 deg"), &[&told(107)]);
    let known = "swing 155 deg; pose { at 0 deg }; pose { at 155 deg }";
    assert_lines(&text(known), &[&told(107)]);
}

/// The sides of the alcove's boxes are 12 thick and the boards beside them 18; a screw
/// stays 3 short of the far face of either.
#[test]
fn screws_of_slides_stay_short_of_the_far_face() {
    let told = "they go in no deeper than 9 into the side of a box and 15 into what carries the slides, or they come through.";
    assert_lines(&compile(&spec("alcove-shelves.case")), &[told]);
}

/// Worked by hand. The bottom lies on a toe kick of 4 and is 23/32 thick: its
/// top is at 4-23/32. The bottom rail is 1-1/2, so the lowest edge of an opening
/// is at 5-1/2, and that of the upper drawer at 33 - 1-1/2 - 5 = 26-1/2.
///
/// Pins: the lowest hole is 5-1/2 + 4 = 9-1/2 above the floor. One partition
/// stands on the bottom (9-1/2 - 4-23/32 = 4-25/32), the other 1/4 deep in it
/// (5-1/32). (26 - 2 × 4) / 1-1/4 = 14.4 makes 15 holes. The back's inside is
/// 17 - 13/64 = 16-51/64 behind the face, the partitions begin at 3/4: the back
/// row is 16-51/64 - 1-1/2 - 3/4 = 14-35/64 from their front edge.
///
/// Slides: upper 26-1/2 - 4-23/32 = 21-25/32 above the bottom, lower 5-1/2 -
/// 4-23/32 = 25/32. They take 3/4 + 15-3/4 = 16-1/2 and leave 16-51/64 - 16-1/2
/// = 19/64. The left end reaches the face, so its packers begin at 3/4.
///
/// Fronts: 3/4 with flutes of 1/8 leave 3/4 - 1/8 - 1/8 = 1/2 for a screw, so
/// 5/8 + 1/2 = 1-1/8 from inside, and 3/4 + 5/8 - 1/8 = 1-1/4 through the pull.
///
/// Screws: pockets 7 + 6 in the partition, 4 × 3 in the stretchers, 2 × 3 in the
/// nailer, 6 × 2 × 2 in the frame. A packer of 15 takes 3. Through 1-1/32 and 23/32 less 1/8 go
/// 1-5/8 at most, of which 1-1/2 is sold; through 25/64 and 23/32 go 63/64,
/// 7/8: four in each, two in a row, also where pockets part the line. The back has a line in each end, 29 / 6 or 5 screws, one in the bottom and one in
/// the stretcher, 63 / 6 or 11, and one in each partition below its notch of 4 and 1/4 off
/// it, (27-9/16 - 4-1/4) / 6 or 4: 2 × (5 + 11 + 4); 13/64 + 5/8 is 53/64, 3/4.
///
/// Into plywood go the pocket screws of the stretchers and nailers, 4 × 3 and 2 × 3, and of
/// a partition, 7 + 3 + 3: 31. Two at each of the 12 ends of the frame go into its maple.
#[test]
fn the_console_is_fitted_as_worked_by_hand() {
    assert_lines(
        &compile(&spec("hall-console.case")),
        &[
            "15 holes in each row, 1-1/4 from center to center; the first is 4 above the lower edge of the opening",
            "PBA-PR partition between bank and press right face 4-25/32 1-1/2 14-9/16~",
            "PPR-NI partition between press and niche left face 5-1/32 1-1/2 14-9/16~",
            "14-9/16~ = 14.547",
            "9 2 middle, lower",
            "upper soft-15 0 21-25/32 3/4 + sheet 16-1/2 5/16~",
            "lower soft-15 0 25/32 3/4 + sheet 16-1/2 5/16~",
            "5/16~ = 0.297",
            "UP-LPK 1-1/32 LE left end 26-1/2 0 3/4",
            "UP-RPK 13/32~ PBA-PR partition between bank and press 21-25/32 0 0",
            "PR-LD press, left door 1 3 SBA-PR 3-3/32 3-3/32",
            "UP-F upper, front 3/4 5/8 2 × 1-1/4 4 × 1-1/8 1/2 1/8",
            "31 pocket screws, 1-1/4 long pocket holes into sheets and soft wood: coarse thread",
            "24 pocket screws, 1-1/4 long pocket holes into hard wood: fine thread",
            "12 wood screws, 7/8 long No. 8 packers onto the case: UP-RPK, MI-RPK, LO-RPK",
            "12 wood screws, 1-1/2 long No. 8 packers onto the case: UP-LPK, MI-LPK, LO-LPK",
            "40 screws with flat heads, 3/4 long No. 6 the backs, on the lines of the layout sheet",
            "8 shelf pins, for holes of 1/4 loose shelves, four each",
        ],
    );
}

/// Worked by hand: the opening of the doors is at 4 + 1-1/2 = 5-1/2 and 21 high:
/// (21 - 8) / 1-1/4 = 10.4 makes 11 holes from 9-1/2 above the floor, on which
/// the ends stand. 18 - 13/64 - 1-1/2 - 3/4 = 15-35/64. The drawer is at 34-1/2
/// - 1-1/2 - 5 = 28, 23-9/32 above the bottom. Flat fronts leave 1/4.
#[test]
fn the_first_cabinet_is_fitted_as_worked_by_hand() {
    let first = spec("first.case");
    assert_lines(
        &compile(&first),
        &[
            "11 holes in each row, 1-1/4 from center to center; the first is 4 above the lower edge of the opening",
            "LE left end inside face 9-1/2 1-1/2 15-9/16~",
            "RE right end inside face 9-1/2 1-1/2 15-9/16~",
            "upper runner 0 23-9/32 3/4 + sheet 16-1/2 1-5/16~",
            "UP-F upper, front 3/4 5/8 1 × 1-1/4 4 × 1-1/8 1/2 1/4",
        ],
    );
    // What the slide's sheet asks: 3/4 + 1/8.
    let given = first.replace("undermount; length", "undermount; behind-front 1/8; length");
    // The box is level with the nailer, 23/32 thick: it ends 7/8 + 15 behind the face, and
    // 17-51/64 - 23/32 - 15-7/8 = 1.203 are left.
    assert_lines(&compile(&given), &["upper runner 0 23-9/32 7/8 15-7/8 1-7/32~"]);
    assert!(!sheet(&compile(&given)).iter().any(|line| line.contains("behind-front")));
    // A slide that starts farther back than its room allows for: 3/4 + 1-1/4 + 15.
    let far = first.replace("undermount; length", "undermount; behind-front 1-1/4; length");
    // It leaves 17-51/64 - 23/32 - 17 = 5/64.
    assert_lines(&compile(&far), &["upper runner 0 23-9/32 2 17 3/32~", "3/32~ = 0.078"]);
}

/// Worked by hand, in millimeters. The hook is 7 from the inside of a side 15
/// thick, and the back of a dovetailed box reaches to its outside: 22. Its
/// notch is 13 high: 13 + 11 = 24. The slide starts 19 + 3 = 22 behind the face.
#[test]
fn the_hooks_of_the_linen_press_are_as_worked_by_hand() {
    let press = piece("tide-cottage-press");
    assert_lines(
        &press,
        &[
            "2, 6 mm across, 10 mm deep, 22 from each end and 24 from the bottom edge",
            "sheets runner-450 0 220 22 482 72.5",
        ],
    );
}

/// Worked by hand. Between the bottom, at 98, and the top, at 882, stand three
/// openings of (784 - 2 × 18) / 3 = 249-1/3 and two dividers: the upper opening
/// begins 2 × 267-1/3 = 534-2/3 above the bottom, and its slide 96 above that, at
/// 630-2/3. A box 20 lower than its opening stands 10 above its edge, so that the
/// slide is 86 up its side. It ends 21 + 400 behind the face, and the nailer, 18 thick, stands 444 - 18
/// behind it: 5 are left. Without `up`, the slide's middle is at half the
/// height of the box: 229-1/3 / 2 = 114-2/3. The lowest hole at 100 would strike a plate
/// screw at 196 - 98 = 98, so the rows start one pitch higher, at 132.
#[test]
fn plates_push_the_rows_of_pins_up() {
    let alcove = piece("alcove-shelves");
    assert_lines(
        &alcove,
        &[
            "upper side-400 96 630.5~ 21 421 5",
            "630.5~ = 630.67",
            "upper lower edge 86",
            "18 holes in each row, 32 mm from center to center; the first is 132 above the lower edge of the opening",
            "CU-RE right end inside face 230 56 407",
        ],
    );
    let text = spec("alcove-shelves.case").replace("  up           96\n", "");
    assert_lines(&compile(&text), &["upper center line 114.5~"]);
}

/// Worked by hand: a third hinge in the middle of a door from 100 to 880 is at
/// 490, its screws at 474 and 506. Rows that start 98 + 120 = 218 above the floor
/// have places 9 and 10 there: 218 + 8 × 32 = 474. (784 - 240) / 32 makes 18.
/// Rows from 98 + 92 = 190 would strike the lowest plate's 196 too, and start at
/// the next place, 222: the ninth from there is at 478, 4 from 474.
#[test]
fn a_hole_that_would_strike_a_plate_is_left_out() {
    let with = |from_end: &str| {
        let shelves = format!("{PARTITIONS}\n  shelves {{ pins {{ from-end {from_end} }} }}");
        let text = spec("alcove-shelves.case")
            .replace("hinge inset-cup;", "hinge inset-cup; hinges 3;")
            .replace(PARTITIONS, &shelves);
        compile(&text)
    };
    for (from_end, first) in [("120", "120"), ("92", "124")] {
        let row = format!(
            "16 holes in each row, 32 mm from center to center; the first is {first} above the lower edge of the opening"
        );
        let left_out = "holes 8 and 9 are 96 mm apart: 2 are left out between them, where another hole or a block is in the way";
        assert_lines(&with(from_end), &[&row, left_out]);
    }
}

/// Worked by hand: the middle hinge of the press is 637.5 above the opening and
/// takes 617.5 to 657.5. Hole 13 is at 200 + 12 × 32 = 584, so that a shelf of 20
/// ends at 604; one on hole 14, at 616, or on 15, at 648, lies in it; 16 is at 680.
///
/// The console's upper hinge is 22-29/32 above the opening, its room begins 20 mm
/// lower, at 22.119. A shelf of 23/32 on hole 15, at 4 + 14 × 1-1/4 = 21-1/2, ends
/// at 22.219; on hole 14 at 20.969.
#[test]
fn no_shelf_lies_where_a_hinge_is() {
    assert_lines(
        &piece("tide-cottage-press"),
        &[
            "lay no shelf on holes 14 and 15: hinge 2 is there",
            "to stand where they are drawn, the shelves go on holes 4, 13, and 24, counted from the bottom",
        ],
    );
    assert_lines(
        &compile(&spec("hall-console.case")),
        &["lay no shelf on hole 15: hinge 2 is there"],
    );
}

/// The first hole is 4 above the opening, and the lowest hinge 4 above the door, which
/// begins a gap higher: behind the doors it makes no difference in which list the shelf lies.
#[test]
fn no_shelf_in_a_list_behind_doors_lies_where_a_hinge_is() {
    let shelf = "doors store { share 1; shelf { adjustable 1 } }";
    let list = "doors store { share 1; across { open one { share 1; shelf { adjustable 1 } }; divider; open two { same one; shelf { adjustable 1 } } } }";
    let own = "hinge cup-hinge { from-bottom 4 }";
    let first = spec("first.case").replace("hinge cup-hinge;", &format!("{own};"));
    let told = |text: &str| {
        let lines = sheet(&compile(text));
        lines.iter().any(|line| line.contains("lay no shelf on hole 1: hinge 1 is there"))
    };
    assert!(told(&first));
    assert!(told(&first.replace(shelf, list)));
}

/// Without a partition behind the stile the shelf of an open list runs on behind the door beside
/// it. The openings begin at 4 + 1-1/2 = 5-1/2, the door 3/32 higher; its lower hinge, 4 above
/// that, takes 8.806 to 10.381 above the floor. A shelf on hole 1, at 9-1/2, would lie in it; one on
/// hole 2 lies at 10-3/4.
#[test]
fn no_shelf_lies_where_a_hinge_of_the_next_opening_is() {
    let text = spec("first.case");
    let (before, rest) = text.split_once("    down {").expect("the list");
    let (_, after) = rest.split_once("\n    }\n").expect("its end");
    let list = "    across { door one { share 1; hung left }; stile { wide 1-1/2; partition none }; open two { share 1; shelf { adjustable 1 } } }\n";
    let text = format!("{before}{list}{after}");
    let text = text.replace("hinge cup-hinge;", "hinge cup-hinge { from-bottom 4 };");
    let (before, rest) = text.split_once("  drawers {").expect("the drawers");
    let (_, after) = rest.split_once("joint rabbet\n  }\n").expect("their end");
    let compiled = compile(&format!("{before}{after}"));
    assert_lines(&compiled, &["lay no shelf on hole 1: hinge 1 of ON-D is there"]);
}

/// Worked by hand: the bookcase is 2000 high and stands on its bottom of 18; its top of
/// 18 begins at 1982, and the nailer of 100 under it at 1882. The first hole is at 118.
/// A shelf of 18 on hole 56, at 118 + 55 × 32 = 1878, ends at 1896; one on hole 55 ends
/// at 1864.
#[test]
fn no_shelf_lies_where_a_nailer_is() {
    let text = spec("alcove-shelves.case").replacen("fixed 4", "adjustable 4", 1);
    assert_lines(&compile(&text), &["lay no shelf on hole 56: the nailer LB-TNL is there"]);
    // Without fixing to the wall it has no nailer.
    let loose = compile(&text.replacen("; fixing wall", "", 1));
    assert!(!sheet(&loose).iter().any(|line| line.contains("nailer")));
}

/// Worked by hand: the opening of the doors begins at 5-1/2, and the lower hinge
/// is 3-3/32 above that. Its block is 72 mm high, from 1.676 to 4.511 above the
/// opening, and covers the front hole at 4; the next is at 5-1/4. 10 are left.
#[test]
fn no_pin_hole_is_bored_behind_a_hinge_block() {
    let text =
        spec("first.case").replacen("hinge cup-hinge {", "hinge cup-hinge {\n  plate { }", 1);
    let compiled = compile(&text);
    let work = compiled.workings().expect("a piece");
    let rows = &work.pin_rows()[0];
    assert_eq!(rows.first, Length::inches(21, 4));
    assert!(!sheet(&compiled).iter().any(|line| line.contains("11 holes in each row")));
}

/// Worked by hand: a bookcase 300 deep stands beside a cupboard 450 deep, their
/// backs at one wall. Its rows count from its own front edge: 37, and 300 - 6 -
/// 37 = 257. Its bottom lies on the floor, 18 thick: 18 + 100 = 118.
#[test]
fn a_shallow_case_counts_from_its_own_front() {
    let text = spec("alcove-shelves.case").replacen("fixed 4", "adjustable 4", 1);
    assert_lines(
        &compile(&text),
        &["left end inside face 118 37 257", "right end inside face 118 37 257"],
    );
}

#[test]
fn why_a_drawer_sits_as_deep_as_it_does_can_be_asked() {
    let bench = Bench::new().with("a.case", &spec("tide-cottage-press.case"));
    let why = bench.run(&["why", "a.case", "sheets"]).out;
    let line = |word: &str| why.lines().find(|line| line.trim_start().starts_with(word));
    let figure =
        |word: &str| line(word).and_then(|line| line.split_once(word)).map(|it| it.1.trim());
    assert_eq!(figure("set-back "), Some("22 mm"), "{why}");
    assert!(why.contains("behind-front 3"), "{why}");
    // 560 - 5.5 - 19 - 463.
    assert_eq!(figure("clear behind "), Some("72.5 mm"), "{why}");
}

/// Two thin boards' worth of holes: 3/8 from both faces of 23/32 meet, 5/16
/// leave 3/32, which is more than 2 mm. At other heights they don't meet.
#[test]
fn rows_on_both_faces_of_one_board_need_wood_between_them() {
    let both = spec("hall-console.case")
        .replace("open niche { wide 15 }", "open niche { wide 15; shelf { adjustable 2 } }");
    assert_eq!(slugs(&compile(&both)), ["pin-rows-meet"]);
    let with = |pins: &str| {
        let shelves = format!("  shelves {{ pins {{ {pins} }} }}\n  partitions {{");
        both.replacen("  partitions {", &shelves, 1)
    };
    assert_eq!(slugs(&compile(&with("deep 5/16"))), Vec::<&str>::new());
    assert_eq!(slugs(&compile(&with("deep 11/32"))), ["pin-rows-meet"]);
    // Through the board: 23/32 - 11/16 is less than 2 mm.
    let one = spec("hall-console.case").replacen(
        "  partitions {",
        "  shelves { pins { deep 11/16 } }\n  partitions {",
        1,
    );
    assert_eq!(slugs(&compile(&one)), ["pin-rows-meet"]);
}

/// From the back of the front to the inside of the back are 18 - 13/64 - 3/4 =
/// 17-3/64. A slide of 15 that starts 2 behind the front reaches 17, one that
/// starts 2-1/8 behind it reaches 17-1/8, whatever room its sheet gives.
#[test]
fn a_slide_that_starts_far_back_needs_its_room_too() {
    let with = |behind: &str| {
        let given = format!("undermount; behind-front {behind}; length");
        // Without a nailer behind the box.
        let free = spec("first.case").replace("fixing wall", "fixing none");
        let mut slugs = slugs(&compile(&free.replace("undermount; length", &given)));
        slugs.retain(|slug| *slug != "tips");
        slugs
    };
    // So far back is odd, and possible.
    assert_eq!(with("2"), ["figure-odd"]);
    assert_eq!(with("2-1/8"), ["slide-room"]);
}

/// The cupboard is fixed to the wall, so that a nailer stands under its top: with
/// stretchers of 23/32 it reaches from 33-25/32 down 4 to 29-25/32. The upper opening is
/// from 28 to 33. The middle of a slide beside the box is half way up, at 30-1/2, so the
/// nailer, 23/32 thick, is behind it: 18 - 13/64 - 23/32 - 3/4 = 16-21/64 are left. A slide
/// under the box lies lower, and the nailer is not in its way: 17-3/64 are left.
#[test]
fn a_nailer_takes_from_the_room_of_the_slide_that_it_stands_behind() {
    let with = |sits: &str, room: &str| {
        let text = spec("first.case").replace("room 15-3/4", &format!("room {room}"));
        let text = text.replace("undermount; length", &format!("{sits}; length"));
        let notch = text.lines().find(|line| line.contains("notch {")).map(str::to_owned);
        match sits {
            "undermount" => text,
            _ => text.replace(&notch.expect("the notch"), ""),
        }
    };
    // Its box ends 3/4 + 15 behind the face, well before the nailer, which it meets.
    assert_eq!(slugs(&compile(&with("undermount", "17-1/32"))), Vec::<&str>::new());
    let long = with("undermount", "17-1/32").replace("length 15;", "length 16-5/16;");
    assert_eq!(slugs(&compile(&long)), Vec::<&str>::new());
    assert_eq!(slugs(&compile(&long.replace("16-5/16;", "16-3/8;"))), ["slide-room"]);
    assert_eq!(slugs(&compile(&with("undermount", "17-1/16"))), ["slide-room"]);
    let beside = compile(&with("side-mount", "16-5/16"));
    assert_eq!(slugs(&beside), Vec::<&str>::new());
    assert_lines(
        &beside,
        &[
            "upper runner 2-1/2 25-25/32 3/4 + sheet 17-1/16 1/32~",
            "clear behind counts to the nailer that stands there: TNL of upper",
        ],
    );
    assert_eq!(slugs(&compile(&with("side-mount", "16-3/8"))), ["slide-room"]);
}

/// The upper opening is 5 high and its box 5 - 7/8 = 4-1/8, so the box starts at
/// 7/16 and its bottom 13 mm above that, at 0.949 in: an undermount slide may lie
/// at 15/16 (0.9375) and not at 31/32 (0.96875). The packers go with it.
#[test]
fn a_slide_is_set_where_its_box_is() {
    let with = |up: &str| {
        let given = format!("undermount; up {up}; length");
        compile(&spec("first.case").replace("undermount; length", &given))
    };
    assert_eq!(slugs(&with("31/32")), ["slide-off-box"]);
    let sound = with("15/16");
    assert_eq!(slugs(&sound), Vec::<&str>::new());
    // 28 + 15/16 from the floor, 28-15/16 - 4-23/32 = 24-7/32 from the bottom.
    assert_lines(
        &sound,
        &[
            "upper runner 15/16 24-7/32 3/4 + sheet 16-1/2 1-5/16~",
            "UP-LPK 1-1/32 LE left end 28-15/16 15/16 0",
        ],
    );
}

/// Holes of 1/4 every 5/16 leave 1/16, which is less than 2 mm; every 3/8 leave
/// 1/8.
#[test]
fn the_holes_of_a_row_need_wood_between_them() {
    let with = |pins: &str| {
        let shelves = format!("  shelves {{ pins {{ {pins} }} }}\n  frame {{");
        let text = spec("first.case").replacen("  frame {", &shelves, 1);
        slugs(&compile(&text))
    };
    assert_eq!(with("pitch 5/16"), ["pin-rows-meet"]);
    assert_eq!(with("pitch 3/8"), Vec::<&str>::new());
}

/// Worked by hand: a front of 1/2 takes a screw 1/2 - 1/4 = 1/4 deep, from a box
/// front of 5/8: 7/8, of which 1/4 in the front leaves 1/4.
#[test]
fn a_thin_front_takes_a_short_screw() {
    let thin =
        "stock thin-maple { lumber 4/4; thickness 1/2; species sugar-maple; sawn quarter }\n";
    let text = spec("first.case")
        .replacen("stock box-side", &format!("{thin}stock box-side"), 1)
        .replace("drawer upper { high 5 }", "drawer upper { high 5; front { stock thin-maple } }");
    let line = "UP-F upper, front 1/2 5/8 1 × 1 4 × 7/8 1/4 1/4";
    assert!(sheet(&compile(&text)).iter().any(|own| own.ends_with(line)), "{line}");
}

fn piece(name: &str) -> Compilation {
    let found = demo_pieces().into_iter().find(|(own, _)| own == name);
    found.expect("the piece").1
}

/// The parts of a role in an opening.
fn of(
    parts: &Parts,
    opening: casewright::model::OpeningId,
    role: Role,
) -> impl Iterator<Item = &Part> {
    parts.all.iter().filter(move |part| part.role == role && part.opening() == Some(opening))
}

/// Worked by hand: 23/32 of plywood and 1 in of thread make 1-23/32, of which the
/// next that is sold is 1-3/4; 18 and 25 make 43, and 45 are sold.
#[test]
fn screws_of_boards_have_a_length_that_is_sold() {
    assert_lines(
        &compile(&spec("hall-console.case")),
        &["15 wood screws, 1-3/4 long No. 8 boards of the case or base that are screwed on"],
    );
    assert_lines(
        &piece("tide-cottage-press"),
        &["30 wood screws, 45 long 4-mm boards of the case or base that are screwed on"],
    );
}

/// Worked by hand: the inside of a box on these slides is the opening less 1-5/8, and
/// its sides are 5/8 each: 1-5/8 - 1-1/4 = 3/8 narrower. It is 7/8 lower, and half of
/// that is below it: 7/16.
#[test]
fn a_box_is_smaller_than_its_opening_by_the_rules_of_its_slide() {
    assert_lines(&compile(&spec("first.case")), &["upper 3/8 7/8 7/16"]);
}

/// Worked by hand: a shelf of the console weighs 7.5 lb, and two of them come out.
/// Twin doors have one figure.
#[test]
fn loose_shelves_are_weighed_apart() {
    let console = compile(&spec("hall-console.case"));
    let text = papers::one(&console, "weights", Format::Text).expect("the paper");
    let weight = |what: &str| {
        let line = text.lines().find(|line| line.contains(what)).expect("a line");
        let figure = line.split_whitespace().next().expect("a weight").replace('.', "");
        figure.parse::<i64>().expect("tenths of a pound")
    };
    assert!((weight("loose shelves of console") - 150).abs() <= 1, "{text}");
    assert_eq!(weight("press, left door"), weight("press, right door"), "{text}");
}

/// A slide holds its box inside the opening, and it fits the depth of the case
/// and the board that it is screwed to.
#[test]
fn every_slide_holds_its_box_inside_its_opening() {
    let (mut seen, mut lower) = (0, 0);
    for (name, compiled) in demo_pieces() {
        let work = compiled.workings().expect("a piece");
        let piece = work.piece;
        for drawer in &work.fitting().drawers {
            seen += 1;
            let opening = drawer.opening;
            let case = piece.case(opening.case()).expect("its case");
            let at = format!("{name}: {}", opening.path);
            let (low, high) = (opening.y, opening.y + opening.high.length);
            let doors = case.door_before(opening);
            let line = doors.map_or(low, |doors| doors.y) + drawer.above_opening.length;
            // The box has the clearances of its slide, above and below it and at
            // both sides.
            let side = of(work.parts, opening.id, Role::DrawerSide).next().expect("a side");
            let (bottom, top) = side.extent(Direction::Y);
            assert!(low < bottom && top < high, "{at}");
            let most = drawer.hardware.box_high.size(opening.as_built(Axis::Down)).length;
            let play = (opening.high.length - most).half();
            assert_eq!(bottom - low, play, "{at}");
            match opening.kind {
                // One that says how high it is stays lower.
                OpeningKind::Drawer { box_high: Some(_), .. } => {
                    assert!(top - bottom < most, "{at}");
                    lower += 1;
                }
                _ => assert_eq!(top - bottom, most, "{at}"),
            }
            for side in of(work.parts, opening.id, Role::DrawerSide) {
                let (from, to) = side.extent(Direction::X);
                let (left, right) = (case.x + opening.x, case.x + opening.x + opening.wide.length);
                assert!(left < from && to < right, "{at}");
            }
            // An undermount slide is below its box, another beside it.
            match drawer.line {
                Line::LowerEdge if drawer.hardware.undermount => {
                    assert!(low <= line && line < bottom, "{at}");
                }
                Line::LowerEdge => assert!(bottom < line && line < top, "{at}"),
                Line::Center => assert_eq!(line - bottom, top - line, "{at}"),
            }
            // Above the bottom, measured in the case.
            let own = work.parts.of_case(case.id);
            let floor = own.iter().find(|part| part.role == Role::Bottom).expect("a bottom");
            let above = drawer.above_bottom.expect("a height");
            assert_eq!(floor.extent(Direction::Y).1 + above, line, "{at}");
            // The depth, from the frame's face or the front edge of the ends to
            // the inside of the back.
            let faces = own.iter().filter(|part| match case.frame {
                Some(_) => part.role == Role::Stile,
                None => matches!(part.role, Role::End(_)),
            });
            let face = faces.map(|part| part.extent(Direction::Z).0).min().expect("a face");
            let back = own.iter().find(|part| part.role == Role::Back).expect("a back");
            // A nailer is in the way of what its height meets: a slide on its line, and
            // one under the box as far as its hooks.
            let ends = |part: &&Part| {
                let (from, to) = part.extent(Direction::Y);
                let reach = if drawer.hardware.undermount { bottom } else { line };
                matches!(part.role, Role::Nailer(_)) && from < reach && line < to
            };
            let end = own.iter().filter(ends).chain([back]).map(|part| part.extent(Direction::Z).0);
            let inside = end.min().expect("a back") - face;
            assert!(drawer.used.length + drawer.left.length <= inside, "{at}");
            // And the box stands clear of whatever nailer is level with it.
            let boxes = of(work.parts, opening.id, Role::DrawerSide);
            let rear = boxes.map(|side| side.extent(Direction::Z).1).max().expect("a box");
            let level = |part: &&Part| {
                let (from, to) = part.extent(Direction::Y);
                matches!(part.role, Role::Nailer(_)) && from < top && bottom < to
            };
            for nailer in own.iter().filter(level) {
                assert!(rear <= nailer.extent(Direction::Z).0, "{at}");
            }
            assert!(!drawer.left.length.is_negative(), "{at}");
            let rear = match &drawer.set_back {
                Some(set_back) => set_back.length + drawer.hardware.length.length,
                None => drawer.ahead.length + drawer.hardware.length.length,
            };
            assert!(rear <= drawer.used.length, "{at}");
            assert_eq!(drawer.carriers.len(), 2, "{at}");
            for carrier in &drawer.carriers {
                assert!(face + rear <= carrier.board.extent(Direction::Z).1, "{at}");
                let Some(packer) = carrier.packer else { continue };
                let own = packer.part.extent(Direction::Y);
                assert!(own.0 <= line && line <= own.1, "{at}");
                let up = carrier.board.extent(Direction::Y).0 + packer.above_end;
                assert_eq!(up, own.0, "{at}");
            }
        }
    }
    assert!(seen >= 9 && lower >= 4, "{seen}, {lower}");
}

/// The four rows of a shelf are level, lie under it, and strike nothing.
#[test]
fn the_rows_of_every_shelf_are_level_and_free() {
    let mut seen = 0;
    for (name, compiled) in demo_pieces() {
        let work = compiled.workings().expect("a piece");
        for rows in work.pin_rows() {
            seen += 1;
            let at = format!("{name}: {}", rows.opening.path);
            let [left, right] = rows.boards.as_slice() else { panic!("{at}") };
            let level = |part: &Part, first: Length| part.extent(Direction::Y).0 + first;
            assert_eq!(level(left.part, left.first), level(right.part, right.first), "{at}");
            for (one, other) in left.rows.iter().zip(right.rows) {
                let behind = |part: &Part, row: Option<Length>| {
                    row.map(|row| part.extent(Direction::Z).0 + row)
                };
                assert_eq!(behind(left.part, *one), behind(right.part, other), "{at}");
            }
            assert!(left.part.extent(Direction::X).1 < right.part.extent(Direction::X).0, "{at}");
            let shelves: Vec<&Part> =
                of(work.parts, rows.opening.id, Role::AdjustableShelf).collect();
            assert_eq!(rows.shelves.len(), shelves.len(), "{at}");
            strikes_nothing(&at, rows, work.parts);
            for (shelf, place) in &rows.shelves {
                let (front, back) = shelf.extent(Direction::Z);
                let rows_at = left.rows.into_iter().flatten();
                for row in rows_at.map(|row| left.part.extent(Direction::Z).0 + row) {
                    assert!(front < row && row < back, "{at}");
                }
                let hole = level(left.part, left.first) + rows.pins.pitch * i64::from(place - 1);
                let lies = shelf.extent(Direction::Y).0;
                // No free hole is nearer.
                let nearer = (1..=rows.count).find(|other| {
                    rows.is_free(*other) && (rows.height(*other) - lies).abs() < (hole - lies).abs()
                });
                assert_eq!((nearer, rows.is_free(*place)), (None, true), "{at}");
                let around = if rows.blocked.is_empty() { 1 } else { 3 };
                assert!((hole - lies).abs() <= rows.pins.pitch * around, "{at}: {hole:?} {lies:?}");
            }
        }
    }
    assert!(seen >= 4, "{seen}");
}

fn strikes_nothing(at: &str, rows: &PinRows<'_>, parts: &Parts) {
    let radius = rows.pins.hole.half();
    for board in &rows.boards {
        let part = board.part;
        // The face of the board that looks at the shelf.
        let shelf = of(parts, rows.opening.id, Role::AdjustableShelf).next().expect("a shelf");
        let (from, to) = part.extent(Direction::X);
        let is_left = to <= shelf.extent(Direction::X).0;
        let x = if is_left { (to - rows.pins.deep, to) } else { (from, from + rows.pins.deep) };
        for height in rows.heights() {
            assert!(rows.opening.y < height, "{at}");
            assert!(height < rows.opening.y + rows.opening.high.length, "{at}");
            for row in board.rows.into_iter().flatten() {
                let (front, back) = part.extent(Direction::Z);
                let z = if board.from_back { back - row } else { front + row };
                for feature in &part.features {
                    for space in part.hollows(feature) {
                        let meets = space.from.x < x.1
                            && x.0 < space.to.x
                            && space.from.y < height + radius
                            && height - radius < space.to.y
                            && space.from.z < z + radius
                            && z - radius < space.to.z;
                        assert!(!meets, "{at}: {} in {}", feature.kind.word(), part.path);
                    }
                }
            }
        }
    }
}

/// A hinge is at one height on the door and on what the door hangs on, and
/// where the cup and the screws of the plate are bored.
#[test]
fn every_hinge_is_at_one_height() {
    let mut seen = 0;
    for (name, compiled) in demo_pieces() {
        let work = compiled.workings().expect("a piece");
        for hung in &work.fitting().hinges {
            seen += 1;
            let foot = |part: &Part| part.extent(Direction::Y).0;
            let at = format!("{name}: {} {}", hung.leaf.path, hung.number);
            let height = foot(hung.leaf) + hung.on_leaf;
            assert_eq!(height, foot(hung.holder) + hung.on_holder, "{at}");
            let opening = hung.leaf.opening().and_then(|id| work.piece.opening(id)).expect("one");
            assert_eq!(height, opening.y + hung.above_opening, "{at}");
            let centers = |part: &Part, bore: Bore| -> Vec<Length> {
                let own = part.features.iter().filter(|f| f.kind == FeatureKind::Bore(bore));
                own.map(|f| foot(part) + f.center().0).collect()
            };
            assert!(centers(hung.leaf, Bore::Cup).contains(&height), "{at}");
            let Some(plate) = hung.plate else { continue };
            for screw in plate.screws {
                let bored = centers(plate.part, Bore::Plate);
                assert!(bored.contains(&(foot(plate.part) + screw)), "{at}");
            }
        }
    }
    assert!(seen >= 14, "{seen}");
}

/// A door says itself where its hinges go: the lowest 6 above its lower end, the uppermost
/// 4 below its upper one, and a third halfway between them. The spec of the hinge itself,
/// which other jobs use too, stays as it is.
#[test]
fn a_door_may_say_where_its_hinges_go() {
    let own = "hinge cup-hinge { from-top 4; from-bottom 6 }; hinges 3";
    let first = spec("first.case").replace("hinge cup-hinge;", &format!("{own};"));
    let compiled = compile(&first);
    let work = compiled.workings().expect("a piece");
    let left: Vec<_> =
        work.fitting().hinges.iter().filter(|own| own.leaf.path.ends_with("left-door")).collect();
    let high = left[0].leaf.length.length;
    let inches = |whole| Length::inches(whole, 1);
    let at: Vec<Length> = left.iter().map(|own| own.on_leaf).collect();
    let between = (high + inches(2)).half();
    assert_eq!(at, [inches(6), between, high - inches(4)]);
    let told = format!("{:?}", casewright::editor::why(&compiled, "cupboard.lower.left-door"));
    assert!(!told.contains("from-end"), "{told}");
}

/// No screw comes through a front, or into a flute, or into the drawer.
#[test]
fn no_screw_of_a_front_comes_through() {
    let eighth = Length::mm(3);
    let mut seen = 0;
    for (name, compiled) in demo_pieces() {
        let work = compiled.workings().expect("a piece");
        for front in &work.fitting().fronts {
            seen += 1;
            let at = format!("{name}: {}", front.opening.path);
            let stay = front.stay.sold.expect("a screw that is sold");
            let flutes = front.front.features.iter().filter_map(|f| match f.kind {
                FeatureKind::Flute(_) => Some(f.deep),
                _ => None,
            });
            let fluted = flutes.max().unwrap_or_default();
            let tip = stay - front.box_front;
            assert!(tip >= Length::mm(9), "{at}");
            assert!(front.front.thickness.length - fluted - tip >= eighth, "{at}");
            let hold = front.hold.sold.expect("a screw that is sold");
            assert!(hold > front.to_box, "{at}");
            assert!(hold + eighth <= front.to_box + front.box_front, "{at}");
        }
    }
    assert!(seen >= 9, "{seen}");
}

/// Worked by hand. The back laps each end by 9 of its rabbet: its screws are 4.5 from its
/// ends. Each end has the bottom and the top let in, 18 high: 6 off those and 50 on is 74
/// up, and (400 - 2 × 74) / 2 = 126 between. The bottom, 12 to 1188 from the left, lies
/// along the lower edge of the back, which begins at 9: 9 up, and the first screw 3 + 50
/// in. The lower nailer is 308 to 326 behind the front edge of the bottom, so its screws go
/// up through the bottom at 317, past its pocket hole, which ends 48 in: 98. A divider is
/// let into the bottom from 378 - 12 = 366 on, which parts both lines: 366 - 6 - 50 = 310
/// is the last for the nailer, (310 - 98) / 2 = 106, and for the back (313 - 53) / 2 = 130.
/// From the left of the case the screws of the back are at 62, 192, and 322 then, and those
/// of the nailer at 110, 216, and 322, where the two would meet: the latter all go 25 on.
#[test]
fn screws_stand_over_the_middle_of_what_is_behind_them() {
    let compiled = compile(&spec("signal-house-media-shelf.case"));
    let text = papers::one(&compiled, "layout", Format::Text).expect("the sheet");
    let lines: Vec<String> =
        text.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    for row in [
        "K back wall face LE 4.5 left end 74 bottom edge 126 3",
        "K back wall face RE 4.5 right end 74 bottom edge 126 3",
        "K back wall face B 9 bottom edge 53 left end 130 3",
        "B bottom underside BNL 9 back edge 123 left end 106 3",
    ] {
        assert!(lines.iter().any(|line| line.contains(row)), "{row}\n{text}");
    }
}

/// What looks up the joints of a case takes them to stand case by case, as parts do; a
/// base under several cases is that of the first of them.
#[test]
fn joints_stand_case_by_case() {
    for (name, compiled) in demo_pieces() {
        let parts = compiled.parts.as_ref().expect("parts");
        let cases: Vec<_> =
            parts.joints.iter().filter_map(|joint| Some(parts.get(joint.part)?.case)).collect();
        assert!(cases.is_sorted(), "{name}: {cases:?}");
    }
}

/// Behind a stile of 1-1/8 and beside an end of 23/32 a block is 13/32 = 10.3 mm thick,
/// less than the 12 mm of the screws: its holes go through. The back is off before the
/// blocks go in behind the stiles.
#[test]
fn a_thin_hinge_block_is_bored_through_and_comes_in_from_behind() {
    let text = spec("first.case").replacen("swing 105 deg", "swing 105 deg; plate { }", 1);
    let text = text.replace("{ wide 1-3/4 }", "{ wide 1-1/8 }");
    let bench = Bench::new().with("a.case", &text);
    let list = bench.run(&["build", "a.case", "--print", "cut-list"]);
    assert_eq!(list.code, Some(0), "{}", list.err);
    let has = |line: &&str| line.contains("[ ] ST-LH1 ") && line.contains("plate hole");
    let row = list.out.lines().find(has).unwrap_or_else(|| panic!("{}", list.out));
    assert!(row.contains("2 plate holes 5 mm through from the"), "{row}");
    let order = bench.run(&["build", "a.case", "--print", "assembly-order"]).out;
    let at = |words: &str| order.find(words).unwrap_or_else(|| panic!("{words}: {order}"));
    let off = at("so that you reach behind the stiles");
    assert!(off < at("them behind the stiles, flush with their openings"));
    assert!(!order.contains("so that you reach the packers from behind"), "{order}");
}

/// A sheet that is sold as 1/2 and is 15/32 takes the wall screws, as one of 1/2 does.
#[test]
fn a_half_inch_back_needs_no_nailer() {
    let nailers = |sheet: &str| {
        let stock = format!("stock board {{ {sheet}; sheet {{ long 96; wide 48 }} }}\nstock thin ");
        let text = spec("first.case").replacen("stock thin ", &stock, 1);
        let text = text.replacen("back { stock thin", "back { stock board", 1);
        let compiled = compile(&text);
        let parts = compiled.parts.unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
        parts.all.iter().filter(|part| matches!(part.role, Role::Nailer(_))).count()
    };
    assert_eq!(nailers("plywood 1/2; actual 15/32"), 0);
    assert_eq!(nailers("plywood 1/2"), 0);
    assert_eq!(nailers("plywood 3/8"), 1);
}

/// The screws of a plate go on through a thin block into the partition behind it: those
/// holes are bored when the block is on, through its own.
#[test]
fn a_plate_is_bored_on_through_its_thin_block() {
    let first = include_str!("../specs/first.case");
    let list = "across { share 1; door one { share 1; hung right }\n stile { wide 1-1/2; partition { stock ply; joint dado { deep 1/4 } } }\n door two { share 1; hung left } }";
    let text = first
        .replace("swing 105 deg", "swing 105 deg; plate { }")
        .replace("pull knob { screw 5/32 }", "pull knob { screw 5/32; stands 1/4 }")
        .replace("drawer upper { high 5 }\n      rail { wide 1-1/2 }\n", "")
        .replace("doors store { share 1; shelf { adjustable 1 } }", list);
    let compiled = compile(&text);
    let print = |paper: &str| papers::one(&compiled, paper, Format::Text).expect("a paper");
    let steps = print("assembly-order");
    // Nothing of the partition is bored while it lies flat.
    assert!(!steps.contains("bore for the hinge plates in PON-TW"), "{steps}");
    let fixed =
        steps.split(">> ").find(|own| own.contains("Fix the hinge blocks\n   ")).expect("a step");
    assert!(
        fixed.contains("bore on through the plate holes of the thin ones into PON-TW"),
        "{fixed}"
    );
    assert!(print("cut-list").contains("bored on through its hinge blocks when they are on"));
    let packet = papers::one(&compiled, "packet", Format::Json).expect("a packet");
    assert_eq!(crate::bench::complaints(&packet), Vec::<String>::new());
    // The shop sees it where they are bored first.
    let spoiled = packet
        .replace("\"behind\": [\"ON-RH1\", \"ON-RH2\"],", "")
        .replace("\"behind\":[\"ON-RH1\",\"ON-RH2\"],", "");
    assert_ne!(spoiled, packet);
    assert!(
        crate::bench::complaints(&spoiled)
            .iter()
            .any(|own| own.contains("is not bored on through it"))
    );
}

/// The case stands 4 from the floor up, so the first hole is 9-1/2 up its ends, and the
/// sixth five steps of 1-1/4 higher: 15-3/4. Shared out evenly, the shelf of 23/32 would lie
/// at 15-21/32, where no hole is.
#[test]
fn a_loose_shelf_is_drawn_on_a_hole() {
    let compiled = compile(&spec("first.case"));
    let drawings = papers::one(&compiled, "drawings", Format::Html).expect("the drawings");
    assert!(drawings.contains(">ST-SH 15-3/4 to 16-15/32<"));
    for (name, compiled) in demo_pieces() {
        let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
        let work = Workings::of(piece, parts);
        let drawn = pins::on_pins(work.pin_rows(), parts);
        for row in work.pin_rows() {
            for (shelf, _) in &row.shelves {
                let low = drawn.named(&shelf.path).unwrap().1.cuboid().from.y;
                assert!(row.heights().any(|hole| hole == low), "{name}: {}", shelf.path);
            }
        }
    }
}

/// The right end and the stile before it are mitered: it is 18 deep, and its front edge lies at
/// the face of the frame. The left end begins behind the frame of 3/4. In both the front row
/// lies in one plane, so it is at unlike distances from their front edges, but both end at the
/// back: a template lies there. The doors and the frame are 3/4, so the rows are 3/4 + 1-1/2 =
/// 2-1/4 behind the face, 18 − 2-1/4 = 15-3/4 before the back.
#[test]
fn pin_rows_count_from_the_edge_that_both_boards_have() {
    let plain = sheet(&compile(&spec("first.case")));
    assert!(plain.iter().any(|own| own.contains("and the rows from its front edge")), "{plain:#?}");
    let text = spec("first.case")
        .replace("ends { stock ply }", "end right { seam miter }")
        .replace("stile right { wide 1-3/4 }", "stile right { wide 1-3/4; seam miter }");
    let compiled = compile(&text);
    let lines = sheet(&compiled);
    assert!(lines.iter().any(|own| own.contains("and the rows from its back edge")), "{lines:#?}");
    let rows: Vec<&String> =
        lines.iter().filter(|own| own.contains("inside face") && own.contains("15-3/4")).collect();
    assert_eq!(rows.len(), 2, "{lines:#?}");
    let order = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    assert!(order.contains("always on the bottom end and on the back edge"), "{order}");
}

/// An opening 5 high, and a box of 5 − 7/8 = 4-1/8: left alone it stands 7/16 up, in the middle
/// of what is left. With `box-up 9/16` it stands there, and 5/16 is free over it.
#[test]
fn a_box_stands_as_high_as_its_slide_says() {
    let first = spec("first.case");
    let above = |text: &str| {
        let compiled = compile(text);
        let found: Vec<_> = compiled.diagnostics.iter().map(|own| own.slug).collect();
        assert_eq!(found, Vec::<&str>::new());
        let work = compiled.workings().expect("a piece");
        let above = work.fitting().drawers[0].box_above;
        let parts = work.parts.all.iter().filter(|part| part.role == Role::DrawerSide);
        let opening = work.fitting().drawers[0].opening;
        let feet: Vec<Length> = parts.map(|part| part.extent(Direction::Y).0 - opening.y).collect();
        (above, feet)
    };
    let middle = Length::inches(7, 16);
    assert_eq!(above(&first), (Some(middle), vec![middle; 2]));
    let sheet = first.replace("box-high opening - 7/8", "box-high opening - 7/8; box-up 9/16");
    let up = Length::inches(9, 16);
    assert_eq!(above(&sheet), (Some(up), vec![up; 2]));
}
