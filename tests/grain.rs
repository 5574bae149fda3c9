//! Which way the grain of fronts runs: figures worked by hand.

use casewright::measure::Length;
use casewright::parts::{Bore, Direction, FeatureKind, Part};
use casewright::pipeline::Compilation;

use crate::bench;
use crate::support::{compile, slugs, spec};

fn part(compiled: &Compilation, path: &str) -> Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1.clone()
}

/// The leaf is half of an opening 32-1/2 wide less two gaps of 3/32 and 3/16 between the
/// leaves: 16-1/16. It is 20-13/16 high. With level grain its length is its width. The cup
/// of its lower hinge is 4 mm and half of 35 mm from the edge it hangs on, and 3 above the
/// lower edge.
#[test]
fn a_door_may_have_its_grain_level() {
    let text = spec("first.case").replace("build slab", "build slab; grain horizontal");
    let compiled = compile(&text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let door = part(&compiled, "cupboard.store.left-door");
    assert_eq!(door.placement.length, Direction::X);
    assert_eq!(door.length.length, Length::inches(257, 16));
    assert_eq!(door.width.length, Length::inches(333, 16));
    let cup = door.features.iter().find(|own| own.kind == FeatureKind::Bore(Bore::Cup)).unwrap();
    let (along, across) = cup.center();
    assert_eq!(across, Length::inches(3, 1));
    assert_eq!(along, Length::mm(43).half());
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// A row of plywood fronts may have its grain upright; solid ones are told.
#[test]
fn a_drawer_front_may_have_its_grain_upright() {
    let sheet = "stock ply; set inset; build slab; grain vertical";
    let text = spec("first.case").replace("stock maple; set inset; build slab", sheet);
    let compiled = compile(&text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let front = part(&compiled, "cupboard.upper.front");
    assert_eq!(front.placement.length, Direction::Y);
    assert_eq!(front.length.length, Length::inches(77, 16));
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
    let solid = text.replace("stock ply; set inset", "stock maple; set inset");
    assert!(slugs(&compile(&solid)).contains(&"grain-upright"));
}

/// A front 5 less two gaps of 3/32 wide, 4-13/16, and 20-13/16 high has its grain along
/// its longer side: level, it would be glued up from short pieces, and would move four
/// times as much.
#[test]
fn a_tall_narrow_front_has_its_grain_upright() {
    let doors = "doors store { share 1; shelf { adjustable 1 } }";
    for narrow in ["false blind { wide 5 }", "false blind { wide 5; front { grain vertical } }"] {
        let row = format!("across {{ {doors}; stile {{ wide 1-1/2 }}; {narrow} }}");
        let text = spec("first.case").replace(doors, &row);
        assert!(text.contains(&row));
        let compiled = compile(&text);
        assert!(!slugs(&compiled).contains(&"grain-upright"), "{:?}", slugs(&compiled));
        let front = part(&compiled, "cupboard.blind.front");
        assert_eq!(front.placement.length, Direction::Y);
        assert_eq!(front.length.length, Length::inches(333, 16));
        assert_eq!(front.width.length, Length::inches(77, 16));
        assert_eq!(bench::built(&compiled), Vec::<String>::new());
    }
}

/// The doors of a case are upright as they are; one front that says otherwise is turned
/// alone, and written back it is as it was.
#[test]
fn one_front_differs_from_the_others() {
    let first = spec("first.case");
    let plain = compile(&first);
    let same = compile(&first.replace("high 5 }", "high 5; front { grain horizontal } }"));
    assert_eq!(
        part(&plain, "cupboard.upper.front").length,
        part(&same, "cupboard.upper.front").length
    );
    let doors = first.replace("share 1; shelf", "share 1; front { grain horizontal }; shelf");
    let doors = compile(&doors);
    assert_eq!(part(&doors, "cupboard.store.right-door").placement.length, Direction::X);
    assert_eq!(part(&doors, "cupboard.upper.front").placement.length, Direction::X);
}
