//! What parts are called, and the marks that are pencilled on them.

use std::collections::{BTreeMap, BTreeSet};

use crate::support::{Bench, compile, slugs, spec};
use casewright::papers;
use casewright::pipeline::Compilation;
use proptest::prelude::*;

/// The first cabinet with another list of openings in its frame.
fn frame(list: &str) -> String {
    let text = spec("first.case");
    let (before, rest) = text.split_once("    down {").expect("the list");
    let (_, after) = rest.split_once("\n    }\n").expect("its end");
    let case = before.replace("wide 36; deep 18", "wide 96; deep 18");
    format!(
        "{}{list}\n{after}",
        case.replace("  frame {", "  partitions { joint dado }\n  frame {")
    )
}

fn paths(compiled: &Compilation) -> Vec<&str> {
    compiled.parts.as_ref().expect("parts").all.iter().map(|part| part.path.as_str()).collect()
}

/// The mark of every part, by its name.
fn marks(compiled: &Compilation) -> BTreeMap<String, String> {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.all.iter().map(|part| (part.path.clone(), part.mark.clone())).collect()
}

/// What every part is called on paper.
fn titles(compiled: &Compilation) -> BTreeMap<String, String> {
    let (piece, parts) =
        (compiled.piece.as_ref().expect("a piece"), compiled.parts.as_ref().expect("parts"));
    parts.all.iter().map(|part| (part.path.clone(), papers::part_name(part, piece))).collect()
}

fn bank(first: &str, second: &str) -> String {
    format!(
        "down {{ share 1; drawer {first} {{ share 1 }}; rail {{ wide 1-1/2 }}; drawer {second} {{ share 1 }} }}"
    )
}

/// Three banks of drawers side by side, none of which has a name: the stiles
/// and partitions between them are called by the drawers at their top.
#[test]
fn lists_without_names_share_no_name() {
    let stile = "stile { wide 1-1/2 }";
    let list = format!(
        "across {{ {}; {stile}; {}; {stile}; {} }}",
        bank("a", "b"),
        bank("c", "d"),
        bank("e", "f")
    );
    let c = compile(&frame(&list));
    assert!(!slugs(&c).contains(&"name-twice"), "{:?}", slugs(&c));
    let paths = paths(&c);
    for name in ["stile-a-c", "stile-c-e", "partition-a-c", "partition-c-e", "rail-a-b", "rail-e-f"]
    {
        assert!(paths.contains(&format!("cupboard.{name}").as_str()), "{name} in {paths:?}");
    }
    assert_eq!(titles(&c)["cupboard.stile-a-c"], "stile between a and c");
}

/// `a` beside `b-c` and `a-b` beside `c` would both be `a-b-c`.
#[test]
fn hyphens_make_no_two_names_alike() {
    let stile = "stile { wide 1-1/2 }";
    let open = |name: &str| format!("open {name} {{ share 1 }}");
    let list = format!(
        "across {{ {}; {stile}; {}; {stile}; {}; {stile}; {} }}",
        open("a"),
        open("b-c"),
        open("a-b"),
        open("c")
    );
    let c = compile(&frame(&list));
    assert!(!slugs(&c).contains(&"name-twice"), "{:?}", slugs(&c));
    let titles = titles(&c);
    assert_eq!(titles["cupboard.stile-a-and-b-c"], "stile between a and b-c");
    assert_eq!(titles["cupboard.stile-a-b-and-c"], "stile between a-b and c");
    // Between those two nothing is in doubt.
    assert_eq!(titles["cupboard.partition-b-c-a-b"], "partition between b-c and a-b");
}

/// Two stiles side by side have the same openings beside them.
#[test]
fn members_side_by_side_are_numbered() {
    let c = compile(&frame(
        "across { open a { share 1 }; stile { wide 1-1/2 }; stile { wide 1-1/2 }; open b { share 1 } }",
    ));
    let titles = titles(&c);
    assert_eq!(titles["cupboard.stile-a-and-b-1"], "stile 1 between a and b");
    assert_eq!(titles["cupboard.stile-a-and-b-2"], "stile 2 between a and b");
}

/// Two banks may have drawers of one name: on paper their bank stands before it.
#[test]
fn openings_of_one_name_are_told_with_their_list() {
    let down = |name: &str| bank("upper", "lower").replacen("down", &format!("down {name}"), 1);
    let list = format!("across {{ {}; stile {{ wide 1-1/2 }}; {} }}", down("left"), down("right"));
    let c = compile(&frame(&list));
    let titles = titles(&c);
    assert_eq!(titles["cupboard.left.upper.front"], "left upper, front");
    assert_eq!(
        titles["cupboard.right.rail-upper-lower"],
        "rail between right upper and right lower"
    );
    let all: BTreeSet<&String> = titles.values().collect();
    assert_eq!(all.len(), titles.len());
}

/// The marks of the first cabinet's parts that a shop has had on its papers.
#[test]
fn marks_are_short_and_say_what_a_part_is() {
    let marks = marks(&compile(&spec("first.case")));
    for (path, mark) in [
        ("left-end", "LE"),
        ("bottom", "B"),
        ("front-stretcher", "FST"),
        ("kick", "KICK"),
        ("top-rail", "TRL"),
        ("rail-upper-store", "RUP-ST"),
        ("store.left-door", "ST-LD"),
        ("upper.front", "UP-F"),
        ("upper.left-side", "UP-LSD"),
        ("upper.box-back", "UP-XK"),
    ] {
        assert_eq!(marks[&format!("cupboard.{path}")], mark);
    }
}

