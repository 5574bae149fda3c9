//! Parts that must be made anew, are new, or are no longer needed.

use std::collections::BTreeSet;

use crate::diagnostics::listed;
use crate::measure::Tape;
use crate::model::{OpeningId, Piece, Size, Stock};
use crate::papers;
use crate::parts::{JointSort, Of, Part, PartId, Parts};
use crate::plans::Workings;
use crate::plans::ledger::State;

use super::difference::{Board, Joined, Marked, PartChange};
use super::features;
use super::matching::Match;
use super::part_places::same_way_up;
use super::two_sided::{Changes, Figure, Lists, Pair, Resized};

/// Compares all parts. One that only stands elsewhere is no change.
pub(super) fn compare(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
    tape: Tape,
) -> Changes<PartChange, Board> {
    let mut changes = Changes::default();
    let (old_joints, new_joints) = (joints_of(old.parts), joints_of(new.parts));
    for (was, now) in matched.parts.iter() {
        let (Some(a), Some(b)) = (old.parts.all.get(was), new.parts.all.get(now)) else { continue };
        let joints = joints(
            (old, old_joints.get(was).map_or(&[][..], Vec::as_slice)),
            (new, new_joints.get(now).map_or(&[][..], Vec::as_slice)),
            matched,
        );
        // What is left on to scribe is sawn with the rest.
        let ([a_long, a_wide], [b_long, b_wide]) = (a.as_made(), b.as_made());
        let sizes = [
            ("length", &a_long, &b_long),
            ("width", &a_wide, &b_wide),
            ("thickness", &a.thickness, &b.thickness),
        ];
        let change = PartChange {
            was: board(old, PartId(was), a, tape),
            now: board(new, PartId(now), b, tape),
            resized: sizes
                .into_iter()
                .filter_map(|(name, was, now)| Resized::of(name, was.length, now.length, tape))
                .collect(),
            restocked: is_restocked(old.piece, a, new.piece, b, matched),
            turned: !same_way_up(a, b),
            edges: Pair::unequal(edges(old, a, tape), edges(new, b, tape)),
            larger_core: a.core().iter().zip(&b.core()).any(|(was, now)| now.length > was.length),
            cuts: features::compare((old, a), (new, b), tape),
            joints,
            sheet: new.piece.stock(b.stock).is_some_and(|stock| !stock.is_solid()),
        };
        let same = change.resized.is_empty()
            && change.cuts.is_empty()
            && change.joints.is_empty()
            && change.edges.is_none();
        if change.is_remade() || !same {
            changes.changed.push(change);
        }
    }
    let (dropped, added) = matched.parts.left_over();
    let boards = |side: &Workings<'_>, left: Vec<usize>| {
        left.into_iter()
            .filter_map(|index| Some((index, side.parts.all.get(index)?)))
            .map(|(index, part)| board(side, PartId(index), part, tape))
            .collect()
    };
    changes.added = boards(new, added);
    changes.dropped = boards(old, dropped);
    changes
}

/// Parts that stay as they are but for their mark.
pub(super) fn re_marked(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
    changed: &[PartChange],
    renamed: &[Of],
) -> Vec<Marked> {
    let changed: BTreeSet<&str> = changed.iter().map(|change| change.now.path.as_str()).collect();
    let pair = |(was, now): (usize, usize)| {
        let (a, b) = (old.parts.all.get(was)?, new.parts.all.get(now)?);
        let mark = Pair::unequal(a.mark.clone(), b.mark.clone())?;
        let path = Pair { was: a.path.clone(), now: b.path.clone() };
        (!changed.contains(b.path.as_str())).then(|| {
            let within = innermost(old.piece, a.of, renamed);
            Marked { path, mark, within }
        })
    };
    matched.parts.iter().filter_map(pair).collect()
}

/// The place among the renamed cases and openings of the innermost that a part
/// belongs to: from its own opening outward to its case.
fn innermost(piece: &Piece, of: Of, renamed: &[Of]) -> Option<usize> {
    let at = |of: Of| renamed.iter().position(|renamed| *renamed == of);
    let own = match of {
        Of::Member(member) => piece.member(member).map(|member| member.list),
        Of::Case(_) | Of::Row(_) | Of::Opening(_) | Of::Front(_) => of.opening(),
    };
    let outward = |opening: &OpeningId| piece.opening(*opening)?.parent;
    std::iter::successors(own, outward)
        .find_map(|opening| at(Of::Opening(opening)))
        .or_else(|| at(Of::Case(of.case())))
}

