//! Doors through their swing, in whole pieces: worked by hand, and mirrored.

use std::fmt::Write as _;

use casewright::model::MemoryFiles;
use casewright::papers::{self, Format};
use casewright::pipeline;
use proptest::prelude::*;

use crate::support::{compile, spec};

const RULES: &[&str] = &["door-binds", "door-stopped", "drawer-hits-door", "open-doors-meet"];

/// Slug and title of what the rules of swinging find.
fn found(text: &str) -> Vec<(&'static str, String)> {
    let compiled = pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
    assert!(compiled.parts.is_some(), "{:?}\n{text}", compiled.diagnostics);
    let own = compiled.diagnostics.into_iter().filter(|d| RULES.contains(&d.slug));
    own.map(|d| (d.slug, d.title)).collect()
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Front {
    /// Hung on the left, or on the right.
    Door(bool),
    Doors,
    Bank,
    Open,
}

#[derive(Clone, Copy, Debug)]
enum Hinge {
    Cup,
    /// Out and aside at 45 and at 90 degrees.
    Poses([i64; 4]),
    /// How far the pin is ahead.
    Butt(i64),
}

#[derive(Clone, Debug)]
struct Plan {
    cases: Vec<Case>,
    walls: [bool; 2],
    hinge: Hinge,
    stands: i64,
    from_edge: i64,
    thick: i64,
    gap: i64,
    /// From the left of the piece, width, depth.
    keep_out: Option<[i64; 3]>,
}

#[derive(Clone, Debug)]
struct Case {
    name: char,
    wide: i64,
    deep: i64,
    /// Widths of the outer stiles, for a case with a frame.
    stiles: Option<[i64; 2]>,
    overlay: Option<i64>,
    fronts: Vec<(char, Front)>,
}

impl Plan {
    /// The same piece seen in a mirror.
    fn mirrored(&self) -> Self {
        let wide: i64 = self.cases.iter().map(|case| case.wide).sum();
        let mut plan = self.clone();
        plan.walls.reverse();
        plan.cases.reverse();
        for case in &mut plan.cases {
            case.fronts.reverse();
            for (_, front) in &mut case.fronts {
                if let Front::Door(left) = front {
                    *left = !*left;
                }
            }
            if let Some(stiles) = &mut case.stiles {
                stiles.reverse();
            }
        }
        plan.keep_out =
            self.keep_out.map(|[from, across, deep]| [wide - from - across, across, deep]);
        plan
    }

    fn text(&self) -> String {
        let Self { stands, from_edge, thick, gap, .. } = self;
        let mut text = format!(
            "casework 1\njob \"Swing\" {{ revision A; units mm; tape 0.5 mm }}\n\
             stock birch {{ plywood 18 mm; sheet {{ long 2500; wide 1250 }} }}\n\
             stock thin {{ plywood 6 mm; sheet {{ long 2500; wide 1250 }} }}\n\
             stock oak {{ lumber 40 mm; thickness {thick}; species european-oak }}\n\
             stock side {{ lumber 20 mm; thickness 12; species yellow-birch }}\n\
             slide rail {{ side-mount; length 300; room 300; box-outside opening - 26; box-high opening - 20 }}\n\
             pull knob {{ screw 4; stands {stands}; from-edge {from_edge} }}\nsite {{\n"
        );
        for (side, wall) in ["left", "right"].into_iter().zip(self.walls) {
            let _ = writeln!(text, "{side} {}", if wall { "wall { scribe 0 }" } else { "open" });
        }
        if let Some([from, wide, deep]) = self.keep_out {
            let _ = writeln!(
                text,
                "keep-out \"post\" {{ from-left {from}; up 0; wide {wide}; high 2000; deep {deep} }}"
            );
        }
        text.push_str("}\nhinge swing { ");
        let _ = match self.hinge {
            Hinge::Cup => writeln!(text, "cup 35; bore 12; from-edge 4"),
            Hinge::Poses([out, aside, further, on]) => writeln!(
                text,
                "cup 35; bore 12; from-edge 4; pose {{ at 0 deg }}\n\
                 pose {{ at 45 deg; out {out}; aside {aside} }}\npose {{ at 90 deg; out {further}; aside {on} }}"
            ),
            Hinge::Butt(ahead) => writeln!(text, "butt; pin-ahead {ahead}"),
        };
        text.push_str("}\n");
        for case in &self.cases {
            case.write(&mut text, *gap);
        }
        text
    }
}

impl Case {
    fn write(&self, text: &mut String, gap: i64) {
        let Self { name, wide, deep, .. } = self;
        let _ = writeln!(
            text,
            "case {name} {{\nwide {wide}; deep {deep}; high 800\nstock birch\n\
             bottom {{ joint dado {{ deep 6 }} }}\nback {{ stock thin; joint rabbet {{ deep 6 }} }}\n\
             top {{ stretchers 2 {{ wide 80 }}; joint pocket }}\npartitions {{ joint dado {{ deep 6 }} }}"
        );
        let member = match self.stiles {
            Some([left, right]) => {
                let _ = writeln!(
                    text,
                    "frame {{\nstock oak; joint pocket\nstile left {{ wide {left} }}; stile right {{ wide {right} }}\n\
                     rail top {{ wide 40 }}; rail bottom {{ wide 40 }}"
                );
                "stile { wide 40 }"
            }
            None => {
                text.push_str("frame none\n");
                "divider { }"
            }
        };
        let rail = if self.stiles.is_some() { "rail { wide 40 }" } else { "divider { }" };
        text.push_str("across {\n");
        for (index, (own, front)) in self.fronts.iter().enumerate() {
            if index > 0 {
                let _ = writeln!(text, "{member}");
            }
            let _ = match front {
                Front::Door(left) => {
                    let side = if *left { "left" } else { "right" };
                    writeln!(text, "door {own} {{ share 1; hung {side} }}")
                }
                Front::Doors => writeln!(text, "doors {own} {{ share 1 }}"),
                Front::Open => writeln!(text, "open {own} {{ share 1 }}"),
                Front::Bank => writeln!(
                    text,
                    "down {own} {{ share 1\ndrawer up{own} {{ share 1 }}\n{rail}\ndrawer mid{own} {{ share 1 }}\n{rail}\ndrawer low{own} {{ share 1 }} }}"
                ),
            };
        }
        text.push_str(if self.stiles.is_some() { "}\n}\n" } else { "}\n" });
        let set = match self.overlay {
            Some(by) => format!("overlay {{ by {by} }}"),
            None => "inset".to_owned(),
        };
        let _ = writeln!(
            text,
            "fronts {{ stock oak; set {set}; gap {gap}; meeting {gap}; hinge swing; pull knob }}\n\
             drawers {{ stock side; bottom-stock thin; slide rail }}\n}}"
        );
    }
}

fn front() -> impl Strategy<Value = Front> {
    prop::sample::select(vec![
        Front::Door(true),
        Front::Door(false),
        Front::Doors,
        Front::Bank,
        Front::Open,
    ])
}

fn case() -> impl Strategy<Value = Case> {
    let frame = prop::option::of([30i64..70, 30i64..70]);
    let overlay = prop::option::weighted(0.3, 3i64..14);
    (700i64..1000, 420i64..700, frame, overlay, prop::collection::vec(front(), 1..4)).prop_map(
        |(wide, deep, stiles, overlay, fronts)| {
            // Frame-less members are thin: overlay fronts share them.
            let overlay = overlay.map(|by| if stiles.is_some() { by } else { by.min(8) });
            let fronts = fronts.into_iter().map(|front| ('-', front)).collect();
            Case { name: '-', wide, deep, stiles, overlay, fronts }
        },
    )
}

fn hinge() -> impl Strategy<Value = Hinge> {
    prop_oneof![
        Just(Hinge::Cup),
        (0i64..8, -3i64..8, 0i64..8, 0i64..8).prop_map(|(a, b, c, d)| Hinge::Poses([
            a,
            b,
            a + c,
            b + d
        ])),
        (0i64..20).prop_map(Hinge::Butt),
    ]
}

fn plan() -> impl Strategy<Value = Plan> {
    let keep_out = prop::option::weighted(0.4, (any::<bool>(), 1i64..60, 20i64..200, 500i64..1500));
    (
        prop::collection::vec(case(), 1..4),
        any::<[bool; 2]>(),
        hinge(),
        (10i64..80, 25i64..90, 16i64..26, 2i64..5),
        keep_out,
    )
        .prop_map(|(mut cases, walls, hinge, (stands, from_edge, thick, gap), keep_out)| {
            let mut names = 'a'..='z';
            for case in &mut cases {
                case.name = names.next().expect("a name");
                for front in &mut case.fronts {
                    front.0 = names.next().expect("a name");
                }
            }
            // A post stands beside the piece.
            let wide: i64 = cases.iter().map(|case| case.wide).sum();
            let keep_out = keep_out.map(|(left, away, across, deep)| {
                [if left { -away - across } else { wide + away }, across, deep]
            });
            Plan { cases, walls, hinge, stands, from_edge, thick, gap, keep_out }
        })
}

/// Findings as they would be read in a mirror, in an order of their own.
fn read(text: &str, mirrored: bool) -> Vec<(&'static str, Vec<String>)> {
    let mut all: Vec<_> = found(text)
        .into_iter()
        .map(|(slug, title)| {
            let title = match mirrored {
                true => title.replace("left", "\0").replace("right", "left").replace('\0', "right"),
                false => title,
            };
            // Of two doors the left one is named first.
            let mut words: Vec<String> = title.split(' ').map(str::to_owned).collect();
            words.sort();
            (slug, words)
        })
        .collect();
    all.sort();
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_piece_in_a_mirror_has_the_same_findings(plan in plan()) {
        let (here, there) = (plan.text(), plan.mirrored().text());
        prop_assert_eq!(read(&here, false), read(&there, true), "{}\n{}", here, there);
    }

    /// Doors so narrow that a drawer comes out past any pull, and no case or
    /// post beside them: nothing that a narrower leaf's pull could come to
    /// lie in. The gap between the leaves of a pair grows with the others.
    #[test]
    fn more_gap_and_thinner_doors_make_no_finding(
        plan in plan(), more in 1i64..3, less in 1i64..5,
    ) {
        let mut plan = Plan { keep_out: None, ..plan };
        plan.cases.truncate(1);
        let case = &mut plan.cases[0];
        case.wide = 320 * case.fronts.len() as i64;
        case.overlay = None;
        let slugs = |plan: &Plan| -> Vec<&str> { found(&plan.text()).iter().map(|f| f.0).collect() };
        let before = slugs(&plan);
        let after = slugs(&Plan { gap: plan.gap + more, ..plan.clone() });
        // A door that goes free now may meet the next thing: one for one.
        let count = |all: &[&str], binds| all.iter().filter(|s| (**s == "door-binds") == binds).count();
        for binds in [true, false] {
            prop_assert!(count(&after, binds) <= count(&before, binds), "{}", plan.text());
        }
        let thinner = slugs(&Plan { thick: plan.thick - less, ..plan.clone() });
        if !before.contains(&"door-binds") {
            prop_assert!(!thinner.contains(&"door-binds"), "{}", plan.text());
        }
    }
}

fn one(stiles: Option<[i64; 2]>, fronts: &[Front]) -> Plan {
    let fronts = ('p'..).zip(fronts.iter().copied()).collect();
    let case = Case { name: 'a', wide: 900, deep: 450, stiles, overlay: None, fronts };
    Plan {
        cases: vec![case],
        walls: [false; 2],
        hinge: Hinge::Butt(0),
        stands: 32,
        from_edge: 40,
        thick: 20,
        gap: 2,
        keep_out: None,
    }
}

fn titles(plan: &Plan) -> Vec<String> {
    found(&plan.text()).into_iter().map(|(_, title)| title).collect()
}

/// A stile of 30 and a gap of 2 leave 32: a pull of 32 just clears the wall, a
/// pull of 33 does not. A pin 1 ahead moves it clear again.
#[test]
fn a_pull_clears_the_wall_by_as_much_as_stile_and_gap() {
    let plan = Plan { walls: [true, false], ..one(Some([30, 60]), &[Front::Door(true)]) };
    assert_eq!(titles(&plan), Vec::<String>::new());
    let plan = Plan { stands: 33, ..plan };
    assert_eq!(titles(&plan), ["the pull of a.p strikes the left wall at 89 degrees"]);
    assert!(titles(&Plan { hinge: Hinge::Butt(1), ..plan.clone() }).is_empty());
    // On a cup hinge of unknown path 1 mm more is within its mercy.
    assert!(titles(&Plan { hinge: Hinge::Cup, ..plan.clone() }).is_empty());
    assert!(titles(&Plan { walls: [false; 2], ..plan }).is_empty());
}

/// Two pulls of 32 need 64; a stile of 40 with its gaps leaves 44.
#[test]
fn doors_back_to_back_need_room_for_both_pulls() {
    let plan = one(Some([60, 60]), &[Front::Door(false), Front::Door(true)]);
    assert_eq!(titles(&plan), ["a.p and a.q strike each other when both are open, pull on pull"]);
    assert!(titles(&Plan { stands: 22, ..plan.clone() }).is_empty());
    // Hung the same way they never meet.
    assert!(titles(&one(Some([60, 60]), &[Front::Door(true), Front::Door(true)])).is_empty());
    // Pins 10 ahead carry each leaf 10 away from the other.
    assert!(titles(&Plan { hinge: Hinge::Butt(10), ..plan }).is_empty());
}

/// Beside a bank, a stile of 40 with its gaps leaves 44: a pull of 45 is in
/// the way of the drawer that is level with it, while the drawer comes out 300
/// and the pull stands no further from the hinge.
#[test]
fn a_drawer_is_pulled_into_an_open_door() {
    let mut plan = one(Some([60, 60]), &[Front::Bank, Front::Door(true)]);
    plan.cases[0].wide = 700;
    plan.stands = 45;
    assert_eq!(titles(&plan), ["a.p.midp strikes the pull of a.q when it is open 90 degrees"]);
    assert!(titles(&Plan { stands: 44, ..plan.clone() }).is_empty());
    // Hung on its other side it opens away from the bank.
    plan.cases[0].fronts[1].1 = Front::Door(false);
    assert!(titles(&plan).is_empty());
    plan.cases[0].fronts[1].1 = Front::Door(true);
    plan.cases[0].wide = 900;
    assert!(titles(&plan).is_empty());
}

/// A case 150 deeper stands beside the door: a pull 370 from the hinge passes
/// before it, one 120 from the hinge strikes its side.
#[test]
fn a_deeper_case_stops_a_pull_that_does_not_pass_before_it() {
    let mut plan = one(None, &[Front::Door(false)]);
    plan.cases[0].wide = 450;
    plan.cases.push(Case {
        name: 'b',
        deep: 600,
        fronts: vec![('z', Front::Open)],
        ..plan.cases[0].clone()
    });
    assert!(titles(&plan).is_empty());
    plan.from_edge = 290;
    assert_eq!(titles(&plan), ["the pull of a.p strikes the side of b at 84 degrees"]);
    // Of the same depth it stands beside nothing.
    plan.cases[1].deep = 450;
    assert!(titles(&plan).is_empty());
}

/// A post beside the piece, as a chimney breast is, stops a door like a wall.
#[test]
fn a_post_beside_the_piece_stops_a_pull() {
    let mut plan = one(None, &[Front::Doors]);
    plan.keep_out = Some([-101, 100, 1200]);
    plan.stands = 40;
    let title = "the pull of a.p.left-door strikes the post at 87 degrees";
    assert_eq!(titles(&plan), [title]);
    plan.keep_out = Some([901, 100, 1200]);
    assert_eq!(titles(&plan), [title.replace("left", "right")]);
    // It ends before the pull comes round.
    plan.keep_out = Some([901, 100, 500]);
    assert!(titles(&plan).is_empty());
}

/// Poses that give no path are refused, each in its own words.
#[test]
fn poses_begin_with_the_closed_door_and_go_on() {
    let text = one(None, &[Front::Doors]).text();
    for (poses, title) in [
        ("pose { at 0 deg }", "swing has only one pose"),
        (
            "pose { at 10 deg; out 1 }; pose { at 90 deg; out 9 }",
            "the first pose of swing is at 10 deg, not at 0 deg",
        ),
        (
            "pose { at 0 deg; aside 1 }; pose { at 90 deg; out 9 }",
            "the closed door of swing is not in its own place",
        ),
        (
            "pose { at 0 deg }; pose { at 45 deg; out 9 }; pose { at 45 deg; out 9 }",
            "a pose of swing at 45 deg comes after one at 45 deg",
        ),
    ] {
        let hinge = format!("cup 35; bore 12; from-edge 4; {poses}\n");
        let text = text.replace("butt; pin-ahead 0\n", &hinge);
        let files = MemoryFiles::one("a.case", &text);
        let compiled = pipeline::check(&files, "a.case").expect("readable");
        let found: Vec<_> =
            compiled.diagnostics.iter().map(|d| (d.slug, d.title.as_str())).collect();
        assert_eq!(found, [("hinge-poses", title)]);
    }
}

/// A chimney breast beside the piece reaches 36 out from the wall, 18 past the case, and stands
/// 1/2 from its right side: 2-1/4 from the hinge edge of the right door, whose stile is 1-3/4.
/// The hinge opens to 105 degrees. At 90 the leaf stands clear, but its outer edge, 16 from the
/// hinge, comes 2-1/4 nearer at 98 degrees, and its pull before that: a stop is told for it,
/// and fitted when the doors hang in the house.
#[test]
fn a_breast_beside_the_piece_stops_a_door_past_square() {
    let breast = "keep-out \"chimney\" { from-left 36-1/2; up 0; wide 40; high 96; deep 36 }";
    let text = spec("first.case").replace("fixing wall;", &format!("fixing wall; {breast};"));
    assert!(text.contains(breast));
    let compiled = compile(&text);
    let sheet = papers::one(&compiled, "fitting", Format::Text).expect("a fitting sheet");
    let line = sheet.lines().find(|line| line.contains("strikes the chimney at about"));
    let line = line.unwrap_or_else(|| panic!("{sheet}"));
    let degrees = line.split("at about ").nth(1).and_then(|own| own.split(':').next());
    let degrees: u32 = degrees.and_then(|own| own.parse().ok()).expect("degrees");
    assert!((91..98).contains(&degrees), "{line}");
    let steps = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    assert!(steps.contains("that stops it before it meets the chimney"), "{steps}");
}
