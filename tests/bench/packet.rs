//! The packet as it lies on the bench: what the shop reads of it, typed. A kind
//! of work or a figure that it doesn't know stops it.

use serde::Deserialize;

use super::apart::StandApart;
use super::figures;
use super::keep_outs::{CutOut, Find};
use super::narrow::NarrowCase;
use super::planks::Plank;
use super::sawing::Sheet;
use super::scribing::{FitCover, FitFiller, Scribe, ScribeKick, ScribedEnd};

/// A length: as the model has it, and as the papers print it.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(try_from = "Text")]
pub(super) struct Figure {
    pub(super) exact: f64,
    pub(super) print: f64,
}

#[derive(Deserialize)]
struct Text {
    exact: String,
    print: String,
}

impl TryFrom<Text> for Figure {
    type Error = String;

    fn try_from(text: Text) -> Result<Self, String> {
        let exact = figures::exact(&text.exact);
        let print = figures::printed(&text.print);
        let (Some(exact), Some(print)) = (exact, print) else {
            return Err(format!("no figure: {} or {}", text.exact, text.print));
        };
        Ok(Self { exact, print })
    }
}

/// A size of hardware, as it is sold; the papers print it in the unit of its sheet.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(try_from = "Text")]
pub(super) struct Bought {
    pub(super) exact: f64,
}

impl TryFrom<Text> for Bought {
    type Error = String;

    fn try_from(text: Text) -> Result<Self, String> {
        let exact = figures::exact(&text.exact);
        exact.map(|exact| Self { exact }).ok_or_else(|| format!("no figure: {}", text.exact))
    }
}

#[derive(Debug, Deserialize)]
pub(super) struct Packet {
    pub(super) job: Job,
    pub(super) shop: Shop,
    pub(super) stocks: Vec<Stock>,
    pub(super) sheets: Vec<Sheet>,
    pub(super) boards: Vec<Plank>,
    pub(super) tools: Vec<Tool>,
    pub(super) parts: Vec<Part>,
    pub(super) joints: Vec<Joint>,
    pub(super) operations: Vec<Operation>,
    pub(super) layout: Vec<Stick>,
    pub(super) opens: Opens,
    pub(super) drawn: Drawn,
}

/// A board with the lines on it.
#[derive(Debug, Deserialize)]
pub(super) struct Stick {
    pub(super) part: String,
    pub(super) face: Option<String>,
    pub(super) lines: Vec<Line>,
}

/// Where another board stands against it.
#[derive(Debug, Deserialize)]
pub(super) struct Line {
    pub(super) part: String,
    pub(super) along: Span,
    pub(super) across: Option<Span>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Job {
    pub(super) unit: Unit,
    pub(super) tape: Figure,
}

#[derive(Clone, Copy, Debug, Deserialize)]
pub(super) enum Unit {
    #[serde(rename = "in")]
    Inch,
    #[serde(rename = "mm")]
    Millimeter,
}

impl Unit {
    /// So many millimeters in the unit of the job.
    pub(super) fn mm(self, millimeters: f64) -> f64 {
        match self {
            Self::Inch => millimeters / 25.4,
            Self::Millimeter => millimeters,
        }
    }
}

#[derive(Debug, Deserialize)]
pub(super) struct Shop {
    pub(super) base_plate: Figure,
    pub(super) kerf: Figure,
}

#[derive(Debug, Deserialize)]
pub(super) struct Stock {
    pub(super) name: String,
    pub(super) form: Form,
    pub(super) thickness: Figure,
    /// How much wider it gets for each point of moisture, in millionths.
    pub(super) movement: Option<f64>,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Form {
    Sheet,
    Glass,
    Boards,
    Roll,
}

#[derive(Debug, Deserialize)]
pub(super) struct Tool {
    pub(super) id: String,
    pub(super) shape: BitShape,
    pub(super) diameter: Figure,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum BitShape {
    Straight,
    RoundNose,
    Blade,
}

#[derive(Debug, Deserialize)]
pub(super) struct Part {
    pub(super) mark: String,
    pub(super) name: String,
    pub(super) path: String,
    pub(super) stock: String,
    pub(super) grain: String,
    #[serde(default)]
    pub(super) cut: bool,
    #[serde(default)]
    pub(super) edges: Vec<EdgeStrip>,
    pub(super) faces: Faces,
}

/// A strip on one of its edges.
#[derive(Debug, Deserialize)]
pub(super) struct EdgeStrip {
    pub(super) face: String,
    pub(super) stock: String,
    pub(super) thick: Figure,
}

/// A strip goes on an edge.
#[derive(Debug, Deserialize)]
pub(super) struct EdgeOn {
    pub(super) part: String,
    pub(super) face: String,
    pub(super) stock: String,
    pub(super) strip: [Figure; 3],
}

#[derive(Debug, Deserialize)]
pub(super) struct Faces {
    length: [String; 2],
    width: [String; 2],
    pub(super) thickness: [String; 2],
}

/// A face of a part: the axis across it, and whether the axis ends there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Face {
    pub(super) axis: usize,
    pub(super) is_end: bool,
}

impl Faces {
    /// The two names across each axis.
    pub(super) fn all(&self) -> [&[String; 2]; 3] {
        [&self.length, &self.width, &self.thickness]
    }

