//! Cutting the joints: all that is cut into the parts before they are closed in.

use std::collections::BTreeSet;

use crate::model::JointKind;
use crate::parts::{FeatureKind, Joint, JointSort, PartId};

use super::{Maker, Work, minutes};

/// What is cut elsewhere than on the set-up sheet: its name, how it is cut, and
/// the minutes for each part.
type Sort = (fn(&FeatureKind) -> bool, &'static str, &'static str, i64);

/// In the order of the work. A mortise is cut first and its tenon fitted to it.
const SORTS: &[Sort] = &[
    (|k| matches!(k, FeatureKind::Pockets(..)), "bore the pocket holes", "", minutes::BORE),
    (
        |k| matches!(k, FeatureKind::Dowels(..)),
        "bore the dowel holes",
        " and of what they join, from one jig",
        minutes::BORE,
    ),
    (|k| matches!(k, FeatureKind::Mortise), "cut the mortises", "", minutes::TENON),
    (
        |k| matches!(k, FeatureKind::Tenon),
        "cut the tenons",
        ", each to fit its mortise or groove",
        minutes::TENON,
    ),
    (
        |k| matches!(k, FeatureKind::Dovetails),
        "cut the dovetails",
        " and of what they join, one half marked from the other",
        minutes::DOVETAILS,
    ),
    (
        |k| matches!(k, FeatureKind::Miter),
        "cut the miters",
        ", with the long points on the show face",
        minutes::MITER,
    ),
    (|k| matches!(k, FeatureKind::Notch), "cut the notches", "", minutes::NOTCH),
];

impl Maker<'_, '_> {
    /// The parts whose joints can be cut as they come from the saw, and those
    /// that are glued up first. One half of dovetails and dowel holes is marked
    /// from the other: both are cut when the later of the two parts is there.
    pub(super) fn by_turn(&self, sawn: usize) -> (Vec<PartId>, Vec<PartId>) {
        let all = self.ids(|_| true);
        let mut late: BTreeSet<PartId> =
            all.iter().filter(|id| self.made.get(id) != Some(&sawn)).copied().collect();
        let marked = |joint: &&Joint| {
            matches!(joint.sort, JointSort::Wood(JointKind::Dovetail | JointKind::Dowel))
        };
        let pairs: Vec<&Joint> = self.parts.joints.iter().filter(marked).collect();
        loop {
            let half = |joint: &&&Joint| late.contains(&joint.part) != late.contains(&joint.into);
            let Some(joint) = pairs.iter().find(half) else { break };
            late.extend([joint.part, joint.into]);
        }
        all.into_iter().partition(|id| !late.contains(id))
    }

    /// Every joint of these parts; flutes and the holes for hardware have a
    /// time of their own.
    pub(super) fn joints(&mut self, title: &str, own: &[PartId]) {
        let cuts = self.features(own, |feature| {
            !matches!(feature.kind, FeatureKind::Flute(_) | FeatureKind::Bore(_))
        });
        let mut cut: Vec<PartId> = cuts.iter().map(|(id, _)| *id).collect();
        cut.dedup();
        if cut.is_empty() {
            return;
        }
        let mine = self.setups.iter().filter(|setup| {
            !matches!(setup.kind, FeatureKind::Flute(_))
                && setup.runs.iter().any(|run| cut.contains(&run.part))
        });
        let (count, mut time) =
            mine.fold((0, 0), |(count, time), setup| (count + 1, time + setup.time.0.ceil()));
        let mut lines = Vec::new();
        match count {
            0 => {}
            1 => lines.push("make 1 set-up of the router-jig sheet".to_owned()),
            many => lines.push(format!("make {many} set-ups of the router-jig sheet, in order")),
        }
        for (is_of, what, how, each) in SORTS {
            let mut of: Vec<PartId> =
                self.features(&cut, |feature| is_of(&feature.kind)).iter().map(|f| f.0).collect();
            of.dedup();
            if !of.is_empty() {
                time += each * of.len() as i64;
                let plural = if of.len() == 1 { "" } else { "s" };
                lines.push(format!("{what} of {} part{plural}{how}", of.len()));
            }
        }
        let after = self.ready(&cut);
        let task = self.simple(title.into(), lines, Vec::new(), Work::Router, time, after);
        self.cuts(task, cuts);
        self.makes(&cut, task);
    }
}
