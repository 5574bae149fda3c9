//! False fronts: the blocks that hold them, and the fronts themselves.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::OpeningKind;
use crate::parts::{JointSort, Part, PartId, Role};
use crate::plans::fitting::Purpose;

use super::openings::Kind;
use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// The blocks that hold false fronts, when they are cut.
    pub(super) fn holding_late(&self) -> Kind {
        let parts = self.holding_blocks();
        let line = format!(
            "saw the holding blocks to the figures of the cut list, and see that each is a little shorter than its opening is high: {}",
            self.marks(&parts)
        );
        Kind { names: vec!["holding blocks"], parts, lines: vec![line] }
    }

    /// Fronts before openings that nothing moves in, once their blocks are fixed: each from
    /// before, with screws from behind.
    pub(super) fn false_fronts(&mut self, stands: &[usize], blocks: Option<usize>) -> Vec<usize> {
        let fixed = self.fronts_of(|kind| matches!(kind, OpeningKind::False));
        if fixed.is_empty() {
            return Vec::new();
        }
        let mut lines = vec![
            format!(
                "shim each front to its gaps, in front of its blocks, and hold it there with a clamp or double-faced tape: {}",
                self.marks(&fixed)
            ),
            "from behind, bore pilot holes centered in the holes of the blocks, with a stop on the bit, no deeper than the screws go into the front; then drive the screws, with washers".to_owned(),
        ];
        lines.splice(1..1, self.moving(&fixed));
        lines.extend(self.shimmed());
        let mut off = self.backs_behind(&fixed);
        off.retain(|back| self.opened.contains_key(back));
        match (off.len(), self.piece.cases.len()) {
            (0, _) => {}
            (_, 1) => lines.push("the back is off, so reach the blocks from there".to_owned()),
            (1, _) => {
                lines.push(format!("{} is off, so reach the blocks from there", self.marks(&off)));
            }
            (_, _) => {
                lines.push(format!("{} are off, so reach the blocks from there", self.marks(&off)));
            }
        }
        let mut after = stands.to_vec();
        after.extend(self.ready(&fixed));
        after.extend(blocks);
        let title = "Fix the false fronts".into();
        let efforts = vec![Usual::FalseFront.times(fixed.len())];
        let task = self.simple(title, lines, fixed.clone(), Work::Bench, efforts, after);
        self.closes(task, self.fixed_fronts(true));
        self.makes(&fixed, task);
        blocks.into_iter().chain([task]).collect()
    }

    /// The holes of the blocks behind fronts that move under the screws.
    fn moving(&self, fixed: &[PartId]) -> Option<String> {
        let fastened = self.work.fastened();
        let hole = fastened.hole(Purpose::FalseFronts)?;
        let fronts: Vec<&str> = fixed.iter().map(|id| self.parts.mark(*id)).collect();
        let moves = fastened.fastenings.iter().filter(|own| own.hole.is_some());
        let mut marks: Vec<&str> = moves.map(|own| own.part.mark.as_str()).collect();
        marks.retain(|mark| fronts.contains(mark));
        marks.dedup();
        (!marks.is_empty()).then(|| {
            format!(
                "bore the holes of the screws in the blocks of {} out to {}: solid wood moves across its grain under the washers, which cover them",
                listed(&marks),
                self.text(hole)
            )
        })
    }

    /// What lies between a front and its blocks where a thick frame keeps them apart.
    fn shimmed(&self) -> Vec<String> {
        let fastenings = self.work.fastened().fastenings.iter();
        let lines = fastenings.flat_map(|own| &own.lines);
        let mut found: Vec<(&str, Length)> = lines
            .filter(|line| line.shim.is_positive())
            .map(|line| (line.into.mark.as_str(), line.shim))
            .collect();
        found.dedup();
        let line = |(front, shim): &(&str, Length)| {
            format!(
                "{front}: put shims of {} between it and its blocks where the screws go",
                self.text(*shim)
            )
        };
        found.iter().map(line).collect()
    }

    fn holding_blocks(&self) -> Vec<PartId> {
        self.ids(|part| part.role == Role::HoldingBlock)
    }

    /// The blocks beside the openings of false fronts, before the fronts come, and before the
    /// boxes of drawers are in their way.
    pub(super) fn held_by_blocks(&mut self, stands: &[usize]) -> Option<usize> {
        let blocks = self.holding_blocks();
        if blocks.is_empty() {
            return None;
        }
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        let opens = self.take_off_backs(
            &blocks,
            ("first take off", "so that you reach behind the false fronts"),
            (&mut lines, &mut does),
        );
        lines.push(format!(
            "{} them beside the openings of the false fronts, each as far from the upper as from the lower edge: {}",
            self.glue_and_screw(&blocks),
            self.marks(&blocks)
        ));
        lines.extend(self.set_to_fronts(&blocks));
        let mut after = stands.to_vec();
        after.extend(self.ready(&blocks));
        after.extend(self.opened_behind(&blocks));
        let title = "Fix the blocks of the false fronts".to_owned();
        let efforts = vec![Usual::HingeBlock.times(blocks.len())];
        let task = self.simple(title, lines, blocks.clone(), Work::Bench, efforts, after);
        self.closes(task, self.picked(|joint| blocks.binary_search(&joint.part).is_ok()));
        self.does(task, does);
        self.makes(&blocks, task);
        self.opens(opens, task);
        Some(task)
    }

    /// Where the fronts of these blocks stand: in the plane that the back of their false
    /// front will lie in.
    fn set_to_fronts(&self, blocks: &[PartId]) -> Vec<String> {
        let mut behind: Vec<(String, Vec<PartId>)> = Vec::new();
        for id in blocks {
            let Some(block) = self.parts.get(*id) else { continue };
            let set = self.piece.case(block.case).map(|case| {
                let plane = crate::parts::planes(self.piece, case).frame.length;
                block.cuboid().from.z - self.piece.ahead(case) - plane
            });
            let what = match set.filter(|set| set.is_positive()) {
                Some(set) => format!("{} behind the face of the case", self.text(set)),
                None => "flush with the face of the case".to_owned(),
            };
            match behind.iter_mut().find(|(known, _)| *known == what) {
                Some((_, own)) => own.push(*id),
                None => behind.push((what, vec![*id])),
            }
        }
        let line = |(what, own): &(String, Vec<PartId>)| {
            format!("{}: with their fronts {what}", self.marks(own))
        };
        behind.iter().map(line).collect()
    }

    /// The joints that fix false fronts to their blocks, or other fronts to their boxes.
    pub(super) fn fixed_fronts(&self, are_false: bool) -> Vec<usize> {
        self.picked(|joint| {
            joint.sort == JointSort::FrontFixed && self.is_of_false_front(joint.part) == are_false
        })
    }

    fn is_of_false_front(&self, id: PartId) -> bool {
        let opening = self.parts.get(id).and_then(Part::opening);
        let opening = opening.and_then(|id| self.piece.opening(id));
        opening.is_some_and(|opening| matches!(opening.kind, OpeningKind::False))
    }
}