    pub(super) fn find(&self, name: &str) -> Option<Face> {
        self.all().iter().enumerate().find_map(|(axis, names)| {
            let side = names.iter().position(|own| own == name)?;
            Some(Face { axis, is_end: side == 1 })
        })
    }
}

#[derive(Debug, Deserialize)]
pub(super) struct Joint {
    pub(super) kind: JointKind,
    pub(super) part: String,
    pub(super) into: String,
    #[serde(default)]
    pub(super) glued: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum JointKind {
    Dado,
    Rabbet,
    #[serde(rename = "pocket screws")]
    PocketScrews,
    Screws,
    Dowels,
    Tenon,
    Dovetails,
    Butt,
    Miter,
    Floating,
    Glazed,
    Pinned,
    Planted,
    Hung,
    Slid,
    Laid,
    #[serde(rename = "front fixed")]
    FrontFixed,
}

#[derive(Debug, Deserialize)]
pub(super) struct Operation {
    pub(super) step: u32,
    #[serde(flatten)]
    pub(super) work: Work,
}

#[derive(Debug, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub(super) enum Work {
    #[serde(rename = "break down")]
    BreakDown(BreakDown),
    #[serde(rename = "order glass")]
    Pane(Pane),
    Stick(StickOf),
    Measure(MeasureOf),
    #[serde(rename = "glue up")]
    GlueUp(GlueUp),
    Mill(Mill),
    Edge(EdgeOn),
    Verify(Reading),
    Setting(Setting),
    Bore(Bore),
    Shape(Shape),
    Join(Join),
    #[serde(rename = "legs on")]
    Legs(LegsOn),
    #[serde(rename = "lay on")]
    LayOn(LayOn),
    #[serde(rename = "set on case")]
    SetOn(SetOn),
    #[serde(rename = "level base", alias = "set base")]
    LevelBase(LevelBase),
    #[serde(rename = "stand on base")]
    StandOn(StandOn),
    #[serde(rename = "set on base", alias = "screw onto base")]
    OnBase(Other),
    #[serde(rename = "cover ends")]
    CoverEnds(CoverEnds),
    Finish(CoatOn),
    #[serde(rename = "run on wood")]
    OnWood(RunsOn),
    /// From here on the work is done in the house.
    Carry {},
    #[serde(rename = "stand apart")]
    StandApart(StandApart),
    #[serde(rename = "fix cases")]
    Together(Together),
    #[serde(rename = "put up strip")]
    WallStrip(WallStrip),
    #[serde(rename = "lift onto strip")]
    Lift(Lift),
    #[serde(rename = "fix to wall")]
    Walled(Walled),
    #[serde(rename = "set rail")]
    Rail(Rail),
    #[serde(rename = "set stop")]
    Stop(StopStrip),
    #[serde(rename = "block leg")]
    LegBlock(LegBlock),
    #[serde(rename = "screw line")]
    ScrewLine(ScrewLine),
    #[serde(rename = "bore rows")]
    Rows(Rows),
    #[serde(rename = "set hinge")]
    Hinge(HungBy),
    #[serde(rename = "set slides")]
    Slides(Slides),
    Fasten(Fasten),
    #[serde(rename = "plug pockets")]
    Plug(TakeOff),
    #[serde(rename = "take off")]
    TakeOff(TakeOff),
    Glaze(Glaze),
    Scribe(Scribe),
    #[serde(rename = "fit filler")]
    FitFiller(FitFiller),
    #[serde(rename = "find in house")]
    Find(Find),
    #[serde(rename = "cut out")]
    CutOut(CutOut),
    #[serde(rename = "scribe kick")]
    ScribeKick(ScribeKick),
    #[serde(rename = "fit cover")]
    FitCover(FitCover),
    /// Nothing of it takes wood or closes a joint.
    #[serde(
        alias = "close with strips",
        alias = "dry-fit",
        alias = "fit",
        alias = "glue blocks",
        alias = "keep space",
        alias = "push in",
        alias = "lay frame",
        alias = "rest",
        alias = "sand",
        alias = "screw on dry",
        alias = "set catch",
        alias = "set front",
        alias = "spacers",
        alias = "stand off rail",
        alias = "stand off wall"
    )]
    Beside(Other),
}

