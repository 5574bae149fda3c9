//! What is worked out of a piece: each thing when it is first asked for, and
//! once.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::model::{CaseId, Finish, FinishId, Piece, StockId};
use crate::parts::{self, Front, Part, PartId, Parts};

use super::assembly::gluing::{self, GlueUp, Load};
use super::assembly::{self, Assembly, Stages};
use super::boards::{self, OfLumber};
use super::buying::{self, Bought};
use super::finish::{self, Surface};
use super::fitting::{self, Fastened, Fitting, PinRows};
use super::glass::{self, Light};
use super::hung::{self, Hangs};
use super::layout::{self, Layout};
use super::ledger::Ledger;
use super::operations::{self, Operations};
use super::seasons::{self, Climate, Float, Gap};
use super::setups::{self, Setup};
use super::sheets::{self, OfStock};
use super::spans::{self, Lying};
use super::square::{self, Leaning};
use super::stacked::{self, Presses};
use super::sticks::{self, Stick, Sticks};
use super::tipping::{self, Tipping};
use super::weights::{self, Weights};

/// A piece with its parts and whatever is worked out of them. Rules, papers and
/// differences take it, so that none works out again what another has.
#[derive(Debug)]
pub struct Workings<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// Its parts.
    pub parts: &'a Parts,
    assembly: OnceLock<Assembly>,
    boards: OnceLock<Vec<OfLumber>>,
    buying: OnceLock<Vec<Bought>>,
    climate: OnceLock<Climate>,
    finishes: OnceLock<Vec<(FinishId, &'a Finish)>>,
    fitting: OnceLock<Fitting<'a>>,
    fastened: OnceLock<Fastened<'a>>,
    floats: OnceLock<Vec<Float<'a>>>,
    fronts: OnceLock<Vec<Front<'a>>>,
    gaps: OnceLock<Vec<Gap<'a>>>,
    glue_ups: OnceLock<Vec<GlueUp>>,
    hung: OnceLock<Vec<Hangs>>,
    layout: OnceLock<Layout>,
    leaning: OnceLock<Vec<Leaning<'a>>>,
    ledger: OnceLock<Ledger<'a>>,
    lights: OnceLock<Vec<Light>>,
    loads_at_once: OnceLock<Vec<Load>>,
    lying: OnceLock<Vec<Lying<'a>>>,
    operations: OnceLock<Operations>,
    pin_rows: OnceLock<Vec<PinRows<'a>>>,
    setups: OnceLock<Vec<Setup>>,
    sheets: OnceLock<Vec<OfStock>>,
    stages: OnceLock<Stages>,
    sticks: OnceLock<Sticks>,
    presses: OnceLock<Vec<Presses<'a>>>,
    surfaces: OnceLock<BTreeMap<FinishId, Surface>>,
    tipping: OnceLock<Vec<Tipping>>,
    weights: OnceLock<Weights>,
}

impl<'a> Workings<'a> {
    /// Nothing is worked out yet.
    #[must_use]
    pub fn of(piece: &'a Piece, parts: &'a Parts) -> Self {
        Self {
            piece,
            parts,
            assembly: OnceLock::new(),
            boards: OnceLock::new(),
            buying: OnceLock::new(),
            climate: OnceLock::new(),
            finishes: OnceLock::new(),
            fitting: OnceLock::new(),
            fastened: OnceLock::new(),
            floats: OnceLock::new(),
            fronts: OnceLock::new(),
            gaps: OnceLock::new(),
            glue_ups: OnceLock::new(),
            hung: OnceLock::new(),
            layout: OnceLock::new(),
            leaning: OnceLock::new(),
            ledger: OnceLock::new(),
            lights: OnceLock::new(),
            loads_at_once: OnceLock::new(),
            lying: OnceLock::new(),
            operations: OnceLock::new(),
            pin_rows: OnceLock::new(),
            setups: OnceLock::new(),
            sheets: OnceLock::new(),
            stages: OnceLock::new(),
            sticks: OnceLock::new(),
            presses: OnceLock::new(),
            surfaces: OnceLock::new(),
            tipping: OnceLock::new(),
            weights: OnceLock::new(),
        }
    }

    /// The order of assembly.
    pub fn assembly(&self) -> &Assembly {
        self.assembly.get_or_init(|| assembly::plan(self))
    }

    /// The boards to take, and how the rough pieces of solid wood are sawn from them.
    pub fn boards(&self) -> &[OfLumber] {
        self.boards.get_or_init(|| boards::plan(self))
    }

    /// What there is to buy of what has a price in a spec.
    pub fn buying(&self) -> &[Bought] {
        self.buying.get_or_init(|| buying::list(self))
    }

    /// How damp the wood gets through the year.
    pub fn climate(&self) -> &Climate {
        self.climate.get_or_init(|| Climate::of(self.piece))
    }

