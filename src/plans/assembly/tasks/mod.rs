//! Tasks from joints. Every joint of the piece belongs to one task; a task
//! comes after those that make the things it joins.

mod carcass;
mod cutting;
mod finishing;
mod fronts;

use std::collections::BTreeMap;

use crate::measure::{Duration, Exact, Length};
use crate::model::{Finish, JointKind, Piece};
use crate::parts::{Assembly, Direction, Joint, JointSort, Part, PartId, Parts};
use crate::plans::setups::Setup;

use super::gluing::{Load, Units};
use super::{Task, Wait, Work};

/// Hands-on minutes (common practice, no source; a maker's own will differ).
mod minutes {
    pub(super) const CUT_PART: i64 = 6;
    pub(super) const DRY_FIT: i64 = 30;
    pub(super) const JOINT: i64 = 6;
    pub(super) const BLANK: i64 = 20;
    pub(super) const FRONT: i64 = 25;
    pub(super) const BORE: i64 = 8;
    pub(super) const BOX: i64 = 25;
    pub(super) const HANG: i64 = 20;
    pub(super) const COAT: i64 = 45;
    pub(super) const SAND: i64 = 90;
    pub(super) const FIT: i64 = 180;
}

/// Every task, each after those it depends on.
pub(super) fn tasks(piece: &Piece, parts: &Parts, setups: &[Setup]) -> Vec<Task> {
    let mut maker = Maker::new(piece, parts, setups);
    let cut = maker.cut();
    let blanks = maker.blanks(cut);
    let glued: Vec<PartId> = blanks
        .and_then(|index| maker.tasks.get(index))
        .map(|t| t.parts.clone())
        .unwrap_or_default();
    let routed = maker.routed("Cut the joints", cut, |id| !glued.contains(&id)).unwrap_or(cut);
    // A glued-up part gets its joints when it has cured and lies at its size.
    let routed_blanks = blanks.map(|blanks| {
        let joints =
            maker.routed("Cut the joints of the glued-up parts", blanks, |id| glued.contains(&id));
        joints.unwrap_or(blanks)
    });
    let pins = maker.pins(routed);
    let prefinished = maker.prefinish(routed);
    let mut stands = Vec::new();
    for case in 0..piece.cases.len() {
        stands.push(maker.case(case, routed, pins, prefinished));
    }
    let fronts = maker.fronts(routed, routed_blanks, prefinished);
    let boxes = maker.boxes(routed, routed_blanks);
    let hung = maker.hang(&stands, fronts, boxes);
    let finished = maker.finish(&hung);
    maker.fit(finished);
    maker.tasks
}

/// Makes the tasks; what several of them ask for is worked out once.
struct Maker<'a> {
    piece: &'a Piece,
    parts: &'a Parts,
    setups: &'a [Setup],
    /// The parts of each unit.
    members: BTreeMap<&'a Assembly, Vec<PartId>>,
    /// The joints by what is glued up together.
    units: Units<'a>,
    tasks: Vec<Task>,
}

impl<'a> Maker<'a> {
    fn new(piece: &'a Piece, parts: &'a Parts, setups: &'a [Setup]) -> Self {
        let mut members: BTreeMap<&Assembly, Vec<PartId>> = BTreeMap::new();
        for (id, part) in parts.iter() {
            members.entry(&part.assembly).or_default().push(id);
        }
        let units = Units::of(parts);
        Self { piece, parts, setups, members, units, tasks: Vec::new() }
    }

    fn add(&mut self, task: Task) -> usize {
        self.tasks.push(task);
        self.tasks.len() - 1
    }

    fn simple(
        &mut self,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        work: Work,
        minutes: i64,
        after: Vec<usize>,
    ) -> usize {
        self.add(Task {
            title,
            lines,
            parts,
            work,
            hands: hands(minutes),
            wait: Duration::default(),
            waits_for: Wait::None,
            clamps: 0,
            spreading: Duration::default(),
            square: None,
            after,
        })
    }

    #[allow(clippy::too_many_arguments)]
    fn glue(
        &mut self,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        minutes: i64,
        load: &Load,
        square: Option<(Length, Length)>,
        after: Vec<usize>,
    ) -> usize {
        let clamps = load.clamps();
        self.add(Task {
            title,
            lines,
            parts,
            work: Work::Glue,
            hands: hands(minutes),
            wait: self.piece.shop.clamp,
            waits_for: if clamps > 0 { Wait::Clamps } else { Wait::Screws },
            clamps,
            spreading: load.spreading(),
            square,
            after,
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
        pick: fn(&Assembly) -> Option<&str>,
    ) -> Vec<(&'a str, &'a Assembly, Vec<PartId>)> {
        let mut units: Vec<_> = self
            .members
            .iter()
            .filter_map(|(unit, parts)| pick(unit).map(|name| (name, *unit, parts.clone())))
            .collect();
        units.sort_by_key(|(.., parts)| parts.first().copied());
        units
    }

    /// The finish of the piece, if a case has one.
    fn finish_used(&self) -> Option<&'a Finish> {
        let used = self.piece.cases.iter().find_map(|case| case.finish)?;
        self.piece.finishes.get(used)
    }

    fn ids(&self, filter: impl Fn(&Part) -> bool) -> Vec<PartId> {
        self.parts.iter().filter(|(_, part)| filter(part)).map(|(id, _)| id).collect()
    }

    /// `B into LE and RE, dado`: a line for each part that is let in.
    fn joint_lines(&self, joints: &[&Joint]) -> Vec<String> {
        let mut order: Vec<PartId> = Vec::new();
        for joint in joints {
            if !order.contains(&joint.part) {
                order.push(joint.part);
            }
        }
        order
            .into_iter()
            .map(|part| {
                let own: Vec<&&Joint> = joints.iter().filter(|joint| joint.part == part).collect();
                let mut hosts: Vec<&str> =
                    own.iter().map(|joint| self.parts.mark(joint.into)).collect();
                hosts.dedup();
                let how = own.first().map_or("", |joint| match joint.sort {
                    JointSort::Wood(kind) => kind.word(),
                    _ => "",
                });
                let glue = if own.iter().any(|joint| joint.glued) { "glued" } else { "no glue" };
                let verb = match own.first().map(|joint| joint.sort) {
                    Some(JointSort::Wood(
                        JointKind::Dado | JointKind::Rabbet | JointKind::Tenon,
                    )) => "into",
                    _ => "to",
                };
                format!("{} {verb} {}: {how}, {glue}", self.parts.mark(part), hosts.join(" and "))
            })
            .collect()
    }

    /// The rectangle over all of a unit, in the plane that its diagonals are
    /// measured in.
    fn outline(&self, parts: &[PartId], unit: &Assembly) -> Option<(Length, Length)> {
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
        Some((reach(a)?, reach(b)?))
    }
}

fn hands(minutes: i64) -> Duration {
    Duration(Exact::int(minutes))
}
