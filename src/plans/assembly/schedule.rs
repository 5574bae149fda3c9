//! When one pair of hands does each task, and which tasks set the end.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use crate::measure::{Duration, Exact};

use crate::model::Shop;

use super::{Task, Wait};

/// When a task is worked on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// The working day, from 1.
    pub day: u32,
    /// Minutes into that day.
    pub at: u32,
    /// Its place in the order, from nought.
    pub order: usize,
    /// It sets the end: a delay here delays the whole.
    pub critical: bool,
}

/// When everything is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Schedule {
    /// By task.
    pub slots: Vec<Slot>,
    /// Working days, waits over night included.
    pub days: u32,
    /// All hands-on time.
    pub hands: Duration,
    /// The longest chain of work and waits.
    pub longest: Duration,
    /// The tasks of that chain, from its first to its last.
    pub chain: Vec<Link>,
}

/// A task of the longest chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// The task, by its place among all.
    pub task: usize,
    /// From the end of its work until the next task of the chain can begin; of the last
    /// until it is ready.
    pub wait: Duration,
}

const DAY: i64 = 24 * 60;

/// A task, and how many minutes lie between it and another at least.
type Lag = (usize, i64);

/// Hands-on work fills the working day; waits run through the night. Of the
/// tasks that are ready, the one with the longest chain behind it goes first.
/// What is done after glue has cured waits that long from the end of the glue-up, and so
/// does what is done after a finish is hard. A glue-up waits until as many clamps are free as
/// it takes, or all that the shop has.
pub(super) fn schedule(tasks: &[Task], shop: &Shop) -> Schedule {
    let hours = Hours { day: shop.day, cure: shop.cure, clamps: shop.clamps };
    planned(tasks, hours)
}

/// What of a shop the days hang on.
#[derive(Clone, Copy)]
struct Hours {
    day: Duration,
    cure: Duration,
    clamps: u32,
}

fn minutes(duration: Duration) -> i64 {
    duration.0.ceil().max(0)
}

/// How long the clamps of a task stay on it when its work is done.
fn clamped(task: &Task) -> i64 {
    match task.waits_for {
        Wait::Clamps => minutes(task.wait),
        Wait::Cure(clamped) => minutes(clamped),
        Wait::None | Wait::Screws | Wait::Finish | Wait::Delivery(_) => 0,
    }
}

