//! What a maker strikes with a pencil, worked by hand: every sum stands beside its
//! check.

use crate::support::{Bench, spec};

/// A paper of a spec.
fn paper(text: &str, slug: &str) -> String {
    let done = Bench::new().with("a.case", text).run(&["build", "a.case", "--print", slug]);
    assert_eq!(done.code, Some(0), "{}", done.err);
    done.out
}

/// The lines of a paper below the setting that starts so, up to the next one.
fn under<'t>(text: &'t str, setting: &str) -> Vec<Vec<&'t str>> {
    let start = text.find(setting).unwrap_or_else(|| panic!("no {setting} in {text}"));
    let own = text[start..].lines().skip(1);
    own.take_while(|line| !line.starts_with(">>") && !line.starts_with("=="))
        .filter_map(|line| line.trim().strip_prefix("[ ]"))
        .map(|line| line.split_whitespace().collect())
        .collect()
}

/// From, to, and mark of each line of a stick.
fn stick(text: &str, setting: &str) -> Vec<[String; 3]> {
    let rows = under(text, setting).into_iter();
    rows.map(|row| [row[0], row[1], row[2]].map(str::to_owned)).collect()
}

fn row(part: [&str; 3]) -> [String; 3] {
    part.map(str::to_owned)
}

/// The frame of the console is 33 − 4 = 29 high. From the bottom: rail 1-1/2, lower
/// drawer 9, rail 1-1/2, middle drawer 9, rail 1-1/2, upper drawer 5, rail 1-1/2:
/// 1-1/2 + 9 = 10-1/2, + 1-1/2 = 12, + 9 = 21, + 1-1/2 = 22-1/2, + 5 = 27-1/2,
/// + 1-1/2 = 29. The stile beside them starts on the bottom rail, 1-1/2 higher.
#[test]
fn the_rails_of_the_console_stand_where_their_sums_say() {
    let sheet = paper(&spec("hall-console.case"), "layout");
    assert_eq!(
        stick(&sheet, ">> LS  left stile: from the bottom end"),
        [
            row(["0", "1-1/2", "BRL"]),
            row(["10-1/2", "12", "RMI-LO"]),
            row(["21", "22-1/2", "RUP-MI"]),
            row(["27-1/2", "29", "TRL"]),
        ]
    );
    assert_eq!(
        stick(&sheet, ">> SBA-PR  stile"),
        [row(["9", "10-1/2", "RMI-LO"]), row(["19-1/2", "21", "RUP-MI"])]
    );
    // Between the stiles 66 − 1-3/4 − 2-1/2 = 61-3/4: bank 17-1/4, stile 1-1/2,
    // doors 61-3/4 − 17-1/4 − 15 − 2 × 1-1/2 = 26-1/2: 18-3/4 + 26-1/2 = 45-1/4.
    assert_eq!(
        stick(&sheet, ">> TRL, BRL  top rail, bottom rail: from the left end"),
        [row(["17-1/4", "18-3/4", "SBA-PR"]), row(["45-1/4", "46-3/4", "SPR-NI"])]
    );
}

/// A partition of the console stands on the bottom with pocket screws, centered on
/// its stile: 1-3/4 + 17-1/4 + 3/4 = 19-3/4 from the left. The left end is 23/32
/// thick, and the bottom starts 1/4 inside it, at 15/32. The partition starts at
/// 19-3/4 − 23/64 − 15/32 = 18-59/64, on a tape of 1/32 at 18-15/16.
#[test]
fn a_partition_without_a_dado_has_its_place() {
    let sheet = paper(&spec("hall-console.case"), "layout");
    let bottom = stick(&sheet, ">> B  bottom: from the left end");
    assert_eq!(bottom, [row(["18-15/16~", "19-21/32~", "PBA-PR"])]);
    assert!(sheet.contains("18-15/16~ = 18.922"), "{sheet}");
    // The stretchers lie between the ends: 19-3/4 − 23/64 − 23/32 = 18-43/64.
    let above = stick(&sheet, ">> FST, KST  front stretcher, back stretcher: from the left end");
    assert_eq!(above, [row(["18-11/16~", "19-13/32~", "PBA-PR"])]);
    // The other one is let into a dado, which its set-up places.
    let struck = sheet.split("== Screw lines ==").next().unwrap();
    assert!(!struck.contains("PPR-NI"), "{sheet}");
}

