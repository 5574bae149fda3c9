//! What the hands-on time of a step is made of.

use crate::measure::{Duration, Exact};
use crate::model::Times;
use crate::parts::{Joint, Parts};
use crate::plans::setups::Setup;
use crate::trade;
use crate::vocabulary::{Word, takes, words};

use super::gluing;

/// So many of one thing in a step, and how long each of them takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// What takes the time.
    pub what: Taking,
    /// How often it is done.
    pub count: i64,
    /// How long it takes once.
    pub each: Duration,
}

impl Effort {
    /// All of them together.
    #[must_use]
    pub fn whole(&self) -> Duration {
        Duration(self.each.0 * Exact::int(self.count))
    }
}

/// What takes the hands a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Taking {
    /// A usual time.
    Usual(Usual),
    /// A time that the shop may give itself.
    Shop(ShopTime),
    /// A set-up of the router-jig sheet by its number there, in the whole minutes that
    /// the sheet gives for it.
    SetUp(usize),
    /// Putting a coat on so many square meters.
    Coat(f64),
}

/// What no statement gives a time for. The minutes are common practice, no source; a
/// maker's own will differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Usual {
    /// One part is sawn to its size.
    Sawing,
    /// What one part goes into is measured.
    Measuring,
    /// One blank is glued up from boards.
    Blank,
    /// One part is glued up from layers.
    Layers,
    /// One lip is glued to an edge.
    Lip,
    /// One edge is banded and trimmed.
    Banding,
    /// One row of holes is bored.
    Row,
    /// An assembly is put together dry and taken apart again.
    DryFit,
    /// One joint is glued and closed.
    Joint,
    /// One joint that takes no glue goes in with the others.
    DryJoint,
    /// One part is screwed to what stands: a back, a leg.
    Planting,
    /// One block for a hinge is fixed.
    HingeBlock,
    /// One pair of blocks for the clamps of a mitered seam is glued on.
    ClampingBlocks,
    /// A face frame is glued to its case.
    FrameOn,
    /// One framed front is glued up.
    Front,
    /// The rabbet of one light is cut, and its corners are squared.
    Rabbet,
    /// One pane is put in and held by its beads.
    Glazing,
    /// One drawer box is glued up.
    DrawerBox,
    /// One front is set out and bored.
    Boring,
    /// One round hole is marked and bored.
    Hole,
    /// One door is hung.
    Door,
    /// One stop or catch of a door is fixed.
    Stop,
    /// One drawer is fitted, with its slides and its front.
    Drawer,
    /// The pocket holes of one board are plugged.
    Plugs,
    /// One front is fixed that nothing moves behind.
    FalseFront,
    /// All is taken apart to be sanded.
    TakingApart,
    /// Brushes, rags, and the parts are laid out for a coat, and cleaned up after it.
    CoatReady,
    /// One shelf is laid in that no longer comes in later.
    LayingIn,
    /// One case is carried in and leveled.
    Leveling,
    /// One strip is put up on the wall, or a case lifted onto it.
    Strip,
    /// It is scribed to the walls.
    Scribing,
    /// Cases are fixed to each other.
    Beside,
    /// One filler is scribed and screwed on.
    Filler,
    /// One toe kick is scribed to the floor and screwed on.
    Kick,
    /// One appliance is pushed into its place.
    Appliance,
    /// It is fixed to the wall.
    Wall,
    /// A countertop is laid on and screwed down.
    Countertop,
    /// Doors, drawers, and shelves are put in again.
    PuttingBack,
}

impl Usual {
    /// In minutes.
    const fn minutes(self) -> i64 {
        match self {
            Self::DryJoint => 1,
            Self::Measuring | Self::LayingIn => 3,
            Self::Sawing
            | Self::Joint
            | Self::HingeBlock
            | Self::ClampingBlocks
            | Self::Hole
            | Self::Stop => 6,
            Self::Row | Self::Banding => 8,
            Self::Layers | Self::Boring | Self::Lip | Self::Plugs => 10,
            Self::Door | Self::FalseFront | Self::Beside => 15,
            Self::CoatReady => trade::COAT_READY,
            Self::Planting => 18,
            Self::Rabbet | Self::Glazing => 20,
            Self::Appliance | Self::Blank | Self::Strip => 20,
            Self::Front | Self::DrawerBox => 25,
            Self::DryFit | Self::Drawer | Self::TakingApart => 30,
            Self::FrameOn | Self::Filler | Self::Kick => 40,
            Self::Scribing | Self::Wall | Self::Countertop | Self::Leveling => 45,
            Self::PuttingBack => 90,
        }
    }

