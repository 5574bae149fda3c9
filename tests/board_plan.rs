//! The board plan followed to the letter: the cuts are read off the printed paper and made
//! in a rectangle, one after another, and what comes off is held against the cut list.

use std::collections::{BTreeMap, BTreeSet};

use casewright::papers::{self, EXAMPLES, Format};
use casewright::pipeline::Compilation;

use crate::bench;
use crate::sheet_plans::{cells, figure, two};
use crate::support::{compile, demo_pieces, spec, specs};

/// What came off: its size, where it begins along its board, and the board and cut.
#[derive(Clone, Debug)]
struct Piece {
    size: [f64; 2],
    at: f64,
    board: String,
    cut: usize,
}

/// A board as it is printed: its number, its size, and what is told of it.
#[derive(Clone, Debug)]
struct Board {
    number: String,
    size: [f64; 2],
    on_hand: bool,
}

#[derive(Debug, Default)]
struct Sawn {
    boards: Vec<Board>,
    pieces: BTreeMap<String, Vec<Piece>>,
    wrong: Vec<String>,
}

/// Makes the printed cuts.
fn saw(paper: &str, kerf: f64) -> Sawn {
    let mut sawn = Sawn::default();
    let mut there: BTreeMap<String, ([f64; 2], f64)> = BTreeMap::new();
    let mut board = String::new();
    for line in paper.lines() {
        if let Some(head) = line.strip_prefix(">> board ") {
            let (number, what) = head.split_once("  ").unwrap();
            board = number.to_owned();
            let (told, size) = what.rsplit_once(", ").unwrap();
            let size = two(size.trim_start_matches("at least "));
            there = BTreeMap::from([("the board".to_owned(), (size, 0.0))]);
            let on_hand = told.ends_with("on hand");
            sawn.boards.push(Board { number: board.clone(), size, on_hand });
        } else if let Some(row) = line.trim_start().strip_prefix("[ ]") {
            let cells = cells(row);
            let [numbers, from, set, how, gives] = cells[..] else { panic!("{line}") };
            let (first, last) = numbers.split_once('-').unwrap_or((numbers, numbers));
            let cuts: Vec<usize> = (first.parse().unwrap()..=last.parse().unwrap()).collect();
            let gives: Vec<&str> = gives.split(", ").collect();
            let (off, side) = (figure(set), usize::from(how.starts_with("rip")));
            // One cut in each of several pieces, or several in one.
            let each: Vec<(String, Vec<usize>, Vec<&str>)> = match from.strip_prefix("pieces ") {
                Some(names) => {
                    let names = names.split(", ").zip(&cuts).zip(&gives);
                    names
                        .map(|((name, cut), own)| (format!("piece {name}"), vec![*cut], vec![*own]))
                        .collect()
                }
                None => vec![(from.to_owned(), cuts, gives)],
            };
            for (from, cuts, gives) in each {
                let Some((mut left, mut at)) = there.remove(&from) else {
                    sawn.wrong.push(format!("board {board}: {from} is not there"));
                    continue;
                };
                for (nth, own) in gives.iter().enumerate() {
                    let (mut size, begins) = (left, at);
                    if nth < cuts.len() {
                        if off > left[side] + 1e-3 {
                            sawn.wrong.push(format!("board {board}: {off} off {left:?}"));
                        }
                        size[side] = off;
                    }
                    left[side] -= size[side] + kerf;
                    at += if side == 0 { size[0] + kerf } else { 0.0 };
                    if own.starts_with("piece ") {
                        there.insert((*own).to_owned(), (size, begins));
                    } else if *own != "waste" {
                        let cut = cuts[nth.min(cuts.len() - 1)];
                        let piece = Piece { size, at: begins, board: board.clone(), cut };
                        sawn.pieces.entry((*own).to_owned()).or_default().push(piece);
                    }
                }
                there.insert(from, (left, at));
            }
        }
    }
    sawn
}

fn plan(compiled: &Compilation) -> String {
    papers::one(compiled, "board-plan", Format::Text).expect("a paper")
}

