//! Finger pulls: figures worked by hand.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{Feature, FeatureKind};
use casewright::pipeline::Compilation;

use crate::bench;
use crate::support::{compile, slugs, spec};

fn cut(compiled: &Compilation, path: &str) -> Feature {
    let parts = compiled.parts.as_ref().expect("parts");
    let part = parts.named(path).unwrap_or_else(|| panic!("{path}")).1;
    let mut cuts = part.features.iter().filter(|own| own.kind == FeatureKind::Notch);
    cuts.next().cloned().expect("a finger pull")
}

fn shelf(finger: &str) -> Compilation {
    let own = "finger { wide 100; deep 30; from-top 100 }";
    let text = spec("signal-house-media-shelf.case");
    assert!(text.contains(own));
    compile(&text.replace(own, finger))
}

fn first(fronts: &str, drawer: &str) -> Compilation {
    let text = spec("first.case").replace("pull knob\n", &format!("{fronts}\n"));
    compile(&text.replace("drawer upper { high 5 }", drawer))
}

/// A door is 360 wide and 400 − 2 × 18 high inside, and reaches 7 over on all sides: 374
/// by 378. Its cut is 100 long with its middle 100 below the top, from 228 to 328 up, and
/// 30 deep at the latch edge, which is at the right of the left door.
#[test]
fn a_door_is_cut_at_its_latch_edge() {
    let compiled = shelf("finger { wide 100; deep 30; from-top 100 }");
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let (low, high) = (Length::mm(228), Length::mm(328));
    let left = cut(&compiled, "shelf.left.door");
    assert_eq!((left.u, left.v), ((low, high), (Length::mm(344), Length::mm(374))));
    let right = cut(&compiled, "shelf.right.door");
    assert_eq!((right.u, right.v), ((low, high), (Length::ZERO, Length::mm(30))));
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
    // Nothing of a pull is bought.
    let parts = papers::one(&compiled, "cut-list", Format::Text).expect("the cut list");
    assert!(parts.contains("finger pull 100 long and 30 deep"), "{parts}");
    assert!(!parts.contains("knob"), "{parts}");
}

/// The divider stands behind 7 of it: of 19 there are 12 open, of 18.5 less.
#[test]
fn a_finger_needs_room_behind_the_front() {
    let told = |deep: &str| {
        let compiled = shelf(&format!("finger {{ wide 100; deep {deep}; from-top 100 }}"));
        slugs(&compiled).contains(&"finger-blind")
    };
    assert!(!told("19"));
    assert!(told("18.5"));
}

/// The drawer front is 4-13/16 high, and its upper edge 4-29/32 above the opening's lower
/// edge. The box ends 4-9/16 up: only 11/32 of the cut is open above it, however deep it
/// is. A box 3 high ends at 3-7/16, below the cut.
#[test]
fn the_box_behind_a_drawer_front_leaves_the_cut_open() {
    let blind = first("finger { wide 4; deep 1 }", "drawer upper { high 5 }");
    let found = blind.diagnostics.iter().find(|own| own.slug == "finger-blind");
    let found = found.expect("the box is in the way");
    assert!(found.title.contains("11/32"), "{}", found.title);
    assert!(found.fixes.is_empty(), "{:?}", found.fixes);
    let open = first("finger { wide 4; deep 1 }", "drawer upper { high 5; box { high 3 } }");
    assert!(!slugs(&open).contains(&"finger-blind"), "{:?}", slugs(&open));
    // In the middle of the top edge of a front 32-5/16 wide.
    let own = cut(&open, "cupboard.upper.front");
    assert_eq!(own.u, (Length::inches(453, 32), Length::inches(581, 32)));
    assert_eq!(own.v, (Length::inches(61, 16), Length::inches(77, 16)));
    assert_eq!(bench::built(&open), Vec::<String>::new());
}

