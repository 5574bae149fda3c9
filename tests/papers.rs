//! What single papers say of panels, pulls, glue and stocks.

use crate::support::{compile, spec};
use casewright::papers;

/// A paper of a piece as plain text.
fn paper(text: &str, slug: &str) -> String {
    let compiled = compile(text);
    let files = papers::packet(&compiled).unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
    let name = format!("{slug}.txt");
    files.into_iter().find(|file| file.name == name).expect("the paper").text
}

/// The first cabinet with framed fronts, their panels of this stock.
fn framed(panels: &str) -> String {
    let build = format!(
        "build panel {{ stile 2-1/4; rail 2; panel-stock {panels}; groove 3/8; float 1/16 }}"
    );
    spec("first.case")
        .replace("build slab", &build)
        .replace("pull knob { screw 5/32 }", "pull knob { centers 3; screw 5/32 }")
        .replace("drawer upper { high 5 }", "drawer upper { high 7 }")
        .replace(
            "stock box-side {",
            "stock panel-ash { lumber 4/4; thickness 13/64; species white-ash }\nstock box-side {",
        )
}

#[test]
fn a_panel_of_sheet_goods_does_not_move() {
    let order = paper(&framed("thin"), "assembly-order");
    assert!(!order.contains("it must move"), "{order}");
    assert!(!order.contains("would show when a panel shrinks"), "{order}");
    assert!(order.contains("the panel is a sheet and keeps its size"), "{order}");
    assert!(!paper(&framed("thin"), "gaps").contains("Panels that float"));
    let order = paper(&framed("panel-ash"), "assembly-order");
    assert!(order.contains("put no glue in the panel's grooves; it must move"), "{order}");
    assert!(order.contains("would show when a panel shrinks"), "{order}");
    assert!(paper(&framed("panel-ash"), "gaps").contains("Panels that float"));
}

#[test]
fn clamps_come_off_before_the_glue_has_cured() {
    let order = paper(&spec("first.case"), "assembly-order");
    assert!(order.contains("24 h to cure, the first 1 h in the clamps"), "{order}");
    assert!(!order.contains("24 h in the clamps"), "{order}");
    // Clamped for longer than it cures, it is worked when it comes out of them.
    let long = spec("first.case").replace("clamp 1 h; cure 24 h", "clamp 3 h; cure 2 h");
    let order = paper(&long, "assembly-order");
    assert!(order.contains("3 h in the clamps") && !order.contains("to cure"), "{order}");
}

#[test]
fn both_holes_of_a_pull_on_an_upright_panel_have_their_places() {
    let list = paper(&framed("thin"), "cut-list");
    // The front is 32-1/2 − 2 × 3/32 = 32-5/16 wide, its panel between stiles of
    // 2-1/4 in grooves of 3/8, 1/16 off their bottoms: 32-5/16 − 4-1/2 + 5/8 =
    // 28-7/16; the holes lie 1-1/2 to each side of its middle, 14-7/32: 12-23/32 and
    // 15-23/32. It is 7 − 3/16 − 4 + 5/8 = 3-7/16 high, of which the middle is 1-23/32.
    let places = "2 pull holes 5/32 through from the front face: center 1-23/32 from the bottom end, 12-23/32 and 15-23/32 from the left edge";
    assert!(list.contains(places), "{list}");
    assert!(!list.contains("as drawn"), "{list}");
}

#[test]
fn a_stock_of_which_nothing_is_said_has_no_line_of_its_own() {
    let text = spec("first.case")
        .replace("plywood 1/4; actual 13/64; sheet { long 96; wide 48 }", "plywood 1/4");
    let list = paper(&text, "cut-list");
    assert!(list.contains("== thin: plywood 1/4 =="), "{list}");
    assert!(!list.lines().any(|line| line.trim() == "."), "{list}");
}

/// A door or drawer front of 32-5/16 by 6-13/16 between stiles of 2-1/4 and rails of 2
/// shows 27-13/16 by 2-13/16 of its panel. Tenons stay 1/16 off the bottoms of grooves of
/// 3/8, and so does the panel: 5/16 at each edge are 28-7/16 by 3-7/16. A solid panel
/// that floats 1/8 goes in 1/4: 28-5/16 by 3-5/16; one that floats 1/32 stays off
/// as far as the tenons do.
#[test]
fn a_panel_stays_off_the_bottoms_of_its_grooves() {
    let panel = |text: &str| {
        let parts = compile(text).parts.unwrap();
        let all = parts.all.iter();
        let of = |part: &&casewright::parts::Part| part.path.ends_with("upper.front.panel");
        let paths: Vec<&str> = parts.all.iter().map(|part| part.path.as_str()).collect();
        let own = all.clone().find(of).unwrap_or_else(|| panic!("{paths:?}"));
        (own.width.length, own.length.length)
    };
    let sixteenths = |wide, high| {
        let length = |count| casewright::measure::Length::inches(count, 16);
        (length(wide), length(high))
    };
    let by_tenon = sixteenths(455, 55);
    assert_eq!(panel(&framed("thin")), by_tenon);
    let floats = |by: &str| framed("panel-ash").replace("float 1/16", &format!("float {by}"));
    assert_eq!(panel(&floats("1/8")), sixteenths(453, 53));
    assert_eq!(panel(&floats("1/32")), by_tenon);
    // A maker who leaves no room gets a panel as large as its grooves are deep.
    let full = framed("thin").replace("float 1/16", "room 0");
    assert_eq!(panel(&full), sixteenths(457, 57));
}
