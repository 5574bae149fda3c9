//! The sheet plans followed to the letter: the cuts are read off the printed paper and made
//! in a rectangle, one after another, and what comes off is held against the cut list.

use std::collections::BTreeMap;

use casewright::papers::{self, EXAMPLES, Format};
use casewright::pipeline::Compilation;

use crate::support::{compile, demo_pieces, spec};

/// A printed figure: `16-1/16~ (16.047)` is the finer of the two.
fn figure(text: &str) -> f64 {
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

fn two(text: &str) -> [f64; 2] {
    let (long, wide) = text.split_once(" x ").unwrap_or_else(|| panic!("{text}"));
    [figure(long), figure(wide)]
}

/// The cells of a line of a table, which two spaces part.
fn cells(line: &str) -> Vec<&str> {
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

/// The parts that come from a sheet, by the cut list for other programs.
fn listed(compiled: &Compilation) -> Vec<Listed> {
    let list = papers::one(compiled, "cut-list", Format::Csv).expect("a list");
    let mut rows = csv::Reader::from_reader(list.as_bytes());
    let heads = rows.headers().unwrap().clone();
    let column = |name: &str| heads.iter().position(|head| head.starts_with(name)).unwrap();
    let [mark, long, wide, from] =
        ["mark", "rough length", "rough width", "sheet: cut"].map(column);
    let rows = rows.records().map(Result::unwrap);
    // Those of a stick are crosscut from it later, and their first has its size.
    let own = rows.filter(|row| !row[from].is_empty() && !row[long].is_empty());
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
        let own = sawn.pieces.iter().find(|(name, _)| {
            *name == mark || name.split(' ').collect::<Vec<_>>().starts_with(&["stick", "of", mark])
        });
        let Some((_, pieces)) = own else {
            wrong.push(format!("no cut frees {mark}"));
            continue;
        };
        for Piece { size, sheet, cut, larger } in pieces {
            // What is cut to its size later is no smaller, and at most the spare larger.
            let most = if *larger { spare } else { off };
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
/// half an inch trimmed off both ends 70-1/8: then one crosscut parts them. A sheet that is
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
    let crosscuts: Vec<&str> = cuts.lines().filter(|line| line.contains("crosscut")).collect();
    let [one] = crosscuts[..] else { panic!("{cuts}") };
    assert_eq!(
        cells(one.trim_start().trim_start_matches("[ ]"))[2..],
        ["34-1/2", "crosscut, sled", "LE, RE"]
    );
    assert_eq!(plan("70-1/16").0, "2");
}

/// Worked by hand. A fence that opens 30 in takes a rip of 29-1/2 and none of 31; a sled that
/// takes 24 takes what is 24 wide; what hangs over the blade by more than its own length
/// along the fence does not go against the fence.
#[test]
fn wide_cuts_go_along_a_straight_edge() {
    let plan = |fence: &str| {
        let text =
            spec("first.case").replace("shop { ", &format!("shop {{ fence {fence}; sled 10; "));
        paper(&compile(&text), "sheet-plans")
    };
    let narrow = plan("10");
    let rows = |paper: &str, how: &str| paper.lines().filter(|line| line.contains(how)).count();
    assert_eq!(
        rows(&narrow, "rip, fence") + rows(&narrow, "rip, sled"),
        rows(&narrow, "rip, ") - rows(&narrow, "rip, straight-edge")
    );
    for line in narrow.lines().filter(|line| line.contains("rip, fence")) {
        assert!(figure(cells(line.trim_start().trim_start_matches("[ ]"))[2]) <= 10.0, "{line}");
    }
    assert!(rows(&narrow, "rip, straight-edge") > rows(&plan("50"), "rip, straight-edge"));
}
