//! `packet.json` keeps to its schema, and names what it speaks of.

use std::collections::{BTreeMap, BTreeSet};

use casewright::papers::{self, EXAMPLES, Format};
use serde_json::Value;

use crate::support::{compile, demo_pieces, spec};

/// The packet of every demo piece, of one whose drawer sides are too short to be planed by
/// themselves, of one whose doors swing free, of one whose edges are covered, of pieces that
/// stand apart, and of one whose pocket holes are plugged.
fn packets() -> Vec<(String, Value)> {
    let short = spec("hall-console.case").replace("length     15\n", "length     10\n");
    let short = ("short drawers".to_owned(), compile(&short));
    let free = spec("first.case").replace("gap 1.5 mm;", "closing free; gap 1.5 mm;");
    let free = ("free doors".to_owned(), compile(&free));
    let packet = |(name, compiled)| {
        let text = papers::one(&compiled, "packet", Format::Json).expect("a packet");
        (name, serde_json::from_str(&text).expect("JSON"))
    };
    let example = |slug: &str| {
        let own = EXAMPLES.iter().find(|own| own.slug == slug).expect("the example");
        (slug.to_owned(), own.compiled().expect("readable"))
    };
    let legs = ("legs".to_owned(), compile(crate::said::LEG_UNDER));
    let plugged = ("plugged pockets".to_owned(), compile(crate::posts::CONSOLE));
    let examples = ["edges", "web-frames", "nightstands"].map(example);
    let more = [short, free, legs, plugged].into_iter().chain(examples);
    demo_pieces().into_iter().chain(more).map(packet).collect()
}

