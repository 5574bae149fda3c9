//! Fitting covers, when the cases stand and hold.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::JointKind;
use crate::parts::{Direction, JointSort, Part, PartId, Role, Spare, Which};
use crate::plans::fitting::Long;
use crate::plans::operations::{Covering, Doing, House};

use super::{Maker, Usual, Work};

/// What a cover lies over.
#[derive(Clone, Copy)]
enum Over {
    /// An end, behind the stile of the frame, or beside the fronts of a frameless case.
    End { framed: bool },
    /// The back.
    Back,
    /// The underside, with a frame before the case or without.
    Under { framed: bool },
}

impl Maker<'_, '_> {
    /// Every cover is scribed and screwed on from inside its case, while its doors and
    /// drawers are out: of the cases on the floor and the wall, or of those that are set on
    /// others; the task after which they are on.
    pub(super) fn covered(&mut self, after: usize, stacked: bool) -> usize {
        let is_here = |part: &Part| {
            self.piece.case(part.case).is_some_and(|case| case.on.is_some() == stacked)
        };
        let covers = self.ids(|part| part.role == Role::Cover && is_here(part));
        let all: Vec<Covering> = covers.iter().filter_map(|id| self.covering(*id)).collect();
        if all.is_empty() {
            return after;
        }
        let to = |axis: Direction| {
            let parts = covers.iter().filter_map(|id| self.parts.get(*id));
            parts
                .flat_map(|part| {
                    part.spare.iter().map(|spare| part.placement.direction(spare.face))
                })
                .any(|own| own == axis)
        };
        let along = match (to(Direction::Y), to(Direction::Z)) {
            (false, false) => None,
            (true, false) => Some("the floor"),
            (false, true) => Some("the wall"),
            (true, true) => Some("the floor or the wall"),
        };
        let scribed = along.is_some();
        let mut lines = Vec::new();
        if let Some(along) = along {
            lines.push(format!("saw just outside each line that is drawn along {along} and plane to it, undercutting a few degrees from the face that is seen; where the wall or the floor is true, all that was left on comes off; if the line runs off the panel, the panel is too small: cut a new one, larger"));
        }
        lines.extend(all.iter().flat_map(|own| self.cover(own)));
        if scribed && self.is_finished() {
            lines.push(
                "seal every edge that you saw or plane in the house with finish, before the panel goes on"
                    .to_owned(),
            );
        }
        let title = match (all.as_slice(), stacked) {
            ([_], false) => "Fit the cover".to_owned(),
            (_, false) => "Fit the covers".to_owned(),
            ([_], true) => format!("Fit the cover of {}", self.covered_cases(&covers)),
            (_, true) => format!("Fit the covers of {}", self.covered_cases(&covers)),
        };
        let mut before = vec![after];
        before.extend(self.ready(&covers));
        let efforts = vec![Usual::Filler.times(all.len())];
        let task = self.simple(title, lines, covers.clone(), Work::Fit, efforts, before);
        let joints = self.picked(|joint| {
            joint.sort == JointSort::Wood(JointKind::Screw) && covers.contains(&joint.part)
        });
        self.closes(task, joints);
        let does = all.into_iter().map(|own| Doing::House(House::Cover(own)));
        self.does(task, does.collect());
        task
    }

    /// `hutch`, or `left and right`.
    fn covered_cases(&self, covers: &[PartId]) -> String {
        let cases = covers.iter().filter_map(|id| self.piece.case(self.parts.get(*id)?.case));
        let mut names: Vec<&str> = cases.map(|case| &*case.name).collect();
        names.dedup();
        listed(&names)
    }

    /// The boards that a cover lies on, and its screws.
    fn covering(&self, cover: PartId) -> Option<Covering> {
        let joints: Vec<(usize, PartId)> = (0..)
            .zip(&self.parts.joints)
            .filter(|(_, joint)| joint.part == cover)
            .map(|(index, joint)| (index, joint.into))
            .collect();
        let through: Vec<PartId> = joints.iter().map(|(_, into)| *into).collect();
        let (part, first) = (self.parts.get(cover)?, self.parts.get(*through.first()?)?);
        let front = |part: &Part| part.side(Direction::Z, false).length;
        let is_it = |index: Option<usize>| joints.iter().any(|(own, _)| Some(*own) == index);
        let fastened = self.work.fastened().fastenings.iter();
        let screws: Vec<_> = fastened.filter(|own| is_it(own.joint)).collect();
        Some(Covering {
            part: cover,
            ahead: match part.which {
                Which::At(_) => Some(front(first) - front(part)),
                Which::Only
                | Which::Top
                | Which::Bottom
                | Which::Front
                | Which::Back
                | Which::Number(_)
                | Which::AtNumber(..) => None,
            },
            screws: screws.iter().map(|own| own.count).sum(),
            long: screws.first().and_then(|own| match own.long {
                Long::Is(long) => Some(long),
                Long::BySheet | Long::AtLeast(_) | Long::Between(..) => None,
            }),
            through,
        })
    }

    /// `SI-LE`, or `PL-K and CU-K`.
    fn through(&self, own: &Covering) -> String {
        listed(&own.through.iter().map(|id| self.parts.mark(*id)).collect::<Vec<_>>())
    }

    fn over(&self, part: &Part) -> Over {
        let framed = self.piece.case(part.case).is_some_and(|case| case.frame.is_some());
        match part.which {
            Which::Back => Over::Back,
            Which::Bottom => Over::Under { framed },
            Which::Only
            | Which::At(_)
            | Which::Top
            | Which::Front
            | Which::Number(_)
            | Which::AtNumber(..) => Over::End { framed },
        }
    }

