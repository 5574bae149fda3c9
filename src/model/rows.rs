//! Cases of a run for which something is made once.

use crate::diagnostics::listed;

use super::case::Case;
use super::id::CaseId;
use super::piece::Piece;
use crate::measure::Length;
use crate::vocabulary::Side;

/// Cases of a run, side by side, that share what is made once for all of them, or a
/// single one between others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    /// The leftmost.
    pub first: CaseId,
    /// The rightmost.
    pub last: CaseId,
}

impl Row {
    /// True for a case of it.
    #[must_use]
    pub fn has(&self, case: CaseId) -> bool {
        self.first <= case && case <= self.last
    }
}

/// Gives every run of a piece the rows of its cases that stand on one base. A separate
/// base is leveled by itself on the line of the whole run, under a single case too; what
/// is cut into the ends of a single case is made with that.
pub(super) fn give(piece: &mut Piece) {
    let mut bases: Vec<Vec<Row>> = vec![Vec::new(); piece.runs.len()];
    let mut before: Option<&Case> = None;
    for case in &piece.cases {
        let left = before.replace(case);
        let Some(rows) = case.run.and_then(|run| bases.get_mut(run.0)) else { continue };
        match rows.last_mut().filter(|_| left.is_some_and(|own| share_base(piece, own, case))) {
            Some(row) => row.last = case.id,
            None => rows.push(Row { first: case.id, last: case.id }),
        }
    }
    let made_once = |row: &Row| {
        let base = piece.case(row.first).and_then(|case| case.base.as_ref());
        base.is_some_and(|base| base.separate || row.first != row.last)
    };
    for rows in &mut bases {
        rows.retain(made_once);
    }
    for (run, bases) in piece.runs.iter_mut().zip(bases) {
        run.bases = bases;
    }
}

/// True for two cases with nothing but fillers between them.
fn side_by_side(left: &Case, right: &Case) -> bool {
    let fill =
        |case: &Case, side| case.filler(side).map_or(Length::ZERO, |filler| filler.wide.length);
    let between = fill(left, Side::Right) + fill(right, Side::Left);
    left.run.is_some() && left.run == right.run && left.x + left.wide.length + between == right.x
}

/// True for two cases whose base is the same board for board: as high and as far back
/// under both, and with the same on it.
fn share_base(piece: &Piece, left: &Case, right: &Case) -> bool {
    let (Some(one), Some(other)) = (&left.base, &right.base) else { return false };
    let same = (one.separate, one.stock, one.span) == (other.separate, other.stock, other.span)
        && one.high.length == other.high.length
        // On a base of its own every front edge stands as far before it.
        && (!one.separate || one.set_back.length == other.set_back.length);
    let planes = |case: &Case| {
        let frame = case.frame.as_ref().map(|frame| piece.thickness(frame.stock).length);
        let back = case.back.as_ref().map(|back| piece.thickness(back.stock).length);
        let bottom = case.bottom.as_ref().map(|bottom| bottom.flush);
        let line = piece.kick_line(case).map(|line| line.length);
        (case.deep.length, line, frame, back, bottom)
    };
    same && side_by_side(left, right) && planes(left) == planes(right)
}

impl Piece {
    /// The cases that stand on one base with a case; `None` where it stands by itself.
    #[must_use]
    pub fn base_row(&self, case: CaseId) -> Option<Row> {
        let run = self.run(self.case(case)?.run?)?;
        run.bases.iter().copied().find(|row| row.has(case))
    }

    /// The case that the base of a case is counted with: its own, or the first of those
    /// that stand on it.
    #[must_use]
    pub fn base_of(&self, case: CaseId) -> CaseId {
        self.base_row(case).map_or(case, |row| row.first)
    }

    /// What a base is called after, by the case that it is counted with: the case, or
    /// its run where that has no other, or all cases that stand on it.
    #[must_use]
    pub fn base_named(&self, case: CaseId) -> String {
        let row = self.base_row(case);
        let run = row.and_then(|_| self.run(self.case(case)?.run?));
        if let Some(run) = run.filter(|run| run.bases.len() == 1) {
            return run.name.clone();
        }
        self.row_named(row.unwrap_or(Row { first: case, last: case }))
    }

    /// The cases of a row in a sentence: `sink and bank`.
    #[must_use]
    pub fn row_named(&self, row: Row) -> String {
        let names: Vec<&str> = self.of_row(row).map(|case| case.name.as_str()).collect();
        listed(&names)
    }

    /// What names of parts begin with that several cases share, by the first of them:
    /// its run, or itself where the run has more than one such row.
    #[must_use]
    pub fn row_path(&self, first: CaseId) -> &str {
        let Some(case) = self.case(first) else { return "" };
        let run = self.base_row(first).and_then(|_| self.run(case.run?));
        run.filter(|run| run.bases.len() == 1).map_or(&case.path, |run| &run.name)
    }

    /// The cases of a row, left to right.
    pub fn of_row(&self, row: Row) -> impl Iterator<Item = &Case> {
        self.cases.iter().filter(move |case| row.has(case.id))
    }
}
