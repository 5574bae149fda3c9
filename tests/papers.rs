//! What single papers say of panels, pulls, glue and stocks.

use crate::support::{compile, demo_pieces, spec};
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

/// The left packers of the console are 1-1/32 thick, of maple planed to 5/8: two layers,
/// and three packers take six rough pieces. Box boards of 8-3/8 are glued up from two, of
/// 4-3/16 and 1/8 for jointing each. In square inches the rough maple comes to
/// 8 × 17-1/4 × 4-5/16 + 8 × 16 × 4-5/16 + 2 × 17-1/4 × 4-3/8 + 2 × 16 × 4-3/8 for the
/// boxes, 3 × 16 × 2-1/4 for the right packers, and 6 × 16 × 2-1/4 for the left:
/// 595.125 + 552 + 150.9375 + 140 + 108 + 216 = 1762.0625, and of that 144 at 4/4 are a
/// board foot: 12.2.
#[test]
fn every_layer_of_a_laminated_part_is_sawn_and_bought() {
    let list = paper(&spec("hall-console.case"), "cut-list");
    assert!(
        list.contains("laminated and planed to thickness\n   saw 6 for their layers\n"),
        "{list}"
    );
    let line = list.lines().find(|line| line.contains("UP-LPK  [ ] MI-LPK")).unwrap();
    assert!(line.ends_with("3 pieces of 2 layers: saw 6"), "{line}");
    let maple = list.lines().find(|line| line.starts_with("Sugar maple;")).unwrap();
    assert!(maple.contains("; 12.2 board feet in rough pieces"), "{maple}");
    let count = "when all is sawn and laminated, there are 46 parts, each with its mark; the layers of a laminated part count as one";
    assert!(list.contains(count), "{list}");
    // Two doors of three boards, each 5-9/16 wide, a drawer front, and the frame:
    // (6 × 21-13/16 × 5-9/16 + 33-5/16 × 5-1/16 + 2 × 31-1/2 × 2 + 3 × 33-1/2 × 1-3/4) / 144.
    assert!(paper(&spec("first.case"), "cut-list").contains("; 8.3 board feet in rough pieces"));
    // Nothing of the shelves is laminated.
    let plain = paper(&spec("alcove-shelves.case"), "cut-list");
    assert!(!plain.contains("layers"), "{plain}");
    assert!(plain.contains("when all is sawn, there are"), "{plain}");
}

/// The console's back of 13/64 = 0.203125 lies in a rabbet as wide as it is thick: figures
/// that must fit say on their own line what the tape can't. The bottom, in its dados, is
/// 16-3/64 = 16.046875 wide.
#[test]
fn figures_that_must_fit_are_told_finer_where_they_stand() {
    let list = paper(&spec("hall-console.case"), "cut-list");
    assert!(list.contains("rabbet 7/32~ (0.203) wide, 3/8 deep in the inside face"), "{list}");
    assert!(list.contains("== thin-ply: plywood 7/32~ (0.203) =="), "{list}");
    assert!(list.contains(">> 16-1/16~ (16.047)  wide, 3 pieces"), "{list}");
    // The packers are 25/64 thick: 0.390625.
    assert!(list.contains("to 13/32~ (0.391) thick"), "{list}");
    // What stands beside its mark needs no line below.
    assert!(!list.contains("  7/32~ = "), "{list}");
    // A shelf that lies loose must not fit: 15-51/64 = 15.796875 wide.
    assert!(list.contains(">> 15-13/16~  wide, 2 pieces"), "{list}");
    assert!(list.contains("\n  15-13/16~ = 15.797\n"), "{list}");
}

/// A tenon of 13/64 thick goes into a mortise as wide: 0.203 on both lines, in the middle of
/// 3/4: (48/64 − 13/64) / 2 = 35/128 = 0.2734 from the front.
#[test]
fn a_tenon_and_its_mortise_have_the_same_thousandths() {
    let text = spec("first.case")
        .replace("stock maple; joint pocket", "stock maple; joint tenon { long 1; thick 13/64 }");
    let list = paper(&text, "cut-list");
    assert!(list.contains("7/32~ (0.203) thick, 9/32~ (0.273) from the front face"), "{list}");
    let mortise = "long, 7/32~ (0.203) wide, 1-1/16 deep in the inner edge, 9/32~ (0.273) from the";
    assert!(list.contains(mortise), "{list}");
}

/// Whatever is rounded on a paper has one exact figure, a decimal or millimeters, and
/// stands on that paper.
#[test]
fn a_sign_has_one_value_which_is_no_fraction() {
    for (piece, compiled) in demo_pieces() {
        let texts = papers::packet(&compiled).expect("papers").into_iter();
        for file in texts.filter(|file| file.name.ends_with(".txt")) {
            let Some((sheet, exacts)) = file.text.split_once("Measured finer, they are\n") else {
                continue;
            };
            let pairs = exacts.lines().map_while(|line| line.trim().split_once(" = "));
            let pairs: Vec<(&str, &str)> = pairs.collect();
            assert!(!pairs.is_empty(), "{piece} {}", file.name);
            for (sign, value) in &pairs {
                let at = format!("{piece} {}: {sign} = {value}", file.name);
                assert_eq!(pairs.iter().filter(|pair| pair.0 == *sign).count(), 1, "{at}");
                let number = value.strip_suffix(" mm").unwrap_or(value);
                assert!(number.parse::<f64>().is_ok(), "{at}");
                // Letters of a drawing are not in the text.
                let drawn = sheet.contains("(drawing on the page");
                assert!(drawn || sheet.contains(sign), "{at}");
            }
        }
    }
}
