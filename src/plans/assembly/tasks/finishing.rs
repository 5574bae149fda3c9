//! Sanding and finishing.

use crate::measure::Exact;
use crate::model::Finish;
use crate::parts::{PartId, Role};

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
        sand.push(format!(
            "leave a glued joint alone until it has cured {}, or it shows as a hollow later",
            self.piece.shop.cure
        ));
        sand.push("ease every edge that a hand touches with a few strokes of sandpaper, before the finish goes on".to_owned());
        sand.push("sand with the grain and dust off".to_owned());
        let sanded = self.simple(
            "Take apart and sand".into(),
            sand,
            Vec::new(),
            Work::Sand,
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
                if finish.mix.is_some() && coat == 1 {
                    lines.push("wear gloves and goggles while you mix: a hardener harms skin, eyes, and lungs; mix only what you use up in its pot life".to_owned());
                }
                lines
                    .push("coat both faces of every front alike, so that it stays flat".to_owned());
                lines.extend(finish.notes.iter().cloned());
                let title = format!("Coat {coat} of {}: {}", finish.coats, finish.kind.word());
                last = self.coat(finish, title, lines, Vec::new(), vec![last]);
            }
        }
        self.back_on(last).unwrap_or(last)
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
}
