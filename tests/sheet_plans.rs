//! The sheet plans followed to the letter: the cuts are read off the printed paper and made
//! in a rectangle, one after another, and what comes off is held against the cut list.

use std::collections::BTreeMap;

use casewright::papers::{self, EXAMPLES, Format};
use casewright::pipeline::Compilation;

use crate::bench;
use crate::support::{compile, demo_pieces, spec};

/// A printed figure: `16-1/16~ (16.047)` is the finer of the two.
pub(crate) fn figure(text: &str) -> f64 {
    let text = text.trim();
    if let Some((_, finer)) = text.split_once('(')
        && !finer.starts_with('m')
    {
        return finer.split(')').next().unwrap().parse().unwrap();
    }
    let text = text.trim_end_matches("(m)").trim().trim_end_matches('~');
    let (whole, part) = text.split_once('-').unwrap_or(("0", text));
    let part = match part.split_once('/') {
        Some((above, below)) => above.parse::<f64>().unwrap() / below.parse::<f64>().unwrap(),
        None => part.parse().unwrap_or_else(|_| panic!("{text}")),
    };
    whole.parse::<f64>().unwrap_or_else(|_| panic!("{text}")) + part
}

pub(crate) fn two(text: &str) -> [f64; 2] {
    let (long, wide) = text.split_once(" x ").unwrap_or_else(|| panic!("{text}"));
    [figure(long), figure(wide)]
}

/// The cells of a line of a table, which two spaces part.
pub(crate) fn cells(line: &str) -> Vec<&str> {
    line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect()
}

/// What came off.
#[derive(Debug)]
struct Piece {
    size: [f64; 2],
    sheet: String,
    cut: usize,
    larger: bool,
}

/// What comes off by the printed cuts, mark by mark.
#[derive(Debug, Default)]
struct Sawn {
    pieces: BTreeMap<String, Vec<Piece>>,
    wrong: Vec<String>,
}

fn saw(paper: &str, kerf: f64) -> Sawn {
    let mut sawn = Sawn::default();
    let mut there: BTreeMap<String, [f64; 2]> = BTreeMap::new();
    let mut sheet = String::new();
    for line in paper.lines() {
        if let Some(head) = line.strip_prefix(">> sheet ") {
            let (number, what) = head.split_once("  ").unwrap();
            sheet = number.to_owned();
            let (_, size) = what.rsplit_once(", ").unwrap();
            there = BTreeMap::from([("the sheet".to_owned(), two(size))]);
        } else if let Some((_, left)) = line.split_once("all four edges first, which leaves ") {
            there.insert("the sheet".to_owned(), two(left));
        } else if let Some(row) = line.trim_start().strip_prefix("[ ]") {
            let cells = cells(row);
            let [numbers, from, set, how, gives] = cells[..] else { panic!("{line}") };
            let (first, last) = numbers.split_once('-').unwrap_or((numbers, numbers));
            let cuts: Vec<usize> = (first.parse().unwrap()..=last.parse().unwrap()).collect();
            let Some(mut left) = there.remove(from) else {
                sawn.wrong.push(format!("sheet {sheet}, cut {first}: {from} is not there"));
                continue;
            };
            let side = usize::from(how.starts_with("rip"));
            let gives = gives.split(" (the rest").next().unwrap();
            let gives: Vec<&str> = gives.split(", ").collect();
            let off = figure(set);
            for (nth, own) in gives.iter().enumerate() {
                let mut size = left;
                match cuts.get(nth) {
                    Some(_) if off > left[side] + 1e-3 => {
                        sawn.wrong.push(format!("sheet {sheet}, cut {first}: {off} off {left:?}"));
                    }
                    Some(_) => size[side] = off,
                    None => {}
                }
                left[side] -= size[side] + kerf;
                if own.starts_with("piece ") {
                    there.insert((*own).to_owned(), size);
                } else {
                    let cut = cuts[nth.min(cuts.len() - 1)];
                    let larger = own.ends_with(" (rough)");
                    let mark = own.trim_end_matches(" (rough)").to_owned();
                    let piece = Piece { size, sheet: sheet.clone(), cut, larger };
                    sawn.pieces.entry(mark).or_default().push(piece);
                }
            }
            there.insert(from.to_owned(), left);
        }
    }
    sawn
}

fn paper(compiled: &Compilation, slug: &str) -> String {
    papers::one(compiled, slug, Format::Text).expect("a paper")
}

/// What the cut list has of a part that comes from a sheet.
struct Listed {
    mark: String,
    long: f64,
    wide: f64,
    from: String,
}

