//! Small changes that save a sheet, a board, or a setting: each is made as it is told, and the
//! sheets, the boards, the settings, and the money are counted again.

use casewright::papers::{self, Format};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::support::{compile, demo_pieces, packet, spec};

/// A line of the list: what changes, what to write in which line, what is bought less, and by
/// how much less the list comes to.
#[derive(Debug, PartialEq)]
struct Told {
    change: String,
    write: String,
    line: usize,
    buy: String,
    less: Option<f64>,
}

fn told(compiled: &Compilation) -> Vec<Told> {
    rows(compiled, "What would save a sheet or a board")
}

/// The rows under a heading of the buying list.
fn rows(compiled: &Compilation, heading: &str) -> Vec<Told> {
    let paper = papers::one(compiled, "buying-list", Format::Text).expect("a list");
    let Some((_, own)) = paper.split_once(&format!("== {heading} ==")) else { return Vec::new() };
    let rows = own.lines().skip_while(|line| !line.starts_with("  change")).skip(1);
    let rows = rows.take_while(|line| line.starts_with("  "));
    let row = |row: &str| {
        let cells: Vec<&str> =
            row.split("  ").map(str::trim).filter(|own| !own.is_empty()).collect();
        let (write, line) = cells[1].split_once(" in line ").unwrap();
        Told {
            change: cells[0].to_owned(),
            write: write.trim_matches('`').to_owned(),
            line: line.parse().unwrap(),
            buy: cells[2].to_owned(),
            less: cells.get(3).map(|own| own.strip_suffix(" less").unwrap().parse().unwrap()),
        }
    };
    rows.map(row).collect()
}

/// How many sheets or boards of a stock its plans ask the yard for.
fn bought(packet: &Value, stock: &str) -> usize {
    let all = ["sheets", "boards"].into_iter().flat_map(|list| packet[list].as_array().unwrap());
    all.filter(|own| own["stock"] == stock && own["on_hand"] == false).count()
}

fn total(compiled: &Compilation) -> f64 {
    let paper = papers::one(compiled, "buying-list", Format::Csv).unwrap();
    let mut rows = csv::Reader::from_reader(paper.as_bytes());
    let at = rows.headers().unwrap().iter().position(|own| own == "comes to").unwrap();
    rows.records().filter_map(|row| row.unwrap()[at].parse::<f64>().ok()).sum()
}

/// The text with the change, as a maker makes it who reads the line.
fn changed(text: &str, told: &Told) -> String {
    let word = told.write.split(' ').next().unwrap();
    let changed: Vec<String> = text
        .lines()
        .enumerate()
        .map(|(at, line)| {
            if at + 1 != told.line {
                return line.to_owned();
            }
            let from = line.find(&format!("{word} ")).expect(line);
            let until = line[from..].find([';', '}', '#']).map_or(line.len(), |at| from + at);
            let kept = line[from..until].len() - line[from..until].trim_end().len();
            format!("{}{}{}", &line[..from], told.write, &line[until - kept..])
        })
        .collect();
    changed.join("\n")
}

/// Makes the change and counts.
fn holds(text: &str, told: &Told) {
    let before = compile(text);
    let after = compile(&changed(text, told));
    assert!(after.is_sound(), "{told:?}");
    let slugs = |own: &Compilation| {
        let mut all: Vec<_> =
            own.diagnostics.iter().map(|own| (own.slug, own.subject.clone())).collect();
        all.sort();
        all
    };
    let known = slugs(&before);
    assert!(slugs(&after).iter().all(|own| known.contains(own)), "{told:?}");
    let (one, other) = (packet(&before), packet(&after));
    for part in told.buy.split(" and ").flat_map(|own| own.split(", ")) {
        let words: Vec<&str> = part.split(' ').collect();
        let [count, _, "of", stock, "less"] = words[..] else { panic!("{part}") };
        let count: usize = count.parse().unwrap();
        assert_eq!(bought(&one, stock), bought(&other, stock) + count, "{told:?}");
    }
    if let Some(less) = told.less {
        assert!((total(&before) - total(&after) - less).abs() < 0.001, "{told:?}");
    }
}

/// The first cabinet with ends of a stock of their own, whose sheets are 70 by 20. With half
/// an inch trimmed off every edge they are 69 long, and two ends beside each other would be
/// wider than 19.
fn with_ends(high: &str, give: &str) -> String {
    let own = "stock end-ply { plywood 3/4; actual 23/32; price 82 per sheet; sheet { long 70; wide 20 } }\n";
    let text = spec("first.case").replace("stock thin ", &format!("{own}stock thin "));
    let text = text.replace("high 34-1/2", &format!("high {high}"));
    let text = text.replace("ends { stock ply }", "ends { stock end-ply }");
    text.replace("revision A", &format!("revision A; {give}"))
}

