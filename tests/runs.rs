//! Runs: figures worked by hand.

use casewright::measure::Length;
use casewright::model::Edge;
use casewright::papers::{self, Format};
use casewright::parts::Part;
use casewright::pipeline::Compilation;
use casewright::revision;
use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet, slugs, spec};

/// The laundry with its sink and its bank alone, each on its own ends.
fn laundry() -> String {
    let text = spec("gate-cottage-laundry.case");
    let from = text.find("    case linen").unwrap();
    let to = text[from..].find('\n').unwrap() + from + 1;
    let text = [&text[..from], &text[to..]].concat();
    text.replace("wide 2450", "wide 2050").replace("separate", "cut-into ends")
}

fn sound(text: &str) -> Compilation {
    let compiled = compile(text);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    compiled
}

fn part(compiled: &Compilation, path: &str) -> Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1.clone()
}

fn mm(figure: i64) -> Length {
    Length::mm(figure)
}

/// The widths of the cases, in their order.
fn widths(compiled: &Compilation) -> Vec<Length> {
    compiled.piece.as_ref().unwrap().cases.iter().map(|case| case.wide.length).collect()
}

/// True where one line of a paper says both.
fn says(paper: &str, both: [&str; 2]) -> bool {
    paper.lines().any(|line| both.iter().all(|words| line.contains(words)))
}

fn kinds(packet: &Value) -> Vec<&str> {
    let all = packet["operations"].as_array().unwrap().iter();
    all.filter_map(|own| own["kind"].as_str()).collect()
}

fn operation<'p>(packet: &'p Value, kind: &str) -> &'p Value {
    let mut all = packet["operations"].as_array().unwrap().iter();
    all.find(|own| own["kind"] == kind).unwrap_or_else(|| panic!("{kind}"))
}

/// Of 2050 stay 2050 - 800 - (600 + 2 x 5) - 580 = 60 for the filler. The sink stands 60
/// from the wall, and the bank 60 + 800 + 610 = 1470.
#[test]
fn what_a_run_leaves_goes_to_its_share() {
    let compiled = sound(&laundry());
    let piece = compiled.piece.as_ref().unwrap();
    assert_eq!(piece.runs[0].wide.length, mm(2050));
    assert_eq!(piece.runs[0].spaces[0].wide.length, mm(610));
    assert_eq!(piece.cases[0].fillers[0].wide.length, mm(60));
    assert_eq!([piece.cases[0].x, piece.cases[1].x], [mm(60), mm(1470)]);
    assert_eq!(piece.wide(), mm(2050));
}

/// 2050 - 610 = 1440 are left for the two cases: by thirds 960 and 480, as halves 720,
/// and without a width of the run as much as they say.
#[test]
fn cases_share_their_run() {
    let text = laundry().replace("    filler corner { share 1 }\n", "");
    let text = text.replace("left wall { scribe 12 }", "left open");
    let with = |sink: &str, bank: &str| {
        let text = text.replace("      wide 800\n", &format!("      {sink}\n"));
        sound(&text.replace("      wide 580\n", &format!("      {bank}\n")))
    };
    assert_eq!(widths(&with("share 2", "share 1")), [mm(960), mm(480)]);
    assert_eq!(widths(&with("share 1", "same sink")), [mm(720), mm(720)]);
    assert_eq!(widths(&with("wide 900", "share 1")), [mm(900), mm(540)]);
    assert_eq!(widths(&with("wide 2 * bank.wide", "share 1")), [mm(960), mm(480)]);
    let open = text.replace("  wide 2050; deep", "  deep");
    assert_eq!(sound(&open).piece.unwrap().runs[0].wide.length, mm(800 + 610 + 580));
}

/// A case that says nothing of its width is as wide as its openings and its two ends of
/// 18; where these leave it open, it takes what the run leaves.
#[test]
fn the_openings_of_a_case_give_its_width() {
    let bare = laundry().replace("      wide 800\n", "");
    let compiled = sound(&bare.replace("doors pots { share 1 }", "doors pots { wide 764 }"));
    assert_eq!(widths(&compiled), [mm(800), mm(580)]);
    let rest = bare.replace("corner { share 1 }", "corner");
    // The filler is as narrow as it may be: 38 and its scribe of 12.
    let compiled = sound(&rest);
    assert_eq!(compiled.piece.as_ref().unwrap().cases[0].fillers[0].wide.length, mm(50));
    assert_eq!(widths(&compiled), [mm(2050 - 50 - 610 - 580), mm(580)]);
}

