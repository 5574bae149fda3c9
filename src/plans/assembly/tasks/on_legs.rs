//! Bought legs: their holes while the bottom lies flat, and the case turned over for them.

use crate::diagnostics::{counted, listed};
use crate::model::{Case, Fixing};
use crate::parts::{Bore, FeatureKind, PartId};
use crate::plans::on_legs::{self, LegsOn};
use crate::plans::operations::Doing;
use crate::trade::Carry;

use super::{Maker, Stage, Usual, Wait, Work};

impl Maker<'_, '_> {
    /// Holes in the first boards: those for pins and plates, round ones that the maker asks
    /// for, and those for legs.
    pub(super) fn holes(&mut self) {
        self.pins(Stage::First);
        let boards = self.at(Stage::First);
        self.round_holes(&boards);
        self.leg_holes(&boards);
    }

    fn leg_holes(&mut self, boards: &[PartId]) {
        let holes = self.features(boards, |own| own.kind == FeatureKind::Bore(Bore::Leg));
        let mut bored: Vec<PartId> = holes.iter().map(|(id, _)| *id).collect();
        bored.dedup();
        if bored.is_empty() {
            return;
        }
        let lines = vec![format!(
            "mark the holes on the underside of {} by the cut list, and bore them with a stop on the bit: a hole that comes through is seen inside",
            self.marks(&bored)
        )];
        let efforts = vec![Usual::Hole.times(bored.len())];
        let after = self.ready(&bored);
        let title = "Bore for the legs".to_owned();
        let task = self.simple(title, lines, bored.clone(), Work::Bench, efforts, after);
        self.cuts(task, holes);
        self.makes(&bored, task);
    }

    /// Every case that stands on bought legs is turned over, and they go on; the task after
    /// which it stands on them.
    pub(super) fn legs_on(&mut self, finished: usize) -> usize {
        let mut last = finished;
        for case in &self.piece.cases {
            let Some(own) = on_legs::legs_on(self.work, case) else { continue };
            let lines = self.turned_over(case, &own);
            let efforts = vec![Usual::Hole.times(own.centers.len())];
            let title = format!("Turn {} over and put its legs on", case.name);
            let dowels = self.piece.leg(own.leg).is_some_and(|leg| leg.fixing.is_glued());
            last = self.simple(title, lines, vec![own.on], Work::Bench, efforts, vec![last]);
            if let Some(task) = self.tasks.get_mut(last).filter(|_| dowels) {
                (task.wait, task.waits_for) = (self.piece.shop.cure, Wait::Screws);
            }
            self.does(last, vec![Doing::Legs(own)]);
        }
        last
    }

    fn turned_over(&self, case: &Case, own: &LegsOn) -> Vec<String> {
        let Some(leg) = self.piece.leg(own.leg) else { return Vec::new() };
        let name = &case.name;
        let by = match own.carry {
            Carry::People(1) => "turn it".to_owned(),
            Carry::People(count) => format!("turn it with {count} people"),
            Carry::Gear => "turn it with straps and a lift".to_owned(),
        };
        let bottom = self.parts.get(own.on);
        let [end, edge] =
            own.from.map(|face| bottom.map_or(String::new(), |part| part.face_name(face)));
        let mark = self.parts.mark(own.on);
        let mut along: Vec<String> = Vec::new();
        let mut across: Vec<String> = Vec::new();
        for [u, v] in &own.centers {
            for (all, at) in [(&mut along, u), (&mut across, v)] {
                let told = self.text(*at);
                if !all.contains(&told) {
                    all.push(told);
                }
            }
        }
        let depth = self.text(leg.fixing.hole().deep);
        let mut lines = vec![
            format!(
                "see that nothing is left in {name} that opens or lies loose, lay blankets on the floor, and {by} upside down onto them"
            ),
            format!(
                "set {} under {mark}, their middles {} from its {end}, and {} from its {edge}",
                counted(own.centers.len(), &format!("{} leg", leg.name)),
                listed(&along),
                listed(&across)
            ),
        ];
        lines.push(match leg.fixing {
            Fixing::Plate { screws, .. } => format!(
                "drive {screws} screws through each plate into the holes that are bored, with screws that go {depth} into the wood and no deeper"
            ),
            Fixing::Bolt(_) => {
                "turn an insert into each hole until it is flush, and the leg into it by hand until its top lies tight".to_owned()
            }
            Fixing::Dowel(_) => format!(
                "spread glue in each hole, push the dowel in {depth} deep until the top of the leg lies tight, and leave it until the glue has cured"
            ),
        });
        if leg.adjust.is_positive() {
            lines.push(format!(
                "turn every adjuster all the way in; it comes out by {} where the piece is leveled, and no farther",
                self.text(leg.adjust)
            ));
        }
        lines.push(format!(
            "{by} back: lift {name}, and set it down on all its legs at once; whoever tips it over two of them tears these out"
        ));
        lines
    }

    /// How cases are brought level: by the adjusters of their legs, where all have some that
    /// turn out, else by shims.
    pub(super) fn level_by(&self, cases: &[&Case]) -> Option<&'static str> {
        let all = !cases.is_empty() && cases.iter().all(|case| self.piece.has_adjusters(case));
        all.then_some(
            "leave the adjuster of the leg on that place turned in, and turn those of the others out",
        )
    }
}
