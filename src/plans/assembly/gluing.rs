//! What is glued up in one go: how many joints close together, how many clamps
//! that takes, and how long the glue has to wait for the last of them.

use std::collections::BTreeMap;

use crate::measure::{Duration, Length, Span};
use crate::model::{CaseId, JointKind, Piece};
use crate::parts::{
    Assembly, Direction, FeatureKind, Joint, JointSort, Part, PartId, Parts, Role, front_path,
};
use crate::plans::Workings;
use crate::plans::fitting::pockets_meet;
use crate::plans::operations::Step;
use crate::trade::{self, Staves};

/// A part with those of its joints that close under the same clamps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Closing {
    /// The part that is let in.
    pub part: PartId,
    /// How many joints.
    pub joints: u32,
    /// The length of all of them.
    pub long: Length,
    /// How many clamps pull them together.
    pub clamps: u32,
    /// Edge on face, with no groove or socket to brush.
    pub flat: bool,
}

/// Everything that closes in one go.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Load {
    /// What clamps close, part by part.
    pub closings: Vec<Closing>,
    /// The screws that are driven meanwhile: those of joints beside the clamped ones, and
    /// those that hold the back on to square the case.
    pub screws: u32,
}

impl Load {
    /// How many joints clamps close.
    #[must_use]
    pub fn joints(&self) -> u32 {
        self.closings.iter().map(|closing| closing.joints).sum()
    }

    /// The length of all of them.
    #[must_use]
    pub fn long(&self) -> Length {
        self.closings.iter().map(|closing| closing.long).sum()
    }

    /// How many clamps it takes.
    #[must_use]
    pub fn clamps(&self) -> u32 {
        self.closings.iter().map(|closing| closing.clamps).sum()
    }

    /// The screws that are driven while glue waits for a clamp. Where screws close every
    /// joint, each closes as soon as its own glue is on, and none waits.
    #[must_use]
    pub fn driven(&self) -> u32 {
        if self.joints() > 0 { self.screws } else { 0 }
    }

    /// From the first drop until the last clamp is tight and the last screw driven, in
    /// whole minutes.
    #[must_use]
    pub fn closing(&self) -> Duration {
        let spreading = if self.is_flat() { trade::spreading_flat } else { trade::spreading };
        let spreading = spreading(self.joints(), self.long());
        let closing = trade::clamping(self.clamps()).0 + trade::driving(self.driven()).0;
        Duration(spreading.0 + closing).whole_minutes()
    }

    /// True where a bead along each seam is all the spreading.
    #[must_use]
    pub fn is_flat(&self) -> bool {
        self.closings.iter().all(|closing| closing.flat)
    }
}

impl From<Vec<Closing>> for Load {
    fn from(closings: Vec<Closing>) -> Self {
        Self { closings, screws: 0 }
    }
}

/// What kind of thing is glued up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// Boards edge to edge.
    Panel,
    /// Parts let into each other.
    Joints,
    /// A face frame on its carcass.
    FrameOn,
}

/// A glue-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GlueUp {
    /// What kind.
    pub sort: Sort,
    /// What it is, for a sentence: `carcass of press`.
    pub what: String,
    /// Its name as a subject: `press.carcass`.
    pub path: String,
    /// The statement that it comes from.
    pub span: Span,
    /// What closes in it.
    pub load: Load,
}

/// The joints of a piece by what is glued up together.
#[derive(Debug)]
pub(super) struct Units<'a> {
    /// Wood joints within each unit.
    pub(super) within: BTreeMap<&'a Assembly, Vec<&'a Joint>>,
    /// Joints of each face frame with its carcass, by case.
    pub(super) frames_on: BTreeMap<CaseId, Vec<&'a Joint>>,
}

impl<'a> Units<'a> {
    pub(super) fn of(parts: &'a Parts) -> Self {
        let mut within: BTreeMap<&Assembly, Vec<&Joint>> = BTreeMap::new();
        let mut frames_on: BTreeMap<CaseId, Vec<&Joint>> = BTreeMap::new();
        let unit = |id| parts.get(id).map(|part| &part.assembly);
        for joint in &parts.joints {
            match (unit(joint.part), unit(joint.into)) {
                (Some(own), Some(other))
                    if own == other && matches!(joint.sort, JointSort::Wood(_)) =>
                {
                    within.entry(own).or_default().push(joint);
                }
                (Some(Assembly::Frame(case)), Some(Assembly::Carcass(other))) if case == other => {
                    frames_on.entry(*case).or_default().push(joint);
                }
                _ => {}
            }
        }
        Self { within, frames_on }
    }
}

