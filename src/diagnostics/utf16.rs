//! Positions as editors count them: from nought, columns in UTF-16 units.

use super::Source;

/// A place in a text as editors count: both from nought, columns in UTF-16
/// units, and a lone carriage return ends a line too.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Utf16Position {
    /// The line.
    pub line: u32,
    /// UTF-16 units before it on its line.
    pub column: u32,
}

impl Source {
    fn editor_lines(&self) -> &[u32] {
        self.editor_lines.get_or_init(|| line_starts(&self.text))
    }

    /// Where an editor finds a byte; one within a letter counts as its start.
    #[must_use]
    pub fn utf16(&self, byte: u32) -> Utf16Position {
        let mut at = (byte as usize).min(self.text.len());
        while !self.text.is_char_boundary(at) {
            at -= 1;
        }
        let lines = self.editor_lines();
        let line = lines.partition_point(|start| *start as usize <= at).max(1) - 1;
        let start = lines.get(line).map_or(0, |start| *start as usize);
        let before = self.text.get(start..at).unwrap_or("");
        let column = before.chars().map(char::len_utf16).sum::<usize>();
        Utf16Position { line: line as u32, column: column as u32 }
    }

    /// The byte that an editor means. Behind the end of a line it is the end,
    /// behind the last line the end of the text, within a letter its start.
    #[must_use]
    pub fn byte(&self, position: Utf16Position) -> u32 {
        let line = position.line as usize;
        let lines = self.editor_lines();
        let Some(start) = lines.get(line).map(|start| *start as usize) else {
            return self.text.len() as u32;
        };
        let next = lines.get(line + 1).map_or(self.text.len(), |next| *next as usize);
        let text = self.text.get(start..next).unwrap_or("").trim_end_matches(['\n', '\r']);
        let mut left = position.column as usize;
        for (at, letter) in text.char_indices() {
            if left < letter.len_utf16() {
                return (start + at) as u32;
            }
            left -= letter.len_utf16();
        }
        (start + text.len()) as u32
    }
}

/// Where the lines of a text begin as an editor counts them.
fn line_starts(text: &str) -> Vec<u32> {
    let bytes = text.as_bytes();
    let ends = bytes.iter().enumerate().filter(|(at, byte)| match byte {
        b'\n' => true,
        b'\r' => bytes.get(at + 1) != Some(&b'\n'),
        _ => false,
    });
    std::iter::once(0).chain(ends.map(|(at, _)| at as u32 + 1)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::Sources;
    use super::*;
    use crate::measure::FileId;

    fn source(text: &str) -> Source {
        let mut sources = Sources::new();
        sources.add("a.case", text);
        sources.get(FileId(0)).unwrap().clone()
    }

    fn at(line: u32, column: u32) -> Utf16Position {
        Utf16Position { line, column }
    }

    /// U+1F600 takes two UTF-16 units and four bytes; `e` with a combining
    /// acute is two units of one each, and three bytes (the Unicode standard,
    /// section 3.9).
    #[test]
    fn columns_count_utf16_units() {
        let text = "note \"\u{1f600}e\u{301}x\"\nwide 3\n";
        let source = source(text);
        assert_eq!(source.utf16(text.find('e').unwrap() as u32), at(0, 3));
        assert_eq!(source.utf16(text.find('\u{1f600}').unwrap() as u32), at(0, 6));
        assert_eq!(source.utf16(text.find('\u{301}').unwrap() as u32), at(0, 9));
        assert_eq!(source.utf16(text.find('x').unwrap() as u32), at(0, 10));
        assert_eq!(source.utf16(text.find("wide").unwrap() as u32), at(1, 0));
        // Scalars: the face counts one.
        assert_eq!(source.position(text.find('x').unwrap() as u32).column, 10);
    }

    #[test]
    fn a_byte_within_a_letter_is_its_start_and_one_behind_the_text_its_end() {
        let source = source("\u{1f600}x");
        for byte in 0..4 {
            assert_eq!(source.utf16(byte), at(0, 0));
        }
        assert_eq!(source.utf16(4), at(0, 2));
        assert_eq!(source.utf16(u32::MAX), at(0, 3));
        assert_eq!(source.byte(at(0, 1)), 0);
    }

    #[test]
    fn an_editor_has_three_ends_of_line() {
        let source = source("a\nbc\r\nd\re");
        for (byte, position) in
            [(0, at(0, 0)), (2, at(1, 0)), (3, at(1, 1)), (6, at(2, 0)), (8, at(3, 0))]
        {
            assert_eq!(source.utf16(byte), position);
            assert_eq!(source.byte(position), byte);
        }
        assert_eq!(source.byte(at(1, 99)), 4);
        assert_eq!(source.byte(at(9, 0)), 9);
    }

    #[test]
    fn every_letter_is_found_again() {
        let text = "één \u{1f468}\u{200d}\u{1f469}\u{200d}\u{1f467}\r\n\u{65e5}\u{672c}\n";
        let source = source(text);
        for (byte, letter) in text.char_indices().filter(|(_, c)| !matches!(c, '\r' | '\n')) {
            assert_eq!(source.byte(source.utf16(byte as u32)), byte as u32, "{letter:?}");
        }
    }
}
