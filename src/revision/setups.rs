//! Set-ups of the router: new, no longer needed, set otherwise, other pieces.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use crate::measure::{Length, Tape};
use crate::parts::FeatureKind;
use crate::plans::Workings;
use crate::plans::guide::Guide;
use crate::plans::setups::{Run, Setup};

use super::difference::{Setting, SettingChange, SetupChange};
use super::matching::{Match, Pairs};
use super::two_sided::{Changes, Figure, Lists, Pair};

/// Compares all set-ups: those that are set alike first, then those with most
/// pieces in common.
pub(super) fn compare(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
    tape: Tape,
) -> Changes<SetupChange, Setting> {
    let mut pairs = Pairs::new(old.setups().len(), new.setups().len());
    for (was, a) in old.setups().iter().enumerate() {
        let same = new.setups().iter().position(|b| is_same(a, b));
        if let Some(now) = same {
            pairs.pair(was, now);
        }
    }
    let (old_left, new_left) = pairs.left_over();
    let parts = |b: &Setup| b.runs.iter().map(|run| run.part.0).collect();
    let new_left: Vec<(usize, &Setup, BTreeSet<usize>)> = new_left
        .into_iter()
        .filter_map(|now| new.setups().get(now).map(|b| (now, b, parts(b))))
        .collect();
    let mut candidates = Vec::new();
    for was in old_left {
        let Some(a) = old.setups().get(was) else { continue };
        let own: Vec<usize> =
            a.runs.iter().filter_map(|run| matched.parts.new_of(run.part.0)).collect();
        for (now, b, parts) in &new_left {
            let shared = own.iter().filter(|part| parts.contains(part)).count();
            if a.kind.word() == b.kind.word()
                && a.face.is_broad() == b.face.is_broad()
                && shared > 0
            {
                candidates.push((std::cmp::Reverse(shared), was, *now));
            }
        }
    }
    pairs.pair_best(candidates);
    let mut changes = Changes::default();
    for (was, now) in pairs.iter() {
        if let (Some(a), Some(b)) = (old.setups().get(was), new.setups().get(now)) {
            changes.changed.extend(change((old, a), (new, b), matched, tape));
        }
    }
    let (dropped, added) = pairs.left_over();
    let told = |side: &Workings<'_>, left: Vec<usize>| {
        let setups = left.into_iter().filter_map(|index| side.setups().get(index));
        setups.map(|setup| setting(side, setup, tape)).collect()
    };
    changes.added = told(new, added);
    changes.dropped = told(old, dropped);
    changes
}

