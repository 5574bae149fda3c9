//! One spelling for each word: a text is formatted with it.

use crate::diagnostics::Diagnostic;
use crate::measure::{FileId, Span, Unit};
use crate::syntax::{self, Edit, Tree};

use super::form::parse;
use super::value::Value;
use super::walk::{Step, walk};
use super::word::Kind;

/// The text as the shop keeps it: formatted, each word of the language in its
/// one spelling.
///
/// # Errors
/// What can't be read, or would be too long to be read again: such a text is
/// left as it is.
pub fn format(file: FileId, text: &str) -> Result<String, Vec<Diagnostic>> {
    let (tree, found) = parse(file, text);
    if !found.is_empty() {
        return Err(found);
    }
    let edits = respellings(&tree, text);
    match syntax::edited(text, edits).filter(|written| written != text) {
        Some(text) => syntax::format(file, &text, &parse(file, &text).0),
        None => syntax::format(file, text, &tree),
    }
}

/// The edits that write the one spelling where another stands.
fn respellings(tree: &Tree, text: &str) -> Vec<Edit> {
    let mut edits = Vec::new();
    let mut put = |span: Span, word: &str| {
        edits.push(Edit { at: span.range(), with: word.to_owned() });
    };
    // What bare numbers count makes no difference to words.
    walk(tree, Unit::Inch, &mut |step| match step {
        Step::Word { word, statement, .. } => {
            if word.also.is_some_and(|also| statement.word.text() == also) {
                put(statement.word.span, word.word);
            }
        }
        Step::Argument(given) => {
            let one = match &given.value {
                Some(Value::Choice(choice)) => choice.word,
                Some(Value::Word(finding)) if given.kind == Kind::Finding => finding,
                _ => return,
            };
            if text.get(given.span.range()) != Some(one) {
                put(given.span, one);
            }
        }
        Step::End | Step::Unknown { .. } => {}
    });
    edits
}