/// The press with stub tenons in the grooves of its doors.
fn stubbed() -> String {
    let press = spec("tide-cottage-press.case");
    let stubbed = press.replace("float 2; tenon 30 }", "float 2 }");
    assert_ne!(press, stubbed);
    stubbed
}

/// A rail of a door of the press. The opening is 1100 − 2 × 45 = 1010 wide; each
/// leaf is (1010 − 2 × 2.5 − 3) / 2 = 501. Between stiles of 70 stay 361, and a
/// tenon 10 − 1.5 = 8.5 long at each end makes 378. Of a rail 75 wide the groove
/// takes 10, so the tenon is 65 wide; it is as thick as the panel, 8, in the
/// middle of 19: (19 − 8) / 2 = 5.5.
#[test]
fn a_door_rail_of_the_press_is_worked_out() {
    let list = paper(&stubbed(), "cut-list");
    let rail = list.lines().find(|line| line.contains("LIL-TR  linen")).unwrap();
    let words: Vec<&str> = rail.split_whitespace().collect();
    assert!(words.windows(2).any(|two| two == ["1", "378"]), "{rail}");
    let tenon = "tenon 8.5 long, 65 wide (75 less the groove), 8 thick, 5.5 from the front face at both ends";
    assert!(rail.contains(tenon), "{rail}");
    assert!(rail.ends_with("; 361 between its shoulders"), "{rail}");
    // Its groove is as deep as it is written.
    assert!(rail.contains("groove 8 wide, 10 deep"), "{rail}");
}

/// Tenons 25 long on rails of 1010 between the stiles: 1060. A mortise is 1.5
/// deeper, in the middle of 19: (19 − 7) / 2 = 6. The stile is 1820 long and the
/// top rail 60 wide: 1820 − 60 = 1760. Its tenon is set in by a third, 60 / 3 = 20, so
/// that the mortise is 40 long and closed at 1800. A rail between two openings keeps all
/// of its width, 40, and the one at the bottom, 45 wide, is set in by 15.
#[test]
fn a_frame_rail_and_its_mortise_are_worked_out() {
    let list = paper(&spec("tide-cottage-press.case"), "cut-list");
    let rail = list.lines().find(|line| line.contains("TRL  top rail")).unwrap();
    assert!(rail.contains("tenon 25 long, 40 wide, set in 20 from the top edge, 7 thick, 6 from the front face at both ends"), "{rail}");
    assert!(rail.ends_with("; 1010 between its shoulders"), "{rail}");
    let mortise = "mortise 40 long, 7 wide, 26.5 deep in the inner edge, 6 from the front face, 1760 from the bottom end, houses TRL";
    assert!(list.contains(mortise), "{list}");
    assert!(list.contains("tenon 25 long, 40 wide, 7 thick, 6 from the front face"), "{list}");
    let bottom = "tenon 25 long, 30 wide, set in 15 from the bottom edge, 7 thick";
    assert!(list.contains(bottom), "{list}");
    let bottom = "mortise 30 long, 7 wide, 26.5 deep in the inner edge, 6 from the front face, 15 from the bottom end, houses BRL";
    assert!(list.contains(bottom), "{list}");
    let sheet = paper(&spec("tide-cottage-press.case"), "layout");
    assert!(sheet.contains("the mortise for TRL runs from 1760 to 1800 only"), "{sheet}");
    assert!(sheet.contains("the mortise for BRL runs from 15 to 45 only"), "{sheet}");
}

