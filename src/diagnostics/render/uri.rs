//! A file's name as a URI reference (RFC 3986).

use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

/// What is written out in a path. The colon too: before the first slash it
/// would end a scheme.
const WRITTEN_OUT: &AsciiSet =
    &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b'/');

/// Relative stays relative; a path from the root is a `file` URI.
pub(crate) fn uri(name: &str) -> String {
    let written = utf8_percent_encode(name, WRITTEN_OUT);
    match name.split_once(":/") {
        // A drive, where there are drives.
        Some((drive, rest)) if cfg!(windows) && drive.len() == 1 => {
            format!("file:///{drive}:/{}", utf8_percent_encode(rest, WRITTEN_OUT))
        }
        _ if name.starts_with('/') => format!("file://{written}"),
        _ => written.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::uri;

    #[test]
    fn names_that_are_no_uri_are_written_out() {
        assert_eq!(uri("specs/hall-console.case"), "specs/hall-console.case");
        assert_eq!(uri("a b/50%#?.case"), "a%20b/50%25%23%3F.case");
        assert_eq!(uri("a:b/chêne.case"), "a%3Ab/ch%C3%AAne.case");
        assert_eq!(uri("../a.case"), "../a.case");
        assert_eq!(uri("/jobs/a.case"), "file:///jobs/a.case");
    }
}
