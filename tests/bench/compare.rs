//! What was made, laid over what is drawn. Only here, at the end, is the
//! drawing looked at.

use super::board::{Board, Cut, Sort, whole};
use super::edging;
use super::figures::said;
use super::off::Off;
use super::packet::{Feature, FeatureKind, Form, JointKind, Packet};
use super::wood::{Grid, NOTHING, Space, common, difference};

/// How far figures may be off (common practice, no source): what one part must
/// fit into; what must line up on two parts; anything else, half a tape mark.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tolerance {
    pub(super) mating: f64,
    pub(super) agreeing: f64,
    pub(super) free: f64,
}

impl Tolerance {
    pub(super) fn of(packet: &Packet) -> Self {
        let mm = |millimeters| packet.job.unit.mm(millimeters);
        Self {
            mating: mm(0.1) + NOTHING,
            agreeing: mm(0.25) + NOTHING,
            free: packet.job.tape.exact / 2.0 + NOTHING,
        }
    }

    /// The same where fences and saws are off: places move, and what is cut by one
    /// setting keeps its width.
    pub(super) fn with(packet: &Packet, off: &Off) -> Self {
        let own = Self::of(packet);
        let slack = off.slack();
        Self { agreeing: own.agreeing + slack, free: own.free + slack, ..own }
    }
}

/// The thinnest wall that is left beside a groove or mortise: 3/16 in (common
/// practice, no source).
const WALL: f64 = 4.76;

const AXES: [&str; 3] = ["length", "width", "thickness"];

/// A drawn feature's box.
fn space(feature: &Feature) -> Space {
    [0, 1, 2].map(|axis| [feature.from[axis].exact, feature.to[axis].exact])
}

/// True for a cut that may be this feature.
fn is_kind(sort: Sort, kind: FeatureKind) -> bool {
    match kind {
        FeatureKind::Dado | FeatureKind::Groove | FeatureKind::Rabbet => sort == Sort::Channel,
        FeatureKind::Flutes => sort == Sort::Flute,
        FeatureKind::HingeCup
        | FeatureKind::PullHole
        | FeatureKind::PlateHole
        | FeatureKind::RoundHole
        | FeatureKind::LegHole => sort == Sort::Bore,
        FeatureKind::Notch | FeatureKind::Haunch => sort == Sort::Notch,
        FeatureKind::Slot => sort == Sort::Slot,
        FeatureKind::Glazing => sort == Sort::Glazing,
        FeatureKind::Mortise => sort == Sort::Mortise,
        FeatureKind::Tenon => sort == Sort::Tenon,
        FeatureKind::Dovetails => sort == Sort::Dovetails,
        FeatureKind::Miter => matches!(sort, Sort::Miter(..)),
        FeatureKind::PocketHoles | FeatureKind::DowelHoles => sort == Sort::Hidden,
    }
}

fn word(kind: FeatureKind) -> &'static str {
    match kind {
        FeatureKind::Dado => "dado",
        FeatureKind::Groove => "groove",
        FeatureKind::Rabbet => "rabbet",
        FeatureKind::Miter => "miter",
        FeatureKind::Notch => "notch",
        FeatureKind::Slot => "slot",
        FeatureKind::Glazing => "rabbet for glass",
        FeatureKind::PocketHoles => "row of pocket holes",
        FeatureKind::HingeCup => "hinge cup",
        FeatureKind::PullHole => "pull hole",
        FeatureKind::PlateHole => "plate hole",
        FeatureKind::RoundHole => "round hole",
        FeatureKind::LegHole => "leg hole",
        FeatureKind::Flutes => "flute",
        FeatureKind::Tenon => "tenon",
        FeatureKind::Haunch => "haunch",
        FeatureKind::Mortise => "mortise",
        FeatureKind::Dovetails => "row of dovetails",
        FeatureKind::DowelHoles => "row of dowel holes",
    }
}

/// A cut and the feature that it was meant to be.
struct Pair<'a> {
    cut: &'a Cut,
    feature: &'a Feature,
}

