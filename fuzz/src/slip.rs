//! Changes to a spec that keep it near to one: bytes changed at random seldom
//! get past the parser.

use std::ops::Range;

use casewright::vocabulary::BLOCKS;
use fastrand::Rng;

use crate::oracle::places::{lines, tokens};

/// Sound pieces. What was changed often is seldom sound, and most of the
/// compiler is only reached by what is.
const SOUND: &[&str] = &[
    include_str!("../../specs/hall-console.case"),
    include_str!("../../specs/first.case"),
    include_str!("../../specs/tide-cottage-press.case"),
    include_str!("../../specs/alcove-shelves.case"),
    include_str!("../../specs/ferry-road-wash-stand.case"),
];

/// Figures at the ends of what can be written, and outside the wood.
const FIGURES: &[&str] = &[
    "0",
    "-1",
    "1/0",
    "0/1",
    "1/2",
    "-3/4",
    "1",
    "3",
    "7-1/2",
    "40",
    "1000",
    "100000",
    "99999999999999999999",
    "9223372036854775807",
    "1/9223372036854775807",
    "1/1000003",
    "0.000000001",
    "0.1 mm",
    "300 cm",
    "5' 3-1/2\"",
    "35%",
    "0%",
    "100%",
    "105 deg",
    "68 F",
    "2026-03-14",
    "30 min",
    "100 m",
    "1/64",
    "63/64",
];

/// Texts that a page, a terminal, a spreadsheet or a file name may not take
/// for its own.
const TEXTS: &[&str] = &[
    "\"<script>alert(1)</script>\"",
    "\"=1+1\"",
    "\"@a\"",
    "\"\u{202e}desrever\"",
    "\"| a | b |\"",
    "\"../../etc\"",
    "\"CON\"",
    "\"\"",
    "\"a\\\"b\"",
    "\"&amp;\"",
    "\"](x)\"",
    "\"\u{feff}\"",
];

/// Bytes as a libFuzzer changes them.
type Bytes = fn(&mut [u8], usize, usize) -> usize;

/// Changes the first `size` bytes and gives their new number, at most `most`.
pub fn slip(bytes: &mut [u8], size: usize, most: usize, seed: u32, other: Bytes) -> usize {
    let mut rng = Rng::with_seed(u64::from(seed));
    let Some(text) = bytes.get(..size).and_then(|bytes| std::str::from_utf8(bytes).ok()) else {
        return other(bytes, size, most);
    };
    if rng.u8(..) < 60 {
        return other(bytes, size, most);
    }
    let mut text = match rng.u8(..) {
        ..100 => rng.choice(SOUND).copied().unwrap_or(text).to_owned(),
        _ => text.to_owned(),
    };
    for _ in 0..rng.usize(1..4) {
        let (place, new) = change(&text, &mut rng);
        text.replace_range(place, &new);
    }
    if text.len() > most {
        return other(bytes, size, most);
    }
    bytes[..text.len()].copy_from_slice(text.as_bytes());
    text.len()
}

/// One change: a place and what is to stand there.
fn change(text: &str, rng: &mut Rng) -> (Range<usize>, String) {
    let line = |rng: &mut Rng| pick(&lines(text), rng);
    let token = |rng: &mut Rng| pick(&tokens(text), rng);
    match rng.u8(..10) {
        0 => (line(rng), String::new()),
        1 => {
            let place = line(rng);
            (place.clone(), text[place].repeat(2))
        }
        2 => (line(rng), text[line(rng)].to_owned()),
        3 => (token(rng), String::new()),
        4 => (token(rng), text[token(rng)].to_owned()),
        5 => (token(rng), word(rng).to_owned()),
        6 | 7 => {
            let mut figures = tokens(text);
            figures.retain(|token| text[token.clone()].starts_with(|c: char| c.is_ascii_digit()));
            (pick(&figures, rng), rng.choice(FIGURES).copied().unwrap_or_default().to_owned())
        }
        8 => (token(rng), rng.choice(TEXTS).copied().unwrap_or_default().to_owned()),
        _ => {
            let at = token(rng).end;
            (at..at, format!("\n{}\n", example(rng)))
        }
    }
}

/// A word of the language.
fn word(rng: &mut Rng) -> &'static str {
    let block = rng.choice(BLOCKS);
    block.and_then(|block| rng.choice(block.words)).map_or("wide", |word| word.word)
}

/// A statement of the language, as its reference shows it.
fn example(rng: &mut Rng) -> &'static str {
    let block = rng.choice(BLOCKS);
    block.and_then(|block| rng.choice(block.words)).map_or("wide 3", |word| word.example)
}

fn pick(places: &[Range<usize>], rng: &mut Rng) -> Range<usize> {
    rng.choice(places).cloned().unwrap_or(0..0)
}
