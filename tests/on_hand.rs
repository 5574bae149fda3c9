//! What is in the shop already, and how long the rest takes to come: figures of the buying list
//! worked by hand.

use casewright::papers::{self, EXAMPLES, Format};
use casewright::pipeline::Compilation;
use casewright::revision::{self, Named};

use crate::buying::{csv, rows_of};
use crate::support::{compile, compile_example, spec};

/// The first spec, with lead times of 42, 14, and 10 days.
fn with_lead_times() -> String {
    let text = spec("first.case")
        .replace("stock ply     { ", "stock ply     { lead-time 2 weeks; ")
        .replace("slide runner {", "slide runner { lead-time 6 weeks;")
        .replace("hinge cup-hinge {", "hinge cup-hinge { lead-time 10 days;");
    format!("{text}\nsupply shelf-pins {{ lead-time 14 days }}\n")
}

fn paper(compiled: &Compilation) -> String {
    papers::one(compiled, "buying-list", Format::Text).expect("a list")
}

#[test]
fn what_takes_longest_is_ordered_first() {
    let compiled = compile(&with_lead_times());
    let told = paper(&compiled);
    let first = "Order first: slides runner (6 weeks), then ply and shelf pins for holes of 1/4 (2 weeks), then hinge cup-hinge (10 days).";
    let whole = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(whole.contains(first), "{told}");
    let rows = csv(&compiled, "buying-list");
    assert_eq!(rows[0].last().unwrap(), "comes in");
    let lead = |what: &str| {
        let row = rows.iter().find(|row| row[2].starts_with(what));
        row.unwrap_or_else(|| panic!("{what}")).last().unwrap().clone()
    };
    assert_eq!(lead("slides runner"), "6 weeks");
    assert_eq!(lead("hinge cup-hinge"), "10 days");
    assert_eq!(lead("pull knob"), "");
    // Who says nothing of it has no column.
    let plain = compile(&spec("first.case"));
    assert!(!paper(&plain).contains("Order first") && !paper(&plain).contains("comes in"));
    assert_eq!(csv(&plain, "buying-list")[0].len(), 5);
    // What is on hand is not waited for.
    let had = with_lead_times().replace("lead-time 6 weeks;", "lead-time 6 weeks; on-hand 5;");
    assert!(paper(&compile(&had)).contains("Order first: ply and"));
}

#[test]
fn a_difference_tells_of_lead_times() {
    let old = with_lead_times();
    let new =
        old.replace("lead-time 6 weeks", "lead-time 4 weeks").replace("lead-time 10 days;", "");
    let (old, new) = (compile(&old), compile(&new));
    let told = revision::text(
        &revision::compare(
            Named { name: "a.case", compiled: &old },
            Named { name: "b.case", compiled: &new },
        ),
        100,
    );
    let (_, own) = told.split_once("== To buy ==\n").expect("a section");
    let own: Vec<&str> = own.lines().take_while(|line| !line.is_empty()).map(str::trim).collect();
    assert_eq!(
        own,
        [
            "lead time of slides runner: 6 weeks → 4 weeks",
            "lead time of hinge cup-hinge: 10 days → no lead time",
        ]
    );
}

/// Days and weeks are counted whole, and nothing comes within hours.
#[test]
fn a_lead_time_is_so_many_days_or_weeks() {
    let found = |lead: &str| {
        let text = with_lead_times().replace("lead-time 6 weeks", lead);
        compile(&text).diagnostics
    };
    for sound in ["lead-time 1 day", "lead-time 1 week", "lead-time 26 weeks"] {
        assert!(found(sound).is_empty(), "{sound}: {:?}", found(sound));
    }
    for wrong in ["lead-time 3", "lead-time 3 h", "lead-time 1/2 week", "lead-time 3 moons"] {
        let own = found(wrong);
        assert_eq!(own.len(), 1, "{wrong}: {own:?}");
        assert_eq!(own[0].slug, "value-wrong", "{wrong}");
    }
    let offered: Vec<String> =
        found("lead-time 3")[0].fixes.iter().map(|own| own.title.clone()).collect();
    assert_eq!(offered, ["write `weeks` behind it", "write `days` behind it"]);
    // A figure 25 times too large is asked about.
    assert_eq!(found("lead-time 60 weeks").len(), 1);
}