/// Every glue-up of a piece, in the order of the work.
pub(in crate::plans) fn glue_ups(work: &Workings<'_>) -> Vec<GlueUp> {
    let mut all = Vec::new();
    for (whole, case) in at_once(work) {
        let Some(unit) = case else {
            all.push(whole);
            continue;
        };
        let stages = staged(work, &unit);
        let last = stages.len().saturating_sub(1);
        all.extend(stages.iter().enumerate().map(|(stage, joints)| {
            let mut load = joined(work.parts, joints);
            // The back goes on with the last of them.
            load.screws += if stage == last { tacked(work.parts, &unit) } else { 0 };
            GlueUp { load, ..whole.clone() }
        }));
    }
    all.retain(|glue_up| glue_up.load.joints() > 0);
    all
}

/// What closes in the glue-ups of a piece where every unit is closed in one go.
pub(in crate::plans) fn loads_at_once(work: &Workings<'_>) -> Vec<Load> {
    at_once(work).into_iter().map(|(whole, _)| whole.load).collect()
}

/// Every glue-up where each unit is closed in one go, and of a case the unit, which may
/// be glued up in stages.
fn at_once<'a>(work: &Workings<'a>) -> Vec<(GlueUp, Option<Assembly>)> {
    let Workings { piece, parts, .. } = *work;
    let units = Units::of(parts);
    let mut all = Vec::new();
    for (id, part) in parts.iter().filter(|(_, part)| is_glued_up(piece, part)) {
        let whole = GlueUp {
            sort: Sort::Panel,
            what: format!("blank of {}", part.path),
            path: part.path.clone(),
            span: part.span,
            load: vec![panel(piece, id, part)].into(),
        };
        all.push((whole, None));
    }
    let of_case = |unit: &Assembly, joints: &[&'a Joint]| {
        let mut load = joined(parts, joints);
        load.screws += tacked(parts, unit);
        load
    };
    for case in &piece.cases {
        let base = case.base.as_ref().map_or(case.span, |base| base.span);
        // A base under several cases goes by their run.
        let below = (piece.base_named(case.id), piece.row_path(case.id));
        let own = (case.name.clone(), case.path.as_str());
        let frame = case.frame.as_ref().map_or(case.span, |frame| frame.span);
        for (unit, name, (of, path), span) in [
            (Assembly::Frame(case.id), "face frame", own.clone(), frame),
            (Assembly::Base(case.id), "base", below, base),
            (Assembly::Carcass(case.id), "carcass", own, case.span),
        ] {
            let Some(joints) = units.within.get(&unit) else { continue };
            let whole = GlueUp {
                sort: Sort::Joints,
                what: format!("{name} of {of}"),
                path: format!("{path}.{}", name.replace(' ', "-")),
                span,
                load: of_case(&unit, joints),
            };
            all.push((whole, Some(unit)));
        }
        if let Some(joints) = units.frames_on.get(&case.id) {
            let whole = GlueUp {
                sort: Sort::FrameOn,
                what: format!("face frame on the carcass of {}", case.name),
                path: format!("{}.frame-on", case.path),
                span: frame,
                load: laid_on(parts, joints),
            };
            all.push((whole, None));
        }
    }
    for (unit, joints) in &units.within {
        let (what, path) = match unit {
            Assembly::Front(front) => {
                let path = front_path(piece, *front);
                (path.clone(), path)
            }
            Assembly::DrawerBox(opening) => {
                let path = piece.opening(*opening).map_or("", |opening| &opening.path);
                (format!("drawer box of {path}"), path.to_owned())
            }
            Assembly::Filler(case, side) => {
                let filler = piece.case(*case).and_then(|case| case.filler(*side));
                let Some(filler) = filler else { continue };
                (format!("filler {}", filler.name), filler.path())
            }
            Assembly::Base(_)
            | Assembly::Carcass(_)
            | Assembly::Frame(_)
            | Assembly::Countertop(_)
            | Assembly::Loose(_) => {
                continue;
            }
        };
        let whole = GlueUp {
            sort: Sort::Joints,
            what,
            path,
            span: joints.first().map_or_else(Span::default, |joint| joint.span),
            load: joined(parts, joints),
        };
        all.push((whole, None));
    }
    all
}

/// The screws that hold a back on while the glue of its carcass is open: one at each of
/// its four corners, and one halfway along each edge.
pub(super) fn tacked(parts: &Parts, unit: &Assembly) -> u32 {
    let Assembly::Carcass(case) = unit else { return 0 };
    let backs = parts.of_case(*case).iter().any(|part| part.role == Role::Back);
    if backs { 8 } else { 0 }
}

/// The wood joints of a unit, by the stages in which they are glued.
fn staged<'a>(work: &Workings<'a>, unit: &Assembly) -> Vec<Vec<&'a Joint>> {
    let of = |step: &Step| {
        let joints = step.joints.iter().filter_map(|index| work.parts.joints.get(*index));
        joints.filter(|joint| matches!(joint.sort, JointSort::Wood(_))).collect()
    };
    work.stages().get(unit).into_iter().flatten().map(of).collect()
}

