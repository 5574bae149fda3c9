//! Panes of glass: ordered by what is made, and put in when the finish is dry.

use crate::diagnostics::listed;
use crate::measure::{Days, Length};
use crate::model::Stock;
use crate::parts::{Assembly, FeatureKind, JointSort, Part, PartId, Role};
use crate::plans::assembly::is_glass;
use crate::plans::operations::{Doing, Measure, Measured};

use super::{Maker, Usual, Wait, Work};

impl Maker<'_, '_> {
    /// The panes, in their order.
    pub(super) fn glass(&self) -> Vec<PartId> {
        self.ids(|part| is_glass(self.piece, part))
    }

    /// Orders the panes by what they go into, as it is made; nothing for a piece without glass.
    pub(super) fn ordered_glass(&mut self, stands: &[usize]) {
        let panes = self.glass();
        if panes.is_empty() {
            return;
        }
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        let shelves = self.ids(|part| part.role == Role::AdjustableShelf && self.is_pane(part));
        for (play, own) in self.plays(&shelves) {
            lines.push(format!(
                "measure between the boards on both sides of {}, front and back, and order each shelf {} shorter than the least of it",
                self.marks(&own),
                self.text(play)
            ));
            let (what, within) = (Measured::Between, None);
            does.push(Doing::Measure(Measure { what, within, less: play, parts: own }));
        }
        if !shelves.is_empty() {
            lines.push(format!(
                "have all edges of {} polished, and their corners taken off a little: hands touch them",
                self.marks(&shelves)
            ));
        }
        let mut lights: Vec<(Length, Vec<PartId>)> = Vec::new();
        for light in self.work.lights() {
            match lights.iter_mut().find(|(clear, _)| *clear == light.clear) {
                Some((_, panes)) => panes.push(light.pane),
                None => lights.push((light.clear, vec![light.pane])),
            }
        }
        for (clear, own) in lights {
            lines.push(format!(
                "measure the rabbets from wall to wall, at both ends, and order each pane {} less than the least of it in length and in width: {}",
                self.text(clear.twice()),
                self.marks(&own)
            ));
        }
        lines.extend(self.asked_of_glazier());
        does.extend(panes.iter().copied().map(Doing::Pane));
        let mut after = stands.to_vec();
        after.extend(self.ready(&panes));
        after.extend(self.ready(&self.frames_of_glass()));
        let efforts = vec![Usual::Measuring.times(panes.len())];
        let title = "Order the glass".to_owned();
        let task = self.simple(title, lines, panes.clone(), Work::Bench, efforts, after);
        self.does(task, does);
        if let (Some(lead), Some(own)) = (self.glazier_takes(&panes), self.tasks.get_mut(task)) {
            own.waits_for = Wait::Delivery(lead);
            self.ordered = Some(task);
        }
        self.makes(&panes, task);
    }

    /// What is done with the panes is done when they have come; other work goes on meanwhile.
    pub(super) fn waits_for_glass(&mut self, task: usize, panes: &[PartId]) {
        let Some((ordered, lead)) = self.ordered.zip(self.glazier_takes(panes)) else { return };
        if let Some(own) = self.tasks.get_mut(task) {
            own.hard.push((ordered, lead.duration()));
        }
    }

    /// The longest lead time of these panes.
    fn glazier_takes(&self, panes: &[PartId]) -> Option<Days> {
        let stocks = panes.iter().filter_map(|id| self.piece.stock(self.parts.get(*id)?.stock));
        stocks.filter_map(|stock| stock.lead).max().filter(|lead| lead.0 > 0)
    }

    /// True for a pane.
    pub(super) fn is_pane(&self, part: &Part) -> bool {
        is_glass(self.piece, part)
    }

    /// What else a glazier is asked for.
    fn asked_of_glazier(&self) -> Vec<String> {
        let of = |pick: fn(&Stock) -> bool| {
            let own = self.ids(|part| {
                self.piece.stock(part.stock).is_some_and(|stock| stock.is_glass() && pick(stock))
            });
            (!own.is_empty()).then(|| self.marks(&own))
        };
        let plain = of(|stock| stock.pane.tempered.is_none());
        let safe = of(|stock| stock.pane.tempered.is_some());
        let safe = safe.map(|marks| {
            format!("{marks}: ask for tempered glass; nobody can cut or drill it later, so its sizes must be right when you order it")
        });
        let plain = plain.map(|marks| {
            format!("{marks}: caution, plain glass breaks into long, sharp pieces. Ask the glazier for tempered glass in doors, in shelves, and wherever somebody may fall against it or a child reaches it; where your local code asks for safety glass, the code decides. Write `tempered` in the stock then")
        });
        let dry = "store panes upright on two strips of wood, with paper between them, and never flat on a bench".to_owned();
        safe.into_iter().chain(plain).chain([dry]).collect()
    }
}

impl Maker<'_, '_> {
    /// True for what goes into a front when all else is done to it: its glass, and the beads
    /// that hold it.
    pub(super) fn is_glazing(&self, part: &Part) -> bool {
        part.role == Role::Bead || part.role == Role::FrontPanel && self.is_pane(part)
    }