/// Worked by hand for the console, whose oil is mixed of 330 ml and 110 ml: of 440 ml 100 and 50
/// are there, and 290 lack, which are one quart at 27. In cans, 330 less 100 are 230 ml, one can
/// of 250; and 110 of the second part are all there, or 109 are not enough.
#[test]
fn finish_on_hand_is_taken_off() {
    let with = |own: &str, mix: &str| {
        let text =
            spec("hall-console.case").replace("hardwax-oil;", &format!("hardwax-oil; {own}"));
        rows_of(&text.replace("mix 3 to 1", &format!("mix 3 to 1 {{ {mix} }}")), "finish")
    };
    let [mixed] = &with("price 27 per qt; on-hand 100 ml;", "on-hand 50 ml")[..] else { panic!() };
    assert_eq!([&mixed[0], &mixed[2]], ["9.8 fl oz (290 ml)", "27.00"]);
    assert_eq!(
        mixed[1],
        "oil: hardwax oil, 1 coat, mixed of 11.2 fl oz (330 ml) and 3.7 fl oz (110 ml): 14.9 fl oz (440 ml) needed, 100 ml of the first part and 50 ml of the second on hand"
    );
    // More of one part is no help for the other.
    let [mixed] = &with("on-hand 900 ml;", "on-hand 50 ml")[..] else { panic!() };
    assert_eq!(mixed[0], "2 fl oz (60 ml)");
    let cans = "can 750 ml { price 45 each }; can 250 ml { price 20 each }; on-hand 100 ml;";
    let [first] = &with(cans, "can 125 ml { price 9 each }; on-hand 110 ml")[..] else { panic!() };
    assert_eq!([&first[0], &first[2]], ["1 x 250 ml", "20.00"]);
    assert!(first[1].ends_with(": 11.2 fl oz (330 ml) needed, 100 ml on hand"), "{first:?}");
    assert_eq!(with(cans, "can 125 ml { price 9 each }; on-hand 109 ml").len(), 2);
    assert_eq!(with("on-hand 330 ml;", "on-hand 110 ml"), Vec::<[String; 3]>::new());
}

/// What is lacking is rounded up to bottles, and never costs more than all of it.
#[test]
fn glue_on_hand_is_taken_off() {
    let glue = |own: &str| {
        let bottles = "bottle 4 fl-oz { price 4.25 each }; bottle 8 fl-oz { price 6.50 each }";
        let text = format!("{}\nglue {{ {bottles}; {own} }}\n", spec("hall-console.case"));
        rows_of(&text, "glue")
    };
    let money =
        |rows: &[[String; 3]]| rows.first().map_or(0.0, |row| row[2].parse::<f64>().unwrap());
    let plain = &glue("")[0];
    let (_, taken) = plain[1].split_once(": ").unwrap().1.rsplit_once('(').unwrap();
    let taken: f64 = taken.split_once(" ml)").unwrap().0.parse().unwrap();
    let ounce = 29.573_529_562_5;
    let mut last = money(&glue(""));
    for ounces in 1..=(taken / ounce).ceil() as u32 {
        let rows = glue(&format!("on-hand {ounces} fl-oz"));
        // So many milliliters are there, whole ones; so many bottles are the least for the rest.
        let rest = taken - (f64::from(ounces) * ounce).floor();
        let pairs =
            (0..20).flat_map(|few| (0..20).map(move |many| (f64::from(few), f64::from(many))));
        let enough = pairs.filter(|(few, many)| (few * 4.0 + many * 8.0) * ounce >= rest);
        let least = enough.map(|(few, many)| few * 4.25 + many * 6.5).fold(f64::INFINITY, f64::min);
        assert!((money(&rows) - least).abs() < 1e-6, "{ounces}: {rows:?}");
        assert!(money(&rows) <= last, "{ounces}: {rows:?}");
        last = money(&rows);
        assert_eq!(rows.is_empty(), rest <= 0.0, "{ounces}: {rows:?}");
    }
}

