//! A sheet or a board to scale, with its cuts and what comes of them.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::sync::LazyLock;

use crate::cutting::Way;
use crate::measure::Length;
use crate::model::Stock;
use crate::papers::Source;
use crate::papers::sawn::{size, told};
use crate::plans::sawing::{Area, Cut, Laid, Sawn};
use crate::vocabulary::SheetGrain;

use super::labels::{Area as Room, Labels};
use super::legible;
use super::svg::{Anchor, Fill, Line, Svg, mm, wide};

/// The sheet as it lies, its length across the paper, and the marks of the pieces that are
/// too narrow for them.
pub(in crate::papers) fn drawing(
    source: &Source<'_, '_>,
    own: &Sawn,
    stock: &Stock,
) -> (String, Vec<String>) {
    let title = format!("sheet {} with its cuts and pieces", own.number);
    drawn(source, own, (stock.sheet_grain(), "left over", 1.0), &title)
}

/// How much larger the width of a board is drawn than its length, so that strips have room
/// for their marks.
pub(in crate::papers) const WIDER: u8 = 2;

/// A board as it lies, its grain across the paper, and the marks of the pieces that are too
/// narrow for them.
pub(in crate::papers) fn board(source: &Source<'_, '_>, own: &Sawn) -> (String, Vec<String>) {
    let title = format!("board {} with its cuts and pieces", own.number);
    drawn(source, own, (SheetGrain::Long, "left", f64::from(WIDER)), &title)
}

fn drawn(
    source: &Source<'_, '_>,
    own: &Sawn,
    (grain, left, wider): (SheetGrain, &'static str, f64),
    title: &str,
) -> (String, Vec<String>) {
    let (long, across) = (mm(own.size[0]), mm(own.size[1]) * wider);
    let too_narrow = RefCell::new(Vec::new());
    let draw = |letter: f64| {
        let svg = Svg::lettered(letter);
        let (named, bare) = (BTreeSet::new(), Vec::new());
        let taken = Labels::over(&((0.0, 0.0), (long, across)));
        let mut sketch = Sketch { svg, letter, own, source, left, wider, taken, named, bare };
        sketch.whole(grain);
        too_narrow.replace(sketch.bare);
        sketch.svg
    };
    let letter = legible::letter((long, across), (4.0, 4.0));
    let svg = legible::legible(letter, draw).finish(title);
    (svg, too_narrow.into_inner())
}

struct Sketch<'s, 'w, 'a> {
    svg: Svg,
    letter: f64,
    own: &'s Sawn,
    source: &'s Source<'w, 'a>,
    /// What stands in a leftover.
    left: &'static str,
    /// How much larger widths are drawn than lengths.
    wider: f64,
    /// Where letters stand.
    taken: Labels,
    /// The pieces whose names stand there.
    named: BTreeSet<String>,
    /// The marks that have no room in their pieces.
    bare: Vec<String>,
}

/// The letters beside a cut.
struct Beside {
    at: (f64, f64),
    text: String,
    anchor: Anchor,
}

