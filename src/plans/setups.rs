//! Set-ups of the router: what can be cut without touching fence, bit or depth.

use crate::measure::{Duration, Exact, Length, Tape};
use crate::model::{BitShape, Piece};
use crate::parts::{Channel, Face, Feature, FeatureKind, Part, PartId, Parts};
use crate::trade;

use super::assembly::{Stage, stage};
use super::guide::{self, Board, Guided};

/// One line of a set-up, across its run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutLine {
    /// From the datum to its near side.
    pub from: Length,
    /// Across.
    pub wide: Length,
}

/// The bit of a set-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cutter {
    /// Its name in the spec; `None` where the spec has no bit that suits, and a
    /// usual one is asked for.
    pub name: Option<String>,
    /// Its diameter: the settings hold for this one only.
    pub diameter: Length,
    /// The fastest it may turn: the spec's figure, or the limit for its size.
    pub speed: u32,
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
    /// The length of all its lines.
    pub length: Length,
    /// How far the cut stops short of the edges or ends that its run lies
    /// between; zero where it runs out.
    pub stops: (Length, Length),
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
}

/// Every set-up: bit by bit, so that the bit is changed least; of one bit those
/// with one depth together.
pub(super) fn plan(piece: &Piece, parts: &Parts) -> Vec<Setup> {
    let mut setups: Vec<Setup> = Vec::new();
    for (id, part) in parts.iter() {
        let mut flutes: Vec<(usize, &Feature)> = Vec::new();
        for (number, feature) in part.features.iter().enumerate() {
            let own = (number, feature);
            match feature.kind {
                FeatureKind::Flute(_) => flutes.push(own),
                _ if feature.is_channel() => add(&mut setups, one(piece, part, id, &[own])),
                _ => {}
            }
        }
        if !flutes.is_empty() {
            add(&mut setups, one(piece, part, id, &flutes));
        }
    }
    for setup in &mut setups {
        setup.time = time(piece, setup);
    }
    setups.sort_by(|a, b| {
        let key = |s: &Setup| {
            (s.cutter.name.clone(), s.cutter.diameter, s.deep, s.lines.first().map(|l| l.from))
        };
        key(a).cmp(&key(b))
    });
    setups
}

impl Setup {
    /// True where the part of a run is cut here already, in its other face.
    fn is_turned_for(&self, run: &Run) -> bool {
        self.runs.iter().any(|known| known.part == run.part && known.face != run.face)
    }
}

