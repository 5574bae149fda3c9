//! Drawers on wood stick in finish: what they run on, beside, and under gets none, and
//! neither do the sides of their boxes there.

use super::packet::{CoatOn, JointKind, Packet, Work};

/// Parts that a first coat goes on though a drawer runs along them.
pub(super) fn wrong(packet: &Packet) -> Vec<String> {
    let coats = |sorts: &[&str]| -> Vec<&CoatOn> {
        let all = packet.operations.iter().filter_map(|own| match &own.work {
            Work::Finish(coat) if coat.coat == 1 => Some(coat),
            _ => None,
        });
        let is_on = |coat: &&CoatOn| coat.surfaces.iter().any(|own| sorts.contains(&&*own.what));
        all.filter(is_on).collect()
    };
    let (cases, boxes) = (coats(&["case", "frame"]), coats(&["drawer boxes"]));
    let mut wrong = Vec::new();
    for own in &packet.operations {
        let Work::OnWood(own) = &own.work else { continue };
        let strips = own.guides.iter().chain(&own.kickers).chain(&own.runners);
        let sides = packet
            .joints
            .iter()
            .filter(|joint| joint.kind == JointKind::Slid && own.on.contains(&joint.into))
            .map(|joint| &joint.part);
        let in_case = own.on.iter().chain(strips).map(|mark| (mark, &cases));
        for (mark, coats) in in_case.chain(sides.map(|mark| (mark, &boxes))) {
            if !coats.is_empty() && !coats.iter().any(|coat| coat.bare.contains(mark)) {
                wrong
                    .push(format!("{mark}: a coat goes on it where {} runs along it", own.opening));
            }
        }
    }
    wrong
}

#[cfg(test)]
mod spoiled {
    use serde_json::Value;

    use crate::bench::spoiled::{at, noticed};
    use crate::bench::{built, demos};
    use crate::support::{compile, spec};

    /// The chest, the boxes of which have a finish of their own.
    fn chest() -> String {
        let text = spec("orchard-lane-chest.case");
        let boxes = "\n  drawers {\n";
        assert!(text.contains(boxes) && text.contains("\ncase "));
        text.replace(boxes, &format!("{boxes}    finish rubbed\n"))
            .replace("\ncase ", "\nfinish rubbed { varnish; coats 2 }\ncase ")
    }

    #[test]
    fn runners_and_boxes_with_finishes_of_their_own_are_left_bare() {
        let compiled = compile(&chest());
        assert_eq!(built(&compiled), Vec::<String>::new());
        let packet: Value = serde_json::from_str(&demos::packet(&compiled).unwrap()).unwrap();
        let all = packet["operations"].as_array().unwrap();
        let bare = all.iter().filter(|own| own["kind"] == "finish" && own["coat"] == 1);
        assert_eq!(bare.filter(|own| own["bare"].is_array()).count(), 2);
        let coated = |packet: &mut Value| {
            let first = (0..).map(|number| at(packet, "finish", number));
            let all = packet["operations"].as_array().unwrap();
            let own = first.take(9).find(|index| all[*index]["bare"].is_array()).unwrap();
            packet["operations"][own].as_object_mut().unwrap().remove("bare");
        };
        noticed(packet, coated, "a coat goes on it where");
    }
}
