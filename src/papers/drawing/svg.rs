//! SVG primitives. Coordinates are millimetres of the piece; a drawing is
//! scaled as a whole by its view box. Line widths follow the 2:1 of ISO 128.

use std::fmt::Write as _;

use crate::measure::{Digits, Length};
use crate::papers::visible::visible;

use super::labels::Area;

/// A length in the coordinates of a drawing.
pub(super) fn mm(length: Length) -> f64 {
    length.to_mm_f64()
}

/// A drawing in the making.
#[derive(Debug)]
pub(in crate::papers) struct Svg {
    body: String,
    from: (f64, f64),
    to: (f64, f64),
    /// The name of its hatching, which no other drawing of the page may have;
    /// nothing where it has none.
    hatching: String,
    /// Something is hatched.
    hatches: bool,
    /// How many millimetres of paper a unit is, where the drawing has a size of its
    /// own there.
    on_paper: Option<f64>,
    /// How thick a wide line is, in millimetres of the piece.
    pub(in crate::papers) wide: f64,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::papers) enum Line {
    /// A visible edge.
    Wide,
    /// Dimensions and hatching.
    Narrow,
    /// What stands beyond and is no part of the piece: long dash, two dots.
    Beyond,
}

/// Where a text stands by its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::papers) enum Anchor {
    /// It begins there.
    Start,
    /// It has its middle there.
    Middle,
    /// It ends there.
    End,
}

/// How an area is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::papers) enum Fill {
    /// The white of the paper: it covers what lies behind.
    White,
    /// A light grey.
    Grey,
    /// Cut through. Asks for [`Svg::hatched`].
    Hatched,
}

impl Svg {
    /// A drawing of something `size` millimetres across.
    pub(in crate::papers) fn new(size: f64) -> Self {
        let far = f64::INFINITY;
        Self {
            body: String::new(),
            from: (far, far),
            to: (-far, -far),
            hatching: String::new(),
            hatches: false,
            on_paper: None,
            wide: size / 420.0,
        }
    }

    /// A drawing whose letters are so high. A wide line is an eighth of that, which
    /// makes 0.4 mm of letters of 10 points.
    pub(super) fn lettered(high: f64) -> Self {
        Self { wide: high / 8.0, ..Self::new(high) }
    }

    /// The same with a hatching, of a name that stands once on the page.
    pub(in crate::papers) fn hatched(self, name: String) -> Self {
        Self { hatching: name, ..self }
    }

    /// The same, printed at so many millimetres of paper to a unit.
    pub(in crate::papers) fn on_paper(self, millimetres: f64) -> Self {
        Self { on_paper: Some(millimetres), ..self }
    }

    /// How wide and how high it is.
    pub(super) fn size(&self) -> (f64, f64) {
        let margin = self.wide * 12.0;
        (self.to.0 - self.from.0 + margin, self.to.1 - self.from.1 + margin)
    }

    fn reach(&mut self, x: f64, y: f64) {
        self.from = (self.from.0.min(x), self.from.1.min(y));
        self.to = (self.to.0.max(x), self.to.1.max(y));
    }

    fn stroke(&mut self, line: Line) {
        let width = match line {
            Line::Wide => self.wide,
            Line::Narrow | Line::Beyond => self.wide / 2.0,
        };
        self.body.push_str("stroke=\"#000\" stroke-width=\"");
        push_number(&mut self.body, width);
        self.body.push('"');
        if line == Line::Beyond {
            let unit = number(self.wide * 1.5);
            let _ = write!(
                self.body,
                " stroke-dasharray=\"{} {unit} {unit} {unit} {unit} {unit}\"",
                number(self.wide * 9.0)
            );
        }
    }

    /// A number, and what stands before it.
    fn number(&mut self, before: &str, value: f64) {
        self.body.push_str(before);
        push_number(&mut self.body, value);
    }

    /// A point of a path, and how the pen comes to it.
    fn point(&mut self, pen: char, (x, y): (f64, f64)) {
        self.reach(x, y);
        self.body.push(pen);
        push_number(&mut self.body, x);
        self.body.push(' ');
        push_number(&mut self.body, y);
    }

    pub(in crate::papers) fn line(&mut self, from: (f64, f64), to: (f64, f64), line: Line) {
        self.body.push_str("<path d=\"");
        self.point('M', from);
        self.point('L', to);
        self.body.push_str("\" ");
        self.stroke(line);
        self.body.push_str("/>\n");
    }

    /// The four sides of an area, unfilled.
    pub(super) fn sides(&mut self, ((x0, y0), (x1, y1)): Area, line: Line) {
        for (from, to) in
            [((x0, y0), (x1, y0)), ((x1, y0), (x1, y1)), ((x1, y1), (x0, y1)), ((x0, y1), (x0, y0))]
        {
            self.line(from, to, line);
        }
    }

