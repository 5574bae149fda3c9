//! Cases that are like others: figures worked by hand, and every piece of the project beside
//! its mirror image.

use std::collections::BTreeSet;

use casewright::diagnostics::Severity;
use casewright::editor::{self, Names};
use casewright::measure::{FileId, Length};
use casewright::model::MemoryFiles;
use casewright::papers::{self, EXAMPLES, Format, SHARED};
use casewright::parts::{Direction, Face, Feature, Part, Parts};
use casewright::pipeline::{self, Compilation};
use casewright::syntax::{Item, Statement};
use casewright::vocabulary::{self, BLOCKS, Block, Hand, Kind, Row};
use serde_json::Value;

use crate::bench;
use crate::support::{compile_example, packet, slugs, specs};

/// The pair of the reference.
fn pair() -> &'static str {
    EXAMPLES.iter().find(|own| own.slug == "pair").unwrap().text
}

fn part(compiled: &Compilation, path: &str) -> Part {
    let parts = compiled.parts.as_ref().unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1.clone()
}

fn inch(over: i64, under: i64) -> Length {
    Length::inches(over, under)
}

/// From where to where a part stands, left to right.
fn across(compiled: &Compilation, path: &str) -> (Length, Length) {
    part(compiled, path).extent(Direction::X)
}

/// The bench is 72 wide and each cabinet 20. The left one stands at its left, from 0 to 20,
/// and the right one as far from its right, from 72 - 20 = 52 to 72. Inside a cabinet
/// are 20 - 2 x 23/32 = 18-9/16; without the partition of 23/32 and the niche of 5 there are
/// 12-27/32 for the door. So the left partition stands from 23/32 + 12-27/32 = 13-9/16
/// to 14-9/32, and the right one from 52 + 23/32 + 5 = 57-23/32 to 58-7/16.
#[test]
fn the_other_one_of_a_pair_is_its_mirror_image() {
    let compiled = compile_example(pair());
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    assert_eq!(across(&compiled, "left-stand.left-end"), (inch(0, 1), inch(23, 32)));
    assert_eq!(across(&compiled, "right-stand.left-end"), (inch(52, 1), inch(52 * 32 + 23, 32)));
    assert_eq!(across(&compiled, "right-stand.right-end"), (inch(72 * 32 - 23, 32), inch(72, 1)));
    let boards = compiled.parts.as_ref().unwrap().all.iter();
    let partitions: Vec<_> = boards
        .filter(|own| own.path.contains("-stand.divider"))
        .map(|own| own.extent(Direction::X))
        .collect();
    let left = (inch(13 * 16 + 9, 16), inch(14 * 32 + 9, 32));
    let right = (inch(57 * 32 + 23, 32), inch(58 * 16 + 7, 16));
    assert_eq!(partitions, [left, right]);
}

/// The gap is 3/32 at both sides of an inset door. The left door begins at
/// 23/32 + 3/32 = 13/16, and its cups, whose edges are 5 mm from its own and which are 35 mm
/// wide, lie at 22.5 mm from there. The right one ends as far from the right of the bench.
#[test]
fn the_hinges_change_sides() {
    let compiled = compile_example(pair());
    let cups = |path: &str| {
        let own = part(&compiled, path);
        let cups = own.features.iter().filter(|own| own.kind.word() == "hinge cup");
        let middle = |own: &Feature| {
            let (from, to) = space(&part(&compiled, path), own)[0];
            (from + to).half()
        };
        cups.map(middle).collect::<BTreeSet<_>>().into_iter().collect::<Vec<_>>()
    };
    let from_side = inch(13, 16) + Length::mm(45).half();
    assert_eq!(cups("left-stand.store.door"), [from_side]);
    assert_eq!(cups("right-stand.store.door"), [inch(72, 1) - from_side]);
}

