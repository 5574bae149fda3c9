//! What the steps of the assembly order say: the cautions that hold for the finish, at
//! every coat, and the joints as they are made.

use casewright::model::JointKind;
use casewright::papers::{self, Format};
use casewright::parts::{JointSort, Role};

use crate::support::{compile, spec};

fn steps(kind: &str) -> String {
    let text =
        spec("first.case").replace("{ hardwax-oil; coats 2;", &format!("{{ {kind}; coats 2;"));
    papers::one(&compile(&text), "assembly-order", Format::Text).expect("the order")
}

/// Rags of a drying oil heat up by themselves; of varnish and paint only where they are
/// bound with oil; lacquer dries by its thinner alone. Rags heap up at every coat, and there
/// are two.
#[test]
fn rags_are_cautioned_of_by_the_kind_of_finish_at_every_coat() {
    let often = |kind: &str, text: &str| steps(kind).matches(text).count();
    for oily in ["hardwax-oil", "oil"] {
        assert_eq!(often(oily, "! Oily rags can catch fire by themselves"), 2, "{oily}");
    }
    for bound in ["paint", "varnish"] {
        assert_eq!(often(bound, "Oily rags"), 0, "{bound}");
        let own = "Where the can says to clean up with mineral spirits, rags can catch fire";
        assert_eq!(often(bound, own), 2, "{bound}");
    }
    for cold in ["lacquer", "wax"] {
        assert_eq!(often(cold, "catch fire"), 0, "{cold}");
        assert_eq!(often(cold, "wear a respirator against the vapor"), 2, "{cold}");
    }
}

/// Water does not burn: a lacquer thinned with it waits 2 to 3 h for its next coat, and
/// 5 to 7 days until it is hard; one with its own thinner half an hour to 2 h, and 7 days.
#[test]
fn a_lacquer_has_the_times_and_cautions_of_its_kind() {
    let watery = steps("water-lacquer");
    for told in ["next coat usually goes on after 2 to 3 h", "after 5 to 7 days", "the mist"] {
        assert!(watery.contains(told), "{told}");
    }
    assert!(!watery.contains("flames"));
    let own = steps("lacquer");
    for told in ["goes on after 1/2 to 2 h", "after 7 days", "Keep flames and sparks away"] {
        assert!(own.contains(told), "{told}");
    }
    // With nothing written a coat dries as its kind does, not a day.
    let dries = |kind: &str| {
        let text = spec("first.case").replace("{ hardwax-oil; coats 2; cure 24 h }", kind);
        papers::one(&compile(&text), "assembly-order", Format::Text).expect("the order")
    };
    assert!(dries("{ lacquer; coats 2 }").contains("2 h to dry"));
    assert!(dries("{ water-lacquer; coats 2 }").contains("3 h to dry"));
}

/// Most dust is made before the last sanding: the caution stands in the first step that
/// sands, which is not that one.
#[test]
fn dust_is_cautioned_of_at_the_first_sanding() {
    for (name, compiled) in crate::support::demo_pieces() {
        let steps = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
        let caution = "Wear a mask that fits against fine dust";
        assert_eq!(steps.matches(caution).count(), 1, "{name}");
        let sanding = steps.find("sand the ").expect("a sanding");
        let next = steps[sanding..].find("! ").expect("a caution");
        assert!(
            steps[sanding + next..].starts_with(&format!("! {caution}"))
                || steps.find(caution) < Some(sanding),
            "{name}: {}",
            &steps[sanding..sanding + 900]
        );
    }
}

/// 1 square meter is 10.76 square feet, a quart 0.946 l: 9 m2 a liter are 91.7 square feet a
/// quart. An inch job has these first, and what is mixed comes to what is asked for.
#[test]
fn finish_is_told_in_the_units_of_the_job() {
    let inches = steps("oil");
    assert!(inches.contains("where a quart usually covers at least 90 sq ft"), "{inches}");
    let console = papers::one(&compile(&spec("hall-console.case")), "assembly-order", Format::Text);
    let console = console.expect("the order");
    assert!(console.contains("(440 ml), where a liter covers"), "{console}");
    assert!(console.contains("mix 330 ml with 110 ml"), "{console}");
}

/// A step names a joint as it is made: the bottom of a case on a separate base lies along
/// the lower ends of its sides, in rabbets, though the spec says dado.
#[test]
fn a_step_names_the_joint_that_is_made() {
    let all = crate::support::demo_pieces();
    let mut seen = [0, 0];
    for (name, compiled) in &all {
        let parts = compiled.parts.as_ref().unwrap();
        let steps = papers::one(compiled, "assembly-order", Format::Text).expect("the order");
        for joint in &parts.joints {
            let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
                continue;
            };
            if joint.sort != JointSort::Wood(JointKind::Dado) || part.role != Role::Bottom {
                continue;
            }
            let (own, host) = (part.cuboid(), into.cuboid());
            let word = if own.from.y == host.from.y { "rabbet" } else { "dado" };
            let line = steps.lines().find(|line| {
                line.trim_start().starts_with(&format!("{} into ", part.mark))
                    && line.contains(&into.mark)
            });
            let line = line.unwrap_or_else(|| panic!("{name}: {}", part.mark));
            assert!(line.contains(&format!(": {word}, ")), "{name}: {line}");
            seen[usize::from(word == "dado")] += 1;
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "{seen:?}");
}
