//! Dimensions of a drawing: lines with ticks, and figures that stand clear of each other.

use super::labels::spread;
use super::svg::{Anchor, Line, Svg, wide};

impl Svg {
    /// A dimension between two points on a level line, its figure above it.
    pub(in crate::papers) fn across(
        &mut self,
        from: f64,
        to: f64,
        y: f64,
        figure: &str,
        high: f64,
    ) {
        self.chain_across(&[(from, to, figure.to_owned())], y, high);
    }

    /// A dimension on an upright line, read from the right.
    pub(in crate::papers) fn upright(
        &mut self,
        from: f64,
        to: f64,
        x: f64,
        figure: &str,
        high: f64,
    ) {
        self.chain_upright(&[(from, to, figure.to_owned())], x, high);
    }

    /// Dimensions that follow each other on a level line, each with its figure above
    /// it, or below it where it is longer than its dimension.
    pub(in crate::papers) fn chain_across(
        &mut self,
        chain: &[(f64, f64, String)],
        y: f64,
        high: f64,
    ) {
        for (from, to, _) in chain {
            self.line((*from, y), (*to, y), Line::Narrow);
            for x in [*from, *to] {
                self.tick((x, y), high);
            }
        }
        for ((from, to, figure), (at, is_first)) in chain.iter().zip(levels(chain, high)) {
            if at < *from || *to < at {
                self.line(((from + to) / 2.0, y), (at, y + high * 0.5), Line::Narrow);
            }
            let up = if is_first { y - high * 0.3 } else { y + high * 1.1 };
            self.text((at, up), figure, high, false);
        }
    }

    /// Dimensions that follow each other on an upright line, read from the right. Where most of
    /// them are shorter than their figures, those stand level beside the line, one under the
    /// other. Returns how far the level ones reach to
    /// the right of the line.
    pub(in crate::papers) fn chain_upright(
        &mut self,
        chain: &[(f64, f64, String)],
        x: f64,
        high: f64,
    ) -> f64 {
        for (from, to, _) in chain {
            self.line((x, *from), (x, *to), Line::Narrow);
            for y in [*from, *to] {
                self.tick((x, y), high);
            }
        }
        let level = is_crowded(chain, high);
        let (places, beside) = match level {
            true => (beside(chain, high), high * 0.8),
            false => (levels(chain, high), high * 0.5),
        };
        let mut reach = 0.0_f64;
        for ((from, to, figure), (at, is_first)) in chain.iter().zip(places) {
            if at < from.min(*to) || from.max(*to) < at || (level && !is_first) {
                self.line((x, (from + to) / 2.0), (x + beside, at), Line::Narrow);
            }
            match (is_first, level) {
                (true, _) => self.text((x - high * 0.3, at), figure, high, true),
                (false, false) => self.text((x + high * 1.1, at), figure, high, true),
                (false, true) => {
                    self.label((x + high, at + high * 0.35), figure, high, Anchor::Start);
                    reach = reach.max(high + wide(figure, high));
                }
            }
        }
        reach
    }

    /// The stroke across the end of a dimension.
    fn tick(&mut self, (x, y): (f64, f64), high: f64) {
        let half = high * 0.3;
        self.line((x - half, y + half), (x + half, y - half), Line::Narrow);
    }
}

/// True where a figure is no longer than its dimension, or has none beside it.
fn fits(chain: &[(f64, f64, String)], own: &(f64, f64, String), high: f64) -> bool {
    chain.len() == 1 || wide(&own.2, high) <= (own.1 - own.0).abs()
}

/// True where the figures that are longer than their dimensions would take more than half of
/// their line, one behind the other.
fn is_crowded(chain: &[(f64, f64, String)], high: f64) -> bool {
    let long: f64 = chain.iter().map(|own| (own.1 - own.0).abs()).sum();
    let longer = chain.iter().filter(|own| !fits(chain, own, high));
    longer.map(|own| wide(&own.2, high) + high * 0.3).sum::<f64>() > long / 2.0
}

/// Where the figures of such a chain have their middles: those that fit along the line, and the
/// others level beside it.
fn beside(chain: &[(f64, f64, String)], high: f64) -> Vec<(f64, bool)> {
    placed(chain, high, |_| high * 0.6)
}

/// Where the figures of a chain of dimensions have their middles, and whether on the
/// first side of its line. A figure that is longer than its dimension stands on the
/// second, and moves along until it is clear of its neighbors.
fn levels(chain: &[(f64, f64, String)], high: f64) -> Vec<(f64, bool)> {
    placed(chain, high, |figure| (wide(figure, high) + high * 0.7) / 2.0)
}

/// The same, where half of a figure takes so much of the line.
fn placed(chain: &[(f64, f64, String)], high: f64, half: impl Fn(&str) -> f64) -> Vec<(f64, bool)> {
    let middle = |own: &(f64, f64, String)| (own.0 + own.1) / 2.0;
    let is_first = |own: &(f64, f64, String)| fits(chain, own, high);
    let rises = chain.first().zip(chain.last()).is_none_or(|(a, b)| middle(a) <= middle(b));
    let turn = if rises { 1.0 } else { -1.0 };
    let second: Vec<_> = chain.iter().filter(|own| !is_first(own)).collect();
    let wanted: Vec<f64> = second.iter().map(|own| middle(own) * turn).collect();
    let halves: Vec<f64> = second.iter().map(|own| half(&own.2)).collect();
    let mut moved = spread(&wanted, &halves).into_iter();
    let place = |own| match is_first(own) {
        true => (middle(own), true),
        false => (moved.next().unwrap_or_default() * turn, false),
    };
    chain.iter().map(place).collect()
}
