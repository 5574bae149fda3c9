//! The buying list added up by hand from what the other papers say.

use casewright::papers::{self, Format};
use casewright::revision::{self, Named};

use serde_json::Value;

use crate::support::{compile, demo_pieces, packet, spec};

pub(crate) fn csv(compiled: &casewright::pipeline::Compilation, slug: &str) -> Vec<Vec<String>> {
    let text = papers::one(compiled, slug, Format::Csv).expect("a list");
    let mut rows = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    rows.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
}

/// `26-13/16` in inches.
fn inches(text: &str) -> f64 {
    let text = text.trim_end_matches('~');
    let (whole, part) = text.split_once('-').unwrap_or(("0", text));
    let part = match part.split_once('/') {
        Some((above, below)) => above.parse::<f64>().unwrap() / below.parse::<f64>().unwrap(),
        None => part.parse().unwrap(),
    };
    whole.parse::<f64>().unwrap() + part
}

/// The surface measure of a board: its width in inches by its whole feet, over twelve, to the
/// nearest whole foot (National Hardwood Lumber Association).
fn surface(long: f64, wide: f64) -> f64 {
    (wide * (long / 12.0).floor() / 12.0).round()
}

/// Worked by hand from the spec's prices: birch plywood 2 x 82, thin plywood 44, cherry at
/// 11.40 and maple at 7.20 a board foot, slides 3 x 31, hinges 4 x 5.80. 4/4 boards are an
/// inch thick, so that their surface is what they are charged at.
#[test]
fn the_console_is_priced_by_hand() {
    let compiled = compile(&spec("hall-console.case"));
    let packet = packet(&compiled);
    let feet = |name: &str| {
        let all = packet["boards"].as_array().unwrap().iter();
        let own = all.filter(|own| own["stock"] == name);
        let side = |own: &Value, at: usize| inches(own["size"][at]["print"].as_str().unwrap());
        own.map(|own| surface(side(own, 0), side(own, 1))).sum::<f64>()
    };
    let (cherry, maple) = (feet("cherry"), feet("maple"));
    assert_eq!((cherry, maple), (15.0, 15.0));
    let total = 2.0 * 82.0 + 44.0 + cherry * 11.4 + maple * 7.2 + 3.0 * 31.0 + 4.0 * 5.8;
    let paper = papers::one(&compiled, "buying-list", Format::Text).unwrap();
    let told = format!(
        "together USD {total:.2}; not counting what has no price, or no price for the way it is bought: pull ring, veneer to match cherry-ply, oil, wood glue"
    );
    assert!(paper.contains(&told), "{told}\n{paper}");
}

/// Worked by hand: where the yard's boards are not known, what the rough pieces come to and
/// 30 % more is bought; a board foot is 144 cubic inches.
#[test]
fn boards_of_unknown_sizes_are_bought_by_a_rule_of_thumb() {
    let compiled = compile(&spec("first.case"));
    let packet = packet(&compiled);
    let all = packet["operations"].as_array().unwrap().iter();
    let own = all.filter(|own| own["kind"] == "break down" || own["kind"] == "stick");
    let own = own.filter(|own| own["stock"] == "maple");
    let side = |own: &Value, at: usize| inches(own["size"][at]["print"].as_str().unwrap());
    let feet =
        own.map(|own| side(own, 0) * side(own, 1) / 144.0 * own["pieces"].as_f64().unwrap_or(1.0));
    let bought = (feet.sum::<f64>() * 1.3).ceil();
    let rows = csv(&compiled, "buying-list");
    let row = rows.iter().find(|row| row[2].starts_with("maple:")).unwrap();
    assert_eq!(row[1], format!("{bought} board feet"), "{row:?}");
}

