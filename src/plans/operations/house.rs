//! What is done in the house: carrying, scribing, fixing.

use crate::measure::Length;
use crate::model::{CaseId, Side, SpaceId};
use crate::parts::PartId;
use crate::plans::bases::{Apart, Leveled, StoodOn};
use crate::plans::countertops::Laid;
use crate::plans::stacked::Stacked;
use crate::trade::Carry;

/// What is done in the house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum House {
    /// A case is carried in.
    Carry(CaseId, Carry),
    /// A case that stands apart from the others is set and leveled by itself, with all of its
    /// parts.
    StandApart(CaseId, Vec<PartId>),
    /// A base that several cases stand on is set and leveled by itself.
    SetBase(Leveled),
    /// The separate base of one case is shimmed level by itself.
    LevelBase(Apart),
    /// A case is screwed down again on these boards of its base, in its old holes.
    ScrewDown(Vec<PartId>),
    /// Cases are stood on their base.
    StandOn(StoodOn),
    /// A strip is screwed to the wall for a case that hangs.
    WallStrip(WallStrip),
    /// A case that hangs is lifted onto its strip.
    Lift(CaseId, Carry),
    /// An outer stile is scribed to its wall; so much of it may come off.
    Scribe(CaseId, Side, Length),
    /// The gap beside toe kicks at the wall is closed by strips of their stock.
    Strip(Vec<PartId>),
    /// A case is screwed to the one on its right.
    Beside(Beside),
    /// A filler is fitted, and screwed on from inside its case.
    Fill(Filled),
    /// A toe kick is scribed to the floor at its spare edge, before it is screwed on.
    Kick(PartId),
    /// A cover is scribed at its spare edges, laid over a side of its case, and screwed on
    /// from inside.
    Cover(Covering),
    /// A case stands off the wall at its side, so far at the least and at the most, for
    /// the filler between.
    StandOff(CaseId, Side, [Length; 2]),
    /// A place keeps its width while the cases beside it are set.
    Keep(SpaceId),
    /// An appliance comes into its place.
    PushIn(SpaceId),
    /// Cases are screwed to the wall.
    Wall(Wall),
    /// A countertop is laid on its case.
    Lay(Laid),
    /// A case is set on those that it stands on.
    Stack(Stacked),
}

/// Two cases that stand side by side are screwed to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Beside {
    /// The left and the right one.
    pub cases: [CaseId; 2],
    /// How many screws, half of them near the front and half near the back.
    pub screws: u32,
    /// Their greatest length: through both ends, and short of the far face.
    pub most: Length,
    /// A length that is sold and holds; `None` where none is.
    pub sold: Option<Length>,
}

/// A filler, and what it is screwed on by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Filled {
    /// The strip.
    pub strip: PartId,
    /// What it is glued to.
    pub batten: PartId,
    /// The end that the screws go through.
    pub end: PartId,
    /// So much of it may come off at a wall; `None` where nothing does.
    pub most: Option<Length>,
}

/// A cover, and what it is screwed on by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Covering {
    /// The panel.
    pub part: PartId,
    /// The boards that the screws go through: an end, the back of each case that it lies on,
    /// or the bottom.
    pub through: Vec<PartId>,
    /// How far its front edge stands before that of the end that it lies on.
    pub ahead: Option<Length>,
    /// How many screws.
    pub screws: u32,
    /// A length that is sold and holds; `None` where none is.
    pub long: Option<Length>,
}

/// Cases are screwed to the wall behind them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wall {
    /// The boards on edge that the screws go through.
    pub nailers: Vec<PartId>,
    /// The backs that they go through, of cases without nailers.
    pub backs: Vec<PartId>,
    /// How thick the nailer of the thickest case is; zero without.
    pub thick: Length,
    /// How thick its back is; zero without.
    pub back: Length,
    /// How many screws at each stud.
    pub screws: u32,
    /// How far they go into the stud.
    pub into: Length,
    /// How thick the usual lining of a wall is.
    pub lining: Length,
    /// Its cases that may have no stud behind them.
    pub narrow: Vec<Narrow>,
}

/// A case that may have no stud behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Narrow {
    /// Which.
    pub case: CaseId,
    /// How wide it is, with what it is screwed to beside it.
    pub wide: Length,
    /// From one stud to the next, at the least.
    pub apart: Length,
}

/// A strip on the wall.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WallStrip {
    /// The case that rests on it.
    pub case: CaseId,
    /// From the floor to its upper edge.
    pub up: Length,
    /// Where it hangs over a case: that, and from the left side of it to the left side of the
    /// one that hangs.
    pub over: Option<(CaseId, Length)>,
}
