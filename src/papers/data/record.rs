//! The packet as it is written: one type for each thing of the schema.

use serde::Serialize;

use super::work::Cut;
use super::{bases, covers, done, fitted, laid_on, layout, lines::Refs, miters, opens::Opens};
use super::{on_legs, pin_rows, sections, sheets, stacked, wooden};

#[derive(Serialize)]
pub(super) struct Data<'d> {
    pub(super) schema: u32,
    pub(super) job: Job<'d>,
    pub(super) shop: Shop,
    pub(super) stocks: Vec<Stock<'d>>,
    pub(super) sheets: Vec<sheets::SheetData<'d>>,
    pub(super) boards: Vec<super::boards::BoardData<'d>>,
    pub(super) tools: Vec<Tool>,
    pub(super) parts: Vec<PartData<'d>>,
    pub(super) joints: Vec<JointData<'d>>,
    pub(super) plan: Plan,
    pub(super) steps: Vec<StepData<'d>>,
    pub(super) operations: Vec<Step<'d>>,
    pub(super) layout: Vec<super::layout::Stick<'d>>,
    pub(super) opens: Opens<'d>,
    pub(super) gaps: sections::Gaps<'d>,
    pub(super) weights: sections::Weights<'d>,
    pub(super) hardware: Vec<sections::Hardware<'d>>,
    pub(super) findings: Vec<sections::Found<'d>>,
    pub(super) drawn: Drawn<'d>,
    pub(super) lines: Vec<Place<'d>>,
}

#[derive(Serialize)]
pub(super) struct Job<'d> {
    pub(super) name: &'d str,
    pub(super) revision: &'d str,
    pub(super) hash: &'d str,
    pub(super) unit: &'static str,
    pub(super) tape: Figure,
}

#[derive(Serialize)]
pub(super) struct Shop {
    pub(super) base_plate: Figure,
    pub(super) kerf: Figure,
}

#[derive(Serialize)]
pub(super) struct Stock<'d> {
    pub(super) name: &'d str,
    pub(super) form: &'static str,
    pub(super) thickness: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) movement: Option<u32>,
}

#[derive(Serialize)]
pub(super) struct Tool {
    pub(super) id: String,
    pub(super) shape: &'static str,
    pub(super) diameter: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) speed: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) shank: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) name: Option<String>,
}

#[derive(Serialize)]
pub(super) struct PartData<'d> {
    pub(super) mark: &'d str,
    pub(super) name: String,
    pub(super) path: &'d str,
    pub(super) stock: &'d str,
    pub(super) grain: &'static str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) edges: Vec<EdgeData<'d>>,
    pub(super) faces: Faces,
    pub(super) from: [Refs; 3],
    pub(super) spec: Option<usize>,
    /// It lies on the bench already.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub(super) cut: bool,
}

/// A strip on an edge of a part.
#[derive(Serialize)]
pub(super) struct EdgeData<'d> {
    pub(super) face: String,
    pub(super) stock: &'d str,
    pub(super) thick: Figure,
}

#[derive(Serialize)]
pub(super) struct Faces {
    pub(super) length: [String; 2],
    pub(super) width: [String; 2],
    pub(super) thickness: [String; 2],
}

#[derive(Serialize)]
pub(super) struct JointData<'d> {
    pub(super) kind: &'static str,
    pub(super) part: &'d str,
    pub(super) into: &'d str,
    pub(super) glued: bool,
    pub(super) spec: Option<usize>,
}

#[derive(Serialize)]
pub(super) struct Line<'d> {
    pub(super) part: &'d str,
    pub(super) along: Stretch,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) across: Option<Stretch>,
}

#[derive(Serialize)]
pub(super) struct Drawn<'d> {
    pub(super) parts: Vec<DrawnPart<'d>>,
}

