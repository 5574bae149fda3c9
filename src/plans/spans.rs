//! What lying boards span, what helps them, and how far they sag.
//!
//! Counted: the load all over the board, between the faces of what carries it.
//! A board over a middle support at equal distances bends as one over two
//! spans; any other is taken as laid loose between two supports, which is on
//! the safe side.
//!
//! The front and the rear edge of a board bend apart: each carries the load of
//! its half with half of the board, and what is fixed along it bends with it.
//! At the front that is the rail of the frame and the kick board under the
//! bottom, at the rear the back, as far as its pins or screws hold. The edge
//! that sags more counts. A stretcher is too narrow to bend apart.
//!
//! Left out: the board's own weight, as in the tests that the limits come
//! from; the glue of joints at the ends; what a partition brings down from
//! above.

mod lying;

use crate::measure::{Exact, Length};
use crate::model::{Carries, Piece, StockId};
use crate::parts::{Direction, Part, Role};
use crate::trade::{self, Allowed, Beam};

pub(super) use lying::lying;

/// A lying board under load.
#[derive(Clone, Debug)]
pub struct Lying<'a> {
    /// The board.
    pub part: &'a Part,
    /// What stands on it.
    pub carries: Carries,
    /// The longest way between two things that carry it.
    pub span: Length,
    /// How it is carried there.
    pub beam: Beam,
    /// Uprights that carry it between its ends.
    pub supports: usize,
    /// Members that bend with its front edge.
    pub front: Vec<&'a Part>,
    /// What bends with its rear edge.
    pub rear: Vec<&'a Part>,
    /// How deep the strip is whose load it carries: its own width, or of a
    /// stretcher its share of the case's depth.
    pub bears: Length,
}

/// A board bends down, at once or for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Age {
    /// When the load is put on it.
    New,
    /// After years under it.
    Old,
}

/// A sag beside what is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Judged {
    /// When.
    pub age: Age,
    /// How far it sags.
    pub sag: Length,
    /// How far it may.
    pub limit: Allowed,
}

/// An edge of a board with the half of it that bends along, or the whole.
struct Strip<'l, 'a> {
    share: Exact,
    helpers: Vec<&'l &'a Part>,
}

impl<'a> Lying<'a> {
    /// How far it may sag at once under its load.
    fn limit(&self) -> Allowed {
        if self.carries.written.is_some() || self.carries.open {
            trade::WRITTEN
        } else {
            trade::HOUSEHOLD
        }
    }

    /// The back helps only as far as what pins it to the rear edge holds.
    fn held(mut self) -> Self {
        let rear = self.strips().last().map_or(0.0, |strip| self.line(strip));
        if rear > trade::pinned_line() {
            self.rear.clear();
        }
        self
    }

    /// What bends together: both halves, or a stretcher.
    fn strips(&self) -> Vec<Strip<'_, 'a>> {
        if self.part.role == Role::Stretcher {
            let helpers = self.front.iter().chain(&self.rear).collect();
            return vec![Strip { share: Exact::ONE, helpers }];
        }
        let half = Exact::ratio(1, 2);
        [&self.front, &self.rear]
            .map(|helpers| Strip { share: half, helpers: helpers.iter().collect() })
            .into()
    }

    /// EI of a strip of the board, were it made of this stock, and its helpers;
    /// `None` where nothing is known of how stiff that stock is.
    fn stiffness(&self, piece: &Piece, stock: StockId, strip: &Strip<'_, '_>) -> Option<f64> {
        let stock = piece.stock(stock)?;
        let own = trade::board_stiffness(
            stock.stiffness?,
            self.part.width.length * strip.share,
            stock.thickness.length,
        );
        let helps = strip.helpers.iter().filter_map(|part| {
            let space = part.cuboid();
            let thousands = piece.stock(part.stock)?.stiffness?;
            let (wide, high) = (space.size(Direction::Z), space.size(Direction::Y));
            Some(trade::board_stiffness(thousands, wide, high))
        });
        Some(own + helps.sum::<f64>())
    }

    /// Pounds on each inch of a strip.
    fn line(&self, strip: &Strip<'_, '_>) -> f64 {
        trade::line_load(self.carries.load, self.bears * strip.share)
    }

    fn sag_as(&self, piece: &Piece, stock: StockId, beam: Beam, span: Length) -> Option<Length> {
        let span = trade::inches(span);
        let mut worst = 0.0_f64;
        for strip in self.strips() {
            let stiffness = self.stiffness(piece, stock, &strip)?;
            worst = worst.max(beam.sag(self.line(&strip) * span, span, stiffness));
        }
        Some(trade::rounded_up(worst))
    }

    /// How far it sags when it is new, were it made of this stock.
    #[must_use]
    pub fn sag(&self, piece: &Piece, stock: StockId) -> Option<Length> {
        self.sag_as(piece, stock, self.beam, self.span)
    }

