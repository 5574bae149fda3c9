//! Drawer fronts on their boxes: which screws, and how long.

use crate::measure::{Length, Unit};
use crate::model::{Leaf, Opening, OpeningKind};
use crate::parts::{Cuboid, Direction, FeatureKind, Front, Part, Role};
use crate::plans::Workings;
use crate::plans::hardware::{goes_through, pull_holes};
use crate::trade;

use super::screw_lines::ScrewLine;
use super::{Index, front_screws};

/// A drawer front that is screwed to its box.
#[derive(Clone, Debug)]
pub struct OntoBox<'a> {
    /// The opening.
    pub opening: &'a Opening,
    /// The first board of the front.
    pub front: &'a Part,
    /// The thickness of the front where the screws go in.
    pub thick: Length,
    /// How deep its flutes are; zero without.
    pub fluted: Length,
    /// The thickness of the box front.
    pub box_front: Length,
    /// How many pull holes the front has.
    pub pull_holes: usize,
    /// How many of them go on through the box: a tall front may have its pull above a low
    /// box.
    pub into_box: usize,
    /// How wide those are; `None` where none goes through the box, or where they are too
    /// narrow for any screw.
    pub passes: Option<Length>,
    /// From the face of the front at the pull holes to the box front.
    pub to_box: Length,
    /// The screws that stay.
    pub stay: ScrewLength,
    /// The screws through the pull holes that hold it while it is set.
    pub hold: ScrewLength,
    /// The lines of those that stay, on the box front; none where no place is free.
    pub lines: Vec<ScrewLine<'a>>,
}

impl OntoBox<'_> {
    /// How many screws stay.
    #[must_use]
    pub fn staying(&self) -> u32 {
        self.lines.iter().map(|line| line.count).sum()
    }

    /// How many screws hold it through its pull holes while it is set.
    #[must_use]
    pub fn held_by(&self) -> usize {
        self.passes.map_or(0, |_| self.into_box)
    }

    /// How deep the screws that stay are bored for in the front.
    #[must_use]
    pub fn pilot(&self) -> Length {
        self.stay.most - self.box_front
    }

    /// What is left of the front before them.
    #[must_use]
    pub fn wood_left(&self) -> Length {
        self.thick - self.fluted - self.pilot()
    }
}

/// How long a screw may be, and the longest that is sold between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScrewLength {
    /// At least.
    pub least: Length,
    /// At most.
    pub most: Length,
    /// The one to buy; `None` where none is sold between.
    pub sold: Option<Length>,
}

impl ScrewLength {
    fn of(least: Length, most: Length, unit: Unit) -> Self {
        Self { least, most, sold: trade::screw_sold(least, most, unit) }
    }
}

pub(super) fn plan<'a>(work: &Workings<'a>, index: &Index<'a>) -> Vec<OntoBox<'a>> {
    work.fronts().iter().filter_map(|front| onto_box(work, front, index)).collect()
}

fn onto_box<'a>(work: &Workings<'a>, front: &Front<'a>, index: &Index<'a>) -> Option<OntoBox<'a>> {
    let OpeningKind::Drawer { slide: Some(_), .. } = front.opening.kind else { return None };
    if front.id.leaf != Leaf::Front {
        return None;
    }
    let own = index.of_opening(front.opening.id).iter();
    let of_box: Vec<&'a Part> = own.map(|(_, part)| *part).collect();
    let box_front = of_box.iter().copied().find(|part| part.role == Role::DrawerFront)?;
    let board = *front.parts.first()?;
    let unit = work.piece.tape().unit;
    let pulled = front.parts.iter().copied().find(|part| pull_holes(part).count() > 0);
    let holes: Vec<Cuboid> = pulled.into_iter().flat_map(pull_holes).collect();
    let into_box: Vec<&Cuboid> =
        holes.iter().filter(|hole| goes_through(hole, box_front)).collect();
    let wide = into_box.iter().map(|hole| hole.size(Direction::X)).min();
    let passes = wide.filter(|wide| trade::Gauge::through(*wide, unit).is_some());
    let is_fluted = front
        .parts
        .iter()
        .any(|part| part.features.iter().any(|f| matches!(f.kind, FeatureKind::Flute(_))));
    let flutes = front.fronts.flutes.as_ref().filter(|_| is_fluted);
    let fluted = flutes.map_or(Length::ZERO, |flutes| flutes.deep);
    let (thick, own) = (board.thickness.length, box_front.thickness.length);
    let face = pulled.unwrap_or(board).extent(Direction::Z).0;
    let to_box = box_front.extent(Direction::Z).0 - face;
    let (least, most) = trade::front_bite(thick, fluted, unit);
    // The tip must not come through into the drawer.
    let through = to_box + own - trade::short_of_face(unit);
    Some(OntoBox {
        opening: front.opening,
        front: board,
        thick,
        fluted,
        box_front: own,
        pull_holes: holes.len(),
        into_box: into_box.len(),
        passes,
        to_box,
        stay: ScrewLength::of(own + trade::thin_bite(least, most, unit), own + most, unit),
        hold: ScrewLength::of(to_box + least.min(own.half()), through, unit),
        lines: front_screws::lines(front, box_front, &of_box, work.piece.tape()),
    })
}
