//! What lying boards span, what helps them, and how far they sag.
//!
//! Counted: the load all over the board, between the faces of what carries it.
//! A board over a middle support at equal distances bends as one over two
//! spans; any other is taken as laid loose between two supports, which is on
//! the safe side. The rail of the frame that is glued along the front edge of
//! a bottom or top, and the kick board under the bottom, bend with it.
//!
//! Left out: the board's own weight, as in the tests that the limits come
//! from; the back, which holds the rear edge up; the glue of joints at the
//! ends; what a partition brings down from above.

use std::collections::BTreeMap;

use crate::measure::{Length, Load};
use crate::model::{Carries, Case, OpeningKind, Piece, StockId};
use crate::parts::{Direction, Part, PartId, Parts, Role};
use crate::trade::{self, Allowed, Beam};

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
    /// Members that bend with it.
    pub helpers: Vec<&'a Part>,
    /// How deep the strip is whose load it carries: its own width, or of a
    /// stretcher its share of the case's depth.
    pub bears: Length,
}

impl Lying<'_> {
    /// How far it may sag.
    #[must_use]
    pub fn limit(&self) -> Allowed {
        if self.carries.written.is_some() { trade::WRITTEN } else { trade::HOUSEHOLD }
    }

    /// EI of the board, were it made of this stock, and its helpers; `None`
    /// where nothing is known of how stiff that stock is.
    fn stiffness(&self, piece: &Piece, stock: StockId) -> Option<f64> {
        let stock = piece.stock(stock)?;
        let own = trade::board_stiffness(
            stock.stiffness?,
            self.part.width.length,
            stock.thickness.length,
        );
        let helps = self.helpers.iter().filter_map(|part| {
            let space = part.cuboid();
            let thousands = piece.stock(part.stock)?.stiffness?;
            let (wide, high) = (space.size(Direction::Z), space.size(Direction::Y));
            Some(trade::board_stiffness(thousands, wide, high))
        });
        Some(own + helps.sum::<f64>())
    }

    fn line(&self, load: Load) -> f64 {
        trade::line_load(load, self.bears)
    }

    fn sag_as(&self, piece: &Piece, stock: StockId, beam: Beam, span: Length) -> Option<Length> {
        let (stiffness, span) = (self.stiffness(piece, stock)?, trade::inches(span));
        let load = self.line(self.carries.load) * span;
        Some(trade::rounded_up(beam.sag(load, span, stiffness)))
    }

    /// How far it sags, were it made of this stock.
    #[must_use]
    pub fn sag(&self, piece: &Piece, stock: StockId) -> Option<Length> {
        self.sag_as(piece, stock, self.beam, self.span)
    }

    /// What it would sag at the most with an upright under its middle.
    #[must_use]
    pub fn halved(&self, piece: &Piece) -> Option<Length> {
        self.sag_as(piece, self.part.stock, Beam::Simple, self.span.half())
    }

    /// True where it holds, were it made of this stock.
    #[must_use]
    pub fn holds(&self, piece: &Piece, stock: StockId) -> bool {
        self.sag(piece, stock).is_none_or(|sag| sag <= self.limit().over(self.span))
    }

    /// The longest span that holds, in inches.
    #[must_use]
    pub fn longest(&self, piece: &Piece) -> Option<f64> {
        let limit = self.limit();
        let stiffness = self.stiffness(piece, self.part.stock)?;
        let line = self.line(self.carries.load);
        Some(self.beam.longest(line, stiffness, f64::from(limit.ratio), limit.most_inches()))
    }
}

/// Every board that something stands on, and that does not lie on the floor.
pub(super) fn lying<'a>(piece: &'a Piece, parts: &'a Parts) -> Vec<Lying<'a>> {
    // What each lying board is let into, and the uprights that end under it.
    let mut hosts: BTreeMap<PartId, Vec<&Part>> = BTreeMap::new();
    let mut under: BTreeMap<PartId, Vec<&Part>> = BTreeMap::new();
    for joint in &parts.joints {
        let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
            continue;
        };
        if is_lying(part) && matches!(into.role, Role::End(_) | Role::Partition) {
            hosts.entry(joint.part).or_default().push(into);
        } else if is_lying(into) && matches!(part.role, Role::Partition | Role::Leg) {
            under.entry(joint.into).or_default().push(part);
        }
    }
    let mut found = Vec::new();
    let mut from = 0;
    for case in &piece.cases {
        let own = parts.of_case(case.id);
        for (offset, part) in own.iter().enumerate().filter(|(_, part)| is_lying(part)) {
            let id = PartId(from + offset);
            let Some(carries) = carries(piece, case, part) else { continue };
            let none = Vec::new();
            let hosts = hosts.get(&id).unwrap_or(&none);
            let under = under.get(&id).unwrap_or(&none);
            let bears =
                match (&part.role, case.top.as_ref().and_then(|top| top.stretchers.as_ref())) {
                    (Role::Stretcher, Some((count, _))) => case.deep.length / i64::from(*count),
                    _ => part.width.length,
                };
            let lying = one(own, part, carries, hosts, under);
            found.extend(lying.map(|lying| Lying { bears, ..lying }));
        }
        from += own.len();
    }
    found
}

fn is_lying(part: &Part) -> bool {
    matches!(
        part.role,
        Role::Bottom
            | Role::Top
            | Role::Stretcher
            | Role::Divider
            | Role::FixedShelf
            | Role::AdjustableShelf
    )
}