fn planned(tasks: &[Task], Hours { day, cure, clamps }: Hours) -> Schedule {
    // From the end of the work on a task to the begin of one that comes after it.
    let mut ahead: Vec<Vec<Lag>> = vec![Vec::new(); tasks.len()];
    let mut behind: Vec<Vec<Lag>> = vec![Vec::new(); tasks.len()];
    for (index, task) in tasks.iter().enumerate() {
        let after = task.after.iter().map(|before| (*before, Duration::default()));
        let cured = task.cured.iter().map(|before| (*before, cure));
        for (before, least) in after.chain(cured).chain(task.hard.iter().copied()) {
            debug_assert!(before < index, "a task waits for one that comes after it");
            let lag = minutes(tasks[before].wait).max(minutes(least));
            ahead[index].push((before, lag));
            behind[before].push((index, lag));
        }
    }
    // What a task needs is made before it, so from the last to the first every
    // chain behind a task is known when its turn comes.
    let mut tail = vec![0i64; tasks.len()];
    for (index, task) in tasks.iter().enumerate().rev() {
        let rest = behind[index].iter().map(|(next, lag)| lag + tail[*next]).max();
        tail[index] = minutes(task.hands()) + rest.unwrap_or(0).max(minutes(task.wait));
    }
    let longest = tail.iter().copied().max().unwrap_or(0);
    let chain = chain(tasks, &behind, &tail, longest);
    let is_critical = |index: usize| chain.iter().any(|link| link.task == index);
    let day = minutes(day).clamp(60, DAY);
    let mut ended = vec![0i64; tasks.len()];
    let mut slots = vec![Slot { day: 1, at: 0, order: 0, critical: false }; tasks.len()];
    // How many tasks each one waits for; those that wait for none, by when
    // their wait is over; those that can be done now, the longest chain first.
    let mut awaited: Vec<usize> = ahead.iter().map(Vec::len).collect();
    let free = (0..tasks.len()).filter(|index| awaited[*index] == 0);
    let mut soon: BTreeSet<(i64, usize)> = free.map(|index| (0, index)).collect();
    let mut open: BTreeSet<(i64, Reverse<usize>)> = BTreeSet::new();
    // Clamps that are on, by when they come off.
    let mut on: BTreeSet<(i64, usize)> = BTreeSet::new();
    let takes = |index: usize| tasks[index].clamps.min(clamps);
    let mut now = 0i64;
    'tasks: for place in 0..tasks.len() {
        let index = loop {
            while let Some((_, index)) = soon.first().copied().filter(|(at, _)| *at <= now) {
                soon.pop_first();
                open.insert((tail[index], Reverse(index)));
            }
            while on.first().is_some_and(|(until, _)| *until <= now) {
                on.pop_first();
            }
            let free = clamps.saturating_sub(on.iter().map(|(_, index)| takes(*index)).sum());
            let next = open.iter().rev().find(|(_, Reverse(index))| takes(*index) <= free);
            if let Some((_, Reverse(index))) = next {
                break *index;
            }
            let times = [soon.first(), on.first()].into_iter().flatten();
            let Some(at) = times.map(|(at, _)| *at).min() else { break 'tasks };
            now = at;
        };
        open.remove(&(tail[index], Reverse(index)));
        let hands = minutes(tasks[index].hands());
        let into = now.rem_euclid(DAY);
        // What does not fit into the rest of the day begins the next morning;
        // what fills more than a day begins at once.
        if into >= day || hands <= day && into + hands > day {
            now = now - into + DAY;
        }
        let start = now;
        slots[index] = Slot {
            day: u32::try_from(start / DAY).unwrap_or(0) + 1,
            at: u32::try_from(start % DAY).unwrap_or(0),
            order: place,
            critical: is_critical(index),
        };
        now = end_of(start, hands, day);
        ended[index] = now;
        if tasks[index].clamps > 0 {
            on.insert((now + clamped(&tasks[index]), index));
        }
        for (next, _) in &behind[index] {
            awaited[*next] -= 1;
            if awaited[*next] == 0 {
                let at = ahead[*next].iter().map(|(before, lag)| ended[*before] + lag).max();
                soon.insert((at.unwrap_or(0), *next));
            }
        }
    }
    let ready = tasks.iter().zip(&ended).map(|(task, ended)| ended + minutes(task.wait));
    let end = ready.max().unwrap_or(0);
    let total: i64 = tasks.iter().map(|task| minutes(task.hands())).sum();
    let days = u32::try_from((end + DAY - 1) / DAY).unwrap_or(1).max(1);
    Schedule {
        slots,
        days,
        hands: Duration(Exact::int(total)),
        longest: Duration(Exact::int(longest)),
        chain,
    }
}

/// Where work of so many minutes ends, the nights between left out.
fn end_of(start: i64, mut minutes: i64, day: i64) -> i64 {
    let mut at = start;
    loop {
        let left = day - at.rem_euclid(DAY);
        if minutes <= left {
            return at + minutes;
        }
        minutes -= left.max(0);
        at = at - at.rem_euclid(DAY) + DAY;
    }
}