/// Cases that are screwed to each other.
#[derive(Debug, Deserialize)]
pub(super) struct Together {
    pub(super) cases: Vec<String>,
}

/// Ends of a board of which the plies are hidden.
#[derive(Debug, Deserialize)]
pub(super) struct CoverEnds {
    pub(super) part: String,
    pub(super) faces: Vec<String>,
    pub(super) with: EndCover,
    pub(super) strip: Option<[Figure; 2]>,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum EndCover {
    Veneer,
    Filler,
}

/// A coat of finish.
#[derive(Debug, Deserialize)]
pub(super) struct CoatOn {
    pub(super) coat: u32,
    #[serde(default)]
    pub(super) surfaces: Vec<SurfaceOf>,
    #[serde(default)]
    pub(super) parts: Vec<String>,
    #[serde(default)]
    pub(super) bare: Vec<String>,
}

/// What it goes on.
#[derive(Debug, Deserialize)]
pub(super) struct SurfaceOf {
    pub(super) what: String,
}

/// What a drawer on wood runs on, beside, and under.
#[derive(Debug, Deserialize)]
pub(super) struct RunsOn {
    pub(super) opening: String,
    pub(super) on: Vec<String>,
    #[serde(default)]
    pub(super) guides: Vec<String>,
    #[serde(default)]
    pub(super) kickers: Vec<String>,
    #[serde(default)]
    pub(super) runners: Vec<String>,
}

/// The base of one case that is shimmed level by itself.
#[derive(Debug, Deserialize)]
pub(super) struct LevelBase {
    pub(super) parts: Vec<String>,
    pub(super) behind: Option<Figure>,
}

/// Cases that are stood on their base.
#[derive(Debug, Deserialize)]
pub(super) struct StandOn {
    pub(super) cases: Vec<String>,
    pub(super) base: String,
    pub(super) from: Vec<String>,
    pub(super) before: Figure,
    pub(super) left: Option<Figure>,
    pub(super) right: Option<Figure>,
}

/// A strip on the wall, so far up from the floor, for a case to rest on.
#[derive(Debug, Deserialize)]
pub(super) struct WallStrip {
    pub(super) case: String,
    pub(super) up: Figure,
    pub(super) over: Option<HangsOver>,
}

/// The case that one hangs over, and from the left side of that to its own.
#[derive(Debug, Deserialize)]
pub(super) struct HangsOver {
    pub(super) case: String,
    pub(super) left: Figure,
}

/// A case that is lifted onto its strip.
#[derive(Debug, Deserialize)]
pub(super) struct Lift {
    pub(super) case: String,
}

/// The boards that the wall screws go through.
#[derive(Debug, Deserialize)]
pub(super) struct Walled {
    pub(super) through: Vec<String>,
    #[serde(default)]
    pub(super) narrow: Vec<NarrowCase>,
}

/// A case that is set on another, and what it is screwed down by, in round holes and in
/// slots.
#[derive(Debug, Deserialize)]
pub(super) struct SetOn {
    pub(super) case: String,
    pub(super) from_end: Option<Figure>,
    pub(super) back: Option<Figure>,
    pub(super) bottom: Option<String>,
    pub(super) into: Vec<String>,
    #[serde(default)]
    pub(super) round: u32,
    #[serde(default)]
    pub(super) slotted: usize,
}

/// A countertop, and the rows of screws that hold it from below.
#[derive(Debug, Deserialize)]
pub(super) struct LayOn {
    pub(super) part: String,
    pub(super) free: Option<Figure>,
    pub(super) past: Vec<Past>,
    pub(super) ends: Vec<ScribedEnd>,
    pub(super) rows: Vec<ScrewRow>,
}

/// How far a countertop reaches past an upright under it.
#[derive(Debug, Deserialize)]
pub(super) struct Past {
    pub(super) board: String,
    pub(super) side: String,
    pub(super) by: Figure,
}

#[derive(Debug, Deserialize)]
pub(super) struct ScrewRow {
    pub(super) part: String,
    pub(super) from: String,
    pub(super) at: Figure,
    pub(super) screws: usize,
    pub(super) slotted: bool,
}

/// The line of the screws between two boards, on the face of one of them.
#[derive(Debug, Deserialize)]
pub(super) struct ScrewLine {
    pub(super) through: String,
    pub(super) face: String,
    pub(super) into: String,
    pub(super) from: [String; 2],
    pub(super) at: Figure,
    pub(super) first: Figure,
    #[serde(default)]
    pub(super) apart: Option<Figure>,
    pub(super) count: u32,
    pub(super) shim: Option<Figure>,
    /// The step in which the holes are bored.
    pub(super) bored: Option<u32>,
}

/// The slides of a drawer, and where its box is on them.
#[derive(Debug, Deserialize)]
pub(super) struct Slides {
    pub(super) opening: String,
    /// From the lower edge of the opening to the line of the slide, and from the top of the
    /// case's bottom.
    pub(super) above_opening: Figure,
    pub(super) above_bottom: Option<Figure>,
    /// From the lower edge of the opening to that of the box, and from there to the line.
    pub(super) box_above: Option<Figure>,
    pub(super) up_box: Option<Figure>,
    pub(super) on: Vec<SlideOn>,
}

/// What a slide is screwed to.
#[derive(Debug, Deserialize)]
pub(super) struct SlideOn {
    pub(super) board: String,
}

/// One or two rows of holes for pins in a face of a board.
#[derive(Debug, Deserialize)]
pub(super) struct Rows {
    pub(super) part: String,
    pub(super) face: String,
    pub(super) from: [String; 2],
    pub(super) first: Figure,
    pub(super) pitch: Bought,
    pub(super) holes: u32,
    #[serde(default)]
    pub(super) leaps: Vec<Leap>,
    pub(super) rows: Vec<Figure>,
    pub(super) diameter: Bought,
    pub(super) deep: Bought,
    pub(super) shelves: Vec<(String, u32)>,
}

/// A hinge of a door, and where its plate is screwed on.
#[derive(Debug, Deserialize)]
pub(super) struct HungBy {
    pub(super) door: String,
    pub(super) number: u32,
    #[serde(default)]
    pub(super) plate: Option<Plate>,
}

/// The plate of a hinge: the heights of its two screws from the bottom end of its board or
/// block, and their line from the front edge.
#[derive(Debug, Deserialize)]
pub(super) struct Plate {
    pub(super) part: String,
    pub(super) face: String,
    pub(super) screws: [Figure; 2],
    pub(super) line: Figure,
}

/// From a hole of a row, counted from the lowest, to the next, where that is further than the
/// pitch.
#[derive(Debug, Deserialize)]
pub(super) struct Leap {
    pub(super) after: u32,
    pub(super) up: Bought,
}

/// Screws, pins, or clips of one kind.
#[derive(Debug, Deserialize)]
pub(super) struct Fasten {
    #[serde(rename = "for")]
    pub(super) purpose: String,
    pub(super) size: Option<Size>,
    pub(super) gauge: Option<String>,
    pub(super) hole: Option<Bought>,
    #[serde(rename = "in")]
    pub(super) held: Vec<Held>,
}

/// How long they are.
#[derive(Debug, Deserialize)]
pub(super) struct Size {
    pub(super) is: Option<Bought>,
}

/// What some of them hold, and what they go into.
#[derive(Debug, Deserialize)]
pub(super) struct Held {
    pub(super) part: String,
    pub(super) count: usize,
    #[serde(default)]
    pub(super) into: Vec<String>,
}

/// Bought legs under the bottom of a case.
#[derive(Debug, Deserialize)]
pub(super) struct LegsOn {
    pub(super) case: String,
    pub(super) on: String,
    pub(super) from: [String; 2],
    pub(super) centers: Vec<[Figure; 2]>,
    pub(super) high: Figure,
    pub(super) wide: Figure,
    pub(super) foot: Figure,
    pub(super) holes: usize,
    pub(super) deep: Figure,
}

/// A block in the corner of a leg and the bottom over it.
#[derive(Debug, Deserialize)]
pub(super) struct LegBlock {
    pub(super) leg: String,
    pub(super) bottom: String,
    pub(super) side: Edge,
    pub(super) square: Figure,
    pub(super) long: Figure,
}

/// The strip that a door closes against.
#[derive(Debug, Deserialize)]
pub(super) struct StopStrip {
    pub(super) opening: String,
    pub(super) edge: Edge,
    pub(super) on: String,
    pub(super) face: String,
    pub(super) doors: Vec<String>,
    pub(super) size: [Figure; 3],
    pub(super) over: Figure,
    pub(super) gap: Figure,
}

/// An edge of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Edge {
    Left,
    Right,
    Top,
    Bottom,
}

