//! Panes that are seen face on: thin slanting strokes, the usual sign of glass.

use super::labels::{Area, Labels};
use super::svg::{Line, Svg};

/// How many strokes a pane has.
const STROKES: usize = 3;

/// Draws the strokes of a pane into its upper left part, where its mark does not stand; none on
/// one too small for them, or seen from its edge.
pub(super) fn strokes(svg: &mut Svg, labels: &mut Labels, pane: &Area, letter: f64) {
    let ((left, top), (right, bottom)) = *pane;
    let (wide, high) = (right - left, bottom - top);
    let long = (wide.min(high) / 4.0).min(letter * 6.0);
    let step = long / 2.5;
    let room = long + step * (STROKES as f64 - 1.0);
    if long < letter / 2.0 || room > wide * 0.8 {
        return;
    }
    let from = (left + (wide * 0.15).min(wide - room), top + high * 0.12);
    labels.take((from, (from.0 + room, from.1 + long)));
    for number in 0..STROKES {
        let x = from.0 + step * number as f64;
        svg.line((x, from.1 + long), (x + long, from.1), Line::Narrow);
    }
}
