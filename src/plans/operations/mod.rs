//! What a hand does, as data: every operation that makes the piece out of its
//! stock, in the order of the work.

mod apart;
mod bench;
mod cutting;
mod fasten;
mod feed;
mod house;
mod linked;
mod milled;
mod motion;
mod solid;
mod together;
mod verify;
mod ways;

use std::ops::Range;

use crate::measure::{Length, Span};
use crate::model::{FrontId, KeepOutId};
use crate::parts::{Bore, Face, Part, PartId};
use crate::plans::on_legs::LegsOn;
use crate::trade;

use super::Workings;
use super::assembly::{Blank, Task, Wait, gluing};
use super::bare_ends::BareEnds;
use together::Together;

pub use bench::{Coating, DryFit, FrameOn, Measure, Measured, Rest, Sand, Why};
pub use cutting::{hook_holes, sides};
pub use feed::{Feed, feed};
pub use house::{Beside, Covering, Filled, House, Narrow, Wall, WallStrip};
pub(super) use motion::steps;
pub use motion::{Leg, Move, Side, Step};
pub use verify::{Moisture, Remedy, Verify};

/// An operation.
#[derive(Clone, Debug, PartialEq)]
pub struct Operation {
    /// The task of the assembly order that it is done in, by its index.
    pub task: usize,
    /// What is done.
    pub doing: Doing,
}

/// An axis of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Along {
    /// Its length.
    Length,
    /// Its width.
    Width,
    /// Its thickness.
    Thickness,
}

impl Along {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Length, Self::Width, Self::Thickness];

    /// Its name.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Width => "width",
            Self::Thickness => "thickness",
        }
    }

    /// The two faces that it runs between.
    #[must_use]
    pub fn faces(self) -> [Face; 2] {
        match self {
            Self::Length => [Face::LengthStart, Face::LengthEnd],
            Self::Width => [Face::WidthStart, Face::WidthEnd],
            Self::Thickness => [Face::ThickStart, Face::ThickEnd],
        }
    }

    fn of(self, part: &Part) -> Length {
        match self {
            Self::Length => part.length.length + part.spare_between(self.faces()).length,
            Self::Width => part.width.length + part.spare_between(self.faces()).length,
            Self::Thickness => part.thickness.length,
        }
    }
}

