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
