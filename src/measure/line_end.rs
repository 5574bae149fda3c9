//! How the lines of a text end.

/// The end of its first line; where it has none, a plain one.
#[must_use]
pub fn line_end(text: &str) -> &'static str {
    match text.find('\n') {
        Some(at) if text.as_bytes().get(..at).is_some_and(|before| before.ends_with(b"\r")) => {
            "\r\n"
        }
        _ => "\n",
    }
}

#[cfg(test)]
mod tests {
    use super::line_end;

    #[test]
    fn the_first_line_says() {
        assert_eq!(line_end(""), "\n");
        assert_eq!(line_end("a"), "\n");
        assert_eq!(line_end("a\nb\r\n"), "\n");
        assert_eq!(line_end("a\r\nb\n"), "\r\n");
        assert_eq!(line_end("\r\n"), "\r\n");
        assert_eq!(line_end("\nb"), "\n");
    }
}
