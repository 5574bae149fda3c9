//! What stands of a piece that has errors: the sizes that are known in spite
//! of them, and the piece as it can be drawn meanwhile.

use crate::measure::Tape;

use super::case::Case;
use super::piece::Piece;
use super::size::{Facts, Size};
use super::standing_sizes::{CaseSizes, StandingSize, StandingSizes};

/// What stands of a piece with errors. Nothing of it may go to the bench; an
/// editor shows it while the spec is being written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Standing {
    /// False where a statement could not be read: with it, any size may come out
    /// otherwise.
    pub whole: bool,
    /// Every case, opening and list of openings, in the order of the text.
    pub sizes: Vec<StandingSizes>,
    /// The piece as it can be drawn: without the statements that contradict each
    /// other, with an equal share of what is left for whatever nothing fixes
    /// then, and without the first case of which too little is known and those
    /// behind it.
    pub drawn: Option<Piece>,
    /// Every figure that the sizes come from.
    pub facts: Facts,
    /// How figures are printed.
    pub tape: Tape,
}

impl Standing {
    /// From the cases that came out, and the sizes of those that did not come
    /// out cleanly. `whole` where every statement could be read.
    pub(super) fn new(
        half_solved: Vec<CaseSizes>,
        drawn: Option<Piece>,
        facts: Facts,
        tape: Tape,
        whole: bool,
    ) -> Self {
        let drawn = drawn.map(|mut piece| {
            // Ids count the cases: none may be missing before another.
            let drawable = |(at, case): &(usize, &Case)| case.id.0 == *at && can_be_drawn(case);
            let known = piece.cases.iter().enumerate().take_while(drawable).count();
            piece.cases.truncate(known);
            Piece { facts: facts.clone(), ..piece }
        });
        let told = |case: &Case| half_solved.iter().any(|sizes| sizes.span == case.span);
        let clean = drawn.iter().flat_map(|piece| &piece.cases).filter(|case| !told(case));
        let mut sizes: Vec<StandingSizes> = clean.flat_map(of_case).collect();
        sizes.extend(half_solved.into_iter().flat_map(|case| case.all));
        sizes.sort_by_key(|sizes| sizes.span);
        let drawn = drawn.filter(|piece| !piece.cases.is_empty());
        Self { whole, sizes, drawn, facts, tape }
    }

    /// The sizes of the thing with this whole name.
    #[must_use]
    pub fn of(&self, path: &str) -> Option<&StandingSizes> {
        self.sizes.iter().find(|sizes| sizes.path == path)
    }
}

/// True where nothing of the front has come out as nothing or less.
fn can_be_drawn(case: &Case) -> bool {
    let outer = [&case.wide, &case.deep, &case.high];
    let openings = case.openings.iter().flat_map(|opening| [&opening.wide, &opening.high]);
    let members = case.members.iter().map(|member| &member.wide);
    outer.into_iter().chain(openings).chain(members).all(|size| size.length.is_positive())
}

/// The sizes of a case that came out cleanly.
fn of_case(case: &Case) -> Vec<StandingSizes> {
    let holding = |size: &Size| Some(StandingSize { size: size.clone(), holds: true });
    let own = StandingSizes {
        path: case.path.clone(),
        span: case.span,
        opening: None,
        sizes: [holding(&case.wide), holding(case.overall_high())],
    };
    let openings = case.openings.iter().filter(|opening| opening.parent.is_some());
    let openings = openings.map(|opening| StandingSizes {
        path: opening.path.clone(),
        span: opening.span,
        opening: Some(opening.id),
        sizes: [holding(&opening.wide), holding(&opening.high)],
    });
    std::iter::once(own).chain(openings).collect()
}
