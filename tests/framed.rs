//! Framed fronts with mid rails: figures worked by hand.

use casewright::measure::Length;
use casewright::model::Build;
use casewright::papers::{self, Format};
use casewright::parts::{Bore, Face, FeatureKind, Part};
use casewright::pipeline::Compilation;
use casewright::revision::{self, Named};

use crate::bench;
use crate::support::{compile, slugs, spec};

/// The wardrobe with its mid rail written otherwise. Its doors are 2060 high, the top
/// rail is 75 wide, the bottom rail 110, a groove 10 deep, and room for 1.5 is left in it.
fn wardrobe(mid: &str) -> String {
    let own = "mid-rail { wide 90 mm; from-bottom 900 mm }";
    let text = spec("mill-lane-wardrobe.case");
    assert!(text.contains(own));
    text.replace(own, mid)
}

fn part(compiled: &Compilation, name: &str) -> Part {
    let parts = compiled.parts.as_ref().expect("parts");
    let path = format!("wardrobe.clothes.left-door.{name}");
    parts.named(&path).unwrap_or_else(|| panic!("{path}")).1.clone()
}

/// The lower and the upper edge of a part, from the bottom of its door.
fn place(compiled: &Compilation, name: &str) -> (Length, Length) {
    let stile = part(compiled, "left-stile").cuboid().from.y;
    let space = part(compiled, name).cuboid();
    (space.from.y - stile, space.to.y - stile)
}

fn mm(halves: i64) -> Length {
    Length::mm(halves).half()
}

/// Its middle at 900 and 90 wide, the rail reaches from 855 to 945. The panels go 8.5
/// into their grooves: the lower from 110 − 8.5 to 855 + 8.5, the upper from 945 − 8.5 to
/// 2060 − 75 + 8.5.
#[test]
fn a_mid_rail_parts_a_door_into_two_panels() {
    let compiled = compile(&wardrobe("mid-rail { wide 90 mm; from-bottom 900 mm }"));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    assert_eq!(place(&compiled, "mid-rail"), (Length::mm(855), Length::mm(945)));
    assert_eq!(place(&compiled, "bottom-rail"), (Length::ZERO, Length::mm(110)));
    assert_eq!(place(&compiled, "bottom-panel"), (mm(203), mm(1727)));
    assert_eq!(place(&compiled, "top-panel"), (mm(1873), mm(3987)));
    let rail = part(&compiled, "mid-rail");
    let grooves = rail.features.iter().filter(|own| own.kind == FeatureKind::Groove);
    let mut faces: Vec<Face> = grooves.map(|own| own.face).collect();
    faces.sort_unstable();
    assert_eq!(faces, [Face::WidthStart, Face::WidthEnd]);
    // Counted from the top it is 2060 − 900 down.
    let from_top = compile(&wardrobe("mid-rail { wide 90 mm; from-top 1160 mm }"));
    assert_eq!(place(&from_top, "mid-rail"), (Length::mm(855), Length::mm(945)));
}

/// Between the rails 2060 − 75 − 110 = 1875 are left. One mid rail of 75 leaves 1800, 900
/// on either side; two of 75 and 90 leave 1710, 570 for each of three panels. With the
/// upper one at 1500, its lower edge is at 1462.5, and the other, 90 wide, leaves
/// 1462.5 − 110 − 90 = 1262.5, 631.25 on either side.
#[test]
fn mid_rails_without_a_place_stand_evenly() {
    let one = compile(&wardrobe("mid-rail"));
    assert_eq!(place(&one, "mid-rail"), (Length::mm(1010), Length::mm(1085)));
    let two = compile(&wardrobe("mid-rail; mid-rail { wide 90 mm }"));
    assert_eq!(slugs(&two), Vec::<&str>::new());
    assert_eq!(place(&two, "mid-rail-1"), (Length::mm(680), Length::mm(770)));
    assert_eq!(place(&two, "mid-rail-2"), (Length::mm(1340), Length::mm(1415)));
    assert_eq!(place(&two, "panel-3"), (mm(2813), mm(3987)));
    assert_eq!(bench::built(&two), Vec::<String>::new());
    let mixed = compile(&wardrobe("mid-rail { from-bottom 1500 mm }; mid-rail { wide 90 mm }"));
    let low = Length::mm(110) + Length::mm(63125) / 100;
    assert_eq!(place(&mixed, "mid-rail-1"), (low, low + Length::mm(90)));
    assert_eq!(bench::built(&mixed), Vec::<String>::new());
}

