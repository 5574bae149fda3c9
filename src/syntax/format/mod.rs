//! A text written again from its tree: one look for every spec. Only spaces,
//! line breaks and `;` change; each value keeps the text that it was written in,
//! and every line ends as the first one did.

mod align;
mod layout;
mod line;
mod source;

use super::limits;
use super::tree::Tree;
use crate::diagnostics::Diagnostic;
use crate::measure::{FileId, Span, line_end};
pub use layout::WIDEST;
use line::Line;

/// A text as the shop keeps it, from its tree.
///
/// # Errors
/// What would be too long to be read again: such a text is left as it is.
pub fn format(file: FileId, text: &str, tree: &Tree) -> Result<String, Vec<Diagnostic>> {
    let mut lines = layout::lines(text, tree);
    align::values(&mut lines);
    align::comments(&mut lines);
    let written = match write(&lines, line_end(text)) {
        Ok(written) => written,
        Err(at) => return Err(vec![limits::too_long(Span { file, start: at, end: at })]),
    };
    if written.len() > limits::LONGEST_FILE {
        return Err(vec![limits::too_large(file)]);
    }
    Ok(written)
}

/// The lines as text. An indent or a column may make a line too long to be
/// read; then where that line begins in the source.
fn write(lines: &[Line], newline: &str) -> Result<String, u32> {
    let mut text = String::new();
    for line in lines {
        let start = text.len();
        line.write(&mut text);
        if text.len() - start > limits::LONGEST_LINE {
            return Err(line.at);
        }
        text.push_str(newline);
    }
    Ok(text)
}
