//! Where the marks and figures of a drawing stand: none over another, and with a
//! line to what they name where there is no room on it.

use std::ops::RangeInclusive;

use super::cells::Cells;
use super::svg::{Anchor, Line, Svg, wide};

/// From and to.
pub(super) type Area = ((f64, f64), (f64, f64));

/// The places that are taken.
#[derive(Debug)]
pub(super) struct Labels {
    taken: Cells<Area>,
    /// What is drawn, which a text should not cover.
    solid: Cells<Area>,
    /// How often a place beside something was looked for in vain.
    in_vain: usize,
}

/// How often a place is looked for in vain before a drawing counts as full: what
/// bears so many marks is too far away to be read.
const FULL: usize = 150;

pub(super) fn meets(a: &Area, b: &Area) -> bool {
    a.0.0 < b.1.0 && b.0.0 < a.1.0 && a.0.1 < b.1.1 && b.0.1 < a.1.1
}

/// The smallest area that holds both.
pub(super) fn union(a: &Area, b: &Area) -> Area {
    ((a.0.0.min(b.0.0), a.0.1.min(b.0.1)), (a.1.0.max(b.1.0), a.1.1.max(b.1.1)))
}

/// True where the first lies within the second.
pub(super) fn is_within(a: &Area, b: &Area) -> bool {
    a.0.0 >= b.0.0 && a.1.0 <= b.1.0 && a.0.1 >= b.0.1 && a.1.1 <= b.1.1
}

pub(super) fn middle(area: &Area) -> (f64, f64) {
    ((area.0.0 + area.1.0) / 2.0, (area.0.1 + area.1.1) / 2.0)
}

/// The room of a level text that reaches so far to both sides of its middle.
pub(super) fn about(at: (f64, f64), half: f64, high: f64) -> Area {
    ((at.0 - half, at.1 - high * 0.55), (at.0 + half, at.1 + high * 0.55))
}

/// Small areas along a line, so that no text stands on it.
fn along(from: (f64, f64), to: (f64, f64), high: f64) -> impl Iterator<Item = Area> {
    let (x, y) = (to.0 - from.0, to.1 - from.1);
    let steps = (x.hypot(y) / (high * 0.3)).ceil().min(200.0) as u32;
    let half = high * 0.05;
    (0..=steps).map(move |step| {
        let part = f64::from(step) / f64::from(steps.max(1));
        let at = (from.0 + x * part, from.1 + y * part);
        ((at.0 - half, at.1 - half), (at.0 + half, at.1 + half))
    })
}

/// The sides of an area, as thin as a line beside letters of this height.
fn sides(area: &Area, high: f64) -> [Area; 4] {
    let half = high * 0.05;
    let ((x0, y0), (x1, y1)) = *area;
    [((x0, y0), (x1, y0)), ((x0, y1), (x1, y1)), ((x0, y0), (x0, y1)), ((x1, y0), (x1, y1))]
        .map(|(from, to)| ((from.0 - half, from.1 - half), (to.0 + half, to.1 + half)))
}

impl Labels {
    /// For a drawing that is about as large as this.
    pub(super) fn over(drawing: &Area) -> Self {
        Self { taken: Cells::over(drawing), solid: Cells::over(drawing), in_vain: 0 }
    }

    /// Nothing is written here.
    pub(super) fn take(&mut self, area: Area) {
        self.taken.put(&area, area);
    }

    /// Something is drawn here.
    pub(super) fn draw(&mut self, area: Area) {
        self.solid.put(&area, area);
    }

    /// The sides of something are drawn here.
    pub(super) fn draw_sides(&mut self, area: &Area, high: f64) {
        sides(area, high).into_iter().for_each(|side| self.draw(side));
    }

    /// Nothing is written on the sides of this area.
    pub(super) fn take_sides(&mut self, area: &Area, high: f64) {
        sides(area, high).into_iter().for_each(|side| self.take(side));
    }

    /// True where no text stands.
    pub(super) fn is_free(&self, room: &Area) -> bool {
        !self.taken.near(room).any(|taken| meets(&taken, room))
    }

    fn is_blank(&self, room: &Area) -> bool {
        !self.solid.near(room).any(|solid| meets(&solid, room))
    }

    /// Writes a text about its middle.
    pub(super) fn write(&mut self, svg: &mut Svg, at: (f64, f64), text: &str, high: f64) {
        self.take(about(at, wide(text, high) / 2.0, high));
        svg.label((at.0, at.1 + high * 0.35), text, high, Anchor::Middle);
    }

    /// Writes a text on what it names, where it has room there.
    pub(super) fn on(&mut self, svg: &mut Svg, own: &Area, text: &str, high: f64) -> bool {
        let places = [0.5, 0.35, 0.65, 0.2, 0.8]
            .into_iter()
            .flat_map(|up| [0.5, 0.3, 0.7, 0.15, 0.85].into_iter().map(move |along| (along, up)));
        let half = wide(text, high) / 2.0;
        for (along, up) in places {
            let at = (own.0.0 + (own.1.0 - own.0.0) * along, own.0.1 + (own.1.1 - own.0.1) * up);
            let room = about(at, half, high);
            if is_within(&room, own) && self.is_free(&room) {
                self.write(svg, at, text, high);
                return true;
            }
        }
        false
    }

