//! Hostile or unprintable text made visible: whatever a spec holds reaches a
//! terminal as letters, never as a command to it.

use std::borrow::Cow;

/// A character as it is shown.
pub(super) enum Shown {
    /// Itself.
    Itself,
    /// Something else that stands for it.
    As(Cow<'static, str>),
}

/// Text from a spec or the system made safe to print: control characters,
/// direction marks and what can't be seen are written out as `<U+202E>`.
#[must_use]
pub fn plain(text: &str) -> String {
    visible(text, true).into_owned()
}

/// The text with every control character, direction mark and invisible
/// character written out as `<U+202E>`; where `unicode` is false also with
/// nothing beyond ASCII.
pub(super) fn visible(text: &str, unicode: bool) -> Cow<'_, str> {
    // Nearly every text is of plain letters.
    if is_plain(text) || text.chars().all(|c| matches!(shown(c, unicode), Shown::Itself)) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match shown(c, unicode) {
            Shown::Itself => out.push(c),
            Shown::As(text) => out.push_str(&text),
        }
    }
    Cow::Owned(out)
}

/// True for a text of letters, figures, and signs of ASCII only.
pub(super) fn is_plain(text: &str) -> bool {
    text.bytes().all(|byte| matches!(byte, b' '..=b'~'))
}

/// How one character is shown.
pub(super) fn shown(c: char, unicode: bool) -> Shown {
    if matches!(c, ' '..='~') {
        return Shown::Itself;
    }
    if is_unseen(c) {
        return written_out(c);
    }
    if unicode {
        return Shown::Itself;
    }
    ascii(c).map_or_else(|| written_out(c), |text| Shown::As(Cow::Borrowed(text)))
}

fn written_out(c: char) -> Shown {
    Shown::As(Cow::Owned(format!("<U+{:04X}>", u32::from(c))))
}

/// True for characters that act on the terminal or on the order of letters,
/// or can't be seen: Unicode categories Cc and Cf, line and paragraph
/// separators, fillers and tags.
pub(super) fn is_unseen(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{ad}'
                | '\u{600}'..='\u{605}'
                | '\u{61c}'
                | '\u{6dd}'
                | '\u{70f}'
                | '\u{115f}'..='\u{1160}'
                | '\u{17b4}'..='\u{17b5}'
                | '\u{180b}'..='\u{180f}'
                | '\u{200b}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{3164}'
                | '\u{feff}'
                | '\u{ffa0}'
                | '\u{fff9}'..='\u{fffb}'
                | '\u{1bca0}'..='\u{1bca3}'
                | '\u{1d173}'..='\u{1d17a}'
                | '\u{e0000}'..='\u{e0fff}'
        )
}

/// The ASCII spelling of the signs that messages use.
fn ascii(c: char) -> Option<&'static str> {
    Some(match c {
        '\u{a0}' => " ",
        '−' | '–' | '—' | '‑' => "-",
        '×' => "x",
        '…' => "...",
        '°' => " deg",
        '“' | '”' => "\"",
        '‘' | '’' => "'",
        '→' => "->",
        '≤' => "<=",
        '≥' => ">=",
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes_and_direction_marks_become_letters() {
        assert_eq!(visible("a\u{1b}[31mb", true), "a<U+001B>[31mb");
        assert_eq!(visible("a\u{202e}b\u{9b}c\u{7f}", true), "a<U+202E>b<U+009B>c<U+007F>");
        assert_eq!(visible("two\nlines", true), "two<U+000A>lines");
    }

    #[test]
    fn letters_of_any_script_stay() {
        assert_eq!(visible("chêne − 日本", true), "chêne − 日本");
        assert!(matches!(visible("plain", true), Cow::Borrowed(_)));
    }

    #[test]
    fn ascii_spells_signs_and_writes_out_the_rest() {
        assert_eq!(visible("5 − 2 × 1 … é", false), "5 - 2 x 1 ... <U+00E9>");
        assert!(visible("日本 𝄞 \u{1b}", false).is_ascii());
    }
}
