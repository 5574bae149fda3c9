//! Pocket holes: bored from the side that is seen least, told by the opening
//! that looks at them, and only where there is wood to screw into.

use casewright::model::MemoryFiles;
use casewright::parts::{Direction, FeatureKind, Parts, Point};
use casewright::pipeline::Compilation;
use proptest::prelude::*;

use super::support::{compile, spec};

/// The starter's shop and hardware with a case of its own.
fn cupboard(frame: &str, layout: &str) -> String {
    let starter = spec("first.case");
    let head = starter.split("\ncase ").next().unwrap();
    format!(
        "{head}
case cupboard {{
  wide 36; deep 18; high 34-1/2; stock ply
  base {{ toe-kick; high 4; set-back 3; cut-into ends }}
  ends {{ stock ply }}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ panel; joint dado }}
  partitions {{ joint pocket }}
  shelves {{ joint dado }}
  {frame}
  {layout}
  fronts {{ stock maple; set inset; build slab; gap 3/32; meeting 1/8; hinge cup-hinge; pull knob }}
  drawers {{ stock box-side; bottom-stock thin; slide runner; groove {{ up 13 mm; deep 1/4 }}; joint rabbet }}
  finish oil
}}
"
    )
}

fn frameless(layout: &str) -> String {
    cupboard("frame none", layout)
}

/// The openings that the findings name, in order.
fn seen(compiled: &Compilation) -> Vec<String> {
    let found = compiled.diagnostics.iter().filter(|found| found.slug == "pocket-seen");
    found.map(|found| found.title.clone()).collect()
}

/// The side of an upright board from which its pockets are bored.
fn bored_from(compiled: &Compilation, path: &str) -> &'static str {
    let part = compiled.parts.as_ref().unwrap().all.iter().find(|part| part.path == path).unwrap();
    let mut sides = part.features.iter().filter_map(|feature| match feature.kind {
        FeatureKind::Pockets(..) => Some(if feature.face.is_start() { "left" } else { "right" }),
        _ => None,
    });
    let first = sides.next().unwrap();
    assert!(sides.all(|side| side == first));
    first
}

#[test]
fn a_niche_above_a_shelf_does_not_look_at_a_divider_below_it() {
    let text = frameless(
        "down { open top { high 6 }; divider { joint dado }
         across low { share 1; drawer c { wide 16 }; divider { joint pocket }; drawer e { share 1 } } }",
    );
    assert_eq!(seen(&compile(&text)), Vec::<String>::new());
}

#[test]
fn pockets_are_bored_behind_the_drawer_whatever_lies_above() {
    let row = "across low { share 1; door d { wide 16; hung left }; divider { joint pocket }; drawer c { share 1 } }";
    let turned = "across low { share 1; drawer c { share 1 }; divider { joint pocket }; door d { wide 16; hung right } }";
    for above in [
        "",
        "open top { high 6 }; divider { joint dado };",
        "drawer top { high 6 }; divider { joint dado };",
    ] {
        for (row, path, side) in [
            (row, "cupboard.low.divider-d-c", "right"),
            (turned, "cupboard.low.divider-c-d", "left"),
        ] {
            let compiled = compile(&frameless(&format!("down {{ {above} {row} }}")));
            assert_eq!(bored_from(&compiled, path), side, "{above} {row}");
            assert_eq!(seen(&compiled), Vec::<String>::new(), "{above} {row}");
        }
    }
}

