//! What a run asks for in the house: its fillers, and its places for appliances.

use crate::model::{Case, JointKind, RunId, Side, Size, Space};
use crate::parts::{Assembly, Direction, JointSort, PartId, Role, Which};
use crate::plans::assembly::gluing;
use crate::plans::operations::{Doing, Filled, House};
use crate::plans::scribe_strips::scribe_strips;

use super::{Maker, Usual, Work, effort};

impl Maker<'_, '_> {
    /// Each filler of a case gets the batten that it is screwed on by.
    pub(super) fn battens(&mut self, case: &Case) {
        for filler in &case.fillers {
            let unit = Assembly::Filler(case.id, filler.side);
            let joints = self.joints_of(&unit);
            let closes = self.closing.get(&unit).cloned().unwrap_or_default();
            let mut parts: Vec<PartId> =
                joints.iter().flat_map(|joint| [joint.into, joint.part]).collect();
            parts.dedup();
            let edge = match filler.side {
                Side::Left => "right",
                Side::Right => "left",
            };
            let lines = vec![format!(
                "{}: glue its front edge to the back of the filler, flush with the {edge} edge of that and with both ends, and square to it",
                self.marks(&joints.iter().map(|joint| joint.part).collect::<Vec<_>>())
            )];
            let load = gluing::joined(self.parts, &joints);
            let (after, efforts) = (self.ready(&parts), effort::joints(self.parts, &joints));
            let title = format!("Glue the batten to the filler {}", filler.name);
            let task = self.glue(title, lines, parts.clone(), efforts, &load, None, after);
            self.closes(task, closes);
            self.makes(&parts, task);
        }
    }

    /// Every filler is fitted and screwed on from inside its case, once the cases hold;
    /// the task after which they are on.
    pub(super) fn filled(&mut self, after: usize) -> usize {
        let strips = self.ids(|part| part.role == Role::Filler);
        let all: Vec<Filled> = strips.iter().filter_map(|id| self.filler(*id)).collect();
        if all.is_empty() {
            return after;
        }
        let strips_at = scribe_strips(self.piece, self.parts);
        let mut lines: Vec<String> = all.iter().flat_map(|own| self.fill(own)).collect();
        let scribed = all.iter().any(|own| own.most.is_some());
        if scribed {
            lines.push("lean the plane a few degrees under the line, so that only the front edge meets the wall".to_owned());
        }
        if scribed && self.is_finished() {
            lines.push(
                "seal every edge that you plane in the house with finish, before it meets the wall"
                    .to_owned(),
            );
        }
        let filled = strips_at.iter().filter(|own| own.filled);
        let mut kicks: Vec<PartId> = filled.map(|own| own.kick).collect();
        kicks.dedup();
        let mut does: Vec<Doing> = all.iter().map(|own| Doing::House(House::Fill(*own))).collect();
        if !kicks.is_empty() {
            lines.push(format!("the gap beside {} under the filler is closed by a strip of its stock, scribed to the wall and glued to its end", self.marks(&kicks)));
            does.push(Doing::House(House::Strip(kicks)));
        }
        let title = match all.len() {
            1 => "Fit the filler",
            _ => "Fit the fillers",
        };
        let mut after = vec![after];
        after.extend(self.ready(&strips));
        let efforts = vec![Usual::Filler.times(all.len())];
        let work = Work::Fit;
        let task = self.simple(title.to_owned(), lines, strips, work, efforts, after);
        let is_batten = |part| self.parts.get(part).is_some_and(|own| own.role == Role::Batten);
        let joints = self.picked(|joint| {
            joint.sort == JointSort::Wood(JointKind::Screw) && is_batten(joint.part)
        });
        self.closes(task, joints);
        self.does(task, does);
        task
    }

    fn filler(&self, strip: PartId) -> Option<Filled> {
        let part = self.parts.get(strip)?;
        let Assembly::Filler(case, side) = part.assembly else { return None };
        let filler = self.piece.case(case)?.filler(side)?;
        let of = |role| {
            let mut own = self.parts.iter_case(case).filter(|(_, part)| part.role == role);
            own.find(|(_, own)| own.which == Which::At(side)).map(|(id, _)| id)
        };
        let most = filler.scribe.as_ref().map(|scribe| scribe.length);
        Some(Filled {
            strip,
            batten: of(Role::Batten)?,
            end: self.ids_in(case, |part| part.role == Role::End(side)).first().copied()?,
            most: most.filter(|most| most.is_positive()),
        })
    }

