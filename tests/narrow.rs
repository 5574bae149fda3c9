//! Cases that may have no stud behind them, worked by hand: studs stand 16 in or 400 mm apart.

use casewright::papers::{self, EXAMPLES, Format};
use casewright::pipeline::Compilation;

use crate::support::{compile, compile_example, packet, spec};

fn order(compiled: &Compilation) -> String {
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    papers::one(compiled, "assembly-order", Format::Text).expect("an order")
}

const NONE: &str = "so there may be none behind it: where there is none, screw a board to the studs on both sides of its place, behind";

/// The first cabinet as a tower, so wide.
fn tower(wide: &str) -> Compilation {
    compile(
        &spec("first.case")
            .replace("wide 36; deep 18; high 34-1/2", &format!("wide {wide}; deep 18; high 60")),
    )
}

/// What is narrower than studs stand apart may stand between two of them.
#[test]
fn a_tower_between_two_studs_is_told() {
    let compiled = tower("15-31/32");
    let told = order(&compiled);
    let line = format!(
        "cupboard is only 15-31/32 wide, and studs stand 16 apart or more, {NONE} TNL, and drive the screws into that board"
    );
    assert!(told.contains(&line), "{told}");
    assert!(told.contains("use anchors for hollow walls through TNL, as their data sheet has it; never trust a screw in wallboard or plaster alone"), "{told}");
    let packet = packet(&compiled);
    let wall = packet["operations"].as_array().unwrap().iter();
    let wall = wall.into_iter().find(|own| own["kind"] == "fix to wall").unwrap();
    let own = &wall["narrow"][0];
    assert_eq!((&own["case"], &own["wide"]["print"]), (&"cupboard".into(), &"15-31/32".into()));
    // A stud stands behind whatever is as wide as from one to the next.
    for wide in ["16", "36"] {
        assert!(!order(&tower(wide)).contains("may be none"), "{wide}");
    }
    let free = spec("first.case").replace("fixing wall", "fixing none");
    let free = free.replace("wide 36; deep 18; high 34-1/2", "wide 14; deep 18; high 30");
    assert!(!order(&compile(&free)).contains("may be none"));
}

/// Two towers of 14 that are screwed to each other are 28 wide together. Apart, each stands by
/// itself.
#[test]
fn a_tower_beside_another_case_is_held_by_it() {
    let tower = |name: &str| {
        let text = spec("first.case");
        let (_, case) = text.split_once("case cupboard").unwrap();
        let case = case.replace("wide 36; deep 18; high 34-1/2", "wide 14; deep 18; high 60");
        format!("case {name}{case}\n")
    };
    let text = spec("first.case");
    let (head, _) = text.split_once("case cupboard").unwrap();
    let both = format!("{head}{}{}", tower("one"), tower("two"));
    assert!(!order(&compile(&both)).contains("may be none"));
    let wide = both.replacen("wide 14;", "wide 36;", 1);
    assert!(!order(&compile(&wide)).contains("may be none"));
}

/// A case that hangs says how many studs it has when they are found, and each hangs by itself.
/// Its strip reaches to two.
#[test]
fn a_narrow_case_that_hangs_is_told() {
    let own = EXAMPLES.iter().find(|own| own.slug == "hung-on-the-wall").unwrap();
    let hung = |wide: &str, studs: &str| {
        let text = own.text.replace("wide 36; deep 13", &format!("wide {wide}; deep 13"));
        let text = text.replace("doors store { share 1;", "door store { share 1; hung left;");
        compile_example(&text.replace("hung { up 54 }", &format!("hung {{ up 54; {studs} }}")))
    };
    let told = order(&hung("14", ""));
    let line = format!("pots is only 14 wide, and studs stand 16 apart or more, {NONE} TNL, BNL,");
    assert!(told.contains(&line), "{told}");
    assert!(
        told.contains("must bear what the weights sheet says goes down on each screw"),
        "{told}"
    );
    let strip = "let the strip for pots reach to two studs, past the sides of the case";
    assert!(told.contains(strip), "{told}");
    // One stud is sure, and no board is asked for.
    let told = order(&hung("20", ""));
    assert!(told.contains(strip) && !told.contains("may be none"), "{told}");
    for (wide, studs) in [("32", ""), ("14", "studs 1"), ("14", "studs 2")] {
        let told = order(&hung(wide, studs));
        assert!(!told.contains(strip) && !told.contains("may be none"), "{wide} {studs}");
    }
}