    /// The stiles and rails that glass goes into.
    fn frames_of_glass(&self) -> Vec<PartId> {
        let lights = self.work.lights().iter();
        let panes: Vec<&Part> = lights.filter_map(|light| self.parts.get(light.pane)).collect();
        self.ids(|part| {
            let own = panes.iter().any(|pane| pane.assembly == part.assembly);
            own && !self.is_glazing(part)
        })
    }

    /// Cuts off what lies behind the grooves of frames that take glass, when they are glued up.
    pub(super) fn rabbeted(&mut self) {
        let fronts = self.ids(|part| matches!(part.assembly, Assembly::Front(_)));
        let cuts = self.features(&fronts, |own| matches!(own.kind, FeatureKind::Glazing(_)));
        let mut parts: Vec<PartId> = cuts.iter().map(|(id, _)| *id).collect();
        parts.dedup();
        if parts.is_empty() {
            return;
        }
        let lines = vec![
            format!(
                "cut off what lies behind the grooves, from the back, so that each groove becomes a rabbet for glass: {}",
                self.marks(&parts)
            ),
            "use a rabbeting bit whose bearing runs on the front lip, at the router table or with a piece of wood clamped on that carries the base; take it off in two or three passes, and the last one just down to the front wall of the groove".to_owned(),
            "the bit leaves the corners round: square them with a chisel to the lines of the cut list".to_owned(),
            "feed against the turn of the bit, and clamp the frame: it is never held by hand alone"
                .to_owned(),
        ];
        let count = self.work.lights().len();
        let efforts = vec![Usual::Rabbet.times(count)];
        let after = self.ready(&parts);
        let title = "Cut the rabbets for the glass".to_owned();
        let task = self.simple(title, lines, parts.clone(), Work::Router, efforts, after);
        self.cuts(task, cuts);
        self.makes(&parts, task);
    }

    /// Puts the glass into its frames when the finish is dry.
    pub(super) fn glazed(&mut self, finished: usize) -> usize {
        let lights = self.work.lights();
        if lights.is_empty() {
            return finished;
        }
        let panes: Vec<PartId> = lights.iter().map(|light| light.pane).collect();
        let beads = lights.iter().flat_map(|light| light.beads.iter().map(|(id, _)| *id));
        let beads: Vec<PartId> = beads.collect();
        let frames = self.frames_of_glass();
        let mut lines = vec![
            "caution: glass cuts. Wear gloves that it can't cut, and safety glasses; carry a pane upright by two edges, and never over your head; two people carry a large one".to_owned(),
            format!(
                "with the doors off their hinges and the finish dry, lay each frame on its face on a blanket, and put in its pane: {}",
                self.marks(&panes)
            ),
        ];
        let mut rooms: Vec<Length> = lights.iter().map(|light| light.clear).collect();
        rooms.sort_unstable();
        rooms.dedup();
        for room in rooms {
            lines.push(format!(
                "a pane has {} of room on every side: keep it off the wood with slips of card at its lower edge, and never force it",
                self.text(room)
            ));
        }
        let mirrors = panes.iter().copied().filter(|id| {
            let stock = self.parts.get(*id).and_then(|part| self.piece.stock(part.stock));
            stock.is_some_and(|stock| stock.pane.mirror.is_some())
        });
        let mirrors: Vec<PartId> = mirrors.collect();
        if !mirrors.is_empty() {
            lines.push(format!(
                "the silvered face of {} looks into the case, and the bright one out; nothing that smells of vinegar may touch the silver",
                self.marks(&mirrors)
            ));
        }
        for light in lights {
            let pins: Vec<String> = light
                .beads
                .iter()
                .map(|(id, pins)| format!("{} with {pins}", self.parts.mark(*id)))
                .collect();
            lines.push(format!(
                "{}: lay in the beads, those along the rails first and those along the stiles between them, and pin them into the wall of the rabbet: {}, each {} long",
                self.parts.mark(light.pane),
                listed(&pins),
                self.text(light.pin)
            ));
        }
        lines.push("drill a fine hole for every pin, lay card on the glass, and push or tap the pins in along it; put no glue on beads or glass, so that a broken pane can be replaced".to_owned());
        let mut after = vec![finished];
        after.extend(self.ready(&panes));
        after.extend(self.ready(&beads));
        after.extend(self.ready(&frames));
        let efforts = vec![Usual::Glazing.times(panes.len())];
        let mut parts = panes.clone();
        parts.extend(&beads);
        let title = "Set the glass in the doors".to_owned();
        let task = self.simple(title, lines, parts.clone(), Work::Bench, efforts, after);
        let joints =
            self.picked(|joint| matches!(joint.sort, JointSort::Glazed | JointSort::Pinned));
        self.closes(task, joints);
        self.waits_for_glass(task, &panes);
        let mut does = vec![Doing::TakeOff(frames)];
        does.extend((0..lights.len()).map(Doing::Glaze));
        self.does(task, does);
        self.makes(&parts, task);
        task
    }
}