/// Worked by hand. Two ends of 34-1/2 and a blade of 1/8 are 69-1/8, an eighth more than a
/// sheet has; of 34-3/8 they are 68-7/8. Of 34-7/16 they are just 69.
#[test]
fn an_eighth_less_saves_a_sheet() {
    let text = with_ends("34-1/2", "");
    let all = told(&compile(&text));
    let line = 1 + text.lines().position(|line| line.contains("high 34-1/2")).unwrap();
    let [own] = &all[..] else { panic!("{all:?}") };
    assert_eq!(own.change, "cupboard 1/8 lower");
    assert_eq!((own.write.as_str(), own.line), ("high 34-3/8", line));
    assert_eq!((own.buy.as_str(), own.less), ("1 sheet of end-ply less", Some(82.0)));
    holds(&text, own);
    let text = with_ends("34-1/2", "give { high 1/16 }");
    let all = told(&compile(&text));
    assert_eq!(all[0].write, "high 34-7/16");
    holds(&text, &all[0]);
}

/// Nothing is told that the spec does not let give, that half an inch would not save, or that
/// is saved already.
#[test]
fn what_may_not_give_is_not_told() {
    for (high, give) in [
        ("34-1/2", "give { high 0 }"),
        ("34-1/2", "give { high 1/32 }"),
        ("35", ""),
        ("34-7/16", ""),
    ] {
        assert_eq!(told(&compile(&with_ends(high, give))), [], "{high}; {give}");
    }
    let text = with_ends("34-15/16", "");
    assert_eq!(told(&compile(&text))[0].write, "high 34-7/16");
}

/// Worked by hand, with `a_blade_takes_its_width` of the board plan: stiles of 31-1/2, rails
/// of 33-1/2, a blade, and the ends make 67-1/8, a sixteenth more than a board of the yard.
/// An eighth off the height takes it off the stiles, and an eighth off the width off the rails.
#[test]
fn an_eighth_less_saves_a_board() {
    let own = "stock oak { lumber 4/4; thickness 3/4; species red-oak; price 6 per board-foot; boards { wide 5-1/2 to 5-1/2; long 67-1/16 to 67-1/16 } }\n";
    let text = spec("first.case").replace("stock thin ", &format!("{own}stock thin "));
    let text = text.replace("stock maple; joint pocket", "stock oak; joint pocket");
    let all = told(&compile(&text));
    let changes: Vec<&str> = all.iter().map(|own| own.change.as_str()).collect();
    assert_eq!(changes, ["cupboard 1/8 narrower", "cupboard 1/8 lower"]);
    for own in &all {
        assert_eq!(own.buy, "1 board of oak less");
        holds(&text, own);
    }
}

/// Between two walls the room gives the width. Of two cases in line none gets lower by
/// itself. What has parts that are cut stays as it is.
#[test]
fn what_others_depend_on_does_not_give() {
    let own = "stock oak { lumber 4/4; thickness 3/4; species red-oak; boards { wide 5-1/2 to 5-1/2; long 67-1/16 to 67-1/16 } }\n";
    let text = spec("first.case").replace("stock thin ", &format!("{own}stock thin "));
    let text = text.replace("stock maple; joint pocket", "stock oak; joint pocket");
    let walled = text.replace("left open; right open", "left wall; right wall");
    assert_eq!(
        told(&compile(&walled)).iter().map(|own| own.change.as_str()).collect::<Vec<_>>(),
        ["cupboard 1/8 lower"]
    );
    let ends = with_ends("34-1/2", "");
    let (head, case) = ends.split_once("case cupboard").unwrap();
    let two = format!("{head}case cupboard{case}\ncase other{case}");
    let two = two.replace("{ long 70; wide 20 }", "{ long 139-1/4; wide 20 }");
    assert!(compile(&two).is_sound());
    assert!(told(&compile(&two)).iter().all(|own| !own.change.ends_with("lower")));
    let cut = format!(
        "{ends}\ncut 2026-03-14 {{ cupboard.left-end {{ mark LE; long 34-1/2; wide 17-1/4; thick 23/32; stock end-ply; joints 0 }} }}\n"
    );
    let compiled = compile(&cut);
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    assert_eq!(told(&compiled), []);
}