/// What the run says holds for its cases, inside braces too: the bank has three
/// stretchers, each 100 wide as those of the sink. What a case says holds for it alone.
#[test]
fn what_is_written_higher_holds_lower() {
    let compiled = sound(&laundry());
    let stretchers = |case: &str| {
        let parts = compiled.parts.as_ref().unwrap();
        let of = |own: &&Part| own.path.starts_with(case) && own.path.ends_with("stretcher");
        let numbered = |own: &&Part| own.path.contains("middle-stretcher");
        let all =
            parts.all.iter().filter(|own| of(own) || own.path.starts_with(case) && numbered(own));
        all.map(|own| own.width.length).collect::<Vec<_>>()
    };
    assert_eq!(stretchers("laundry.sink."), [mm(100); 2]);
    assert_eq!(stretchers("laundry.bank."), [mm(100); 3]);
    let text = laundry().replace("top { stretchers 3 }", "top { panel }; deep 500");
    let compiled = sound(&text);
    // A whole top goes a third of 18 into both ends.
    assert_eq!(part(&compiled, "laundry.bank.top").length.length, mm(580 - 2 * 18 + 2 * 6));
    let deep = compiled.piece.as_ref().unwrap().cases.iter().map(|case| case.deep.length);
    assert_eq!(deep.collect::<Vec<_>>(), [mm(560), mm(500)]);
}

/// The bottom of the bank goes 6 into both ends of 18: 580 - 36 + 12.
#[test]
fn a_part_goes_by_the_name_of_its_run() {
    let compiled = sound(&laundry());
    assert_eq!(part(&compiled, "laundry.bank.bottom").length.length, mm(556));
    let parts = compiled.parts.as_ref().unwrap();
    assert!(matches!(
        casewright::parts::meant(parts, "bank.bottom"),
        casewright::parts::Meant::One(_)
    ));
}

/// The strip is as high as the case over its base, 880 - 100, stands flush with the
/// fronts, and reaches from the wall to the sink at 60. Its batten of 18 lies against the
/// end of the sink, behind the strip of 18.
#[test]
fn a_filler_has_a_batten_beside_its_case() {
    let compiled = sound(&laundry());
    let strip = part(&compiled, "laundry.corner");
    assert_eq!([strip.length.length, strip.width.length], [mm(780), mm(60)]);
    let from = strip.cuboid().from;
    assert_eq!([from.x, from.y, from.z], [mm(0), mm(100), mm(0)]);
    let batten = part(&compiled, "laundry.corner.batten");
    assert_eq!([batten.length.length, batten.width.length], [mm(780), mm(50)]);
    let from = batten.cuboid().from;
    assert_eq!([from.x, from.y, from.z], [mm(60 - 18), mm(100), mm(18)]);
}

/// Screws through the end of 18, at least 10 into the batten of 18 and 3 short of its far
/// face: from 28 to 33, of which 30 is sold.
#[test]
fn a_filler_is_screwed_on_from_inside_its_case() {
    let compiled = sound(&laundry());
    let sheet = papers::one(&compiled, "fitting", Format::Text).expect("a sheet");
    assert!(says(&sheet, ["wood screws, 30 long", "fillers, from inside their case"]), "{sheet}");
    let packet = packet(&compiled);
    let fit = operation(&packet, "fit filler");
    assert_eq!(fit["most"]["print"], "12");
}