/// What is wrong with the plan of a piece, and how many parts it was held against.
fn held(compiled: &Compilation) -> (Vec<String>, usize) {
    let piece = compiled.piece.as_ref().expect("sound");
    let unit = piece.tape().unit;
    let in_unit = |length: casewright::measure::Length| length.in_unit(unit).to_f64();
    let (kerf, mark) = (in_unit(piece.shop.kerf), in_unit(piece.tape().mark));
    let sawn = saw(&plan(compiled), kerf);
    let mut wrong = sawn.wrong.clone();
    let list = papers::one(compiled, "cut-list", Format::Csv).expect("a list");
    let mut rows = csv::Reader::from_reader(list.as_bytes());
    let heads = rows.headers().unwrap().clone();
    let column = |name: &str| heads.iter().position(|head| head.starts_with(name)).unwrap();
    let [mark_at, stock, long, wide, cut, stick, from] =
        ["mark", "stock", "rough length", "rough width", "cut", "stick", "board: cut"].map(column);
    let solid: BTreeSet<&str> =
        piece.stocks.iter().filter(|own| own.is_solid()).map(|own| own.name.as_str()).collect();
    let mut count = 0;
    for row in rows.records().map(Result::unwrap) {
        let is_cut = !row[cut].is_empty() && !row[cut].contains("spoiled");
        if !solid.contains(&row[stock]) || is_cut || row[long].is_empty() {
            continue;
        }
        count += 1;
        let name = row[mark_at].to_owned();
        let is_own = |told: &&String| match row[stick].is_empty() {
            true => **told == name,
            false => told
                .strip_prefix("stick of ")
                .is_some_and(|own| own.split(' ').next() == Some(&name)),
        };
        let Some(pieces) = sawn.pieces.keys().find(is_own).and_then(|told| sawn.pieces.get(told))
        else {
            wrong.push(format!("no cut frees {name}"));
            continue;
        };
        let (long, wide) = (figure(&row[long]), figure(&row[wide]));
        for own in pieces {
            if own.size[0] < long - mark / 2.0 || own.size[0] > long + mark * 1.01 {
                wrong.push(format!("{name} is {} long, not {long}", own.size[0]));
            }
            let named = row[from].split("; ").any(|told| {
                let (on, cuts) = told.split_once(": ").unwrap();
                on == own.board && cuts.split(", ").any(|cut| cut == own.cut.to_string())
            });
            if !named {
                wrong.push(format!(
                    "{name} comes off board {}, cut {}, listed {}",
                    own.board, own.cut, &row[from]
                ));
            }
        }
        // Layers are each as wide as the part, and what is glued up edge to edge loses 1/8 in
        // of each board with its joints.
        let layers = pieces.iter().all(|own| own.size[1] >= wide - mark / 2.0);
        let jointing = in_unit(casewright::measure::Length::inches(1, 8));
        let together: f64 = pieces.iter().map(|own| own.size[1] - jointing).sum();
        if !layers && together < wide - mark / 2.0 {
            wrong.push(format!("{name} is {wide} wide, and its boards come to {together}"));
        }
    }
    (wrong, count)
}

#[test]
fn the_printed_cuts_give_the_listed_pieces() {
    let mut all = 0;
    let examples =
        EXAMPLES.iter().map(|own| (own.slug.to_owned(), own.compiled().expect("readable")));
    for (name, compiled) in demo_pieces().into_iter().chain(examples) {
        let (wrong, count) = held(&compiled);
        assert_eq!(wrong, Vec::<String>::new(), "{name}");
        all += count;
    }
    assert!(all > 300, "{all} pieces");
}

/// The first cabinet with a frame of its own stock: two stiles, 31-1/2 by 2 rough, and three
/// rails, 33-1/2 by 1-3/4.
fn framed(stock: &str) -> Sawn {
    framed_in("clamps 6", stock)
}

/// The same in a shop of which more is said, and built by the virtual shop.
fn framed_in(shop: &str, stock: &str) -> Sawn {
    let own = format!("stock oak {{ lumber 4/4; thickness 3/4; {stock} }}\n");
    let text = spec("first.case").replace("stock thin ", &format!("{own}stock thin "));
    let text = text.replace("clamps 6", shop);
    let compiled = compile(&text.replace("stock maple; joint pocket", "stock oak; joint pocket"));
    assert_eq!(bench::built(&compiled), Vec::<String>::new(), "{shop}; {stock}");
    let paper = plan(&compiled);
    let (_, own) = paper.split_once("== oak").expect("the stock");
    saw(own.split("\n== ").next().unwrap(), 0.125)
}