/// A hanging rail between two boards.
#[derive(Debug, Deserialize)]
pub(super) struct Rail {
    pub(super) opening: String,
    pub(super) diameter: Bought,
    pub(super) long: Figure,
    pub(super) between: Figure,
    pub(super) screw: Option<Bought>,
    pub(super) on: Vec<Cup>,
    pub(super) hangs_from: Option<String>,
    #[serde(default)]
    pub(super) hangers: Vec<Figure>,
}

/// The cup at one of its ends.
#[derive(Debug, Deserialize)]
pub(super) struct Cup {
    pub(super) part: String,
    pub(super) face: String,
    pub(super) from: [String; 2],
    pub(super) above_end: Figure,
    pub(super) from_edge: Figure,
}

#[derive(Debug, Deserialize)]
#[serde(untagged)]
pub(super) enum Reading {
    Thickness(Verify),
    Moisture(Moisture),
}

/// What a meter shows of solid wood, in percent; else it rests.
#[derive(Debug, Deserialize)]
pub(super) struct Moisture {
    pub(super) stocks: Vec<String>,
    pub(super) percent: Degrees,
    pub(super) within: Degrees,
    pub(super) otherwise: Rest,
}

#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Rest {
    Rest,
}

/// A caliper reading.
#[derive(Debug, Deserialize)]
pub(super) struct Verify {
    pub(super) sheet: Option<String>,
    pub(super) parts: Vec<String>,
    pub(super) figure: Figure,
    pub(super) fine: String,
    pub(super) within: Figure,
    pub(super) thicker: Remedy,
    pub(super) thinner: Remedy,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Remedy {
    #[serde(rename = "enter as measured")]
    Enter,
    Plane,
    Replace,
}

#[derive(Debug, Deserialize)]
pub(super) struct BreakDown {
    pub(super) part: String,
    pub(super) stock: String,
    pub(super) size: [Figure; 3],
    #[serde(default = "one")]
    pub(super) pieces: u32,
}

/// A pane from the glazier.
#[derive(Debug, Deserialize)]
pub(super) struct Pane {
    pub(super) part: String,
    pub(super) stock: String,
    pub(super) size: [Figure; 3],
    pub(super) edges: PaneEdges,
}

/// What comes off again for the next work.
#[derive(Debug, Deserialize)]
pub(super) struct TakeOff {
    pub(super) parts: Vec<String>,
}

/// A pane in its rabbet.
#[derive(Debug, Deserialize)]
pub(super) struct Glaze {
    pub(super) pane: String,
    pub(super) clear: Figure,
    pub(super) beads: Vec<PinnedBead>,
    pub(super) pin: Figure,
}

/// A bead and how many pins hold it.
#[derive(Debug, Deserialize)]
pub(super) struct PinnedBead {
    pub(super) part: String,
    pub(super) pins: u32,
}

/// What a glazier does to the edges.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "lowercase")]
pub(super) enum PaneEdges {
    Polished,
    Seamed,
}

/// What parts are cut by.
#[derive(Debug, Deserialize)]
pub(super) struct MeasureOf {
    pub(super) what: String,
    pub(super) less: Option<Figure>,
    pub(super) more: Option<Figure>,
    pub(super) parts: Vec<String>,
}

/// One rough stick, and what is crosscut from it.
#[derive(Debug, Deserialize)]
pub(super) struct StickOf {
    pub(super) parts: Vec<String>,
    pub(super) stock: String,
    pub(super) size: [Figure; 3],
    #[serde(default = "one")]
    pub(super) pieces: u32,
}

fn one() -> u32 {
    1
}

#[derive(Debug, Deserialize)]
pub(super) struct GlueUp {
    pub(super) part: String,
    pub(super) way: Way,
    pub(super) size: [Figure; 3],
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
pub(super) enum Way {
    #[serde(rename = "edge to edge")]
    EdgeToEdge,
    #[serde(rename = "face to face")]
    FaceToFace,
}

#[derive(Debug, Deserialize)]
pub(super) struct Mill {
    pub(super) axis: Axis,
    pub(super) to: Figure,
    pub(super) parts: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Axis {
    Length,
    Width,
    Thickness,
}

#[derive(Debug, Deserialize)]
pub(super) struct Setting {
    pub(super) sheet: u32,
    pub(super) tool: String,
    pub(super) guide: Guide,
    pub(super) datum: String,
    pub(super) set: Vec<Figure>,
    pub(super) depths: Vec<Figure>,
    pub(super) pieces: Vec<Piece>,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Guide {
    Near,
    Far,
    Table,
    Lines,
    Saw,
}

#[derive(Debug, Deserialize)]
pub(super) struct Piece {
    pub(super) part: String,
    pub(super) face: String,
    /// It is cut while its stick is whole.
    #[serde(default)]
    pub(super) in_stick: bool,
    pub(super) feed: Option<Feed>,
    pub(super) stops: Vec<Stop>,
    pub(super) supports: Vec<Strip>,
    /// The edge that scrap is clamped against.
    pub(super) scrap: Option<String>,
    pub(super) push: Option<Push>,
}

/// What guides a board over the table saw.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Push {
    Fence,
    Sled,
}

/// A strip beside the work that carries the router's base.
#[derive(Debug, Deserialize)]
pub(super) struct Strip {
    pub(super) along: String,
    pub(super) wide: Figure,
}

#[derive(Debug, Deserialize)]
pub(super) struct Feed {
    pub(super) from: String,
    pub(super) to: String,
}

#[derive(Debug, Deserialize)]
pub(super) struct Stop {
    pub(super) short: Figure,
    pub(super) of: String,
}

#[derive(Debug, Deserialize)]
pub(super) struct Bore {
    pub(super) part: String,
    pub(super) face: String,
    pub(super) what: String,
    pub(super) from: [String; 2],
    pub(super) centers: Vec<[Figure; 2]>,
    pub(super) diameter: Figure,
    pub(super) deep: Figure,
    #[serde(default)]
    pub(super) behind: Vec<String>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Shape {
    pub(super) part: String,
    pub(super) what: Shaped,
    pub(super) face: String,
    pub(super) deep: Figure,
    pub(super) spans: [Span; 2],
    pub(super) long_point: Option<String>,
    pub(super) sawn: Option<Box<SawnMiter>>,
    pub(super) pockets: Option<Pockets>,
    pub(super) row: Option<Row>,
    pub(super) tails: Option<Tails>,
}

/// How the edge of a miter is sawn.
#[derive(Debug, Deserialize)]
pub(super) struct SawnMiter {
    pub(super) with: MiterSaw,
    pub(super) on: String,
    pub(super) up: String,
    pub(super) at: Figure,
}

/// What leads the saw for a miter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum MiterSaw {
    Fence,
    StraightEdge,
}

/// A row of pocket holes.
#[derive(Debug, Deserialize)]
pub(super) struct Pockets {
    pub(super) from: String,
    pub(super) centers: Vec<Figure>,
}

/// A row of dowel holes.
#[derive(Debug, Deserialize)]
pub(super) struct Row {
    pub(super) from: [String; 2],
    pub(super) centers: Vec<[Figure; 2]>,
    pub(super) dowel: Figure,
}

/// The tails at an end.
#[derive(Debug, Deserialize)]
pub(super) struct Tails {
    pub(super) slope: u32,
    pub(super) along: Vec<Span>,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Shaped {
    Notch,
    Slot,
    #[serde(rename = "rabbet for glass")]
    Glazing,
    Mortise,
    Tenon,
    Haunch,
    Dovetails,
    Miter,
    #[serde(rename = "pocket holes")]
    PocketHoles,
    #[serde(rename = "dowel holes")]
    DowelHoles,
}

#[derive(Debug, Deserialize)]
pub(super) struct Span {
    pub(super) from: String,
    pub(super) start: Figure,
    pub(super) end: Figure,
}

#[derive(Debug, Deserialize)]
pub(super) struct Join {
    pub(super) joints: Vec<usize>,
    pub(super) moves: Vec<Move>,
    pub(super) square: Option<Square>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Move {
    pub(super) parts: Vec<String>,
    #[serde(default)]
    pub(super) legs: Vec<Leg>,
    pub(super) how: Option<How>,
}

/// One straight stretch of a way in.
#[derive(Debug, Deserialize)]
pub(super) struct Leg {
    pub(super) from: Side,
    pub(super) by: Option<Figure>,
}

/// A side of the standing piece, seen from its front.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Side {
    Left,
    Right,
    Below,
    Above,
    Front,
    Back,
}

impl Side {
    /// The axis of the piece that it lies along.
    pub(super) fn axis(self) -> usize {
        match self {
            Self::Left | Self::Right => 0,
            Self::Below | Self::Above => 1,
            Self::Front | Self::Back => 2,
        }
    }