/// The tasks of one longest chain, from its first to its last.
fn chain(tasks: &[Task], behind: &[Vec<Lag>], tail: &[i64], longest: i64) -> Vec<Link> {
    let mut chain = Vec::new();
    let mut at =
        (0..tasks.len()).find(|index| tail[*index] == longest && tasks[*index].after.is_empty());
    while let Some(index) = at {
        let next = behind[index].iter();
        let next = next.max_by_key(|(next, lag)| (lag + tail[*next], Reverse(*next)));
        // What follows may begin before its own wait is over that no task waits for.
        let rest = tail[index] - tasks[index].hands().0.ceil().max(0);
        let next = next.filter(|(next, lag)| lag + tail[*next] >= rest);
        let wait = next.map_or(rest, |(_, lag)| *lag);
        chain.push(Link { task: index, wait: Duration(Exact::int(wait)) });
        at = next.map(|(next, _)| *next);
    }
    chain
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plans::assembly::{Effort, Taking, Usual, Work};

    fn task(hands: i64, wait: i64, after: &[usize]) -> Task {
        Task {
            efforts: vec![Effort {
                what: Taking::Usual(Usual::DryFit),
                count: 1,
                each: Duration(Exact::int(hands)),
            }],
            wait: Duration(Exact::int(wait)),
            after: after.to_vec(),
            ..Task::new(String::new(), Work::Bench)
        }
    }

    /// A day of 8 h, 10 clamps, and glue that cures in so many hours.
    fn shop(cure: i64) -> Hours {
        let hours = |count| Duration::hours(Exact::int(count));
        Hours { day: hours(8), cure: hours(cure), clamps: 10 }
    }

    /// Three boxes of 25 minutes that are an hour in 4 clamps each: two are glued up one right
    /// after the other, and the third when the clamps of the first come off, at 25 + 60. What
    /// asks for more clamps than there are takes all of them, when those of the third come off,
    /// at 110 + 60.
    #[test]
    fn glue_ups_wait_for_clamps_only() {
        let clamped = |clamps| Task { clamps, waits_for: Wait::Clamps, ..task(25, 60, &[]) };
        let tasks = [clamped(4), clamped(4), clamped(4), clamped(12)];
        let plan = planned(&tasks, shop(0));
        assert_eq!(plan.slots.iter().map(|slot| slot.at).collect::<Vec<_>>(), [0, 25, 85, 170]);
        let few = planned(&tasks[..2], Hours { clamps: 4, ..shop(0) });
        assert_eq!(few.slots[1].at, 85);
    }

    /// Two glue-ups of an hour's clamping each share the waits: 30 + 30 of
    /// hands, the second starting while the first is in the clamps; the third
    /// needs both: 30 + 30 + 60 = 120 minutes in.
    #[test]
    fn hands_work_while_clamps_hold() {
        let tasks = [task(30, 60, &[]), task(30, 60, &[]), task(10, 0, &[0, 1])];
        let plan = planned(&tasks, shop(0));
        assert_eq!(plan.slots[1].at, 30);
        assert_eq!(plan.slots[2].at, 120);
        assert_eq!(plan.days, 1);
        assert_eq!(plan.longest, Duration(Exact::int(100)));
    }

    #[test]
    fn a_wait_over_night_costs_no_hands() {
        let tasks = [task(60, 24 * 60, &[]), task(60, 0, &[0])];
        let plan = planned(&tasks, shop(0));
        assert_eq!((plan.slots[1].day, plan.slots[1].at), (2, 60));
    }

    /// 30 minutes of gluing end at 0:30 of day 1; they are out of the clamps an hour
    /// later, but what waits for the cure begins 24 h after the end, on day 2 at 0:30.
    #[test]
    fn what_waits_for_a_cure_counts_from_the_end_of_the_glue_up() {
        let mut sanded = task(60, 0, &[1]);
        sanded.cured = vec![0];
        let tasks = [task(30, 60, &[]), task(20, 0, &[0]), sanded];
        let plan = planned(&tasks, shop(24));
        assert_eq!((plan.slots[1].day, plan.slots[1].at), (1, 90));
        assert_eq!((plan.slots[2].day, plan.slots[2].at), (2, 30));
        assert_eq!(plan.longest, Duration(Exact::int(30 + 24 * 60 + 60)));
        assert!(plan.slots[0].critical && plan.slots[2].critical);
    }

    /// A coat of 30 minutes dries over night, and is hard after 7 days: what is set on it
    /// begins on the eighth day at 0:30.
    #[test]
    fn nothing_is_set_on_a_finish_that_is_soft() {
        let mut set = task(60, 0, &[0]);
        set.hard = vec![(0, Duration::hours(Exact::int(7 * 24)))];
        let tasks = [task(30, 16 * 60, &[]), set];
        let plan = planned(&tasks, shop(0));
        assert_eq!((plan.slots[1].day, plan.slots[1].at), (8, 30));
    }

    #[test]
    fn work_that_does_not_fit_the_day_begins_the_next() {
        let tasks = [task(400, 0, &[]), task(200, 0, &[0])];
        let plan = planned(&tasks, shop(0));
        assert_eq!((plan.slots[1].day, plan.slots[1].at), (2, 0));
    }
}
