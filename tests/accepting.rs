//! What is accepted at one place is still told at every other; and what stands
//! in the spec already is offered as no mending.

use crate::support::compile;
use casewright::diagnostics::Diagnostic;
use casewright::measure::FileId;
use casewright::vocabulary;

/// A door beside two drawers behind one frame, with what a test is about put
/// in. An inset front is 1/4 narrower than its opening.
fn spec(drawers: &str, fronts: &str, pull: &str, boxes: &str, rest: &str) -> String {
    format!(
        "casework 1
job \"pull\" {{ units in }}
site {{ left open; right open; fixing wall; humidity 38% to 46% }}
shop {{ humidity 42% }}
stock ply {{ plywood 3/4; actual 18 mm; species yellow-birch; sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; actual 5 mm; sheet {{ long 96; wide 48 }} }}
stock ash {{ lumber 4/4; species white-ash; thickness 3/4; sawn quarter }}
stock maple {{ lumber 4/4; species red-maple; thickness 5/8 }}
hinge h {{ cup 35 mm; bore 12.5 mm; from-edge 4 mm; swing 95 deg; gap 1.5 mm; door-thickness 16 mm to 26 mm }}
slide s {{ side-mount; length 16; room 16-1/4; box-outside opening - 1; box-high opening - 3/4; load 100 lb }}
pull knob {{ screw 5/32; foot 5/16; {pull}; stands 1 }}
bit nose {{ round-nose 3/8; shank 1/2; speed 18000 }}
case c {{
  deep 19; high 33; stock ply
  base {{ toe-kick; high 4; set-back 3; cut-into ends }}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ stretchers 2 {{ wide 4 }}; joint pocket }}
  partitions {{ joint dado {{ deep 1/4 }} }}
  frame {{
    stock ash; joint pocket
    stile left {{ wide 1-3/4 }}; stile right {{ wide 1-3/4 }}; rail top {{ wide 1-1/2 }}; rail bottom {{ wide 1-1/2 }}
    across {{
      door left-hand {{ wide 15; hung left; shelf {{ adjustable 1 }} }}
      stile {{ wide 1-1/2 }}
      down {{ wide {drawers}; drawer a {{ share 1 }}; rail {{ wide 1-1/2 }}; drawer b {{ share 1 }} }}
    }}
  }}
  fronts {{ stock ash; set inset; gap 1/8; hinge h; pull knob{fronts} }}
  drawers {{ stock maple; bottom-stock thin; slide s{boxes} }}
}}
{rest}"
    )
}

const FLUTES: &str = "; flutes { run vertical; bit nose; deep 1/8; pitch 5/8; land 3/16 }";

/// The places of all findings of a slug, those that are told with another too.
fn places(text: &str, slug: &str) -> Vec<String> {
    let compiled = compile(text);
    let own = compiled.diagnostics.iter().filter(|found| found.slug == slug);
    let mut all: Vec<String> =
        own.flat_map(|found| found.subject.iter().chain(&found.also)).cloned().collect();
    all.sort();
    all
}

fn accepts(slug: &str, places: &[&str]) -> String {
    let lines = places.iter().map(|place| format!("accept {slug} on {place} \"a reason\"\n"));
    lines.collect()
}

/// Worked by hand: a flute 1/8 deep by a 3/8 nose is 2·√(3/8·1/8 − 1/64) =
/// 0.354 wide, its lands 0.271. The drawers' fronts are 24-3/4 wide: with a
/// line at 12-3/8, the middle, where their knobs are. The door's front is
/// 14-3/4: its lines lie 5/8 · n from 7-3/8, the knob 1-5/16 from the edge lies
/// 6-1/16 from it, 9.7 pitches, and a hole and a foot stand over a flute.
#[test]
fn a_knob_in_a_flute_is_told_of_every_front() {
    let with = |places: &[&str]| {
        let rest = accepts("pull-in-flute", places);
        self::places(&spec("25", FLUTES, "from-edge 1-5/16", "", &rest), "pull-in-flute")
    };
    let all = ["c.a.front", "c.b.front", "c.left-hand.door"];
    assert_eq!(with(&[]), all);
    assert_eq!(with(&all[..1]), all[1..]);
    assert_eq!(with(&all[2..]), all[..2]);
    assert_eq!(with(&all), [""; 0]);
}