/// Worked by hand. The seven strips of the example (see `tests/edging.rs`) are twice 35-1/2,
/// 24-5/16, 24-1/16, 24-1/24, and twice 5-1/2 long, 154-5/12 in all, and each takes a tenth more:
/// 169.86, up to 15 feet. A roll 40 long gives one of the longest, of 39.05, and 130.81 are left,
/// up to 11 feet. One 27-1/2 long gives the third, of 26.74: 143.11 are up to 12. The widest is
/// 25/32 wide, and a narrower roll gives none.
#[test]
fn banding_on_hand_is_taken_off() {
    let own = EXAMPLES.iter().find(|own| own.slug == "edges").unwrap();
    let bought = |on_hand: &str| {
        let text = own.text.replace("banding 1/32", &format!("banding 1/32; {on_hand}"));
        let compiled = compile_example(&text);
        let rows = csv(&compiled, "buying-list");
        let list = papers::one(&compiled, "cut-list", Format::Text).unwrap();
        let list = list.split_whitespace().collect::<Vec<_>>().join(" ");
        let row = rows.into_iter().find(|row| row[0] == "edging");
        (row.map(|row| row[1].clone()), list)
    };
    let feet = |on_hand: &str| bought(on_hand).0;
    assert_eq!(feet("").as_deref(), Some("15 ft"));
    assert_eq!(feet("roll { long 300; wide 3/4 }").as_deref(), Some("15 ft"));
    assert_eq!(feet("roll { long 40; wide 7/8 }").as_deref(), Some("11 ft"));
    let (few, list) = bought("roll { long 27-1/2; wide 7/8 }");
    assert_eq!(few.as_deref(), Some("12 ft"));
    let note = "Buy 12 feet of banding 25/32 wide or more: 7 strips end to end, and a tenth more for waste, less those that the rolls on hand give.";
    assert!(list.contains(note), "{list}");
    let (none, list) = bought("roll { long 180; wide 25/32 }");
    assert_eq!(none, None);
    assert!(list.contains("Buy no banding: what is on hand gives 7 strips"), "{list}");
    // Each sort of stock has its own word for it.
    let found = |from: &str, to: &str| compile_example(&own.text.replace(from, to)).diagnostics;
    for (from, to, mend) in [
        ("banding 1/32", "banding 1/32; on-hand { long 40; wide 2 }", "roll"),
        ("lumber 4/4;", "lumber 4/4; roll { long 60; wide 3 };", "on-hand"),
    ] {
        let [own] = &found(from, to)[..] else { panic!("{to}") };
        assert_eq!((own.slug, own.fixes.len()), ("not-supported-yet", 1), "{own:?}");
        assert_eq!((own.slug, own.fixes[0].edits[0].text.as_str()), ("not-supported-yet", mend));
    }
}

/// Where nobody says which boards the yard has, what comes from a board on hand is not bought.
#[test]
fn boards_on_hand_are_taken_off_where_the_yard_is_not_known() {
    let feet = |on_hand: &str| {
        let text = spec("first.case")
            .replace("thickness 3/4; species", &format!("{on_hand}thickness 3/4; species"));
        let rows = rows_of(&text, "boards");
        let row = rows.iter().find(|row| row[1].starts_with("maple:"));
        row.map_or(0, |row| row[0].split(' ').next().unwrap().parse::<u32>().unwrap())
    };
    let all = feet("");
    let mut last = all;
    for long in [10, 40, 80, 120] {
        let own = feet(&format!("on-hand {{ long {long}; wide 8 }}; "));
        assert!(own <= all, "{long}: {own} of {all}");
        last = last.min(own);
    }
    assert!(last < all, "{last} of {all}");
    assert_eq!(feet(&"on-hand { long 120; wide 10 }; ".repeat(4)), 0);
}

/// The left bookcase of the alcove with three niches to hang clothes in: 400, 500, and
/// 1500 - 4 x 18 - 900 = 528 wide. A rail is 3 shorter than its room: 397, 497, and 525.
fn with_rails(supplies: &str) -> Vec<[String; 3]> {
    let list = "across { open a { wide 400; rod { } }; divider { }; open b { wide 500; rod { } }; divider { }; open c { share 1; rod { } } }";
    let text = spec("alcove-shelves.case")
        .replace("6 mm; sheet { long 2500; wide 1250 }", "6 mm; sheet { long 2500; wide 1550 }")
        .replacen("wide 800; deep 300", "wide 1500; deep 600", 1)
        .replacen("across { open books { share 1; shelf { fixed 4 } } }", list, 1)
        .replacen(
            "shelves { joint dado { deep 6 }; set-back 0 }",
            "partitions { joint dado { deep 6 } }",
            1,
        );
    let compiled = compile(&format!("{text}\n{supplies}\n"));
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    let rows = rows_of(&format!("{text}\n{supplies}\n"), "hardware");
    rows.into_iter().filter(|row| row[1].contains("rail") || row[1].contains("tube")).collect()
}

