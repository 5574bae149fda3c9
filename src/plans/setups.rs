//! Set-ups of the router: what can be cut without touching fence, bit or depth.

mod bits;
mod sawn;
mod single;

use crate::measure::{Duration, Exact, Length};
use crate::model::{Piece, Shop};
use crate::parts::{Face, Feature, FeatureKind, Part, PartId, Parts};

use super::assembly::Stage;
use super::guide::{Guide, Guided};
use super::sawing::Tool;
use super::sticks::Sticks;
use super::support::Support;
pub use bits::OtherBits;
pub(super) use single::stops;
use single::{Single, agreeing, one};

/// One line of a set-up, across its run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutLine {
    /// From the datum to its near side.
    pub from: Length,
    /// Across.
    pub wide: Length,
}

/// The bit of a set-up, or the blade.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cutter {
    /// Its name in the spec; `None` for a blade, and where the spec has no bit that suits
    /// and a usual one is asked for.
    pub name: Option<String>,
    /// Its diameter, or the kerf of a blade: the settings hold for this one only.
    pub diameter: Length,
    /// The fastest a bit may turn: the spec's figure, or the limit for its size.
    pub speed: Option<u32>,
    /// The diameter of its shank, where the spec says it.
    pub shank: Option<Length>,
    /// The spec's notes on it.
    pub notes: Vec<String>,
}

/// A piece of a set-up: which part, and how far the router runs in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// The part.
    pub part: PartId,
    /// The face that is cut.
    pub face: Face,
    /// Which of its features are cut.
    pub features: Vec<usize>,
    /// The length of all its lines; of what is cut in a stick, that of the whole stick.
    pub length: Length,
    /// The stick that is cut while it is whole, by its place among all; its other parts have
    /// runs of their own here.
    pub stick: Option<usize>,
    /// It goes over the machine by itself, or as the first part of its stick.
    pub leads: bool,
    /// How far the cut stops short of the edges or ends that its run lies
    /// between; zero where it runs out.
    pub stops: (Length, Length),
    /// What carries the router's base beside it; nothing on a table.
    pub supports: Vec<Support>,
    /// What guides it over the table saw; `None` where a router cuts it.
    pub push: Option<Tool>,
}

impl Run {
    /// What the first cut of the part is measured from.
    #[must_use]
    pub fn datum(&self, part: &Part) -> Option<Face> {
        let feature = part.features.get(*self.features.first()?)?;
        Some(part.channel(feature).datum)
    }

    /// How far it stops short of the face that it comes to first and of the other;
    /// `forward` where it runs the way its ends are named.
    #[must_use]
    pub fn stops_along(&self, forward: bool) -> (Length, Length) {
        match forward {
            true => self.stops,
            false => (self.stops.1, self.stops.0),
        }
    }
}

/// What the time of a set-up is made of, besides the change of set-up itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Effort {
    /// How often a straight-edge, a fence, or a jig is moved to its next place
    /// and clamped there.
    pub clampings: i64,
    /// How often a piece is taken over the router table or the saw.
    pub passes: i64,
    /// How long the bit is in the wood.
    pub feeding: Duration,
}

/// A set-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setup {
    /// What is cut.
    pub kind: FeatureKind,
    /// What its pieces take their size from: those of a drawer lie on the bench long
    /// after those of the case.
    pub stage: Stage,
    /// The face, in the frame of its parts.
    pub face: Face,
    /// It runs along the length of its parts.
    pub along: bool,
    /// The end or edge that distances count from.
    pub datum: String,
    /// The face by name.
    pub face_name: String,
    /// The lines, from the datum; several only for flutes.
    pub lines: Vec<CutLine>,
    /// How deep.
    pub deep: Length,
    /// The bit.
    pub cutter: Cutter,
    /// The depth to set for each pass.
    pub passes: Vec<Length>,
    /// The pieces.
    pub runs: Vec<Run>,
    /// What the router runs along, and where it is set; `None` for flutes, whose
    /// lines are all listed.
    pub guided: Option<Guided>,
    /// Setting up and running all pieces.
    pub time: Duration,
    /// What that time is made of.
    pub effort: Effort,
}

