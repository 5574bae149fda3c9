//! Web frames between drawers: figures worked by hand.

use casewright::measure::Length;
use casewright::model::JointKind;
use casewright::papers::{self, Format};
use casewright::parts::{Direction, FeatureKind, JointSort, Part, PartId, Parts};

use crate::bench;
use crate::support::{compile, spec};

fn inches(top: i64, bottom: i64) -> Length {
    Length::inches(top, bottom)
}

fn made(text: &str) -> (Parts, Vec<String>) {
    let compiled = compile(text);
    let slugs = compiled.diagnostics.iter().map(|found| found.slug.to_string()).collect();
    (compiled.parts.unwrap_or_default(), slugs)
}

fn part<'p>(parts: &'p Parts, path: &str) -> (PartId, &'p Part) {
    parts.iter().find(|(_, part)| part.path == path).unwrap_or_else(|| panic!("no {path}"))
}

/// Length, width, and thickness.
fn size(parts: &Parts, path: &str) -> [Length; 3] {
    let (_, part) = part(parts, path);
    [&part.length, &part.width, &part.thickness].map(|size| size.length)
}

/// The depths of the cuts of one kind.
fn deep(parts: &Parts, path: &str, kind: FeatureKind) -> Vec<Length> {
    let (_, part) = part(parts, path);
    part.features.iter().filter(|own| own.kind == kind).map(|own| own.deep).collect()
}

/// Whether a part is glued where it goes into another.
fn glued(parts: &Parts, path: &str, into: &str) -> bool {
    let [one, other] = [path, into].map(|path| part(parts, path).0);
    let joint = parts.joints.iter().find(|own| own.part == one && own.into == other);
    joint.unwrap_or_else(|| panic!("{path} is not in {into}")).glued
}

const WEB: &str = "chest.web-middle-lower";

/// The chest is 30 wide, and its ends of 23/32 take the frame 1/4 deep: its rails are
/// 30 − 2 × 23/32 + 2 × 1/4 = 29-1/16 long. From the back of the face frame of 3/4 to the
/// back of 0.205 it is 18 − 3/4 − 0.205 = 17.045 deep. Between two rails of 2-1/2 and with
/// tenons of 3/8 a runner is 17.045 − 5 + 3/4 = 12.795 long.
///
/// A drawer begins behind a stile of 1-3/4 and bears on 1 of the runner. That lies from
/// 23/32 − 1/4 = 15/32 on, and so would be 2-9/32 wide: it is 2-1/2, as wide as the rails.
#[test]
fn rails_run_from_dado_to_dado_and_runners_between_them() {
    let (parts, found) = made(&spec("orchard-lane-chest.case"));
    assert_eq!(found, Vec::<String>::new());
    let rail = [inches(465, 16), inches(5, 2), inches(3, 4)];
    let runner = [inches(12_795, 1000), inches(5, 2), inches(3, 4)];
    for (name, size) in [
        ("front-rail", rail),
        ("back-rail", rail),
        ("left-runner", runner),
        ("right-runner", runner),
    ] {
        assert_eq!(self::size(&parts, &format!("{WEB}-{name}")), size, "{name}");
    }
    // The panel of 0.205 gives the width of all grooves, 3/8 + 1/16 deep.
    let (_, front) = part(&parts, &format!("{WEB}-front-rail"));
    let groove = front.features.first().expect("a groove");
    assert_eq!((groove.v.1 - groove.v.0, groove.deep), (inches(205, 1000), inches(7, 16)));
    // Between runners 29-1/16 − 2 × 2-1/2 = 24-1/16 apart it goes 3/8 into each.
    let panel = size(&parts, &format!("{WEB}-dust-panel"));
    assert_eq!(panel, [inches(397, 16), inches(12_795, 1000), inches(205, 1000)]);
}

/// In plywood, which keeps its size, both tenons of a runner are glued. It only lies in its
/// dado, and the rails hold the frame there.
#[test]
fn in_plywood_every_tenon_is_glued() {
    let (parts, _) = made(&spec("orchard-lane-chest.case"));
    let runner = format!("{WEB}-left-runner");
    let [front, back] = ["front", "back"].map(|own| format!("{WEB}-{own}-rail"));
    assert!(glued(&parts, &runner, &front) && glued(&parts, &runner, &back));
    assert!(glued(&parts, &front, "chest.left-end") && glued(&parts, &back, "chest.left-end"));
    assert!(!glued(&parts, &runner, "chest.left-end"));
    assert_eq!(deep(&parts, &runner, FeatureKind::Tenon), [inches(3, 8), inches(3, 8)]);
}