/// What stands on a board; `None` where nothing does.
fn carries(piece: &Piece, case: &Case, part: &Part) -> Option<Carries> {
    match part.role {
        Role::Bottom => case.bottom.as_ref().map(|bottom| bottom.carries),
        Role::Top | Role::Stretcher => case.top.as_ref().and_then(|top| top.carries),
        Role::Divider => stood_on(case, part).then_some(case.shelves.carries),
        _ => {
            let opening = part.opening().and_then(|id| piece.opening(id));
            let own = opening.and_then(|opening| opening.shelves.as_ref()?.carries);
            Some(own.unwrap_or(case.shelves.carries))
        }
    }
}

/// True for a divider with a door or niche over it; over a drawer or a false
/// front nothing stands on it.
fn stood_on(case: &Case, part: &Part) -> bool {
    let space = part.cuboid();
    case.openings.iter().any(|opening| {
        let x = case.x + opening.x;
        (opening.is_door() || opening.kind == OpeningKind::Open)
            && opening.y == space.to.y
            && x < space.to.x
            && space.from.x < x + opening.wide.length
    })
}

fn one<'a>(
    own: &'a [Part],
    part: &'a Part,
    carries: Carries,
    hosts: &[&'a Part],
    under: &[&'a Part],
) -> Option<Lying<'a>> {
    let space = part.cuboid();
    if space.from.y.is_zero() {
        return None;
    }
    // From face to face of what it is let into; a board that nothing holds at
    // an end is taken whole.
    let middle = (space.from.x + space.to.x).half();
    let (mut left, mut right) = (space.from.x, space.to.x);
    for host in hosts.iter().map(|host| host.cuboid()) {
        if host.to.x <= middle {
            left = left.max(host.to.x);
        } else if host.from.x >= middle {
            right = right.min(host.from.x);
        }
    }
    let mut held: Vec<(Length, Length)> = Vec::new();
    let below = |other: &Part| other.cuboid().from.y < space.from.y;
    held.extend(under.iter().filter(|other| below(other)).map(|other| other.extent(Direction::X)));
    if part.role == Role::Bottom {
        for member in
            own.iter().filter(|other| matches!(other.role, Role::BaseMember | Role::BaseLeg))
        {
            let under = member.cuboid();
            let touches = under.to.y == space.from.y;
            if touches && under.from.x <= left && right <= under.to.x {
                return None;
            }
            held.extend(touches.then_some((under.from.x, under.to.x)));
        }
    }
    held.retain(|(from, to)| left < *to && *from < right);
    held.sort_unstable();
    let mut spans = Vec::new();
    let mut at = left;
    for (from, to) in &held {
        spans.push(*from - at);
        at = at.max(*to);
    }
    spans.push(right - at);
    let span = spans.iter().copied().max().filter(|span| span.is_positive())?;
    let over = matches!(spans.as_slice(), [first, second] if first == second);
    Some(Lying {
        part,
        carries,
        span,
        beam: if over { Beam::TwoSpans } else { Beam::Simple },
        supports: held.len(),
        helpers: helpers(own, part, right - left),
        bears: part.width.length,
    })
}

/// The rail along the front edge of a bottom, top or stretcher, and the kick board under
/// a bottom: those that run nine tenths of the way or more.
fn helpers<'a>(own: &'a [Part], part: &Part, clear: Length) -> Vec<&'a Part> {
    if !matches!(part.role, Role::Bottom | Role::Top | Role::Stretcher) {
        return Vec::new();
    }
    let space = part.cuboid();
    let helps = |other: &&Part| {
        let reach = other.cuboid();
        let along = reach.overlap_along(&space, Direction::X);
        let touches = match other.role {
            Role::Rail => reach.to.z == space.from.z && reach.overlaps_along(&space, Direction::Y),
            Role::Kick => {
                part.role == Role::Bottom
                    && reach.to.y == space.from.y
                    && reach.overlaps_along(&space, Direction::Z)
            }
            _ => false,
        };
        touches && along * 10 >= clear * 9
    };
    own.iter().filter(helps).collect()
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
    /// between its ends, 16-3/64 deep, 23/32 thick, 15 lb on a square foot.
    /// Plywood 950,000 psi: EI 471,700; rail 3/4 x 1-1/2 of 1.49 million
    /// psi: 314,300; kick board 23/32 x 4: 3,641,700. In all 4,427,700 lb in²;
    /// 106.66 lb, 5/384 x 106.66 x 63.8125³ / 4,427,700 = 0.0815 in.
    #[test]
    fn the_bottom_of_the_console_is_held_by_rail_and_kick() {
        with(include_str!("../../specs/hall-console.case"), |piece, all| {
            let bottom = named(all, "console.bottom");
            assert_eq!(bottom.span, Length::inches(1021, 16));
            assert_eq!(bottom.helpers.len(), 2);
            let sag = trade::inches(bottom.sag(piece, bottom.part.stock).expect("stiff"));
            assert!((sag - 0.0815).abs() < 0.0002, "{sag}");
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

    /// Worked by Wood Handbook, Table 9-1: the back stretcher of the console
    /// under a worktop of 60 lb on a square foot carries half of its depth,
    /// 17/2 in: 3.542 lb/in; 27-9/32 between partitions, 4 x 23/32 of 950,000
    /// psi: EI 117,600; 5 x 3.542 x 27.281⁴ / (384 x 117,600) = 0.217 in.
    #[test]
    fn a_stretcher_carries_its_share_of_a_worktop() {
        let console = include_str!("../../specs/hall-console.case");
        let text = console.replace(
            "top    { stretchers 2 { wide 4 };",
            "top    { stretchers 2 { wide 4 }; load 60 lb per ft2;",
        );
        with(&text, |piece, all| {
            let back = named(all, "console.back-stretcher");
            let sag = trade::inches(back.sag(piece, back.part.stock).expect("stiff"));
            assert!((sag - 0.217).abs() < 0.001, "{sag}");
            let front = named(all, "console.front-stretcher");
            assert_eq!(front.helpers.len(), 1, "the top rail bends with it");
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
