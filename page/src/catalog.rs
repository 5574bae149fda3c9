//! The pieces that one may start from: the short examples of the reference, and
//! whole pieces.

use std::collections::BTreeMap;

use casewright::papers::{EXAMPLES, Example, SHARED};
use serde::Serialize;

/// A piece to start from.
#[derive(Serialize)]
pub(crate) struct Piece {
    /// The name of its file.
    entry: String,
    /// It is short, and shows one way to build.
    short: bool,
    /// The name of the job; nothing of a short one.
    title: String,
    /// What it shows.
    says: String,
    /// Its text, and what it uses.
    files: BTreeMap<String, String>,
}

macro_rules! whole {
    ($($file:literal)*) => {
        /// Whole pieces, the simplest first.
        const WHOLE: &[(&str, &str)] =
            &[$(($file, include_str!(concat!("../../specs/", $file)))),*];
    };
}

whole! {
    "first.case"
    "alcove-shelves.case"
    "fern-bank-stand.case"
    "canal-row-sideboard.case"
    "pier-road-bath-cabinet.case"
    "ferry-road-wash-stand.case"
    "hall-console.case"
    "signal-house-media-shelf.case"
    "quarry-steps-coffee-bar.case"
    "orchard-lane-chest.case"
    "ropewalk-dresser.case"
    "mill-row-island.case"
    "tide-cottage-press.case"
    "weir-house-pantry.case"
    "mill-lane-wardrobe.case"
    "gate-cottage-laundry.case"
    "heron-quay-hutch.case"
}

/// What a whole piece may use.
const USED: (&str, &str) = ("shop.case", include_str!("../../specs/shop.case"));

/// Every piece, the short ones first.
pub(crate) fn pieces() -> Vec<Piece> {
    let short = EXAMPLES.iter().map(|example: &Example| {
        let entry = format!("{}.case", example.slug);
        let (name, text) = SHARED;
        let files = [(name.to_owned(), text.to_owned()), (entry.clone(), example.spec())];
        Piece {
            short: true,
            title: String::new(),
            says: example.says(),
            files: files.into(),
            entry,
        }
    });
    let whole = WHOLE.iter().map(|(file, text)| {
        let mut files = BTreeMap::from([((*file).to_owned(), (*text).to_owned())]);
        if text.lines().any(|line| line.starts_with("use ")) {
            files.insert(USED.0.to_owned(), USED.1.to_owned());
        }
        Piece { short: false, title: job(text), says: head(text), files, entry: (*file).to_owned() }
    });
    short.chain(whole).collect()
}

/// What a piece is called: the text behind `job`.
fn job(text: &str) -> String {
    let line = text.lines().find_map(|line| line.trim_start().strip_prefix("job "));
    let quoted = line.and_then(|line| line.split('"').nth(1));
    quoted.unwrap_or_default().to_owned()
}

/// What the comment above its job says.
fn head(text: &str) -> String {
    let above = text.lines().take_while(|line| !line.starts_with("job "));
    above.filter_map(|line| line.strip_prefix("# ")).collect::<Vec<&str>>().join(" ")
}