/// The parts that come from a sheet: those whose stock says how large its sheets are, and
/// that are not cut yet.
fn listed(compiled: &Compilation) -> Vec<Listed> {
    let list = papers::one(compiled, "cut-list", Format::Csv).expect("a list");
    let mut rows = csv::Reader::from_reader(list.as_bytes());
    let heads = rows.headers().unwrap().clone();
    let column = |name: &str| heads.iter().position(|head| head.starts_with(name)).unwrap();
    let [mark, stock, long, wide, cut, from] =
        ["mark", "stock", "rough length", "rough width", "cut", "sheet: cut"].map(column);
    let piece = compiled.piece.as_ref().expect("sound");
    let sheets = piece.stocks.iter().filter(|stock| stock.sheet.is_some() && !stock.is_solid());
    let sheets: Vec<&String> = sheets.map(|stock| &stock.name).collect();
    let rows = rows.records().map(Result::unwrap);
    let own = rows.filter(|row| {
        let is_cut = !row[cut].is_empty() && !row[cut].contains("spoiled");
        sheets.iter().any(|name| **name == row[stock]) && !is_cut
    });
    own.map(|row| Listed {
        mark: row[mark].to_owned(),
        long: figure(&row[long]),
        wide: figure(&row[wide]),
        from: row[from].to_owned(),
    })
    .collect()
}

/// What is wrong with the plans of a piece, and how many parts they were held against.
fn held(compiled: &Compilation, kerf: f64, off: f64, spare: f64) -> (Vec<String>, usize) {
    let sawn = saw(&paper(compiled, "sheet-plans"), kerf);
    let mut wrong = sawn.wrong.clone();
    let parts = listed(compiled);
    for Listed { mark, long, wide, from } in &parts {
        let Some(pieces) = sawn.pieces.get(mark) else {
            wrong.push(format!("no cut frees {mark}"));
            continue;
        };
        for Piece { size, sheet, cut, larger } in pieces {
            // What is cut to its size later is no smaller, and larger by the spare and by
            // what is not worth a cut: 3/4 in, 19 mm.
            let most = if *larger { spare * 4.2 } else { off };
            let is = |own: f64, listed: f64| own >= listed - off && own <= listed + most + off;
            let lies = |long: f64, wide: f64| is(size[0], long) && is(size[1], wide);
            if !lies(*long, *wide) && !lies(*wide, *long) {
                wrong.push(format!("{mark} comes out {size:?}, listed {long} by {wide}"));
            }
            let named = from.split("; ").any(|own| {
                let (on, cuts) = own.split_once(": ").unwrap();
                on == sheet && cuts.split(", ").any(|own| own == cut.to_string())
            });
            if !named {
                wrong.push(format!("{mark} comes off sheet {sheet}, cut {cut}, listed {from}"));
            }
        }
    }
    (wrong, parts.len())
}

#[test]
fn the_printed_cuts_give_the_listed_parts() {
    let mut all = 0;
    let examples =
        EXAMPLES.iter().map(|own| (own.slug.to_owned(), own.compiled().expect("readable")));
    for (name, compiled) in demo_pieces().into_iter().chain(examples) {
        let piece = compiled.piece.as_ref().expect("sound");
        let unit = piece.tape().unit;
        let in_unit = |length: casewright::measure::Length| length.in_unit(unit).to_f64();
        // Half a mark of the tape, and what the two figures of a sum may be off.
        let off = in_unit(piece.tape().mark);
        // 1/4 in or 6 mm, as the paper says.
        let spare = if off < 0.2 { 0.25 } else { 6.0 };
        let (wrong, count) = held(&compiled, in_unit(piece.shop.kerf), off, spare);
        assert_eq!(wrong, Vec::<String>::new(), "{name}");
        all += count;
    }
    assert!(all > 200, "{all} parts");
}