/// Two ends of 18 and 3 short of the far face: 33 at most, of which 30 is sold, four at
/// each joint. Across a space nothing is screwed.
#[test]
fn cases_are_screwed_to_each_other() {
    let apart = packet(&sound(&laundry()));
    assert!(!kinds(&apart).contains(&"fix cases"));
    let text = laundry();
    let from = text.find("    space washer").unwrap();
    let to = text[from..].find('\n').unwrap() + from + 1;
    let beside = [&text[..from], &text[to..]].concat();
    let compiled = sound(&beside);
    let packet = packet(&compiled);
    let tie = operation(&packet, "fix cases");
    assert_eq!([&tie["screws"], &tie["most"]["print"]], [&Value::from(4), &Value::from("33")]);
    assert_eq!(tie["long"]["print"], "30");
    let sheet = papers::one(&compiled, "fitting", Format::Text).expect("a sheet");
    assert!(says(&sheet, ["4  wood screws, 30 long", "cases to each other"]), "{sheet}");
    // Four screws on two lines, 70 behind the front and 70 before the back of the end that they
    // go through, or farther in where pins or a slide are; through the end of the drawers, where
    // no door shows them, and bored while that lies on the bench.
    let all = packet["operations"].as_array().unwrap();
    let lines: Vec<&Value> = all
        .iter()
        .filter(|own| own["kind"] == "screw line" && own["step"] == tie["step"])
        .collect();
    let counts: Vec<u64> = lines.iter().map(|own| own["count"].as_u64().unwrap()).collect();
    assert_eq!(counts, [2, 2]);
    let edges: Vec<&Value> = lines.iter().map(|own| &own["from"][0]).collect();
    assert_eq!(edges, ["front edge", "back edge"]);
    let through = |own: &&Value| own["through"].as_str().unwrap().starts_with("BA");
    assert!(lines.iter().all(through), "{lines:#?}");
    assert!(lines.iter().all(|own| own["bored"].as_u64() < own["step"].as_u64()), "{lines:#?}");
}

/// Carried in and leveled with the space kept, fixed to the wall, the filler scribed,
/// doors and drawers back, and the appliance last.
#[test]
fn a_run_is_installed_in_its_order() {
    let packet = packet(&sound(&laundry()));
    let step = |kind: &str| operation(&packet, kind)["step"].as_u64().unwrap();
    let order = ["carry", "keep space", "fix to wall", "fit filler", "push in"].map(step);
    assert!(order.is_sorted(), "{order:?}");
    assert_eq!(operation(&packet, "keep space")["wide"]["print"], "610");
    assert_eq!(kinds(&packet).last(), Some(&"push in"));
}

/// Worked by hand. The filler is 60 wide and 12 may come off it, so the sink stands 48 to
/// 60 off its wall. An end is 18 thick: beside the filler the left door stays back by the
/// whole gap of 3 and lies 15 over it, at the other side by half and lies 16.5 over.
#[test]
fn a_filler_has_its_room_and_its_gap() {
    let compiled = compile(&laundry());
    let packet = packet(&compiled);
    let off = operation(&packet, "stand off wall");
    assert_eq!((&off["case"], &off["side"]), (&"sink".into(), &"left".into()));
    assert_eq!([&off["between"][0]["print"], &off["between"][1]["print"]], ["48", "60"]);
    let piece = compiled.piece.as_ref().unwrap();
    let pots = &piece.cases[0].openings.iter().find(|own| own.front.is_some()).unwrap().reach;
    assert_eq!(pots.of(Edge::Left).length, mm(15));
    assert_eq!(pots.of(Edge::Right).length, mm(33).half());
    let gaps = papers::one(&compiled, "gaps", Format::Text).expect("the gap sheet");
    let words = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = |row: &str| gaps.lines().any(|line| words(line).contains(row));
    assert!(told("PO-LD pots, left door hinge filler corner 3.00 3.00"), "{gaps}");
    assert!(told("PO-LD pots, left door 15 15 18"), "{gaps}");
    assert!(told("PO-RD pots, right door 16.5 15 18"), "{gaps}");
}

/// A filler of 50 keeps 38 when 12 have come off; one of 49.5 keeps too little. A space
/// of 610 takes 600 with 5 at each side; one of 609.5 doesn't. Cases of 880 take an
/// appliance of 875 with 5 clear, and none of 876.
#[test]
fn a_filler_and_a_space_lie_on_their_limits() {
    let with = |from: &str, to: &str| {
        let text = laundry().replacen(from, to, 1).replace("      wide 580\n", "      share 1\n");
        slugs(&compile(&text))
    };
    let filler = |wide: &str| with("corner { share 1 }", &format!("corner {{ wide {wide} }}"));
    assert_eq!(filler("50"), Vec::<&str>::new());
    assert_eq!(filler("49.5"), ["filler-narrow"]);
    let space = |own: &str| with("washer {", &format!("washer {{ wide {own};"));
    assert_eq!(space("610"), Vec::<&str>::new());
    assert_eq!(space("609.5"), ["space-too-small"]);
    let high = |own: &str| with("high 850 }", &format!("high {own} }}"));
    assert_eq!(high("875"), Vec::<&str>::new());
    assert_eq!(high("876"), ["space-too-small"]);
}