/// How far a tenon is set in is the maker's to choose, and with 0 the mortise runs out
/// at the end of the stile. A wall of 4 there does not last: under 3/16 in, 4.76.
#[test]
fn a_maker_chooses_how_far_a_tenon_is_set_in() {
    let press = spec("tide-cottage-press.case");
    let set_in = |by: &str| {
        let other = press.replace("long 25; thick 7", &format!("long 25; thick 7; set-in {by}"));
        assert_ne!(press, other);
        other
    };
    let list = paper(&set_in("12"), "cut-list");
    assert!(list.contains("tenon 25 long, 48 wide, set in 12 from the top edge"), "{list}");
    assert!(list.contains("tenon 25 long, 33 wide, set in 12 from the bottom edge"), "{list}");
    let list = paper(&set_in("0"), "cut-list");
    assert!(list.contains("tenon 25 long, 60 wide, 7 thick"), "{list}");
    assert!(list.contains("mortise 60 long"), "{list}");
    let check = |text: &str| {
        let done = Bench::new().with("a.case", text).run(&["check", "a.case"]);
        format!("{}{}", done.out, done.err)
    };
    assert!(check(&set_in("4")).contains("warning[thin-wall]"));
    assert!(!check(&set_in("5")).contains("thin-wall"));
    // Half of the bottom rail is 22.5.
    assert!(!check(&set_in("22.5")).contains("tenon-too-narrow"));
    assert!(check(&set_in("23")).contains("warning[tenon-too-narrow]"));
    assert!(check(&set_in("45")).contains("error[tenon-too-narrow]"));
}

