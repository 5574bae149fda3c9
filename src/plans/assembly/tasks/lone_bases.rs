//! A separate base under one case: how the case stands on it, and how both come into the
//! house.

use crate::measure::Length;
use crate::model::{Case, Side};
use crate::parts::{Assembly, PartId, Role};
use crate::plans::bases::{self, StoodOn};
use crate::plans::operations::{Doing, House};
use crate::plans::weights::Lifted;

use super::Maker;

impl Maker<'_, '_> {
    /// True for a case that stands alone on a base that is carried by itself.
    pub(super) fn has_lone_base(&self, case: &Case) -> bool {
        self.work.weights().lifted.contains_key(&Lifted::Base(case.id))
            && self.piece.base_row(case.id).is_none()
    }

    /// The cases that do, from the left.
    pub(super) fn lone_bases(&self) -> Vec<&Case> {
        self.piece.cases.iter().filter(|case| self.has_lone_base(case)).collect()
    }

    /// How a case is set on its base at the bench, where its frame is not on yet; over
    /// blocks or without.
    pub(super) fn set_on_base(&self, case: &Case, blocked: bool) -> Option<(String, Doing)> {
        let own = bases::stood_on(self.piece, self.parts, &[case], false)?;
        let place = self.stands_on(&own);
        let line = match blocked {
            true => format!("the case will stand on the base with {place}: set the blocks to suit"),
            false => format!("set it on the base with {place}"),
        };
        Some((line, Doing::House(House::StandOn(own))))
    }

    /// Where cases stand on their base.
    pub(super) fn stands_on(&self, own: &StoodOn) -> String {
        let is_frame =
            |id: &PartId| self.parts.get(*id).is_some_and(|part| part.role == Role::Stile);
        let one = own.cases.len() == 1;
        let what = match (own.from.iter().any(is_frame), one, own.from.as_slice()) {
            (true, true, _) => "the face of its frame".to_owned(),
            (true, false, _) => "the faces of their frames".to_owned(),
            (false, _, [end]) => format!("the front edge of {}", self.parts.mark(*end)),
            (false, true, _) => "the front edges of its ends".to_owned(),
            (false, false, _) => "the front edges of their ends".to_owned(),
        };
        let ahead = match own.before {
            at if at.is_zero() => "flush with".to_owned(),
            at if at.is_negative() => format!("{} behind", self.text(-at)),
            at => format!("{} forward of", self.text(at)),
        };
        let beside = |at: Length| match () {
            () if at.is_zero() => "even with".to_owned(),
            () if at.is_negative() => format!("{} short of", self.text(-at)),
            () => format!("{} past", self.text(at)),
        };
        let [left, right] = own.past;
        let sides = match (left == right, one) {
            (true, true) => format!("both its sides {} the ends of the base", beside(left)),
            (true, false) => {
                format!(
                    "the outer sides of the first and last cases {} the ends of the base",
                    beside(left)
                )
            }
            (false, true) => format!(
                "its left side {} the left end of the base and its right side {} the right one",
                beside(left),
                beside(right)
            ),
            (false, false) => format!(
                "the left side of the first {} its left end and the right side of the last {} its right one",
                beside(left),
                beside(right)
            ),
        };
        format!("{what} {ahead} the face of the base, and {sides}")
    }

    /// Where a base stands between two walls that the stiles over it are planed to: so far
    /// from both that each stile keeps its share.
    pub(super) fn in_the_middle(&self, farther: Option<(Side, Length)>) -> String {
        match farther {
            None => "in the middle between the walls".to_owned(),
            Some((side, by)) => format!(
                "between the walls, its {} end {} farther from its wall than the other",
                side.word(),
                self.text(by)
            ),
        }
    }

    /// How far the back board of a base stands off the wall.
    pub(super) fn off_wall(&self, back: &str, at: Length) -> String {
        match at.is_zero() {
            true => format!("{back} against the wall behind it"),
            false => format!("the back of {back} {} off the wall behind it", self.text(at)),
        }
    }

    /// A base is shimmed level in its place; its case comes onto it, unless its stiles have to
    /// be planed before it goes between the walls.
    pub(super) fn base_leveled(&self, case: &Case) -> (Vec<String>, Vec<Doing>) {
        let name = self.piece.base_named(case.id);
        let between = self.between_walls().is_some();
        let Some(own) = bases::apart(self.piece, self.parts, case.id, between) else {
            return (Vec::new(), Vec::new());
        };
        let mut place = Vec::new();
        place.extend(between.then(|| self.in_the_middle(own.farther)));
        place.extend(own.behind.map(|at| {
            let [_, back] = own.long.map(|id| self.parts.mark(id));
            format!("with {}", self.off_wall(back, at))
        }));
        place.extend(
            (!between && self.is_scribed())
                .then(|| "clear of the walls beside it by no more than the scribe".to_owned()),
        );
        let place = match place.is_empty() {
            true => String::new(),
            false => format!(", {}", place.join(", ")),
        };
        let mut lines = vec![format!(
            "unscrew the base of {name}, carry it by itself, find the highest place of the floor where it goes, and shim the base level from there{place}"
        )];
        let mut does = vec![Doing::House(House::LevelBase(own))];
        if !between {
            let (told, doing) = self.back_on_base(case);
            lines.push(format!("lower {} onto its base{told}", case.name));
            does.extend(doing);
        }
        (lines, does)
    }

    /// What is planed to its walls comes onto its base.
    pub(super) fn lifted_onto_base(&self, case: &Case) -> (String, Vec<Doing>) {
        let (told, does) = self.back_on_base(case);
        let line =
            format!("lift {} onto its base, the back first, and slide it home{told}", case.name);
        (line, does)
    }

    fn back_on_base(&self, case: &Case) -> (String, Vec<Doing>) {
        let mut does = Vec::new();
        let framed = case.frame.is_some();
        let own = bases::stood_on(self.piece, self.parts, &[case], framed);
        let place =
            own.as_ref().map_or(String::new(), |own| format!(", with {}", self.stands_on(own)));
        does.extend(own.map(|own| Doing::House(House::StandOn(own))));
        let members = self.ids_in(case.id, |part| part.assembly == Assembly::Base(case.id));
        does.push(Doing::House(House::ScrewDown(members)));
        (format!("{place}, and screw it down from inside through its bottom as on the bench"), does)
    }

    /// What stands on a base is shimmed under it.
    pub(super) fn level_on_base(&self, piece: &str) -> String {
        format!(
            "check that {piece} is level from end to end and from front to back, and that its ends are plumb; where they are not, shim under the base again"
        )
    }
}
