//! Cases that are screwed to each other where they stand.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::{Case, CaseId, Sight};
use crate::parts::{Direction, Part, PartId, Role};
use crate::plans::beside;
use crate::plans::fitting::ties::seen;
use crate::plans::fitting::{Fastening, Purpose};
use crate::plans::operations::{Beside, Doing, House};

use super::hung_up::STRIPS_OFF;
use super::{Maker, Usual, Work};

/// What is done with the screws of a case until it holds to the next.
pub(super) const LEFT_LOOSE: &str =
    "leave the screws a half turn loose until it is screwed to the case beside it";

/// True for a case that is screwed to one beside it.
pub(super) fn is_tied(pairs: &[Beside], case: CaseId) -> bool {
    pairs.iter().any(|own| own.cases.contains(&case))
}

impl Maker<'_, '_> {
    /// Cases are screwed to those beside them, on the floor or on other cases; the task
    /// after which they hold.
    pub(super) fn tied(&mut self, after: usize, stacked: bool) -> usize {
        let is_here =
            |id: CaseId| self.piece.case(id).is_some_and(|case| case.on.is_some() == stacked);
        let mut beside = beside::pairs(self.piece, self.parts);
        beside.retain(|own| is_here(own.cases[0]));
        if beside.is_empty() {
            return after;
        }
        let all = (0..).zip(&self.work.fastened().fastenings);
        let ties = all.filter(|(_, own)| own.purpose == Purpose::Ties && is_here(own.part.case));
        let ties: Vec<usize> = ties.map(|(index, _)| index).collect();
        let mut lines = vec![self.clamped_beside(&beside)];
        for own in &mut beside {
            let fastened = &self.work.fastened().fastenings;
            let tie = ties.iter().filter_map(|index| fastened.get(*index)).find(|tie| {
                let mut boards = tie.into.iter().chain([&tie.part]);
                boards.all(|board| own.cases.contains(&board.case))
            });
            own.screws = tie.map_or(own.screws, |tie| tie.count);
            lines.push(self.fixed_beside(own, tie));
        }
        let loose = self.piece.cases.iter().filter(|case| case.hung.is_some() || case.on.is_some());
        let loose: Vec<&Case> = loose.filter(|case| is_tied(&beside, case.id)).collect();
        if !loose.is_empty() {
            let names: Vec<&str> = loose.iter().map(|case| case.name.as_str()).collect();
            let slides = match self.stand_in_slots(&loose) {
                true => {
                    ", but those in slots only until their washers touch, and then a quarter turn back"
                }
                false => "",
            };
            lines.push(format!(
                "then turn the screws tight that {} hang or stand by{slides}, and try them once more with the level",
                listed(&names)
            ));
        }
        if loose.iter().any(|case| case.hung.is_some()) {
            lines.push(STRIPS_OFF.to_owned());
        }
        let open = self.in_the_open(&ties);
        if !open.is_empty() {
            lines.push(format!(
                "the inside of {} is seen: sink the heads there, and plug or cap the holes",
                self.marks(&open)
            ));
        }
        let title = "Fix the cases to each other".to_owned();
        let efforts = vec![Usual::Beside.times(1)];
        let task = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![after]);
        let does = beside.into_iter().map(|own| Doing::House(House::Beside(own)));
        self.does(task, does.collect());
        let struck = ties.iter().flat_map(|index| {
            let own = self.work.fastened().fastenings.get(*index);
            (0..own.map_or(0, |own| own.lines.len())).map(|line| Doing::ScrewLine(*index, line))
        });
        let struck: Vec<Doing> = struck.collect();
        self.does(task, vec![Doing::Fasten(ties)]);
        self.does(task, struck);
        task
    }

    /// How cases that are screwed to each other stand: with what they have alike in line.
    fn clamped_beside(&self, pairs: &[Beside]) -> String {
        let alike = |of: &dyn Fn(&Case) -> Option<Length>| {
            pairs.iter().all(|own| {
                let [left, right] = own.cases.map(|id| self.piece.case(id).and_then(of));
                left == right
            })
        };
        // Fronts that lie on a case stand before its edges, and before no frame.
        let front = |case: &Case| {
            let own = self.parts.of_case(case.id).iter();
            let edges = own.filter(|part| matches!(part.role, Role::End(_) | Role::Stile));
            edges.map(|part| part.extent(Direction::Z).0).min()
        };
        let (flush, high) = (alike(&front), alike(&|case| Some(case.high.length)));
        let even = match flush {
            true => "their front edges flush",
            false => "their backs in one plane",
        };
        let tops = if high { " and their tops in one line" } else { "" };
        format!("clamp the cases together with {even}{tops}")
    }

    /// The ends whose screws are seen in an open case.
    fn in_the_open(&self, ties: &[usize]) -> Vec<PartId> {
        let all = ties.iter().filter_map(|index| self.work.fastened().fastenings.get(*index));
        let seen = all.filter(|own| {
            let Role::End(side) = own.part.role else { return false };
            self.piece.case(own.part.case).is_some_and(|case| seen(case, side) == Sight::Open)
        });
        let through: Vec<&Part> = seen.map(|own| own.part).collect();
        self.ids(|part| through.iter().any(|own| std::ptr::eq(*own, part)))
    }

    fn fixed_beside(&self, beside: &Beside, tie: Option<&Fastening<'_>>) -> String {
        let [left, right] =
            beside.cases.map(|id| self.piece.case(id).map_or("", |case| case.name.as_str()));
        let tape = self.piece.tape();
        let long = beside.sold.map_or(String::new(), |long| format!(", {} long", self.text(long)));
        let most = self.text(tape.down(beside.most));
        let lined = tie.filter(|tie| !tie.lines.is_empty());
        match lined.zip(lined.and_then(|tie| tie.into.first())) {
            Some((tie, into)) => format!(
                "screw {left} to {right} with {} screws{long} (none longer than {most}), through {} into {} on the lines of the layout sheet, which keep clear of pins, slides, and hinges",
                tie.count, tie.part.mark, into.mark
            ),
            None => format!(
                "screw {left} to {right} with {} screws{long}, half of them near the front and half near the back (none longer than {most}); no place on the ends is clear of pins, slides, hinges, and boards, so look for one where each screw holds and a hinge, a slide, or a frame hides it",
                beside.screws
            ),
        }
    }
}