    pub(in crate::papers) fn polygon(&mut self, points: &[(f64, f64)], line: Line, fill: Fill) {
        self.body.push_str("<path d=\"");
        for (i, point) in points.iter().enumerate() {
            self.point(if i == 0 { 'M' } else { 'L' }, *point);
        }
        self.body.push_str("Z\" fill=\"");
        match fill {
            Fill::White => self.body.push_str("#fff"),
            Fill::Grey => self.body.push_str("#e4e4e4"),
            Fill::Hatched => {
                self.hatches = true;
                let _ = write!(self.body, "url(#{})", self.hatching);
            }
        }
        self.body.push_str("\" ");
        self.stroke(line);
        self.body.push_str(" stroke-linejoin=\"round\"/>\n");
    }

    pub(in crate::papers) fn rect(
        &mut self,
        from: (f64, f64),
        to: (f64, f64),
        line: Line,
        fill: Fill,
    ) {
        self.polygon(&[from, (to.0, from.1), to, (from.0, to.1)], line, fill);
    }

    pub(in crate::papers) fn circle(&mut self, center: (f64, f64), radius: f64, line: Line) {
        self.reach(center.0 - radius, center.1 - radius);
        self.reach(center.0 + radius, center.1 + radius);
        self.number("<circle cx=\"", center.0);
        self.number("\" cy=\"", center.1);
        self.number("\" r=\"", radius);
        self.body.push_str("\" fill=\"none\" ");
        self.stroke(line);
        self.body.push_str("/>\n");
    }

    /// A black dot.
    pub(in crate::papers) fn dot(&mut self, center: (f64, f64), radius: f64) {
        self.number("<circle cx=\"", center.0);
        self.number("\" cy=\"", center.1);
        self.number("\" r=\"", radius);
        self.body.push_str("\"/>\n");
    }

    /// A text `high` millimetres high, centered on its point, on a white ground so that lines do not
    /// cross it.
    pub(in crate::papers) fn text(&mut self, at: (f64, f64), text: &str, high: f64, upright: bool) {
        let half = text.chars().count() as f64 * high * 0.32;
        if upright {
            self.reach(at.0 - high, at.1 - half);
            self.reach(at.0, at.1 + half);
        } else {
            self.reach(at.0 - half, at.1 - high);
            self.reach(at.0 + half, at.1 + high * 0.3);
        }
        self.letters(at, text, high, Anchor::Middle, (upright, true));
    }

    /// A text that is read from the right, about its middle, on blank paper: nothing that is
    /// drawn beside it gives way.
    pub(super) fn bare(&mut self, at: (f64, f64), text: &str, high: f64) {
        let half = text.chars().count() as f64 * high * 0.32;
        self.reach(at.0 - high, at.1 - half);
        self.reach(at.0, at.1 + half);
        self.letters(at, text, high, Anchor::Middle, (true, false));
    }

    /// A level text that begins, has its middle, or ends at its point.
    pub(in crate::papers) fn label(
        &mut self,
        at: (f64, f64),
        text: &str,
        high: f64,
        anchor: Anchor,
    ) {
        let wide = wide(text, high);
        let left = match anchor {
            Anchor::Start => at.0,
            Anchor::Middle => at.0 - wide / 2.0,
            Anchor::End => at.0 - wide,
        };
        self.reach(left, at.1 - high);
        self.reach(left + wide, at.1 + high * 0.3);
        self.letters(at, text, high, anchor, (false, true));
    }

