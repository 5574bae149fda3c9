//! The hanging rail of an opening.

use crate::measure::{Length, Mass, Span};
use crate::vocabulary::{Entry, Hangs, words};

use super::given::Given;
use super::id::StockId;
use super::lower::Lower;
use super::read_case::Shared;
use super::size::Size;

/// A hanging rail, from the board at one side of its opening to that at the other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rod {
    /// How thick it is.
    pub diameter: Length,
    /// From the underside of the board above to its center.
    pub down: Size,
    /// From the inside of the back to its center, where that is written.
    pub from_back: Option<Size>,
    /// What hangs on it.
    pub hangs: Hangs,
    /// What hangs on it in all, where that is written.
    pub load: Option<Mass>,
    /// The wood of a pole; else it is a tube of steel.
    pub stock: Option<StockId>,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// Reads a rail; `None` where a figure or name of it can't be read, which is reported.
pub(super) fn read(entry: &Entry, shared: &Shared<'_>, ctx: &mut Lower) -> Option<Rod> {
    use words::rod::{BLOCK, DIAMETER, DOWN, FROM_BACK, HANGS, LOAD, STOCK};

    let empty = ctx.empty(&BLOCK);
    let body = entry.body().unwrap_or(&empty);
    let stock = match ctx.refer(body, STOCK, &shared.stock_names) {
        Given::Absent => None,
        Given::Refused => return None,
        Given::Is(stock) => Some(StockId(stock.value)),
    };
    Some(Rod {
        diameter: ctx.positive(body, DIAMETER, "diameter of the rail").known()?.length,
        down: ctx.size(body, DOWN, "down to the rail")?,
        from_back: match ctx.positive(body, FROM_BACK, "rail from the back") {
            Given::Absent => None,
            Given::Refused => return None,
            Given::Is(size) => Some(size),
        },
        hangs: body.get(HANGS)?.value,
        load: body.get(LOAD).map(|load| load.value),
        stock,
        span: entry.head,
        notes: body.notes(),
    })
}
