//! What the parts of a piece are cut around, and what the cuts leave.

use crate::measure::{Length, Span};
use crate::model::{CaseId, CutRound, KeepOut, OpeningId, Piece};
use crate::parts::{Assembly, Feature, FeatureKind, Part, Role};

/// One `around`, and the keep-out that it names.
pub(super) struct Round<'a> {
    /// The statement.
    pub(super) round: &'a CutRound,
    /// The keep-out.
    pub(super) keep_out: &'a KeepOut,
    /// The case or the drawer that says it.
    pub(super) of: &'a str,
    /// The case, in which the drawer is.
    pub(super) case: CaseId,
    /// The opening of the drawer; nothing where a case says it.
    pub(super) opening: Option<OpeningId>,
}

impl Round<'_> {
    /// True for a part of what says it. The back of a case is none: it is cut around
    /// what it meets in any case.
    pub(super) fn has(&self, part: &Part) -> bool {
        match self.opening {
            Some(opening) => part.opening() == Some(opening),
            None => part.case == self.case && part.role != Role::Back,
        }
    }

    /// The cuts that it asks for in a part.
    pub(super) fn cuts<'p>(&self, part: &'p Part) -> impl Iterator<Item = &'p Feature> + use<'p> {
        let span: Span = self.round.span;
        let of_it = move |own: &&Feature| own.kind == FeatureKind::Notch && own.span == span;
        part.features.iter().filter(of_it)
    }
}

/// Every `around` of a piece.
pub(super) fn rounds(piece: &Piece) -> Vec<Round<'_>> {
    let cases = piece.cases.iter().flat_map(|case| {
        let own = case.around.iter().map(|round| (case.id, None, round, case.path.as_str()));
        let openings = case.openings.iter().flat_map(|opening| {
            let of = (case.id, Some(opening.id));
            opening.around().iter().map(move |round| (of.0, of.1, round, opening.path.as_str()))
        });
        own.chain(openings).collect::<Vec<_>>()
    });
    cases
        .filter_map(|(case, opening, round, of)| {
            let keep_out = piece.site.keep_outs.get(round.keep_out.0)?;
            Some(Round { round, keep_out, of, case, opening })
        })
        .collect()
}

/// What helps where a cut leaves too little of a part.
pub(super) fn mend(part: &Part) -> &'static str {
    match part.assembly {
        Assembly::DrawerBox(_) => {
            "use a shorter slide, a lower box (`box { high … }`), or a false front with no box behind it"
        }
        Assembly::Base(_)
        | Assembly::Carcass(_)
        | Assembly::Frame(_)
        | Assembly::Front(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => {
            "move the pipe, or leave the board out and stand another clear of it"
        }
    }
}

/// A cut through the whole thickness: from and to along the length and the width.
pub(super) type Cut = [(Length, Length); 2];

/// The cuts through the whole thickness of a part.
pub(super) fn through(part: &Part) -> Vec<Cut> {
    let is_through = |own: &&Feature| {
        own.kind == FeatureKind::Notch && own.face.is_broad() && own.deep >= part.thickness.length
    };
    part.features.iter().filter(is_through).map(|own| [own.u, own.v]).collect()
}

/// True where such cuts leave a board of this length and width in more than one piece,
/// or nothing at one of its ends.
pub(super) fn severed(size: [Length; 2], cuts: &[Cut]) -> bool {
    let cells = |axis: usize| -> Vec<(Length, Length)> {
        let ends = cuts.iter().flat_map(|cut| [cut[axis].0, cut[axis].1]);
        let mut marks: Vec<Length> = ends.chain([Length::ZERO, size[axis]]).collect();
        marks.retain(|at| !at.is_negative() && *at <= size[axis]);
        marks.sort_unstable();
        marks.dedup();
        marks.windows(2).filter_map(|pair| Some((*pair.first()?, *pair.get(1)?))).collect()
    };
    let (across, up) = (cells(0), cells(1));
    let within =
        |cell: &(Length, Length), cut: &(Length, Length)| cut.0 <= cell.0 && cell.1 <= cut.1;
    let wood = |x: usize, y: usize| match (across.get(x), up.get(y)) {
        (Some(u), Some(v)) => !cuts.iter().any(|cut| within(u, &cut[0]) && within(v, &cut[1])),
        _ => false,
    };
    let columns = (0..across.len()).flat_map(|x| (0..up.len()).map(move |y| (x, y)));
    let all: Vec<(usize, usize)> = columns.filter(|(x, y)| wood(*x, *y)).collect();
    let Some(first) = all.first() else { return true };
    let reaches = |x: usize| all.iter().any(|cell| cell.0 == x);
    if !reaches(0) || !reaches(across.len().saturating_sub(1)) {
        return true;
    }
    let (mut seen, mut open) = (vec![*first], vec![*first]);
    while let Some((x, y)) = open.pop() {
        let near = [(x.wrapping_sub(1), y), (x + 1, y), (x, y.wrapping_sub(1)), (x, y + 1)];
        for cell in near {
            if wood(cell.0, cell.1) && !seen.contains(&cell) {
                seen.push(cell);
                open.push(cell);
            }
        }
    }
    seen.len() < all.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    type Millimeters = (i64, i64);

    fn is_severed(cuts: &[(Millimeters, Millimeters)]) -> bool {
        let span = |(from, to): Millimeters| (Length::mm(from), Length::mm(to));
        let cuts: Vec<Cut> = cuts.iter().map(|(u, v)| [span(*u), span(*v)]).collect();
        severed([Length::mm(100), Length::mm(10)], &cuts)
    }

    /// A board of 100 by 10: a cut of its rear half leaves one piece, one of its whole
    /// width two, and one at its end none there; two cuts that meet part it, and two
    /// that pass each other don't.
    #[test]
    fn a_cut_through_parts_a_board() {
        assert!(!is_severed(&[((40, 60), (5, 10))]));
        assert!(is_severed(&[((40, 60), (0, 10))]));
        assert!(is_severed(&[((90, 100), (0, 10))]));
        assert!(!is_severed(&[((90, 100), (5, 10))]));
        assert!(is_severed(&[((40, 60), (5, 10)), ((40, 60), (0, 5))]));
        assert!(is_severed(&[((40, 60), (5, 10)), ((20, 40), (0, 5))]));
        assert!(!is_severed(&[((40, 60), (5, 10)), ((20, 39), (0, 5))]));
        assert!(is_severed(&[((0, 100), (0, 10))]));
    }
}
