//! What of a drawer box is cut by its other boards, whatever its opening came to.

use crate::measure::Length;
use crate::model::OpeningId;
use crate::parts::{Assembly, Part, PartId, Role};
use crate::plans::operations::{Doing, Measure, Measured};

use super::Maker;

/// By how much some boards are shorter than what they are cut by.
type Less = (Length, Vec<PartId>);

impl Maker<'_, '_> {
    /// True for the front or a side of a box.
    pub(super) fn is_box_board(&self, id: PartId) -> bool {
        let part = self.parts.get(id);
        part.is_some_and(|part| matches!(part.role, Role::DrawerFront | Role::DrawerSide))
    }

    /// True where the front or a side of a box is crosscut from its stick only when that is
    /// grooved, so that bottoms wait for it.
    pub(super) fn boxes_wait(&self) -> bool {
        let boards = self.parts.iter().map(|(id, _)| id).filter(|id| self.is_box_board(*id));
        boards.into_iter().any(|id| self.work.sticks().is_cut_first(id))
    }

    /// By how much the bottoms are shorter than their box fronts, and by how much less they
    /// measure from front to back than their sides.
    fn bottoms_less(&self) -> [(Measured, Vec<Less>); 2] {
        let long = |part: &Part| part.length.length;
        let wide = |part: &Part| part.width.length;
        let bottoms = Role::DrawerBottom;
        [
            (Measured::BoxFront, self.less((bottoms, &long), (Role::DrawerFront, &long))),
            (Measured::BoxSide, self.less((bottoms, &wide), (Role::DrawerSide, &long))),
        ]
    }

    /// The bottoms that are sawn by the boards of their boxes.
    pub(super) fn cut_by_boxes(&self) -> Vec<PartId> {
        let found = self.bottoms_less().into_iter().flat_map(|(_, found)| found);
        let sawn = found.filter(|(less, _)| !less.is_zero()).flat_map(|(_, parts)| parts);
        let mut sawn: Vec<PartId> = sawn.collect();
        sawn.sort_unstable();
        sawn.dedup();
        sawn
    }

    /// What is measured on the boards of boxes, for what is cut by them.
    fn box_measured(what: Measured, found: &[Less]) -> impl Iterator<Item = Doing> {
        found.iter().filter(|(less, _)| !less.is_zero()).map(move |(less, parts)| {
            let (within, less, parts) = (None, *less, parts.clone());
            Doing::Measure(Measure { what, within, less, parts })
        })
    }

    /// How the backs of the boxes are ripped by their sides, where those are higher.
    pub(super) fn backs_cut(&self) -> (Vec<String>, Vec<Doing>) {
        let wide = |part: &Part| part.width.length;
        let lower = self.less((Role::DrawerBack, &wide), (Role::DrawerSide, &wide));
        let does = Self::box_measured(Measured::BoxHigh, &lower).collect();
        let rules = self.told_less(&lower, ("their sides are high", ["lower", "higher"]));
        let line = (!rules.is_empty())
            .then(|| format!("rip the backs of the boxes by their sides: {}", rules.join("; ")));
        (line.into_iter().collect(), does)
    }

    /// `6-1/4 shorter than their box fronts are long`
    fn by_less(&self, less: Length, (than, ways): (&str, [&str; 2])) -> String {
        let (by, way) = match less.is_negative() {
            true => (-less, ways[1]),
            false => (less, ways[0]),
        };
        format!("{} {way} than {than}", self.text(by))
    }

    fn told_less(&self, found: &[Less], than: (&str, [&str; 2])) -> Vec<String> {
        let all = found.iter().filter(|(less, _)| !less.is_zero());
        all.map(|(less, own)| format!("{} {}", self.marks(own), self.by_less(*less, than)))
            .collect()
    }

    /// How the bottoms of the boxes are cut by their fronts and sides.
    pub(super) fn bottoms_cut(&self) -> (Vec<String>, Vec<Doing>) {
        let found = self.bottoms_less();
        let does = found.iter().flat_map(|(what, found)| Self::box_measured(*what, found));
        let does = does.collect();
        let [(_, shorter), (_, shallower)] = &found;
        let fronts = ("their box fronts are long", ["shorter", "longer"]);
        let sides =
            ("their sides are long", ["less from front to back", "more from front to back"]);
        let rules = match (shorter.as_slice(), shallower.as_slice()) {
            // Those of all boxes by the same figures.
            ([(short, own)], [(shallow, _)]) if !short.is_zero() && !shallow.is_zero() => {
                let (short, shallow) =
                    (self.by_less(*short, fronts), self.by_less(*shallow, sides));
                vec![format!("{} {short}, and {shallow}", self.marks(own))]
            }
            ([] | [_] | [_, _, ..], [] | [_] | [_, _, ..]) => {
                let mut rules = self.told_less(shorter, fronts);
                rules.extend(self.told_less(shallower, sides));
                rules
            }
        };
        let line = (!rules.is_empty()).then(|| {
            format!(
                "saw the drawer bottoms by the boards of their boxes, once those are cut: {}",
                rules.join("; ")
            )
        });
        (line.into_iter().collect(), does)
    }

    /// By how much the boards of one role are shorter than those of another of the same
    /// box, those alike together.
    fn less(
        &self,
        (role, size): (Role, &dyn Fn(&Part) -> Length),
        (other, by): (Role, &dyn Fn(&Part) -> Length),
    ) -> Vec<Less> {
        let of_box = |part: &Part| match part.assembly {
            Assembly::DrawerBox(id) => Some(id),
            Assembly::Base(_)
            | Assembly::Carcass(_)
            | Assembly::Frame(_)
            | Assembly::Front(_)
            | Assembly::Countertop(_)
            | Assembly::Filler(..)
            | Assembly::Loose(_) => None,
        };
        let beside = |id: OpeningId| {
            let mut own = self.parts.of_case(id.case).iter();
            own.find(|part| part.role == other && of_box(part) == Some(id))
        };
        let mut found: Vec<Less> = Vec::new();
        for id in self.ids(|part| part.role == role && of_box(part).is_some()) {
            let less = self.parts.get(id).and_then(|part| {
                let other = beside(of_box(part)?)?;
                Some(by(other) - size(part))
            });
            let Some(less) = less else { continue };
            match found.iter_mut().find(|(known, _)| *known == less) {
                Some((_, parts)) => parts.push(id),
                None => found.push((less, vec![id])),
            }
        }
        found
    }
}
