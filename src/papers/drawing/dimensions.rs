//! Dimensions of a drawing: lines with ticks, and figures that stand clear of each other.

use super::labels::spread;
use super::svg::{Line, Svg, wide};

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

    /// Dimensions that follow each other on an upright line, read from the right.
    pub(in crate::papers) fn chain_upright(
        &mut self,
        chain: &[(f64, f64, String)],
        x: f64,
        high: f64,
    ) {
        for (from, to, _) in chain {
            self.line((x, *from), (x, *to), Line::Narrow);
            for y in [*from, *to] {
                self.tick((x, y), high);
            }
        }
        for ((from, to, figure), (at, is_first)) in chain.iter().zip(levels(chain, high)) {
            if at < from.min(*to) || from.max(*to) < at {
                self.line((x, (from + to) / 2.0), (x + high * 0.5, at), Line::Narrow);
            }
            let along = if is_first { x - high * 0.3 } else { x + high * 1.1 };
            self.text((along, at), figure, high, true);
        }
    }

    /// The stroke across the end of a dimension.
    fn tick(&mut self, (x, y): (f64, f64), high: f64) {
        let half = high * 0.3;
        self.line((x - half, y + half), (x + half, y - half), Line::Narrow);
    }
}

/// Where the figures of a chain of dimensions have their middles, and whether on the
/// first side of its line. A figure that is longer than its dimension stands on the
/// second, and moves along until it is clear of its neighbors.
fn levels(chain: &[(f64, f64, String)], high: f64) -> Vec<(f64, bool)> {
    let middle = |own: &(f64, f64, String)| (own.0 + own.1) / 2.0;
    let half = |own: &(f64, f64, String)| (wide(&own.2, high) + high * 0.3) / 2.0;
    let is_first =
        |own: &(f64, f64, String)| chain.len() == 1 || wide(&own.2, high) <= (own.1 - own.0).abs();
    let rises = chain.first().zip(chain.last()).is_none_or(|(a, b)| middle(a) <= middle(b));
    let turn = if rises { 1.0 } else { -1.0 };
    let second: Vec<_> = chain.iter().filter(|own| !is_first(own)).collect();
    let wanted: Vec<f64> = second.iter().map(|own| middle(own) * turn).collect();
    let halves: Vec<f64> = second.iter().map(|own| half(own)).collect();
    let mut moved = spread(&wanted, &halves).into_iter();
    let place = |own| match is_first(own) {
        true => (middle(own), true),
        false => (moved.next().unwrap_or_default() * turn, false),
    };
    chain.iter().map(place).collect()
}
