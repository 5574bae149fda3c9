//! The kicks of a run stand in one line, behind whatever stands before its cases.

use super::case::Case;
use super::piece::Piece;
use super::size::Size;

/// Sets the kick of a case farther back where its neighbors of the run, as deep and on the
/// same base, have overlay fronts: its own front edge is then flush with theirs, and the
/// set-back counts from the frame or the front edges behind them (common practice, no
/// source).
pub(super) fn give(piece: &mut Piece) {
    let own: Vec<Option<Size>> = piece.cases.iter().map(|case| farther_back(piece, case)).collect();
    for (case, set_back) in piece.cases.iter_mut().zip(own) {
        if let (Some(base), Some(set_back)) = (&mut case.base, set_back) {
            base.set_back = set_back;
        }
    }
}

/// The set-back of a case whose kick would stand before those of its run.
fn farther_back(piece: &Piece, case: &Case) -> Option<Size> {
    let (base, run) = (case.base.as_ref()?, case.run?);
    let beside = piece.cases.iter().filter(|other| other.run == Some(run));
    let like = beside.filter(|other| {
        let same = other.base.as_ref().is_some_and(|own| own.span == base.span);
        same && other.deep.length == case.deep.length
    });
    let line = like.filter_map(|other| piece.kick_line(other)).max_by_key(|line| line.length)?;
    let own = piece.kick_line(case)?;
    (line.length > own.length).then(|| line - piece.before_frame(case))
}

impl Piece {
    /// From the foremost face of a case to the front of its kick.
    pub(super) fn kick_line(&self, case: &Case) -> Option<Size> {
        Some(self.before_frame(case) + &case.base.as_ref()?.set_back)
    }
}