/// Worked by hand, with a saw that takes 3. All three are cut from 525 + 3 + 497 + 3 + 397 =
/// 1425, and of 1424 two are bought. From 1000 the longest leaves 472, too little for the
/// second, but enough for the third. One of 400 on hand gives the third, and one of
/// 525 + 3 + 497 = 1025 the others.
#[test]
fn hanging_rails_on_hand_are_taken_off() {
    let tubes = |supplies: &str| -> Vec<[String; 3]> {
        let rows = with_rails(supplies);
        rows.into_iter().filter(|row| row[1].contains("tube") && !row[1].contains("cups")).collect()
    };
    let lengths: Vec<String> = tubes("").into_iter().map(|row| row[1].clone()).collect();
    let alone = |long: &str| format!("hanging rail of {long}: steel tube, 30 mm");
    assert_eq!(lengths, ["397", "497", "525"].map(alone));
    for (long, count) in [(1425, "1"), (1424, "2"), (1000, "2"), (600, "3")] {
        let rows = tubes(&format!("supply hanging-rails {{ long {long}; price 12 each }}"));
        let [row] = &rows[..] else { panic!("{rows:?}") };
        let told =
            format!("steel tube, 30 mm, {long} long, for hanging rails of 525, 497, and 397");
        assert_eq!([&row[0], &row[1]], [count, &told]);
        assert_eq!(row[2], format!("{}.00", 12 * count.parse::<u32>().unwrap()));
    }
    // The shorter one on hand is taken for what fits into it, and the others are bought.
    let rows = tubes(
        "supply hanging-rails { long 400; on-hand 1 }
         supply hanging-rails { long 1025; price 12 each }",
    );
    let [row] = &rows[..] else { panic!("{rows:?}") };
    assert_eq!(row[1], "steel tube, 30 mm, 1025 long, for hanging rails of 525 and 497");
    assert_eq!([&row[0], &row[2]], ["1", "12.00"]);
    // Nothing is bought of what is all there, of any length or of theirs.
    for own in ["on-hand 3", "long 525; on-hand 3", "diameter 30; on-hand 3"] {
        assert!(tubes(&format!("supply hanging-rails {{ {own} }}")).is_empty(), "{own}");
    }
    // Thicker ones are others, and shorter ones give none.
    for own in ["diameter 25; on-hand 3", "long 300; on-hand 3"] {
        assert_eq!(tubes(&format!("supply hanging-rails {{ {own} }}")).len(), 3, "{own}");
    }
    let rows = tubes("supply hanging-rails { on-hand 2; price 9 each }");
    let [row] = &rows[..] else { panic!("{rows:?}") };
    assert_eq!([&row[0], &row[2]], ["1", "9.00"]);
    assert!(row[1].ends_with(": 3 needed, 2 on hand"), "{row:?}");
}