/// Worked by hand. A length of 33-1/2 gives three rails beside each other, which with two
/// blades are 5-1/2 wide, and a length of 31-1/2 two stiles, 4-1/8. With a blade between
/// they are 65-1/8 long, and with an inch lost at each end 67-1/8.
#[test]
fn a_blade_takes_its_width() {
    let boards = |long: &str, wide: &str| {
        framed(&format!("boards {{ wide {wide} to {wide}; long {long} to {long} }}")).boards.len()
    };
    assert_eq!(boards("67-1/8", "5-1/2"), 1);
    assert_eq!(boards("67-1/16", "5-1/2"), 2);
    assert_eq!(boards("67-1/8", "5-7/16"), 2);
}

/// Worked by hand. Three rails of 1-3/4 and two blades are 5-1/2 wide, and two stiles of 2 and
/// one blade 4-1/8: from boards as long as they are, they are ripped, and nothing is crosscut.
#[test]
fn a_piece_as_long_as_its_board_is_that_board() {
    let sawn = framed("on-hand { long 33-1/2; wide 5-1/2 }; on-hand { long 31-1/2; wide 4-1/8 }");
    assert_eq!(sawn.wrong, Vec::<String>::new());
    for (mark, size) in [("TRL", [33.5, 1.75]), ("BRL", [33.5, 1.75]), ("LS", [31.5, 2.0])] {
        let own = sawn.pieces[mark][0].size;
        assert!(
            own.iter().zip(size).all(|(own, size)| (own - size).abs() < 1e-9),
            "{mark}: {own:?}"
        );
    }
}

#[test]
fn a_piece_as_large_as_its_board_is_that_board() {
    let sawn = framed(
        "on-hand { long 33-1/2; wide 5-1/2 }; on-hand { long 31-1/2; wide 2 }; on-hand { long 31-1/2; wide 2 }",
    );
    assert_eq!(sawn.wrong, Vec::<String>::new());
}

/// Worked by hand. From 1 to 34-1/2 a board gives the rails, and from 37 to 68-1/2 the
/// stiles. Where the split begins a sixteenth earlier, the rails come from another board.
#[test]
fn nothing_is_sawn_from_what_is_lost() {
    let with = |split: &str| {
        framed(&format!(
            "boards {{ wide 5 to 8; long 96 to 120 }}; on-hand {{ long 70; wide 5-1/2; lost 0 to 1; lost {split} to 37 }}"
        ))
    };
    let sawn = with("34-1/2");
    assert_eq!(sawn.wrong, Vec::<String>::new());
    let [board] = &sawn.boards[..] else { panic!("{sawn:?}") };
    assert!(board.on_hand);
    let at = |mark: &str| sawn.pieces[mark][0].at;
    for (mark, place) in [("TRL", 1.0), ("BRL", 1.0), ("LS", 37.0), ("RS", 37.0)] {
        assert!((at(mark) - place).abs() < 1e-9, "{mark} begins at {}", at(mark));
    }
    let sawn = with("34-7/16");
    assert_eq!(sawn.boards.iter().filter(|own| !own.on_hand).count(), 1);
}

/// Worked by hand. What is lost at the beginning is no less than the blade takes, 1/8, and a
/// mark of the tape, 1/32, so that 1/32 falls off before the cut and the first piece begins at
/// 5/32. With 65-1/8 for a length of each they end at 65-9/32. Between two pieces a blade
/// parts it on both sides: of stiles up to 31-1/2, waste from 31-5/8 to 31-21/32, and rails
/// from 31-25/32 to 65-9/32.
#[test]
fn a_stretch_that_is_lost_is_no_narrower_than_its_cuts() {
    let yard = "boards { wide 5 to 8; long 96 to 120 }";
    let with = |long: &str, lost: &str| {
        let sawn = framed(&format!("{yard}; on-hand {{ long {long}; wide 5-1/2; lost {lost} }}"));
        assert_eq!(sawn.wrong, Vec::<String>::new(), "{lost}");
        sawn
    };
    let bought = |sawn: &Sawn| sawn.boards.iter().filter(|own| !own.on_hand).count();
    let first = |sawn: &Sawn, marks: [&str; 4]| {
        let places = marks.map(|mark| sawn.pieces[mark][0].at);
        places.into_iter().reduce(f64::min)
    };
    let marks = ["TRL", "BRL", "LS", "RS"];
    let sawn = with("65-9/32", "0 to 1/16");
    assert_eq!((bought(&sawn), first(&sawn, marks)), (0, Some(5.0 / 32.0)));
    assert_eq!(bought(&with("65-1/4", "0 to 1/16")), 1);
    let sawn = with("65-9/32", "31-1/2 to 31-11/16");
    assert_eq!((bought(&sawn), first(&sawn, marks)), (0, Some(0.0)));
    assert_eq!(first(&sawn, ["TRL", "BRL", "TRL", "BRL"]), Some(31.0 + 25.0 / 32.0));
    assert_eq!(bought(&with("65-1/4", "31-1/2 to 31-11/16")), 1);
}