impl Setup {
    /// The lines that are set. Flutes are symmetrical: each setting cuts one
    /// from the datum and one from the edge across from it, so the lines up to
    /// the middle are all.
    #[must_use]
    pub fn set_lines(&self) -> &[CutLine] {
        let set = match self.kind {
            FeatureKind::Flute(_) => self.lines.len().div_ceil(2),
            _ => self.lines.len(),
        };
        self.lines.get(..set).unwrap_or(&self.lines)
    }

    /// What is cut at it: parts and the numbers of their features.
    pub fn cuts(&self) -> impl Iterator<Item = (PartId, usize)> {
        self.runs.iter().flat_map(|run| run.features.iter().map(|number| (run.part, *number)))
    }

    /// What goes over the machine: single pieces, and whole sticks as their first parts.
    pub fn led(&self) -> impl Iterator<Item = &Run> {
        self.runs.iter().filter(|run| run.leads)
    }

    /// True where something is cut at it in a stick that is still whole.
    #[must_use]
    pub fn is_in_sticks(&self) -> bool {
        self.runs.iter().any(|run| run.stick.is_some())
    }

    /// True where one of both cuts a stick while it is whole, and the other a part that was
    /// crosscut from one of those by then.
    fn is_at_odds(&self, other: &Self, sticks: &Sticks) -> bool {
        let crosscut = |own: &Self| {
            let mut after = own.runs.iter().filter(|run| run.stick.is_none());
            after.any(|run| sticks.is_cut_first(run.part))
        };
        (self.is_in_sticks() && crosscut(other)) || (other.is_in_sticks() && crosscut(self))
    }
}

/// Every set-up: those of the saw, and then bit by bit, so that the bit is changed least; of one bit those
/// with one depth together.
pub(super) fn plan(piece: &Piece, parts: &Parts, sticks: &Sticks) -> Vec<Setup> {
    let mut singles = singles(piece, parts, sticks);
    let mut needed: Vec<Cutter> = Vec::new();
    for setup in singles.iter().map(|single| &single.setup) {
        let straight = !matches!(setup.kind, FeatureKind::Flute(_));
        if straight
            && !setup.is_sawn()
            && setup.other_bits(piece).is_none()
            && !needed.contains(&setup.cutter)
        {
            needed.push(setup.cutter.clone());
        }
    }
    // A rabbet whose bit nobody has may be cut by one that other cuts need.
    for single in &mut singles {
        if let Some((id, number)) =
            single.setup.is_open().then(|| single.setup.cuts().next()).flatten()
            && let Some(part) = parts.get(id)
            && let Some(feature) = part.features.get(number)
        {
            *single = one(piece, sticks, part, id, &[(number, feature)], &needed);
        }
    }
    let mut setups: Vec<Setup> = Vec::new();
    for setup in agreeing(singles) {
        add(&mut setups, setup, sticks);
    }
    for setup in &mut setups {
        setup.effort = effort(piece, setup);
        setup.time = time(&piece.shop, setup.effort);
    }
    setups.sort_by(|a, b| {
        let key = |s: &Setup| {
            let first = s.lines.first().map(|line| line.from);
            (!s.is_sawn(), s.cutter.name.clone(), s.cutter.diameter, s.deep, first)
        };
        key(a).cmp(&key(b))
    });
    setups
}

/// Each cut by itself.
fn singles(piece: &Piece, parts: &Parts, sticks: &Sticks) -> Vec<Single> {
    let mut singles: Vec<Single> = Vec::new();
    for (id, part) in parts.iter() {
        let mut flutes: Vec<(usize, &Feature)> = Vec::new();
        for (number, feature) in part.features.iter().enumerate() {
            let own = (number, feature);
            match feature.kind {
                FeatureKind::Flute(_) => flutes.push(own),
                _ if feature.is_channel() => {
                    singles.push(one(piece, sticks, part, id, &[own], &[]));
                }
                _ => {}
            }
        }
        if !flutes.is_empty() {
            singles.push(one(piece, sticks, part, id, &flutes, &[]));
        }
    }
    singles
}