/// Lays cuts over features, the best match first: each feature is cut once.
fn pairs<'a>(board: &'a Board<'_>, reach: f64) -> (Vec<Pair<'a>>, Vec<&'a Cut>, Vec<&'a Feature>) {
    let features = &board.drawn.features;
    let mut likely: Vec<(f64, usize, usize)> = Vec::new();
    for (c, cut) in board.cuts.iter().enumerate() {
        for (f, feature) in features.iter().enumerate() {
            let drawn = space(feature);
            if !is_kind(cut.sort, feature.kind) {
                continue;
            }
            let made = common(&cut.space, &whole(board.exact)).unwrap_or(cut.space);
            let mut off: f64 = 0.0;
            for axis in (0..3).filter(|axis| Some(*axis) != cut.run) {
                for side in [0, 1] {
                    off = off.max((made[axis][side] - drawn[axis][side]).abs());
                }
            }
            // A cut may run on where a step has taken the wood already; of two
            // in one line it is the one that it covers.
            let mut along = 0.0;
            if let Some(run) = cut.run {
                let both = made[run][1].min(drawn[run][1]) - made[run][0].max(drawn[run][0]);
                let all = made[run][1].max(drawn[run][1]) - made[run][0].min(drawn[run][0]);
                if both <= 0.0 {
                    continue;
                }
                along = 1.0 - both / all;
            }
            if off <= reach {
                likely.push((off + along, c, f));
            }
        }
    }
    likely.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut cut, mut made) = (vec![false; board.cuts.len()], vec![false; features.len()]);
    let mut pairs = Vec::new();
    for (_, c, f) in likely {
        if !cut[c] && !made[f] {
            (cut[c], made[f]) = (true, true);
            pairs.push(Pair { cut: &board.cuts[c], feature: &features[f] });
        }
    }
    let extra = board.cuts.iter().zip(&cut).filter(|(_, used)| !**used).map(|(cut, _)| cut);
    let missing = features.iter().zip(&made).filter(|(_, used)| !**used).map(|(own, _)| own);
    (pairs, extra.collect(), missing.collect())
}

/// What is wrong with a part as it was made; `operation` names one.
pub(super) fn part(
    packet: &Packet,
    board: &Board<'_>,
    off: &Off,
    operation: &impl Fn(usize) -> String,
) -> Vec<String> {
    let tolerance = Tolerance::with(packet, off);
    let mut wrong = edging::wrong(packet, board);
    for (axis, name) in AXES.iter().enumerate() {
        let (made, drawn) = (board.size[axis], board.drawn.size[axis].exact);
        if (made - drawn).abs() > tolerance.free {
            wrong.push(format!("its {name} is {}, drawn {}", said(made), said(drawn)));
        }
        // A sheet is as thick as it was bought, and so are layers of it.
        let stock = packet.stocks.iter().find(|stock| stock.name == board.part.stock);
        let sheet = stock.is_some_and(|stock| stock.form == Form::Sheet);
        let bought = axis == 2 && sheet;
        if !board.milled[axis] && !bought {
            wrong.push(format!("its {name} is left rough"));
        }
    }
    let reach = packet.job.unit.mm(3.0) + tolerance.free;
    let (pairs, extra, missing) = pairs(board, reach);
    for cut in extra {
        wrong.push(format!("{} cuts what is not drawn there", operation(cut.operation)));
    }
    for feature in missing {
        let kind = word(feature.kind);
        wrong.push(format!("the {kind} in its {} is not cut as drawn", feature.face));
    }
    for pair in &pairs {
        wrong.extend(wide_of(board, pair, tolerance).into_iter().map(|what| {
            format!("{}: the {} {what}", operation(pair.cut.operation), word(pair.feature.kind))
        }));
    }
    let removed: Vec<Space> = board.cuts.iter().flat_map(|cut| stepped(cut, board)).collect();
    let wanted = drawn(board);
    // Two cuts that border on each other are each off by as much.
    let tolerance = tolerance.free * 2.0 + tolerance.mating;
    if let Some((space, left)) = difference(&whole(board.exact), &removed, &wanted, tolerance) {
        let what = if left { "wood is left" } else { "wood is gone" };
        let place = space.map(|range| format!("{} to {}", said(range[0]), said(range[1])));
        wrong.push(format!("{what} at {}", place.join(", ")));
    }
    wrong
}