/// A difference tells of the spaces of a run, and of a case that joins one. The mark of a
/// part stays, since the end of its name does.
#[test]
fn a_difference_tells_of_runs() {
    let told = |old: &str, new: &str| {
        let (old, new) = (compile(old), compile(new));
        let named = |name, compiled| revision::Named { name, compiled };
        let difference = revision::compare(named("old.case", &old), named("new.case", &new));
        revision::text(&difference, 100)
    };
    let larger =
        laundry().replace("wide 600; high 850 }; clear 5", "wide 620; high 855 }; clear 5");
    let text = told(&laundry(), &larger);
    assert!(says(&text, ["washer", "630"]), "{text}");
    assert!(says(&text, ["washer", "855"]), "{text}");
    let moved =
        spec("examples/two-cases.case").replace("case lower {", "run row { across { case lower {");
    let moved = moved.replace("  finish oil\n}\n\ncase tall", "  finish oil\n}\ncase tall");
    let moved = format!("{moved}}}\n}}\n")
        .replace("  base { toe-kick; high 4; set-back 3; separate }\n", "");
    let old = spec("examples/two-cases.case");
    let old = old.replace("  base { toe-kick; high 4; set-back 3; separate }\n", "");
    let inside = |text: &str| {
        text.replace("use \"shop.case\"", &spec("examples/shop.case").replace("units in", ""))
    };
    let text = told(&inside(&old), &inside(&moved));
    assert!(says(&text, ["lower", "case of a run"]), "{text}");
    let mark = |compiled: &Compilation, path: &str| part(compiled, path).mark;
    let (before, after) = (sound(&inside(&old)), sound(&inside(&moved)));
    assert_eq!(mark(&before, "lower.bottom"), mark(&after, "row.lower.bottom"));
}

/// A drawer case of a run tips unless it is fixed to the wall. Where the file has no
/// `site`, one is put before the run, for it can't stand in its braces.
#[test]
fn a_site_is_added_before_the_run() {
    let fixed = "site { left wall { scribe 12 }; right open; fixing wall; humidity 30% to 60% }";
    let text = laundry().replace(fixed, "");
    assert_ne!(text, laundry());
    let compiled = compile(&text);
    let tips = compiled.diagnostics.iter().find(|own| own.slug == "tips").expect("it tips");
    let edit = &tips.fixes[0].edits[0];
    let (before, after) = text.split_at(usize::try_from(edit.span.start).unwrap());
    assert!(after.starts_with("run laundry"), "{after}");
    let mended = format!("{before}{}{after}", edit.text);
    assert!(!slugs(&compile(&mended)).contains(&"tips"));
    assert!(!slugs(&compile(&mended)).contains(&"word-unknown"));
}

/// Two cases of 500 and 300 beside each other, drawers in the first and a bare niche in the
/// second, whose ends reach as far forward as the drawer fronts: those keep the whole gap of 3
/// to them, and half of it, 1.5, at the free end, where another front would keep the other
/// half. So a front is 500 - 3 - 1.5 wide, and the gap sheet has the 3.
#[test]
fn a_front_keeps_its_gap_to_a_case_that_reaches_as_far_forward() {
    let head = "casework 1\njob \"t\" { units mm; tape 0.5 }\nsite { left open; right open; fixing wall }\nstock ply { plywood 18; actual 18; sheet { long 2440; wide 1220 } }\nstock thin { plywood 6; actual 6; sheet { long 2440; wide 1220 } }\nslide beside { side-mount; length 400; room 410; box-outside opening - 26; box-high opening - 20 }\npull knob { screw 4 }\n";
    let both = "stock ply; bottom { joint dado { deep 6 } }; back { stock thin; joint rabbet }; top { panel; joint dowel }; frame none";
    let drawers = "fronts { stock ply; set overlay; gap 3; pull knob }\n  drawers { stock ply; bottom-stock thin; slide beside; groove { up 12; deep 6 }; joint rabbet }";
    let first = "across { drawer a { share 1 } }";
    let second = "across { open b { share 1 } }";
    let run = format!(
        "{head}run row {{ deep 500; high 300; {both}\n  base {{ toe-kick; high 100; set-back 60; cut-into ends }}\n  {drawers}\n  across {{ case one {{ wide 500; {first} }}; case two {{ wide 300; {second} }} }}\n}}\n"
    );
    let alone = |name: &str, wide: u32, rest: &str| {
        format!(
            "case {name} {{ wide {wide}; deep 500; high 300; {both}\n  base {{ toe-kick; high 100; set-back 60; cut-into ends }}\n  {rest}\n}}\n"
        )
    };
    let apart = [
        head.to_owned(),
        alone("one", 500, &format!("{first}\n  {drawers}")),
        alone("two", 300, second),
    ]
    .concat();
    for (text, path) in [(run, "row.one.a.front"), (apart, "one.a.front")] {
        let compiled = sound(&text);
        assert_eq!(slugs(&compiled), Vec::<&str>::new());
        assert_eq!(part(&compiled, path).length.length, mm(991).half());
        let gaps = papers::one(&compiled, "gaps", Format::Text).unwrap();
        let words = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(gaps.lines().any(|line| words(line).contains("right left end 3.00")), "{gaps}");
        // Beside a case with a drawer of its own, each keeps half.
        let other = text.replace(second, "across { drawer b { share 1 } }").replace(
            "wide 300; deep 500; high 300;",
            &format!("{drawers}; wide 300; deep 500; high 300;"),
        );
        assert_eq!(part(&sound(&other), path).length.length, mm(497));
    }
}

