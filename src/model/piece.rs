//! The whole piece: names resolved, everything solved.

use crate::measure::{Length, Span, Tape};
use crate::vocabulary::{CatchWord, Side};

use super::bought_legs::{BoughtLeg, OnLegs};
use super::case::Case;
use super::cut::Cut;
use super::finish::Finish;
use super::front::{Fronts, Set};
use super::hardware::{Bit, Pull, Slide};
use super::hinge::Hinge;
use super::id::{
    BitId, CaseId, FinishId, HingeId, LegId, MemberId, OpeningId, PullId, RunId, SlideId, SpaceId,
    StockId,
};
use super::job::Job;
use super::measured::Reading;
use super::opening::{Member, Opening, OpeningKind};
use super::run::{CaseRun, Space};
use super::shop::Shop;
use super::site::{Boundary, KeepOut, Site};
use super::size::{Facts, Size};
use super::sold::{Abrasive, Glue, SoldSupply};
use super::species::OwnSpecies;
use super::stock::Stock;
use super::tops::OnTop;

/// A warning that the maker accepts at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accept {
    /// The rule's slug.
    pub slug: String,
    /// Where the slug stands.
    pub slug_span: Span,
    /// The opening or part, by the end of its name or the whole of it.
    pub subject: String,
    /// The reason.
    pub reason: String,
    /// The statement.
    pub span: Span,
}

/// What holds a door shut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CatchKind {
    /// A magnet.
    Magnet,
    /// A ball on a spring.
    Ball,
}

/// A solved piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// The job.
    pub job: Job,
    /// The room.
    pub site: Site,
    /// The shop.
    pub shop: Shop,
    /// Woods with figures of the spec's own.
    pub species: Vec<OwnSpecies>,
    /// Materials.
    pub stocks: Vec<Stock>,
    /// Hinges.
    pub hinges: Vec<Hinge>,
    /// Slides.
    pub slides: Vec<Slide>,
    /// Pulls.
    pub pulls: Vec<Pull>,
    /// Bought legs.
    pub legs: Vec<BoughtLeg>,
    /// Router bits.
    pub bits: Vec<Bit>,
    /// Finishes.
    pub finishes: Vec<Finish>,
    /// Screws, pins, and clips as they are sold.
    pub supplies: Vec<SoldSupply>,
    /// How glue is sold.
    pub glue: Glue,
    /// How sandpaper is sold, grit by grit.
    pub abrasives: Vec<Abrasive>,
    /// The cases, left to right, those of its runs among them.
    pub cases: Vec<Case>,
    /// The runs, left to right.
    pub runs: Vec<CaseRun>,
    /// The countertops, by the first case under each.
    pub tops: Vec<OnTop>,
    /// Warnings the maker accepts.
    pub accepts: Vec<Accept>,
    /// What was measured and counts.
    pub readings: Vec<Reading>,
    /// Parts that are cut, the last word on each last.
    pub cuts: Vec<Cut>,
    /// Stocks, hinges, slides, pulls, and finishes that nothing refers to.
    pub unused: Vec<Unused>,
    /// The blocks that hold false fronts; `None` where there are none.
    pub holding: Option<Holding>,
    /// Every figure that sizes come from.
    pub facts: Facts,
}

/// A block with a name that nothing refers to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unused {
    /// What it is: `stock`.
    pub what: &'static str,
    /// Its name.
    pub name: String,
    /// The statement.
    pub span: Span,
}

/// The sizes of the blocks that hold false fronts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holding {
    /// How far a block stands into the opening, and how deep it is from front to back:
    /// 3/4 in, 20 mm (common practice, no source).
    pub thick: Size,
    /// How much shorter it is than the opening is high: 1/4 in, 6 mm (common practice, no
    /// source).
    pub play: Size,
}

impl Piece {
    /// A stock; `None` for an id that another piece gave out.
    #[must_use]
    pub fn stock(&self, id: StockId) -> Option<&Stock> {
        self.stocks.get(id.0)
    }