/// Worked by hand. Two ends 34-1/2 long and a blade of 1/8 take 69-1/8 of a sheet, and with
/// half an inch trimmed off both ends 70-1/8: the first crosscut parts them, and the second
/// trims the far end. What is 69-1/8 long hangs off a sled. A sheet that is
/// 1/16 shorter gives one.
#[test]
fn a_blade_takes_its_width() {
    let plan = |long: &str| {
        let own =
            format!("stock side {{ plywood 3/4; actual 23/32; sheet {{ long {long}; wide 20 }} }}");
        let text = spec("first.case").replace("stock thin ", &format!("{own}\nstock thin "));
        let text = text.replace("ends { stock ply }", "ends { stock side }");
        let plan = paper(&compile(&text), "sheet-plans");
        let (_, own) = plan.split_once("== side").expect("the stock");
        let own = own.split("\n== ").next().unwrap().to_owned();
        let taken = plan.lines().find(|line| line.trim_start().starts_with("side")).unwrap();
        (cells(taken)[2].to_owned(), own)
    };
    let (sheets, cuts) = plan("70-1/8");
    assert_eq!(sheets, "1");
    let crosscuts: Vec<&str> =
        cuts.lines().filter(|line| line.contains("[ ]") && line.contains("crosscut")).collect();
    let told = |line: &str| {
        let row = line.trim_start().trim_start_matches("[ ]");
        cells(row)[2..].iter().map(|cell| (*cell).to_owned()).collect::<Vec<_>>()
    };
    let [one, other] = crosscuts[..] else { panic!("{cuts}") };
    assert_eq!(told(one), ["34-1/2", "crosscut, straight-edge", "LE"]);
    assert_eq!(told(other), ["34-1/2", "crosscut, sled", "RE"]);
    assert_eq!(plan("70-1/16").0, "2");
}

/// The first cabinet with ends of a stock that is sold in these sizes, built by the virtual
/// shop: how many of which are taken, and what the list comes to. An end is 34-1/2 by 17-1/4.
fn of_sizes(sizes: &str, high: &str) -> (String, String, String) {
    let own = format!("stock side {{ plywood 3/4; actual 23/32; {sizes} }}");
    let text = spec("first.case").replace("stock thin ", &format!("{own}\nstock thin "));
    let text = text.replace("ends { stock ply }", "ends { stock side }");
    let compiled = compile(&text.replace("high 34-1/2", &format!("high {high}")));
    assert!(compiled.is_sound(), "{sizes}: {:?}", compiled.diagnostics);
    assert_eq!(bench::built(&compiled), Vec::<String>::new(), "{sizes}");
    let plan = paper(&compiled, "sheet-plans");
    let taken = plan.lines().find(|line| line.trim_start().starts_with("side ")).unwrap();
    let list = papers::one(&compiled, "buying-list", Format::Csv).unwrap();
    let sum = list.lines().filter(|line| line.contains("side: plywood"));
    let sum = sum.filter_map(|line| line.rsplit(',').next()?.parse::<f64>().ok());
    let sum = sum.fold(0.0, |all, own| all + own);
    let cells = cells(taken);
    (cells[1].to_owned(), cells[2].to_owned(), format!("{sum:.2}"))
}

/// Worked by hand. Two ends of 34-1/2 and a blade are 69-1/8 long, and a sheet of 70 has 69
/// between its trimmed edges: it holds one, and so does one of 36, which has less area. Two
/// ends of 34-3/8 come from one sheet of 70, which has less area than two of 36: 1400 square
/// inches, not 1440. Prices go before areas: two of 36 at 40 are 80, less than one of 70 at 90;
/// and one of 70 at 30 is less than one of 36 at 40.
#[test]
fn of_several_sizes_those_are_taken_that_cost_least() {
    let with = |long: &str, short: &str| {
        format!("sheet {{ long 70; wide 20{long} }}; sheet {{ long 36; wide 20{short} }}")
    };
    let taken = |sizes: &str, high: &str| {
        let (sizes, count, sum) = of_sizes(sizes, high);
        format!("{sizes}: {count}, {sum}")
    };
    assert_eq!(taken(&with("", ""), "34-1/2"), "2 of 36 x 20: 2, 0.00");
    assert_eq!(taken(&with("", ""), "34-3/8"), "1 of 70 x 20: 1, 0.00");
    let [dear, cheap] = ["; price 90 per sheet", "; price 30 per sheet"];
    let short = "; price 40 per sheet";
    assert_eq!(taken(&with(dear, short), "34-3/8"), "2 of 36 x 20: 2, 80.00");
    assert_eq!(taken(&with(cheap, short), "34-1/2"), "2 of 70 x 20: 2, 60.00");
    // A square meter costs the same in any, so the area counts: 36 by 20 are 0.4645 of it.
    let by_area = format!("price 100 per m2; {}", with("", ""));
    assert_eq!(taken(&by_area, "34-1/2"), "2 of 36 x 20: 2, 92.90");
    // The stock's own price stands for a size that has none.
    let some = format!("price 50 per sheet; {}", with("", short));
    assert_eq!(taken(&some, "34-1/2"), "2 of 36 x 20: 2, 80.00");
}