    /// So far toward that side.
    pub(super) fn out(self, by: f64) -> [f64; 3] {
        let begins = matches!(self, Self::Left | Self::Below | Self::Front);
        let mut way = [0.0; 3];
        way[self.axis()] = if begins { -by } else { by };
        way
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum How {
    Tilted,
}

#[derive(Debug, Deserialize)]
pub(super) struct Square {
    pub(super) sides: [Figure; 2],
    pub(super) diagonal: String,
}

#[derive(Debug, Deserialize)]
pub(super) struct Other {
    #[serde(default)]
    pub(super) parts: Vec<String>,
}

/// What is opened when the piece stands.
#[derive(Debug, Deserialize)]
pub(super) struct Opens {
    pub(super) doors: Vec<Door>,
    pub(super) drawers: Vec<Drawer>,
}

#[derive(Debug, Deserialize)]
pub(super) struct Door {
    pub(super) parts: Vec<String>,
    pub(super) hung: Side,
    pub(super) opens: Degrees,
    #[serde(flatten)]
    pub(super) turns: Turns,
}

/// What the front corner at the hinge edge does.
#[derive(Debug, Deserialize)]
#[serde(tag = "about", rename_all = "lowercase")]
pub(super) enum Turns {
    Pin { ahead: Figure },
    Path { poses: Vec<Pose> },
    Corner,
}

#[derive(Debug, Deserialize)]
pub(super) struct Pose {
    pub(super) at: Degrees,
    pub(super) out: Figure,
    pub(super) aside: Figure,
}

/// Of an angle or a moisture.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(try_from = "String")]
pub(super) struct Degrees(pub(super) f64);

impl TryFrom<String> for Degrees {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        figures::exact(&text).map(Self).ok_or_else(|| format!("no figure: {text}"))
    }
}

#[derive(Debug, Deserialize)]
pub(super) struct Drawer {
    pub(super) parts: Vec<String>,
    pub(super) travel: Figure,
}

#[derive(Debug, Deserialize)]
pub(super) struct Drawn {
    pub(super) parts: Vec<DrawnPart>,
}

#[derive(Debug, Deserialize)]
pub(super) struct DrawnPart {
    pub(super) mark: String,
    pub(super) size: [Figure; 3],
    pub(super) at: [Figure; 3],
    pub(super) axes: [Along; 3],
    pub(super) features: Vec<Feature>,
}

/// An axis of the piece.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Along {
    X,
    Y,
    Z,
}

#[derive(Debug, Deserialize)]
pub(super) struct Feature {
    pub(super) kind: FeatureKind,
    pub(super) face: String,
    pub(super) from: [Figure; 3],
    pub(super) to: [Figure; 3],
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum FeatureKind {
    Dado,
    Groove,
    Rabbet,
    #[serde(rename = "rabbet for glass")]
    Glazing,
    Miter,
    Notch,
    Slot,
    #[serde(rename = "pocket holes")]
    PocketHoles,
    #[serde(rename = "hinge cup")]
    HingeCup,
    #[serde(rename = "pull hole")]
    PullHole,
    #[serde(rename = "plate hole")]
    PlateHole,
    #[serde(rename = "leg hole")]
    LegHole,
    #[serde(rename = "round hole")]
    RoundHole,
    Flutes,
    Tenon,
    Haunch,
    Mortise,
    Dovetails,
    #[serde(rename = "dowel holes")]
    DowelHoles,
}

/// Reads a packet.
pub(super) fn read(text: &str) -> Result<Packet, String> {
    serde_json::from_str(text).map_err(|error| error.to_string())
}