impl Sketch<'_, '_, '_> {
    /// A length and a width on the paper.
    fn size(&self, [long, across]: [Length; 2]) -> (f64, f64) {
        (mm(long), mm(across) * self.wider)
    }

    fn whole(&mut self, grain: SheetGrain) {
        let (long, across) = self.size(self.own.size);
        self.svg.rect((0.0, 0.0), (long, across), Line::Narrow, Fill::White);
        // What is told of a cut stands at its line, and the marks clear of that.
        let mut beside: Vec<Beside> =
            self.own.cuts.iter().flat_map(|cut| self.numbers(cut)).collect();
        beside.extend(self.own.cuts.iter().filter_map(|cut| self.name(cut)));
        for area in &self.own.left {
            self.left(area);
        }
        for (from, to) in &self.own.lost {
            self.lost(*from, *to);
        }
        for laid in &self.own.laid {
            self.frame(&laid.area, Fill::White);
        }
        for laid in &self.own.laid {
            self.piece(laid);
        }
        for Beside { at, text, anchor } in &beside {
            self.svg.label(*at, text, self.letter, *anchor);
        }
        self.grain(grain);
    }

    /// A corner of an area on the paper, from the corner of the sheet.
    fn corner(&self, [along, across]: [Length; 2]) -> (f64, f64) {
        self.size([along + self.own.trim, across + self.own.trim])
    }

    fn frame(&mut self, area: &Area, fill: Fill) {
        let far = [area.at[0] + area.size[0], area.at[1] + area.size[1]];
        let (from, to) = (self.corner(area.at), self.corner(far));
        self.svg.rect(from, to, Line::Wide, fill);
    }

    fn left(&mut self, area: &Area) {
        self.frame(area, Fill::Grey);
        let size = size(self.source, area.size);
        self.told(area, &[self.left.to_owned()], &[size]);
    }

    /// A stretch of a board that falls off with its checks, a knot, or a split.
    fn lost(&mut self, from: Length, to: Length) {
        let area = Area { at: [from, Length::ZERO], size: [to - from, self.own.size[1]] };
        self.frame(&area, Fill::Grey);
        let (x, _) = self.corner([from, Length::ZERO]);
        let (far, across) = self.corner([to, self.own.size[1]]);
        self.svg.line((x, 0.0), (far, across), Line::Narrow);
        self.svg.line((x, across), (far, 0.0), Line::Narrow);
    }

    fn piece(&mut self, laid: &Laid) {
        let mark = told(self.source, &laid.blank);
        let size = size(self.source, laid.area.size);
        let states = [(laid.turned, "turned"), (laid.blank.later, "rough")];
        let states: Vec<&str> =
            states.into_iter().filter(|(is, _)| *is).map(|(_, word)| word).collect();
        let mut more = vec![size];
        if !states.is_empty() {
            more.push(states.join(", "));
        }
        if !self.told(&laid.area, std::slice::from_ref(&mark), &more) {
            self.bare.push(mark);
        }
    }

    /// What stands in an area: all lines where they fit, level or upright, else the first.
    fn told(&mut self, area: &Area, must: &[String], may: &[String]) -> bool {
        let (x, y) = self.corner(area.at);
        let (long, across) = self.size(area.size);
        let all: Vec<&String> = must.iter().chain(may).collect();
        let widest = |lines: &[&String]| {
            lines.iter().map(|line| wide(line, self.letter)).fold(0.0, f64::max)
        };
        let high = |lines: &[&String]| lines.len() as f64 * self.letter * 1.25;
        let fits = |lines: &[&String], upright: bool| {
            let room = if upright { (across, long) } else { (long, across) };
            widest(lines) <= room.0 && high(lines) <= room.1
        };
        let first: Vec<&String> = must.iter().collect();
        let choices = [(&all, false), (&all, true), (&first, false), (&first, true)];
        let fitting = choices.into_iter().filter(|(lines, upright)| fits(lines, *upright));
        let found = fitting.flat_map(|(lines, upright)| {
            let size = (widest(lines), high(lines));
            let (wide, high) = if upright { (size.1, size.0) } else { size };
            places((x, y), (long, across), (wide, high)).map(move |middle| {
                let from = (middle.0 - wide / 2.0, middle.1 - high / 2.0);
                (lines, upright, middle, (from, (from.0 + wide, from.1 + high)))
            })
        });
        let found = found.into_iter().find(|(.., room)| self.taken.is_free(room));
        let Some((lines, upright, (middle_x, middle_y), room)) = found else { return false };
        self.taken.take(room);
        let step = self.letter * 1.25;
        let start = -(lines.len() as f64 - 1.0) / 2.0 * step + self.letter * 0.35;
        for (nth, line) in lines.iter().enumerate() {
            let down = start + nth as f64 * step;
            let at =
                if upright { (middle_x + down, middle_y) } else { (middle_x, middle_y + down) };
            self.svg.text(at, line, self.letter, upright);
        }
        true
    }

    /// The name of a piece that is cut on, once, in its corner or as near to it as is clear.
    fn name(&mut self, cut: &Cut) -> Option<Beside> {
        if cut.from.is_empty() || !self.named.insert(cut.from.clone()) {
            return None;
        }
        let (x, y) = self.corner(cut.area.at);
        let (long, across) = self.size(cut.area.size);
        let (gap, high) = (self.letter * 0.35, self.letter * 1.1);
        let columns = steps(long - wide(&cut.from, self.letter) - gap, gap);
        let places = steps(across - high, gap)
            .flat_map(|down| columns.clone().map(move |right| (x + gap + right, y + high + down)));
        let places = places.collect();
        Some(self.clear(&cut.from, Anchor::Start, places))
    }

    /// The numbers of cuts, each beside the line where it begins, those of the sheet outside
    /// of it. A number that would stand on other letters moves along its line.
    fn numbers(&mut self, cut: &Cut) -> Vec<Beside> {
        let is_first = cut.from.is_empty();
        let (x, y) = self.corner(cut.area.at);
        let (long, across) = self.size(cut.area.size);
        let gap = self.letter * 0.35;
        let mut all = Vec::new();
        for (nth, line) in cut.lines.iter().enumerate() {
            let text = (cut.numbers.0 + nth).to_string();
            let (along, down) = self.corner([*line, *line]);
            let (places, anchor) = match (cut.way, is_first) {
                (Way::Rip, true) => (vec![(-gap, down + gap)], Anchor::End),
                (Way::Crosscut, true) => (vec![(along, -gap)], Anchor::Middle),
                (Way::Rip, false) => {
                    let moved = steps(long - wide(&text, self.letter) - gap, gap);
                    // Above the line, and else below it.
                    let beside = [down - gap, down + self.letter * 1.1].into_iter();
                    let places =
                        beside.flat_map(|y| moved.clone().map(move |right| (x + gap + right, y)));
                    (places.collect(), Anchor::Start)
                }
                (Way::Crosscut, false) => {
                    let high = self.letter * 1.1;
                    let moved = steps(across - high, gap);
                    // Before the line, and else behind it.
                    let behind = along + gap + wide(&text, self.letter);
                    let places = [along - gap, behind]
                        .into_iter()
                        .flat_map(|x| moved.clone().map(move |more| (x, y + high + more)));
                    (places.collect(), Anchor::End)
                }
            };
            all.push(self.clear(&text, anchor, places));
        }
        all
    }

    /// Letters at the first of these places that is clear, or else at the first.
    fn clear(&mut self, text: &str, anchor: Anchor, places: Vec<(f64, f64)>) -> Beside {
        let first = places.first().copied().unwrap_or_default();
        let is_clear = |at: &(f64, f64)| self.taken.is_free(&self.room(*at, text, anchor));
        let at = places.into_iter().find(is_clear).unwrap_or(first);
        self.taken.take(self.room(at, text, anchor));
        Beside { at, text: text.to_owned(), anchor }
    }

    /// The room that letters take beside a cut.
    fn room(&self, (x, y): (f64, f64), text: &str, anchor: Anchor) -> Room {
        let wide = wide(text, self.letter);
        let left = match anchor {
            Anchor::Start => x,
            Anchor::Middle => x - wide / 2.0,
            Anchor::End => x - wide,
        };
        ((left, y - self.letter * 0.8), (left + wide, y + self.letter * 0.25))
    }

    /// Which way the grain runs, below the sheet.
    fn grain(&mut self, grain: SheetGrain) {
        let (long, across) = self.size(self.own.size);
        let words = match grain {
            SheetGrain::Long => "the grain runs this way",
            SheetGrain::Wide => "the grain runs up and down here",
            SheetGrain::None => return,
        };
        let below = across + self.letter * 1.6;
        self.svg.label((0.0, below), words, self.letter, Anchor::Start);
        if grain == SheetGrain::Long {
            let from = wide(words, self.letter) + self.letter;
            let y = below - self.letter * 0.35;
            self.svg.arrow(
                (from, y),
                ((from + self.letter * 8.0).min(long.max(from + self.letter * 2.0)), y),
                self.letter * 0.5,
            );
        }
    }
}

