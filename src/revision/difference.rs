//! What differs, as data. Everything two-sided is `was` and `now`; what only
//! the later side has is `added`, what only the earlier has is `dropped`, so
//! that a difference read backwards has the same form.

use serde::Serialize;

use crate::parts::Of;

use super::cut_part::CutPart;
use super::two_sided::{Changes, Figure, Lists, Pair, Resized, Told};

/// One of the two revisions.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Revision {
    /// The file, and its revision in git.
    pub name: String,
    /// The job; nothing where it could not be read.
    pub job: Option<String>,
    /// The letter on its papers.
    pub revision: Option<String>,
    /// `inches to 1/32`.
    pub measure: Option<String>,
    /// How many parts it has.
    pub parts: Option<usize>,
    /// How many of them are cut.
    pub cut: Option<usize>,
    /// What forbids building it.
    pub errors: Vec<Fault>,
}

/// An error of one side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fault {
    /// The rule.
    pub slug: &'static str,
    /// What is wrong.
    pub title: String,
    /// The file.
    pub file: String,
    /// The line.
    pub line: usize,
}

/// What could be compared.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Compared {
    /// Openings and hardware.
    pub openings: bool,
    /// Parts and all that is planned from them.
    pub parts: bool,
    /// Papers.
    pub papers: bool,
}

/// A part as it lies on the bench.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Board {
    /// Its name: `console.bank.upper.front`.
    pub path: String,
    /// Its mark.
    pub mark: String,
    /// What it is called on paper.
    pub name: String,
    /// Its stock.
    pub stock: String,
    /// What the stock is: `lumber, black cherry, quartersawn`.
    pub wood: String,
    /// Its length.
    pub length: Figure,
    /// Its width.
    pub width: Figure,
    /// Its thickness.
    pub thickness: Figure,
    /// The day it was cut, where it lies on the bench.
    pub cut: Option<String>,
}

/// What is cut into a part, or no longer is.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Cut {
    /// Sentences of the cut list that differ.
    pub lines: Lists<String>,
    /// Cuts that differ though the cut list reads the same.
    pub moved: Vec<Silent>,
}

impl Cut {
    /// True where nothing differs.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.lines.is_empty() && self.moved.is_empty()
    }
}

/// A cut that differs in what the cut list does not say.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Silent {
    /// Which: `dado`.
    pub cut: &'static str,
    /// `long`, `wide`, `deep`; nothing where it stands elsewhere.
    pub size: Option<&'static str>,
    /// That size as it was.
    pub was: Option<Figure>,
    /// As it is.
    pub now: Option<Figure>,
}

/// How a part is let into another.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Joined {
    /// The joint.
    pub how: &'static str,
    /// It is glued.
    pub glued: bool,
    /// The mark of the part that holds it.
    pub into: String,
}

/// A part that is on both sides, and different.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PartChange {
    /// Before.
    pub was: Board,
    /// After.
    pub now: Board,
    /// Its sizes.
    pub resized: Vec<Resized>,
    /// It is cut from other stock.
    pub restocked: bool,
    /// Its grain runs another way.
    pub turned: bool,
    /// What covers its edges; missing where that stays.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edges: Option<Pair<String>>,
    /// Its core is larger, so that one that is sawn is too small.
    #[serde(skip)]
    pub larger_core: bool,
    /// What is cut into it.
    pub cuts: Cut,
    /// What it is let into.
    pub joints: Lists<Joined>,
    /// It is of sheet goods, which are as thick as they are.
    #[serde(skip)]
    pub sheet: bool,
}

impl PartChange {
    /// A board that is cut already is no longer of use for it.
    #[must_use]
    pub fn is_remade(&self) -> bool {
        let resized = self.resized.iter().any(|size| !(self.sheet && size.size == "thickness"));
        resized || self.restocked || self.turned || self.larger_core
    }
}

/// A part that stays as it is under another mark.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Marked {
    /// Its name: `console.bank.upper.front`.
    pub path: Pair<String>,
    /// Its mark.
    pub mark: Pair<String>,
    /// The innermost of the renamed cases and openings that it belongs to.
    #[serde(skip)]
    pub(super) within: Option<usize>,
}

