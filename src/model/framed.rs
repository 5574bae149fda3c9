//! Framed fronts: their stiles and rails, and where each rail stands.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span};
use crate::trade;
use crate::vocabulary::takes::{Flag, Refer, Stock};
use crate::vocabulary::{Entries, Entry, HowBuilt, Said, words};

use super::front::{Build, Fronts};
use super::glass;
use super::id::StockId;
use super::insertion::Insertion;
use super::lower::{Lower, Names};
use super::read_case::Shared;
use super::size::Size;

/// The sizes of a frame-and-panel front.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PanelBuild {
    /// The width of its stiles.
    pub stile: Size,
    /// The width of its top rail.
    pub rail: Size,
    /// The width of its bottom rail.
    pub bottom: Size,
    /// The rails between those two, the upper ones first.
    pub mids: Vec<MidRail>,
    /// Where a mid rail is said, or would be.
    pub mid_at: Insertion,
    /// What the panels are made of.
    pub panel_stock: StockId,
    /// How its glass is held, where its panels are glass.
    pub glazed: Option<Glazed>,
    /// How deep the grooves are.
    pub groove: Size,
    /// How far the tenons of the rails go into the grooves alone; with mortises, how
    /// long their haunches are.
    pub stub: Size,
    /// How long the tenons are: as the stubs, or longer, into mortises.
    pub tenon: Size,
    /// Where that length is said, or would be.
    pub tenon_at: Insertion,
    /// How far tenons in mortises are set in from the ends of the stiles, where
    /// written; else it follows from the width of the rails.
    pub set_in: Option<Size>,
    /// Where that is said, or would be.
    pub set_in_at: Insertion,
    /// Left free in each groove for a solid panel, where that is more than the stubs
    /// leave.
    pub float: Size,
    /// The statement.
    pub span: Span,
}

/// How glass is held in a frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Glazed {
    /// How wide the grooves are.
    pub groove_wide: Size,
    /// Where that is said, or would be.
    pub groove_wide_at: Insertion,
    /// The lumber of its beads.
    pub beads: StockId,
    /// How much smaller than its rabbet the glass is on every side.
    pub clear: Size,
    /// Where that is said, or would be.
    pub clear_at: Insertion,
    /// How far its beads stay below the back of the front.
    pub shy: Size,
}

/// A rail between the top and the bottom rail of a front.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MidRail {
    /// How wide it is.
    pub wide: Size,
    /// Where its middle is; else it parts the room between its neighbors evenly.
    pub at: Option<MidAt>,
    /// The statement.
    pub span: Span,
}

/// Where the middle of a mid rail is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MidAt {
    /// So far below the top of the front.
    FromTop(Size),
    /// So far above the bottom of the front.
    FromBottom(Size),
}

/// Which rail of a framed front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RailAt {
    /// The uppermost.
    Top,
    /// One between, by its place in [`PanelBuild::mids`].
    Mid(usize),
    /// The lowest.
    Bottom,
}

/// A rail of a front in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlacedRail {
    /// Which.
    pub at: RailAt,
    /// How wide it is.
    pub wide: Size,
    /// Its lower edge, from the bottom of the front.
    pub low: Size,
}

impl PlacedRail {
    /// Its upper edge, from the bottom of the front.
    #[must_use]
    pub fn high(&self) -> Size {
        &self.low + &self.wide
    }
}

impl PanelBuild {
    /// True for a front whose tenons are longer than the grooves take, so that they go into
    /// mortises. Those of an end always do: the grooves of its posts stop short of them.
    #[must_use]
    pub fn is_mortised(&self) -> bool {
        self.tenon.length > self.stub.length
    }

    /// How deep the mortises are, with as much room as the grooves have.
    #[must_use]
    pub fn mortise(&self) -> Size {
        &self.tenon + &self.groove - &self.stub
    }

    /// How far the tenons of a rail `wide` are set in from the ends of the stiles, on a
    /// tape with this mark; all that the grooves leave of the rail at most.
    #[must_use]
    pub fn set_in(&self, wide: Length, mark: Length) -> Length {
        let usual = || trade::set_in(wide, mark);
        let most = (wide - self.groove.length).max(Length::ZERO);
        self.set_in.as_ref().map_or_else(usual, |own| own.length).min(most)
    }

    /// How wide its grooves are, where its panels are so thick.
    #[must_use]
    pub fn groove_wide(&self, panel: Size) -> Size {
        self.glazed.as_ref().map_or(panel, |glazed| glazed.groove_wide.clone())
    }