    fn cover(&self, own: &Covering) -> Vec<String> {
        let Some(part) = self.parts.get(own.part) else { return Vec::new() };
        let (mark, on) = (&part.mark, self.through(own));
        let over = self.over(part);
        let place = match (over, own.ahead.filter(|ahead| ahead.is_positive())) {
            (Over::End { framed: true }, _) => {
                "with its front edge tight against the back of the stile and its top even with that of".to_owned()
            }
            (Over::End { framed: false }, None) => {
                "with its front edge and its top even with those of".to_owned()
            }
            (Over::End { framed: false }, Some(ahead)) => format!(
                "with its front edge {} forward of that of {on}, even with the faces of the fronts, and its top even with that of",
                self.text(ahead)
            ),
            (Over::Back, _) => {
                "with its sides even with the outsides of the ends and its top even with that of".to_owned()
            }
            (Over::Under { framed }, _) => format!(
                "with {} and its front edge even with {}",
                self.ends_under(part),
                if framed { "the face of the frame, tight under" } else { "that of" }
            ),
        };
        let mut lines = self.scribed_cover(own, part, over);
        let long = own.long.map_or(String::new(), |long| format!(" {} long", self.text(long)));
        let case = if own.through.len() > 1 { "cases" } else { "case" };
        let washers = match over {
            Over::Back => ", with washers under their heads",
            Over::End { .. } | Over::Under { .. } => "",
        };
        lines.push(format!(
            "clamp {mark} to {on} {place} {on}, and screw it on from inside the empty {case} with {} screws{long}{washers}, through {on}, on the lines of the layout sheet, without glue",
            own.screws
        ));
        lines
    }

    /// Where the ends of a cover under a case come.
    fn ends_under(&self, part: &Part) -> String {
        let case = self.piece.case(part.case);
        let case = case.map(|case| (case.x, case.x + case.wide.length));
        let (from, to) = part.extent(Direction::X);
        let [left, right] = case.map_or([Length::ZERO; 2], |own| [from - own.0, own.1 - to]);
        match (left.is_positive(), right.is_positive()) {
            (false, false) => "its ends even with the sides of the case".to_owned(),
            (true, true) => {
                "the same gap at both ends to the cases beside it, which reach lower".to_owned()
            }
            (true, false) => "its right end even with the side of the case".to_owned(),
            (false, true) => "its left end even with the side of the case".to_owned(),
        }
    }

    /// How a cover comes to the floor and the wall: it is held beside its place, since the
    /// wood that comes off keeps it out of that.
    fn scribed_cover(&self, own: &Covering, part: &Part, over: Over) -> Vec<String> {
        let (mark, on) = (&part.mark, self.through(own));
        let left = |axis: Direction| {
            let mut spare = part.spare.iter();
            spare.find(|spare| part.placement.direction(spare.face) == axis)
        };
        let (floor, wall) = (left(Direction::Y), left(Direction::Z));
        let told = |spare: &Spare| {
            let word = if part.placement.length == part.placement.direction(spare.face) {
                "longer"
            } else {
                "wider"
            };
            format!("{} {word} at its {}", self.text(spare.by.length), part.face_name(spare.face))
        };
        let all: Vec<String> = [floor, wall].into_iter().flatten().map(told).collect();
        if all.is_empty() {
            return Vec::new();
        }
        let edge =
            |spare: Option<&Spare>| spare.map_or(String::new(), |own| part.face_name(own.face));
        // Where nothing is left on at a wall, it stands in its own place, only higher.
        let own_place = wall.is_none() && matches!(over, Over::End { framed: true });
        let against = match over {
            Over::End { framed: true } if own_place => "the end, right behind the stile",
            Over::End { framed: true } => "the outside of the stile",
            Over::End { framed: false } => "the outside of the end",
            Over::Back => "the back of the case",
            Over::Under { .. } => "the underside of the case",
        };
        let parallel = match over {
            Over::End { .. } if own_place => {
                "its front edge is parallel to the back of the stile".to_owned()
            }
            Over::End { .. } | Over::Under { .. } => {
                format!("its front edge is parallel to that of {on}")
            }
            Over::Back => {
                "its sides are plumb and its top is parallel to the tops of the ends".to_owned()
            }
        };
        let stands = match (over, floor.is_some(), wall.is_some()) {
            (Over::Under { .. }, ..) => {
                format!("prop it up against {against}, with its back edge at the wall, and turn it")
            }
            (_, true, true) => format!(
                "stand it on the floor against {against}, with its back edge at the wall, and shim it"
            ),
            (_, true, false) => format!("stand it on the floor against {against}, and shim it"),
            (_, false, _) => format!(
                "hold it against {against}, with its back edge at the wall and its top even with that of {on}, and turn it"
            ),
        };
        let mut lines = vec![
            format!("{mark} is left {} than it is drawn, to be scribed", listed(&all)),
            format!("{stands} until {parallel}"),
        ];
        if floor.is_some() {
            lines.push(format!(
                "set the compass to what its top stands above that of {on}, and draw the floor onto its {}",
                edge(floor)
            ));
        }
        if wall.is_some() {
            let place = match (over, own.ahead.filter(|ahead| ahead.is_positive())) {
                (Over::End { framed: true }, _) => "the back of the stile".to_owned(),
                (Over::Under { framed: true }, _) => "the face of the frame".to_owned(),
                (Over::End { framed: false }, Some(ahead)) => {
                    format!("the line {} forward of the front edge of {on}", self.text(ahead))
                }
                (Over::End { framed: false } | Over::Under { framed: false } | Over::Back, _) => {
                    format!("the front edge of {on}")
                }
            };
            lines.push(format!(
                "set the compass to what its front edge stands before {place}, and draw the wall onto its {}",
                edge(wall)
            ));
        }
        lines
    }
}
