//! Blanks: wide parts that are glued up from boards, and thick ones from layers.

use std::collections::BTreeMap;

use crate::diagnostics::listed;
use crate::measure::{Duration, Exact};
use crate::model::Stock;
use crate::parts::{Part, PartId};
use crate::plans::assembly::{Blank, gluing};

use super::{Effort, Maker, Task, Usual, Wait, Work};

impl Maker<'_, '_> {
    /// Solid parts wider than a board are glued up first of all.
    pub(super) fn blanks(&mut self) {
        let wide = self.ids(|part| gluing::is_glued_up(self.piece, part));
        if wide.is_empty() {
            return;
        }
        let tape = self.piece.tape();
        let mut lines: Vec<String> = Vec::new();
        for (ids, part) in self.blank_by_blank(&wide) {
            let (mark, boards) = (self.as_one(&ids), gluing::boards(self.piece, part));
            lines.push(format!(
                "{mark}: {} boards edge to edge, each {} wide before it is jointed",
                boards.count,
                self.text(tape.up(boards.wide))
            ));
        }
        lines.push("flatten a face of each board and plane it, but leave it thicker than the cut list says, for what the blank loses when it is planed; then joint the edges that meet".to_owned());
        let wider = self.wider_than_planer(&wide);
        lines.extend(self.halved(&wider));
        lines.push("keep the good faces on one side, with the grain falling the same way, so that each blank planes one way".to_owned());
        let cure = self.piece.shop.cure;
        lines.push(format!(
            "leave them oversize; plane, sand, and cut them to size only when the glue has cured {cure}"
        ));
        // One after the other: what closes in each blank before it goes to the planer.
        let seams = |id: &PartId| {
            let part = self.parts.get(*id)?;
            let parts = gluing::planed_in(self.piece, part);
            let joined = match parts.iter().any(|boards| *boards > 1) {
                true => parts.len() as i64 - 1,
                false => 0,
            };
            let seams = gluing::boards(self.piece, part).count - 1 - joined;
            Some(gluing::seamed(*id, part, seams))
        };
        let closings: Vec<gluing::Closing> = wide.iter().filter_map(seams).collect();
        let title = "Glue up the wide blanks";
        let effort = Usual::Blank.times(closings.len());
        let task = self.glued_one_by_one(title, lines, (effort, true), closings);
        if let Some(task) = self.tasks.get_mut(task) {
            task.blanks = wide.iter().map(|id| (*id, Blank::Edges)).collect();
        }
        self.halves_joined(&wider);
    }

    /// Blanks that the planer does not take whole, and that are glued up in more than
    /// single boards.
    pub(super) fn wider_than_planer(&self, wide: &[PartId]) -> Vec<(PartId, Vec<i64>)> {
        let of = |id: &PartId| Some((*id, gluing::planed_in(self.piece, self.parts.get(*id)?)));
        wide.iter().filter_map(of).filter(|(_, parts)| parts.len() > 1).collect()
    }

    /// What is left to do to the blanks that were planed in parts.
    pub(super) fn scraped(&self, blanks: &[PartId]) -> Option<String> {
        let wider = self.wider_than_planer(blanks);
        let ids: Vec<PartId> = wider.into_iter().map(|(id, _)| id).collect();
        (!ids.is_empty()).then(|| {
            format!(
                "{} went through the planer before the last joint, so level that joint with a scraper only",
                self.marks(&ids)
            )
        })
    }

    /// How they are parted, those alike in one line.
    fn halved(&self, wider: &[(PartId, Vec<i64>)]) -> Vec<String> {
        let planer = self.text(self.piece.shop.planer);
        let mut alike: BTreeMap<&[i64], Vec<PartId>> = BTreeMap::new();
        for (id, parts) in wider {
            alike.entry(parts).or_default().push(*id);
        }
        let told = alike.into_iter().map(|(parts, ids)| {
            let (marks, what) = (self.marks(&ids), part_word(parts.len()));
            match parts.iter().max() {
                Some(most) if *most > 1 => {
                    let counts: Vec<String> = parts
                        .iter()
                        .map(|boards| match boards {
                            1 => "a single board".to_owned(),
                            boards => format!("{boards} boards"),
                        })
                        .collect();
                    format!("the planer takes no more than {planer}: glue up {marks} in {what} that pass it, {}, and let them cure; they are glued to each other in a step of their own", listed(&counts))
                }
                _ => format!("the planer takes no more than {planer}: for {marks} plane the single boards, {what} that pass it, before you glue them; keep their faces flush, and scrape the joint by hand"),
            }
        });
        told.collect()
    }