    /// How far the panel goes into each groove: no farther than the stubs, so that it
    /// never holds the shoulders open, and a solid one not into the room that it moves in.
    #[must_use]
    pub fn reach(&self, solid: bool) -> Size {
        if let Some(glazed) = &self.glazed {
            return &self.groove - &glazed.clear;
        }
        let floating = &self.groove - &self.float;
        match solid && floating.length < self.stub.length {
            true => floating,
            false => self.stub.clone(),
        }
    }

    /// The rails of a front so `high`, from the top down. A mid rail without a place of
    /// its own leaves as much room above it as below; so do several between two others.
    #[must_use]
    pub fn rails(&self, high: &Size) -> Vec<PlacedRail> {
        let top = PlacedRail { at: RailAt::Top, wide: self.rail.clone(), low: high - &self.rail };
        let mut rails = vec![top];
        for (index, mid) in self.mids.iter().enumerate() {
            let over = rails.last().map_or_else(|| high.clone(), |rail| rail.low.clone());
            let low = mid.low(high).unwrap_or_else(|| {
                let rest = self.mids.get(index..).unwrap_or_default();
                over - self.step(high, &rails, rest) - &mid.wide
            });
            rails.push(PlacedRail { at: RailAt::Mid(index), wide: mid.wide.clone(), low });
        }
        rails.push(PlacedRail { at: RailAt::Bottom, wide: self.bottom.clone(), low: Size::zero() });
        rails
    }

    /// The room above each of the mid rails that come next and have no place.
    fn step(&self, high: &Size, above: &[PlacedRail], rest: &[MidRail]) -> Size {
        let over = above.last().map_or_else(|| high.clone(), |rail| rail.low.clone());
        let free: Vec<&MidRail> = rest.iter().take_while(|mid| mid.at.is_none()).collect();
        let next = rest.get(free.len()).and_then(|mid| Some(mid.low(high)? + &mid.wide));
        let under = next.unwrap_or_else(|| self.bottom.clone());
        let rooms = i64::try_from(free.len()).unwrap_or(i64::MAX).saturating_add(1);
        let wood = free.iter().fold(Size::zero(), |sum, mid| sum + &mid.wide);
        (over - under - wood) / rooms
    }
}

impl MidRail {
    /// Its lower edge in a front so `high`, where its place is written.
    fn low(&self, high: &Size) -> Option<Size> {
        let middle = match self.at.as_ref()? {
            MidAt::FromTop(from) => high - from,
            MidAt::FromBottom(from) => from.clone(),
        };
        Some(middle - self.wide.half())
    }
}