/// Worked by hand. Of four hinges one is on hand, so a pack of ten is bought, which at 6.00 a
/// pair are five pairs. Three pulls are two packs of two. Slides are bought two pairs at a time.
/// Of each sort of screws what is on hand is taken off, and the rest rounded up to packs; of
/// wood screws nobody knows which of two lengths are on hand.
#[test]
fn packs_are_bought_whole() {
    let plain = spec("first.case");
    let text = plain
        .replace("hinge cup-hinge {", "hinge cup-hinge { price 6 per pair; pack 10; on-hand 1;")
        .replace("pull knob { screw 5/32 }", "pull knob { screw 5/32; price 9 per pack; pack 2 }")
        .replace("slide runner {", "slide runner { price 31 per pair; pack 2;");
    let text = format!(
        "{text}
        supply pocket-screws {{ long 1-1/4; pack 10; price 8.50 per pack; on-hand 3 }}
        supply fine-pocket-screws {{ long 3; pack 10; price 99 per pack }}
        supply wood-screws {{ on-hand 3; price 0.10 each }}
        supply shelf-pins {{ price 0.25 each; on-hand 2 }}
        supply clips {{ on-hand 100 }}
        "
    );
    let [before, after] = [plain, text].map(|text| csv(&compile(&text), "buying-list"));
    let row = |rows: &[Vec<String>], what: &str| {
        let own = rows.iter().find(|row| row[2].starts_with(what));
        own.unwrap_or_else(|| panic!("{what}: {rows:?}")).clone()
    };
    let told = |what: &str| {
        let own = row(&after, what);
        (own[1].clone(), own[4].clone())
    };
    assert_eq!(row(&before, "hinge ")[1], "4");
    assert_eq!(told("hinge "), ("1 pack".to_owned(), "30.00".to_owned()));
    assert_eq!(row(&before, "pull ")[1], "3");
    assert_eq!(told("pull "), ("2 packs".to_owned(), "18.00".to_owned()));
    assert_eq!(told("slides "), ("1 pack".to_owned(), "62.00".to_owned()));
    let taken = |what: &str| row(&before, what)[1].parse::<u32>().unwrap();
    let coarse = "pocket screws, 1-1/4 long, coarse";
    let packs = (taken(coarse) - 3).div_ceil(10);
    assert_eq!(told(coarse), (format!("{packs} packs"), format!("{:.2}", f64::from(packs) * 8.5)));
    // Those that are said to be longer are others.
    let fine = "pocket screws, 1-1/4 long, fine";
    assert_eq!(told(fine), (taken(fine).to_string(), String::new()));
    let pins = taken("shelf pins") - 2;
    assert_eq!(told("shelf pins"), (pins.to_string(), format!("{:.2}", f64::from(pins) * 0.25)));
    for what in ["wood screws, 1-3/4 long", "wood screws, 1-1/2 long"] {
        let own = taken(what);
        assert_eq!(told(what), (own.to_string(), format!("{:.2}", f64::from(own) * 0.1)));
    }
    assert!(after.iter().all(|row| !row[2].starts_with("clips")));
}

/// The finish is what its coats ask for in the assembly order, in all of them together, and is
/// bought by whole quarts: one of 946 ml. Worked by hand for the console, whose oil goes on in
/// one coat, three parts and one: what it says to mix stands there too.
#[test]
fn finish_is_bought_by_its_coats() {
    let mut seen = 0;
    for (name, compiled) in demo_pieces() {
        let packet = packet(&compiled);
        let all = packet["operations"].as_array().unwrap().iter();
        let own = all.filter(|own| own["kind"] == "finish" && own["finish"] == "oil");
        let printed = own.filter_map(|own| own["takes"]["print"].as_str());
        let milliliters = |text: &str| {
            let (_, own) = text.rsplit_once('(').unwrap_or(("", text));
            own.trim_end_matches(')').trim_end_matches(" ml").parse::<u32>().unwrap()
        };
        let sum: u32 = printed.map(milliliters).sum();
        let rows = csv(&compiled, "buying-list");
        let row = rows.iter().find(|row| row[0] == "finish" && row[2].starts_with("oil: "));
        let told = format!("{sum} ml");
        assert_eq!(row.is_some(), sum > 0, "{name}: {told}");
        // Where it is bought in cans, what is taken stands beside them.
        let has = |row: &Vec<String>| row[1].contains(&told) || row[2].contains(&told);
        assert!(row.is_none_or(has), "{name}: {told}: {row:?}");
        seen += usize::from(row.is_some());
    }
    assert!(seen > 3, "{seen}");
    let text = spec("hall-console.case").replace("hardwax-oil;", "hardwax-oil; price 27 per qt;");
    let rows = csv(&compile(&text), "buying-list");
    let row = rows.iter().find(|row| row[0] == "finish").unwrap();
    assert_eq!(
        row[1..],
        [
            "14.9 fl oz (440 ml)".to_owned(),
            "oil: hardwax oil, 1 coat, mixed of 11.2 fl oz (330 ml) and 3.7 fl oz (110 ml)"
                .to_owned(),
            "USD 27.00 per qt".to_owned(),
            "27.00".to_owned(),
        ]
    );
}

