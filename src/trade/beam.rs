//! How far a loaded board bends.
//!
//! Pounds and inches, as the published tables have them. Bending only: shear
//! adds little where a span is more than 20 times its thickness.

use crate::measure::{Exact, Length, Load, Unit};

/// How a board is held and what lies on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beam {
    /// Laid on both ends, loaded all over.
    Simple,
    /// Laid on both ends, loaded in the middle.
    SimpleCenter,
    /// Held fast at both ends, loaded all over.
    Clamped,
    /// Held fast at both ends, loaded in the middle.
    ClampedCenter,
    /// Held fast at one end, loaded all over.
    Cantilever,
    /// Held fast at one end, loaded at the other.
    CantileverEnd,
    /// In one piece over two equal spans, loaded all over; the load and the
    /// span are those of one of them.
    TwoSpans,
}

impl Beam {
    /// What W L³ / EI is multiplied by: Wood Handbook (FPL-GTR-190), Table 9-1;
    /// the two spans: American Wood Council, Design Aid 6, w L⁴ / (185 EI).
    #[must_use]
    pub fn factor(self) -> f64 {
        match self {
            Self::Simple => 5.0 / 384.0,
            Self::SimpleCenter => 1.0 / 48.0,
            Self::Clamped => 1.0 / 384.0,
            Self::ClampedCenter => 1.0 / 192.0,
            Self::Cantilever => 1.0 / 8.0,
            Self::CantileverEnd => 1.0 / 3.0,
            Self::TwoSpans => 1.0 / 185.0,
        }
    }

    /// The sag in inches under `load` pounds in all over a span in inches;
    /// `stiffness` is EI in lb in². Nothing that is not stiff at all holds.
    #[must_use]
    pub fn sag(self, load: f64, span: f64, stiffness: f64) -> f64 {
        if stiffness <= 0.0 {
            return f64::INFINITY;
        }
        self.factor() * load * span.powi(3) / stiffness
    }

    /// The longest span in inches at which `per_inch` pounds on each inch
    /// leave a sag of no more than the span over `ratio`, and no more than
    /// `most` inches.
    #[must_use]
    pub fn longest(self, per_inch: f64, stiffness: f64, ratio: f64, most: f64) -> f64 {
        let one = self.factor() * per_inch / stiffness.max(f64::MIN_POSITIVE);
        if one <= 0.0 {
            return f64::INFINITY;
        }
        (1.0 / (one * ratio)).cbrt().min((most / one).sqrt().sqrt())
    }
}

/// The greatest sag in inches of a board laid on both ends of a span, under `load` pounds
/// at one place, `at` inches from the nearer end: P a (L² − a²)^(3/2) / (9 √3 EI L).
/// American Wood Council, Design Aid 6, simple beam, load at any point.
#[must_use]
pub fn sag_at(load: f64, span: f64, at: f64, stiffness: f64) -> f64 {
    if stiffness <= 0.0 {
        return f64::INFINITY;
    }
    let near = at.min(span - at).max(0.0);
    let rest = (span.powi(2) - near.powi(2)).powf(1.5);
    load * near * rest / (9.0 * 3.0_f64.sqrt() * stiffness * span)
}

/// Moment of inertia of a board `wide` and `high` in the direction it bends,
/// in in⁴: b h³ / 12.
#[must_use]
pub fn inertia(wide: Length, high: Length) -> f64 {
    inches(wide) * inches(high).powi(3) / 12.0
}

/// EI of one board in lb in², its stiffness in thousands of pounds to the
/// square inch. Boards that bend together add theirs up.
#[must_use]
pub fn board_stiffness(thousands: u32, wide: Length, high: Length) -> f64 {
    f64::from(thousands) * 1000.0 * inertia(wide, high)
}

/// Pounds on each inch of a board this deep from front to back.
#[must_use]
pub fn line_load(load: Load, deep: Length) -> f64 {
    let foot = Load::pounds_per_foot(Exact::ONE).0.to_f64();
    load.0.to_f64() / foot * inches(deep) / 144.0
}

/// What a shelf, bottom or drawer holds where its maker says nothing: 15 lb on
/// a square foot. ANSI/KCMA A161.1, shelves and bottoms, drawers.
#[must_use]
pub fn usual_load() -> Load {
    Load::pounds_per_foot(Exact::int(15))
}

/// What an open shelf is loaded with where its maker says nothing, since books
/// come to stand on it: 40 lb on a square foot. Architectural Woodwork
/// Standards, 1st ed., p. 253: general shelving.
#[must_use]
pub fn book_load() -> Load {
    Load::pounds_per_foot(Exact::int(40))
}