/// The sizes that a statement gives; reported where they are missing.
pub(super) fn read(
    entry: &Entry,
    stock: StockId,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<PanelBuild> {
    use words::panel::{
        BOTTOM_RAIL, FLOAT, GROOVE, MID_RAIL, PANEL_STOCK, RAIL, ROOM, SET_IN, STILE, TENON,
    };

    let Some(sizes) = entry.body() else {
        ctx.sink.push(
            Diagnostic::error(
                "block-missing",
                "a frame-and-panel front needs its sizes",
                entry.head,
                "`{ stile …; rail …; panel-stock … }` is missing after this",
            )
            .note("for example, `build panel { stile 2-1/4; rail 2-1/4; panel-stock thin-ply; groove 3/8 }`"),
        );
        return None;
    };
    let groove = ctx.positive(sizes, GROOVE, "panel groove").known()?;
    let room = ctx.size(sizes, ROOM, "room in the groove")?;
    let most = match room.length > groove.length.half() {
        true => groove.half(),
        false => &groove - &room,
    };
    let tenon = ctx.positive(sizes, TENON, "front tenon").known().unwrap_or_else(|| most.clone());
    // Only a tenon in a mortise can be set in.
    let mortised = tenon.length > most.length;
    let set_in = if mortised { ctx.size(sizes, SET_IN, "front tenon's set-in") } else { None };
    let rail = ctx.positive(sizes, RAIL, "front rail").known()?;
    let bottom = ctx.positive(sizes, BOTTOM_RAIL, "bottom rail of a front").known();
    let panel = panel_stock(sizes, PANEL_STOCK, &shared.stock_names, ctx)?;
    let glazed = glass::glazed(sizes, [stock, panel], (&groove, &most), shared, ctx)?.glazed();
    Some(PanelBuild {
        stile: ctx.positive(sizes, STILE, "front stile").known()?,
        bottom: bottom.unwrap_or_else(|| rail.clone()),
        mids: sizes.all(MID_RAIL).map(|mid| mid_rail(mid, &rail, ctx)).collect(),
        mid_at: Insertion::of(sizes, MID_RAIL),
        rail,
        panel_stock: panel,
        glazed,
        stub: if mortised { most } else { tenon.clone() },
        groove,
        tenon,
        tenon_at: Insertion::of(sizes, TENON),
        set_in,
        set_in_at: Insertion::of(sizes, SET_IN),
        float: ctx.size(sizes, FLOAT, "panel float")?,
        span: entry.head,
    })
}

/// The sizes of an end of frame and panel, whose stiles are posts so wide; reported where
/// they are missing.
pub(super) fn of_end(
    build: Said<'_, HowBuilt>,
    stile: &Size,
    stocks: &Names<'_, Stock>,
    ctx: &mut Lower,
) -> Option<PanelBuild> {
    use words::end_panel::{BOTTOM_RAIL, FLOAT, GROOVE, PANEL_STOCK, RAIL, ROOM, SET_IN, TENON};

    let Some(sizes) = build.body() else {
        ctx.sink.push(
            Diagnostic::error(
                "block-missing",
                "a paneled end needs its sizes",
                build.head,
                "`{ rail …; panel-stock … }` is missing after this",
            )
            .note("for example, `build panel { rail 2-1/2; panel-stock thin-ply }`"),
        );
        return None;
    };
    let groove = ctx.positive(sizes, GROOVE, "groove of an end").known()?;
    let room = ctx.size(sizes, ROOM, "room in the groove")?;
    let stub = match room.length > groove.length.half() {
        true => groove.half(),
        false => &groove - &room,
    };
    let rail = ctx.positive(sizes, RAIL, "rail of an end").known()?;
    let bottom = ctx.positive(sizes, BOTTOM_RAIL, "bottom rail of an end").known();
    Some(PanelBuild {
        stile: stile.clone(),
        bottom: bottom.unwrap_or_else(|| rail.clone()),
        mids: Vec::new(),
        mid_at: Insertion::of(sizes, RAIL),
        rail,
        panel_stock: panel_stock(sizes, PANEL_STOCK, stocks, ctx)?,
        glazed: None,
        stub,
        groove,
        tenon: ctx.positive(sizes, TENON, "tenon of an end").known()?,
        tenon_at: Insertion::of(sizes, TENON),
        set_in: ctx.size(sizes, SET_IN, "end tenon's set-in"),
        set_in_at: Insertion::of(sizes, SET_IN),
        float: ctx.size(sizes, FLOAT, "panel float")?,
        span: build.head,
    })
}

fn panel_stock(
    sizes: &Entries,
    word: crate::vocabulary::Word<Refer<Stock>>,
    stocks: &Names<'_, Stock>,
    ctx: &mut Lower,
) -> Option<StockId> {
    Some(StockId(ctx.refer(sizes, word, stocks).known()?.value))
}

/// A mid rail: as wide as the others and evenly between them, unless its braces say so.
fn mid_rail(said: Said<'_, Flag>, rail: &Size, ctx: &mut Lower) -> MidRail {
    use words::mid_rail::{BLOCK, FROM_BOTTOM, FROM_TOP, WIDE};

    let empty = ctx.empty(&BLOCK);
    let body = said.body().unwrap_or(&empty);
    let wide = ctx.positive(body, WIDE, "mid rail").known();
    let top = ctx.positive(body, FROM_TOP, "mid rail from the top").known();
    let bottom = ctx.positive(body, FROM_BOTTOM, "mid rail from the bottom").known();
    if let (Some(first), Some(second)) = (body.one(FROM_TOP), body.one(FROM_BOTTOM)) {
        ctx.sink.push(
            Diagnostic::error(
                "word-twice",
                "the place of this mid rail is given twice",
                second.head,
                "the second time",
            )
            .label(first.head, "the first time")
            .note("write one of `from-top` and `from-bottom`"),
        );
    }
    MidRail {
        wide: wide.unwrap_or_else(|| rail.clone()),
        at: top.map(MidAt::FromTop).or(bottom.map(MidAt::FromBottom)),
        span: said.head,
    }
}

/// The mid rails that hold for all fronts are those of the doors: a drawer or a false front
/// has the ones that its own `build` gives it.
pub(super) fn without_mid_rails(fronts: &mut Fronts, body: &Entries) {
    let own = body.one(words::door::FRONT).and_then(Said::body);
    if let Build::Panel(panel) = &mut fronts.build
        && !own.is_some_and(|own| own.says(words::fronts::BUILD))
    {
        panel.mids.clear();
    }
}