/// Of a niche and a cupboard, the cupboard: its doors are shut most of the day.
#[test]
fn the_finding_names_the_opening_beside_the_holes() {
    let row = |items: &str| {
        seen(&compile(&frameless(&format!(
            "down {{ across up {{ high 11; door far {{ wide 9; hung left }}; divider {{ joint dado }}
               open wide-niche {{ share 1 }} }}; divider {{ joint dado }}
             across low {{ share 1; {items} }} }}"
        ))))
    };
    assert_eq!(
        row("open n { wide 9 }; divider { joint pocket }; door d { share 1; hung right }"),
        ["the pocket holes of cupboard.low.divider-n-d show behind the doors of cupboard.low.d"]
    );
    assert_eq!(
        row("open n { wide 9 }; divider { joint pocket }; open m { share 1 }"),
        ["the pocket holes of cupboard.low.divider-n-m show in cupboard.low.n"]
    );
    assert_eq!(
        row("open n { wide 9 }; divider { joint pocket }; false f { share 1 }"),
        Vec::<String>::new()
    );
}

/// The holes lie within an inch and a half of either end: the niche between
/// two drawers does not look at them, the one under the top does.
#[test]
fn a_partition_behind_a_frame_goes_by_what_is_beside_its_ends() {
    let console = |bank: &str| {
        let text = spec("hall-console.case");
        let from = text.find("drawer upper").unwrap();
        let to = text.find("drawer lower").unwrap();
        compile(&format!("{}{bank}\n{}", &text[..from], &text[to..]))
    };
    let partition = "console.partition-bank-press";
    let between = console(
        "drawer upper { high 5 }; rail { wide 1-1/2 }
         across mid { share 1; false apron { wide 5 }; stile { wide 1-1/2 }; open cubby { share 1 } }
         rail { wide 1-1/2 }",
    );
    assert_eq!(bored_from(&between, partition), "left");
    assert_eq!(seen(&between), Vec::<String>::new());
    let under_the_top = console(
        "open upper { high 5 }; rail { wide 1-1/2 }; drawer middle { share 1 }; rail { wide 1-1/2 }",
    );
    assert_eq!(bored_from(&under_the_top, partition), "right");
    assert_eq!(
        seen(&under_the_top),
        ["the pocket holes of console.partition-bank-press show behind the doors of console.press"]
    );
}

/// A demo piece with the shop that it uses.
fn demo(name: &str) -> Compilation {
    let files = MemoryFiles::one(name, &spec(name)).with("shop.case", &spec("shop.case"));
    casewright::pipeline::check(&files, name).unwrap()
}

/// True where some other part has wood at a point.
fn wood_at(parts: &Parts, own: &str, point: Point) -> bool {
    parts.all.iter().filter(|part| part.path != own).any(|part| {
        let space = part.cuboid();
        Direction::ALL.into_iter().all(|axis| {
            space.from.along(axis) <= point.along(axis) && point.along(axis) <= space.to.along(axis)
        })
    })
}

/// How many pocket holes stand at either end of each part, after asking of
/// each whether the screw in it meets wood beyond the end.
fn holes(compiled: &Compilation, path: &str) -> (usize, usize) {
    let mut counted = (0, 0);
    let parts = compiled.parts.as_ref().unwrap();
    for part in &parts.all {
        for feature in &part.features {
            let FeatureKind::Pockets(count, _) = feature.kind else { continue };
            let at_start = feature.u.0.is_zero();
            for hole in part.hollows(feature) {
                let along = part.placement.length;
                let space = part.cuboid();
                let end = if at_start { space.from.along(along) } else { space.to.along(along) };
                let middle = |axis| {
                    if axis == along {
                        end
                    } else {
                        (hole.from.along(axis) + hole.to.along(axis)).half()
                    }
                };
                let point =
                    Point::new(middle(Direction::X), middle(Direction::Y), middle(Direction::Z));
                assert!(wood_at(parts, &part.path, point), "{} {point:?}", part.path);
            }
            if part.path == path {
                let side = if at_start { &mut counted.0 } else { &mut counted.1 };
                *side += count as usize;
            }
        }
    }
    counted
}

