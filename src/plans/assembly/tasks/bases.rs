//! What several cases of a run stand on, made once: set and leveled by itself, the cases
//! on it, and the toe kick over all of them.

use crate::diagnostics::listed;
use crate::model::{Case, Row, Side};
use crate::parts::{Assembly, Joint, JointSort, Of, PartId, Role};
use crate::plans::bases::{self, Leveled, StoodOn};
use crate::plans::operations::{Doing, House};
use crate::plans::scribe_strips::scribe_strips;
use crate::plans::weights::Lifted;
use crate::trade::Carry;

use super::{Maker, Usual, Work};

/// What closes the gap between the floor and the front of a base that is shimmed level.
pub(super) const UNDER_BASE: &str = "a gap between the floor and the base is closed by a molding, or by a strip that is scribed to the floor; neither is part of these papers";

impl Maker<'_, '_> {
    /// Every separate base that several cases stand on.
    pub(super) fn shared_bases(&self) -> Vec<Row> {
        let rows = self.piece.runs.iter().flat_map(|run| &run.bases);
        let separate = |row: &&Row| {
            let base = self.piece.case(row.first).and_then(|case| case.base.as_ref());
            base.is_some_and(|base| base.separate)
        };
        rows.filter(separate).copied().collect()
    }

    /// The cases that are leveled by themselves where they stand: on a wall none is, and on
    /// a base that others stand on too that alone.
    pub(super) fn leveled(&self) -> impl Iterator<Item = &Case> {
        self.piece.cases.iter().filter(|case| {
            let separate = case.base.as_ref().is_some_and(|base| base.separate);
            case.is_on_floor() && !(separate && self.piece.base_row(case.id).is_some())
        })
    }

    /// True where a case is leveled by itself.
    pub(super) fn levels(&self) -> bool {
        self.leveled().next().is_some()
    }

    /// A base that several cases stand on is leveled once; the task after which it is.
    pub(super) fn bases_set(&mut self, after: usize) -> usize {
        let mut last = after;
        let between = self.between_walls().is_some() || self.fills_between_walls();
        for own in bases::leveled(self.piece, self.parts, between) {
            let Some(part) = self.parts.get(own.long[0]) else { continue };
            let name = self.piece.base_named(part.case);
            let members = self.ids(|other| other.assembly == part.assembly);
            let lines = self.level(&own, Lifted::Base(part.case));
            let mut before = vec![last];
            before.extend(self.ready(&members));
            let efforts = vec![Usual::Leveling.times(1)];
            let title = format!("Set the base of {name}");
            last = self.simple(title, lines, members, Work::Fit, efforts, before);
            self.does(last, vec![Doing::House(House::SetBase(own))]);
        }
        last
    }

