//! A kitchen along one wall, priced by hand, line by line: what it takes is worked from its cut
//! list and its spec, and each line of the buying list is held against that.

use casewright::papers::{self, Format};

use crate::buying::csv;
use crate::support::compile;

const KITCHEN: &str = include_str!("kitchen/saltworks-row-kitchen.case");

/// What is bought by hand: how much, what, and what that comes to in cents.
fn by_hand() -> Vec<(&'static str, &'static str, i64)> {
    vec![
        // Of a sheet 95 x 47 are left inside its trimmed edges. Each part takes a saw cut of 1/8
        // with it, and the last one beside it is none: 95-1/8 x 47-1/8, which are 4,482.8 square
        // inches. The six ends are 30-1/2 x 23-1/4 and take 30-5/8 x 23-3/8 = 715.9 each: 4,295.2.
        // Two bottoms of 35-1/16 x 23-3/64 take 815.4 each, and one of 23-1/16 537.3; the shelf is
        // no smaller than 34-7/16 x 22-51/64, 792.3. Boards 4 wide are, end to end with their saw
        // cuts, twice 72-3/32, four of 34-11/16, twice 24-1/8, twice 22-11/16, and seven of
        // 17-49/64: 500.9, and 2,066.3. Front stretchers of 3-31/32 take 92-1/16 x 4-3/32 = 376.9,
        // and the batten 65.1. All are 9,763.7, more than two sheets have, and three hold them:
        // 3 x 86.00.
        ("3 sheets", "ply: ", 25_800),
        // The backs are 30-1/2, 30-1/2, and 23-5/16 wide. No two of them lie beside each other on
        // 47, and one behind the other they are 35-5/16 + 35-5/16 + 30-1/2 long, more than 95. So
        // they take two sheets, and the drawer bottoms come from what is left: 2 x 41.50.
        ("2 sheets", "thin: ", 83_00),
        // Seven fronts and the filler lie on one: 164.00.
        ("1 sheet", "white-ash-ply: ", 16_400),
        // Of the upper box two pieces of 22-9/16 and two of 22, 5-3/8 wide: 89-1/8 x 5-3/8 = 479.0
        // square inches. Of the lower boxes four and four, each of three boards of 3-25/32:
        // 178-1/4 x 11-11/32 = 2,022.0. An inch thick they are 2,501.0 / 144 = 17.37 board feet, and
        // 30 % more are 22.58: 23 x 7.20.
        ("23 board feet", "maple: ", 16_560),
        // Strips, each 1 longer than its edge: two bottoms 36-1/16, two stretchers 35-9/16, the
        // shelf 35-7/16, six ends 31-1/2, eight edges of doors 31-3/8, six of drawer fronts
        // 24-13/16, a bottom 24-1/16, a stretcher 23-9/16, eight ends of doors 18-13/16, and of
        // drawer fronts two of 13-1/8, of 12-11/32, and of 7-15/32, and two ends of a base of 5:
        // 72-1/8 + 71-1/8 + 35-7/16 + 189 + 251 + 148-7/8 + 24-1/16 + 23-9/16 + 150-1/2 + 26-1/4 +
        // 24-11/16 + 14-15/16 + 10 = 1,041-9/16. Each takes a tenth more. The roll of 96 gives both
        // of 36-1/16, 79.34 of it, and of the 16.66 that are left one of 13-1/8, 14.44. What is
        // left of the strips is 956-5/16, with a tenth more 1,051.94, or 87.66 feet: 88 x 0.65.
        ("88 ft", "tape: ", 57_20),
        // Three drawers: 3 x 34.00.
        ("3 pairs", "slides run-21", 10_200),
        // Three drawers and four doors are seven, and one is on hand: six, in packs of four:
        // 2 x 22.00.
        ("2 packs", "pull knob", 44_00),
        // Two to each of four doors are eight, and one is on hand: seven, in packs of two, are
        // eight: 8 x 5.80.
        ("4 packs", "hinge cup", 46_40),
        // 237 square feet at 450 to the gallon of 3,785 ml are 1,993 ml, and with 15 % for brush and
        // rag 2,292, up to 2,300 for each of two coats: 4,600. Less 8 fl oz, whole milliliters of
        // which are 236, are 4,364, or 4.61 quarts of 946.35 ml: 5 x 44.00.
        ("5 x 1 qt", "oil: ", 22_000),
        // Two stretchers and a nailer in each of three cases, three screws at both ends: 54. A
        // tenth more is 5.4, so 60: 1 x 8.50.
        ("1 pack", "pocket screws", 8_50),
    ]
}

#[test]
fn a_kitchen_is_priced_by_hand() {
    let compiled = compile(KITCHEN);
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    let rows = csv(&compiled, "buying-list");
    let by_hand = by_hand();
    let cents = |text: &str| (text.parse::<f64>().unwrap() * 100.0).round() as i64;
    let priced: Vec<_> = rows[1..].iter().filter(|row| !row[4].is_empty()).collect();
    assert_eq!(priced.len(), by_hand.len(), "{priced:#?}");
    for (row, (amount, what, comes_to)) in priced.iter().zip(&by_hand) {
        assert_eq!((row[1].as_str(), cents(&row[4])), (*amount, *comes_to), "{row:?}");
        assert!(row[2].starts_with(what), "{row:?}");
    }
    // 258 + 83 + 164 + 165.60 + 57.20 + 102 + 44 + 46.40 + 220 = 1,140.20, and 8.50.
    let total: i64 = by_hand.iter().map(|(.., cents)| cents).sum();
    assert_eq!(total, 114_870);
    let paper = papers::one(&compiled, "buying-list", Format::Text).unwrap();
    assert!(paper.contains("together USD 1140.20\n"), "{paper}");
    assert!(paper.contains("and USD 1148.70 with what has a price above"), "{paper}");
    // Four fluid ounces of glue on hand are 118 ml, and no more is taken. Four shelf pins and a
    // tenth more are five, and six are on hand.
    assert!(rows.iter().all(|row| row[0] != "glue" && !row[2].starts_with("shelf pins")));
    let first =
        "Order first: slides run-21 (5 weeks), then white-ash-ply (2 weeks), then ply (1 week).";
    assert!(paper.split_whitespace().collect::<Vec<_>>().join(" ").contains(first), "{paper}");
}

/// The surface that the finish goes by: 237 square feet stand in the assembly order, as do two
/// coats of 2,300 ml.
#[test]
fn the_finish_of_the_kitchen_goes_by_its_surface() {
    let paper = papers::one(&compile(KITCHEN), "assembly-order", Format::Text).unwrap();
    assert_eq!(paper.matches("the surface comes to 237 sq ft (22.1 m2)").count(), 2);
    assert_eq!(paper.matches("this coat takes about 2.4 quarts (2300 ml)").count(), 2);
}