/// Two doors of one size want two hinges each, a pull each, and three cabinets of two nailers
/// and two studs: what is bought for the second one is bought.
#[test]
fn what_is_bought_is_bought_for_both() {
    let compiled = compile_example(pair());
    let packet = packet(&compiled);
    let count = |name: &str| {
        let mut all = packet["hardware"].as_array().unwrap().iter();
        let own = all.find(|own| own["name"] == name).unwrap_or_else(|| panic!("{name}"));
        own["count"].as_u64().unwrap()
    };
    let alone = compile_example(&without_right(pair()));
    let alone = crate::support::packet(&alone);
    let before = |name: &str| {
        let mut all = alone["hardware"].as_array().unwrap().iter();
        all.find(|own| own["name"] == name).unwrap()["count"].as_u64().unwrap()
    };
    assert_eq!((before("cup"), count("cup")), (2, 4));
    assert_eq!((before("knob"), count("knob")), (1, 2));
}

/// The same without the right cabinet.
fn without_right(text: &str) -> String {
    text.lines().filter(|line| !line.starts_with("case right-stand")).fold(
        String::new(),
        |mut all, line| {
            all.push_str(line);
            all.push('\n');
            all
        },
    )
}

/// A left end has its dadoes and holes on its right face, a right end on its left: the two
/// are no board that can be sawn, cut, and turned over, so that no line of the cut list has
/// both. A shelf has no hand: those of both cabinets stand on one line.
#[test]
fn boards_of_the_other_hand_are_told_apart() {
    let compiled = compile_example(pair());
    let list = papers::one(&compiled, "cut-list", Format::Text).unwrap();
    let mark = |path: &str| part(&compiled, path).mark;
    let together = |marks: [String; 2]| {
        list.lines().any(|line| {
            let words: Vec<&str> =
                line.split([' ', ',', ':', ';']).filter(|word| !word.is_empty()).collect();
            marks.iter().all(|mark| words.contains(&mark.as_str()))
        })
    };
    // What is the left end of one is, in the other, the right end of the same hand.
    assert!(!together(["left-stand.left-end", "right-stand.right-end"].map(mark)), "{list}");
    assert!(!together(["left-stand.left-end", "left-stand.right-end"].map(mark)), "{list}");
    let shelves = ["left-stand.store.shelf-1", "right-stand.store.shelf-1"];
    assert!(together(shelves.map(mark)), "{list}");
}