impl Setup {
    /// True where it is cut along the fence of a router table.
    #[must_use]
    pub fn is_on_table(&self) -> bool {
        self.guided.as_ref().is_some_and(|guided| guided.guide == Guide::Table)
    }

    /// True where the table saw cuts it.
    #[must_use]
    pub fn is_sawn(&self) -> bool {
        self.guided.as_ref().is_some_and(|guided| guided.guide == Guide::Saw)
    }

    /// True for a rabbet whose bit hangs over the datum, where the spec names none for it.
    fn is_open(&self) -> bool {
        let over = self.lines.first().is_some_and(|line| line.from.is_zero());
        let far = self.guided.as_ref().is_some_and(|guided| guided.guide == Guide::Far);
        self.cutter.name.is_none() && over && far
    }

    /// True where both cut the same channel, whatever the tool.
    fn is_alike(&self, other: &Self) -> bool {
        self.deep == other.deep && self.is_alike_but_deep(other)
    }

    /// True where both cut the same channel but for its depth, whatever the tool.
    #[must_use]
    pub fn is_alike_but_deep(&self, other: &Self) -> bool {
        self.kind == other.kind
            && self.stage == other.stage
            && self.lines == other.lines
            && self.datum == other.datum
            && self.face.is_broad() == other.face.is_broad()
    }

    /// True where both cut the same channel but for its place, with the same tool.
    #[must_use]
    pub fn is_alike_but_place(&self, other: &Self) -> bool {
        let wide = |own: &Self| own.lines.iter().map(|line| line.wide).collect::<Vec<_>>();
        self.kind == other.kind
            && self.stage == other.stage
            && self.deep == other.deep
            && self.cutter == other.cutter
            && self.datum == other.datum
            && self.face.is_broad() == other.face.is_broad()
            && wide(self) == wide(other)
    }

    /// True where the part of a run is cut here already, in its other face. Runs come part
    /// by part.
    fn is_turned_for(&self, run: &Run) -> bool {
        let mut own = self.runs.iter().rev().take_while(|known| known.part == run.part);
        own.any(|known| known.face != run.face)
    }
}

/// A piece joins the set-up that would cut it, or begins a new one.
fn add(setups: &mut Vec<Setup>, new: Setup, sticks: &Sticks) {
    let same = setups.iter_mut().find(|old| {
        old.is_alike(&new)
            && old.cutter == new.cutter
            && old.guided == new.guided
            && !old.is_at_odds(&new, sticks)
            // The ends and the partition that hold one shelf are cut at one
            // setting, each in its own face; a partition that is cut in both of
            // its faces is two set-ups. On the table it makes no difference
            // which edge is down.
            && (!new.face.is_broad() || new.runs.iter().all(|run| !old.is_turned_for(run)))
    });
    match same {
        Some(old) => {
            for run in new.runs {
                match old.runs.iter_mut().rev().take_while(|known| known.part == run.part).find(
                    |known| {
                        (known.face, known.stops, known.push, known.stick)
                            == (run.face, run.stops, run.push, run.stick)
                    },
                ) {
                    Some(known) => {
                        known.length += run.length;
                        known.features.extend(run.features);
                    }
                    None => old.runs.push(run),
                }
            }
        }
        None => setups.push(new),
    }
}