#[test]
fn packets_keep_to_their_schema() {
    let schema: Value = serde_json::from_str(include_str!("../schema/packet.json")).unwrap();
    jsonschema::meta::validate(&schema).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let mut kinds: BTreeSet<String> = BTreeSet::new();
    for (name, value) in packets() {
        let errors: Vec<String> =
            validator.iter_errors(&value).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{name}: {errors:#?}");
        let operations = value["operations"].as_array().unwrap();
        kinds.extend(operations.iter().map(|own| own["kind"].as_str().unwrap().to_owned()));
    }
    // Every kind of operation has been seen.
    let named = |own: &Value| {
        let name = own["$ref"].as_str().unwrap().rsplit('/').next().unwrap();
        schema["$defs"][name]["properties"]["kind"]["const"].as_str().unwrap().to_owned()
    };
    let all = schema["$defs"]["operation"]["oneOf"].as_array().unwrap();
    assert_eq!(kinds, all.iter().map(named).collect());
}

/// Whoever reads an operation must find the face that it names, and no other
/// one by that name.
#[test]
fn six_faces_of_a_part_have_six_names() {
    for (name, value) in packets() {
        let mut faces: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        for part in value["parts"].as_array().unwrap() {
            let axes = part["faces"].as_object().unwrap().values();
            let names: Vec<&str> = axes
                .flat_map(|pair| pair.as_array().unwrap())
                .map(|face| face.as_str().unwrap())
                .collect();
            let all: BTreeSet<&str> = names.iter().copied().collect();
            assert_eq!(all.len(), 6, "{name}: {names:?}");
            faces.insert(part["mark"].as_str().unwrap(), all);
        }
        for operation in value["operations"].as_array().unwrap() {
            if operation["kind"] != "setting" {
                continue;
            }
            for piece in operation["pieces"].as_array().unwrap() {
                let mark = piece["part"].as_str().unwrap();
                let own = &faces[mark];
                for face in [&operation["datum"], &piece["face"]] {
                    assert!(own.contains(face.as_str().unwrap()), "{name}, {mark}: {face}");
                }
            }
        }
    }
}

/// Two layers of a sheet that is sold as 17/32 in and is 33/64 in make a packer of
/// 1-1/32 in.
#[test]
fn layers_of_a_sheet_are_as_thick_as_it_was_bought() {
    let two = "stock two { plywood 17/32; actual 33/64; sheet { long 96; wide 48 } }\nstock thin ";
    let text = spec("first.case")
        .replace("joint rabbet\n", "joint rabbet; packer-stock two\n")
        .replace("stock thin ", two);
    let packet = papers::one(&compile(&text), "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let broken_down: Vec<&Value> = packet["operations"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|own| own["kind"] == "break down" && own["part"] == "UP-LPK")
        .collect();
    assert_eq!(broken_down.len(), 1);
    assert_eq!(broken_down[0]["stock"], "two");
    assert_eq!(broken_down[0]["pieces"], 2);
    assert_eq!(broken_down[0]["size"][2]["exact"], "33/64");
}

/// The operations of a kind in the packet of a demo piece.
fn of_kind(text: &str, kind: &str) -> Vec<Value> {
    let packet = papers::one(&compile(text), "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let all = packet["operations"].as_array().unwrap().iter();
    all.filter(|own| own["kind"] == kind).cloned().collect()
}

/// Worked by hand: a nailer of 23/32 plywood, a back of 13/64 and 1-1/2 of stud are
/// 2-27/64, which is 2-7/16 at the next mark; with wallboard of 1/2 they are 2-59/64,
/// and the next screw that is sold is 3 long.
#[test]
fn screws_reach_through_nailer_and_back_into_the_stud() {
    let walls = of_kind(&spec("hall-console.case"), "fix to wall");
    assert_eq!(walls.len(), 1);
    let wall = &walls[0];
    assert_eq!(wall["through"].as_array().unwrap().len(), 1);
    assert_eq!(wall["nailer"]["exact"], "23/32");
    assert_eq!(wall["back"]["exact"], "13/64");
    assert_eq!(wall["least"], serde_json::json!({"exact": "155/64", "print": "2-7/16"}));
    assert_eq!(wall["screw"], serde_json::json!({"exact": "3", "print": "3"}));
}

/// Worked by hand from the press's spec: a row counts 32 from hole to hole, and
/// its lowest lies 200 above the lower edge of an opening that is 485 up.
#[test]
fn rows_of_pins_count_from_their_boards() {
    let rows = of_kind(&spec("tide-cottage-press.case"), "bore rows");
    assert_eq!(rows.len(), 2);
    for row in &rows {
        assert_eq!(row["from"], serde_json::json!(["bottom end", "front edge"]));
        assert_eq!(row["above"]["exact"], "485");
        assert_eq!(row["first"]["exact"], "685");
        assert_eq!(row["pitch"], serde_json::json!({"exact": "32", "print": "32 mm"}));
        assert_eq!(row["holes"], 28);
    }
}

/// Worked by hand from the press's spec: the hook is 7 from the inside of a side 15
/// thick, and 11 above a notch 13 high.
#[test]
fn hooks_are_bored_from_the_ends_of_the_back() {
    let text = spec("tide-cottage-press.case");
    let packet = packet_of(&text);
    let holes: Vec<Value> =
        of_kind(&text, "bore").into_iter().filter(|own| own["what"] == "hook hole").collect();
    assert_eq!(holes.len(), 2);
    for own in holes {
        assert_eq!(own["from"], serde_json::json!(["left end", "bottom edge"]));
        assert_eq!(own["face"], "outside face");
        let drawn = packet["drawn"]["parts"].as_array().unwrap().iter();
        let back = drawn.clone().find(|part| part["mark"] == own["part"]).unwrap();
        let number = |figure: &Value| figure["exact"].as_str().unwrap().parse::<i64>().unwrap();
        let centers = own["centers"].as_array().unwrap();
        let along: Vec<i64> = centers.iter().map(|center| number(&center[0])).collect();
        assert_eq!(along, [22, number(&back["size"][0]) - 22]);
        assert!(centers.iter().all(|center| number(&center[1]) == 24));
    }
}

/// Every screw, pin and clip of the fitting sheet goes in at some step: counted by
/// hand, the pocket screws of the console are three at each end of its two
/// stretchers, 7 + 3 + 3 at a partition, and two at each of 12 ends of its frame.
#[test]
fn every_pocket_screw_has_its_step() {
    let screws = of_kind(&spec("hall-console.case"), "fasten");
    let pockets = screws.iter().filter(|own| own["what"] == "pocket screws");
    let places = pockets.flat_map(|own| own["in"].as_array().unwrap());
    let counts: Vec<i64> = places
        .map(|place| {
            assert_eq!(place["into"].as_array().unwrap().len(), 1, "{place}");
            place["count"].as_i64().unwrap()
        })
        .collect();
    assert_eq!(counts.iter().sum::<i64>(), 4 * 3 + 7 + 3 + 3 + 12 * 2 + 2 * 3);
}

fn packet_of(text: &str) -> Value {
    let packet = papers::one(&compile(text), "packet", Format::Json).expect("a packet");
    serde_json::from_str(&packet).unwrap()
}

/// The lines of the spec that a list of places names.
fn lines<'t>(packet: &Value, text: &'t str, from: &Value) -> Vec<&'t str> {
    let line = |place: &Value| {
        let place = &packet["lines"][place.as_u64().unwrap() as usize];
        text.lines().nth(place["line"].as_u64().unwrap() as usize - 1).unwrap()
    };
    from.as_array().unwrap().iter().map(line).collect()
}

/// Whoever doubts a figure of the hardware finds it on the line that the packet
/// names; one that is not written has no line.
#[test]
fn hardware_figures_stand_on_their_lines() {
    let mut seen = 0;
    for name in ["hall-console.case", "tide-cottage-press.case", "alcove-shelves.case"] {
        let text = spec(name);
        let packet = packet_of(&text);
        let figures =
            packet["hardware"].as_array().unwrap().iter().flat_map(|own| own["figures"].as_array());
        for figure in figures.flatten() {
            let lines = lines(&packet, &text, &figure["from"]);
            // A load is printed in two units.
            let print = figure["print"].as_str().unwrap();
            let said = print.split([' ', '(']).filter(|word| !word.is_empty());
            for line in lines {
                seen += 1;
                let mut said = said.clone().map(|word| word.trim_end_matches(".0"));
                assert!(said.any(|word| line.contains(word)), "{name}: {print} in {line}");
            }
        }
    }
    assert!(seen >= 30, "{seen}");
}

/// A size comes from the lines of its facts: the console's bottom is 66 long less
/// its ends and what they let it in, and both stand there.
#[test]
fn sizes_name_the_lines_that_they_come_from() {
    let text = spec("hall-console.case");
    let packet = packet_of(&text);
    let bottom = packet["parts"].as_array().unwrap().iter().find(|part| part["mark"] == "B");
    let from = lines(&packet, &text, &bottom.unwrap()["from"][0]);
    for said in ["wide 66", "actual 23/32", "dado { deep 1/4 }"] {
        assert!(from.iter().any(|line| line.contains(said)), "{said}: {from:#?}");
    }
}

/// Wood Handbook, Table 5-3b: black cherry has a gravity of 0.50 at 12 % moisture,
/// and 0.50 x 1.12 x 1000 kg to the cubic meter are 560.
#[test]
fn each_stock_tells_the_density_that_it_is_weighed_with() {
    let text = spec("hall-console.case");
    let packet = packet_of(&text);
    let weights = &packet["weights"];
    let stocks = weights["stocks"].as_array().unwrap();
    let cherry = stocks.iter().find(|stock| stock["stock"] == "cherry").unwrap();
    assert_eq!(cherry["density"]["exact"], 560);
    assert_eq!(cherry["known"], true);
    let from = lines(&packet, &text, &cherry["from"]);
    assert!(from.iter().all(|line| line.contains("species black-cherry")), "{from:?}");
    // What is lifted is everything, once: by weight, and as it is printed.
    let lifted = weights["lifted"].as_array().unwrap();
    let grams = |all: &[Value]| all.iter().map(|own| own["exact"].as_i64().unwrap()).sum::<i64>();
    assert_eq!(grams(lifted), weights["whole"]["exact"].as_i64().unwrap());
    let parts = weights["parts"].as_array().unwrap().iter();
    assert_eq!(grams(lifted), parts.map(|own| own[1].as_i64().unwrap()).sum::<i64>());
    let tenths = |own: &Value| -> i64 {
        own["print"].as_str().unwrap().split(' ').next().unwrap().replace('.', "").parse().unwrap()
    };
    assert_eq!(lifted.iter().map(tenths).sum::<i64>(), tenths(&weights["whole"]));
}

/// The gap between the doors stands on the line of its reveal.
#[test]
fn gaps_name_the_line_of_their_reveal() {
    let text = spec("hall-console.case");
    let packet = packet_of(&text);
    let edges = packet["gaps"]["edges"].as_array().unwrap();
    let meeting = edges.iter().find(|edge| edge["edge"] == "meeting").unwrap();
    assert_eq!(meeting["fitted"]["exact"], "1/8");
    let from = lines(&packet, &text, &meeting["from"]);
    assert!(from.iter().any(|line| line.contains("1/8")), "{from:?}");
}

/// What is accepted is in the packet with its reason, and what stands without one.
#[test]
fn findings_tell_what_was_accepted_and_why() {
    let text = spec("broken/sag-books.case");
    let packet = packet_of(&text);
    let found = packet["findings"].as_array().unwrap();
    let sags = found.iter().find(|own| own["slug"] == "sag").unwrap();
    assert_eq!(sags.get("accepted"), None);
    let subject = sags["subjects"][0].as_str().unwrap();
    let accepted = format!("{text}\naccept sag on {subject} \"it holds a vase\"\n");
    let packet = packet_of(&accepted);
    let found = &packet["findings"];
    let own = |own: &&Value| own["slug"] == "sag" && own["subjects"][0] == subject;
    let sags: Vec<&Value> = found.as_array().unwrap().iter().filter(own).collect();
    assert_eq!(sags.len(), 1, "{found:#}");
    assert_eq!(sags[0]["accepted"]["reason"], "it holds a vase");
    let places = serde_json::json!([sags[0]["accepted"]["spec"]]);
    assert!(lines(&packet, &accepted, &places)[0].contains("it holds a vase"));
    assert_eq!(sags[0]["severity"], "warning");
}

/// A small cupboard with one door, in millimeters.
const CUPBOARD: &str = "\
casework 1
job \"Cupboard\" { revision A; units mm; tape 0.5 mm }
site { left open; right open; fixing wall }
shop { base-plate 150; clamps 8 }
stock birch { plywood 18 mm; sheet { long 2500; wide 1250 } }
stock thin { plywood 6 mm; sheet { long 2500; wide 1250 } }
stock oak { lumber 26 mm; thickness 19; species european-oak; sawn quarter }
hinge cup { cup 35; bore 12; from-edge 4; gap 1.5; swing 105 deg; door-thickness 16 to 22; from-end 80 }
pull knob { screw 4 }
bit straight-12 { straight 12 mm }
case cupboard {
  wide 400; deep 300; high 600
  stock birch
  bottom { joint dado { deep 6 } }
  back { stock thin; joint rabbet { deep 9 } }
  top { panel; joint rabbet { deep 9 } }
  frame none
  across { door store { share 1; hung left } }
  fronts { stock oak; set inset; gap 2.5; hinge cup; pull knob }
}
";

/// A value over as few lines as it can be read in.
fn laid_out(value: &Value, indent: usize, out: &mut String) {
    let flat = value.to_string();
    let margin = "  ".repeat(indent + 1);
    let room = 110usize.saturating_sub(2 * indent);
    let mut all = |open: char, close: char, items: Vec<(String, &Value)>| {
        out.push(open);
        for (number, (name, item)) in items.iter().enumerate() {
            out.push_str(if number > 0 { ",\n" } else { "\n" });
            out.push_str(&margin);
            out.push_str(name);
            laid_out(item, indent + 1, out);
        }
        out.push('\n');
        out.push_str(&"  ".repeat(indent));
        out.push(close);
    };
    match value {
        Value::Object(own) if flat.len() > room => {
            all('{', '}', own.iter().map(|(name, item)| (format!("{name:?}: "), item)).collect());
        }
        Value::Array(own) if flat.len() > room => {
            all('[', ']', own.iter().map(|item| (String::new(), item)).collect());
        }
        _ => out.push_str(&flat),
    }
}

/// The packet of a small piece, as it was reviewed: a change to the data shows here
/// line by line.
#[test]
fn the_packet_of_a_small_piece_is_as_reviewed() {
    let compiled = compile(CUPBOARD);
    let packet = papers::one(&compiled, "packet", Format::Json)
        .unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let mut text = String::new();
    laid_out(&packet, 0, &mut text);
    insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false, snapshot_path => "snapshots/packet" }, {
        insta::assert_snapshot!("cupboard", text);
    });
}
