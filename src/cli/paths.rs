//! Paths as words: the same on every system.

use std::path::Path;

use crate::diagnostics::render::plain;

/// A path as messages show it: letters alone, whatever its name holds.
pub(super) fn display(path: &Path) -> String {
    plain(&slashed(path))
}

/// A path with `/` between its folders, as specs, git and logs write it. A
/// backslash stays where it is a letter like any other.
pub(super) fn slashed(path: &Path) -> String {
    let text = dunce::simplified(path).to_string_lossy();
    match std::path::MAIN_SEPARATOR {
        '/' => text.into_owned(),
        own => text.replace(own, "/"),
    }
}