    /// What is screwed, pinned, and clipped.
    pub fn fastened(&self) -> &Fastened<'a> {
        self.fastened.get_or_init(|| fitting::fastened(self))
    }

    /// The finishes that parts have, in the order in which the spec describes them.
    pub fn finishes(&self) -> &[(FinishId, &'a Finish)] {
        self.finishes.get_or_init(|| finish::used(self.piece, self.parts))
    }

    /// Where the hardware goes.
    pub fn fitting(&self) -> &Fitting<'a> {
        self.fitting.get_or_init(|| fitting::plan(self))
    }

    /// The panels that are loose in their grooves.
    pub fn floats(&self) -> &[Float<'a>] {
        self.floats.get_or_init(|| seasons::floats(self))
    }

    /// Every front, in the order they were built.
    pub fn fronts(&self) -> &[Front<'a>] {
        self.fronts.get_or_init(|| parts::fronts(self.piece, self.parts))
    }

    /// The fronts of a case, which follow each other.
    pub fn fronts_of(&self, case: CaseId) -> &[Front<'a>] {
        let all = self.fronts();
        let from = all.partition_point(|front| front.case < case);
        let to = all.partition_point(|front| front.case <= case);
        all.get(from..to).unwrap_or(&[])
    }

    /// Every gap round every front, front by front.
    pub fn gaps(&self) -> &[Gap<'a>] {
        self.gaps.get_or_init(|| seasons::gaps(self))
    }

    /// The gaps round the fronts of a case, which follow each other.
    pub fn gaps_of(&self, case: CaseId) -> &[Gap<'a>] {
        let all = self.gaps();
        let from = all.partition_point(|gap| gap.front.case < case);
        let to = all.partition_point(|gap| gap.front.case <= case);
        all.get(from..to).unwrap_or(&[])
    }

    /// Everything that is glued up in one go, in the order of the work.
    pub fn glue_ups(&self) -> &[GlueUp] {
        self.glue_ups.get_or_init(|| gluing::glue_ups(self))
    }

    /// What closes in them where every unit is closed in one go. None of its stages
    /// takes more, so that who looks for too much need not part it into them.
    pub(crate) fn loads_at_once(&self) -> &[Load] {
        self.loads_at_once.get_or_init(|| gluing::loads_at_once(self))
    }

    /// What is struck with a pencil before it is cut.
    pub fn layout(&self) -> &Layout {
        self.layout.get_or_init(|| layout::plan(self))
    }

    /// The openings that came out of square under an inset front.
    pub fn leaning(&self) -> &[Leaning<'a>] {
        self.leaning.get_or_init(|| square::leaning(self.piece))
    }

    /// The parts of a stock that are still to be cut.
    pub fn left_of(&self, stock: StockId) -> impl Iterator<Item = (PartId, &'a Part)> {
        let own = self.parts.iter().filter(move |(_, part)| part.stock == stock);
        own.filter(|(id, _)| !self.ledger().is_cut(*id))
    }

    /// What is cut, to trim and left.
    pub fn ledger(&self) -> &Ledger<'a> {
        self.ledger.get_or_init(|| Ledger::of(self.piece, self.parts))
    }

    /// The panes in frames, with what holds them.
    pub fn lights(&self) -> &[Light] {
        self.lights.get_or_init(|| glass::lights(self.piece, self.parts))
    }

    /// Every case that hangs, on its wall screws.
    pub fn hung(&self) -> &[Hangs] {
        self.hung.get_or_init(|| hung::plan(self))
    }

    /// Every board that something stands on.
    pub fn lying(&self) -> &[Lying<'a>] {
        self.lying.get_or_init(|| spans::lying(self.piece, self.parts))
    }

    /// Every operation, in the order of the work.
    pub fn operations(&self) -> &Operations {
        self.operations.get_or_init(|| operations::plan(self))
    }

    /// The rows of pins beside every opening with loose shelves.
    pub fn pin_rows(&self) -> &[PinRows<'a>] {
        self.pin_rows.get_or_init(|| fitting::pins::plan(self.piece, self.parts))
    }

    /// The set-ups of the router.
    pub fn setups(&self) -> &[Setup] {
        self.setups.get_or_init(|| setups::plan(self.piece, self.parts, self.sticks()))
    }

    /// The sheets to take, and how the parts are sawn from them.
    pub fn sheets(&self) -> &[OfStock] {
        self.sheets.get_or_init(|| sheets::plan(self))
    }

    /// The steps in which each unit is put together, the whole unit last.
    pub(crate) fn stages(&self) -> &Stages {
        self.stages.get_or_init(|| assembly::stages(self.parts))
    }

    /// The long sticks that short parts are sawn from.
    pub fn sticks(&self) -> &Sticks {
        self.sticks.get_or_init(|| sticks::plan(self))
    }

    /// The set-ups that cut a stick while it is whole, by their numbers on the sheet.
    #[must_use]
    pub fn set_ups_in(&self, stick: &Stick) -> Vec<usize> {
        let is_own = |(_, setup): &(usize, &Setup)| {
            let mut whole = setup.runs.iter().filter(|run| run.stick.is_some());
            whole.any(|run| stick.is_under(run.part))
        };
        (1..).zip(self.setups()).filter(is_own).map(|(number, _)| number).collect()
    }

    /// Every case that stands on another, full.
    pub fn presses(&self) -> &[Presses<'a>] {
        self.presses.get_or_init(|| stacked::presses(self))
    }

    /// The surface of all parts with each finish.
    pub fn surfaces(&self) -> &BTreeMap<FinishId, Surface> {
        let surface = |id: FinishId| finish::surface(self.piece, self.parts, id, &[]);
        let each = || self.finishes().iter().map(|(id, _)| (*id, surface(*id)));
        self.surfaces.get_or_init(|| each().collect())
    }

    /// Every case on its front edge.
    pub fn tipping(&self) -> &[Tipping] {
        self.tipping.get_or_init(|| tipping::plan(self))
    }

    /// What every part weighs, and what is lifted together.
    pub fn weights(&self) -> &Weights {
        self.weights.get_or_init(|| weights::weigh(self.piece, self.parts))
    }
}
