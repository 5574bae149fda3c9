//! Sanding, finishing, and fitting in the house.

use crate::measure::Exact;
use crate::model::{Exposure, Finish, Side};
use crate::parts::{JointSort, PartId, Role};

use super::{Maker, Task, Wait, Work, hands, minutes};

impl Maker<'_, '_> {
    pub(super) fn finish(&mut self, hung: &[usize]) -> usize {
        let backs = self.ids(|part| part.role == Role::Back);
        let mut sand = vec!["take off the doors, drawers, and hardware".to_owned()];
        if !backs.is_empty() {
            sand.push(format!(
                "take off {} too, so that brush and rag reach into every corner",
                self.marks(&backs)
            ));
        }
        sand.push("sand, ease every sharp edge, and dust off".to_owned());
        let sanded = self.simple(
            "Take apart and sand".into(),
            sand,
            Vec::new(),
            Work::Machine,
            minutes::SAND,
            hung.to_vec(),
        );
        let mut last = sanded;
        if let Some(finish) = self.finish_used() {
            for coat in 1..=finish.coats.min(12) {
                let mut lines = Vec::new();
                if let Some((a, b)) = finish.mix {
                    let life = finish
                        .pot_life
                        .map_or(String::new(), |life| format!(", use it within {life}"));
                    lines.push(format!("mix {a} to {b}{life}"));
                }
                if let Some(covers) = finish.covers {
                    let tenths = (covers * Exact::int(10)).round();
                    lines.push(format!("a liter covers {}.{} m2", tenths / 10, tenths % 10));
                }
                lines
                    .push("coat both faces of every front alike, so that it stays flat".to_owned());
                lines.extend(finish.notes.iter().cloned());
                let title = format!("Coat {coat} of {}: {}", finish.coats, finish.kind.word());
                last = self.coat(finish, title, lines, Vec::new(), vec![last]);
            }
        }
        last = self.back_on(last).unwrap_or(last);
        let lines = vec!["put the doors, drawers, shelves, and pulls back where they were marked, and check every gap once more".to_owned()];
        let together = self.simple(
            "Put together".into(),
            lines,
            Vec::new(),
            Work::Bench,
            minutes::SAND,
            vec![last],
        );
        // Shelves lie loose on their pins: now they come in to stay.
        let laid = self.picked(|joint| joint.sort == JointSort::Laid);
        self.closes(together, laid);
        together
    }

    /// One coat, that cures before anything else is done to what it is on.
    pub(super) fn coat(
        &mut self,
        finish: &Finish,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        after: Vec<usize>,
    ) -> usize {
        self.add(Task {
            lines,
            parts,
            hands: hands(minutes::COAT),
            wait: finish.cure,
            waits_for: Wait::Finish,
            after,
            ..Task::new(title, Work::Finish)
        })
    }

    /// How it is made to stand, and to stay so.
    fn standing(&self) -> Vec<String> {
        let mut lines = vec!["level it on shims".to_owned()];
        if !self.piece.site.fixed {
            return lines;
        }
        lines.push("look for pipes and wires before you drill; where any run, local code and a licensed trade decide".to_owned());
        lines.push("screw every case to the wall behind it, high up, through a rail, a stretcher, or a cleat and not through the thin back alone; use at least two studs, or plugs made for masonry".to_owned());
        let tips = self
            .work
            .tipping()
            .iter()
            .filter(|tipping| tipping.tips())
            .filter_map(|tips| self.piece.case(tips.case))
            .map(|case| case.name.as_str())
            .collect::<Vec<_>>()
            .join(", ");
        if !tips.is_empty() {
            lines.push(format!("carry it in without doors and drawers, and put them in after the screws hold; until then {tips} can tip when it is opened"));
        }
        lines
    }

    pub(super) fn fit(&mut self, finished: usize) {
        let mut lines = Vec::new();
        for case in &self.piece.cases {
            for side in Side::BOTH {
                if let Exposure::Wall { scribe } = side.of(&case.exposure)
                    && scribe.length.is_positive()
                {
                    let tape = self.piece.tape();
                    lines.push(format!(
                        "plane the {} stile of {} to the wall; up to {} of it is scribe",
                        side.word(),
                        case.name,
                        tape.text(scribe.length)
                    ));
                }
            }
        }
        for keep_out in &self.piece.site.keep_outs {
            lines.push(format!(
                "measure the {} where it really is, and cut the back round it",
                keep_out.name
            ));
        }
        lines.extend(self.standing());
        self.simple(
            "Install it in the house".into(),
            lines,
            Vec::new(),
            Work::Fit,
            minutes::FIT,
            vec![finished],
        );
    }
}