    fn fill(&self, own: &Filled) -> Vec<String> {
        let (strip, batten) = (self.parts.mark(own.strip), self.parts.mark(own.batten));
        let end = self.parts.mark(own.end);
        let mut lines = Vec::new();
        if let Some(most) = own.most {
            lines.push(format!(
                "from the side of {end} measure to the wall at the top, at the bottom, and at three places between, level with the face that {strip} will have; lay each measure off on {strip} from the edge that has {batten}, join the marks, and plane to the line; up to {} of it may come off",
                self.text(most)
            ));
        }
        // It is level with the fronts: with the case where they lie in it, else before it,
        // and then its batten begins where the case does.
        let front = |id| self.parts.get(id).map(|part| part.side(Direction::Z, false).length);
        let framed = self.parts.get(own.end).and_then(|part| self.piece.case(part.case));
        let place = match framed.is_some_and(|case| case.frame.is_some()) {
            true => format!("the face of {strip} flush with the face frame"),
            false if front(own.batten) == front(own.end) => {
                format!("the front edge of {batten} even with that of {end}")
            }
            false => format!("the face of {strip} even with the front edge of {end}"),
        };
        lines.push(format!(
            "clamp {batten} to {end} with {place}, drill, and screw it from inside the case, through {end} into {batten}, without glue"
        ));
        lines
    }

    /// Places that must keep their width while the cases beside them are set and fixed, or
    /// hung: `over` says whether they hang over others.
    pub(super) fn kept(&self, over: Option<bool>) -> (Vec<String>, Vec<Doing>) {
        let told = |own: &Space| {
            let wide = self.text(own.wide.length);
            if let Some(stands) = self.piece.walled_up(own) {
                return format!(
                    "the {} stands in the space for {}: place what is on each side of it by the wall there, and measure first, low, halfway up, and high, and in front and at the back, that it goes between that wall and the {}",
                    stands.name, own.name, stands.name
                );
            }
            match over.is_some() {
                true => format!(
                    "keep a space of {wide} for {} when you hang what is beside it: cut two sticks of that length, and hold them between what hangs there, one at the bottom and one at the top, until the second of both is screwed on",
                    own.name
                ),
                false => format!(
                    "keep a space of {wide} for {} when you set what stands beside it: cut two sticks of that length, and leave them between what stands there, one at the floor and one at the top, until both sides are fixed",
                    own.name
                ),
            }
        };
        let is = |case: &Case| match over {
            Some(over) => case.hung.is_some() && case.over().is_some() == over,
            None => case.hung.is_none(),
        };
        let of_run = |id: RunId| self.piece.cases.iter().find(|case| case.run == Some(id));
        let spaces = || {
            let all = self.piece.spaces();
            all.filter(|(id, _)| of_run(id.run).is_some_and(is))
        };
        let mut lines: Vec<String> = spaces().map(|(_, own)| told(own)).collect();
        let keeps = spaces().filter(|(_, own)| self.piece.walled_up(own).is_none());
        let keeps = keeps.map(|(id, _)| Doing::House(House::Keep(id)));
        let mut does: Vec<Doing> = keeps.collect();
        for case in self.piece.cases.iter().filter(|case| is(case)) {
            for filler in &case.fillers {
                let Some(scribe) = &filler.scribe else { continue };
                let (most, side) = (filler.wide.length, filler.side);
                let least = most - scribe.length;
                let room = match scribe.length.is_positive() {
                    true => format!("{} to {}", self.text(least), self.text(most)),
                    false => self.text(most),
                };
                lines.push(format!(
                    "leave {room} between {} and the wall at its {}, from top to bottom, or the filler {} comes out too wide or too narrow",
                    case.name,
                    side.word(),
                    filler.name
                ));
                does.push(Doing::House(House::StandOff(case.id, side, [least, most])));
            }
        }
        (lines, does)
    }

    /// What is bought comes in last.
    pub(super) fn appliances(&mut self, after: usize) {
        let told = |own: &Space, [wide, high]: &[Size; 2]| {
            let clear = match own.clear.length.is_positive() {
                true => format!(", with {} clear at each side", self.text(own.clear.length)),
                false => String::new(),
            };
            format!(
                "push what {} takes into its place, {} wide and {} high{clear}, and fix it as its own sheet says",
                own.name,
                self.text(wide.length),
                self.text(high.length)
            )
        };
        let taking = || self.piece.spaces().filter(|(_, own)| own.takes.is_some());
        let lines = taking().filter_map(|(_, own)| Some(told(own, own.takes.as_ref()?)));
        let mut lines: Vec<String> = lines.collect();
        if lines.is_empty() {
            return;
        }
        lines.push("leave gas, water, drains, and wires to the licensed trades; local codes say what stays open round an appliance".to_owned());
        let efforts = vec![Usual::Appliance.times(lines.len() - 1)];
        let title = "Push in the appliances".to_owned();
        let task = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![after]);
        let does = taking().map(|(id, _)| Doing::House(House::PushIn(id))).collect();
        self.does(task, does);
    }
}