/// The wood that the drawing takes.
fn drawn(board: &Board<'_>) -> Vec<Space> {
    let gone = |feature: &Feature| {
        let Some(face) = board.part.faces.find(&feature.face) else { return Vec::new() };
        let space = space(feature);
        // Which of its faces keeps its corner is a matter of the joint.
        let miter = board.cuts.iter().find(|cut| {
            matches!(cut.sort, Sort::Miter(..)) && common(&cut.space, &space).is_some()
        });
        let sort = match (feature.kind, miter) {
            (FeatureKind::Tenon, _) => Sort::Tenon,
            (FeatureKind::PocketHoles | FeatureKind::DowelHoles, _) => Sort::Hidden,
            (FeatureKind::Miter, Some(miter)) => miter.sort,
            _ => Sort::Notch,
        };
        stepped(&Cut { operation: 0, sort, space, face, run: None }, board)
    };
    board.drawn.features.iter().flat_map(gone).collect()
}

/// By how much a cut is not its feature.
fn wide_of(board: &Board<'_>, pair: &Pair<'_>, tolerance: Tolerance) -> Vec<String> {
    let (made, drawn) = (pair.cut.space, space(pair.feature));
    let deep = pair.cut.face.axis;
    let mut wrong = Vec::new();
    if board.part.faces.find(&pair.feature.face).is_none() {
        wrong.push(format!("is drawn in the {}, which it doesn't have", pair.feature.face));
    }
    for (axis, name) in AXES.iter().enumerate().filter(|(axis, _)| Some(*axis) != pair.cut.run) {
        let [long, wanted] = [made[axis], drawn[axis]].map(|range| range[1] - range[0]);
        let size = board.drawn.size[axis].exact;
        let most = match pair.feature.kind {
            // As wide as its rail, whose width no cheek is pressed by.
            FeatureKind::Tenon if axis != deep && wanted >= size - NOTHING => tolerance.free,
            FeatureKind::Dado
            | FeatureKind::Groove
            | FeatureKind::Rabbet
            | FeatureKind::Mortise
            | FeatureKind::Haunch
            | FeatureKind::Tenon => tolerance.mating,
            FeatureKind::HingeCup
            | FeatureKind::PullHole
            | FeatureKind::PlateHole
            | FeatureKind::RoundHole
            | FeatureKind::LegHole
                if axis != deep =>
            {
                tolerance.mating
            }
            // Both its sides are marks.
            FeatureKind::Notch | FeatureKind::PocketHoles | FeatureKind::DowelHoles => {
                tolerance.free * 2.0
            }
            _ => tolerance.free,
        };
        let what = if axis == deep { "deep".to_owned() } else { format!("along its {name}") };
        let by = (long - wanted).abs();
        if axis == deep && most < by && by <= tolerance.free {
            let (long, wanted) = (said(long), said(wanted));
            wrong.push(format!("is set too coarsely: {long} deep, drawn {wanted}"));
        } else if by > most {
            wrong.push(format!("is {} {what}, drawn {}", said(long), said(wanted)));
        }
        // The middle of what is as large as it should be shows its place.
        let [place, drawn] = [made[axis], drawn[axis]].map(|range| range[0] + range[1]);
        if axis != deep && (place - drawn).abs() / 2.0 > tolerance.free + tolerance.mating {
            let by = (place - drawn).abs() / 2.0;
            wrong.push(format!("is off by {} along the {name}", said(by)));
        }
    }
    wrong
}

