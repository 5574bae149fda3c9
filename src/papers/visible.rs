//! What a spec says, in letters that can be seen.

use std::borrow::Cow;

use crate::diagnostics::render::plain;

/// What a spec says, on one line and in letters that can be seen: marks that
/// turn the order of letters act in a browser as they do on a terminal.
pub(crate) fn visible(text: &str) -> Cow<'_, str> {
    // Every letter is looked at, even behind a strange one: many at a time, and
    // nearly every text has none.
    if !text.bytes().fold(false, |strange, byte| strange | !matches!(byte, b' '..=b'~')) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(plain(&text.replace(['\n', '\r'], " ")))
}