/// What a set-up asks of the hands. A straight-edge is clamped to every piece,
/// once for each of its settings. A flute jig is moved and clamped for every
/// line of every piece. A fence stands for all pieces: it is moved between its
/// settings, and each piece is taken past it once a pass.
fn effort(piece: &Piece, setup: &Setup) -> Effort {
    let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
    let run: Length = setup.led().map(|run| run.length).sum();
    let (pieces, passes) = (count(setup.led().count()), count(setup.passes.len()));
    let settings = setup.guided.as_ref().map_or(1, |guided| count(guided.settings.len()));
    let (clampings, handled) = match setup.guided.as_ref().map(|guided| guided.guide) {
        None => (setup.runs.iter().map(|run| count(run.features.len())).sum(), 0),
        Some(Guide::Near | Guide::Far) => (settings * pieces, 0),
        Some(Guide::Table) => (settings - 1, settings * passes * pieces),
        // Between the walls the fence is nudged without care.
        Some(Guide::Saw) => ((settings - 1).min(1), settings * passes * pieces),
    };
    let feeding = run / piece.shop.feed * Exact::int(passes) * Exact::int(settings);
    Effort { clampings, passes: handled, feeding: Duration(feeding) }
}

fn time(shop: &Shop, effort: Effort) -> Duration {
    let hands = shop.times.clamping.0 * Exact::int(effort.clampings)
        + shop.times.pass.0 * Exact::int(effort.passes);
    Duration(shop.set_up.0 + Exact::int((hands + effort.feeding.0).ceil()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn planned(text: &str) -> Vec<Setup> {
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
        plan(&compiled.piece.expect("a piece"), &compiled.parts.expect("parts"), &Sticks::default())
    }

    const CONSOLE: &str = include_str!("../../specs/hall-console.case");

    /// Worked by hand. Three drawer fronts 17-1/16 wide, 22 lines each: 66
    /// lines. They are 4-13/16, 8-13/16, and 8-13/16 high, so 22 x 22-7/16 =
    /// 493-5/8 in of flute; at 100 in a minute 4.94 min, and twice, since the last pass
    /// across the grain is light. 15 + 66 x 3 + 2 x 4.94 = 222.87 min: between the 3-1/2 and 4-1/2 h that a maker takes for 66 lines
    /// with a router jig (common practice, no source).
    #[test]
    fn flutes_take_hours() {
        let setups = planned(CONSOLE);
        let drawers = setups.iter().find(|setup| setup.lines.len() == 22).expect("flutes");
        assert_eq!(drawers.effort.clampings, 66);
        assert_eq!(drawers.effort.passes, 0);
        assert_eq!(drawers.time, Duration(Exact::int(223)));
        assert!((210..=270).contains(&drawers.time.0.ceil()));
    }

    /// Worked by hand: 66 x 2 + 2 x 4.94 and 20 for the set-up are 162 min.
    #[test]
    fn a_shop_gives_its_own_times() {
        let text = CONSOLE
            .replace("  clamps    9;", "  clamps 8; set-up 20 min; times { clamping 2 min };");
        let setups = planned(&text);
        let drawers = setups.iter().find(|setup| setup.lines.len() == 22).expect("flutes");
        assert_eq!(drawers.time, Duration(Exact::int(162)));
    }

    /// Worked by hand. The dado for the bottom in both ends, with a 5/8 bit at
    /// two settings: the straight-edge is clamped twice on each of two pieces,
    /// 12 min, and 2 x 32-1/8 in are fed at 100 in a minute: 15 + 12.64. The
    /// grooves of three boxes on the table in two settings of four passes: the
    /// fence is moved once, twelve pieces go past it eight times, 48 min, and 8 x
    /// 187-1/2 in are fed in 15 min: 15 + 3 + 48 + 15.
    #[test]
    fn each_setting_of_a_guide_is_clamped() {
        let setups = planned(CONSOLE);
        let dado = setups.iter().find(|setup| {
            setup.kind == FeatureKind::Dado && setup.datum == "bottom end" && setup.runs.len() == 2
        });
        let dado = dado.expect("the dado of the ends");
        assert_eq!((dado.effort.clampings, dado.effort.passes), (4, 0));
        assert_eq!(dado.time, Duration(Exact::int(28)));
        let groove =
            setups.iter().find(|setup| setup.is_on_table()).expect("the grooves of the boxes");
        assert_eq!((groove.effort.clampings, groove.effort.passes), (1, 96));
        assert_eq!(groove.time, Duration(Exact::int(81)));
    }
}