/// How many times its first sag a board comes to after years under its load:
/// 1.5 for plywood, MDF, and particleboard, 2.5 for solid wood (common practice,
/// no source; the Wood Handbook, ch. 5, has about twice for wood in a dry room,
/// from memory).
#[must_use]
pub fn creep(solid: bool) -> Exact {
    if solid { Exact::ratio(5, 2) } else { Exact::ratio(3, 2) }
}

/// The pounds on each inch of a rear edge that a back holds which is pinned or
/// screwed to it every 6 in: 25 lb for each pin (common practice, no source).
#[must_use]
pub fn pinned_line() -> f64 {
    25.0 / 6.0
}

/// How far a board may sag under [`usual_load`]: 1/16 in in a foot of span, and
/// 1/4 in at most. ANSI/KCMA A161.1, shelves and bottoms.
pub const HOUSEHOLD: Allowed = Allowed { ratio: 192, most: Some((1, 4)) };

/// How far a shelf may sag under a load that is written for it: the span over
/// 144. Architectural Woodwork Standards, 1st ed., p. 253 and 279, which load
/// general shelving with 40 and bookshelves with 50 lb on a square foot. No board
/// may sag more after years.
pub const WRITTEN: Allowed = Allowed { ratio: 144, most: None };

/// A limit on sag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Allowed {
    /// The span over this.
    pub ratio: u32,
    /// At most so much, in inches.
    pub most: Option<(i64, i64)>,
}

impl Allowed {
    /// The sag that is allowed over a span.
    #[must_use]
    pub fn over(&self, span: Length) -> Length {
        let part = span / i64::from(self.ratio);
        self.most.map_or(part, |(n, d)| part.min(Length::inches(n, d)))
    }

    /// The most it may come to, in inches.
    #[must_use]
    pub fn most_inches(&self) -> f64 {
        self.most.map_or(f64::INFINITY, |(n, d)| Exact::ratio(n, d).to_f64())
    }
}

/// A length in inches.
#[must_use]
pub fn inches(length: Length) -> f64 {
    length.in_unit(Unit::Inch).to_f64()
}

