//! Each cut by itself: its lines, its guide, what carries the base; and which cuts
//! are made by one method because they are equal.

use crate::measure::{Duration, Length, Tape};
use crate::model::{Piece, Stock};
use crate::parts::{Channel, Feature, FeatureKind, Part, PartId};
use crate::plans::assembly::stage;
use crate::plans::guide::{self, Board, Guide, Guided};
use crate::plans::sticks::Sticks;
use crate::plans::support::Stand;
use crate::trade;

use super::bits::{cutter, rabbet_cutter};
use super::sawn::{Sawn, sawn};
use super::{CutLine, Cutter, Effort, Run, Setup};

/// A cut by itself.
pub(super) struct Single {
    pub(super) setup: Setup,
    /// The same on a router table, where its board goes over one.
    on_table: Option<Setup>,
    /// The same by the table saw, where the shop asks for it and the board can be pushed.
    on_saw: Option<Setup>,
}

/// Equal cuts in narrow and in wide boards are made by one method: what two tools
/// cut never agrees to the thousandth. Where the narrow ones need the table, the
/// wide ones go over it too if all of them can, and all go to the saw or none.
pub(super) fn agreeing(singles: Vec<Single>) -> Vec<Setup> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (index, single) in singles.iter().enumerate() {
        let alike = |group: &&mut Vec<usize>| {
            let leader = group.first().and_then(|first| singles.get(*first));
            leader.is_some_and(|leader| leader.setup.is_alike(&single.setup))
        };
        match groups.iter_mut().find(alike) {
            Some(group) => group.push(index),
            None => groups.push(vec![index]),
        }
    }
    let mut goes = vec![(false, false); singles.len()];
    for group in groups {
        let own = || group.iter().filter_map(|index| singles.get(*index));
        let sawn = own().all(|single| single.on_saw.is_some());
        let over = own().any(|single| single.setup.is_on_table())
            && own().all(|single| single.on_table.is_some());
        for index in group {
            goes[index] = (sawn, over);
        }
    }
    let chosen = singles.into_iter().zip(goes);
    chosen
        .map(|(Single { setup, on_table, on_saw }, (sawn, over))| {
            let saw = on_saw.filter(|_| sawn);
            saw.or_else(|| on_table.filter(|_| over)).unwrap_or(setup)
        })
        .collect()
}

/// The set-up of one cut, or of all flutes of a part; a rabbet takes one of the bits that
/// are needed anyway.
pub(super) fn one(
    piece: &Piece,
    sticks: &Sticks,
    part: &Part,
    id: PartId,
    numbered: &[(usize, &Feature)],
    needed: &[Cutter],
) -> Single {
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
    let (long, wide) = part.face_size(first.face);
    let number = numbered.first().map(|(number, _)| *number);
    let stick = number.and_then(|number| sticks.cut_in(id, number));
    // What is cut in its stick lies on the machine in all its length.
    let whole = stick.and_then(|_| sticks.of(id));
    let long = whole.map_or(long, |stick| stick.long);
    let (run, across) = if along { (long, wide) } else { (wide, long) };
    let stops = stops(part, first, &channel);
    let through = stops == (Length::ZERO, Length::ZERO);
    let board = Board { face: first.face, across, run, through };
    let (base, unit) = (piece.shop.base_plate, piece.tape().unit);
    let narrow = cutter(piece, first, cut);
    let is_solid = piece.stock(part.stock).is_some_and(Stock::is_solid);
    let set = |cutter: Cutter, guided: Option<Guided>| {
        let own = features.iter().map(|f| f.run(along)).map(|(from, to)| to - from);
        let length = whole.map_or_else(|| own.sum(), |stick| stick.long);
        let mut setup = Setup {
            kind: first.kind,
            stage: stage(part),
            face: first.face,
            along,
            datum: part.face_name(channel.datum),
            face_name: part.face_name(first.face),
            deep: first.deep,
            passes: {
                let tears = !along && matches!(first.kind, FeatureKind::Flute(_)) && is_solid;
                passes(cutter.diameter, first.deep, piece.tape(), tears)
            },
            cutter,
            lines: lines.clone(),
            runs: Vec::new(),
            guided,
            time: Duration::default(),
            effort: Effort::default(),
        };
        let stand = setup.centers(base).map(|centers| Stand {
            base,
            centers,
            datum: channel.datum,
            size: (across, run),
            ends: first.face.ends_of_run(along),
            turned: setup.guided.is_none(),
        });
        setup.runs.push(Run {
            part: id,
            face: first.face,
            features: numbered.iter().map(|(number, _)| *number).collect(),
            length,
            stick,
            leads: whole.is_none_or(|stick| stick.is_under(id)),
            stops,
            supports: stand.map(|stand| stand.supports(unit)).unwrap_or_default(),
            push: None,
        });
        setup
    };
    if let FeatureKind::Flute(_) = first.kind {
        return Single { setup: set(narrow, None), on_table: None, on_saw: None };
    }
    let guided = |cutter: &Cutter| guide::guide(&channel, board, cutter.diameter, base, unit);
    let narrow_guided = guided(&narrow);
    let fits = narrow_guided.guide == Guide::Table || board.goes_over_table(&channel, unit);
    let on_table = fits.then(|| {
        let guided = guide::on_table(&channel, narrow.diameter);
        set(narrow.clone(), Some(guided))
    });
    let by_saw = sawn(&piece.shop, piece.tape(), first.kind, &channel, board);
    let on_saw = by_saw.map(|Sawn { blade, guided, push }| {
        let mut setup = set(blade, Some(guided));
        setup.passes = vec![first.deep];
        for run in &mut setup.runs {
            run.push = Some(push);
        }
        setup
    });
    // No fence is set to a bit that hangs over the datum.
    let over = (channel.from.is_zero() && narrow_guided.guide == Guide::Far)
        .then(|| rabbet_cutter(piece, &narrow, cut, needed))
        .flatten()
        .map(|wide| (guided(&wide), wide))
        .filter(|(guided, _)| guided.guide == Guide::Far);
    let setup = match over {
        Some((guided, wide)) => set(wide, Some(guided)),
        None => set(narrow, Some(narrow_guided)),
    };
    Single { setup, on_table, on_saw }
}

impl Setup {
    /// The centers of the bit nearest to the datum and farthest from it, where a
    /// hand leads it.
    fn centers(&self, base: Length) -> Option<(Length, Length)> {
        let centers = match &self.guided {
            Some(Guided { guide: Guide::Table | Guide::Saw, .. }) => return None,
            Some(guided) => guided.centers(self.cutter.diameter, base),
            None => self.set_lines().iter().map(|line| line.from + line.wide.half()).collect(),
        };
        Some((centers.iter().min().copied()?, centers.iter().max().copied()?))
    }
}

/// The depth to set for each pass. Those before the last are free, and lie on
/// marks of the tape.
fn passes(bit: Length, deep: Length, tape: &Tape, tears: bool) -> Vec<Length> {
    let mut passes = trade::depth_passes(bit, deep);
    if tears {
        passes = trade::light_last(passes, tape.unit);
    }
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
pub(in crate::plans) fn stops(
    part: &Part,
    feature: &Feature,
    channel: &Channel,
) -> (Length, Length) {
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