fn board(side: &Workings<'_>, id: PartId, part: &Part, tape: Tape) -> Board {
    let figure = |size: &Size| Figure::new(size.length, tape);
    let stock = side.piece.stock(part.stock);
    let cut = match side.ledger().state(id) {
        State::Cut(cut) => Some(cut.date.to_string()),
        State::Uncut | State::Spoiled(_) => None,
    };
    Board {
        cut,
        path: part.path.clone(),
        mark: part.mark.clone(),
        name: papers::part_name(part, side.piece),
        stock: stock.map_or(String::new(), |stock| stock.name.clone()),
        wood: stock.map_or(String::new(), wood),
        length: figure(&part.length),
        width: figure(&part.width),
        thickness: figure(&part.thickness),
    }
}

/// `front edge: cherry 1/4`, or `bare`.
fn edges(side: &Workings<'_>, part: &Part, tape: Tape) -> String {
    let Some(first) = part.strips.first() else { return "bare".to_owned() };
    let faces: Vec<String> = part.strips.iter().map(|strip| part.face_name(strip.face)).collect();
    let stock = side.piece.stock(first.stock).map_or("", |stock| stock.name.as_str());
    format!("{}: {stock} {}", listed(&faces), tape.text(first.thick.length))
}

/// `lumber, black cherry, quartersawn`
fn wood(stock: &Stock) -> String {
    let mut words = vec![stock.kind.word().to_owned()];
    words.extend(stock.species.as_ref().map(|species| species.replace('-', " ")));
    if stock.is_solid() {
        words.push(format!("{}sawn", stock.sawn.word()));
    }
    words.join(", ")
}

/// Another stock, or the same name for another wood.
fn is_restocked(old: &Piece, a: &Part, new: &Piece, b: &Part, matched: &Match) -> bool {
    matched.stocks.new_of(a.stock.0) != Some(b.stock.0)
        || old.stock(a.stock).map(wood) != new.stock(b.stock).map(wood)
}

/// The joints by which each part is let into others; what it is hung on, laid
/// on or slid on is cut into nothing.
fn joints_of(parts: &Parts) -> Vec<Vec<(&'static str, PartId, bool)>> {
    let mut all = vec![Vec::new(); parts.all.len()];
    for joint in &parts.joints {
        let how = match joint.sort {
            JointSort::Wood(kind) => kind.word(),
            JointSort::Miter => "mitered seam",
            JointSort::Floating => "loose in a groove",
            JointSort::Glazed => "in the rabbet of a frame",
            JointSort::Pinned => "pinned",
            JointSort::Planted => "planted on",
            JointSort::Hung | JointSort::Slid | JointSort::Laid | JointSort::FrontFixed => continue,
        };
        if let Some(own) = all.get_mut(joint.part.0) {
            own.push((how, joint.into, joint.glued));
        }
    }
    all
}

type Own<'w, 'a> = (&'w Workings<'a>, &'w [(&'static str, PartId, bool)]);

fn joints((old, was): Own<'_, '_>, (new, now): Own<'_, '_>, matched: &Match) -> Lists<Joined> {
    let mut left: Vec<_> = now.to_vec();
    let mut dropped = Vec::new();
    let joined = |side: &Workings<'_>, (how, into, glued): (&'static str, PartId, bool)| Joined {
        how,
        glued,
        into: side.parts.mark(into).to_owned(),
    };
    for (how, into, glued) in was {
        let same = |other: &(&'static str, PartId, bool)| {
            other.0 == *how
                && other.2 == *glued
                && matched.parts.new_of(into.0).is_some_and(|now| now == other.1.0)
        };
        match left.iter().position(same) {
            Some(at) => {
                left.remove(at);
            }
            None => dropped.push(joined(old, (*how, *into, *glued))),
        }
    }
    // What is joined to a part that took another's place is joined as before.
    let mut added: Vec<Joined> = left.into_iter().map(|joint| joined(new, joint)).collect();
    dropped.retain(|was| {
        let same = |now: &Joined| (now.how, now.glued) == (was.how, was.glued);
        match added.iter().position(same) {
            Some(at) => {
                added.remove(at);
                false
            }
            None => true,
        }
    });
    Lists { added, dropped }
}