/// Two drawers alike, down to the groove: what the screw of one meets, that of
/// the other meets too.
#[test]
fn a_screw_in_a_groove_is_told_of_every_drawer() {
    let with = |rest: &str| {
        let boxes = "; groove { up 5-3/4; deep 1/4 }";
        // So high a groove is odd, and what follows from it would be told with it.
        let rest = format!("{rest}accept figure-odd on c.drawers.groove.up \"deep boxes\"\n");
        places(&spec("25", "", "from-edge 1-5/16", boxes, &rest), "pull-meets-box")
    };
    assert_eq!(with(""), ["c.a", "c.b"]);
    assert_eq!(with(&accepts("pull-meets-box", &["c.a"])), ["c.b"]);
    assert_eq!(with(&accepts("pull-meets-box", &["c.a", "c.b"])), [""; 0]);
}

/// What an editor offers is a blank to fill.
#[test]
fn nothing_is_accepted_without_a_reason() {
    let with = |reason: &str| {
        let rest = format!("accept pull-in-flute on c.a.front \"{reason}\"\n");
        places(&spec("25", FLUTES, "from-edge 1-5/16", "", &rest), "pull-in-flute")
    };
    let all = ["c.a.front", "c.b.front", "c.left-hand.door"];
    assert_eq!(with("your reason"), all);
    assert_eq!(with(" "), all);
    assert_eq!(with("seen by nobody"), all[1..]);
}

/// A short name that suits two places silences neither, and says which they are.
#[test]
fn a_name_of_several_places_accepts_none() {
    let text = spec("25", FLUTES, "from-edge 1-5/16", "", &accepts("pull-in-flute", &["front"]));
    assert_eq!(places(&text, "pull-in-flute").len(), 3);
    let compiled = compile(&text);
    let unused: Vec<&Diagnostic> =
        compiled.diagnostics.iter().filter(|found| found.slug == "accept-unused").collect();
    assert_eq!(unused.len(), 1);
    let said = format!("{} {:?}", unused[0].title, unused[0].notes);
    assert!(said.contains("c.a.front, c.b.front"), "{said}");
    // The name of one is enough.
    let text = spec("25", FLUTES, "from-edge 1-5/16", "", &accepts("pull-in-flute", &["a.front"]));
    assert_eq!(places(&text, "pull-in-flute"), ["c.b.front", "c.left-hand.door"]);
}

/// A name is written by whole words: `hand.door` is not the door of `left-hand`.
#[test]
fn a_part_of_a_word_accepts_nothing() {
    for part in ["hand.door", "ront", "c.a.fron", "x"] {
        let text = spec("25", FLUTES, "from-edge 1-5/16", "", &accepts("pull-in-flute", &[part]));
        assert_eq!(places(&text, "pull-in-flute").len(), 3, "{part}");
        assert_eq!(places(&text, "accept-unused"), [part]);
    }
    for whole in ["left-hand.door", "door", "c.left-hand.door"] {
        let text = spec("25", FLUTES, "from-edge 1-5/16", "", &accepts("pull-in-flute", &[whole]));
        assert_eq!(places(&text, "pull-in-flute"), ["c.a.front", "c.b.front"], "{whole}");
    }
}

/// A name takes all that lies below it, and nothing beside it; what it misses is listed.
#[test]
fn a_name_accepts_all_that_lies_below_it() {
    for (name, left) in [("c", vec![]), ("c.a", vec!["c.b.front", "c.left-hand.door"])] {
        let text = spec("25", FLUTES, "from-edge 1-5/16", "", &accepts("pull-in-flute", &[name]));
        assert_eq!(places(&text, "pull-in-flute"), left, "{name}");
        assert_eq!(places(&text, "accept-unused"), Vec::<String>::new(), "{name}");
    }
    let text = spec("25", FLUTES, "from-edge 1-5/16", "", &accepts("pull-in-flute", &["c.x"]));
    let found = compile(&text).diagnostics;
    let unused = found.iter().find(|found| found.slug == "accept-unused").expect("unused");
    let listed = "pull-in-flute is found on c.a.front, c.b.front, c.left-hand.door";
    assert!(unused.notes.iter().any(|note| note == listed), "{unused:?}");
}

