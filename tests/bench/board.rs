//! A part on the bench: how large it is by now, what was cut into it, and which
//! way it looks.

use super::packet::{Along, DrawnPart, Face, Part};
use super::wood::{Space, common, without};

/// A board as it lies there.
#[derive(Clone, Debug)]
pub(super) struct Board<'a> {
    pub(super) part: &'a Part,
    pub(super) drawn: &'a DrawnPart,
    /// How many pieces it still has to be glued up from; `None` before it is
    /// taken from its stock.
    pub(super) pieces: Option<u32>,
    /// The stick that it is crosscut from, by its place among them.
    pub(super) stick: Option<usize>,
    /// It is glued up from layers.
    pub(super) layered: bool,
    /// As a tape shows it: the printed figures that it was cut to.
    pub(super) size: [f64; 3],
    /// As the fence was truly set: an error of a size is a matter of that size
    /// and must not be found again in everything that counts from its far end.
    pub(super) exact: [f64; 3],
    /// Which axes it was milled along: what comes from the stock is rough.
    pub(super) milled: [bool; 3],
    pub(super) cuts: Vec<Cut>,
    /// The edges that have a strip by now, each with its stock.
    pub(super) edged: Vec<(Face, String)>,
    /// The step in which it was built in for good.
    pub(super) closed: Option<u32>,
    /// Its thickness was measured since it has it.
    pub(super) read: bool,
}

/// Wood that one operation takes.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    /// Which operation, by its place in the packet.
    pub(super) operation: usize,
    pub(super) sort: Sort,
    /// The box that it takes; of a tenon, the tenon.
    pub(super) space: Space,
    /// The face that it is cut into.
    pub(super) face: Face,
    /// The axis it runs along, if it is a channel.
    pub(super) run: Option<usize>,
}

/// What is left where a tool was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Sort {
    Channel,
    Flute,
    Bore,
    Notch,
    /// A long hole for a screw.
    Slot,
    /// The rabbet behind a pane.
    Glazing,
    Mortise,
    Tenon,
    Dovetails,
    /// The edge that it takes away, and the face that keeps its corner.
    Miter(Face, Face),
    /// Pocket holes and dowel holes: nothing that a joint shows.
    Hidden,
}

impl Cut {
    /// The boxes of wood that are gone from a board of this size.
    pub(super) fn gone(&self, size: [f64; 3]) -> Vec<Space> {
        match self.sort {
            Sort::Tenon => {
                let mut end = whole(size);
                end[self.face.axis] = self.space[self.face.axis];
                without(&end, &[self.space])
            }
            Sort::Hidden => Vec::new(),
            Sort::Channel
            | Sort::Flute
            | Sort::Bore
            | Sort::Notch
            | Sort::Slot
            | Sort::Glazing
            | Sort::Mortise
            | Sort::Dovetails
            | Sort::Miter(..) => common(&self.space, &whole(size)).into_iter().collect(),
        }
    }
}

/// All of a board of this size.
pub(super) fn whole(size: [f64; 3]) -> Space {
    size.map(|size| [0.0, size])
}

impl<'a> Board<'a> {
    pub(super) fn new(part: &'a Part, drawn: &'a DrawnPart) -> Self {
        let size = [0.0; 3];
        let (milled, cuts, layered) = ([false; 3], Vec::new(), false);
        let (exact, edged, closed, read) = (size, Vec::new(), None, false);
        let (pieces, stick) = (None, None);
        Self { part, drawn, pieces, stick, layered, size, exact, milled, cuts, edged, closed, read }
    }

    /// True for a part that is still in its stick, with nothing but channels along that.
    pub(super) fn is_channeled_stick(&self) -> bool {
        let along = |cut: &Cut| cut.sort == Sort::Channel && cut.run == Some(0);
        self.stick.is_some() && !self.milled[0] && self.cuts.iter().all(along)
    }

    /// `LE, left end`.
    pub(super) fn name(&self) -> String {
        format!("{}, {}", self.part.mark, self.part.name)
    }

    pub(super) fn face(&self, name: &str) -> Result<Face, String> {
        self.part.faces.find(name).ok_or_else(|| format!("it has no {name}"))
    }

    /// The axis of the piece that one of its own runs along.
    pub(super) fn along(&self, axis: usize) -> usize {
        match self.drawn.axes[axis] {
            Along::X => 0,
            Along::Y => 1,
            Along::Z => 2,
        }
    }

    /// The way that a face looks, in the axes of the piece. Which way a marked
    /// board lies is known to whoever has it in hand.
    pub(super) fn way(&self, face: Face) -> [f64; 3] {
        let mut way = [0.0; 3];
        way[self.along(face.axis)] = if face.is_end { 1.0 } else { -1.0 };
        way
    }

    /// A box of it where it stands in the piece.
    pub(super) fn placed(&self, space: &Space) -> Space {
        let mut placed = [[0.0; 2]; 3];
        for (axis, range) in space.iter().enumerate() {
            let along = self.along(axis);
            let at = self.drawn.at[along].exact;
            placed[along] = range.map(|place| at + place);
        }
        placed
    }

    /// What of a box in the piece is its own, in its own axes.
    pub(super) fn own(&self, placed: &Space) -> Space {
        [0, 1, 2].map(|axis| {
            let along = self.along(axis);
            placed[along].map(|place| place - self.drawn.at[along].exact)
        })
    }

    /// From and to along one axis, both counted from a face.
    pub(super) fn counted(&self, face: Face, [start, end]: [f64; 2]) -> [f64; 2] {
        match face.is_end {
            true => [self.exact[face.axis] - end, self.exact[face.axis] - start],
            false => [start, end],
        }
    }
}