/// Worked by hand. A line an inch wide along a foot is a twelfth of a square foot, and a gallon
/// of 3785 ml covers 200: the milliliters are 1.577 for each foot, up to the next ten.
#[test]
fn glue_is_bought_by_the_length_of_its_joints() {
    let mut all = 0;
    for (name, compiled) in demo_pieces() {
        let rows = csv(&compiled, "buying-list");
        let row = rows.iter().find(|row| row[0] == "glue").unwrap_or_else(|| panic!("{name}"));
        if row[2].contains("layers") || row[2].contains(" m ") {
            continue;
        }
        all += 1;
        let along = row[2].split("along ").nth(1).unwrap().split(" ft").next().unwrap();
        // What is printed is rounded up to a foot.
        let most: f64 = along.parse::<f64>().unwrap() * 3785.41 / 2400.0;
        let told = row[1].split('(').nth(1).unwrap().trim_end_matches(" ml)");
        let told: f64 = told.parse().unwrap();
        assert!(told >= most - 1.6 && told < most + 10.0, "{name}: {row:?}");
    }
    assert!(all > 2, "{all}");
}

/// The sum is that of the printed lines, and what has no price is named.
#[test]
fn printed_lines_add_up_to_the_printed_sum() {
    let mut priced = 0;
    for (name, compiled) in demo_pieces() {
        let rows = csv(&compiled, "buying-list");
        let cents = |text: &String| (text.parse::<f64>().unwrap() * 100.0).round() as i64;
        let sum: i64 =
            rows.iter().skip(1).filter(|row| !row[4].is_empty()).map(|row| cents(&row[4])).sum();
        let paper = papers::one(&compiled, "buying-list", Format::Text).unwrap();
        let has_sum = paper.contains("together ");
        assert_eq!(has_sum, sum > 0, "{name}");
        if has_sum {
            priced += 1;
            let told = format!("{}.{:02}", sum / 100, sum % 100);
            assert!(paper.contains(&told), "{name}: {told}\n{paper}");
        }
    }
    assert!(priced >= 2, "{priced}");
}

/// Worked by hand. A sheet of 96 by 48 has 2.4384 x 1.2192 = 2.97289728 square meters, and
/// at 20.00 a square meter it costs 59.46. A pair of hinges at 9.00 serves two leaves with
/// a pair each. Slides at 12.50 each are two to a drawer.
#[test]
fn prices_are_taken_by_what_they_are_for() {
    let text = spec("first.case")
        .replace("stock ply     { ", "stock ply     { price 20 per m2; ")
        .replace("hinge cup-hinge {", "hinge cup-hinge { price 9 per pair;")
        .replace("slide runner {", "slide runner { price 12.50 each;");
    let compiled = compile(&text);
    let rows = csv(&compiled, "buying-list");
    let comes_to = |what: &str| {
        let row =
            rows.iter().find(|row| row[2].starts_with(what)).unwrap_or_else(|| panic!("{rows:?}"));
        (row[1].clone(), row[4].clone())
    };
    let (sheets, money) = comes_to("ply:");
    let count: f64 = sheets.split(' ').next().unwrap().parse().unwrap();
    assert_eq!(money, format!("{:.2}", (count * 2.972_897_28 * 20.0 * 100.0).round() / 100.0));
    assert_eq!(comes_to("hinge "), ("4".to_owned(), "18.00".to_owned()));
    assert_eq!(comes_to("slides "), ("1 pair".to_owned(), "25.00".to_owned()));
}