/// Whatever is told of a demo piece is true.
#[test]
fn what_is_told_of_demo_pieces_holds() {
    let mut all = 0;
    for (name, compiled) in demo_pieces() {
        let text = spec(&format!("{name}.case"));
        for own in told(&compiled) {
            all += 1;
            if !text.contains("\nuse ") {
                holds(&text, &own);
            }
        }
    }
    assert!(all > 1, "{all}");
}

/// A line of what would save a setting: what changes, what to write in which line, and what
/// is set less often.
fn settings(compiled: &Compilation) -> Vec<Told> {
    rows(compiled, "What would save a setting")
}

/// How often the fence is set by the cut list, and how many set-ups the jig sheet has.
fn set(compiled: &Compilation) -> [usize; 2] {
    let lines = |slug: &str, begins: &str| {
        let paper = papers::one(compiled, slug, Format::Text).expect("a paper");
        paper.lines().filter(|line| line.starts_with(begins)).count()
    };
    [lines("cut-list", ">> "), lines("jig-sheet", ">> ")]
}

/// Makes the change and counts the settings again.
fn saves_settings(text: &str, told: &Told) {
    let (before, after) = (compile(text), compile(&changed(text, told)));
    assert!(after.is_sound(), "{told:?}");
    let [was, is] = [set(&before), set(&after)];
    let mut fewer = [0, 0];
    for part in told.buy.split(" and ") {
        let count: usize = part.split(' ').next().unwrap().parse().unwrap();
        fewer[usize::from(!part.contains("fence"))] = count;
    }
    assert_eq!([was[0] - is[0], was[1] - is[1]], fewer, "{told:?}");
    assert!(total(&after) <= total(&before), "{told:?}");
}

/// Worked by hand. The stiles of the first cabinet are 1-3/4 wide, its rails 1-1/2: a top rail
/// of 1-9/16 is ripped by itself, and of 1-1/2 with the others.
#[test]
fn a_rail_a_sixteenth_narrower_saves_a_setting_of_the_fence() {
    let text = spec("first.case")
        .replace("rail top    { wide 1-1/2 }", "rail top    { wide 1-9/16 }")
        .replace("revision A", "revision A; give { members 1/16 }");
    let [own] = &settings(&compile(&text))[..] else { panic!("{:?}", settings(&compile(&text))) };
    assert_eq!(own.change, "the top rail of cupboard 1/16 narrower");
    assert_eq!(own.write, "wide 1-1/2");
    assert_eq!(own.buy, "1 fewer fence setting");
    saves_settings(&text, own);
    for (members, is_told) in [("0", false), ("1/32", false), ("1/8", true)] {
        let text = text.replace("members 1/16", &format!("members {members}"));
        assert_eq!(!settings(&compile(&text)).is_empty(), is_told, "{members}");
    }
}

/// Worked by hand. Two cabinets like the first one stand beside each other, with the bottom of
/// the second let in 5/16 where that of the first is let in 1/4. At one depth their four ends
/// are cut at one set-up, which saves the 15 min of another.
#[test]
fn a_dado_a_sixteenth_deeper_saves_a_set_up() {
    let first = spec("first.case");
    let (head, case) = first.split_once("case cupboard").unwrap();
    let bottom = case.lines().find(|line| line.trim_start().starts_with("bottom ")).unwrap();
    let deeper = case.replace(bottom, &bottom.replace("deep 1/4", "deep 5/16"));
    assert_ne!(case, deeper);
    let text = format!("{head}case cupboard{case}\ncase other{deeper}");
    for (give, is_told) in [("members 0", true), ("members 0; joints 1/32", false)] {
        let text = text.replace("revision A", &format!("revision A; give {{ {give} }}"));
        let all = settings(&compile(&text));
        assert_eq!(!all.is_empty(), is_told, "{all:?}");
        for own in &all {
            assert_eq!(own.change, "the bottom dado 1/16 deeper");
            assert_eq!(own.buy, "1 set-up fewer on the jig sheet, which saves 15 min");
            saves_settings(&text, own);
        }
    }
}