/// Worked by hand. At both ends of a board from the yard 5/32 are lost where less is allowed:
/// with 65-1/8 that makes 65-7/16.
#[test]
fn the_ends_of_a_board_are_no_narrower_than_a_cut() {
    let with = |long: &str| {
        let stock = format!("boards {{ wide 5-1/2 to 5-1/2; long {long} to {long} }}");
        let sawn = framed_in("clamps 6; allow { board-ends 1/16 }", &stock);
        assert_eq!(sawn.wrong, Vec::<String>::new(), "{long}");
        sawn
    };
    let sawn = with("65-7/16");
    let begin = |mark: &str| sawn.pieces[mark][0].at;
    assert_eq!((sawn.boards.len(), begin("TRL").min(begin("LS"))), (1, 5.0 / 32.0));
    assert_eq!(with("65-13/32").boards.len(), 2);
}

/// Worked by hand. No piece of the frame, 31-1/2 and 33-1/2 long, comes from the yard's boards,
/// of which 28 are sound, and of a board of 36 by 2-1/4 one does. The others are told of, and no
/// board is said to be the least that they could do with.
#[test]
fn what_no_board_is_left_for_is_told() {
    let own = "stock oak { lumber 4/4; thickness 3/4; species red-oak; boards { wide 5 to 8; long 24 to 30 }; on-hand { long 36; wide 2-1/4 } }\n";
    let text = spec("first.case").replace("stock thin ", &format!("{own}stock thin "));
    let compiled = compile(&text.replace("stock maple; joint pocket", "stock oak; joint pocket"));
    let paper = plan(&compiled);
    let (_, own) = paper.split_once("== oak").expect("the stock");
    let own = own.split("\n== ").next().unwrap();
    let (_, told) = own.split_once("No board is left that is large enough for these").unwrap();
    let told = told.lines().next().unwrap();
    let sawn = saw(own, 0.125);
    let marks: Vec<&str> = ["TRL", "BRL", "LS", "RS", "RUP-ST"]
        .into_iter()
        .filter(|mark| !told.contains(mark))
        .collect();
    assert_eq!((marks.len(), sawn.boards.len()), (1, 1), "{told}");
    assert_eq!(sawn.pieces.keys().map(String::as_str).collect::<Vec<_>>(), marks);
}

/// The bank of the console: its fronts follow each other along one board from the top down,
/// and the boards of one leaf of its pair of doors come from one board too.
#[test]
fn fronts_lie_in_one_board_in_their_order() {
    let sawn = saw(&plan(&compile(&spec("hall-console.case"))), 0.125);
    let bank: Vec<&Piece> =
        ["UP-F", "MI-F", "LO-F"].iter().flat_map(|mark| &sawn.pieces[*mark]).collect();
    assert_eq!(bank.len(), 5);
    assert!(bank.iter().all(|own| own.board == bank[0].board), "{bank:?}");
    assert!(bank.windows(2).all(|pair| pair[0].at < pair[1].at), "{bank:?}");
    for leaf in ["PR-LD", "PR-RD"] {
        let own = &sawn.pieces[leaf];
        assert_eq!(own.len(), 3, "{leaf}");
        assert!(own.iter().all(|piece| piece.board == own[0].board), "{own:?}");
    }
}

/// What is cut already is in no plan, and what is spoiled is sawn again.
#[test]
fn what_is_cut_is_not_sawn_again() {
    let with = |record: &str| {
        let text = format!("{}\ncut 2026-03-14 {{ {record} }}\n", spec("first.case"));
        saw(&plan(&compile(&text)), 0.125).pieces.contains_key("LS")
    };
    assert!(!with("left-stile"));
    assert!(with("left-stile { spoiled }"));
    assert!(with("right-stile"));
}