/// The rule was called `mitre-unequal` once, and elsewhere the word is spelled
/// so: what was accepted under that name still is.
#[test]
fn a_finding_is_accepted_by_another_spelling_of_its_name() {
    let unequal = crate::support::spec("broken/miter-unequal.case");
    assert_eq!(places(&unequal, "miter-unequal"), ["console.left-end"]);
    let lines = |slug: &str| accepts(slug, &["console.left-end"]);
    for slug in ["miter-unequal", "mitre-unequal"] {
        let compiled = compile(&(unequal.clone() + &lines(slug)));
        assert!(compiled.diagnostics.is_empty(), "{slug}: {:?}", compiled.diagnostics);
    }
    let other = unequal.clone() + &lines("mitre-unequal");
    let written = vocabulary::format(FileId::default(), &other).unwrap();
    let one = unequal + &lines("miter-unequal");
    assert_eq!(written, vocabulary::format(FileId::default(), &one).unwrap());
    assert!(written.contains("accept miter-unequal on console.left-end"), "{written}");
}

/// Out of a sheet 17 wide, 16 trimmed, no board 19 deep can be cut, nor a back:
/// one message for each sheet, with all the boards.
#[test]
fn an_error_is_told_once_and_names_the_others() {
    let text = spec("25", "", "from-edge 1-5/16", "", "").replace("wide 48", "wide 17");
    let compiled = compile(&text);
    let large: Vec<&Diagnostic> =
        compiled.diagnostics.iter().filter(|found| found.slug == "part-too-large").collect();
    assert_eq!(large.len(), 2, "one for each sheet");
    // Both ends and the bottom are 19 deep.
    let mut ply: Vec<&str> = large[0].also.iter().map(String::as_str).collect();
    ply.extend(large[0].subject.as_deref());
    for part in ["c.left-end", "c.right-end", "c.bottom"] {
        assert!(ply.contains(&part), "{part}: {ply:?}");
    }
}

/// Of a leaf 14-25/32 wide (an opening of 15-1/32) the middle of a land lies
/// less than half a mark beside a knob 1-15/32 from the edge: to move it there
/// on a tape of 1/32 is to leave it where it is.
#[test]
fn the_value_that_stands_there_is_never_offered() {
    for from_edge in ["1-5/16", "1-11/32", "1-3/8", "1-13/32", "1-7/16", "1-15/32", "1-1/2"] {
        for wide in ["15", "15-1/64", "15-1/32", "15-3/64", "15-1/16"] {
            let pull = format!("from-edge {from_edge}");
            let text =
                spec("25", FLUTES, &pull, "", "").replace("wide 15;", &format!("wide {wide};"));
            let compiled = compile(&text);
            for fix in compiled.diagnostics.iter().flat_map(|found| &found.fixes) {
                assert!(fix.edits.iter().all(|edit| edit.text != pull), "{wide}: {pull}");
            }
            for found in compiled.diagnostics.iter().filter(|d| d.slug == "pull-in-flute") {
                assert!(!found.title.contains(" 0~"), "{}", found.title);
                let notes = found.notes.join(" ");
                assert!(!notes.contains("centers"), "a knob has one hole: {notes}");
            }
        }
    }
}

/// Beside an error some rules stay silent; that makes no `accept` useless.
#[test]
fn what_is_accepted_is_not_doubted_beside_an_error() {
    let text = crate::support::spec("weir-house-pantry.case");
    let broken = text.replace("155 deg", "80 deg");
    assert_ne!(text, broken);
    let slugs = |text: &str| -> Vec<String> {
        compile(text).diagnostics.iter().map(|found| found.slug.to_string()).collect()
    };
    assert!(slugs(&text).is_empty());
    assert_eq!(slugs(&broken), ["leaf-in-the-way"]);
    let stale = text.replace("accept small-parts on maple", "accept small-parts on side");
    assert_eq!(slugs(&stale), ["small-parts", "accept-unused"]);
}