/// What is done in an operation.
#[derive(Clone, Debug, PartialEq)]
pub enum Doing {
    /// Rough pieces are taken from the stock.
    BreakDown {
        /// For this part.
        part: PartId,
        /// How many of the size.
        pieces: i64,
        /// Length, width, thickness.
        size: [Length; 3],
    },
    /// They are glued up into a blank.
    GlueUp {
        /// Of this part.
        part: PartId,
        /// Edge to edge or face to face.
        way: Blank,
        /// The blank is at least so long, wide and thick.
        size: [Length; 3],
        /// How many boards or layers.
        pieces: i64,
        /// How wide a board is before it is jointed.
        wide: Length,
        /// It is wider than the planer, and glued up in halves or thirds first.
        in_parts: bool,
    },
    /// A pane comes from the glazier, cut to its size.
    Pane(PartId),
    /// Glass goes into its frame and is held by beads, by its place among the lights.
    Glaze(usize),
    /// A rough stick is taken from the stock, planed and ripped as one, and its parts are
    /// crosscut from it last.
    Stick {
        /// Parts shorter than this are not milled by themselves.
        shorter: Length,
        /// What comes of it, the longest first.
        parts: Vec<PartId>,
        /// How many of the size: one for each layer or board of what it is glued up from.
        pieces: i64,
        /// Length, width, thickness.
        size: [Length; 3],
    },
    /// A pair of blocks that keeps equal openings equal, by its place among those
    /// of the fitting.
    Spacer(usize),
    /// Parts are brought to one size at one setting.
    Mill {
        /// Along which of their axes.
        along: Along,
        /// Finished.
        to: Length,
        /// Which parts.
        parts: Vec<PartId>,
    },
    /// A strip goes on an edge of a part, by its place among its strips.
    Edge(PartId, usize),
    /// Sheets are measured before they are sawn, and boards before the cuts that
    /// must fit them.
    Verify(Verify),
    /// The moisture of solid wood is read before it is milled.
    Moisture(Moisture),
    /// A set-up of the router, by its index.
    Setting(usize),
    /// Holes of one kind in one face.
    Bore(Holes),
    /// A joint that is sawn, pared or chopped, by the number of its feature.
    Shape(PartId, usize),
    /// Joints, by their place among all, are closed in one go.
    Join {
        /// Which.
        joints: Vec<usize>,
        /// How the parts come together.
        moves: Vec<Move>,
    },
    /// Screws, pins or clips of one kind, by their places among the fastenings.
    Fasten(Vec<usize>),
    /// The line of some of them: by its fastening, and by its place among the lines of
    /// that.
    ScrewLine(usize, usize),
    /// Rows of holes for shelf pins: of an opening, by its place among those of the
    /// fitting, in one of its boards.
    Rows(usize, usize),
    /// The slides of a drawer are set, by its place among those of the fitting.
    Slide(usize),
    /// A drawer is fitted to run on wood, by its place among those of the fitting.
    OnWood(usize),
    /// A front is fixed to its box, by its place among those of the fitting.
    FrontOn(usize),
    /// A hinge is set, by its place among those of the fitting.
    Hinge(usize),
    /// The strip that a door closes against is fixed, by its place among those of the
    /// fitting.
    Stop(usize),
    /// A catch is fixed, by its place among those of the fitting.
    Catch(usize),
    /// A hanging rail is put up, by its place among those of the fitting.
    Rail(usize),
    /// Something made is measured, and parts are cut to it.
    Measure(Measure),
    /// What stands at the wall is measured in the house before anything is sawn.
    Find(KeepOutId),
    /// The baseboard behind the piece is measured in the house before anything is sawn.
    FindBaseboard,
    /// A back is cut out round what stands at the wall behind it.
    CutOut {
        /// Which.
        part: PartId,
        /// Round what.
        keep_out: KeepOutId,
        /// How much larger the cut-out is on every side.
        spare: Length,
    },
    /// Parts are tried without glue.
    DryFit(DryFit),
    /// The back is screwed on without glue, to square the case: so many screws.
    Tack(Vec<PartId>, u32),
    /// The shoulders of runners stay open at the back rail of their web frame, whose
    /// tenons are dry there.
    OpenShoulders {
        /// The runners.
        parts: Vec<PartId>,
        /// The back rail.
        from: PartId,
        /// By so much.
        by: Length,
    },
    /// The plies of the ends of a board are hidden where they are seen.
    CoverEnds(BareEnds),
    /// Locating blocks are fixed inside the corners of a base, or its case is screwed
    /// down on it, with screws no longer than this.
    OnBase {
        /// What the screws hold in.
        parts: Vec<PartId>,
        /// How wide and thick the locating blocks are; `None` where there are none.
        block: Option<Length>,
        /// A longer screw comes out of a face that is seen.
        most: Length,
    },
    /// A block is glued and screwed below a bottom beside the leg that a joint, by its place
    /// among all, plants there.
    LegBlock(usize),
    /// A case is turned over, and its bought legs are fixed under it.
    Legs(LegsOn),
    /// Clamping blocks are glued along mitered seams, for the clamps to bear on.
    Blocks {
        /// The boards of the seams.
        parts: Vec<PartId>,
        /// How many pairs.
        pairs: u32,
        /// How long either leg of their section is, which is a right angle, and how long they
        /// stand along the seam.
        block: Length,
    },
    /// A face frame is laid on its case.
    FrameOn(FrameOn),
    /// The pocket holes of boards are plugged.
    Plug(Vec<PartId>),
    /// Parts come off again.
    TakeOff(Vec<PartId>),
    /// A front is planed and shimmed to its opening.
    Fit(FrontId),
    /// All is sanded.
    Sand(Sand),
    /// A coat of finish.
    Coat(Coating),
    /// It stands before the next work.
    Rest(Rest),
    /// Done in the house.
    House(House),
}

/// Holes of one kind in one face of a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holes {
    /// The part.
    pub part: PartId,
    /// The face they are bored into.
    pub face: Face,
    /// The blocks on that face that they are bored on through, when those are on.
    pub behind: Vec<PartId>,
    /// What they are for.
    pub bore: BoredFor,
    /// The two faces that their centers count from.
    pub from: [Face; 2],
    /// Their centers.
    pub centers: Vec<[Length; 2]>,
    /// Across.
    pub diameter: Length,
    /// How deep.
    pub deep: Length,
    /// The statements that ask for them.
    pub spans: Vec<Span>,
}

/// What a hole is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoredFor {
    /// Hardware that the part is drawn with.
    Drawn(Bore),
    /// The hook of a runner in the back of a box; the drawings leave it out.
    Hook,
}

impl BoredFor {
    /// Its name.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Drawn(bore) => bore.word(),
            Self::Hook => "hook hole",
        }
    }
}

