//! The order of assembly: tasks from the joints, their dependencies, and when
//! one pair of hands does each.

mod effort;
pub mod gluing;
mod schedule;
mod stage;
mod stages;
mod tasks;

use crate::measure::{Days, Duration, Exact, Length};
use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::operations::Doing;
use crate::plans::squareness::Square;

pub use effort::{Effort, ShopTime, Taking, Usual};
pub use schedule::{Link, Schedule, Slot};
pub use stage::{Stage, stage};
pub(crate) use stage::{is_broken_down_first, is_glass, is_sawn_later};
pub(super) use stages::{Stages, stages};

/// What happens after the hands-on part of a task.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wait {
    /// Nothing.
    None,
    /// It stays in the clamps.
    Clamps,
    /// The glue cures before it is worked; for so long of it in the clamps.
    Cure(Duration),
    /// The glue sets while screws hold it.
    Screws,
    /// The finish dries.
    Finish,
    /// What was ordered comes, and only what is done with that waits; so long it takes.
    Delivery(Days),
}

/// How a blank is made that no single board gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blank {
    /// Boards edge to edge, for the width.
    Edges,
    /// Layers face to face, for the thickness.
    Layers,
}

/// What a task is, for its caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// Bench work.
    Bench,
    /// Sawing and planing.
    Machine,
    /// The router.
    Router,
    /// Gluing.
    Glue,
    /// Sanding.
    Sand,
    /// Finishing.
    Finish,
    /// Lifting and fixing in the house.
    Fit,
}

/// A step of the assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// What is done.
    pub title: String,
    /// How, line by line.
    pub lines: Vec<String>,
    /// The lengths that its lines tell, as they are exactly; of those that are written to a
    /// task later, the next one has them.
    pub told: Vec<Length>,
    /// The parts it needs.
    pub parts: Vec<PartId>,
    /// What kind of work it is.
    pub work: Work,
    /// What its hands-on time is made of.
    pub efforts: Vec<Effort>,
    /// Then it waits.
    pub wait: Duration,
    /// For what.
    pub waits_for: Wait,
    /// Clamps in use while it waits.
    pub clamps: u32,
    /// From the first drop of glue until the last joint is closed and the last screw
    /// driven; nought where there is no haste.
    pub closing: Duration,
    /// The screws that are driven in that time.
    pub driven: u32,
    /// The parts of each go, where it may be closed in several because the glue does
    /// not stay open so long.
    pub goes: Vec<Vec<PartId>>,
    /// The parts whose rough pieces are taken from the stock here.
    pub breaks: Vec<PartId>,
    /// The parts whose blanks are glued up here.
    pub blanks: Vec<(PartId, Blank)>,
    /// The parts that are brought to their finished size here.
    pub mills: Vec<PartId>,
    /// Those of them that only come to their thickness here, since what they are sawn by is
    /// still in its stick.
    pub thicknessed: Vec<PartId>,
    /// What is crosscut from sticks here, when the channels are cut in them.
    pub crosscuts: Crosscuts,
    /// What is cut or bored into them here: a part and the number of its feature.
    pub cuts: Vec<(PartId, usize)>,
    /// The parts whose screw holes are bored here, on the lines of the layout sheet.
    pub bores: Vec<PartId>,
    /// The joints that are closed here for good, by their place among all.
    pub closes: Vec<usize>,
    /// What is done here besides: what is measured, tried, set, coated, or fixed.
    pub does: Vec<Doing>,
    /// What is done last in it, when its joints are closed.
    pub then: Vec<Doing>,
    /// Something is sanded in it.
    pub sands: bool,
    /// The rectangle whose diagonals are compared.
    pub square: Option<Square>,
    /// Tasks that come first, by index.
    pub after: Vec<usize>,
    /// Tasks whose glue must have cured, by index, and not only be out of the clamps.
    pub cured: Vec<usize>,
    /// Tasks whose finish must be hard, or whose order must have come, by index, and how long
    /// that takes at the least.
    pub hard: Vec<(usize, Duration)>,
    /// The parts of each round, where the shop has not clamps enough to glue up all at
    /// once.
    pub rounds: Vec<Vec<PartId>>,
}

/// Parts that come to their length only when their sticks have their channels.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Crosscuts {
    /// Which.
    pub parts: Vec<PartId>,
    /// What is measured on them then.
    pub measures: Vec<Doing>,
    /// What is ripped and crosscut by that.
    pub sawn: Vec<PartId>,
}

impl Task {
    /// A task that takes no time and asks for nothing yet.
    fn new(title: String, work: Work) -> Self {
        Self {
            title,
            lines: Vec::new(),
            told: Vec::new(),
            parts: Vec::new(),
            work,
            efforts: Vec::new(),
            wait: Duration::default(),
            waits_for: Wait::None,
            clamps: 0,
            closing: Duration::default(),
            driven: 0,
            goes: Vec::new(),
            breaks: Vec::new(),
            blanks: Vec::new(),
            mills: Vec::new(),
            thicknessed: Vec::new(),
            crosscuts: Crosscuts::default(),
            cuts: Vec::new(),
            bores: Vec::new(),
            closes: Vec::new(),
            does: Vec::new(),
            then: Vec::new(),
            sands: false,
            square: None,
            after: Vec::new(),
            cured: Vec::new(),
            hard: Vec::new(),
            rounds: Vec::new(),
        }
    }

    /// Hands-on, up to the next whole minute: what the papers print, and what the days
    /// are planned by.
    #[must_use]
    pub fn hands(&self) -> Duration {
        let whole = self.efforts.iter().fold(Exact::ZERO, |sum, own| sum + own.whole().0);
        Duration(whole).whole_minutes()
    }

    /// How long what it made stands, or what it ordered takes to come, whatever else goes on
    /// meanwhile.
    #[must_use]
    pub fn rests(&self) -> Duration {
        match self.waits_for {
            Wait::Delivery(days) => days.duration(),
            Wait::None | Wait::Clamps | Wait::Cure(_) | Wait::Screws | Wait::Finish => self.wait,
        }
    }

    /// How long it waits and for what, in words; `None` where it doesn't.
    #[must_use]
    pub fn waits(&self) -> Option<String> {
        let what = match self.waits_for {
            Wait::None => return None,
            Wait::Clamps => "in the clamps",
            Wait::Cure(clamped) => {
                return Some(format!("{} to cure, the first {clamped} in the clamps", self.wait));
            }
            Wait::Screws => "to set",
            Wait::Finish => "to dry",
            Wait::Delivery(days) => return Some(format!("{days} to come")),
        };
        Some(format!("{} {what}", self.wait))
    }
}

/// The whole order.
#[derive(Clone, Debug, PartialEq)]
pub struct Assembly {
    /// The tasks; each comes after those it depends on.
    pub tasks: Vec<Task>,
    /// When each is done.
    pub schedule: Schedule,
}

/// Plans the assembly of a piece.
pub(super) fn plan(work: &Workings<'_>) -> Assembly {
    let tasks = tasks::tasks(work);
    let schedule = schedule::schedule(&tasks, &work.piece.shop);
    Assembly { tasks, schedule }
}
