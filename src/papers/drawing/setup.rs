//! A set-up of the router, drawn on its first piece: not to scale, so that every
//! figure can be read at arm's length. A unit is a tenth of a millimeter on paper.

use crate::measure::Length;
use crate::papers::figures::Figures;
use crate::parts::{Direction, Face, Part};
use crate::plans::guide::Guide;
use crate::plans::operations;
use crate::plans::setups::{CutLine, Run, Setup};
use crate::plans::support::Support;

use super::svg::{Anchor, Fill, Line, Svg};

/// Letters are 12 pt high on paper.
const LETTER: f64 = 42.0;
/// No letter is wider than that on the average of a figure or a name.
const ADVANCE: f64 = LETTER * 0.58;
/// A row that holds a line of text.
const ROW: f64 = 110.0;
/// A straight-edge, a fence, a strip.
const BAR: f64 = 74.0;
/// How wide the piece is drawn, and how wide where strips lie on both sides.
const LONG: (f64, f64) = (860.0, 700.0);
/// How much of it a stop is drawn.
const STOP: f64 = 220.0;

/// What a drawing repeats of the text beside it.
pub(in crate::papers) struct Told<'t> {
    /// Where the guide is set first.
    pub(in crate::papers) first: &'t str,
    /// Where it goes then; empty where it stays.
    pub(in crate::papers) then: &'t str,
}

/// The piece lying on the bench with the datum below: the cut, its distance from the
/// datum, the guide, what carries the base, and the feed. The name of its
/// hatching stands once on the page.
pub(in crate::papers) fn drawing(
    setup: &Setup,
    part: &Part,
    figures: &Figures,
    told: &Told<'_>,
    hatching: String,
) -> String {
    let mut sketch = Sketch::new(setup, part, figures, hatching);
    match setup.guided.as_ref().map(|guided| guided.guide) {
        Some(guide) => sketch.channel(guide, told),
        None => sketch.flutes(told),
    }
    sketch.svg.finish("the set-up: the cut, the guide, and what carries the base")
}

struct Sketch<'s> {
    svg: Svg,
    setup: &'s Setup,
    part: &'s Part,
    figures: &'s Figures,
    long: f64,
    /// How far from the piece its dimensions stand.
    beside: f64,
}

impl<'s> Sketch<'s> {
    fn new(setup: &'s Setup, part: &'s Part, figures: &'s Figures, hatching: String) -> Self {
        let svg = Svg::new(1500.0).on_paper(0.1).hatched(hatching);
        let mut sketch = Self { svg, setup, part, figures, long: LONG.0, beside: 40.0 };
        let ends = setup.face.ends_of_run(setup.along);
        if sketch.supports().iter().any(|own| own.side == ends.0 || own.side == ends.1) {
            sketch.long = LONG.1;
            sketch.beside += BAR;
        }
        sketch
    }