/// A space without an appliance is as wide as it says, or takes what is left: 70 less twice 16.
/// It is kept while the cases are set, and nothing is pushed in.
#[test]
fn a_space_for_knees_stays_empty() {
    let text = r#"casework 1
job "Desk" { units in }
site { fixing wall }
shop { clamps 10; open-time 40 min }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
run desk {
  wide 70; deep 20; high 29; stock ply
  base { toe-kick; high 4; set-back 3; cut-into ends }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { stretchers 2 { wide 4 }; joint pocket }
  frame none
  across {
    case west { wide 16; down { open a { share 1 } } }
    space knees { share 1 }
    case east { wide 16; down { open b { share 1 } } }
  }
}
"#;
    let compiled = compile(text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let order = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    assert!(order.contains("keep a space of 38 for knees"), "{order}");
    assert!(!order.contains("Push in"), "{order}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
    let idle = text.replace("space knees { share 1 }", "space knees { share 1; clear 1 }");
    assert_eq!(slugs(&compile(&idle)), ["word-missing"]);
}

/// Bookcases on both sides of a chimney breast: it stands 15 out from the wall and they 14, so
/// no stick lies between them and no line hangs in the middle. Each is set and scribed by its
/// own wall. A breast that is 10 deep leaves room for both before it.
#[test]
fn what_stands_in_a_space_parts_the_run() {
    let text = |deep: i64| {
        format!(
            "casework 1
job \"Alcoves\" {{ units in }}
site {{
  left wall {{ scribe 3/4 }}
  right wall {{ scribe 3/4 }}
  fixing wall
  humidity 30% to 55%
  keep-out \"breast\" {{ from-left 30; up 0; wide 58; high 100; deep {deep} }}
}}
shop {{ humidity 40%; clamps 20; open-time 30 min }}
stock ply  {{ plywood 3/4; actual 3/4; species yellow-poplar; sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; actual 1/4; species yellow-poplar; sheet {{ long 96; wide 48 }} }}
stock wood {{ lumber 4/4; thickness 3/4; species yellow-poplar }}

run books {{
  wide 118; deep 14; high 84
  stock ply
  base {{ toe-kick; high 4; set-back 2; cut-into ends }}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ panel; joint dado {{ deep 1/4 }} }}
  across {{
    case near {{
      wide 30
      frame {{
        stock wood; joint pocket
        stile left {{ wide 3 }}; stile right {{ wide 2 }}
        rail top {{ wide 3 }}; rail bottom {{ wide 1-1/2 }}
        down {{ open shelves {{ share 1; shelf {{ adjustable 4; load 20 lb per ft2 }} }} }}
      }}
    }}
    space chimney {{ wide 58 }}
    case far {{ like near {{ mirrored }} }}
  }}
}}
"
        )
    };
    let order = |deep| {
        let compiled = compile(&text(deep));
        assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
        assert_eq!(bench::built(&compiled), Vec::<String>::new());
        papers::one(&compiled, "assembly-order", Format::Text).expect("the order")
    };
    let parted = order(15);
    assert!(parted.contains("the breast stands in the space for chimney"), "{parted}");
    assert!(parted.contains("block each case off the wall that it is scribed to"), "{parted}");
    assert!(!parted.contains("cut two sticks") && !parted.contains("plumb line"), "{parted}");
    let shallow = order(10);
    assert!(shallow.contains("cut two sticks") && shallow.contains("plumb line"), "{shallow}");
}
