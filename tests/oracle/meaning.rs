//! What a text says, whatever it looks like.

use std::fmt::Write as _;

use casewright::measure::FileId;
use casewright::pipeline::Compilation;
use casewright::syntax::{Argument, Expr, ExprKind, Item};
use casewright::vocabulary::parse;

/// What a text says, without how it is laid out: statements with their exact
/// values, comments with what they stand by, and where lines are left empty.
pub(crate) fn meaning(text: &str) -> String {
    let (tree, found) = parse(FileId(0), text);
    assert!(found.is_empty(), "{text}\n{found:#?}");
    let mut said = String::new();
    items(&tree.items, &mut said);
    said
}

/// A word in the one spelling that is written.
fn one_spelling(word: &str) -> &str {
    match word {
        "mitre" => "miter",
        "centres" => "centers",
        "mitre-unequal" => "miter-unequal",
        own => own,
    }
}

fn items(all: &[Item], said: &mut String) {
    for (i, item) in all.iter().enumerate() {
        match item {
            Item::Statement(statement) => {
                said.push_str(one_spelling(statement.word.text()));
                for argument in &statement.arguments {
                    said.push(' ');
                    value(argument, said);
                }
                if let Some(block) = &statement.block {
                    said.push_str("{\n");
                    items(&block.items, said);
                    said.push('}');
                }
                if let Some(comment) = &statement.comment {
                    let _ = write!(said, " behind: {}", comment.text);
                }
                said.push('\n');
            }
            Item::Comment(comment) => {
                let _ = writeln!(said, "{}", comment.text);
            }
            // The one that the formatter takes out: behind `{ # …`.
            Item::Blank if i == 1 && matches!(all[0], Item::Comment(_)) => {}
            Item::Blank => said.push('\n'),
        }
    }
}

fn value(argument: &Argument, said: &mut String) {
    match argument {
        Argument::Text { value, .. } => {
            let _ = write!(said, "{value:?}");
        }
        Argument::Date { value, .. } => {
            let _ = write!(said, "{value:?}");
        }
        Argument::Expr(value) => expression(value, said),
    }
}

fn expression(value: &Expr, said: &mut String) {
    match &value.kind {
        ExprKind::Number(number) => {
            let _ = write!(said, "{number:?}");
        }
        ExprKind::Name(name) => said.push_str(one_spelling(name.text())),
        ExprKind::Negative(inner) => {
            said.push_str("(-");
            expression(inner, said);
            said.push(')');
        }
        ExprKind::Binary(op, left, right) => {
            said.push('(');
            expression(left, said);
            let _ = write!(said, " {op:?} ");
            expression(right, said);
            said.push(')');
        }
    }
}

/// What a maker gets of a spec, line numbers aside.
pub(crate) fn outcome(compiled: &Compilation) -> String {
    let mut text = String::new();
    for found in &compiled.diagnostics {
        let _ = writeln!(text, "{} {} {:?}", found.slug, found.title, found.subject);
    }
    for part in compiled.parts.iter().flat_map(|parts| &parts.all) {
        let sizes = [&part.length, &part.width, &part.thickness].map(|size| size.length);
        let _ = writeln!(text, "{} {} {sizes:?} {:?}", part.path, part.mark, part.placement);
    }
    text
}