    /// Writes a text near a point with a line to it: on blank paper if there is some
    /// within reach, else where no other text stands. False where there is no place.
    pub(super) fn lead(&mut self, svg: &mut Svg, to: (f64, f64), text: &str, high: f64) -> bool {
        const TURNS: [(f64, f64); 12] = [
            (1.0, 0.0),
            (-1.0, 0.0),
            (0.0, -1.0),
            (0.0, 1.0),
            (0.7, -0.7),
            (-0.7, -0.7),
            (0.7, 0.7),
            (-0.7, 0.7),
            (0.9, -0.4),
            (-0.9, -0.4),
            (0.9, 0.4),
            (-0.9, 0.4),
        ];
        if self.in_vain >= FULL {
            return false;
        }
        // Every line begins at the point.
        if !along(to, to, high).all(|spot| self.is_free(&spot)) {
            self.in_vain += 1;
            return false;
        }
        let half = wide(text, high) / 2.0;
        let spots = |rings: RangeInclusive<u32>| {
            rings.flat_map(move |ring| {
                let far = high * 0.7 * f64::from(ring);
                TURNS.into_iter().map(move |(x, y)| (to.0 + x * (far + half), to.1 + y * far))
            })
        };
        // The line ends at the nearest side of the text.
        let end = |own: &Area| (to.0.clamp(own.0.0, own.1.0), to.1.clamp(own.0.1, own.1.1));
        let clear = |own: &Area| along(to, end(own), high).all(|spot| self.is_free(&spot));
        let free = |at: &(f64, f64)| {
            let own = about(*at, half, high);
            self.is_free(&own) && clear(&own)
        };
        let mut nearest = None;
        let blank = spots(1..=12).filter(free).find(|at| {
            nearest.get_or_insert(*at);
            self.is_blank(&about(*at, half, high))
        });
        let found = blank.or(nearest).or_else(|| spots(13..=80).find(free));
        let Some(at) = found else {
            self.in_vain += 1;
            return false;
        };
        let own = about(at, half, high);
        let end = end(&own);
        svg.line(to, end, Line::Narrow);
        svg.dot(to, high * 0.12);
        along(to, end, high).for_each(|spot| self.take(spot));
        self.write(svg, at, text, high);
        true
    }

    /// Writes a text beside what it names, with a line to the middle of that, or to
    /// another point along it where the line of a neighbor crosses the middle.
    pub(super) fn lead_out(&mut self, svg: &mut Svg, own: &Area, text: &str, high: f64) {
        let (x, y) = middle(own);
        let is_upright = own.1.1 - own.0.1 > own.1.0 - own.0.0;
        [0.5, 0.35, 0.65, 0.2, 0.8].into_iter().any(|part| {
            let to = match is_upright {
                true => (x, own.0.1 + (own.1.1 - own.0.1) * part),
                false => (own.0.0 + (own.1.0 - own.0.0) * part, y),
            };
            self.lead(svg, to, text, high)
        });
    }

    /// A column of texts, each with a line to its point; `x` is the side of the
    /// column that faces the drawing, `turn` where the lines bend. Returns how far
    /// the texts reach.
    pub(super) fn column(
        &mut self,
        svg: &mut Svg,
        (turn, x): (f64, f64),
        mut texts: Vec<((f64, f64), String)>,
        high: f64,
    ) -> f64 {
        texts.sort_by(|a, b| a.0.1.total_cmp(&b.0.1));
        let wanted: Vec<f64> = texts.iter().map(|(to, _)| to.1).collect();
        let is_right = x > turn;
        let mut reach = x;
        let halves = vec![high * 0.625; wanted.len()];
        for ((to, text), y) in texts.iter().zip(spread(&wanted, &halves)) {
            svg.line(*to, (turn, to.1), Line::Narrow);
            svg.line((turn, to.1), (x, y), Line::Narrow);
            let away = if is_right { high * 0.3 } else { -high * 0.3 };
            let far = x + away + if is_right { wide(text, high) } else { -wide(text, high) };
            self.take(((x.min(far), y - high * 0.55), (x.max(far), y + high * 0.55)));
            reach = if is_right { reach.max(far) } else { reach.min(far) };
            let anchor = if is_right { Anchor::Start } else { Anchor::End };
            svg.label((x + away, y + high * 0.35), text, high, anchor);
        }
        reach
    }
}

/// Places for what reaches so far to both sides of its middle, each as near as can be
/// to where it is wanted; the wanted places rise.
pub(super) fn spread(wanted: &[f64], halves: &[f64]) -> Vec<f64> {
    // How far each stands from the first when all stand close together.
    let mut before = 0.0;
    let mut reach = 0.0;
    let close: Vec<f64> = halves
        .iter()
        .enumerate()
        .map(|(at, half)| {
            before += if at == 0 { 0.0 } else { reach + half };
            reach = *half;
            before
        })
        .collect();
    // Neighbors that would lie too close stand together about their mean.
    let mut groups: Vec<(f64, usize)> = Vec::new();
    for (place, close) in wanted.iter().zip(&close) {
        let mut own = (place - close, 1);
        while let Some(before) = groups.last().copied() {
            if before.0 / before.1 as f64 <= own.0 / own.1 as f64 {
                break;
            }
            own = (own.0 + before.0, own.1 + before.1);
            groups.pop();
        }
        groups.push(own);
    }
    let each =
        groups.iter().flat_map(|(sum, count)| std::iter::repeat_n(sum / *count as f64, *count));
    each.zip(close).map(|(place, close)| place + close).collect()
}

#[cfg(test)]
mod tests {
    use super::spread;

    /// Three at 10 and one at 50, 4 apart: the three stand about their mean, which
    /// is 10, and the one stays.
    #[test]
    fn places_are_a_gap_apart_and_near() {
        assert_eq!(spread(&[10.0, 10.0, 10.0, 50.0], &[2.0; 4]), [6.0, 10.0, 14.0, 50.0]);
    }

    /// Two at 10 that reach 2 and 6 stand 8 apart about it: at 6 and 14.
    #[test]
    fn what_is_wide_keeps_its_neighbor_farther_off() {
        assert_eq!(spread(&[10.0, 10.0], &[2.0, 6.0]), [6.0, 14.0]);
    }
}