/// Worked by hand: without the piece on hand, the left end takes a whole sheet at 148.
#[test]
fn a_difference_tells_what_more_there_is_to_buy() {
    let old = spec("hall-console.case");
    let new = old.replace("on-hand { long 40; wide 27 }; ", "");
    assert_ne!(old, new);
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
    let [stock, total] = own[..] else { panic!("{told}") };
    assert_eq!(stock, "cherry-ply: nothing → 1 sheet");
    let money = total.strip_prefix("together: USD ").expect("a sum");
    let (was, now) = money.split_once(" → USD ").expect("two sums");
    let sum = |text: &str| text.parse::<f64>().unwrap();
    assert!((sum(now) - sum(was) - 148.0).abs() < 1e-6, "{total}");
}

/// Each of two doors on butt hinges has a catch, which is bought; concealed hinges hold theirs.
#[test]
fn catches_are_bought() {
    let doors = "across { door one { share 1; hung left }; stile { wide 2 }; door two { share 1; hung right } }";
    let text = spec("first.case").replace("doors store { share 1; shelf { adjustable 1 } }", doors);
    let bought = |text: &str| {
        let rows = csv(&compile(text), "buying-list");
        rows.into_iter().find(|row| row[2].contains("catch")).map(|row| row[1].clone())
    };
    assert_eq!(bought(&text), None);
    let from = text.find("hinge cup-hinge").unwrap();
    let to = text[from..].find("\n}").unwrap() + from + 2;
    let butts = format!(
        "{}hinge cup-hinge {{ butt; door-thickness 16 mm to 26 mm }}{}",
        &text[..from],
        &text[to..]
    );
    assert_eq!(bought(&butts), Some("2".to_owned()));
}

/// The rows of a sort: how much to buy, what, and what it comes to.
pub(crate) fn rows_of(text: &str, sort: &str) -> Vec<[String; 3]> {
    let compiled = compile(text);
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    let rows = csv(&compiled, "buying-list").into_iter().filter(|row| row[0] == sort);
    rows.map(|row| [row[1].clone(), row[2].clone(), row[4].clone()]).collect()
}

/// Worked by hand for the console, whose oil is mixed of 330 ml and 110 ml. Two cans of 250 ml
/// at 20 are 40, less than one of 750 ml at 45; at 24 they are 48, and more. Of the second part
/// a can of 125 ml is enough. Where one has no price, the two small ones leave less over: 170
/// ml and not 420.
#[test]
fn cans_hold_both_parts_of_a_mix() {
    let with = |small: &str, large: &str| {
        let cans = format!("can 750 ml {large}; can 250 ml {small}; hardwax-oil;");
        let text = spec("hall-console.case").replace("hardwax-oil;", &cans);
        let mix = "mix 3 to 1 { can 125 ml { price 9 each } }";
        rows_of(&text.replace("mix 3 to 1", mix), "finish")
    };
    let [first, second] = &with("{ price 20 each }", "{ price 45 each }")[..] else { panic!() };
    assert_eq!([&first[0], &first[2]], ["2 x 250 ml", "40.00"]);
    assert!(first[1].ends_with("; of the first part: 11.2 fl oz (330 ml) needed"), "{first:?}");
    assert_eq!([&second[0], &second[2]], ["1 x 125 ml", "9.00"]);
    assert_eq!(second[1], "oil: its second part: 3.7 fl oz (110 ml) needed");
    let first = &with("{ price 24 each }", "{ price 45 each }")[0];
    assert_eq!([&first[0], &first[2]], ["1 x 750 ml", "45.00"]);
    let first = &with("{ price 24 each }", "")[0];
    assert_eq!([&first[0], &first[2]], ["2 x 250 ml", ""]);
}

/// A can without a price of its own costs what its volume comes to: 750 ml of 38 a liter are
/// 28.50.
#[test]
fn a_can_costs_its_part_of_the_price_by_volume() {
    let text = spec("hall-console.case")
        .replace("hardwax-oil;", "hardwax-oil; price 38 per l; can 750 ml;");
    let first = &rows_of(&text, "finish")[0];
    assert_eq!([&first[0], &first[2]], ["1 x 750 ml", "28.50"]);
}