#[derive(Serialize)]
pub(super) struct DrawnPart<'d> {
    pub(super) mark: &'d str,
    pub(super) size: [Figure; 3],
    pub(super) at: [Figure; 3],
    pub(super) axes: [&'static str; 3],
    pub(super) features: Vec<DrawnFeature>,
}

#[derive(Serialize)]
pub(super) struct DrawnFeature {
    pub(super) kind: &'static str,
    pub(super) face: String,
    pub(super) from: [Figure; 3],
    pub(super) to: [Figure; 3],
}

/// A length, exact and as printed.
#[derive(Serialize)]
pub(super) struct Figure {
    pub(super) exact: String,
    pub(super) print: String,
}

/// A line of the spec.
#[derive(Serialize)]
pub(super) struct Place<'d> {
    pub(super) file: &'d str,
    pub(super) line: usize,
}

/// How long it all takes.
#[derive(Serialize)]
pub(super) struct Plan {
    pub(super) hands: Figure,
    pub(super) longest: Figure,
    pub(super) days: u32,
    pub(super) day: Figure,
}

/// A step of the assembly order.
#[derive(Serialize)]
pub(super) struct StepData<'d> {
    pub(super) step: usize,
    pub(super) title: &'d str,
    pub(super) day: u32,
    pub(super) at: Figure,
    pub(super) hands: Figure,
    pub(super) after: Vec<usize>,
    pub(super) critical: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) clamps: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) closing: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) driven: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) open: Option<Figure>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) goes: Vec<Vec<&'d str>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) cured: Option<Cured>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) rounds: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) cure: Option<Figure>,
}

/// Glue that must have cured before a step.
#[derive(Serialize)]
pub(super) struct Cured {
    /// The step of the last glue-up.
    pub(super) since: usize,
    pub(super) long: Figure,
}

#[derive(Serialize)]
pub(super) struct Step<'d> {
    pub(super) step: usize,
    #[serde(flatten)]
    pub(super) doing: What<'d>,
}