    /// The sag of a new board and of one that has been loaded for years, were it
    /// made of this stock, each beside what is allowed.
    fn judged(&self, piece: &Piece, stock: StockId) -> Option<[Judged; 2]> {
        let sag = self.sag(piece, stock)?;
        let creep = piece.stock(stock)?.creep();
        Some([
            Judged { age: Age::New, sag, limit: self.limit() },
            Judged { age: Age::Old, sag: sag * creep, limit: trade::WRITTEN },
        ])
    }

    /// Where it sags too far, were it made of this stock: that of the two which
    /// is farther over.
    #[must_use]
    pub fn over(&self, piece: &Piece, stock: StockId) -> Option<Judged> {
        let over = |one: &Judged| one.sag - one.limit.over(self.span);
        let both = self.judged(piece, stock)?.into_iter();
        both.filter(|one| over(one).is_positive()).max_by_key(over)
    }

    /// What it would sag for good at the most with an upright under its middle.
    #[must_use]
    pub fn halved(&self, piece: &Piece) -> Option<Length> {
        let creep = piece.stock(self.part.stock)?.creep();
        let sag = self.sag_as(piece, self.part.stock, Beam::Simple, self.span.half())?;
        Some(sag * creep)
    }

    /// True where it holds, were it made of this stock.
    #[must_use]
    pub fn holds(&self, piece: &Piece, stock: StockId) -> bool {
        self.over(piece, stock).is_none()
    }

