//! Countertops: over a case, or over the cases of a run and the places between them.

use crate::measure::Length;
use crate::vocabulary::Side;

use super::case::{Case, Exposure};
use super::countertop::{Countertop, Over};
use super::id::{CaseId, RunId, SpaceId};
use super::piece::Piece;
use super::rows::Row;
use super::run::CaseRun;
use super::size::Size;

/// A countertop with what it lies on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnTop {
    /// What is said of it.
    pub spec: Countertop,
    /// The cases that carry it.
    pub row: Row,
    /// Their run, where it says so.
    pub run: Option<RunId>,
    /// From the left side of the first case to the left side of what it covers: nought, or
    /// less where a filler or a free place lies before that case.
    pub left: Size,
    /// From side to side of what it covers.
    pub wide: Size,
    /// The depth of the deepest case.
    pub deep: Size,
    /// From the floor to its underside.
    pub high: Size,
    /// How far it reaches past all that.
    pub over: Over,
    /// What its ends meet.
    pub exposure: [Exposure; 2],
    /// Free places at its ends, with nothing under it.
    pub bare: Vec<(Side, SpaceId)>,
}

/// Gives a piece its countertops.
pub(super) fn give(piece: &mut Piece) {
    let mut tops: Vec<OnTop> = piece.cases.iter().filter_map(of_case).collect();
    for (id, run) in (0..).map(RunId).zip(&piece.runs) {
        let Some(spec) = &run.countertop else { continue };
        let rows = rows(&piece.cases, id, run);
        tops.extend(rows.iter().filter_map(|row| over((id, run), spec, row)));
    }
    tops.sort_by_key(|top| top.row.first);
    piece.tops = tops;
}

fn of_case(case: &Case) -> Option<OnTop> {
    let spec = case.countertop.clone()?;
    Some(OnTop {
        row: Row { first: case.id, last: case.id },
        run: None,
        left: Size::zero(),
        wide: case.wide.clone(),
        deep: case.deep.clone(),
        high: case.high.clone(),
        over: spec.over.clone(),
        exposure: case.exposure.clone(),
        bare: Vec::new(),
        spec,
    })
}

/// The cases of a run that lie under its countertop, in one piece each: one that is higher
/// or lower, or a free place that it leaves open, parts it.
fn rows<'c>(cases: &'c [Case], id: RunId, run: &CaseRun) -> Vec<Vec<&'c Case>> {
    let mut rows: Vec<Vec<&Case>> = Vec::new();
    let mut goes_on: Option<&Case> = None;
    for case in cases.iter().filter(|case| case.run == Some(id)) {
        if !case.is_covered {
            goes_on = None;
            continue;
        }
        let left = goes_on.replace(case);
        let parted = left.is_none_or(|left| {
            let open = run
                .spaces
                .iter()
                .any(|space| space.is_open && left.x < space.x && space.x < case.x);
            open || left.high.length != case.high.length
        });
        match rows.last_mut().filter(|_| !parted) {
            Some(row) => row.push(case),
            None => rows.push(vec![case]),
        }
    }
    rows
}

/// One countertop of a run: it begins before its first case where a filler or a place for
/// an appliance does.
fn over((id, run): (RunId, &CaseRun), spec: &Countertop, row: &[&Case]) -> Option<OnTop> {
    let (first, last) = (*row.first()?, *row.last()?);
    let fill = |case: &Case, side: Side| {
        case.filler(side).map_or_else(Size::zero, |filler| filler.wide.clone())
    };
    // The places for appliances that follow each other from there on.
    let places = |mut at: Length, side: Side| {
        let mut found: Vec<(SpaceId, &Size)> = Vec::new();
        while let Some((place, space)) = (0..).zip(&run.spaces).find(|(_, space)| {
            !space.is_open
                && at
                    == match side {
                        Side::Left => space.x + space.wide.length,
                        Side::Right => space.x,
                    }
        }) {
            found.push((SpaceId { run: id, at: place }, &space.wide));
            at = match side {
                Side::Left => space.x,
                Side::Right => space.x + space.wide.length,
            };
        }
        found
    };
    let mut bare = Vec::new();
    let mut before = fill(first, Side::Left);
    for (place, own) in places(first.x - before.length, Side::Left) {
        before = before + own;
        bare.push((Side::Left, place));
    }
    let mut wide = before.clone();
    for case in row {
        if case.id != first.id {
            wide = wide + fill(case, Side::Left);
        }
        let filler = fill(case, Side::Right);
        let end = case.x + case.wide.length + filler.length;
        wide = wide + &case.wide + filler;
        for (place, own) in places(end, Side::Right) {
            wide = wide + own;
            if case.id == last.id {
                bare.push((Side::Right, place));
            }
        }
    }
    let start = first.x - before.length;
    let ends = [start == run.x, start + wide.length == run.x + run.wide.length];
    let exposure = [0, 1].map(|side| match ends[side] {
        true => run.exposure[side].clone(),
        false => Exposure::Neighbour,
    });
    let [left, right] = [0, 1].map(|side| match ends[side] {
        true => spec.over.sides[side].clone(),
        false => Size::zero(),
    });
    let deepest = row.iter().max_by_key(|case| case.deep.length)?;
    Some(OnTop {
        spec: spec.clone(),
        row: Row { first: first.id, last: last.id },
        run: Some(id),
        left: Size::zero() - before,
        wide,
        deep: deepest.deep.clone(),
        high: first.high.clone(),
        over: Over { sides: [left, right], ..spec.over.clone() },
        exposure,
        bare,
    })
}

impl OnTop {
    /// True for a case that carries it.
    #[must_use]
    pub fn has(&self, case: CaseId) -> bool {
        self.row.has(case)
    }
}

impl Piece {
    /// The countertop over a case.
    #[must_use]
    pub fn top_over(&self, case: CaseId) -> Option<&OnTop> {
        let own = self.case(case)?;
        let covers = |top: &&OnTop| top.has(case) && (own.is_covered || top.run.is_none());
        self.tops.iter().find(covers)
    }

    /// What a countertop is called after: its case, its run, or the cases under it where
    /// its run has another.
    #[must_use]
    pub fn top_named(&self, top: &OnTop) -> String {
        let of_run = self.tops.iter().filter(|other| other.run == top.run).count();
        match top.run.and_then(|run| self.run(run)).filter(|_| of_run == 1) {
            Some(run) => run.name.clone(),
            None => self.row_named(top.row),
        }
    }

    /// What the name of a countertop of a run begins with, by the first case under it.
    #[must_use]
    pub fn top_path(&self, first: CaseId) -> &str {
        let Some(case) = self.case(first) else { return "" };
        let of_run = self.tops.iter().filter(|top| top.run.is_some() && top.run == case.run);
        match case.run.and_then(|run| self.run(run)).filter(|_| of_run.count() == 1) {
            Some(run) => &run.name,
            None => &case.path,
        }
    }
}