/// Without `mirrored` the second case is the first once more.
#[test]
fn a_case_may_be_like_another_the_same_way_round() {
    let text = pair().replace(
        "like left-stand { mirrored }",
        "like left-stand; hung { up 50; over bench; right 0; studs 2 }",
    );
    let compiled = compile_example(&text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let (from, to) = across(&compiled, "left-stand.store.door");
    let moved = inch(52, 1);
    assert_eq!(across(&compiled, "right-stand.store.door"), (from + moved, to + moved));
}

/// What the second case says itself takes the place of what it would take over: 16 wide, it
/// has 4 less for its door.
#[test]
fn a_word_of_its_own_takes_the_place_of_the_other() {
    let wide = |compiled: &Compilation, path: &str| part(compiled, path).width.length;
    let text = pair().replace("{ mirrored }", "{ mirrored }; wide 16");
    let compiled = compile_example(&text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let doors = ["left-stand.store.door", "right-stand.store.door"];
    let [left, right] = doors.map(|path| wide(&compiled, path));
    assert_eq!(left - right, inch(4, 1));
    let text = pair().replace("{ mirrored }", "{ mirrored }; end left { stock maple }");
    let compiled = compile_example(&text);
    let stock = |path: &str| {
        let piece = compiled.piece.as_ref().unwrap();
        piece.stock(part(&compiled, path).stock).unwrap().name.clone()
    };
    assert_eq!(stock("right-stand.left-end"), "maple");
    assert_eq!(stock("right-stand.right-end"), "ply");
    assert_eq!(stock("left-stand.right-end"), "ply");
}

/// The mirror image of a mirror image is the case itself.
#[test]
fn a_case_may_be_like_one_that_is_like_another() {
    let third =
        "\ncase third { like right-stand { mirrored }; hung { up 20; over bench; left 26 } }\n";
    let compiled = compile_example(&format!("{}{third}", pair()));
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    let (from, to) = across(&compiled, "left-stand.store.door");
    let moved = inch(26, 1);
    assert_eq!(across(&compiled, "third.store.door"), (from + moved, to + moved));
}

/// A run of two like cases: each as wide as its share, the door of the second hung right.
#[test]
fn a_case_of_a_run_may_be_like_another_of_it() {
    let text = "casework 1\nuse \"shop.case\"\njob \"Run\" { units in }\nsite { fixing wall }\n\
        run row {\n wide 60; deep 18; high 30; stock ply\n\
        base { toe-kick; high 4; set-back 3; cut-into ends }\n\
        bottom { joint dado { deep 1/4 } }\n back { stock thin; joint rabbet { deep 3/8 } }\n\
        top { panel; joint dado { deep 1/4 } }\n frame none; finish oil\n\
        partitions { joint dado { deep 1/4 } }\n\
        fronts { stock maple; set inset; gap 3/32; hinge cup; pull knob }\n\
        across { case one { share 1; across { door store { share 1; hung left }; divider; open niche { wide 5 } } }\n\
        case two { like one { mirrored } } } }\n";
    let compiled = compile_example(text);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    let [one, two] = ["row.one.store.door", "row.two.store.door"].map(|own| across(&compiled, own));
    assert_eq!((inch(60, 1) - one.1, inch(60, 1) - one.0), two);
    let wider = compile_example(&text.replace("like one { mirrored }", "like one; share 2"));
    let wides: Vec<Length> =
        wider.piece.unwrap().cases.iter().map(|case| case.wide.length).collect();
    assert_eq!(wides, [inch(20, 1), inch(40, 1)]);
}

/// One mistake, one message: a name that no stock has is told once for both, and so is what
/// is found of a front; each place can be accepted by itself, and a redraw mends both.
#[test]
fn what_is_found_of_both_is_told_once() {
    let text = pair().replace("pull knob {", "pull knbo {");
    let compiled = compile_example(&text);
    assert_eq!(slugs(&compiled), ["name-unknown"]);
    // A door that is hinged at so thin an edge, for example.
    let thick = pair().replace("stock maple; set inset", "stock side; set inset");
    let compiled = compile_example(&thick);
    let found = compiled.diagnostics.iter().find(|own| own.slug == "door-thickness").unwrap();
    let places: BTreeSet<&str> =
        found.subject.iter().chain(&found.also).map(String::as_str).collect();
    assert_eq!(places.len(), 2, "{places:?}");
    assert!(places.iter().any(|place| place.starts_with("left-stand")), "{places:?}");
    assert!(places.iter().any(|place| place.starts_with("right-stand")), "{places:?}");
}

/// A warning of both is told once, and accepted for one it still stands for the other. The mend
/// is made once, in the first case, and holds for both.
#[test]
fn a_warning_is_accepted_for_each() {
    let text = pair().replace("; studs 2", "");
    let compiled = compile_example(&text);
    let [found] = compiled.diagnostics.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
    assert_eq!((found.slug, found.subject.as_deref()), ("studs-few", Some("left-stand")));
    assert_eq!(found.also, ["right-stand"]);
    let accepted = format!("{text}\naccept studs-few on left-stand \"both are found\"\n");
    let accepted = compile_example(&accepted);
    let [left] = accepted.diagnostics.as_slice() else { panic!("{:#?}", accepted.diagnostics) };
    assert_eq!((left.slug, left.subject.as_deref()), ("studs-few", Some("right-stand")));
    let fix = found.fixes.first().unwrap();
    let mended = casewright::diagnostics::mend(&compiled.sources, &[fix]);
    let mended = &mended.texts[&FileId::default()];
    assert_eq!(mended.matches("studs 2").count(), 1);
    assert_eq!(slugs(&compile_example(mended)), Vec::<&str>::new());
}

/// A leg that stands 20 from the left of its case stands 20 from the right of the other one.
#[test]
fn a_leg_stands_as_far_from_the_other_side() {
    let text = "casework 1\nuse \"shop.case\"\njob \"Legs\" { units in }\nsite { fixing wall }\n\
        case one {\n wide 60; deep 18; high 30; stock ply\n\
        base { toe-kick; high 4; set-back 3; cut-into ends }\n leg { at 20 }\n\
        bottom { joint dado { deep 1/4 } }\n back { stock thin; joint rabbet { deep 3/8 } }\n\
        top { panel; joint dado { deep 1/4 } }\n frame none; finish oil\n\
        across { open store { share 1 } } }\ncase two { like one { mirrored } }\n";
    let compiled = compile_example(text);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    let middle = |path: &str| {
        let (from, to) = across(&compiled, path);
        (from + to).half()
    };
    // Of 60 are 40 from the left of the second case, which begins at 60.
    assert_eq!(middle("one.leg"), inch(20, 1));
    assert_eq!(middle("two.leg"), inch(100, 1));
}

/// A name in the first case is given there; its mentions by way of the second lead to it, and
/// another name for it goes to both.
#[test]
fn an_editor_knows_the_names_of_the_other_case() {
    let measured = "\nmeasured 2026-03-14 { opening right-stand.niche { wide 5 } }\n";
    let text = format!("{}{measured}", pair());
    let compiled = compile_example(&text);
    let names = Names::of(&compiled);
    let at = |what: &str, skip: usize| u32::try_from(text.rfind(what).unwrap() + skip).unwrap();
    let file = FileId::default();
    let niche = names.at(file, at("right-stand.niche", 12)).unwrap();
    let defined = names.definition(niche.meaning).unwrap();
    assert_eq!(compiled.sources.text(defined), "niche");
    assert!(text[..defined.range().start].ends_with("open "));
    let like = names.at(file, at("like left-stand", 5)).unwrap();
    let defined = names.definition(like.meaning).unwrap();
    assert!(text[..defined.range().start].ends_with("case "));
    let casewright::editor::Meaning::Name(id) = niche.meaning else { panic!("a name") };
    let fix = editor::rename(&compiled, &names, id, "towels").unwrap();
    assert_eq!(fix.edits.len(), 2);
}

/// A part that is cut is that of its own case.
#[test]
fn records_are_of_one_case() {
    let cut = "\ncut 2026-03-14 { right-stand.bottom }\n";
    let compiled = compile_example(&format!("{}{cut}", pair()));
    let work = compiled.workings().unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
    let parts = compiled.parts.as_ref().unwrap();
    let id = |path: &str| parts.named(path).unwrap().0;
    assert!(work.ledger().is_cut(id("right-stand.bottom")));
    assert!(!work.ledger().is_cut(id("left-stand.bottom")));
}

/// The box that a cut takes away, along the three axes of the piece.
fn space(part: &Part, cut: &Feature) -> [(Length, Length); 3] {
    let [long, wide, thick] = part.sizes();
    let deep = |whole: Length| match cut.face.is_start() {
        true => (Length::ZERO, cut.deep),
        false => (whole - cut.deep, whole),
    };
    let own = match cut.face {
        Face::ThickStart | Face::ThickEnd => [cut.u, cut.v, deep(thick)],
        Face::WidthStart | Face::WidthEnd => [cut.u, deep(wide), cut.v],
        Face::LengthStart | Face::LengthEnd => [deep(long), cut.u, cut.v],
    };
    let place = &part.placement;
    let axes = [place.length, place.width, place.thickness];
    Direction::ALL.map(|axis| {
        let at = axes.iter().position(|own| *own == axis).unwrap();
        let from = place.origin.along(axis);
        (from + own[at].0, from + own[at].1)
    })
}

/// A box and what it is, from the left side of its case or, the other way round, its right.
type Made = (String, [(Length, Length); 3]);

fn from_side(made: Made, [left, right]: [Length; 2], is_mirrored: bool) -> Made {
    let (what, [(from, to), rest @ ..]) = made;
    let across = match is_mirrored {
        true => (right - to, right - from),
        false => (from - left, to - left),
    };
    (what, [across, rest[0], rest[1]])
}

/// Every board of a case and every cut in it, in their order from the left of the case.
fn made(parts: &Parts, case: &str, sides: [Length; 2], is_mirrored: bool) -> Vec<Made> {
    let own = parts.all.iter().filter(|own| own.path.starts_with(&format!("{case}.")));
    let mut all: Vec<Made> = own
        .flat_map(|own| {
            let board = Direction::ALL.map(|axis| own.extent(axis));
            let cuts = own.features.iter().map(|cut| (cut.kind.word().to_owned(), space(own, cut)));
            let whole = (format!("{:?} {:?}", own.stock, own.grain), board);
            std::iter::once(whole).chain(cuts).collect::<Vec<_>>()
        })
        .map(|made| from_side(made, sides, is_mirrored))
        .collect();
    all.sort();
    all
}

/// A statement as a maker would write it for the other hand.
fn turned(text: &str, own: &Statement, depth: usize) -> String {
    let head = &text[own.head().range()];
    let mut words: Vec<String> = head.split_whitespace().map(str::to_owned).collect();
    let flip = |word: &mut String| {
        let pairs = [("left", "right"), ("from-left", "from-right"), ("at", "from-right")];
        let other = pairs.iter().find_map(|(one, other)| match word.as_str() {
            word if word == *one => Some(*other),
            word if word == *other => Some(*one),
            _ => None,
        });
        if let Some(other) = other {
            *word = other.to_owned();
        }
    };
    flip(&mut words[0]);
    let names_side = match words[0].as_str() {
        "end" | "cover" => depth == 0,
        "stile" | "hung" => true,
        _ => false,
    };
    if names_side && words.len() > 1 {
        flip(&mut words[1]);
    }
    let Some(block) = &own.block else { return words.join(" ") };
    let inner = block.items.iter().filter_map(|item| match item {
        Item::Statement(own) => Some(turned(text, own, depth + 1)),
        Item::Comment(_) | Item::Blank => None,
    });
    let mut inner: Vec<String> = inner.collect();
    if words[0] == "across" {
        inner.reverse();
    }
    format!("{} {{ {} }}", words.join(" "), inner.join("; "))
}

/// The only case of a text that stands by itself: its name and its statement.
fn only_case(text: &str) -> Option<(String, Statement)> {
    let (tree, _) = vocabulary::parse(FileId::default(), text);
    let of = |item: &Item| match item {
        Item::Statement(own) if own.word.text() == "case" || own.word.text() == "run" => {
            Some(own.clone())
        }
        Item::Statement(_) | Item::Comment(_) | Item::Blank => None,
    };
    let mut all = tree.items.iter().filter_map(of);
    let (first, None) = (all.next()?, all.next()) else { return None };
    let name = text[first.arguments.first()?.span().range()].to_owned();
    (first.word.text() == "case").then_some((name, first))
}

/// Each piece of the project that is one case, with the other files beside it. What was
/// measured or cut is of that one only.
fn pieces() -> Vec<(String, String)> {
    let demos = specs().into_iter();
    let examples = EXAMPLES.iter().map(|own| (format!("{}.case", own.slug), own.text.to_owned()));
    demos.chain(examples).collect()
}

fn compile_with_others(name: &str, text: &str) -> Compilation {
    let all = specs();
    let files = all.iter().fold(MemoryFiles::one(name, text), |files, (other, text)| {
        if other == name { files } else { files.with(other, text) }
    });
    // Demo pieces and examples share files of one name.
    let is_example = EXAMPLES.iter().any(|own| name == format!("{}.case", own.slug));
    let files = if is_example { files.with(SHARED.0, SHARED.1) } else { files };
    pipeline::check(&files, name).unwrap()
}

/// The same piece in a room whose sides are alike.
fn even(text: &str) -> String {
    let Some(at) = text.find("wall {") else { return text.to_owned() };
    let end = text[at..].find('}').unwrap() + at;
    let wall = &text[at..=end];
    (1..8).flat_map(|many| ["left", "right"].map(|side| (side, " ".repeat(many)))).fold(
        text.to_owned(),
        |text, (side, room)| {
            text.replace(&format!("{side}{room}open"), &format!("{side}{room}{wall}"))
        },
    )
}

/// Whoever writes the second case out by hand, the other way round, has the same packet, but
/// for the lines that it comes from.
#[test]
fn a_case_written_twice_has_the_same_packet() {
    fn without_lines(value: &mut Value) {
        match value {
            Value::Object(all) => {
                for word in ["lines", "line", "from", "spec", "hash", "findings"] {
                    all.remove(word);
                }
                all.values_mut().for_each(without_lines);
            }
            Value::Array(all) => all.iter_mut().for_each(without_lines),
            Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
        }
    }
    let mut compared = 0;
    for (file, text) in pieces() {
        let Some((_, case)) = only_case(&text) else { continue };
        let block = case.block.as_ref().unwrap();
        let inner = block.items.iter().filter_map(|item| match item {
            Item::Statement(own) => Some(turned(&text, own, 0)),
            Item::Comment(_) | Item::Blank => None,
        });
        let by_hand = format!("{text}\ncase twin {{ {} }}\n", inner.collect::<Vec<_>>().join("\n"));
        let (name, _) = only_case(&text).unwrap();
        let like = format!("{text}\ncase twin {{ like {name} {{ mirrored }} }}\n");
        let [by_hand, like] = [by_hand, like].map(|text| compile_with_others(&file, &text));
        let places = |compiled: &Compilation| -> BTreeSet<(&'static str, String)> {
            // Written once for both, a cut around a pipe is of use where one of them is cut.
            let all = compiled.diagnostics.iter().filter(|own| own.slug != "around-unused");
            let places = all.flat_map(|own| {
                own.subject.iter().chain(&own.also).map(|place| (own.slug, place.clone()))
            });
            places.collect()
        };
        assert_eq!(places(&by_hand), places(&like), "{file}");
        assert_eq!(by_hand.is_sound(), like.is_sound(), "{file}: {:#?}", like.diagnostics);
        if !like.is_sound() {
            continue;
        }
        let [by_hand, like] = [by_hand, like].map(|own| {
            let mut own = packet(&own);
            without_lines(&mut own);
            own
        });
        if by_hand != like {
            let [one, other] =
                [by_hand, like].map(|own| serde_json::to_string_pretty(&own).unwrap());
            let differ = one.lines().zip(other.lines()).find(|(one, other)| one != other);
            panic!("{file}: {differ:#?}");
        }
        compared += 1;
    }
    assert!(compared >= 20, "{compared}");
}

/// A case and its mirror image, board by board and cut by cut: the one as far from the left
/// side as the other from the right.
#[test]
fn every_piece_has_its_mirror_image() {
    let (mut compared, mut wrong) = (Vec::new(), Vec::new());
    for (file, text) in pieces() {
        let Some((name, _)) = only_case(&text) else { continue };
        // What is measured is of the one case, and a pipe stands behind the one.
        if text.contains("\nmeasured ") || text.contains("keep-out ") {
            continue;
        }
        let text = even(&text);
        let like = format!("{text}\ncase twin {{ like {name} {{ mirrored }} }}\n");
        let compiled = compile_with_others(&file, &like);
        let (Some(piece), Some(parts)) = (&compiled.piece, &compiled.parts) else { continue };
        let sides = |at: usize| {
            let case = &piece.cases[at];
            [case.x, case.x + case.wide.length]
        };
        let own = made(parts, &name, sides(0), false);
        let twin = made(parts, "twin", sides(1), true);
        let differ = own.iter().zip(&twin).find(|(own, twin)| own != twin);
        if own.len() != twin.len() || differ.is_some() {
            wrong.push(format!("{file}: {} and {}: {differ:#?}", own.len(), twin.len()));
        }
        compared.push(file);
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(compared.len() >= 20, "{compared:?}");
}

/// The shop builds each of them with its mirror image beside it.
#[test]
fn the_shop_builds_a_piece_and_its_mirror_image() {
    let mut built = 0;
    for (file, text) in pieces() {
        let Some((name, _)) = only_case(&text) else { continue };
        let like = format!("{text}\ncase twin {{ like {name} {{ mirrored }} }}\n");
        let compiled = compile_with_others(&file, &like);
        let errors = compiled.diagnostics.iter().filter(|own| own.severity == Severity::Error);
        if errors.count() > 0 {
            continue;
        }
        let packet = papers::one(&compiled, "packet", Format::Json).unwrap();
        let complaints = bench::complaints(&packet);
        assert!(complaints.is_empty(), "{file}: {complaints:#?}");
        built += 1;
    }
    assert!(built >= 20, "{built}");
}

/// Words whose help says something of left and right, and that are the same from both sides.
const FROM_BOTH_SIDES: &[(&str, &str)] = &[("like", "mirrored"), ("posts", "wide")];

/// What is left over, or right behind, is on no side.
const OF_NO_SIDE: [&str; 4] = ["is left", "room left", "flat left", "right behind"];

/// Every block that may stand in a case, with all that may stand in those.
fn of_a_case() -> Vec<&'static Block> {
    let named = |name: &str| *BLOCKS.iter().find(|own| own.name == name).unwrap();
    let mut found = vec![named("case"), named("run-case")];
    let mut at = 0;
    while let Some(block) = found.get(at).copied() {
        for inner in block.words.iter().filter_map(|row| row.body.block()) {
            if !found.iter().any(|own| std::ptr::eq(*own, inner)) {
                found.push(inner);
            }
        }
        at += 1;
    }
    found
}

/// A word that knows a side says what becomes of it the other way round: whoever adds one is
/// told here.
#[test]
fn every_word_of_a_side_has_its_other_hand() {
    let mut silent = Vec::new();
    let blocks = of_a_case();
    assert!(blocks.len() > 40, "{}", blocks.len());
    for block in blocks {
        for row in block.words {
            let choices = row.takes.iter().flat_map(|slot| match slot.kind {
                Kind::Choice(all) => all.iter(),
                _ => [].iter(),
            });
            let choices: Vec<_> = choices.collect();
            for choice in &choices {
                let is_side = ["left", "right"].contains(&choice.word);
                assert_eq!(choice.other.is_some(), is_side, "{} {}", row.word, choice.word);
                let other = choice.other.map(|other| choices.iter().find(|own| own.word == other));
                assert!(other.is_none_or(|other| other.is_some()), "{} {}", row.word, choice.word);
            }
            match row.hand {
                Hand::Other(other) => {
                    let other: &Row = block.word(other).unwrap_or_else(|| panic!("{other}"));
                    assert_eq!(other.hand, Hand::Other(row.word), "{} {}", block.name, row.word);
                    assert_eq!(other.takes, row.takes, "{} {}", block.name, row.word);
                }
                Hand::Across => assert!(row.body.block().is_some(), "{}", row.word),
                Hand::Neither => {
                    let names = |text: &str| {
                        let of_side = OF_NO_SIDE
                            .iter()
                            .fold(text.to_owned(), |text, own| text.replace(own, ""));
                        let mut words = of_side.split(|own: char| !own.is_ascii_alphabetic());
                        words.any(|own| ["left", "right"].contains(&own))
                    };
                    let is_said = names(row.word) || names(row.help);
                    let chooses = choices.iter().any(|choice| choice.other.is_some());
                    if is_said && !chooses && !FROM_BOTH_SIDES.contains(&(block.name, row.word)) {
                        silent.push(format!("{} {}: {}", block.name, row.word, row.help));
                    }
                }
            }
        }
    }
    assert!(silent.is_empty(), "{}", silent.join("\n"));
}

/// The right one hangs its door on the right, where the wall is; its statement says `left`,
/// because it is mirrored. The label there says so.
#[test]
fn a_door_of_a_mirrored_case_is_told_by_its_hand() {
    let text = pair().replace(
        "site { fixing wall }",
        "site { left open; right wall { scribe 0 }; fixing wall }",
    );
    let compiled = compile_example(&text);
    let found: Vec<_> =
        compiled.diagnostics.iter().filter(|own| own.slug == "door-stopped").collect();
    let [found] = found.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
    assert_eq!(found.primary.text, "hung right in right-stand, which is mirrored");
}

/// The bench is 72 wide. One cabinet of 20 hangs flush with its right side, from 52 on; another
/// hangs 10 in from there, from 42 to 62. It is right beside the first where its right side is
/// 72 - 52 = 20 in.
#[test]
fn a_place_is_told_from_the_side_that_it_is_said_from() {
    let text = pair().replace("left 0; studs 2", "right 0; studs 2").replace(
        "{ like left-stand { mirrored } }",
        "{ like left-stand; hung { up 50; over bench; right 10; studs 2 } }",
    );
    let note = |text: &str| {
        let compiled = compile_example(text);
        let found: Vec<_> =
            compiled.diagnostics.into_iter().filter(|own| own.slug == "cases-overlap").collect();
        let [found] = found.as_slice() else { panic!("{found:#?}") };
        found.notes.join(" ")
    };
    assert_eq!(note(&text), "`right 20` sets right-stand right beside left-stand");
    let from_left = text.replace("right 10", "left 42");
    assert_eq!(note(&from_left), "`left 32` sets right-stand right beside left-stand");
}
