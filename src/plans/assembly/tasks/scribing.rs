//! Outer stiles are scribed to the walls beside them.

use crate::model::{Case, Exposure, Side};
use crate::parts::{PartId, Role};
use crate::plans::operations::{Doing, House};
use crate::plans::scribe_strips::{ScribeStrip, scribe_strips};

use super::{Maker, Usual, Work};

/// How a stile is planed to a wall.
pub(super) const PLANED: &str =
    "plane to the line, undercutting it a few degrees so that only the front edge meets the wall";

impl Maker<'_, '_> {
    /// Stiles come to their walls when the case stands level; between two walls while it
    /// stands before its place. The task after which they do.
    pub(super) fn scribes(&mut self, after: usize) -> usize {
        let Some((lines, does)) = self.scribed() else { return after };
        let title = "Scribe it to the walls".to_owned();
        let efforts = vec![Usual::Scribing.times(1)];
        let task = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![after]);
        self.does(task, does);
        task
    }

    /// The same for cases that hang over others, once these stand where they stay and the
    /// strips are up.
    pub(super) fn scribes_over(&mut self, after: usize) -> usize {
        let (stiles, does) = self.stiles_scribed(|case| case.over().is_some());
        if stiles.is_empty() {
            return after;
        }
        let mut lines = vec!["at its mark the case would reach into the wall by what may come off: hold it off the mark, away from the wall, by the same amount at top and bottom, and set the compass to that amount".to_owned()];
        lines.extend(stiles);
        lines.push(PLANED.to_owned());
        lines.extend(self.sealed());
        let title = "Scribe what hangs to the walls".to_owned();
        let efforts = vec![Usual::Scribing.times(1)];
        let task = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![after]);
        self.does(task, does);
        task
    }

    /// The stiles of such cases that are scribed.
    fn stiles_scribed(&self, is_it: impl Fn(&Case) -> bool) -> (Vec<String>, Vec<Doing>) {
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        for case in self.piece.cases.iter().filter(|case| is_it(case)) {
            let marked = lines.len();
            for side in Side::BOTH {
                if let Exposure::Wall { scribe } = side.of(&case.exposure)
                    && scribe.length.is_positive()
                {
                    does.push(Doing::House(House::Scribe(case.id, side, scribe.length)));
                    lines.push(format!(
                        "scribe the {} stile of {} to the wall; up to {} of it may come off",
                        side.word(),
                        case.name,
                        self.text(scribe.length)
                    ));
                }
            }
            if lines.len() > marked
                && let Some(held) = self.held_to_scribe(case)
            {
                lines.insert(marked, held);
            }
        }
        (lines, does)
    }

    /// What is bare where it was planed.
    pub(super) fn sealed(&self) -> Option<String> {
        self.is_finished().then(|| "seal every edge that you cut or plane in the house with finish, before it meets the wall".to_owned())
    }

    fn scribed(&self) -> Option<(Vec<String>, Vec<Doing>)> {
        let (mut lines, mut does) = self.stiles_scribed(Case::is_in_row);
        if lines.is_empty() {
            return None;
        }
        lines.insert(0, self.measured_for());
        lines.push(self.planed());
        // A kick across notches goes on later, and so does a filler.
        let there = |strip: &ScribeStrip| {
            let later = self.parts.get(strip.kick).is_some_and(|part| part.role == Role::Kick);
            (!strip.filled && !later).then_some(strip.kick)
        };
        let strips = scribe_strips(self.piece, self.parts);
        let mut kicks: Vec<PartId> = strips.iter().filter_map(there).collect();
        kicks.dedup();
        if !kicks.is_empty() {
            lines.push(format!("close the gap beside {} at the wall with a strip of its stock, scribed to the wall and glued to its end", self.marks(&kicks)));
            does.push(Doing::House(House::Strip(kicks)));
        }
        lines.extend(self.sealed());
        let lone = self.lone_bases();
        if self.between_walls().is_some() && !lone.is_empty() {
            for case in &lone {
                let (told, doing) = self.lifted_onto_base(case);
                lines.push(told);
                does.extend(doing);
            }
            lines.push(self.level_on_base(&self.on_floor("the piece")));
            lines.extend(self.diagonals());
        }
        Some((lines, does))
    }

    /// How is found what comes off the stiles.
    fn measured_for(&self) -> String {
        let lone = !self.lone_bases().is_empty();
        let based = lone || !self.shared_bases().is_empty();
        match self.between_walls() {
            Some(name) => {
                let (stands, place, from) = match based {
                    true => ("", "over the middle of the base", ", counted from the upper edge of the base"),
                    false => (" level it in front of its place;", "in the middle between the walls", ""),
                };
                format!("{name} may be too wide to go between the walls as it is:{stands} hang a plumb line {place}, where the face of {name} will be, and measure from it to the wall on each side, at the heights of the foot, the middle, and the top of the stiles{from}; on each side, subtract that distance from half the width of {name}: the difference comes off the stile there; mark it at the three heights, and join the marks; check that there is room from wall to wall along its back, too")
            }
            None if self.piece.is_parted() => "block each case off the wall that it is scribed to, by the same amount at top and bottom, and set the compass to the widest gap there".to_owned(),
            None if !lone && based => "slide the case at the wall off its place on the base, away from the wall, by the same amount at top and bottom, and set the compass to that amount".to_owned(),
            None => "block the piece off the wall that you scribe to, by the same amount at top and bottom, and set the compass to the widest gap".to_owned(),
        }
    }

    /// How the stiles are planed, and where they go then.
    fn planed(&self) -> String {
        if self.piece.is_parted() {
            return format!("{PLANED}; move each case home and level it again");
        }
        let home = match (self.lone_bases().is_empty(), self.shared_bases().is_empty()) {
            (true, true) => "; move the piece home and level it again",
            (true, false) if self.between_walls().is_none() => "; slide the case home",
            (false, _) if self.between_walls().is_none() => {
                "; move the piece home on its base, and level it again"
            }
            (true | false, _) => "",
        };
        format!("{PLANED}{home}")
    }

    /// True where something of it is cut to a wall.
    pub(super) fn is_scribed(&self) -> bool {
        self.piece.cases.iter().any(|case| {
            Side::BOTH.iter().any(|side| side.of(&case.exposure).scribe().length.is_positive())
        })
    }

    /// True where fillers at both walls take up by how much the room is wider or narrower than
    /// drawn: each takes half of that.
    pub(super) fn fills_between_walls(&self) -> bool {
        let mut cases = self.piece.cases.iter().filter(|case| case.is_in_row());
        let first = cases.next();
        let last = cases.next_back().or(first);
        if self.piece.is_parted() {
            return false;
        }
        let scribed = |case: Option<&Case>, side: Side| {
            case.and_then(|case| case.filler(side)).is_some_and(|own| own.scribe.is_some())
        };
        scribed(first, Side::Left) && scribed(last, Side::Right)
    }

    /// What is wider than its place between two walls before its stiles are scribed.
    pub(super) fn between_walls(&self) -> Option<&str> {
        let scribed =
            |case: &Case, side: Side| side.of(&case.exposure).scribe().length.is_positive();
        let mut cases = self.piece.cases.iter().filter(|case| case.is_in_row());
        let first = cases.next()?;
        let last = cases.next_back();
        if self.piece.is_parted() {
            return None;
        }
        let both = scribed(first, Side::Left) && scribed(last.unwrap_or(first), Side::Right);
        both.then_some(match self.piece.cases.len() {
            1 => first.name.as_str(),
            _ => "the piece",
        })
    }
}
