//! Figures as a maker reads them off a sheet, and the figures of a packet.

use std::collections::BTreeSet;

use serde_json::Value;

/// A figure of a sheet.
#[derive(Clone, Debug)]
pub(super) struct Figure {
    /// In the unit of the job; of a time of day its minutes.
    pub(super) value: f64,
    /// With what says that it was rounded: `5/16~`.
    pub(super) text: String,
}

/// A line of a sheet: its figures, and the line with `#` for each of them.
#[derive(Clone, Debug)]
pub(super) struct Line {
    pub(super) text: String,
    pub(super) shape: String,
    pub(super) figures: Vec<Figure>,
}

/// Reads a line; `inches` tells the unit of the job.
pub(super) fn line(text: &str, inches: bool) -> Line {
    let words: Vec<&str> = text.split_whitespace().collect();
    let (mut shape, mut figures) = (Vec::new(), Vec::new());
    for (index, word) in words.iter().enumerate() {
        let own = word.trim_start_matches(['(', '±', '+']);
        let own = own.trim_end_matches([',', ';', ':', '.', ')', '*']);
        let Some(value) = value(own.trim_end_matches('~')) else {
            shape.push((*word).to_owned());
            continue;
        };
        let unit = words.get(index + 1).map_or("", |next| next.trim_end_matches([',', ';', ')']));
        let value = if unit == "mm" && inches { value / 25.4 } else { value };
        figures.push(Figure { value, text: own.to_owned() });
        shape.push(word.replacen(own, "#", 1));
    }
    Line { text: text.trim().to_owned(), shape: shape.join(" "), figures }
}

/// `12`, `12.5`, `3/4`, `12-3/4`, `1:30`.
fn value(text: &str) -> Option<f64> {
    let plain = |text: &str| {
        let digits = !text.is_empty() && text.chars().all(|own| own.is_ascii_digit() || own == '.');
        digits.then(|| text.parse::<f64>().ok()).flatten()
    };
    let fraction = |text: &str| match text.split_once('/') {
        Some((above, below)) => Some(plain(above)? / plain(below)?),
        None => plain(text),
    };
    if let Some((hours, minutes)) = text.split_once(':') {
        return Some(plain(hours)? * 60.0 + plain(minutes)?);
    }
    match text.split_once('-') {
        Some((whole, part)) if part.contains('/') => Some(plain(whole)? + fraction(part)?),
        Some(_) => None,
        None => fraction(text),
    }
}

/// Figures that may stand on a sheet.
#[derive(Clone, Debug, Default)]
pub(super) struct Known {
    values: Vec<f64>,
}

impl Known {
    pub(super) fn of<'v>(values: impl IntoIterator<Item = &'v Value>, inches: bool) -> Self {
        let mut known = Self::default();
        for value in values {
            known.take(value, inches);
        }
        known
    }

    pub(super) fn and(mut self, other: Self) -> Self {
        self.values.extend(other.values);
        self
    }

    pub(super) fn add(&mut self, value: f64) {
        self.values.push(value);
    }

    fn take(&mut self, value: &Value, inches: bool) {
        match value {
            Value::Number(number) => self.values.extend(number.as_f64()),
            Value::String(text) => {
                self.values.extend(line(text, inches).figures.iter().map(|own| own.value));
            }
            Value::Array(all) => all.iter().for_each(|own| self.take(own, inches)),
            Value::Object(all) => {
                for (key, own) in all {
                    // Numbers of lines of the spec are no figures.
                    let lines = ["from", "lines"].contains(&key.as_str())
                        && own.as_array().is_some_and(|all| all.iter().all(Value::is_u64));
                    match own {
                        Value::String(text) if key == "exact" => {
                            let (sign, text) =
                                text.strip_prefix('-').map_or((1.0, &**text), |rest| (-1.0, rest));
                            self.values.extend(self::value(text).map(|own| own * sign));
                        }
                        own if !lines => self.take(own, inches),
                        _ => {}
                    }
                }
            }
            Value::Null | Value::Bool(_) => {}
        }
    }

    /// True where a figure is one of these: exactly, at the nearest mark of the tape
    /// where it says that it is rounded, or as fine as a caliper shows it.
    pub(super) fn has(&self, figure: &Figure, mark: f64) -> bool {
        let places = figure.text.split_once('.').map_or(0, |(_, places)| places.len() as i32);
        let within = match figure.text.ends_with('~') {
            true => mark / 2.0,
            false if places > 1 => 0.5 * 10f64.powi(-places),
            false => 0.0,
        };
        self.values.iter().any(|own| (own - figure.value).abs() <= within + 1e-6)
    }
}

/// The words of a text, without what stands round them.
pub(super) fn words(text: &str) -> BTreeSet<&str> {
    text.split_whitespace().map(|word| word.trim_matches([',', ';', ':', '.', '(', ')'])).collect()
}

#[test]
fn figures_are_read_as_a_maker_reads_them() {
    let read =
        |text: &str| line(text, true).figures.iter().map(|own| own.value).collect::<Vec<_>>();
    assert_eq!(read("UP-F: 2 boards, each 4-21/32 wide (0.5~)"), [2.0, 4.65625, 0.5]);
    assert_eq!(read("a cup of 25.4 mm, ASTM F2057-23, at 1:30"), [1.0, 90.0]);
    assert_eq!(line("cut 3/8, then 1/2~ deep", true).shape, "cut #, then # deep");
}
