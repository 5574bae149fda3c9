//! Setting cases on those that they stand on, when these stand, hold, and are covered.

use crate::diagnostics::{counted, listed};
use crate::model::{Case, Exposure, JointKind, Side};
use crate::parts::{JointSort, PartId, Role};
use crate::plans::beside;
use crate::plans::operations::{Doing, House};
use crate::plans::stacked::{self, Stacked};
use crate::plans::wall;
use crate::trade::Carry;

use super::beside::{LEFT_LOOSE, is_tied};
use super::installing::STUDS;
use super::scribing::PLANED;
use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// Every case that stands on another is lifted onto it, scribed, screwed down, and fixed
    /// to the wall; the task after which they all stand.
    pub(super) fn stacked(&mut self, after: usize, finished: usize) -> usize {
        let all = stacked::stacked(self.work);
        if all.is_empty() {
            return after;
        }
        let mut last = after;
        let pairs = beside::pairs(self.piece, self.parts);
        for own in &all {
            let Some(case) = self.piece.case(own.case) else { continue };
            let below = self.below(own);
            let tied = is_tied(&pairs, case.id);
            let (scribed, mut does) = self.scribed_above(case);
            let mut lines = self.set_on(case, own, &below, scribed);
            does.push(House::Stack(own.clone()));
            let mut efforts = vec![Usual::Leveling.times(1)];
            let mut joints = Vec::new();
            match own.bottom {
                Some(bottom) => {
                    lines.extend(self.driven_down(own, bottom));
                    efforts.push(Usual::Planting.times(1));
                    joints = self.picked(|joint| {
                        joint.sort == JointSort::Wood(JointKind::Screw)
                            && joint.part == bottom
                            && own.into.contains(&joint.into)
                    });
                }
                // Nothing else holds it: it is not left alone before it is screwed on.
                None => {
                    let wall = wall::wall(self.piece, self.parts, |own| own.id == case.id);
                    lines.insert(
                        0,
                        format!(
                            "{}; mark them above {below} where they will be seen over {}",
                            STUDS, case.name
                        ),
                    );
                    lines.extend(self.screwed_to_wall(&wall));
                    efforts.push(Usual::Wall.times(1));
                    does.push(House::Wall(wall));
                }
            }
            if tied {
                lines.push(LEFT_LOOSE.to_owned());
            }
            let title = match own.bottom {
                Some(_) => format!("Set {} on {below}, and screw it down", case.name),
                None => format!("Set {} on {below}, and fix it to the wall", case.name),
            };
            last = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![last]);
            self.does(last, does.into_iter().map(Doing::House).collect());
            self.closes(last, joints);
            if self.is_covered(own)
                && let Some(hard) = self.hard_after()
            {
                self.hardens(last, finished, hard);
            }
        }
        last = self.tied(last, true);
        let down = |case: &Case| all.iter().any(|own| own.case == case.id && own.bottom.is_some());
        if self.piece.site.fixed && self.piece.cases.iter().any(down) {
            let wall = wall::wall(self.piece, self.parts, down);
            let names = self.piece.cases.iter().filter(|case| down(case));
            let names: Vec<&str> = names.map(|case| &*case.name).collect();
            let title = format!("Fix {} to the wall too", listed(&names));
            let (lines, efforts) = (self.walled(&wall, true), vec![Usual::Wall.times(1)]);
            last = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![last]);
            self.does(last, vec![Doing::House(House::Wall(wall))]);
        }
        last
    }

    /// What is set on the floor: all of it, or what other cases come onto later.
    pub(super) fn on_floor(&self, all: &str) -> String {
        if self.piece.cases.iter().all(Case::is_on_floor) && !self.piece.stands_apart() {
            return all.to_owned();
        }
        let own = self.piece.cases.iter().filter(|case| case.is_on_floor());
        listed(&own.map(|case| case.name.as_str()).collect::<Vec<_>>())
    }

    /// True where it is set on a countertop.
    fn is_covered(&self, own: &Stacked) -> bool {
        let is_top =
            |id: &PartId| self.parts.get(*id).is_some_and(|part| part.role == Role::Countertop);
        own.rests.iter().any(is_top)
    }

    /// `sideboard`, or `sink and bank`.
    fn below(&self, own: &Stacked) -> String {
        let cases = own.below.iter().filter_map(|id| self.piece.case(*id));
        listed(&cases.map(|case| case.name.as_str()).collect::<Vec<_>>())
    }

    /// A stile that is scribed to a wall is planed before the case comes to its place, where
    /// it would reach into the wall.
    fn set_on(&self, case: &Case, own: &Stacked, below: &str, scribed: Vec<String>) -> Vec<String> {
        let on = case.on.as_ref().map_or("", |on| &*on.name);
        let into = self.marks(&own.rests);
        let by = match own.carry {
            Carry::People(count) => format!("with {count} people"),
            Carry::Gear => "with a lift, since it is too heavy for three people".to_owned(),
        };
        let left = match own.left.is_zero() {
            true => format!("its left side even with that of {on}"),
            false => format!("its left side {} from that of {on}", self.text(own.left)),
        };
        let left = match own.from_end {
            Some(at) if at != own.left => {
                format!("{left}, which is {} from the left end of {into}", self.text(at))
            }
            Some(_) | None => left,
        };
        let back = match own.back {
            None => "its back at the wall".to_owned(),
            Some(back) if back.is_zero() => format!("its back even with that of {below}"),
            Some(back) => format!("its back {} forward of that of {below}", self.text(back)),
        };
        let mut lines = Vec::new();
        if self.is_covered(own) && self.is_finished() {
            lines.push(format!(
                "wait until the finish of {into} is hard: what stands on it sooner sticks to it and leaves its mark"
            ));
        }
        lines.push(format!(
            "lay a straightedge over {into} where {} comes to stand, from end to end and from front to back; where a hollow shows light under its lower edges, plane these to fit, and put no shim where it is seen",
            case.name
        ));
        // What people lift easily is tried at the wall with a compass; a lift is set up once.
        let one_wall = scribed.len() == 1 && matches!(own.carry, Carry::People(_));
        if !scribed.is_empty() {
            lines.push(match one_wall {
                true => format!(
                    "lift {} onto {into} {by}, and set it down, not slid, beside its place, farther from the wall by the same amount at the front and the back; set the compass to that amount: at its place, with {left}, its stile would reach into the wall by what may come off",
                    case.name
                ),
                false => format!(
                    "mark on {into} where the sides of {} come to stand, with {left}; hang a plumb line over each mark, in line with the face of its stiles, and measure from it to the wall at the heights of the foot, the middle, and the top of the stiles; carry these distances to the stiles, from the side of the case outward, and join the marks",
                    case.name
                ),
            });
            lines.extend(scribed);
            lines.push(match one_wall {
                true => format!("lift it down again, and {PLANED}"),
                false => PLANED.to_owned(),
            });
            lines.extend(self.sealed());
        }
        lines.push(format!(
            "lift {} onto {into} {by}, and set it down, not slid, with {left}, and {back}; put no glue between them, so that they come apart again",
            case.name
        ));
        let holds = match own.bottom {
            Some(_) => "it is screwed down",
            None => "the wall screws hold it",
        };
        lines.push(format!(
            "hold a level to the ends and the front of {}: it is as plumb as what it stands on; nobody lets go of it, and nobody leaves it for the night, before {holds}",
            case.name
        ));
        lines
    }

    /// True where one of these cases is screwed down through slots, under which a board moves.
    pub(super) fn stand_in_slots(&self, cases: &[&Case]) -> bool {
        let is_one = |own: &Stacked| cases.iter().any(|case| case.id == own.case);
        stacked::stacked(self.work).iter().any(|own| own.slotted > 0 && is_one(own))
    }

    /// The stiles of a case that are scribed to a wall.
    fn scribed_above(&self, case: &Case) -> (Vec<String>, Vec<House>) {
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        for side in Side::BOTH {
            if let Exposure::Wall { scribe } = side.of(&case.exposure)
                && scribe.length.is_positive()
            {
                does.push(House::Scribe(case.id, side, scribe.length));
                lines.push(format!(
                    "scribe the {} stile of {} to the wall, so that it stands in line with what is below; up to {} of it may come off",
                    side.word(),
                    case.name,
                    self.text(scribe.length)
                ));
            }
        }
        (lines, does)
    }

    fn driven_down(&self, own: &Stacked, bottom: PartId) -> Vec<String> {
        let bottom = self.parts.mark(bottom);
        let into = self.marks(&own.into);
        let mut lines = Vec::new();
        if own.round > 0 {
            lines.push(format!(
                "from inside, screw down through {bottom} into {into} with {} on the lines of the layout sheet; set a stop on the bit for the pilot holes, so that it does not come out below",
                counted(own.round, "screw")
            ));
        }
        if own.slotted > 0 {
            lines.push(format!(
                "screw down through the middle of {} in {bottom} into {into}, with a washer under the head, until the washers touch, and then a quarter turn back: {into} must slide under it",
                match own.slotted {
                    1 => "the slot".to_owned(),
                    count => format!("each of the {count} slots"),
                }
            ));
        }
        lines
    }
}