    /// The halves of a blank cure and are planed before they are glued to each other,
    /// and that joint cures too.
    fn halves_joined(&mut self, wider: &[(PartId, Vec<i64>)]) {
        let several: Vec<&(PartId, Vec<i64>)> =
            wider.iter().filter(|(_, parts)| parts.iter().any(|boards| *boards > 1)).collect();
        if several.is_empty() {
            return;
        }
        let what = part_word(several.iter().map(|(_, parts)| parts.len()).max().unwrap_or(2));
        let ids: Vec<PartId> = several.iter().map(|(id, _)| *id).collect();
        let cure = self.piece.shop.cure;
        let thick = |id: &PartId| {
            let part = self.parts.get(*id)?;
            Some(format!("{} to {}", self.marks(&[*id]), self.text(part.thickness.length)))
        };
        let thick: Vec<String> = ids.iter().filter_map(thick).collect();
        let lines = vec![
            format!(
                "scrape the glue off the {what}, plane both or all of one blank alike, thicker than the finished board by what a scraper takes off, and joint the edges that meet: {}",
                listed(&thick)
            ),
            format!("glue the {what} of each blank to each other with their faces flush"),
            format!(
                "leave them until this glue too has cured {cure}; then scrape that last joint by hand"
            ),
        ];
        let closing = |(id, parts): &&(PartId, Vec<i64>)| {
            Some(gluing::seamed(*id, self.parts.get(*id)?, parts.len() as i64 - 1))
        };
        let closings: Vec<gluing::Closing> = several.iter().filter_map(closing).collect();
        self.glued_one_by_one(
            &format!("Glue the {what} of the wide blanks to each other"),
            lines,
            (Usual::Blank.times(closings.len()), true),
            closings,
        );
    }

    /// Blanks glued up one after the other, in as many rounds as the clamps ask for;
    /// each round is so long in the clamps.
    pub(super) fn glued_one_by_one(
        &mut self,
        title: &str,
        mut lines: Vec<String>,
        (effort, cures): (Effort, bool),
        closings: Vec<gluing::Closing>,
    ) -> usize {
        let parts: Vec<PartId> = closings.iter().map(|closing| closing.part).collect();
        let each: Vec<(PartId, u32)> =
            closings.iter().map(|closing| (closing.part, closing.clamps)).collect();
        let (clamps, rounds) = self.rounds(&each);
        lines.extend(self.told_rounds(&rounds));
        let closing =
            closings.into_iter().map(|closing| gluing::Load::from(vec![closing]).closing()).max();
        let (wait, waits_for) = match cures {
            true => self.cured_in(&rounds),
            false => (self.clamped_in(&rounds), Wait::Clamps),
        };
        let after = self.ready(&parts);
        let task = self.add(Task {
            lines,
            parts: parts.clone(),
            efforts: vec![effort],
            wait,
            waits_for,
            clamps,
            closing: closing.unwrap_or_default(),
            rounds,
            after,
            ..Task::new(title.to_owned(), Work::Glue)
        });
        self.makes(&parts, task);
        task
    }

    /// Each blank by its part, and a stick that is glued up whole by all of its parts.
    fn blank_by_blank(&self, ids: &[PartId]) -> Vec<(Vec<PartId>, &Part)> {
        let of = |id: &PartId| {
            let part = self.parts.get(*id)?;
            let Some(stick) = self.work.sticks().of(*id) else { return Some((vec![*id], part)) };
            stick.is_under(*id).then(|| (stick.parts.clone(), part))
        };
        ids.iter().filter_map(of).collect()
    }

    /// `LE-LSP, LE-RSP as one stick`
    fn as_one(&self, ids: &[PartId]) -> String {
        let marks = self.marks(ids);
        let one = ids.iter().any(|id| self.work.sticks().of(*id).is_some());
        if one { format!("{marks} as one stick") } else { marks }
    }

