//! The screws that hold a drawer front to its box: figures worked by hand.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::Role;
use casewright::pipeline::Compilation;
use casewright::plans::Workings;
use casewright::plans::fitting::Purpose;

use crate::bench;
use crate::support::{compile, packet, spec};

/// A line: how far from its edge, how far up its first screw is, how far apart they are,
/// how many, and what they go into.
type Line = (Length, Length, Length, u32, Role);

fn lines(compiled: &Compilation) -> Vec<Line> {
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let work = Workings::of(piece, parts);
    let all = work.fastened().fastenings.iter();
    let fronts = all.filter(|own| own.purpose == Purpose::Fronts);
    fronts
        .flat_map(|own| &own.lines)
        .map(|own| (own.at, own.first, own.apart, own.count, own.into.role))
        .collect()
}

/// A box is 5 − 7/8 = 4-1/8 high. Its bottom lies from 13 mm to 13 mm and 13/64, which is
/// 0.715, up. A screw keeps 1/2 from that and from the top edge, and stands 1/2 farther in
/// where there is room: at 1.715, the next mark is 1-23/32, and at 4-1/8 − 1 = 3-1/8, which
/// is 1-13/32 more. The box front goes 5/16 into each side of 5/8, and the screws stand
/// 1-1/2 from the sides: 1-13/16 from its ends.
#[test]
fn four_screws_stand_near_the_corners_of_the_box() {
    let compiled = compile(&spec("first.case"));
    let inches = |sixteenths| Length::inches(sixteenths, 32);
    let own = (inches(58), inches(55), inches(45), 2, Role::Slab);
    assert_eq!(lines(&compiled), [own, own]);
    let steps = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    // Those of the box before it is glued up, while its front lies flat.
    let bored = steps.find("bore the screw holes through UP-XF on the lines");
    assert!(bored.is_some() && bored < steps.rfind("Glue up the drawer box"), "{steps}");
    assert!(steps.contains("bore the screw holes through UP-LPK, UP-RPK first"), "{steps}");
    let sheet = papers::one(&compiled, "layout", Format::Text).expect("the layout sheet");
    assert!(sheet.contains("1-13/16  left end     1-23/32  bottom edge  1-13/32"), "{sheet}");
}