/// A front has a pull or a finger pull. One opening may differ from the others.
#[test]
fn a_front_has_a_pull_or_is_cut() {
    let both = shelf("pull knob; finger { }");
    assert!(slugs(&both).contains(&"word-twice") || slugs(&both).contains(&"name-unknown"));
    let one = first("pull knob", "drawer upper { high 5; front { finger { } }; box { high 3 } }");
    assert_eq!(slugs(&one), Vec::<&str>::new());
    let parts = one.parts.as_ref().unwrap();
    let front = parts.named("cupboard.upper.front").unwrap().1;
    assert_eq!(front.features.len(), 1, "{:?}", front.features);
    assert_eq!(front.features[0].kind, FeatureKind::Notch);
}

/// A cut fits its edge: doors are 378 high. Of a slab 1 in stays behind it: of a drawer
/// front 4-13/16 high, 3-13/16 may be cut.
#[test]
fn a_finger_pull_fits_its_front() {
    let told = |finger: &str| slugs(&shelf(finger)).contains(&"pull-off-front");
    assert!(!told("finger { wide 378; deep 30 }"));
    assert!(told("finger { wide 379; deep 30 }"));
    assert!(told("finger { wide 100; deep 30; from-top 49.5 }"));
    assert!(!told("finger { wide 100; deep 30; from-top 50 }"));
    let deep = |deep: &str| {
        let own = format!("high 5; front {{ finger {{ wide 4; deep {deep} }} }} }}");
        let text = spec("first.case").replace("high 5 }", &own);
        slugs(&compile(&text)).contains(&"pull-off-front")
    };
    assert!(!deep("3-13/16"));
    assert!(deep("3-27/32"));
    // The front is 36 - 2 x 1-3/4 - 2 x 3/32 = 32-5/16 long: between stiles of 2-1/4 its
    // top rail has 27-13/16.
    let framed = |wide: &str| {
        let own = format!(
            "high 8; front {{ build panel {{ stile 2-1/4; rail 2-1/4; panel-stock thin; groove 3/8; float 1/16 }}; finger {{ wide {wide}; deep 7/8 }} }} }}"
        );
        let text = spec("first.case").replace("high 5 }", &own);
        slugs(&compile(&text)).contains(&"pull-off-front")
    };
    assert!(!framed("27-13/16"));
    assert!(framed("27-27/32"));
}

/// The bar of the lower doors, 5 between its screws of 5/32, has its upper screw half of
/// that higher: 2-1/2 + 5/64 from an end is the least.
#[test]
fn a_pull_lies_on_its_front() {
    let told = |place: &str| {
        let text = spec("weir-house-pantry.case");
        let text = text.replace("pull bar { from-top 4 }", &format!("pull bar {{ {place} }}"));
        slugs(&compile(&text)).contains(&"pull-off-front")
    };
    assert!(told("from-top 2-9/16"));
    assert!(!told("from-top 2-19/32"));
    assert!(told("from-top 60"));
    assert!(told("from-bottom 60"));
}

/// A door 9-13/16 high between rails of 2-1/4 is cut 6 wide in its latch stile, so beside
/// the tenons of both rails: from 1-29/32 to 7-29/32 up. The stile is 2-1/4 wide, and a bit
/// gets at its outer edge when the door is glued up.
#[test]
fn a_low_framed_door_is_cut_beside_its_tenons() {
    let framed = "set inset; build panel { stile 2-1/4; rail 2-1/4; panel-stock thin }";
    let text = spec("first.case")
        .replace("drawer upper { high 5 }", "open upper { share 1 }")
        .replace(
            "doors store { share 1; shelf { adjustable 1 } }",
            "door store { high 10; hung left }",
        )
        .replace("set inset; build slab", framed)
        .replace("pull knob\n", "finger { wide 6; deep 7/8 }\n");
    let compiled = compile(&text);
    let own = cut(&compiled, "cupboard.store.door.right-stile");
    assert_eq!(own.u, (Length::inches(61, 32), Length::inches(253, 32)));
    assert_eq!(own.v, (Length::inches(11, 8), Length::inches(9, 4)));
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}
