//! What the edges of a board are lipped or banded with.

use crate::diagnostics::Diagnostic;
use crate::measure::Span;
use crate::vocabulary::takes::{Refer, Stock as StockName};
use crate::vocabulary::{Entries, Nothing, Word, words};

use super::case::Case;
use super::given::Given;
use super::id::StockId;
use super::lower::Lower;
use super::opening::{MemberKind, Partition};
use super::read_case::Shared;
use super::size::Size;

/// An edge of a board, by the side of the piece that it looks to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Brim {
    /// Looks left.
    Left,
    /// Looks right.
    Right,
    /// Looks up.
    Top,
    /// Looks down.
    Bottom,
    /// Looks to whoever stands before the piece.
    Front,
    /// Looks to the wall.
    Back,
}

/// A strip for the edges of boards.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edging {
    /// Solid wood, or banding.
    pub stock: StockId,
    /// How much it adds to a core.
    pub thick: Size,
    /// Where that is written of a lip, else the statement.
    pub thick_at: Span,
    /// The edges that it leaves bare.
    pub bare: Vec<Brim>,
    /// The head of the statement.
    pub span: Span,
    /// It has no braces, so that its head is all of it.
    pub plain: bool,
}

/// What is said of the edges of a board.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Edged {
    /// Nothing: what is written higher up holds.
    #[default]
    Unsaid,
    /// They stay bare.
    Bare,
    /// They get these.
    With(Edging),
}

impl Edged {
    /// This, or where nothing is said what is said elsewhere.
    #[must_use]
    pub fn or<'a>(&'a self, other: &'a Self) -> &'a Self {
        match self {
            Self::Unsaid => other,
            Self::Bare | Self::With(_) => self,
        }
    }
}

/// What a board says of its front edge; nothing where it has none to speak of.
pub(super) fn of_board(body: &Entries, shared: &Shared<'_>, ctx: &mut Lower) -> Edged {
    match body.may_hold(words::divider::EDGES) {
        true => read(body, words::divider::EDGES, shared, ctx),
        false => Edged::Unsaid,
    }
}

/// What a block says of its edges by `word`. What can't be is reported and counts as
/// not said.
pub(super) fn read(
    body: &Entries,
    word: Word<Refer<StockName>>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Edged {
    use words::{countertop_edges, edges, front_edges};

    let Some(said) = body.one(word) else { return Edged::Unsaid };
    if said.value().is_some_and(|name| name.value == "none") {
        return Edged::Bare;
    }
    let Given::Is(name) = ctx.refer(body, word, &shared.stock_names) else {
        return Edged::Unsaid;
    };
    let id = StockId(name.value);
    let Some(stock) = shared.stocks.get(id.0) else { return Edged::Unsaid };
    let empty = ctx.empty(&edges::BLOCK);
    let sizes = said.body().unwrap_or(&empty);
    let thick = match (stock.is_banding(), stock.is_solid()) {
        (true, _) if sizes.says(edges::THICK) => {
            let at = sizes.one(edges::THICK).map_or(said.head, |thick| thick.head);
            let title = format!("{} is banding, which is as thick as it is bought", stock.name);
            let found = Diagnostic::error("not-supported-yet", title, at, "this is for solid wood");
            ctx.sink.push(found.note("take `thick` out, or name a stock of lumber"));
            return Edged::Unsaid;
        }
        (true, _) => stock.thickness.clone(),
        (false, true) => {
            let name = format!("thickness of the lip of {}", stock.name);
            match ctx.positive(sizes, edges::THICK, &name) {
                Given::Is(thick) => thick,
                Given::Absent | Given::Refused => return Edged::Unsaid,
            }
        }
        (false, false) => {
            let title = format!("{} is a sheet, and its own edge would show", stock.name);
            let found = Diagnostic::error(
                "not-supported-yet",
                title,
                said.head,
                "edges are of lumber or banding",
            );
            ctx.sink.push(found.note("name a stock of `lumber` for a lip, or one of `banding`"));
            return Edged::Unsaid;
        }
    };
    let bare = [
        (Brim::Left, front_edges::LEFT),
        (Brim::Right, front_edges::RIGHT),
        (Brim::Top, front_edges::TOP),
        (Brim::Bottom, front_edges::BOTTOM),
        (Brim::Front, countertop_edges::FRONT),
        (Brim::Back, countertop_edges::BACK),
    ];
    let is_bare = |word: Word<Nothing>| sizes.may_hold(word) && sizes.says(word);
    Edged::With(Edging {
        stock: id,
        thick,
        thick_at: sizes.one(edges::THICK).map_or(said.head, |thick| thick.head),
        bare: bare.into_iter().filter(|(_, word)| is_bare(*word)).map(|(brim, _)| brim).collect(),
        span: said.head,
        plain: said.body().is_none(),
    })
}

impl Case {
    /// What is written of edges in the case, each statement once.
    #[must_use]
    pub fn edgings(&self) -> Vec<&Edging> {
        let boards = [
            self.bottom.as_ref().map(|bottom| &bottom.board),
            self.top.as_ref().map(|top| &top.board),
            self.partitions.as_ref(),
        ];
        let members = self.members.iter().filter_map(|member| match &member.kind {
            MemberKind::Stile(Partition::Board(board)) | MemberKind::Divider(board) => {
                Some(&board.edges)
            }
            MemberKind::Rail(Some(shelf)) => Some(&shelf.board.edges),
            MemberKind::Stile(Partition::None) | MemberKind::Rail(None) => None,
        });
        let fronts = self.openings.iter().filter_map(|opening| opening.front.as_ref());
        let all = [&self.edges, &self.shelves.edges]
            .into_iter()
            .chain(self.ends.iter().map(|end| &end.edges))
            .chain(boards.into_iter().flatten().map(|board| &board.edges))
            .chain(self.countertop.as_ref().map(|top| &top.edges))
            .chain(members)
            .chain(self.fronts.iter().chain(fronts).map(|fronts| &fronts.edges));
        let mut found: Vec<&Edging> = Vec::new();
        for edged in all {
            match edged {
                Edged::With(edging) if found.iter().all(|own| own.span != edging.span) => {
                    found.push(edging);
                }
                Edged::With(_) | Edged::Unsaid | Edged::Bare => {}
            }
        }
        found
    }
}