    /// The longest span that holds, in inches.
    #[must_use]
    pub fn longest(&self, piece: &Piece) -> Option<f64> {
        let stock = self.part.stock;
        let creep = piece.stock(stock)?.creep().to_f64();
        let mut longest = f64::INFINITY;
        for strip in self.strips() {
            let stiffness = self.stiffness(piece, stock, &strip)?;
            for (limit, load) in [(self.limit(), 1.0), (trade::WRITTEN, creep)] {
                let line = self.line(&strip) * load;
                let (ratio, most) = (f64::from(limit.ratio), limit.most_inches());
                longest = longest.min(self.beam.longest(line, stiffness, ratio, most));
            }
        }
        Some(longest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Exact;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn with<T>(text: &str, look: impl FnOnce(&Piece, &[Lying<'_>]) -> T) -> T {
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
        let (piece, parts) = (compiled.piece.expect("a piece"), compiled.parts.expect("parts"));
        look(&piece, &lying(&piece, &parts))
    }

    fn named<'l, 'a>(all: &'l [Lying<'a>], path: &str) -> &'l Lying<'a> {
        all.iter().find(|one| one.part.path == path).expect("a board under load")
    }

    /// Worked by Wood Handbook, Table 9-1: the bottom of the console, 63-13/16
    /// between its ends, 16-3/64 deep, 23/32 thick, 15 lb on a square foot. Its
    /// front half, 53.33 lb: plywood 950,000 psi: EI 235,850; rail 3/4 x 1-1/2 of
    /// 1.49 million psi: 314,300; kick board 23/32 x 4: 3,641,700. In all
    /// 4,191,850 lb in²; 5/384 x 53.33 x 63.8125³ / 4,191,850 = 0.0430 in. The
    /// rear half hangs on the back, 13/64 x 29 of 950,000 psi: 392 million.
    #[test]
    fn the_bottom_of_the_console_is_held_by_rail_and_kick_and_back() {
        with(include_str!("../../specs/hall-console.case"), |piece, all| {
            let bottom = named(all, "console.bottom");
            assert_eq!(bottom.span, Length::inches(1021, 16));
            assert_eq!((bottom.front.len(), bottom.rear.len()), (2, 1));
            let sag = trade::inches(bottom.sag(piece, bottom.part.stock).expect("stiff"));
            assert!((sag - 0.0430).abs() < 0.0002, "{sag}");
            assert!(bottom.holds(piece, bottom.part.stock));
        });
    }

    /// The same bottom without a back: the rail and the kick board at the front do
    /// nothing for its rear edge. 5/384 x 53.33 x 63.8125³ / 235,850 = 0.765 in,
    /// where 1/4 is allowed. A stone top of 100 lb on a square foot that stands on
    /// it brings 5.57 lb to each inch of the rear edge, 33 lb to a pin: the back
    /// no longer holds it.
    #[test]
    fn a_rear_edge_gets_no_help_from_the_front() {
        let console = include_str!("../../specs/hall-console.case");
        let bare = console.replace("  back   { stock thin-ply; joint rabbet { deep 3/8 } }\n", "");
        let heavy = console
            .replace("bottom { stock birch-ply;", "bottom { stock birch-ply; load 100 lb per ft2;");
        with(&bare, |piece, all| {
            let bottom = named(all, "console.bottom");
            let over = bottom.over(piece, bottom.part.stock).expect("too far");
            let sag = trade::inches(bottom.sag(piece, bottom.part.stock).expect("stiff"));
            assert!((sag - 0.765).abs() < 0.025, "{sag}");
            assert!(bottom.rear.is_empty() && over.sag > Length::inches(1, 2));
        });
        with(&heavy, |piece, all| {
            let bottom = named(all, "console.bottom");
            assert!(bottom.rear.is_empty() && !bottom.holds(piece, bottom.part.stock));
        });
    }

    /// The cases of the alcove, worked: a shelf 764 mm of 18 mm plywood under
    /// 50 lb on a square foot sags 3.4 mm; 764/144 = 5.3 mm is allowed.
    #[test]
    fn the_bookshelves_of_the_alcove_hold_books() {
        let text = include_str!("../../specs/alcove-shelves.case")
            .replace("set-back 0 }", "set-back 0; load 50 lb per ft2 }");
        with(&text, |piece, all| {
            let shelf = named(all, "left-books.books.shelf-1");
            assert_eq!(shelf.span, Length::mm(764));
            let sag = shelf.sag(piece, shelf.part.stock).expect("stiff").to_mm_f64();
            assert!((sag - 3.4).abs() < 0.1, "{sag}");
            assert!(shelf.holds(piece, shelf.part.stock));
        });
    }

    /// Open shelves are taken to hold 40 lb on a square foot, those behind doors
    /// 15. Worked: the alcove's shelf, 764 mm of 18 mm plywood, sags 3.4 x 40/50 =
    /// 2.7 mm, after years 4.1; 764/144 = 5.3 mm is allowed.
    #[test]
    fn open_shelves_are_loaded_with_books() {
        with(include_str!("../../specs/alcove-shelves.case"), |piece, all| {
            let shelf = named(all, "left-books.books.shelf-1");
            assert_eq!(shelf.carries.load, trade::book_load());
            let sag = shelf.sag(piece, shelf.part.stock).expect("stiff").to_mm_f64();
            assert!((sag - 2.72).abs() < 0.1, "{sag}");
            assert!(shelf.holds(piece, shelf.part.stock));
            let behind = named(all, "cupboard.store.shelf-1");
            assert_eq!(behind.carries.load, trade::usual_load());
        });
    }

    /// Worked by Wood Handbook, Table 9-1: the back stretcher of the console
    /// under a worktop of 60 lb on a square foot carries half of its depth,
    /// 17/2 in: 3.542 lb/in; 27-9/32 between partitions, 4 x 23/32 of 950,000
    /// psi: EI 117,600; 5 x 3.542 x 27.281⁴ / (384 x 117,600) = 0.217 in, if
    /// no back is pinned to it. A pin each 6 in holds 21 lb there.
    #[test]
    fn a_stretcher_carries_its_share_of_a_worktop() {
        let console = include_str!("../../specs/hall-console.case");
        let loaded = console.replace(
            "top    { stretchers 2 { wide 4 };",
            "top    { stretchers 2 { wide 4 }; load 60 lb per ft2;",
        );
        let bare = loaded.replace("  back   { stock thin-ply; joint rabbet { deep 3/8 } }\n", "");
        with(&bare, |piece, all| {
            let back = named(all, "console.back-stretcher");
            let sag = trade::inches(back.sag(piece, back.part.stock).expect("stiff"));
            assert!((sag - 0.217).abs() < 0.001, "{sag}");
        });
        with(&loaded, |piece, all| {
            let back = named(all, "console.back-stretcher");
            assert!(back.rear.len() == 1 && back.holds(piece, back.part.stock));
            let front = named(all, "console.front-stretcher");
            assert_eq!(front.front.len(), 1, "the top rail bends with it");
        });
        with(console, |_, all| {
            assert!(all.iter().all(|one| one.part.role != Role::Stretcher));
        });
    }

    #[test]
    fn what_lies_on_the_floor_or_its_base_spans_nothing() {
        with(include_str!("../../specs/alcove-shelves.case"), |_, all| {
            assert!(all.iter().all(|one| one.part.path != "left-books.bottom"));
            assert_eq!(named(all, "cupboard.top").supports, 1);
        });
        let press = include_str!("../../specs/tide-cottage-press.case");
        with(press, |_, all| assert_eq!(named(all, "press.bottom").span, Length::mm(1064)));
        let level = press.replace("deep 6 }; flush }", "deep 6 } }");
        with(&level, |_, all| assert!(all.iter().all(|one| one.part.path != "press.bottom")));
    }

    #[test]
    fn a_leg_in_the_middle_makes_two_spans() {
        let text = include_str!("../../specs/first.case")
            .replace("  top { stretchers", "  leg { }\n  top { stretchers");
        with(&text, |piece, all| {
            let bottom = named(all, "cupboard.bottom");
            assert_eq!((bottom.supports, bottom.beam), (1, Beam::TwoSpans));
            // 36 - 3 x 23/32 over two.
            let each = (Length::inches(36, 1) - Length::inches(69, 32)) * Exact::ratio(1, 2);
            assert_eq!(bottom.span, each);
            assert!(bottom.holds(piece, bottom.part.stock));
        });
    }
}