    /// The most clamps in use at once, and what is glued up in each round.
    fn rounds(&self, each: &[(PartId, u32)]) -> (u32, Vec<Vec<PartId>>) {
        let have = self.piece.shop.clamps;
        let mut rounds: Vec<(u32, Vec<PartId>)> = Vec::new();
        for (id, clamps) in each {
            match rounds.last_mut() {
                Some((used, parts)) if *used + clamps <= have => {
                    *used += clamps;
                    parts.push(*id);
                }
                Some(_) | None => rounds.push((*clamps, vec![*id])),
            }
        }
        let most = rounds.iter().map(|(used, _)| *used).max().unwrap_or(0);
        (most, rounds.into_iter().map(|(_, parts)| parts).collect())
    }

    /// What is glued up in which round, where there are several.
    fn told_rounds(&self, rounds: &[Vec<PartId>]) -> Option<String> {
        let round = |parts: &Vec<PartId>| {
            let whole = self.blank_by_blank(parts).into_iter().flat_map(|(ids, _)| ids);
            self.marks(&whole.collect::<Vec<_>>())
        };
        let told: Vec<String> = rounds.iter().map(round).collect();
        (rounds.len() > 1).then(|| {
            format!(
                "there are too few clamps for all of these at once; glue them up in {} rounds, each with its own time in the clamps: first {}",
                rounds.len(),
                told.join("; then ")
            )
        })
    }

    /// How long all rounds are in the clamps.
    fn clamped_in(&self, rounds: &[Vec<PartId>]) -> Duration {
        Duration(self.piece.shop.clamp.0 * Exact::int(rounds.len().max(1) as i64))
    }

    /// How long it takes from the end of the work until the last round has cured.
    fn cured_in(&self, rounds: &[Vec<PartId>]) -> (Duration, Wait) {
        let (clamp, cure) = (self.piece.shop.clamp, self.piece.shop.cure);
        let clamped = self.clamped_in(rounds);
        match cure > clamp {
            true => (Duration(clamped.0 - clamp.0 + cure.0), Wait::Cure(clamped)),
            false => (clamped, Wait::Clamps),
        }
    }

    /// Parts thicker than their stock are laminated before anything is cut
    /// into them.
    pub(super) fn layers(&mut self) {
        let thick = self.ids(|part| gluing::layers(self.piece, part) > 1);
        if thick.is_empty() {
            return;
        }
        let mut lines: Vec<String> = Vec::new();
        let mut later = "sand";
        let mut has_solid = false;
        for (ids, part) in self.blank_by_blank(&thick) {
            let layers = gluing::layers(self.piece, part);
            let (mark, thick) = (self.as_one(&ids), self.text(part.thickness.length));
            let solid = self.piece.stock(part.stock).is_none_or(Stock::is_solid);
            if solid {
                (later, has_solid) = ("plane, sand,", true);
            }
            let packs = part.role.fills();
            lines.push(match solid {
                true if packs => format!(
                    "{mark}: laminate from {layers} layers face to face; leave it thicker than {thick} until its room is measured"
                ),
                true => format!(
                    "{mark}: laminate from {layers} layers face to face, then plane to {thick} thick"
                ),
                // A sheet is as thick as it was bought, and so are its layers.
                false => format!("{mark}: laminate from {layers} layers face to face, {thick} thick in all"),
            });
        }
        if has_solid {
            lines.push("flatten and plane the faces of every solid layer that meet, or the glue line gapes".to_owned());
        }
        // A stick is clamped once.
        let each: Vec<(PartId, u32)> = self
            .blank_by_blank(&thick)
            .into_iter()
            .filter_map(|(ids, part)| {
                let id = *ids.first()?;
                Some((id, gluing::laminated(self.work, id, part)))
            })
            .collect();
        let (clamps, rounds) = self.rounds(&each);
        let cure = self.piece.shop.cure;
        lines.push(format!(
            "clamp each with cauls over the whole face; {later} and cut them to size only when the glue has cured {cure}"
        ));
        lines.extend(self.told_rounds(&rounds));
        let (wait, waits_for) = self.cured_in(&rounds);
        let after = self.ready(&thick);
        let task = self.add(Task {
            lines,
            parts: thick.clone(),
            efforts: vec![Usual::Layers.times(thick.len())],
            wait,
            waits_for,
            clamps,
            rounds,
            blanks: thick.iter().map(|id| (*id, Blank::Layers)).collect(),
            after,
            ..Task::new("Glue up the thick parts from layers".into(), Work::Glue)
        });
        self.makes(&thick, task);
    }
}

/// What so many parts of a blank are called.
fn part_word(count: usize) -> &'static str {
    if count == 2 { "halves" } else { "parts" }
}