/// The bottles hold the glue, and no other choice of them costs less.
#[test]
fn glue_is_bought_by_the_bottle() {
    let [plain] = &rows_of(&spec("hall-console.case"), "glue")[..] else { panic!() };
    let taken = plain[0].split('(').nth(1).unwrap().trim_end_matches(" ml)");
    let taken: f64 = taken.parse().unwrap();
    let (ounce, [small, large]) = (29.573_529_562_5, [(4.0, 4.25), (8.0, 6.5)]);
    let choices = (0..40).flat_map(|few| (0..40).map(move |many| (few, many)));
    let costs = choices.filter_map(|(few, many)| {
        let [few, many] = [few, many].map(f64::from);
        let holds = (few * small.0 + many * large.0) * ounce;
        (holds >= taken).then_some(few * small.1 + many * large.1)
    });
    let least = costs.fold(f64::INFINITY, f64::min);
    let glue = "glue { bottle 4 fl-oz { price 4.25 each }; bottle 8 fl-oz { price 6.50 each } }";
    let text = format!("{}\n{glue}\n", spec("hall-console.case"));
    let [row] = &rows_of(&text, "glue")[..] else { panic!() };
    assert_eq!(row[2], format!("{least:.2}"), "{taken} ml: {row:?}");
    let text = format!("{}\nglue {{ price 30 per gal }}\n", spec("hall-console.case"));
    assert_eq!(rows_of(&text, "glue")[0][2], "30.00");
}

/// `… 12.3 m2) to sand`.
fn to_sand(row: &[String; 3]) -> f64 {
    let (before, _) = row[1].split_once(" m2) to sand").unwrap();
    before.rsplit('(').next().unwrap().parse().unwrap()
}

/// All that a first coat goes on is sanded with 180 grit, and the solid wood alone with 120.
/// Of varnish each coat but the last is rubbed down with 320. Packs are counted by hand from
/// the printed surface: each lasts for 1 m2, two of them are on hand, four come in a pack.
#[test]
fn abrasives_are_bought_by_the_surface_and_the_grit() {
    let plain = spec("first.case");
    assert_eq!(rows_of(&plain, "abrasives"), Vec::<[String; 3]>::new());
    let listed = "abrasive 180 { lasts 1 m2; pack 4; price 7.90 per pack; on-hand 2 }
        abrasive 120 { lasts 1 m2; price 1.25 each }
        abrasive 320 { price 2 each }";
    let text = format!("{plain}\n{listed}\n");
    let [coarse, fine] = &rows_of(&text, "abrasives")[..] else { panic!() };
    assert!(coarse[1].starts_with("sandpaper of 120 grit: ") && fine[1].contains(" 180 grit: "));
    let paper = papers::one(&compile(&text), "assembly-order", Format::Text).unwrap();
    let (_, whole) = paper.split_once("the surface comes to ").unwrap();
    let whole: f64 =
        whole.split_once(" m2)").unwrap().0.rsplit('(').next().unwrap().parse().unwrap();
    assert!((to_sand(fine) - whole).abs() < 1e-9, "{fine:?} {whole}");
    assert!(to_sand(coarse) < to_sand(fine) && to_sand(coarse) > 1.0, "{coarse:?}");
    let packs = ((to_sand(fine).ceil() - 2.0) / 4.0).ceil();
    assert_eq!(fine[0], format!("{packs} packs"), "{fine:?}");
    assert_eq!(fine[2], format!("{:.2}", packs * 7.9));
    let paper = papers::one(&compile(&text), "buying-list", Format::Text).unwrap();
    assert!(paper.contains("sanded with 150 grit too, which"), "{paper}");
    let text = text.replace("hardwax-oil; coats 2", "varnish; coats 3");
    let rows = rows_of(&text, "abrasives");
    let [_, fine, last] = &rows[..] else { panic!("{rows:?}") };
    assert!((to_sand(last) - 2.0 * to_sand(fine)).abs() < 0.11, "{rows:?}");
    let twice = format!("{text}\nabrasive 120 {{ pack 3 }}\n");
    assert!(compile(&twice).diagnostics.iter().any(|own| own.slug == "word-twice"));
}