    fn letters(
        &mut self,
        at: (f64, f64),
        text: &str,
        high: f64,
        anchor: Anchor,
        (upright, clears): (bool, bool),
    ) {
        self.number("<text x=\"", at.0);
        self.number("\" y=\"", at.1);
        self.number("\" font-size=\"", high);
        self.body.push_str("\" text-anchor=\"");
        self.body.push_str(match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        });
        self.body.push('"');
        if upright {
            self.number(" transform=\"rotate(-90 ", at.0);
            self.number(" ", at.1);
            self.body.push_str(")\"");
        }
        if clears {
            self.number(" paint-order=\"stroke\" stroke=\"#fff\" stroke-width=\"", high * 0.25);
            self.body.push('"');
        }
        self.body.push('>');
        let mut before = ' ';
        for c in visible(text).chars() {
            let behind = std::mem::replace(&mut before, c);
            match c {
                // The sign of a rounded figure, as everywhere on the page.
                '~' if behind.is_ascii_digit() => self.body.push('≈'),
                '&' => self.body.push_str("&amp;"),
                '<' => self.body.push_str("&lt;"),
                '>' => self.body.push_str("&gt;"),
                c => self.body.push(c),
            }
        }
        self.body.push_str("</text>\n");
    }

    /// A level arrow, its head so long.
    pub(in crate::papers) fn arrow(&mut self, from: (f64, f64), to: (f64, f64), head: f64) {
        self.line(from, to, Line::Narrow);
        let back = if to.0 > from.0 { to.0 - head } else { to.0 + head };
        for side in [-1.0, 1.0] {
            self.line((back, to.1 + side * head * 0.5), to, Line::Narrow);
        }
    }

    /// The whole drawing, with what it shows for those who can't see it.
    pub(in crate::papers) fn finish(self, title: &str) -> String {
        let margin = self.wide * 6.0;
        let (x, y) = (self.from.0 - margin, self.from.1 - margin);
        let (w, h) = self.size();
        let hatching = match self.hatching.as_str() {
            _ if !self.hatches => String::new(),
            name => format!(
                "<defs><pattern id=\"{name}\" width=\"{s}\" height=\"{s}\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect width=\"{s}\" height=\"{s}\" fill=\"#fff\"/><path d=\"M0 0V{s}\" stroke=\"#000\" stroke-width=\"{}\"/></pattern></defs>\n",
                number(self.wide / 2.0),
                s = number(self.wide * 7.0),
            ),
        };
        let size = match self.on_paper {
            Some(unit) => {
                format!(" width=\"{}mm\" height=\"{}mm\"", number(w * unit), number(h * unit))
            }
            None => String::new(),
        };
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\"{size} viewBox=\"{} {} {} {}\" role=\"img\" aria-label=\"{}\" font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\">\n{hatching}{}</svg>",
            number(x),
            number(y),
            number(w),
            number(h),
            title.replace(['"', '<', '&'], " "),
            self.body,
        )
    }
}

/// How wide a text of this height is.
pub(super) fn wide(text: &str, high: f64) -> f64 {
    let advance = |letter: char| match ADVANCES.get(letter as usize) {
        Some(own) => *own,
        None if letter == '—' => 0.95,
        // A letter of another script may be as wide as it is high.
        None => 1.0,
    };
    text.chars().map(advance).sum::<f64>() * high
}

/// How wide each letter is in parts of its height. (From memory: the widths of Helvetica,
/// which the typefaces of the drawings share, each rounded up.)
static ADVANCES: [f64; 128] = {
    let mut all = [1.0; 128];
    let mut at = 0;
    while at < all.len() {
        all[at] = match at as u8 {
            b'M' | b'W' | b'm' | b'w' | b'@' | b'%' => 0.95,
            b'A'..=b'Z' => 0.76,
            b' ' | b'.' | b',' | b'/' | b'-' | b'i' | b'j' | b'l' => 0.34,
            b' '..=b'~' => 0.57,
            _ => 1.0,
        };
        at += 1;
    }
    all
};

/// A coordinate to a tenth of a millimetre, without idle noughts.
fn number(value: f64) -> String {
    digits(value).text().to_owned()
}

/// Adds a coordinate to a text.
fn push_number(text: &mut String, value: f64) {
    text.push_str(digits(value).text());
}

fn digits(value: f64) -> Digits {
    // A drawing has thousands: whole numbers are printed far faster. What lies
    // beyond their range is no place on a drawing and ends at its edge.
    let tenths = (value * 10.0).round_ties_even() as i64;
    let below = tenths < 0;
    let tenths = tenths.unsigned_abs();
    let mut digits = Digits::new();
    if !tenths.is_multiple_of(10) {
        digits.whole(tenths % 10);
        digits.sign(b'.');
    }
    digits.whole(tenths / 10);
    if below {
        digits.sign(b'-');
    }
    digits
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four letters 10 high, each 0.64 as wide as it is high, take 25.6: 12.8
    /// to each side of their middle, all of it within the drawing.
    #[test]
    fn a_text_lies_within_its_drawing() {
        let mut svg = Svg::new(420.0);
        svg.text((0.0, 0.0), "LE-B", 10.0, false);
        let drawing = svg.finish("a mark");
        let (_, frame) = drawing.split_once("viewBox=\"").unwrap_or_default();
        let (frame, _) = frame.split_once('"').unwrap_or_default();
        let frame: Vec<f64> = frame.split(' ').filter_map(|figure| figure.parse().ok()).collect();
        let [x, y, wide, high] = frame[..] else { panic!("{drawing}") };
        assert!(x <= -12.8 && x + wide >= 12.8, "{frame:?}");
        assert!(y <= -10.0 && y + high >= 3.0, "{frame:?}");
    }
}