    /// A case; `None` for an id that another piece gave out, as with the others.
    #[must_use]
    pub fn case(&self, id: CaseId) -> Option<&Case> {
        self.cases.get(id.0)
    }

    /// A run.
    #[must_use]
    pub fn run(&self, id: RunId) -> Option<&CaseRun> {
        self.runs.get(id.0)
    }

    /// A free place in a run.
    #[must_use]
    pub fn space(&self, id: SpaceId) -> Option<&Space> {
        self.run(id.run)?.spaces.get(id.at)
    }

    /// Every free place, left to right.
    pub fn spaces(&self) -> impl Iterator<Item = (SpaceId, &Space)> {
        let runs = (0..).map(RunId).zip(&self.runs);
        runs.flat_map(|(run, own)| {
            own.spaces.iter().enumerate().map(move |(at, space)| (SpaceId { run, at }, space))
        })
    }

    /// What of the room stands in a free place from the wall to where the faces of the cases
    /// beside it are, as a chimney breast does: nothing goes from one side to the other then.
    #[must_use]
    pub fn walled_up(&self, space: &Space) -> Option<&KeepOut> {
        // A stick or a line needs as much before it.
        let clear = self.tape().unit.either(Length::inches(1, 1), Length::mm(25));
        let right = space.x + space.wide.length;
        self.site.keep_outs.iter().find(|own| {
            let from = own.from_left.max(space.x);
            let to = (own.from_left + own.wide).min(right);
            let is_low = own.up < space.high.length.half();
            is_low && (to - from).twice() > space.wide.length && own.deep + clear > self.wall()
        })
    }

    /// True where such a thing parts the piece: each side of it is set by its own wall.
    #[must_use]
    pub fn is_parted(&self) -> bool {
        self.spaces().any(|(_, space)| self.walled_up(space).is_some())
    }

    /// From the left side of the whole piece to its right side.
    #[must_use]
    pub fn wide(&self) -> Length {
        let cases = self.cases.iter().map(|case| case.x + case.wide.length);
        let runs = self.runs.iter().map(|run| run.x + run.wide.length);
        cases.chain(runs).max().unwrap_or_default()
    }

    /// Where the wall at a side may stand at the nearest, from the left side of the piece: all
    /// of the scribe there is planed off, of a stile or of a filler; `None` where no wall is.
    #[must_use]
    pub fn wall_at(&self, side: Side) -> Option<Length> {
        let boundary = match side {
            Side::Left => &self.site.left,
            Side::Right => &self.site.right,
        };
        if !matches!(boundary, Boundary::Wall { .. }) {
            return None;
        }
        let scribes = self.cases.iter().map(|case| match case.filler(side) {
            Some(filler) => filler.scribe.as_ref().map_or(Length::ZERO, |own| own.length),
            None => side.of(&case.exposure).scribe().length,
        });
        let scribe = scribes.max().unwrap_or_default();
        Some(match side {
            Side::Left => scribe,
            Side::Right => self.wide() - scribe,
        })
    }

    /// Whether it has doors, and whether it has drawers or trays.
    #[must_use]
    pub fn doors_and_drawers(&self) -> (bool, bool) {
        let mut openings = self.cases.iter().flat_map(|case| &case.openings);
        let doors = openings.clone().any(Opening::is_door);
        (doors, openings.any(|opening| matches!(opening.kind, OpeningKind::Drawer { .. })))
    }

    /// An opening.
    #[must_use]
    pub fn opening(&self, id: OpeningId) -> Option<&Opening> {
        self.case(id.case)?.openings.get(id.at)
    }

    /// A stile, rail or divider.
    #[must_use]
    pub fn member(&self, id: MemberId) -> Option<&Member> {
        self.case(id.case)?.members.get(id.at)
    }

    /// A hinge.
    #[must_use]
    pub fn hinge(&self, id: HingeId) -> Option<&Hinge> {
        self.hinges.get(id.0)
    }

    /// A slide.
    #[must_use]
    pub fn slide(&self, id: SlideId) -> Option<&Slide> {
        self.slides.get(id.0)
    }

