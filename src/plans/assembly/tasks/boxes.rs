//! What of a drawer box is cut by its other boards, whatever its opening came to.

use crate::measure::Length;
use crate::model::OpeningId;
use crate::parts::{Assembly, Part, PartId, Role};
use crate::plans::operations::{Doing, Measure, Measured};

use super::Maker;

/// By how much some boards are shorter than what they are cut by.
type Less = (Length, Vec<PartId>);

impl Maker<'_, '_> {
    /// How the bottoms of the boxes are cut by their fronts and sides, and their backs
    /// where those are lower than the sides.
    pub(super) fn boxes_cut(&self) -> (Vec<String>, Vec<Doing>) {
        let (bottoms, backs) = (Role::DrawerBottom, Role::DrawerBack);
        let long = |part: &Part| part.length.length;
        let wide = |part: &Part| part.width.length;
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        let shorter = self.less((bottoms, &long), (Role::DrawerFront, &long));
        let shallower = self.less((bottoms, &wide), (Role::DrawerSide, &long));
        let lower = self.less((backs, &wide), (Role::DrawerSide, &wide));
        for (what, found) in [
            (Measured::BoxFront, &shorter),
            (Measured::BoxSide, &shallower),
            (Measured::BoxHigh, &lower),
        ] {
            for (less, parts) in found.iter().filter(|(less, _)| !less.is_zero()) {
                let (within, less, parts) = (None, *less, parts.clone());
                does.push(Doing::Measure(Measure { what, within, less, parts }));
            }
        }
        let by = |less: &Length, than: &str, ways: [&str; 2]| {
            let (by, way) = match less.is_negative() {
                true => (-*less, ways[1]),
                false => (*less, ways[0]),
            };
            format!("{} {way} than {than}", self.text(by))
        };
        let told = |found: &[Less], than: &str, ways: [&str; 2]| -> Vec<String> {
            let all = found.iter().filter(|(less, _)| !less.is_zero());
            all.map(|(less, own)| format!("{} {}", self.marks(own), by(less, than, ways))).collect()
        };
        let fronts = ("their box fronts are long", ["shorter", "longer"]);
        let sides =
            ("their sides are long", ["less from front to back", "more from front to back"]);
        let rules = match (shorter.as_slice(), shallower.as_slice()) {
            // Those of all boxes by the same figures.
            ([(short, own)], [(shallow, _)]) if !short.is_zero() && !shallow.is_zero() => {
                let [short, shallow] =
                    [by(short, fronts.0, fronts.1), by(shallow, sides.0, sides.1)];
                vec![format!("{} {short}, and {shallow}", self.marks(own))]
            }
            _ => {
                let mut rules = told(&shorter, fronts.0, fronts.1);
                rules.extend(told(&shallower, sides.0, sides.1));
                rules
            }
        };
        if !rules.is_empty() {
            lines.push(format!(
                "saw the drawer bottoms by the boards of their boxes, once those are cut: {}",
                rules.join("; ")
            ));
        }
        let rules = told(&lower, "their sides are high", ["lower", "higher"]);
        if !rules.is_empty() {
            lines.push(format!("rip the backs of the boxes by their sides: {}", rules.join("; ")));
        }
        (lines, does)
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
