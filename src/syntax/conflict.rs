//! The marks that git leaves in a text where two changes of it met.

use crate::diagnostics::Diagnostic;
use crate::measure::{FileId, Span};

/// How often its letter stands in a mark.
const MARK: usize = 7;

/// The lines that hold the two versions apart.
struct Marks {
    first: Span,
    middle: Span,
    last: Span,
}

/// Refuses a text that holds both versions of something. A mark by itself is
/// a slip like any other.
pub(super) fn refuse(file: FileId, text: &str) -> Option<Diagnostic> {
    let all = conflicts(file, text);
    let (Marks { first, middle, last }, more) = all.split_first()?;
    let title = "a merge was left unfinished, and both versions of these lines are still here";
    let found = Diagnostic::error("merge-conflict", title, *first, "one version starts here")
        .label(*middle, "the other version starts here")
        .label(*last, "it ends here")
        .note("keep one version and delete the conflict markers");
    Some(match more.len() {
        0 => found,
        1 => found.note("there is 1 more conflict further down"),
        more => found.note(format!("there are {more} more conflicts further down")),
    })
}

fn conflicts(file: FileId, text: &str) -> Vec<Marks> {
    let mut all = Vec::new();
    // Nearly every text has none.
    if !text.contains(&"<".repeat(MARK)) {
        return all;
    }
    let (mut first, mut middle) = (None, None);
    let mut at = 0;
    for whole in text.split_inclusive('\n') {
        let line = whole.trim_end_matches(['\r', '\n']);
        let here = Span::new(file, at, at + line.len());
        at += whole.len();
        if is_mark(line, '<') {
            (first, middle) = (Some(here), None);
        } else if first.is_some() && line == "=".repeat(MARK) {
            middle = Some(here);
        } else if is_mark(line, '>')
            && let (Some(first), Some(middle)) = (first.take(), middle.take())
        {
            all.push(Marks { first, middle, last: here });
        }
    }
    all
}

/// True for a mark of this letter, with or without a name behind it.
fn is_mark(line: &str, letter: char) -> bool {
    let name = line.trim_start_matches(letter);
    line.len() - name.len() == MARK && (name.is_empty() || name.starts_with(' '))
}

#[cfg(test)]
mod tests {
    use super::conflicts;
    use crate::measure::FileId;

    fn ends(text: &str) -> Vec<(&str, &str)> {
        let of = |span: crate::measure::Span| &text[span.range()];
        conflicts(FileId(0), text).iter().map(|m| (of(m.first), of(m.last))).collect()
    }

    #[test]
    fn marks_that_belong_together_are_a_conflict() {
        let one = "a\n<<<<<<< ours\nb\n=======\nc\n>>>>>>> theirs\nd\n";
        assert_eq!(ends(one), [("<<<<<<< ours", ">>>>>>> theirs")]);
        assert_eq!(ends(&one.replace('\n', "\r\n")), [("<<<<<<< ours", ">>>>>>> theirs")]);
        assert_eq!(ends(&one.repeat(3)).len(), 3);
        let bare = "<<<<<<<\n||||||| base\nx\n=======\n>>>>>>>";
        assert_eq!(ends(bare), [("<<<<<<<", ">>>>>>>")]);
    }

    #[test]
    fn a_mark_by_itself_is_none() {
        for text in [
            "a\n=======\nb\n",
            "<<<<<<< ours\n",
            "<<<<<<< ours\n=======\n",
            "=======\n>>>>>>> theirs\n",
            "<<<<<<< ours\n>>>>>>> theirs\n=======\n",
            "# <<<<<<< ours\n=======\n# >>>>>>> theirs\n",
            "<<<<<<<< ours\n=======\n>>>>>>>> theirs\n",
            "<<<<<<<ours\n=======\n>>>>>>>theirs\n",
        ] {
            assert_eq!(ends(text), [], "{text:?}");
        }
    }
}
