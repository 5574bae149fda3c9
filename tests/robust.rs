//! A spec in the middle of being typed: whatever is struck out, doubled or
//! mistyped, the compiler answers, and points into the text it was given.

use std::ops::Range;

use crate::oracle;

use crate::oracle::places::{lines, tokens};
use crate::support::compile;
use casewright::diagnostics::Severity;
use casewright::papers::{EXAMPLES, SHARED};
use proptest::prelude::*;
use proptest::sample::Index;

const SPECS: [&str; 2] =
    [include_str!("../specs/hall-console.case"), include_str!("../specs/first.case")];

/// What a figure may turn into under a tired hand.
const FIGURES: [&str; 14] = [
    "0",
    "1/0",
    "0/1",
    "-1",
    "-3/4",
    "1",
    "3",
    "1000",
    "99999999999999999999",
    "9223372036854775807",
    "1/9223372036854775807",
    "1/1000003",
    "0.000000001",
    "1e9",
];

/// One slip. Places are picked from those the text has by then.
#[derive(Clone, Debug)]
enum Slip {
    DropLine(Index),
    DoubleLine(Index),
    SwapLine(Index, Index),
    DropToken(Index),
    DoubleToken(Index),
    SwapToken(Index, Index),
    Figure(Index, Index),
}

fn slip() -> impl Strategy<Value = Slip> {
    let at = any::<Index>;
    prop_oneof![
        1 => at().prop_map(Slip::DropLine),
        1 => at().prop_map(Slip::DoubleLine),
        1 => (at(), at()).prop_map(|(from, to)| Slip::SwapLine(from, to)),
        1 => at().prop_map(Slip::DropToken),
        1 => at().prop_map(Slip::DoubleToken),
        2 => (at(), at()).prop_map(|(from, to)| Slip::SwapToken(from, to)),
        4 => (at(), at()).prop_map(|(at, figure)| Slip::Figure(at, figure)),
    ]
}

fn pick(places: &[Range<usize>], at: Index) -> Range<usize> {
    if places.is_empty() { 0..0 } else { at.get(places).clone() }
}

fn slipped(text: &str, slip: &Slip) -> String {
    let (place, new) = match slip {
        Slip::DropLine(at) => (pick(&lines(text), *at), String::new()),
        Slip::DoubleLine(at) => {
            let place = pick(&lines(text), *at);
            (place.clone(), text[place].repeat(2))
        }
        Slip::SwapLine(from, to) => {
            (pick(&lines(text), *to), text[pick(&lines(text), *from)].to_owned())
        }
        Slip::DropToken(at) => (pick(&tokens(text), *at), String::new()),
        Slip::DoubleToken(at) => {
            let place = pick(&tokens(text), *at);
            (place.clone(), format!("{0} {0}", &text[place]))
        }
        Slip::SwapToken(from, to) => {
            (pick(&tokens(text), *to), text[pick(&tokens(text), *from)].to_owned())
        }
        Slip::Figure(at, figure) => {
            let mut figures = tokens(text);
            figures.retain(|token| text[token.clone()].starts_with(|c: char| c.is_ascii_digit()));
            (pick(&figures, *at), (*figure.get(&FIGURES)).to_owned())
        }
    };
    let mut text = text.to_owned();
    text.replace_range(place, &new);
    text
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(192))]

    #[test]
    fn a_slip_of_the_hand_is_answered_within_the_text(
        spec in 0..SPECS.len(),
        slips in prop::collection::vec(slip(), 1..5),
    ) {
        let text = slips.iter().fold(SPECS[spec].to_owned(), |text, slip| slipped(&text, slip));
        oracle::check(&text);
        oracle::papers(&text);
        oracle::editor(&text);
    }
}

/// The example with what all share written out in it.
fn example(text: &str) -> String {
    let (_, shared) = SHARED;
    text.replace("use \"shop.case\"", &shared.replace("units in\n", ""))
}

/// Each statement that stands alone on a line or between braces on one, from and to.
fn statements(text: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, sign) in text.bytes().enumerate() {
        match sign {
            b'\n' | b';' | b'{' => start = at + 1,
            b'}' => {
                found.push(start..at);
                start = at + 1;
            }
            _ => {}
        }
        let ends = matches!(text.as_bytes().get(at + 1), Some(b'\n' | b';'));
        if ends && start <= at {
            found.push(start..at + 1);
        }
    }
    found.retain(|place| !text[place.clone()].trim().is_empty());
    found
}

/// A statement that is left out is found, or the piece is built without it: never neither.
#[test]
fn an_example_without_one_of_its_statements_is_told_or_built() {
    let (mut all, mut sound) = (0, 0);
    for own in EXAMPLES {
        let text = example(own.text);
        let begins = text.find("\njob ").expect("the job");
        for place in statements(&text).into_iter().filter(|place| place.start > begins) {
            let mut without = text.clone();
            without.replace_range(place, "");
            let compiled = compile(&without);
            let has_error = compiled.diagnostics.iter().any(|own| own.severity == Severity::Error);
            assert_eq!(compiled.is_sound(), !has_error, "neither papers nor an error:\n{without}");
            all += 1;
            sound += usize::from(compiled.is_sound());
        }
    }
    assert!(all > 600 && sound > 100, "{sound} of {all}");
}