/// Where two parts must line up and don't: what a part is let into on several
/// others must put it in one place.
pub(super) fn agreeing(packet: &Packet, boards: &[Board<'_>], off: &Off) -> Vec<String> {
    let tolerance = Tolerance::with(packet, off);
    let reach = packet.job.unit.mm(3.0) + tolerance.free;
    let find = |mark: &str| boards.iter().find(|board| board.part.mark == mark);
    let mut wrong = Vec::new();
    for guest in boards {
        // By axis of the piece: how far off each host puts it.
        let mut places: [Vec<(f64, &str)>; 3] = Default::default();
        let own = guest.placed(&whole(guest.exact));
        let joints = packet.joints.iter().filter(|joint| joint.part == guest.part.mark);
        for joint in joints.filter(|joint| is_let_in(joint.kind)) {
            let Some(host) = find(&joint.into) else { continue };
            let (pairs, ..) = pairs(host, reach);
            for pair in pairs {
                let (made, drawn) = (pair.cut.space, space(pair.feature));
                if !matches!(pair.cut.sort, Sort::Channel | Sort::Mortise)
                    || common(&host.placed(&drawn), &own).is_none()
                {
                    continue;
                }
                for axis in 0..3 {
                    if axis == pair.cut.face.axis || Some(axis) == pair.cut.run {
                        continue;
                    }
                    // A channel places what lies between its walls, and no part
                    // that reaches through it.
                    let along = host.along(axis);
                    let between = host.placed(&drawn)[along];
                    let within =
                        between[0] - reach < own[along][0] && own[along][1] < between[1] + reach;
                    if pair.cut.sort == Sort::Channel && !within {
                        continue;
                    }
                    let off = made[axis][0] - drawn[axis][0];
                    places[host.along(axis)].push((off, &host.part.mark));
                }
            }
        }
        for places in &places {
            let sorted = |a: &&(f64, &str), b: &&(f64, &str)| a.0.total_cmp(&b.0);
            let (least, most) = (places.iter().min_by(sorted), places.iter().max_by(sorted));
            let (Some(least), Some(most)) = (least, most) else { continue };
            if most.0 - least.0 > tolerance.agreeing {
                wrong.push(format!(
                    "{}: {} and {} don't line up, by {}",
                    guest.name(),
                    least.1,
                    most.1,
                    said(most.0 - least.0)
                ));
            }
        }
    }
    wrong
}

fn is_let_in(kind: JointKind) -> bool {
    matches!(kind, JointKind::Dado | JointKind::Rabbet | JointKind::Tenon | JointKind::Floating)
}

/// Walls beside grooves, dadoes, and mortises that are too thin to last.
pub(super) fn thin_walls(packet: &Packet, board: &Board<'_>) -> Vec<String> {
    let least = packet.job.unit.mm(WALL) - NOTHING;
    let fin = Tolerance::of(packet).free + Tolerance::of(packet).mating;
    let gone: Vec<Space> = board.cuts.iter().flat_map(|cut| stepped(cut, board)).collect();
    let grid = Grid::new(&whole(board.exact), gone.iter());
    let filled = grid.filled(&gone);
    let mut thin = Vec::new();
    for cut in &board.cuts {
        if !matches!(cut.sort, Sort::Channel | Sort::Mortise) {
            continue;
        }
        let Some(space) = common(&cut.space, &whole(board.exact)) else { continue };
        for axis in (0..3).filter(|axis| Some(*axis) != cut.run) {
            for is_end in [false, true] {
                let wall = grid.wall(&filled, &space, axis, is_end);
                // A fin of less than a tape can tell falls off by itself.
                if let Some(wall) = wall.filter(|wall| fin < *wall && *wall < least) {
                    let what = if axis == cut.face.axis { "under" } else { "beside" };
                    thin.push(format!(
                        "{}: only {} is left {what} its channel or mortise",
                        board.name(),
                        said(wall)
                    ));
                }
            }
        }
    }
    thin.sort();
    thin.dedup();
    thin
}

/// The wood that a cut takes; of a miter in steps, each a little less than it, so
/// that no wall is taken for thinner than it is.
fn stepped(cut: &Cut, board: &Board<'_>) -> Vec<Space> {
    const STEPS: u8 = 16;
    let Sort::Miter(outer, long) = cut.sort else { return cut.gone(board.exact) };
    let ([start, end], [from, to]) = (cut.space[long.axis], cut.space[outer.axis]);
    let [thick, wide] = [(end - start), (to - from)].map(|size| size / f64::from(STEPS));
    (1..=STEPS)
        .map(|step| {
            // The farther from the long point, the more is gone.
            let (deep, gone) = (f64::from(step - 1) * thick, f64::from(step - 1) * wide);
            let mut space = cut.space;
            space[long.axis] = match long.is_end {
                true => [end - deep - thick, end - deep],
                false => [start + deep, start + deep + thick],
            };
            space[outer.axis] = if outer.is_end { [to - gone, to] } else { [from, from + gone] };
            space
        })
        .collect()
}