/// Every operation, in the order of the work.
#[derive(Clone, Debug, PartialEq)]
pub struct Operations {
    /// All of them; those of one task stand together.
    pub all: Vec<Operation>,
    /// Where those of each task stand.
    of_task: Vec<Range<usize>>,
}

impl Operations {
    /// Those of one task, by its index.
    #[must_use]
    pub fn of(&self, task: usize) -> &[Operation] {
        let own = self.of_task.get(task).cloned();
        own.and_then(|own| self.all.get(own)).unwrap_or(&[])
    }
}

/// Plans every operation of a piece.
pub(super) fn plan(work: &Workings<'_>) -> Operations {
    let assembly = work.assembly();
    let mut order: Vec<usize> = (0..assembly.tasks.len()).collect();
    order.sort_by_key(|index| assembly.schedule.slots.get(*index).map_or(0, |slot| slot.order));
    let mut together = Together::new(work.parts.all.len());
    let fastened = fasten::by_joint(work.fastened());
    let settings = cutting::settings(work);
    let mut all = Vec::new();
    let mut of_task = vec![0..0; assembly.tasks.len()];
    // Sheets are measured before anything is sawn: their thickness moves the sizes
    // of parts from other stock too.
    let mut stock: Vec<Doing> = verify::sheets(work);
    stock.extend(verify::moisture(work));
    for task in order {
        let from = all.len();
        let Some(own) = assembly.tasks.get(task) else { continue };
        let mut doings = match own.breaks.is_empty() {
            true => Vec::new(),
            false => std::mem::take(&mut stock),
        };
        doings.extend(own.does.iter().cloned());
        doings.extend(milled::taken(work, own));
        doings.extend(verify::gates(work, own));
        doings.extend(cutting::in_sticks(work, &settings, own));
        doings.extend(milled::crosscut(work, own));
        doings.extend(cutting::cuts(work, &settings, own));
        doings.extend(together.close(work, own));
        doings.extend(fasten::fastened(work.fastened(), &fastened, own));
        doings.extend(cutting::bored_through(work, own));
        doings.extend(own.then.iter().cloned());
        doings.extend(stands(own).map(Doing::Rest));
        all.extend(doings.into_iter().map(|doing| Operation { task, doing }));
        if let Some(range) = of_task.get_mut(task) {
            *range = from..all.len();
        }
    }
    Operations { all, of_task }
}

/// How long a task has what it made stand.
fn stands(task: &Task) -> Option<Rest> {
    let why = match task.waits_for {
        Wait::None => return None,
        Wait::Clamps => Why::Clamps,
        Wait::Cure(clamped) => Why::Cure(clamped),
        Wait::Screws => Why::Set,
        Wait::Finish => Why::Dry,
        Wait::Delivery(days) => Why::Come(days),
    };
    Some(Rest { why, long: Some(task.rests()) })
}

/// What is taken from the stock for a part; a stick is taken for all of its parts with the
/// first of them.
fn broken_down(work: &Workings<'_>, id: PartId, part: &Part) -> Option<Doing> {
    let rough = rough_pieces(work, part);
    let Some(stick) = work.sticks().of(id) else {
        return Some(Doing::BreakDown { part: id, pieces: rough.pieces, size: rough.size });
    };
    let [_, wide, thick] = rough.size;
    stick.is_under(id).then(|| Doing::Stick {
        shorter: trade::shortest_planed(work.piece.tape().unit),
        parts: stick.parts.clone(),
        pieces: rough.pieces,
        size: [stick.long, wide, thick],
    })
}

/// Rough pieces of one size.
pub(crate) struct RoughPieces {
    /// How many.
    pub(crate) pieces: i64,
    /// Length, width, thickness.
    pub(crate) size: [Length; 3],
}

/// The rough pieces that a part is sawn or glued up from, where it is not crosscut from a
/// stick.
pub(crate) fn rough_pieces(work: &Workings<'_>, part: &Part) -> RoughPieces {
    let rough = part.rough;
    let (mut wide, mut thick) = (rough.width, rough.thickness);
    let mut pieces = 1;
    if gluing::is_glued_up(work.piece, part) {
        let boards = gluing::boards(work.piece, part);
        (pieces, wide) = (boards.count, boards.wide);
    }
    let layers = gluing::layers(work.piece, part);
    if layers > 1 {
        pieces *= layers;
        // Boards are rough until they are planed; a sheet is as thick as it was bought.
        thick = work.piece.stock(part.stock).map_or(thick, |stock| match stock.is_solid() {
            true => stock.nominal,
            false => stock.thickness.length,
        });
    }
    RoughPieces { pieces, size: [rough.length, wide, thick] }
}
