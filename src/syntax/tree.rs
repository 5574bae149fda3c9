//! The syntax tree. Every node knows where it stands; comments and blank
//! lines are kept, so that the text can be written again from the tree.

use crate::measure::{Date, Exact, Span, Unit};

/// One file.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Tree {
    /// Statements, comments and blank lines in order.
    pub items: Vec<Item>,
    /// It can't be told which statements stand in which braces, or nothing could be read.
    pub shapeless: bool,
}

impl Tree {
    /// The tree of a text that can't be read.
    pub(super) fn shapeless() -> Self {
        Self { items: Vec::new(), shapeless: true }
    }
}

/// What stands on a line of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Item {
    /// `wide 66`, with a block or without.
    Statement(Statement),
    /// `# …` on a line of its own.
    Comment(Comment),
    /// One or more empty lines.
    Blank,
}

/// `# …` up to the end of its line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Comment {
    /// The text, with its `#`.
    pub text: String,
    /// Where it stands.
    pub span: Span,
}

/// A keyword with its arguments and, perhaps, a block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Statement {
    /// The keyword; the dotted name or the mark of a part in `cut` blocks.
    pub word: Name,
    /// What follows it on the line.
    pub arguments: Vec<Argument>,
    /// `{ … }`.
    pub block: Option<Block>,
    /// A comment behind it on the same line.
    pub comment: Option<Comment>,
    /// From the keyword to the last argument or closing brace.
    pub span: Span,
}

impl Statement {
    /// From the keyword to the last argument, without the block.
    #[must_use]
    pub fn head(&self) -> Span {
        self.arguments.last().map_or(self.word.span, |last| self.word.span.to(last.span()))
    }
}

/// Statements between braces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// Statements, comments and blank lines in order.
    pub items: Vec<Item>,
    /// The opening brace.
    pub open: Span,
    /// The closing brace; empty, at the end of the file, where it is missing.
    pub close: Span,
}

/// One argument of a statement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Argument {
    /// `"…"` with its escapes resolved.
    Text {
        /// The text meant.
        value: String,
        /// Including its quotes.
        span: Span,
    },
    /// `2026-03-14`.
    Date {
        /// The date.
        value: Date,
        /// Where it stands.
        span: Span,
    },
    /// A name, a number with or without a unit, or arithmetic over them. A
    /// bare word such as `miter` or `to` is a name too; the vocabulary says
    /// what it means.
    Expr(Expr),
}

impl Argument {
    /// Where it stands.
    #[must_use]
    pub fn span(&self) -> Span {
        match self {
            Self::Text { span, .. } | Self::Date { span, .. } => *span,
            Self::Expr(expr) => expr.span,
        }
    }

    /// The bare word it is, such as `miter`; `None` for anything else.
    #[must_use]
    pub fn as_word(&self) -> Option<Word<'_>> {
        match self {
            Self::Expr(Expr { kind: ExprKind::Name(name), .. }) => name.as_word(),
            _ => None,
        }
    }
}

/// A word of letters, digits and hyphens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word<'a> {
    /// Its letters.
    pub text: &'a str,
    /// Where it stands.
    pub span: Span,
}

/// Words joined by dots: `upper`, `upper.high`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Name {
    pub(super) text: String,
    /// The whole name.
    pub span: Span,
}

impl Name {
    /// The only word, if there is but one.
    #[must_use]
    pub fn as_word(&self) -> Option<Word<'_>> {
        let one = !self.text.contains('.');
        one.then_some(Word { text: &self.text, span: self.span })
    }

    /// Its words: at least one.
    pub fn words(&self) -> impl Iterator<Item = Word<'_>> {
        let mut start = self.span.start;
        self.text.split('.').map(move |text| {
            let at = start as usize;
            let span = Span::new(self.span.file, at, at + text.len());
            // Behind its dot the next begins.
            start = span.end + 1;
            Word { text, span }
        })
    }

    /// True for this one word.
    pub fn is(&self, word: &str) -> bool {
        self.text == word
    }

    /// The words joined by dots.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }
}

/// An expression.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expr {
    /// What it is.
    pub kind: ExprKind,
    /// Where it stands, parentheses included.
    pub span: Span,
}

/// The kinds of expression.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ExprKind {
    /// `3/4`, `18 mm`, `35%`.
    Number(Number),
    /// `upper.high`, `miter`.
    Name(Name),
    /// `-x`.
    Negative(Box<Expr>),
    /// `a + b`.
    Binary(BinaryOp, Box<Expr>, Box<Expr>),
}

/// A number as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Number {
    /// Its exact value in its unit; feet-and-inches are folded into inches.
    pub value: Exact,
    /// The unit written behind it.
    pub unit: Option<NumberUnit>,
    /// True for one with a stroke: `3/4`, `4/4`, `1-1/2`.
    pub is_fraction: bool,
    /// True for a fraction of more than one without its whole: `31/2`, `5/4`.
    pub is_top_heavy: bool,
}

/// A unit that may stand behind a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NumberUnit {
    /// A unit of length.
    Length(Unit),
    /// `%`
    Percent,
    /// `deg`
    Degree,
    /// `F`
    Fahrenheit,
    /// `C`
    Celsius,
    /// `min`
    Minute,
    /// `h`
    Hour,
    /// `lb`
    Pound,
    /// `kg`
    Kilogram,
}

impl NumberUnit {
    /// How it is written behind its number.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Length(unit) => unit.name(),
            Self::Percent => "%",
            Self::Degree => "deg",
            Self::Fahrenheit => "F",
            Self::Celsius => "C",
            Self::Minute => "min",
            Self::Hour => "h",
            Self::Pound => "lb",
            Self::Kilogram => "kg",
        }
    }
}

/// The four operations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BinaryOp {
    /// `+`
    Add,
    /// `-` with spaces round it.
    Subtract,
    /// `*`
    Multiply,
    /// `/`
    Divide,
}

/// The statements among the items of a block or file.
pub fn statements(items: &[Item]) -> impl Iterator<Item = &Statement> {
    items.iter().filter_map(|item| match item {
        Item::Statement(statement) => Some(statement),
        Item::Comment(_) | Item::Blank => None,
    })
}
