//! Tasks from joints. Every joint of the piece is cut in one task and closed in
//! one; a task comes after those that its parts come out of.

mod apart;
mod at_wall;
mod bases;
mod beside;
mod blanks;
mod boxes;
mod carcass;
mod countertops;
mod covers;
mod cutting;
mod edging;
mod false_fronts;
mod finishing;
mod fronts;
mod glass;
mod hanging;
mod hung_up;
mod installing;
mod joints;
mod left_bare;
mod legs;
mod lone_bases;
mod miters;
mod nailers;
mod on_legs;
mod openings;
mod on_wood;
mod packed;
mod plugs;
mod raw_edges;
mod runs;
mod screw_holes;
mod scribing;
mod stacking;
mod told;
mod units;

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::measure::{Duration, Length};
use crate::model::{CaseId, Finish, FinishId, JointKind, Piece, Set};
use crate::parts::{Assembly, Direction, Feature, Joint, JointSort, Of, Part, PartId, Parts, Role};
use crate::plans::operations::Doing;
use crate::plans::setups::Setup;
use crate::plans::squareness::{self, Square};
use crate::plans::{Workings, finish};
use crate::trade;

use super::effort::{self, Effort, ShopTime, Usual};
use super::gluing::{Load, Units};
use super::stages::is_within;
use super::{Stage, Task, Wait, Work, stage};

/// Every task, each after those it depends on.
pub(super) fn tasks(work: &Workings<'_>) -> Vec<Task> {
    let mut maker = Maker::new(work);
    let cut = maker.cut();
    maker.blanks();
    maker.layers();
    maker.sized();
    maker.edged(Stage::First);
    // A glued-up part gets its joints when it has cured and lies at its size.
    let (early, late) = maker.by_turn(cut);
    maker.joints("Cut the joints", early);
    maker.joints(maker.late_title(), late);
    maker.holes();
    maker.trimmed();
    maker.prefinish(true);
    let mut stands = Vec::new();
    for case in &work.piece.cases {
        stands.extend(maker.case(case));
    }
    maker.cut_to_openings(&stands);
    maker.fronts(&stands);
    let boxes = maker.boxes();
    let hung = maker.hang(&stands, boxes);
    let finished = maker.finish(&hung);
    maker.install(finished);
    maker.bored_first();
    maker.tasks
}

/// Makes the tasks; what several of them ask for is worked out once.
struct Maker<'w, 'a> {
    work: &'w Workings<'a>,
    piece: &'a Piece,
    parts: &'a Parts,
    setups: &'w [Setup],
    /// The parts of each unit.
    members: BTreeMap<&'a Assembly, Vec<PartId>>,
    /// The joints by what is glued up together.
    units: Units<'a>,
    /// The joints that close with each unit, by their places among all.
    closing: BTreeMap<&'a Assembly, Vec<usize>>,
    /// The joints of each face frame with its carcass.
    framed: BTreeMap<CaseId, Vec<usize>>,
    /// The joints of what is planted on each case.
    planted: BTreeMap<CaseId, Vec<usize>>,
    /// The first joint in which each part is screwed to another, by its place among all.
    screwed: BTreeMap<PartId, usize>,
    /// The boards that each loose shelf lies on.
    laid: BTreeMap<PartId, Vec<PartId>>,
    /// The task that each part comes out of, the last so far.
    made: BTreeMap<PartId, usize>,
    /// The tasks that fix packers and strips of drawers before the fronts are fitted.
    packed: Option<usize>,
    stripped: Option<usize>,
    /// The backs that came off, to stay off until after the finish, each with its task.
    opened: BTreeMap<PartId, usize>,
    /// The task that orders glass which takes a while to come.
    ordered: Option<usize>,
    tasks: Vec<Task>,
    /// The lengths that lines tell, until the next task takes them.
    told: RefCell<Vec<Length>>,
}