/// The same door as it is drawn, with tenons 30 long in mortises. A rail: 361 + 2 × 30 = 421. Set in by
/// a third of 75, which is 25, and 10 of it groove, a tenon is 75 − 25 − 10 = 40 wide.
/// Its haunch is as long as a stub was, 8.5, so 30 − 8.5 = 21.5 is sawn off over 25. The
/// mortises: 30 + 1.5 deep, from 25 to 25 + 40 = 65, and at the top of a stile of 1270
/// from 1270 − 65 = 1205 to 1270 − 25 = 1245. The panel stays as large as it was: 1136
/// of 1270 − 2 × 75 + 2 × 8 between the rails, 2 in each groove left free.
#[test]
fn a_door_rail_has_a_haunch_that_fills_the_groove() {
    let (door, press) = (spec("tide-cottage-press.case"), stubbed());
    let list = paper(&door, "cut-list");
    let rail = list.lines().find(|line| line.contains("LIL-TR  linen")).unwrap();
    let words: Vec<&str> = rail.split_whitespace().collect();
    assert!(words.windows(2).any(|two| two == ["1", "421"]), "{rail}");
    let tenon = "tenon 30 long, 40 wide (75 less the groove and the haunch), cut back 21.5 over 25 from the top edge to a haunch 8.5 long, 8 thick, 5.5 from the front face at both ends; 361 between its shoulders";
    assert!(rail.ends_with(tenon), "{rail}");
    let stile = list.lines().find(|line| line.contains("LIL-LS  linen")).unwrap();
    for place in
        ["1205 from the bottom end, houses LIL-TR", "25 from the bottom end, houses LIL-BR"]
    {
        let mortise = format!(
            "mortise 40 long, 8 wide, 31.5 deep in the inner edge, 5.5 from the front face, {place}"
        );
        assert!(stile.contains(&mortise), "{stile}");
    }
    let sheet = paper(&door, "layout");
    assert!(sheet.contains("the mortise for LIL-TR runs from 1205 to 1245 only"), "{sheet}");
    assert!(sheet.contains("the mortise for LIL-BR runs from 25 to 65 only"), "{sheet}");
    let order = paper(&door, "assembly-order");
    // Four rails with two tenons each.
    assert!(order.contains("saw the tenons of 4 parts back to their haunches"), "{order}");
    let panel = |list: &str| {
        let row = list.lines().find(|line| line.contains("LIL-PN  linen")).unwrap();
        row.split_whitespace().skip(5).take(3).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(panel(&list), panel(&paper(&press, "cut-list")));
}

/// A tenon that is no longer than its groove is deep, less the room, needs no mortise:
/// 8.5 in a groove of 10. With 0 a mortise runs out at the end of its stile, and there
/// is no haunch: 75 − 10 = 65.
#[test]
fn a_short_tenon_needs_no_mortise_and_an_open_one_no_haunch() {
    let press = stubbed();
    let door =
        |words: &str| press.replace("groove 10; float 2", &format!("groove 10; float 2; {words}"));
    let doors = |text: &str| -> Vec<String> {
        let list = paper(text, "cut-list");
        list.lines().filter(|line| line.contains("  linen ")).map(str::to_owned).collect()
    };
    let stubs = doors(&press);
    assert_eq!(stubs.len(), 10);
    assert_eq!(doors(&door("tenon 8.5")), stubs);
    let list = paper(&door("tenon 30; set-in 0"), "cut-list");
    assert!(list.contains("tenon 30 long, 65 wide (75 less the groove), 8 thick"), "{list}");
    assert!(list.contains("mortise 65 long, 8 wide, 31.5 deep"), "{list}");
}

/// Stiles of 70: a mortise 31.5 deep and 5 behind it want 36.5; one 65 + 1.5 deep wants
/// 71.5. Of a rail of 75 a tenon set in by 40 is 25 wide, set in by 65 it is nothing.
#[test]
fn a_door_keeps_wood_behind_its_mortises_and_in_its_tenons() {
    let press = stubbed();
    let check = |words: &str| {
        let text = press.replace("groove 10; float 2", &format!("groove 10; float 2; {words}"));
        let done = Bench::new().with("a.case", &text).run(&["check", "a.case"]);
        let told = format!("{}{}", done.out, done.err);
        told.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(check("tenon 30").contains("is sound"));
    let told = check("tenon 65");
    assert!(told.contains("error[member-too-narrow]"), "{told}");
    assert!(
        told.contains("70 wide, which is too narrow for the mortise and 5 behind it"),
        "{told}"
    );
    assert!(told.contains("`stile 71.5`"), "{told}");
    let told = check("tenon 30; set-in 40");
    assert!(told.contains("warning[tenon-too-narrow]"), "{told}");
    assert!(told.contains("75 rail − 40 set in − 10 groove = 25"), "{told}");
    assert!(check("tenon 30; set-in 65").contains("error[tenon-too-narrow]"));
    // Without mortises there is nothing that could be set in.
    assert!(check("set-in 20").contains("error"));
}

/// Leaves of 501: stiles of 250.4 leave 0.2 between the shoulders of a rail, which
/// no tape of 0.5 shows; stiles of 250 leave 1.
#[test]
fn a_rail_needs_wood_between_its_shoulders() {
    let press = spec("tide-cottage-press.case");
    let check = |stile: &str| {
        let text = press.replace("stile 70; rail 75", &format!("stile {stile}; rail 75"));
        let done = Bench::new().with("a.case", &text).run(&["check", "a.case"]);
        format!("{}{}", done.out, done.err)
    };
    assert!(check("250.4").contains("error[part-impossible]"));
    assert!(!check("250").contains("error[part-impossible]"));
}

/// The room for glue is the maker's to choose; half of a groove stays a tenon.
#[test]
fn a_maker_chooses_the_room() {
    let press = stubbed();
    let other = press
        .replace("long 25; thick 7", "long 25; thick 7; room 1")
        .replace("groove 10; float", "groove 10; room 0; float");
    assert_ne!(press, other);
    let list = paper(&other, "cut-list");
    assert!(list.contains("26 deep in the inner edge"), "{list}");
    assert!(list.contains("tenon 10 long, 65 wide"), "{list}");
    let list = paper(&press.replace("groove 10; float", "groove 10; room 9; float"), "cut-list");
    assert!(list.contains("tenon 5 long, 65 wide"), "{list}");
}

/// A stile that wraps a corner is mitered: with the long point in front it is
/// narrower by as much as the mortise's far cheek lies behind its face, 6 + 7 = 13.
/// 26.5 + 13 and 5 between them come to 44.5.
#[test]
fn a_miter_comes_nearer_to_a_mortise_than_the_edge() {
    let press = spec("tide-cottage-press.case");
    let stiles = |wide: &str| {
        press.replace("stile left  { wide 45;", &format!("stile left  {{ wide {wide};"))
    };
    let check = |text: &str| {
        let done = Bench::new().with("a.case", text).run(&["check", "a.case"]);
        let told = format!("{}{}", done.out, done.err);
        told.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(!check(&stiles("44.5")).contains("member-too-narrow"));
    let told = check(&stiles("44"));
    assert!(told.contains("member-too-narrow"), "{told}");
    assert!(
        told.contains(
            "44 wide, which is too narrow for the mortise and 5 between it and the miter"
        ),
        "{told}"
    );
}

/// A drawer side of the press, 156 high in stock of 15: (156 − 6) / 30 = 5 tails;
/// 156 − 6 × 6 = 120, so each is 24. At 1 in 8 a side comes in 15 / 8 = 1.875.
#[test]
fn tails_of_a_drawer_fill_its_height() {
    let sheet = paper(&spec("tide-cottage-press.case"), "layout");
    let rows = under(&sheet, ">> 5 tails  SH-LSD, SH-RSD, WO-LSD, WO-RSD: from the bottom edge");
    let starts = [6, 36, 66, 96, 126];
    assert_eq!(rows.len(), starts.len());
    for (row, start) in rows.iter().zip(starts) {
        assert_eq!(row[1..3], [start.to_string(), (start + 24).to_string()]);
    }
    // 7.875 and 28.125 on a tape of 0.5.
    assert_eq!(rows[0][3..], ["8~", "28~"]);
    assert!(sheet.contains("6 + 24 + 6 + 24 + 6 + 24 + 6 + 24 + 6 + 24 + 6 = 156"), "{sheet}");
    assert!(sheet.contains("the sides slope 1 in 8: each comes in 2~ (1.88)"), "{sheet}");
    // The groove lies from 13 to 18.5; tail 1 is from 7.9 to 28.1 at the baseline.
    assert!(sheet.contains("the groove for the bottom runs out through tail 1"), "{sheet}");
    let pine = spec("tide-cottage-press.case")
        .replace("lumber 20 mm; species yellow-birch", "lumber 20 mm; species eastern-white-pine");
    assert!(paper(&pine, "layout").contains("the sides slope 1 in 6"), "{pine}");
}

/// The frame of the first cabinet with dowels of 3/8. Two to a rail of 1-1/2, a
/// quarter of it in: 3/8 and 1-1/8. 3 × 3/8 = 1-1/8 into each half, the hole 1/16
/// deeper: 1-3/16, for dowels 2-1/4 long. The top rail starts 30-1/2 − 1-1/2 = 29
/// up the stile: 29-3/8 and 30-1/8.
#[test]
fn dowels_have_places_in_both_halves() {
    let doweled =
        spec("first.case").replace("stock maple; joint pocket", "stock maple; joint dowel");
    let list = paper(&doweled, "cut-list");
    let end = "2 dowel holes 3/8, 1-3/16 deep, for dowels 2-1/4 long, centers 3/8 and 1-1/8 from the bottom edge, 3/8 from the front face at both ends";
    assert!(list.contains(end), "{list}");
    let edge = "2 dowel holes 3/8, 1-3/16 deep in the inner edge, centers 29-3/8 and 30-1/8 from the bottom end, 3/8 from the front face, for TRL";
    assert!(list.contains(edge), "{list}");
}

/// The dadoes of the shelves stop 1/4 short of the front edges of the ends, as the
/// router-jig sheet has them; the rabbet of the top, which runs to the front, is at their
/// other end and lets none of them out.
#[test]
fn a_stopped_dado_is_told_on_the_cut_list_beside_a_rabbet_at_the_end() {
    let bench = Bench::new().with("shop.case", &spec("examples/shop.case"));
    let bench = bench.with("a.case", &spec("examples/open-shelves.case"));
    let list = bench.run(&["build", "a.case", "--print", "cut-list"]).out;
    let ends: Vec<&str> = list
        .lines()
        .filter(|line| line.contains("left end") || line.contains("right end"))
        .collect();
    assert!(!ends.is_empty(), "{list}");
    for end in ends.iter().filter(|line| line.contains("houses SH-SH1")) {
        assert!(end.matches("stopped 1/4 from the front edge").count() >= 3, "{end}");
    }
}
