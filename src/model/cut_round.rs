//! What boards and boxes are cut round.

use crate::measure::{Length, Span};
use crate::vocabulary::{Entries, Said, words};

use super::case::Case;
use super::id::KeepOutId;
use super::lower::Lower;
use super::piece::Piece;
use super::read_case::Shared;

/// A keep-out that a box, or every board of a case, is cut round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutRound {
    /// Which.
    pub keep_out: KeepOutId,
    /// How far the cuts stay clear of it, where that is written.
    pub clear: Option<Length>,
    /// The statement.
    pub span: Span,
}

/// Every `around` of a case or a drawer.
pub(super) fn read(body: &Entries, shared: &Shared<'_>, ctx: &mut Lower) -> Vec<CutRound> {
    let all: Vec<_> = body.all(words::drawer::AROUND).collect();
    let empty = ctx.empty(&words::around::BLOCK);
    all.into_iter()
        .filter_map(|said| {
            let keep_out = ctx.find(said.value()?, &shared.keep_outs)?;
            let own = said.body().unwrap_or(&empty);
            Some(CutRound {
                keep_out: KeepOutId(keep_out),
                clear: own.one(words::around::CLEAR).and_then(Said::value).map(|own| *own.value),
                span: said.head,
            })
        })
        .collect()
}

impl Piece {
    /// How far the cuts round a keep-out stay clear of it: as written; else 1 in
    /// (25 mm) of what is hot or moves and 1/2 in (12 mm) of all else (common
    /// practice, no source).
    #[must_use]
    pub fn clear_of(&self, round: &CutRound) -> Length {
        round.clear.unwrap_or_else(|| self.usual_clear(round.keep_out))
    }

    /// The same for the back of a case, which is cut round what stands behind it in any case.
    #[must_use]
    pub fn clear_of_back(&self, case: &Case, keep_out: KeepOutId) -> Length {
        let round = case.around.iter().find(|own| own.keep_out == keep_out);
        round.map_or_else(|| self.usual_clear(keep_out), |round| self.clear_of(round))
    }

    fn usual_clear(&self, keep_out: KeepOutId) -> Length {
        let unit = self.tape().unit;
        let hot = self.site.keep_outs.get(keep_out.0).is_some_and(|own| own.hot);
        match hot {
            true => unit.either(Length::inches(1, 1), Length::mm(25)),
            false => unit.either(Length::inches(1, 2), Length::mm(12)),
        }
    }
}