/// With tenons of 30 the mortise for the mid rail runs between its two grooves, from
/// 855 + 10 to 945 − 10, and nothing is cut back beside it; it is 31.5 deep.
#[test]
fn the_mortise_of_a_mid_rail_runs_between_its_grooves() {
    let mid = "tenon 30 mm; mid-rail { wide 90 mm; from-bottom 900 mm }";
    let compiled = compile(&wardrobe(mid));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let stile = part(&compiled, "left-stile");
    let mortises = stile.features.iter().filter(|own| own.kind == FeatureKind::Mortise);
    let spans: Vec<_> = mortises.map(|own| (own.u, own.deep)).collect();
    assert!(spans.contains(&((Length::mm(865), Length::mm(935)), mm(63))), "{spans:?}");
    let rail = part(&compiled, "mid-rail");
    assert!(!rail.features.iter().any(|own| own.kind == FeatureKind::Haunch));
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// Its middle at 1035, the mid rail has a mortise from 1000 to 1070. The third of five hinges
/// would stand in the middle between 130 and 2060 − 130, at 1030; its cup of 35 keeps 3/16 in,
/// 4.7625, and a mark of 1/2 from a mortise, since both are laid out to a mark, so it goes down
/// to 1000 − 5.2625 − 17.5 = 977.2375, or to 977 on that tape. Up to 1093 it would be farther. The others stay, and with a mid rail
/// at 900 all do. A door's own hinges go where they are written, though a mortise is there.
#[test]
fn a_hinge_steps_aside_for_a_mid_rail() {
    let heights = |mid: &str| -> Vec<Length> {
        let compiled = compile(&wardrobe(&format!("tenon 30 mm; {mid}")));
        assert_eq!(slugs(&compiled), Vec::<&str>::new());
        assert_eq!(bench::built(&compiled), Vec::<String>::new());
        let stile = part(&compiled, "left-stile");
        let cups = stile.features.iter().filter(|own| own.kind == FeatureKind::Bore(Bore::Cup));
        cups.map(|own| own.center().0).collect()
    };
    let even = [260, 1160, 2060, 2960, 3860].map(mm);
    assert_eq!(heights("mid-rail { wide 90 mm; from-bottom 900 mm }"), even);
    let aside = [260, 1160, 1954, 2960, 3860].map(mm);
    assert_eq!(heights("mid-rail { wide 90 mm; from-bottom 1035 mm }"), aside);
    let low = "tenon 30 mm; mid-rail { wide 90 mm; from-bottom 300 mm }";
    let written = wardrobe(low).replace("hinge   cup\n", "hinge   cup { from-bottom 300 mm }\n");
    assert!(slugs(&compile(&written)).contains(&"bore-meets-joint"));
}

/// A door 0.6 higher has its middle at 1030.3, and a mid rail there at 1035.2 has its mortise
/// from 1000.2 up. A cup at 977.8 would be drawn 1000.2 − 977.8 − 17.5 = 4.9 from that, but
/// printed at 978, and the mortise at 1000: 4.5 from it, which is less than 3/16 in. At 977.3 it is
/// printed at 977.5, and 5 are left.
#[test]
fn a_hinge_steps_aside_for_what_is_printed() {
    let text = wardrobe("tenon 30 mm; mid-rail { wide 90 mm; from-bottom 1035.2 mm }");
    let compiled = compile(&text.replace("high 2250 mm", "high 2250.6 mm"));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let stile = part(&compiled, "left-stile");
    let mut cups = stile.features.iter().filter(|own| own.kind == FeatureKind::Bore(Bore::Cup));
    let center = cups.nth(2).map(|own| own.center().0);
    assert_eq!(center, Some(Length::mm(9773) / 10));
    let fitting = papers::one(&compiled, "fitting", Format::Text).expect("the fitting sheet");
    let row = fitting.lines().find(|line| line.contains("left door, left stile        3"));
    assert!(row.is_some_and(|row| row.contains("977.5~")), "{row:?}");
    assert_eq!(bench::thin_walls(&compiled), Vec::<String>::new());
}

/// Rules take a mid rail as it stands: beside another they leave 6 for a panel at least,
/// from 110 + 6 + 45 up, and between its grooves 12 of its tenons.
#[test]
fn a_mid_rail_leaves_a_panel_and_has_tenons() {
    let at = |from: &str| wardrobe(&format!("mid-rail {{ wide 90 mm; from-bottom {from} }}"));
    let told = |text: &str, slug: &str| slugs(&compile(text)).contains(&slug);
    assert!(told(&at("160 mm"), "rails-meet"));
    assert!(!told(&at("161 mm"), "rails-meet"));
    let wide = |wide: &str| wardrobe(&format!("mid-rail {{ wide {wide}; from-bottom 900 mm }}"));
    assert!(told(&wide("31 mm"), "tenon-too-narrow"));
    assert!(!told(&wide("32 mm"), "tenon-too-narrow"));
    let twice = "mid-rail { from-bottom 900 mm; from-top 900 mm }";
    assert!(told(&wardrobe(twice), "word-twice"));
}

/// A door of 60 in needs no mid rail, one a mark higher does: the opening of the pantry's
/// lower doors is 3/16 higher than its doors.
#[test]
fn a_door_of_sixty_inches_needs_no_mid_rail() {
    let lower = |high: &str| {
        let text = spec("weir-house-pantry.case").replace("high 84\n", "high 108\n");
        compile(&text.replace("        high 48\n", &format!("        high {high}\n")))
    };
    assert!(!slugs(&lower("60-3/16")).contains(&"no-mid-rail"));
    let tall = lower("60-7/32");
    assert!(slugs(&tall).contains(&"no-mid-rail"));
    // The upper doors are built by the same statement, and are low.
    let found = tall.diagnostics.iter().find(|own| own.slug == "no-mid-rail").unwrap();
    assert!(found.fixes.is_empty(), "{:?}", found.fixes);
}

/// A leaf of 545.5 by 2060, 19 thick: stiles of 70, rails of 75, 90, and 110 between them,
/// and panels 5.8 thick in what they leave, 405.5 by 1785, all of oak at 12 %.
#[test]
fn a_mid_rail_is_weighed() {
    let compiled = compile(&wardrobe("mid-rail { wide 90 mm; from-bottom 900 mm }"));
    let piece = compiled.piece.as_ref().unwrap();
    let opening = piece.cases[0].openings.iter().find(|own| own.is_door()).unwrap();
    let fronts = opening.front.as_ref().unwrap();
    let Build::Panel(panel) = &fronts.build else { panic!("a framed door") };
    let [oak, thin] = [fronts.stock, panel.panel_stock].map(|stock| piece.density(stock));
    let wide = opening.leaf(fronts).0.length.to_mm_f64();
    let frame = (2060.0 * 70.0 * 2.0 + (wide - 140.0) * 275.0) * 19.0 * oak;
    let panels = (wide - 140.0) * 1785.0 * 5.8 * thin;
    let kilograms = piece.leaf_mass(opening, fronts).0.to_f64();
    assert!((kilograms - (frame + panels) / 1e9).abs() < 0.001, "{kilograms}");
}

/// A mid rail goes over the table for each of its edges; where only its place changes, no
/// set-up is told to have lost or gained a piece.
#[test]
fn a_mid_rail_that_moves_stays_in_its_set_up() {
    let [was, now] = ["900 mm", "950 mm"]
        .map(|from| compile(&wardrobe(&format!("mid-rail {{ wide 90 mm; from-bottom {from} }}"))));
    let named = |compiled| Named { name: "wardrobe.case", compiled };
    let told = revision::compare(named(&was), named(&now));
    assert!(told.setups.is_empty(), "{:?}", told.setups);
    assert!(!told.parts.changed.is_empty());
}

/// The mid rail of all fronts is that of the doors: a drawer behind them, framed as they are,
/// has none, where it would lie 900 up in a front of 180.
#[test]
fn a_drawer_takes_no_mid_rail_of_the_doors() {
    let text = wardrobe("mid-rail { wide 90 mm; from-bottom 900 mm }").replace(
        "high 180 mm; set-back 60 mm; front { build slab }",
        "high 260 mm; set-back 60 mm",
    );
    let compiled = compile(&text);
    let piece = compiled.piece.as_ref().unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
    let mids = |name: &str| {
        let mut all = piece.cases.iter().flat_map(|case| &case.openings);
        let own = all.find(|own| own.path.ends_with(name)).and_then(|own| own.front.as_ref());
        match &own.unwrap().build {
            Build::Panel(panel) => panel.mids.len(),
            Build::Slab => panic!("{name} is a slab"),
        }
    };
    assert_eq!((mids(".socks"), mids(".clothes")), (0, 1));
    assert!(!slugs(&compiled).contains(&"rails-meet"), "{:?}", slugs(&compiled));
}
