//! What is said of a lost brace, and the edit that puts it back.

use super::Mend;
use super::lines::Line;
use super::walk::Slip;
use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{FileId, Span};

/// The finding of a slip that this mends; what stands around it is read with the mend made.
pub(super) fn told(file: FileId, text: &str, lines: &[Line], slip: Slip, mend: Mend) -> Diagnostic {
    let span = |from: usize, to: usize| Span::new(file, from, to);
    let found = match (slip, mend) {
        (_, Mend::Drop(at)) => too_many(span(at, at + 1)),
        (Slip::Closes { line, open, opened }, Mend::Put(at, _)) => {
            let word = word_before(text, open);
            let title = format!("the braces of `{}` are never closed", word.1);
            let found = Diagnostic::error(
                "unclosed-block",
                title,
                span(last_word(text, at), at),
                "`}` is missing after this",
            );
            let own = lines.get(opened);
            // A block of several lines ends on a line of its own where nothing stands behind
            // its brace.
            let below = own.filter(|own| line > opened && own.code.end == open + 1);
            let close = below.map_or(" }".to_owned(), |own| {
                let start = own.code.start - own.indent;
                format!("\n{}}}", text.get(start..own.code.start).unwrap_or(""))
            });
            found.label(span(open, open + 1), "opened here").fix(Fix::new(
                Grade::Choice,
                "close it with `}`",
                span(at, at),
                close,
            ))
        }
        (Slip::Opens { .. } | Slip::Excess { .. }, Mend::Put(at, _)) => {
            let (start, word) = word_before(text, at);
            let title = format!("`{word}` has lost its opening brace");
            Diagnostic::error("stray-brace", title, span(start, at), "`{` is missing after this")
                .fix(Fix::new(
                    Grade::Choice,
                    format!("open `{word}` with `{{`"),
                    span(at, at),
                    " {",
                ))
        }
    };
    found.meant()
}

fn too_many(at: Span) -> Diagnostic {
    let title = "there is one closing brace too many";
    Diagnostic::error("stray-brace", title, at, "no brace is open here").fix(Fix::new(
        Grade::Choice,
        "delete it",
        at,
        "",
    ))
}

/// What is said where the indents don't tell: what closes nothing, and the first that is never
/// closed.
pub(super) fn unknown(file: FileId, lines: &[Line]) -> Vec<Diagnostic> {
    let (mut found, mut open) = (Vec::new(), Vec::new());
    for brace in lines.iter().flat_map(|line| &line.braces) {
        let span = Span::new(file, brace.at, brace.at + 1);
        match brace.opens {
            true => open.push(span),
            false if open.pop().is_none() => found.push(too_many(span)),
            false => {}
        }
    }
    if let Some(first) = open.first() {
        let title = match open.len() {
            1 => "a brace is never closed".to_owned(),
            many => format!("{many} braces are never closed"),
        };
        let note = "indent what stands between braces, and the line of the lost one can be told";
        let label = "this one, or one after it";
        found.push(Diagnostic::error("unclosed-block", title, *first, label).note(note));
    }
    found
}

/// The word that the statement before this byte begins with, and where that stands.
fn word_before(text: &str, at: usize) -> (usize, &str) {
    let before = text.get(..at).unwrap_or("");
    let start = before.rfind(['\n', '\r', ';', '{', '}']).map_or(0, |mark| mark + 1);
    let rest = before.get(start..).unwrap_or("");
    let own = rest.trim_start_matches([' ', '\t', '\u{feff}']);
    let from = start + rest.len() - own.len();
    (from, own.split([' ', '\t']).next().unwrap_or(""))
}

/// Where what ends before this byte begins: a word, a figure, or a brace.
fn last_word(text: &str, at: usize) -> usize {
    let before = text.get(..at).unwrap_or("");
    let start = before.rfind([' ', '\t', '\n', '\r', ';']).map_or(0, |blank| blank + 1);
    start.min(before.len())
}