/// Recorded as it is, the front of `upper` keeps its mark when a new opening
/// would have the same; without a record both are written otherwise.
#[test]
fn a_part_on_record_keeps_its_mark_and_the_newcomer_yields() {
    let more = "drawer uproar { high 5 }\n      rail { wide 1-1/2 }\n      drawer upper";
    let grown = spec("first.case").replace("drawer upper", more);
    let free = marks(&compile(&grown));
    assert_ne!(free["cupboard.upper.front"], "UP-F");
    assert_ne!(free["cupboard.uproar.front"], "UP-F");

    let bench = Bench::new().with("a.case", &spec("first.case"));
    let done = bench.run(&["record", "a.case", "UP-F", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let text = std::fs::read_to_string(bench.path("a.case")).expect("the spec");
    assert!(text.contains("mark UP-F"), "{text}");
    let kept = marks(&compile(&text.replace("drawer upper", more)));
    assert_eq!(kept["cupboard.upper.front"], "UP-F");
    assert_ne!(kept["cupboard.uproar.front"], "UP-F");
}

/// A mark as a tired reader sees it: these letters and figures pass for each
/// other, and a hyphen for none.
fn seen(mark: &str) -> String {
    let pairs = [('0', 'O'), ('1', 'I'), ('2', 'Z'), ('5', 'S'), ('6', 'G'), ('8', 'B')];
    let letter = |c: char| pairs.iter().find(|(figure, _)| *figure == c).map_or(c, |(_, it)| *it);
    mark.chars().filter(|c| *c != '-').map(letter).collect()
}

/// Names from a few letters and figures, long and alike: none begins with `z`.
fn name() -> impl Strategy<Value = String> {
    let word = || prop_oneof!["[abo][a-b]{1,7}", "[aio][0-1]{1,3}", "left", "left-bank", "upper"];
    prop::collection::vec(word(), 1..4).prop_map(|words| words.join("-"))
}

fn row(names: &[String]) -> String {
    let openings: Vec<String> = names
        .iter()
        .map(|name| match name.len() % 3 {
            0 => format!("open {name} {{ share 1; shelf {{ adjustable 2 }} }}"),
            1 => format!("drawer {name} {{ share 1 }}"),
            _ => format!("doors {name} {{ share 1 }}"),
        })
        .collect();
    frame(&format!("across {{ {} }}", openings.join("; stile { wide 1-1/2 }; ")))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Marks are of six letters at the most, all different even to a tired
    /// reader, and begin with a letter. An opening that is added elsewhere, and
    /// whose name begins like no other, leaves them alone; so does a new name for
    /// it.
    #[test]
    fn marks_stay_apart_and_where_they_are(names in prop::collection::btree_set(name(), 1..7)) {
        let names: Vec<String> = names.into_iter().collect();
        let before = marks(&compile(&row(&names)));
        let seen: BTreeSet<String> = before.values().map(|mark| seen(mark)).collect();
        prop_assert_eq!(seen.len(), before.len());
        for mark in before.values() {
            prop_assert!(mark.len() <= 6, "{}", mark);
            prop_assert!(mark.starts_with(|c: char| c.is_ascii_uppercase()), "{}", mark);
            let plain = mark.replace('-', "");
            for pair in ["O0", "0O", "I1", "1I"] {
                prop_assert!(!plain.contains(pair), "{}", mark);
            }
        }
        for more in ["zebra", "zinc-tray"] {
            let added = [names.as_slice(), &[more.to_owned()]].concat();
            let after = marks(&compile(&row(&added)));
            for (path, mark) in &before {
                prop_assert_eq!(after.get(path), Some(mark), "{}", path);
            }
        }
    }
}

/// Two cases of a run have a `store` each, and one alone has a `desk`: papers that list both
/// tell the two apart, and leave alone what is told apart already.
#[test]
fn openings_of_one_name_in_two_cases_are_told_apart_on_paper() {
    let text = r#"casework 1
job "Two and two" { units in }
site { left open; right open; fixing wall }
shop { clamps 10; open-time 40 min }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
hinge cup { cup 35 mm; bore 12.5 mm; from-edge 4 mm; swing 105 deg; gap 1.5 mm; door-thickness 16 mm to 26 mm }
pull bar { centers 96 mm; screw 5 mm }
run row {
  wide 60; deep 20; high 34; stock ply
  base { toe-kick; high 4; set-back 3; cut-into ends }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { stretchers 2 { wide 4 }; joint pocket }
  frame none
  across {
    case west { share 1; down { door store { share 1; hung left } } }
    case east { share 1; down { open desk { high 8 }; divider; door store { share 1; hung right } } }
  }
  fronts { stock ply; set overlay; gap 1/8; hinge cup; pull bar }
}
"#;
    let compiled = compile(text);
    let paper = |name| papers::one(&compiled, name, papers::Format::Text).expect("the paper");
    let weights = paper("weights");
    for door in ["store in west, door", "store in east, door"] {
        assert!(weights.contains(door), "{weights}");
    }
    assert!(!paper("drawings").contains("desk in east"));
}