    fn run(&self) -> Option<&'s Run> {
        self.setup.runs.first()
    }

    fn supports(&self) -> &'s [Support] {
        self.run().map_or(&[], |run| run.supports.as_slice())
    }

    /// The faces on the left and on the right of who has the datum below.
    fn ends(&self) -> (Face, Face) {
        let (left, right) = self.setup.face.ends_of_run(self.setup.along);
        match self.run().is_some_and(|run| is_turned(self.part, run, self.setup.along)) {
            true => (right, left),
            false => (left, right),
        }
    }

    /// The piece, its datum, and the names of its ends; `high` is how far it reaches
    /// from the datum, which lies at zero.
    fn board(&mut self, high: f64) {
        self.svg.rect((0.0, -high), (self.long, 0.0), Line::Wide, Fill::White);
        let (left, right) = self.ends();
        let strip = self.strips(high);
        let top = -high - strip - 22.0;
        let (left, right) = (self.part.face_name(left), self.part.face_name(right));
        self.svg.label((0.0, top), &left, LETTER, Anchor::Start);
        self.svg.label((self.long, top), &right, LETTER, Anchor::End);
        let x = self.long + self.beside;
        self.svg.line((0.0, 0.0), (x + 20.0, 0.0), Line::Wide);
        self.svg.label((x + 4.0, LETTER * 1.2), &self.setup.datum, LETTER, Anchor::Start);
    }

    /// The strips that carry the base; how high the one across from the datum is.
    fn strips(&mut self, high: f64) -> f64 {
        let ends = self.ends();
        let (mut above, mut beside) = (0.0, None);
        for support in self.supports() {
            let wide = self.figures.text(support.wide);
            if support.side == ends.0 || support.side == ends.1 {
                let x = if support.side == ends.0 { -BAR } else { self.long };
                self.svg.rect((x, -high), (x + BAR, 0.0), Line::Narrow, Fill::Hatched);
                beside = Some(wide);
                continue;
            }
            let is_datum = self.part.face_name(support.side) == self.setup.datum;
            let y = if is_datum { 0.0 } else { -high - BAR };
            above = if is_datum { above } else { BAR };
            self.svg.rect((0.0, y), (self.long, y + BAR), Line::Narrow, Fill::Hatched);
            let at = (self.long / 2.0, y + BAR * 0.68);
            let name = format!("support strip, at least {wide} wide");
            self.svg.text(at, &name, LETTER, false);
        }
        if let Some(wide) = beside {
            let at = (self.long / 2.0, -high - above - LETTER * 1.9);
            let name = format!("a strip on each side, at least {wide} wide");
            self.svg.text(at, &name, LETTER, false);
        }
        above
    }

    /// A bar along the piece with its name.
    fn bar(&mut self, y: f64, name: &str) {
        let over = 30.0;
        self.svg.rect((-over, y), (self.long + over, y + BAR), Line::Wide, Fill::White);
        self.svg.text((self.long / 2.0, y + BAR * 0.68), name, LETTER, false);
    }

    /// A distance on the left of the piece, or on its right.
    fn distance(&mut self, from: f64, to: f64, figure: &str, is_left: bool) {
        let x = if is_left { -self.beside } else { self.long + self.beside };
        let edge = if is_left { 0.0 } else { self.long };
        let out = if is_left { x - 14.0 } else { x + 14.0 };
        for y in [from, to] {
            self.svg.line((edge, y), (out, y), Line::Narrow);
            self.svg.line((x - 12.0, y + 12.0), (x + 12.0, y - 12.0), Line::Narrow);
        }
        self.svg.line((x, from), (x, to), Line::Narrow);
        let anchor = if is_left { Anchor::End } else { Anchor::Start };
        let away = if is_left { x - 24.0 } else { x + 24.0 };
        let y = (from + to) / 2.0 + LETTER * 0.35;
        self.svg.label((away, y), figure, LETTER, anchor);
    }

    /// A few words along the piece, in as many lines as they need; the first is so far
    /// below the datum.
    fn words(&mut self, words: &str, y: f64) {
        let most = (self.long / ADVANCE) as usize;
        let mut lines: Vec<String> = Vec::new();
        for word in words.split(' ') {
            match lines.last_mut() {
                Some(line) if line.chars().count() + 1 + word.chars().count() <= most => {
                    line.push(' ');
                    line.push_str(word);
                }
                _ => lines.push(word.to_owned()),
            }
        }
        let (step, first) = (LETTER * 1.2, y + LETTER * 0.35);
        for (number, line) in lines.iter().enumerate() {
            let at = (self.long / 2.0, first + step * number as f64);
            self.svg.text(at, line, LETTER, false);
        }
    }

    fn channel(&mut self, guide: Guide, told: &Told<'_>) {
        let Some(CutLine { from, wide }) = self.setup.lines.first() else { return };
        // From the datum: the guide's edge, both sides of the cut, the far side.
        let gap = ROW * 0.7;
        let start = if from.is_zero() { 0.0 } else { ROW };
        let (set, near, high) = match guide {
            Guide::Near => {
                let set = BAR + 60.0;
                (set, set + gap, set + gap + ROW * 1.6)
            }
            Guide::Far => {
                let set = start + ROW + gap;
                (set, start, set + BAR + 60.0)
            }
            Guide::Table | Guide::Saw => (start, start, start + ROW + gap),
        };
        self.board(high);
        let far = near + ROW;
        self.cut(near, far, guide);
        match guide {
            Guide::Near => self.bar(-set, "straight-edge"),
            Guide::Far => self.bar(-set - BAR, "straight-edge"),
            Guide::Table => self.bar(0.0, "fence"),
            Guide::Saw => self.bar(0.0, "fence or stop"),
        }
        if set > 0.0 {
            self.distance(0.0, -set, told.first, false);
        }
        if !told.then.is_empty() {
            // Below the datum and what lies there: on the board it would mark a place.
            self.words(told.then, BAR + LETTER * 1.2);
        }
        if !from.is_zero() {
            self.distance(0.0, -near, &self.figures.text(*from), true);
        }
        let wide = format!("{} wide", self.figures.mating(*wide));
        self.distance(-near, -far, &wide, true);
    }

    /// The cut, its stops, and the feed through it.
    fn cut(&mut self, near: f64, far: f64, guide: Guide) {
        let Some(run) = self.run() else { return };
        let ends = self.ends();
        let is_first = ends.0 == self.setup.face.ends_of_run(self.setup.along).0;
        let stops = run.stops_along(is_first);
        let short = |stop: Length| if stop.is_positive() { STOP } else { 0.0 };
        let (left, right) = (short(stops.0), self.long - short(stops.1));
        self.svg.rect((left, -far), (right, -near), Line::Wide, Fill::Grey);
        let middle = -(near + far) / 2.0;
        if stops.0.is_positive() {
            let figure = self.figures.text(stops.0);
            self.svg.across(0.0, left, middle + 20.0, &figure, LETTER);
        }
        if stops.1.is_positive() {
            let figure = self.figures.text(stops.1);
            self.svg.across(right, self.long, middle + 20.0, &figure, LETTER);
        }
        self.feed(run, guide, (left, right), middle);
    }

    /// Which way the router is pushed, or on a table the work: the word, and an arrow that
    /// begins behind it. The work goes against the way of the bit through it.
    fn feed(&mut self, run: &Run, guide: Guide, (left, right): (f64, f64), y: f64) {
        let Some(datum) = run.datum(self.part) else { return };
        let way = operations::feed(self.part, guide, run.face, datum);
        let (word, from) = match guide {
            Guide::Near | Guide::Far => ("feed", way.from),
            Guide::Table => ("work", way.to),
            // The board goes right over the blade, from either side.
            Guide::Saw => return,
        };
        let wide = ADVANCE * (word.len() + 1) as f64;
        let (from, behind, to, anchor) = match from == self.ends().0 {
            true => (left + 14.0, left + 14.0 + wide, right - 14.0, Anchor::Start),
            false => (right - 14.0, right - 14.0 - wide, left + 14.0, Anchor::End),
        };
        self.svg.label((from, y + LETTER * 0.35), word, LETTER, anchor);
        self.svg.arrow((behind, y), (to, y), 22.0);
    }

    /// All flutes in their places, and the guide for the first.
    fn flutes(&mut self, told: &Told<'_>) {
        const HIGH: f64 = 460.0;
        let (long, wide) = self.part.face_size(self.setup.face);
        let across = if self.setup.along { wide } else { long }.to_mm_f64();
        let Some(first) = self.setup.lines.first() else { return };
        self.board(HIGH);
        let place = |length: Length| -HIGH * length.to_mm_f64() / across;
        for CutLine { from, wide } in &self.setup.lines {
            let (near, far) = (place(*from), place(*from + *wide));
            self.svg.rect((0.0, far), (self.long, near), Line::Narrow, Fill::Grey);
        }
        let center = place(first.from + first.wide.half());
        // Not beside the first flute, where it would stand to scale: its figure tells.
        let set = center - 200.0;
        self.bar(set - BAR, "straight-edge, for line 1");
        self.svg.rect((0.0, set), (self.long, set + BAR), Line::Narrow, Fill::White);
        if let Some(run) = self.setup.runs.first() {
            self.feed(run, Guide::Far, (0.0, self.long), set + BAR / 2.0);
        }
        self.distance(0.0, center, told.first, true);
        self.distance(0.0, set, told.then, false);
    }
}

/// True where the run of a cut goes from right to left for whoever looks at the
/// face with the datum toward them.
fn is_turned(part: &Part, run: &Run, along: bool) -> bool {
    let Some(datum) = run.datum(part) else { return false };
    let datum = outward(part, datum);
    let toward = outward(part, run.face);
    let to = outward(part, run.face.ends_of_run(along).1);
    // Right of the looker, in a space whose z runs back: datum × face.
    let cross = |a: usize, b: usize| datum[a] * toward[b] - datum[b] * toward[a];
    let right = [cross(1, 2), cross(2, 0), cross(0, 1)];
    (0..3).map(|axis| right[axis] * to[axis]).sum::<i32>() < 0
}

/// Which way a face looks: a step along x, y or z.
fn outward(part: &Part, face: Face) -> [i32; 3] {
    let step = if face.is_start() { -1 } else { 1 };
    match part.placement.direction(face) {
        Direction::X => [step, 0, 0],
        Direction::Y => [0, step, 0],
        Direction::Z => [0, 0, step],
    }
}
