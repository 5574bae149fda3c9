//! Text from a spec made safe to show: nothing in it can steer a terminal.

/// `text` with every control character, and every mark that turns the reading
/// direction, shown as `\u{…}`. Line ends and tabs are shown too.
#[must_use]
pub fn plain(text: &str) -> String {
    if !text.chars().any(is_hostile) {
        return text.to_owned();
    }
    let mut safe = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match c {
            '\n' => safe.push_str("\\n"),
            c if is_hostile(c) => safe.push_str(&format!("\\u{{{:X}}}", u32::from(c))),
            c => safe.push(c),
        }
    }
    safe
}

/// Control characters, and the marks by which text can be made to read in
/// another order than it is written (Unicode Standard Annex 9).
pub(super) fn is_hostile(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{061C}')
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn escapes_and_turning_marks_are_shown_and_not_obeyed() {
        assert_eq!(plain("a\u{1b}[31mb"), "a\\u{1B}[31mb");
        assert_eq!(plain("x\u{202e}y"), "x\\u{202E}y");
        assert_eq!(plain("½ – 日本"), "½ – 日本");
    }
}