impl<'w, 'a> Maker<'w, 'a> {
    fn new(work: &'w Workings<'a>) -> Self {
        let Workings { piece, parts, .. } = *work;
        let setups = work.setups();
        let mut members: BTreeMap<&Assembly, Vec<PartId>> = BTreeMap::new();
        for (id, part) in parts.iter() {
            members.entry(&part.assembly).or_default().push(id);
        }
        let mut closing: BTreeMap<&Assembly, Vec<usize>> = BTreeMap::new();
        let mut framed: BTreeMap<CaseId, Vec<usize>> = BTreeMap::new();
        let mut planted: BTreeMap<CaseId, Vec<usize>> = BTreeMap::new();
        let mut screwed: BTreeMap<PartId, usize> = BTreeMap::new();
        let mut laid: BTreeMap<PartId, Vec<PartId>> = BTreeMap::new();
        for (index, joint) in parts.joints.iter().enumerate() {
            if joint.sort == JointSort::Wood(JointKind::Screw) {
                screwed.entry(joint.part).or_insert(index);
            }
            if joint.sort == JointSort::Laid {
                laid.entry(joint.part).or_default().push(joint.into);
            }
            let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
                continue;
            };
            if is_within(joint) && part.assembly == into.assembly {
                closing.entry(&part.assembly).or_default().push(index);
            }
            // What several cases share comes together where they stand.
            let shared = [part.of, into.of].iter().any(|of| matches!(of, Of::Row(_)));
            if joint.sort == JointSort::Planted && !shared {
                planted.entry(part.case).or_default().push(index);
            }
            if let (Assembly::Frame(case), Assembly::Carcass(other)) =
                (&part.assembly, &into.assembly)
                && case == other
            {
                framed.entry(*case).or_default().push(index);
            }
        }
        Self {
            work,
            piece,
            parts,
            setups,
            members,
            units: Units::of(parts),
            closing,
            framed,
            planted,
            screwed,
            laid,
            made: BTreeMap::new(),
            packed: None,
            stripped: None,
            opened: BTreeMap::new(),
            ordered: None,
            tasks: Vec::new(),
            told: RefCell::default(),
        }
    }

    /// The tasks that these parts come out of.
    fn ready(&self, parts: &[PartId]) -> Vec<usize> {
        parts.iter().filter_map(|id| self.made.get(id)).copied().collect()
    }

    /// From here on these parts come out of this task.
    fn makes(&mut self, parts: &[PartId], task: usize) {
        self.made.extend(parts.iter().map(|id| (*id, task)));
    }

    /// The joints that `pick` picks, by their place among all.
    fn picked(&self, pick: impl Fn(&Joint) -> bool) -> Vec<usize> {
        let joints = self.parts.joints.iter().enumerate();
        joints.filter(|(_, joint)| pick(joint)).map(|(index, _)| index).collect()
    }

    /// The parts that take their size from this.
    fn at(&self, from: Stage) -> Vec<PartId> {
        self.ids(|part| stage(part) == from)
    }

    /// The features of these parts that `pick` picks.
    fn features(&self, parts: &[PartId], pick: impl Fn(&Feature) -> bool) -> Vec<(PartId, usize)> {
        let of = |id: &PartId| self.parts.get(*id).map(|part| (*id, part));
        parts
            .iter()
            .filter_map(of)
            .flat_map(|(id, part)| part.features.iter().enumerate().map(move |own| (id, own)))
            .filter(|(_, (_, feature))| pick(feature))
            .map(|(id, (number, _))| (id, number))
            .collect()
    }

    /// Says what is taken from the stock in a task.
    fn breaks(&mut self, task: usize, parts: &[PartId]) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.breaks.extend(parts);
        }
    }

    /// Says what is brought to its finished size in a task.
    fn mills(&mut self, task: usize, parts: Vec<PartId>) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.mills.extend(parts);
        }
    }

    /// Says what is cut in a task.
    fn cuts(&mut self, task: usize, features: Vec<(PartId, usize)>) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.cuts.extend(features);
        }
    }

    /// Says what is closed in a task.
    fn closes(&mut self, task: usize, joints: Vec<usize>) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.closes.extend(joints);
        }
    }

    /// Says in which goes a task may be closed.
    fn in_goes(&mut self, task: usize, goes: Vec<Vec<PartId>>) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.goes = goes;
        }
    }

    /// Says what is done in a task besides.
    fn does(&mut self, task: usize, doings: Vec<Doing>) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.does.extend(doings);
        }
    }

    /// Says which task's finish must be hard before a task, and how long that takes.
    fn hardens(&mut self, task: usize, coated: usize, hard: Duration) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.hard.push((coated, hard));
        }
    }

    /// Says what is done in a task when its joints are closed.
    fn then(&mut self, task: usize, doings: Vec<Doing>) {
        if let Some(task) = self.tasks.get_mut(task) {
            task.then.extend(doings);
        }
    }

    /// Those of these tasks that no other of them waits for.
    fn latest(&self, mut after: Vec<usize>) -> Vec<usize> {
        after.sort_unstable();
        after.dedup();
        let mut open = after.clone();
        // A task waits for earlier ones only: those before the first lead nowhere.
        let first = after.first().copied().unwrap_or_default();
        let mut before = vec![false; self.tasks.len().saturating_sub(first)];
        while let Some(index) = open.pop() {
            for index in self.tasks.get(index).into_iter().flat_map(|task| &task.after) {
                let known = index.checked_sub(first).and_then(|place| before.get_mut(place));
                if known.is_some_and(|known| !std::mem::replace(known, true)) {
                    open.push(*index);
                }
            }
        }
        after.retain(|index| before.get(index - first) != Some(&true));
        after
    }

    fn add(&mut self, mut task: Task) -> usize {
        task.after = self.latest(task.after);
        task.told = self.told.take();
        self.tasks.push(task);
        self.tasks.len() - 1
    }

    fn simple(
        &mut self,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        work: Work,
        efforts: Vec<Effort>,
        after: Vec<usize>,
    ) -> usize {
        self.add(Task { lines, parts, efforts, after, ..Task::new(title, work) })
    }

    #[allow(clippy::too_many_arguments)]
    fn glue(
        &mut self,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        efforts: Vec<Effort>,
        load: &Load,
        square: Option<Square>,
        after: Vec<usize>,
    ) -> usize {
        let clamps = load.clamps();
        self.add(Task {
            lines,
            parts,
            efforts,
            wait: self.piece.shop.clamp,
            waits_for: if clamps > 0 { Wait::Clamps } else { Wait::Screws },
            clamps,
            closing: load.closing(),
            driven: load.driven(),
            square,
            after,
            ..Task::new(title, Work::Glue)
        })
    }

    fn marks(&self, ids: &[PartId]) -> String {
        let marks: Vec<&str> = ids.iter().map(|id| self.parts.mark(*id)).collect();
        marks.join(", ")
    }

    /// The wood joints that lie within a unit.
    fn joints_of(&self, unit: &Assembly) -> Vec<&'a Joint> {
        self.units.within.get(unit).cloned().unwrap_or_default()
    }

    /// The units that `pick` gives a name, with their parts, in the order in
    /// which they were built.
    fn units(
        &self,
        pick: impl Fn(&Assembly) -> Option<String>,
    ) -> Vec<(String, &'a Assembly, Vec<PartId>)> {
        let mut units: Vec<_> = self
            .members
            .iter()
            .filter_map(|(unit, parts)| pick(unit).map(|name| (name, *unit, parts.clone())))
            .collect();
        units.sort_by_key(|(.., parts)| parts.first().copied());
        units
    }

    /// The finishes of the piece.
    fn finishes(&self) -> &'w [(FinishId, &'a Finish)] {
        self.work.finishes()
    }

    /// True for a part that has this finish.
    fn has_finish(&self, used: FinishId, id: PartId) -> bool {
        self.parts.get(id).is_some_and(|part| finish::of_part(self.piece, part) == Some(used))
    }

    /// True where some of it is finished.
    fn is_finished(&self) -> bool {
        !self.finishes().is_empty()
    }

    /// The backs of all cases.
    fn backs(&self) -> Vec<PartId> {
        self.ids(|part| part.role == Role::Back)
    }

    /// The parts that it lets through, in their order.
    fn ids(&self, filter: impl Fn(&Part) -> bool) -> Vec<PartId> {
        self.parts.iter().filter(|(_, part)| filter(part)).map(|(id, _)| id).collect()
    }

    /// The parts of a case that it lets through, in their order.
    fn ids_in(&self, case: CaseId, filter: impl Fn(&Part) -> bool) -> Vec<PartId> {
        self.parts.iter_case(case).filter(|(_, part)| filter(part)).map(|(id, _)| id).collect()
    }

    /// `B into LE and RE, dado`: a line for each part that is let in.
    fn joint_lines(&self, joints: &[&Joint]) -> Vec<String> {
        // A part that is joined in two ways, a nailer, has a line for each; so has one
        // with glue at one of its ends only, or with a dado at one and a rabbet at the other.
        let way = |joint: &Joint| (joint.part, joint.sort, joint.glued, self.joint_word(joint));
        let joints: Vec<_> = joints.iter().map(|joint| (way(joint), *joint)).collect();
        let mut order = Vec::new();
        for (way, _) in &joints {
            if !order.contains(way) {
                order.push(*way);
            }
        }
        order
            .into_iter()
            .map(|one| {
                let (part, sort, glued, how) = one;
                let own = joints.iter().filter(|(way, _)| *way == one);
                let own: Vec<&Joint> = own.map(|(_, joint)| *joint).collect();
                let mut hosts: Vec<&str> =
                    own.iter().map(|joint| self.parts.mark(joint.into)).collect();
                hosts.dedup();
                let corner = self.parts.get(part).is_some_and(|part| {
                    matches!(part.role, Role::DrawerFront | Role::DrawerBack)
                });
                if corner && sort == JointSort::Wood(JointKind::Butt) {
                    return format!(
                        "{} to {}: glued, and screwed through the sides on the lines of the layout sheet, with the heads sunk, since end grain holds little glue",
                        self.parts.mark(part),
                        hosts.join(" and ")
                    );
                }
                let glue = if glued { "glued" } else { "no glue" };
                let is_let_in = own.first().is_some_and(|joint| match joint.sort {
                    JointSort::Wood(kind) => kind.is_let_in(),
                    _ => false,
                });
                let verb = if is_let_in { "into" } else { "to" };
                format!("{} {verb} {}: {how}, {glue}", self.parts.mark(part), hosts.join(" and "))
            })
            .collect()
    }

    /// What a joint is called as it is made: what is let in along an edge or end lies in a
    /// rabbet, and what is let in elsewhere in a dado.
    fn joint_word(&self, joint: &Joint) -> &'static str {
        let JointSort::Wood(kind) = joint.sort else { return "" };
        let made = || {
            let (part, into) = (self.parts.get(joint.part)?, self.parts.get(joint.into)?);
            let mut cuts = into.features.iter();
            let cut = cuts.find(|cut| cut.is_channel() && into.houses(cut, joint.part, part))?;
            Some(cut.kind.word_along(into.channel(cut).from.is_zero()))
        };
        match kind {
            JointKind::Dado | JointKind::Rabbet => made().unwrap_or(kind.word()),
            JointKind::Pocket
            | JointKind::Screw
            | JointKind::Dowel
            | JointKind::Tenon
            | JointKind::Dovetail
            | JointKind::Butt => kind.word(),
        }
    }

    /// True for a front that is planed to its opening.
    fn is_inset(&self, unit: &Assembly) -> bool {
        let Assembly::Front(id) = unit else { return false };
        let mut fronts = self.work.fronts_of(id.opening.case).iter();
        fronts.any(|own| own.id == *id && own.fronts.set == Set::Inset)
    }

    /// The rectangle over all of a unit, in the plane that its diagonals are
    /// measured in, and how far they may differ.
    fn outline(&self, parts: &[PartId], unit: &Assembly) -> Option<Square> {
        let (a, b) = match unit {
            Assembly::Base(_) | Assembly::DrawerBox(_) => (Direction::X, Direction::Z),
            _ => (Direction::X, Direction::Y),
        };
        let reach = |direction| {
            let all = parts
                .iter()
                .filter_map(|id| self.parts.get(*id))
                .map(|part| part.extent(direction));
            let (from, to): (Vec<Length>, Vec<Length>) = all.unzip();
            Some(to.into_iter().max()? - from.into_iter().min()?)
        };
        let mut sides = (reach(a)?, reach(b)?);
        // What is still planed to its opening is glued up that much larger.
        if self.is_inset(unit) {
            let spare = trade::shaving(self.piece.tape().unit).twice();
            sides = (sides.0 + spare, sides.1 + spare);
        }
        Some(match unit {
            Assembly::Carcass(case) | Assembly::Frame(case) => {
                squareness::of_case(self.work, *case, sides)
            }
            Assembly::DrawerBox(_) => Square::plain(sides, trade::box_within()),
            Assembly::Front(front) => squareness::of_front(self.work, *front, sides),
            Assembly::Base(_)
            | Assembly::Countertop(_)
            | Assembly::Filler(..)
            | Assembly::Loose(_) => {
                Square::plain(sides, trade::diagonals_within(sides.0.max(sides.1)))
            }
        })
    }
}
