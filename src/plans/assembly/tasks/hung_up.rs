//! Hanging cases: strips on the wall first, then each case is lifted onto its own and
//! screwed to the studs before the next is lifted.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::{Case, KeepOut, Side};
use crate::plans::beside;
use crate::plans::operations::{Doing, House, WallStrip};
use crate::plans::wall;
use crate::plans::weights::Lifted;
use crate::trade::{self, Carry};

use super::beside::{LEFT_LOOSE, is_tied};
use super::installing::STUDS;
use super::{Maker, Usual, Work};

impl<'a> Maker<'_, 'a> {
    fn hung(&self) -> Vec<&'a Case> {
        self.piece.cases.iter().filter(|case| case.hung.is_some()).collect()
    }

    /// What hangs rests on strips on the wall until its screws hold; the task after which
    /// these are up. Those of cases that hang over others, whose place counts from these, go up
    /// once the others stand where they stay.
    pub(super) fn strips_up(&mut self, after: usize, over: bool) -> usize {
        let mut hung = self.hung();
        hung.retain(|case| case.over().is_some() == over);
        let names: Vec<&str> = hung.iter().map(|case| case.name.as_str()).collect();
        if names.is_empty() {
            return after;
        }
        let mut lines = vec![
            STUDS.to_owned(),
            format!("find the highest place of the floor below {}", listed(&names)),
        ];
        let mut heights: Vec<Length> = hung.iter().map(|case| case.base_high().length).collect();
        heights.sort();
        heights.dedup();
        for up in heights {
            let here = hung.iter().filter(|case| case.base_high().length == up);
            let here: Vec<&str> = here.map(|case| case.name.as_str()).collect();
            lines.push(format!(
                "strike a level line on the wall {} above that place for {}, and screw a straight strip to the studs with its upper edge on the line; try it with a level",
                self.text(up),
                listed(&here)
            ));
        }
        lines.extend(hung.iter().filter_map(|case| self.strip_between(case)));
        lines.extend(hung.iter().flat_map(|case| self.strip_in_the_way(case)));
        let short = hung.iter().filter(|case| {
            let is_known = case.hung.as_ref().is_some_and(|hung| hung.studs.is_some());
            !is_known && self.piece.studs_behind(case) < 2 && !self.piece.hangs_beside(case)
        });
        let short: Vec<&str> = short.map(|case| case.name.as_str()).collect();
        if !short.is_empty() {
            lines.push(format!(
                "let the strip for {} reach to two studs, past the sides of the case",
                listed(&short)
            ));
        }
        lines.push(
            "the strips carry what is lifted onto them until the wall screws hold".to_owned(),
        );
        lines.extend(hung.iter().filter_map(|case| self.marked_over(case)));
        let (kept, keeps) = self.kept(Some(over));
        lines.extend(kept);
        let up = |case: &Case| {
            let over = self.hangs_over(case).map(|(below, left)| (below.id, left));
            let up = case.base_high().length;
            Doing::House(House::WallStrip(WallStrip { case: case.id, up, over }))
        };
        let mut does: Vec<Doing> = hung.iter().map(|case| up(case)).collect();
        does.extend(keeps);
        let efforts = vec![Usual::Strip.times(names.len())];
        let title = "Put up strips on the wall".to_owned();
        let last = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![after]);
        self.does(last, does);
        last
    }

    /// Where a strip must end because a case beside its own reaches lower, and would be held
    /// off the wall by it.
    fn strip_between(&self, case: &Case) -> Option<String> {
        let strip = trade::wall_strip(self.piece.tape().unit);
        let up = case.base_high().length;
        let lower = Side::BOTH.map(|side| self.piece.hides(case, side, (up - strip, up)));
        let names: Vec<&str> = lower.iter().flatten().map(|own| own.name.as_str()).collect();
        let place = match lower {
            [None, None] => return None,
            [Some(_), Some(_)] => format!("between where the sides of {} come", listed(&names)),
            [Some(_), None] => format!("to the right of where {} comes", listed(&names)),
            [None, Some(_)] => format!("to the left of where {} comes", listed(&names)),
        };
        Some(format!(
            "keep the strip for {} {place}: behind {} it would hold it off the wall",
            case.name,
            if names.len() == 1 { "that" } else { "one of them" }
        ))
    }

    /// What must stay clear where the strip under a case would be: a range hood under a short
    /// upper, for one.
    fn strip_in_the_way(&self, case: &Case) -> Vec<String> {
        let strip = trade::wall_strip(self.piece.tape().unit);
        let (up, sides) = (case.base_high().length, [case.x, case.x + case.wide.length]);
        let meets = |own: &&KeepOut| {
            let [left, right] = own.sides.each_ref().map(|side| side.length);
            own.up < up && up - strip < own.up + own.high && left < sides[1] && sides[0] < right
        };
        let all = self.piece.site.keep_outs.iter().filter(meets);
        let told = all.map(|own| {
            format!(
                "{} comes up to where the strip for {} would be: hang {} before it is put up, or end the strip beside it and stand the case on props cut to length, which nobody takes away before its screws are in",
                own.name, case.name, case.name
            )
        });
        told.collect()
    }

    /// The case that a case hangs over, and from the left side of that to its own.
    fn hangs_over(&self, case: &Case) -> Option<(&'a Case, Length)> {
        let over = case.over()?;
        let below = self.piece.case(over.below)?;
        Some((below, case.x - below.x))
    }

    /// Where the left side of a case comes on its strip that hangs over another.
    fn marked_over(&self, case: &Case) -> Option<String> {
        let (below, left) = self.hangs_over(case)?;
        let place = match left.is_negative() {
            _ if left.is_zero() => "at that line".to_owned(),
            true => format!("{} to the left of that line", self.text(-left)),
            false => format!("{} to the right of that line", self.text(left)),
        };
        Some(format!(
            "plumb a line up the wall from the left side of {}, and mark on the strip where the left side of {} comes: {place}",
            below.name, case.name
        ))
    }

    /// How a case gets onto its strip: one lifts; another looks to the level and holds it.
    fn lift(&self, case: &Case) -> (Carry, String) {
        match self.work.weights().carry(&Lifted::Case(case.id)).with_a_second() {
            own @ Carry::People(count) => (own, format!("with {count} people")),
            own @ Carry::Gear => (
                own,
                "with a lift or a panel jack, since it is too heavy for three people".to_owned(),
            ),
        }
    }

    /// What a case that hangs is held by while its stile is marked for the wall.
    pub(super) fn held_to_scribe(&self, case: &Case) -> Option<String> {
        case.hung.as_ref()?;
        Some(format!(
            "lift {} onto its strip {} to mark it there, level and plumb, and take it down again to plane it",
            case.name,
            self.lift(case).1
        ))
    }

    /// Every case that hangs is lifted and screwed to the wall, one after the other; the
    /// task after which they hang.
    pub(super) fn hung_up(&mut self, after: usize) -> usize {
        let pairs = beside::pairs(self.piece, self.parts);
        let mut last = after;
        for case in self.hung() {
            let wall = wall::wall(self.piece, self.parts, |own| own.id == case.id);
            let (carry, by) = self.lift(case);
            let at =
                if self.hangs_over(case).is_some() { ", its left side at its mark" } else { "" };
            let mut lines = vec![format!(
                "lift {} onto its strip {by}{at}, and hold it to the wall, level and plumb; nobody lets go before its screws are in",
                case.name
            )];
            lines.extend(self.screwed_to_wall(&wall));
            let last_line = if is_tied(&pairs, case.id) { LEFT_LOOSE } else { STRIPS_OFF };
            lines.push(last_line.to_owned());
            let efforts = vec![Usual::Strip.times(1), Usual::Wall.times(1)];
            let title = format!("Hang {} on the wall", case.name);
            last = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![last]);
            let does = [House::Lift(case.id, carry), House::Wall(wall)];
            self.does(last, does.into_iter().map(Doing::House).collect());
        }
        last
    }
}

/// What is done when cases that hang hold by themselves.
pub(super) const STRIPS_OFF: &str =
    "when every screw holds, take the strips off the wall, and fill their holes";