/// True for a solid part that is wider than a board: its blank is glued up of
/// several. Where the yard's boards are not known, the usual board is a wide one.
pub(crate) fn is_glued_up(piece: &Piece, part: &Part) -> bool {
    widest_board(piece, part).is_some_and(|most| part.rough.width > most)
}

/// The layers of its stock that a part is as thick as; one for most parts. A rough board
/// gives more than the stock is planed to, and then one is enough.
pub(crate) fn layers(piece: &Piece, part: &Part) -> i64 {
    let Some(stock) = piece.stock(part.stock) else { return 1 };
    let thick = part.thickness.length;
    let (own, solid) = (stock.thickness.length, stock.is_solid());
    if solid && trade::planes_to(stock.nominal).is_some_and(|planed| thick <= planed) {
        return 1;
    }
    if own.is_positive() { (thick / own).ceil().clamp(1, 1000) } else { 1 }
}

/// True for a part that no single board of its stock gives.
pub(crate) fn is_blank(piece: &Piece, part: &Part) -> bool {
    is_glued_up(piece, part) || layers(piece, part) > 1
}

/// The boards of a glued-up blank.
pub(crate) fn boards(piece: &Piece, part: &Part) -> Staves {
    let most = widest_board(piece, part).unwrap_or(part.rough.width);
    trade::staves(part.rough.width, most)
}

/// How many boards of a glued-up blank make each of the parts of it that pass the
/// planer; all in one where the whole passes.
pub(crate) fn planed_in(piece: &Piece, part: &Part) -> Vec<i64> {
    let (boards, planer) = (boards(piece, part), piece.shop.planer);
    if part.rough.width <= planer {
        return vec![boards.count];
    }
    let pass = (planer / boards.wide).floor().clamp(1, boards.count);
    let parts = (boards.count + pass - 1) / pass;
    let one_more = boards.count % parts;
    (0..parts).map(|part| boards.count / parts + i64::from(part < one_more)).collect()
}

/// As a tape shows it: rough sizes are sawn to the next mark, and a board of the yard must
/// be no narrower than that.
fn widest_board(piece: &Piece, part: &Part) -> Option<Length> {
    let stock = piece.stock(part.stock).filter(|stock| stock.is_solid())?;
    let [_, usual] = trade::usual_board(piece.tape().unit);
    let widest = stock.boards.map_or(usual, |boards| boards.wide.1);
    // A board narrower than a mark is refused elsewhere.
    let down = piece.tape().down(widest);
    Some(if down.is_positive() { down } else { widest })
}

/// The seams between the boards of a glued-up blank.
pub(super) fn panel(piece: &Piece, id: PartId, part: &Part) -> Closing {
    seamed(id, part, boards(piece, part).count - 1)
}

/// So many seams along a blank.
pub(super) fn seamed(id: PartId, part: &Part, seams: i64) -> Closing {
    let (long, seams) = (part.rough.length, seams.max(1));
    Closing {
        part: id,
        joints: u32::try_from(seams).unwrap_or(1),
        long: long * seams,
        clamps: trade::panel_clamps(long),
        flat: false,
    }
}

/// The clamps for a part that is laminated face to face: two rows where it is wider
/// than a clamp's jaws press, 4 in (common practice, no source).
pub(super) fn laminated(work: &Workings<'_>, id: PartId, part: &Part) -> u32 {
    let rows = if part.rough.width > Length::inches(4, 1) { 2 } else { 1 };
    let long = work.sticks().rough_long(id, part);
    trade::panel_clamps(long) * rows
}

/// What a glue-up of joined parts asks. A clamp along a part closes the joints
/// at both its ends, so that end counts which takes more. Screws pull their
/// own joints together, one after the other, and no clamp holds those; but while one is
/// driven, the glue of the clamped joints waits.
pub(super) fn joined(parts: &Parts, joints: &[&Joint]) -> Load {
    let mut load = Vec::new();
    let mut ends: Vec<(PartId, [u32; 2])> = Vec::new();
    for joint in joints.iter().filter(|joint| is_clamped(joint)) {
        let long = seam(parts, joint);
        let clamps = trade::joint_clamps(long);
        let end = usize::from(is_at_end(parts, joint));
        let at = match ends.iter().position(|(part, _)| *part == joint.part) {
            Some(at) => at,
            None => {
                ends.push((joint.part, [0, 0]));
                load.push(Closing {
                    part: joint.part,
                    joints: 0,
                    long: Length::ZERO,
                    clamps: 0,
                    flat: false,
                });
                ends.len() - 1
            }
        };
        if let (Some((_, ends)), Some(closing)) = (ends.get_mut(at), load.get_mut(at)) {
            closing.joints += 1;
            closing.long += long;
            if let Some(count) = ends.get_mut(end) {
                *count += clamps;
            }
            closing.clamps = ends.iter().copied().max().unwrap_or(0);
        }
    }
    let screws = joints.iter().map(|joint| screws(parts, joint)).sum();
    Load { closings: load, screws }
}