/// What only one of several sizes holds comes from that; and where the grain of one runs across
/// it, it lies the other way.
#[test]
fn each_part_comes_from_a_sheet_that_holds_it() {
    let sizes = "sheet { long 30; wide 60 }; sheet { long 36; wide 20 }";
    assert_eq!(of_sizes(sizes, "34-1/2").0, "2 of 36 x 20");
    let sizes = "sheet { long 30; wide 60 }; sheet { long 20; wide 36; grain wide }";
    assert_eq!(of_sizes(sizes, "34-1/2").0, "2 of 36 x 20");
    let own = "stock side { plywood 3/4; sheet { long 30; wide 60 }; sheet { long 32; wide 20 } }";
    let text = spec("first.case").replace("stock thin ", &format!("{own}\nstock thin "));
    let compiled = compile(&text.replace("ends { stock ply }", "ends { stock side }"));
    let found: Vec<_> = compiled.diagnostics.iter().map(|own| own.slug).collect();
    assert!(found.contains(&"part-too-large"), "{found:?}");
}

/// The rows of cuts in a stock: what is cut, the setting, how, and what it gives.
fn rows(paper: &str, stock: &str) -> Vec<[String; 4]> {
    let (_, own) = paper.split_once(&format!("== {stock}:")).expect("the stock");
    let own = own.split("\n== ").next().unwrap();
    let rows = own.lines().filter_map(|line| line.trim_start().strip_prefix("[ ]"));
    let told = rows.map(|row| {
        let cells = cells(row);
        [cells[1], cells[2], cells[3], cells[4]].map(str::to_owned)
    });
    told.collect()
}

/// The first cabinet with ends of their own sheets, 34-1/2 by 17-1/4, and this in its shop.
fn with_ends(sheet: &str, shop: &str) -> String {
    let own = format!("stock side {{ plywood 3/4; actual 23/32; sheet {{ {sheet} }} }}");
    let text = spec("first.case").replace("stock thin ", &format!("{own}\nstock thin "));
    let text = text.replace("ends { stock ply }", "ends { stock side }");
    let text = text.replace("shop { ", &format!("shop {{ {shop} "));
    paper(&compile(&text), "sheet-plans")
}

/// Worked by hand. 40 by 40 and 1/2 off each edge leave 39 by 39: two strips of 17-1/4 and a
/// cut between them are 34-5/8. The rips lie against the fence, since 39 are along it; the
/// crosscuts are 17-1/4 long, which the sled takes. Crosscuts first are 39 long and give
/// 34-1/2: no fence that opens 30 takes that, and no sled. Of what is left, 34-1/2 by 39, a
/// straight-edge parts 17-1/4, since 34-1/2 along the fence is less than 39; what is left
/// then goes against the fence. Where the grain runs across the sheet, a rip is what a
/// crosscut was.
#[test]
fn the_shop_says_how_a_sheet_is_cut() {
    let told = |sheet: &str, shop: &str| {
        let rows = rows(&with_ends(sheet, shop), "side");
        rows.into_iter()
            .map(|row| format!("{} {} {} {}", row[0], row[1], row[2], row[3]))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        told("long 40; wide 40", ""),
        [
            "the sheet 17-1/4 rip, fence piece a, piece b",
            "piece a 34-1/2 crosscut, sled LE",
            "piece b 34-1/2 crosscut, sled RE",
        ]
    );
    assert_eq!(
        told("long 40; wide 40", "first-cuts crosscut;"),
        [
            "the sheet 34-1/2 crosscut, straight-edge piece a",
            "piece a 17-1/4 rip, straight-edge LE",
            "piece a 17-1/4 rip, fence RE",
        ]
    );
    assert_eq!(
        told("long 40; wide 40; grain wide", ""),
        [
            "the sheet 34-1/2 rip, straight-edge piece a",
            "piece a 17-1/4 crosscut, straight-edge LE",
            "piece a 17-1/4 crosscut, fence RE",
        ]
    );
    // A sled that takes no more than 12 takes none of the crosscuts.
    assert!(told("long 40; wide 40", "sled 12;").iter().all(|row| !row.contains("sled")));
    assert_eq!(
        told("long 40; wide 40", "fence 17;")[0],
        "the sheet 17-1/4 rip, straight-edge piece a, piece b"
    );
}