/// What only has another name.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Renamed {
    /// Cases and openings, by their whole name.
    pub openings: Vec<Pair<Told>>,
    /// What each of them was in the earlier revision, in their order.
    #[serde(skip)]
    pub(super) of: Vec<Of>,
    /// Stocks.
    pub stocks: Vec<Pair<String>>,
    /// Parts whose mark follows, and that stay as they are.
    pub marks: Vec<Marked>,
}

/// A case or opening.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OpeningSize {
    /// Its name: `console.bank.upper`.
    pub path: Told,
    /// `case`, `drawer`, `pair of doors` and so on.
    pub kind: &'static str,
    /// Its width.
    pub wide: Figure,
    /// Its height.
    pub high: Figure,
}

/// A case or opening that is on both sides, and different.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OpeningChange {
    /// Its name.
    pub path: Pair<Told>,
    /// What it is.
    pub kind: Pair<&'static str>,
    /// Its sizes.
    pub resized: Vec<Resized>,
}

/// How much of a stock there is to buy on each side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Amounts {
    /// The stock, by its name in the spec.
    pub what: String,
    /// Before: `2 sheets`; `None` where nothing of it was bought.
    pub was: Option<String>,
    /// After.
    pub now: Option<String>,
}

/// How long something takes to come on each side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeadTimes {
    /// What, by its kind and its name in the spec.
    pub what: String,
    /// Before: `3 weeks`; `None` where it was not bought or nothing was said.
    pub was: Option<String>,
    /// After.
    pub now: Option<String>,
}

/// What there is to buy.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Buying {
    /// The stocks of which there is more or less to buy.
    pub amounts: Vec<Amounts>,
    /// What all that has a price comes to, in the currency of the job, where it differs.
    pub total: Option<Pair<String>>,
    /// What takes longer or less long to come.
    pub lead_times: Vec<LeadTimes>,
}

/// So many of one thing on each side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Counted {
    /// `hinge`, `pair of slides`, `pull`, `screw`.
    pub what: &'static str,
    /// Its name in the spec, and its length for a screw.
    pub name: String,
    /// Before.
    pub was: u32,
    /// After.
    pub now: u32,
}

/// A set-up of the router.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Setting {
    /// `dado`, `groove`, `rabbet`, `flutes`.
    pub cut: &'static str,
    /// The bit, where the spec has one that suits.
    pub bit: Option<String>,
    /// Its diameter; that of the cut where the spec has none.
    pub diameter: Figure,
    /// From the datum to the near side, to the first center for flutes.
    pub fence: Figure,
    /// What the fence counts from.
    pub datum: String,
    /// How deep.
    pub deep: Figure,
    /// How wide.
    pub wide: Figure,
    /// How many lines.
    pub lines: usize,
    /// The marks of its pieces.
    pub pieces: Vec<String>,
    /// Those of them that were made with all their joints already.
    pub made: Vec<String>,
}

/// One figure of a set-up that changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SettingChange {
    /// `fence`, `depth`, `width`, `bit`, `lines`, `rpm`, `guide`.
    pub what: &'static str,
    /// Before.
    pub was: String,
    /// After.
    pub now: String,
}

/// A set-up that is on both sides, and different.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SetupChange {
    /// Before.
    pub was: Setting,
    /// After.
    pub now: Setting,
    /// What is set otherwise; nothing where only pieces came or went.
    pub set: Vec<SettingChange>,
    /// Pieces that came and went, by mark.
    pub pieces: Lists<String>,
    /// Pieces in which the cut begins elsewhere, by mark.
    pub begins: Vec<String>,
}

/// A step of the assembly.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Step {
    /// What is done.
    pub title: String,
    /// The marks of its parts.
    pub parts: Vec<String>,
}

/// A step that is on both sides, and different.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StepChange {
    /// What is done.
    pub title: Pair<String>,
    /// How.
    pub lines: Lists<String>,
    /// Clamps in use.
    pub clamps: Option<Pair<u32>>,
    /// How long it waits.
    pub wait: Option<Pair<String>>,
    /// The diagonals to measure.
    pub diagonals: Option<Pair<Option<Figure>>>,
    /// The steps it comes after.
    pub after: Lists<String>,
}

