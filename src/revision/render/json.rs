//! One JSON object on one line, for programs. Its schema is
//! `schema/difference.json`.

use serde::Serialize;

use crate::diagnostics::render::json_line;
use crate::revision::difference::{Difference, Revision, Verdict};

/// The version of the object; goes up when a field changes or goes away.
pub const SCHEMA: u32 = 2;

#[derive(Serialize)]
struct Line<'a> {
    schema: u32,
    verdict: &'static str,
    #[serde(flatten)]
    difference: &'a Difference,
}

/// A difference as a JSON object.
#[must_use]
pub fn json(difference: &Difference) -> String {
    let verdict = match difference.verdict() {
        Verdict::Nothing => "nothing",
        Verdict::Something => "something",
        Verdict::Untold => "untold",
    };
    json_line(&Line { schema: SCHEMA, verdict, difference })
}

#[derive(Serialize)]
struct Alone<'a> {
    schema: u32,
    verdict: &'static str,
    piece: &'a Revision,
}

/// A piece that only one side has as a JSON object.
pub(super) fn alone(verdict: &'static str, piece: &Revision) -> String {
    json_line(&Alone { schema: SCHEMA, verdict, piece })
}