/// Quartersawn black cherry changes by 0.00126 of its width for a point of moisture (Wood
/// Handbook, Table 13-5). From 40 % to 30 % it gives off 1.5 points (7.7 % to 6.2 %): an end
/// 18 deep shrinks by 18 × 0.00126 × 1.5 = 0.034. With 1/32 to spare that is 0.065: up to the
/// next mark 3/32. Up to 60 % it takes up 3.3 points and swells by 18 × 0.00126 × 3.3 = 0.075,
/// up to the next mark 3/32 too. So the back tenons go 3/8 + 3/32 into their groove and are
/// 3/8 + 3/32 + 3/32 = 9/16 long, and the groove is 5/8 deep.
#[test]
fn between_solid_ends_the_back_tenons_are_dry_and_stand_off() {
    let text = spec("orchard-lane-chest.case");
    let solid = text.replace("  stock    ply\n", "  stock    ply\n  ends { stock cherry }\n");
    assert_ne!(solid, text);
    let (parts, _) = made(&solid);
    let runner = format!("{WEB}-left-runner");
    let [front, back] = ["front", "back"].map(|own| format!("{WEB}-{own}-rail"));
    assert!(glued(&parts, &runner, &front));
    assert!(!glued(&parts, &runner, &back) && !glued(&parts, &runner, "chest.left-end"));
    assert_eq!(deep(&parts, &runner, FeatureKind::Tenon), [inches(3, 8), inches(9, 16)]);
    assert_eq!(deep(&parts, &front, FeatureKind::Groove), [inches(7, 16)]);
    assert_eq!(deep(&parts, &back, FeatureKind::Groove), [inches(5, 8)]);
    // The runner is longer by what goes farther in: 12.795 + 3/32.
    assert_eq!(size(&parts, &runner)[0], inches(12_795, 1000) + inches(3, 32));
    let compiled = compile(&solid);
    let order = papers::one(&compiled, "assembly-order", Format::Text).expect("a paper");
    let mark = part(&parts, &back).1.mark.clone();
    assert!(
        order.contains(&format!("leave the shoulders of the runners 3/32 open at {mark}")),
        "{order}"
    );
}

/// A joint that is glued takes 6 minutes, and one that is put in dry takes 1 (common practice, no
/// source). In plywood both tenons of both runners are glued: 4 × 6 = 24. Between solid ends those
/// at the back are dry: 2 × 6 + 2 × 1 = 14.
#[test]
fn a_dry_joint_takes_a_minute() {
    let text = spec("orchard-lane-chest.case");
    let solid = text.replace("  stock    ply\n", "  stock    ply\n  ends { stock cherry }\n");
    for (text, minutes) in [(text, "24 min of work"), (solid, "14 min of work")] {
        let order = papers::one(&compile(&text), "assembly-order", Format::Text).expect("a paper");
        let steps = order.split(">> ").filter(|own| {
            own.lines().next().is_some_and(|title| title.contains("Glue up the web frame"))
        });
        let steps: Vec<&str> = steps.collect();
        assert!(!steps.is_empty() && steps.iter().all(|own| own.contains(minutes)), "{steps:#?}");
    }
}

/// Two drawers over a frame bear on both sides of the stile between them: 1 + 1-1/2 + 1 =
/// 3-1/2. The partition stands on that runner, and screws go through it.
#[test]
fn a_runner_in_the_middle_carries_both_drawers_beside_it() {
    let text = spec("orchard-lane-chest.case")
        .replace(
            "rail          { wide 1 }\n      drawer middle",
            "rail { wide 1; shelf { stock maple; build web } }\n      drawer middle",
        )
        .replace("  shelves ", "  partitions { joint screw }\n  shelves ");
    let (parts, found) = made(&text);
    assert_eq!(found, Vec::<String>::new());
    let (middle, runner) = part(&parts, "chest.web-small-middle-middle-runner");
    assert_eq!(runner.width.length, inches(7, 2));
    let (from, to) = runner.extent(Direction::X);
    assert_eq!((from + to).half(), inches(15, 1));
    let (partition, _) = part(&parts, "chest.small.partition-left-right");
    let screwed = |joint: &&casewright::parts::Joint| {
        (joint.part, joint.into, joint.sort)
            == (partition, middle, JointSort::Wood(JointKind::Screw))
    };
    assert_eq!(parts.joints.iter().filter(screwed).count(), 1);
    // Each box runs on the runners under its own two sides.
    for (side, runner) in [
        ("left.left-side", "left-runner"),
        ("left.right-side", "middle-runner"),
        ("right.left-side", "middle-runner"),
        ("right.right-side", "right-runner"),
    ] {
        let (side, _) = part(&parts, &format!("chest.small.{side}"));
        let slid = parts.joints.iter().find(|own| own.part == side && own.sort == JointSort::Slid);
        let on = parts.get(slid.expect("it runs").into).expect("a part");
        assert_eq!(on.path, format!("chest.web-small-middle-{runner}"));
    }
    let packet = papers::one(&compile(&text), "packet", Format::Json).expect("a packet");
    assert_eq!(bench::complaints(&packet), Vec::<String>::new());
}

