//! Set-ups of the router: what can be cut without touching fence, bit or depth.

use crate::measure::{Duration, Exact, Length};
use crate::model::{BitShape, Piece};
use crate::parts::{Face, Feature, FeatureKind, Part, PartId, Parts};
use crate::trade;

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
    /// Its name in the spec; `None` where the spec has no bit that suits.
    pub name: Option<String>,
    /// Its diameter; that of the cut where the spec has none.
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
    /// Which of its features are cut.
    pub features: Vec<usize>,
    /// The length of all its lines.
    pub length: Length,
    /// How far the cut begins short of the edge or end that the run starts at.
    pub stop: Length,
}

/// A set-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setup {
    /// What is cut.
    pub kind: FeatureKind,
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
    /// From the datum to a straight-edge that the base plate runs along; on
    /// the far side of the cut where there is no room before it.
    pub guide: Length,
    /// The straight-edge lies beyond the cut.
    pub guide_beyond: bool,
    /// Setting up and running all pieces.
    pub time: Duration,
}

/// Every set-up: bit by bit, so that the bit is changed least; of one bit those
/// with one depth together.
#[must_use]
pub fn plan(piece: &Piece, parts: &Parts) -> Vec<Setup> {
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

/// A piece joins the set-up that would cut it, or begins a new one.
fn add(setups: &mut Vec<Setup>, new: Setup) {
    let same = setups.iter_mut().find(|old| {
        old.kind == new.kind
            && old.deep == new.deep
            && old.lines == new.lines
            && old.datum == new.datum
            && old.cutter == new.cutter
            // A broad face and an edge are worked differently; which of the two
            // broad faces is up makes no difference to the fence.
            && old.face.is_broad() == new.face.is_broad()
    });
    match same {
        Some(old) => {
            for run in new.runs {
                match old.runs.iter_mut().find(|known| known.part == run.part) {
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
        many => many
            .iter()
            .map(|flute| flute.across(along))
            .map(|(from, to)| CutLine { from, wide: to - from })
            .collect(),
    };
    let cut = lines.first().map_or(Length::ZERO, |line| line.wide);
    let cutter = cutter(piece, first, cut);
    let offset = (piece.shop.base_plate - cutter.diameter).half();
    let near = lines.first().map_or(Length::ZERO, |line| line.from);
    let (guide, guide_beyond) =
        if near >= offset { (near - offset, false) } else { (near + cut + offset, true) };
    let length: Length = features.iter().map(|f| f.run(along)).map(|(from, to)| to - from).sum();
    Setup {
        kind: first.kind,
        face: first.face,
        along,
        datum: part.face_name(channel.datum),
        face_name: part.face_name(first.face),
        deep: first.deep,
        passes: trade::depth_passes(cutter.diameter, first.deep),
        cutter,
        lines,
        runs: vec![Run {
            part: id,
            features: numbered.iter().map(|(number, _)| *number).collect(),
            length,
            stop: channel.stops.0.max(Length::ZERO),
        }],
        guide,
        guide_beyond,
        time: Duration::default(),
    }
}

/// The bit for a cut: the flute's own, or the widest straight bit of the spec
/// that is not wider than the channel.
fn cutter(piece: &Piece, feature: &Feature, wide: Length) -> Cutter {
    let bit = match feature.kind {
        FeatureKind::Flute(index) => piece.bits.get(index),
        _ => piece
            .bits
            .iter()
            .filter(|bit| bit.shape == BitShape::Straight && bit.diameter <= wide)
            .max_by_key(|bit| bit.diameter),
    };
    let diameter = bit.map_or(wide, |bit| bit.diameter);
    let limit = trade::speed_limit(diameter);
    Cutter {
        name: bit.map(|bit| bit.name.clone()),
        shank: bit.and_then(|bit| bit.shank),
        notes: bit.map(|bit| bit.notes.clone()).unwrap_or_default(),
        diameter,
        speed: bit.and_then(|bit| bit.speed).map_or(limit, |speed| speed.min(limit)),
    }
}

/// Strokes across the width of a channel that is wider than its bit.
#[must_use]
pub fn strokes(setup: &Setup) -> i64 {
    let wide = setup.lines.first().map_or(Length::ZERO, |line| line.wide);
    match setup.kind {
        FeatureKind::Flute(_) => 1,
        _ => (wide / setup.cutter.diameter).ceil().max(1),
    }
}

fn time(piece: &Piece, setup: &Setup) -> Duration {
    let run: Length = setup.runs.iter().map(|run| run.length).sum();
    let feed = piece.shop.feed;
    let minutes = run / feed * Exact::int(setup.passes.len() as i64) * Exact::int(strokes(setup));
    Duration(piece.shop.set_up.0 + Exact::int(minutes.ceil()))
}
