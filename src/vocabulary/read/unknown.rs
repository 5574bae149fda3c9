//! What is said of a word that the language does not have.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Span, Unit, nearest};
use crate::syntax::{Argument, Expr, ExprKind, Statement, Word};
use crate::vocabulary::meant::{self, homes, meant};
use crate::vocabulary::natural;
use crate::vocabulary::word::Block;
use crate::vocabulary::words::case::HUNG;
use crate::vocabulary::words::run_case;

/// A unit behind a figure that is written as a word: `5 inches`.
pub(super) fn unit_in_words(statement: &Statement, job: Unit) -> Option<Diagnostic> {
    statement.arguments.windows(2).find_map(|pair| {
        let [figure @ Argument::Expr(Expr { kind: ExprKind::Number(number), .. }), word] = pair
        else {
            return None;
        };
        let word = word.as_word().filter(|_| number.unit.is_none())?;
        let Some(unit) = natural::unit(word.text) else {
            return mistyped(word, job);
        };
        let title = format!("write this unit as `{unit}`");
        let space = Span { start: figure.span().end, ..word.span };
        let text = if unit == "%" { unit.to_owned() } else { format!(" {unit}") };
        let found = Diagnostic::error("value-wrong", title, word.span, "a unit in words");
        Some(found.fix(Fix::new(Grade::Sure, format!("write `{unit}`"), space, text)))
    })
}

/// Two letters behind a figure that are a unit but for one of them: rather that of the job.
fn mistyped(word: Word<'_>, job: Unit) -> Option<Diagnostic> {
    if meant::is_known(word.text) || natural::units().any(|own| own == word.text) {
        return None;
    }
    let near = |unit: &&str| {
        let mut pairs = unit.chars().zip(word.text.chars());
        unit.len() == 2 && word.text.len() == 2 && pairs.any(|(own, is)| own == is)
    };
    let own = job.either("in", "mm");
    let mut units: Vec<&str> = natural::units().filter(near).collect();
    if units.contains(&own) {
        units = vec![own];
    }
    let title = format!("`{}` is not a unit", word.text);
    let found = Diagnostic::error("value-wrong", title, word.span, "a unit with another letter");
    let offer = |found: Diagnostic, unit: &str| {
        found.fix(Fix::new(Grade::Choice, format!("write `{unit}`"), word.span, unit))
    };
    (!units.is_empty()).then(|| units.into_iter().fold(found, offer))
}

/// What is said where a case of a run is to hang by itself.
const HANGS_AS_A_WHOLE: &str = "a run hangs as a whole: with `hung { top … }` in the run and a `high` of its own in this case, its top hangs in one line with those of the others";

/// A word that can't stand in this block, and what may have been meant.
pub(super) fn unknown(block: &'static Block, text: &str, span: Span) -> Diagnostic {
    let title = format!("`{text}` can't stand in {}", block.title);
    let found = |label: &str| Diagnostic::error("word-unknown", title, span, label);
    let words = || block.words.iter().map(|word| word.word);
    let write = |grade, word| Fix::new(grade, format!("write `{word}`"), span, word);
    if let Some(word) = meant(block, text) {
        return found("unknown word").fix(write(Grade::Sure, word));
    }
    if let Some(said) = meant::choice_of(block, text) {
        let title = format!("`{text}` needs its word before it in {}", block.title);
        let found = Diagnostic::error("word-unknown", title, span, "its word is missing");
        return found.fix(Fix::new(Grade::Choice, format!("write `{said}`"), span, said));
    }
    let near = natural::near(text, words());
    let found = match homes(text) {
        Some(homes) => found("this does not belong here")
            .note(format!("`{text}` belongs in {}", homes.join(" or in "))),
        None if near.is_some() => found("unknown word"),
        None => {
            let all = words().collect::<Vec<&str>>().join(", ");
            // Too many blocks know it for a list of them to help.
            let label = match meant::is_known(text) {
                true => "this does not belong here",
                false => "unknown word",
            };
            found(label).note(format!("{} may hold {all}", block.title))
        }
    };
    let is_of_run = std::ptr::eq(block, run_case::block()) && text == HUNG.spelling();
    let found = if is_of_run { found.note(HANGS_AS_A_WHOLE) } else { found };
    // A word of another block may be a slip for one of this.
    let slip = nearest(text, words()).filter(|word| Some(*word) != near);
    near.into_iter().chain(slip).fold(found, |found, word| found.fix(write(Grade::Choice, word)))
}
