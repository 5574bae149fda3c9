//! What goes round pipes: boards of a case, and nailers that are divided. All figures
//! are worked by hand from the starter: 36 wide, 18 deep and 34-1/2 high, of plywood
//! of 23/32 with a back of 13/64.

use casewright::measure::Length;
use casewright::parts::{FeatureKind, Part, Parts, Role};

use crate::support::{compile, slugs};

const FIRST: &str = include_str!("../specs/first.case");

/// The starter with a keep-out, and what its case says of it.
fn with(keep_out: &str, says: &str) -> Parts {
    let text = FIRST
        .replace("humidity 30% to 55% }", &format!("humidity 30% to 55%; {keep_out} }}"))
        .replace("  stock ply          ", &format!("  {says}\n  stock ply          "));
    assert!(text.contains(keep_out) && text.contains(says));
    let compiled = compile(&text);
    compiled.parts.unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics))
}

fn of(parts: &Parts, role: Role) -> Vec<&Part> {
    parts.all.iter().filter(|part| part.role == role).collect()
}

fn sixty_fourths(count: i64) -> Length {
    Length::inches(count, 64)
}

/// The bottom begins 15/32 from the left side of the case, 1/4 deep in an end of 23/32,
/// and its front edge lies 3/4 behind the face. A pipe from 10 to 12 that stands 3 out
/// of the wall is passed at 1/2: from 9-1/2 and to 12-1/2, less 15/32; and from
/// 18 - 3 - 1/2 - 3/4 = 13-3/4 to the rear edge at 18 - 13/64 - 3/4 = 17-3/64.
#[test]
fn a_bottom_is_cut_open_at_the_back() {
    let pipe = "keep-out \"pipe\" { from-left 10; up 0; wide 2; high 4; deep 3 }";
    for (hot, says, clear) in [
        ("", "around \"pipe\"", 32),
        ("deep 3; hot", "around \"pipe\"", 64),
        ("deep 3; hot", "around \"pipe\" { clear 1/4 }", 16),
    ] {
        let pipe = if hot.is_empty() { pipe.to_owned() } else { pipe.replace("deep 3", hot) };
        let parts = with(&pipe, says);
        let bottoms = of(&parts, Role::Bottom);
        let [bottom] = bottoms.as_slice() else { panic!("{bottoms:#?}") };
        let notches: Vec<_> =
            bottom.features.iter().filter(|own| own.kind == FeatureKind::Notch).collect();
        let [notch] = notches.as_slice() else { panic!("{notches:#?}") };
        let (from, to) = (10 * 64 - 30 - clear, 12 * 64 - 30 + clear);
        assert_eq!(notch.u, (sixty_fourths(from), sixty_fourths(to)));
        let front = 15 * 64 - clear - 48;
        assert_eq!(notch.v, (sixty_fourths(front), sixty_fourths(17 * 64 + 3)));
    }
}

/// A drawer whose opening begins 28 above the floor has nothing to do with a pipe behind
/// the doors, though both meet the back: 34-1/2 - 1-1/2 - 5 = 28.
#[test]
fn the_back_is_no_part_of_a_drawer_that_is_cut_around() {
    let with = |up: &str| {
        let pipe = format!("keep-out \"pipe\" {{ from-left 4; up {up}; wide 1; high 1; deep 3 }}");
        let text = FIRST
            .replace("humidity 30% to 55% }", &format!("humidity 30% to 55%; {pipe} }}"))
            .replace("drawer upper { high 5 }", "drawer upper { high 5; around \"pipe\" }");
        assert!(text.contains(&pipe) && text.contains("around"));
        slugs(&compile(&text)).into_iter().filter(|slug| *slug == "around-unused").count()
    };
    assert_eq!(with("8"), 1);
    assert_eq!(with("30"), 0);
}

/// A vent from 16 to 20 stands in the way of the nailer: its pieces end 1/2 clear of it,
/// and each is held by pockets at the end of the case alone. From 23/32 to 15-1/2, and
/// from 20-1/2 to 35-9/32, are 14-25/32 each.
#[test]
fn a_nailer_is_divided_at_a_vent() {
    let vent = "keep-out \"vent\" { from-left 16; up 28; wide 4; high 8; deep 1 }";
    let parts = with(vent, "around \"vent\"");
    let nailers: Vec<&Part> =
        parts.all.iter().filter(|part| matches!(part.role, Role::Nailer(_))).collect();
    let names: Vec<&str> = nailers.iter().map(|part| part.path.as_str()).collect();
    assert_eq!(names, ["cupboard.top-nailer-1", "cupboard.top-nailer-2"]);
    for nailer in nailers {
        assert_eq!(nailer.length.length, sixty_fourths(14 * 64 + 50));
        let pocketed =
            |own: &&casewright::parts::Feature| matches!(own.kind, FeatureKind::Pockets(..));
        assert_eq!(nailer.features.iter().filter(pocketed).count(), 1);
    }
}
