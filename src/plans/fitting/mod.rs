//! What is set by the piece that stands: slides, hinges, hanging rails, spacers for even openings,
//! fronts on their boxes, and the screws for all of it; and the rows of shelf pins.

mod at_wall;
pub(crate) mod backs;
mod driver_room;
mod false_fronts;
mod front_screws;
mod gauges;
pub mod fronts;
pub mod hinges;
pub mod on_wood;
pub mod pin_holes;
pub mod pins;
pub mod post_pins;
mod leg_blocks;
mod pockets;
pub mod rods;
pub mod screw_lines;
mod purpose;
mod screw_lengths;
mod screw_row;
pub mod screws;
mod screws_apart;
mod sold_as;
pub mod slides;
pub mod spacers;
mod stacked;
pub mod stops;
mod struck;
pub mod ties;
mod wide_holes;

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::OpeningId;
use crate::parts::{Direction, FeatureKind, Joint, JointSort, Part, PartId, Parts};

use super::Workings;

pub use at_wall::{AtWall, Obstacle, at_wall, patch};
pub use fronts::OntoBox;
pub use hinges::HungAt;
pub use leg_blocks::{LegBlock, of as leg_block};
pub use on_wood::{OnWood, Unstopped, is_behind_stile, is_between_posts};
pub use pins::PinRows;

pub(crate) use driver_room::{block, blocks, places};
pub(crate) use pockets::pockets_meet;
pub use rods::{Rail, RailEnd};
pub use screw_lines::ScrewLine;
pub use screw_row::from_end;
pub use screws::{Fastening, Long, Purpose, Screws};
pub use screws_apart::{Meeting, screw_room};
pub use slides::{Drawer, Line};
pub use spacers::Spacer;
pub use stops::{Catch, Stop};
pub use struck::{Blocked, Struck};

/// What is worked out for fitting.
#[derive(Clone, Debug, Default)]
pub struct Fitting<'a> {
    /// The slides of every drawer.
    pub drawers: Vec<Drawer<'a>>,
    /// Every drawer that runs on the boards of its case.
    pub on_wood: Vec<OnWood<'a>>,
    /// Every hinge.
    pub hinges: Vec<HungAt<'a>>,
    /// Every hanging rail.
    pub rails: Vec<Rail<'a>>,
    /// Every strip that a door closes against.
    pub stops: Vec<Stop<'a>>,
    /// Every catch.
    pub catches: Vec<Catch<'a>>,
    /// Blocks that keep equal openings equal.
    pub spacers: Vec<Spacer<'a>>,
    /// Every drawer front on its box.
    pub fronts: Vec<OntoBox<'a>>,
}

/// What is screwed, pinned, and clipped: more than most checks ask for.
#[derive(Clone, Debug, Default)]
pub struct Fastened<'a> {
    /// Screws, pins and clips, place by place.
    pub fastenings: Vec<Fastening<'a>>,
    /// The same to buy: how many of each kind.
    pub screws: Vec<Screws<'a>>,
    /// Lines whose screws find no place clear of others.
    pub meetings: Vec<Meeting<'a>>,
}

impl Fastened<'_> {
    /// How wide the holes are under the heads of the screws of a purpose, where what they
    /// hold moves.
    #[must_use]
    pub fn hole(&self, of: Purpose) -> Option<Length> {
        self.screws.iter().filter(|own| own.purpose == of).find_map(|own| own.hole)
    }
}

/// Works out what is fastened.
#[must_use]
pub(super) fn fastened<'a>(work: &Workings<'a>) -> Fastened<'a> {
    let Fitting { drawers, hinges, fronts, stops, .. } = work.fitting();
    let (fastenings, meetings) = screws::plan(work, drawers, hinges, fronts, stops);
    let screws = screws::count(&fastenings);
    Fastened { fastenings, screws, meetings }
}

/// Works it all out.
#[must_use]
pub(super) fn plan<'a>(work: &Workings<'a>) -> Fitting<'a> {
    let index = Index::of(work.parts);
    let drawers = slides::plan(work.piece, &index);
    let on_wood = on_wood::plan(work.piece, &index);
    let hinges = hinges::plan(work, &index);
    let fronts = fronts::plan(work, &index);
    let spacers = spacers::plan(work.piece);
    let rails = rods::plan(work.piece, work.parts);
    let stops = stops::stops(work.piece, work.parts);
    let catches = stops::catches(work.piece, work.fronts());
    Fitting { drawers, on_wood, hinges, rails, stops, catches, spacers, fronts }
}

/// The parts of each opening, and what each part is joined to.
struct Index<'a> {
    parts: &'a Parts,
    of_opening: BTreeMap<OpeningId, Vec<(PartId, &'a Part)>>,
    /// By the part.
    joined: Vec<&'a Joint>,
}

impl<'a> Index<'a> {
    fn of(parts: &'a Parts) -> Self {
        let mut of_opening: BTreeMap<OpeningId, Vec<(PartId, &'a Part)>> = BTreeMap::new();
        for (id, part) in parts.iter() {
            if let Some(opening) = part.opening() {
                of_opening.entry(opening).or_default().push((id, part));
            }
        }
        let mut joined: Vec<&Joint> = parts.joints.iter().collect();
        joined.sort_by_key(|joint| joint.part);
        Self { parts, of_opening, joined }
    }

    /// The parts of an opening.
    fn of_opening(&self, opening: OpeningId) -> &[(PartId, &'a Part)] {
        self.of_opening.get(&opening).map_or(&[], Vec::as_slice)
    }

    /// The parts that hold a part by joints of this sort, in their order.
    fn holding(&self, id: PartId, sort: JointSort) -> impl Iterator<Item = &'a Part> {
        let from = self.joined.partition_point(|joint| joint.part < id);
        let joints = self.joined.iter().skip(from).take_while(move |joint| joint.part == id);
        joints
            .filter(move |joint| joint.sort == sort)
            .filter_map(|joint| self.parts.get(joint.into))
    }
}

/// How high a place of the piece lies above the bottom end of an upright part.
fn above_end(part: &Part, y: Length) -> Length {
    y - part.extent(Direction::Y).0
}

/// True where the front edge of a part is mitered, so that what counts from it
/// counts to the long point.
#[must_use]
pub fn to_long_point(part: &Part) -> bool {
    let front = part.placement.face(Direction::Z, true);
    part.features.iter().any(|f| f.kind == FeatureKind::Miter && f.face == front)
}

/// How far a place of the piece lies behind the front edge of a part.
fn from_edge(part: &Part, z: Length) -> Length {
    z - part.extent(Direction::Z).0
}
