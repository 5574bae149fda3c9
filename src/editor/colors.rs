//! What each piece of a text is, for whoever colors it.

use std::collections::BTreeMap;

use crate::measure::{Span, Unit};
use crate::syntax::{Argument, Comment, Expr, ExprKind, Item, Tree};
use crate::vocabulary::{self, Kind, Step};

/// What a piece of text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Color {
    /// A word of the language that begins a statement.
    Word,
    /// One of a few words that stand behind it.
    Choice,
    /// A name that is given here.
    Given,
    /// A name that is given elsewhere.
    Name,
    /// A figure with its unit, or a date.
    Number,
    /// A text in quotes.
    Text,
    /// A comment.
    Comment,
}

/// Every piece of a text that is something, in its order; none overlaps another. What nothing
/// knows has no color.
#[must_use]
pub fn colors(tree: &Tree, unit: Unit) -> Vec<(Span, Color)> {
    let mut found: BTreeMap<Span, Color> = BTreeMap::new();
    comments(&tree.items, &mut found);
    let mut own: BTreeMap<Span, Color> = BTreeMap::new();
    vocabulary::walk(tree, unit, &mut |step| match step {
        Step::Word { word, statement, .. } => {
            let color = if word.any_name { Color::Name } else { Color::Word };
            found.insert(statement.word.span, color);
            for argument in &statement.arguments {
                match argument {
                    Argument::Text { span, .. } => found.extend([(*span, Color::Text)]),
                    Argument::Date { span, .. } => found.extend([(*span, Color::Number)]),
                    Argument::Expr(expr) => figures(expr, &mut found),
                }
            }
        }
        Step::Argument(given) => {
            own.extend(given.sizes.iter().map(|name| (name.span, Color::Name)));
            let color = match given.kind {
                Kind::Define => Color::Given,
                Kind::Label | Kind::Refer(_) | Kind::Path | Kind::LetterOrNumber => Color::Name,
                Kind::Choice(_) | Kind::Exactly(_) | Kind::Finding => Color::Choice,
                Kind::Text | Kind::File => Color::Text,
                _ => return,
            };
            own.insert(given.span, color);
        }
        Step::End | Step::Unknown { .. } => {}
    });
    // What the vocabulary says of an argument counts for more than its form.
    for (span, color) in own {
        if let Some(known) = found.get_mut(&span)
            && *known == Color::Choice
        {
            *known = color;
        }
    }
    found.into_iter().filter(|(span, _)| !span.range().is_empty()).collect()
}

/// The figures and the words in an expression; a word counts as a choice until more is known.
fn figures(expr: &Expr, found: &mut BTreeMap<Span, Color>) {
    match &expr.kind {
        ExprKind::Number(_) => found.extend([(expr.span, Color::Number)]),
        ExprKind::Name(name) => found.extend([(name.span, Color::Choice)]),
        ExprKind::Negative(inner) => figures(inner, found),
        ExprKind::Binary(_, left, right) => {
            figures(left, found);
            figures(right, found);
        }
    }
}

fn comments(items: &[Item], found: &mut BTreeMap<Span, Color>) {
    let mut add = |comment: &Comment| {
        found.insert(comment.span, Color::Comment);
    };
    let mut inner = Vec::new();
    for item in items {
        match item {
            Item::Comment(comment) => add(comment),
            Item::Statement(statement) => {
                statement.comment.iter().for_each(&mut add);
                inner.extend(&statement.block);
            }
            Item::Blank => {}
        }
    }
    for block in inner {
        comments(&block.items, found);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::FileId;
    use crate::vocabulary::parse;

    fn told(text: &str) -> Vec<(&str, Color)> {
        let (tree, _) = parse(FileId(0), text);
        let all = colors(&tree, Unit::Inch).into_iter();
        all.map(|(span, color)| (&text[span.range()], color)).collect()
    }

    #[test]
    fn each_piece_has_the_color_of_what_it_means() {
        use Color::{Choice, Comment, Given, Name, Number, Text, Word};
        let text = "# hall\njob \"Hall\" { units mm }\ncase a { wide b.wide + 2 * 18 mm # how\n stock ply }";
        let expected = [
            ("# hall", Comment),
            ("job", Word),
            ("\"Hall\"", Text),
            ("units", Word),
            ("mm", Choice),
            ("case", Word),
            ("a", Given),
            ("wide", Word),
            ("b.wide", Name),
            ("2", Number),
            ("18 mm", Number),
            ("# how", Comment),
            ("stock", Word),
            ("ply", Name),
        ];
        assert_eq!(told(text), expected);
    }

    #[test]
    fn a_size_that_is_a_name_is_one() {
        let told = told("case a { wide press.wide }");
        assert_eq!(told.last(), Some(&("press.wide", Color::Name)));
    }
}
