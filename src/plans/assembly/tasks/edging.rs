//! Strips on the edges of sheets: they go on before any joint is cut.

use std::collections::BTreeMap;

use crate::diagnostics::listed;
use crate::model::StockId;
use crate::parts::{Face, Part, PartId, Strip, overlong};
use crate::plans::assembly::gluing;
use crate::plans::operations::{Along, Doing};

use crate::trade;

use super::{Maker, Stage, Usual, Work, stage};

impl Maker<'_, '_> {
    /// True for a part with strips on its edges.
    pub(super) fn is_edged(&self, id: PartId) -> bool {
        self.parts.get(id).is_some_and(|part| !part.strips.is_empty())
    }

    /// What the joints are called that wait for blanks to cure, and for edges.
    pub(super) fn late_title(&self) -> &'static str {
        let blank = |part: &Part| gluing::is_blank(self.piece, part);
        let of_first = |is: &dyn Fn(&Part) -> bool| {
            self.parts.iter().any(|(_, part)| stage(part) == Stage::First && is(part))
        };
        match (of_first(&blank), of_first(&|part| !part.strips.is_empty())) {
            (_, false) => "Cut the joints of the glued-up parts",
            (false, true) => "Cut the joints of the parts with covered edges",
            (true, true) => "Cut the joints of the glued-up parts and of those with covered edges",
        }
    }

    /// Lips are glued on, trimmed, and cut to size with their boards; then banding goes
    /// on.
    pub(super) fn edged(&mut self, from: Stage) {
        let with = |banding: bool| {
            self.ids(|part| {
                stage(part) == from && part.strips.first().is_some_and(|own| own.banding == banding)
            })
        };
        let (lipped, banded) = (with(false), with(true));
        self.lipped(&lipped);
        self.banded(&banded);
    }

    fn lipped(&mut self, parts: &[PartId]) {
        if parts.is_empty() {
            return;
        }
        let at_ends = self.with_strips(parts, true);
        let along = self.with_strips(parts, false);
        self.glued_on(&at_ends, true, false);
        self.glued_on(&along, false, !at_ends.is_empty());
        let tape = self.piece.tape();
        let (_, over) = overlong(tape.unit);
        let mut lines = vec![
            "trim every lip flush with both faces with a plane or a flush-trim bit; stop before you come through the face veneer".to_owned(),
        ];
        let is_cut = |part: &Part| {
            [Along::Length, Along::Width].into_iter().any(|along| part.is_cut_after(along.faces()))
        };
        let later = |id: &&PartId| self.parts.get(**id).is_some_and(is_cut);
        let sawn: Vec<PartId> = parts.iter().filter(later).copied().collect();
        if !sawn.is_empty() {
            lines.push(format!(
                "then cut {} to the finished size with the lip against the fence; they were sawn {} larger, so that lip and board end together",
                self.marks(&sawn),
                self.text(over)
            ));
        }
        let efforts = vec![Usual::Sawing.times(parts.len())];
        let after = self.ready(parts);
        let title = "Trim the lips, and cut the lipped boards to size".to_owned();
        let task = self.simple(title, lines, parts.to_vec(), Work::Machine, efforts, after);
        self.mills(task, sawn);
        self.makes(parts, task);
    }

    /// Glues on the lips at the ends of boards, or those along them.
    fn glued_on(&mut self, parts: &[PartId], ends: bool, ends_are_on: bool) {
        if parts.is_empty() {
            return;
        }
        let tape = self.piece.tape();
        let (long, _) = overlong(tape.unit);
        let mut lines = Vec::new();
        if ends_are_on {
            lines.push(
                "trim the lips at the ends flush on all sides; those along the boards cover them"
                    .to_owned(),
            );
        }
        lines.extend(self.strip_lines(parts, |strip| is_at_end(strip) == ends));
        lines.push(format!(
            "leave each strip {} longer than its edge, and wider than the board is thick; set it so that it stands proud of both faces",
            self.text(long)
        ));
        let inset: Vec<PartId> = parts.iter().copied().filter(|id| self.is_shaved(*id)).collect();
        if !inset.is_empty() {
            lines.push(format!(
                "{}: rip these strips {} thicker than that; it comes off again when the front is planed to its opening",
                self.marks(&inset),
                self.text(trade::shaving(tape.unit))
            ));
        }
        lines.push(
            "glue it on with a caul as long as the edge between the strip and the clamps"
                .to_owned(),
        );
        let count =
            |id: &PartId| self.strips(*id).iter().filter(|strip| is_at_end(strip) == ends).count();
        let seams = |id: &PartId| Some(gluing::seamed(*id, self.parts.get(*id)?, count(id) as i64));
        let closings = parts.iter().filter_map(seams).collect();
        let effort = Usual::Lip.times(parts.iter().map(count).sum());
        // What is left at the ends is trimmed out of the clamps; the rest is planed flush,
        // and a glue line that is still wet sinks later.
        let is_last = !ends || self.with_strips(parts, false).len() < parts.len();
        let does = self.strips_on(parts, |strip| is_at_end(strip) == ends);
        let title = match (ends, ends_are_on) {
            (true, _) => "Lip the ends of the boards",
            (false, true) => "Lip the long edges of the boards",
            (false, false) => "Lip the edges",
        };
        let task = self.glued_one_by_one(title, lines, (effort, is_last), closings);
        self.does(task, does);
    }

    /// Those with strips at their ends, or along them.
    fn with_strips(&self, parts: &[PartId], ends: bool) -> Vec<PartId> {
        let has = |id: &&PartId| self.strips(**id).iter().any(|strip| is_at_end(strip) == ends);
        parts.iter().filter(has).copied().collect()
    }

    /// True for a front that is planed to its opening.
    fn is_shaved(&self, id: PartId) -> bool {
        self.parts.get(id).is_some_and(|part| self.is_inset(&part.assembly))
    }

    fn banded(&mut self, parts: &[PartId]) {
        if parts.is_empty() {
            return;
        }
        let tape = self.piece.tape();
        let (long, _) = overlong(tape.unit);
        let mut lines = self.strip_lines(parts, |_| true);
        lines.push(format!(
            "cut each strip {} longer than its edge; press it on from the middle to both ends, trim the ends first, then both sides, and break the corners with fine paper",
            self.text(long)
        ));
        lines.push("every edge that is banded was sawn clean and square: banding shows each tooth of the saw".to_owned());
        let count = parts.iter().map(|id| self.strips(*id).len()).sum();
        let efforts = vec![Usual::Banding.times(count)];
        let after = self.ready(parts);
        let title = "Band the edges".to_owned();
        let task = self.simple(title, lines, parts.to_vec(), Work::Bench, efforts, after);
        let does = self.strips_on(parts, |_| true);
        self.does(task, does);
        self.makes(parts, task);
    }

    fn strips(&self, id: PartId) -> &[Strip] {
        self.parts.get(id).map_or(&[], |part| part.strips.as_slice())
    }

    /// The strips of these parts that `pick` picks.
    fn strips_on(&self, parts: &[PartId], pick: impl Fn(&Strip) -> bool) -> Vec<Doing> {
        let mut doings = Vec::new();
        for id in parts {
            let picked = (0..).zip(self.strips(*id)).filter(|(_, strip)| pick(strip));
            doings.extend(picked.map(|(number, _)| Doing::Edge(*id, number)));
        }
        doings
    }

    /// `cherry, 1/4 thick: front edge of B, SH`: a line for each stock, thickness, and
    /// edge.
    fn strip_lines(&self, parts: &[PartId], pick: impl Fn(&Strip) -> bool) -> Vec<String> {
        let mut alike: BTreeMap<(StockId, String, Vec<String>), Vec<PartId>> = BTreeMap::new();
        for (id, part) in parts.iter().filter_map(|id| Some((*id, self.parts.get(*id)?))) {
            let Some(first) = part.strips.first() else { continue };
            let own = part.strips.iter().filter(|strip| pick(strip));
            let faces = own.map(|strip| part.face_name(strip.face)).collect();
            let key = (first.stock, self.text(first.thick.length), faces);
            alike.entry(key).or_default().push(id);
        }
        let line = |((stock, thick, faces), ids): ((StockId, String, Vec<String>), Vec<PartId>)| {
            let name = self.piece.stock(stock).map_or("", |stock| stock.name.as_str());
            format!("{name}, {thick} thick: {} of {}", listed(&faces), self.marks(&ids))
        };
        alike.into_iter().map(line).collect()
    }
}

fn is_at_end(strip: &Strip) -> bool {
    matches!(strip.face, Face::LengthStart | Face::LengthEnd)
}