    /// What is done, as a maker says it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sawing => "sawing a part to size",
            Self::Measuring => "measuring for a part",
            Self::Blank => "gluing up a blank",
            Self::Layers => "gluing up layers",
            Self::Lip => "gluing on a lip",
            Self::Banding => "banding an edge",
            Self::Row => "boring a row of holes",
            Self::DryFit => "fitting it dry",
            Self::Joint => "gluing a joint",
            Self::DryJoint => "putting in a joint dry",
            Self::Planting => "screwing on a part",
            Self::HingeBlock => "fixing a hinge block",
            Self::ClampingBlocks => "gluing on a pair of clamping blocks",
            Self::FrameOn => "gluing on the frame",
            Self::Front => "gluing up a front",
            Self::Rabbet => "cutting a rabbet for glass",
            Self::Glazing => "putting in a pane",
            Self::DrawerBox => "gluing up a drawer box",
            Self::Boring => "boring a front",
            Self::Hole => "boring a round hole",
            Self::Door => "hanging a door",
            Self::Stop => "fixing a stop or catch",
            Self::Drawer => "fitting a drawer",
            Self::Plugs => "plugging the pocket holes of a board",
            Self::FalseFront => "fixing a false front",
            Self::TakingApart => "taking apart",
            Self::CoatReady => "laying out, cleaning up",
            Self::LayingIn => "laying in a shelf",
            Self::Leveling => "carrying and leveling",
            Self::Strip => "strips on the wall",
            Self::Scribing => "scribing",
            Self::Beside => "joining the cases",
            Self::Filler => "fitting a filler",
            Self::Kick => "fitting a toe kick",
            Self::Appliance => "pushing in an appliance",
            Self::Wall => "fixing it to the wall",
            Self::Countertop => "laying on a countertop",
            Self::PuttingBack => "putting all back in",
        }
    }

    /// So many of them.
    pub(super) fn times(self, count: usize) -> Effort {
        let each = Duration(Exact::int(self.minutes()));
        Effort { what: Taking::Usual(self), count: count as i64, each }
    }
}

/// What the joints of a glue-up take: those that are glued or drawn together by screws, and
/// those that only go in with them.
pub(super) fn joints(parts: &Parts, joints: &[&Joint]) -> Vec<Effort> {
    let is_dry = |joint: &&&Joint| !joint.glued && gluing::screws(parts, joint) == 0;
    let dry = joints.iter().filter(is_dry).count();
    let all = [Usual::Joint.times(joints.len() - dry), Usual::DryJoint.times(dry)];
    all.into_iter().filter(|own| own.count > 0).collect()
}

/// A set-up of the router by its number on the sheet.
pub(super) fn set_up(number: usize, setup: &Setup) -> Effort {
    Effort { what: Taking::SetUp(number), count: 1, each: setup.time.whole_minutes() }
}

/// A coat on so many square meters.
pub(super) fn coat(square_meters: f64) -> Vec<Effort> {
    let brushing = trade::brushing_time(square_meters);
    let brushing = Effort { what: Taking::Coat(square_meters), count: 1, each: brushing };
    vec![Usual::CoatReady.times(1), brushing]
}

/// What the shop may give its own time for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShopTime {
    /// The pocket holes of a joint.
    Pockets,
    /// Both halves of a dowel joint.
    Dowels,
    /// A mortise.
    Mortise,
    /// A tenon.
    Tenon,
    /// A dovetailed corner.
    Dovetails,
    /// A mitered end or edge.
    Miter,
    /// A notch.
    Notch,
    /// An inset front planed to its opening.
    FitFront,
    /// A square meter sanded with one grit.
    Sanding,
}

impl ShopTime {
    /// How long one takes in this shop.
    pub(super) fn each(self, times: &Times) -> Duration {
        match self {
            Self::Pockets => times.pockets,
            Self::Dowels => times.dowels,
            Self::Mortise => times.mortise,
            Self::Tenon => times.tenon,
            Self::Dovetails => times.dovetails,
            Self::Miter => times.miter,
            Self::Notch => times.notch,
            Self::FitFront => times.fit_front,
            Self::Sanding => times.sanding,
        }
    }

    /// The word of `times` that gives it.
    #[must_use]
    pub const fn word(self) -> Word<takes::Duration> {
        use words::times;
        match self {
            Self::Pockets => times::POCKETS,
            Self::Dowels => times::DOWELS,
            Self::Mortise => times::MORTISE,
            Self::Tenon => times::TENON,
            Self::Dovetails => times::DOVETAILS,
            Self::Miter => times::MITER,
            Self::Notch => times::NOTCH,
            Self::FitFront => times::FIT_FRONT,
            Self::Sanding => times::SANDING,
        }
    }

    /// What is done, as a maker says it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pockets => "pocket holes of a joint",
            Self::Dowels => "boring a dowel joint",
            Self::Mortise => "cutting a mortise",
            Self::Tenon => "cutting a tenon",
            Self::Dovetails => "cutting a corner",
            Self::Miter => "cutting a miter",
            Self::Notch => "cutting a notch",
            Self::FitFront => "fitting a front",
            Self::Sanding => "sanding a square meter with one grit",
        }
    }

    /// So many of them in this shop.
    pub(super) fn times(self, times: &Times, count: usize) -> Effort {
        Effort { what: Taking::Shop(self), count: count as i64, each: self.each(times) }
    }
}
