//! The stages in order: the front door for commands, tests and editors.
//! Knows neither disk nor terminal.

use crate::diagnostics::{Diagnostic, Sources};
use crate::model::{self, Piece, ReadError, SourceFiles};
use crate::parts::{self, Parts};

/// What became of a spec.
#[derive(Debug)]
pub struct Compilation {
    /// Its texts.
    pub sources: Sources,
    /// Everything found, in order.
    pub diagnostics: Vec<Diagnostic>,
    /// The solved piece, if it is sound so far.
    pub piece: Option<Piece>,
    /// Its parts, if they could be built.
    pub parts: Option<Parts>,
}

/// Reads a spec and checks it through all stages.
///
/// # Errors
/// The reason why the spec itself can't be read.
pub fn check(files: &dyn SourceFiles, entry: &str) -> Result<Compilation, ReadError> {
    let loaded = model::load(files, entry)?;
    let mut sink = loaded.sink.clone();
    let mut piece = None;
    // A statement that could not be read leaves a hole in the piece; whatever
    // the later stages said of it would be a second message for one mistake.
    if !sink.has_errors() {
        let (lowered, found) = model::lower(&loaded);
        sink.extend(found.into_sorted());
        piece = lowered;
    }
    let parts = piece.as_ref().map(parts::build);
    Ok(Compilation { sources: loaded.sources, diagnostics: sink.into_sorted(), piece, parts })
}