/// The screws that draw a joint together.
pub(super) fn screws(parts: &Parts, joint: &Joint) -> u32 {
    let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
        return 0;
    };
    match joint.sort {
        JointSort::Wood(JointKind::Pocket) => {
            let own = part.features.iter().filter(|own| pockets_meet(part, own, into));
            own.map(|own| match own.kind {
                FeatureKind::Pockets(count, _) => count,
                _ => 0,
            })
            .sum()
        }
        // A bottom that is pushed into its box from behind is screwed when the glue is hard.
        JointSort::Wood(_) if part.role == Role::DrawerBottom => 0,
        JointSort::Wood(kind) if kind.draws_together() => trade::screws_along(seam(parts, joint)),
        _ => 0,
    }
}

/// What it asks to glue a face frame on. The seams of mitered stiles are each under
/// clamps of their own; so are those of flat ones, unless cauls lie from stile to stile
/// to press down what is between: each of these has a clamp at both its ends, and they
/// press the flat stiles too.
pub(super) fn laid_on(parts: &Parts, joints: &[&Joint]) -> Load {
    let cauls = cauls(parts, joints);
    let mut seams: Vec<Closing> = joints
        .iter()
        .filter(|joint| joint.glued)
        .map(|joint| {
            let own = is_outer(parts, joint) && (cauls == 0 || joint.sort == JointSort::Miter);
            let clamps = if own { clamps_along(parts, joint) } else { 0 };
            Closing { part: joint.part, joints: 1, long: seam(parts, joint), clamps, flat: true }
        })
        .collect();
    // At both ends of each caul a clamp bears on an outer stile.
    let is_stile =
        |own: &Closing| joints.iter().any(|joint| joint.part == own.part && is_outer(parts, joint));
    let stiles = u32::try_from(seams.iter().filter(|own| is_stile(own)).count()).unwrap_or(0);
    for own in seams.iter_mut().filter(|own| is_stile(own)) {
        own.clamps += 2 * cauls / stiles;
    }
    if let Some(first) = seams.first_mut().filter(|_| stiles == 0) {
        first.clamps += 2 * cauls;
    }
    seams.into()
}

/// How many cauls press down what lies between the outer stiles of a face frame; none
/// where nothing does.
pub(super) fn cauls(parts: &Parts, joints: &[&Joint]) -> u32 {
    let (outer, inner): (Vec<&Joint>, Vec<&Joint>) =
        joints.iter().partition(|joint| is_outer(parts, joint));
    let most = outer.iter().map(|joint| clamps_along(parts, joint)).max().unwrap_or(0);
    // Each rail that is glued to a board has one over it.
    let mut rails: Vec<Length> = inner
        .iter()
        .filter_map(|joint| parts.get(joint.part))
        .filter(|part| part.placement.length == Direction::X)
        .map(|part| part.cuboid().from.y)
        .collect();
    rails.sort_unstable();
    rails.dedup();
    let rails = u32::try_from(rails.len()).unwrap_or(u32::MAX);
    if inner.is_empty() { 0 } else { most.max(2).max(rails) }
}

/// How many clamps stand along a seam under clamps of its own.
pub(super) fn clamps_along(parts: &Parts, joint: &Joint) -> u32 {
    trade::joint_clamps(seam(parts, joint))
}

/// True where the stile of a frame lies on the end of its case.
pub(super) fn is_outer(parts: &Parts, joint: &Joint) -> bool {
    parts.get(joint.into).is_some_and(|into| matches!(into.role, Role::End(_)))
}

/// True for a joint that stays open until a clamp closes it.
fn is_clamped(joint: &Joint) -> bool {
    let drawn = matches!(joint.sort, JointSort::Wood(kind) if kind.draws_together());
    joint.glued && !drawn
}

/// How long a joint is: the longest side of what its two parts share or touch in.
fn seam(parts: &Parts, joint: &Joint) -> Length {
    let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
        return Length::ZERO;
    };
    let (part, into) = (part.cuboid(), into.cuboid());
    let [x, y, z] = Direction::ALL.map(|direction| part.overlap_along(&into, direction));
    x.max(y).max(z).max(Length::ZERO)
}

/// True where a part meets its host at the end of its length, not at its start.
fn is_at_end(parts: &Parts, joint: &Joint) -> bool {
    let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
        return false;
    };
    let along = part.placement.length;
    let middle = |part: &Part| {
        let (from, to) = part.extent(along);
        (from + to).half()
    };
    middle(into) > middle(part)
}