/// Inches as a length, up to the next thousandth of a millimetre; beyond any
/// piece where there is no such number.
#[must_use]
pub fn rounded_up(inches: f64) -> Length {
    let thousandths = (inches * 25_400.0).ceil();
    let most = 1e9;
    let counted = if thousandths.is_nan() { most } else { thousandths.clamp(0.0, most) };
    Length::mm(1) * Exact::ratio(counted as i64, 1000)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Architectural Woodwork Standards, 1st ed., p. 279, 4.4.14.10: longest
    /// adjustable shelves in inches, 3/4 and 1 in thick, at 40 and 50 lb/ft².
    #[test]
    fn spans_are_those_of_the_standard() {
        for (thousands, spans) in [
            (950, [40.0, 37.0, 53.0, 49.0]),
            (1800, [49.0, 46.0, 66.0, 61.0]),
            (1820, [49.0, 46.0, 66.0, 61.0]),
        ] {
            let cells = [(3, 40), (3, 50), (4, 40), (4, 50)];
            for ((quarters, pounds), span) in cells.into_iter().zip(spans) {
                let deep = Length::inches(12, 1);
                let ei = board_stiffness(thousands, deep, Length::inches(quarters, 4));
                let line = line_load(Load::pounds_per_foot(Exact::int(pounds)), deep);
                let got = Beam::Simple.longest(line, ei, 144.0, f64::INFINITY);
                assert!((got - span).abs() <= 0.75, "{thousands} {quarters} {pounds}: {got}");
                let sag = Beam::Simple.sag(line * got, got, ei);
                assert!((sag - got / 144.0).abs() < 1e-9);
            }
        }
    }

    /// Worked from Wood Handbook, Table 9-1: a shelf 36 x 11-1/4 x 3/4 in of
    /// 1.82 million psi: I = 0.39551 in⁴; 75 lb spread 0.0633 in, in the
    /// middle 0.1013 in.
    #[test]
    fn a_worked_shelf_sags_as_worked() {
        let (wide, thick) = (Length::inches(45, 4), Length::inches(3, 4));
        assert!((inertia(wide, thick) - 0.39551).abs() < 0.00001);
        let ei = board_stiffness(1820, wide, thick);
        assert!((Beam::Simple.sag(75.0, 36.0, ei) - 0.0633).abs() < 0.0001);
        assert!((Beam::SimpleCenter.sag(75.0, 36.0, ei) - 0.1013).abs() < 0.0001);
    }

    /// Outside values for a shelf 3/4 in thick under 40 lb on a square foot. The
    /// strict one is a sag of 0.02 in to the foot after years, which no eye sees:
    /// plywood 22 in, red oak 27 (derived, both with 1.5 times the first sag). The
    /// loose one is the span that the
    /// Architectural Woodwork Standards give for a new shelf: plywood 40, oak 49.
    /// What the rule lets pass after years lies between.
    #[test]
    fn a_shelf_that_passes_lies_between_the_published_spans() {
        let thick = Length::inches(3, 4);
        let deep = Length::inches(12, 1);
        let line = line_load(book_load(), deep);
        for (thousands, solid, strict, loose) in
            [(950, false, 22.0, 40.0), (1820, true, 27.0, 49.0)]
        {
            let ei = board_stiffness(thousands, deep, thick);
            let creep = creep(solid).to_f64();
            let most =
                Beam::Simple.longest(line * creep, ei, f64::from(WRITTEN.ratio), f64::INFINITY);
            assert!(strict < most && most < loose, "{thousands}: {most}");
            let unseen = Beam::Simple.longest(line * 1.5, ei, 600.0, f64::INFINITY);
            assert!((unseen - strict).abs() <= 0.75, "{thousands}: {unseen}");
            let new = Beam::Simple.longest(line, ei, 144.0, f64::INFINITY);
            assert!((new - loose).abs() <= 0.75, "{thousands}: {new}");
        }
    }

    /// In the middle it is P L³ / 48 EI (Wood Handbook, Table 9-1). A quarter of the way
    /// along, worked by hand with EI = 1 and L = 4: 1 × 15^1.5 / (9 × 1.7321 × 4) = 0.9317.
    #[test]
    fn a_load_at_one_place_sags_as_worked() {
        let middle = Beam::SimpleCenter.sag(75.0, 36.0, 7e5);
        assert!((sag_at(75.0, 36.0, 18.0, 7e5) - middle).abs() < 1e-9);
        assert!((sag_at(1.0, 4.0, 1.0, 1.0) - 0.9317).abs() < 0.0001);
        assert!((sag_at(1.0, 4.0, 3.0, 1.0) - 0.9317).abs() < 0.0001);
    }

    /// American Wood Council, Design Aid 6: over a middle support the sag is
    /// 0.415 of that of one span.
    #[test]
    fn a_middle_support_holds_more_than_two_shorter_boards() {
        let ratio = Beam::TwoSpans.factor() / Beam::Simple.factor();
        assert!((ratio - 0.415).abs() < 0.001, "{ratio}");
    }

    /// ANSI/KCMA A161.1: 1/16 in in a foot, so 3/16 in over 36 in; never more
    /// than 1/4 in. Architectural Woodwork Standards: 36/144 = 1/4 in.
    #[test]
    fn limits_are_those_of_the_standards() {
        let yard = Length::inches(36, 1);
        assert_eq!(HOUSEHOLD.over(yard), Length::inches(3, 16));
        assert_eq!(HOUSEHOLD.over(yard.twice()), Length::inches(1, 4));
        assert_eq!(WRITTEN.over(yard), Length::inches(1, 4));
    }

    #[test]
    fn what_is_not_stiff_holds_nothing() {
        assert_eq!(rounded_up(Beam::Simple.sag(1.0, 1.0, 0.0)), Length::mm(1_000_000));
        assert_eq!(rounded_up(0.1), Length::mm(254) / 100);
    }

    proptest! {
        #[test]
        fn a_stiffer_thicker_or_shorter_shelf_never_sags_more(
            thousands in 300u32..2500, more in 0u32..500,
            sixteenths in 4i64..40, thicker in 0i64..16,
            span in 5.0f64..120.0, shorter in 0.0f64..60.0,
            pounds in 1i64..100,
        ) {
            let deep = Length::inches(12, 1);
            let line = line_load(Load::pounds_per_foot(Exact::int(pounds)), deep);
            let sag = |thousands, sixteenths, span: f64| {
                let ei = board_stiffness(thousands, deep, Length::inches(sixteenths, 16));
                Beam::Simple.sag(line * span, span, ei)
            };
            let own = sag(thousands, sixteenths, span);
            prop_assert!(sag(thousands + more, sixteenths, span) <= own);
            prop_assert!(sag(thousands, sixteenths + thicker, span) <= own);
            prop_assert!(sag(thousands, sixteenths, (span - shorter).max(0.0)) <= own);
        }
    }
}
