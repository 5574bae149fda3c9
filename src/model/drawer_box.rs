//! The sizes of a drawer's box, and where it stands in its opening.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Percent};
use crate::trade;
use crate::vocabulary::Origin;

use super::case::Case;
use super::front::Set;
use super::hardware::{Hardware, Runs, Slide};
use super::lower::Lower;
use super::opening::{Axis, Opening, OpeningKind};
use super::piece::Piece;
use super::site::Site;
use super::size::Size;
use super::stock::Stock;

/// What a drawer that runs on the boards of its case leaves free.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnWood {
    /// Beside its box, both sides together.
    pub play: Size,
    /// Above its box, as it is made: what the sides swell by the dampest day, up to the
    /// next mark of the tape, and a little more.
    pub above: Size,
    /// Behind its box.
    pub behind: Size,
    /// From the upper edges of its sides down to that of its back.
    pub lower: Size,
    /// From the outside of its back to the rear edge of a solid bottom.
    pub past: Size,
    /// How wide a kicker or runner is, and how high a guide.
    pub strip: Size,
    /// How long and wide a stop is, and how high at most.
    pub stop: [Size; 3],
    /// From the top of a stop up to the bottom at least.
    pub over_stop: Size,
}

/// The sizes of a drawer's box.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawerBox {
    /// Over its sides.
    pub outside: Size,
    /// Between them.
    pub inside: Size,
    /// As high as what it runs on lets it be.
    pub most: Size,
    /// As high as it is.
    pub high: Size,
    /// From the outside of its front to that of its back.
    pub deep: Size,
    /// From the lower edge of its opening, as drawn, to its own.
    pub above: Size,
}

impl Piece {
    /// The box of a drawer; `None` for what is no drawer, or has no slide that is known.
    #[must_use]
    pub fn drawer_box(&self, case: &Case, opening: &Opening) -> Option<DrawerBox> {
        let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { return None };
        let thick = self.thickness(case.drawers.as_ref()?.stock);
        let (wide, tall) = (opening.wide_for_slides(), opening.as_built(Axis::Down));
        let own = |most: &Size| opening.box_high().cloned().unwrap_or_else(|| most.clone());
        match (&self.slide(slide)?.runs, &opening.on_wood) {
            (Runs::Hardware(slide), _) => {
                let (inside, outside) = slide.box_width.inside_and_outside(&wide, &thick);
                let most = slide.box_high.size(tall);
                // A lower box keeps its lower edge where its slide holds it.
                let middle = || (&opening.high - &most).half();
                let above = slide.box_up.clone().unwrap_or_else(middle);
                let (high, deep) = (own(&most), slide.length.clone());
                Some(DrawerBox { outside, inside, high, most, deep, above })
            }
            (Runs::Wooden(_), Some(free)) => {
                let outside = wide - &free.play;
                let most = tall - &free.above;
                Some(DrawerBox {
                    inside: &outside - &thick * 2,
                    high: own(&most),
                    most,
                    deep: self.room_for_box(case, opening) - &free.behind,
                    above: Size::zero(),
                    outside,
                })
            }
            (Runs::Wooden(_), None) => None,
        }
    }

    /// From the front of a drawer's box to the inside of the case's back, or of the
    /// nailers before it: where one drawer of a case may meet a nailer, all are as deep as
    /// that one.
    #[must_use]
    pub fn room_for_box(&self, case: &Case, opening: &Opening) -> Size {
        let back = case.back.as_ref().map(|back| self.thickness(back.stock)).unwrap_or_default();
        let room = &case.deep
            - case.covers.behind()
            - back
            - self.before_frame(case)
            - self.before_box(case, opening);
        match self.has_nailers_behind_drawers(case) {
            false => room,
            true => room - self.thickness(case.nailers.stock),
        }
    }

    /// How far the frame, or a case without one, stands behind overlay fronts, which
    /// count in the depth of the case.
    #[must_use]
    pub fn before_frame(&self, case: &Case) -> Size {
        let fronts = case.openings.iter().filter_map(|opening| opening.front.as_ref());
        let over = fronts.filter(|front| matches!(front.set, Set::Overlay(_)));
        let thick = over.map(|front| self.thickness(front.stock));
        thick.max_by_key(|thick| thick.length).unwrap_or_default()
    }
}

impl Opening {
    /// From the lower edge of the opening of a drawer, so high, to the middle of its box: that
    /// stands as high as its slide says, else in the middle of what that leaves it.
    #[must_use]
    pub fn box_middle(&self, slide: &Hardware, high: &Size) -> Size {
        let most = slide.box_high.size(high);
        let above = slide.box_up.clone().unwrap_or_else(|| (high - &most).half());
        above + self.box_high().unwrap_or(&most).half()
    }
}

/// Gives every drawer that runs on wood what it leaves free.
pub(super) fn give(
    cases: &mut [Case],
    (slides, stocks): (&[Slide], &[Stock]),
    (site, shop): (&Site, Percent),
    ctx: &mut Lower,
) {
    let moisture = |humidity| trade::equilibrium(site.temperature, humidity);
    let (milled, dampest) = (moisture(shop), moisture(site.humidity.1));
    for case in cases {
        let Some(boxes) = &case.drawers else { continue };
        let sides = stocks.get(boxes.stock.0);
        let grows = |high: Length| {
            let stock = sides.filter(|stock| stock.wood.is_some());
            let own = stock.and_then(|stock| Some((stock.sawn, stock.wood?)));
            own.map_or(Length::ZERO, |(sawn, wood)| {
                trade::movement(high, sawn.coefficient(&wood), milled, dampest)
            })
        };
        for opening in &mut case.openings {
            let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { continue };
            let Some(slide) = slides.get(slide.0) else { continue };
            let Some(wooden) = slide.wooden() else { continue };
            if opening.is_tray() {
                ctx.sink.push(
                    Diagnostic::error(
                        "not-supported-yet",
                        format!(
                            "{} is a tray behind doors, and those don't run on wood yet",
                            opening.path
                        ),
                        opening.span,
                        format!("{} is `wooden`", slide.name),
                    )
                    .note("give the tray a `slide` of its own that is hardware"),
                );
                continue;
            }
            let unit = ctx.tape.unit;
            let swell = ctx.tape.up(grows(opening.high.length).max(Length::ZERO));
            let at = Origin::Written(slide.span);
            let own = opening.name().to_owned();
            let mut add =
                |length, what: &str| ctx.facts.add(length, format!("{what} of {own}"), at);
            opening.on_wood = Some(Box::new(OnWood {
                play: wooden.play.clone(),
                above: add(swell + trade::above_box(unit), "room above the box"),
                behind: add(trade::behind_box(unit), "room behind the box"),
                lower: add(trade::back_below_sides(unit), "back below the sides"),
                past: add(trade::bottom_past_back(unit), "bottom past the back"),
                strip: add(trade::strip_wide(unit), "width of the strips"),
                stop: [
                    add(trade::stop_long(unit), "length of the stops"),
                    add(trade::stop_wide(unit), "width of the stops"),
                    add(trade::stop_high(unit), "height of the stops"),
                ],
                over_stop: add(trade::below_bottom(unit), "room over the stops"),
            }));
        }
    }
}