/// Behind a framed front they go into its stiles, beside the groove of its panel. The
/// stile of 2 begins 3/32 inside the opening, and its groove of 3/8 is open to the panel:
/// wood is left up to 1-23/32. Half of a screw and 1/4 are 21/64, so it stands no farther
/// in than 1-25/64; and its side is 13/16 inside the opening, so with 1/2 of room it is no
/// nearer than 1-5/16.
#[test]
fn the_screws_of_a_framed_front_go_into_its_stiles() {
    let framed = "drawer upper { high 5; front { build panel { stile 2; rail 1-1/2; panel-stock thin; groove 3/8 } } }";
    let text = spec("first.case").replace("drawer upper { high 5 }", framed);
    let compiled = compile(&text);
    let all = lines(&compiled);
    assert_eq!(all.len(), 2);
    for (at, _, _, count, role) in all {
        assert_eq!((count, role), (2, Role::FrontStile));
        // The box front begins 5/16 before the inside of its side, so 1/2 inside the opening.
        let from_opening = at + Length::inches(1, 2);
        assert!(from_opening >= Length::inches(21, 16), "{from_opening:?}");
        assert!(from_opening <= Length::inches(89, 64), "{from_opening:?}");
    }
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// A bar whose screws would lie where those of the front usually stand: they step aside,
/// by 1/4 and half of each of the two at least.
#[test]
fn the_screws_step_aside_for_a_pull() {
    let text = spec("first.case")
        .replace(
            "pull knob { screw 5/32 }",
            "pull knob { screw 5/32 }\npull rail { screw 5/32; centers 28-3/8 }",
        )
        .replace(
            "drawer upper { high 5 }",
            "drawer upper { high 5; front { pull rail { from-top 1-1/4 } } }",
        );
    let compiled = compile(&text);
    let all = lines(&compiled);
    assert_eq!(all.iter().map(|own| own.3).sum::<u32>(), 4);
    assert_ne!(all, lines(&compile(&spec("first.case"))));
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// Quartersawn maple between two screws 1-13/32 apart hardly moves: the least hole, 1/4. In a
/// drawer of 14 the box is 14 − 7/8 = 13-1/8 high, and its screws stand from 1-23/32 to
/// 12-1/8 up, 10-13/32 apart. Of flatsawn maple that is 10-13/32 × 0.00353 × (10.1 − 7.7) =
/// 0.088 more on the dampest day: 11/64 and twice that are 0.348, so 3/8. Sheets stay as
/// they are.
#[test]
fn a_front_of_solid_wood_has_room_to_move_under_its_screws() {
    let hole = |text: &str| {
        let packet = packet(&compile(text));
        let all = packet["operations"].as_array().unwrap();
        let own = |own: &&serde_json::Value| {
            own["kind"] == "fasten" && own["for"] == "drawer fronts, from inside the box"
        };
        all.iter().find(own).unwrap()["hole"]["print"].as_str().map(str::to_owned)
    };
    let first = spec("first.case");
    assert_eq!(hole(&first).as_deref(), Some("1/4"));
    let high = first.replace("drawer upper { high 5 }", "drawer upper { high 14 }");
    let flat = high.replace("species sugar-maple; sawn quarter", "species sugar-maple");
    assert_eq!(hole(&flat).as_deref(), Some("3/8"));
    let sheet = first.replace("stock maple; set inset", "stock ply; set inset");
    assert_eq!(hole(&sheet), None);
    let fitting = papers::one(&compile(&flat), "fitting", Format::Text).expect("the sheet");
    assert!(fitting.contains("for these bore 3/8 through the box fronts"), "{fitting}");
}

/// A pull hole of 5/32 is 0.15625 wide. A No. 8 screw is 0.060 + 8 × 0.013 = 0.164 thick and
/// does not pass; a No. 6 is 0.138, and leaves 0.018 to shift the front. Of 11/64, 0.172, a
/// No. 8 leaves only 0.008. Of 3/16, 0.1875, it leaves 0.0235. In millimeters a hole of 4 takes
/// a screw of 3.5, and one of 5 a screw of 4.
#[test]
fn the_screws_for_now_pass_the_pull_holes() {
    use casewright::measure::Unit;
    use casewright::trade::Gauge;

    let inch = |top, bottom| Gauge::through(Length::inches(top, bottom), Unit::Inch);
    assert_eq!(inch(5, 32), Some(Gauge::Six));
    assert_eq!(inch(11, 64), Some(Gauge::Six));
    assert_eq!(inch(3, 16), Some(Gauge::Eight));
    assert_eq!((inch(1, 8), inch(3, 32)), (Some(Gauge::Four), None));
    let metric = |mm| Gauge::through(Length::mm(mm), Unit::Millimetre);
    let names = [4, 5].map(|mm| metric(mm).map(|own| own.name(Unit::Millimetre)));
    assert_eq!(names, [Some("3.5-mm"), Some("4-mm")]);
    assert_eq!(metric(3), None);

    let compiled = compile(&spec("first.case"));
    let sheet = papers::one(&compiled, "fitting", Format::Text).expect("the sheet");
    let row = "pan-head screw with a washer, 1-1/4 long    No. 6";
    assert!(sheet.contains("No. 6  drawer fronts, while you set them"), "{row}: {sheet}");
    let list = papers::one(&compiled, "buying-list", Format::Text).expect("the list");
    assert!(list.lines().any(|own| own.contains("pan-head") && own.ends_with("No. 6")), "{list}");
}

/// A front of 14 before a box of 4: its knob, 2 down, lies clear above the box. Its screw goes
/// through the front of 3/4 alone and 1/4 into the knob, so 1 will do; nothing holds the front
/// through the hole while it is set. Nearer than 3/16 to the box its head meets the edge.
#[test]
fn a_pull_may_stand_above_a_low_box() {
    let with = |from_top: &str| {
        let drawer = format!(
            "drawer upper {{ high 14; box {{ high 4 }}; front {{ pull knob {{ from-top {from_top} }} }} }}"
        );
        compile(&spec("first.case").replace("drawer upper { high 5 }", &drawer))
    };
    let found = |compiled: &Compilation| {
        compiled.diagnostics.iter().any(|own| own.slug == "pull-meets-box")
    };
    let high = with("2");
    assert!(!found(&high));
    let sheet = papers::one(&high, "fitting", Format::Text).expect("the sheet");
    assert!(sheet.contains("pull beside the box"), "{sheet}");
    assert!(sheet.contains("hold the front to its box with double-faced tape"), "{sheet}");
    assert!(!sheet.contains("through the pull holes into the box"), "{sheet}");
    assert!(!sheet.contains("bore on through the box front"), "{sheet}");
    let order = papers::one(&high, "assembly-order", Format::Text).expect("the order");
    assert!(!order.contains("drill its pull holes on through the front of the box"), "{order}");
    let list = papers::one(&high, "buying-list", Format::Text).expect("the list");
    assert!(list.contains("screws for the pull knob, at least 1 long"), "{list}");
    assert!(!list.contains("at least 1-5/8 long"), "{list}");
    assert_eq!(bench::built(&high), Vec::<String>::new());
    // Down the front it comes to the upper edge of the box somewhere.
    let met = (16..=26).map(|eighths| with(&format!("{eighths}/2"))).any(|own| found(&own));
    assert!(met);
}