fn change(
    (old, a): (&Workings<'_>, &Setup),
    (new, b): (&Workings<'_>, &Setup),
    matched: &Match,
    tape: Tape,
) -> Option<SetupChange> {
    let set = settings(a, b, tape);
    // A mid rail goes over the table once for each edge.
    let mut now: BTreeMap<usize, VecDeque<&Run>> = BTreeMap::new();
    for run in &b.runs {
        now.entry(run.part.0).or_default().push_back(run);
    }
    let mut pieces = Lists::default();
    let mut begins = Vec::new();
    for run in &a.runs {
        let other = matched.parts.new_of(run.part.0);
        let other = other.and_then(|part| now.get_mut(&part)).and_then(VecDeque::pop_front);
        match other {
            None => pieces.dropped.push(old.parts.mark(run.part).to_owned()),
            Some(other) if other.stops != run.stops => {
                begins.push(new.parts.mark(other.part).to_owned());
            }
            Some(_) => {}
        }
    }
    let came = b.runs.iter().filter(|run| {
        let left = now.get(&run.part.0);
        left.is_some_and(|left| left.iter().any(|own| std::ptr::eq(*own, *run)))
    });
    pieces.added = came.map(|run| new.parts.mark(run.part).to_owned()).collect();
    pieces.dropped.dedup();
    pieces.added.dedup();
    begins.dedup();
    let unchanged = set.is_empty() && pieces.is_empty() && begins.is_empty();
    (!unchanged).then(|| SetupChange {
        was: setting(old, a, tape),
        now: setting(new, b, tape),
        set,
        pieces,
        begins,
    })
}

/// True where no figure is set otherwise: each set-up is held against every
/// other, so nothing is put in words for it.
fn is_same(a: &Setup, b: &Setup) -> bool {
    let from_first = |setup: &Setup| {
        let first = first(setup);
        setup.lines.iter().map(move |line| line.from - first).collect::<Vec<_>>()
    };
    a.deep == b.deep
        && fence(a) == fence(b)
        && a.datum == b.datum
        && wide(a) == wide(b)
        && a.kind.word() == b.kind.word()
        && a.face.is_broad() == b.face.is_broad()
        && a.cutter.name == b.cutter.name
        && a.cutter.diameter == b.cutter.diameter
        && a.cutter.speed == b.cutter.speed
        && a.guided == b.guided
        && from_first(a) == from_first(b)
}

/// Every figure that is set otherwise.
fn settings(a: &Setup, b: &Setup, tape: Tape) -> Vec<SettingChange> {
    let mut set = Vec::new();
    let mut add = |what, was: String, now: String, same: bool| {
        if !same {
            set.push(SettingChange { what, was, now });
        }
    };
    let text = |length: Length| tape.text(length);
    if a.kind.word() != b.kind.word() || a.face.is_broad() != b.face.is_broad() {
        let told = |setup: &Setup| format!("{} in the {}", setup.kind.word(), setup.face_name);
        add("cut", told(a), told(b), false);
    }
    let bit = |setup: &Setup| {
        let none = if setup.is_sawn() { "saw blade" } else { "straight bit" };
        let name = setup.cutter.name.as_deref().unwrap_or(none);
        format!("{name} {}", text(setup.cutter.diameter))
    };
    let cutter = |setup: &Setup| (setup.cutter.name.clone(), setup.cutter.diameter);
    add("bit", bit(a), bit(b), cutter(a) == cutter(b));
    if let (Some(was), Some(now)) = (a.cutter.speed, b.cutter.speed) {
        add("rpm", was.to_string(), now.to_string(), was == now);
    }
    let place = |setup: &Setup| (fence(setup), setup.datum.clone());
    let both = |was, now| {
        let Pair { was, now } = Figure::both(was, now, tape);
        (was.text, now.text)
    };
    let (was, now) = both(fence(a), fence(b));
    let from = |figure: String, setup: &Setup| format!("{figure} from the {}", setup.datum);
    add("fence", from(was, a), from(now, b), place(a) == place(b));
    let (was, now) = both(a.deep, b.deep);
    add("depth", was, now, a.deep == b.deep);
    let (was, now) = both(wide(a), wide(b));
    add("width", was, now, wide(a) == wide(b));
    let pitch = |setup: &Setup| match setup.lines.as_slice() {
        [first, second, ..] => {
            format!("{}, {} apart", setup.lines.len(), text(second.from - first.from))
        }
        lines => lines.len().to_string(),
    };
    let moved = |setup: &Setup| -> Vec<Length> {
        setup.lines.iter().map(|line| line.from - first(setup)).collect()
    };
    add("lines", pitch(a), pitch(b), moved(a) == moved(b));
    // It follows from the fence; only another base plate moves it alone.
    if set.is_empty() && a.guided != b.guided {
        set.push(SettingChange { what: "guide", was: guide(a, tape), now: guide(b, tape) });
    }
    set
}

/// The guide and its settings in words.
fn guide(setup: &Setup, tape: Tape) -> String {
    let Some(guided) = &setup.guided else { return String::new() };
    let what = match guided.guide {
        Guide::Near | Guide::Far => "straight-edge",
        Guide::Table => "router table",
        Guide::Saw => "table saw",
    };
    let settings: Vec<String> = guided.settings.iter().map(|set| tape.text(*set)).collect();
    format!("{what} {}", settings.join(", then "))
}

fn is_flutes(setup: &Setup) -> bool {
    matches!(setup.kind, FeatureKind::Flute(_))
}

fn first(setup: &Setup) -> Length {
    setup.lines.first().map_or(Length::ZERO, |line| line.from)
}

fn wide(setup: &Setup) -> Length {
    setup.lines.first().map_or(Length::ZERO, |line| line.wide)
}

/// What the fence is set to: to the first center for flutes.
fn fence(setup: &Setup) -> Length {
    if is_flutes(setup) { first(setup) + wide(setup).half() } else { first(setup) }
}

fn setting(side: &Workings<'_>, setup: &Setup, tape: Tape) -> Setting {
    Setting {
        cut: setup.kind.word(),
        bit: setup.cutter.name.clone(),
        diameter: Figure::new(setup.cutter.diameter, tape),
        fence: Figure::new(fence(setup), tape),
        datum: setup.datum.clone(),
        deep: Figure::new(setup.deep, tape),
        wide: Figure::new(wide(setup), tape),
        lines: setup.lines.len(),
        pieces: setup.runs.iter().map(|run| side.parts.mark(run.part).to_owned()).collect(),
        made: setup
            .runs
            .iter()
            .filter(|run| side.ledger().is_made(run.part, &run.features))
            .map(|run| side.parts.mark(run.part).to_owned())
            .collect(),
    }
}