    /// Cases come onto the base that they share; the task after which they stand there.
    pub(super) fn stood_on_bases(&mut self, after: usize) -> usize {
        let mut last = after;
        // Where nothing is leveled by itself, this is when places are kept free.
        let mut kept = (!self.levels()).then(|| self.kept(None));
        for row in self.shared_bases() {
            let cases: Vec<&Case> = self.piece.of_row(row).collect();
            let framed = cases.iter().any(|case| case.frame.is_some());
            let stood = bases::stood_on(self.piece, self.parts, &cases, framed);
            let mut lines = stood.as_ref().map_or(Vec::new(), |own| self.put_on(&cases, own));
            let (told, keeps) = kept.take().unwrap_or_default();
            lines.extend(told);
            let efforts = vec![Usual::Planting.times(cases.len())];
            let title = Self::on_its_base("Set", &cases);
            last = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![last]);
            let stood = stood.into_iter().map(|own| Doing::House(House::StandOn(own)));
            self.does(last, stood.collect());
            self.does(last, keeps);
        }
        last
    }

    /// `Set sink and bank on their base`.
    fn on_its_base(verb: &str, cases: &[&Case]) -> String {
        let names: Vec<&str> = cases.iter().map(|case| case.name.as_str()).collect();
        let to = if verb == "Set" { "on" } else { "to" };
        let whose = if names.len() == 1 { "its" } else { "their" };
        format!("{verb} {} {to} {whose} base", listed(&names))
    }

    fn level(&self, own: &Leveled, lifted: Lifted) -> Vec<String> {
        let tape = self.piece.tape();
        let [front, back] = own.long.map(|id| self.parts.mark(id));
        let carry = match self.work.weights().carry(&lifted) {
            Carry::People(1) => "carry it in by itself, without its cases".to_owned(),
            Carry::People(count) => {
                format!("carry it in by itself, without its cases, with {count} people")
            }
            Carry::Gear => "bring it in on a dolly, by itself, without its cases".to_owned(),
        };
        let off = |told: &str, at| format!("{told} {} off", self.text(at));
        let mut place = Vec::new();
        place.extend(own.behind.map(|at| self.off_wall(back, at)));
        place.extend(own.beside.map(|(side, at)| {
            let end = format!("the {} end of {front}", side.word());
            off(&end, at) + &format!(" the {} wall", side.word())
        }));
        let between = match own.between {
            true => format!(", {}", self.in_the_middle(own.farther)),
            false => String::new(),
        };
        let mut lines = vec![carry];
        if !place.is_empty() {
            lines.push(format!("set it in its place{between}, with {}", listed(&place)));
        } else if own.between {
            lines.push(format!("set it in its place{between}"));
        }
        let high = self.text(own.high);
        let walled = own.behind.is_some() || own.beside.is_some() || own.between;
        let (strike, until) = match walled {
            true => (
                format!(", and strike a level line on the wall {high} above it"),
                "level with the line and with each other".to_owned(),
            ),
            false => (
                " with a straightedge and a level".to_owned(),
                format!(
                    "{high} above that place, and level from end to end and from front to back"
                ),
            ),
        };
        lines.push(format!(
            "find the highest place of the floor under the whole run{strike}; shim under every sleeper, at its front and at its back, until the upper edges of the base are {until}: this is the one time that the cases on it are leveled"
        ));
        lines.push(format!(
            "screw {} blocks of waste, {} square, to the floor inside it, half of them along {front} and half along {back}, two of each half near the ends; look for pipes, wires, and heating in the floor before you drill, and glue the blocks down where there are any",
            own.blocks,
            self.text(own.block)
        ));
        lines.push(format!(
            "screw through the blocks into {front} and {back}, with screws no longer than {}, so that none comes out of their faces; try the level again",
            self.text(tape.down(own.most))
        ));
        lines.push(UNDER_BASE.to_owned());
        lines
    }

    fn put_on(&self, cases: &[&Case], own: &StoodOn) -> Vec<String> {
        let names: Vec<&str> = cases.iter().map(|case| case.name.as_str()).collect();
        let way = if names.len() == 1 { "" } else { ", from the left" };
        vec![
            format!("set {} on it{way}, with {}", listed(&names), self.stands_on(own)),
            "where one rocks, mend the base: no shim goes between the two".to_owned(),
        ]
    }

    /// Cases are screwed down on a base that they share when they are fixed to each other,
    /// each from inside; the task after which they hold.
    pub(super) fn screwed_down(&mut self, after: usize) -> usize {
        let mut last = after;
        for row in self.shared_bases() {
            let joints = self.picked(|joint| self.is_planted_on(joint, row));
            let (mut lines, mut does) = (Vec::new(), Vec::new());
            let cases: Vec<&Case> = self.piece.of_row(row).collect();
            for case in &cases {
                let own = joints.iter().filter_map(|index| self.parts.joints.get(*index));
                let mut planted: Vec<PartId> = own.map(|joint| joint.part).collect();
                planted.retain(|id| self.parts.get(*id).is_some_and(|part| part.case == case.id));
                let (told, doing) = self.on_base(case.id, &planted);
                lines.extend(told.into_iter().map(|line| format!("{}: {line}", case.name)));
                does.push(doing);
            }
            let efforts = vec![Usual::Planting.times(cases.len())];
            let title = Self::on_its_base("Screw", &cases);
            last = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![last]);
            self.closes(last, joints);
            self.does(last, does);
        }
        last
    }

    fn is_planted_on(&self, joint: &Joint, row: Row) -> bool {
        joint.sort == JointSort::Planted
            && self
                .parts
                .get(joint.into)
                .is_some_and(|into| into.assembly == Assembly::Base(row.first))
    }

    /// The boards behind the toe spaces go on once the cases stand level and hold, each
    /// scribed to the floor; the task after which they are on.
    pub(super) fn kicks_on(&mut self, after: usize) -> usize {
        let kicks = self.ids(|part| part.role == Role::Kick);
        if kicks.is_empty() {
            return after;
        }
        let mut lines = vec![
            "saw off the shims where they stand out from under the ends into the toe space"
                .to_owned(),
        ];
        lines.extend(self.bare_ends());
        // Under a filler the gap at the wall is closed when that is on.
        let strips = scribe_strips(self.piece, self.parts);
        let walled = |id: &PartId| strips.iter().any(|strip| strip.kick == *id && !strip.filled);
        let walled: Vec<PartId> = kicks.iter().copied().filter(walled).collect();
        let mut does: Vec<Doing> =
            kicks.iter().map(|kick| Doing::House(House::Kick(*kick))).collect();
        if !walled.is_empty() {
            lines.push(format!("the gap beside {} at the wall is closed by a strip of its stock, scribed to the wall and glued to its end, before the two are scribed to the floor as one", self.marks(&walled)));
            does.push(Doing::House(House::Strip(walled)));
        }
        lines.extend(kicks.iter().flat_map(|kick| self.kick_scribed(*kick)));
        if self.is_finished() {
            lines.push("seal the edge that you planed with finish".to_owned());
        }
        lines.extend(kicks.iter().filter_map(|kick| self.kick_screwed(*kick)));
        let mut before = vec![after];
        before.extend(self.ready(&kicks));
        let efforts = vec![Usual::Kick.times(kicks.len())];
        let title = match kicks.len() {
            1 => "Fix the toe kick",
            _ => "Fix the toe kicks",
        };
        let task = self.simple(title.to_owned(), lines, kicks.clone(), Work::Fit, efforts, before);
        let joints = self.picked(|joint| {
            joint.sort == JointSort::Planted && kicks.binary_search(&joint.part).is_ok()
        });
        self.closes(task, joints);
        self.does(task, does);
        task
    }

    /// What closes the gap between the floor and an end over it that is seen and has no
    /// cover.
    fn bare_ends(&self) -> Option<String> {
        let notched = self.piece.cases.iter().filter(|case| {
            case.is_on_floor() && case.base.as_ref().is_some_and(|base| !base.separate)
        });
        let bare = notched.flat_map(|case| {
            let sides = Side::BOTH.into_iter().filter(|side| case.shows_end(*side));
            sides.map(move |side| (case.id, Role::End(side)))
        });
        let ends: Vec<PartId> =
            bare.flat_map(|(case, role)| self.ids_in(case, |part| part.role == role)).collect();
        (!ends.is_empty()).then(|| {
            format!("a gap between the floor and the foot of {} is closed by a molding, which is not part of these papers", self.marks(&ends))
        })
    }

    /// How a kick comes to the floor: held before its place, since the wood that comes off
    /// keeps it out of that.
    fn kick_scribed(&self, kick: PartId) -> Vec<String> {
        let Some(part) = self.parts.get(kick) else { return Vec::new() };
        let Some(spare) = part.spare.first() else { return Vec::new() };
        let (mark, edge) = (&part.mark, part.face_name(spare.face));
        vec![
            format!(
                "{mark} is left {} higher than it is drawn, at its {edge}, to be scribed to the floor",
                self.text(spare.by.length)
            ),
            format!(
                "stand {mark} on the floor close in front of its place, against the face of the case, and shim it until its top is parallel to the underside of the case; set the compass to what its top stands above that underside, and draw the floor onto its {edge}"
            ),
            format!(
                "saw outside the line and plane to it until {mark} goes up under the case all along with its {edge} on the floor; where the floor is true, all that was left on comes off; where the line runs off the board, it is too low: cut it again, higher"
            ),
        ]
    }

    /// Where a kick is screwed on.
    fn kick_screwed(&self, kick: PartId) -> Option<String> {
        let part = self.parts.get(kick)?;
        let place = match self.piece.base_row(part.case).filter(|_| matches!(part.of, Of::Row(_))) {
            Some(row) => {
                let [first, last] = [row.first, row.last]
                    .map(|id| self.piece.case(id).map_or("", |case| case.name.as_str()));
                format!(
                    "across all the notches from {first} to {last}, with its ends flush with the outer faces of the ends there"
                )
            }
            None => "across both notches, with its ends flush with the outer faces of the ends"
                .to_owned(),
        };
        Some(format!(
            "{}: screw it {place} and the screws on the lines of the layout sheet, without glue, so that it comes off again where the piece has to be leveled anew; sink their heads, and fill the holes where they are seen",
            part.mark
        ))
    }
}