/// A piece joins the set-up that would cut it, or begins a new one.
fn add(setups: &mut Vec<Setup>, new: Setup) {
    let same = setups.iter_mut().find(|old| {
        old.kind == new.kind
            && old.stage == new.stage
            && old.deep == new.deep
            && old.lines == new.lines
            && old.datum == new.datum
            && old.cutter == new.cutter
            && old.guided == new.guided
            // The ends and the partition that hold one shelf are cut at one
            // setting, each in its own face; a partition that is cut in both of
            // its faces is two set-ups. On the table it makes no difference
            // which edge is down.
            && old.face.is_broad() == new.face.is_broad()
            && (!new.face.is_broad() || new.runs.iter().all(|run| !old.is_turned_for(run)))
    });
    match same {
        Some(old) => {
            for run in new.runs {
                match old
                    .runs
                    .iter_mut()
                    .rev()
                    .take_while(|known| known.part == run.part)
                    .find(|known| (known.face, known.stops) == (run.face, run.stops))
                {
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

fn one(piece: &Piece, part: &Part, id: PartId, numbered: &[(usize, &Feature)]) -> Setup {
    let features: Vec<&Feature> = numbered.iter().map(|(_, feature)| *feature).collect();
    let first = features[0];
    let channel = part.channel(first);
    let along = channel.along;
    let lines = match features.as_slice() {
        [_] => vec![CutLine { from: channel.from, wide: channel.wide }],
        // Flutes are symmetrical; all of them count from one side.
        many => {
            let channels = many.iter().map(|flute| part.channel(flute));
            let mut lines: Vec<CutLine> =
                channels.map(|flute| CutLine { from: flute.from, wide: flute.wide }).collect();
            lines.sort_by_key(|line| line.from);
            lines
        }
    };
    let cut = lines.first().map_or(Length::ZERO, |line| line.wide);
    let cutter = cutter(piece, first, cut);
    let (long, wide) = part.face_size(first.face);
    let (run, across) = if along { (long, wide) } else { (wide, long) };
    let guided = (!matches!(first.kind, FeatureKind::Flute(_))).then(|| {
        let board = Board { face: first.face, across, run };
        guide::guide(&channel, board, cutter.diameter, piece.shop.base_plate, piece.tape().unit)
    });
    let length: Length = features.iter().map(|f| f.run(along)).map(|(from, to)| to - from).sum();
    Setup {
        kind: first.kind,
        stage: stage(part),
        face: first.face,
        along,
        datum: part.face_name(channel.datum),
        face_name: part.face_name(first.face),
        deep: first.deep,
        passes: passes(cutter.diameter, first.deep, piece.tape()),
        cutter,
        lines,
        runs: vec![Run {
            part: id,
            face: first.face,
            features: numbered.iter().map(|(number, _)| *number).collect(),
            length,
            stops: stops(part, first, &channel),
        }],
        guided,
        time: Duration::default(),
    }
}

/// The depth to set for each pass. Those before the last are free, and lie on
/// marks of the tape.
fn passes(bit: Length, deep: Length, tape: &Tape) -> Vec<Length> {
    let mut passes = trade::depth_passes(bit, deep);
    if let Some((_, before)) = passes.split_last_mut() {
        for pass in before {
            *pass = tape.print(*pass).shown;
        }
    }
    passes.dedup();
    passes
}

/// How far a cut stops short of both sides of its run. Up to a step that is as
/// deep it may run out: there is no wood left to stop before.
fn stops(part: &Part, feature: &Feature, channel: &Channel) -> (Length, Length) {
    let along = channel.along;
    let (across, run) = (feature.across(along), feature.run(along));
    let gone = |from: Length, to: Length| {
        part.features.iter().any(|other| {
            let (beside, over) = (other.across(along), other.run(along));
            other.is_channel()
                && other.face == feature.face
                && other.deep >= feature.deep
                && (beside.0 <= across.0 && across.1 <= beside.1)
                && (over.0 <= from && to <= over.1)
        })
    };
    let left = |stop: Length, from: Length, to: Length| match stop.is_positive() && !gone(from, to)
    {
        true => stop,
        false => Length::ZERO,
    };
    let (start, end) = channel.stops;
    (left(start, Length::ZERO, run.0), left(end, run.1, run.1 + end))
}

/// The bit for a cut: the flute's own, or the widest straight bit of the spec
/// that goes into the channel, or the usual one that does.
fn cutter(piece: &Piece, feature: &Feature, wide: Length) -> Cutter {
    let bit = match feature.kind {
        FeatureKind::Flute(index) => piece.bit(index),
        _ => piece
            .bits
            .iter()
            .filter(|bit| bit.shape == BitShape::Straight && bit.diameter <= wide + trade::mating())
            .max_by_key(|bit| bit.diameter),
    };
    let diameter =
        bit.map_or_else(|| trade::usual_bit(wide, piece.tape().unit), |bit| bit.diameter);
    let limit = trade::speed_limit(diameter);
    Cutter {
        name: bit.map(|bit| bit.name.clone()),
        shank: bit.and_then(|bit| bit.shank),
        notes: bit.map(|bit| bit.notes.clone()).unwrap_or_default(),
        diameter,
        speed: bit.and_then(|bit| bit.speed).map_or(limit, |speed| speed.min(limit)),
    }
}

/// Places of the guide, each a stroke of its own.
fn strokes(setup: &Setup) -> i64 {
    setup.guided.as_ref().map_or(1, |guided| guided.settings.len() as i64)
}

fn time(piece: &Piece, setup: &Setup) -> Duration {
    let run: Length = setup.runs.iter().map(|run| run.length).sum();
    let feed = piece.shop.feed;
    let minutes = run / feed * Exact::int(setup.passes.len() as i64) * Exact::int(strokes(setup));
    Duration(piece.shop.set_up.0 + Exact::int(minutes.ceil()))
}
