//! The nailers of a case: the boards on edge before its back that carry the wall
//! screws.

use crate::measure::{Length, Span};
use crate::vocabulary::{Entries, Nailers as Asked, Said, words};

use super::case::Case;
use super::id::StockId;
use super::insertion::Insertion;
use super::lower::Lower;
use super::opening::{Axis, Member, MemberKind, Opening};
use super::piece::Piece;
use super::read_case::{self, Shared};
use super::size::Size;

/// What a case says of its nailers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Nailers {
    /// How many, where that is written.
    pub asked: Option<Asked>,
    /// From the lower to the upper edge.
    pub wide: Size,
    /// The maker gives that width: it is kept even where the space is lower.
    pub is_wide_written: bool,
    /// How far they end beside a keep-out.
    pub clear: Size,
    /// What they are of.
    pub stock: StockId,
    /// The statement, else the case.
    pub span: Span,
    /// Where they are said; `None` in a case that says nothing of a back.
    pub said_at: Option<Insertion>,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// The nailers as the block of the back says them, of the stock of the case else.
pub(super) fn read(
    case: &Entries,
    at: Span,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Nailers> {
    let back = case.one(words::case::BACK).and_then(Said::body);
    let said = back.and_then(|back| back.one(words::back::NAILERS));
    let empty = ctx.empty(&words::nailers::BLOCK);
    let body = said.and_then(Said::body).unwrap_or(&empty);
    let span = said.map_or(at, |said| said.head);
    let wide = ctx.positive(body, words::nailers::WIDE, "nailer width").known()?;
    Some(Nailers {
        asked: said.and_then(Said::value).map(|asked| *asked.value),
        wide,
        is_wide_written: body.one(words::nailers::WIDE).is_some(),
        clear: ctx.size_or_zero(body, words::nailers::CLEAR, "nailer clearance"),
        stock: read_case::stock(body, fallback, "the nailers", span, shared, ctx)?,
        span,
        said_at: back.map(|back| Insertion::of(back, words::back::NAILERS)),
        notes: body.notes(),
    })
}

impl Piece {
    /// From this thickness up a back takes the wall screws itself: 1/2 in, 12 mm
    /// (common practice, no source).
    #[must_use]
    pub fn stout_back(&self) -> Length {
        self.tape().unit.either(Length::inches(1, 2), Length::mm(12))
    }

    /// A case so high, its base included, gets a nailer above its bottom too: 6 ft,
    /// 1800 mm (common practice, no source).
    #[must_use]
    pub fn tall(&self) -> Length {
        self.tape().unit.either(Length::inches(72, 1), Length::mm(1800))
    }

    /// True where the back of a case takes the wall screws.
    #[must_use]
    pub fn has_stout_back(&self, case: &Case) -> bool {
        let stock = case.back.as_ref().and_then(|back| self.stock(back.stock));
        stock.is_some_and(|stock| {
            // A sheet goes by the thickness it is sold by: 1/2 is mostly a little less.
            let sold = if stock.is_solid() { stock.thickness.length } else { stock.nominal };
            sold.max(stock.thickness.length) >= self.stout_back()
        })
    }

    /// True where a nailer may stand behind a drawer that runs on wood. The upper one is
    /// right under the top where no board comes so near it that the nailer is put lower;
    /// a drawer that ends below it has the whole room to the back.
    pub(super) fn has_nailers_behind_drawers(&self, case: &Case) -> bool {
        if self.nailers(case) != 1 {
            return self.nailers(case) > 1;
        }
        let top = case
            .top
            .as_ref()
            .filter(|top| top.stretchers.as_ref().is_none_or(|(count, _)| *count > 1));
        let over = top.map(|top| self.thickness(top.board.stock).length);
        let low = case.high.length - over.unwrap_or_default() - case.nailers.wide.length;
        let board = |member: &Member| match &member.kind {
            MemberKind::Rail(Some(_)) => Some(&member.stands[1] + &member.wide),
            MemberKind::Divider(board) if member.axis == Axis::Down => {
                Some(&member.stands[1] + self.thickness(board.stock))
            }
            MemberKind::Rail(None) | MemberKind::Divider(_) | MemberKind::Stile(_) => None,
        };
        let shelf = |opening: &Opening| {
            let fixed = opening.shelves.as_ref().map_or(0, |set| i64::from(set.fixed));
            let thick = case.shelves.stock.map(|stock| self.thickness(stock)).unwrap_or_default();
            let space = (&opening.high - thick * fixed) / (fixed + 1);
            (fixed > 0).then(|| &opening.stands[1] + &opening.high - space)
        };
        let mut boards =
            case.members.iter().filter_map(board).chain(case.openings.iter().filter_map(shelf));
        let mut drawers = case.openings.iter().filter(|opening| opening.on_wood.is_some());
        boards.any(|upper| upper.length > low)
            || drawers.any(|own| own.stands[1].length + own.high.length > low)
    }

    /// How many nailers a case has: as many as are written; none where its back takes the
    /// wall screws; else two where it hangs, for the upper one takes the pull and the
    /// lower one the push, or where it stands on another case and nothing else holds it
    /// there; else one where it is fixed to the wall, and two where it is tall. Where
    /// drawers run on its boards it is one.
    #[must_use]
    pub fn nailers(&self, case: &Case) -> u32 {
        match case.nailers.asked {
            Some(Asked::None) => 0,
            Some(Asked::One) => 1,
            Some(Asked::Two) => 2,
            None if self.has_stout_back(case) => 0,
            None if case.hung.is_none() && !self.site.fixed => 0,
            // One above the bottom would shut in the stops of a drawer that runs there.
            None if case.openings.iter().any(|opening| opening.on_wood.is_some()) => 1,
            None if case.hung.is_some() || case.overall_high().length >= self.tall() => 2,
            None if case.on.is_some() && !self.is_screwed_down(case) => 2,
            None => 1,
        }
    }
}
