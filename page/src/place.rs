//! Places in the texts as a page counts them.

use casewright::diagnostics::Sources;
use casewright::measure::Span;
use serde::Serialize;

/// From one place in a file to another: lines and columns from nought, columns
/// in UTF-16 units.
#[derive(Debug, Serialize)]
pub(crate) struct Place {
    file: String,
    from: [u32; 2],
    to: [u32; 2],
}

impl Place {
    pub(crate) fn of(sources: &Sources, span: Span) -> Self {
        let (from, to) = sources.utf16(span);
        Self {
            file: sources.get(span.file).map_or_else(String::new, |source| source.name.clone()),
            from: [from.line, from.column],
            to: [to.line, to.column],
        }
    }
}