/// From nought on by so much as far as there is room.
fn steps(room: f64, by: f64) -> impl Iterator<Item = f64> + Clone {
    (0..=(room / by).floor().max(0.0) as usize).map(move |own| own as f64 * by)
}

/// In how many steps letters go from the middle of an area to its edge.
const STEPS: i32 = 8;

/// The steps to the right and down from the middle of an area, the nearest to it first.
static FROM_MIDDLE: LazyLock<Vec<(i32, i32)>> = LazyLock::new(|| {
    let mut all: Vec<(i32, i32)> = (-STEPS..=STEPS)
        .flat_map(|right| (-STEPS..=STEPS).map(move |down| (right, down)))
        .collect();
    all.sort_by_key(|(right, down)| (right.abs().max(down.abs()), right.abs(), -right, -down));
    all
});

/// Where letters may stand in an area: in its middle, and else as near to it as the room
/// around them lets them.
fn places(
    (x, y): (f64, f64),
    (long, across): (f64, f64),
    (wide, high): (f64, f64),
) -> impl Iterator<Item = (f64, f64)> {
    let (spare_x, spare_y) = ((long - wide) / 2.0, (across - high) / 2.0);
    FROM_MIDDLE.iter().map(move |(right, down)| {
        let [right, down] = [right, down].map(|own| f64::from(*own) / f64::from(STEPS));
        (x + long / 2.0 + spare_x * right, y + across / 2.0 + spare_y * down)
    })
}