    /// A pull.
    #[must_use]
    pub fn pull(&self, id: PullId) -> Option<&Pull> {
        self.pulls.get(id.0)
    }

    /// A bought leg.
    #[must_use]
    pub fn leg(&self, id: LegId) -> Option<&BoughtLeg> {
        self.legs.get(id.0)
    }

    /// The legs that a case stands on, with how they stand.
    #[must_use]
    pub fn legs_under<'p>(&'p self, case: &'p Case) -> Option<(&'p OnLegs, &'p BoughtLeg)> {
        let legs = case.on_legs.as_deref()?;
        Some((legs, self.leg(legs.leg)?))
    }

    /// True for a case that its legs level: each has an adjuster.
    #[must_use]
    pub fn has_adjusters(&self, case: &Case) -> bool {
        self.legs_under(case).is_some_and(|(_, leg)| leg.adjust.is_positive())
    }

    /// A router bit.
    #[must_use]
    pub fn bit(&self, id: BitId) -> Option<&Bit> {
        self.bits.get(id.0)
    }

    /// A finish.
    #[must_use]
    pub fn finish(&self, id: FinishId) -> Option<&Finish> {
        self.finishes.get(id.0)
    }

    /// The thickness of a stock.
    #[must_use]
    pub fn thickness(&self, id: StockId) -> Size {
        self.stock(id).map(|stock| stock.thickness.clone()).unwrap_or_default()
    }

    /// The door that an opening lies behind, where it lies behind one.
    #[must_use]
    pub fn door_before(&self, id: OpeningId) -> Option<&Opening> {
        self.case(id.case)?.door_before(self.opening(id)?)
    }

    /// How far behind the face of the frame, or of a case without one, what stands in an
    /// opening begins: right there, or behind the closed doors before it.
    #[must_use]
    pub fn behind_doors(&self, case: &Case, opening: &Opening) -> Size {
        let doors = case.door_before(opening).and_then(|door| door.front.as_ref());
        self.inset(doors) + &opening.set_back
    }

    /// How far behind the face of the frame, or of a case without one, the front of a
    /// drawer box lies: behind its inset front, or behind the closed doors before a tray.
    #[must_use]
    pub fn before_box(&self, case: &Case, opening: &Opening) -> Size {
        self.inset(opening.front.as_ref()) + self.behind_doors(case, opening)
    }

    /// How far a front reaches in behind the face of the frame.
    fn inset(&self, fronts: Option<&Fronts>) -> Size {
        match fronts {
            Some(fronts) if fronts.set == Set::Inset => self.thickness(fronts.stock),
            Some(_) | None => Size::zero(),
        }
    }

    /// True for doors whose hinges don't pull them shut.
    fn swings_free(&self, fronts: &Fronts) -> bool {
        let hinge = fronts.hinge.and_then(|(hinge, _)| self.hinge(hinge));
        hinge.is_some_and(|hinge| !hinge.closes)
    }

    /// True for doors that close against nothing of their own: inset ones on hinges that
    /// don't hold them.
    #[must_use]
    pub fn needs_stop(&self, fronts: &Fronts) -> bool {
        fronts.set == Set::Inset && self.swings_free(fronts)
    }

    /// What holds doors shut beside their hinges.
    #[must_use]
    pub fn catch(&self, fronts: &Fronts) -> Option<CatchKind> {
        match fronts.catch.map(|catch| catch.value) {
            Some(CatchWord::Magnet) => Some(CatchKind::Magnet),
            Some(CatchWord::Ball) => Some(CatchKind::Ball),
            Some(CatchWord::None) => None,
            None => self.swings_free(fronts).then_some(CatchKind::Magnet),
        }
    }

    /// How far behind the front of the deepest case the wall stands, at which
    /// the backs of all cases are.
    #[must_use]
    pub fn wall(&self) -> Length {
        self.cases.iter().map(|case| case.deep.length).max().unwrap_or_default()
    }

    /// How figures are printed.
    #[must_use]
    pub fn tape(&self) -> &Tape {
        &self.job.tape
    }
}