/// A frame without a face frame before it: its front rail is seen, and it is let into the
/// ends as a divider is.
#[test]
fn a_divider_may_be_a_web_frame() {
    let text = spec("orchard-lane-chest.case");
    let from = text.find("  frame {").expect("a frame");
    let to = text.find("  fronts {").expect("fronts");
    let list = "  frame none\n  down { drawer upper { share 1 }; divider { stock maple; build web { wide 2; tenon 1/2 } }; drawer lower { share 1 } }\n";
    let bare = format!("{}{list}{}", &text[..from], &text[to..]).replace("; flush", "");
    let (parts, _) = made(&bare);
    let [long, wide, _] = size(&parts, "chest.web-upper-lower-front-rail");
    assert_eq!((long, wide), (inches(465, 16), inches(2, 1)));
    let tenons = deep(&parts, "chest.web-upper-lower-left-runner", FeatureKind::Tenon);
    assert_eq!(tenons, [inches(1, 2), inches(1, 2)]);
    let packet = papers::one(&compile(&bare), "packet", Format::Json).expect("a packet");
    assert_eq!(bench::complaints(&packet), Vec::<String>::new());
}

/// What can't be built as a web frame is told, and each fault once.
#[test]
fn what_a_web_frame_can_t_do_is_told() {
    let text = spec("orchard-lane-chest.case");
    let with = |from: &str, to: &str| {
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text, "{from}");
        made(&changed).1
    };
    assert_eq!(
        with("shelf { stock maple; build", "shelf { stock maple; joint pocket; build"),
        ["not-supported-yet"]
    );
    assert_eq!(
        with("rail          { wide 1 }", "rail { wide 1; shelf { stock maple; build web } }"),
        ["web-let-into"]
    );
    assert_eq!(
        with("shelf { stock maple; build", "shelf { stock maple; load 40 lb per ft2; build"),
        ["not-supported-yet"]
    );
    let bare = text.replace("build web { panel-stock thin }", "build web");
    let niche = bare.replace("drawer middle { share 1 }", "open middle { share 1 }");
    assert_eq!(made(&niche).1, ["no-floor"]);
    assert_eq!(made(&bare).1, Vec::<String>::new());
}

/// A hanging rail stays 2-1/2 below the web frame over it, whose underside lies at 13-1/4,
/// and a long one finds no board for the hanger in its middle.
#[test]
fn a_hanging_rail_hangs_under_a_web_frame() {
    let text = spec("orchard-lane-chest.case");
    let hung =
        text.replace("drawer lower  { share 1 }", "open lower { share 1; rod { down 2-1/2 } }");
    assert_ne!(hung, text);
    let compiled = compile(&hung);
    let packet = papers::one(&compiled, "packet", Format::Json).expect("a packet");
    assert_eq!(bench::complaints(&packet), Vec::<String>::new());
    let packet: serde_json::Value = serde_json::from_str(&packet).expect("JSON");
    let operations = packet["operations"].as_array().expect("operations");
    let rail = operations.iter().find(|own| own["kind"] == "set rail").expect("a rail");
    // 13-1/4 - 2-1/2 over the floor; the opening begins at 5.
    assert!(rail.to_string().contains("\"23/4\""), "{rail}");
    let wide = hung.replace("wide 30; deep 18", "wide 60; deep 18");
    let found = made(&wide).1;
    assert!(found.iter().any(|slug| slug == "rod-unheld"), "{found:?}");
}
