//! A walk over a tree that says of each word and each argument what it is.
//! Unlike the reader it stops at nothing: half a spec is walked too, and a word that surely
//! was meant to be another is taken for that.

use crate::measure::{Span, Unit};
use crate::syntax::{Argument, Expr, ExprKind, Item, Name, Statement, Tree};

use super::blocks::file;
use super::meant;
use super::pairs::{Found, Pairs};
use super::value::Value;
use super::word::{Block, Kind, Row};

/// What a walk meets, in the order of the text.
#[derive(Debug)]
pub enum Step<'a> {
    /// A statement begins.
    Word {
        /// The block that it belongs in.
        block: &'static Block,
        /// How many blocks farther out that is than where it stands: a brace may
        /// be missing.
        out: usize,
        /// What it is.
        word: &'static Row,
        /// The statement.
        statement: &'a Statement,
    },
    /// An argument of the statement that began last.
    Argument(Given<'a>),
    /// A statement ends, with everything in its block.
    End,
    /// A statement that no block around it knows; what is in its braces is not
    /// walked.
    Unknown {
        /// The block that it stands in.
        block: &'static Block,
        /// The statement.
        statement: &'a Statement,
    },
}

/// An argument with its kind.
#[derive(Debug)]
pub struct Given<'a> {
    /// Its place among the slots of its word.
    pub slot: usize,
    /// What it should be.
    pub kind: Kind,
    /// Where it stands.
    pub span: Span,
    /// The name that it is: of a label, a new name, a reference, a path.
    pub name: Option<&'a Name>,
    /// The names in the size that it is.
    pub sizes: Vec<&'a Name>,
    /// What it says; `None` where it is something else than it should be.
    pub value: Option<Value>,
}

/// Walks a whole file. A bare number counts `unit`.
pub fn walk<'a>(tree: &'a Tree, unit: Unit, visit: &mut dyn FnMut(Step<'a>)) {
    items(&mut vec![file::block()], &tree.items, unit, visit);
}

fn items<'a>(
    blocks: &mut Vec<&'static Block>,
    items: &'a [Item],
    unit: Unit,
    visit: &mut dyn FnMut(Step<'a>),
) {
    for item in items {
        let Item::Statement(statement) = item else { continue };
        let keyword = statement.word.text();
        let known = blocks.iter().rev().enumerate().find_map(|(out, block)| {
            let word = block.meant(keyword)?;
            Some((out, *block, word))
        });
        let known = known.or_else(|| {
            let block = *blocks.last()?;
            Some((0, block, meant::row(block, keyword)?))
        });
        let Some((out, block, word)) = known else {
            let block = blocks.last().copied().unwrap_or(file::block());
            visit(Step::Unknown { block, statement });
            continue;
        };
        visit(Step::Word { block, out, word, statement });
        for (slot, pair) in Pairs::of(word, statement, unit).enumerate() {
            let Some(span) = pair.found.span() else { continue };
            let kind = pair.slot.kind;
            let sizes = match (&pair.found, kind) {
                (Found::Value(_, [Argument::Expr(expr)]), Kind::Size) => names(expr),
                _ => Vec::new(),
            };
            let name = match &pair.found {
                Found::Keyword(name) => Some(*name),
                Found::Value(_, [Argument::Expr(Expr { kind: ExprKind::Name(name), .. })]) => {
                    Some(name)
                }
                _ => None,
            };
            let is_name = matches!(kind, Kind::Label | Kind::Define | Kind::Refer(_) | Kind::Path);
            let value = match pair.found {
                Found::Value(value, _) => Some(value.value),
                Found::Keyword(name) => Some(Value::Path(name.clone())),
                Found::Nothing | Found::Wrong(..) => None,
            };
            let name = name.filter(|_| is_name);
            visit(Step::Argument(Given { slot, kind, span, name, sizes, value }));
        }
        if let (Some(inner), Some(written)) = (word.body.block(), &statement.block) {
            blocks.push(inner);
            self::items(blocks, &written.items, unit, visit);
            blocks.pop();
        }
        visit(Step::End);
    }
}

/// What may stand behind the arguments that a statement has: the place of the next slot that
/// nothing fills; `None` where there is no more, or where what stands there is no value yet.
#[must_use]
pub fn next_slot(word: &'static Row, statement: &Statement, unit: Unit) -> Option<usize> {
    let mut all = Pairs::of(word, statement, unit).enumerate();
    let (place, next) =
        all.find(|(_, pair)| matches!(pair.found, Found::Nothing | Found::Wrong(..)))?;
    matches!(next.found, Found::Nothing).then_some(place)
}

/// The names in an expression, left to right.
fn names(expr: &Expr) -> Vec<&Name> {
    match &expr.kind {
        ExprKind::Number(_) => Vec::new(),
        ExprKind::Name(name) => vec![name],
        ExprKind::Negative(inner) => names(inner),
        ExprKind::Binary(_, left, right) => {
            let mut all = names(left);
            all.extend(names(right));
            all
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::FileId;
    use crate::vocabulary::parse;

    /// What a walk over a text meets, in short.
    fn told(text: &str) -> Vec<String> {
        let (tree, _) = parse(FileId(0), text);
        let mut told = Vec::new();
        walk(&tree, Unit::Inch, &mut |step| {
            told.push(match step {
                Step::Word { block, word, .. } => format!("{} of {}", word.word, block.name),
                Step::Argument(given) => {
                    let sizes: Vec<&str> = given.sizes.iter().map(|name| name.text()).collect();
                    let what = if given.value.is_some() { "" } else { " wrong" };
                    let text = &text[given.span.range()];
                    format!("{text}: {:?} {}{what}", given.kind, sizes.join(",")).trim().to_owned()
                }
                Step::End => "end".to_owned(),
                Step::Unknown { block, statement } => {
                    format!("{}? in {}", statement.word.text(), block.name)
                }
            });
        });
        told
    }

    #[test]
    fn words_arguments_and_blocks_are_met_in_order() {
        let met = told("case a { high b.high + 2 * c.high; base { high 4 }; xyzzy 3; wdie 3 }");
        let expected = [
            "case of file",
            "a: Define",
            "high of case",
            "b.high + 2 * c.high: Size b.high,c.high",
            "end",
            "base of case",
            "high of base",
            "4: Size",
            "end",
            "end",
            "xyzzy? in case",
            "wide of case",
            "3: Size",
            "end",
            "end",
        ];
        assert_eq!(met, expected);
    }

    #[test]
    fn what_stands_too_far_in_is_met_where_it_belongs() {
        let met = told("case a { base { high 4; bottom { flush } } }");
        assert_eq!(met[6..9], ["bottom of case", "flush of bottom", "end"]);
    }

    #[test]
    fn what_is_wrong_is_met_too() {
        let expected = ["casework of file", "x: Count(1000)  wrong", "end"];
        assert_eq!(told("casework x"), expected);
        let met = told("cut 2026-03-14 { a.b { stock ply } }");
        assert_eq!(met[2..5], ["PART of cut", "a.b: Path", "stock of cut-part"]);
    }
}
