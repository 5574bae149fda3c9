//! Wood that is cut already: what the shop has written down of it, and what
//! the drawing asks of it on either side.

use std::collections::BTreeMap;

use crate::measure::Tape;
use crate::model::Cut;
use crate::papers;
use crate::parts::{Key, Part, PartId};
use crate::plans::Workings;
use crate::plans::ledger::{self, Differs, State};
use crate::plans::made;

use super::cut_part::{CutPart, CutState, Need, Off};
use super::matching::Match;
use super::two_sided::{Changes, Figure, Pair};

/// Compares what is known of every part, and of names that no part has.
pub(super) fn compare(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
    tape: Tape,
) -> Changes<Pair<CutPart>, CutPart> {
    let mut changes = Changes::default();
    if old.piece.cuts.is_empty() && new.piece.cuts.is_empty() {
        return changes;
    }
    let (mut was, mut now) = (known(old, tape), known(new, tape));
    let mut old_names: BTreeMap<&str, &Cut> =
        on_bench(new).map(|cut| (cut.name.value.as_str(), cut)).collect();
    for (before, after) in matched.parts.iter() {
        let known = was.remove(&before);
        let kept = known.as_ref().and_then(|known| old_names.remove(known.path.as_str()));
        let after = match (now.remove(&after), kept) {
            (None, Some(cut)) => new.parts.get(PartId(after)).map(|part| old_name(cut, part, new)),
            (after, _) => after,
        };
        tell(known, after, &mut changes);
    }
    // What is left was cut for parts that the other side does not have.
    changes.dropped.extend(was.into_values());
    changes.added.extend(now.into_values());
    let mut gone: BTreeMap<&str, &Cut> =
        on_bench(old).map(|cut| (cut.name.value.as_str(), cut)).collect();
    for cut in old_names.into_values() {
        let before = gone.remove(cut.name.value.as_str()).map(for_nothing);
        tell(before, Some(for_nothing(cut)), &mut changes);
    }
    changes.dropped.extend(gone.into_values().map(for_nothing));
    changes
}

/// What lies there under a name that no part has.
fn on_bench<'a>(side: &Workings<'a>) -> impl Iterator<Item = &'a Cut> {
    side.ledger().gone.iter().copied().filter(|cut| cut.spoiled.is_none())
}

fn tell(was: Option<CutPart>, now: Option<CutPart>, changes: &mut Changes<Pair<CutPart>, CutPart>) {
    match (was, now) {
        (Some(was), Some(now)) => changes.changed.extend(Pair::unequal(was, now).filter(differs)),
        (Some(was), None) => changes.dropped.push(was),
        (None, Some(now)) => changes.added.push(now),
        (None, None) => {}
    }
}

/// Another name alone is told elsewhere.
fn differs(pair: &Pair<CutPart>) -> bool {
    let Pair { was, now } = pair;
    (&was.date, was.state, &was.needs) != (&now.date, now.state, &now.needs)
}

/// What is known of the parts of a side, by their index.
fn known(side: &Workings<'_>, tape: Tape) -> BTreeMap<usize, CutPart> {
    let mut needs = needs(side, tape);
    let part = |(id, part): (PartId, &Part)| {
        let (state, cut) = match side.ledger().state(id) {
            State::Uncut => return None,
            State::Cut(cut) => (CutState::Cut, cut),
            State::Spoiled(cut) => (CutState::Spoiled, cut),
        };
        let known = CutPart {
            path: part.path.clone(),
            mark: part.mark.clone(),
            name: papers::part_name(part, side.piece),
            date: cut.date.to_string(),
            state,
            needs: needs.remove(&part.key()).unwrap_or_default(),
        };
        Some((id.0, known))
    };
    side.parts.iter().filter_map(part).collect()
}

/// What the parts that are cut lack.
fn needs(side: &Workings<'_>, tape: Tape) -> BTreeMap<Key, Vec<Need>> {
    let ledger = &side.ledger();
    let mut needs: BTreeMap<Key, Vec<Need>> = BTreeMap::new();
    let mut add = |part: &Part, need: Need| needs.entry(part.key()).or_default().push(need);
    for (part, cut) in ledger.cut().filter(|(part, cut)| ledger.is_other_stock(part, cut)) {
        let stock = |name: Option<&str>| name.map(str::to_owned);
        add(
            part,
            Need::Stock {
                cut: stock(cut.stock.as_ref().map(|stock| stock.value.as_str())),
                wanted: stock(side.piece.stock(part.stock).map(|stock| stock.name.as_str())),
            },
        );
    }
    let sizes = |differs: &Differs<'_>| {
        let Pair { was: cut, now: wanted } = Figure::both(differs.was, differs.needs.length, tape);
        (differs.dimension.word(), cut, wanted)
    };
    for differs in &ledger.too_small() {
        let (size, cut, wanted) = sizes(differs);
        add(differs.part, Need::Larger { size, cut, wanted });
    }
    for differs in &ledger.trims() {
        let (size, cut, wanted) = sizes(differs);
        add(differs.part, Need::Smaller { size, cut, wanted, off: off(side, differs, tape) });
    }
    for (part, _, fit) in ledger.lost() {
        for lost in &fit.lost {
            let joint = made::said(lost.made.kind.value);
            let (how, was, wanted) = match lost.mismatch {
                made::Mismatch::Place { was, wanted, .. } => ("at", was, Some(wanted)),
                made::Mismatch::Size { word, was, wanted, .. } => (word, was, Some(wanted)),
                made::Mismatch::Gone { was, .. } => ("at", was, None),
            };
            let (cut, wanted) = match wanted {
                Some(wanted) => {
                    let Pair { was, now } = Figure::both(was, wanted, tape);
                    (was, Some(now))
                }
                None => (Figure::new(was, tape), None),
            };
            add(part, Need::Joint { joint, how, cut, wanted });
        }
    }
    for more in ledger.more_joints() {
        let [which, larger] = [false, true].map(|larger| more.listed(larger));
        add(more.part, Need::Joints { more: more.more, which, larger });
    }
    needs
}

/// Which sides the wood is taken off, where joints say so.
fn off(side: &Workings<'_>, trim: &Differs<'_>, tape: Tape) -> Vec<Off> {
    let ledger::Off::Sides(both) = side.ledger().off(trim) else { return Vec::new() };
    let printed = tape.spread(&both.map(|(_, off)| off)).into_iter().zip(both);
    printed
        .filter(|(by, _)| by.shown.is_positive())
        .map(|(by, (face, _))| Off {
            side: trim.part.face_name(face),
            by: Figure { length: by.exact, text: tape.show(by) },
        })
        .collect()
}

/// A board whose part has another name now.
fn old_name(cut: &Cut, part: &Part, side: &Workings<'_>) -> CutPart {
    CutPart {
        path: cut.name.value.clone(),
        mark: part.mark.clone(),
        name: papers::part_name(part, side.piece),
        date: cut.date.to_string(),
        state: CutState::OldName,
        needs: Vec::new(),
    }
}

/// A name that no part has.
fn for_nothing(cut: &Cut) -> CutPart {
    CutPart {
        path: cut.name.value.clone(),
        mark: String::new(),
        name: cut.name.value.clone(),
        date: cut.date.to_string(),
        state: CutState::ForNothing,
        needs: Vec::new(),
    }
}