/// Two bookcases of the alcove, 2000 high without a base, each with one board under its upper
/// opening.
fn bookcases(upper: [&str; 2], more: &str) -> String {
    let own = |high: &str| {
        format!(
            "  down {{ open upper {{ high {high} }}; divider {{ }}; open lower {{ share 1 }} }}"
        )
    };
    let text = spec("alcove-shelves.case")
        .replace("  shelves { joint dado { deep 6 }; set-back 0 }\n", "");
    let text = text.replace("  back { stock thin; joint rabbet { deep 9 } }\n  top { panel; joint rabbet { deep 9 } }\n  frame none\n  across { open", "  back { stock thin; joint rabbet { deep 9 } }\n  top { panel; joint rabbet { deep 9 } }\n  partitions { joint dado { deep 6 } }\n  frame none\n  across { open");
    let text =
        text.replacen("  across { open books { share 1; shelf { fixed 4 } } }", &own(upper[0]), 1);
    let text =
        text.replacen("  across { open books { share 1; shelf { fixed 4 } } }", &own(upper[1]), 1);
    text.replace("revision A", &format!("revision A; give {{ members 0; {more} }}"))
}

/// Worked by hand. The tops are 18 thick and 2000 up: under openings of 400 and 403 the boards
/// are let in at 2000 - 18 - 400 - 18 = 1564 and at 1561 from the bottom ends, and the
/// straight-edge stands half a base plate of 160 from the middle of dadoes 18 wide, at 1493 and
/// 1490. At one height the four ends are cut at one set-up, which saves the 15 min of another,
/// and a minute since both were rounded up.
#[test]
fn a_board_three_millimetres_lower_saves_a_set_up() {
    let text = bookcases(["400", "403"], "");
    let sheet = papers::one(&compile(&text), "jig-sheet", Format::Text).unwrap();
    assert!(sheet.contains(">> 1493 ") && sheet.contains(">> 1490 "), "{sheet}");
    for (give, is_told) in [("openings 3", true), ("openings 2", false), ("openings 0", false)] {
        let text = bookcases(["400", "403"], give);
        let all = settings(&compile(&text));
        assert_eq!(!all.is_empty(), is_told, "{give}: {all:?}");
        for own in &all {
            assert_eq!(own.change, "the opening left-books.upper 3 taller");
            assert_eq!(own.write, "high 403");
            assert_eq!(own.buy, "1 set-up fewer on the jig sheet, which saves 16 min");
            saves_settings(&text, own);
        }
    }
    // At one height already, and too far apart.
    for upper in [["400", "400"], ["400", "413"]] {
        assert_eq!(settings(&compile(&bookcases(upper, ""))), [], "{upper:?}");
    }
    // By the saw the fence is set less often.
    let text = bookcases(["400", "403"], "").replace("kerf 3;", "kerf 3; dadoes saw; fence 2000;");
    let all = settings(&compile(&text));
    assert_eq!(all.len(), 1, "{all:?}");
    saves_settings(&text, &all[0]);
}

/// In both faces of a board 18 thick two dadoes 7 deep at one height would leave 4 between
/// them, which is warned of; 30 apart they leave enough.
#[test]
fn a_set_up_is_not_saved_where_that_is_warned_of() {
    let across = |right: &str| {
        let own = |name: &str, upper: &str| {
            format!(
                "down {name} {{ share 1; open upper {{ high {upper} }}; divider {{ }}; open lower {{ share 1 }} }}"
            )
        };
        let list =
            format!("across {{ {}; divider {{ }}\n{} }}", own("one", "400"), own("two", right));
        let text = bookcases(["700", "900"], "openings 30").replacen(
            "partitions { joint dado { deep 6 } }",
            "partitions { joint dado { deep 7 } }",
            1,
        );
        let from = text.find("down { open upper { high 700 }").unwrap();
        let until = from + text[from..].find('\n').unwrap();
        format!("{}{list}{}", &text[..from], &text[until..])
    };
    let near = compile(&across("430"));
    assert!(near.diagnostics.is_empty(), "{:?}", near.diagnostics);
    let all = settings(&near);
    assert!(all.iter().all(|own| !own.change.contains(" 30 ")), "{all:?}");
    assert!(compile(&across("400")).diagnostics.iter().any(|own| own.slug == "thin-wall"));
    // Nothing but that wall speaks against it.
    let shallow = across("430").replacen("deep 7", "deep 6", 1);
    let all = settings(&compile(&shallow));
    assert!(
        all.iter().any(|own| own.change == "the opening left-books.two.upper 30 shorter"),
        "{all:?}"
    );
    for own in &all {
        saves_settings(&shallow, own);
    }
}

/// Whatever is told of the demo pieces is true.
#[test]
fn what_saves_a_setting_of_demo_pieces_does() {
    let mut all = 0;
    for (name, compiled) in demo_pieces() {
        let text = spec(&format!("{name}.case"));
        for own in settings(&compiled) {
            all += 1;
            if !text.contains("\nuse ") {
                saves_settings(&text, &own);
            }
        }
    }
    assert!(all > 1, "{all}");
}