/// Worked by hand: three rails have six cups. Of four to a pack two are bought, or one where two
/// are there.
#[test]
fn packs_are_counted_after_what_is_on_hand() {
    let cups = |own: &str| {
        let rows = with_rails(&format!("supply rail-cups {{ price 5 per pack; pack 4; {own} }}"));
        let row = rows.into_iter().find(|row| row[1].contains("cups"));
        row.map(|row| (row[0].clone(), row[2].clone()))
    };
    let told = |packs: &str, money: &str| Some((packs.to_owned(), money.to_owned()));
    assert_eq!(cups(""), told("2 packs", "10.00"));
    assert_eq!(cups("on-hand 1"), told("2 packs", "10.00"));
    assert_eq!(cups("on-hand 2"), told("1 pack", "5.00"));
    assert_eq!(cups("on-hand 5"), told("1 pack", "5.00"));
    assert_eq!(cups("on-hand 6"), None);
    // The first cabinet has four hinges, three pulls, and one pair of slides.
    let first = |from: &str, own: &str, what: &str| {
        let text = spec("first.case").replace(from, &format!("{from} {own};"));
        let row = rows_of(&text, "hardware").into_iter().find(|row| row[1].starts_with(what));
        row.map(|row| (row[0].clone(), row[2].clone()))
    };
    let hinges = |own: &str| first("hinge cup-hinge {", own, "hinge ");
    assert_eq!(hinges("pack 2; price 8 per pack"), told("2 packs", "16.00"));
    assert_eq!(hinges("pack 2; price 8 per pack; on-hand 1"), told("2 packs", "16.00"));
    assert_eq!(hinges("pack 2; price 8 per pack; on-hand 2"), told("1 pack", "8.00"));
    assert_eq!(hinges("pack 2; price 8 per pack; on-hand 4"), None);
    let pulls = |own: &str| first("pull knob {", own, "pull ");
    assert_eq!(pulls("pack 2; price 9 per pack; on-hand 1"), told("1 pack", "9.00"));
    assert_eq!(pulls("pack 2; price 9 per pack"), told("2 packs", "18.00"));
    let slides = |own: &str| first("slide runner {", own, "slides ");
    assert_eq!(slides("price 31 per pair"), told("1 pair", "31.00"));
    assert_eq!(slides("price 31 per pair; on-hand 1"), None);
}

/// Both leaves of the first cabinet have a catch, and one door of the laundry a stop, since a
/// wall is before it.
#[test]
fn catches_and_stops_on_hand_are_taken_off() {
    let row = |text: String, what: &str| {
        let row = rows_of(&text, "hardware").into_iter().find(|row| row[1].starts_with(what));
        row.map(|row| row.map(|cell| cell.replace(what, "")))
    };
    let told = |own: [&str; 3]| Some(own.map(str::to_owned));
    for (catch, what, supply, other) in [
        ("magnet", "magnetic catch", "magnetic-catches", "ball-catches"),
        ("ball", "ball catch", "ball-catches", "magnetic-catches"),
    ] {
        let catches = |sort: &str, own: &str| {
            let text = spec("first.case")
                .replace("hinge cup-hinge; pull", &format!("catch {catch}; hinge cup-hinge; pull"));
            row(format!("{text}\nsupply {sort} {{ {own} }}\n"), what)
        };
        assert_eq!(catches(other, "on-hand 9"), told(["2", "", ""]));
        assert_eq!(catches(supply, "price 2.50 each"), told(["2", "", "5.00"]));
        let one = catches(supply, "price 2.50 each; on-hand 1");
        assert_eq!(one, told(["1", ": 2 needed, 1 on hand", "2.50"]));
        let pack = catches(supply, "price 4 per pack; pack 2; on-hand 1");
        assert_eq!(pack, told(["1 pack", ", 2 to a pack: 2 needed, 1 on hand", "4.00"]));
        assert_eq!(catches(supply, "on-hand 2"), None);
    }
    let stops = |own: &str| {
        let what = "door stops, or limiters for the hinges: the left door of pots in sink";
        row(format!("{}\n{own}\n", spec("gate-cottage-laundry.case")), what)
    };
    assert_eq!(stops(""), told(["1", "", ""]));
    let pack = stops("supply door-stops { pack 4; price 6 per pack }");
    assert_eq!(pack, told(["1 pack", ", 4 to a pack: 1 needed", "6.00"]));
    assert_eq!(stops("supply door-stops { on-hand 1 }"), None);
}

/// What says nothing of a sort is refused.
#[test]
fn a_supply_says_nothing_in_vain() {
    for own in [
        "rail-cups { long 30 mm; on-hand 2 }",
        "door-stops { diameter 30 mm; on-hand 2 }",
        "ball-catches { long 30 mm; on-hand 2 }",
        "wood-screws { diameter 30 mm; on-hand 2 }",
    ] {
        let found = compile(&format!("{}\nsupply {own}\n", spec("first.case"))).diagnostics;
        let [only] = &found[..] else { panic!("{own}: {found:?}") };
        assert_eq!(only.slug, "not-supported-yet", "{own}");
    }
}