#[derive(Serialize)]
#[serde(tag = "kind")]
pub(super) enum What<'d> {
    #[serde(rename = "break down")]
    BreakDown {
        part: &'d str,
        stock: &'d str,
        size: [Figure; 3],
        #[serde(skip_serializing_if = "Option::is_none")]
        pieces: Option<i64>,
    },
    #[serde(rename = "order glass")]
    Pane(super::glass::Pane<'d>),
    #[serde(rename = "glaze")]
    Glaze(super::glass::Glaze<'d>),
    #[serde(rename = "glue up")]
    GlueUp {
        part: &'d str,
        way: &'static str,
        size: [Figure; 3],
        pieces: i64,
        #[serde(skip_serializing_if = "Option::is_none")]
        wide: Option<Figure>,
        #[serde(skip_serializing_if = "Option::is_none")]
        planer: Option<Figure>,
    },
    #[serde(rename = "stick")]
    Stick {
        shorter: Figure,
        parts: Vec<&'d str>,
        stock: &'d str,
        size: [Figure; 3],
        #[serde(skip_serializing_if = "Option::is_none")]
        pieces: Option<i64>,
    },
    #[serde(rename = "spacers")]
    Spacers(fitted::Spaced<'d>),
    #[serde(rename = "mill")]
    Mill { axis: &'static str, to: Figure, parts: Vec<&'d str> },
    #[serde(rename = "edge")]
    Edge {
        part: &'d str,
        face: String,
        stock: &'d str,
        how: &'static str,
        strip: [Figure; 3],
        lines: Refs,
    },
    #[serde(rename = "verify")]
    Verify {
        #[serde(skip_serializing_if = "Option::is_none")]
        sheet: Option<&'d str>,
        parts: Vec<&'d str>,
        what: &'static str,
        figure: Figure,
        fine: String,
        within: Figure,
        thicker: &'static str,
        thinner: &'static str,
    },
    #[serde(rename = "verify")]
    Moisture {
        what: &'static str,
        stocks: Vec<&'d str>,
        percent: String,
        within: String,
        otherwise: &'static str,
    },
    #[serde(rename = "setting")]
    Setting {
        sheet: usize,
        tool: String,
        guide: &'static str,
        datum: &'d str,
        set: Vec<Figure>,
        depths: Vec<Figure>,
        pieces: Vec<Cut<'d>>,
        #[serde(skip_serializing_if = "Option::is_none")]
        other_bits: Option<done::Bits>,
        time: Figure,
        lines: Refs,
    },
    #[serde(rename = "bore")]
    Bore {
        part: &'d str,
        face: String,
        what: &'static str,
        from: [String; 2],
        centers: Vec<[Figure; 2]>,
        diameter: Figure,
        deep: Figure,
        #[serde(skip_serializing_if = "Vec::is_empty")]
        behind: Vec<&'d str>,
        lines: Refs,
    },
    #[serde(rename = "shape")]
    Shape {
        part: &'d str,
        what: &'static str,
        face: String,
        deep: Figure,
        spans: [Stretch; 2],
        lines: Refs,
        #[serde(flatten)]
        miter: miters::Miter,
        #[serde(skip_serializing_if = "Option::is_none")]
        holes: Option<u32>,
        #[serde(skip_serializing_if = "Option::is_none")]
        pockets: Option<Box<Pockets>>,
        #[serde(skip_serializing_if = "Option::is_none")]
        row: Option<Box<Row>>,
        #[serde(skip_serializing_if = "Option::is_none")]
        tails: Option<Tails>,
    },
    #[serde(rename = "join")]
    Join {
        joints: &'d [usize],
        moves: Vec<Moved<'d>>,
        #[serde(skip_serializing_if = "Option::is_none")]
        clamps: Option<u32>,
        #[serde(skip_serializing_if = "Option::is_none")]
        square: Option<Square>,
    },
    #[serde(rename = "fasten")]
    Fasten(fitted::Fasten<'d>),
    #[serde(rename = "screw line")]
    ScrewLine(layout::ScrewLine<'d>),
    #[serde(rename = "bore rows")]
    Rows(pin_rows::Rows<'d>),
    #[serde(rename = "set slides")]
    Slide(fitted::Slide<'d>),
    #[serde(rename = "run on wood")]
    OnWood(wooden::OnWood<'d>),
    #[serde(rename = "set front")]
    FrontOn(fitted::FrontOn<'d>),
    #[serde(rename = "set hinge")]
    Hinge(fitted::Hinge<'d>),
    #[serde(rename = "set stop")]
    Stop(fitted::Stop<'d>),
    #[serde(rename = "set catch")]
    Catch(fitted::Catch<'d>),
    #[serde(rename = "set rail")]
    Rail(fitted::Rail<'d>),
    #[serde(rename = "fit")]
    Fit(fitted::Fit<'d>),
    #[serde(rename = "measure")]
    Measure(done::MeasureData<'d>),
    #[serde(rename = "cut out")]
    CutOut {
        part: &'d str,
        lies: [Figure; 2],
        round: &'d str,
        spare: Figure,
        kept: [[Figure; 2]; 2],
        size: [Figure; 2],
    },
    #[serde(rename = "find in house")]
    Find(done::Found<'d>),
    #[serde(rename = "dry-fit")]
    DryFit(done::Tried<'d>),
    #[serde(rename = "screw on dry")]
    Tack { parts: Vec<&'d str>, screws: u32 },
    #[serde(rename = "stand off rail")]
    OpenShoulders { parts: Vec<&'d str>, from: &'d str, by: Figure },
    #[serde(rename = "set on base")]
    OnBase {
        parts: Vec<&'d str>,
        #[serde(skip_serializing_if = "Option::is_none")]
        block: Option<Figure>,
        most: Figure,
    },
    #[serde(rename = "block leg")]
    LegBlock(bases::LegBlocked<'d>),
    #[serde(rename = "glue blocks")]
    Blocks { parts: Vec<&'d str>, pairs: u32, block: Figure },
    #[serde(rename = "lay frame")]
    FrameOn(done::FrameLaid<'d>),
    #[serde(rename = "plug pockets")]
    Plug { parts: Vec<&'d str> },
    #[serde(rename = "take off")]
    TakeOff { parts: Vec<&'d str> },
    #[serde(rename = "sand")]
    Sand(done::Sanded<'d>),
    #[serde(rename = "finish")]
    Finish(done::Coated<'d>),
    #[serde(rename = "rest")]
    Rest(done::Rested),
    #[serde(rename = "carry")]
    Carry(done::Carried<'d>),
    #[serde(rename = "stand apart")]
    StandApart { case: &'d str, parts: Vec<&'d str> },
    #[serde(rename = "set base")]
    SetBase(bases::BaseSet<'d>),
    #[serde(rename = "cover ends")]
    CoverEnds(bases::EndsCovered<'d>),
    #[serde(rename = "level base")]
    LevelBase(bases::BaseApart<'d>),
    #[serde(rename = "screw onto base")]
    ScrewDown { parts: Vec<&'d str> },
    #[serde(rename = "stand on base")]
    StandOn(bases::OnBase<'d>),
    #[serde(rename = "lift onto strip")]
    Lift(done::Carried<'d>),
    #[serde(rename = "put up strip")]
    WallStrip(done::StripUp<'d>),
    #[serde(rename = "scribe")]
    Scribe(done::Scribed<'d>),
    #[serde(rename = "close with strips")]
    Strip { beside: Vec<&'d str> },
    #[serde(rename = "fix cases")]
    FixBeside(done::FixedBeside<'d>),
    #[serde(rename = "fit filler")]
    FitFiller(done::FittedFiller<'d>),
    #[serde(rename = "scribe kick")]
    ScribeKick(covers::ScribedKick<'d>),
    #[serde(rename = "fit cover")]
    FitCover(covers::FittedCover<'d>),
    #[serde(rename = "stand off wall")]
    StandOff(done::StoodOff<'d>),
    #[serde(rename = "keep space")]
    KeepSpace(done::KeptSpace<'d>),
    #[serde(rename = "push in")]
    PushIn(done::PushedIn<'d>),
    #[serde(rename = "lay on")]
    LayOn(laid_on::LaidOn<'d>),
    #[serde(rename = "legs on")]
    Legs(on_legs::LegsUnder<'d>),
    #[serde(rename = "set on case")]
    StandOnCase(stacked::SetOn<'d>),
    #[serde(rename = "fix to wall")]
    FixToWall(super::walled::Walled<'d>),
}

/// A row of pocket holes.
#[derive(Serialize)]
pub(super) struct Pockets {
    pub(super) from: String,
    pub(super) centers: Vec<Figure>,
}

/// A row of dowel holes.
#[derive(Serialize)]
pub(super) struct Row {
    pub(super) from: [String; 2],
    pub(super) centers: Vec<[Figure; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) diameter: Option<Figure>,
    pub(super) dowel: Figure,
}

/// The tails at the end of a board.
#[derive(Serialize)]
pub(super) struct Tails {
    pub(super) slope: i64,
    pub(super) along: Vec<Stretch>,
}

#[derive(Serialize)]
pub(super) struct Stretch {
    pub(super) from: String,
    pub(super) start: Figure,
    pub(super) end: Figure,
}

#[derive(Serialize)]
pub(super) struct Moved<'d> {
    pub(super) parts: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) legs: Vec<Leg>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) how: Option<&'static str>,
}

#[derive(Serialize)]
pub(super) struct Leg {
    pub(super) from: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) by: Option<Figure>,
}

#[derive(Serialize)]
pub(super) struct Square {
    pub(super) sides: [Figure; 2],
    pub(super) diagonal: String,
    pub(super) within: Figure,
    pub(super) flat: Figure,
}