/// A gap at an edge of a front.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct GapPlace {
    /// The front: `console.press.left-door`.
    pub front: Told,
    /// `left`, `right`, `top`, `bottom`.
    pub edge: &'static str,
    /// How wide it is.
    pub room: Room,
}

/// A gap through the year.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Room {
    /// As it is fitted.
    pub fitted: Figure,
    /// The least it comes to.
    pub least: Figure,
    /// The most it comes to.
    pub greatest: Figure,
}

/// A gap, or the room of a panel in its groove, that changes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct GapChange {
    /// The front or panel.
    pub front: Pair<Told>,
    /// The edge; `each side` for a panel.
    pub edge: &'static str,
    /// Its room.
    pub room: Pair<Room>,
}

/// What is lifted in one, and its weight.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Weight {
    /// `case`, `base`, `door`, `drawer`, `whole`.
    pub what: &'static str,
    /// Its name; none for the whole.
    pub path: Told,
    /// In whole grams.
    pub grams: i64,
    /// As printed.
    pub text: String,
}

/// A weight that is on both sides, and different.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WeightChange {
    /// Before.
    pub was: Weight,
    /// After.
    pub now: Weight,
}

/// A finding, and what it is about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// The rule.
    pub slug: &'static str,
    /// `error`, `warning`, `note`.
    pub severity: &'static str,
    /// What it says.
    pub title: String,
    /// The parts or openings it is about.
    pub subjects: Vec<String>,
}

/// A paper to print again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PaperChange {
    /// Its name in file names.
    pub slug: &'static str,
    /// Its title.
    pub title: &'static str,
}

/// What two revisions of a piece have that is different.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Difference {
    /// The two revisions.
    pub sides: Pair<Revision>,
    /// What could be compared.
    pub compared: Compared,
    /// Wood that is cut already.
    pub cut: Changes<Pair<CutPart>, CutPart>,
    /// Parts.
    pub parts: Changes<PartChange, Board>,
    /// What only has another name.
    pub renamed: Renamed,
    /// Cases and openings.
    pub openings: Changes<OpeningChange, OpeningSize>,
    /// What there is to buy.
    pub buying: Buying,
    /// Hardware.
    pub hardware: Vec<Counted>,
    /// Set-ups of the router.
    pub setups: Changes<SetupChange, Setting>,
    /// Steps of the assembly.
    pub steps: Changes<StepChange, Step>,
    /// What all steps come to.
    pub work: Option<Pair<String>>,
    /// Gaps round the fronts.
    pub gaps: Changes<GapChange, GapPlace>,
    /// Panels in their grooves.
    pub panels: Vec<GapChange>,
    /// What is lifted.
    pub weights: Changes<WeightChange, Weight>,
    /// Findings.
    pub findings: Lists<Finding>,
    /// Papers to print again.
    pub papers: Vec<PaperChange>,
}

/// What a difference comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing changes in the shop.
    Nothing,
    /// Something changes.
    Something,
    /// A side has errors, so it can't be told.
    Untold,
}

impl Difference {
    pub(super) fn empty(sides: Pair<Revision>) -> Self {
        Self {
            sides,
            compared: Compared::default(),
            cut: Changes::default(),
            parts: Changes::default(),
            renamed: Renamed::default(),
            openings: Changes::default(),
            buying: Buying::default(),
            hardware: Vec::new(),
            setups: Changes::default(),
            steps: Changes::default(),
            work: None,
            gaps: Changes::default(),
            panels: Vec::new(),
            weights: Changes::default(),
            findings: Lists::default(),
            papers: Vec::new(),
        }
    }

    /// True where nothing that was compared differs.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self == &Self { compared: self.compared, ..Self::empty(self.sides.clone()) }
    }

    /// What it comes to.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        if !self.compared.papers {
            Verdict::Untold
        } else if self.is_empty() {
            Verdict::Nothing
        } else {
            Verdict::Something
        }
    }
}