/// However many boards lie in the rack, no more is bought than without them, and what is on
/// hand is never used twice.
#[test]
fn boards_on_hand_never_make_it_dearer() {
    let area = |sawn: &Sawn| -> f64 {
        let bought = sawn.boards.iter().filter(|own| !own.on_hand);
        bought.map(|own| own.size[0] * own.size[1]).sum()
    };
    let yard = "boards { wide 4 to 7; long 72 to 96 }";
    let without = area(&framed(yard));
    let rack = [
        "on-hand { long 35; wide 2 }",
        "on-hand { long 40; wide 4; lost 20 to 22 }",
        "on-hand { long 68; wide 3-3/4 }; on-hand { long 68; wide 3-3/4 }",
        "on-hand { long 34; wide 1-3/4 }; on-hand { long 32; wide 2 }; on-hand { long 90; wide 7 }",
    ];
    for had in rack {
        let sawn = framed(&format!("{yard}; {had}"));
        assert!(area(&sawn) <= without, "{had}: {} for {without}", area(&sawn));
        let used = sawn.boards.iter().filter(|own| own.on_hand).count();
        assert!(used <= had.matches("on-hand").count(), "{had}");
        let numbers: BTreeSet<&String> = sawn.boards.iter().map(|own| &own.number).collect();
        assert_eq!(numbers.len(), sawn.boards.len());
    }
}

/// Each stock of a plan: how many boards are bought, and what the looks cost.
fn taken(paper: &str) -> BTreeMap<String, (usize, usize)> {
    let rows = paper.lines().skip_while(|line| !line.contains("could fewer do?")).skip(1);
    let rows = rows.take_while(|line| line.starts_with("  ")).map(cells);
    let own = rows.map(|cells| {
        let told = cells.last().unwrap().strip_prefix("yes: the looks cost ");
        let looks = told.map_or(0, |told| told.split(' ').next().unwrap().parse().unwrap());
        (cells[0].to_owned(), (cells[1].parse().unwrap(), looks))
    });
    own.collect()
}

/// What the looks are told to cost is what is saved without them.
#[test]
fn the_looks_cost_what_is_told() {
    let mut dearer = 0;
    let alone = |text: &String| {
        text.contains("\njob ") && text.contains("\nshop {") && !text.contains("\nuse ")
    };
    for (name, text) in specs().into_iter().filter(|(_, text)| alone(text)) {
        let with = taken(&plan(&compile(&text)));
        let without = text.replacen("shop {", "shop { lay-out yield; ", 1);
        let without = taken(&plan(&compile(&without)));
        for (stock, (boards, looks)) in with {
            let (fewest, none) = without[&stock];
            assert_eq!(none, 0, "{name}: {stock}");
            assert!(fewest <= boards, "{name}: {stock}: {fewest} for {boards}");
            if looks > 0 {
                assert_eq!(boards - fewest, looks, "{name}: {stock}");
                dearer += 1;
            }
        }
    }
    assert!(dearer >= 3, "{dearer}");
}

/// The yard has boards up to 240 mm, which is 9.449 in, and a tape in sixteenths shows 9-7/16
/// of them. A box side that is sawn 255.67 - 22.225 + 6.35 = 239.795 mm wide rough goes to the
/// next mark, 9-1/2, which no board has: it is glued up, and in the plan.
#[test]
fn a_rough_piece_at_the_next_mark_is_no_wider_than_the_boards() {
    let side = "stock box-side { lumber 4/4; thickness 5/8; species sugar-maple";
    let text = spec("first.case")
        .replace(side, &format!("{side}; boards {{ wide 120 mm to 240 mm; long 96 to 144 }}"))
        .replace("tape     1/32", "tape     1/16")
        .replace("drawer upper { high 5 }", "drawer upper { high 255.67 mm }");
    let compiled = compile(&text);
    let paper = |slug| papers::one(&compiled, slug, Format::Text).expect("a paper");
    let (list, plan) = (paper("cut-list"), paper("board-plan"));
    assert!(list.lines().any(|row| row.contains("UP-LSD") && row.contains("glued up")), "{list}");
    assert!(!plan.contains("No board is left"), "{plan}");
}