/// The partition is 16-3/64 wide: seven holes at the bottom. The two
/// stretchers above are 4 wide, at the front and at the back, and take three
/// each: 3/4, 2 and 3-1/4 from the front, and as much from 12-3/64.
#[test]
fn holes_are_bored_only_where_there_is_wood_beyond_the_end() {
    let console = compile(&spec("hall-console.case"));
    assert_eq!(holes(&console, "console.partition-bank-press"), (7, 6));
    for name in [
        "first.case",
        "tide-cottage-press.case",
        "ferry-road-wash-stand.case",
        "alcove-shelves.case",
    ] {
        holes(&demo(name), "");
    }
    let packet = casewright::papers::packet(&console).unwrap();
    let list = packet.iter().find(|file| file.name == "cut-list.txt").unwrap();
    let list = list.text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        list.contains("6 pocket holes for 1-1/4 screws in the left face, 3/4, 2, 3-1/4, 12-13/16~, 13-11/16 and 14-19/32~ from the front edge at the top end"),
        "{list}"
    );
}

/// One item of a row and the same seen in a mirror.
fn item() -> impl Strategy<Value = [String; 2]> {
    let leaf = |number: u32| {
        prop_oneof![
            Just(["open o# { SIZE }".to_owned(), "open o# { SIZE }".to_owned()]),
            Just(["drawer d# { SIZE }".to_owned(), "drawer d# { SIZE }".to_owned()]),
            Just(["false f# { SIZE }".to_owned(), "false f# { SIZE }".to_owned()]),
            Just([
                "door p# { SIZE; hung left }".to_owned(),
                "door p# { SIZE; hung right }".to_owned()
            ]),
        ]
        .prop_map(move |both| both.map(|text| text.replace('#', &number.to_string())))
    };
    prop_oneof![
        leaf(1),
        (leaf(2), leaf(3)).prop_map(|(a, b)| {
            [0, 1].map(|side| {
                format!(
                    "down t {{ SIZE; {}; BETWEEN; {} }}",
                    a[side].replace("SIZE", "share 1"),
                    b[side].replace("SIZE", "share 2")
                )
            })
        }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A piece and its mirror have the same findings, and holes on mirrored
    /// sides unless both faces are seen as much.
    #[test]
    fn a_mirrored_piece_has_the_same_findings(
        items in prop::collection::vec(item(), 2..4),
        framed in any::<bool>(),
    ) {
        let texts = [false, true].map(|mirrored| {
            let mut row: Vec<String> = items
                .iter()
                .enumerate()
                .map(|(number, both)| {
                    let size = format!("wide {}", 9 + number);
                    let size = if number == 0 { "share 1" } else { &size };
                    // Names differ from item to item.
                    let text = both[usize::from(mirrored)].replacen("SIZE", size, 1);
                    ["t", "o1", "d1", "f1", "p1", "o2", "d2", "f2", "p2", "o3", "d3", "f3", "p3"]
                        .iter()
                        .fold(text, |text, name| {
                            text.replace(&format!(" {name} {{"), &format!(" {name}x{number} {{"))
                        })
                })
                .collect();
            if mirrored {
                row.reverse();
            }
            let (frame, between, across) = if framed {
                (
                    "frame { stock maple; joint pocket; stile left { wide 2 }; stile right { wide 2 }
                     rail top { wide 1-3/4 }; rail bottom { wide 1-3/4 }",
                    "rail { wide 1-1/2 }",
                    "stile { wide 1-1/2 }",
                )
            } else {
                ("frame none", "divider { joint pocket }", "divider { joint pocket }")
            };
            let layout = format!("across {{ {} }}", row.join(&format!("; {across}; ")));
            let layout = layout.replace("BETWEEN", between);
            let close = if framed { "}" } else { "" };
            cupboard(frame, &format!("{layout} {close}"))
        });
        let found = texts.each_ref().map(|text| {
            let compiled = compile(text);
            let mut found: Vec<(&str, String)> = compiled
                .diagnostics
                .iter()
                .map(|found| (found.slug, found.severity.word().to_owned()))
                .collect();
            found.sort();
            found
        });
        prop_assert_eq!(&found[0], &found[1], "{}", texts[0]);
    }
}