/// Worked by hand. A third of an inch is no part of a 64th: 2 x 34-1/3, a blade of 1/8, and
/// 1/2 off both ends are 69-19/24, and one sheet of that holds both ends.
#[test]
fn thirds_fit_where_they_fit() {
    let plan = |long: &str| {
        let own =
            format!("stock side {{ plywood 3/4; actual 23/32; sheet {{ long {long}; wide 20 }} }}");
        let text = spec("first.case").replace("stock thin ", &format!("{own}\nstock thin "));
        let text = text.replace("ends { stock ply }", "ends { stock side }");
        let text = text.replace("high 34-1/2 ", "high 34-1/3 ");
        let paper = paper(&compile(&text), "sheet-plans");
        let taken = paper.lines().find(|line| line.trim_start().starts_with("side")).unwrap();
        cells(taken)[2].to_owned()
    };
    assert_eq!(plan("69-19/24"), "1");
    assert_eq!(plan("69-9/12"), "2");
}

/// Worked by hand, of the example with covered edges. The core of the door is 23-7/8 less two
/// lips of 1/4, 23-3/8 wide, and it is cut to its opening before they go on: off the sheet
/// it is 1/4 larger. The core of the loose shelf is on the cut list 22-11/16 by 20-21/64,
/// over by what is cut off with its lip on, and comes off the sheet 22-15/16 by 20-37/64
/// at least. A bottom that is only banded is sawn to size: 23-1/16 by 21-3/64.
#[test]
fn cores_that_are_cut_to_what_is_made_leave_the_sheet_larger() {
    let example = EXAMPLES.iter().find(|own| own.slug == "edges").expect("the example");
    let compiled = example.compiled().expect("readable");
    let sawn = saw(&paper(&compiled, "sheet-plans"), 0.125);
    let parts = compiled.parts.as_ref().expect("parts");
    let own = |path: &str| {
        let mark = &parts.named(path).expect("a part").1.mark;
        let piece = &sawn.pieces[mark.as_str()][0];
        let [a, b] = piece.size;
        (a.max(b), a.min(b), piece.larger)
    };
    let mark = 1.0 / 32.0;
    // It is wider than it is high.
    let (wide, _, larger) = own("store.store.door");
    assert!(larger && wide >= 23.625 - mark, "{wide}");
    let (long, wide, larger) = own("store.store.shelf");
    assert!(larger && long >= 22.9375 - mark && wide >= 20.578 - mark, "{long} {wide}");
    let (long, wide, larger) = own("store.bottom");
    assert!(!larger, "{long} {wide}");
    assert!((long - 23.0625).abs() <= mark && (wide - 21.047).abs() <= mark, "{long} {wide}");
    let order = paper(&compiled, "assembly-order");
    assert!(order.contains("longer than that by 1/4 for now"), "{order}");
}

/// Worked by hand, of the example. The row of two drawer fronts has its grain across it, so they
/// lie behind each other along the sheet: one crosscut parts them. The grain of the doors runs
/// up, so they lie beside each other, and a rip parts them. The doors together are as wide as
/// the row: 42 less two gaps of 1/16 at the sides and 1/8 between them, each with 1/4 more.
#[test]
fn fronts_in_sequence_come_off_one_piece() {
    let example = EXAMPLES.iter().find(|own| own.slug == "fronts-in-sequence").expect("it");
    let compiled = example.compiled().expect("readable");
    let paper = paper(&compiled, "sheet-plans");
    let rows: Vec<Vec<&str>> = paper.lines().map(cells).collect();
    let row = |gives: &str| {
        let own = rows.iter().find(|row| row.last().is_some_and(|last| *last == gives));
        own.unwrap_or_else(|| panic!("{gives}: {paper}")).clone()
    };
    let (row_of_drawers, pair) =
        (row("LE-F (rough), RI-F (rough)"), row("ST-LD (rough), ST-RD (rough)"));
    assert!(row_of_drawers.iter().any(|cell| cell.starts_with("crosscut")), "{row_of_drawers:?}");
    assert!(pair.iter().any(|cell| cell.starts_with("rip")), "{pair:?}");
    for row in [&row_of_drawers, &pair] {
        assert!(row.contains(&"21-1/8"), "{row:?}");
    }
    assert!(paper.contains("from one to the next: LE-F, RI-F."), "{paper}");
    // Those of another example are asked for nothing, and of lumber nothing can be asked.
    let text = spec("first.case").replace("build slab", "build slab; in-sequence");
    let found = compile(&text).diagnostics;
    assert!(found.iter().any(|own| own.title.contains("maple is lumber")), "{found:?}");
}
